"""Something was said: whether it is about what was named before it, what follows, or what is in hand."""

from __future__ import annotations

from collections.abc import Sequence
from collections.abc import Set as AbstractSet

from saywright.understanding.bench_words import IS, NO_NOUN
from saywright.understanding.facts import Fact
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.ellipsis import closes_with_these, end_with_too, same_movement
from saywright.understanding.subjects.objects import a_pair, describes_object, object_first, out_with, stuff
from saywright.understanding.subjects.size_rows import is_size_of
from saywright.understanding.walk import Walk
from saywright.units import convertible

_PREDICATES = frozenset({"finding", "doing", "off", "on", "measure"})
_GLUE_WORDS = frozenset({"word", "aux", "lead"})
_INTO = frozenset({"in", "into", "through"})
_SHE = frozenset({"it", "she", "he", "that", "they"})
_LEAVES = frozenset({"slides", "slide", "comes", "come", "drops", "falls", "slips", "pops", "lifts"})
LEAK = "leaking"  # of the base sheet: of where it leaks
_AS_FAR_AS = 4  # tokens from "there" to the state
_REACH = 6  # phrases that the object of a verb may stand behind it


def add_fact(
    walk: Walk, fact: Fact, index: int, *, prefer_right: bool, owners: set[str] | None = None
) -> None:
    """Give *fact*, said at phrase *index*, its subjects; *owners* are the parts that it can be about."""
    end_with_too(walk, fact)
    right = right_subject(walk, index, fact)
    sized = fact.kind == "value" and right == index + 1 and is_size_of(walk, index)
    if sized:
        _begin_row(walk)
        take_left = False
    elif fact.kind == "finding" and right is not None and _is_there(walk, index, right):
        walk.glue.discard("AND")
        take_left = False
    else:
        take_left = _takes_left(walk, index, fact, right, prefer_right=prefer_right, owners=owners)
    walk.glue = set()
    if take_left:
        walk.take(fact, walk.current)
        walk.used = True
        walk.extendable = []
        if fact.kind == "doing" and _in_a_bath(walk, index):
            walk.claims.append(fact)
    elif sized or (
        right is not None and claimable(walk, right, fact, by_preposition=by_preposition(walk, index))
    ):
        walk.claims.append(fact)
    elif not owners:
        walk.waiting.append(fact)
    if fact.kind != "finding" or take_left:
        walk.carried = []
    walk.last = fact
    walk.out.facts.append(fact)


def _begin_row(walk: Walk) -> None:
    """What was named since the last movement went the same way, and the part with its size goes on."""
    last = walk.last
    if last is not None and last.kind == "value" and walk.glue == {"AND"}:
        moved = [f for f in walk.out.facts if f.kind == "on" and f.subjects == last.subjects]
        walk.row = moved[-1] if moved and moved[-1].segment == walk.segment else None
    elif last is not None and last.kind in {"off", "on"} and "AND" in walk.glue and not walk.used:
        same_movement(walk)
        walk.row = walk.last


def _takes_left(
    walk: Walk, index: int, fact: Fact, right: int | None, *, prefer_right: bool, owners: set[str] | None
) -> bool:
    """True where the fact is about the current subjects."""
    if not walk.current or (owners and not _fits(walk, owners)):
        return False
    if _says_with_what(walk, index, fact) or (fact.kind == "same" and right is None and walk.used):
        return False
    after = walk.after(index)
    with_it = after is not None and "WITH" in after.tags and "AND" in walk.glue
    if fact.kind in {"off", "on"} and with_it and walk.last is not None and walk.last.kind == "doing":
        return True  # "pads cleaned and in with the old spring"
    if fact.kind == "value" and right is not None and by_preposition(walk, index) and not walk.used:
        said = walk.phrases[right].meaning
        held = [c for s in walk.current for c in s.components]
        if _read_in(walk, said.parts or said.aliases, fact) and held and not _read_in(walk, held, fact):
            return False  # "new pads, four newton metres on both bolts"
    if _in_a_bath(walk, index) and not walk.used:
        return True
    if prefer_right and right is not None and _goes_on_done(walk, fact) and predicate_follows(walk, right):
        return True  # "body washed and blown out, screen's cleaned too"
    somebody = walk.texts[walk.phrases[index].start] in {"i", "we"}  # "top cover, I'd use the gasket again"
    if prefer_right and right is not None and not walk.used and (somebody or not _adjacent(walk, index)):
        after = walk.after(right)
        told = after is not None and after.kind in {"finding", "off", "on"}
        return somebody and _adjacent(walk, index) and (told or object_first(walk, right))
    return not walk.used or right is None or (not prefer_right and not by_preposition(walk, index))


