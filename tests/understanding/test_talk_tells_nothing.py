"""Words of talk alone ("hang on", "let me see") are no part of any sheet that ships: no hinge pin or seat."""

from __future__ import annotations

import pytest

from saywright.hearing.words import typed
from saywright.sheets.load import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.parse import understand


@pytest.mark.parametrize("sheet", ["disc-brake-caliper", "hand-pump", "outboard-float-carburetor"])
def test_fillers_alone_tell_nothing(sheet: str) -> None:
    lexicon = build_lexicon(load_sheet(sheet))
    talk = [
        " ".join(words)
        for words, meant in lexicon.table.items()
        if "FILLER" in meant.tags and not (meant.conditions or meant.acts or meant.parts or meant.aliases)
    ]
    assert len(talk) > 100
    told = {line: {s.kind for s in understand(typed(line), Discourse(), lexicon)[1]} for line in talk}
    assert {line: kinds for line, kinds in told.items() if kinds - {"remark"}} == {}
