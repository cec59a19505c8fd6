""" "Lifted it clear of the shaft", "levered from its bore", "pulled up off the studs": off and out. Pure.

As a part that goes back is told by where it goes, one that comes off is told by what it leaves. Where that is
a part of the sheet or a seat of any part (a groove, a bore) it says only "off" and "out".
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import FLUIDS
from saywright.understanding.doings.into_its_place import ARTICLES, SEATS, part_ends
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at
from saywright.understanding.wordforms import verb_forms

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

# Verbs that take a part off with nothing said but what it leaves, or how clear it is of it.
_TAKING: Final = (
    ["take", "lift", "pull", "prise", "pry", "lever", "slide", "draw", "pop", "unscrew", "unbolt", "unclip",
     "unhook", "hook", "remove", "withdraw", "extract", "detach", "disconnect", "dig", "fish", "pick",
     "wriggle", "wiggle", "ease", "slip"]
)  # fmt: skip
_HITTING: Final = (
    ["knock", "tap", "drift", "drive", "press", "push", "wind", "screw", "twist", "undo", "work"]
)  # fmt: skip
_TOOK: Final = (
    ["took", "taken", "slid", "drew", "drawn", "withdrew", "withdrawn", "dug", "unclipped", "unclipping"]
)  # fmt: skip
_UNDID: Final = ["undid", "undone", "drove", "driven", "wound"]
_KNOCKS: Final = ["knock", "tap", "drift"]
_FORMS: Final = frozenset([*_TOOK, *(f for base in _TAKING for f in (base, *verb_forms(base)))])
_MOVING: Final = _FORMS | {*_UNDID, *(f for base in _HITTING for f in (base, *verb_forms(base)))}
_BODILY: Final = _FORMS | {f for base in _KNOCKS for f in (base, *verb_forms(base))}  # "away"
_WAYS: Final = frozenset({"off", "out"})
_ADVERBS: Final = frozenset({"just", "then", "also", "finally", "really", "even", "already", "now"})
_EARLIER: Final = frozenset(
    ["last", "before", "ago", "twice", "previous", "once", "never", "not", "if", "when", "whenever", "every",
     "always", "until", "because", "said", "years", "thought", "wish", "what", "why", "where", "which"]
)  # fmt: skip
_GROOVES: Final = frozenset({"groove", "grooves"})
_OF_ITSELF: Final = frozenset({"slide", "slides", "slid", "sliding", "slip", "slips", "slipping"})
_CLEAR: Final = frozenset({"clear", "free"})
_IT: Final = frozenset({"it", "them", "both", "all", "one", "that", "these", "those"})
_ENDS: Final = frozenset(
    ["", BREAK, "and", "now", "then", "first", "again", "too", "with", "by", "in", "using", "as", "so",
     "one", "but"]
)  # fmt: skip
_REACH: Final = 7  # tokens from the verb to "from"
_OTHERS: Final = frozenset({"old", "other", "spare", "new", "donor", "another"})
_NOT_SO: Final = frozenset({"not", "never", "reading", "fluid", "oil", "dirt"})

_BE: Final = frozenset(
    ["is", "are", "was", "were", "has", "have", "been", "just", "now", "being", "got", "gets", "get", "then",
     "finally", "already", "both", "all", "really"]
)  # fmt: skip
_SUBJECTS: Final = frozenset({"it", "they", "one", "this", "that", "these", "those", "both", "them", "all"})


@called_by({"from", "up", "clear", "free", "away", "clean", "gets", "had", "groove", "grooves"})
def out_of_its_place(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "out" for "from the housing", and "off" for "up off", "clear", "away"."""
    at = 1
    while at < len(tokens):
        texts = tuple([token.text for token in tokens])
        word = texts[at]
        if word in {"up", "clean"} and text_at(texts, at + 1) in _WAYS and _verb(texts, at, lexicon, _MOVING):
            tokens = (*tokens[:at], *tokens[at + 1 :])
        elif word == "from" and _verb(texts, at, lexicon, _MOVING):
            end = _place_end(texts, at + 1, lexicon)
            if end:
                where = lexicon.positions.isdisjoint(texts[at + 1 : end])
                words = (Token("out", tokens[at].word), *(() if where else (Token("of", tokens[at].word),)))
                tokens = (*tokens[:at], *words, *tokens[end if where else at + 1 :])
        elif word == "gets" and texts[at - 1] != BREAK and text_at(texts, at + 1) in _MOVING:
            tokens = (*tokens[:at], Token("is", tokens[at].word), *tokens[at + 1 :])
        elif word == "had" and _had_to(texts, at):
            tokens = (*tokens[:at], *tokens[at + 2 :])
        elif word in _GROOVES:
            tokens = _leaves_groove(tokens, texts, at, lexicon)
        elif word in _CLEAR or word == "away":
            tokens = _clear(tokens, texts, at, lexicon)
        at += 1
    return tokens