def _says_with_what(walk: Walk, index: int, fact: Fact) -> bool:
    """ "nothing wrong with the other one": what it is said of stands behind it."""
    behind = walk.after(index) if walk.texts[fact.phrase.end - 1] == "with" else None
    return fact.kind == "finding" and behind is not None and behind.kind in {"lead", "subject"}


def _is_there(walk: Walk, index: int, right: int) -> bool:
    """ "rock it and there's no play in either pad": in what is named behind it, not in what was rocked."""
    begin = walk.phrases[index].start
    if "there" not in walk.texts[max(0, begin - _AS_FAR_AS) : begin] or not by_preposition(walk, index):
        return False
    named = walk.phrases[right].meaning
    joined = "AND" in walk.glue and all(s.pronoun and not s.components for s in walk.current)
    return joined and bool(named.parts or named.aliases)


def _in_a_bath(walk: Walk, index: int) -> bool:
    """ "body goes in the ultrasonic with both jets": a doing that is a place, and what goes there too."""
    phrase = walk.phrases[index]
    if phrase.kind != "doing" or phrase.head is None or walk.texts[phrase.head.start] not in _INTO:
        return False
    after = walk.after(index)
    return after is not None and "WITH" in after.tags


def _goes_on_done(walk: Walk, fact: Fact) -> bool:
    """True for the second of two participles that are joined."""
    last = walk.last
    if fact.kind != "doing" or last is None or last.kind != "doing" or "AND" not in walk.glue:
        return False
    return fact.phrase.meaning.acts[0].form == "past" and last.subjects == walk.current


def _read_in(walk: Walk, components: Sequence[str], fact: Fact) -> bool:
    """True where something is read on one of *components* in the unit that was said."""
    unit = fact.phrase.measure.unit if fact.phrase.measure is not None else None
    parts = [walk.sheet.get(c) for c in components] if unit is not None else []
    return any(convertible(unit or "1", c.unit) for p in parts if p is not None for c in p.characteristic)


def _fits(walk: Walk, owners: set[str]) -> bool:
    return any(not s.components or owners & set(s.components) for s in walk.current)


def _adjacent(walk: Walk, index: int) -> bool:
    """True where the phrase before this one is the current subject."""
    before = walk.before(index)
    if before is not None and before.kind == "link" and index > 1 and "AND" in before.tags:
        verb = walk.phrases[index - 2]  # "injector stripped and cleaned"
        return verb.kind == "word" and walk.texts[verb.start] == "stripped"
    return before is not None and before.kind in {"subject", "lead", "measure"}


def by_preposition(walk: Walk, index: int) -> bool:
    """True where what follows the phrase at *index* begins with "of", "on", "in" and the like."""
    after = walk.after(index)
    if after is None:
        return False
    measured = walk.phrases[index].kind == "measure"
    if measured and after.kind == "aux":
        return walk.texts[after.start : after.end] in {("for",), ("for", "the")}
    return after.kind == "link" and bool(after.tags & {"PREP", "OF"})


def claimable(walk: Walk, index: int, fact: Fact, *, by_preposition: bool) -> bool:
    """True where the subject at *index* can be what *fact*, said before it, is about."""
    if walk.glue & {"BREAK", "AND", "OR", "BUT"}:
        return False
    if fact.kind in {"off", "on"} and walk.texts[fact.phrase.start] in IS and _noun_before(walk, fact):
        return False  # "tap's off airbox clip's fine": the tap is
    if fact.kind == "off" and _leaves(walk, fact):
        return False  # "it slides off the disc": from where
    if fact.kind == "value" and by_preposition and _moves_itself(walk, index, fact):
        return False  # "one point two liters in, plug's back in"
    if by_preposition or fact.kind in {"doing", "off", "on", "photo", "same"}:
        return True
    phrase = walk.phrases[index]
    if phrase.kind == "subject" and not (phrase.meaning.parts or phrase.meaning.aliases):
        return fact.kind == "finding" and closes_with_these(walk, index)
    if fact.kind == "value" and walk.out.strays.get(walk.segment):
        return False
    return ("COP" not in fact.aux and fact.kind == "finding") or not predicate_follows(walk, index)


def _moves_itself(walk: Walk, index: int, fact: Fact) -> bool:
    """An amount that went in, and a part that went back on behind it."""
    after = walk.after(index)
    went_in = walk.texts[fact.phrase.end : index and walk.phrases[index].start] == ("in",)
    return went_in and after is not None and after.kind in {"off", "on"}


def _leaves(walk: Walk, fact: Fact) -> bool:
    """A verb without an object, behind what it is said of."""
    words = walk.texts[max(0, fact.phrase.start - 1) : fact.phrase.end]
    return len(words) > 1 and words[0] in _SHE and words[1] in _LEAVES and words[-1] == "off"


