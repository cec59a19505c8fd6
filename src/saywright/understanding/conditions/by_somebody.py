"""What somebody did to a part, told as how it is: "some idiot has rounded off the screws", "put the wrong
packing in", "there should be a spring and there isn't". Pure.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import Meaning
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at
from saywright.understanding.wordforms import is_past

_WHO: Final = frozenset(
    ["somebody", "someone", "they", "he", "idiot", "muppet", "butcher", "monkey", "clown", "fool", "owner",
     "bloke", "gorilla", "cowboy", "last", "him", "previous", "before", "whoever", "animal", "lad", "bodger",
     "mechanic", "fella", "fellow", "feller", "chap", "fitter", "hero", "genius", "bodgers", "vandal"]
)  # fmt: skip
_SAYS: Final = frozenset(
    {"says", "said", "reckons", "thinks", "swears", "claims", "told", "if"} | {"say", "reckon", "think"}
)
_LOOSENED: Final = frozenset({"open", "off", "loose", "free", "out"})  # "they cracked the cover open"
_HAS: Final = frozenset({"has", "have", "had", "is", "must", "obviously", "clearly", "really", "gone", "and"})
_BEFORE_US: Final = frozenset({"before", "us", "me", "in", "here", "been", "was"})
_IT: Final = frozenset({"it", "them", "this", "that", "those"})
_OWNED: Final = frozenset({"the", "its", "their", "this", "that"})
_THE: Final = frozenset({"the", "this", "that", "these", "both", "all", "my", "our"})
_PUTS: Final = frozenset(
    ["put", "fitted", "stuck", "used", "got", "has", "have", "had", "is", "was", "been", "in", "on", "shoved"]
)  # fmt: skip
_NOT_FITTED: Final = frozenset(
    ["ordered", "order", "bought", "sent", "picked", "measured", "grabbed", "got", "i", "we", "if", "not",
     "get", "gave"]
)  # fmt: skip
_PLACED: Final = frozenset({"in", "on", "fitted", "it", "there", "here", "this", "that", "for"})
_ELSEWHERE: Final = frozenset(
    ["van", "box", "boxes", "kit", "bag", "bench", "hand", "hands", "order", "truck", "post", "packet",
     "parcel", "packaging", "shelf", "list", "invoice", "tray", "drawer", "shop", "stores", "car", "lorry",
     "envelope", "tub", "bin", "pocket", "boot"]
)  # fmt: skip
_IN: Final = frozenset({"in", "on", "into", "at", "from"})
_SCREWS: Final = frozenset({"nut", "nuts", "bolt", "bolts", "screw", "screws", "stud", "studs"})
_TIMES: Final = frozenset(
    ["time", "year", "job", "week", "month", "season", "service", "night", "summer", "winter", "truck", "car",
     "one", "engine", "bike"]
)  # fmt: skip
_ASKS: Final = frozenset({"is", "are", "was", "does", "who", "which", "why", "did"})
_ENDS: Final = frozenset({"", BREAK, "and", "but", "so", "would", "if"})
_OUGHT: Final = (
    ("should", "be"), ("ought", "to", "be"), ("is", "meant", "to", "be"), ("is", "supposed", "to", "be"),
)  # fmt: skip
_IS_NONE: Final = (
    ("there", "is", "not"),
    ("there", "are", "not"),
    ("there", "is", "none"),
    ("it", "is", "not"),
)
_PHRASE: Final = 6  # tokens of a part with its place
_FAR: Final = 8  # tokens from the part that should be there to "there isn't"


@called_by({"wrong"})
def wrong_one_fitted(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """ "They've put the wrong packing in": the packing is the wrong one."""
    texts = tuple([token.text for token in tokens])
    at = texts.index("wrong") if "wrong" in texts else len(texts)
    end = _noun_end(texts, at + 1, lexicon)
    if not end:
        return tokens
    begin = next((i + 1 for i in range(at - 1, -1, -1) if texts[i] in {BREAK, "and", "but", "so"}), 0)
    before, behind = texts[begin:at], text_at(texts, end)
    if not _ASKS.isdisjoint((texts[0], *before[:1])) or "who" in before:
        return tokens  # "is this the wrong cup"
    if _is_elsewhere(texts, end) or _is_of_then(texts):
        return tokens
    if not _NOT_FITTED.isdisjoint(before) and "got" not in before:
        return tokens
    if not ("i" not in before and (not _PUTS.isdisjoint(before) or behind in _PLACED)):
        return tokens
    while end < len(texts) and texts[end] in _PLACED:
        end += 1
    words = [replace(tokens[at], text=word) for word in ("is", "wrong", "part")]
    rest = [replace(tokens[at], text=BREAK), *tokens[end:]] if end < len(texts) else []
    border = [replace(tokens[at], text=BREAK)] if begin else []
    named = tokens[at + 1 : _noun_end(texts, at + 1, lexicon)]
    return (*tokens[:begin], *border, *named, *words, *rest)


def _is_elsewhere(texts: tuple[str, ...], at: int) -> bool:
    """ "In the van", "on my bench here", "in his hand" at *at*: not in the machine."""
    if text_at(texts, at) not in _IN:
        return False
    behind = texts[at + 1 : at + 5]
    end = next((i for i, text in enumerate(behind) if text in _ENDS), len(behind))
    return not _ELSEWHERE.isdisjoint(behind[:end])


def _is_of_then(texts: tuple[str, ...]) -> bool:
    """ "Last time", "the last truck": of another time or job."""
    pairs = pairwise(texts)
    return any(one == "last" and two in _TIMES for one, two in pairs)


@called_by(_WHO)
def done_by_somebody(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Some idiot has rounded off the screws": the screws are rounded off."""
    texts = tuple([token.text for token in tokens])
    if _is_of_then(texts) or not _SAYS.isdisjoint(texts):
        return tokens
    for at in range(1, len(texts) - 1):
        if texts[at] == "by":
            behind = _behind_agent(texts, at, lexicon)
            if behind:
                return (*tokens[:at], *tokens[behind:])
        who = _agent(texts, at) if is_past(texts[at]) else -1
        done = _done_to(texts, at, lexicon) if who >= 0 else None
        if done is None:
            continue
        state, (begin, end), rest = done
        opens = next((i + 1 for i in range(who, -1, -1) if texts[i] in {BREAK, "but", "so"}), 0)
        copula = replace(tokens[at], text="is")
        border = [replace(tokens[at], text=BREAK)] if text_at(texts, rest) == "i" else []
        told = [tokens[i] for i in state]
        return (*tokens[:opens], *tokens[begin:end], copula, *told, *border, *tokens[rest:])
    return tokens


