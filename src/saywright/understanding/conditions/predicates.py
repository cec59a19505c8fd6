"""A state told by a word that tells one only as what is said of a part: "it has gone soft", "bearing shot".

It stands behind a copula or right behind the part, and the clause ends with it. A noun stands
behind an article, where something is there or has it: "there is a hole in it".
"""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.around import Around
from saywright.understanding.meanings import Meaning
from saywright.understanding.naming.predicates import Predicate
from saywright.understanding.tokens import BREAK

_ENDS = frozenset(
    {"", BREAK, "?", "and", "but", "so", "or", "with", "now", "too", "again", "though", "as", "then",
     "because", "cos", "all"}
)  # fmt: skip
# Behind "it is shot" more may follow of where and when it is so, or the next clause.
_GOES_ON = frozenset(
    ["when", "in", "on", "at", "round", "inside", "it", "that", "this", "the", "i", "we", "they", "there",
     "you", "see", "look", "note", "listen", "hear", "oh", "ah", "she", "he", "even", "just", "nobody",
     "its", "other", "others", "rest"]
)  # fmt: skip
_CALLS = frozenset({"hear", "listen", "look", "see", "you", "oh", "i", "we"})  # "rough and noisy, hear that"
_BY_WHAT = frozenset({"by", "near", "at", "round", "along", "in", "where"})  # "soft by the fitting"
_SENSED = frozenset({"turn", "touch", "move", "spin"})  # "rough to turn", "soft to the touch"
_BE = frozenset(
    ["is", "are", "was", "were", "be", "been", "being", "gone", "went", "goes", "got", "getting", "feels",
     "feel", "felt", "looks", "look", "looked", "sounds", "sound", "sounded", "seems", "seem", "has", "have",
     "turns", "spins", "runs", "rolls", "rotates", "moves", "slides"]
)  # fmt: skip
_MUCH = (
    ("all",),
    ("both",),
    ("dead",),
    ("proper",),
    ("right",),
    ("well",),
)  # "they're all shot", "is dead rough"
_LABELLED = ("marked",)  # also what is written on a part
_COPULA = Meaning(tags=frozenset({"COP"}))
_NO_PART = frozenset({"i", "we", "you", "he", "she", "am"})  # "she's noisy": the whole machine
_NO_SUBJECT = frozenset({"a", "an", "another", "some", "more"})  # "one more bearing shot": a picture
_ONE_OF = frozenset({"a", "an", "one", "another", "no", "any", "some"})
_SIZES = frozenset(
    ["little", "slight", "small", "big", "tiny", "large", "great", "huge", "massive", "good", "nice", "deep",
     "proper", "definite", "real", "right", "fair", "decent", "wee", "ragged", "bit", "of", "heck", "hell",
     "whole", "lot"]
)  # fmt: skip
_HAS = frozenset(["has", "have", "got", "gets", "see", "feel", "found", "find", "spotted", "shows", "not"])
_IS = frozenset({"is", "are", "was", "were"})
_OPENS = frozenset({"", BREAK, "and", "but", "there"})
_WHERE = frozenset(["in", "on", "through", "right", "straight", "round", "around", "near", "at", "there"])
_WHERE_FROM = _WHERE | {"from", "out", "coming"}  # "a knock out of the crosshead"
_SUNK = ("sunk",)
_SINKS = frozenset({"in", "into", "below", "under", "down", "out", "at", "a", "to"})
_RELATIVE = frozenset({"you", "i", "we"})
# What follows a noun says what it is for, or something more of it: it belongs there.
_BELONGS = frozenset(
    ["is", "are", "was", "were", "for", "to", "where", "which", "that", "has", "wants", "needs", "goes",
     "should", "my", "his", "your"]
)  # fmt: skip


def predicate_at(around: Around, at: int) -> tuple[int, Meaning] | None:
    """Length and meaning of the state at *at* as what is said of a part; None where it is none."""
    named = around.lexicon.match(around.texts, at)
    for one in around.lexicon.predicates[around.texts[at]]:
        end = at + len(one.name)
        longer = named is not None and named[0] > len(one.name) and one.name != _LABELLED
        if around.texts[at:end] != one.name or longer:
            continue
        if around.texts[at - 1] == "nothing" and at:
            length = _nothing_so(around, at, end)
        elif not one.noun:
            length = _said_of(around, end, one)
        else:
            length = len(one.name) if _noun_tells(around, at, end) else 0
        if length:
            return length, one.meaning
    return None


