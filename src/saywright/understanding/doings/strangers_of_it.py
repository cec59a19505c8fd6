""" "Motor cable off", "crankshaft key out", "pump cover off, spring behind": of a part, and no part."""

from __future__ import annotations

from typing import Final

from saywright.understanding.subjects.noun_phrases import subject_of_stranger
from saywright.understanding.tokens import words_of
from saywright.understanding.walk import Walk
from saywright.understanding.wordforms import singular

_NOUNS: Final = words_of(
    "cover cap lid cable key circlip clip bolt nut screw stud housing casing guard hose pipe wire lead plug "
    "bracket gasket spring pin washer clamp shroud grille fan belt pulley knob plate shield boot bush sleeve "
    "spacer retainer collar flange union connector holder carrier strap cowl cowling hood bonnet panel box "
    "shim seal link rod tube bearing"
)


def moved_a_stranger(walk: Walk, index: int) -> bool:
    """True where such a thing moved; what is said behind it is of that, and asks of which part it is."""
    if not _is_strange_part_of(walk, index):
        return False
    noun = walk.phrases[index].start
    walk.hold([subject_of_stranger(noun - 1, noun, walk.texts)], used=True)
    return True


def _is_strange_part_of(walk: Walk, index: int) -> bool:
    """True where what moved at phrase *index* is called after a part, or by two words the sheet has not."""
    start, before = walk.phrases[index].start, walk.before(index)
    if before is None or before.kind != "word" or before.tags or before.end != start:
        return False
    if singular(walk.texts[start - 1]) not in _NOUNS or before.end - before.start > 1:
        return False
    whole = walk.before(index - 1) if index > 1 else None
    if whole is None or whole.end != before.start:
        return False
    if whole.kind == "word":  # "pump cover off"
        return not whole.tags and index == 2 and whole.end - whole.start == 1
    named = whole.kind == "subject" and bool(whole.meaning.parts or whole.meaning.aliases)
    noun = walk.texts[whole.end - 1]
    return named and singular(noun) == noun
