"""A name that several parts share, with what holds it: "the o ring on the piston", "seat of the poppet".

The sheet tells which: what sits in the holder, is called after it or after what is read on it; else it asks.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from saywright.sheets.model import Component, Sheet
from saywright.understanding.bench_words import FASTENERS, HOLDERS, MANNERS, NO_NAME, PART_NOUNS
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.phrases import Phrase
from saywright.understanding.sides.turning import has_side
from saywright.understanding.subjects.noun_phrases import Subject, subject_of_phrase
from saywright.understanding.subjects.part_picks import named_after, named_most_after
from saywright.understanding.tokens import spoken_form
from saywright.understanding.walk import Walk

POSSESSIVES = frozenset({"its", "their"})
_HOLDS = frozenset({"on", "in", "of", "for", "from", "inside", "into", "onto", "to", "off"})
_BETWEEN_REACH = 5  # tokens from "between" to the second of the two
_LINKS = frozenset({"link", "on", "aux"})  # "on the", "for the"


def of_its_holder(walk: Walk, index: int, said: Subject) -> Subject:
    """*said* with those of its parts that fit the holder named behind it; unclear where none does."""
    link, behind = walk.after(index), walk.after(index + 1)
    if link is None or behind is None or not _holds(walk, link):
        return said
    own = _with_words(walk, said, behind)
    if own:
        walk.taken |= {index + 2} if link.kind == "on" else {index + 1, index + 2}
        return replace(said, components=own, end=behind.end)
    if behind.kind != "subject":
        return said
    holder = subject_of_phrase(behind)
    next_one = link.kind == "on" and (_counted(holder, walk) or holder.age is not None)
    next_one = next_one or (len(said.components) == 1 and _moves_itself(walk, index + 2))
    next_one = next_one and "DET" not in behind.lead_tags
    if not holder.components or next_one:
        return said  # "tappets in new rear tappet", "cover on four screws": the next part of a row
    held = of_holder(walk.sheet, said, holder)
    if held is not None:
        if link.kind == "aux" and said.alias:
            walk.taken |= {index + 1, index + 2}  # "springs for the pawls out": said of the springs
        return held
    said = replace(said, which=said.which or _shared(walk.sheet, said, holder))
    words = " ".join(walk.texts[link.start : behind.end])
    return replace(said, unclear=said.unclear or words) if len(said.components) > 1 else said


def _moves_itself(walk: Walk, index: int) -> bool:
    """ "both drivers in feed idler in": the part at *index* is the next of a row."""
    link, after = walk.phrases[index - 1], walk.after(index)
    moved = link.kind == "on" and after is not None and after.kind == "on"
    return moved and after is not None and after.start == walk.phrases[index].end


def _counted(said: Subject, walk: Walk) -> bool:
    """ "four screws", "both nuts"."""
    return (said.count is not None or bool(said.selector)) and walk.texts[said.end - 1] in FASTENERS


def of_holder(sheet: Sheet, said: Subject, holder: Subject) -> Subject | None:
    """*said* with those of its parts that *holder* has; None where it has none."""
    fits = tuple(c for c in said.components if belongs(sheet, c, holder))
    if not fits:
        return None
    held = replace(said, components=_most_after(sheet, fits, holder) or fits)
    return replace(held, which=said.which or _shared(sheet, held, holder))


def _with_words(walk: Walk, said: Subject, behind: Phrase) -> tuple[str, ...]:
    """ "new o ring on the manifold": those that have that word in their own name; () where all have."""
    short = behind.kind == "word" or (behind.kind == "subject" and not behind.meaning.parts)
    if not said.alias or not short or behind.head is None:
        return ()
    words = set(walk.texts[behind.head.start : behind.head.end])
    known = [c for c in map(walk.sheet.get, said.components) if c is not None]
    own = tuple(c.id for c in known if any(words <= set(name[:-1]) for name, _ in component_names(c)))
    return own if len(own) < len(known) else ()


def _most_after(sheet: Sheet, fits: tuple[str, ...], holder: Subject) -> tuple[str, ...]:
    """ "two screws on the bed cover": called after that cover most of all, or not after it at all."""
    one = sheet.get(holder.components[0]) if len(holder.components) == 1 else None
    known = [c for c in map(sheet.get, fits) if c is not None]
    most = named_most_after(known, one)
    return tuple(c.id for c in known if most and (c in most or not named_after(c, one)))


def of_its_owner(walk: Walk, index: int, said: Subject) -> Subject:
    """ "valve three's spring is broken": the spring of that valve, or what is found on the valve; it asks."""
    link, owner = walk.before(index), walk.phrases[index - 2] if index > 1 else None
    phrase, after = walk.phrases[index], walk.after(index)
    if link is None or owner is None or walk.texts[link.start : link.end] != ("is",) or phrase.lead:
        return said
    if owner.kind != "subject" or not said.alias or after is None or after.start != phrase.end:
        return said
    holder = subject_of_phrase(owner)
    told = after.kind in {"finding", "doing"} or walk.texts[after.start] in {"is", "has"}
    if not told or len(holder.components) != 1 or set(said.components) & set(holder.components):
        return said
    return held_noun(walk, phrase, holder)


def of_held_part(walk: Walk, index: int, said: Subject) -> Subject:
    """ "the float and its needle": the float needle, although the jet needle is called so alone."""
    phrase = walk.phrases[index]
    held = walk.current[-1].components if walk.current else ()
    if len(held) != 1 or not phrase.lead or walk.texts[phrase.lead[0].start] not in POSSESSIVES:
        return said
    head = phrase.head
    noun = tuple(walk.texts[head.start : head.end]) if head is not None else ()
    called = [c for c in walk.sheet.component if any(n[-len(noun) :] == noun for n, _ in component_names(c))]
    alike = named_most_after([c for c in called if c.id != held[0]], walk.sheet.get(held[0]))
    return replace(said, components=tuple(c.id for c in alike)) if noun and alike else said


def of_part_beside(walk: Walk, index: int, said: Subject) -> Subject:
    """ "seat in with a new gasket", "new diaphragm in the air chamber": the seat's, and the chamber's own.

    Where the sheet has a part that is called after what stands beside it, "gasket" alone is not another one.
    """
    head = walk.phrases[index].head
    if said.age != "new" or said.which or head is None or head.end - head.start > 1:
        return said
    owner = _beside(walk, index)
    noun = walk.texts[head.start]
    if owner is None or noun == owner:
        return said
    own = [
        c.id
        for c in walk.sheet.component
        if any(name[-1] == noun and owner in name[:-1] for name, _ in component_names(c))
    ]
    return replace(said, components=tuple(own), alias=False) if len(own) == 1 else said


def _beside(walk: Walk, index: int) -> str | None:
    """The noun that a new part goes with, on or in."""
    before, after, behind = walk.before(index), walk.after(index), walk.after(index + 1)
    led = before is not None and ("WITH" in before.tags or walk.texts[before.start : before.end] == ("on",))
    if led and walk.current and walk.current[-1].components:
        return walk.texts[walk.current[-1].end - 1]
    if after is None or behind is None or behind.kind != "subject" or behind.head is None:
        return None
    within = walk.texts[after.end - 1] == "the" or "DET" in behind.lead_tags
    return walk.texts[behind.head.end - 1] if within and _holds(walk, after) else None


def of_its_own_kind(walk: Walk, said: Subject) -> Subject:
    """ "shaft", where the sheet has a shaft key and no shaft: what the key is for, perhaps; it asks."""
    word = walk.texts[said.end - 1]
    if not said.alias or word not in HOLDERS:
        return said
    parts = [c for c in map(walk.sheet.get, said.components) if c is not None]
    if any(name[-1] == word for part in parts for name, _ in component_names(part)):
        return said
    return replace(said, unclear=said.unclear or word)


def of_noun_before(walk: Walk, index: int, said: Subject) -> Subject:
    """ "valve springs", where the sheet has a spring and no valve spring: it may be another part."""
    noun, phrase = walk.before(index), walk.phrases[index]
    if noun is None or noun.kind != "word" or noun.tags or noun.end != phrase.start or phrase.lead:
        return said
    one_word = phrase.head is not None and phrase.head.end - phrase.head.start == 1
    if not one_word or not said.components or walk.texts[noun.start] not in PART_NOUNS:
        return said
    return replace(said, unclear=said.unclear or " ".join(walk.texts[noun.start : phrase.end]))


def of_noun_behind(walk: Walk, index: int, said: Subject) -> Subject:
    """ "hub bolts", "needle jack": with a noun behind it that the sheet has not, it may be another part."""
    noun = walk.after(index)
    if noun is None or noun.kind != "word" or noun.tags or noun.start != said.end or not said.components:
        return said
    if walk.texts[noun.start] in PART_NOUNS:
        return replace(held_noun(walk, noun, said), start=said.start, end=noun.end)
    word = walk.texts[noun.start]
    other = said.alias and word.isalpha() and word not in NO_NAME | MANNERS
    if other and len(said.components) == 1 and not word.endswith(("s", "ed", "ing", "ly")):
        return replace(said, unclear=said.unclear or " ".join(walk.texts[said.start : noun.end]))
    return said


def of_noun_on_it(walk: Walk, index: int, holder: Subject) -> Subject:
    """ "the seal on the nearside hub": what is called so inside *holder*; asks where none is."""
    link, noun = walk.before(index), walk.phrases[index - 2] if index > 1 else None
    if link is None or noun is None or not holder.components or not _holds(walk, link):
        return holder
    if noun.kind == "finding" and index > 2:  # "the seal's weeping on the nearside hub"
        noun = walk.phrases[index - 3]
    return held_noun(walk, noun, holder) if noun.kind == "word" and not noun.tags else holder


def held_noun(walk: Walk, noun: Phrase, holder: Subject) -> Subject:
    """The part in *holder* that a bare "seal" or "washer" is; *holder* for any other noun, or its own."""
    word = walk.texts[noun.end - 1]
    if word not in PART_NOUNS:
        return holder
    called = [c for c in walk.sheet.component if any(name[-1] == word for name, _ in component_names(c))]
    fits = tuple(c.id for c in called if belongs(walk.sheet, c.id, holder))
    if not fits:
        its_own = walk.texts[noun.start - 1] in POSSESSIVES
        return holder if its_own else replace(holder, unclear=holder.unclear or word)
    inner = replace(holder, components=fits, alias=False, start=min(noun.start, holder.start))
    return replace(inner, which=_shared(walk.sheet, inner, holder))


def owner_within(walk: Walk, said: Subject) -> Subject:
    """ "end float in the left hub": the part in the hub that has an end float, not the hub itself."""
    owners = {component for component, _ in walk.characteristic}
    if not owners or not said.components or owners & set(said.components):
        return said
    if not walk.glue & {"PREP", "OF"} or walk.glue & {"AND", "BREAK", "BUT"}:
        return said
    held = tuple(c for c in sorted(owners) if belongs(walk.sheet, c, said))
    if len(held) != 1:
        return said
    inner = replace(said, components=held, alias=False)
    return replace(inner, which=_shared(walk.sheet, inner, said))


def is_between(walk: Walk, index: int) -> bool:
    """ "feelers between the tips and the body, three thou on the drive gear": where it was read.

    Only where what it was read on is named behind the value.
    """
    phrase = walk.phrases[index]
    head = walk.texts[max(0, phrase.start - _BETWEEN_REACH) : phrase.start]
    if "between" not in head or not (head[-1] == "between" or "and" in head):
        return False
    kinds = [p.kind for p in walk.phrases[index + 1 :]]
    at = kinds.index("measure") if "measure" in kinds else len(kinds)
    return kinds[at + 1 : at + 3] == ["link", "subject"]


def _holds(walk: Walk, link: Phrase) -> bool:
    words = walk.texts[link.start : link.end]
    return link.kind in _LINKS and words[0] in _HOLDS and _HOLDS.union({"the"}).issuperset(words)


def _shared(sheet: Sheet, said: Subject, holder: Subject) -> tuple[str, ...]:
    """ "seat of the left poppet", "pins on the left caliper": its position, where what it holds has it."""
    parts = [c for c in map(sheet.get, said.components) if c is not None]
    there = (all(w in c.whiches or has_side(c, w) for w in holder.which) for c in parts)
    return holder.which if parts and all(there) else ()


def belongs(sheet: Sheet, component_id: str, holder: Subject) -> bool:
    """True where the part sits inside what *holder* names, or is called after it."""
    component = sheet.get(component_id)
    held_in = [c for c in map(sheet.get, holder.components) if c is not None and c.id != component_id]
    if component is None:
        return False
    around = set(_around(sheet, component))
    return any(one.id in around or _called_after(component, one) for one in held_in)


def _around(sheet: Sheet, component: Component) -> Iterator[str]:
    """What *component* sits in, and what that sits in."""
    seen = {component.id}
    at = component.inside
    while at is not None and at not in seen:
        seen.add(at)
        yield at
        outer = sheet.get(at)
        at = outer.inside if outer is not None else None


def _called_after(component: Component, holder: Component) -> bool:
    """ "piston head o ring", "stem o ring": after the piston, or after the stem that is read on it."""
    nouns = {name[-1] for name, _ in component_names(holder)}
    nouns |= {form[0] for c in holder.characteristic for form in map(spoken_form, c.names) if len(form) == 1}
    return any(nouns & set(name[:-1]) for name, _ in component_names(component))
