""" "The bowl and the gasket", "lever spring and pin out": one more of the same subjects."""

from __future__ import annotations

from typing import Literal

from saywright.understanding.bench_words import CLOSERS, PARTICLES, TOO
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.ellipsis import is_counted_beside
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.part_picks import are_renewed
from saywright.understanding.walk import Walk
from saywright.understanding.wordforms import is_past

_LEADS_TO = frozenset(
    {"on", "to", "onto", "the", "now", "next", "right", "so", "and", "okay", "back", "over"}
)
_EVERY = frozenset({"all", "both"})
_WAYS = frozenset({"down", "in", "on", "up", "over", "out", "off"})
_ALL = frozenset({"BOTH", "ALL"})
_PLURAL = frozenset({"are", "were", "have", "need", "want", "look", "seem", "do"})
_MODALS = frozenset({"can", "could", "will", "would", "needs", "wants"})
_FINDS = frozenset({"find", "found", "finds", "finding"})
_ROW_ENDS = (["subject", "on"], ["subject", "off"], ["subject", "finding"])


def goes_on(walk: Walk, index: int, subject: Subject) -> bool:
    """ "the bowl and the gasket": one more of the same subjects."""
    if not walk.current or walk.used or subject.pronoun or walk.current[-1].pronoun:
        return False
    held = walk.current[-1]
    behind = walk.texts[held.end : held.end + 2]
    too = behind[:1] in TOO or behind in TOO  # "hub too, and the pin polished"
    if (
        too
        or _told_apart(walk, index)
        or (_is_one_of(subject, held) and subject.which and not (held.which or held.count))
    ):
        return False  # "fuel lines then, feed line's hard": what comes first only names them
    begun = walk.texts[held.end : subject.start] == ("then",) and _opens(
        walk, held
    )  # "pump then, four screws"
    begun = begun and walk.texts[subject.end : subject.end + 1] != ("then",)  # "hub then drum then nuts on"
    if begun or (held.age is not None and (_is_told_alone(walk, index) or _is_done_alone(walk, index))):
        return False
    if not walk.glue and held.age is not None and held.end == subject.start and subject.components:
        return True  # "old spring, cover on" without the comma
    if not walk.glue and subject.age == "new" and walk.current[-1].age == "new":
        return True  # "new seals new wipers new rings"
    moves = _is_moved(walk, index) and held.count is not None and held.end == subject.start
    moves = moves or (held.end == subject.start and None not in {held.count, subject.count})
    several = held.many or held.selector in _EVERY  # "bowl screws gasket out", "both bushes seal out"
    moves = moves or (held.end == subject.start and several and _is_moved(walk, index))
    row = moves or (subject.many and held.many) or (held.end == subject.start and _in_long_row(walk, index))
    if not walk.glue and subject.components and row:
        return True  # "rails, balls and springs", "lever, spring and pin out" without the comma
    stray = (is_past(walk.texts[at]) for at in walk.out.strays.get(walk.segment, ()))
    if (
        _is_done_next(walk, index, held, subject)
        or _of_other_verb(walk, index, held)
        or ("WORD" in walk.glue and (any(stray) or _does_something(walk, index, held)))
    ):
        return False  # "caps wire brushed and the cover's in soak": something was said of the first
    joined = bool(walk.glue & {"AND"} or walk.glue == {"BREAK"}) and not walk.glue & {"AUX", "MARK"}
    return joined and not _is_head(walk, held, subject)


def _is_head(walk: Walk, held: Subject, subject: Subject) -> bool:
    """ "left carb, bowl off": where it is goes before, and only what is there comes off; no row of both."""
    if walk.glue != {"BREAK"} or len(walk.current) != 1 or len(held.which) != 1 or not _opens(walk, held):
        return False
    part = walk.sheet.get(subject.components[0]) if len(subject.components) == 1 else None
    other = part is not None and not set(subject.components) & set(held.components)
    bare = not (subject.which or subject.selector or subject.count or held.age or held.count)
    return bare and other and part is not None and held.which[0] in part.whiches


