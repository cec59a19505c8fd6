"""A part or a place named in running words: "the right one", "pilot jet", "the other one". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.statements import ActionNote, ConditionNote, Movement, Reading

About = Reading | ConditionNote | ActionNote | Movement
_REACH: Final = 3  # utterances of mere talk between what was said and what is said of it
_LEADS: Final = frozenset({"the", "this", "that", "those", "on"})
_NOUNS: Final = frozenset({"one", "ones", "side", "hand"})
_OTHER: Final = frozenset({"other", "opposite"})
_TWO: Final = 2


@dataclass(frozen=True, slots=True)
class OneNamed:
    """What the tokens [begin, end) name; *begin* is behind its article."""

    begin: int
    end: int
    places: tuple[str, ...]  # position words
    parts: tuple[str, ...]  # components; () where none is named
    other: bool = False
    read: tuple[CharacteristicKey, ...] = ()  # what is read of it: "float height"

    @property
    def only_places(self) -> bool:
        """No part and nothing that is read is named."""
        return not (self.parts or self.read)

    def tells(self, one: About) -> bool:
        """True where *one* is told of what is named."""
        if self.other or not set(self.places) <= set((one.which or "").split()):
            return False
        if self.read and not (isinstance(one, Reading) and (one.component, one.characteristic) in self.read):
            return False
        return not self.parts or one.component in self.parts


def one_named(texts: Sequence[str], at: int, lexicon: Lexicon, *, read: bool = False) -> OneNamed | None:
    """The part or the place that is named from token *at* on; None where there is none.

    With *read*, what is read may be named too: "left float height".
    """
    said = tuple(texts)
    begin = at + (at < len(said) and said[at] in _LEADS)
    at, other = begin, False
    places: list[str] = []
    parts: tuple[str, ...] = ()
    values: tuple[CharacteristicKey, ...] = ()
    while at < len(said):
        text = said[at]
        found = lexicon.match(said, at) if text else None
        meant = found[1] if found is not None else None
        named = (meant.parts or meant.aliases) if meant is not None else ()
        placed = text in lexicon.positions or text in lexicon.other_places
        if text in _OTHER and not (other or parts):
            other, at = True, at + 1
        elif found is not None and named and not parts and not (found[0] == 1 and placed):
            parts, at = named, at + found[0]
        elif read and found is not None and meant is not None and meant.characteristics and not values:
            values, at = meant.characteristics, at + found[0]
        elif placed and not (parts or values):
            places.append(lexicon.other_places.get(text, text))
            at += 1
        else:
            break
    if not (places or parts or other or values):
        return None
    if not (parts or values) and at < len(said) and said[at] in _NOUNS:
        at += 1
    return OneNamed(begin, at, tuple(places), parts, other, values)


def last_told(state: Discourse) -> list[About]:
    """What still holds of the last utterance that told of a part, over mere talk."""
    for group in reversed(state.recent[-_REACH:]):
        told: list[About] = [s for s in group if isinstance(s, About) and s.id not in state.gone]
        if told:
            return told
    return []


def other_place(told: Sequence[About], lexicon: Lexicon) -> str | None:
    """The place of the other one of two, where all that was *told* is of one of them."""
    of = {(s.component, s.which) for s in told}
    component, which = of.pop() if len(of) == 1 else (None, None)
    spec = lexicon.sheet.get(component) if component is not None else None
    if spec is None or which not in spec.positions or len(spec.positions) != _TWO:
        return None
    return next(place for place in spec.positions if place != which)


def is_of(told: Sequence[About], named: OneNamed) -> bool:
    """True where what was *told* is all of the one *named*."""
    return all(named.tells(s) for s in told)


def may_be_of(told: Sequence[About], named: OneNamed, lexicon: Lexicon) -> bool:
    """True where what was *told* may be of the one *named* instead, and is not of it already."""
    if is_of(told, named):
        return False
    if named.parts:
        return True
    words = set(named.places)
    specs = [lexicon.sheet.get(s.component) if s.component is not None else None for s in told]
    return all(
        spec is not None and any(words <= set(place.split()) for place in spec.whiches) for spec in specs
    )


def place_meant(told: Sequence[About], named: OneNamed, lexicon: Lexicon) -> str | None:
    """ "Front inner pad …", "no, the rear": the rear inner; None where it is not so told apart."""
    of = {(s.component, s.which) for s in told}
    component, which = of.pop() if len(of) == 1 else (None, None)
    spec = lexicon.sheet.get(component) if component is not None else None
    words = (which or "").split()
    if spec is None or not named.only_places or len(named.places) != 1 or len(words) < _TWO:
        return None
    alike = [p for p in spec.positions if named.places[0] in p.split()]
    alike = [p for p in alike if len(set(p.split()) & set(words)) == len(words) - 1]
    return alike[0] if len(alike) == 1 else None
