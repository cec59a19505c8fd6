""" "Rotor went back with its arrow to me", "the other two go back", "it's four screws": plainly. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.doings.roundabout import NUMBERS
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_GOES: Final = frozenset({"went", "goes", "go"})
_HOW: Final = frozenset({("with", "its"), ("with", "the"), ("with", "their"), ("as", "it"), ("as", "they")})
_WENT: Final = _GOES | {"gone"}
_POINTS: Final = frozenset({"it", "that", "they", "those", "one", "ones", "both", "other", "rest", "lot"})
_MANY: Final = frozenset({"they", "those", "ones", "both"})
_THEY: Final = frozenset(
    {("they", "came", "from"), ("they", "were"), ("they", "was"), ("they", "belong"), ("they", "go")}
)
_BACK_IN: Final = frozenset(
    ["", BREAK, "and", "with", "it", "again", "too", "now", "so", "then", "because", "same", "that", "he",
     "she", "they", "as", "but"]
)  # fmt: skip
_RETURNED: Final = frozenset(
    ["wrong", "sent", "shop", "supplier", "refund", "swap", "exchange", "slowly", "slow", "far", "itself"]
)
_NAME_REACH: Final = 3  # words of a name


@called_by({"back", "and"})
def back_with(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "went back in" before how it went, and "its" for the "it's" before what holds it."""
    texts = tuple([token.text for token in tokens])
    if "back" in texts:
        if state.stage == "as_left":
            tokens = _goes_back(tokens, texts, lexicon)
            texts = tuple([token.text for token in tokens])
        at = texts.index("back")
        if (
            at
            and texts[at - 1] in _GOES
            and texts[at + 1 : at + 3] in _HOW
            and _is_named(texts, at - 1, lexicon)
        ):
            return (*tokens[: at + 1], Token("in", tokens[at].word), *tokens[at + 1 :])
    for at in range(1, len(texts) - 3):
        if texts[at : at + 3] == ("and", "it", "is") and texts[at + 3] in NUMBERS | FASTENERS:
            end = at + 3 + (texts[at + 3] in NUMBERS)
            found = lexicon.match(texts, end) if end < len(texts) and texts[end] else None
            held = found is not None and texts[end + found[0] - 1] in FASTENERS and found[1].many
            if held and _is_named(texts, at, lexicon, back=1):
                return (*tokens[: at + 1], Token("its", tokens[at + 1].word), *tokens[at + 3 :])
    return tokens


def _goes_back(tokens: Tokens, texts: tuple[str, ...], lexicon: Lexicon) -> Tokens:
    """ "The other one goes back again", "it went back with its pin": in; not "go back to the left"."""
    if not _RETURNED.isdisjoint(texts):
        return tokens  # "that goes back, it's the wrong one": to who sold it
    for at in range(2, len(texts)):
        if texts[at] != "back" or texts[at - 1] not in _WENT:
            continue
        begin = at - 1 - (texts[at - 1] == "gone")
        said = texts[begin - 1]
        if not (said in _POINTS | NUMBERS or _is_named(texts, begin, lexicon)):
            continue
        behind, word = text_at(texts, at + 1), tokens[at].word
        many = said in _MANY | NUMBERS - {"one"}
        verb = (Token("are" if many else "is", word),) if said in _POINTS | NUMBERS else tokens[begin:at]
        gone = (*tokens[:begin], *verb, tokens[at], Token("in", word))
        if behind == "where" and any(texts[at + 2 :] == they for they in _THEY):
            return gone
        if behind in _BACK_IN and texts[at + 1 : at + 3] != ("and", "forth"):
            return (*gone, *tokens[at + 1 + (behind == "again") :])
    return tokens


def _is_named(texts: tuple[str, ...], end: int, lexicon: Lexicon, back: int = 0) -> bool:
    """True where the name of a part ends before *end*, or *back* tokens before it: "head on and …"."""
    for stop in range(end - back, end + 1):
        for begin in range(max(0, stop - _NAME_REACH), stop):
            found = lexicon.match(texts[:stop], begin) if texts[begin] else None
            if found is not None and begin + found[0] == stop and (found[1].parts or found[1].aliases):
                return True
    return False
