"""Doings told by what was used: "pins in with a smear of grease", "dab of thread lock on the bolts"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.bench_words import FLUIDS, LUBRICANTS, PLACES_ON_IT, SEALANTS
from saywright.understanding.doings.light_verbs import FOUND_SO, NOT_YET
from saywright.understanding.facts import Told
from saywright.understanding.sides.side_turns import NOT_SAID
from saywright.understanding.statements import ActionNote, Movement, Reading
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import resolve
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

STUFFS: Final = LUBRICANTS | SEALANTS
_DOINGS: Final = (("lubricate", LUBRICANTS), ("seal", SEALANTS))  # of the base sheet
# Which grease, oil or lock it is: "copper slip", "assembly lube", "thread lock".
KINDS: Final = frozenset(
    ["copper", "rubber", "silicone", "silicon", "lithium", "red", "moly", "brake", "caliper", "assembly",
     "engine", "gear", "light", "clean", "fresh", "thread", "anti", "jointing", "gasket", "blue", "white",
     "waterproof", "marine", "hydraulic", "pump", "new", "high", "temp", "temperature"]
)  # fmt: skip
BY_KIND: Final = frozenset({"silicone", "silicon", "copper", "moly", "lithium", "copaslip", "molybdenum"})
_SOME: Final = frozenset(
    ["drop", "smear", "dab", "spot", "lick", "bit", "touch", "wipe", "blob", "little", "coat", "splash",
     "dot", "squirt", "film", "plenty", "lots", "drip", "dollop", "tad", "skim", "thin"]
)  # fmt: skip
_RUBBED: Final = frozenset(
    ["pad", "pads", "disc", "discs", "shoe", "shoes", "drum", "drums", "lining", "linings", "rotor", "rotors",
     "friction", "floor", "bench", "hands"]
)  # fmt: skip
_AROUND: Final = frozenset({"a", "some", "the", "of"})
_ON: Final = frozenset({"on", "round", "around", "over", "under", "down"})
# Not used, not yet, or found there; "to" is also how far a bolt is tightened.
_DENIES: Final = FOUND_SO | (NOT_YET - {"to"}) | frozenset(
    ["not", "never", "if", "covered", "full", "dry", "got", "have", "?", "later", "tomorrow", "next", "let",
     "shall", "should", "must", "might", "can", "could", "do", "does", "did", "forgot"]
)  # fmt: skip
_INTO: Final = frozenset({"down", "in", "into", "on", "onto", "to", "up"})
_NOT_DONE: Final = NOT_SAID | {"FUTURE"}  # marks
_THERE: Final = PLACES_ON_IT | {
    "it",
    "them",
    "that",
    "those",
    "both",
    "all",
    "each",
    "every",
}  # of the part in hand


def tell_by_stuff(told: Told, work: Working) -> None:
    """Put what was greased, oiled or sealed on record where only the stuff is named.

    So where a part went on with it, or some of it was put on a part while the job goes back together.
    """
    if not _DENIES.isdisjoint(_without_asides(work)):
        return
    if any(m.tags & _NOT_DONE for m in told.marks):
        return
    texts = work.texts
    for at, text in enumerate(texts):
        doing = next((doing for doing, words in _DOINGS if text in words), None)
        if doing is None and _is_smear(texts, at):
            doing = "lubricate"
        if doing is None or work.sheet.get_action(doing) is None:
            continue
        start, measured = _begins(texts, at)
        if texts[start - 1 : start] == ("with",):
            _along(work, doing, start - 1, at + 1)
        elif measured and work.stage == "as_left" and _stands_alone(work, at + 1):
            _beside(told, work, doing, start, at + 1)
        elif texts[at + 1 : at + 2] and texts[at + 1] in _ON and (measured or _is_laid(work, start)):
            _laid_on(told, work, doing, start, at)


def _without_asides(work: Working) -> list[str]:
    """The words without the "old" of "the old shaft" and the "for" of "for once"."""
    texts = work.texts
    return [
        text
        for at, text in enumerate(texts)
        if not (text == "old" and work.lexicon.names(texts, at + 1).parts)
        and texts[at : at + 2] != ("for", "once")
    ]


def _is_smear(texts: Sequence[str], at: int) -> bool:
    """ "… with a smear of silicone": which grease, and no more said."""
    smeared = texts[at - 1 : at] == ("of",) and texts[at - 2] in {"smear", "lick", "dab", "wipe"}
    return texts[at] in BY_KIND and smeared and texts[at + 1 : at + 2] in ((), (BREAK,), ("and",), ("on",))


def _begins(texts: Sequence[str], at: int) -> tuple[int, bool]:
    """Where "a smear of red grease" begins, and whether it says how much or which."""
    start = at
    while start and texts[start - 1] in KINDS | _SOME | _AROUND:
        start -= 1
    return start, not (KINDS | _SOME).isdisjoint(texts[start:at])


def _is_laid(work: Working, start: int) -> bool:
    """ "Grease on the pin" as the job goes back together; a fault, as on a disc, is told otherwise."""
    head = not start or work.texts[start - 1] in {BREAK, "and", "then"}
    return head and work.stage == "as_left" and _RUBBED.isdisjoint(work.texts)


def _along(work: Working, doing: str, start: int, end: int) -> None:
    """The doing of what was fitted or tightened right before token *start*."""
    first = work.word_span(start, end)[0]
    before = [
        s for s in work.out if isinstance(s, Reading) or (isinstance(s, Movement) and s.movement == "fitted")
    ]
    before = [s for s in before if work.quoted[s.id][0] < first] or before
    if not before or BREAK in work.texts[start - 1 : start]:
        return
    last = before[-1]
    whole = sum(1 for s in before if s.component == last.component) > 1
    _put(work, doing, (last.component, None if whole else last.which), (start, end))


def _stands_alone(work: Working, end: int) -> bool:
    """ "new seal, smear of red grease, in it goes": the stuff and no more, up to *end*."""
    if not work.texts[end : end + 1] or work.texts[end] in {BREAK, "and", "then", "the"}:
        return True
    behind = work.lexicon.names(work.texts, end)
    return bool(behind.parts or behind.aliases)


def _beside(told: Told, work: Working, doing: str, start: int, end: int) -> None:
    """The doing of the part named right before "smear of grease" at token *start*."""
    at = start
    while at and work.texts[at - 1] in {BREAK, "and", "then", "a", "in", "on", "back"}:
        at -= 1
    named = next((s for s in reversed(told.subjects) if s.components and s.end == at), None)
    if named is None and not at:
        named = _next_fitted(told, work, end)
    part = resolve(named, work.sheet, work.hand, work.now, off=work.off) if named else None
    if part is not None:
        _put(work, doing, (part.component, part.single), (start, end))


def _next_fitted(told: Told, work: Working, end: int) -> Subject | None:
    """ "Drop of oil and the old shaft back in": of what went in with it."""
    if work.texts[end : end + 1] not in {("and",), (BREAK,)}:
        return None
    said = next((s for s in told.subjects if s.components and end < s.start <= end + 3), None)
    fitted = {s.component for s in work.out if isinstance(s, Movement) and s.movement == "fitted"}
    return said if said is not None and fitted & {*said.components} else None


def _laid_on(told: Told, work: Working, doing: str, start: int, at: int) -> None:
    """The doing of the part named behind "on", or of the one in hand: "on it", "on the threads"."""
    fresh = "fresh" in work.texts[start:at]  # none that was found there
    if (
        work.stage != "as_left"
        and not fresh
        and not any(isinstance(s, Movement) and s.movement == "fitted" for s in work.out)
    ):
        return
    named = [s for s in told.subjects if s.start in {at + 2, at + 3}]
    part = resolve(named[0], work.sheet, work.hand, work.now, off=work.off) if named else None
    if part is not None:
        _put(work, doing, (part.component, part.single), (start, named[0].end))
        work.named(part.component, part.single)
    elif not _THERE.isdisjoint(work.texts[at + 2 : at + 4]):
        here = [s for s in told.subjects if _is_thing(s, work) and s.end <= start]
        many = not {"them", "both", "all", "each", "every"}.isdisjoint(work.texts[at + 2 : at + 4])
        for one in _row_of(here, work.texts) if many else here[-1:]:
            part = resolve(one, work.sheet, work.hand, work.now, off=work.off)
            if part is not None:
                _put(work, doing, (part.component, part.single), (start, at + 2))
        if not here and work.hand is not None:
            _put(work, doing, (work.hand.component, work.hand.which), (start, at + 2))


def _is_thing(said: Subject, work: Working) -> bool:
    """False for the stuff itself: "lips to the oil and a smear of grease on every one"."""
    words = work.texts[max(0, said.start - 1) : said.start + 1]
    where = len(words) > 1 and words[0] in _INTO and words[1] == "the"  # "rod down the bore"
    return bool(said.components) and not where and work.texts[said.end - 1] not in STUFFS | FLUIDS


def _row_of(said: Sequence[Subject], texts: Sequence[str]) -> Sequence[Subject]:
    """The last of *said* with those that an "and" joins to it: "piston and rod down the bore"."""
    first = len(said) - 1
    while first > 0 and texts[said[first - 1].end : said[first].start] in {
        ("and",),
        (BREAK,),
        ("and", "the"),
    }:
        first -= 1
    return said[max(0, first) :]


def _put(work: Working, doing: str, of: tuple[str | None, str | None], span: tuple[int, int]) -> None:
    component, which = of
    if any(isinstance(s, ActionNote) and s.component == component for s in work.out):
        return  # "soaked with oil", "greased with the red stuff": told by the verb
    made = work.make(
        ActionNote,
        *span,
        stage="as_left",
        component=component,
        which=which,
        action=doing,
        status="done",
    )
    work.put(made)
