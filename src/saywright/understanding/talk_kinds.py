"""Bench talk → the tag it has in its place."""

from __future__ import annotations

from saywright.understanding.around import Around
from saywright.understanding.bench_words import PARTICLES, SIZE_WORDS
from saywright.understanding.doings.idle_particles import (
    comes_out_so,
    counted_ones,
    in_a_while,
    in_pieces,
    is_idle,
    is_out_of,
    names_one,
    out_by,
    turned_so,
)
from saywright.understanding.doings.in_place import in_its_place, rests_there
from saywright.understanding.doings.set_there import like_the_one_before, set_there
from saywright.understanding.doings.split_verbs import leads_one, of_unknown_verb
from saywright.understanding.mark_kinds import HELPING, mark_kind
from saywright.understanding.sides.holder_rows import value_of_holder
from saywright.understanding.sides.off_from import off_its_side
from saywright.understanding.sides.row_ends import (
    ROWS_BEHIND,
    ends_in_talk,
    ends_row,
    is_back,
    is_up,
    is_where_one_is,
    last_of_row,
    moves_behind,
    new_part_begins,
    of_them,
    on_the_machine,
    several_are_new,
    value_follows,
)
from saywright.understanding.sounds.participles import pasts
from saywright.understanding.tags import AGES, MOVES, Tag
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import is_past

_SPEAKERS = frozenset({"i", "we"})
_ANSWERS = frozenset({"no", "then"})
_MODS = frozenset({"DET", "BOTH", "ALL", "OTHER", "NEW", "OLD", "ORD", "LAST", "REST"})
_LINKS = frozenset({"OF", "PREP", "AND", "OR", "READS"})
_MARKS = frozenset(
    ["HYPO", "EVERYTHING", "STAGE", "STAGE_NOT", "AFTER", "BEFORE_WORK", "RESTORE", "SAME", "PHOTO",
     "PHOTO_NOT", "MAKE_THAT", "SCRATCH", "SCRATCH_MANY", "SCRATCH_OF", "GO_BACK", "TOOL", "LIMIT",
     "OTHER_JOB", "PRICE", "CLOCK", "WHATIF", "QUESTION", "SERIAL", "PART_NUMBER", "STAMP", "TAG",
     "ENDS", "VAGUE", "LEAVE", "NOT_MOVED", "SUBORDINATE", "FUTURE", "BUT"]
)  # fmt: skip
_AFTER_MOVE = {BREAK, "i", "we", "and", "now", "then", "with", "too", "next", "first", "again", "at", "but"}
_AFTER_MOVE |= {"so", "as", "after", "make", "making", "remember"}
_OBJECTS = frozenset({"it", "them", "to", "up", "down"})
_INSIDES = frozenset({"both", "all", "each", "the", "its", "it", "that", "this", "them", "there"})
_PERSONS = frozenset({"i", "we", "he", "she", "they", "you"})
_BE = frozenset({"is", "are"})
_ENDS = frozenset({"", BREAK, "and", "now", "too", "then"})
_ALL_THE_WAY = ("all", "the", "way")
_NOT_HERE = frozenset({"into", "a", "an", "my", "his", "her", "another"})


def talk_kind(around: Around, at: int, length: int, tags: frozenset[str]) -> str:
    """The kind of tag for bench talk with *tags*; "WORD" where it says nothing here."""
    following = at + length
    if "FILLER" in tags:
        those = around.texts[at:following] in {("one", "of", "these"), ("one", "of", "those")}
        return "PRON" if those and around.last_kind == "ACT" else "WORD"  # "order one of those"
    text = around.texts[at]
    if text in _ANSWERS and _says_nothing(around, at, following):
        return "WORD"
    if text == "undo" and length == 1 and around.text(following) not in {"", BREAK}:
        return "OFF" if _object_behind(around, following) else "WORD"  # "undo the four bolts"
    if "PRICE" in tags and around.last_kind == "MEASURE":
        return "MARK"
    moves = _move_kind(around, at, following, tags) if tags & MOVES else ""
    moves = "OFF" if text in {"off", "from"} and off_its_side(around, at, following) else moves
    moves = "ON" if "PREP" in tags and rests_there(around, at) else moves
    if moves:
        return moves
    if "SAME" in tags and _is_same_thing(around, following):
        return "MOD"
    if tags & _MARKS and not (tags & {"WHATIF", "FUTURE"} and tags & HELPING):
        return mark_kind(around, at, following, tags)
    return _noun_kind(around, at, following, tags) or _helping_kind(around, following, tags)


