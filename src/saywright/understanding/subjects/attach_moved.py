"""Words behind a movement: which one moved, how old it is, what moved with it: "in, new ones", "with it"."""

from __future__ import annotations

from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace

from saywright.sheets.model import Component
from saywright.understanding.facts import Fact
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.attach_facts import predicate_follows
from saywright.understanding.subjects.ellipsis import same_movement
from saywright.understanding.subjects.moved_ages import aged_apart, cover_told, how_old
from saywright.understanding.subjects.noun_phrases import Subject, subject_of_phrase
from saywright.understanding.subjects.part_picks import named_most_after
from saywright.understanding.walk import Walk

_MOVES = frozenset({"off", "on"})
_COMES = frozenset({("comes",), ("came",), ("come",), ("coming",), ("went",), ("goes",)})
_HUNG = frozenset({"hanging", "hung", "still", "sitting", "sat", "stuck", "riding", "clipped"})  # "… on it"
_WITH_IT = frozenset({("with", "it"), ("with", "them")})
_POSSESSIVE = frozenset({"its", "their", "his", "her"})
_TURNED = frozenset({"screw", "screws", "bolt", "bolts", "nut", "nuts", "gear", "gears"})  # also tools
_APART = frozenset({"AND", "BREAK", "BUT", "MARK", "AUX", "OR", "WITH", "WORD"})


def told_of_moved(walk: Walk, index: int, said: Subject) -> bool:
    """True where *said* only tells more of what moved last."""
    last = walk.last
    if last is None or last.kind not in _MOVES or said.components:
        return False
    if aged_apart(walk, index, last, said):
        return how_old(walk, last, said)
    if last.segment != walk.segment:
        return False
    if _in_turn(walk, index, last, said):
        return True
    if walk.glue & _APART or not last.subjects:
        return False
    if predicate_follows(walk, index):  # "nipple in, new one, bled it through"
        right_behind = last.phrase.end == said.start and (said.single or said.many)
        after = walk.after(index)
        is_so = after is None or "COP" in after.aux_tags or after.kind in {"off", "on"}
        return right_behind and not is_so and not said.which and how_old(walk, last, said)
    return _where(walk, last, said) or how_old(walk, last, said)


def _where(walk: Walk, last: Fact, said: Subject) -> bool:
    """ "new plunger in number two", "the old one back on the far end"."""
    if not said.which or said.age or said.selector or said.count:
        return False
    placed = [s for s in last.subjects[:-1] if s.which]
    placed = (
        placed if len(placed) == len(last.subjects) - 1 else []
    )  # "new one in the top, old one back in …"
    told = last.subjects[len(placed) :]
    if any((s.which and not s.pronoun) or s.selector or s.count for s in told):
        return False
    parts = [walk.sheet.get(c) for s in told for c in s.components]
    if not parts:
        return False
    which = _whole(said.which)
    exact = all(c is not None and set(which) <= _ones(c.positions, c.count) for c in parts)
    if not exact and not (
        (all(s.many for s in told) or not any(s.many or s.pronoun for s in told))
        and _some_are_there(parts, said)
    ):
        return False
    last.subjects = [*placed, *(replace(s, which=which, many=s.many and not exact) for s in told)]
    cover_told(walk, last, said)
    return True


def _whole(which: tuple[str, ...]) -> tuple[str, ...]:
    """ "Drive end" of it and of the "drive" that it also tells by its first word: one place, and no two."""
    words = " ".join(which).split()
    return tuple(w for w in which if " " in w or words.count(w) == 1) if len(words) > len(which) else which


def _some_are_there(parts: Sequence[Component | None], said: Subject) -> bool:
    """ "wheels off at the front": a word that tells several of them."""
    return all(part is not None and set(said.which) <= part.place_words for part in parts)


def _in_turn(walk: Walk, index: int, last: Fact, said: Subject) -> bool:
    """ "gears out, driven first, then the drive": one more of those that moved."""
    known = (f for f in walk.out.facts if f.kind == last.kind and f.subjects)
    moved = max(known, key=lambda f: f.end, default=last)
    held = moved.subjects[-1] if moved.subjects else said
    if not held.which or not said.which or said.which == held.which or said.selector:
        return False
    if "AND" not in walk.glue or walk.glue - {"AND", "BREAK"} or predicate_follows(walk, index):
        return False
    which = _ones_of(held, said, walk)
    if not which:
        return False
    many = said.many or (held.many and not said.single)  # "pistons in and a new one in the rear"
    one = replace(held, which=which, age=said.age or held.age, many=many, start=said.start)
    moved.subjects = [*moved.subjects, one]
    cover_told(walk, moved, said)
    return True


