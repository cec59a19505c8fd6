"""Words → token classes for the number grammar: the longest run that can be one number.

A run is cut where the words stop being number words, and where a word would be a number
only by mistake ("two o rings", "at this point", "and the other").
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.numbers.runs import Run, leave_next, leave_row, leave_twin
from saywright.understanding.numbers.shares import figure, fraction_at
from saywright.understanding.numbers.words import (
    BARE_DENOMINATORS,
    CLASSES,
    HOMOPHONES,
    LOWER_PARTS,
    OH,
    ORDINALS,
    SMALL,
)

MOST_TOKENS: Final = 48  # a longer run is cut, and says so with the flag "odd"

_SPELLING: Final = frozenset({"fower", "fife", "niner", "decimal"})  # with these, "tree" is a plain three
_WHOLE: Final = SMALL | {"HUNDRED", "BARE_HUNDRED", "FIGURE"}
_REPEATING: Final = frozenset({"double", "triple", "treble"})
# Words that go on after a preposition: "point for the".
_FUNCTION: Final = frozenset(
    {"the", "a", "an", "this", "that", "these", "those", "it", "be", "me", "you", "him", "us", "them", "my",
     "your", "his", "its", "our", "their"}
)  # fmt: skip
_LITTLE_ELSE: Final = frozenset({"ate", "won", "sick", "sex"})  # beside a digit
_MOST_OHS: Final = 8  # in a row; a longer row is no number
_AFTER_OH: Final = frozenset({"ring", "rings"})


def is_number_word(words: Sequence[str], at: int) -> bool:
    """True where word *at* can stand inside a number whatever is around it."""
    if at >= len(words):
        return False
    kind = CLASSES.get(words[at], ("",))[0]
    return kind in SMALL or words[at] == "tree" or figure(words[at]) is not None


def scan(words: Sequence[str], start: int, *, homophones: bool = False, shares: bool = True) -> Run:
    """The run of number tokens from word *start*; empty where none begins there.

    With *homophones*, words that sound like digits count between and behind digits. Without
    *shares*, fractions are not looked for ("five thirty" of "five thirty seconds").
    """
    run = Run(shared=shares and not LOWER_PARTS.isdisjoint(words))
    at, size = start, len(words)
    while at < size:
        if len(run.types) >= MOST_TOKENS:
            run.flags.add("odd")
            break
        end = _step(run, words, at, homophones, shares)
        if end <= at:
            break
        at = end
        if run.last in ("DENOMINATOR", "ORDINAL", "DOZEN", "RATIO", "FIGURE_DECIMAL"):
            break
    leave_next(run, words)
    leave_twin(run)
    leave_row(run)
    while run.last in ("POINT", "AND", "AND_FRACTION", "TIMES", "MINUS", "A"):
        for column in (run.types, run.values, run.ends):
            column.pop()
    if "homophone" in run.flags and not set(words[start:at]).isdisjoint(_SPELLING):
        run.flags.discard("homophone")
    return run


def _step(run: Run, words: Sequence[str], at: int, homophones: bool, shares: bool) -> int:
    """Adds the token at word *at* and gives the word after it; *at* itself where the run ends."""
    word = words[at]
    if shares and (end := _share(run, words, at)) > at:
        return end
    if word in OH:
        return _oh(run, words, at)
    if word in HOMOPHONES and _sounds_like(run, words, at, homophones):
        run.flags.add("homophone")
        run.add("DIGIT", HOMOPHONES[word], at + 1)
        return at + 1
    found = CLASSES.get(word)
    if found is None:
        return _other(run, words, at)
    kind, value = found
    if not _fits(run, words, at, kind, homophones):
        return at
    if kind == "HUNDRED" and run.last in ("", "MINUS"):
        kind = "BARE_HUNDRED"
    run.add(kind, value, at + 1)
    return at + 1


def _share(run: Run, words: Sequence[str], at: int) -> int:
    """Adds a whole fraction that begins at *at*, or a dozen, or an ordinal."""
    word = words[at]
    if "dozen" in words[at : at + 3] and (not run.types or run.last == "MINUS"):
        if word == "half" and (dozen := _dozen(words, at + 1)) > at + 1:
            run.add("DOZEN", "6", dozen)
            return dozen
        if (dozen := _dozen(words, at)) > at:
            run.add("DOZEN", "12", dozen)
            return dozen
        many = CLASSES.get(word, ("", ""))
        if many[0] in ("DIGIT", "TEEN") and words[at + 1 : at + 2] in (("dozen",), ["dozen"]):
            run.add("DOZEN", str(12 * int(many[1])), at + 2)
            return at + 2
    if run.shared and _share_may_begin(run, word):
        parts = fraction_at(words, at)
        if parts is not None:
            for kind, value, end in zip(*parts, strict=True):
                run.add(kind, value, end)
            bottom = words[parts[2][-1] - 1]
            if parts[1][0] not in ("1", parts[1][-1]) and not bottom.endswith("s") and bottom != "quarter":
                run.flags.add("odd")
            return parts[2][-1]
    if not run.types:
        return _ordinal(run, words, at)
    return at


def _share_may_begin(run: Run, word: str) -> bool:
    """True at the head of a number, and behind a whole one: "two three quarters"."""
    if not run.types or run.last in ("AND_FRACTION", "MINUS"):
        return True
    loose = run.last in _WHOLE and "POINT" not in run.types
    return loose and word not in BARE_DENOMINATORS and word not in ("a", "an")


def _dozen(words: Sequence[str], at: int) -> int:
    if at < len(words) and words[at] == "dozen":
        return at + 1
    return at + 2 if tuple(words[at : at + 2]) == ("a", "dozen") else at


def _ordinal(run: Run, words: Sequence[str], at: int) -> int:
    kind, value = CLASSES.get(words[at], ("", ""))
    following = words[at + 1] if at + 1 < len(words) else ""
    if words[at] in ORDINALS:
        run.add("ORDINAL", str(ORDINALS[words[at]]), at + 1)
        return at + 1
    if kind == "TENS" and 0 < ORDINALS.get(following, 0) < 10 and following != "second":
        run.add("ORDINAL", str(int(value) + ORDINALS[following]), at + 2)
        return at + 2
    return at


def _oh(run: Run, words: Sequence[str], at: int) -> int:
    """A spoken oh: a zero before digits, or behind them; else a letter or an exclamation."""
    after = at + 1
    while after < min(len(words), at + _MOST_OHS) and words[after] in OH:
        after += 1
    before_digit = after < len(words) and (
        (words[after] not in OH and _digit_at(words, after))
        or (words[after] in ("point", "decimal") and _digit_at(words, after + 1))
    )
    clearly = words[at] == "oh" or after > at + 1 or "POINT" in run.types
    behind_digit = clearly and run.last in ("DIGIT", "ZERO", "POINT", "FIGURE", "TIMES")
    if not before_digit and behind_digit and after < len(words):
        if words[after] in _AFTER_OH:
            return at
        if "POINT" not in run.types:
            # "Two oh that hurt" may be 2; "nine point eight oh" is the same value either way.
            run.flags.add("odd")
    if not (before_digit or behind_digit):
        return at
    run.add("ZERO", "oh", at + 1)
    return at + 1


def _digit_at(words: Sequence[str], at: int) -> bool:
    """True where a digit, an oh or a repeated digit stands at *at*."""
    if at < len(words) and words[at] in _REPEATING:
        at += 1
    return is_number_word(words, at) or (at < len(words) and words[at] in OH)


def _is_nothing_yet(run: Run) -> bool:
    """ "point oh for not scored": zeros alone behind the point, so a digit is to come."""
    if run.last != "ZERO" or "POINT" not in run.types:
        return False
    return set(run.types[run.types.index("POINT") + 1 :]) == {"ZERO"}


def _sounds_like(run: Run, words: Sequence[str], at: int, homophones: bool) -> bool:
    """True where the homophone at *at* stands where only a digit can."""
    word = words[at]
    following = words[at + 1] if at + 1 < len(words) else None
    before_digit = is_number_word(words, at + 1)
    if word == "tree":
        return run.last in (*SMALL, "POINT", "TIMES", "FIGURE") or (not run.types and before_digit)
    if not homophones or (word == "to" and "from" in words[:at]):
        return False
    if not run.types:
        return word in _LITTLE_ELSE and (before_digit or following == "point")
    if run.last == "POINT" or _is_nothing_yet(run):
        return following not in _FUNCTION
    if run.last not in SMALL or following is None:
        return run.last in SMALL
    if word in ("to", "too") and "POINT" in run.types and following not in _FUNCTION:
        return not before_digit or word == "too"
    if word == "to":  # "twenty to point oh one"
        return following == "point" and "POINT" not in run.types
    return word in _LITTLE_ELSE or before_digit or following == "point"


def _other(run: Run, words: Sequence[str], at: int) -> int:
    """Words with no class of their own: a, and, figures."""
    word = words[at]
    following = words[at + 1] if at + 1 < len(words) else ""
    if word == "a" and following in ("hundred", "thousand") and (not run.types or run.last == "MINUS"):
        run.add("DIGIT", "1", at + 1)
        return at + 1
    if word == "and" and run.types and run.last not in ("AND", "MINUS", "TIMES", "POINT"):
        if run.shared and fraction_at(words, at + 1) is not None:
            run.add("AND_FRACTION", "", at + 1)
            return at + 1
        if run.last in ("HUNDRED", "BARE_HUNDRED", "THOUSAND") and is_number_word(words, at + 1):
            run.add("AND", "", at + 1)
            return at + 1
        return at
    written = figure(word)
    if written is None or (run.types and written[0] == "FIGURE_DECIMAL" and run.last != "MINUS"):
        return at
    if run.last == "FIGURE" and written[0] == "FIGURE":
        if max(len(run.values[-1]), len(written[1])) > 2:
            return at
        run.flags.add("odd")
    if run.types and written[0] == "RATIO" and run.last not in ("FIGURE", "MINUS"):
        return at
    run.flags.add("figures")
    run.add(*written, at + 1)
    return at + 1


def _fits(run: Run, words: Sequence[str], at: int, kind: str, homophones: bool) -> bool:
    """True where the class may stand here."""
    following = words[at + 1] if at + 1 < len(words) else ""
    if kind == "POINT":
        if "POINT" in run.types or (not run.types and words[at] == "dot") or run.last in ("TIMES", "AND"):
            return False
        if homophones and following in HOMOPHONES:
            return True
        return is_number_word(words, at + 1) or following in OH or following in _REPEATING
    if kind == "TIMES":
        return CLASSES.get(following, ("",))[0] in ("DIGIT", "ZERO") or following in OH
    if kind == "MINUS":
        return not run.types
    if kind == "THOUSAND":
        return bool(run.types) and "THOUSAND" not in run.types and "POINT" not in run.types
    return kind != "HUNDRED" or run.last in ("", "MINUS", *SMALL)