def _says_nothing(around: Around, at: int, following: int) -> bool:
    """ "no, I'll replace all four": an answer, that denies nothing; "to order then a piston"."""
    said = around.texts[at:following]
    return (said == ("no",) and around.text(following) in _SPEAKERS) or (
        said == ("then",) and _orders_before(around)
    )


def _is_same_thing(around: Around, following: int) -> bool:
    """ "the same screw", "same crack", "needle, the same one back in"."""
    if around.texts[following - 1] != "same":
        return False
    one = around.text(following) in {"one", "ones"} and bool(around.names(following + 1).tags & MOVES)
    counted = following in around.measures and around.names_part(following + 1)  # "same two bolts"
    return one or counted or around.names_part(following) or bool(around.names(following).conditions)


def _object_behind(around: Around, at: int) -> bool:
    """True where the object of a verb begins at *at*."""
    found = around.names(at)
    article = bool(found.tags & {"DET", "BOTH", "ALL", "THEM", "OTHER"}) or around.text(at) in {"it", "that"}
    return article or around.names_part(at) or at in around.measures


def _orders_before(around: Around) -> bool:
    """True where "order" in its base form stands right before."""
    last = around.last
    if last is None or last.kind != "ACT" or last.meaning.acts[0].form != "base":
        return False
    action = around.lexicon.sheet.get_action(last.meaning.acts[0].id)
    return action is not None and action.order


def _noun_kind(around: Around, at: int, following: int, tags: frozenset[str]) -> str:
    """Pronouns and what stands before a noun; "" for the rest."""
    if around.texts[at] == "used" and around.last is not None and around.texts[at - 1] in _PERSONS:
        return "WORD"  # "we used a two eighty"
    if "PRON" in tags:
        points = around.texts[at] in {"this", "that", "these", "those", "them"} and following - at == 1
        little = around.text(following) in SIZE_WORDS and around.names_part(following + 1)
        before_noun = little or around.names_part(following) or around.names(following).positions
        points = points and not of_them(around, at, following)
        return "MOD" if points and before_noun else "PRON"
    if "ONE" in tags:
        return "ONE" if around.last_kind == "MOD" else "WORD"
    if tags & _MODS and tags & HELPING:
        names = around.names(following)
        said_of = names.conditions or names.acts or names.tags & {"MOVE_ON", "MOVE_OFF"}
        return "AUX" if said_of and not around.names_part(following) else "MOD"
    return "MOD" if tags & _MODS else ""


def _helping_kind(around: Around, following: int, tags: frozenset[str]) -> str:
    """Helping words and links."""
    if tags & _LINKS and tags & HELPING:
        names = around.names(following)
        helps = names.acts or (names.tags & HELPING and not names.parts) or "COP" in tags
        return "AUX" if helps else "LINK"
    if tags & HELPING:
        return "AUX"
    return "LINK" if tags & _LINKS else "WORD"