def _ones_of(held: Subject, said: Subject, walk: Walk) -> tuple[str, ...]:
    """The places that *said* names of the part *held*: "the large drive gear and the driven"."""
    parts = [walk.sheet.get(c) for c in held.components]
    known = [part for part in parts if part is not None]
    if not known or len(known) < len(parts):
        return ()
    if all(set(said.which) <= _ones(part.positions, part.count) for part in known):
        return said.which
    if all(part.has_places(said.which) and not set(held.which) & set(part.positions) for part in known):
        return said.which  # "front pads in and the rear", of which there are inner and outer ones
    words = {word for which in said.which for word in which.split()}
    beside = [p for p in known[0].positions if words < set(p.split()) and _differ_by(words, p, held.which)]
    return tuple(beside) if len(beside) == 1 and len(known) == 1 else ()


def _differ_by(words: AbstractSet[str], position: str, held: Sequence[str]) -> bool:
    """True where *position* has the words of the only one that is *held*, but for *words*."""
    rest = set(position.split()) - words
    return len(held) == 1 and rest <= set(held[0].split()) and not words <= set(held[0].split())


def _places_of(part: Component) -> set[str]:
    """The places of *part*, and the words that tell some of them."""
    numbers = set() if part.positions or part.count < 2 else _ones((), part.count)
    return numbers.union(part.positions, part.place_words)


def _ones(positions: tuple[str, ...], count: int) -> set[str]:
    return set(positions) if positions else {str(n) for n in range(1, count + 1)}


def came_along(walk: Walk, index: int, said: Subject) -> bool:
    """ "the holder's out with both brushes in it": what moved with it; False where it is no such thing."""
    if "WITH" in walk.glue and not walk.used:
        same_movement(walk)  # "spring out, then the slide with the diaphragm on it"
    last, phrase, after = walk.last, walk.phrases[index], walk.after(index)
    near = last is not None and walk.segment - last.segment <= ("BREAK" in walk.glue)
    if last is None or not near or last.kind not in {"off", "on"} or "WITH" not in walk.glue:
        return False
    if said.unclear:
        return False  # "with rubber grease"
    words = walk.texts[after.start : after.end] if after is not None and after.kind == "on" else ()
    within = words[-1:] in {("in",), ("on",)} and last.kind == "off" and _HUNG.issuperset(words[:-1])
    valued = last.kind == "on" and said.age is not None and _is_read_on(walk, after, said)
    if not said.components or (predicate_follows(walk, index) and not (within or valued)):
        return False
    kept = last.kind == "on" and said.age is not None  # "diaphragm on with the old bolt"
    own = with_its_own(walk, said) if walk.current and (kept or _is_its(walk, index)) else said
    if len(own.components) > 1 and not (said.selector or said.count):
        walk.taken.update({index + 1} if within else ())  # "with the gears on": none of them by itself
        return within  # "comes out with the screw": by what, not with what
    end = after.end if after is not None and within else phrase.end
    said = with_its_own(walk, said) if walk.current else said
    said = _one_for_each(walk, said, last)
    with_it = [said, *(_new_along(walk, index) if said.age == "new" and last.kind == "on" else ())]
    along = Fact(last.kind, phrase, last.segment, with_it, start=phrase.start, end=end)
    walk.out.facts.insert(walk.out.facts.index(last), along)  # what it came with stays in hand
    walk.taken.update({index + 1} if within else ())
    if valued:
        walk.hold([said], used=True)  # "on with a new bolt that's eighteen"
    walk.glue = set()
    return True


def _one_for_each(walk: Walk, said: Subject, last: Fact) -> Subject:
    """ "both carbs on with new rubbers": as many, where each of what moved has its own."""
    every = len(last.subjects) == 1 and last.subjects[0].selector in {"both", "all"}
    if not every or not said.many or said.which or said.selector or said.count or len(said.components) != 1:
        return said
    own = walk.sheet.get(said.components[0])
    moved = [walk.sheet.get(c) for c in last.subjects[0].components]
    alike = own is not None and own.positions and all(c and c.positions == own.positions for c in moved)
    return replace(said, selector=last.subjects[0].selector) if alike and moved else said


def _is_read_on(walk: Walk, after: Phrase | None, said: Subject) -> bool:
    """ "on with a new bolt that's eighteen", where all that are called so have something that is read."""
    parts = [walk.sheet.get(c) for c in said.components]
    told = after is not None and (after.kind == "measure" or walk.texts[after.start] == "that")
    return told and all(part is not None and part.characteristic for part in parts)


def _is_its(walk: Walk, index: int) -> bool:
    """ "pilot screw's out with its spring", "the cover lifts away with the gasket"; not "with the screw"."""
    lead, noun = walk.phrases[index].lead, walk.texts[walk.phrases[index].end - 1]
    return bool(lead) and (walk.texts[lead[0].start] in _POSSESSIVE or noun not in _TURNED)


def is_over_it(walk: Walk, index: int, said: Subject) -> bool:
    """ "the spring, and the top over it": where the part named last is; nothing is said of that."""
    if said.components or not said.pronoun or said.other_words or said.single or not walk.current:
        return False
    if walk.used or not walk.glue or not walk.glue <= {"PREP", "WHERE", "OF"} or not walk.joined_by_and:
        return False
    after = walk.after(index)
    if after is not None and after.kind != "break" and "AND" not in after.tags:
        return False
    walk.glue = set()
    return True


