"""Numbers and names of characteristics → value facts."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.aside.hearsay import quotes
from saywright.understanding.aside.own_clauses import own_begin
from saywright.understanding.bench_words import THERE_ARE
from saywright.understanding.counting.counts import small_count
from saywright.understanding.doings.tool_asides import put_tool_aside
from saywright.understanding.facts import Fact
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.attach_facts import add_fact, by_preposition, right_subject
from saywright.understanding.subjects.part_picks import called_so
from saywright.understanding.tokens import BREAK, spoken_form
from saywright.understanding.values.named_places import TAKEN
from saywright.understanding.walk import Walk
from saywright.units import convertible, get_unit

_OWN = (
    ("i", "get"), ("i", "have", "got"), ("i", "have"), ("we", "have", "got"), ("we", "have"),
    ("i", "make", "it"), ("you", "make", "it"), ("we", "make", "it"),
    ("i", "am", "getting"), ("we", "get"), ("this", "is"), ("this", "one", "is"), ("this", "is", "at"),
)  # fmt: skip
_HOLDS = frozenset({"has", "have", "had", "got", "with", "found", "see", "shows"})
_ELSEWHERE_ON_IT = frozenset({TAKEN, BREAK, "and", "is"})
_WEIGHS = (("weighs",), ("weigh",), ("weighed",))
_AHEAD = 3  # phrases behind a value that its characteristic may stand in


def put_characteristic(walk: Walk, index: int, phrase: Phrase) -> None:
    """A characteristic was named: it waits for its value."""
    if _is_place_on_part(walk, index, phrase) or _leads_a_place(walk, index, phrase):
        return
    if walk.characteristic and "PREP" in walk.glue and not walk.glue & {"AND", "BREAK", "MEASURE"}:
        walk.glue.discard("PREP")
        return  # "gap on the top ring in the bore": where it is read
    walk.characteristic = phrase.meaning.characteristics
    walk.characteristic_at = (phrase.start, phrase.end)
    owners = {component for component, _ in walk.characteristic}
    held = {c for s in walk.current for c in s.components}
    in_hand = any(s.pronoun and not s.components for s in walk.current)
    if walk.current and not owners & held and not in_hand:
        own = _called_so(walk, held, phrase)
        if own:
            walk.characteristic = own
        else:
            walk.hold([], used=False)
    walk.used = False if walk.current else walk.used
    walk.glue.add("CHAR")


def _called_so(walk: Walk, held: set[str], phrase: Phrase) -> tuple[CharacteristicKey, ...]:
    """What is read on a part *held* under its own name and the word just said."""
    parts = [part for part in map(walk.sheet.get, held) if part is not None]
    said = walk.texts[phrase.start : phrase.end]
    return tuple(key for part in parts for key in called_so(part, walk.characteristic, said, walk.sheet))


def _is_place_on_part(walk: Walk, index: int, phrase: Phrase) -> bool:
    """ "housing bore has some scratches": no value, and behind a part that has no such characteristic."""
    before = walk.before(index)
    held = {c for s in walk.current for c in s.components}
    owners = {component for component, _ in phrase.meaning.characteristics}
    if before is None or before.kind != "subject" or before.end != phrase.start or not held or owners & held:
        return False
    rest = walk.phrases[index + 1 :]
    return any(p.kind == "finding" for p in rest) and not any(p.kind == "measure" for p in rest)


def _leads_a_place(walk: Walk, index: int, phrase: Phrase) -> bool:
    """ "lever height, depth end of the calipers": a word before a place, while a value is awaited.

    Also "scoring on the pressure side of the cover": where something was found.
    """
    after, last = walk.after(index), walk.last
    found_there = last is not None and last.kind == "finding" and "PREP" in walk.glue
    if not (walk.characteristic or found_there) or phrase.end - phrase.start > 1 or after is None:
        return False
    return after.kind == "word" and "PLACE" in after.tags and after.start == phrase.end


_GAUGED_REACH = 5  # phrases between the instrument and what it says
_GAUGED = frozenset({"subject", "lead", "link", "word"})


def put_value(walk: Walk, index: int, phrase: Phrase) -> None:
    """A number was said: with its characteristic it makes a value fact."""
    if put_tool_aside(walk, index):
        return
    if _counts_something_else(walk, index) or _is_its_weight(walk, phrase):
        walk.glue.add("WORD")
        return
    fact = Fact("value", phrase, walk.segment, start=phrase.start, end=phrase.end)
    fact.introduced = bool(walk.glue & {"READS", "COP"})
    fact.measured = "INSTRUMENT" in walk.glue or _just_measured(walk) or _gauged(walk, index)
    if not walk.characteristic and _lists_values(walk, phrase) and walk.last is not None:
        _put_listed(walk, fact, walk.last)
        return
    run_out = _out_by(walk, phrase)
    if run_out:
        fact.characteristics = run_out
        fact.cover(phrase.start - 2, phrase.end)
    elif walk.characteristic:
        fact.characteristics = walk.characteristic
        if walk.characteristic_at:
            fact.cover(*walk.characteristic_at)
        walk.characteristic, walk.characteristic_at = (), None
    else:
        index = _take_characteristic_ahead(walk, index, fact)
        fact.characteristics = fact.characteristics or _carried(walk) or _against_limit(walk, phrase)
    add_fact(walk, fact, index, prefer_right=False, owners={c for c, _ in fact.characteristics})


def _is_its_weight(walk: Walk, phrase: Phrase) -> bool:
    """ "it weighs around thirty five pounds", where nothing is weighed on the sheet: no torque."""
    if walk.texts[phrase.start - 1 : phrase.start] not in _WEIGHS:
        return False
    return all(get_unit(c.unit).kind != "mass" for _, c in walk.sheet.characteristics())


def _out_by(walk: Walk, phrase: Phrase) -> tuple[CharacteristicKey, ...]:
    """ "the rim's out by a mil": its run out, where that is read on it."""
    if walk.texts[max(0, phrase.start - 2) : phrase.start] != ("out", "by"):
        return ()
    held = [walk.sheet.get(c) for s in walk.current for c in s.components]
    return tuple(
        (part.id, c.id)
        for part in held
        if part is not None
        for c in part.characteristic
        if any("out" in spoken_form(name) for name in c.names)
    )


def _just_measured(walk: Walk) -> bool:
    """ "measured it anyway, eighty six thou"."""
    last = walk.last
    return (
        last is not None
        and last.kind == "doing"
        and last.segment == walk.segment
        and any(act.id == "measure" for act in last.phrase.meaning.acts)
    )


def _gauged(walk: Walk, index: int) -> bool:
    """ "i'll mike it anyway, eighteen", "vernier on number two, three one": put to it, then read."""
    before = [p for p in walk.phrases[max(0, index - _GAUGED_REACH) : index] if p.kind != "break"]
    at = next((n for n, p in enumerate(before) if "INSTRUMENT" in p.tags), len(before))
    return at < len(before) and all(p.kind in _GAUGED for p in before[at + 1 :])


def _against_limit(walk: Walk, phrase: Phrase) -> tuple[CharacteristicKey, ...]:
    """ "supposed to be eighteen four, I've got seventeen nine": of what the limit is of."""
    last, measure = walk.last, phrase.measure
    if last is None or last.kind != "value" or measure is None:
        return ()
    quoted = any("LIMIT" in m.tags for m in walk.out.marks) or quotes(walk.texts[: last.phrase.start])
    begin = own_begin(walk.texts, phrase.start) if quoted else None
    told_apart = begin is not None and last.phrase.end <= begin
    return last.characteristics if told_apart or is_own(walk.texts, phrase.start) else ()


def is_own(texts: Sequence[str], start: int) -> bool:
    """True where the words right before the number at *start* say that the speaker reads it."""
    return any(texts[max(0, start - len(said)) : start] == said for said in _OWN)


def _carried(walk: Walk) -> tuple[CharacteristicKey, ...]:
    """ "head left sixty one, right sixty three": what was said of one goes on for the next."""
    before = next((f for f in reversed(walk.out.facts) if f.kind == "value"), None)
    if before is None or walk.used or not walk.current:
        return ()
    subject = walk.current[-1]
    owners = {component for component, _ in before.characteristics}
    if subject.components and not owners & set(subject.components):
        return ()
    return before.characteristics if subject.which or subject.components else ()


def _put_listed(walk: Walk, fact: Fact, first: Fact) -> None:
    """One more value of what *first* is a value of."""
    fact.characteristics = first.characteristics
    fact.listed = True
    fact.subjects = [*first.subjects]
    walk.out.facts.append(fact)
    walk.last, walk.glue = fact, set()


def _lists_values(walk: Walk, phrase: Phrase) -> bool:
    """ "nine point eight one, nine point eight three": one more value of the same, also elsewhere on it."""
    if walk.last is None or walk.last.kind != "value" or not walk.last.characteristics:
        return False
    if _of_other_kinds(walk.last.phrase, phrase):
        return False  # "twenty three hundred psi and thirty one litres a minute"
    between = walk.texts[walk.last.phrase.end : phrase.start]
    if not walk.used:  # of no part that was named; or of one that waits for its value
        return not walk.current and TAKEN in between and _ELSEWHERE_ON_IT.issuperset(between)
    return not walk.glue - {"AND", "BREAK"} or _ELSEWHERE_ON_IT.issuperset(between)


def _of_other_kinds(first: Phrase, phrase: Phrase) -> bool:
    """True where the two values were said in units that do not measure the same."""
    units = [p.measure.unit for p in (first, phrase) if p.measure is not None and p.measure.unit is not None]
    return len(units) > 1 and not convertible(units[0], units[1])


def _take_characteristic_ahead(walk: Walk, index: int, fact: Fact) -> int:
    """ "eleven two thick on the left": takes it for *fact*; index of the phrase that subjects follow."""
    ahead = _characteristic_ahead(walk, index)
    if ahead is None:
        return index
    phrase = walk.phrases[ahead]
    fact.characteristics = phrase.meaning.characteristics
    fact.cover(phrase.start, phrase.end)
    walk.taken.add(ahead)
    follows = right_subject(walk, ahead, fact) is not None and by_preposition(walk, ahead)
    return ahead if follows else index


def _characteristic_ahead(walk: Walk, index: int) -> int | None:
    """ "eleven two thick": a characteristic named right after its value, if it has no value of its own."""
    for at in range(index + 1, min(index + 1 + _AHEAD, len(walk.phrases))):
        phrase = walk.phrases[at]
        if phrase.kind == "char":
            after = walk.phrases[at + 1 : at + 3]
            return None if any(p.kind == "measure" for p in after) else at
        links = phrase.kind == "link" and bool(phrase.tags & {"PREP", "OF"})
        if phrase.kind not in {"word", "lead"} and not links:
            return None
    return None


def _counts_something_else(walk: Walk, index: int) -> bool:
    """ "two hands", "one side": a small whole number before a noun that the sheet does not know."""
    after = walk.after(index)
    if after is not None and _counts_findings(walk, index):
        return True
    count = small_count(walk.phrases[index].measure)
    if count is None or after is None:
        return False
    last = walk.last
    if after.kind == "char" and last is not None and last.kind == "finding" and "PREP" in walk.glue:
        return "PLACE" in after.tags and last.segment == walk.segment  # "chipped on two teeth"
    if after.kind not in {"word", "mark"} or after.tags - {"PLACE"}:
        return False
    word = walk.texts[after.start]
    prep = (
        "PREP" in walk.glue and last is not None and last.kind == "finding" and last.segment == walk.segment
    )
    if prep and count == 1 and after.kind == "word" and not after.tags:
        return True  # "scored on one land"
    if count == 1 and walk.texts[after.start - 1] == "one" and "PLACE" in after.tags:
        return True
    return len(word) > 3 and word.endswith("s") and not word.endswith("ss")


def _counts_findings(walk: Walk, index: int) -> bool:
    """ "two deep grooves", "a couple of shallow grooves": how many were found."""
    measure = walk.phrases[index].measure
    said = measure.readings[0].value if measure is not None and measure.readings else ""
    if measure is None or measure.unit is not None or not said.isdigit() or len(said) > 1:
        return False
    before = walk.texts[max(0, measure.start - 2) : measure.start]
    if _HOLDS.isdisjoint(before[-1:]) and before not in THERE_ARE and not measure.approximate:
        return False  # "pressure is two leaks badly"
    between = [p for p in walk.phrases[index + 1 : index + 2] if p.kind == "word" and not p.tags]
    found = walk.after(index + len(between))
    end = walk.phrases[index + len(between)].end
    if found is None or found.kind != "finding" or "COP" in found.aux_tags or found.start != end:
        return False
    last = walk.texts[found.end - 1]
    return said == "1" or (last.endswith("s") and not last.endswith("ss"))
