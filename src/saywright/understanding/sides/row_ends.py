"""What stands behind "in" and "on": the next part of a row, or the place of the part before."""

from __future__ import annotations

from saywright.understanding.around import Around
from saywright.understanding.bench_words import FASTENERS, MACHINES, NEUTRAL, PLAIN
from saywright.understanding.sides.holder_rows import fastener_begins, holds, value_of_holder
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import is_past
from saywright.units import get_unit

_PAIR = 2
_PARTICLES = frozenset({"in", "on", "off", "out", "back", "through"})
_SEVERAL = frozenset({"BOTH", "ALL"})
_WAYS = frozenset({"down", "out", "off", "in", "over"})
_LEADS = _SEVERAL | {"NEW"}
_AGES = frozenset({"NEW", "OLD", "SAME"})
_PICKS = _LEADS | {"OLD"}
_NO_NOUNS = PLAIN | NEUTRAL
_BE = frozenset({"is", "are"})
_NOUNS = frozenset({"a", "the", "my", "your", "one", "first", "second", "final", "number", "hand", "good"})
_ENDS = frozenset({"", BREAK})
_ENDS_ROW = _ENDS | {"and", "with"}
_EACH = frozenset({"both", "all", "each"})


def ends_in_talk(around: Around, at: int) -> bool:
    """ "carb on, job done", "clip on in the groove": no noun follows that a thing is in or on.

    Nor in "covers on, both of them one twenty".
    """
    if around.text(at) in _EACH and around.texts[at + 1 : at + 3] == ("of", "them"):
        return at + 3 == len(around.texts) or at + 3 in around.measures
    if around.texts[at - 1] == "on" and around.text(at) in {"in", "under", "behind"}:
        return True
    found = around.lexicon.match(around.texts, at) if around.text(at) else None
    talk = found is not None and found[0] > 1 and "FILLER" in found[1].tags and around.texts[at] not in _NOUNS
    return talk and found is not None and at + found[0] == len(around.texts)


def new_part_begins(around: Around, at: int) -> bool:
    """ "three screws in new filter": without an article, a new part is the next one, not where these went."""
    if around.names(at).tags.isdisjoint(_AGES) or around.text(at) in {"a", "an", "the"}:
        return False
    at += 1
    if around.text(at) == "ones" or (around.text(at) == "one" and not around.names_part(at + 1)):
        return True  # "both shoes on new ones", "seal in new one"
    while at < len(around.texts) and around.texts[at] not in {"", BREAK} and not around.names_part(at):
        found = around.names(at)
        if not (found.positions or found.tags & _LEADS or at in around.measures):
            return False
        if found.positions and around.text(at + 1) == "one":
            return True  # "old high needle back new low one"
        at += 1
    return at < len(around.texts) and around.texts[at] != "" and around.names_part(at)


def several_are_new(around: Around, last: Tag, at: int) -> bool:
    """ "insulator on both gaskets are new": several are new, so it is not the one before that is told of."""
    if last.kind != "PART" or last.meaning.many:
        return False
    if around.names(at).tags & _SEVERAL:
        at += 1
    found = around.lexicon.match(around.texts, at) if around.text(at) not in _ENDS else None
    if found is None or not (found[1].parts or found[1].aliases) or not found[1].many:
        return False
    at += found[0]
    at += around.text(at) == "are"
    at += around.text(at) in {"both", "all"}
    return around.text(at) == "new" and around.text(at + 1) in _ENDS | {"ones", "and"}


def both_moved(around: Around, last: Tag, at: int) -> bool:
    """ "nuts on both eight newton metres each": how many of what is named before."""
    if last.kind != "PART" or not last.meaning.many:
        return False
    at += around.text(at) == "new"  # "discs on, new both of them"
    pair = around.text(at) == "the" and around.text(at + 1) in {"pair", "lot", "both"}
    at += pair  # "washers on the pair of them", "jets in the both of them"
    if not pair and around.text(at) not in {"both", "all"}:
        return False
    at += 3 if around.texts[at + 1 : at + 3] == ("of", "them") else 1
    if around.text(at) == "new" and around.text(at + 1) in _ENDS | {"and"}:
        return True  # "boots on both new"
    ends = around.text(at) in {"", BREAK}
    led = around.text(at) in {"at", "to"}  # "nuts on both at eight newton metres"
    return _is_torque(around, at + led) or (
        ends
        and (
            around.texts[last.end - 1] in FASTENERS or around.text(at - 1) != "both" or _are_two(around, last)
        )
    )