def _move_kind(around: Around, at: int, following: int, tags: frozenset[str]) -> str:
    """OFF or ON; "" where the word is a preposition or belongs to something else."""
    is_so = around.last_kind == "MEASURE" and around.texts[at] in _BE and following - at == 2
    if is_so and not (names_one(around) or counted_ones(around)):
        return ""  # "under four seventy is out": out of its limits
    noun = around.last is not None and around.texts[around.last.end - 1] in {"a", "an"}
    nobody = is_idle(around, at, following) or of_unknown_verb(around, at, following)
    if (noun and following - at == 1) or nobody:
        return "WORD"  # "a pull to one side", "let me rub it off"
    if around.last is not None and "ORD" in around.last.tags and following - at == 1:
        return "WORD" if around.texts[at] not in PARTICLES else ""  # "fires on the second pull"
    if "MOVE_OFF" in tags:
        return "OFF" if _moves_off(around, at, following) else ""
    if "MOVE_ON" in tags:
        is_so = around.texts[at] in _BE and following - at == 2 and _tells_state(around, at, following)
        if is_so and not in_its_place(around, at, following):
            return ""
        if around.texts[at:following] == ("back", "in") and in_a_while(around, following):
            return ""  # "back in a minute"
        bare = around.last is None or around.last_kind == "WORD"
        itself = {"it", "they"} & {*around.texts[at:following]}  # "in it goes, two turns out"
        return "" if bare and not itself and _of_no_part(around, following) else "ON"
    up = around.texts[following - 1] in {"up", "down"} and around.texts[following - 2] != "back"
    return "ON" if (is_up if up else _moves_loosely_on)(around, following) else ""


def _of_no_part(around: Around, at: int) -> bool:
    """ "fitted at two": a number behind the word, and no part that it counts: "fitted one new shim"."""
    behind = at if (measure := around.measures.get(at)) is None else measure.end
    return behind > at and not around.names_part(behind + bool(around.names(behind).tags & AGES))


def _tells_state(around: Around, at: int, following: int) -> bool:
    """ "clip's in groove three", "is in soak", "is on the stop": how a thing is, no movement."""
    if around.last_kind == "CHAR" or like_the_one_before(around, following):
        return True
    if moves_behind(around, following) or on_the_machine(around, following):
        return False  # "slide's in spring's in", "both carbs are on the engine"
    return not _free(around, following) or set_there(around, following) or bool(around.names(at + 1).acts)


def _moves_off(around: Around, at: int, following: int) -> bool:
    """False for an "out" or "off" that belongs to a verb, a number or a noun beside it."""
    if around.texts[following - 2 : following] in {("with", "the"), ("with", "its")}:
        return around.names_part(following)  # "seal came up with the shaft", not "with the wrong gasket"
    if around.texts[following - 1] == "up":
        ends = around.text(following) in {"", BREAK, "and", "with"}
        return ends or in_pieces(around, following + 1)  # "gasket came up in bits"
    if around.texts[at:following] not in {("out",), ("off",)} or out_by(around, following):
        so = comes_out_so(around, at, following) or is_out_of(around, at, following)
        broke = around.last_kind == "COND" and around.texts[at] == "right"  # "snapped right off"
        return not (so or broke or out_by(around, following))
    last, after = around.last, around.text(following)
    if last is not None and last.kind == "WORD" and (is_past(around.texts[at - 1]) or turned_so(around)):
        return False  # "sorted out"
    if around.last_kind == "MEASURE" and counted_ones(around):
        return True  # "all six out", "that's two out"
    numbered = around.measures.get(following) or around.measures.get(following + (after == "a"))
    bare = numbered is not None and numbered.unit_said is None and around.texts[at] == "out"
    if around.last_kind in {"MEASURE", "COND", "ACT", "CHAR"} or (after in _NOT_HERE and not bare):
        return False  # "tipped it out into the jug", "the caliper off a hatchback"
    inside = after == "of" and around.text(following + 1) in _INSIDES
    both = last is not None and last.tags & {"BOTH", "ALL"} and after == "the"  # "caps both off, the low one"
    if after in {"of", "the"} and around.last_kind != "PART" and not both:
        return False  # "four screws out of the cover" is of a part
    return inside or not (after == "of" and following + 1 < len(around.texts))


