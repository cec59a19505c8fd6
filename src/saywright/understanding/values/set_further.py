"""Values on the way of a setting: "height one point four, a hair more" / "one point five eight, I'll stop".

What comes next is of the same, and where things go back together the earlier one no longer holds.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from saywright.quantity import parse_value
from saywright.understanding.bench_words import LITTLE, PLACES_ON_IT
from saywright.understanding.discourse import reading_key
from saywright.understanding.facts import Fact, Told
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.statements import ActionNote, Correction, Reading, Remark, Statement
from saywright.understanding.subjects.noun_phrases import Subject, subject_of_components
from saywright.understanding.tokens import BREAK
from saywright.understanding.values.altered import READS
from saywright.understanding.values.fitting import best_choice
from saywright.understanding.values.left_at_that import drop_before_the_last
from saywright.understanding.working import Working
from saywright.units import get_unit

_BITS = LITTLE | {"nip", "nudge", "tickle", "gnat", "mite", "tweak", "click", "turn", "flat"}
_WAYS = frozenset(
    ["more", "further", "less", "up", "down", "out", "in", "back", "higher", "lower", "tighter", "looser"]
)
_OFF_IT = frozenset({"high", "low", "much", "tight", "slack", "loose", "far", "big", "small", "shy", "short"})
_NOT_YET = frozenset({("not", "enough"), ("not", "quite"), ("not", "there"), ("nearly", "there")})
_ANY = _BITS | {"too", "still", "not", "nearly"}  # one of them is said, or nothing is set further
_BESIDE = frozenset({Remark, Correction})
_SETTING = frozenset({"adjust", "set"})
_LEADS_TO_PLACE = frozenset({"at", "on", "by", "near", "towards", "in", "round"})
_POINTS = frozenset({"the", "this", "that", "one"})
_PLACES = PLACES_ON_IT - {"way", "lot", "part"}
_BY_HOW_MUCH = frozenset({"more", "less"})
_ALONG = frozenset({"further", "higher", "lower"})
_SET_ASIDE = ("there", "there")
_ENDS = frozenset({"", "and", "it", "is", "now", "though", "say"})
_ANEW = frozenset({"now", "again"})
_TORQUES = frozenset({"N.m", "lbf.ft", "lbf.in", "kgf.m"})
_COMES_TO = {("so",), ("makes",)}
_THAT_IS = {("that", "is"), ("it", "is"), ("now", "it")}
_TURNED_ON = frozenset({"more", "another", "further", "less", "back", "extra"})
_COUNTS = frozenset({"count", "counted", "counting"})
_STEPS = frozenset({"first", "then", "and", "to", "up", "at", BREAK})
# Between two values of which only the second holds.
_ONLY_FURTHER = _ANY | _WAYS | _OFF_IT | frozenset(
    ["no", "a", "an", "it", "is", "that", "make", "call", "say", "let", "us", "sorry", "well", "maybe",
     "more", "enough", "quite", "there", "so", "now", "then", "and", "but", "to", "i", "would", BREAK]
)  # fmt: skip
_REACH = 3  # utterances back in which the value before stands


def mark_set_further(told: Told, work: Working) -> None:
    """Give a value of *told* that no part is named with what was being set."""
    if not _ANY.isdisjoint(work.texts):
        _mark_in_one_breath(told, work)
    fact = next((fact for fact in told.facts if fact.kind == "value"), None)
    if fact is None or fact.characteristics or any(s.components for s in told.subjects):
        return
    set_on = _being_set(work, fact.phrase.start)
    measure = fact.phrase.measure
    if not set_on or measure is None or any(_is_another(s, set_on[-1].which) for s in told.subjects):
        return
    key = (set_on[-1].component, set_on[-1].characteristic)
    found = best_choice(measure, [key], work.sheet)
    if found is not None and found[0].fits:
        fact.subjects, fact.characteristics = [_of(set_on, fact)], (key,)
        fact.changes = fact.changes or set_on[-1].stage == "as_left"


def _mark_in_one_breath(told: Told, work: Working) -> None:
    """ "rod play one point four, no, a bit less, one point two": the second is of what the first is of."""
    for first, fact in pairwise([fact for fact in told.facts if fact.kind == "value"]):
        between = [f for f in told.facts if first.phrase.end <= f.phrase.start < fact.phrase.start]
        if between or fact.characteristics or not (first.subjects or first.characteristics):
            continue
        if any(s.components or s.which for s in fact.subjects if s.start >= first.phrase.end):
            continue
        if _goes_further(work.texts[first.phrase.end : fact.phrase.start]):
            fact.subjects, fact.characteristics = first.subjects, first.characteristics
            fact.introduced = True


def _is_another(said: Subject, which: str | None) -> bool:
    """ "Right one's a bit less, thirteen point nine six" behind the left one's."""
    return said.selector == "other" or (bool(said.which) and which not in said.which)


