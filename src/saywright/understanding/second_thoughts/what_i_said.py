""" "Scrap what I said about the seal", "change the left reading to fourteen six": of what was said. Pure.

In plain words the first is "scratch what was said of the seal", the second "no the left one is fourteen six";
of what was said last it is "scratch that", "no make that fourteen six". A part that is scrapped stays.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import IS
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.quantities.measures import find_measures
from saywright.understanding.second_thoughts.correct_myself import CALLS, correct_myself
from saywright.understanding.second_thoughts.one_named import About, OneNamed, last_told, one_named
from saywright.understanding.second_thoughts.words import IT, PAUSES, read_turn
from saywright.understanding.statements import Reading
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at, words_of

_DROPS: Final = words_of("scrap scratch forget ignore disregard delete strike scrub cancel bin drop")
_MINDS: Final = frozenset({"forget", "ignore", "disregard"})  # not of a part: "forget the seal, it's fine"
_CHANGES: Final = frozenset({"change", "amend", "correct", "alter", "make", "put"})
_CHANGES_A_PART: Final = frozenset({"change", "alter", "make", "put"})
_I: Final = frozenset({"i", "we"})
_SAID: Final = frozenset({"said", "told", "gave", "called", "read", "put", "had", "say"})
_SAID_OF: Final = frozenset(
    {"you", "just", "there", "about", "for", "on", "of", "as", "the", "then", "now", "out", "down"}
)
_VALUE: Final = frozenset(
    {"reading", "figure", "number", "value", "measurement", "readings", "figures", "numbers"}
)
_LAST: Final = frozenset({"last", "previous"})
_POINTS: Final = frozenset({"the", "that", "this", "my"})
_LEADS_VALUE: Final = (
    ("it", "is"), ("it", "was"), ("that", "is"), ("make", "that"), ("make", "it"), ("it", "should", "be"),
    ("it", "should", "have", "been"), ("i", "meant"), ("i", "mean"), ("should", "be"), ("is",), ("was",),
    ("should", "have", "been"), ("it", "reads"), ("meant",), ("sorry",), ("no",), ("is", "actually"),
    ("it", "is", "actually"), ("that", "should", "be"), ("to",),
)  # fmt: skip
_CALLS: Final = _DROPS | _CHANGES | _SAID | {"wrong", "back", "instead"}
_LONGEST: Final = 26


@called_by(_CALLS | CALLS)
def what_i_said(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* in plain words where they take back, or put right, what was said of a part by its name."""
    if not 2 < len(tokens) <= _LONGEST or not state.recent:
        return tokens
    tokens = (
        tokens if CALLS.isdisjoint([one.text for one in tokens]) else correct_myself(tokens, state, lexicon)
    )
    said = tuple([one for one in tokens if one.text != BREAK])
    texts = tuple([one.text for one in said])
    at, turned = read_turn(texts, 0, len(texts))
    at = next((i for i in range(at) if texts[i] in _DROPS), at - (at == len(texts)))
    return (
        _dropped(said, texts, at, state, lexicon)
        or _changed(said, texts, at, state, lexicon)
        or _was_wrong(said, texts, at, state, lexicon, turned=turned)
        or tokens
    )


def _words(token: Token, *words: str) -> list[Token]:
    return [replace(token, text=word) for word in words]


def _dropped(
    said: tuple[Token, ...], texts: tuple[str, ...], at: int, state: Discourse, lexicon: Lexicon
) -> tuple[Token, ...]:
    """ "Scrap what I said about the seal", "ignore the left reading", and what is told instead."""
    said_wrong = texts[at : at + 2] == ("what", "i") and texts[-1] == "wrong" and texts[-2] in IS
    at += text_at(texts, at) in _I and text_at(texts, at + 1) == "take"
    begin = at + 1 + (texts[at : at + 2] == ("take", "back")) - said_wrong
    if texts[at] not in _DROPS and begin == at + 1:
        return ()
    two = find_measures(texts[begin:], lexicon.units) if texts[at] in _DROPS else ()
    if len(two) == 2 and (two[0].start, two[0].end, begin + two[1].end) == (0, two[1].start, len(texts)):
        return (
            (*_words(said[0], "no", "make", "that"), *said[begin + two[1].start :])
            if _has_read(state)
            else ()
        )
    spoken = text_at(texts, begin) == "what" and text_at(texts, begin + 1) in _I
    if spoken:
        behind = _behind_said(texts, begin + 2)
        if behind is None or texts[-1] in _SAID_OF - {"there", "then", "now", "out", "down", "you"}:
            return ()  # or broken off: "forget what I said about the"
        begin = behind
    elif text_at(texts, begin) not in _POINTS:
        return ()
    named, end, value = _value_named(texts, begin, lexicon)
    end, spoken = _said_behind(texts, end, spoken=spoken)
    if said_wrong and spoken and end == len(texts) - 2:
        end = len(texts)  # "what I said about the seal was wrong"
    if not (spoken or value) and (named is None or end == len(texts)):
        return ()  # "scrap the seal": the part
    told = _told_of(named, state, value=value)
    if end == len(texts):
        if named is None or _is_last(told, state):
            return tuple(_words(said[0], "scratch", "that")) if last_told(state) else ()
        return (*_words(said[0], "scratch", "what", "was", "said", "of"), *said[named.begin : named.end])
    return _instead(said, end, named, told, lexicon) or (
        () if value or not (spoken or texts[at] in _MINDS) else _so(said, texts, end, named)
    )


