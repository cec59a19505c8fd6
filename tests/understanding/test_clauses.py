"""What is said of what, within one utterance."""

from __future__ import annotations

import pytest

from saywright.understanding.clauses import read_clauses
from saywright.understanding.phrases import phrases
from saywright.understanding.tagging import tag
from saywright.understanding.tokens import tokenise


def told(lexicon, words):
    """Kind of each fact with the parts it is about."""
    tokens = tokenise(words.split())
    found = read_clauses(phrases(tag(tokens, lexicon)), tuple(t.text for t in tokens), lexicon.sheet)
    return [(f.kind, [c for s in f.subjects for c in s.components]) for f in found.facts]


@pytest.mark.parametrize(
    ("words", "facts"),
    [
        ("bowl off", [("off", ["bowl"])]),
        ("i pulled the bowl and the main jet", [("off", ["bowl", "main_jet"])]),
        ("needle and float are worn", [("finding", ["needle", "float"])]),
        ("main jet one twenty eight needle worn", [("value", ["main_jet"]), ("finding", ["needle"])]),
        ("needle worn at the seat", [("finding", ["needle"])]),
        ("it is worn at the seat", [("finding", [])]),
        ("put the kettle on", []),
        ("they fitted a new float", []),
        ("no screws", []),
    ],
)
def test_facts_find_their_parts(lexicon, words, facts):
    """Subjects before, behind and in a list; places, other things and other people are none."""
    assert facts == told(lexicon, words)
