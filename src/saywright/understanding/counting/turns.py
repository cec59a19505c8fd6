"""Counting aloud across utterances: begins with the talk of it or with a run, ends when the screw is seated.

Each number makes a reading at once, and the next step takes its place: whatever breaks the
count off, the record holds the last number that was said.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import parse_value
from saywright.sheets.model import Component
from saywright.understanding.aside.outside_numbers import tells_time
from saywright.understanding.bench_words import COUNT_TALK
from saywright.understanding.counting.aloud import CAN_BEGIN, Count, count_run, may_run
from saywright.understanding.counting.count_ends import (
    called_at_last,
    doubts,
    ends_first,
    is_told,
    only_ends,
    puts_right,
    stops,
    without_sum,
)
from saywright.understanding.counting.count_targets import (
    counted_part,
    head_end,
    turn_characteristic,
    unannounced,
)
from saywright.understanding.discourse import Counting
from saywright.understanding.doings.movements import put_movements
from saywright.understanding.facts import Fact
from saywright.understanding.numbers.words import CLASSES, DENOMINATORS
from saywright.understanding.phrases import NO_PHRASE
from saywright.understanding.quantities.measures import find_measures
from saywright.understanding.sides.carried_sides import side_doubts
from saywright.understanding.statements import Reading
from saywright.understanding.subjects.noun_phrases import subject_of_components
from saywright.understanding.subjects.parts import resolve, which_flags
from saywright.understanding.working import Working
from saywright.units import get_unit

_ENDS = frozenset({"seated", "seats", "bottomed", "bottoms", "home", "stops", "seat", "bottom"})
_BEGINS = frozenset({"counting", "count", "turning", "winding", "screwing"})
_ANNOUNCED = frozenset({"counting", "count", "in"})
# What is counted is given up, and begins again.
_LOST = (
    ("lost", "count"), ("lost", "it"), ("lost", "that"), ("start", "again"), ("start", "over"),
    ("count", "again"), ("from", "the", "top"), ("starting", "again"), ("go", "again"), ("try", "again"),
    ("once", "more"),
)  # fmt: skip
_LEADS = frozenset({"goes", "went", "going", "counts", "i", "get", "got", "again", "gives", "me"})
_TELLS = frozenset({"is", "was", "get", "got", "makes", "make"})  # a value is told, and not counted
_COMPARED = 3  # tokens behind a number in which it is compared
_LOST_HEADS = frozenset(words[0] for words in _LOST)
_NUMBERS = CLASSES.keys() | DENOMINATORS.keys()
_FIRST = frozenset({"a", "an", "half", "quarter", "eighth", "one", "1"})  # begin the first step of a count
_OF_COUNTS = _BEGINS | _LOST_HEADS


def count_turns(work: Working, begin: int) -> int:
    """Take the head of this utterance as counting aloud; tokens read, *begin* where it is other talk."""
    texts = work.texts[begin:]
    running = work.before.counting or unannounced(work)
    work.counting = None
    if tells_time(texts) or (running is None and not _may_count(texts)):
        return begin
    lost = _lost(texts)
    if lost:
        texts, running = texts[lost:], _anew(work, running, texts[:lost])
        if running is not None and _find_run(texts, None) is None:
            return len(work.texts) if _again(work, running) else begin
    if running is not None and texts[:1] != ("no",) and _begins_anew(texts, running):
        running = None
    ended = bool(_ENDS & set(texts)) or stops(texts)
    if running is not None and ended and COUNT_TALK.issuperset(texts):
        return _end(work)
    counted = parse_value(running.count) if running is not None and running.count is not None else None
    run = _called(_find_run(texts, counted), texts, work)
    if running is None and not (_starts_here(work, texts, run, ended=ended) if run else _is_announced(texts)):
        return begin
    target = counted_part(work, texts, running)
    if target is None or run is None:
        return len(work.texts) if _other_talk(work, texts, target, running) else begin
    if running is None and find_measures(texts[: run.start], work.lexicon.units):
        return begin  # another value is told first
    put_right = running is not None and puts_right(texts, run)
    if running is not None and not put_right and not _leads_to_count(texts[: run.start], target[0]):
        return len(work.texts) if _other_talk(work, texts, target, running) else begin
    if running is None and not begin + lost:
        work.head = _head(work, texts, run.start, target[0])
    begin += lost
    end = len(work.texts) if is_told(texts[run.end :], run, work) else begin + run.end
    count = _counted(running, target, run, work)
    work.named(count.component or target[0].id, count.which)
    work.covered.append((work.head, end))
    _put_in(work, tuple(t for t in texts[: run.start] if t not in _BEGINS), target[0])
    hedge = (flag(FlagKind.APPROXIMATE, "call it"),) if run.called else ()
    unclear = (flag(FlagKind.CORRECTION_UNCLEAR, " ".join(texts)),) if put_right else ()
    made = _reading(work, count, (*hedge, *unclear, *doubts(texts[run.end :])))
    work.counting = None if ended else replace(count, reading=made.id)
    return end


def _counted(
    running: Counting | None, target: tuple[Component, str | None], run: Count, work: Working
) -> Counting:
    """The count as it stands: a new one, or the one that runs."""
    heard = " ".join(word.text for word in work.words)
    return Counting(
        component=target[0].id,
        which=target[1],
        count=run.value,
        heard=f"{running.heard} … {heard}" if running is not None and running.heard else heard,
        start_s=running.start_s
        if running is not None and running.start_s is not None
        else work.utterance.start_s,
        utterance=work.now,
        reading=running.reading if running is not None else None,
    )


def _head(work: Working, texts: tuple[str, ...], run: int, component: Component) -> int:
    """Where what is told before the count ends; 0 for nothing, and for talk of counting."""
    end = head_end(work, texts, run, component.id)
    return end if _OF_COUNTS.isdisjoint(texts[:end]) else 0


def _leads_to_count(head: tuple[str, ...], component: Component) -> bool:
    """ "and now low speed", "it goes": nothing but talk of counting, and which one it is."""
    placed = {word for position in component.positions for word in position.split()}
    return all(text in COUNT_TALK or text in _LEADS or text in placed for text in head)


def _called(run: Count | None, texts: tuple[str, ...], work: Working) -> Count | None:
    """The run with what it is called at last."""
    called = called_at_last(texts[run.end :], work) if run is not None else None
    if run is None or called is None or run.said < 2:
        return run
    return replace(run, value=called[0], end=run.end + called[1], called=True)


def _put_in(work: Working, head: tuple[str, ...], component: Component) -> None:
    """ "new main needle in, counting out half one …": before it was counted, it went in."""
    end = head.index("in") + 1 if "in" in head else 0
    new = "new" in head[:end]
    found = [work.lexicon.match(head, at) for at in range(end - 1)]
    named = any(f is not None and component.id in f[1].parts for f in found)
    if not named or not (new or work.off.get(component.id)) or not COUNT_TALK.issuperset(head[end:]):
        return
    said = replace(subject_of_components((component.id,), 0, end), age="new" if new else None)
    part = resolve(said, work.sheet, work.hand, work.now, off=work.off, movement="fitted")
    if part is not None:
        put_movements(work, Fact("on", NO_PHRASE, 0, [said], start=0, end=end), [part], "fitted")


def _may_count(texts: tuple[str, ...]) -> bool:
    """Talk of counting, or two words of numbers side by side and one that a count begins with; else none."""
    if not _OF_COUNTS.isdisjoint(texts):
        return True
    return not _FIRST.isdisjoint(texts) and may_run(texts)


def _starts_here(work: Working, texts: tuple[str, ...], run: Count, *, ended: bool) -> bool:
    """Two numbers counted up begin a count, or one that was announced and has its end."""
    if run.said >= 3 and run.value == str(run.said):
        return True
    rest = without_sum(texts[run.end :], run, work)
    if not only_ends(rest) and not ends_first(rest):
        return False
    if run.said >= 2 and texts[run.start] in {"half", "quarter", "eighth"}:
        return True
    return (
        run.said >= (2 if "." in run.value or run.said < 2 else 3)
        or (run.said >= 2 and ended)
        or (ended and bool(_BEGINS & set(texts)))
    )


def _find_run(texts: tuple[str, ...], after: Fraction | None) -> Count | None:
    best: Count | None = None
    for at, text in enumerate(texts):
        run = count_run(texts, at, after) if text in CAN_BEGIN else None
        if run is not None and (best is None or run.said > best.said):
            best = run
    compared = best is not None and "than" in texts[best.end : best.end + _COMPARED]
    return None if compared else best  # "half a turn richer than the left"


def _begins_anew(texts: tuple[str, ...], running: Counting) -> bool:
    """True for a whole count from nothing that goes on with the one that runs less well."""
    afresh = _find_run(texts, None)
    after = parse_value(running.count) if running.count is not None else None
    going = _find_run(texts, after)
    return after is not None and afresh is not None and afresh.said > max(1, going.said if going else 0)


def _lost(texts: tuple[str, ...]) -> int:
    """How many tokens there are up to the end of the last "lost count, go again"; 0 where none is."""
    if _LOST_HEADS.isdisjoint(texts):
        return 0
    return max(
        (i + len(w) for w in _LOST for i in range(len(texts)) if texts[i : i + len(w)] == w), default=0
    )


def _anew(work: Working, running: Counting | None, before: tuple[str, ...]) -> Counting | None:
    """The count that begins again: the one that runs, or the one broken off in these words *before*."""
    if running is not None:
        return replace(running, count=None, heard="", start_s=None)
    target = counted_part(work, before, None)
    if target is None or _find_run(before, None) is None:
        return None
    return Counting(target[0].id, target[1], None, "", None, work.now)


def _again(work: Working, running: Counting) -> bool:
    """ "Lost count, again": what was counted so far does not hold."""
    if running.reading is not None:
        work.supersede([running.reading], None, 0, len(work.texts))
    else:
        work.remark(0, len(work.texts), "count lost")
    work.counting = Counting(running.component, running.which, None, "", None, work.now)
    return True


def _other_talk(
    work: Working,
    texts: tuple[str, ...],
    target: tuple[Component, str | None] | None,
    running: Counting | None,
) -> bool:
    """ "Air screw, counting it in" announces a count; other talk in the middle of one is allowed once."""
    if target is not None and running is None and _is_announced(texts):
        work.counting = Counting(target[0].id, target[1], None, "", None, work.now)
        work.named(target[0].id, target[1])
        work.remark(0, len(texts), "start of a count")
        return not {"out", "off", "in"} & set(texts) or "counting" in texts
    if running is not None and work.before.counting is not None and work.now - running.utterance <= 2:
        work.counting = running
    return False


def _is_announced(texts: tuple[str, ...]) -> bool:
    """ "counting it in", "turning it in"; not "let me count that again, it is four and three quarters"."""
    told = not _NUMBERS.isdisjoint(texts[-1:]) and not _TELLS.isdisjoint(texts)
    return not told and not _BEGINS.isdisjoint(texts) and not _ANNOUNCED.isdisjoint(texts)


def _end(work: Working) -> int:
    """The screw is seated: the count made so far is the reading."""
    work.covered.append((0, len(work.texts)))
    work.remark(0, len(work.texts), "end of a count")
    return len(work.texts)


def _reading(work: Working, count: Counting, heard_wrong: tuple[Flag, ...]) -> Reading:
    component = work.sheet.get(count.component)
    characteristic = turn_characteristic(component)
    assert component is not None  # a count is always of a component with turns
    assert characteristic is not None
    assert count.count is not None
    key = (component.id, count.which, characteristic.id)
    if count.reading is not None:
        book = work.first.get((key, work.stage))
        if book is not None and book.id == count.reading:
            del work.first[(key, work.stage)]
    doubts = side_doubts(work, key, work.stage, characteristic, count.count, heard=count.heard)
    repeat_of, more = work.repeat(key, work.stage, count.count, exact=False)
    made = work.make(
        Reading,
        work.head,
        len(work.texts),
        flags=[*doubts, *more, *heard_wrong, *(which_flags(component) if count.which is None else ())],
        component=component.id,
        which=count.which,
        characteristic=characteristic.id,
        value=count.count,
        unit="turn" if get_unit(characteristic.unit).kind == "turn" else "1",
        unit_said=None,
        in_sheet_unit=count.count,
        repeat_of=repeat_of,
    )
    made = made.model_copy(
        update={"heard": count.heard, "start_s": count.start_s if count.start_s is not None else made.start_s}
    )
    work.put(made)
    if count.reading is not None:
        work.supersede([count.reading], made.id, 0, len(work.texts))
    return made
