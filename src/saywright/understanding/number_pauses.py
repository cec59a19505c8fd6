"""A number with a pause inside one utterance: "three … point one" is 3.1."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.measures import Measure, find_measures
from saywright.understanding.tokens import HESITATIONS

_PAUSES = HESITATIONS | {"dash", "well", "hmm"}
_LONGEST_PAUSE = 3  # tokens


def over_pauses(measures: Sequence[Measure], words: Sequence[str], lexicon: Lexicon) -> list[Measure]:
    """The same measures, with decimals behind a pause joined to the whole number before it."""
    out: list[Measure] = []
    for measure in measures:
        whole = _whole(out[-1], measure, words, lexicon) if out else None
        if whole is not None:
            out[-1] = whole
        else:
            out.append(measure)
    return out


def _whole(first: Measure, then: Measure, words: Sequence[str], lexicon: Lexicon) -> Measure | None:
    gap = words[first.end : then.start]
    if words[then.start] != "point" or not gap or len(gap) > _LONGEST_PAUSE or not _PAUSES.issuperset(gap):
        return None
    if first.unit_said is not None or first.second or not first.readings[0].value.isdigit():
        return None
    if _numbers_part(words, first.start, lexicon):
        return None
    said = (*words[first.start : first.end], *words[then.start : then.end])
    found = find_measures(said, lexicon.units)
    if not found or (found[0].start, found[0].end) != (0, len(said)):
        return None
    return replace(found[0], start=first.start, end=then.end)


def _numbers_part(words: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "brush two, point three": the number tells which of several."""
    name = lexicon.table.get(tuple(words[max(0, at - 1) : at]), NOTHING)
    named = map(lexicon.sheet.get, (*name.parts, *name.aliases))
    return any(part is not None and part.count > 1 for part in named)
