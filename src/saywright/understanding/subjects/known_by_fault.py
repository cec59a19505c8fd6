""" "Cleaned up the seized adjuster", "the chipped inlet": the one found so is told by its place. Pure.

The fault is on record, so the place of the one takes its word's place; else it is found anew.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.sheets.model import Component
from saywright.understanding.discourse import Discourse
from saywright.understanding.doings.roundabout import put_words
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import spoken_form

if TYPE_CHECKING:
    from saywright.understanding.lexicon import Lexicon

_POINTS: Final = frozenset({"the", "that"})
_STUCK: Final = frozenset({"seized", "sticking", "stiff", "gummed_up"})  # one of them is said for another
_LONGEST: Final = 2  # words of a fault


@called_by(_POINTS)
def known_by_fault(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with the place of the one part that has the fault said before its name."""
    if not state.seen:
        return tokens
    texts = tuple([token.text for token in tokens])
    for at in range(len(texts) - 2):
        if texts[at] not in _POINTS:
            continue
        end, faults = _faults(texts, at + 1, lexicon)
        if not faults or end >= len(texts):
            continue
        named = _named(texts, end, lexicon)
        place = _place(named[1], faults, state, texts) if named is not None else ()
        if named is not None and place:
            length, _, whole = named
            name = whole or texts[end : end + length]
            return put_words(tokens, at + 1, end + length, *place, *name)
    return tokens


def _faults(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> tuple[int, tuple[str, ...]]:
    """The token behind the fault at *at*, and what it may be; () where none stands there."""
    for size in range(_LONGEST, 0, -1):
        known = lexicon.table.get(texts[at : at + size])
        if known is not None and known.conditions and not (known.parts or known.positions):
            return at + size, known.conditions
    return at, ()


def _named(
    texts: tuple[str, ...], at: int, lexicon: Lexicon
) -> tuple[int, Component, tuple[str, ...]] | None:
    """How long the name at *at* is, whose it is, and that name in full where it is said in short."""
    found = lexicon.match(texts, at)
    if found is not None and len(parts := found[1].parts) == 1:
        component = lexicon.sheet.get(parts[0])
        return (found[0], component, ()) if component is not None else None
    if found is not None and (found[1].parts or found[1].aliases or found[1].acts):
        return None
    short = texts[at]
    so = [
        (c, name)
        for c in lexicon.sheet.component
        for name, many in component_names(c)
        if len(name) > 1 and name[0] == short and not many
    ]
    if len({c.id for c, _ in so}) != 1:
        return None
    return 1, so[0][0], so[0][1]


def _place(
    component: Component, faults: tuple[str, ...], state: Discourse, texts: tuple[str, ...]
) -> tuple[str, ...]:
    """The words of the place of the only one of those that was found so; () where that is open."""
    if not component.positions or not {w for p in component.positions for w in p.split()}.isdisjoint(texts):
        return ()
    hand = state.hand
    another = hand is not None and hand.component == component.id and hand.which is not None
    stuck = not another and not _STUCK.isdisjoint(faults)  # "trailing piston": "the stiff piston" may be it
    wanted = set(faults) | (_STUCK if stuck else set())
    found = {w for c, w, what, there in state.seen if c == component.id and there and what in wanted}
    which = next(iter(found)) if len(found) == 1 else None
    if which is None or which not in component.positions:
        return ()
    if hand is not None and hand.turned and hand.side and not _told_there(component, which, hand.side, state):
        return ()  # another may be meant, on the side that was turned to
    return spoken_form(which)


def _told_there(component: Component, which: str, side: str, state: Discourse) -> bool:
    """True where *which* is on *side*, or how the one there is was told."""
    words = set(side.split())
    if words & set(which.split()):
        return True
    here = {p for p in component.positions if words & set(p.split())}
    return any(c == component.id and w in here for c, w, _, _ in state.seen)
