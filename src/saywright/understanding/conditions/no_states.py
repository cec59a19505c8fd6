"""Words of states that find nothing: what somebody does, where a part belongs, what was put on. Pure."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.around import Around
from saywright.understanding.bench_words import IS, PLACES_ON_IT
from saywright.understanding.conditions.what_is_left import LEFT_HEADS, what_is_left
from saywright.understanding.doings.rides_along import is_stuck_to_it
from saywright.understanding.meanings import Meaning
from saywright.understanding.tags import DEGREES
from saywright.understanding.tokens import BREAK

OBJECTS = frozenset(["it", "that", "them", "this", "the", "these", "those", "both", "all", "up", "out"])
_TAKEN = OBJECTS | {"one", "a", "an", "another", "my", "his"}
_BITS = {("pieces",), ("bits",), ("halves",)}
_DO = frozenset({"do", "does", "did"})
_CAME = frozenset({("came", "up"), ("comes", "up"), ("came", "away"), ("came", "apart"), ("fell", "apart")})
_PLACES_BY_PART = frozenset({"end", "ends", "side", "hole", "holes", "boss", "bosses", "well", "wells"})
_FUELS = frozenset({"fuel", "petrol", "gas", "gasoline", "diesel", "water"})
_GOT_IN = frozenset({"in", "inside", "got", "getting", "gone"})  # "no fuel got in it"
_BEFORE_FLOAT = frozenset(["the", "that", "this", "its", "either", "both", "left", "right", "front", "rear"])
_POINTS = frozenset({"it", "there", "them", "either"})
_FLOATS = frozenset({"float", "floats"})
_PUT_REACH = 4  # tokens from "a smear of" to what it is of


def done_to_it(around: Around, at: int, following: int) -> bool:
    """ "before I split it", "bent the tang down": what somebody does, no state that was found."""
    if is_stuck_to_it(around, at):
        return True  # "bowl off with the gasket stuck to it"
    texts = around.texts
    if texts[at:following] in {("stripped",), ("split",)} and _taken_apart(around, following):
        return True
    if texts[at:following] == ("stripped", "down"):
        return True
    if at and texts[at - 1] in {"i", "we"}:
        return around.text(following) in _TAKEN or texts[at] == "missed"
    if around.last_kind not in {"", "BREAK"} or around.text(following) not in {"the", "that", "it"}:
        return False
    noun = following + (0 if around.text(following) == "it" else 1)
    found = around.lexicon.match(texts, noun) if noun < len(texts) and texts[noun] else None
    if around.texts[at] == "bent" and around.text(noun) in {"tang", "tab", "tongue", "arm", "lug"}:
        return True  # "bent the tang": it was set
    behind = noun + (found[0] if found is not None else 1)
    return around.text(behind) in {"down", "up", "over"}


def _taken_apart(around: Around, following: int) -> bool:
    """ "stripped, cleaned and back on", "stripped the pump": taken apart; nothing of a thread."""
    text = around.text(following)
    if text in {"and", BREAK} and around.last_kind != "BREAK":
        return bool(around.names(following + 1).acts)
    said = [t for t in around.out if "FILLER" not in t.tags]
    opens = not said or said[-1].kind == "BREAK" or "AND" in said[-1].tags
    return opens and text in {"the", "it", "that", "both"} and "thread" not in around.text(following + 1)


def tells_which(around: Around, following: int) -> bool:
    """ "tightened that loose bolt": which one was meant, and no more so."""
    said = around.out[-2:]
    points = len(said) == 2 and said[1].kind in {"PRON", "MOD"}
    points = points and around.texts[said[1].end - 1] in {"that", "those"}
    if not points or said[0].kind not in {"ACT", "OFF", "ON"} or not around.names_part(following):
        return False
    around.out[-1] = replace(said[1], kind="MOD")
    return True


def colours_fault(around: Around, at: int, following: int) -> bool:
    """ "a good lip on it", "a nice groove in it": how much of a fault there is, no praise."""
    if at == 0 or around.texts[at - 1] not in {"a", "some"} or following - at > 1:
        return False
    if around.texts[at] == "flat" or _is_fault(around, at):
        return False  # "a flat worn on it", "a groove worn in it"
    deep = bool(around.names(following).tags & DEGREES)  # "a good deep ridge"
    return _is_fault(around, following + deep)


def worn_flat(around: Around, at: int) -> Meaning | None:
    """ "A flat on the pin", "flats on both": a fault by its shape, nothing that is level; None for others.

    Of "a flat worn on it" the next word tells.
    """
    flat = around.texts[at]
    if flat not in {"flat", "flats"} or at == 0 or (flat == "flat" and around.texts[at - 1] != "a"):
        return None
    if "for" in around.texts[at:]:
        return None  # "a flat on it for the spanner": made so
    if around.text(at + 1) == "worn":
        return Meaning(tags=frozenset({"FILLER"}))
    spot = around.lexicon.table.get(("flat", "spot"))
    return (
        spot if spot is not None and around.text(at + 1) in {"on", "in", "at", "there", "", BREAK} else None
    )


def all_that_fault(around: Around, at: int) -> bool:
    """ "the slide with all that scoring": how much of it there is; not "all that's scored"."""
    led = around.texts[max(0, at - 1) : at + 2] in {("with", "all", "that"), ("with", "all", "this")}
    return led and _is_fault(around, at + 2)


def _is_fault(around: Around, at: int) -> bool:
    """True where a state that is no good one begins at *at*."""
    known = [around.lexicon.sheet.get_condition(c) for c in around.names(at).conditions]
    if not known:
        return any(one.noun for one in around.lexicon.predicates.get(around.text(at), ()))
    return any(one is not None and not one.good for one in known)


# One of them begins such a state, where no "not" stands before it.
_TENDS = frozenset({"wants", "likes", "starts", "begins", "tries", "want", "like", "start", "begin"})
STATE_HEADS = _FUELS | IS | {"there", "in"} | LEFT_HEADS | _TENDS


def state_in_words(around: Around, at: int) -> tuple[int, Meaning] | None:
    """The state that begins at *at* in words that are no name of one, and its length in tokens."""
    text = around.texts[at]
    if text in LEFT_HEADS and (left := what_is_left(around, at)) is not None:
        return left
    if at > 1 and around.texts[at - 1] == "not" and around.texts[at - 2] in _DO:
        return _does_not(around, at)
    if text == "there":
        return _is_there(around, at)
    if text in _TENDS:
        return _tends_to(around, at)
    if text in _FUELS and around.text(at + 1) in _GOT_IN:
        return _fills_float(around, at)
    if text == "in":
        return _came_in_pieces(around, at)
    return _in_so_many_pieces(around, at) if text in IS else None


def _fills_float(around: Around, at: int) -> tuple[int, Meaning] | None:
    """ "no fuel in the float": the fuel and its "in" are the state, of the float behind them."""
    size = 2 + (around.text(at + 1) not in {"in", "inside"})  # "no fuel got in it"
    noun, text = at + size, around.text(at + size)
    if size > 2 and around.text(noun - 1) not in {"in", "inside", "into"}:
        return None
    pointed = text in _POINTS or (text in {"", BREAK} and around.text(noun - 1) == "inside")
    filled = around.lexicon.table.get(("fuel", "inside"))
    if pointed and (size > 2 or not _FLOATS.isdisjoint(around.texts[:at])):
        return (
            (size + (text in _POINTS), filled) if filled is not None else None
        )  # "float's dry, no gas in it"
    while noun < len(around.texts) and around.texts[noun] in _BEFORE_FLOAT:
        noun += 1
    found = around.lexicon.match(around.texts, noun) if around.text(noun) not in {"", BREAK} else None
    if found is None or around.texts[noun + found[0] - 1] not in _FLOATS:
        return None
    return (size, filled) if filled is not None and (found[1].parts or found[1].aliases) else None


def _in_so_many_pieces(around: Around, at: int) -> tuple[int, Meaning] | None:
    """ "front one's in two pieces"."""
    texts = around.texts
    if texts[at + 1 : at + 2] != ("in",) or texts[at + 3 : at + 4] not in _BITS:
        return None
    broken = around.lexicon.table.get(("is", "in", "pieces"))
    return (4, broken) if broken is not None and texts[at + 2] not in {"its", "the", "these"} else None


def _does_not(around: Around, at: int) -> tuple[int, Meaning] | None:
    """ "doesn't bind": the state that the verb with its ending is a name of."""
    text, table = around.texts[at], around.lexicon.table
    found = table.get((text + "s",)) if (text,) not in table else None
    return (1, found) if found is not None and found.conditions and not found.parts else None


def _tends_to(around: Around, at: int) -> tuple[int, Meaning] | None:
    """ "cable wants to stick halfway", "it tends to bind": the fault that the verb with its ending names."""
    if around.text(at + 1) != "to" or not around.last_kind or at + 2 >= len(around.texts):
        return None
    if around.text(at + 3) in _TAKEN:
        return None  # "start to strip it": what somebody does
    found = around.lexicon.table.get((around.texts[at + 2] + "s",))
    if found is None or not found.conditions or found.parts or found.acts:
        return None
    spec = around.lexicon.sheet.get_condition(found.conditions[-1])
    return (3, found) if spec is not None and not spec.good else None


def _came_in_pieces(around: Around, at: int) -> tuple[int, Meaning] | None:
    """ "gasket came off in bits", "popped out in two pieces": how it came tells how it is."""
    length = 2 if around.texts[at + 1 : at + 2] in _BITS else 3
    came = around.last_kind == "OFF" or around.texts[max(0, at - 2) : at] in _CAME
    broken = around.lexicon.table.get(("is", "in", "pieces"))
    if not came or broken is None or around.texts[at + length - 1 : at + length] not in _BITS:
        return None
    if any(around.names(i).conditions for i in range(len(around.texts)) if i < at or i >= at + length):
        return None  # "torn, it came away in bits": how it is was told
    return (length, broken) if around.texts[at + 1] not in {"its", "the", "these"} else None


def _is_there(around: Around, at: int) -> tuple[int, Meaning] | None:
    """ "spring's there, washer's there": not missing, where that is all that is said."""
    said = around.out[-2:]
    missing = around.lexicon.table.get(("missing",))
    if len(said) < 2 or missing is None or said[0].kind not in {"PART", "ONE"}:
        return None
    ends = around.text(at + 1) in {"", BREAK, "and", "but"} or around.names_part(at + 1)
    if not ends or around.texts[said[1].start : at] not in {("is",), ("are",)} or said[1].kind != "AUX":
        return None
    denied = replace(said[1].meaning, tags=said[1].meaning.tags | {"NEG"})
    around.out[-1] = replace(said[1], meaning=denied)
    return 1, missing


def is_place_by_part(around: Around, at: int, following: int) -> bool:
    """ "split at the carb end", "no cracks round the bolt holes": a place, told by the part that is there."""
    if around.text(following) not in _PLACES_BY_PART or around.text(following + 1) in {"one", "ones"}:
        return False
    name = around.lexicon.match(around.texts, following)
    if name is not None and name[0] > 1 and name[1].characteristics:
        return False  # "on the crank end play's six thou"
    before = around.out[-1] if around.out else None
    if (
        before is not None
        and before.kind == "MOD"
        and around.texts[before.start : at] in {("the",), ("its",)}
    ):
        before = around.out[-2] if len(around.out) > 1 else None
    return before is not None and before.kind == "LINK" and "PREP" in before.tags


def is_where(around: Around, at: int, length: int) -> bool:
    """ "make sure it's in its groove": a place that the part belongs in."""
    link, article = around.texts[max(0, at - 2) : at] if at > 1 else ("", "")
    if at > 2 and around.last_kind in {"PART", "WORD", "COND"} and around.texts[at - 2] in {"the", "its"}:
        link, article = around.texts[at - 3 : at - 1]  # "corroded in the seal grooves"
    owned = link in {"in", "into"} and article in {"its", "their", "the", "his", "her", "both", "each"}
    owned = owned or (
        link == "on" and article == "the" and around.last_kind == "LINK"
    )  # "I had it on the groove"
    return owned and length == 1 and around.texts[at] in PLACES_ON_IT


def put_on(around: Around, at: int) -> bool:
    """ "a smear of nail varnish": what was put on by hand, nothing that was found."""
    near = around.texts[max(0, at - _PUT_REACH) : at]
    stuff = next((i for i, text in enumerate(near) if text in {"smear", "dab", "lick", "bead"}), None)
    return stuff is not None and near[stuff + 1 : stuff + 2] == ("of",) and BREAK not in near[stuff:]