def _said_of(around: Around, end: int, one: Predicate) -> int:
    """Length of "shot" in "it is shot", "rough to turn", where the clause ends behind it; else 0.

    A verb before it that is a copula only there, as in "sounds rough", is made one.
    """
    verb, length = _verb_at(around), len(one.name)
    if verb < 0:
        return 0
    last = around.out[verb]
    ends = around.text(end) in _ENDS or "FILLER" in around.names(end).tags
    if around.text(end) == "with" and around.names(end + 1).conditions:
        return 0  # "black with dirt"
    if around.texts[end - length - 1] == "of":
        return 0  # "full of black sludge"
    if one.name == _SUNK and around.text(end) in _SINKS:
        return 0  # "the seat's sunk in the head"
    if last.kind not in {"AUX", "WORD"}:
        ends = ends or (around.text(end) == "the" and _opens_next(around, end + 1))
        ends = ends or _next_is_told(around, end) or around.text(end) == "when"
        told = ends and length == 1 and _names_part(around, verb)
        return length if told or _is_next_state(around, end) else 0
    if not _has_subject(around, verb - 1) or (one.name == _LABELLED and not _is_all_said(around, end)):
        return 0
    if not (ends or around.text(end) in _GOES_ON or _opens_next(around, end)):
        sensed = next((n for n in (1, 2) if around.text(end + n) in _SENSED), 0)
        if around.text(end) != "to" or not sensed:
            return 0
        length += 1 + sensed
    if last.kind == "WORD":
        around.out[verb] = replace(last, kind="AUX", meaning=_COPULA)
    around.out[verb + 1 :] = [
        replace(t, kind="AUX") if t.kind == "MOD" else t for t in around.out[verb + 1 :]
    ]
    return length


def _is_next_state(around: Around, end: int) -> bool:
    """ "cracked and soft", "no cracks, not soft": behind another state of it, at the clause's end."""
    said = [tag for tag in around.out[-4:] if "FILLER" not in tag.tags]
    if not said or said[-1].kind not in {"LINK", "AUX"} or not said[-1].tags & {"AND", "NEG"}:
        return False
    before = said[-2] if said[-1].kind == "AUX" and len(said) > 1 and "AND" in said[-2].tags else said[-1]
    at = said.index(before)
    state = said[at - 1] if at else None
    if "AND" in said[-1].tags and at > 1 and "NEG" in said[at - 2].tags:
        return False  # "no cracks and soft"
    ends = around.text(end) in _ENDS or (around.text(end) in _BY_WHAT and around.text(end + 1) == "the")
    ends = ends or around.text(end) in _CALLS
    return state is not None and state.kind == "COND" and (ends or "NEG" in around.names(end).tags)


def _nothing_so(around: Around, at: int, end: int) -> int:
    """Length of "rough" in "there's nothing rough in it", "nothing rough"; 0 where more is said of it."""
    opens = around.texts[at - 2] if at > 1 else ""
    told = opens in _OPENS | {"is", "got", "feel", "with", "hear"}
    ends = around.text(end) in _ENDS or around.text(end) in _WHERE
    return end - at if told and ends else 0


def _is_all_said(around: Around, end: int) -> bool:
    """ "seat is marked as well": nothing more; not "marked left", "marked and put aside"."""
    return around.text(end) in {"", BREAK, "too"} or (around.text(end), around.text(end + 1)) == (
        "as",
        "well",
    )


def _opens_next(around: Around, at: int) -> bool:
    """True where the next part, its place or state begins at *at*: "bearing's shot right one's fine"."""
    behind = around.names(at)
    return bool(behind.parts or behind.aliases or behind.positions or behind.conditions)


def _next_is_told(around: Around, at: int) -> bool:
    """ "gaskets shot o rings flat", "inner one rough outer one noisy": of the next part its state is told."""
    end = at
    if around.names(at).positions and not around.names_part(at):
        end += 1
    found = around.lexicon.match(around.texts, end) if around.text(end) not in {"", BREAK} else None
    if around.text(end) in {"one", "ones"} and end > at:
        end += 1
    elif found is not None and (found[1].parts or found[1].aliases):
        end += found[0]
    else:
        return False
    behind = around.text(end)
    return behind in _IS or behind in around.lexicon.predicates or bool(around.names(end).conditions)


