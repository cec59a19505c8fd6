"""Counting aloud across utterances: begins with the talk of it or with a run, ends when the screw is seated."""

from __future__ import annotations

from saywright.flags import Flag
from saywright.quantity import parse_value
from saywright.sheets.model import Characteristic, Component
from saywright.understanding.counting import Count, count_run
from saywright.understanding.discourse import Counting
from saywright.understanding.lexicon import Phrase, component_phrases
from saywright.understanding.statements import Reading, Unclear
from saywright.understanding.working import Working
from saywright.units import get_unit

_LOOSE = frozenset(
    "that is it and seated bottomed lightly gently home now , so there the out from stops stop turns turn uh um okay right all way in down on its seat we are "
    "just touches then".split()
)
_ENDS = frozenset({"seated", "bottomed", "bottoms", "home", "stops", "seat", "bottom"})
_BEGINS = frozenset({"counting", "count", "turning", "winding", "screwing"})
_LOST = (
    ("lost", "count"),
    ("start", "again"),
    ("start", "over"),
    ("count", "again"),
    ("from", "the", "top"),
    ("starting", "again"),
)


def count_turns(work: Working, begin: int) -> bool:
    """Take this utterance as counting aloud; False where it is other talk."""
    texts = work.texts[begin:]
    running = work.before.counting
    if running is not None and _lost(texts):
        work.counting = Counting(running.component, running.which, None, (), None, work.now)
        work.remark(begin, len(work.texts), "count lost")
        return True
    first = next((i for i, text in enumerate(texts) if text not in _LOOSE), len(texts))
    target = _target(work, texts)
    after = parse_value(running.count) if running is not None and running.count is not None else None
    ended = bool(_ENDS & set(texts))
    if running is not None and first == len(texts) and ended:
        return _finish(work, running, None, begin)
    run, at = _find_run(texts, after)
    if run is None or target is None:
        return _begins(work, texts, target)
    if run.said < 2 and running is None and not (ended and _BEGINS & set(texts)):
        return False
    if any(text not in _LOOSE for text in texts[run.end :]) and running is None and not ended:
        return False
    if running is not None and any(text not in _LOOSE for text in texts[:at]):
        return _break_off(work, running, begin)
    count = Counting(
        target[0].id, target[1], run.value, (*_heard(running), *texts), _start(work, running), work.now
    )
    if ended:
        return _finish(work, count, run, begin)
    work.counting = count
    work.covered.append((0, len(work.texts)))
    work.named(target[0].id, target[1])
    return True


def _find_run(texts: tuple[str, ...], after: object) -> tuple[Count | None, int]:
    from fractions import Fraction

    start = after if isinstance(after, Fraction) else None
    best: Count | None = None
    for at in range(len(texts)):
        run = count_run(texts, at, start)
        if run is not None and (best is None or run.said > best.said):
            best = run
        if best is not None and run is None and at > best.start:
            break
    return best, best.start if best else 0


def _lost(texts: tuple[str, ...]) -> bool:
    return any(texts[i : i + len(words)] == words for words in _LOST for i in range(len(texts)))


def _heard(running: Counting | None) -> tuple[str, ...]:
    return (*running.heard, "…") if running is not None else ()


def _start(work: Working, running: Counting | None) -> float | None:
    if running is not None and running.start_s is not None:
        return running.start_s
    return work.utterance.start_s


def _turn_characteristic(component: Component | None) -> Characteristic | None:
    if component is None:
        return None
    return next((c for c in component.characteristic if get_unit(c.unit).kind == "turn"), None)


def _target(work: Working, texts: tuple[str, ...]) -> tuple[Component, str | None] | None:
    """The component whose turns are counted: named here, being counted, or in hand."""
    named = _named_component(work, texts)
    if named is not None:
        return (named, None) if _turn_characteristic(named) is not None else None
    running = work.before.counting
    ids = [running.component if running else None, work.hand.component if work.hand else None]
    for index, component_id in enumerate(ids):
        component = work.sheet.get(component_id)
        if component is not None and _turn_characteristic(component) is not None:
            which = (
                running.which
                if index == 0 and running is not None
                else work.hand.which
                if work.hand
                else None
            )
            return component, which
    return None


def _named_component(work: Working, texts: tuple[str, ...]) -> Component | None:
    best: tuple[int, Component] | None = None
    for component in work.sheet.component:
        for phrase, _ in component_phrases(component):
            if _contains(texts, phrase) and (best is None or len(phrase) > best[0]):
                best = (len(phrase), component)
    return best[1] if best is not None else None


def _contains(texts: tuple[str, ...], phrase: Phrase) -> bool:
    return any(texts[i : i + len(phrase)] == phrase for i in range(len(texts) - len(phrase) + 1))


def _begins(work: Working, texts: tuple[str, ...], target: tuple[Component, str | None] | None) -> bool:
    """ "Air screw, counting it in": counting begins, without a number yet."""
    running = work.before.counting
    if (
        target is not None
        and running is None
        and _BEGINS & set(texts)
        and {"counting", "in", "turns"} & set(texts)
    ):
        work.counting = Counting(target[0].id, target[1], None, (), None, work.now)
        work.named(target[0].id, target[1])
        return False
    if running is not None and running.count is not None:
        return _break_off(work, running, 0)
    return False


def _break_off(work: Working, running: Counting, begin: int) -> bool:
    """Other talk: the count waits one utterance, then it is asked about."""
    del begin
    if running.count is None or work.now - running.utterance <= 1:
        return False
    work.counting = None
    work.put(
        work.make(
            Unclear,
            0,
            0,
            component=running.component,
            reason=f"turns were counted to {running.count}, but not to an end",
        ).model_copy(update={"heard": " ".join(running.heard), "start_s": running.start_s})
    )
    return False


def _finish(work: Working, count: Counting, run: Count | None, begin: int) -> bool:
    component = work.sheet.get(count.component)
    characteristic = _turn_characteristic(component)
    if component is None or characteristic is None or count.count is None:
        return False
    del run, begin
    work.counting = None
    key = (component.id, count.which, characteristic.id)
    repeat_of, more = work.repeat(key, work.stage, count.count, exact=False)
    flags: list[Flag] = [*more]
    made = work.make(
        Reading,
        0,
        len(work.texts),
        flags=flags,
        component=component.id,
        which=count.which,
        characteristic=characteristic.id,
        value=count.count,
        unit="turn",
        unit_said=None,
        in_sheet_unit=count.count if characteristic.unit == "turn" else None,
        repeat_of=repeat_of,
    )
    heard = " ".join(count.heard) if count.heard else made.heard
    if made.heard and not heard.endswith(made.heard):
        heard = f"{heard} … {made.heard}" if heard != made.heard else heard
    work.put(
        made.model_copy(
            update={"heard": heard, "start_s": count.start_s if count.start_s is not None else made.start_s}
        )
    )
    work.named(component.id, count.which)
    return True
