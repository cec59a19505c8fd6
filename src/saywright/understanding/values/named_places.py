"""Where on a part a value was read: "top forty eight oh two", "… at three o'clock", "at ninety degrees".

A place counts only beside a number, so that "the top is scored" stays a finding. What is taken as a
place is read no further: no position of several parts, no number, no time of day.
"""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field, replace
from typing import Final

from saywright.sheets.model import Characteristic, Component, Sheet
from saywright.understanding.bench_words import PLACE_BETWEEN, PLACE_TALK
from saywright.understanding.meanings import NOTHING, Meaning, Name
from saywright.understanding.numbers.words import CLASSES, OH
from saywright.understanding.tokens import BREAK, HESITATIONS, Token, spoken_form
from saywright.units import get_unit

TAKEN: Final = "there"  # what the reader sees in the place of a place
# Where a sheet names no places of a length, these still tell two readings apart.
COMMON: Final = ("top", "middle", "bottom", "front", "zero degrees", "ninety degrees")
_LEADS: Final = frozenset({"at", "in", "on", "near", "by", "towards", "across", "from", "the", "its"})
_AT: Final = frozenset({"at", "in", "on", "near", "by", "towards"})
_BEHIND: Final = frozenset({"o'clock", "oclock", "position", "end"})
_NUMBERS: Final = frozenset(CLASSES) | OH
_VERBS: Final = frozenset({"is", "was", "reads", "measures", "i", "we"})  # none goes on from a number
_REACH: Final = 6  # tokens between a place and its number
_OF_ONE = (["new"], ["old"], ["good"], ["original"])  # before "one", which is no number there


@dataclass(frozen=True, slots=True)
class Places:
    """Every place that a value can be read at."""

    names: Mapping[Name, str]  # spoken form → place
    heads: frozenset[str]  # first words of the spoken forms
    shared: Mapping[Name, tuple[str, frozenset[str]]] = field(default_factory=dict)
    # form that is a position of other parts too → the place, and the components that have it

    def here(self, named: AbstractSet[str], placed: AbstractSet[str]) -> Places:
        """Those that count where parts *named* are talked of, *placed* those with positions among them."""
        forms = {n: place for n, (place, of) in self.shared.items() if named & of and not named & placed}
        if not forms:
            return self
        return Places({**forms, **self.names}, self.heads | {form[0] for form in forms})


@dataclass(frozen=True, slots=True)
class Spot:
    """A place that was named, in tokens."""

    start: int
    end: int  # behind its last token
    name: str  # as the sheet has it
    led: bool  # "at the …"
    heads: bool = False  # "front journal fifteen …": what is read stands with it, before the number


def spoken_places(sheet: Sheet, table: Mapping[Name, Meaning]) -> Places:
    """Spoken form → place, of every place that a value of *sheet* can be read at.

    A position of several parts is none, and no common word by which *table* knows a part.
    """
    found: dict[Name, str] = {}
    shared: dict[Name, tuple[str, frozenset[str]]] = {}
    for component, characteristic in sheet.characteristics():
        for form, place in _forms(places_of(component, characteristic)):
            known = table.get(form, NOTHING)
            own = all(set(form).isdisjoint(position.split()) for position in component.positions)
            if known.positions and place in characteristic.places and own:
                of = shared[form][1] if form in shared else frozenset()
                shared[form] = place, of | {component.id}
            other = known.parts or known.aliases or known.characteristics or known.conditions
            whole = place in characteristic.places and form == spoken_form(place)
            if not form or known.positions or (other and not whole):
                continue
            found.setdefault(form, place)
            if form[-1] == "degrees" and place in characteristic.places:
                found.setdefault(form[:-1], place)
    return Places(found, frozenset(form[0] for form in found), shared)


def _forms(places: Sequence[str]) -> list[tuple[Name, str]]:
    """Spoken form → place; also without its last word where all end alike: "at the inlet" of two sides."""
    found = [(spoken_form(place), place) for place in places]
    ends = {form[-1] for form, _ in found if form}
    if len(found) > 1 and len(ends) == 1 and all(len(form) > 1 for form, _ in found):
        found += [(form[:-1], place) for form, place in found]
    return found


def places_of(component: Component, characteristic: Characteristic) -> tuple[str, ...]:
    """The places at which a value can be read: the sheet's, else those of common speech for a length."""
    if characteristic.places or characteristic.formula is not None:
        return characteristic.places
    single = component.count == 1 and not component.positions
    return COMMON if single and get_unit(characteristic.unit).kind == "length" else ()


def take_places(
    tokens: tuple[Token, ...],
    known: Places,
    words: Container[str],
    parts: Mapping[Name, Meaning],
) -> tuple[tuple[Token, ...], tuple[Spot, ...], str | None]:
    """The tokens with each place beside a number put aside; those places; the place that waits for its value.

    The last is one that ends an utterance of nothing but *words* of the sheet: "bore, at the top".
    """
    texts = tuple([token.text for token in tokens])
    if known.heads.isdisjoint(texts):
        return tokens, (), None
    every = [spot for spot in _spots(texts, known.names) if not _begins_name(texts, spot, parts)]
    spots = tuple(_headed(texts, spot, parts) for spot in every if _beside_number(texts, spot, parts))
    waiting = None
    if every and not spots and _only_named(texts, every[-1], words):
        waiting, spots = every[-1].name, (every[-1],)
    taken = {at for spot in spots for at in range(spot.start, spot.end)}
    return tuple(replace(t, text=TAKEN) if at in taken else t for at, t in enumerate(tokens)), spots, waiting


