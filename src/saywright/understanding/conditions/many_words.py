"""States told by many words: "neither has anything the matter with it", "no clip on this", "won't crack off".

Each rule puts the plain state in the place of the words, where the sheet has that state. Pure.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.meanings import NOTHING
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at, words_of

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_HAS: Final = frozenset({"has", "have", "had"})
_THINGS: Final = (("anything",), ("a", "thing"), ("much",), ("a", "lot"))
_WRONG: Final = (("the", "matter"), ("wrong",), ("amiss",), ("up",))
_IT: Final = frozenset({"it", "them", "that", "those", "either", "these", "this"})
_ENDS: Final = frozenset({"", BREAK, "and", "but", "so", "though"})
_CAN: Final = frozenset({"can", "could"})
_FAULTS: Final = frozenset({"fault", "faults", "anything", "nothing", "problem", "problems"})
_LIKE_SILK: Final = (
    ("with", "two", "fingers"), ("with", "one", "finger"), ("with", "a", "finger"), ("like", "a", "dream"),
    ("sweet", "as", "a", "nut"), ("sweet", "as", "you", "like"), ("easy", "as", "you", "like"), ("sweetly",),
    ("as", "it", "should"), ("as", "they", "should"), ("freely",), ("beautifully",), ("like", "clockwork"),
)  # fmt: skip
_WAYS: Final = (
    ("in", "and", "out"), ("round",), ("up", "and", "down"), ("back", "and", "forth"), ("to", "and", "fro"),
    ("over",), ("through",),
)  # fmt: skip
_GOES: Final = words_of("slides slide goes go comes moves move turns turn spins runs rolls works")
_ROUND: Final = frozenset({"round", "down", "along", "across", "on", "around", "all", "up"})
_BANDS: Final = frozenset({"band", "ring", "line", "streak", "patch", "strip", "circle", "stripe", "row"})
_RAISED: Final = (("standing", "up"), ("standing", "proud"), ("sticking", "up"), ("stood", "up"), ("raised",))
_EDGES: Final = frozenset({"lip", "ridge", "step", "burr", "edge"})
_EVER: Final = (
    ("for", "love", "nor", "money"), ("for", "love", "or", "money"), ("for", "anything"), ("for", "nobody"),
    ("for", "the", "life", "of", "me"), ("whatever", "i", "do"), ("no", "matter", "what"),
)  # fmt: skip
_LOOSENS: Final = frozenset({"come", "undo", "unscrew", "turn", "move", "shift", "budge", "crack", "start"})
_OFF: Final = frozenset({"off", "out", "undone", "loose", "open", "apart", "free"})
_WILL: Final = frozenset({"will", "would"})
_FITTED: Final = frozenset({"fitted", "there", "present"})
_HERE: Final = frozenset({"this", "it", "here", "there", "these", "that"})
_SLIGHTLY: Final = (
    ("slightly",), ("a", "bit"), ("a", "little"), ("a", "touch"), ("lightly",), ("just",),
)  # fmt: skip
_LITTLE: Final = frozenset({"bit", "touch", "hint", "trace", "spot"})
_COLOURS: Final = words_of("brown green white black dark light orange grey gray red yellow old fine")
_DRIPS: Final = frozenset({"drip", "drips", "dribble", "plop", "plip"})
_LEAKS: Final = frozenset({"leaks", "leaking", "weeps", "weeping", "dripping", "leak"})
_TOO: Final = frozenset({"too", "also"})
_THEM: Final = (
    ("both", "of", "them"), ("the", "pair", "of", "them"), ("all", "of", "them"),
    ("the", "lot", "of", "them"), ("the", "both", "of", "them"),
)  # fmt: skip


def _words(token: Token, *words: str) -> Tokens:
    return tuple([replace(token, text=word) for word in words])


def _at(texts: list[str], at: int, forms: tuple[tuple[str, ...], ...]) -> int:
    """The length of the one of *forms* that stands at *at*; 0 where none does."""
    return next((len(one) for one in forms if at >= 0 and tuple(texts[at : at + len(one)]) == one), 0)


def _has_state(lexicon: Lexicon, *name: str) -> bool:
    return bool(lexicon.table.get(name, NOTHING).conditions)


def _names(lexicon: Lexicon, texts: list[str], at: int) -> int:
    """The length of the part that is named at *at*; 0 where none is."""
    begin = at
    while text_at(texts, at) in lexicon.positions:
        at += 1  # "its front cover"
    found = lexicon.match(tuple(texts), at) if at < len(texts) and texts[at] not in {"", BREAK} else None
    named = found is not None and bool(found[1].parts or found[1].aliases)
    return at - begin + found[0] if found is not None and named else 0


def _nothing_wrong(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Neither of the boots has anything the matter with it": both of them are good."""
    for at in range(len(texts) - 2):
        if texts[at] not in _HAS:
            continue
        denied = texts[at + 1] == "not"
        got = at + 1 + denied
        got += text_at(texts, got) == "got"
        thing = _at(texts, got, _THINGS)
        wrong = _at(texts, got + thing, _WRONG) if thing else 0
        end = got + thing + wrong
        if not wrong or not _has_state(lexicon, "good"):
            continue
        end += 2 if texts[end : end + 1] == ["with"] and text_at(texts, end + 1) in _IT else 0
        none = next((i for i in range(at) if texts[i] in {"neither", "none"}), -1)
        if text_at(texts, end) not in _ENDS or denied == (none >= 0):
            continue
        if denied:
            return (*tokens[:at], *_words(tokens[at], "is", "good"), *tokens[end:])
        all_of = _words(tokens[none], "both" if texts[none] == "neither" else "all")
        return (
            *tokens[:none],
            *all_of,
            *tokens[none + 1 : at],
            *_words(tokens[at], "are", "good"),
            *tokens[end:],
        )
    return tokens


