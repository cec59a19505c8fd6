""" "Goes into the housing", "slid it onto the shaft", "pressed home": in and on, and where. Pure.

People tell of a part that goes back by where it goes. Where that is a part of the sheet or a seat of any part
(a groove, a bore, its place) it says only "in" and "on"; a place of the workshop ("into the dip") stays.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import WORKSHOP
from saywright.understanding.meanings import NOTHING
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at
from saywright.understanding.wordforms import verb_forms

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_WAYS: Final = {"into": "in", "onto": "on", "over": "on", "home": "in"}
_BASES: Final = (
    ["slide", "push", "press", "screw", "thread", "tap", "lower", "place", "fit", "pop", "wind",
     "bolt", "clip", "hook", "ease", "feed", "tuck", "seat", "guide", "slip", "lift", "drop", "work",
     "spin", "snap", "click", "lay", "stick", "pull", "roll", "assemble", "mount", "install",
     "stretch"]
)  # fmt: skip
_VERBS: Final = frozenset(
    ["put", "puts", "putting", "go", "goes", "going", "went", "gone", "set", "sets", "setting",
     "slid", "drove", "drive", "driven", "laid", "wound", "spun", "fed", "stuck", "back"]
)  # fmt: skip
_MOVING: Final = _VERBS | {form for base in _BASES for form in (base, *verb_forms(base))}
ARTICLES: Final = frozenset({"the", "its", "their", "his", "her", "each", "both", "this", "that", "a"})
SEATS: Final = frozenset(
    ["place", "places", "position", "groove", "grooves", "slot", "slots", "seat", "seats", "bore",
     "bores", "hole", "holes", "recess", "pocket", "pockets", "housing", "body", "guide", "guides",
     "socket", "sockets", "holder", "bracket", "shaft", "stem", "stud", "studs", "spindle", "post",
     "posts", "spigot", "boss", "hub", "axle", "plate", "head", "cylinder", "counterbore", "tube",
     "well", "casting", "flange", "dowels", "dowel"]
)  # fmt: skip
_IT: Final = frozenset({"it", "them", "there", "that"})
_BE: Final = frozenset({"is", "are"})
_AGAIN: Final = frozenset({"back", "now", "both", "all"})
_HANDS: Final = frozenset(
    {"finger", "fingers", "nail", "thumb", "hand", "brush", "cloth", "rag", "eye", "file"}
)
_GOES: Final = frozenset({"go", "goes", "going", "went", "gone"})
_REACH: Final = 7  # tokens from the verb to "into": its object
_NOT_YET: Final = frozenset(
    {"to", "can", "will", "would", "should", "could", "must", "let", "not", "never", "did", "do", "does"}
)
_MANY: Final = frozenset(
    {"they", "both", "all", "these", "those", "two", "three", "four", "five", "six", "eight"}
)
_WHERE: Final = frozenset({"in", "on", "back", "down", "home", *_WAYS})
_ENDS: Final = frozenset(
    ["", BREAK, "and", "now", "first", "next", "again", "then", "too", "as", "together", "finger", "hand",
     "last", "with", "dry", "square", "easily", "nicely", "loose", "one"]
)  # fmt: skip
_POINTS: Final = frozenset(
    ["it", "them", "one", "ones", "both", "they", "this", "these", "those", "all", "that"]
)
_BETWEEN: Final = frozenset(
    {"back", "right", "straight", "nicely", "all", "down", "up", "the", "way", "in", "on"}
)
_HELPING: Final = frozenset(
    ["is", "are", "has", "have", "was", "were", "been", "being", "now", "just", "then", "all", "both", "can",
     "still", "gets", "get", "back", "right", "had"]
)  # fmt: skip
_FIRM: Final = frozenset({"down", "back", "all"})  # "down into", "back into", "all the way home"


@called_by({*_WAYS, "go"})
def into_its_place(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "goes in" for "goes into the housing", and for "they go in"."""
    at = 0
    while at < len(tokens):
        texts = tuple([token.text for token in tokens])
        if texts[at] == "go" and _leads_in(texts, at, lexicon) and _of_many(texts, at, lexicon):
            tokens = (*tokens[:at], Token("goes", tokens[at].word), *tokens[at + 1 :])
        elif texts[at] in _WAYS and at > 0:
            end, kept = _place_behind(texts, at, lexicon)
            if end and _is_moved(texts, at, end, lexicon):
                way = Token(_WAYS[texts[at]], tokens[at].word)
                begin = at - (texts[at - 1] == "down")
                tokens = _put_there(tokens, begin, way, (kept, end), lexicon)
        at += 1
    return tokens


