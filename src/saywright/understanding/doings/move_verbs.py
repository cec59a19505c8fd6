"""Verbs of movement with the particles that tell the way: "knocked out", "slipped back on", "out pops".

Made by rule from a list of verbs, so that any of them may stand with any particle that fits it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import TRANSITIVE
from saywright.understanding.meanings import NOTHING, Meaning, Name
from saywright.understanding.wordforms import verb_forms

_OUT: Final = (("off",), ("out",), ("away",), ("right", "off"), ("right", "out"))
_AND_OUT: Final = tuple(
    (way, "and", end)
    for way in ("down", "up", "through", "back", "over", "forward")
    for end in ("out", "off")
)
_HOME: Final = (
    ("in",),
    ("on",),
    ("home",),
    ("back", "in"),
    ("back", "on"),
    ("back", "home"),
    ("into", "place"),
    ("in", "place"),
    ("back", "into", "place"),
    ("back", "in", "place"),
    ("right", "in"),
    ("right", "on"),
    ("right", "home"),
    ("right", "back", "in"),
)
_THROUGH: Final = (("through",),)  # off while it comes apart
_INTO: Final = (("into",), ("onto",))  # the preposition is left to the place behind it
_DOWN: Final = (("down",), ("back", "down"))

# Verbs that tell the way only with their particle. Base and -s forms of those that are nouns too are left
# out: "clip off" says where the clip is.
_EITHER_WAY: Final = "slide slip pop push knock ease wiggle jiggle twist drop"
_EITHER_WAY_NOUNS: Final = (
    "screw press tap wind drift clip thread hook roll drive lever feed snap lift squeeze"
)
_OFF_ONLY: Final = (
    "pull prise pry peel tease winkle rake hoick claw yank tug whip fall fly jump ping shake hoist haul bring"
)
_OFF_ONLY_NOUNS: Final = "spring fish punch drill draw dig coax wriggle waggle spin poke flick pick"
_ON_ONLY_NOUNS: Final = "glue bolt hang slot plug clamp strap seat fit"
_DOWN_ONLY_NOUNS: Final = "screw bolt clamp strap press push tap"
_ALONE: Final = (
    "unscrew unbolt unclip unhook unplug disconnect detach remove extract withdraw"  # need no particle
)
_TURNED_ROUND: Final = "come go pop drop fall"  # "out pops the seal"

_IRREGULAR: Final = {
    "slide": ("slid",),
    "wind": ("wound",),
    "drive": ("drove", "driven"),
    "fall": ("fell", "fallen"),
    "fly": ("flew", "flown"),
    "shake": ("shook", "shaken"),
    "spring": ("sprang", "sprung"),
    "draw": ("drew", "drawn"),
    "dig": ("dug",),
    "bring": ("brought",),
    "spin": ("spun",),
    "hang": ("hung",),
    "come": ("came",),
    "go": ("went",),
    "withdraw": ("withdrew", "withdrawn"),
}
_THIRD: Final = {"go": "goes"}
_STANDS_FOR_IT: Final = ("it", "they", "that", "this", "she", "he", "those", "these")


def add_move_verbs(table: dict[Name, Meaning]) -> None:
    """Add to *table* each verb with its particles where nothing else is called so."""
    _add(table, (*_words(_EITHER_WAY), *_words(_OFF_ONLY)), _OUT, "MOVE_OFF")
    _add(table, (*_participles(_EITHER_WAY_NOUNS), *_participles(_OFF_ONLY_NOUNS)), _OUT, "MOVE_OFF")
    _add(table, _words(_EITHER_WAY_NOUNS), _OUT[2:], "MOVE_OFF")  # no clip away
    both_ways = (*_words(_EITHER_WAY), *_participles(_EITHER_WAY_NOUNS), *_words(_OFF_ONLY))
    _add(table, (*both_ways, *_participles(_OFF_ONLY_NOUNS), *_finite("come")), _AND_OUT, "MOVE_OFF")
    _add(table, (*_words(_EITHER_WAY), *_participles(_EITHER_WAY_NOUNS)), _HOME, "MOVE_ON")
    _add(table, (*_participles(_EITHER_WAY), *_participles(_EITHER_WAY_NOUNS)), _THROUGH, "MOVE_ON")
    _add(table, (*_participles(_EITHER_WAY), *_participles(_EITHER_WAY_NOUNS)), _INTO, "MOVE_ON")
    _add(table, _participles(_ON_ONLY_NOUNS), (*_HOME, *_INTO), "MOVE_ON")
    _add(table, _participles(_DOWN_ONLY_NOUNS), _DOWN, "MOVE_ON")
    for form in _words(_ALONE):
        _put(table, (form,), "MOVE_OFF")
    for way in ((), ("up",), ("along",)):
        for article in ("the", "its"):
            _put(table, ("came", *way, "with", article), "MOVE_OFF")
    for form in ("drops", "dropped", "falls", "fell", "fallen"):
        for place in (("my", "hand"), ("my", "hands"), ("my", "palm"), ("your", "hand"), ("his", "hand")):
            _put(table, (form, "in", *place), "MOVE_OFF")
            _put(table, (form, "into", *place), "MOVE_OFF")
    for verb in _finite(_TURNED_ROUND):
        for particle, tag in (*((p, "MOVE_OFF") for p in _OUT[:3]), *((p, "MOVE_ON") for p in _HOME[:5])):
            _put(table, (*particle, verb), tag)
            for pronoun in _STANDS_FOR_IT:
                _put(table, (*particle, pronoun, verb), tag)


def takes_object() -> frozenset[str]:
    """The forms of verbs of movement that may take what was moved as their object."""
    verbs = (
        _EITHER_WAY,
        _EITHER_WAY_NOUNS,
        _OFF_ONLY,
        _OFF_ONLY_NOUNS,
        _ON_ONLY_NOUNS,
        _DOWN_ONLY_NOUNS,
        _ALONE,
    )
    forms = {form for some in verbs for form in _words(some)}
    return TRANSITIVE | (forms - set(_words("fall fly jump ping spring")))


def plain_forms() -> dict[str, str]:
    """Base forms that are nouns too → the participle: with an object behind it "hook that out" is no noun."""
    nouns = (_EITHER_WAY_NOUNS, _OFF_ONLY_NOUNS, _ON_ONLY_NOUNS)
    verbs = {verb for some in nouns for verb in some.split()} - {"spring", "fit", "snap", "drill"}
    return {verb: _past(verb)[-1] for verb in verbs}


def finite_forms() -> frozenset[str]:
    """The verbs that a particle may stand before: "out pops"."""
    return frozenset(_finite(_TURNED_ROUND))


def _add(table: dict[Name, Meaning], verbs: Iterable[str], particles: Iterable[Name], tag: str) -> None:
    particles = tuple(particles)
    for verb in verbs:
        for particle in particles:
            if particle == ("right", "off") and verb.startswith("snap"):
                continue  # "bleeder snapped right off": it broke
            _put(table, (verb, *particle), tag)


def _put(table: dict[Name, Meaning], name: Name, tag: str) -> None:
    known = table.get(name, NOTHING)
    if known == NOTHING:
        table[name] = replace(known, tags=frozenset({tag}))


def _past(verb: str) -> tuple[str, ...]:
    return _IRREGULAR.get(verb) or _forms(verb)[1:2]


def _forms(verb: str) -> tuple[str, ...]:
    """-s, past and -ing form; "spring" and "go" are no forms of other words."""
    return verb_forms(verb) or (_THIRD.get(verb, verb + "s"), verb + "ed", verb + "ing")


def _participles(verbs: str) -> Iterator[str]:
    """Past and -ing forms."""
    for verb in verbs.split():
        yield from (*_past(verb), _forms(verb)[2])


def _finite(verbs: str) -> Iterator[str]:
    """Base, -s and past forms."""
    for verb in verbs.split():
        yield from (verb, _forms(verb)[0], *_past(verb))


def _words(verbs: str) -> Iterator[str]:
    """Every form."""
    for verb in verbs.split():
        forms = _forms(verb)
        yield from (verb, forms[0], *_past(verb), forms[2])
