"""Parts named as where something is, not as what is spoken of: "the gasket of the bowl"."""

from __future__ import annotations

from saywright.understanding.bench_words import IS
from saywright.understanding.facts import Fact
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.attach_behind import some_there
from saywright.understanding.subjects.attach_facts import LEAK, predicate_follows, tells_place
from saywright.understanding.subjects.noun_phrases import Subject, subject_of_phrase
from saywright.understanding.subjects.part_picks import all_have
from saywright.understanding.subjects.strangers import BESIDE_IT
from saywright.understanding.walk import Walk

_IN = frozenset({"in", "on", "into"})
_RUNS = frozenset({"runs", "run", "sits", "rides", "seats", "goes", "rubs", "bears", "lives"})
_CAME = frozenset(
    {"came", "comes", "come", "pulled", "pulls", "popped", "fell", "dropped", "broke", "peeled"}
)
_WILL = frozenset({"will", "would", "can", "could", "should", "must", "shall"})
_OBJECTS = frozenset({"back", "me", "him", "her", "you", "them", "us", "it", "that"})
_WHICH_IS = ("which", "is")
_NEXT = frozenset({("now",), ("next",), ("then",), ("first",)})  # "head's off, the valves next"


def is_track(walk: Walk, index: int) -> bool:
    """ "where the seal runs there's a groove": a place on another part, by what runs there."""
    phrase, after = walk.phrases[index], walk.after(index)
    led = walk.texts[max(0, phrase.start - 1) : phrase.start] == ("where",)
    return led and after is not None and after.start == phrase.end and walk.texts[after.start] in _RUNS


def _is_verb(walk: Walk, phrase: Phrase) -> bool:
    """ "they will ring back", "I'll plug it in": what somebody will do, and no ring."""
    before = walk.texts[max(0, phrase.start - 1) : phrase.start]
    bare = not phrase.lead and phrase.end - phrase.start == 1
    behind = walk.texts[phrase.end : phrase.end + 1]
    return bare and not _WILL.isdisjoint(before) and not _OBJECTS.isdisjoint(behind)


def is_by_the_way(walk: Walk, phrase: Phrase) -> bool:
    """ "the starter jet which is the little one": what is named before, told once more by how it looks."""
    if _is_verb(walk, phrase):
        return True
    said = subject_of_phrase(phrase) if walk.current and phrase.head and phrase.head.kind == "ONE" else None
    if said is None or walk.texts[max(0, phrase.start - 2) : phrase.start] != _WHICH_IS:
        return False
    return not any(c.has_places(said.which) for c in walk.sheet.component) if said.which else not said.age


def tells_where(walk: Walk, index: int, subject: Subject) -> bool:
    """True where the subject at phrase *index* is a place, and nothing is said of it."""
    if is_so_there(walk, index, subject):
        return False
    if not _is_place(walk, subject) or ("WITH" in walk.glue and _found_so(walk, index)):
        return False
    if walk.used:
        return _moves_from(walk, index) or not (_said_next(walk, index) or behind_place(walk, index))
    return not _told_of(walk, index)


def behind_place(walk: Walk, index: int) -> bool:
    """ "cracked at the grommet return's fine": the place is named already, and something is said of this."""
    before = walk.before(index)
    return before is not None and before.kind == "word" and predicate_follows(walk, index)


def is_so_there(walk: Walk, index: int, said: Subject) -> bool:
    """ "pitted where the boot was split": the clause tells of a part of its own."""
    after = walk.after(index)
    told = after is not None and after.kind == "finding" and "COP" in after.aux_tags
    return told and "CLAUSE" in walk.glue and bool(said.components)


def is_only_place(walk: Walk, index: int, said: Subject) -> bool:
    """ "worn at the seal": only where it is; a pronoun ends it: "a groove round it, seat's clean"."""
    so = walk.texts[said.start - 1 : said.start] == ("so",)  # "torn near the lip, so a new one"
    if so or not _only_where(walk) or behind_place(walk, index) or is_so_there(walk, index, said):
        return False
    if some_there(walk, said):
        return False
    after = walk.after(index)
    if said.pronoun and not said.other_words and after is not None and after.kind == "subject":
        walk.glue -= {"PREP", "WHERE", "AT", "OF"}
    return True