def _is_one_of(subject: Subject, held: Subject) -> bool:
    """True where *subject*, in short, may be what *held* names: "off the slide pins, upper pin is dry"."""
    return bool(held.components) and set(held.components) <= set(subject.components)


def shared_age(walk: Walk, index: int, subject: Subject) -> Literal["old", "new"] | None:
    """ "new seals and boots": one word for the row; not "and the boots", nor "new gasket and cover"."""
    if not walk.current:
        return subject.age
    held = walk.current[-1]
    plain = "DET" not in walk.phrases[index].lead_tags and not (subject.selector or subject.count)
    if subject.age or not plain or not (walk.glue or row_ends(walk, index)):
        return subject.age
    between = walk.texts[held.end : subject.start]
    if not _WAYS.isdisjoint(between) or walk.texts[subject.end : subject.end + 1] == ("is",):
        return None  # "new gasket down and carb's on"
    over = walk.texts[subject.end - 1].removesuffix("s") in CLOSERS and are_renewed(
        walk.sheet, held.components
    )
    return None if over and not are_renewed(walk.sheet, subject.components) else held.age


def _told_apart(walk: Walk, index: int) -> bool:
    """ "cover off five bolts and the gasket's torn": the bolts moved, and of the gasket something is said."""
    the = "DET" in walk.phrases[index].lead_tags
    return the and is_counted_beside(walk) and not _is_moved(walk, index)


def row_ends(walk: Walk, index: int) -> bool:
    """ "new pad spring, pin and clip", "new spring pin and clip in": one more, of which no more is said."""
    at = index + 1
    while at <= walk.last_index and _is_one_part(walk.phrases[at]) and not walk.phrases[at].lead:
        at += 1
    behind = walk.phrases[at : at + 3]
    if len(behind) < 2 or "AND" not in behind[0].tags or behind[1].kind != "subject":
        return False
    return len(behind) == 2 or (behind[2].kind == "on" and not behind[1].lead)


def _opens(walk: Walk, held: Subject) -> bool:
    """True where nothing but what leads to it stands before: "on to the master then"."""
    return _LEADS_TO.issuperset(walk.texts[: held.start])


def _is_done_next(walk: Walk, index: int, held: Subject, subject: Subject) -> bool:
    """ "new washers, and both nuts tightened": what was done is told of the nuts."""
    after = walk.after(index)
    done = after is not None and after.kind == "doing" and bool(subject.selector)
    return done and held.age is not None and subject.age is None


def _of_other_verb(walk: Walk, index: int, held: Subject) -> bool:
    """ "I pump the pedal and the piston comes out": the first is the object of a verb of its own.

    Not "I found the pedal and the piston seized", nor "took the bowl and the jet and the float out".
    """
    verb = next((p for p in walk.phrases[:index] if p.end == held.start), None)
    own = verb is not None and verb.kind in {"word", "mark"} and verb.tags <= {"TOOL"}
    own = own and walk.texts[held.start] in {"the", "a", "that", "this", "my"}
    if not own or verb is None or "DET" not in walk.phrases[index].lead_tags:
        return False
    after = _behind_row(walk, index)
    found = walk.texts[verb.start] in _FINDS and after is not None and after.kind == "finding"
    return not found and after is not None and walk.texts[after.start] not in PARTICLES


def _behind_row(walk: Walk, index: int) -> Phrase | None:
    """The phrase behind the row of parts that goes on at *index*, and behind "all", "both"."""
    while index + 2 < len(walk.phrases) and "AND" in walk.phrases[index + 1].tags:
        if walk.phrases[index + 2].kind != "subject":
            break
        index += 2
    after = walk.after(index)
    every = after is not None and after.kind == "lead" and after.lead_tags & _ALL
    return walk.after(index + 1) if every else after


