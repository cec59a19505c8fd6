"""Doings told by the tool: "ran a wire brush over it", "quick rub with emery", "been through the wire wheel".

What a tool or a stuff is for tells what was done with it: a hone hones, emery polishes, paste laps. Pure.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import PLACES_ON_IT
from saywright.understanding.doings.roundabout import POINTS, ended, put_words
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES
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
    ("oil",): _OIL, ("lube",): _OIL,
}  # fmt: skip
_FIRST: Final = frozenset(words[0] for words in _TOOLS)
_LONGEST: Final = 3
_SOME: Final = frozenset(
    ["a", "the", "my", "some", "bit", "of", "little", "fine", "piece", "old", "quick", "touch", "dab", "drop",
     "squirt", "spot", "good", "plenty", "strip", "lick", "light", "coarse", "clean", "soft", "small", "new",
     "fresh", "smear", "drink", "splash", "wipe", "film", "dot", "lot", "an", "more", "red", "rubber",
     "copper", "silicone", "blast"]
)  # fmt: skip
_LITTLE: Final = frozenset(
    ["bit", "little", "touch", "dab", "drop", "squirt", "spot", "lick", "smear", "drink", "splash", "wipe",
     "film", "dot", "some", "plenty", "blast"]
)  # fmt: skip
_ALONG: Final = frozenset({"over", "through", "along", "round", "around", "across", "down", "up", "on", "to"})
_RAN: Final = {"ran": 0, "run": 1, "put": 0, "took": 0, "passed": 0, "used": 0, "had": 0, "stuck": 0, "got": 0}
_WENT: Final = frozenset({"been", "went", "gone"})
_RUBBED: Final = frozenset({"rubbed", "sprayed", "hit", "tickled", "attacked", "doused", "brushed", "wiped"})
_LIGHT: Final = frozenset(
    ["rub", "flick", "lick", "touch", "wipe", "scrub", "brush", "buff", "polish", "clean", "tickle", "kiss",
     "stroke", "strokes", "pass", "passes", "go", "blast", "minutes", "minute", "seconds", "scrape", "twirl",
     "dab", "spray", "squirt", "dress", "lap", "once", "going"]
)  # fmt: skip
_BEHIND_LIGHT: Final = frozenset({"over", "down", "round", "up", "off", "out", "through"})
_HOW: Final = frozenset(
    ["a", "an", "quick", "good", "bit", "of", "little", "light", "gentle", "couple", "few", "another", "proper",
     "nice", "just", "some", "the", "more", "thorough", "bloody", "five", "ten", "two", "three", "half"]
)  # fmt: skip
_WANTS: Final = frozenset({"needs", "need", "wants", "want"})
_AHEAD: Final = frozenset(["will", "would", "need", "needs", "want", "wants", "must", "should", "let", "going"])
_CLAUSES: Final = frozenset({BREAK, "and", "then", "so", "but", "just"})
_NOT: Final = frozenset(
    ["not", "never", "no", "if", "he", "she", "they", "somebody", "someone", "should", "could", "might",
     "whoever", "who", "when", "before", "without", "tried", "?", "like", "customer", "owner", "lad"]
)  # fmt: skip
_OBJECTS: Final = POINTS | {"the", "both", "all", "each", "every", "its", "everything", "their"}
_GAVE: Final = {"gave": 0, "given": 0, "giving": 1, "give": 1}
_GAVE_REACH: Final = 6  # tokens of "gave the left back plate a"


@called_by(_FIRST)
def by_tool(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with the plain word for what is done with the tool that is named."""
    texts = [token.text for token in tokens]
    for at, text in enumerate(texts):
        if text not in _FIRST:
            continue
        said = next((n for n in range(_LONGEST, 0, -1) if tuple(texts[at : at + n]) in _TOOLS), 0)
        tool = tuple(texts[at : at + said])
        if not said or _is_named(texts, at, at + said, lexicon) or not _knows(lexicon, _TOOLS[tool]):
            continue
        plain = _told(tokens, texts, (at, at + said), _TOOLS[tool], lexicon)
        if plain is not tokens:
            return plain
    return tokens


def _is_named(texts: Sequence[str], begin: int, end: int, lexicon: Lexicon) -> bool:
    """True where the tool is a part of the sheet, or a word of its name: "oil seal", "grease nipple"."""
    if any(lexicon.names(tuple(texts), at).parts for at in range(max(0, begin - 2), end)):
        found = [(at, lexicon.match(tuple(texts), at)) for at in range(max(0, begin - 2), end)]
        return any(one is not None and one[1].parts and at + one[0] > begin for at, one in found)
    return False


def _knows(lexicon: Lexicon, verbs: tuple[str, str, str]) -> bool:
    return bool(lexicon.table.get((verbs[0],), NOTHING).acts)


