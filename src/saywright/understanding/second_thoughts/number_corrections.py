"""Numbers that correct numbers: the end of one said again, a wrong and a right one in one run."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.quantity import parse_value
from saywright.understanding.facts import Fact, Mark, Told
from saywright.understanding.meanings import NOTHING
from saywright.understanding.quantities.measures import Measure, find_measures
from saywright.understanding.quantities.plausible import is_far_out
from saywright.understanding.second_thoughts.restated import just_said
from saywright.understanding.second_thoughts.words import (
    IT,
    PAUSES,
    WHAT_WENT,
    ends_in_doubt,
    read_turn,
    turns,
    went_wrong,
)
from saywright.understanding.statements import Reading
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_IT_IS_NOT = ("it", "is", "not")
_NO = frozenset({("no",), ("nope",), ("nah",), ("sorry",)})
# Who did it wrong, or what another is told to do before it is read anew: "no, tip it to the light".
_TELLS_WHY = frozenset(
    ["i", "it", "that", "we", "he", "she", "you", "give", "hold", "tip", "push", "pull", "turn", "try",
     "take", "let", "read", "check", "look", "move", "roll", "tap", "spin", "line", "square", "zero", "press",
     "wipe", "clean", "go", "do", "say", "put", "get", "shift", "back", "wiggle", "rock", "bump", "measure",
     "from", "across", "over", "wrong", "start", "lift", "lean"]
)  # fmt: skip
_POINTS = frozenset({"it", "that", "this", "them", "those", "one"})  # at what was read just now
_NEARLY = 4  # the new value is off by less than this part of the old
_EXCUSE = 9  # tokens between the two values
_GOES_ON = frozenset({"and", "so", "but"})
_WHY = frozenset({BREAK, "because", "cos", "since", "as", "sorry", "only"})
DID_WRONG = frozenset(
    {"had", "was", "misread", "read", "took", "held", "caught", "measured", "left", "forgot", "let"}
)


def with_whole_number(work: Working, fact: Fact, target: Reading) -> Fact:
    """ "thirty eight point oh nine, no, oh eight": as many digits as the end of the number had."""
    measure, head = fact.phrase.measure, fact.phrase.head
    kept, _, decimals = target.value.partition(".")
    if measure is None or head is None or measure.unit_said is not None:
        return fact
    tails = [r.value for r in measure.readings if r.value.isdigit()] or _behind_point(work, fact, target)
    tails = [tail for tail in tails if len(tail) == len(decimals) > 1]
    if not tails or _is_whole(work, measure, target):
        return fact
    whole = replace(measure.readings[0], value=f"{kept}.{tails[0]}")
    return _with_measure(fact, replace(measure, readings=(whole,)), fact.phrase.start)


def _is_whole(work: Working, measure: Measure, target: Reading) -> bool:
    """ "eleven point nine nine, I mean twelve": as good a value by itself."""
    spec = work.sheet.find(target.component, target.characteristic)
    whole = parse_value(measure.readings[0].value)
    return spec is not None and target.unit == spec.unit and whole > 0 and not is_far_out(spec, whole)


def _behind_point(work: Working, fact: Fact, target: Reading) -> list[str]:
    """ "nine point eight two, make that point eight five": the digits, where that alone is too far out."""
    measure = fact.phrase.measure
    spec = work.sheet.find(target.component, target.characteristic)
    if measure is None or spec is None or target.unit != spec.unit:
        return []
    said = measure.readings[0].value
    bare = work.texts[fact.phrase.start] == "point" and said.startswith("0.")
    return [said[2:]] if bare and is_far_out(spec, parse_value(said)) else []


def denied_run(work: Working, fact: Fact, following: Fact | None) -> tuple[Reading, Fact] | None:
    """ "not one fifty one forty": the reading that is denied, and the fact of the right value alone.

    *following* is the value right behind it, where the run was cut in another place.
    """
    start, end = fact.phrase.start, fact.phrase.end
    joined = following is not None and following.kind == "value" and following.phrase.start == end
    if joined and following is not None:
        end = following.phrase.end
    if fact.phrase.measure is None or not start or work.texts[start - 1] != "not":
        return None
    found: list[tuple[Reading, Fact]] = []
    for cut in range(start + 1, end):
        wrong, right = _whole(work, start, cut), _whole(work, cut, end)
        if wrong is None or right is None:
            continue
        denied = reading_of_value(work, wrong)
        if denied is None and any(len(r.value) == len(wrong.readings[0].value) for r in right.readings):
            denied = reading_of_tail(work, wrong)  # "not oh five oh three"
        if denied is not None:
            found.append((denied, _with_measure(fact, replace(right, start=cut, end=end), cut, end)))
    if found and joined and following is not None:
        following.kind = "denied"
        work.covered.append((following.start, following.end))
    newest = {one.id: at for at, one in enumerate(work.readings())}
    # "Not thirty five thirty eight", with a thirty before the thirty five: what was said last is denied.
    return max(found, key=lambda pair: newest[pair[0].id], default=None)


def says_instead(texts: Sequence[str], at: int) -> bool:
    """ "31.9, no it isn't, 31.95": the denial is of what was read before, and the number at *at* is right."""
    denial = tuple(texts[max(0, at - len(_IT_IS_NOT) - 1) : at])
    return denial[2:] == _IT_IS_NOT[1:] and denial[0] in {"no", "nope"} and denial[1] in IT


def pauses_before(work: Working, fact: Fact) -> bool:
    """ "twelve point five, hang on, twelve point six": a bare exact value behind a pause for thought.

    Or any, right behind the one before it: "forty, wait, forty one".
    """
    measure, start = fact.phrase.measure, fact.phrase.start
    if measure is None or any(s.end > start for s in fact.subjects):
        return False
    right_behind = _right_behind(work, start)
    if not right_behind and (fact.subjects or fact.characteristics or "." not in measure.readings[0].value):
        return False
    return ends_in_doubt(work.texts[max(0, start - 2) : start]) and any(
        isinstance(s, Reading) for s in (*work.out, *just_said(work))
    )


def _right_behind(work: Working, start: int) -> bool:
    """True where only a pause for thought stands between the last value of this breath and token *start*."""
    ends = [said.phrase.end for said in work.said.values() if said.phrase.end < start]
    return bool(ends) and PAUSES.issuperset(work.texts[max(ends) : start])


def in_its_unit(fact: Fact, following: Fact, texts: Sequence[str]) -> None:
    """ "fourteen, sorry, twelve litres a minute": a false start is in the unit of what is said instead."""
    first, right = fact.phrase.measure, following.phrase.measure
    if first is None or right is None or first.unit_said is not None or right.unit_said is None:
        return
    end, said = read_turn(texts, fact.phrase.end, following.phrase.start)
    if said and end == following.phrase.start and fact.phrase.head is not None:
        of_it = replace(first, unit=right.unit, unit_said=right.unit_said, units=right.units)
        fact.phrase = replace(fact.phrase, head=replace(fact.phrase.head, measure=of_it))


def said_after(fact: Fact, mark: Mark, told: Told, texts: Sequence[str]) -> bool:
    """ "five eighths I mean": the only value of this breath, and behind it that it puts one right."""
    if mark.start != fact.phrase.end or fact.phrase.start > 1:
        return False
    last = all(f.phrase.start < mark.end for f in told.facts)
    return last and (texts[mark.start] == "i" or mark.end == len(texts))


def rephrases(mark: Mark, work: Working) -> bool:
    """ "the back, I mean rear, at …": another word for a place, nothing said before is wrong."""
    beside = (work.texts[mark.start - 1 : mark.start], work.texts[mark.end : mark.end + 1])
    names = [work.lexicon.table.get(word, NOTHING) for word in beside]
    return all(name.positions or "POS" in name.tags or "PLACE" in name.tags for name in names)


def excused_between(fact: Fact, told: Told, texts: Sequence[str]) -> bool:
    """ "… point nine four no I turned the barrel … point nine six": why the value before was wrong."""
    before = [f for f in told.facts if f.kind == "value" and f.phrase.end <= fact.phrase.start]
    if not before:
        return False
    first, named = before[-1], [*told.subjects, *fact.subjects]
    between = texts[first.phrase.end : fact.phrase.start]
    if between[:1] not in _NO or not _tells_why(between[1:]) or len(between) > _EXCUSE:
        return False
    told_anew = (s for s in named if (s.components or s.which) and texts[s.start] not in _POINTS)
    anew = any(first.phrase.end <= s.start < fact.phrase.start for s in told_anew)
    return not anew and fact.characteristics in {(), first.characteristics}


def _tells_why(words: Sequence[str]) -> bool:
    """ "I turned the barrel", "from the grip"; "the stand moved": who did what, or what went wrong."""
    if words[:1] and words[0] in WHAT_WENT:
        return went_wrong(words)
    return _TELLS_WHY.issuperset(words[:1])


def is_strange(work: Working, fact: Fact, old: Reading) -> bool:
    """True for a bare value many times the one it would put right, which was not even read just now."""
    measure = fact.phrase.measure
    named = bool(fact.characteristics) or any(s.components for s in fact.subjects)
    if named or measure is None or old in just_said(work) or old in work.out:
        return False
    was, new = abs(parse_value(old.value)), abs(parse_value(measure.readings[0].value))
    return was > 0 and new > _NEARLY * was


def in_excuse(fact: Fact, told: Told, texts: Sequence[str]) -> bool:
    """ "… oh five, no I was across the rust, … oh nine": a state that only tells why the value was wrong.

    Or how it is read anew: "twenty one, no, measure from the grip, twenty two".
    """
    values = [f for f in told.facts if f.kind == "value"]
    if fact.kind not in {"finding", "doing"} or not values:
        return False
    if fact.kind == "finding" and _excused_behind(fact, values, told, texts):
        return True
    if len(values) < 2:
        return False
    behind = next((f for f in values if f.phrase.start >= fact.phrase.end), None)
    first = values[0].phrase.end <= fact.phrase.start
    return behind is not None and first and excused_between(behind, told, texts)


def _excused_behind(fact: Fact, values: Sequence[Fact], told: Told, texts: Sequence[str]) -> bool:
    """ "correction, nine seven, I had it on the groove": why the value put right had been wrong."""
    before = [f for f in values if f.phrase.end <= fact.phrase.start]
    if not before or any(s.components and s.start < fact.phrase.start for s in fact.subjects):
        return False
    begin, end = before[-1].phrase.start, before[-1].phrase.end
    lead = [at for at in range(end, fact.phrase.start) if texts[at] not in _WHY]
    spoken = bool(lead) and texts[lead[0]] == "i" and texts[lead[0] + 1] in DID_WRONG
    return (
        spoken
        and _GOES_ON.isdisjoint(texts[end : fact.phrase.start])
        and (any("MAKE_THAT" in m.tags and m.end <= begin for m in told.marks) or turns(texts, 0, begin))
    )


def reading_of_value(work: Working, measure: Measure) -> Reading | None:
    """The last reading that still holds and has this value."""
    values = {parse_value(r.value) for r in measure.readings}
    return next((r for r in reversed(work.readings()) if parse_value(r.value) in values), None)


def reading_of_tail(work: Working, measure: Measure) -> Reading | None:
    """The last reading that still holds and ends in these digits."""
    tails = {r.value for r in measure.readings if r.value.isdigit() and len(r.value) > 1}
    return next((r for r in reversed(work.readings()) if r.value.partition(".")[2] in tails), None)


def names_no_other(work: Working, fact: Fact) -> bool:
    """ "four, no, five clicks": nothing is named with the value, or what the value right before it is of."""
    last = work.out[-1] if work.out else None
    same = isinstance(last, Reading) and (last.component, last.characteristic) in fact.characteristics
    return not fact.characteristics or (
        same and any(f.phrase.end == fact.phrase.start - 1 for f in work.said.values())
    )


def reading_quoted(work: Working, fact: Fact, measure: Measure) -> Reading | None:
    """ "front drum, I said oh two one": the reading of that value, or with that end, of the part said."""
    old = reading_of_value(work, measure) or reading_of_tail(work, measure)
    named = {c for s in fact.subjects for c in s.components}
    which = {w for s in fact.subjects if s.components for w in s.which}
    of_it = old is not None and (not named or old.component in named) and (not which or old.which in which)
    return old if of_it else None


def said_of_another(fact: Fact, readings: Sequence[Reading]) -> Reading | None:
    """ "sorry, that's the pilot jet, forty two": the same value said of the wrong part."""
    measure = fact.phrase.measure
    values = {parse_value(r.value) for r in measure.readings} if measure else set()
    return readings[-1] if readings and parse_value(readings[-1].value) in values else None


def _whole(work: Working, start: int, end: int) -> Measure | None:
    """The measure that all the tokens from *start* to *end* make."""
    found = find_measures(work.texts[start:end], work.lexicon.units)
    return found[0] if found and (found[0].start, found[0].end) == (0, end - start) else None


def _with_measure(fact: Fact, measure: Measure, start: int, end: int = 0) -> Fact:
    end = end or fact.phrase.end
    head = Tag("MEASURE", start, end, NOTHING, measure)
    return replace(fact, phrase=replace(fact.phrase, head=head, start=start, end=end))