def _behind_said(texts: tuple[str, ...], at: int) -> int | None:
    """The token behind "(just) said (about the)" at *at*; None where that is not said."""
    at += text_at(texts, at) in {"just", "have"}
    if text_at(texts, at) not in _SAID:
        return None
    at += 1
    while text_at(texts, at) in _SAID_OF:
        at += 1
    return at


def _said_behind(texts: tuple[str, ...], at: int, *, spoken: bool) -> tuple[int, bool]:
    """The token behind "(that) I gave you", "I just said", and whether it is so."""
    begin = at + (text_at(texts, at) == "that")
    end = _behind_said(texts, begin + 1) if text_at(texts, begin) in _I else None
    return (at, spoken) if end is None else (end, True)


def _value_named(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> tuple[OneNamed | None, int, bool]:
    """What is named at *at*, the token behind it and behind "reading", and whether a value was said."""
    begin = at + (text_at(texts, at) in _POINTS)
    begin += text_at(texts, begin) in _LAST
    named = one_named(texts, begin, lexicon, read=True)
    end = named.end if named is not None else begin + (text_at(texts, begin) == "one" and begin > at + 1)
    value = text_at(texts, end) in _VALUE
    return named, end + value, value or (named is not None and bool(named.read))


def _told_of(named: OneNamed | None, state: Discourse, *, value: bool) -> list[About]:
    """What holds of the one *named*, newest last; of values only where a *value* was spoken of."""
    every: Iterable[About] = [
        s for group in state.recent for s in group if isinstance(s, About) and s.id not in state.gone
    ]
    if named is None:
        return [*every]
    known = {s.id for s in every}
    every = [*(r for r in state.latest.values() if r.id not in known), *every]
    return [s for s in every if named.tells(s) and (not value or isinstance(s, Reading))]


def _is_last(told: list[About], state: Discourse) -> bool:
    """True where what was told last is all of that."""
    last = last_told(state)
    return bool(last) and all(s in told for s in last)


def _instead(
    said: tuple[Token, ...], at: int, named: OneNamed | None, told: list[About], lexicon: Lexicon
) -> tuple[Token, ...]:
    """ "… it's fourteen six", of the one *named*, in the place of what was read of it."""
    begin = _value_at(tuple([one.text for one in said]), at, lexicon)
    read = any(isinstance(s, Reading) for s in told)
    return _no_it_is(said, named, begin) if begin is not None and read else ()


def _so(
    said: tuple[Token, ...], texts: tuple[str, ...], at: int, named: OneNamed | None
) -> tuple[Token, ...]:
    """ "… it's clear", of the one *named*, in the place of what was said of it."""
    if named is None or text_at(texts, at) not in IT or text_at(texts, at + 1) not in IS:
        return ()
    return (*said[named.begin : named.end], *said[at + 1 :], *_words(said[0], "after", "all"))


def _no_it_is(said: tuple[Token, ...], named: OneNamed | None, begin: int) -> tuple[Token, ...]:
    if named is None:
        return (*_words(said[0], "no", "make", "that"), *said[begin:])
    one = (
        _words(said[named.end - 1], "one") if named.only_places and said[named.end - 1].text != "one" else []
    )
    of = said[named.begin : named.end]
    return (*_words(said[0], "no", "the"), *of, *one, *_words(said[begin], "is"), *said[begin:])


def _value_at(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> int | None:
    """The first token of the value that ends the talk behind "it's", "make that" or "should be"."""
    for lead in sorted(_LEADS_VALUE, key=len, reverse=True):
        end = at + len(lead)
        if texts[at:end] == lead and _is_value(texts[end:], lexicon):
            return end
    return None


def _is_value(texts: tuple[str, ...], lexicon: Lexicon) -> bool:
    found = find_measures(texts, lexicon.units) if texts else ()
    return len(found) == 1 and found[0].start == 0 and found[0].end == len(texts)


def _changed(
    said: tuple[Token, ...], texts: tuple[str, ...], at: int, state: Discourse, lexicon: Lexicon
) -> tuple[Token, ...]:
    """ "Change the left reading to …", "put fourteen six instead", "going back to the left, make that …"."""
    if texts[at] == "put" and texts[-1] == "instead" and _is_value(texts[at + 1 : -1], lexicon):
        return (*_words(said[0], "no", "make", "that"), *said[at + 1 : -1]) if _has_read(state) else ()
    back = next(
        (
            i
            for i in range(min(3, len(texts)))
            if texts[i] == "back" and text_at(texts, i + 1) in {"to", "on"}
        ),
        None,
    )
    if back is not None:
        begin, lead = back + 2, True
    elif texts[at] in _CHANGES and text_at(texts, at + 1) in _POINTS:
        begin, lead = at + 1, False
    else:
        return ()
    named, end, value = _value_named(texts, begin, lexicon)
    if lead and named is None:
        return ()
    if not lead and text_at(texts, end) != "to" and texts[at] != "make":
        return ()
    told = [s for s in _told_of(named, state, value=True) if isinstance(s, Reading)]
    spec = lexicon.sheet.find(told[-1].component, told[-1].characteristic) if told else None
    sized = spec is None or spec.unit == "1"
    if sized and not (lead or value or text_at(texts, begin + 1) in _LAST) and texts[at] in _CHANGES_A_PART:
        return ()  # "change the main jet to one ten": another jet
    first = end if texts[at] == "make" and _is_value(texts[end:], lexicon) else _value_at(texts, end, lexicon)
    return _no_it_is(said, named, first) if first is not None and told else ()


def _has_read(state: Discourse) -> bool:
    return any(isinstance(s, Reading) for s in last_told(state))


def _was_wrong(
    said: tuple[Token, ...],
    texts: tuple[str, ...],
    at: int,
    state: Discourse,
    lexicon: Lexicon,
    *,
    turned: bool,
) -> tuple[Token, ...]:
    """ "The left one's wrong, it's …", "left one I said … I meant …"."""
    if text_at(texts, at) in _I:
        return _given(said, texts, at, state, lexicon)
    named, end, _ = _value_named(texts, at, lexicon)
    if named is None or end >= len(texts):
        return ()
    if texts[end] in IS and text_at(texts, end + 1) == "wrong":
        first = _value_at(texts, end + 2, lexicon)
    elif texts[end] in _I and text_at(texts, end + 1) in _SAID:
        found = find_measures(texts[end + 2 :], lexicon.units)
        first = _value_at(texts, end + 2 + found[0].end, lexicon) if found and not found[0].start else None
    elif turned and text_at(texts, end) == "should":
        first = _value_at(texts, end, lexicon)
    else:
        return ()
    told = [s for s in _told_of(named, state, value=True) if isinstance(s, Reading)]
    return _no_it_is(said, named, first) if first is not None and told else ()


def _given(
    said: tuple[Token, ...], texts: tuple[str, ...], at: int, state: Discourse, lexicon: Lexicon
) -> tuple[Token, ...]:
    """ "I gave you eighteen four for the float height, it's eighteen one"."""
    if text_at(texts, at + 1) not in _SAID:
        return ()
    begin = at + 2 + (text_at(texts, at + 2) == "you")
    found = find_measures(texts[begin:], lexicon.units)
    if not found or found[0].start:
        return ()
    end = begin + found[0].end
    if text_at(texts, end) not in {"for", "on", "as"}:
        return ()
    named, end, _ = _value_named(texts, end + 1, lexicon)
    while text_at(texts, end) in PAUSES | {"and"}:
        end += 1
    first = _value_at(texts, end, lexicon) if named is not None else None
    told = [s for s in _told_of(named, state, value=True) if isinstance(s, Reading)]
    return _no_it_is(said, named, first) if first is not None and told else ()