def drop_on_the_way(work: Working) -> None:
    """What was read on the way of a setting no longer holds, once it is set."""
    drop_before_the_last(work)
    read = [s for s in work.out if type(s) is Reading]
    _drop_in_one_breath(read, work)
    _drop_steps(read, work)
    new = [s for s in read if s.stage == "as_left"]
    told = [fact for s in new if (fact := work.said.get(s.id)) is not None]
    if not told:
        return
    for set_to in new:
        if _is_set(set_to) and set_to.id in work.said and not set_to.asks and _is_the_same(set_to, work):
            _drop_earlier(set_to, work)
    for before in _being_set(work, told[0].phrase.start):
        _drop(before, new, work)
    for one, then in pairwise(told):
        if (
            one is not then and one.changed and then.changes
        ):  # "fourteen three so I tweak the tang and there …"
            for before in [s for s in new if work.said.get(s.id) is one]:
                _drop(before, [s for s in new if work.said.get(s.id) is then], work)


def _drop_in_one_breath(read: Sequence[Reading], work: Working) -> None:
    """ "Free travel thirty four, a bit less, thirty two": the first does not hold, at any stage."""
    if len(read) < 2 or _ANY.isdisjoint(work.texts):
        return
    told = [(s, fact.phrase) for s in read if (fact := work.said.get(s.id)) is not None]
    phrases = list(dict.fromkeys(phrase for _, phrase in told))
    for one, then in pairwise(phrases):
        gap = work.texts[one.end : then.start]
        if _goes_further(gap):
            for before in [s for s, phrase in told if phrase is one and _may_be_set(s, gap)]:
                _drop(before, [s for s, phrase in told if phrase is then], work)


def _may_be_set(before: Reading, gap: Sequence[str]) -> bool:
    """True for what is set; while it is as found, where the words between tell nothing else.

    "A bit less where it's worn", "a touch less this end" is read there too.
    """
    return before.stage == "as_left" or _ONLY_FURTHER.issuperset(gap)


def _drop_steps(read: Sequence[Reading], work: Working) -> None:
    """ "Thirty newton metres, then forty": tightened in steps; the last one holds."""
    if "then" not in work.texts or len(read) < 2:
        return
    told = [s for s in read if s.id in work.said and get_unit(s.unit).kind == "torque"]
    for one, then in pairwise(dict.fromkeys(work.said[s.id].phrase for s in told)):
        gap = work.texts[one.end : then.start]
        if "then" in gap and _STEPS.issuperset(gap):
            after = [s for s in told if work.said[s.id].phrase is then]
            for before in [s for s in told if work.said[s.id].phrase is one]:
                last = next((s for s in after if reading_key(s) == reading_key(before)), None)
                if last is not None and parse_value(before.value) < parse_value(last.value):
                    _drop(before, after, work)


def _is_the_same(set_to: Reading, work: Working) -> bool:
    """False where others may be meant: bolts that are only counted, and of which each side has some."""
    spec = work.sheet.get(set_to.component)
    if spec is None or spec.count < 2 or spec.positions:
        return True
    sided = work.hand is not None and work.hand.side is not None
    return not sided and not _ANEW.isdisjoint(work.texts) and work.lexicon.positions.isdisjoint(work.texts)


def _drop_earlier(set_to: Reading, work: Working) -> None:
    """ "bolts ten newton metres all round" / "they're eleven now": the earlier value no longer holds.

    "One of them is nine" tells nothing of the others; "count it again, two and a quarter" is read once more.
    """
    fact, part = work.said[set_to.id], work.sheet.get(set_to.component)
    if set_to.which is None and (part is None or part.count > 1):
        return
    if not (READS | _COUNTS).isdisjoint(work.texts[: fact.phrase.start]):
        return
    gone = [
        one.id
        for (key, stage), one in work.before.latest.items()
        if stage == "as_left"
        and (key[0], key[2]) == (set_to.component, reading_key(set_to)[2])
        and set_to.which == one.which
        and one.id not in work.gone
        and parse_value(one.value) != parse_value(set_to.value)
    ]
    if gone:
        work.supersede(gone, set_to.id, fact.start, fact.end)


def _is_set(reading: Reading) -> bool:
    """A torque or turns: what is set last is how it is left."""
    return reading.unit == "turn" or reading.unit in _TORQUES


