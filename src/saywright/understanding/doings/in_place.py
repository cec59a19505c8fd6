"""Where a part is told to be: "the magnet is in its pocket", "the spring in behind it".

While it was off, that tells that it went there; else only where it is.
"""

from __future__ import annotations

from typing import Final

from saywright.understanding.around import Around
from saywright.understanding.bench_words import WORKSHOP
from saywright.understanding.meanings import Meaning
from saywright.understanding.tokens import BREAK

IF_OFF: Final = "IF_OFF"  # tag of a movement that only what was off makes
_BE = frozenset({("is",), ("are",)})
_IS_HOME = frozenset({("is", "home"), ("are", "home")})  # "the shaft's home", else at the end of its travel
_ITS = frozenset({"its", "their"})
_PLACED: Final = frozenset(
    ["over", "behind", "under", "underneath", "round", "around", "through", "inside", "against", "between",
     "below", "above", "beside"]
)  # fmt: skip
# Where something lies that is off.
_KEPT: Final = frozenset(
    ["box", "bag", "tray", "packet", "wrapper", "tin", "tub", "bath", "pot", "bin", "tank", "bench", "way",
     "end", "side", "back", "edge", "own", "limit", "limits", "spec", "stop", "stops", "last"]
)  # fmt: skip
_PACKED: Final = frozenset(
    ["box", "bag", "packet", "wrapper", "wrapping", "packaging", "carton", "bath", "tub", "tin"]
)
_DETERMINERS: Final = frozenset({"the", "a", "an", "its", "their"})
_INTO: Final = frozenset({"in", "on", "into", "onto"})
_IS: Final = frozenset({"is", "are"})
_THE: Final = frozenset({"the", "a", "an", "my"})
_PLACE_ENDS: Final = frozenset({"", BREAK, "and", "then", "for", "with", "now"})
_ENDS: Final = frozenset({"", BREAK, "and", "but", "with", "now", "again", "so", "then", "too"})


def unpacked(around: Around, following: int) -> bool:
    """ "new pads straight out the box", "out of the bath": what lay there came out, and no part came off."""
    if around.texts[following - 1] != "out":
        return False
    at = following + (around.text(following) == "of")
    at += around.text(at) in _DETERMINERS
    return at > following and around.text(at) in _PACKED


def rests_there(around: Around, at: int) -> bool:
    """ "the bail is over it", "the boot is round its rim": from the place that begins at *at* on."""
    last = around.last
    if last is None or last.kind != "AUX" or around.texts[last.start : last.end] not in _BE:
        return False
    return around.text(at) in _PLACED and _behind_part(around, 2) and _is_place(around, at + 1)


def in_its_place(around: Around, at: int, following: int) -> bool:
    """ "magnet is in its pocket", "spring in behind it": movement [at, following) and a place."""
    text = around.text(following)
    words = around.texts[at:following]
    if text in _PLACED:
        return words in {("in",), ("on",)} and _behind_part(around, 1) and _is_place(around, following + 1)
    if text not in _ITS and text != "it":
        return False
    named = words in {("is", "in"), ("are", "in"), ("is", "on"), ("are", "on")} and _behind_part(around, 1)
    return named and _is_place(around, following)


def only_if_off(around: Around, at: int, following: int, meaning: Meaning) -> Meaning:
    """*meaning* with a mark where the movement [at, following) only tells where a part is."""
    home = around.texts[following - 1] == "home" and around.texts[at:following] in _IS_HOME
    placed = home or rests_there(around, at) or in_its_place(around, at, following)
    return Meaning(tags=meaning.tags | {IF_OFF}) if placed else meaning


def goes_elsewhere(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "goes in the bin", "put it in the vise": a place in the workshop, where no part is fitted."""
    end = at + match[0]
    if "MOVE_ON" not in match[1].tags or around.texts[end - 1] not in _INTO:
        return False
    if match[0] == 2 and _tells_how_it_is(around, at):
        return True
    if around.text(end) in WORKSHOP and not around.names_part(end):
        return around.text(end + 1) in _PLACE_ENDS  # "slide goes in bin"
    if around.text(end) not in _THE or around.names_part(end + 1):
        guided = around.texts[at:end] == ("slides", "in") and around.last_kind == "PART"
        return guided and around.text(end) in _THE  # "plunger slides in the barrel": how it works
    return any(text in WORKSHOP for text in around.texts[end + 1 : end + 3])


def _tells_how_it_is(around: Around, at: int) -> bool:
    """ "is in good order", "they're all in good nick", "is in soak": "in" begins a state, nothing went in."""
    told = around.lexicon.match(around.texts, at + 1)
    if told is None:
        return False
    length, meaning = told
    return (length > 1 and bool(meaning.conditions)) or (around.texts[at] in _IS and bool(meaning.acts))


def _behind_part(around: Around, back: int) -> bool:
    """True where the tag *back* before the token at work is a part, of which nothing else is told."""
    tag = around.out[-back] if len(around.out) >= back else None
    if tag is None or tag.kind not in {"PART", "ONE"} or any(t.kind == "OFF" for t in around.out):
        return False  # "piston out, spring's behind it": still there
    before = [t for t in around.out[:-back] if t.kind != "MOD"]
    begins = not before or before[-1].kind in {"BREAK", "ON", "OFF"} or "AND" in before[-1].tags
    return begins or "FILLER" in before[-1].tags


def _is_place(around: Around, at: int) -> bool:
    """ "it", "its pocket", "the plunger": a place on what is built up, and the clause ends behind it."""
    text = around.text(at)
    if text in {"it", "them"}:
        return around.text(at + 1) in _ENDS
    noun = at + (text in _ITS or text == "the")
    found = around.lexicon.match(around.texts, noun) if around.text(noun) not in {"", BREAK} else None
    if found is not None and (found[1].parts or found[1].aliases):
        return around.text(noun + found[0]) in _ENDS
    own = text in _ITS and noun not in around.measures and around.text(noun) not in _KEPT
    return own and around.text(noun).isalpha() and around.text(noun + 1) in _ENDS
