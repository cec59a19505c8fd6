"""A value amid words of no meaning, when it is still of what is in hand; it asks.

"Thirty one grams with what's in it", "twenty eight thou, just as it should be": the part in hand has one
thing of that unit, and nobody else's is told of. "Right ninety, no, the hole won't line up, eighty five":
the left one was read just before.
"""

from __future__ import annotations

from typing import Final

from saywright.quantity import parse_value
from saywright.understanding.facts import Fact
from saywright.understanding.statements import Reading
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.values.by_place import is_its_fellow
from saywright.understanding.values.fitting import Choice
from saywright.understanding.values.unnamed_values import names_a_thing, of_a_stranger
from saywright.understanding.working import Working
from saywright.units import convertible, get_unit

_FRESH: Final = 2  # utterances for which a part in hand is what such a value is of
_FIGURES: Final = 3  # of a number with a point, to be a measured one without its unit
_WHOLE: Final = 4  # of one without
_OTHERS: Final = frozenset(
    ["they", "you", "your", "his", "their", "her", "he", "she", "book", "kit", "new", "spare", "another",
     "other", "others", "else", "last", "every", "if", "would", "should", "could", "had", "at", "up", "down",
     "to", "than", "plus", "for", "between", "under", "over", "within", "about", "a", "an", "per", "of"]
)  # fmt: skip  # tell of something else, of a limit, or of how many of what
_UP_TO_IT: Final = frozenset({("down", "to"), ("out", "to"), ("it", "to"), ("set", "to"), ("cut", "to")})


def holds_anyway(work: Working, fact: Fact, subject: Subject | None, best: Choice) -> bool:
    """True where *best* is of what is in hand although words of no meaning stand beside its value."""
    held = work.hand
    if held is None or held.component != best.key[0] or not best.fits or fact.characteristics:
        return False
    if work.now - held.utterance > _FRESH:
        return False
    return _is_next_one(work, fact, subject, best) or (
        _is_measured(work, fact, best) and _only_so(work, best)
    )


def _is_next_one(work: Working, fact: Fact, subject: Subject | None, best: Choice) -> bool:
    """ "left ninety … right ninety, no, the hole won't line up": the same is read of its fellow."""
    if subject is None or not subject.which or fact.phrase.start not in {subject.end, subject.end + 1}:
        return False
    last = next((s for s in reversed((*work.last_group(), *work.out)) if type(s) is Reading), None)
    if last is None or (last.component, last.characteristic) != best.key:
        return False
    was, new = abs(parse_value(last.value)), abs(parse_value(best.value))
    return is_its_fellow(subject, last, best) and was / 2 <= new <= was * 2


def _is_measured(work: Working, fact: Fact, best: Choice) -> bool:
    """True for a value with its unit, or to the hundredth, where nothing leads to another's or a limit."""
    measure, texts, start = fact.phrase.measure, work.texts, fact.phrase.start
    if measure is None or measure.flags or measure.approximate or of_a_stranger(work, fact):
        return False
    if names_a_thing(work, fact) or any(type(s) is Reading for s in work.out):
        return False  # "nine void five grams": the five is some of the nine
    figures = len(best.value.replace(".", "").lstrip("0"))
    if measure.unit_said is None and figures < (_FIGURES if "." in best.value else _WHOLE):
        return False
    begin = max((at for at in range(start) if texts[at] in {"and", "so", "then", "now"}), default=-1) + 1
    head = texts[begin:start]
    if head[-2:] in _UP_TO_IT:
        head = head[:-2]
    return _OTHERS.isdisjoint(head) and _OTHERS.isdisjoint(texts[fact.phrase.end : fact.phrase.end + 2])


def _only_so(work: Working, best: Choice) -> bool:
    """True where nothing else that is read on the part in hand has such a unit."""
    part, spec = work.sheet.get(best.key[0]), work.sheet.find(*best.key)
    if part is None or spec is None or get_unit(spec.unit).kind == "number":
        return False
    return sum(convertible(c.unit, spec.unit) for c in part.characteristic) == 1
