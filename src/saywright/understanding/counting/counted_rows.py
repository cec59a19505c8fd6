"""Things counted aloud: "cover bolts one two three four out", "screws out, one, two, three".

A run that goes up from one beside parts of which several are fitted tells how many they are. It is never
a torque or a size of them. Turns and clicks are counted by `saywright.understanding.counting.turns`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from saywright.understanding.bench_words import WORKSHOP
from saywright.understanding.counting.aloud import is_counted
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.numbers.words import CLASSES, DENOMINATORS, HOMOPHONES
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK, HESITATIONS

_UP = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_DIGITS = {word: at for at, word in enumerate(_UP, start=1)}
_DIGITS |= {sound: int(digit) for sound, digit in HOMOPHONES.items()}
_DIGITS |= {str(number): number for number in _DIGITS.values()}
OPEN_ROW = frozenset({"one", "won", "1"})
# What may stand between the parts and the first number.
_BETWEEN = HESITATIONS | frozenset(
    ["out", "off", "in", "on", "undone", "loose", "back", "all", "there", "here", "is", "are", "we", "go",
     "come", "coming", "then", "now", "next", "so", "okay", "right", "and", "them", "that",
     "they", "it", "i", "want", "put", "lay", "keep", "these", "those"]
)  # fmt: skip
_LAST = frozenset({"and", "the", "that", "is", "a", "last", "new", "old", "then", BREAK})
_THEN = frozenset({"and", "then", BREAK})
_BEFORE_LAST = frozenset({"and", "the", "that", "there", "is", "here", "then", BREAK})
_NUMBERS = frozenset((word,) for word in _UP)
_OPENERS = HESITATIONS | {"now", "then", "so", "right", "okay"}
_THAT_IS = ("that", "is")
_PARTICLES = frozenset({"out", "off", "in", "on", "undone"})
_CLOSES = frozenset({BREAK, "and", "of"})
_ENDS = frozenset({"out", "off", "both", "all", "back", "undone", "loose"})
_LONG = 3  # numbers of a run that cannot be one number told digit by digit
_NEAR = 5  # tokens between the parts and the first number, without a tool or a place named there
_TOOL = frozenset({"TOOL"})
_SIZED = 4  # tokens before a tool that tell its size
_AT = frozenset({"on", "in", "of", "round", "at", "from"})
_ARTICLES = frozenset({"the", "this", "that", "its", "each", "a", "an", "my"})
_SIDES = frozenset({"side", "end", "face", "back", "front", "top", "bottom", "edge", "rim"})
_PLACED = 3  # tokens of the name of a place
_NO_END = frozenset({"and", "point", "dot", "over", "thou", "oh"})


@dataclass(frozen=True, slots=True)
class Row:
    """A run of numbers that counts things."""

    start: int  # tokens [start, end)
    end: int
    count: int
    part: int  # the token that the name of its part begins at; -1 where none is named
    kept: bool  # its last number stays, as the count that it is: "screws out three"


def counted_rows(words: tuple[str, ...], lexicon: Lexicon) -> tuple[Row, ...]:
    """The rows in *words*, left to right."""
    later = "last" in words
    rows = [
        _row(words, at, lexicon)
        for at, word in enumerate(words)
        if word in OPEN_ROW or (later and word in _UP and words[at - 1 : at] not in _NUMBERS)
    ]
    return tuple([row for row in rows if row is not None])


def without_rows(words: tuple[str, ...], rows: Sequence[Row]) -> tuple[str, ...]:
    """The words without the numbers of *rows*; of one that is kept, its sum stands in their place."""
    out = list(words)
    for row in rows:
        out[row.start : row.end] = [""] * (row.end - row.start)
        if row.kept:
            out[row.start] = _UP[row.count - 1]
    return tuple(out)


def stretch(measures: Sequence[Measure], rows: Sequence[Row]) -> Sequence[Measure]:
    """The sums of *rows* cover all their numbers."""
    ends = {row.start: row.end for row in rows if row.kept}
    return [replace(m, end=ends[m.start]) if m.start in ends else m for m in measures] if ends else measures


def give_counts(tags: tuple[Tag, ...], rows: Sequence[Row]) -> tuple[Tag, ...]:
    """The same tags, the parts of *rows* with how many they are."""
    counts = {row.part: row.count for row in rows if row.part >= 0 and not row.kept} if rows else {}
    if not counts:
        return tags
    return tuple(
        replace(t, count=counts[t.start]) if t.kind == "PART" and t.start in counts and t.count is None else t
        for t in tags
    )


def _row(words: tuple[str, ...], start: int, lexicon: Lexicon) -> Row | None:
    """The row that begins at *start*, where one does."""
    end, count, said = _run(words, start)
    end, last = last_ones(words, end) if said > 1 else (end, 0)
    count, said = count + last, said + last
    if not last and words[start] not in OPEN_ROW:
        return None
    if said < 2 or (said < _LONG and count > said):
        return None
    part = _part(words, start, lexicon)
    if part is None:
        return None
    behind = words[end : end + 1]
    if part < 0:
        alone = start == 0 and not behind and said > _LONG
        opens = start == 0 or words[start - 1] in _OPENERS or words[max(0, start - 2) : start] == _THAT_IS
        return (
            Row(start, end, count, part, not alone)
            if alone or (opens and behind and behind[0] in _ENDS)
            else None
        )
    moved = words[start - 1] in _PARTICLES and (not behind or behind[0] in _CLOSES)
    return Row(start, end, count, part, moved)


def _run(words: tuple[str, ...], start: int) -> tuple[int, int, int]:
    """The token behind the run, its last number, and how many numbers it has; (0, 0, 0) for none."""
    at, count, said = start + 1, _DIGITS[words[start]], 1
    end = at
    way = _word(words, at) if _word(words, at) in _PARTICLES else ""
    while at < len(words):
        number = _DIGITS.get(words[at], 0)
        if way and words[at] == way and _goes_on(words, at + 1, count + 1, way):
            pass  # "one off two off": each as it comes
        elif number == count + 1 or (number == count + 2 and said > _LONG):
            count, said, end = number, said + 1, at + 1
        elif number == count and said > 1 and words[at] not in HOMOPHONES:
            end = at + 1  # "eight, eight out": how many they were, once more
        elif words[at] in _THEN and _then(words, at, count + 1):
            pass  # "one and then two and then three"
        elif words[at] not in HESITATIONS and not ((said >= _LONG or way) and _leads_on(words, at)):
            break
        at += 1
    behind = words[end : end + 2]
    if behind and (behind[0] in CLASSES or behind[0] in _NO_END - {"and"}):
        return 0, 0, 0
    share = (
        len(behind) > 1
        and behind[0] == "and"
        and (behind[1] in {"half", "a", "three"} or behind[1] in CLASSES)
    )
    return (0, 0, 0) if share else (end, count, said)


def last_ones(words: tuple[str, ...], at: int) -> tuple[int, int]:
    """ "… seven and the last one's out", "… six and the last two are out": where they end, and how many."""
    begin = at
    while _word(words, at) in _BEFORE_LAST:
        at += 1
    if _word(words, at) != "last" or at == begin:
        return begin, 0
    number = _DIGITS.get(_word(words, at + 1), 0)
    at += 2 if number else 1
    return at + (_word(words, at) in {"is", "are"}), number or 1


def _then(words: tuple[str, ...], at: int, number: int) -> bool:
    """True where the next *number* follows a "then" from *at* on."""
    begin = at
    while _word(words, at) in _THEN:
        at += 1
    return "then" in words[begin:at] and _DIGITS.get(_word(words, at)) == number


def _goes_on(words: tuple[str, ...], at: int, number: int, way: str) -> bool:
    """ "… two off and three off": the next *number*, and that it went the same *way*."""
    at += _word(words, at) in _CLOSES
    return _DIGITS.get(_word(words, at)) == number and _word(words, at + 1) == way


def _leads_on(words: tuple[str, ...], at: int) -> bool:
    """ "… seven and the new one, eight"."""
    return words[at] in _LAST or (words[at] == "one" and words[at - 1] in _LAST)


def _part(words: tuple[str, ...], start: int, lexicon: Lexicon) -> int | None:
    """Where the name of what is counted begins, -1 where none is named before; None where it is no count."""
    at = start - 1
    while at >= 0 and start - at <= _NEAR:
        begin, meaning = _name_to(words, at, lexicon)
        if meaning.parts or meaning.aliases:
            if _several(lexicon, (*meaning.parts, *meaning.aliases)):
                return begin
            at = _before_place(words, begin)
            if at < 0:
                return None
            start -= begin - at
            continue
        aside = _before_aside(words, at, lexicon)
        aside = _before_tool(words, begin, meaning, lexicon) if begin and aside < 0 else aside
        aside = _before_place(words, at) if aside < 0 and words[at] in _SIDES | WORKSHOP else aside
        if aside >= 0:
            start -= at - aside
            at = aside
            continue
        if words[at] not in _BETWEEN:
            return None
        at -= 1
    return -1 if at < 0 else None


def _name_to(words: tuple[str, ...], at: int, lexicon: Lexicon) -> tuple[int, Meaning]:
    """The longest name that ends with token *at*: where it begins and what it means."""
    for begin in range(max(0, at - 3), at + 1):
        found = lexicon.match(words, begin)
        if found is None or begin + found[0] != at + 1:
            continue
        if found[1].parts or found[1].aliases or found[1].tags >= _TOOL:
            return begin, found[1]
    return at, NOTHING


def _before_tool(words: tuple[str, ...], begin: int, meaning: Meaning, lexicon: Lexicon) -> int:
    """The token before "thirteen mil socket", whose tool begins at *begin*; -1 where it is none."""
    if not meaning.tags >= _TOOL:
        return -1
    size = at = begin - (words[begin - 1] in lexicon.units)
    while (
        at > 0 and begin - at <= _SIZED and (is_number_word(words, at - 1) or words[at - 1] in DENOMINATORS)
    ):
        at -= 1  # "three quarter socket", "nine sixteenths spanner"
    return at - 1 if at < size else -1


def _before_aside(words: tuple[str, ...], end: int, lexicon: Lexicon) -> int:
    """The token before "four of them", "with a short ratchet", which ends with token *end*; -1 for none."""
    if words[end - 1 : end + 1] == ("of", "them"):
        return end - 3 if end > 1 and words[end - 2] in _DIGITS else -1
    for at in range(end - 1, max(0, end - _SIZED - 1), -1):
        if words[at] == "with" and words[at + 1] in _ARTICLES:
            named = any(_name_to(words, name, lexicon)[1].parts for name in range(at + 2, end + 1))
            return -1 if named else at - 1
    return -1


def _before_place(words: tuple[str, ...], end: int) -> int:
    """The token before "on the other side", whose noun stands at *end*; -1 for no place."""
    for at in range(end - 1, max(0, end - _PLACED - 1), -1):
        if words[at] in _AT and words[at + 1] in _ARTICLES:
            return at - 1
    return -1


def _word(words: tuple[str, ...], at: int) -> str:
    return words[at] if at < len(words) else ""


def _several(lexicon: Lexicon, ids: Sequence[str]) -> bool:
    """True for parts of which several are fitted and that are not set by counting."""
    parts = [part for part in map(lexicon.sheet.get, ids) if part is not None]
    return any(len(p.whiches) > 1 for p in parts) and not any(
        is_counted(c) for p in parts for c in p.characteristic
    )
