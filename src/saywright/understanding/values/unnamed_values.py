"""What a value is of where no part is named with it: by its unit alone, or because it goes on from the last.

"That's point three ohms", where only the switch has ohms; "and deeper in fifteen point nine two", said
right behind fifteen point nine one.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import parse_value
from saywright.understanding.bench_words import MANNERS, NEUTRAL
from saywright.understanding.doings.beside_doings import is_fill
from saywright.understanding.facts import Fact, Told
from saywright.understanding.meanings import NOTHING, CharacteristicKey
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.second_thoughts.corrected_copies import AboutAPart
from saywright.understanding.second_thoughts.words import PAUSES
from saywright.understanding.statements import Reading, Remark
from saywright.understanding.tokens import spoken_form
from saywright.understanding.values.by_verb import by_verb, could_be
from saywright.understanding.values.clause_values import is_own
from saywright.understanding.values.fitting import Choice, best_choice
from saywright.understanding.values.read_already import of_what_is_open
from saywright.understanding.values.set_further import is_sum_of_turns, turned_till_now
from saywright.understanding.working import Working
from saywright.units import convertible, get_unit

# Said of too many things, or of what was done, for the unit alone to tell.
_COMMON_KINDS = frozenset({"length", "time", "turn", "angle", "number", "mass", "speed"})
_NOT_OF_IT = frozenset({"at", "with", "from", "for", "of", "by", "than", "on"})
_ARTICLES = frozenset({"the", "a", "an", "that", "this", "my", "your", "his", "its", "our"})
_NEAR = Fraction(1, 20)  # of the last value
_BREATHS = 2  # utterances back in which the last value stands
_CLAUSES = (("it", "is"), ("that", "is"), ("now", "it"), ("she", "is"))
_FELLOWS = frozenset({"mate", "partner", "twin", "fellow", "brother", "sister", "neighbour", "opposite"})
_OF_IT = (("its",), ("his",), ("her",), ("the",), ("it's",))
# Lead to where something is measured on it: "across the clean bit", "near the clip".
_ALONG, _LEAD = frozenset({"across", "along", "near", "halfway", "towards"}), 3
_EXACT = frozenset({("dead",), ("exactly",), ("precisely",)})
_PRAISE = frozenset(
    ["happy", "lovely", "good", "nice", "perfect", "grand", "sweet", "great", "fine", "smashing", "magic",
     "beautiful", "brilliant", "bang", "spot", "better", "close", "yes", "yeah", "yep", "too", "bit", "low",
     "high", "right", "there", "their", "still", "dead", "exactly", "again", "now", "then", "you", "that"]
)  # fmt: skip
_JOINS = frozenset({"so", "and", "now", "then", "again"})


def by_unit(
    work: Working, fact: Fact, components: Sequence[str]
) -> tuple[list[CharacteristicKey], list[Flag]]:
    """The one characteristic that has the unit said; none where several have, or the part in hand itself.

    With other words than "that's" before the value it asks: they may tell of something else.
    """
    measure = fact.phrase.measure
    codes = (measure.unit,) if measure is not None and measure.unit else measure.units if measure else ()
    if done := by_verb(work, fact, codes):
        return done, []
    if codes == ("turn",) and is_sum_of_turns(work.texts, fact.phrase.start, fact.phrase.end):
        return turned_till_now(work, fact), []
    if (
        not codes
        or (work.hand is None and not fact.measured and not _is_shown(work))
        or _COMMON_KINDS.issuperset(get_unit(code).kind for code in codes)
    ):
        return [], []
    start, fill = fact.phrase.start, is_fill(work.texts, fact.phrase.start)
    if fill or work.texts[fact.phrase.end : fact.phrase.end + 1] == ("of",):  # "… mil of fresh oil"
        codes = tuple(code for code in codes if get_unit(code).kind not in _COMMON_KINDS)
    if _not_of_it(work, fact):
        return [], []
    fitting = [(p.id, c.id) for p, c in work.sheet.characteristics() if could_be(fact, codes, c)]
    own = [key for key in fitting if key[0] in components]
    if own:
        other, doubts = of_what_is_open(work, fact, own, fitting)
        if doubts or other != own:
            return other, doubts
        # "… twenty three hundred psi and thirty one litres a minute": right behind another value of it.
        joined = work.texts[start - 1 : start] == ("and",) and any(
            told.phrase.end == start - 1 for told in work.said.values()
        )
        return (own if len(own) == 1 and (fact.introduced or joined) else []), []
    talked = {s.component for s in work.live() if not isinstance(s, Remark) and hasattr(s, "component")}
    near = [key for key in fitting if key[0] in talked]
    now = [key for key in fitting if _is_read_now(work, key)] if fact.measured else []
    alone = next((some for some in (near, fitting, now) if len(some) == 1), [])
    plain = fill or NEUTRAL.issuperset(work.texts[:start]) or is_own(work.texts, start) or fact.measured
    told = plain or work.texts[max(0, start - 2) : start] in _CLAUSES
    return alone, [] if told else [flag(FlagKind.CHARACTERISTIC_AMBIGUOUS, "by its unit alone")]


def _is_shown(work: Working) -> bool:
    """ "on the tester before I touch it, seventeen kilopascal": an instrument of the sheet is named."""
    names = (name for one in work.sheet.instrument for name in one.names)
    return any(spoken_form(name)[-1] in work.texts for name in names)


def _is_read_now(work: Working, key: CharacteristicKey) -> bool:
    """True for what the sheet wants at the stage of the talk."""
    spec = work.sheet.find(*key)
    return spec is not None and work.stage in spec.when


def only_of_its_unit(work: Working, fact: Fact, best: Choice) -> bool:
    """ "forty litres a minute at the outlet", the pump in hand: nothing else on the sheet has such a unit."""
    measure = fact.phrase.measure
    if measure is None or measure.unit is None or get_unit(measure.unit).kind in _COMMON_KINDS:
        return False
    if work.texts[fact.phrase.end : fact.phrase.end + 1] != ("at",) or any(
        s.components for s in fact.subjects
    ):
        return False  # "gave the pump forty psi through the port"
    if work.hand is None or work.hand.component != best.key[0] or _not_of_it(work, fact):
        return False
    able = [(p.id, c.id) for p, c in work.sheet.characteristics() if convertible(measure.unit, c.unit)]
    return able == [best.key]


def of_its_neighbour(work: Working, fact: Fact, components: Sequence[str]) -> list[CharacteristicKey]:
    """ "pilot screw and its spring in" … "that's two turns out": on the screw, not on the spring.

    Of the parts that were spoken of in the last breath the only one on which the value is what the sheet
    expects; [] where the part in hand can have it, or more than one.
    """
    measure = fact.phrase.measure
    if (
        measure is None
        or measure.approximate
        or not (fact.introduced or fact.subjects)
        or fact.characteristics
    ):
        return []
    own = best_choice(measure, _read_on(work, components), work.sheet)
    if own is not None and own[0].fits:
        return []
    near = dict.fromkeys(
        s.component
        for s in (*work.last_group(), *work.out)
        if isinstance(s, AboutAPart) and s.component is not None and s.component not in components
    )
    found = [
        choice.key
        for key in _read_on(work, tuple(near))
        if (one := best_choice(measure, [key], work.sheet)) is not None
        and (choice := one[0]).fits
        and choice.inside
    ]
    return found if len(found) == 1 else []


def _read_on(work: Working, components: Sequence[str]) -> list[CharacteristicKey]:
    parts = (part for part in map(work.sheet.get, components) if part is not None)
    return [(part.id, c.id) for part in parts for c in part.characteristic]


def _not_of_it(work: Working, fact: Fact) -> bool:
    """ "shop air's sitting at ninety psi", "blown through with two bar": of something else, or under what."""
    start, texts = fact.phrase.start, work.texts
    before = texts[max(0, start - 1) : start]
    reads = "READS" in work.lexicon.table.get(texts[max(0, start - 2) : start], NOTHING).tags
    reads = reads or is_fill(texts, start)
    return (bool(before) and before[0] in _NOT_OF_IT and not reads) or of_a_stranger(work, fact)


def of_a_stranger(work: Working, fact: Fact) -> bool:
    """ "shop air is …": the verb has a subject that the sheet does not know."""
    head = work.texts[: fact.phrase.start]
    return any(
        after == "is" and text.isalpha() and text not in {"she", "he"} and (text,) not in work.lexicon.table
        for text, after in pairwise(head)
    )


def goes_on(work: Working, fact: Fact, components: Sequence[str]) -> CharacteristicKey | None:
    """ "and deeper in fifteen point nine two": what was read in the last breath, read once more beside it."""
    measure = fact.phrase.measure
    groups = [*work.before.recent[-_BREATHS:], tuple(work.out)]
    said = [s for group in groups for s in group if isinstance(s, Reading) and s.id not in work.gone]
    last = said[-1] if said else None
    if last is None or measure is None or last.component not in components or names_a_thing(work, fact):
        return None
    if measure.unit is not None and not convertible(measure.unit, last.unit):
        return None
    if of_a_stranger(work, fact) or "odd" in measure.flags:
        return None
    value, decimals = measure.readings[0].value, _decimals(measure.readings[0].value)
    if not decimals or abs(decimals - _decimals(last.value)) > 1:
        return None
    before = parse_value(last.value)
    return (
        (last.component, last.characteristic) if abs(parse_value(value) - before) <= _NEAR * before else None
    )


def _decimals(value: str) -> int:
    return len(value.partition(".")[2])


def names_a_thing(work: Working, fact: Fact) -> bool:
    """ "and the liner seventeen point eight": a noun, which may be of another part."""
    head = work.texts[: fact.phrase.start]
    return any(text in _ARTICLES and (after,) not in work.lexicon.table for text, after in pairwise(head))


def strays_beside(work: Working, told: Told, fact: Fact) -> bool:
    """True for words of no meaning here in the clause of the value: from "so that's" or "and it's" on."""
    begin = max(
        (
            at
            for at in range(1, fact.phrase.start)
            if work.texts[at - 1] in _JOINS and work.texts[at : at + 2] in _CLAUSES
        ),
        default=0,
    )
    strays = told.strays.get(fact.segment, ())
    if not strays:
        return False
    # "a seventy, clear as you like": what is said behind another fact is of that.
    end = min(
        (f.phrase.end for f in told.facts if f.phrase.start >= fact.phrase.end), default=len(work.texts)
    )
    return any(begin <= at < end and not _says_nothing(work, at) for at in strays)


def _says_nothing(work: Working, at: int) -> bool:
    """A word of thought, where it is measured, or "its mate in the secondary": no more than the place."""
    if work.texts[at] in PAUSES | MANNERS or (
        work.texts[at] in _FELLOWS and work.texts[at - 1 : at] in _OF_IT
    ):
        return True
    before = work.texts[max(0, at - _LEAD) : at + 1]
    return before[-2:] == ("right", "angles") or not _ALONG.isdisjoint(before)


def of_own_kind(work: Working, fact: Fact, best: Choice) -> bool:
    """ "twenty two newton metres on that, no more", behind its nut: the one torque of what is in hand."""
    measure, held = fact.phrase.measure, work.hand
    if measure is None or measure.unit is None or held is None or held.component != best.key[0]:
        return False
    part, kind = work.sheet.get(held.component), get_unit(measure.unit).kind
    if kind != "torque" or part is None or of_a_stranger(work, fact):
        return False
    return sum(get_unit(c.unit).kind == kind for c in part.characteristic) == 1


def looks_measured(work: Working, fact: Fact, measure: Measure) -> bool:
    """True for a number that has no place and still cannot be plain talk."""
    best = measure.readings[0]
    kinds = {get_unit(c.unit).kind for _, c in work.sheet.characteristics()}
    if not fact.characteristics:
        codes = (measure.unit,) if measure.unit is not None else measure.units
        if codes and kinds.isdisjoint(get_unit(code).kind for code in codes):
            return False
        after = work.texts[fact.phrase.end : fact.phrase.end + 1]
        adjective = measure.unit_said is None or not measure.unit_said.endswith("s")  # "one litre bottle"
        if after and adjective and _is_noun(work, after[0]):
            return False
        start = fact.phrase.start
        if after and measure.unit_said is None and work.texts[max(0, start - 1) : start] in {("a",), ("an",)}:
            return False  # "a one sixty fork"
    end = fact.phrase.end
    exact = work.texts[end - 1] == "flat" or work.texts[end : end + 1] in _EXACT  # "twenty two flat"
    return "." in best.value or measure.unit is not None or fact.introduced or exact or len(best.value) >= 3


def _is_noun(work: Working, word: str) -> bool:
    """True for a word that neither the sheet nor bench talk knows: "a one sixty fork"."""
    if word in {"more", "less"} | _PRAISE or word in NEUTRAL:
        return False
    return word.isalpha() and len(word) > 2 and (word,) not in work.lexicon.table