def _no_fault_with(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Ratchet wheel I can't find any fault with": it is good."""
    for at in range(1, len(texts) - 4):
        if texts[at] != "i" or texts[at + 1] not in _CAN or texts[at + 2 : at + 4] != ["not", "find"]:
            continue
        end = next((i for i in range(at + 4, len(texts)) if texts[i] in {"with", "in"}), 0)
        named = any(begin + _names(lexicon, texts, begin) == at for begin in range(max(0, at - 4), at))
        if end and named and text_at(texts, end + 1) in _ENDS and not _FAULTS.isdisjoint(texts[at:end]):
            return (*tokens[:at], *_words(tokens[at], "is", "good"), *tokens[end + 1 :])
    return tokens


def _like_silk(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Slides in and out with two fingers", "goes round sweet as a nut": it moves freely."""
    for at in range(1, len(texts) - 2):
        way = _at(texts, at + 1, _WAYS) if texts[at] in _GOES else 0
        how = _at(texts, at + 1 + way, _LIKE_SILK) if way else 0
        if how and _has_state(lexicon, "moves", "freely"):
            return (*tokens[:at], *_words(tokens[at], "moves", "freely"), *tokens[at + 1 + way + how :])
    return tokens


def _in_a_band(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Freckles of rust in a band round the piston", "a lip standing up at the edge": on it."""
    for at in range(1, len(texts) - 2):
        band = texts[at] == "in" and texts[at + 1] == "a" and texts[at + 2] in _BANDS
        if band and text_at(texts, at + 3) in _ROUND:
            return (*tokens[:at], *tokens[at + 3 :])
        raised = _at(texts, at, _RAISED) if texts[at - 1] in _EDGES else 0
        if raised:
            return (*tokens[:at], *tokens[at + raised :])
    return tokens


def _will_not(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Won't crack off", "won't come out for love nor money": it will not budge."""
    for at in range(1, len(texts) - 2):
        if texts[at] not in _WILL or texts[at + 1] != "not" or texts[at + 2] not in _LOOSENS:
            continue
        end = at + 3 + (text_at(texts, at + 3) in _OFF)
        ever = _at(texts, end, _EVER)
        cracks = texts[at + 2] == "crack" and end > at + 3
        if (ever or cracks) and _has_state(lexicon, "will", "not", "budge"):
            return (*tokens[:at], *_words(tokens[at], "will", "not", "budge"), *tokens[end + ever :])
    return tokens


def _none_on_it(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "No anti rattle spring on this", "no spring fitted": it is missing."""
    for at in range(len(texts) - 1):
        if texts[at] != "no" or text_at(texts, at - 1) not in {"", BREAK, "and", "but", "is", "are"}:
            continue
        end = at + 1 + _names(lexicon, texts, at + 1)
        here = text_at(texts, end) in {"on", "in"} and text_at(texts, end + 1) in _HERE
        if lexicon.table.get(tuple(texts[at : end + 2]), NOTHING).conditions:
            continue  # "no spring in it" is how a spring is
        last = end + 2 if here else end + 1
        last += here and text_at(texts, last) in {"one", "side"}
        if end == at + 1 or not (here or text_at(texts, end) in _FITTED):
            continue
        if text_at(texts, last) == "yet":
            not_yet = _words(tokens[at], "is", "not", "fitted")
            return (*tokens[:at], *tokens[at + 1 : end], *not_yet, *tokens[last:])
        if text_at(texts, last) in _ENDS and _has_state(lexicon, "missing"):
            there = at - 2 if texts[max(0, at - 2) : at] in (["there", "is"], ["there", "are"]) else at
            return (
                *tokens[:there],
                *tokens[at + 1 : end],
                *_words(tokens[at], "is", "missing"),
                *tokens[last:],
            )
    return tokens


def _only_slightly(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Rear one is grooved as well but only slightly": slightly grooved."""
    for at in range(2, len(texts) - 1):
        if texts[at] != "only" or texts[at - 1] not in {"but", BREAK, "though"}:
            continue
        end = at + 1 + _at(texts, at + 1, _SLIGHTLY)
        last = at - 1
        last -= text_at(texts, last - 1) in _TOO
        last -= 2 if texts[max(0, last - 2) : last] == ["as", "well"] else 0
        state = [i for i in range(max(0, last - 3), last) if lexicon.names(tuple(texts[:last]), i).conditions]
        if end > at + 1 and state and text_at(texts, end) in _ENDS:
            begin = state[0]
            slightly = _words(tokens[at], "slightly")
            return (*tokens[:begin], *slightly, *tokens[begin : at - 1], *tokens[end:])
    return tokens


def _bit_of_brown(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Just a bit of brown staining": a bit of staining."""
    for at in range(2, len(texts) - 1):
        led = texts[at - 2] in _LITTLE and texts[at - 1] == "of" and texts[at] in _COLOURS
        state = led and not lexicon.names(tuple(texts), at).conditions
        if state and lexicon.names(tuple(texts), at + 1).conditions:
            return (*tokens[:at], *tokens[at + 1 :])
    return tokens


def _drip_drip(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Look, drip drip drip, the gland still leaks": how it leaks."""
    at = next((i for i in range(len(texts) - 1) if texts[i] in _DRIPS and texts[i + 1] == texts[i]), -1)
    end = at
    while 0 <= end < len(texts) and texts[end] == texts[at]:
        end += 1
    if at < 0 or _LEAKS.isdisjoint(texts[:at] + texts[end:]):
        return tokens
    return (*tokens[:at], *tokens[end + (text_at(texts, end) == BREAK) :])


def _both_behind(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Chipped at the corner too, both of them": both of them are."""
    at = next((i for i in range(len(texts)) if _at(texts, i, _THEM) == len(texts) - i), 0)
    opens = at > 1 and texts[at - 1] == BREAK and BREAK not in texts[: at - 1]
    if not opens or not lexicon.names(tuple(texts), 0).conditions:
        return tokens
    if any(_names(lexicon, texts, i) for i in range(at)):
        return tokens
    return (*tokens[at:], *_words(tokens[at], "are"), *tokens[: at - 1])


_RULES: Final[Calls[Callable[[Tokens, list[str], Lexicon], Tokens]]] = Calls(
    (_nothing_wrong, _HAS),
    (_no_fault_with, _FAULTS),
    (_like_silk, _GOES),
    (_in_a_band, _BANDS | _EDGES),
    (_will_not, _LOOSENS),
    (_none_on_it, {"no"}),
    (_only_slightly, {"only"}),
    (_bit_of_brown, _LITTLE),
    (_drip_drip, _DRIPS),
    (_both_behind, {"them"}),
)


@called_by(_RULES.words)
def in_many_words(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with plain states for such words."""
    return _RULES.put(tokens, lambda plainer, said: plainer(said, [token.text for token in said], lexicon))