def names_a_place(walk: Walk, index: int) -> bool:
    """True for what only tells where something sits, what it came off or what it is beside."""
    return _is_beside_it(walk, index) or _sits_in_it(walk, index) or _came_off_it(walk, index)


def _came_off_it(walk: Walk, index: int) -> bool:
    """ "fuel line's off the carb, it's gone hard": what it came off, of which nothing is said."""
    last, phrase = walk.last, walk.phrases[index]
    if last is None or last.kind != "off" or not last.subjects or last.phrase.end != phrase.start:
        return False
    is_off = walk.texts[last.phrase.start] in IS and walk.texts[last.phrase.end - 1] == "off"
    if not is_off or "DET" not in phrase.lead_tags or predicate_follows(walk, index):
        return False
    return any(s.components for s in last.subjects) and walk.texts[phrase.end : phrase.end + 1] not in _NEXT


def _is_beside_it(walk: Walk, index: int) -> bool:
    """ "the seat behind it is cracked": where what is named is, by what was in hand."""
    phrase, link, after = walk.phrases[index], walk.before(index), walk.after(index)
    if walk.texts[phrase.start : phrase.end] != ("it",) or link is None or after is None or walk.used:
        return False
    named = walk.current[-1] if walk.current else None
    placed = walk.texts[link.start : link.end] in BESIDE_IT and link.end == phrase.start
    if named is None or not named.components or not placed or named.end != link.start:
        return False
    return after.kind == "finding" and "COP" in after.aux_tags


def _only_where(walk: Walk) -> bool:
    """ "worn at the seal": the place on the part in hand, no part that anything is said of."""
    if walk.last is None or walk.last.segment != walk.segment or walk.glue & {"AND", "BREAK", "BUT"}:
        return False
    if walk.last.kind == "doing" and walk.last.subjects and not walk.glue:
        return walk.texts[walk.last.phrase.end - 1] == "off"  # "old gasket scraped off the head"
    return tells_place(walk.glue, walk.last)


def leaks_there(walk: Walk, subject: Subject) -> bool:
    """ "it's not leaking at the head": a leak belongs to where it is; True where it is given that."""
    last = walk.last
    if last is None or last.kind != "finding" or last.segment != walk.segment or not subject.components:
        return False
    if LEAK not in last.phrase.meaning.conditions or walk.glue & {
        "AND",
        "OR",
        "BREAK",
        "BUT",
        "AUX",
        "MARK",
        "WORD",
    }:
        return False
    bare = len(last.subjects) == 1 and last.subjects[0].pronoun and not last.subjects[0].components
    if not bare or not walk.glue & {"PREP", "OF", "AT", "WHERE"}:
        return False
    last.subjects = [subject]
    last.cover(subject.start, subject.end)
    walk.hold([subject], used=True)
    walk.glue = set()
    return True


def fitted_there(walk: Walk, index: int, subject: Subject) -> bool:
    """ "new boot on the push rod and a new diaphragm in …": where the new one went."""
    last = walk.last
    if last is None or last.kind != "on" or last.phrase.end != walk.phrases[index].start or walk.glue:
        return False
    if _read_on_fitted(walk, index, last):
        walk.hold([*last.subjects], used=False)
        return True
    led = walk.texts[last.phrase.end - 1] in {"the", "its", "that"} or subject.which
    if not led or not subject.components or subject.age is not None or predicate_follows(walk, index):
        return False
    if not last.subjects or any(s.age != "new" or s.components == subject.components for s in last.subjects):
        return False
    behind = walk.phrases[index + 1 : index + 3]
    new = len(behind) > 1 and "AND" in behind[0].tags and "NEW" in behind[1].lead_tags
    return new or not behind or behind[0].kind == "break"


