"""Talk that colours what is said around it → the tag it has in its place, where it may be a plain word."""

from __future__ import annotations

from saywright.understanding.around import Around
from saywright.understanding.bench_words import PARTICLES, WORKSHOP
from saywright.understanding.doings.rides_along import is_on_it_still
from saywright.understanding.meanings import Meaning
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.tags import DEGREES
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import is_past

HELPING = DEGREES | {"NEG", "NEED", "DONE", "DECLINE", "COP"}  # tags of helping words
_PERCEIVED = frozenset({"feel", "see", "hear", "tell", "smell", "catch", "make"})
_TOLD = frozenset({"COND", "OFF", "ON", "ACT", "MEASURE"})
_INTO = frozenset({"in", "into", "on", "onto"})
_TIMES = frozenset({"when", "how", "that", "what"})
_REACH = 4  # tokens of "in the parts tray"
_ANEW = frozenset({"again", "thing", "story"})


_MAY_TELL = frozenset({"do", "does", "is"})  # "do the left pads then", "is a bit rusty on the edge"
_A = frozenset({"a", "an"})
_DO_WHAT = frozenset({"the", "these", "they", "this"})
_SOMEWHAT = frozenset({"bit", "touch", "little", "tad", "shade", "good", "fair", "wee", "lot", "nice", "bad"})
_ENOUGH = frozenset(
    {"too", "enough", "right", "much", "ok", "okay", "fine", "allowed", "normal", "acceptable"}
)
_DO = frozenset(
    ["fit", "go", "come", "look", "need", "have", "get", "seem", "feel", "move", "turn", "slide", "spin",
     "run", "stick", "sticky", "leak", "bind", "drag", "weep", "seep", "slip", "catch", "rub", "rattle",
     "hold", "seal", "sit", "lie", "stay", "work", "open", "close", "shut", "touch", "meet", "match",
     "want", "wear", "show", "lift", "drop", "swing", "rock", "wobble", "squeak", "squeal", "mark",
     "matter", "swap", "share", "sound", "knock", "jam", "foul", "clear", "pass", "pull", "push",
     "return", "float", "line", "differ", "count", "belong"]
)  # fmt: skip
_BREATH = 8  # tokens
_BREATH_ENDS = frozenset({BREAK, "", "and", "then", "now", "so", "i", "we", "it", "before", "until"})


def mark_kind(around: Around, at: int, following: int, tags: frozenset[str]) -> str:
    """Talk that colours what is said around it, where it is no more than a word here."""
    ought = "LIMIT" in tags and tags & HELPING and following not in around.measures
    if ought and any(act.form != "base" for act in around.names(following).acts):
        return "AUX"  # "should be cleaned"
    if around.texts[at:following] == ("rather",) and around.names(following).conditions:
        return "AUX" if around.texts[at - 1 : at] != ("or",) else "MARK"  # "seized and rather rusty"
    perceived = around.text(following) in _PERCEIVED and not around.names(following).conditions
    if "FUTURE" in tags and around.texts[following - 1] == "can" and perceived:
        return "WORD"  # "which I can feel with my nail", "as far as I can tell"
    if "RESTORE" in tags and around.texts[following - 1] == "was" and around.names(following).conditions:
        return "WORD"  # "deburred where it was chipped"
    elsewhere = "STAGE" in tags and _goes_elsewhere(around, following)
    if elsewhere or ("SAME" in tags and (_same_work(around, following) or around.text(following) in _SERVED)):
        return "WORD"
    as_ever = around.texts[at - 1 : following] == ("as", "before")  # "same order as before, left first"
    if as_ever or ("NOT_MOVED" in tags and is_on_it_still(around, following)):
        return "WORD"
    if "QUESTION" in tags and _exclaims(around, at, following):
        return "BREAK"
    return "WORD" if _done_on_plate(around, at, following) else "MARK"


_TURN_KINDS = frozenset({"BREAK", "WORD", "LINK", "MOD", "PRON", "AUX"})  # "round to the other side it's"
# "it has done the same hours": how long it ran.
_SERVED = frozenset({"hours", "miles", "mileage", "seasons", "years", "kilometres", "kilometers", "distance"})


def _goes_elsewhere(around: Around, following: int) -> bool:
    """ "put it all back in the tray", "it all goes back to when he hit that kerb": nothing is built."""
    if around.texts[following - 1] != "back":
        return False  # "going back together in the vice"
    to, *behind = (*around.texts[following : following + _REACH], "")
    if to == "to":
        return not _TIMES.isdisjoint(behind[:1])
    return to in _INTO and not WORKSHOP.isdisjoint(behind)


def asks_too_late(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """A question begins its clause: nothing but fillers and breaks stands before it."""
    if "QUESTION" not in match[1].tags or _exclaims(around, at, at + match[0]):
        return False
    if match[0] > 1 and around.texts[at] in _MAY_TELL and not _asks_so(around, at, at + match[0]):
        return True
    for before in reversed(around.out):
        if before.kind == "BREAK":
            return False
        if "FILLER" not in before.tags and not (before.kind == "LINK" and "AND" in before.tags):
            return True
    return False


def _asks_so(around: Around, at: int, following: int) -> bool:
    """ "Do the pads fit", "is a tenth too much": asked; "do the pads then", "is a bit rusty" tell."""
    opener = around.texts[at:following]
    if opener[0] == "is":
        if opener[1] not in _A:
            return True
        led = all(tag.kind == "BREAK" or "FILLER" in tag.tags for tag in around.out)
        return led and around.text(following) not in _SOMEWHAT and _is_said(around, following, _ENOUGH)
    if opener[1] not in _DO_WHAT:
        return True
    return _is_said(around, following + (opener[1] == "the"), _DO)


def _is_said(around: Around, at: int, words: frozenset[str]) -> bool:
    """True where one of *words* stands at *at* or behind, in the same breath."""
    for text in around.texts[at : at + _BREATH]:
        if text in words:
            return True
        if text in _BREATH_ENDS or (text in CLASSES and words is _DO):
            return False
    return False


def _exclaims(around: Around, at: int, following: int) -> bool:
    """ "all three torn what a mess": what was told before it ends there."""
    return around.texts[at:following] == ("what", "a") and around.last_kind in _TOLD


def _same_work(around: Around, following: int) -> bool:
    """ "same again, four screws and the cap off": the same work is begun, and it is told whole."""
    following += around.text(following) in _ANEW  # "it's the same again"
    if around.texts[following - 1] not in _ANEW or any(tag.kind not in _TURN_KINDS for tag in around.out):
        return False
    told = following in around.measures or around.names_part(following)
    return told and not PARTICLES.isdisjoint(around.texts[following + 1 :])


def _done_on_plate(around: Around, at: int, following: int) -> bool:
    """ "lapped on the plate": a surface plate; no plate that tells a limit."""
    if around.texts[at:following] != ("on", "the", "plate"):
        return False
    before = [tag for tag in around.out if tag.kind not in {"MOD", "BREAK"}][-2:]
    done = (
        tag.kind == "ACT" or (tag.kind == "WORD" and is_past(around.texts[tag.end - 1])) for tag in before
    )
    return any(done) and around.text(following) not in {"it", "says", "is"}
