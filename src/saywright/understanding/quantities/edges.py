"""Where a measure begins and ends among tags: what a name, a verb or a position beside it takes from it."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.around import Around
from saywright.understanding.bench_words import PLACES_ON_IT
from saywright.understanding.quantities.measures import Measure, find_measures
from saywright.understanding.tokens import BREAK
from saywright.understanding.values.fitting import PRONOUN

_IT = frozenset({"it", "that", "them"})
_POINTING = frozenset({"the", "that", "this"})
_BUT = frozenset({"bar", "but", "except", "barring", "excepting"})
_VERBS = frozenset({"is", "has", "was", "looks"})
_FEW = frozenset({"one", "two", "three"})
_ALL = frozenset({"all", "every", "each", "none", "rest"})


def turned_over(around: Around, at: int) -> bool:
    """ "flip it over": the particle of a verb, no place and no hedge; the number behind it is freed."""
    if around.texts[at] not in {"over", "under"} or around.texts[max(0, at - 1)] not in _IT:
        return False
    _without_hedge(around, at)
    return around.texts[at] == "over" and around.text(at + 1) not in {"the", "a", "an", "my"}


def but_one(around: Around, at: int) -> int:
    """Where "bar one" ends in "they're all rusty bar one": of how many it is not so, no value; else 0."""
    measure = around.measures.get(at + 1)
    if around.texts[at] not in _BUT or measure is None or measure.unit_said is not None:
        return 0
    if around.text(measure.end) not in {"", BREAK, "of", "and", "which", "that"}:
        return 0
    few = measure.end == at + 2 and around.text(at + 1) in _FEW
    return measure.end if few and not _ALL.isdisjoint(around.texts[:at]) else 0


def one_of_it(around: Around, at: int) -> bool:
    """ "One link's stretched", "one end has gone hard": one of what the part has, no value."""
    measure, lexicon = around.measures.get(at), around.lexicon
    if measure is None or measure.end != at + 1 or around.text(at + 2) not in _VERBS:
        return False
    noun = around.text(at + 1)
    if not noun.isalpha() or around.names_part(at + 1) or around.names(at + 1).positions or noun in _VERBS:
        return False
    if noun in lexicon.words and noun not in PLACES_ON_IT:
        return False  # "one cup is worn"
    told = (around.names(i).conditions or around.text(i) in lexicon.predicates for i in range(at + 3, at + 6))
    return any(told)


def _without_hedge(around: Around, at: int) -> None:
    """ "turn it over, one screw": the word at *at* belongs to the verb; the number behind it stays."""
    measure = around.measures.pop(at, None)
    if measure is None or measure.end == at + 1:
        return
    found = find_measures(around.texts[at + 1 : measure.end], around.lexicon.units)
    if found and found[0].start == 0:
        around.measures[at + 1] = replace(found[0], start=at + 1, end=at + 1 + found[0].end)


def before_name(around: Around, measure: Measure) -> Measure:
    """ "one second gear": the unit is the first word of a name."""
    if measure.unit_said is None or measure.end - measure.start < 2:
        return measure
    found = around.lexicon.match(around.texts, measure.end - 1) if around.texts[measure.end - 1] else None
    if found is None or found[0] < 2 or not found[1].parts:
        return measure
    rest = find_measures(around.texts[measure.start : measure.end - 1], around.lexicon.units)
    if not rest or rest[0].start or rest[0].end != measure.end - 1 - measure.start:
        return measure
    return replace(rest[0], start=measure.start, end=measure.end - 1)


def rest_of_measure(around: Around, at: int) -> Measure | None:
    """ "nipped up to ten", "the rusty one eight point nine": what stands before it leaves the number."""
    cut = next((m for m in around.measures.values() if m.start < at < m.end), None)
    if cut is None or around.out[-1].kind == "MEASURE":
        return None
    found = find_measures(around.texts[at : cut.end], around.lexicon.units)
    if not found or found[0].start:
        return None
    return replace(found[0], start=at, end=at + found[0].end, behind_first=())


def behind_one(around: Around, measure: Measure) -> Measure:
    """ "lower one fifty": behind a position the one may stand for the part; both readings are as good."""
    last = around.last
    tells = last is not None and (last.meaning.positions or last.tags & {"OTHER", "LAST", "ORD"})
    if last is None or last.kind != "MOD" or not tells:
        return measure
    if around.texts[measure.start] != "one" or not measure.behind_first:
        return measure
    point = around.texts[measure.start + 1] == "point"  # "outlet one point six" mostly is one number
    pronoun = [replace(r, cost=0, flags=(*r.flags, PRONOUN)) for r in measure.behind_first[:1]]
    odd = tuple({"odd"} & set(measure.flags))  # of the whole: "one three and a half"
    whole = [replace(r, cost=0, flags=(*r.flags, *odd)) for r in measure.readings[:1]]
    if whole[0].how == "digits":  # "inner one eight outer one nine"
        whole += [replace(r, cost=0) for r in measure.readings if r.how == "decimal_without_point"]
    bare = around.texts[last.start] not in _POINTING and around.texts[last.start - 1] not in _POINTING
    literal = point or (bare and bool(last.meaning.positions))  # "primary one ninety, secondary one seventy"
    both = {r.value: r for r in ([*whole, *pronoun] if literal else [*pronoun, *whole])}
    flags = tuple(f for f in measure.flags if f not in odd)
    return replace(measure, readings=tuple(both.values()), flags=flags)
