"""Counting aloud across utterances: begins with the talk of it or with a run, ends when the screw is seated.

Each number makes a reading at once, and the next step takes its place: whatever breaks the
count off, the record holds the last number that was said.
"""

from __future__ import annotations

from dataclasses import replace

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import parse_value
from saywright.sheets.model import Component
from saywright.understanding.aside.time_of_day import tells_time
from saywright.understanding.bench_words import COUNT_TALK
from saywright.understanding.counting.aloud import Count
from saywright.understanding.counting.both_counted import both_before, both_behind
from saywright.understanding.counting.count_begins import (
    BEGINS,
    OF_COUNTS,
    begins_anew,
    find_run,
    is_announced,
    lost_at,
    may_count,
    starts_here,
    tells_to_count,
)
from saywright.understanding.counting.count_ends import (
    called_at_last,
    doubts,
    is_told,
    put_right_at_last,
    puts_right,
    stopped_at,
    sums_up,
    tells_end,
    without_sum,
)
from saywright.understanding.counting.count_targets import (
    counted_part,
    head_end,
    is_its_fellow,
    is_of_another,
    turn_characteristic,
    unannounced,
)
from saywright.understanding.counting.counted_moves import comes_out, put_in
from saywright.understanding.counting.no_counts import (
    counts_no_turns,
    leads_to_count,
    may_be_of_another,
    tells_value,
)
from saywright.understanding.discourse import Counting
from saywright.understanding.sides.carried_sides import side_doubts
from saywright.understanding.statements import Reading
from saywright.understanding.subjects.parts import which_flags
from saywright.understanding.working import Working
from saywright.units import get_unit


def count_turns(work: Working, begin: int) -> int:
    """Take the head of this utterance as counting aloud; tokens read, *begin* where it is other talk."""
    texts = work.texts[begin:]
    running = work.before.counting or unannounced(work)
    work.counting = None
    if tells_time(texts) or (running is None and not may_count(texts)):
        return begin
    lost = lost_at(texts)
    if lost:
        of_another = is_its_fellow(counted_part(work, texts[:lost], running), running)
        texts, running = texts[lost:], _anew(work, None if of_another else running, texts[:lost])
        if running is not None and find_run(texts, None) is None:
            return len(work.texts) if _again(work, running) else begin
    if running is not None and sums_up(texts, running.count, work):
        return _sum(work, running)
    if running is not None and texts[:1] != ("no",) and begins_anew(texts, running):
        running = None
    if running is not None and tells_end(texts) and COUNT_TALK.issuperset(texts):
        return _end(work)
    counted = parse_value(running.count) if running is not None and running.count is not None else None
    run = _called(find_run(texts, counted), texts, work)
    begins = running is not None or _begins(work, texts, run)
    target = counted_part(work, texts, running) if begins else None
    if work.before.counting is not None and is_its_fellow(target, running):
        running, begins = None, _begins(work, texts, run)
    if not begins or is_of_another(target, running, work):
        return begin
    if target is None or run is None:
        return len(work.texts) if _other_talk(work, texts, target, running) else begin
    put_right = work.before.counting is not None and puts_right(texts, run)
    if running is not None and not put_right and not leads_to_count(texts[: run.start], target[0], work):
        return len(work.texts) if _other_talk(work, texts, target, running) else begin
    if running is None and not begin + lost:
        work.head = _head(work, texts, run.start, target[0])
    return _take(work, begin + lost, run, target, running, put_right=put_right)


def _begins(work: Working, texts: tuple[str, ...], run: Count | None) -> bool:
    """True where a count is announced, or the run begins one and no other value is told before it."""
    if run is None:
        return is_announced(texts)
    if not starts_here(work, texts, run, ended=tells_end(texts)):
        return False
    if BEGINS.isdisjoint(texts) and counts_no_turns(texts, run, work):
        return False
    return not tells_value(texts[: run.start], work)


def _take(
    work: Working,
    begin: int,
    run: Count,
    target: tuple[Component, str | None],
    running: Counting | None,
    *,
    put_right: bool,
) -> int:
    """The run behind *begin* as the reading so far; tokens read."""
    texts = work.texts[begin:]
    both = both_behind(texts[run.end :], target[0])
    rest = texts[run.end : len(texts) - both]
    end = len(work.texts) if is_told(rest, run, work) else begin + run.end
    count = _counted(running, target, run, work)
    work.named(count.component or target[0].id, count.which)
    work.covered.append((work.head, end))
    put_in(work, tuple(t for t in texts[: run.start] if t not in BEGINS), target[0])
    hedge = (flag(FlagKind.APPROXIMATE, run.hedge),) if run.hedge else ()
    unclear = (flag(FlagKind.CORRECTION_UNCLEAR, " ".join(texts)),) if put_right else ()
    strange = running is None and may_be_of_another(texts, run, target[0], work)
    other = (flag(FlagKind.NUMBER_ODD, "it may be of something else"),) if strange else ()
    told = (*hedge, *unclear, *other, *doubts(rest))
    if running is None and (both or both_before(texts[: run.start], target[0])):
        for which in target[0].whiches:
            _reading(work, replace(count, which=which), told)
        return end
    made = _reading(work, count, told)
    comes_out(work, count)
    summed = len(without_sum(rest, run, work)) < len(rest)
    work.counting = None if summed or tells_end(texts) else replace(count, reading=made.id)
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
    return end if OF_COUNTS.isdisjoint(texts[:end]) else 0


def _called(run: Count | None, texts: tuple[str, ...], work: Working) -> Count | None:
    """The run with what it is called at last, or put right to."""
    if run is None or run.said < 2:
        return run
    called = called_at_last(texts[run.end :], work)
    last = called or put_right_at_last(texts[run.end :], work) or stopped_at(texts[run.end :], run, work)
    return (
        replace(run, value=last[0], end=run.end + last[1], hedge="call it" if called else "") if last else run
    )


def _anew(work: Working, running: Counting | None, before: tuple[str, ...]) -> Counting | None:
    """The count that begins again: the one that runs, or the one broken off in these words *before*."""
    if running is not None:
        return replace(running, count=None, heard="", start_s=None)
    target = counted_part(work, before, None)
    if target is None or find_run(before, None) is None:
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
    if target is not None and running is None and is_announced(texts):
        work.counting = Counting(target[0].id, target[1], None, "", None, work.now)
        work.named(target[0].id, target[1])
        work.remark(0, len(texts), "start of a count")
        return not {"out", "off", "in"} & set(texts) or tells_to_count(texts)
    if running is not None and work.before.counting is not None and work.now - running.utterance <= 2:
        work.counting = running
    return False


def _end(work: Working) -> int:
    """The screw is seated: the count made so far is the reading."""
    work.covered.append((0, len(work.texts)))
    work.remark(0, len(work.texts), "end of a count")
    return len(work.texts)


def _sum(work: Working, running: Counting) -> int:
    """The count made so far is told once more: the reading, with these words too."""
    work.covered.append((0, len(work.texts)))
    heard = " ".join(word.text for word in work.words)
    _reading(work, replace(running, heard=f"{running.heard} … {heard}"), ())
    comes_out(work, running)
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