def _drop(before: Reading, new: Sequence[Reading], work: Working) -> None:
    """*before* does not hold where one of *new* is another value of the same."""
    after = next((s for s in new if reading_key(s) == reading_key(before)), None)
    if after is None or after.stage != before.stage or before.id in work.gone:
        return
    fact = work.said.get(after.id)  # None for what was counted or copied
    if fact is not None and parse_value(before.value) != parse_value(after.value):
        work.supersede([before.id], after.id, fact.start, fact.end)


def _of(set_on: Sequence[Reading], fact: Fact) -> Subject:
    """What *set_on* are readings of."""
    last = set_on[-1]
    said = subject_of_components((last.component,), fact.phrase.start, fact.phrase.end)
    if len(set_on) > 1:
        return replace(said, selector="all")
    return replace(said, which=(last.which,) if last.which is not None else ())


def _being_set(work: Working, start: int) -> list[Reading]:
    """The readings told last as one, where words since then, up to *start*, tell that it is set further."""
    words = list(work.texts[:start])
    for group in reversed(work.before.recent[-_REACH:]):
        told = [at for at, s in enumerate(group) if not _is_beside(s) and s.id not in work.gone]
        since = group[told[-1] + 1 if told else 0 :]
        remarks = (s.heard.lower().replace(",", " ").split() for s in since if type(s) is Remark)
        words = [*(word for said in remarks for word in said), *words]
        if told:
            return _read_as_one(group[: told[-1] + 1], work) if _goes_further(words) else []
    return []


def _is_beside(told: Statement) -> bool:
    """True for a remark, a correction, and for what was done to set it: "bent the tang a touch"."""
    return type(told) in _BESIDE or (type(told) is ActionNote and told.action in _SETTING)


def _read_as_one(group: Sequence[Statement], work: Working) -> list[Reading]:
    """The readings at the end of *group* of one characteristic, with one value: "all at four"."""
    last = group[-1]
    if type(last) is not Reading:
        return []
    same = (last.component, last.characteristic, last.value)
    every = [s for s in group if type(s) is Reading and s.id not in work.gone]
    return [s for s in every if (s.component, s.characteristic, s.value) == same]


def is_sum_of_turns(texts: Sequence[str], start: int, end: int) -> bool:
    """ "so three and a half turns now", "half a turn more in, so four turns": what it comes to."""
    if tuple(texts[end:]) == ("now",):
        return True
    before = tuple(texts[:start])
    told = before[-1:] in _COMES_TO or before[-2:] in _THAT_IS
    return told and not _TURNED_ON.isdisjoint(before)


def turned_till_now(work: Working, fact: Fact) -> list[CharacteristicKey]:
    """What the sum of turns is of: the only one whose turns were read at this stage."""
    if work.texts[max(0, fact.phrase.start - 1) : fact.phrase.start] in {("another",), ("further",)}:
        return []
    keys = {(c, what) for (c, _, what), stage in work.first if stage == work.stage}
    turned = [(p.id, c.id) for p, c in work.sheet.characteristics() if c.unit == "turn"]
    return turned if len(turned) == 1 and turned[0] in keys else []


def _goes_further(words: Sequence[str]) -> bool:
    """ "a hair more", "up a bit", "still too low", "not quite"; not "a bit more than I'd like".

    Nor "a bit less at the bottom", which is read at another place on it.
    """
    if _ANY.isdisjoint(words) or "than" in words or _is_elsewhere(words):
        return False
    for at, pair in enumerate(pairwise((*words, BREAK))):
        one, two = pair
        if (one in _BITS and two in _WAYS | _OFF_IT) or (one in {"too", "still"} and two in _OFF_IT):
            return True
        if pair in _NOT_YET or (one in _WAYS and two == "a" and not _BITS.isdisjoint(words[at + 2 : at + 4])):
            return True
    return False


def _is_elsewhere(words: Sequence[str]) -> bool:
    """ "at the bottom", "on the other edge": read at another place on the part; not "on the bottom screw".

    Such a place may have been set aside: then "there" stands for each of its words.
    """
    said = [word.strip(",.") for word in words]
    for at, pair in enumerate(pairwise(said)):
        if pair == _SET_ASIDE or (pair[0] in _BY_HOW_MUCH and pair[1] in _ALONG):
            return True  # "a bit more further up"
        if pair[0] not in _LEADS_TO_PLACE or pair[1] not in _POINTS:
            continue
        for place in range(at + 2, min(at + 4, len(said))):
            behind = said[place + 1] if place + 1 < len(said) else ""
            if said[place] in _PLACES and (behind in _ENDS or behind in CLASSES):
                return True
    return False
