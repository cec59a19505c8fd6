"""What a bare value is of by what is done at it: "blows off at three ten", "weighs three point one"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.flags import FlagKind, flag
from saywright.quantity import parse_value
from saywright.understanding.facts import Fact
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.naming.read_names import read_verbs
from saywright.understanding.tokens import BREAK, spoken_form
from saywright.understanding.values.by_verb import could_be
from saywright.understanding.values.opening import AT, opens_at
from saywright.understanding.wordforms import verb_forms
from saywright.understanding.working import Working
from saywright.units import get_unit

_DIRECT: Final = {
    "weighs": "mass",
    "weighed": "mass",
    "draws": "current",
    "drew": "current",
    "drawing": "current",
    "took": "volume",
    "takes": "volume",
}
_TOOK: Final = frozenset({"took", "takes"})
_NO_NOUN: Final = frozenset(
    {(), (BREAK,), ("to",), ("that",), ("of",), ("and",), ("in",), ("before",), ("this",)}
)
_FEW: Final = 5  # of which more is counted than filled in
_CUES: Final = AT | _DIRECT.keys() | {"in"}


def by_what_it_does(work: Working, fact: Fact, components: Sequence[str]) -> list[CharacteristicKey]:
    """The one thing that a number is read of at which something opens, weighs or draws so much.

    Of the part talked of; where that has none such, the only one of the sheet.
    """
    texts, start = work.texts, fact.phrase.start
    if not start or texts[start - 1] not in _CUES:
        return _by_its_own_verb(work, fact)
    kind = _kind(texts, start)
    if not kind or (kind == "volume" and not _is_taken(fact, texts)):
        return []
    able = [
        (part.id, c.id)
        for part, c in work.sheet.characteristics()
        if get_unit(c.unit).kind == kind and could_be(fact, (c.unit,), c)
    ]
    own = [key for key in able if key[0] in components]
    told = {c for s in fact.subjects for c in s.components}
    if told and kind != "pressure":
        return []  # "float weighs seven": by its name
    if kind == "volume" and not own and any(_fits(work, fact, part) for part in components):
        return []  # the bolt in hand "took forty"
    if not own and any(key[0] in told for key in able):
        return []  # "needle and seat in, pops at nine": the seat's alone
    found = own or able
    if len(found) > 1 and kind == "pressure":
        found = _called_so(work, texts[start - 2], found)  # "pops at fifteen": of the pop off pressure
    if len(found) != 1:
        return []
    if not own and told:
        if any(_fits(work, fact, part) for part in told):
            return []  # "outlet valve lifts at one point two": how far it lifts
        fact.doubts = (*fact.doubts, flag(FlagKind.PART_AMBIGUOUS, "another part was named beside it"))
    return found


def _by_its_own_verb(work: Working, fact: Fact) -> list[CharacteristicKey]:
    """ "it's holding ten", "pump flows thirty": its name as a verb, right before the value."""
    start = fact.phrase.start
    verb = work.texts[start - 1] if start > 1 else ""
    if verb not in work.lexicon.verbs_read or not (verb.endswith(("s", "ing")) or verb == "held"):
        return []
    found = [
        (part.id, c.id)
        for part, c in work.sheet.characteristics()
        if any(verb in read_verbs(spoken_form(name)) for name in c.names) and could_be(fact, (c.unit,), c)
    ]
    told = {c for s in fact.subjects for c in s.components}
    return found if len(found) == 1 and told <= {found[0][0]} else []


def _called_so(work: Working, verb: str, keys: Sequence[CharacteristicKey]) -> list[CharacteristicKey]:
    """Those of *keys* whose name begins with *verb*, in whatever form."""
    read = [(key, c) for key in keys for c in [work.sheet.find(*key)] if c is not None]
    begins = [(key, spoken_form(name)[0]) for key, c in read for name in c.names]
    return list(dict.fromkeys(key for key, word in begins if verb in {word, *verb_forms(word)}))


def _is_taken(fact: Fact, texts: Sequence[str]) -> bool:
    """ "Rear took twenty six", "it took twenty two mil": no time, and no count of a noun behind it."""
    measure, end = fact.phrase.measure, fact.phrase.end
    units = (measure.unit,) if measure is not None and measure.unit else measure.units if measure else ()
    kinds = {get_unit(code).kind for code in units if code is not None}
    few = measure is not None and parse_value(measure.readings[0].value) < _FEW
    if not kinds and (texts[end : end + 1] == ("of",) or few):
        return False  # "took two of us", "took three that"
    behind = tuple(texts[end : end + 2])
    if not kinds and behind[:1] == ("to",) and behind != ("to", "the"):
        return False  # "took twenty to shift"; not "took twenty to the mark"
    return (not kinds or "volume" in kinds) and tuple(texts[end : end + 1]) in _NO_NOUN


def _fits(work: Working, fact: Fact, component: str) -> bool:
    """True where the number may be something of *component* itself, by its size."""
    part = work.sheet.get(component)
    return part is not None and any(
        could_be(fact, (c.unit,), c) for c in part.characteristic if c.plausible is not None
    )


def _kind(texts: Sequence[str], start: int) -> str:
    """The kind of unit of what is read at the number; "" where no verb tells."""
    if opens_at(texts, start):
        return "pressure"
    if texts[start - 1] in _TOOK:
        return "volume"
    verb = start - 2 if start > 1 and texts[start - 1] in {"in", "at"} else start - 1  # "weighs in at" too
    if verb and texts[verb] == "in":
        verb -= 1
    return _DIRECT.get(texts[verb], "")