def went_on_its(walk: Walk, index: int, said: Subject) -> bool:
    """ "the float goes back in on its pin": where it came off too, it went on with it."""
    last, lead = walk.last, walk.phrases[index].lead
    if last is None or last.kind != "on" or not lead or walk.texts[lead[0].start] != "its":
        return False
    if walk.texts[lead[0].start - 1] not in {"on", "onto", "over"} or walk.segment != last.segment:
        return False
    own = with_its_own(walk, said) if walk.current else said
    if len(own.components) != 1 or predicate_follows(walk, index):
        return False
    along = Fact("on", walk.phrases[index], last.segment, [own], start=said.start, end=said.end, if_off=True)
    walk.out.facts.append(along)
    walk.glue = set()
    return True


def went_along(walk: Walk, index: int, said: Subject) -> bool:
    """ "casing off, o-ring with it", "and the needle comes with it": it moved as what was named before."""
    last = walk.last
    if last is None or last.kind not in {"off", "on"} or not said.components or not last.subjects:
        return False
    start = walk.phrases[index].end
    end = start + (walk.texts[start : start + 1] in _COMES)
    if walk.segment - last.segment > 1 or walk.texts[end : end + 2] not in _WITH_IT:
        return False
    end += 2
    behind = [at for at in range(index + 1, len(walk.phrases)) if walk.phrases[at].start >= start]
    within = [at for at in behind if walk.phrases[at].end <= end]
    after = walk.phrases[within[-1] + 1 : within[-1] + 2] if within else []
    if not within or (after and after[0].kind != "break" and "AND" not in after[0].tags):
        return False
    row = [] if walk.used or walk.glue != {"AND"} else walk.current  # "plunger and spring came with it"
    along = Fact(last.kind, walk.phrases[index], walk.segment, [*row, said], start=said.start, end=end)
    along.start = min(s.start for s in along.subjects)
    walk.out.facts.append(along)
    walk.taken.update(within)
    walk.hold([*row, said], used=True)
    walk.glue = set()
    return True


def new_with_it(walk: Walk, index: int, said: Subject) -> bool:
    """ "banjo bolt with two new washers": fitted with what was named before."""
    if said.age != "new" or "WITH" not in walk.glue or not walk.current:
        return False
    phrase, held = walk.phrases[index], walk.current[-1].components
    if walk.texts[max(0, phrase.start - 2) : phrase.start] == ("do", "with"):
        return False  # "it'll do with a new key": what it takes
    one = with_its_own(walk, said)
    one = one if one.components else replace(one, components=held)  # "with a new one"
    fitted = Fact("on", phrase, walk.segment, [one], start=phrase.start, end=phrase.end)
    fitted.subjects += _new_along(walk, index)
    walk.out.facts.insert(0, fitted)  # first: what it came with stays in hand
    walk.glue = set()
    return True


def _new_along(walk: Walk, index: int) -> list[Subject]:
    """ "hub on with a new seal and split pin": the rest of those that are new."""
    link, behind = walk.after(index), walk.after(index + 1)
    joined = link is not None and link.kind == "link" and "AND" in link.tags and behind is not None
    if not joined or behind is None or behind.kind != "subject" or behind.lead or not behind.meaning.parts:
        return []
    if predicate_follows(walk, index + 2):
        return []
    walk.taken.update({index + 1, index + 2})
    return [replace(subject_of_phrase(behind), age="new")]


def with_its_own(walk: Walk, said: Subject) -> Subject:
    """ "drain plug with a new washer": of several so called those named most after what they came with.

    It has the place of what it came with, which is none of those that it is itself.
    """
    held = walk.current[-1]
    others = tuple(c for c in held.components if c not in said.components)
    if others and others != held.components:
        alone = replace(held, components=others)  # "nearside cylinder's on with a new cup"
        walk.current[-1] = alone
        for fact in walk.out.facts:
            fact.subjects = [alone if s is held else s for s in fact.subjects]
        walk.out.subjects[:] = [alone if s is held else s for s in walk.out.subjects]
        held = alone
    part = walk.sheet.get(held.components[0]) if held.components else None
    named = [c for c in map(walk.sheet.get, said.components) if c is not None]
    counted = [c for c in named if c.count == said.count] or named  # "on with its four screws"
    alike = counted if len(counted) == 1 else named_most_after(counted, part)
    called = tuple(c.id for c in alike) or said.components
    own = [walk.sheet.get(c) for c in called]
    placed = bool(held.which) and all(c is not None and set(held.which) <= _places_of(c) for c in own)
    alone_there = placed and not (said.which or said.selector or said.count or said.many)
    return replace(said, components=called, which=held.which if alone_there else said.which)