def _clear(tokens: Tokens, texts: tuple[str, ...], at: int, lexicon: Lexicon) -> Tokens:
    """ "I lift the drum clear of the shoes", "pulled it free", "knocked the nut away": off."""
    if not _verb(texts, at, lexicon, _BODILY if texts[at] == "away" else _FORMS):
        return tokens
    end = at + 1
    if text_at(texts, end) in {"of", "from"}:
        end = _place_end(texts, end + 1, lexicon)
    if not end or text_at(texts, end) not in _ENDS:
        return tokens
    return (*tokens[:at], Token("off", tokens[at].word), *tokens[end:])


def _had_to(texts: Sequence[str], at: int) -> bool:
    """ "I had to prise it out", "then I finally had to unscrew the jet": it was done; not "last time"."""
    who = at - 1
    while who > 0 and texts[who] in _ADVERBS:
        who -= 1
    told = texts[who] in {"i", "we"} and text_at(texts, at + 1) == "to" and text_at(texts, at + 2) in _MOVING
    return told and _EARLIER.isdisjoint(texts)


def _leaves_groove(tokens: Tokens, texts: Sequence[str], at: int, lexicon: Lexicon) -> Tokens:
    """ "Hooked the seal out of its groove": out; no groove was found in it."""
    begin = at
    while begin and (texts[begin - 1] in ARTICLES or texts[begin - 1] == "of"):
        begin -= 1
    left = 1 < begin < at and texts[begin - 1] in _WAYS and _verb(texts, begin - 1, lexicon, _MOVING)
    return (*tokens[:begin], *tokens[at + 1 :]) if left else tokens


def _verb(texts: Sequence[str], at: int, lexicon: Lexicon, verbs: frozenset[str]) -> bool:
    """Whether one of *verbs* stands before *at*, and between them or before it what it moves."""
    free = texts[at] in _CLEAR
    for i in range(at - 1, max(-1, at - 1 - _REACH), -1):
        if texts[i] == BREAK or texts[i] in _NOT_SO:
            return False
        if texts[i] not in verbs or (i and texts[i - 1] in ARTICLES):
            continue
        if i == at - 1 or texts[i + 1] in {"straight", "right", "easily"}:
            moves = free and texts[i] in _OF_ITSELF  # "the pin slides free": how it moves
            return not moves and _is_passive_of(texts, i, lexicon)
        return text_at(texts, at - 1) in _IT or _moved_ends(texts, at, lexicon)
    return False


def _is_passive_of(texts: Sequence[str], verb: int, lexicon: Lexicon) -> bool:
    """ "The drum is pulled …", "it lifts …": what moves is named right before the verb."""
    at = verb
    while at and texts[at - 1] in _BE:
        at -= 1
    return at > 0 and (texts[at - 1] in _SUBJECTS or _moved_ends(texts, at, lexicon))


def _moved_ends(texts: Sequence[str], end: int, lexicon: Lexicon) -> bool:
    """Whether a part, and no fluid, is named right before the token *end*."""
    return end > 0 and texts[end - 1] not in FLUIDS and part_ends(texts, end, lexicon)


def _place_end(texts: tuple[str, ...], begin: int, lexicon: Lexicon) -> int:
    """Where the place behind "from" ends; 0 where it is no part and no seat of one."""
    if text_at(texts, begin) in {"it", "them", "there"}:
        return begin + 1 if text_at(texts, begin + 1) in _ENDS else 0
    if text_at(texts, begin) not in ARTICLES and text_at(texts, begin) not in lexicon.positions:
        return 0
    while text_at(texts, begin) in ARTICLES or text_at(texts, begin) in lexicon.positions:
        begin += 1
    word = text_at(texts, begin)
    if word in {"", BREAK} or word in _OTHERS:
        return 0
    found = lexicon.match(texts, begin)
    if found is not None and (found[1].parts or found[1].aliases):
        end = begin + found[0]
    else:
        end = begin + 1 if word in SEATS else begin + 2 if text_at(texts, begin + 1) in SEATS else 0
    return end if end and text_at(texts, end) in _ENDS else 0
