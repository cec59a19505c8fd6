"""Those that are excepted: "all good except number two", "bar one they're pitted", "clean but the left".

What is said of all is of the others; what is said of none ("none leaking bar the left") is of those excepted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.sheets.model import Component
from saywright.understanding.bench_words import IS
from saywright.understanding.facts import Fact, Told
from saywright.understanding.fixed import fixed
from saywright.understanding.numbers.words import CARDINALS, CLASSES
from saywright.understanding.numbers.words import ORDINALS as FIRST_TO_LAST
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

EXCEPTS: Final = frozenset(
    ["except", "excepting", "bar", "barring", "apart", "aside", "save", "but", "exception", "other"]
)
_OPENERS: Final = (
    ("with", "the", "exception", "of"), ("except", "for"), ("apart", "from"), ("aside", "from"),
    ("other", "than"), ("save", "for"), ("but", "for"), ("except",), ("excepting",), ("barring",), ("bar",),
    ("save",), ("but",),
)  # fmt: skip
_BETWEEN: Final = frozenset(
    ["the", "number", "a", "its", "that", "this", "on", "at", "only", "just", "possibly", "maybe", "perhaps",
     "my", "old", "poor", "of", "in", "for"]
)  # fmt: skip
_ONE: Final = frozenset({"one", "ones"})
_ENDS: Final = frozenset({BREAK, "which", "that", "who", "and", "so", ""})
_TELLS: Final = frozenset(
    {"is", "are", "has", "have", "was", "were", "needs", "need", "wants", "got", "looks"}
)
_SOME: Final = frozenset({"a", "an", "some", "the", "for"})
_OF_ONE: Final = frozenset({BREAK, "which", "that", "who", "being", "it", "they", "where", "because"}) | _ONE
_FAULT: Final = 9  # tokens of "a bit of a ring of crud on"
_SAYS_SO: Final = IS | {"has", "have", "had", "looks", "look"}
_KINDS: Final = frozenset({"finding", "doing", "off", "on"})


@fixed
class Excepted:
    """Where an exception stands, and what it takes out."""

    start: int  # tokens [start, end), the word for it included
    end: int
    places: tuple[frozenset[str], ...]  # the words of each position
    some: int = 0  # how many that nobody told: "bar one"
    clause: bool = False  # something is said of them: "all fine but the left is torn"
    found: bool = False  # what is on them: "all clean apart from a bit of rust on the left"


def take_exceptions(told: Told, work: Working) -> None:
    """Give what *told* says of all the others, where some of them are excepted."""
    if not told.facts:
        return
    begin = _opener(work)
    if begin is None:
        return
    before = [s for s in told.subjects if s.start < begin[0]]
    after = [s for s in told.subjects if s.start >= begin[0]]
    for subject in (*reversed(before), *after):
        component = _several(subject, work)
        out = _excepted(begin, component, work) if component is not None else None
        if component is not None and out is not None:
            _take_out(told, subject, component, out, work)
            return


def _opener(work: Working) -> tuple[int, int] | None:
    """The tokens of the words that except something."""
    texts = work.texts
    for at, text in enumerate(texts):
        if text not in EXCEPTS and text != "with":
            continue
        words = next((o for o in _OPENERS if texts[at : at + len(o)] == o), None)
        if words is None or (not at and words == ("but",)):
            continue
        only = words == ("but",) and not {"just", "only"}.isdisjoint(texts[at + 1 : at + 2])
        if only and _TELLS.isdisjoint(texts[at + 2 :]):
            continue  # "I would change both but just the inner"
        if words == ("bar",) and at and (texts[at - 1] in CLASSES or texts[at - 1] in {"a", "the", "half"}):
            continue  # "two bar"
        return at, at + len(words)
    return None


def _several(subject: Subject, work: Working) -> Component | None:
    """The part of *subject*, where all that are fitted, or more than one, are spoken of."""
    held = (work.hand.component,) if subject.pronoun and not subject.components and work.hand else ()
    parts = [part for part in map(work.sheet.get, subject.components or held) if part is not None]
    parts = [part for part in parts if len(part.whiches) > 1]
    every = subject.many or subject.selector in {"all", "both"}
    return parts[0] if every and len(parts) == 1 else None


def _excepted(begin: tuple[int, int], part: Component, work: Working) -> Excepted | None:
    """What of *part* is excepted behind the words *begin*; None where it is something else."""
    texts, at = work.texts, _behind_fault(begin[1], work)
    found = at > begin[1]
    places: list[frozenset[str]] = []
    words: set[str] = set()
    some, end, size = 0, at, len(texts)
    while at < size:
        text, which = texts[at], _which(part, at, work)
        if which and (words | which) and any((words | which) <= set(p.split()) for p in part.whiches):
            words |= which
        elif which:
            places, words = [*places, frozenset(words)], set(which)
        elif text in _ONE and not (words or places):
            some = 1
        elif text in CARDINALS and not (words or places or some):
            some = CARDINALS.index(text) + 1
        elif text in {"and", "or"} and (words or some) and at + 1 < size and _leads_on(part, at + 1, work):
            places, words = [*places, frozenset(words)] if words else places, set()
        elif not (text in _BETWEEN or text in _ONE or part.id in _named(work, at)):
            break
        at += 1
        end = at if texts[at - 1] not in _BETWEEN else end
    told = [place for place in (*places, frozenset(words)) if place]
    if (not told and not some) or _is_of_another(texts, end, part, work):
        return None
    clause = texts[begin[0] : begin[1]] == ("but",) and not (end == size or texts[end] in _ENDS)
    return Excepted(begin[0], end, tuple(told), 0 if told else some, clause and not found, found)


def _behind_fault(at: int, work: Working) -> int:
    """The token behind "a ring of crud on", where that begins at *at*; else *at*."""
    texts, begin, names = work.texts, at, work.lexicon.names
    at += 2 * (texts[at : at + 2] in {("there", "is"), ("it", "has")})
    if texts[at : at + 1] and texts[at] not in _SOME:
        return begin
    words = range(at + 1, min(at + _FAULT, len(texts) - 1))
    on = next((i for i in words if texts[i] in {"on", "in", "at"}), at + 1)
    for i in range(at, min(on, len(texts))):
        if texts[i] in _OF_ONE | _SAYS_SO or names(texts, i).positions or _named(work, i):
            return begin  # "apart from the left, it is sticking in the bore"
    tells = any(names(texts, i).conditions for i in range(at + 1, on))
    return on + 1 if tells else begin


def _is_of_another(texts: Sequence[str], at: int, part: Component, work: Working) -> bool:
    """ "all clear except the left float is stuck", "but the left pin is bent": of some other part."""
    if at >= len(texts) or not texts[at].isalpha() or texts[at] in _ENDS | _SAYS_SO:
        return False
    named = _named(work, at)
    return bool(named and part.id not in named) or not _SAYS_SO.isdisjoint(texts[at + 1 : at + 2])


def _named(work: Working, at: int) -> tuple[str, ...]:
    found = work.lexicon.names(work.texts, at)
    return found.parts or found.aliases


def _leads_on(part: Component, at: int, work: Working) -> bool:
    """ "and four", "and the rear": one more of them."""
    while work.texts[at] in _BETWEEN and at + 1 < len(work.texts):
        at += 1
    return bool(_which(part, at, work))


def _which(part: Component, at: int, work: Working) -> set[str]:
    """The words of the position of *part* that is named at token *at*."""
    text = work.texts[at]
    if not part.positions:
        order = FIRST_TO_LAST if text in FIRST_TO_LAST else CARDINALS
        number = list(order).index(text) + 1 if text in order else 0
        lone = text in CARDINALS and work.texts[at - 1] not in {"number", "and"} and not _goes_on(work, at)
        return {str(number)} if 0 < number <= part.count and not lone else set()
    found = work.lexicon.names(work.texts, at).positions
    said = set(found[0].split()) if len(found) == 1 else set()
    said = said or {text}
    return said if any(said <= set(p.split()) for p in part.positions) else set()


def _goes_on(work: Working, at: int) -> bool:
    """ "except one and three": numbers of them."""
    behind = work.texts[at + 1 : at + 3]
    return len(behind) > 1 and behind[0] == "and" and behind[1] in CARDINALS


def _take_out(told: Told, subject: Subject, part: Component, out: Excepted, work: Working) -> None:
    """What is said of *subject* is said of the others of *part*."""
    here = [f for f in told.facts if f.kind in _KINDS]
    inside = [f for f in told.facts if out.start <= f.phrase.start < out.end]
    said = [f for f in here if f.phrase.end <= out.start and _of_all(f, subject)]
    behind = [f for f in here if f.phrase.start >= out.end]
    if out.found:
        said = [f for f in said if inside and _are_contrary(f, inside[0], work)]
    elif out.clause:
        said = [f for f in said if behind and _are_contrary(f, behind[0], work)]
    elif not said:  # "all four bar one are pitted", "apart from the rear they're all straight"
        said = [f for f in behind if any(_is_within(s, subject, out) for s in f.subjects)][:1]
    gone = tuple(p for p in part.whiches if any(place <= set(p.split()) for place in out.places))
    left = tuple(p for p in part.whiches if p not in gone)
    if not said or (gone and not left) or (not gone and out.some >= len(part.whiches)):
        return
    told.facts = [f for f in told.facts if out.found or f not in inside]
    others = replace(subject, components=(part.id,), selector="", many=True, which=left, count=None)
    if not gone:
        named = bool(part.positions) or (part.id, "1") in work.lexicon.called
        open_one = " ".join(work.texts[out.start : out.end]) if named else ""
        others = replace(others, which=(), count=len(part.whiches) - out.some, unclear=open_one)
    for fact in said:
        fact.subjects = [others]
        fact.cover(out.start, out.end)
    if out.found and gone:
        for fact in inside:
            fact.subjects = [replace(others, which=gone, many=len(gone) > 1)]
    if out.clause and not gone:  # "but two of them are pitted"
        behind[0].subjects = [replace(others, count=out.some)]
    if gone:
        _say_of_them(told, replace(others, which=gone, many=len(gone) > 1), out, said)


def _of_all(fact: Fact, subject: Subject) -> bool:
    """True where *fact* is said of all that *subject* names: of "them", of "all"."""
    return any(
        s == subject or (s.components == subject.components and (s.many or s.selector in {"all", "both"}))
        for s in fact.subjects
    )


def _is_within(said: Subject, subject: Subject, out: Excepted) -> bool:
    """True for *subject* behind the exception, and for the "one" of "bar one"."""
    return said == subject or (out.start <= said.start < out.end and not said.which)


def _are_contrary(first: Fact, then: Fact, work: Working) -> bool:
    """ "all fine but the left is torn": the one is a fault, the other is none."""
    return first.kind == then.kind == "finding" and _is_fault(first, work) != _is_fault(then, work)


def _is_fault(fact: Fact, work: Working) -> bool:
    spec = work.sheet.get_condition(fact.phrase.meaning.conditions[-1])
    return (spec is None or not spec.good) != fact.negated


def _say_of_them(told: Told, subject: Subject, out: Excepted, said: Sequence[Fact]) -> None:
    """Those excepted are what is spoken of next; where nothing is, they are in hand.

    "None of them leaking bar the left": that one does, where nothing else is said of it.
    """
    here = set(subject.which)
    next_said = [f for f in told.facts if f.phrase.start >= out.end and all(f is not one for one in said)]
    if out.found:
        return
    for fact in next_said:
        them = [s for s in fact.subjects if s.start >= out.start and set(s.which) <= here]
        if any(not s.other_words or (s.which and s.start < out.end) for s in them if s.pronoun):
            fact.subjects = [subject]
    if next_said:
        return
    for fact in [f for f in said if f.kind == "finding" and f.negated]:
        at = next(i for i, one in enumerate(told.facts) if one is fact)
        told.facts.insert(at + 1, replace(fact, subjects=[subject], negated=False))
    phrase = Phrase("except", out.start, out.end, None)
    told.facts.append(Fact("named", phrase, 0, [subject], start=out.start, end=out.end))
