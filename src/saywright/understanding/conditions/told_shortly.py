""" "Hole in it", "I'm happy with that", "came off like butter": states and none, in plain words. Pure."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_FAULTS: Final = frozenset({"hole", "crack", "split", "chip", "dent", "nick", "tear", "groove", "ridge"})
_HOLES: Final = frozenset({"hole", "holes"})
_ARE: Final = frozenset({"is", "are", "was", "were", "has", "have"})
_PLACED: Final = frozenset({"round", "around", "in", "at", "near", "by", "between", "on", "to", "through"})
_BEFORE_FAULT: Final = frozenset({"", BREAK, "out", "off", "and", "got"})
_LIKE: Final = frozenset(
    {("like", "butter"), ("like", "clockwork"), ("like", "a", "dream"), ("no", "bother")}
)
_MOVED: Final = frozenset(
    {"out", "off", "in", "on", "back", "home", "apart", "away", "of", "undone", "up", "down"}
)
_HAPPY: Final = frozenset({"that", "it", "them", "those"})
_SPEAKERS: Final = frozenset({("i", "am"), ("we", "are")})


def _hole_in_it(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Gauze out, hole in it": a hole in it."""
    for at in range(len(texts) - 2):
        if texts[at] in _FAULTS and texts[at + 1 : at + 3] in (["in", "it"], ["in", "that"], ["in", "this"]):
            before = text_at(texts, at - 1)
            denied = before not in _BEFORE_FAULT and bool(lexicon.names(tuple(texts), at - 1).conditions)
            if before not in _BEFORE_FAULT and not denied:
                continue
            border = (BREAK, "a") if before in {"out", "off"} else ("but", "a") if denied else ("a",)
            return (*tokens[:at], *(replace(tokens[at], text=word) for word in border), *tokens[at:])
    return tokens


def _bolt_holes(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Cleaned out the bolt holes": none in the bolts; "round the bolt holes" is a place."""
    for at in range(2, len(texts)):
        if texts[at] not in _HOLES or texts[at - 1] not in FASTENERS or text_at(texts, at + 1) in _ARE:
            continue
        if _PLACED.isdisjoint(texts[max(0, at - 4) : at - 1]):
            return (*tokens[:at], *tokens[at + 1 :])
    return tokens


def _like_butter(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Came off like butter", "slid out like a dream": how it moved."""
    for at in range(1, len(texts)):
        phrase = next((p for p in _LIKE if tuple(texts[at : at + len(p)]) == p), None)
        if phrase is not None and texts[at - 1] in _MOVED:
            moved = replace(tokens[at - 1], text="off") if texts[at - 1] == "of" else tokens[at - 1]
            return (*tokens[: at - 1], moved, *tokens[at + len(phrase) :])
    return tokens


def _happy_with(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "No scoring on it, I'm happy with that": it is good; not of a value."""
    at = texts.index("happy")
    begin = at - 1 if text_at(texts, at - 1) in {"quite", "very", "well", "perfectly"} else at
    led = tuple(texts[max(0, begin - 2) : begin]) in _SPEAKERS
    ends = at + 3 == len(texts) and texts[at + 1] == "with" and texts[at + 2] in _HAPPY
    if not (led and ends) or not CLASSES.keys().isdisjoint(texts) or begin < len(("i", "am", "so")):
        return tokens
    if not any(lexicon.names(tuple(texts), i).conditions for i in range(begin - 2)):
        return tokens
    good = [replace(tokens[at], text=word) for word in (BREAK, "it", "is", "good")]
    return (*tokens[: begin - 2], *good)


def _itself(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Butterfly itself all right": the butterfly is."""
    at = texts.index("itself")
    before = [lexicon.table.get(tuple(texts[begin:at]), NOTHING) for begin in range(max(0, at - 3), at)]
    if not any(meant.parts or meant.aliases for meant in before):
        return tokens
    so = (
        text_at(texts, at + 1) in {"is", "are", "was", "has", ""}
        or lexicon.names(tuple(texts), at + 1) == NOTHING
    )
    be = () if so else (replace(tokens[at], text="is"),)
    return (*tokens[:at], *be, *tokens[at + 1 :])


_RULES: Final[Calls[Callable[[Tokens, list[str], Lexicon], Tokens]]] = Calls(
    (_hole_in_it, _FAULTS),
    (_bolt_holes, _HOLES),
    (_like_butter, {"like", "bother"}),
    (_happy_with, {"happy"}),
    (_itself, {"itself"}),
)


@called_by(_RULES.words)
def told_shortly(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with plain words for such states, and without those that are none."""
    return _RULES.put(tokens, lambda plainer, said: plainer(said, [token.text for token in said], lexicon))
