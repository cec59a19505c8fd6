"""Whose turns are counted aloud: the part named, the one being counted, or the one in hand."""

from __future__ import annotations

from saywright.sheets.model import Characteristic, Component
from saywright.understanding.bench_words import COUNT_TALK
from saywright.understanding.counting.aloud import is_counted
from saywright.understanding.discourse import Counting
from saywright.understanding.sides.hand_sides import on_the_side
from saywright.understanding.sides.turning import head_side
from saywright.understanding.statements import Reading
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_SEATS = frozenset({"seat", "seats"})
_LEADS = frozenset({"the", "a", "my", "its", "new", "old", "same"})  # before the name of what is counted
_HEAD = 3  # tokens in which "and the other one" tells whose count begins
_SHARES = frozenset({"half", "quarter", "quarters", "eighth", "eighths"})
_JOINS = frozenset({BREAK, "and", "then", "so", "now", "but"})


def turn_characteristic(component: Component | None) -> Characteristic | None:
    if component is None:
        return None
    return next((c for c in component.characteristic if is_counted(c)), None)


def counted_part(
    work: Working, texts: tuple[str, ...], running: Counting | None
) -> tuple[Component, str | None] | None:
    """The component whose turns are counted: named here, being counted, or in hand."""
    named = _named_component(work, texts)
    across = head_side(texts, work.hand, work.sheet) if "other" in texts else None
    counted = work.sheet.get(running.component) if running is not None else None
    if named is not None and not (counted is not None and _holds(named, texts, counted)):
        which = (
            (across if across in named.positions else None)
            or _place_said(texts, named)
            or _side_turned_to(work, named)
        )
        return (named, which) if turn_characteristic(named) is not None else None
    held = work.hand
    for component_id, which in (
        (running.component, running.which) if running else (None, None),
        (held.component, held.which) if held else (None, None),
    ):
        component = work.sheet.get(component_id)
        if component is not None and turn_characteristic(component) is not None:
            there = across if across in component.positions else _the_other(texts, component, which)
            return component, there or _place_said(texts, component, which) or which
    return _alone_there(work, texts)


def _alone_there(work: Working, texts: tuple[str, ...]) -> tuple[Component, str | None] | None:
    """ "low half, one, one and a half": the one part that has turns and such a place."""
    if _SHARES.isdisjoint(texts):
        return None
    turned = ((c, _place_said(texts, c)) for c in work.sheet.component if _has_turns(work, c.id))
    found = [(c, place) for c, place in turned if place is not None]
    return found[0] if len(found) == 1 else None


def _the_other(texts: tuple[str, ...], component: Component, which: str | None) -> str | None:
    """ "and the other one, half, one, one and a half": the fellow of the one that was counted, of two."""
    if "other" not in texts[:_HEAD] or which not in component.positions or len(component.positions) != 2:
        return None
    return next(p for p in component.positions if p != which)


def unannounced(work: Working) -> Counting | None:
    """A bare number of turns that ended the last utterance may be the start of a count."""
    last = work.before.open_number
    if (
        last is None
        or last.utterance != work.now - 1
        or last.component is None
        or last.characteristic is None
    ):
        return None
    spec = work.sheet.find(last.component, last.characteristic)
    if spec is None or not is_counted(spec):
        return None
    reading = next((s for s in work.newest() if s.id == last.reading), None)
    if not isinstance(reading, Reading) or reading.unit_said is not None:
        return None
    return Counting(
        last.component, last.which, reading.value, last.heard, last.start_s, last.utterance, reading.id
    )


def is_of_another(
    target: tuple[Component, str | None] | None, running: Counting | None, work: Working
) -> bool:
    """ "Front two and a quarter" … "rear's two and a half": no count that the one before began."""
    if target is None or running is None or work.before.counting is not None:
        return False
    return is_its_fellow(target, running)


