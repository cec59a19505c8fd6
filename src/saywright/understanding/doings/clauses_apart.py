""" "I can't save that you'll need a new one", "old disc off the new one on": where one clause ends. Pure."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import TO_TWELVE
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_NEEDS: Final = frozenset({"need", "needs"})
_WHO: Final = frozenset({"you", "we", "it", "they", "he", "i"})
_OBJECTS: Final = frozenset({"that", "it", "this", "them", "those"})
_WAYS: Final = frozenset({"up", "out", "off", "down"})
_THINKS: Final = frozenset(
    ["think", "say", "said", "reckon", "believe", "mean", "know", "see", "suppose", "imagine", "sure"]
)
_OFF: Final = frozenset({"off", "out"})
_ON: Final = frozenset({"on", "in"})
_IN_IT_GOES: Final = ("in", "it", "goes")
_MOVES: Final = (("in",), ("on",), ("out",), ("off",))
_ONES: Final = (("it",), ("that",), ("they",), ("those",))
_GOES: Final = (("goes",), ("go",), ("comes",), ("come",))
_AFTER: Final = (("after", "it"), ("after", "that"), ("after", "them"), ("behind", "it"), ("next",))
_AGES: Final = frozenset({"new", "old"})
_A_NEW_ONE: Final = frozenset({"one", "ones"})
_NEAR: Final = 4  # tokens from "not" to what cannot be done
_SPEAKERS: Final = frozenset({"i", "we", "they", "he", "she", "you", "it"})
_MODALS: Final = frozenset({"can", "will", "do", "does", "did", "shall", "would", "could"})
_ENDS_IN: Final = frozenset({"sides", "ends", "corners"})


@called_by(_NEEDS | {"new", "goes", "go", "comes", "come"})
def clauses_apart(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with a break where one clause ends and the next begins."""
    return _next_behind(_old_off_new_on(_needed_instead(_so_many_next(tokens)), lexicon), lexicon)


def _so_many_next(tokens: Tokens) -> Tokens:
    """ "Spindle in new one two new screws": how many there are of what follows; it is no twelve."""
    texts = [token.text for token in tokens]
    at = next((i for i in range(2, len(texts) - 1) if _counts_next(texts, i)), 0)
    return (*tokens[:at], Token(BREAK, tokens[at].word), *tokens[at:]) if at else tokens


def _counts_next(texts: list[str], at: int) -> bool:
    aged = texts[at - 2] in _AGES and texts[at - 1] in _A_NEW_ONE
    return aged and texts[at] in TO_TWELVE and texts[at + 1] in _AGES


def _needed_instead(tokens: Tokens) -> Tokens:
    """*tokens* with a break between what cannot be done with a part and what it needs."""
    texts = [token.text for token in tokens]
    verb = next((i for i, text in enumerate(texts) if text in _NEEDS), 0)
    who = verb - 1 - (text_at(texts, verb - 1) == "will")
    if who < _NEAR - 1 or texts[who] not in _WHO:
        return tokens
    behind = texts[who - 1]
    object_at = who - 1 - (behind in _WAYS)
    if texts[object_at] not in _OBJECTS or object_at < 1:
        return tokens
    cannot = texts[max(0, object_at - _NEAR) : object_at - 1]
    if ("can", "not") not in pairwise(cannot) or texts[object_at - 1] in _THINKS:
        return tokens
    return (*tokens[:who], Token(BREAK, tokens[who].word), *tokens[who:])


def _old_off_new_on(tokens: Tokens, lexicon: Lexicon) -> Tokens:
    """ "Old disc off the new one on": what is off is the old one, and not off the new one."""
    texts = [token.text for token in tokens]
    at = next((i for i in range(3, len(texts)) if texts[i - 1 : i + 1] == ["the", "new"]), 0)
    if not at or texts[at - 2] not in _OFF or "old" not in texts[max(0, at - 6) : at - 2]:
        return tokens
    name = lexicon.match(tuple(texts), at + 1) if text_at(texts, at + 1) not in {"", BREAK} else None
    end = at + 2 if text_at(texts, at + 1) in {"one", "ones"} else at + 1 + (name[0] if name else 0)
    end += text_at(texts, end) in {"is", "are"}
    if end == at + 1 or text_at(texts, end) not in _ON:
        return tokens
    return (*tokens[: at - 1], Token(BREAK, tokens[at].word), *tokens[at - 1 :])


def _next_behind(tokens: Tokens, lexicon: Lexicon) -> Tokens:
    """ "In it goes, idler after it": the next one moved as well, and not the first into it."""
    texts = tuple([token.text for token in tokens])
    at = len(_IN_IT_GOES)
    moved = texts[:1] in _MOVES and texts[1:2] in _ONES and texts[2:3] in _GOES
    named = lexicon.match(texts, at) if moved and at < len(texts) and texts[at] != BREAK else None
    if named is None or not named[1].parts or texts[at + named[0] :] not in _AFTER:
        return tokens
    return (*tokens[:at], Token("and", tokens[at].word), *tokens[at:])


@called_by({"not"})
def denied_apart(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """ "Can we save it, no we cannot we want a new one": what is not so ends before what is wanted."""
    texts = [token.text for token in tokens]
    for at in range(2, len(texts) - 2):
        if texts[at] != "not" or texts[at - 1] not in _MODALS or texts[at - 2] not in _SPEAKERS:
            continue
        if texts[at + 1] in _SPEAKERS and texts[at + 2] not in _MODALS:
            return (*tokens[: at + 1], Token(BREAK, tokens[at + 1].word), *tokens[at + 1 :])
    return tokens


@called_by(_ENDS_IN)
def both_sides_apart(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Bled both sides fluid's clear now": it was done to both sides, and not to the fluid of both."""
    texts = tuple([token.text for token in tokens])
    at = next((i for i, text in enumerate(texts) if text in _ENDS_IN), 0)
    if at < 2 or texts[at - 1] != "both" or text_at(texts, at + 1) in {"", BREAK}:
        return tokens
    named = lexicon.match(texts, at + 1)
    if named is None or not named[1].parts or text_at(texts, at + 1 + named[0]) not in {"is", "are"}:
        return tokens
    return (*tokens[: at + 1], Token(BREAK, tokens[at + 1].word), *tokens[at + 1 :])


@called_by({"well"})
def as_well_apart(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Body's cleaned as well blew that out": what else was done begins behind "as well"."""
    texts = tuple([token.text for token in tokens])
    for at in range(2, len(texts) - 1):
        if texts[at - 1 : at + 1] != ("as", "well") or texts[at + 1] == BREAK:
            continue
        verb = lexicon.match(texts, at + 1)
        if verb is not None and verb[1].acts and verb[1].acts[0].form == "past":
            return (*tokens[: at + 1], Token(BREAK, tokens[at].word), *tokens[at + 1 :])
    return tokens


@called_by({"new"})
def new_one_apart(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """ "New one for that whip the old one out": a new one is needed, and the old one comes out."""
    texts = tuple([token.text for token in tokens])
    for at in range(len(texts) - 5):
        end = at + 4
        if texts[at : at + 3] != ("new", "one", "for") or texts[at + 3] not in _OBJECTS | {"there", "here"}:
            continue
        if "old" in texts[end + 1 : end + 4]:
            return (*tokens[:end], Token(BREAK, tokens[end].word), *tokens[end:])
    return tokens
