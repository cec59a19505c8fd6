"""Words beside a value that name what is read: "forty three millimetres free", "in at six", "number"."""

from __future__ import annotations

from saywright.understanding.around import Around
from saywright.understanding.bench_words import PARTICLES
from saywright.understanding.meanings import CharacteristicKey, Meaning
from saywright.understanding.tokens import spoken_form

READ_BY = PARTICLES | {"at"}  # a name ends in one of them where a value is read by it
_AT = frozenset({"at", "on", "in", "of"})
_NEAR = frozenset({"at", "round", "around", "near", "by"})
_EVERY = {("every",), ("half",), ("all",), ("most",), ("some",), ("any",)}
_OWN = {("its",), ("his",), ("the",), ("their",)}
_SWITCHES = frozenset({"goes", "comes", "cut", "cuts", "kicks", "switches", "clicks", "trips"})
_PART_REACH = 5  # tokens from "of play" to the part it is in
_REACH = 8  # tokens from the part to its value


def read_on_it(around: Around, at: int, length: int, meaning: Meaning) -> tuple[CharacteristicKey, ...]:
    """ "forty three millimetres free": the first word of "free length" behind its value; () for others."""
    if length > 1 or not meaning.conditions:
        return ()
    word = around.texts[at]
    if around.texts[at - 1 : at] == ("of",) and [t.kind for t in around.out[-2:]] == ["MEASURE", "LINK"]:
        return _so_much_of(around, at, word)
    if around.last_kind != "MEASURE":
        return _at_its_part(around, at, word)
    return tuple(
        (component.id, read.id)
        for component, read in around.lexicon.sheet.characteristics()
        if any(len(name) == 2 and name[0] == word for name in map(spoken_form, read.names))
    )


def _at_its_part(around: Around, at: int, word: str) -> tuple[CharacteristicKey, ...]:
    """ "the play at the lever is three eighths": its free play, no fault, where a value is told of it."""
    if around.text(at + 1) not in _AT or around.texts[at - 1 : at] != ("the",):
        return ()
    part = at + 2 + (around.text(at + 2) in {"the", "its", "this"})
    found = around.names(part)
    told = any(part < start < part + _REACH for start in around.measures)
    sheet = around.lexicon.sheet
    named = [c for c in map(sheet.get, (*found.parts, *found.aliases)) if c is not None and told]
    return tuple(
        (component.id, read.id)
        for component in named
        for read in component.characteristic
        if any(name[-1:] == (word,) for name in map(spoken_form, read.names))
    )


def _so_much_of(around: Around, at: int, word: str) -> tuple[CharacteristicKey, ...]:
    """ "pedal had twenty mil of play in it", "six mil of slack in the cable": what is read on that part."""
    part = next((t.meaning for t in reversed(around.out) if t.kind == "PART"), None)
    for behind in range(at + 2, at + _PART_REACH) if part is None else ():
        if around.names_part(behind):
            part = around.names(behind)
            break
    named = (around.lexicon.sheet.get(c) for c in (*part.parts, *part.aliases)) if part is not None else ()
    return tuple(
        (component.id, read.id)
        for component in named
        if component is not None
        for read in component.characteristic
        if any(name[-1:] == (word,) for name in map(spoken_form, read.names))
    )


def read_by_particle(around: Around, at: int, length: int) -> tuple[CharacteristicKey, ...]:
    """ "cuts out at eight bar, in at six": the verb of the one serves for the other; () for others."""
    behind = at + length + (around.text(at + length) == "at")
    if behind not in around.measures:
        return ()
    read = next((t for t in reversed(around.out) if t.kind in {"CHAR", "PART"}), None)
    bare = length == 1 or around.texts[at] == "is"
    if bare and around.text(at + length) == "at" and (only := _of_the_one_read_so(around, at + length - 1)):
        return only
    if read is None or read.kind != "CHAR" or around.texts[read.end - 1] not in PARTICLES:
        return ()
    particle = at + (around.texts[at] == "back")
    found = around.lexicon.table.get((*around.texts[read.start : read.end - 1], around.texts[particle]))
    return found.characteristics if found is not None else ()


def _of_the_one_read_so(around: Around, at: int) -> tuple[CharacteristicKey, ...]:
    """ "now it's off at two point nine, on at one and a half": where it goes off and comes on."""
    last = around.last
    if (
        last is not None
        and last.kind not in {"AUX", "BREAK", "MEASURE", "PRON"}
        and "FILLER" not in last.tags
    ):
        return ()
    if (
        last is not None and last.kind == "AUX"
    ):  # "it is off at ten", not "the light was off at ten", "I was in at"
        before = around.out[-2:-1]
        if around.texts[last.end - 1] != "is" or any(t.kind not in {"BREAK", "PRON"} for t in before):
            return ()
    way = around.texts[at]
    found = {
        (component.id, read.id)
        for component, read in around.lexicon.sheet.characteristics()
        if any(n[0] in _SWITCHES and n[1:2] == (way,) for n in map(spoken_form, read.names))
    }
    return tuple(found) if len(found) == 1 else ()


def leads_to_value(around: Around, at: int, length: int, meaning: Meaning) -> bool:
    """ "number fifty six drill": what is read stands behind the number; "number" only leads to it."""
    measure = around.measures.get(at + length)
    said = around.texts[at : at + length]
    if measure is None or said not in {("number",), ("size",)}:
        return False
    if any(t.kind == "WORD" and around.texts[t.start : t.end] == said for t in around.out):
        return True  # "… and the secondary a number sixty eight"
    behind = around.names(measure.end).characteristics
    return bool(behind) and not set(behind) & set(meaning.characteristics)


def _says_how(around: Around, at: int) -> bool:
    """ "turns free", "turns rough": behind the verb stands how it does, and no value."""
    told = bool(around.names(at).conditions) or around.text(at) in around.lexicon.predicates
    return told and not any(at + far in around.measures for far in range(3))


def names_no_value(around: Around, at: int, length: int) -> bool:
    """ "It turns freely", "through every hole", "torn at the stud hole": a verb, a place, no value behind."""
    before = around.texts[at - 1 : at]
    if around.texts[at : at + length] == ("turns",) and (before == ("it",) or _says_how(around, at + 1)):
        return True
    every = before in _EVERY or (before in _OWN and around.texts[at - 2 : at - 1] in _EVERY)
    placed = "PLACE" in around.names(at).tags and not _NEAR.isdisjoint(around.texts[max(0, at - 4) : at])
    return (every or placed) and not any(at + length + far in around.measures for far in range(3))