def _agent(texts: tuple[str, ...], at: int) -> int:
    """Index of who did what stands at *at*, "somebody before us has …"; -1 where nobody is named."""
    who = at - 1
    while who >= 0 and (texts[who] in _HAS or texts[who] in _BEFORE_US):
        who -= 1
    return who if who >= 0 and texts[who] in _WHO else -1


def _done_to(
    texts: tuple[str, ...], at: int, lexicon: Lexicon
) -> tuple[list[int], tuple[int, int], int] | None:
    """The words of the state that stands at *at*, those of what it was done to, and where the rest begins."""
    found = lexicon.match(texts, at)
    if found is None or not _is_bad(found[1], lexicon) or found[1].parts:
        return None
    begin = at + found[0]
    end = _noun_end(texts, begin + 1, lexicon) if text_at(texts, begin) in _THE else 0
    if end:
        loosened = text_at(texts, end) in _LOOSENED | _SCREWS or text_at(texts, end + 1) in _LOOSENED
        return None if loosened else (list(range(at, begin)), (begin, end), end)
    if text_at(texts, begin) in _IT and texts[at] != "stuck":  # "somebody's stuck it on with glue"
        end = begin + 1
    elif text_at(texts, begin) in _OWNED and "PLACE" in lexicon.names(texts, begin + 1).tags:
        end = begin + 2
    else:
        return None
    particle = text_at(texts, end)
    whole = lexicon.table.get((texts[at], particle)) if particle else None
    if whole is not None and _is_bad(whole, lexicon):
        return [at, end], (begin, end), end + 1
    return None if particle in _LOOSENED else (list(range(at, begin)), (begin, end), end)


def _is_bad(meaning: Meaning, lexicon: Lexicon) -> bool:
    spec = lexicon.sheet.get_condition(meaning.conditions[-1]) if meaning.conditions else None
    return spec is not None and not spec.good


def _behind_agent(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> int:
    """Index behind "by the last bloke in here", where a state stands before it; else 0."""
    if not any(_is_bad(lexicon.names(texts, begin), lexicon) for begin in range(max(0, at - 3), at)):
        return 0
    end = next((i for i in range(at, len(texts)) if texts[i] in _ENDS), len(texts))
    return end if not _WHO.isdisjoint(texts[at + 1 : min(end, at + _PHRASE)]) else 0


@called_by({"should", "ought", "meant", "supposed"})
def should_be_there(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """ "There should be a spring in here and there isn't": the spring is missing."""
    texts = tuple([token.text for token in tokens])
    at = texts.index("there") if "there" in texts else len(texts)
    ought = next((one for one in _OUGHT if texts[at + 1 : at + 1 + len(one)] == one), ())
    begin = at + 1 + len(ought)
    begin += text_at(texts, begin) in {"a", "an", "the", "another", "one"}
    end = _noun_end(texts, begin, lexicon) if ought else 0
    if not end:
        return tokens
    for none in range(end, min(end + _FAR, len(texts) - 2)):
        if texts[none : none + 3] in _IS_NONE and texts[none - 1] in {"and", "but", BREAK, "here", "there"}:
            stop = none + 3 + (text_at(texts, none + 3) in {"one", "any"})
            if text_at(texts, stop) in _ENDS:
                words = [replace(tokens[none], text=word) for word in ("is", "missing")]
                return (*tokens[:at], *tokens[begin:end], *words, *tokens[stop:])
    return tokens


def _noun_end(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> int:
    """The token behind the part that is named at *at*, its place before it; 0 where none is."""
    for begin in range(at, min(at + _PHRASE, len(texts))):
        found = lexicon.match(texts, begin)
        if found is None:
            return 0
        if found[1].parts or found[1].aliases:
            return begin + found[0]
        if not found[1].positions and texts[begin] not in _THE | {
            "of",
            "them",
            "four",
            "two",
            "three",
            "six",
        }:
            return 0
    return 0