def _does_something(walk: Walk, index: int, held: Subject) -> bool:
    """ "the switch works and the cylinder isn't leaking": the first has an unknown verb of its own."""
    verb, after = walk.texts[held.end], walk.after(index)
    third = (
        verb.endswith("s") and not verb.endswith("ss") and held.end in walk.out.strays.get(walk.segment, ())
    )
    return third and after is not None and walk.texts[after.start] in {"is", "was", "has"}


def _is_moved(walk: Walk, index: int) -> bool:
    """ "three lid screws lid off": which way the part at *index* went, right behind it."""
    after = walk.after(index)
    return after is not None and after.kind in {"off", "on"} and after.start == walk.phrases[index].end


def _in_long_row(walk: Walk, index: int) -> bool:
    """True where the row goes on with full names to an "and", its last part and what moved them.

    Three and more need no "and": "cap off, washer shims spring valve out".
    """
    at, kinds = index, walk.phrases
    first = index
    while first and _is_one_part(kinds[first - 1]):
        first -= 1
    while at < len(kinds) and _is_one_part(kinds[at]):
        at += 1
    beside = at - first > 1 and at < len(kinds) and kinds[at].start == kinds[at - 1].end
    if beside and (kinds[at].kind in {"off", "on"} or kinds[at].kind == "lead"):
        return _is_moved_in_row(walk, kinds[at], at - first)
    if beside and kinds[at].kind in {"finding", "doing"}:
        plural = walk.texts[kinds[at].start] in _PLURAL and not kinds[at - 1].meaning.many
        return at - first > 2 or plural  # "spring jet are bent", not "rod cover bolts are bent"
    joined = at + 2 < len(kinds) and "AND" in kinds[at].tags and kinds[at].kind == "link"
    ends = [p for p in kinds[at + 1 : at + 5] if not _tells_all(p)][:2] if joined else []
    if len(ends) > 1 and ends[1].kind == "doing":
        action = walk.sheet.get_action(ends[1].meaning.acts[0].id)
        verb = walk.texts[ends[1].start] in _PLURAL | _MODALS
        return ends[0].kind == "subject" and action is not None and (verb or not action.order)
    return joined and [p.kind for p in ends] in _ROW_ENDS


def _is_moved_in_row(walk: Walk, told: Phrase, parts: int) -> bool:
    """ "pin nut both off", "cap pin nut are out", "front cup rear cup both new": of all of the row."""
    if told.kind == "lead":
        return any(tag.tags & _ALL for tag in told.lead)
    moved = walk.texts[told.start : told.end]
    every = len(moved) > 1 and moved[0] in _EVERY | _PLURAL
    return every or parts > 2


def _tells_all(phrase: Phrase) -> bool:
    """ "all", "could all", "will": before what is told of a row."""
    if phrase.kind == "lead":
        return phrase.head is None and any(tag.tags & _ALL for tag in phrase.lead)
    return phrase.kind == "aux"


def _is_one_part(phrase: Phrase) -> bool:
    """A full name, or a short one of a single part: "spool, spring and screw back in"."""
    return phrase.kind == "subject" and bool(phrase.meaning.parts or len(phrase.meaning.aliases) == 1)


def _is_told_alone(walk: Walk, index: int) -> bool:
    """ "two new washers, banjo twenty five", "new washers and the banjo's twenty five": of the banjo only."""
    after = walk.after(index)
    if after is None:
        return False
    said = "DET" in walk.phrases[index].lead_tags and walk.texts[after.start] == "is"
    return said or (after.kind == "measure" and not walk.glue)


def _is_done_alone(walk: Walk, index: int) -> bool:
    """ "new washers and both nuts tightened": done to the nuts."""
    after, lead = walk.after(index), walk.phrases[index].lead_tags
    told = after is not None and after.kind == "doing"
    return told and "NEW" not in lead and bool(lead & {"BOTH", "ALL", "DET"})
