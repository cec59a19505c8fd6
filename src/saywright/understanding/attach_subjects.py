"""A subject was said: what said before it waits for it, and what is held for what comes."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.attach_behind import (
    aged_behind,
    all_done,
    ends_value,
    names_it_on,
    of_all_moved,
    placed_behind,
    said_to_be_new,
    selects_back,
    tells_which,
)
from saywright.understanding.attach_facts import claimable, object_first, predicate_follows, tells_place
from saywright.understanding.attach_moved import came_along, new_with_it, told_of_moved, went_along
from saywright.understanding.bench_words import PARTICLES
from saywright.understanding.denials import denied_few
from saywright.understanding.ellipsis import counted_before
from saywright.understanding.facts import Fact
from saywright.understanding.left_out import put_contrast
from saywright.understanding.needs import add_need, needed, wants_one
from saywright.understanding.subject_places import behind_place, fitted_there, leaks_there, tells_where
from saywright.understanding.subjects import Subject
from saywright.understanding.told_apart import comes_first
from saywright.understanding.walk import Walk
from saywright.understanding.wordforms import is_past

_ROW_ENDS = (["subject", "on"], ["subject", "off"], ["subject", "finding"])


def put_subject(walk: Walk, index: int, said: Subject) -> None:
    """Give the subject at phrase *index* to the facts that wait for it, or hold it for those to come."""
    where = _only_where(walk) and not behind_place(walk, index)
    if leaks_there(walk, said) or where or put_contrast(walk, index, said):
        return
    if told_of_moved(walk, index, said) or said_to_be_new(walk, said) or names_it_on(walk, said):
        return
    if tells_which(walk, said) or came_along(walk, index, said) or new_with_it(walk, index, said):
        return
    if went_along(walk, index, said) or fitted_there(walk, index, said) or of_all_moved(walk, index, said):
        return
    several = _all_before(walk, said)
    subject = _completed(walk, index, said)
    if walk.claims:
        _satisfy_claims(walk, subject)
    elif walk.waiting and _waited_for(walk, index, subject):
        for fact in walk.waiting:
            walk.take(fact, [subject])
        walk.extendable = walk.waiting
        walk.hold([subject], used=True)
    elif _extends(walk, index, subject):
        subject = _so_placed_too(walk, index, subject)
        for fact in walk.extendable:
            walk.take(fact, [subject])
        walk.current.append(subject)
    elif _lists(walk, index, subject):
        plain = "DET" not in walk.phrases[index].lead_tags  # "new seals and boots", not "and the boots"
        age = subject.age or (walk.current[-1].age if plain and walk.glue else None)
        walk.current.append(subject if age == subject.age else replace(subject, age=age))
    elif tells_where(walk, index, subject) and not object_first(walk, index):
        walk.glue = set()
        return
    else:
        _open(walk, index, subject, several)
    walk.joined_by_and = "AND" in walk.glue and not walk.glue & {"AUX", "MARK"}
    walk.waiting = []
    walk.carried = []
    walk.claims = []
    walk.glue = set()


def put_lead(walk: Walk, index: int, subject: Subject) -> None:
    """ "Both", "the left": a subject without its noun, said before or behind what it selects from."""
    after = walk.after(index)
    if subject.which and (
        after is None or after.kind in {"break", "finding", "mark"} or "FILLER" in after.tags
    ):
        subject = replace(subject, single=True)  # "rear's gritty", "on second as well"
    held = walk.current[-1].which if walk.current else ()
    numbered = subject.which and all(which.isdigit() for which in subject.which)
    if numbered and (any(not which.isdigit() for which in held) or comes_first(walk, index)):
        return  # "left one first", "air screw first": in what order, not which one
    selects = subject.selector in {"both", "all"} or bool(subject.which)
    lead = walk.phrases[index].lead
    if selects and lead[0].tags & {"NEW", "OLD"} and aged_behind(walk, index, subject):
        return  # "o rings new both"
    if selects and all_done(walk, index, subject):
        return
    if selects and (selects_back(walk, index, subject) or ends_value(walk, index, subject)):
        return
    if placed_behind(walk, index, subject):
        return
    if aged_behind(walk, index, subject) or (walk.unknown_noun_behind(index) and tells_which(walk, subject)):
        return
    if not walk.unknown_noun_behind(index):
        put_subject(walk, index, subject)


def _waited_for(walk: Walk, index: int, subject: Subject) -> bool:
    """True where the subject is what the facts that wait are about."""
    if subject.count is not None and all(_orders(walk, fact) for fact in walk.waiting):
        return True
    if "WITH" in walk.glue and walk.waiting[-1].kind == "value":
        return False  # "made one forty with the same pump": what it was done with
    by_preposition = bool(walk.glue & {"PREP", "OF"})
    return claimable(walk, index, walk.waiting[-1], by_preposition=by_preposition)


def _only_where(walk: Walk) -> bool:
    """ "worn at the seal": the place on the part in hand, no part that anything is said of."""
    if walk.last is None or walk.last.segment != walk.segment or walk.glue & {"AND", "BREAK", "BUT"}:
        return False
    if walk.last.kind == "doing" and walk.last.subjects and not walk.glue:
        return walk.texts[walk.last.phrase.end - 1] == "off"  # "old gasket scraped off the head"
    return tells_place(walk.glue, walk.last)


def _completed(walk: Walk, index: int, subject: Subject) -> Subject:
    """The subject with what the words before it add, noted as named."""
    if walk.each and not subject.selector:
        subject = replace(subject, selector=walk.each)
    walk.each = ""
    walk.denying = _denied(walk, index)
    walk.denied = subject if walk.denying else walk.denied
    if walk.denying and not subject.which:
        subject = replace(
            subject, selector=denied_few(walk.texts, walk.phrases[index].start) or subject.selector
        )
    if subject.pronoun and walk.current and not subject.components:
        meant = subject.standing_for(walk.current[-1])
        if subject.age is not None and subject.single:
            walk.out.subjects.append(meant)  # "washers: new rear one, old front one"
        return meant
    owners = dict.fromkeys(component for component, _ in walk.characteristic)
    if subject.pronoun and not subject.components and not subject.other_words and len(owners) == 1:
        return replace(subject, components=tuple(owners))  # "no reading on the seat bore, it's chewed up"
    if not subject.pronoun or (not subject.components and subject.other_words):
        walk.out.subjects.append(subject)
    return subject


def _satisfy_claims(walk: Walk, subject: Subject) -> None:
    kinds = {fact.kind for fact in walk.claims}
    listed = [f for f in (*walk.carried, *walk.waiting) if f.kind in kinds and f not in walk.claims]
    for fact in (*listed, *walk.claims):
        walk.take(fact, [subject])
    walk.extendable = [*listed, *walk.claims]
    walk.hold([subject], used=True)


def _all_before(walk: Walk, said: Subject) -> list[Subject]:
    """ "body and bowl in the dip, then they get blown through": what a bare plural pronoun stands for."""
    bare = said.pronoun and said.many and not said.other_words and not said.components
    return walk.current if bare and len(walk.current) > 1 else []


def _open(walk: Walk, index: int, subject: Subject, several: list[Subject]) -> None:
    """A new subject, of which nothing was said yet; *several*: those that it stands for."""
    counted_before(walk, subject)
    if walk.last is not None and walk.last.segment == walk.segment:
        walk.segment += 1
    _keep_characteristic(walk, subject)
    walk.hold(several or [subject], used=False)
    wanted = subject.age is None and bool(subject.components) and wants_one(walk, index)
    if wanted or (subject.age == "new" and needed(walk, index)):
        add_need(walk, index, subject)


def _extends(walk: Walk, index: int, subject: Subject) -> bool:
    """ "pulled the bowl and the jet": one more object of the same verb."""
    denied = bool(walk.extendable) and all(fact.negated for fact in walk.extendable)  # "… or the boot"
    joined = ("AND" in walk.glue or (denied and "OR" in walk.glue)) and "BREAK" not in walk.glue
    row = not walk.glue and bool(subject.components)  # "order a piston base gasket two seals"
    counted = (subject.count is not None or _one_more(walk, index) or row) and all(
        _orders(walk, fact) for fact in walk.extendable
    )
    return bool(walk.extendable) and (joined or counted) and not predicate_follows(walk, index)


def _so_placed_too(walk: Walk, index: int, subject: Subject) -> Subject:
    """ "order a rear plunger and barrel": one article and one place for both, where the sheet has it."""
    bare = not walk.phrases[index].lead and not subject.many and "AND" in walk.glue
    held = walk.current[-1] if bare and walk.current else None
    if held is None or len(held.which) != 1 or held.components == subject.components:
        return subject
    parts = [walk.sheet.get(c) for c in subject.components]
    has_it = bool(parts) and all(c is not None and c.has_places(held.which[:1]) for c in parts)
    return replace(subject, which=held.which) if has_it else subject


def _one_more(walk: Walk, index: int) -> bool:
    """ "a check spring": one of them."""
    lead = walk.phrases[index].lead
    return bool(lead) and walk.texts[lead[0].start] in {"a", "an"}


def _orders(walk: Walk, fact: Fact) -> bool:
    """ "order two wipers, two seals": a list of what to buy needs no "and"."""
    action = walk.sheet.get_action(fact.phrase.meaning.acts[0].id) if fact.kind == "doing" else None
    return action is not None and action.order


def _lists(walk: Walk, index: int, subject: Subject) -> bool:
    """ "the bowl and the gasket": one more of the same subjects."""
    if not walk.current or walk.used or subject.pronoun or walk.current[-1].pronoun:
        return False
    held = walk.current[-1]
    if subject.components == held.components and subject.which and not (held.which or held.count):
        return False  # "fuel lines then, feed line's hard": what comes first only names them
    begun = walk.texts[held.end : subject.start] == ("then",) and held.start == 0  # "pump then, four screws"
    begun = begun and walk.texts[subject.end : subject.end + 1] != ("then",)  # "hub then drum then nuts on"
    if begun or (held.age is not None and _is_told_alone(walk, index)):
        return False
    if not walk.glue and held.age is not None and held.end == subject.start and subject.components:
        return True  # "old spring, cover on" without the comma
    if not walk.glue and subject.age == "new" and walk.current[-1].age == "new":
        return True  # "new seals new wipers new rings"
    moves = _is_moved(walk, index) and held.count is not None and held.end == subject.start
    row = moves or (subject.many and held.many) or (held.end == subject.start and _in_long_row(walk, index))
    if not walk.glue and subject.components and row:
        return True  # "rails, balls and springs", "lever, spring and pin out" without the comma
    stray = (is_past(walk.texts[at]) for at in walk.out.strays.get(walk.segment, ()))
    if _of_other_verb(walk, index, held) or ("WORD" in walk.glue and any(stray)):
        return False  # "caps wire brushed and the cover's in soak": something was said of the first
    return bool(walk.glue & {"AND"} or walk.glue == {"BREAK"}) and not walk.glue & {"AUX", "MARK"}


def _of_other_verb(walk: Walk, index: int, held: Subject) -> bool:
    """ "I pump the pedal and the piston comes out": the first is the object of a verb of its own."""
    after = walk.after(index)
    verb = next((p for p in walk.phrases[:index] if p.end == held.start), None)
    own = verb is not None and verb.kind in {"word", "mark"} and verb.tags <= {"TOOL"}
    own = own and walk.texts[held.start] in {"the", "a", "that", "this", "my"}
    own = own and "DET" in walk.phrases[index].lead_tags
    return own and after is not None and walk.texts[after.start] not in PARTICLES


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
    while first and kinds[first - 1].kind == "subject" and kinds[first - 1].meaning.parts:
        first -= 1
    while at < len(kinds) and kinds[at].kind == "subject" and kinds[at].meaning.parts:
        at += 1
    if at - first > 2 and at < len(kinds) and kinds[at].kind in {"off", "on"}:
        return kinds[at].start == kinds[at - 1].end and kinds[at].end - kinds[at].start == 1
    joined = at + 2 < len(kinds) and "AND" in kinds[at].tags and kinds[at].kind == "link"
    return joined and [p.kind for p in kinds[at + 1 : at + 3]] in _ROW_ENDS


def _is_told_alone(walk: Walk, index: int) -> bool:
    """ "two new washers, banjo twenty five", "new washers and the banjo's twenty five": of the banjo only."""
    after = walk.after(index)
    if after is None:
        return False
    said = "DET" in walk.phrases[index].lead_tags and walk.texts[after.start] == "is"
    return said or (after.kind == "measure" and not walk.glue)


def _denied(walk: Walk, index: int) -> bool:
    """True for "no screws" and "neither wiper"; a "no" before an article only interrupts."""
    before, phrase = walk.before(index), walk.phrases[index]
    if denied_few(walk.texts, walk.phrases[index].start):
        return True
    if before is None or before.kind != "aux" or "NEG" not in before.aux_tags or before.end != phrase.start:
        return False
    if phrase.head is not None and phrase.head.kind == "PRON":
        return False  # "trailing piston doesn't, it's seized"
    return not any("DET" in tag.tags for tag in phrase.lead)


def _keep_characteristic(walk: Walk, subject: Subject) -> None:
    """A characteristic said before a part stays with it where the part has it."""
    owners = {component for component, _ in walk.characteristic}
    if subject.components and not (walk.characteristic and owners & set(subject.components)):
        walk.characteristic = ()
        walk.characteristic_at = None
