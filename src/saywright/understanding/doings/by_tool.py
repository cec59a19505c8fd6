"""Doings told by the tool: "ran a wire brush over it", "quick rub with emery", "been through the wire wheel".

What a tool or a stuff is for tells what was done with it: a hone hones, emery polishes, paste laps. Pure.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import AWAY
from saywright.understanding.doings.roundabout import ended
from saywright.understanding.doings.tool_forms import ALONG, FORMS, LIGHT, LITTLE, Used, as_noun
from saywright.understanding.meanings import NOTHING
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

# By the tool: what was done, is to be done, wants doing.
_CLEAN: Final = ("cleaned", "clean", "cleaning")
_POLISH: Final = ("polished", "polish", "polishing")
_HONE: Final = ("honed", "hone", "honing")
_DRESS: Final = ("deburred", "deburr", "deburring")
_LAP: Final = ("lapped", "lap", "lapping")
_FLUSH: Final = ("flushed", "flush", "flushing")
_BLOW: Final = ("blew out", "blow out", "blowing out")
_OIL: Final = ("lubricated", "lubricate", "lubricating")
_TOOLS: Final[dict[tuple[str, ...], tuple[str, str, str]]] = {
    ("wire", "brush"): _CLEAN, ("wire", "wheel"): _CLEAN, ("wire", "wool"): _CLEAN, ("rag",): _CLEAN,
    ("steel", "wool"): _CLEAN, ("scotchbrite",): _CLEAN, ("scotch", "brite"): _CLEAN, ("toothbrush",): _CLEAN,
    ("scotch", "bright"): _CLEAN, ("tooth", "brush"): _CLEAN, ("cotton", "bud"): _CLEAN,
    ("cotton", "buds"): _CLEAN, ("pipe", "cleaner"): _CLEAN, ("brass", "brush"): _CLEAN, ("cloth",): _CLEAN,
    ("brake", "cleaner"): _CLEAN, ("contact", "cleaner"): _CLEAN, ("degreaser",): _CLEAN,
    ("points", "file"): _CLEAN, ("scouring", "pad"): _CLEAN, ("stiff", "brush"): _CLEAN,
    ("carb", "cleaner"): _FLUSH, ("emery", "cloth"): _POLISH, ("emery", "paper"): _POLISH,
    ("emery", "tape"): _POLISH, ("emery",): _POLISH, ("wet", "and", "dry"): _POLISH,
    ("sandpaper",): _POLISH, ("sand", "paper"): _POLISH, ("crocus", "paper"): _POLISH,
    ("metal", "polish"): _POLISH, ("polishing", "compound"): _POLISH, ("polishing", "mop"): _POLISH,
    ("buffing", "wheel"): _POLISH, ("hone",): _HONE, ("file",): _DRESS, ("needle", "file"): _DRESS,
    ("oilstone",): _DRESS, ("oil", "stone"): _DRESS, ("stone",): _DRESS, ("grinding", "paste"): _LAP,
    ("lapping", "paste"): _LAP, ("valve", "paste"): _LAP, ("paste",): _LAP, ("grease",): _OIL,
    ("oil",): _OIL, ("lube",): _OIL, ("air", "line"): _BLOW, ("airline",): _BLOW, ("air", "gun"): _BLOW,
    ("air", "hose"): _BLOW, ("compressed", "air"): _BLOW, ("air",): _BLOW,
}  # fmt: skip
_FIRST: Final = frozenset(words[0] for words in _TOOLS)
_LENGTHS: Final = (3, 2, 1)  # of their names, the longest first
_BY_DROPS: Final = frozenset({("oil",), ("grease",), ("lube",), ("air",)})  # else it is filled in, or found
_SOME: Final = LITTLE | frozenset(
    ["a", "the", "my", "of", "fine", "piece", "old", "quick", "good", "strip", "light", "coarse", "clean",
     "soft", "small", "new", "fresh", "lot", "an", "more", "red", "rubber", "copper", "silicone"]
)  # fmt: skip
_GOING_OVER: Final = frozenset({"going", "rub", "tickle", "freshen"})
_GIVEN: Final = frozenset({"gave", "given", "give", "giving"})
_HOW: Final = frozenset({"a", "another", "good", "quick", "bit", "of", "proper", "thorough", "little"})
_NOT: Final = frozenset(
    ["not", "never", "no", "if", "he", "she", "they", "somebody", "someone", "should", "could", "might",
     "whoever", "who", "when", "before", "without", "tried", "?", "like", "customer", "owner", "lad",
     "man", "bloke", "chap", "fella", "guy", "previous", "mechanic", "apprentice", "accidentally"]
)  # fmt: skip
# Behind it: done by mistake, or by somebody else, some time ago.
_NOT_BEHIND: Final = frozenset(
    [
        "mistake",
        "accident",
        "accidentally",
        "someone",
        "somebody",
        "him",
        "them",
        "already",
        "before",
        "previously",
    ]
)
_WEARS: Final = frozenset({"rub", "tickle"})  # "it's had a rub" may be worn


@called_by(_FIRST)
def by_tool(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with the plain word for what is done with the tool that is named."""
    texts = tuple([token.text for token in tokens])
    for at, text in enumerate(texts):
        used = _used(texts, at, lexicon) if text in _FIRST else None
        for form in FORMS if used is not None else ():
            plain = form(tokens, used, lexicon) if used is not None else tokens
            if plain is not tokens:
                return plain
    return tokens