def _verb_at(around: Around) -> int:
    """Where in the tags the copula or the part stands that the words at work are said of; else -1.

    Little words and the "all" of "they're all shot" stand between.
    """
    said = around.out
    at = len(said) - 1
    while at >= 0 and (
        "FILLER" in said[at].tags
        or (said[at].kind == "AUX" and "COP" not in said[at].tags)
        or (around.texts[said[at].start : said[at].end] in _MUCH and at and _is_copula(around, at - 1))
    ):
        at -= 1
    if at < 0:
        return -1
    last = said[at]
    verb = last.kind in {"AUX", "WORD"}
    return -1 if verb and _BE.isdisjoint(around.texts[last.start : last.end]) else at


def _is_copula(around: Around, at: int) -> bool:
    """ "they're all shot", and "they've all had it"."""
    last = around.out[at]
    both = around.texts[last.end : last.end + 1] == ("both",)
    return "COP" in last.tags and not (both and around.texts[last.end - 1] == "have")


def _names_part(around: Around, at: int) -> bool:
    """True where the tag at *at* names what is spoken of: "bearing", "front one", "left"."""
    last, before = around.out[at], around.out[at - 1] if at else None
    if before is not None and around.texts[before.end - 1] in _NO_SUBJECT:
        return False
    if before is None and not last.tags.isdisjoint({"ALL", "BOTH"}):
        return True  # "both rough"
    placed = before is not None and last.kind == "ONE" and bool(before.meaning.positions)
    return last.kind == "PART" or placed or (last.kind in {"ONE", "MOD"} and bool(last.meaning.positions))


def _has_subject(around: Around, at: int) -> bool:
    """True where the tags up to *at* name a part or "it" for a copula behind them, or leave it out."""
    said = around.out
    while at >= 0 and (said[at].kind == "AUX" or "FILLER" in said[at].tags):
        at -= 1
    if at < 0:
        return True
    before, text = said[at], around.texts[said[at].end - 1]
    if before.kind == "WORD":
        return text in {"then", "both", "all", "itself", "themselves", "one"}
    if before.kind in {"MARK", "ACT", "OFF", "ON", "CHAR"} or text in _NO_PART:
        return False
    return before.kind != "PRON" or not _concludes(around, at)


def _concludes(around: Around, at: int) -> bool:
    """ "three percent so that's had it": a verdict on what was just told, and no more of the part."""
    one = around.out[at]
    so = around.texts[one.start - 1 : one.start] == ("so",)
    if not so and around.texts[one.end - 1] not in {"that", "those"}:
        return False
    return any(tag.kind in {"COND", "MEASURE"} for tag in around.out[:at])


def _noun_tells(around: Around, at: int, end: int) -> bool:
    """ "there is a hole in it", "got a bit of a lip", "no steps": it is there, and not for anything."""
    texts = around.texts
    left = at - 1
    while left >= 0 and (texts[left] in _SIZES or texts[left] in _ONE_OF):
        left -= 1
    led = _ONE_OF.intersection(texts[left + 1 : at])
    if not led and not texts[end - 1].endswith("s"):
        return False
    return ("no" in led or _is_there(around, left)) and _ends_clause(around, end)


def _is_there(around: Around, left: int) -> bool:
    """True where what ends with token *left* says that something is there, or has it."""
    before = around.texts[left] if left >= 0 else ""
    if before in _OPENS or before in _HAS:
        return True
    if before == "with" and any(tag.kind == "COND" for tag in around.out[-3:-1]):
        return True  # "scored with a lip on it"
    if before in _IS:
        return around.texts[left - 1 : left] == ("there",)
    return any(tag.kind == "PART" and tag.end == left + 1 for tag in around.out[-4:])


def _ends_clause(around: Around, end: int) -> bool:
    """True where nothing follows but where it is."""
    if around.text(end) in _ENDS or "FILLER" in around.names(end).tags:
        return True
    if around.text(end) in _RELATIVE or around.texts[end : end + 2] == ("to", "it"):
        return True  # "a lip you could hang your coat on", "a slight bend to it"
    if around.text(end) not in _WHERE_FROM:
        return False
    at = end
    while around.text(at) not in {"", BREAK, "and", "but", "so"}:
        if around.text(at) in _BELONGS or around.names(at).conditions:
            return False
        at += 1
    return True
