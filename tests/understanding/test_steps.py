"""Tests of rewordings that are called by their words."""

import pytest

from saywright.sheets.load import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.steps import Calls, Steps, called_by, called_by_places
from saywright.understanding.tokens import Token, tokenise

LEXICON = build_lexicon(load_sheet("outboard-float-carburetor"))
PLACED = build_lexicon(load_sheet("disc-brake-caliper"))


def put(word, plainer):
    """A rewording that puts *plainer* for *word*, called by it; it notes what it was called for."""
    asked = []

    @called_by({word})
    def reword(tokens, _state, _lexicon):
        asked.append(" ".join(token.text for token in tokens))
        return tuple(Token(plainer, t.word) if t.text == word else t for t in tokens)

    return reword, asked


def run(steps, said):
    """The words that *steps* make of *said*."""
    return " ".join(t.text for t in Steps(*steps).run(tokenise(said.split()), Discourse(), LEXICON))


def test_a_line_calls_the_steps_of_its_words_alone():
    """A step whose words are not said is not even asked."""
    (bowl, of_bowl), (cup, of_cup) = put("bowl", "pan"), put("cup", "mug")
    assert "pan off" == run((bowl, cup), "bowl off")
    assert ["bowl off"] == of_bowl
    assert [] == of_cup


@pytest.mark.parametrize(("steps", "read"), [(("a", "b"), "c"), (("b", "a"), "b")])
def test_words_that_a_step_puts_in_call_the_steps_behind_it(steps, read):
    """And none of those before it, which have had their turn."""
    plainer = {"a": "b", "b": "c"}
    assert read == run([put(word, plainer[word])[0] for word in steps], "a")


def test_words_that_a_step_takes_out_call_nothing():
    """A step behind is called by the words as they are when its turn comes."""
    (first, _), (second, asked) = put("bowl", "pan"), put("bowl", "cup")
    assert "pan" == run((first, second), "bowl")
    assert [] == asked


def test_a_step_of_the_sheet_is_called_by_its_words_for_places():
    """In its place, between the steps before and behind it; by none where no such word is said."""
    place = min(PLACED.positions)

    @called_by_places
    def closed(tokens, _state, _lexicon):
        return (*tokens, Token("b", tokens[-1].word))

    steps = Steps(put("a", place)[0], closed)
    assert [place, "b"] == [t.text for t in steps.run(tokenise(["a"]), Discourse(), PLACED)]
    assert ["c"] == [t.text for t in steps.run(tokenise(["c"]), Discourse(), PLACED)]


@pytest.mark.parametrize(("said", "read"), [("a b", "c b"), ("a", "a"), ("b", "b")])
def test_a_step_may_want_a_word_beside_those_that_call_it(said, read):
    """One of each is said, or it is not asked."""

    @called_by({"a"}, beside={"b"})
    def reword(tokens, _state, _lexicon):
        return tuple(Token("c", t.word) if t.text in {"a"} else t for t in tokens)

    assert read == run([reword], said)


def test_rules_are_asked_in_their_order_by_the_words_that_call_them():
    """A table of rules gives those of the words said, and those of every line."""
    rules = Calls(("late", {"half", "past"}), ("always", None), ("of", {"of"}))
    assert ["always"] == rules.by(["forty", "two"])
    assert ["late", "always", "of"] == rules.by(["of", "half", "past"])