def _told(
    tokens: Tokens, texts: list[str], tool: tuple[int, int], verbs: tuple[str, str, str], lexicon: Lexicon
) -> Tokens:
    """*tokens* by the first way of telling it that fits, the same where none does."""
    start = tool[0]
    while start and texts[start - 1] in _SOME and texts[start - 1] not in _LIGHT - _LITTLE:
        start -= 1
    clause = next((i + 1 for i in range(start - 1, -1, -1) if texts[i] in {BREAK, "but"}), 0)
    if not _NOT.isdisjoint(texts[clause:start]):
        return tokens
    oil = verbs is _OIL
    little = not _LITTLE.isdisjoint(texts[start : tool[0]])
    if oil and not little:
        return tokens
    before = text_at(texts, start - 1)
    if before == "with" and not oil:
        return _with_it(tokens, texts, (clause, start - 1, tool[1]), verbs, lexicon)
    if before in {"through", "on"} and verbs in (_CLEAN, _POLISH) and texts[tool[1] - 1] in {"wheel", "mop"}:
        return _through(tokens, texts, (clause, start - 1, tool[1]), verbs)
    if before in _RAN and text_at(texts, tool[1]) in _ALONG:
        return _ran(tokens, texts, (start - 1, tool[1]), verbs, lexicon)
    gave = _gave(texts, clause, start)
    if gave >= 0:
        return _given(tokens, texts, (gave, start, tool[1]), verbs)
    if before in _WANTS and not oil:
        return put_words(tokens, start, tool[1], verbs[2]) if ended(texts, tool[1]) else tokens
    if before == "had" and ended(texts, tool[1]) and start - 1 > clause:
        return put_words(tokens, start - 1, tool[1], "been", verbs[0])  # "it has had a drop of oil"
    opens = start == clause or before in _CLAUSES
    if opens and not oil and little and text_at(texts, tool[1]) in _ALONG:
        return _done_to(tokens, texts, (start, tool[1] + 1), verbs[0], lexicon)
    return tokens


def _done_to(
    tokens: Tokens, texts: list[str], span: tuple[int, int], verb: str, lexicon: Lexicon
) -> Tokens:
    """*tokens* with *verb* in the place of *span*, and what it was done to behind it: else "it"."""
    begin, end = span
    what = text_at(texts, end)
    if what == "the" and text_at(texts, end + 1) in PLACES_ON_IT and ended(texts, end + 2):
        return put_words(tokens, begin, end + 2, verb, "it")
    known = what in _OBJECTS or bool(lexicon.names(tuple(texts), end).parts)
    if known:
        return put_words(tokens, begin, end, verb)
    return put_words(tokens, begin, end, verb, "it") if ended(texts, end) else tokens


def _ran(
    tokens: Tokens, texts: list[str], span: tuple[int, int], verbs: tuple[str, str, str], lexicon: Lexicon
) -> Tokens:
    """ "Ran a wire brush over it", "I'll run the hone through both"."""
    verb, end = span
    ahead = not _AHEAD.isdisjoint(texts[max(0, verb - 3) : verb])
    form = verbs[1] if ahead or _RAN[texts[verb]] else verbs[0]
    return _done_to(tokens, texts, (verb, end + 1), form, lexicon)


def _through(tokens: Tokens, texts: list[str], span: tuple[int, int, int], verbs: tuple[str, str, str]) -> Tokens:
    """ "It's been through the wire wheel", "five minutes on the wire wheel"."""
    clause, at, end = span
    if text_at(texts, at - 1) in _WENT and at - 1 > clause:
        perfect = text_at(texts, at - 2) in {"has", "have", "is", "are"}
        return put_words(tokens, at - 1, end, *(("been",) if perfect else ("got",)), verbs[0])
    timed = text_at(texts, at - 1) in {"minutes", "minute"}
    begin = at - 1
    while timed and begin > clause and texts[begin - 1] in _HOW | set(CLASSES):
        begin -= 1
    if timed and begin == clause and ended(texts, end):
        return put_words(tokens, begin, end, verbs[0], "it")
    return tokens


def _with_it(
    tokens: Tokens, texts: list[str], span: tuple[int, int, int], verbs: tuple[str, str, str], lexicon: Lexicon
) -> Tokens:
    """ "Rubbed it with emery", "went over it with a stone", "quick rub with a bit of emery"."""
    clause, at, end = span
    verb = next((i for i in range(at - 1, max(clause - 1, at - 6), -1) if texts[i] in _RUBBED | _WENT), -1)
    if verb >= 0:
        begin = verb + 1
        if texts[verb] in _WENT:
            if text_at(texts, begin) not in _ALONG:
                return tokens
            begin += 1
        if text_at(texts, begin) not in _OBJECTS and not lexicon.names(tuple(texts), begin).parts:
            return tokens
        first = verb - (text_at(texts, verb - 1) in {"has", "have"})
        return (*put_words(tokens, first, begin, verbs[0])[: first + 1 + at - begin], *tokens[end:])
    noun = at - 1 - (text_at(texts, at - 1) in _BEHIND_LIGHT)
    if text_at(texts, noun) not in _LIGHT:
        return tokens
    begin = noun
    while begin > clause and texts[begin - 1] in _HOW | set(CLASSES):
        begin -= 1
    gave = _gave(texts, clause, begin)
    if gave >= 0:
        return _given(tokens, texts, (gave, begin, end), verbs)
    before = text_at(texts, begin - 1)
    if before in _WANTS | {"do"} and begin > clause:
        return put_words(tokens, begin, end, verbs[2]) if before in _WANTS else tokens
    if before == "had" and begin - 1 > clause:
        return put_words(tokens, begin - 1, end, "been", verbs[0])
    if begin == clause or before in _CLAUSES:
        return put_words(tokens, begin, end, verbs[0], "it")
    return tokens


def _gave(texts: Sequence[str], clause: int, start: int) -> int:
    """The token of "gave" before "it a", which ends at *start*; -1 where there is none."""
    reach = range(start - 2, max(clause - 1, start - _GAVE_REACH - 1), -1)
    return next((i for i in reach if texts[i] in _GAVE), -1)


def _given(
    tokens: Tokens, texts: list[str], span: tuple[int, int, int], verbs: tuple[str, str, str]
) -> Tokens:
    """ "Gave both seats a rub with emery": polished both seats; "give it a drop of oil": oil it."""
    gave, start, end = span
    if text_at(texts, gave + 1) in {"me", "us", "him"}:
        return tokens
    verb = verbs[_GAVE[texts[gave]]]
    head = put_words(tokens, gave, gave + 1, verb)
    return (*head[:start], *tokens[end:])