def _read_on_fitted(walk: Walk, index: int, last: Fact) -> bool:
    """ "new spring on the slide measures eighty seven": the spring does, where something is read on it."""
    verb, value = walk.after(index), walk.after(index + 1)
    reads = verb is not None and "READS" in verb.tags and value is not None and value.kind == "measure"
    the = walk.texts[last.phrase.end - 1] in {"the", "its"} and len(last.subjects) == 1
    if not (reads and the) or last.subjects[0].age != "new":
        return False
    parts = [walk.sheet.get(c) for c in last.subjects[0].components]
    return any(part is not None and part.characteristic for part in parts)


def _is_place(walk: Walk, subject: Subject) -> bool:
    """ "the gasket of the bowl", "out of the body": tells where, not what."""
    if not walk.current or "BREAK" in walk.glue or "AND" in walk.glue:
        return False
    if subject.pronoun:
        on_top = walk.texts[max(0, subject.start - 2) : subject.start] == ("top", "of")
        return on_top or "WITH" in walk.glue  # "and the two washers with it", "on top of them"
    return bool(walk.glue & {"OF", "PREP"})


def _found_so(walk: Walk, index: int) -> bool:
    """ "with the top cage still stuck in it": a state right behind it is its own."""
    behind = [p for p in walk.phrases[index + 1 : index + 3] if p.kind != "word"]
    return bool(behind) and behind[0].kind == "finding"


def _told_of(walk: Walk, index: int) -> bool:
    """ "look at that through the port piston's scored": it is the part named that something is said of."""
    held = walk.current[-1]
    bare = held.pronoun and not held.components and not held.other_words and not held.single
    named = subject_of_phrase(walk.phrases[index]).components
    owns = any(component in named for component, _ in walk.characteristic)  # "end float on the mainshaft, …"
    return bare and bool(named) and (owns or predicate_follows(walk, index))


def _moves_from(walk: Walk, index: int) -> bool:
    """ "gasket stuck to the bowl came off in bits": what was so there moved, not what it was so on."""
    last, after = walk.last, walk.after(index)
    if last is None or last.kind != "finding" or "COP" in last.phrase.aux_tags or not last.participle:
        return False
    if after is None or after.kind not in {"off", "on"} or after.head is None or after.aux:
        return False
    named = any(s.components for s in last.subjects)
    return named and last.segment == walk.segment and walk.texts[after.head.start] in _CAME


def _said_next(walk: Walk, index: int) -> bool:
    """ "cap's off, on the right damper comes out": a movement right behind it is its own."""
    after = walk.after(index)
    if after is not None and "COP" in after.aux_tags and walk.phrases[index + 2 : index + 3]:
        return walk.phrases[index + 2].kind == "measure"  # "… in the inner pad's seven"
    return after is not None and after.kind in {"off", "on"}


def described_noun(walk: Walk, index: int) -> bool:
    """ "a chafed patch": a noun with its article and its state, where a doing is spelt alike."""
    phrase, state = walk.phrases[index], walk.before(index)
    if state is None or state.kind != "finding" or phrase.end - phrase.start > 1 or state.end != phrase.start:
        return False
    condition = walk.sheet.get_condition(state.meaning.conditions[-1])
    bad = condition is not None and not condition.good
    led = walk.texts[max(0, state.start - 1) : state.start] in {("a",), ("an",)}
    return bad and led and phrase.meaning.acts[0].form == "base"


def _sits_in_it(walk: Walk, index: int) -> bool:
    """ "key's in the shaft and it's a good fit": where it sits, while it was not moved there."""
    before = walk.before(index)
    sits = before is not None and before.kind == "word" and "MOVE_ON" in before.tags
    if not sits or not walk.current or before is None or before.end != walk.phrases[index].start:
        return False
    return not _IN.isdisjoint(walk.texts[before.start : before.end])  # no "fitted one new mount"


def is_face_of_it(walk: Walk, after: Phrase, said: Subject) -> bool:
    """A place on what is spoken of, none of which is told by such a position."""
    named = [c for s in walk.current for c in s.components]
    if "PLACE" not in after.tags or after.kind != "word" or not (said.which and named and walk.used):
        return False
    return bool(walk.glue & {"PREP", "OF"}) and not any(
        all_have(walk.sheet, (c,), (w,)) for c in named for w in said.which
    )
