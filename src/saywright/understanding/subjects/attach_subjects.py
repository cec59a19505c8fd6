"""A subject was said: what said before it waits for it, and what is held for what comes."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.conditions.denials import denied_few, denies_it
from saywright.understanding.doings.left_out import put_contrast
from saywright.understanding.doings.needs import add_need, needed, wants_one
from saywright.understanding.doings.new_alone import new_alone
from saywright.understanding.subjects.all_moved import found_on_all, of_all_moved
from saywright.understanding.subjects.attach_behind import (
    aged_behind,
    all_done,
    done_along,
    ends_value,
    names_it_on,
    placed_behind,
    said_to_be_new,
    selects_back,
    tells_which,
)
from saywright.understanding.subjects.attach_facts import (
    claimable,
)
from saywright.understanding.subjects.attach_moved import (
    came_along,
    is_over_it,
    new_with_it,
    told_of_moved,
    went_along,
    went_on_its,
)
from saywright.understanding.subjects.ellipsis import counted_before, end_row, move_on
from saywright.understanding.subjects.held_by_them import held_by_them
from saywright.understanding.subjects.named_last import named_last
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.objects import object_first
from saywright.understanding.subjects.part_picks import all_have
from saywright.understanding.subjects.part_rows import goes_on, shared_age
from saywright.understanding.subjects.places_further import places_it
from saywright.understanding.subjects.side_owners import of_its_owner, of_same_owner
from saywright.understanding.subjects.subject_places import (
    fitted_there,
    is_face_of_it,
    is_only_place,
    leaks_there,
    names_a_place,
    tells_where,
)
from saywright.understanding.subjects.told_apart import comes_first
from saywright.understanding.subjects.verb_objects import extends, orders
from saywright.understanding.tags import AGES
from saywright.understanding.walk import Walk

_MOVES = frozenset({"off", "on"})
_TAKE = (went_along, went_on_its, fitted_there, of_all_moved)


def put_subject(walk: Walk, index: int, said: Subject) -> None:
    """Give the subject at phrase *index* to the facts that wait for it, or hold it for those to come."""
    said = of_same_owner(walk, said) if walk.owner else said
    alone = "NEW" in walk.phrases[index].lead_tags and new_alone(walk, index)
    if not alone and _tells_more(walk, index, said):
        return
    end_row(walk, said)
    if names_a_place(walk, index) or _is_taken(walk, index, said):
        return
    several, subject = _all_before(walk, said), _completed(walk, index, said)
    if walk.claims and not alone:
        _satisfy_claims(walk, several or [subject])
        move_on(walk, subject)
    elif walk.waiting and not alone and _waited_for(walk, index, subject):
        for fact in walk.waiting:
            walk.take(fact, [subject])
        walk.extendable = walk.waiting
        walk.hold([subject], used=True)
    elif extends(walk, index, subject):
        subject = _so_placed_too(walk, index, _so_aged(walk, index, subject))
        for fact in walk.extendable:
            walk.take(fact, [subject])
        walk.current.append(subject)
    elif goes_on(walk, index, subject):
        walk.current.append(_so_aged(walk, index, subject))
    elif not alone and tells_where(walk, index, subject) and not object_first(walk, index):
        walk.glue = set()
        return
    else:
        _open(walk, index, subject, several)
    walk.joined_by_and = "AND" in walk.glue and not walk.glue & {"AUX", "MARK"}
    walk.waiting, walk.carried, walk.claims = [], [], []
    walk.glue = set()


def _so_aged(walk: Walk, index: int, subject: Subject) -> Subject:
    """The subject with the "new" that stands before the row it goes on with."""
    age = shared_age(walk, index, subject)
    aged = subject if age == subject.age else replace(subject, age=age)
    walk.out.subjects[:] = [aged if s is subject else s for s in walk.out.subjects]
    return aged


def _tells_more(walk: Walk, index: int, said: Subject) -> bool:
    """True for what only tells more of the fact, or of the part, before it."""
    last, found = walk.last, walk.last is not None and walk.last.kind == "finding"
    return (
        (found and (named_last(walk, index, said) or found_on_all(walk, index, said)))
        or (last is not None and ((found and leaks_there(walk, said)) or is_only_place(walk, index, said)))
        or (found and put_contrast(walk, index, said))
        or (last is not None and last.kind in _MOVES and told_of_moved(walk, index, said))
        or (said.age is not None and said_to_be_new(walk, said))
        or (said.alias and names_it_on(walk, said))
        or (found and tells_which(walk, said))
        or (last is not None and came_along(walk, index, said))
        or (said.age == "new" and new_with_it(walk, index, said))
    )


def _is_taken(walk: Walk, index: int, said: Subject) -> bool:
    """True for what goes with the movement told last, or tells where the part before is."""
    if walk.last is not None:
        if walk.last.kind in _MOVES:
            for take in _TAKE:
                if take(walk, index, said):
                    return True
        if done_along(walk, index, said):
            return True
    return said.pronoun and is_over_it(walk, index, said)


def put_lead(walk: Walk, index: int, subject: Subject) -> None:
    """ "Both", "the left": a subject without its noun, said before or behind what it selects from."""
    after = walk.after(index)
    ends = after is None or after.kind in {"break", "finding", "mark"} or "FILLER" in after.tags
    if subject.which and not subject.many and ends:
        subject = replace(subject, single=True)  # "rear's gritty", "on second as well"
    held = walk.current[-1].which if walk.current else ()
    numbered = subject.which and all(which.isdigit() for which in subject.which)
    if numbered and (any(not which.isdigit() for which in held) or comes_first(walk, index)):
        return  # "left one first", "air screw first": in what order, not which one
    selects = subject.selector in {"both", "all"} or bool(subject.which)
    sided = selects or subject.selector == "other"
    if sided and after is not None and after.tags & {"PLACE", "ENDS"} and _of_what(walk, index + 2):
        return  # "scored on both faces of it"
    if selects and after is not None and ("LIMIT" in after.tags or is_face_of_it(walk, after, subject)):
        return  # "rear disc is scored on the outer face, thickness …", "the lower limit on it"
    row = len(walk.current) > 1 or any(s.many for s in walk.current)
    first = bool(walk.phrases[index].lead[0].tags & AGES)
    if selects and subject.age is not None and (row or first) and aged_behind(walk, index, subject):
        return  # "o rings new both", "front cup rear cup both new"
    if selects and all_done(walk, index, subject):
        return
    if selects and (selects_back(walk, index, subject) or ends_value(walk, index, subject)):
        return
    if placed_behind(walk, index, subject) or places_it(walk, index, subject):
        return
    if aged_behind(walk, index, subject) or (walk.unknown_noun_behind(index) and tells_which(walk, subject)):
        return
    if not walk.unknown_noun_behind(index):
        put_subject(walk, index, subject)


def _of_what(walk: Walk, index: int) -> bool:
    """True where the phrase at *index* is "of", and a part or what stands for one behind it."""
    rest = walk.phrases[index : index + 2]
    return len(rest) > 1 and "OF" in rest[0].tags and rest[1].kind == "subject"


def _waited_for(walk: Walk, index: int, subject: Subject) -> bool:
    """True where the subject is what the facts that wait are about."""
    if subject.count is not None and all(orders(walk, fact) for fact in walk.waiting):
        return True
    if "WITH" in walk.glue and walk.waiting[-1].kind == "value":
        return False  # "made one forty with the same pump": what it was done with
    leads = walk.glue & {"PREP", "OF"} or walk.texts[walk.waiting[-1].phrase.end - 1] == "with"
    return claimable(walk, index, walk.waiting[-1], by_preposition=bool(leads))


def _completed(walk: Walk, index: int, subject: Subject) -> Subject:
    """The subject with what the words before it add, noted as named."""
    if walk.each and not subject.selector:
        subject = replace(subject, selector=walk.each)
    walk.each = ""
    walk.denying = denies_it(walk, index)
    walk.denied = subject if walk.denying else walk.denied
    if walk.denying and not subject.which:
        subject = replace(
            subject, selector=denied_few(walk.texts, walk.phrases[index].start) or subject.selector
        )
    if subject.pronoun and walk.current and not subject.components and not held_by_them(walk, subject):
        meant = subject.standing_for(_with_place(walk, subject))
        if subject.age is not None and subject.single:
            walk.out.subjects.append(meant)  # "washers: new rear one, old front one"
        return meant
    owners = dict.fromkeys(component for component, _ in walk.characteristic)
    if subject.pronoun and not subject.components and not subject.other_words and len(owners) == 1:
        return replace(subject, components=tuple(owners))  # "no reading on the seat bore, it's chewed up"
    if not subject.pronoun or (not subject.components and subject.other_words):
        walk.out.subjects.append(subject)
    return subject


def _with_place(walk: Walk, said: Subject) -> Subject:
    """ "new inner bearing, drum on, old outer in": of those named the last that has such a place."""
    held = walk.current[-1]
    if not said.which or not held.components or all_have(walk.sheet, held.components, said.which):
        return held
    named = [s for s in reversed(walk.out.subjects) if s.which and s.which != said.which]
    return next((s for s in named if all_have(walk.sheet, s.components, said.which)), held)


def _satisfy_claims(walk: Walk, subjects: list[Subject]) -> None:
    kinds = {fact.kind for fact in walk.claims}
    listed = [f for f in (*walk.carried, *walk.waiting) if f.kind in kinds and f not in walk.claims]
    for fact in (*listed, *walk.claims):
        walk.take(fact, subjects)
    walk.extendable = [*listed, *walk.claims]
    walk.hold(subjects, used=True)


def _all_before(walk: Walk, said: Subject) -> list[Subject]:
    """ "body and bowl in the dip, then they get blown through": those; "cap and seal out both hard"."""
    if not said.pronoun or said.components or len(walk.current) < 2:
        return []
    if said.selector == "both" and not (said.which or said.age or said.count):
        two = len(walk.current) == len({s.components for s in walk.current}) == 2
        alone = all(s.components and not (s.many or s.count or s.selector) for s in walk.current)
        return walk.current if two and alone else []
    return walk.current if said.many and not said.other_words else []


def _open(walk: Walk, index: int, subject: Subject, several: list[Subject]) -> None:
    """A new subject, of which nothing was said yet; *several*: those that it stands for."""
    counted_before(walk, subject)
    if walk.last is not None and walk.last.segment == walk.segment:
        walk.segment += 1
    _keep_characteristic(walk, subject)
    wanting, subject = subject, of_its_owner(walk, subject)
    walk.out.subjects[:] = [subject if s is wanting else s for s in walk.out.subjects]
    walk.hold(several or [subject], used=False)
    wanted = subject.age is None and bool(subject.components) and wants_one(walk, index)
    if wanted or (subject.age == "new" and needed(walk, index)):
        add_need(walk, index, subject)


def _so_placed_too(walk: Walk, index: int, subject: Subject) -> Subject:
    """ "order a rear plunger and barrel": one article and one place for both, where the sheet has it."""
    bare = not walk.phrases[index].lead and not subject.many and "AND" in walk.glue
    held = walk.current[-1] if bare and walk.current else None
    if held is None or len(held.which) != 1 or held.components == subject.components:
        return subject
    has_it = all_have(walk.sheet, subject.components, held.which)
    return replace(subject, which=held.which) if has_it else subject


def _keep_characteristic(walk: Walk, subject: Subject) -> None:
    """A characteristic said before a part stays with it where the part has it."""
    owners = {component for component, _ in walk.characteristic}
    if subject.components and not (walk.characteristic and owners & set(subject.components)):
        walk.put_by(subject)
        walk.characteristic, walk.characteristic_at = (), None
