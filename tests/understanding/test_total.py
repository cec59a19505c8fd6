"""Whatever is said: statements or remarks, no exception, and the same again the same."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saywright.hearing.words import Hypothesis, Utterance, Word, typed
from saywright.sheets import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.grammar_text import talk_phrases
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.parse import understand
from saywright.understanding.sounds.participles import pasts

LEXICON = build_lexicon(load_sheet("outboard-float-carburetor"))
NUMBERS = (
    "zero one two three eleven twenty hundred thousand point half quarter oh double a , ? 18.42 1/4 thou"
)
BENCH = sorted({word for name in LEXICON.table for word in name} | set(NUMBERS.split()))

bench_words = st.lists(st.sampled_from(BENCH), min_size=0, max_size=14).map(" ".join)
bench_phrases = st.lists(
    st.sampled_from(
        sorted({p for ps in talk_phrases().values() for p in ps} | {" ".join(n) for n in LEXICON.table})
    ),
    max_size=6,
).map(" ".join)


@given(st.lists(bench_words | bench_phrases | st.text(max_size=40), min_size=1, max_size=5))
@settings(max_examples=300, deadline=None)
def test_any_words_give_statements(lines):
    """Any talk, utterance after utterance, is understood without an exception, and twice the same."""
    first, second = Discourse(), Discourse()
    for line in lines:
        first, statements = understand(typed(line), first, LEXICON)
        second, again = understand(typed(line), second, LEXICON)
        assert statements == again
    assert first == second


@given(bench_words | bench_phrases)
@settings(max_examples=200, deadline=None)
def test_ids_go_up_and_are_never_used_twice(line):
    """Statements are numbered in the order understood."""
    state, first = understand(typed(line), Discourse(), LEXICON)
    _, then = understand(typed(line), state, LEXICON)
    ids = [s.id for s in (*first, *then)]
    assert len(ids) == len(set(ids))


@given(st.lists(st.tuples(bench_words | st.text(max_size=30), st.floats(0, 1)), min_size=1, max_size=5))
@settings(max_examples=150, deadline=None)
def test_any_hypotheses_give_statements(hypotheses):
    """Any number of hypotheses with any probabilities gives one set of statements."""
    said = tuple(
        Hypothesis(words=tuple(Word(text=w) for w in text.split()), probability=p) for text, p in hypotheses
    )
    utterance = Utterance(hypotheses=said, start_s=0.0, end_s=1.0)
    assert understand(utterance, Discourse(), LEXICON) == understand(utterance, Discourse(), LEXICON)


@pytest.mark.parametrize(
    "text", ["", " ", "?", ",", "…", "١٨", "十八", "𝟙𝟠", "\u0000", "a" * 5000, "one " * 400]
)
def test_odd_text(text):
    """Nothing said, other scripts, one endless word and one endless number fail nothing."""
    _, statements = understand(typed(text), Discourse(), LEXICON)
    assert all(s.kind in {"remark", "unclear"} for s in statements)


@given(bench_words | bench_phrases)
@settings(max_examples=200, deadline=None)
def test_every_statement_names_its_words(line):
    """What was heard is words of the utterance, and no statement but a silent correction is without."""
    words = set(line.split())
    _, statements = understand(typed(line), Discourse(), LEXICON)
    assert all(set(s.heard.split()) <= words | {"…"} for s in statements)


def test_a_pause_has_no_past():
    """Found by the fuzz: where a sentence ends there is no word that an ending could be put to."""
    assert [] == list(pasts(("",), LEXICON))


def test_a_denied_value_behind_a_count_and_an_order():
    """Found by the fuzz: the denied value is a copy of what was told, and must not be looked up in it."""
    lexicon, state = build_lexicon(load_sheet("disc-brake-caliper")), Discourse()
    for line in (
        "adjuster, wetness half, scrapped one, one and a half, two and a quarter, home",
        "straighten not one two a",
    ):
        state, statements = understand(typed(line), state, lexicon)
        assert statements
