"""Other forms in which the name of a state is said: "scoring", "moving lovely", "soaked in oil". Pure."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from saywright.understanding.bench_words import PARTICLES, TRANSITIVE
from saywright.understanding.meanings import Name
from saywright.understanding.wordforms import (
    fault_forms,
    is_ing,
    is_past,
    past_forms,
    plural,
    singular,
    verb_forms,
)

_COLOURS: Final = ("up", "over", "through", "away", "down")  # behind a participle: how far it is so
# How a thing moves that moves freely.
_FREELY: Final[tuple[Name, ...]] = (
    ("freely",), ("free",), ("lovely",), ("beautifully",), ("beautiful",), ("nicely",), ("nice",),
    ("sweetly",), ("sweet",), ("easily",), ("easy",), ("smoothly",), ("perfectly",), ("like", "silk"),
    ("like", "butter"), ("like", "new"), ("like", "a", "dream"), ("as", "it", "should"),
    ("as", "they", "should"),
    ("nice", "and", "free"), ("nice", "and", "easy"), ("nice", "and", "freely"), ("nice", "and", "smooth"),
)  # fmt: skip
_MOVES: Final = frozenset({"moves", "turns", "spins", "slides", "rolls", "swings"})
_POINTED: Final = ("them", "that", "those", "these", "there", "him")  # in place of "it"
_HOLDS: Final = frozenset({"in", "on", "of", "with"})
_FULL_OF: Final = frozenset(
    {"soaked", "filled", "covered", "coated", "contaminated", "logged", "fouled", "stained"}
)

_LIKENED: Final[tuple[Name, ...]] = (
    (), ("a",), ("an", "old"), ("a", "bit", "of"), ("a", "bit", "of", "old"), ("a", "piece", "of"), ("old",),
    ("a", "lump", "of"), ("a", "slab", "of"), ("a", "piece", "of", "old"),
)  # fmt: skip


def condition_forms(said: Name, *, good: bool) -> Iterator[Name]:
    """Other forms in which a condition's name may be said."""
    if not said:
        return
    if len(said) > 1:
        yield from _of_several_words(said)
    first, last = said[0], said[-1]
    if len(said) == 1 and not good:
        yield from ((form,) for form in fault_forms(first))
        if is_past(first):
            yield from ((first, colour) for colour in _COLOURS)
    elif len(said) == 1:
        yield from ((form,) for form in past_forms(first))
    elif len(said) == 2 and last in _COLOURS and is_past(first):
        if last == "up" and first not in TRANSITIVE:
            yield (first,)  # "furred up": "furred"
        yield from ((form, last) for form in past_forms(first) if is_ing(form))
    elif len(said) == 2 and last == "freely":
        yield from _moving(first)
    elif last.isalpha() and last not in PARTICLES:
        yield from ((*said[:-1], form) for form in past_forms(last) or (plural(last),))


def _of_several_words(said: Name) -> Iterator[Name]:
    """ "lost its tension", "sand in it", "oil soaked", "crossed thread" as said of others or turned round."""
    first, last = said[0], said[-1]
    if "its" in said:  # "lost its tension": of several
        yield tuple("their" if word == "its" else word for word in said)
        at = said.index("its")
        yield (*said[:at], "any", "of", *said[at:])
    if last == "it" and said[-2] in _HOLDS:
        yield from ((*said[:-1], pointed) for pointed in _POINTED)
        if said[-3:-1] == ("out", "of"):  # "a chunk out of the leg"
            yield from ((*said[:-1], article) for article in ("the", "this"))
    if first == "like":
        noun = said[2:] if said[1] in {"a", "an"} else said[1:]
        yield from (("like", *led, *noun) for led in _LIKENED)
    if len(said) == 2 and last in _FULL_OF:
        yield from ((last, link, first) for link in ("in", "with"))
    if len(said) == 2 and is_past(first) and last.isalpha() and last not in PARTICLES and not is_past(last):
        yield (last, first)
        yield from ((last, verb, first) for verb in ("is", "has"))
        yield (plural(last), "are", first)


def _moving(verb: str) -> Iterator[Name]:
    """ "turns freely" → "turn freely", "turning lovely", "turned as it should"."""
    base = singular(verb)
    forms = (base, *verb_forms(base))
    yield from ((form, "freely") for form in forms)
    if verb in _MOVES:
        yield from ((form, *how) for form in forms for how in _FREELY)
