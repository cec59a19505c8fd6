"""What stands behind "off the": the side, the place or the part that something came off from."""

from __future__ import annotations

from saywright.understanding.around import Around
from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.meanings import NOTHING
from saywright.understanding.sides.row_ends import moves_behind
from saywright.understanding.tokens import BREAK

_ENDS = frozenset({"", BREAK})
# Where such a part was got from, or what is told of one that is not on this machine.
_NO_SEATS = frozenset(
    ["shelf", "shelves", "van", "shop", "list", "internet", "net", "web", "scrapper", "donor", "bench",
     "floor", "old", "other", "one", "same", "last", "spare", "mark", "scale", "hook", "record", "cuff",
     "peg", "rack", "market"]
)  # fmt: skip
_TOOL_REACH = 6  # tokens from "with" to the tool
_TELLS, _BE = frozenset({"it", "they", "he", "she", "that"}), frozenset({"is", "are", "has", "have"})
_SIDES = frozenset({"side", "end", "front", "back", "top", "bottom"})


def off_its_side(around: Around, at: int, following: int) -> bool:
    """ "pump off the side", "cover off the end": what opens the utterance came off from there.

    So did what is counted and tells no more: "four screws from the acid head".
    """
    if around.texts[at:following] == ("from", "the"):
        said = [tag for tag in around.out if "FILLER" not in tag.tags]
        counted = [tag.kind for tag in said if "DET" not in tag.tags] == ["MEASURE", "PART"]
        return counted and around.text(following) not in _NO_SEATS and _off_another_part(around, following)
    if around.texts[at:following] != ("off", "the"):
        return False
    if _off_one_place(around, following) or _off_another_part(around, following):
        return True
    if _off_a_stranger(around, following):
        return True
    named = [t.kind for t in around.out if t.kind != "MOD"] == ["PART"]
    at_place = around.text(following) in _SIDES and not around.names_part(following)
    behind = around.text(following + 1)
    return named and at_place and (behind in _ENDS | {"and", "of"} or following + 1 in around.measures)


def _off_another_part(around: Around, following: int) -> bool:
    """ "hose off the carb": all that is said; not "the bolt off the pump is rusty"."""
    said = [tag.kind for tag in around.out if tag.kind != "MOD"]
    since = max((at for at, kind in enumerate(said) if kind in {"BREAK", "OFF"}), default=-1)
    at = following
    while around.names(at).positions and not around.names_part(at):
        at += 1  # "off the front caliper"
    found = around.lexicon.match(around.texts, at) if around.names_part(at) else None
    named = said[since + 1 :] in (["PART"], ["MEASURE", "PART"])  # "four bolts off the cover"
    if not named or found is None:
        return False
    end = at + found[0]
    if around.text(end) in _ENDS | {"and", "then", "now", "first"} or moves_behind(around, end):
        return True
    if around.text(end) in _TELLS and around.text(end + 1) in _BE:
        return True  # "push rod off the pedal, it's bent"
    if _with_a_tool(around, end):
        return True
    counted = around.measures.get(end)
    end = counted.end if counted is not None else end  # "bracket off the motor four nuts"
    if counted is not None and around.text(end) in FASTENERS:
        return True
    return around.names_part(end)  # "hose off the caliper, olive cut through"


def _with_a_tool(around: Around, at: int) -> bool:
    """ "bolts off the cover with the half inch", "with a five mil key", "with the impact gun"."""
    if around.text(at) != "with":
        return False
    reach = around.texts[at + 1 : at + _TOOL_REACH]
    return any(at + 1 + i in around.measures for i in range(2)) or not around.lexicon.tool_words.isdisjoint(
        reach
    )


def _off_a_stranger(around: Around, following: int) -> bool:
    """ "pump off the frame, two bolts": what it sat on is none of the sheet's; all that the clause says."""
    said = [tag.kind for tag in around.out if tag.kind != "MOD" and "FILLER" not in tag.tags]
    since = max((at for at, kind in enumerate(said) if kind in {"BREAK", "OFF"}), default=-1)
    noun = around.text(following)
    if said[since + 1 :] != ["PART"] or not noun.isalpha() or noun in _NO_SEATS or noun.endswith("ing"):
        return False
    if around.names(following) != NOTHING or (noun,) in around.lexicon.table:
        return False
    owned = _is_stranger(around, following + 1) or bool(around.names(following + 1).aliases)
    following += owned  # "rod off the throttle arm"
    behind = around.text(following + 1)
    if around.texts[following + 1 : following + 4] == ("that", "is", "it"):
        return True  # "both nuts off the flange, that's it away"
    told = behind in _TELLS and around.text(following + 2) in _BE
    return told or behind in _ENDS | {"and", "then", "with"} or following + 1 in around.measures


def _is_stranger(around: Around, at: int) -> bool:
    noun = around.text(at)
    return (
        noun.isalpha()
        and at not in around.measures
        and around.names(at) == NOTHING
        and (noun,) not in around.lexicon.table
    )


def _off_one_place(around: Around, following: int) -> bool:
    """ "top cover off the left": the place behind tells which of them came off, and no part stands there."""
    before = around.out[-2] if len(around.out) > 1 else None
    begins = before is None or before.kind in {"MOD", "BREAK", "OFF"} or "AND" in before.tags
    found = around.lexicon.match(around.texts, following) if around.text(following) else None
    if around.last_kind != "PART" or not begins or found is None or len(found[1].positions) != 1:
        return False
    behind = following + found[0] + (around.text(following + found[0]) in {"one", "side", "end"})
    if around.text(behind) not in _ENDS | {"and", "now", "first", "with"} and behind not in around.measures:
        return False
    named = map(around.lexicon.sheet.get, (*around.out[-1].meaning.parts, *around.out[-1].meaning.aliases))
    return all(part is not None and part.has_places(found[1].positions) for part in named)