def _are_two(around: Around, last: Tag) -> bool:
    """ "drums on both": of a part that is fitted twice, the two of them."""
    parts = [around.lexicon.sheet.get(c) for c in last.meaning.parts]
    return bool(parts) and all(p is not None and len(p.whiches) == _PAIR for p in parts)


def _done_and_moved(around: Around, at: int) -> bool:
    """ "spring on, link straightened and on": something was done to it before it moved."""
    found = around.lexicon.match(around.texts, at) if around.text(at) not in {"", BREAK} else None
    if found is None or not found[1].acts:
        return False
    end = at + found[0]
    return around.text(end) == "and" and around.text(end + 1) in _PARTICLES


def is_where_one_is(around: Around, last: Tag, at: int) -> bool:
    """ "pressure shim in the front one's one point oh five", "so is the one on two": which it is."""
    if last.kind == "ONE" and around.texts[at - 3 : at - 1] == ("the", "one"):
        return at in around.measures or bool(around.names(at).positions) or around.text(at) == "number"
    if last.kind != "PART" or last.meaning.many or around.text(at) != "the":
        return False
    found = around.names(at + 1)
    return bool(found.positions) and not found.conditions and around.text(at + 2) == "one"


def moves_behind(around: Around, at: int) -> bool:
    """True where a row of parts without an article begins at *at* and has a movement behind it."""
    named = False
    while at < len(around.texts):
        found = around.lexicon.match(around.texts, at) if around.texts[at] not in {"", BREAK} else None
        if found is not None and (found[1].parts or found[1].aliases):
            named = True
            at += found[0]
        elif found is not None and not named and found[1].tags & _PICKS and found[0] == 1:
            at += 1  # "cover on both screws in"
        elif around.texts[at] == "and" and named:
            at += 1
        else:
            break
    at += named and around.text(at) in {"both", "all"}  # "screw in, nuts both on"
    if named and _is_tightened(around, at):
        return True
    at += named and around.text(at) in _BE
    text, after = around.text(at), around.text(at + 1)
    if text in {"i", "we"} or (text == "under" and after in {"it", "that"}):
        return named  # "wheel in, skewer I've swapped", "lid on, new gasket under it"
    row = text in _PARTICLES or "MOVE_ON" in around.names(at).tags  # "spring on, cable hooked up"
    row = row or _is_torque(around, at + (text == "to")) or _done_and_moved(around, at)
    row = row or (named and text == "up" and moves_behind(around, at + 1))  # "plate on wheel up spindle in"
    return (named and row) or (not named and _strange_part(around, at))


def last_of_row(around: Around, following: int) -> bool:
    """ "wheel in, axle greased and through", "blocks in, gears between": what went in behind others."""
    begun = any(t.kind == "ON" for t in around.out) or "AND" in around.out[-1].tags
    return begun and (around.text(following) in _ENDS_ROW or moves_behind(around, following))


def _is_tightened(around: Around, at: int) -> bool:
    """ "rear wheel in, axle's twelve": a value of what has nothing but a torque."""
    if around.text(at) not in _BE or at + 1 not in around.measures:
        return False
    found = next(
        (
            f
            for to in range(at - 3, at)
            if to >= 0 and (f := around.lexicon.match(around.texts, to)) and to + f[0] == at
        ),
        None,
    )
    return found is not None and holds(around, found[1], "")


def on_the_machine(around: Around, following: int) -> bool:
    """ "both carbs are on the engine", "pump on the tractor": where it belongs, so it was fitted."""
    if around.text(following) != "the" and around.texts[following - 1] != "the":
        return False
    if any(t.tags & {"PHOTO", "OF", "QUESTION"} for t in around.out) or around.last_kind != "PART":
        return False  # "a photo of the carb on the bike", "it's been on the bike ten years"
    noun = following + (around.text(following) == "the")
    is_place = around.text(noun + 1) in {"side", "end", "face"}  # "new boot on the engine side"
    return around.text(noun) in MACHINES and not (is_place or around.names_part(noun))


