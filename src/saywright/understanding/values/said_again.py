"""Values told of what was read just before: once more ("twelve is too much") or anew ("now it's ten")."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.quantity import parse_value
from saywright.sheets.model import Characteristic, Component
from saywright.understanding.facts import Fact
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.second_thoughts.words import PAUSES
from saywright.understanding.statements import Correction, Reading
from saywright.understanding.tokens import BREAK
from saywright.understanding.values.named_places import TAKEN
from saywright.understanding.working import Working
from saywright.units import get_unit

_ECHOES = PAUSES | {BREAK, "it", "that", "is", "a", "yes", "i", "said", "right", "did", "not", "we", "was"}
_SAYS_SO = frozenset({"is", "said", "did"})
_NOW = {("now", "it", "is"), ("now", "that", "is"), ("it", "is", "now"), ("that", "is", "now")}
_WRITES = {  # "right" for "write"
    (verb, it)
    for verb in ("write", "right", "put", "note", "jot", "get", "mark")
    for it in ("that", "it", "this")
}
_WRITES_SHORT = 5  # tokens of "okay and write that down"
_COUNTED = "one two three"  # how a count aloud begins
_ANEW = frozenset({"again", "more", "other", "recount", "recounted", "second", "twice", "now"})
# Beside the value that a count came to; any other word sets it, or is of the next one.
_CAME_TO = PAUSES | {
    BREAK, "so", "then", "that", "is", "it", "was", "makes", "make", "i", "well", "yes", "okay", "the", "on",
    "of", "a", "lot", "many", "too", "not", "bad", "good", "few", "in", "all", "total", "out", "there", "we",
    "have", "got",
}  # fmt: skip
_STOPS = frozenset({"no", "wait", "hang", "hold"})
_ONCE_MORE = frozenset({"and", "then", "again", BREAK})
_WAYS = frozenset({TAKEN, BREAK, "again", "and", "then", "it", "is", "that"})
_SET_NEAR = 5  # times: a value set anew is nearer to the one before than a fifth of it


def is_judged_again(work: Working, fact: Fact, measure: Measure) -> bool:
    """ "twelve is too much", "one two oh, it's a one two oh": what was read before, not read again."""
    if _is_echo(work, fact, measure) or _is_put_right_again(work, fact, measure):
        return True
    if _is_written_down(work, fact, measure) or _is_count_told(work, fact, measure):
        return True
    behind = work.texts[fact.end : fact.end + 3]
    if behind[:1] not in {("is",), ("was",)} or not {"too", "not"} & set(behind[1:]):
        return False
    values = {parse_value(r.value) for r in measure.readings}
    return any(isinstance(s, Reading) and parse_value(s.value) in values for s in work.live())


def _is_written_down(work: Working, fact: Fact, measure: Measure) -> bool:
    """ "write that down, two and a half", "two and a half, note that": told again to whoever writes."""
    before, behind = work.texts[: fact.phrase.start], work.texts[fact.phrase.end :]
    ahead = before[-1:] == ("down",) and before[-3:-1] in _WRITES and len(before) <= _WRITES_SHORT
    noted = not before and not _WRITES.isdisjoint((behind[:2], behind[1:3]))
    last = work.last_reading() if ahead or noted else None
    if last is None:
        return False
    return any(parse_value(r.value) == parse_value(last.value) for r in measure.readings)


def _is_count_told(work: Working, fact: Fact, measure: Measure) -> bool:
    """ "one two three four" … "four clicks, then": what a count aloud came to, told in the next breath.

    Not "four again", which was counted once more.
    """
    last = work.last_reading()
    if last is None or not work.texts or last not in work.last_group() or not _ANEW.isdisjoint(work.texts):
        return False
    if parse_value(measure.readings[0].value) != parse_value(last.value):
        return False
    spec = work.sheet.find(last.component, last.characteristic)
    if _COUNTED not in last.heard.lower() or spec is None or spec.allowed:
        return False
    if spec.unit != "1" and get_unit(spec.unit).kind != "turn":
        return False
    named = {c for s in fact.subjects for c in s.components}
    which = {w for s in fact.subjects for w in s.which}
    own = not fact.characteristics or (last.component, last.characteristic) in fact.characteristics
    return (
        own
        and named <= {last.component}
        and which <= {last.which}
        and _only_tells(work, fact, spec, work.sheet.get(last.component))
    )


def _only_tells(work: Working, fact: Fact, spec: Characteristic, part: Component | None) -> bool:
    """ "eleven clicks on the handbrake, well, that's a lot"; not "set it eleven", "eleven across there"."""
    start, end = fact.phrase.start, fact.phrase.end
    names = {at for s in fact.subjects for at in range(s.start, s.end)} | set(range(start, end))
    named = [*spec.names, *(part.names if part is not None else ())]
    known = _CAME_TO.union(*map(str.split, named)) - work.lexicon.positions
    for at, text in enumerate(work.texts):
        if at >= end and text in _STOPS:
            return True
        if at not in names and text not in known:
            return False
    return not ({"all", "over"} & set(work.texts) or "out there" in " ".join(work.texts))


def _is_put_right_again(work: Working, fact: Fact, measure: Measure) -> bool:
    """ "eight, no nine, I make it nine", "no two forty, two forty": what was put right, said firmly.

    Not "no two forty, and again two forty", which is read once more.
    """
    put_right = work.out[-1] if work.out else None
    if not isinstance(put_right, Correction):
        return False
    last = next((s for s in reversed(work.out) if s.id == put_right.by), None)
    before = work.said.get(last.id) if isinstance(last, Reading) else None
    if not isinstance(last, Reading) or before is None or before.phrase.end > fact.phrase.start:
        return False
    gap = work.texts[before.phrase.end : fact.phrase.start]
    named = [s for s in fact.subjects if s.start >= before.phrase.end]
    if any(
        (s.components and last.component not in s.components) or (s.which and last.which not in s.which)
        for s in named
    ):
        return False
    if fact.characteristics and (last.component, last.characteristic) not in fact.characteristics:
        return False
    again = "again" in gap and _ONCE_MORE.issuperset(gap)
    return not again and parse_value(measure.readings[0].value) == parse_value(last.value)


def _is_echo(work: Working, fact: Fact, measure: Measure) -> bool:
    """ "one two oh, it's a one two oh", "on ten, so ten": the value said right before, once more."""
    last = next((s for s in reversed(work.out) if type(s) is Reading), None)
    before = work.said.get(last.id) if last is not None else None
    if last is None or before is None:
        return False
    key = (last.component, last.characteristic)
    if fact.characteristics not in {(), before.characteristics} and key not in fact.characteristics:
        return False
    if any(s.start >= fact.phrase.end for s in fact.subjects):
        return False  # of another part
    gap = work.texts[before.phrase.end : fact.phrase.start]
    if fact.characteristics:  # "three, didn't we, hole three"
        gap = tuple([text for text in gap if text not in work.lexicon.read_words])
    alike = parse_value(measure.readings[0].value) == parse_value(last.value)
    if gap == ("so",):  # "on ten, so ten"; in other words it is read once more
        ends = before.phrase.measure.end - before.phrase.measure.start if before.phrase.measure else 0
        return alike and ends == measure.end - measure.start
    return alike and not _SAYS_SO.isdisjoint(gap) and _ECHOES.issuperset(gap)


def read_again(work: Working, fact: Fact, components: Sequence[str]) -> CharacteristicKey | None:
    """ "… and again eleven point four", "now it's thirteen two": of what was read last on it."""
    start, end = fact.phrase.start, fact.phrase.end
    last = work.last_reading()
    if last is not None and _other_way(work, last, start):
        return last.component, last.characteristic
    if last is None or last.component not in components:
        return None
    now = work.texts[max(0, start - 3) : start] in _NOW or work.texts[end : end + 1] == ("now",)
    again = "again" in work.texts[max(0, start - 2) : start] or (now and _is_near(fact, last))
    return (last.component, last.characteristic) if again else None


def _other_way(work: Working, last: Reading, start: int) -> bool:
    """ "bore is nineteen, again the other way nineteen point oh eight": of what was just named."""
    before = work.said.get(last.id) if last in work.out else None
    between = set(work.texts[before.phrase.end : start]) if before is not None else set()
    return TAKEN in between and _WAYS.issuperset(between)


def _is_near(fact: Fact, last: Reading) -> bool:
    """True where the value is hardly another than *last*, which was set anew."""
    measure = fact.phrase.measure
    if measure is None or measure.unit_said is not None:
        return False
    before, now = parse_value(last.value), parse_value(measure.readings[0].value)
    return abs(now - before) * _SET_NEAR <= before


def read_last(work: Working, fact: Fact) -> Reading | None:
    """ "do that again, two point eight", and nothing is read on the part in hand: what was read last."""
    if "again" not in work.texts[: fact.phrase.start]:
        return None
    return work.last_reading()