def _noun_before(walk: Walk, fact: Fact) -> bool:
    """A noun that the sheet does not know, right before what is said of it."""
    at = next((i for i, phrase in enumerate(walk.phrases) if phrase is fact.phrase), 0)
    noun = walk.before(at)
    named = noun is not None and noun.kind in {"word", "mark"} and walk.texts[noun.start] not in NO_NOUN
    return noun is not None and named and noun.end == fact.phrase.start and noun.tags <= {"TOOL"}


def predicate_follows(walk: Walk, index: int) -> bool:
    """True where the subject at *index* has something said of it behind it."""
    for phrase in walk.phrases[index + 1 :]:
        if phrase.kind == "aux" and walk.texts[phrase.start] in {"i", "we"}:
            return True  # "the rear one I'd leave"
        if phrase.kind in {"break", "subject"} or "BUT" in phrase.tags:
            return False
        if phrase.kind == "link" and "AND" in phrase.tags:
            return False
        if phrase.kind in _PREDICATES or (phrase.kind == "aux" and "COP" in phrase.aux_tags):
            return True
    return False


def right_subject(walk: Walk, index: int, fact: Fact) -> int | None:
    """Index of the subject that follows phrase *index* with nothing of weight between, or None."""
    direct = fact.kind in {"doing", "off", "on"}
    passed = False  # a finding that the object is hidden behind
    for at in range(index + 1, min(index + 1 + _REACH, len(walk.phrases))):
        phrase = walk.phrases[at]
        if _names_something(walk, at) or (fact.kind == "doing" and a_pair(walk, at)):
            return at
        if phrase.kind == "measure" and phrase.measure is not None and phrase.measure.unit is None:
            continue  # "pulled two screws"
        if _leads_to_place(phrase, fact) or ("WITH" in phrase.tags and _has_its_subject(walk, fact)):
            return None  # "made one forty with the same pump": what it was done with
        if fact.kind == "doing" and at == index + 1 and walk.texts[phrase.start : phrase.end] == ("then",):
            continue  # "to order then: a piston and a gasket"
        if at == index + 1 and out_with(walk, index, phrase):
            continue
        if phrase.kind == "link" and phrase.tags & {"PREP", "OF"}:
            if passed or not (direct and at > index + 1):
                continue
            return None
        if phrase.kind == "finding" and (fact.kind == "photo" or (fact.kind == "doing" and stuff(walk, at))):
            passed = True
            continue
        if direct and describes_object(walk, at):
            continue
        if phrase.kind not in _GLUE_WORDS or (phrase.kind == "aux" and "COP" in phrase.aux_tags):
            return None
    return None


def _has_its_subject(walk: Walk, fact: Fact) -> bool:
    """True for a value, and for what is done to a part named before: "boot's getting changed with the …"."""
    if fact.kind == "doing" and bool(walk.current) and walk.current[-1].components:
        return fact.phrase.meaning.acts[0].form in {"past", "ing"}
    return fact.kind == "value"


def _leads_to_place(phrase: Phrase, fact: Fact) -> bool:
    """ "worn at the seal", "thirty one point nine six where the bushing runs"."""
    return phrase.kind == "link" and tells_place(phrase.tags, fact)


def tells_place(tags: AbstractSet[str], fact: Fact) -> bool:
    """True where the noun behind a link with *tags* is no more than the place of *fact*."""
    if fact.measured and "AT" in tags:
        return True  # "clock gauge, two thou at the rim"
    if "CLAUSE" in tags:  # "a bit of rust right where the seal runs", "greased where it runs"
        return fact.kind in {"finding", "value", "doing"}
    if fact.kind == "finding" and not fact.participle:
        told = bool(fact.subjects) or "COP" in tags  # "the pits are below the seal"
        told = told or ("BESIDE" in tags and LEAK not in fact.phrase.meaning.conditions)
        return "WHERE" in tags and told  # "green crust round the jet": found on the jet
    return fact.kind in {"finding", "value"} and ("WHERE" in tags or ("AT" in tags and fact.participle))


def _names_something(walk: Walk, at: int) -> bool:
    phrase = walk.phrases[at]
    if phrase.kind == "subject":
        return not (phrase.head is not None and phrase.head.kind == "ONE" and phrase.lead_tags & {"NEW"})
    if phrase.kind != "lead":
        return False
    doing = walk.phrases[at - 1].kind == "doing" and "OTHER" in phrase.lead_tags  # "leave the other one"
    return doing or any(tag.meaning.positions or tag.order for tag in phrase.lead)
