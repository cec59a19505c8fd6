"""What is told as hands do it: "I clean the caliper and grease it" is done, "if I clean it" is not. Pure."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.tokens import BREAK

_WHO = frozenset({"i", "we"})
_BESIDE = frozenset({"just", "now", "then", "also", "carefully", "gently", "quickly"})
_BEGINS = frozenset({BREAK, "and", "so", "then", "now", "right", "okay", "but", "here", "next", "first"})
_AS_A_RULE = frozenset(
    ["always", "every", "each", "usually", "normally", "whenever", "when", "if", "before", "unless", "daily",
     "weekly", "monthly", "yearly"]
)  # fmt: skip
_HANDS = frozenset(
    ["take", "lift", "pull", "put", "push", "press", "turn", "screw", "unscrew", "slide", "tap", "draw",
     "pick", "hold", "drop", "set", "lay", "hang", "strip", "clean", "wash", "wipe", "blow", "polish", "hone",
     "file", "scrape", "scrub", "rinse", "oil", "grease", "lubricate", "spray", "brush", "soak", "dress"]
)  # fmt: skip
_LATER = frozenset({"tomorrow", "later", "tonight", "afterwards", "next", "soon", "living"})
_NOT_YET = frozenset(
    [("last", "thing"), ("on", "assembly"), ("or", "i"), ("or", "we"), ("you", "still"), ("once", "the"),
     ("once", "it"), ("once", "that"), ("once", "they"), ("once", "i"), ("once", "we"), ("at", "the", "end"),
     ("in", "a", "minute"), ("in", "a", "second"), ("in", "a", "moment"), ("in", "a", "bit"), ("in", "pairs")]
)  # fmt: skip
_WHAT_I_DO = frozenset([("what", "i", "do"), ("what", "we", "do")])
_OTHERS = frozenset({("and", "it"), ("and", "they"), ("and", "you")})  # "I press it and it sinks and …"
_CHAIN = 10  # tokens from "I take" to "and clean it"


def is_narrated(texts: Sequence[str], start: int, end: int) -> bool:
    """Whether the verb at *start* is what somebody tells of their own hands as they move."""
    if start == 0 or not (_AS_A_RULE | _LATER).isdisjoint(texts[end : end + _CHAIN]):
        return False
    if _has(texts[end : end + _CHAIN], _NOT_YET) or _has(texts[:start], _WHAT_I_DO):
        return False
    if texts[start - 1] == "and":  # "I take it out and clean it"
        first = max(0, start - _CHAIN)
        who = next((i for i in range(start - 2, first - 1, -1) if texts[i] in _WHO or texts[i] == BREAK), -1)
        if _has(texts[who + 1 : start - 1], _OTHERS):
            return False  # "I press it and it sinks and clean fluid comes out"
        return who >= 0 and texts[who] in _WHO and texts[who + 1] in _HANDS and _is_plain(texts, who)
    who = start - 1
    while who > 0 and texts[who] in _BESIDE:
        who -= 1
    return texts[who] in _WHO and _is_plain(texts, who)


def _has(texts: Sequence[str], said: frozenset[tuple[str, ...]]) -> bool:
    """Whether one of the phrases *said* stands in *texts*."""
    return any(tuple(texts[i : i + n]) in said for i in range(len(texts) - 1) for n in (2, 3))


def _is_plain(texts: Sequence[str], who: int) -> bool:
    """Whether "I" begins what is said: not "if I", "shall I", "what do I", "before I"."""
    return who == 0 or (texts[who - 1] in _BEGINS and _AS_A_RULE.isdisjoint(texts[max(0, who - 4) : who]))
