"""Tags → phrases, by the statement grammar.

A phrase knows its tokens, the helping words before it, and what its head means.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any

from lark import Lark, Token, Tree
from lark.lexer import Lexer

from saywright.understanding.fixed import fixed
from saywright.understanding.grammar_text import grammar_text
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.tags import AGES, Tag

_OF = 2  # words of "both of", that are less than "both of them"
_NO_TAGS: frozenset[str] = frozenset()

_OTHERS = frozenset({"REST", "OTHER"})


@dataclass(slots=True, unsafe_hash=True)
class Phrase:
    """One phrase of an utterance; never changed. What it means is noted once: it is asked at every turn."""

    kind: str  # subject, finding, doing, off, on, or the tag's kind in lower case where it is loose
    start: int  # tokens [start, end)
    end: int
    head: Tag | None  # None for a lead or helping words alone
    lead: tuple[Tag, ...] = ()  # articles, "both", "left", "new" before a noun
    aux: tuple[Tag, ...] = ()  # helping words: negation, degree, "needs to be", "has been"
    meaning: Meaning = field(init=False, compare=False)  # of the head
    measure: Measure | None = field(init=False, compare=False)  # the head's
    tags: frozenset[str] = field(init=False, compare=False)  # of the head
    lead_tags: frozenset[str] = field(init=False, compare=False)  # of all words of the lead
    aux_tags: frozenset[str] = field(init=False, compare=False)  # of all helping words

    def __post_init__(self) -> None:
        """Note what its tags mean."""
        head = self.head
        self.meaning = head.meaning if head is not None else NOTHING
        self.measure = head.measure if head is not None else None
        self.tags = self.meaning.tags
        self.lead_tags = _tags_of(self.lead) if self.lead else _NO_TAGS
        self.aux_tags = _tags_of(self.aux) if self.aux else _NO_TAGS


def _tags_of(tags: tuple[Tag, ...]) -> frozenset[str]:
    """All their tags; of one, which is the most common, its own."""
    if len(tags) == 1:
        return tags[0].meaning.tags
    return frozenset().union(*[tag.meaning.tags for tag in tags])


NO_PHRASE = Phrase("on", 0, 0, None)  # of a movement that no word of its own tells


# Kinds that the grammar has in `loose` alone: nothing goes on over them.
_ALONE = frozenset({"CHAR", "MEASURE", "LINK", "BREAK", "MARK", "WORD"})


class _TagLexer(Lexer):
    """Hands the kinds of the tags to Lark as they are; a token's value is the index of its tag."""

    def __init__(self, lexer_conf: object) -> None:
        pass

    def lex(self, lexer_state: Any, parser_state: Any = None) -> Iterator[Token]:  # noqa: ARG002
        for at, kind in enumerate(lexer_state):
            yield Token(kind, at)


@lru_cache(maxsize=1)
def _parser() -> Lark:
    return Lark(grammar_text("statements"), parser="lalr", lexer=_TagLexer, maybe_placeholders=False)


@fixed
class _Shape:
    """One phrase as indices of tags."""

    kind: str  # of the phrase
    first: int
    last: int
    head: int | None
    lead: tuple[int, ...]
    aux: tuple[int, ...]


def phrases(tags: tuple[Tag, ...]) -> tuple[Phrase, ...]:
    """The phrases of an utterance; every tag is in exactly one."""
    if not tags:
        return ()
    shapes = _shapes(tuple([tag.kind for tag in tags]))
    found: list[Phrase] = []
    for shape in shapes:
        phrase = _phrase(shape, tags)
        if not phrase.lead:
            found.append(phrase)
        elif phrase.lead[-1].meaning.positions and phrase.head and phrase.head.kind == "PRON":
            found += _before_pronoun(phrase)
        elif len(phrase.lead) < 2:
            found.append(phrase)
        else:
            found += _apart(phrase)
    return tuple(found)


def _before_pronoun(phrase: Phrase) -> tuple[Phrase, ...]:
    """ "freed at the nearside front it was greased" without the comma: no pronoun is told by a place."""
    place = Phrase("lead", phrase.start, phrase.lead[-1].end, None, phrase.lead)
    return (*_apart(place), replace(phrase, start=place.end, lead=()))