@called_by(_BE, beside={"in", "on"})
def is_in_its_place(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "The gears are in the housing", while it goes back together and they were off: they are in."""
    texts = tuple([token.text for token in tokens])
    if state.stage != "as_left" and texts[-1] not in {"now", "again"}:
        return tokens
    for at in (i for i, text in enumerate(texts) if text in _BE and i):
        way = at + 1
        while text_at(texts, way) in _AGAIN:
            way += 1
        if text_at(texts, way) not in {"in", "on"} or text_at(texts, way + 1) not in ARTICLES:
            continue
        end, kept = _place_behind(texts, way, lexicon)
        if end == kept and end and _was_off(texts, at, state, lexicon):
            return (*tokens[: way + 1], *tokens[end:])
    return tokens


def _put_there(tokens: Tokens, begin: int, way: Token, place: tuple[int, int], lexicon: Lexicon) -> Tokens:
    """ "The new rear bush in" for "the new bush into the rear body", "it in at the rear" for "it into …"."""
    kept, end = place
    told = [token for token in tokens[kept:end] if token.text in lexicon.positions]
    if not told:
        return (*tokens[:begin], way, *tokens[kept:end], *tokens[end:])
    article = next(
        (i for i in range(begin - 2, max(-1, begin - _REACH), -1) if tokens[i].text in ARTICLES), -1
    )
    if article < 0 or any(token.text == BREAK for token in tokens[article:begin]):
        where = (Token("at", told[0].word), Token("the", told[0].word), *told)
        return (*tokens[:begin], way, *where, *tokens[end:])
    first = article + 1 + (tokens[article + 1].text in {"new", "old"})
    held = {token.text for token in tokens[first:begin]}
    own = [token for token in told if token.text not in held]
    return (*tokens[:first], *own, *tokens[first:begin], way, *tokens[end:])


def _was_off(texts: tuple[str, ...], end: int, state: Discourse, lexicon: Lexicon) -> bool:
    """Whether the part named right before the token *end* was off."""
    found = lexicon.names(texts[:end], end - 1)
    return any(state.off.get(part, 0) for part in (*found.parts, *found.aliases))


def _of_many(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "The covers go on", "both go in"; not "let them go on", "go on then"."""
    if at == 0 or not _NOT_YET.isdisjoint(texts[max(0, at - 3) : at]):
        return False
    before = texts[at - 1]
    if before in _MANY:
        return True
    found = lexicon.names(tuple(texts), at - 1) if before != BREAK else None
    return found is not None and before.endswith("s") and bool(found.parts or found.aliases)


def _leads_in(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    """ "Go in first", "go back in their bores"; not "go on sale", "go in for skimming", "go down to two"."""
    way = at + 1
    while text_at(texts, way) in _FIRM and text_at(texts, way + 1) in _WHERE:
        way += 1
    if text_at(texts, way) not in _WHERE:
        return False
    behind = text_at(texts, way + 1)
    return behind in _ENDS or bool(_place_behind(texts, way, lexicon)[0])


def _is_moved(texts: Sequence[str], at: int, end: int, lexicon: Lexicon) -> bool:
    """Whether a verb that moves a part stands before the "into" at *at*; *end*: behind the place it tells."""
    if text_at(texts, end) == "at":
        return False  # "goes into the body at nineteen thou": how it fits
    for i in range(at - 1, max(-1, at - 1 - _REACH), -1):
        if texts[i] == BREAK or texts[i] in _HANDS:
            return False
        noun = i > 0 and (texts[i - 1] in ARTICLES or texts[i - 1] in lexicon.positions)
        if texts[i] not in _MOVING or noun or (texts[i] == "back" and i < at - 1):
            continue
        if texts[i] == "back":
            return _is_told_of(texts, _subject_end(texts, i), lexicon)
        if texts[at] == "home" and texts[i] in {"go", "going", "gone"}:
            return False  # "that's going home with him"
        if _names_part(texts, i + 1, at, lexicon):
            return True  # "put the gears into the housing"
        if texts[at] == "over" and texts[i] in _GOES and not _is_told_of(texts, i, lexicon):
            return False  # "went over the caliper with a brush"
        alone = not {*texts[i + 1 : at]} - _BETWEEN
        return alone and _is_told_of(texts, _subject_end(texts, i), lexicon)
    return False


def _names_part(texts: Sequence[str], begin: int, end: int, lexicon: Lexicon) -> bool:
    """Whether what stands there is a part or points at one: "it", "the other one", "the drive gear"."""
    if not _POINTS.isdisjoint(texts[begin:end]):
        return True
    named = (lexicon.names(tuple(texts[:end]), i) for i in range(begin, end))
    return any(found.parts or found.aliases for found in named)


def _subject_end(texts: Sequence[str], verb: int) -> int:
    """Index behind the subject of the verb at *verb*: "the gears have now been" put."""
    while verb > 0 and texts[verb - 1] in _HELPING:
        verb -= 1
    return verb


def _is_told_of(texts: Sequence[str], end: int, lexicon: Lexicon) -> bool:
    """Whether a part is named right before the token *end*, or pointed at."""
    return end > 0 and (texts[end - 1] in _POINTS or part_ends(texts, end, lexicon))


def part_ends(texts: Sequence[str], end: int, lexicon: Lexicon) -> bool:
    """Whether a part is named right before the token *end*."""
    found = lexicon.names(tuple(texts[:end]), end - 1) if end else NOTHING
    return bool(found.parts or found.aliases)


def _place_behind(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> tuple[int, int]:
    """Where the place behind *at* ends, and from where its words are kept; (0, 0) where none is told."""
    begin = at + 1
    if texts[at] == "home":
        return (begin, begin) if text_at(texts, begin) in {"", BREAK, "and", "in", "until", "now"} else (0, 0)
    if text_at(texts, begin) in _IT:
        return begin + 1, begin + 1
    while text_at(texts, begin) in ARTICLES or text_at(texts, begin) in lexicon.positions:
        begin += 1
    word = text_at(texts, begin)
    if word in {"", BREAK}:
        return 0, 0
    found = lexicon.match(texts, begin)
    part = found is not None and bool(found[1].parts or found[1].aliases)
    if word in WORKSHOP and not part:
        return 0, 0
    end = begin + found[0] if part and found is not None else begin + 1
    if not part and word not in SEATS:
        end += 1  # "the screw holes"
        if text_at(texts, begin + 1) not in SEATS:
            return 0, 0
    kept = at + 1 if not lexicon.positions.isdisjoint(texts[at + 1 : end]) else end  # "into the left caliper"
    return end, kept
