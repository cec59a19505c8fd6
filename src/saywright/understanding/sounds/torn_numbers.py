"""Traces that a number did not end where it was read, or that its end belongs to what follows."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CARDINALS, CLASSES, HOMOPHONES
from saywright.understanding.quantities.nouns import is_thing_for_sure
from saywright.understanding.quantities.words import LIKE_POINT
from saywright.understanding.tokens import BREAK, HESITATIONS
from saywright.understanding.working import Working

_SHORTEST = 2  # words of a number that has one to spare; one more of a decimal
_SHORT_NOUN = 3
_MORE = {("of", word) for word in ("them", "these", "those", "each")} | {("to", "go"), ("to", "do")}
# Heard for a digit, and for little else behind a number; the others only where the words end there.
_LIKE_DIGIT = frozenset({"won", "ate", "tree", "sex", "mine", "fine", "tin", "team", "teen"})
_LIKE_DIGIT_LAST = frozenset(HOMOPHONES)
_PREPOSITIONS = frozenset({"on", "in", "at", "of", "before", "after", "and", "so", "but", "that", "which"})
_NOT_MORE = frozenset({"bit", "touch", "little", "few", "new", "good", "slight"})  # "… and a bit of play"
_PARTS_OF_ONE = frozenset({"half", "quarter", "quarters"})


def counts_behind(work: Working, start: int, end: int) -> bool:
    """ "point oh five three more to do", "one third time": its last word tells how many or how often."""
    behind = work.texts[end : end + 2]
    if behind[:1] in {("time",), ("go",), ("try",)} and work.texts[end - 1] == "third":
        return True
    decimal = "point" in work.texts[start:end]
    if work.texts[end - 1] not in CARDINALS or end - start < _SHORTEST + decimal:
        return False
    if behind in _MORE or behind[:1] == ("more",):
        return True
    noun = behind[0] if behind else ""
    plural = decimal and len(noun) > _SHORT_NOUN and noun.endswith("s") and not noun.endswith("ss")
    return plural and noun not in work.lexicon.units and (noun,) not in work.lexicon.table


def goes_on(work: Working, end: int) -> bool:
    """ "three and a …", "nine a and half", "two point", "nine pint": more of the number was said."""
    after = work.texts[end : end + 3]
    if after == ("and",) or after[:2] in {("a", "half"), ("a", "quarter"), ("a", "and")}:
        return True
    if after[:1] and (after[0] == "point" or after[0] in LIKE_POINT):
        return True
    large = work.texts[end - 1] in {"hundred", "thousand"}  # "a hundred and getting"
    if len(after) == 2 and after[0] == "and" and (large or work.lexicon.names(after, 1) == NOTHING):
        return after[1] not in CLASSES and after[1] not in work.lexicon.words  # "a hundred and someone"
    return (
        after[:2] == ("and", "a")
        and (len(after) < 3 or after[2] not in _NOT_MORE)
        and not (work.lexicon.names(work.texts, end + 2).conditions)
    )


def is_two(texts: Sequence[str], start: int, end: int) -> bool:
    """ "twenty two point six twenty two": another one like it may begin behind its point."""
    said = texts[start:end]
    head, tail = said[0], said[said.index("point") + 1 :] if "point" in said else ()
    if "point" in tail or not HESITATIONS.isdisjoint(said):
        return False  # "twenty three point um twenty three point one": begun again
    return head in tail[1:] and CLASSES.get(head, ("",))[0] in {"TENS", "TEEN"}


def _is_digit(words: Sequence[str]) -> bool:
    return bool(words) and CLASSES.get(words[0], ("",))[0] == "DIGIT"


def digit_beside(work: Working, start: int, end: int) -> bool:
    """ "one point six one fine", "twenty sex": a word that sounds like a digit touches the number."""
    after = work.texts[end] if end < len(work.texts) else ""
    before = work.texts[start - 1] if start else ""
    if work.texts[start] in {"a", "an"} and (before == "and" or before in CLASSES):
        return True  # "three and a thou"
    if work.texts[start] in _PARTS_OF_ONE and before in {"the", "of"}:
        return True  # "two and the quarter", "one end of quarter"
    if work.texts[start] == "hundred" and (
        before in HOMOPHONES or _is_digit(work.texts[start + 1 : start + 2])
    ):
        return True  # "to hundred and ten", "hundred two": what stands before the hundred was misheard
    if before == "one" and work.texts[start] == "point" and not is_thing_for_sure(work.texts, start - 1):
        return True  # "scratch that one point two"
    if after in _LIKE_DIGIT or (before in _LIKE_DIGIT and work.texts[start] == "point"):
        return True
    behind = work.texts[end + 1] if end + 1 < len(work.texts) else BREAK
    if after in work.lexicon.measured:
        return False  # "one and a quarter free"
    long = "point" in work.texts[start:end] or work.texts[end - 1].endswith("ty")
    if long and after in {"for", "to", "too"} and behind in _PREPOSITIONS:
        return True  # "forty for on the left"
    return after in _LIKE_DIGIT_LAST and (behind == BREAK or behind in work.lexicon.units)
