"""Tests of rewordings that are called by their words."""

import pytest

from saywright.sheets.load import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.steps import Calls, Steps, called_always, called_by
from saywright.understanding.tokens import Token, tokenise

LEXICON = build_lexicon(load_sheet("outboard-float-carburetor"))


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


def test_a_step_of_every_line_stands_in_its_place():
    """One that a sheet's words call runs always, between those before and behind it."""

    @called_always
    def closed(tokens, _state, _lexicon):
        return (*tokens, Token("b", tokens[-1].word))

    assert "b b" == run((put("a", "b")[0], closed), "a")
    assert "x c" == run((closed, put("b", "c")[0]), "x")


def test_rules_are_asked_in_their_order_by_the_words_that_call_them():
    """A table of rules gives those of the words said, and those of every line."""
    rules = Calls(("late", {"half", "past"}), ("always", None), ("of", {"of"}))
    assert ["always"] == rules.by(["forty", "two"])
    assert ["late", "always", "of"] == rules.by(["of", "half", "past"])
