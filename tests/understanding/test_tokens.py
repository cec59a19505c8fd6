"""Words as heard → tokens."""

from __future__ import annotations

import pytest

from saywright.understanding.tokens import spoken_form, tokenise


@pytest.mark.parametrize(
    ("text", "tokens"),
    [
        ("Float height", ["float", "height"]),
        ("it's worn", ["it", "is", "worn"]),
        ("doesn't need", ["does", "not", "need"]),
        ("can't, won't", ["can", "not", ",", "will", "not"]),
        ("gonna order two", ["going", "to", "order", "two"]),
        ("18.42mm.", ["18.42", "mm", ","]),
        ("1/4 turn", ["1/4", "turn"]),
        ("#60 drill", ["#60", "drill"]),
        ("O-ring out", ["o", "ring", "out"]),
        ("is it worn?", ["is", "it", "worn", "?"]),
        ("2nd one", ["2nd", "one"]),
        ("“pitted”", ["pitted"]),
        ("it’s off", ["it", "is", "off"]),
        ("5%", ["5", "percent"]),
    ],
)
def test_words_become_tokens(text, tokens):
    """Lower case, contractions in full, figures whole, punctuation a break."""
    assert tokens == [token.text for token in tokenise(text.split())]


def test_a_token_knows_its_word():
    """Every token leads back to the word it came from."""
    assert [0, 0, 1, 1] == [token.word for token in tokenise(["it's", "worn."])]


def test_a_sheet_name_is_cut_as_speech_is():
    """A name on a sheet and the same name spoken give the same tokens."""
    assert ("o", "ring", "seat") == spoken_form("O-ring seat")