def _apart(phrase: Phrase) -> tuple[Phrase, ...]:
    """ "new one on the left, the right one goes back" without the comma: an article begins a new phrase.

    So does a place behind "both of them", and behind "both new" where no noun follows, and a second count:
    "all six two of them rusty".
    """
    head, behind = phrase.lead[0], phrase.lead[1:]
    if phrase.head is None and head.tags & {"BOTH", "ALL"} and behind[1:] and behind[0].tags & AGES:
        before = Phrase("lead", phrase.start, behind[0].end, None, (head, behind[0]))
        return (before, *_apart(replace(phrase, start=behind[1].start, lead=behind[1:])))
    if behind and head.end - head.start > _OF and head.tags & {"BOTH", "ALL"} and behind[0].meaning.positions:
        before = Phrase("lead", phrase.start, head.end, None, (head,))
        return (before, *_apart(replace(phrase, start=behind[0].start, lead=behind)))
    singular = phrase.head is not None and phrase.head.kind == "ONE" and "ONES" not in phrase.tags
    if singular and head.tags & {"BOTH"} and behind and behind[0].meaning.positions:
        before = Phrase("lead", phrase.start, head.end, None, (head,))  # "out of both, left one's …"
        return (before, *_apart(replace(phrase, start=behind[0].start, lead=behind)))
    for at, tag in enumerate(phrase.lead):
        if tag.count is not None and any(t.count is not None for t in phrase.lead[:at]):
            before = Phrase("lead", phrase.start, phrase.lead[at - 1].end, None, phrase.lead[:at])
            return (before, *_apart(replace(phrase, start=tag.start, lead=phrase.lead[at:])))
        others = phrase.lead[at : at + 1 + ("DET" in tag.tags)][-1].tags & _OTHERS
        if at and others and phrase.lead[at - 1].tags & AGES:  # "the right one's new the rest went back"
            before = Phrase("lead", phrase.start, phrase.lead[at - 1].end, None, phrase.lead[:at])
            return (before, *_apart(replace(phrase, start=tag.start, lead=phrase.lead[at:])))
        placed = [any(t.meaning.positions for t in some) for some in (phrase.lead[:at], phrase.lead[at:])]
        if "DET" in tag.tags and all(placed):
            first, rest = phrase.lead[:at], phrase.lead[at:]
            before = Phrase("lead", phrase.start, first[-1].end, None, first)
            return (before, *_apart(replace(phrase, start=rest[0].start, lead=rest)))
    return (phrase,)


@lru_cache(maxsize=4_096)
def _shapes(kinds: tuple[str, ...]) -> tuple[_Shape, ...]:
    """How tags of these *kinds* group; the grammar asks for nothing else.

    Tags that are always a phrase of their own cut the utterance into runs, of which people use few.
    """
    found: list[_Shape] = []
    start = 0
    for at, kind in enumerate(kinds):
        if kind in _ALONE:
            found.extend(_moved(shape, start) for shape in _run_shapes(kinds[start:at]))
            found.append(_Shape(kind.lower(), at, at, at, (), ()))
            start = at + 1
    found.extend(_moved(shape, start) for shape in _run_shapes(kinds[start:]))
    return tuple(found)


@lru_cache(maxsize=4_096)
def _run_shapes(kinds: tuple[str, ...]) -> tuple[_Shape, ...]:
    """The same for tags none of which is a phrase of its own whatever stands beside it."""
    if not kinds:
        return ()
    tree = _parser().parse(kinds)
    return tuple(_shape(piece, kinds) for piece in tree.children if isinstance(piece, Tree))


def _moved(shape: _Shape, by: int) -> _Shape:
    """The shape *by* tags further on."""
    if by == 0:
        return shape
    head = shape.head + by if shape.head is not None else None
    lead, aux = (tuple(at + by for at in tags) for tags in (shape.lead, shape.aux))
    return _Shape(shape.kind, shape.first + by, shape.last + by, head, lead, aux)


def _shape(piece: Tree[Token], kinds: tuple[str, ...]) -> _Shape:
    lead: tuple[int, ...] = ()
    aux: tuple[int, ...] = ()
    head: int | None = None
    for child in piece.children:
        if isinstance(child, Tree):
            tags = tuple(token.value for token in child.children if isinstance(token, Token))
            if child.data == "lead":
                lead = tags
            else:
                aux = tags
        else:
            head = child.value
    own = () if head is None else (head,)
    first, last = (*lead, *aux, *own)[0], (*lead, *aux, *own)[-1]
    kind = _phrase_kind(str(piece.data), "" if head is None else kinds[head], lead)
    return _Shape(kind, first, last, head, lead, aux)


def _phrase(shape: _Shape, tags: tuple[Tag, ...]) -> Phrase:
    lead = tuple([tags[at] for at in shape.lead]) if shape.lead else ()
    aux = tuple([tags[at] for at in shape.aux]) if shape.aux else ()
    head = tags[shape.head] if shape.head is not None else None
    return Phrase(shape.kind, tags[shape.first].start, tags[shape.last].end, head, lead, aux)


def _phrase_kind(rule: str, head: str, lead: tuple[int, ...]) -> str:
    """By the rule of the grammar, and the kind of the tag at its head; "" for none."""
    if rule == "moving":
        return "off" if head == "OFF" else "on"
    if rule != "loose":
        return rule
    if not head:
        return "lead" if lead else "aux"
    return head.lower()