@called_by(_GOING_OVER)
def by_going_over(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """ "Gave the left plate a good going over", "it's had a freshen up": cleaned, whatever with.

    A rub may as well wear: it is given, and nothing told behind it.
    """
    texts = tuple([token.text for token in tokens])
    at = next(i for i, text in enumerate(texts) if text in _GOING_OVER)
    end = at + 1 + (text_at(texts, at + 1) in {"over", "down"})
    begin = at
    while begin and texts[begin - 1] in _HOW:
        begin -= 1
    article = text_at(texts, begin) in {"a", "another"} and (texts[at] != "going" or end > at + 1)
    worn = texts[at] in _WEARS and (end < len(texts) or _GIVEN.isdisjoint(texts[:begin]))
    done = article and ended(texts, end) and _NOT.isdisjoint(texts[:begin]) and not worn
    if not done or not _NOT_BEHIND.isdisjoint(_rest(texts, end)):
        return tokens
    return as_noun(tokens, Used(texts, 0, begin, at, end, _CLEAN, little=False, oil=False), begin)


def _used(texts: Sequence[str], at: int, lexicon: Lexicon) -> Used | None:
    """The tool that is named at *at*, with the words around it; None where it does nothing here."""
    size = next((n for n in _LENGTHS if tuple(texts[at : at + n]) in _TOOLS and at + n <= len(texts)), 0)
    tool = tuple(texts[at : at + size])
    if not size or _is_named(texts, at, at + size, lexicon):
        return None
    verbs = _TOOLS[tool]
    if not lexicon.table.get(tuple(verbs[0].split()), NOTHING).acts:
        return None
    start = at
    while start and texts[start - 1] in _SOME and texts[start - 1] not in LIGHT - LITTLE:
        start -= 1
    clause = next((i + 1 for i in range(start - 1, -1, -1) if texts[i] in {BREAK, "but"}), 0)
    end = at + size
    little = not LITTLE.isdisjoint(texts[start:at])
    away = text_at(texts, end) in ALONG and not AWAY.isdisjoint(texts[end : end + 3])
    rest = _rest(texts, end)
    tried = tool[-1] == "file" and rest[:1] == ("across",) and "is" in rest  # how hard it is
    if tried or not _NOT_BEHIND.isdisjoint(rest):
        return None
    if away or not _NOT.isdisjoint(texts[clause:start]) or (tool in _BY_DROPS and not little):
        return None  # "the wire brush on the bench", "somebody's had a file to it", "put the oil in"
    return Used(tuple(texts), clause, start, at, end, verbs, little, verbs is _OIL)


def _rest(texts: Sequence[str], at: int) -> tuple[str, ...]:
    """What is said from *at* to the end of the clause."""
    return tuple(texts[at : next((i for i in range(at, len(texts)) if texts[i] == BREAK), len(texts))])


def _is_named(texts: Sequence[str], begin: int, end: int, lexicon: Lexicon) -> bool:
    """True where the tool is a part of the sheet, or a word of its name: "oil seal", "grease nipple"."""
    found = [(at, lexicon.match(tuple(texts), at)) for at in range(max(0, begin - 2), end) if texts[at]]
    return any(one is not None and bool(one[1].parts) and at + one[0] > begin for at, one in found)