def _moves_loosely_on(around: Around, following: int) -> bool:
    """ "gasket on", "the jet is in": where nothing follows that the word could belong to."""
    last = around.last
    said = last is not None and (
        _joins(around, last) or counted_ones(around) or last.kind in {"PART", "ONE", "AUX", "MOD", "PRON"}
    )
    if last is None or not said or ("OTHER" in last.tags and like_the_one_before(around, following)):
        return False  # "groove one with the other on two"
    new = last.kind == "PART" and any("NEW" in t.tags for t in around.out[-3:])
    if around.texts[following - 2 : following] == ("back", "down"):
        return last.kind in {"PART", "ONE"}  # "cover back down"
    if around.texts[following - 1] not in {"in", "on", "back"}:  # "new key in the shaft"
        is_so = around.texts[last.end - 1] in _BE and [t.kind for t in around.out[-2:-1]] == ["PART"]
        row = last.kind == "PART" or _joins(around, last) or is_so  # "and the pin's through"
        through = around.texts[following - 1] in {"through", "between"} and row
        behind = around.names_part(following) or around.text(following) in {"it", "them"}
        behind = (new and behind) or on_the_machine(around, following)
        behind = behind or value_of_holder(around, last, following)
        return last_of_row(around, following) if through else behind
    if new:
        return True
    if around.texts[following - 1] == "back":
        row = last.kind in {"PART", "ONE"} and ends_row(around, following)
        return row or is_back(around, last, following)
    plain = around.texts[following - 1] in {"in", "on"}
    row = moves_behind(around, following) or new_part_begins(around, following)
    row = row or (plain and several_are_new(around, last, following))
    row = row or (plain and any(f(around, last, following) for f in ROWS_BEHIND))
    if plain and row and (last.kind in {"PART", "ONE"} or _joins(around, last)):
        return True  # "key in, fan on" without the comma
    waits = last.kind == "AUX" and not last.tags & {"COP", "DONE"}
    if around.names(following).parts or waits or (plain and is_where_one_is(around, last, following)):
        return False
    there = on_the_machine(around, following) or in_its_place(around, following - 1, following)
    return (plain and there) or _free(around, following)


def _joins(around: Around, last: Tag) -> bool:
    """ "cleaned and in": the movement goes on behind what was done."""
    if "AND" not in last.tags or len(around.out) < 2:
        return False
    before = around.out[-2]
    unknown = before.kind == "WORD" and not before.tags and is_past(around.texts[before.start])
    greased = before.kind == "WORD" and any(pasts((around.texts[before.start],), around.lexicon))
    return before.kind in {"ACT", "COND"} or unknown or greased  # "cage repacked and in"


def _told_next(around: Around, following: int) -> bool:
    """ "ring's in that's new", "clip on in the second groove": not what it is in or on."""
    if around.text(following) in {"that", "it"} and around.text(following + 1) in _BE:
        return True
    if around.text(following) in {"both", "all"} and around.text(following + 1) in {"new", "old"}:
        return not around.names_part(following + 2)  # "bushes in both new upper's eight oh two"
    return ends_in_talk(around, following)


def _free(around: Around, following: int) -> bool:
    """True where "in" or "on" has no noun behind it that it could belong to."""
    if following >= len(around.texts) or following in around.measures:
        return True
    if value_follows(around, following) or around.texts[following : following + 3] == _ALL_THE_WAY:
        return True  # "hub nut's on a seventy newton metres", "in all the way and back out two turns"
    if around.texts[following] == "order":
        return False  # "the seal's on order"
    on_there = around.texts[following - 1 : following + 2] == ("on", "there", "with")
    new = around.texts[following] == "new" and around.text(following + 1) in _ENDS  # "valve's on new and …"
    names = around.names(following)
    if on_there or new or leads_one(around, following) or _told_next(around, following):
        return True
    if is_past(around.texts[following]) and around.text(following + 1) in _OBJECTS:
        return True  # "yoke on, torqued it to ten"
    if around.texts[following] in _AFTER_MOVE or names.acts or names.characteristics:
        return True
    if names.positions:
        place = around.lexicon.match(around.texts, following)  # "seal on number two's torn"
        end = following + (place[0] if place is not None else 0)
        aged = around.text(end + 1) in {"a", "new", "old"}  # "needle jets in, left's a new one"
        return place is None or aged or around.text(end) not in {"is", "was", "has"}
    return bool(names.tags & {"READS", "COP", "NEED", "DONE"}) and not names.tags & {"PREP", "DET"}