def is_its_fellow(target: tuple[Component, str | None] | None, running: Counting | None) -> bool:
    """ "Front screw, one two and a half" … "rear screw three": the count of the front one is over.

    So it is where another part is named: "high half, one, one turn" … "low one and a half".
    """
    if target is None or running is None:
        return False
    if target[0].id != running.component:
        return True
    return target[1] is not None and running.which is not None and target[1] != running.which


def words_of_places(component: Component) -> set[str]:
    """The words of its positions: front, rear, port, … of "front port"."""
    return {word for position in component.positions for word in position.split()}


def _side_turned_to(work: Working, component: Component) -> str | None:
    """ "Now the left one" … "air screw, counting in": the left one's."""
    here = on_the_side(component.stations, work.hand)
    return here[0] if len(here) == 1 else None


def _named_component(work: Working, texts: tuple[str, ...]) -> Component | None:
    """The part with the longest name among *texts*, before others one that has turns."""
    best: tuple[bool, int, str] | None = None
    behind = 0
    for at in range(len(texts)):
        found = work.lexicon.match(texts, at) if texts[at] not in _SEATS else None  # "there she seats"
        if found is None or not (found[1].parts or (found[1].aliases and at >= behind)):
            continue
        behind = max(behind, at + found[0])
        turned = [c for c in found[1].parts[:1] or found[1].aliases if _has_turns(work, c)]
        named = turned[0] if len(turned) == 1 else found[1].parts[0] if found[1].parts else None
        if named is not None and (best is None or (bool(turned), found[0]) > best[:2]):
            best = (bool(turned), found[0], named)
    if best is None or not best[0]:
        counted = _told_apart(work, texts)
        best = (True, 1, counted.pop()) if len(counted) == 1 else best
    return work.sheet.get(best[2]) if best is not None else None


def head_end(work: Working, texts: tuple[str, ...], run: int, counted: str) -> int:
    """Where what is told before a count ends: "spool's scored and adjusting screw out half one …"; else 0.

    *run* is the first token of the count, *counted* the part whose turns they are.
    """
    at, end = 0, run
    while at < run:
        found = work.lexicon.match(texts, at)
        if found is not None and counted in {*found[1].parts, *found[1].aliases}:
            end = at
        at += found[0] if found is not None else 1
    while end and texts[end - 1] in (COUNT_TALK if end == run else _LEADS):
        end -= 1
    while end and texts[end - 1] in _JOINS:
        end -= 1
    return 0 if COUNT_TALK.issuperset(texts[:end]) else end


def _holds(named: Component, texts: tuple[str, ...], counted: Component) -> bool:
    """ "front carb port side one, two": one place of what is *counted* is told, by what has a word of it."""
    place = _place_said(texts, counted)
    shared = place is not None and not words_of_places(named).isdisjoint(place.split())
    return shared and turn_characteristic(named) is None


def _has_turns(work: Working, component: str) -> bool:
    return turn_characteristic(work.sheet.get(component)) is not None


def _told_apart(work: Working, texts: tuple[str, ...]) -> set[str]:
    """ "the high one": the high speed screw; "low screw": the mixture screw of which there is a low one."""
    told: set[str] = set()
    for at in range(len(texts) - 1):
        head = work.lexicon.heads.get(texts[at], ()) if texts[at + 1] == "one" else ()
        short = work.lexicon.names(texts, at + 1).aliases
        placed = [c for c in short if (part := work.sheet.get(c)) is not None and texts[at] in part.positions]
        told.update(c for c in (*head, *placed) if turn_characteristic(work.sheet.get(c)) is not None)
    return told


def _place_said(texts: tuple[str, ...], component: Component, held: str | None = None) -> str | None:
    """Which of several *texts* name by its position; None where they name none, or more than one.

    Of a position in two words one is enough where the one *held* has the other: "starboard".
    """
    told = words_of_places(component) & {*texts}
    said = [p for p in component.positions if set(p.split()) <= told]
    if held is not None and told and not said:
        said = [p for p in component.positions if told < {*p.split()} <= told | {*held.split()}]
    return said[0] if len(said) == 1 else None
