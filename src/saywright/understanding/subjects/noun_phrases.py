"""Noun phrases → subjects: which part, which of several, how many, old or new."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Literal

from saywright.understanding.fixed import fixed
from saywright.understanding.phrases import Phrase
from saywright.understanding.tags import Tag

Selector = Literal["", "both", "all", "other", "last", "rest"]
_SELECTORS: tuple[tuple[str, Selector], ...] = (
    ("BOTH", "both"),
    ("ALL", "all"),
    ("OTHER", "other"),
    ("LAST", "last"),
    ("REST", "rest"),
)
_KEPT = frozenset({"OLD", "SAME"})
_TELL_WHICH = frozenset({"NEW", *_KEPT, *(name for name, _ in _SELECTORS)})


@fixed
class Subject:
    """What something is said of."""

    components: tuple[str, ...]  # candidates; () where it stands for what is in hand
    pronoun: bool  # "it", "this one", "both"
    alias: bool  # named by a part of its name
    which: tuple[str, ...]  # positions or numbers said
    selector: Selector
    age: Literal["old", "new"] | None
    count: int | None  # said in figures or words, e.g. "four bowl screws"
    many: bool  # plural form
    single: bool  # "one": a single one of several
    described: tuple[str, ...]  # conditions it is known by: "the rusty one"
    this: bool  # "this one", "these": what is on the bench now
    start: int  # tokens [start, end)
    end: int
    unclear: str = ""  # words that point at no part: "the high one"

    @property
    def other_words(self) -> bool:
        """True where it tells more than a bare pronoun does."""
        return bool(self.which or self.selector or self.age or self.count)

    def placed(self, which: str) -> Subject:
        """The same at one position."""
        return replace(self, which=(which,))

    def standing_for(self, named: Subject) -> Subject:
        """This pronoun with the part that was named before it."""
        each = self.selector in {"both", "all"} and named.many  # "the left pads are both worn"
        alone = not (self.selector or self.count or self.age == "new")
        which = self.which or (named.which if each or alone else ())
        selector = self.selector or ("" if self.which or self.count else named.selector)
        other = self.which and named.which and self.which != named.which
        other = other or (self.selector == "other" and named.age == "new")  # "a new one, and the other two"
        bare = self.many and not self.other_words and not named.pronoun
        so_many = bare and len(named.components) == 1  # "five pump screws, take them out"
        return replace(
            self,
            components=named.components,
            alias=named.alias,
            which=which,
            selector=selector,
            count=named.count if so_many else self.count,
            age=self.age or (None if other else named.age),
            unclear=self.unclear or named.unclear,
            many=self.many or (named.many and not self.which and not self.single),
            single=self.single or (named.single and which == named.which),
        )


def subject_of_phrase(phrase: Phrase) -> Subject:
    """The subject that a noun phrase names."""
    meaning = phrase.meaning
    components = meaning.parts or meaning.aliases
    which, selector, age = _lead(phrase)
    count = _count(phrase)
    return Subject(
        components=components,
        pronoun=not components,
        alias=not meaning.parts and bool(meaning.aliases),
        which=_first_few(which, count),
        selector=selector,
        age=age,
        count=count,
        many=meaning.many or bool(meaning.tags & {"ONES", "THEM"}),
        single=phrase.head is not None and phrase.head.kind == "ONE" and "ONES" not in meaning.tags,
        described=tuple([c for tag in phrase.lead for c in tag.meaning.conditions]),
        this="THIS" in meaning.tags,
        start=phrase.start,
        end=phrase.end,
    )


def subject_of_components(components: tuple[str, ...], start: int, end: int) -> Subject:
    """The subject that a characteristic's name stands for."""
    return Subject(components, False, False, (), "", None, None, False, False, (), False, start, end)


def subject_in_hand(start: int, end: int) -> Subject:
    """The subject of words that name none: what is in hand."""
    return replace(subject_of_components((), start, end), pronoun=True)


def subject_of_stranger(start: int, end: int, texts: Sequence[str]) -> Subject:
    """What is in hand, where a noun that the sheet does not know was named: which part it is of asks."""
    return replace(subject_in_hand(start, end), unclear=" ".join(texts[start:end]))


def subject_of_both(phrase: Phrase) -> Subject:
    """The two that a bare "neither" speaks of."""
    return replace(subject_of_components((), phrase.start, phrase.start + 1), pronoun=True, selector="both")


def subject_of_lead(phrase: Phrase) -> Subject | None:
    """ "both", "the left", "all four" without a noun; None where it is only an article."""
    which, selector, age = _lead(phrase)
    count = _count(phrase)
    if not which and not selector and count is None and age is None:
        return None
    apart = len(which) > 1 and any(b.start > a.end for a, b in pairwise(phrase.lead))
    two = apart and phrase.head is None  # "left and right are seized"
    return Subject(
        components=(),
        pronoun=True,
        alias=False,
        which=_first_few(which, count),
        selector=selector,
        age=age,
        count=count,
        many=selector in {"both", "all"} or any("ONES" in tag.tags for tag in phrase.lead) or two,
        single=False,
        described=(),
        this=False,
        start=phrase.start,
        end=phrase.end,
    )


def _lead(phrase: Phrase) -> tuple[tuple[str, ...], Selector, Literal["old", "new"] | None]:
    which: list[str] = []
    selector: Selector = ""
    age: Literal["old", "new"] | None = None
    head = phrase.head
    for tag in (*phrase.lead, head) if head is not None else phrase.lead:
        if tag.meaning.positions:
            which.extend(tag.meaning.positions)
        elif tag.order is not None and not (which and _tells_turn(phrase, tag, which)):
            which.append(str(tag.order))
        if tag.orders:
            which.extend(map(str, tag.orders))
        tags = tag.meaning.tags
        if _TELL_WHICH.isdisjoint(tags):
            continue
        if "NEW" in tags:
            age = "new"
        elif age is None and not _KEPT.isdisjoint(tags):
            age = "old"
        selector = selector or next((value for name, value in _SELECTORS if name in tags), "")
    if head is not None and "BOTH" in head.meaning.tags:
        selector = "both"
    return tuple(dict.fromkeys(which)), selector, age


def _tells_turn(phrase: Phrase, tag: Tag, which: Sequence[str]) -> bool:
    """ "driven first": in what order, not which one."""
    ends = phrase.head is None and tag is phrase.lead[-1] and "ORD" in tag.tags
    return ends and any(not one.isdigit() for one in which)


def _first_few(which: tuple[str, ...], count: int | None) -> tuple[str, ...]:
    """ "the first three": numbers one to three."""
    return tuple(str(n) for n in range(1, count + 1)) if which == ("1",) and count is not None else which


def _count(phrase: Phrase) -> int | None:
    for tag in (*phrase.lead, phrase.head) if phrase.head is not None else phrase.lead:
        if tag.count is not None:
            return tag.count
    return None