def _headed(texts: Sequence[str], spot: Spot, parts: Mapping[Name, Meaning]) -> Spot:
    """*spot*, and whether it heads a value: "front journal fifteen", "journal front fifteen"."""
    behind = parts.get(tuple(texts[spot.end : spot.end + 1]), NOTHING).characteristics
    before = parts.get(tuple(texts[max(0, spot.start - 1) : spot.start]), NOTHING).characteristics
    number = spot.end + bool(behind)
    heads = bool(behind or before) and _leads_to_number(texts[number : number + _REACH])
    return replace(spot, heads=heads)


def _begins_name(texts: Sequence[str], spot: Spot, parts: Mapping[Name, Meaning]) -> bool:
    """ "two bottom bushes", "top pressure", "water in the bottom": the place is a word of a longer name."""
    state = tuple(texts[max(0, spot.start - 1) : spot.end])
    if len(state) > spot.end - spot.start and parts.get(state, NOTHING).conditions:
        return True
    name = tuple(texts[spot.end - 1 : spot.end + 1])
    known = parts.get(name, NOTHING)
    return len(name) > 1 and bool(known.parts or known.characteristics)


def _only_named(texts: Sequence[str], spot: Spot, words: Container[str]) -> bool:
    """True where nothing but names stands before the place, and nothing behind it."""
    if not HESITATIONS.issuperset(texts[spot.end :]) or "be" in texts:
        return False  # "I've to be out of here at three"
    return all((t in words or t in PLACE_TALK) and not _is_number(t) for t in texts[: spot.start])


def _spots(texts: Sequence[str], known: Mapping[Name, str]) -> list[Spot]:
    longest = max(map(len, known))
    found: list[Spot] = []
    at = 0
    while at < len(texts):
        spot = next((s for n in range(longest, 0, -1) if (s := _spot(texts, at, n, known)) is not None), None)
        if spot is not None:
            found.append(spot)
        at = spot.end if spot is not None else at + 1
    return found


def _spot(texts: Sequence[str], at: int, length: int, known: Mapping[Name, str]) -> Spot | None:
    name = tuple(texts[at : at + length])
    place = known.get(name)
    if place is None or len(name) < length:
        return None
    start, end = at, at + length
    while start > 0 and texts[start - 1] in _LEADS:
        start -= 1
    led = not _AT.isdisjoint(texts[start:at])
    behind = texts[end] if end < len(texts) else ""
    if behind in _BEHIND or (behind == "degrees" and name[-1] != "degrees"):
        end += 1
    elif not _NUMBERS.isdisjoint(name) and not (led and _stands_alone(name, behind)):
        return None  # "three" alone is a number, "ninety degrees" an angle, "at ninety five" a value
    if end < len(texts) and texts[end] in {"of", "one", "ones"}:
        return None  # "the top of it", "the top one"
    return Spot(start, end, place, led)


def _stands_alone(name: Name, behind: str) -> bool:
    """True where a number that is a place does not go on, and counts nothing: "at six twenty"."""
    tens = name[-1] in CLASSES and CLASSES[name[-1]][0] == "TENS"
    goes_on = tens and behind in CLASSES and CLASSES[behind][0] == "DIGIT"
    return behind in {"", BREAK, "and", *_VERBS} or (_is_number(behind) and behind != "point" and not goes_on)


def _beside_number(texts: Sequence[str], spot: Spot, parts: Mapping[Name, Meaning]) -> bool:
    """True where a number stands right before or behind, but for words that tie the two, or what is read."""
    end = spot.end + bool(parts.get(tuple(texts[spot.end : spot.end + 1]), NOTHING).characteristics)
    behind = texts[end : end + _REACH]  # "front journal point seven five"
    before = list(reversed(texts[max(0, spot.start - _REACH) : spot.start]))
    before = before if before[:1] != ["one"] or before[1:2] not in _OF_ONE else []  # "new one top left"
    return _leads_to_number(behind) or _leads_to_number(before)


def _leads_to_number(texts: Sequence[str]) -> bool:
    return any(_is_number(text) for n, text in enumerate(texts) if PLACE_BETWEEN.issuperset(texts[:n]))


def _is_number(text: str) -> bool:
    return text in _NUMBERS or text[:1].isdigit()


def place_at(
    spots: Sequence[Spot], values: Sequence[tuple[int, int]], value: tuple[int, int], texts: Sequence[str]
) -> Spot | None:
    """The place of *value*, one of the *values* of an utterance, each a span of tokens.

    Where a place is named before the first value, or with what is read, each stands before its value; else
    behind it. A break tells too: "forty eight oh two, top forty eight oh three".
    """
    ordered = sorted(values)
    if not spots or value not in ordered:
        return None
    trails = spots[-1].start >= ordered[-1][1]
    leading = spots[0].end <= ordered[0][0] or (spots[0].heads and not trails)
    index = ordered.index(value)
    before = ordered[index - 1][1] if index else 0
    after = ordered[index + 1][0] if index + 1 < len(ordered) else len(texts)
    ahead = [s for s in spots if before <= s.start and s.end <= value[0]]
    behind = [s for s in spots if value[1] <= s.start and s.end <= after]
    if leading:
        return ahead[-1] if ahead else (behind[0] if behind and index + 1 == len(ordered) else None)
    ahead = [s for s in ahead if not index or BREAK in texts[before : s.start]]
    behind = [s for s in behind if BREAK not in texts[value[1] : s.start]]
    return behind[0] if behind else (ahead[-1] if ahead else None)
