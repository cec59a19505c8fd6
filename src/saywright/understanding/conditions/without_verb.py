"""A state told beside other talk with no verb of its own, or apart from its verb.

"Dry as a biscuit who greased you last", "half blocked look at that", "screen out clean as a whistle" open
what is said, or stand behind a cry, a place, a value or what came off. No noun may follow, which it would
colour: "clean rag", "torn bits go in the bin". Apart from its verb: "lies nice and flat".
"""

from __future__ import annotations

from typing import Final

from saywright.understanding.bench_words import IS, WORKSHOP
from saywright.understanding.facts import Fact, Told
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.tokens import BREAK, words_of
from saywright.understanding.wordforms import is_ing, is_past
from saywright.understanding.working import Working

# States that no noun and no verb has the form of.
_ADJECTIVES: Final = words_of(
    "dry wet damp clean clear free smooth flat straight soft stiff loose slack tight rough sharp blunt firm "
    "round true square brittle tired weak sound bent worn torn stuck split shot spongy perished brown black "
    "milky cloudy dull shiny crisp supple springy spotless immaculate"
)
_NOT_Y: Final = words_of("play heavy any only by way say day may fly")
_HOW: Final = words_of(
    "all half nearly almost a bit quite nice lovely and still just only proper well bone dead solid totally "
    "completely absolutely both too so as right pretty fairly really very properly perfectly"
)
_CRIES: Final = words_of(
    "oh ah ooh nope no yes yeah yep yup there so but and look see yuck ugh blimey crikey christ dear god "
    "heck lovely bugger damn sure right well okay ok nah eh hm hmm um uh mind course"
)
_PLACES: Final = words_of("in on down back up round")
_THERE: Final = words_of("there here inside outside underneath behind below")
_BEHIND: Final = words_of(
    "there that this it solid "
    "i you we look see mind now again too also and but so or no not nothing with where "
    "which what as at in on along around round by from near across over under inside outside underneath "
    "through right all both each either the these those look would could for because cos since though like "
    "they she he its my your if when after before until till to well"
)
_WAYS: Final = words_of("straight flat hard tight right round square true clean clear free loose sound")
_WISHED: Final = words_of("to i we you will would")
_AT: Final = {("in",), ("on",)}
_AWAY_AT: Final = WORKSHOP | {"kit", "van"}
_DOWN: Final = words_of("down back up")
_AS: Final = words_of("a an the far")
_AS_YOU: Final = (("you", "like"), ("you", "please"), ("you", "can"))
_TOO: Final = words_of("too also")
_ALL: Final = words_of("all both the")
_COLOURED: Final = words_of("a an the some that this those any no my your be get gets got getting being to")
_WORKS: Final = words_of("moves slides spins turns runs rolls swings move slide spin turn roll swing")
_VERBS_TOO: Final = words_of("free dry clean clear wet split blunt round square true loose flat")
_OBJECTS: Final = {("it",), ("that",), ("this",)}
_FROM: Final = words_of("off out up away")
_OUT: Final = words_of("off out apart")
_VERBS: Final = words_of(
    "lies sits runs stays stayed staying remains remained spins turns rolls slides moves hangs swings seats "
    "lie sit run stay spin turn roll slide move seat gone went goes got"
)
_IS_NOW: Final = IS - {"was", "were"}
_LINKS: Final = words_of("and nice lovely still now both all just quite also always only well")
_AWAY: Final = 3  # tokens between a verb and how a thing is


def is_said_apart(work: Working, fact: Fact) -> bool:
    """ "It lies nice and flat", "point is still straight", "those are perfectly good"."""
    texts, at = work.texts, fact.phrase.start
    first = at
    while at > 0 and first - at < _AWAY and (texts[at - 1] in _LINKS or texts[at - 1].endswith("ly")):
        at -= 1
    if at == first or not at or texts[at] == "and":
        return False
    return texts[at - 1] in _IS_NOW or texts[at - 1] in _VERBS


def stands_without_verb(work: Working, told: Told, fact: Fact) -> bool:
    """True where nothing but the state is told in its place."""
    texts, start = work.texts, fact.phrase.start
    if texts[start] in _WISHED or "what" in texts[:start] or _is_told_to(texts, fact):
        return False
    if not _tells_how(work, fact) or not ends_there(texts, fact.phrase.end):
        return False
    return _begins(work, told, fact)


def _is_told_to(texts: tuple[str, ...], fact: Fact) -> bool:
    """ "Free it off", "dry that before it goes in", and "dirty so and so"."""
    end = fact.phrase.end
    if texts[end : end + 3] == ("so", "and", "so"):
        return True
    object_ = texts[end : end + 1] in _OBJECTS and len(texts) > end + 1 and texts[end + 1] != BREAK
    return texts[end - 1] in _VERBS_TOO and object_


def ends_there(texts: tuple[str, ...], at: int) -> bool:
    """True where no noun stands at *at*: "look at that", "in there", the next clause."""
    after = (*texts[at : at + 2], "", "")
    if is_away(texts, at):
        return False
    if after[0] == "as":
        return after[1] in _AS or texts[at + 1 : at + 3] in _AS_YOU
    if after[0] in _DOWN:
        return after[1] in _THERE
    if after[0] in _TOO:
        return after[1] in _BEHIND or after[1] in {"", BREAK}
    return after[0] in _BEHIND or after[0] in {"", BREAK} or after[0] in CLASSES


def is_away(texts: tuple[str, ...], at: int) -> bool:
    """ "In the kit", "on the bench": where nothing is on the machine."""
    return texts[at : at + 1] in _AT and not _AWAY_AT.isdisjoint(texts[at + 1 : at + 3])


def is_cleared(texts: tuple[str, ...], at: int) -> bool:
    """ "Clean off the bench", "dry out the drum": what is to be done."""
    return texts[at] in _FROM and texts[at - 1] in _VERBS_TOO | {"smooth"}


def _tells_how(work: Working, fact: Fact) -> bool:
    """True for words of which one can be no noun: "torn", "all rusty", "clean as a whistle"."""
    words = work.texts[fact.phrase.start : fact.phrase.end]
    return (
        fact.participle
        or words[0] in _WORKS
        or any(
            word in _ADJECTIVES
            or is_past(word)
            or (word.endswith("y") and word not in _NOT_Y and len(word) > 3)
            for word in words
        )
    )


def _begins(work: Working, told: Told, fact: Fact) -> bool:
    texts = work.texts
    at = fact.phrase.start
    while at > 0 and (
        texts[at - 1] in _HOW or (texts[at - 1] in CLASSES and texts[at - 2] in _ALL and at > 1)
    ):
        at -= 1
    before = texts[at - 1] if at else BREAK
    if before == BREAK or before in _CRIES:
        return True
    if before in _THERE and (at < 2 or texts[at - 2] in _PLACES):
        return True
    pointed = all(s.pronoun and not s.components for s in fact.subjects)
    if fact.participle and pointed and (is_ing(texts[0]) or fact.phrase.end == len(texts)):
        return before not in _COLOURED  # "turning that one over chipped on the corner"
    if texts[fact.phrase.start] in _WAYS and fact.phrase.end - at == 1:
        return False  # "two point one flat", "take it out straight"
    return any(_is_behind(f, at, texts) for f in told.facts if f is not fact)


def _is_behind(before: Fact, at: int, texts: tuple[str, ...]) -> bool:
    """True where *before* ends at *at*: "two point one and dry", "screen out clean as a whistle"."""
    if at not in {before.phrase.end, before.end}:
        return False
    return before.kind in {"value", "finding"} or (before.kind == "off" and texts[at - 1] in _OUT)