def _strange_part(around: Around, at: int) -> bool:
    """ "bar on cover on": a noun that the sheet does not know, with a particle that ends its clause.

    So before the next that moved: "plate's on, wheel up, spindle through".
    """
    noun = around.text(at)
    if not noun.isalpha() or len(noun) < 4 or (noun,) in around.lexicon.table or noun in _NO_NOUNS:
        return False
    if around.text(at + 1) == "up":
        return moves_behind(around, at + 2)
    return around.text(at + 1) in {"in", "on"} and around.text(at + 2) in {"", BREAK, "and"}


def _is_torque(around: Around, at: int) -> bool:
    """ "cassette on, lock ring forty newton metres": what a fastener is tightened to."""
    measure = around.measures.get(at)
    return measure is not None and measure.unit is not None and get_unit(measure.unit).kind == "torque"


def value_follows(around: Around, at: int) -> bool:
    """ "hub nut's on a seventy newton metres", "main jet in still a seventy two"."""
    begin = at + (around.text(at) == "still")
    led = around.text(begin) in {"a", "at"}
    return (led or begin > at) and begin + led in around.measures


def of_them(around: Around, at: int, following: int) -> bool:
    """ "springs, two of them, drum on": the name behind is not of several, and tells not what they are."""
    if around.texts[max(0, at - 1) : following] != ("of", "them") or around.text(following) in _ENDS:
        return False
    found = around.lexicon.match(around.texts, following)
    return found is not None and bool(found[1].parts or found[1].aliases) and not found[1].many


def ends_row(around: Around, following: int) -> bool:
    """ "rails back": the end, or the next part in the row."""
    if _folded_back(around):
        return False
    text = around.text(following)
    if not text or text in {BREAK, "and", "too", "again", "now"} or following in around.measures:
        return True
    article = around.text(following + 1) in {"a", "an", "the"}
    if text == "with" and "NEW" in around.names(following + 1 + article).tags:
        return True  # "plungers back with new seals"
    if (around.names(following).tags & {"PREP"} or text == "down") and text not in {
        "to",
        "at",
        "for",
        "with",
        "by",
    }:
        return True  # "both shims back under the spring"
    if new_part_begins(around, following):
        return True  # "old ring back new foam in"
    return around.names_part(following) or around.text(following + 1) in {"in", "on", "off", "out", "back"}


def is_up(around: Around, following: int) -> bool:
    """ "caliper up both bolts two hundred newton metres": the clause begins with the part, so it went on."""
    before = [tag for tag in around.out if tag.kind not in {"MOD", "AUX"}][-2:]
    if not before or before[-1].kind != "PART" or around.texts[before[-1].end - 1] in FASTENERS:
        return False
    begins = len(before) == 1 or before[0].kind in {"BREAK", "ON", "OFF", "PART", "COND"}
    if not (begins or "AND" in before[0].tags or "FILLER" in before[0].tags):
        return False
    if around.text(following) in _ENDS | {"and", "with", "now"} and around.texts[following - 1] == "up":
        return around.text(following + 1) not in _WAYS  # "slides up and down"
    if around.texts[following - 1] == "up" and moves_behind(around, following):
        return True  # "idler up spring on"
    behind = following + bool(around.names(following).tags & (_SEVERAL | {"NEW"}))
    behind += behind in around.measures and around.text(behind) not in {"a", "an"}
    return behind > following and around.names_part(behind)


def is_back(around: Around, last: Tag, following: int) -> bool:
    """ "the strainer's back", "bowl's back dent and all": on again; not "on the piston's back"."""
    before = [t for t in around.out[:-1] if t.kind != "MOD"]
    if around.texts[last.start : last.end] not in {("is",), ("are",)} or not before:
        return False
    if before[-1].kind not in {"PART", "ONE"} or (len(before) > 1 and before[-2].tags & {"PREP", "OF"}):
        return False
    all_of_it = around.texts[following + 1 : following + 3] == ("and", "all")
    if all_of_it or around.text(following) in _ENDS | {"and", "too", "again", "now"}:
        return True
    return new_part_begins(around, following) or moves_behind(around, following)


def _folded_back(around: Around) -> bool:
    """ "peeled the boot back": out of the way, and not put on again."""
    said = [tag for tag in around.out if tag.kind != "MOD"][-2:]
    verb = said[0] if len(said) == 2 else None
    return verb is not None and verb.kind == "WORD" and not verb.tags and is_past(around.texts[verb.start])


ROWS_BEHIND = (fastener_begins, both_moved, value_of_holder)  # what may stand behind "on"
