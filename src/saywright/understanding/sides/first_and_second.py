""" "First one's two twenty nine and that's the left", "second's two thirty": of two, which is which. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.statements import ConditionNote, Reading
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_TOLD: Final = frozenset({"that", "this", "it"})
_NOUNS: Final = frozenset({"one", "side", "end", "hand"})
_LEADS: Final = frozenset({"the", "and", "so", "right", "okay", "now", "then", BREAK})
_POINTED: Final = (
    ("first", "one"),
    ("this", "one"),
    ("that", "one"),
    ("first",),
    ("one",),
    ("second", "one"),
    ("second",),
)
_TWO: Final = 2
_FEWEST: Final = 6  # tokens that tell of one, and which it was


@called_by({"first", "second", "this", "that"})
def first_and_second(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the side that is told behind, and the one across where the first was told before."""
    texts = tuple([token.text for token in tokens])
    at = next((i for i, text in enumerate(texts) if text not in _LEADS), len(texts))
    said = next((one for one in _POINTED if texts[at : at + len(one)] == one), None)
    end = at + len(said or ())
    named = lexicon.match(texts, end) if said is not None and len(said) == 1 and end < len(texts) else None
    noun: tuple[str, ...] = ("one",)
    if named is not None and named[1].parts:  # "first drum's two twenty nine"
        noun, end = texts[end : end + named[0]], end + named[0]
    if said is None or not _told_of(texts, end):
        return tokens
    behind = _told_behind(texts, lexicon)
    if behind is not None:
        begin, place = behind
        head = [Token(word, tokens[at].word) for word in ("the", place, *noun)]
        return (*tokens[:at], *head, *tokens[end:begin])
    if said[0] == "second" and lexicon.positions.isdisjoint(texts) and _one_was_first(state, lexicon):
        return (
            *tokens[:at],
            *(Token(word, tokens[at].word) for word in ("the", "other", *noun)),
            *tokens[end:],
        )
    return tokens


def _told_of(texts: tuple[str, ...], at: int) -> bool:
    return text_at(texts, at) in CLASSES or text_at(texts, at) in {"is", "was", "reads", "measures", "has"}


def _told_behind(texts: tuple[str, ...], lexicon: Lexicon) -> tuple[int, str] | None:
    """ "… and that's the left one": where it begins, and the place; None without it."""
    end = len(texts)
    while end and texts[end - 1] in _NOUNS:
        end -= 1
    place = text_at(texts, end - 1)
    if end < _FEWEST or place not in lexicon.positions or text_at(texts, end - 2) != "the":
        return None
    begin = end - 4
    if text_at(texts, begin + 1) != "is" or texts[begin] not in _TOLD:
        return None
    begin -= text_at(texts, begin - 1) in {"and", BREAK}
    return (begin, place) if lexicon.positions.isdisjoint(texts[:begin]) else None


def _one_was_first(state: Discourse, lexicon: Lexicon) -> bool:
    """True where the last utterance told the first of two, and which it was."""
    read = [s for s in state.recent[-1] if isinstance(s, Reading | ConditionNote)] if state.recent else []
    if not read or "first" not in read[0].heard.lower() or len({s.which for s in read}) != 1:
        return False
    part = lexicon.sheet.get(read[0].component or "")
    return part is not None and part.count == len(part.positions) == _TWO and read[0].which in part.positions
