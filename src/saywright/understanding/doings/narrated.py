"""What is told as hands do it: "I clean the caliper and grease it" is done, "if I clean it" is not. Pure."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.tokens import BREAK

_WHO = frozenset({"i", "we"})
_BESIDE = frozenset({"just", "now", "then", "also", "carefully", "gently", "quickly"})
_BEGINS = frozenset({BREAK, "and", "so", "then", "now", "right", "okay", "but", "here", "next", "first"})
_AS_A_RULE = frozenset(
    ["always", "every", "each", "usually", "normally", "whenever", "when", "if", "before", "unless"]
)
_HANDS = frozenset(
    ["take", "lift", "pull", "put", "push", "press", "turn", "screw", "unscrew", "slide", "tap", "draw",
     "pick", "hold", "drop", "set", "lay", "hang", "strip", "clean", "wash", "wipe", "blow", "polish", "hone",
     "file", "scrape", "scrub", "rinse", "oil", "grease", "lubricate", "spray", "brush", "soak", "dress"]
)  # fmt: skip
_LATER = frozenset({"tomorrow", "later", "tonight", "afterwards", "next", "soon", "living"})
_CHAIN = 10  # tokens from "I take" to "and clean it"


def is_narrated(texts: Sequence[str], start: int, end: int) -> bool:
    """Whether the verb at *start* is what somebody tells of their own hands as they move."""
    if start == 0 or not (_AS_A_RULE | _LATER).isdisjoint(texts[end : end + _CHAIN]):
        return False
    if texts[start - 1] == "and":  # "I take it out and clean it"
        first = max(0, start - _CHAIN)
        who = next((i for i in range(start - 2, first - 1, -1) if texts[i] in _WHO or texts[i] == BREAK), -1)
        return who >= 0 and texts[who] in _WHO and texts[who + 1] in _HANDS and _is_plain(texts, who)
    who = start - 1
    while who > 0 and texts[who] in _BESIDE:
        who -= 1
    return texts[who] in _WHO and _is_plain(texts, who)


def _is_plain(texts: Sequence[str], who: int) -> bool:
    """Whether "I" begins what is said: not "if I", "shall I", "what do I", "before I"."""
    return who == 0 or (texts[who - 1] in _BEGINS and _AS_A_RULE.isdisjoint(texts[max(0, who - 4) : who]))
