"""Places that are also positions of other parts: "bottom forty six point oh four" while the bore is measured.

Whether the word is a place on the part or tells which of several it is comes from what is talked of.
"""

from __future__ import annotations

from saywright.sheets.model import Sheet
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.tokens import BREAK
from saywright.understanding.values.named_places import Places
from saywright.understanding.working import Working


def places_here(work: Working, lexicon: Lexicon) -> Places:
    """The places that count in this utterance."""
    known = lexicon.places
    if not known.shared or {form[0] for form in known.shared}.isdisjoint(work.texts):
        return known
    named = _named(work.texts, lexicon)
    if not named and work.hand is not None:
        named = {work.hand.component}
    said = {form for form in known.shared if set(form) <= set(work.texts)}
    return known.here(named, _placed(lexicon.sheet, {" ".join(form) for form in said}))


def _named(texts: tuple[str, ...], lexicon: Lexicon) -> set[str]:
    """Components named by a name of theirs, or by one of a characteristic that only they have."""
    found: set[str] = set()
    at = 0
    while at < len(texts):
        match = lexicon.match(texts, at) if texts[at] not in {"", BREAK} else None
        if match is not None:
            meaning = match[1]
            owners = {component for component, _ in meaning.characteristics}
            found |= {*meaning.parts, *meaning.aliases, *owners}
        at += match[0] if match is not None else 1
    return found


def _placed(sheet: Sheet, words: set[str]) -> set[str]:
    """Components of which one is told by such a position."""
    return {c.id for c in sheet.component if words & set(c.positions)}
