"""A side turned to or left in passing: "I'll take the left one first", "that's the left done, now the right".

A position turns when no part and no value claims it: words lead to it from the head of its clause on, or it
is told to come first or now, and nothing is said of it.
"""

from __future__ import annotations

from collections.abc import Sequence

from saywright.sheets.model import Sheet
from saywright.understanding.bench_words import FINISHED, NEUTRAL
from saywright.understanding.sides.moved_order import moved_in_order
from saywright.understanding.sides.place_roles import names_place
from saywright.understanding.sides.talk_ends import closes_talk
from saywright.understanding.sides.turning import FEW_PARTS, has_side, heads_another, the_side
from saywright.understanding.sides.turns import Turn, heads_all, is_for_refit, is_tool, onto, planned
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import words_of

__all__ = ["EVERY", "NOT_SAID", "Turn", "find_turns"]


NOT_SAID = frozenset({"QUESTION", "WHATIF", "HYPO", "OTHER_JOB", "LIMIT", "PRICE", "BEFORE_WORK"})
_OPENS = words_of("start starting begin beginning")  # in mid clause too: "beginning with the left"
_MOVES = _OPENS | words_of(
    "move moving moved turn turning turned go going switch switching swap swapping onto over across round"
)
_TAKES = words_of(  # to come first, or a side
    "take taking do doing tackle tackling get getting look looking build building assembling refitting"
)
_COMES = words_of("now next then")
_LEADS = (
    _MOVES
    | _TAKES
    | _COMES
    | words_of("i we me us let will shall am have has to can on with the at right okay for up down")
) | words_of("so and well good think reckon guess might just back it is this here leaves first last corner")
_FINISHED = FINISHED | words_of("pieces bits")
_ASKS = words_of("do shall will can might have am are")  # "do we do the left one first"
_NOUNS = words_of("one side end hand unit bank half corner")
_TOLD_WHEN = _COMES | {"first"}
_GOES = words_of("going goes putting building")  # back together, now
_READY = words_of("in here ready done sorted arrived apart finished stripped")  # what comes is told behind
_TAIL = _TOLD_WHEN | words_of("to start begin with again")
_TURNS = _MOVES | _TAKES | _TOLD_WHEN  # lead to what is on a side
EVERY, _SIDES, _RULE = words_of("both each either"), words_of("sides ends"), words_of("always ever never")
_DOERS = words_of("i we he she they you")
_WHERE, _BEGIN = (["on", "the"], ["at", "the"]), words_of("i we there you where")  # lead to a clause's place
_NO_STRANGERS = NEUTRAL | _TAIL | _LEADS
_PREDICATES = frozenset({"COND", "OFF", "ON", "MEASURE"})
_FIRST = 6  # tags behind a side at the head that tell what is on it


def find_turns(tags: Sequence[Tag], texts: Sequence[str], sheet: Sheet) -> list[Turn]:
    """The turns of an utterance, left to right."""
    places = [at for at, tag in enumerate(tags) if tag.meaning.positions and names_place(tag, texts)]
    every = not (EVERY.isdisjoint(texts) or _SIDES.isdisjoint(texts)) and _RULE.isdisjoint(texts)
    if len(places) == 1 and closes_talk(tags, texts, sheet):
        return [Turn(tags[-1].meaning.positions[0], 0, len(tags))]
    if not every and (not places or any(tag.kind == "MARK" and tag.tags & NOT_SAID for tag in tags)):
        return []
    found: list[Turn] = [Turn("", 0, 0, leaves=True)] if every else []
    for at in places:
        side = the_side(tags[at].meaning.positions, sheet) or ""
        if (numbered := Turn.by_number(side, at, tags[at].tags)) is not None:
            found.append(numbered)
            continue
        if not side or not any(has_side(c, side) for c in sheet.component) or moved_in_order(tags, texts, at):
            continue
        turn = _Place(tags, texts, sheet, at, found[-1].end if found else 0).turn(side)
        if turn is not None and not planned(found, turn, tags, texts):
            found.append(turn)
    return found


class _Place:
    """A position among the tags of an utterance, with what leads to it and what is behind it."""

    def __init__(self, tags: Sequence[Tag], texts: Sequence[str], sheet: Sheet, at: int, begin: int) -> None:
        self.tags, self.texts, self.sheet, self.at = tags, texts, sheet, at
        self.start = self._led_from(begin)
        self.led = [w for tag in tags[self.start : at] for w in texts[tag.start : tag.end]]
        self.opens = self._opens(begin)
        self.noun_end = self._noun_end(at + 1)
        self.end = self._tail_end(self.noun_end)

    def turn(self, side: str) -> Turn | None:
        """The turn to *side*, or away from it; None where it is only named."""
        leaves = self._leaves()
        if leaves is not None:
            return Turn(side, self.start, leaves, leaves=True)
        if self._is_turned_to() and not self._is_named(side):
            where = self.tags[self.end :] and self.texts[self.tags[self.end].start] == "where"
            return Turn(side, self.start, self.end + bool(where), passing=self._places_clause() and not where)
        return Turn(side, self.at, self.at) if self._is_claimed(side) else None

    def _led_from(self, begin: int) -> int:
        """Index of the first of the tags before the position that only lead to it."""
        at = self.at
        heads: list[int] = []
        while at > begin and _is_lead(self.tags[at - 1], self.texts):
            at -= 1
            heads += [at] if _ends_clause(self.tags[at], self.texts) else []
        if at == begin or not heads or _ends_clause(self.tags[at - 1], self.texts):
            return at
        return heads[-1]  # "on the bench at last and we'll take the left one first": from "and" on

    def _opens(self, begin: int) -> bool:
        """True where what leads to the position begins its clause."""
        if self.start == begin or (self.start < self.at and _ends_clause(self.tags[self.start], self.texts)):
            return True
        if self._is_of_part_named(begin):
            return True
        head = self.led[:2]
        if _ends_clause(self.tags[self.start - 1], self.texts) or not _OPENS.isdisjoint(self.led):
            return True
        before = self.tags[self.start - 1]
        ready = onto(self.led) and self.texts[before.end - 1] in _READY
        return ready or (before.kind in _PREDICATES and bool(_COMES & set(head[:1]) or onto(head)))

    def _is_of_part_named(self, begin: int) -> bool:
        """ "on to the drums nearside first": nothing but what leads to it, and the part that has the side."""
        part, side = self.tags[self.start - 1], self.tags[self.at].meaning.positions[0]
        parts = [self.sheet.get(c) for c in (*part.meaning.parts, *part.meaning.aliases)]
        if (
            part.kind not in {"PART", "WORD"}
            or not parts
            or self.start != self.at
            or not all(c and has_side(c, side) for c in parts)
        ):
            return False
        led = (tag for tag in self.tags[begin : self.start - 1] if tag.kind != "BREAK")
        return all(_is_lead(tag, self.texts) or "DET" in tag.tags for tag in led)

    def _noun_end(self, at: int) -> int:
        """Index behind "one", "side" or what the speaker calls the whole of it."""
        if at < len(self.tags) and set(self.texts[self.tags[at].start : self.tags[at].end]) <= _NOUNS:
            return self._noun_end(at + 1) if self.texts[self.tags[at].start] == "hand" else at + 1
        if self._is_holder(at):
            return at + 1
        if at < len(self.tags) and self._is_stranger(at):
            behind = self._tail_end(at + 1) > at + 1 or self._ends(at + 1)
            return at + 1 if behind else at  # "left brake first"
        return at

    def _is_holder(self, at: int) -> bool:
        """ "left hand carb first top cap off": what is on the side is named with it, no more said of it."""
        if at + 1 >= len(self.tags) or self.tags[at].kind != "PART":
            return False
        following = self.tags[at + 1]
        if self.texts[following.start] in _TOLD_WHEN:
            return following.kind != "MOD" or "ORD" in following.tags  # "left carb first"
        following = self.tags[at + 2] if "NEW" in following.tags and self.tags[at + 2 :] else following
        return following.kind == "PART" and not _TURNS.isdisjoint(self.led)

    def _is_stranger(self, at: int) -> bool:
        tag = self.tags[at]
        word = self.texts[tag.start]
        known = word in _NO_STRANGERS or word.endswith(("s", "ed"))
        return tag.kind == "WORD" and not tag.tags and not known

    def _tail_end(self, at: int) -> int:
        """Index behind "first", "now", "to start with" and "back together"."""
        while at < len(self.tags) and (
            set(self.texts[self.tags[at].start : self.tags[at].end]) <= _TAIL
            or "STAGE" in self.tags[at].tags
            or self._is_done_again(at)
            or is_for_refit(self.texts, self.tags[at])
        ):
            at += 1
        return at

    def _is_done_again(self, at: int) -> bool:
        """ "right side now same again, pin bolts out": the same is done there, and what follows tells it."""
        behind = [tag for tag in self.tags[at + 1 :] if tag.kind not in {"BREAK", "LINK"}]
        kinds = [tag.kind for tag in behind if tag.kind != "MOD" or tag.meaning.positions]
        said = next((kind for kind in kinds if kind != "PART"), "")  # of one, or of a row of parts
        moved = said in {"OFF", "ON"} or any("NEW" in tag.tags for tag in behind[:1])
        return "SAME" in self.tags[at].tags and kinds[:1] == ["PART"] and moved

    def _leaves(self) -> int | None:
        """ "that's the left one in pieces", "that completes the left": index behind it; else None."""
        before = [
            w for tag in self.tags[max(0, self.start - 2) : self.at] for w in self.texts[tag.start : tag.end]
        ]
        if not {"completes", "finishes", "does"}.isdisjoint(before) and self._ends(self.noun_end):
            return self.noun_end
        if before[:2] != ["that", "is"] and before[1:3] != ["that", "is"]:
            return None
        at = self.noun_end
        while at < len(self.tags) and self.texts[self.tags[at].start] in {"in", "is", "all"}:
            at += 1
        if at < len(self.tags) and self.texts[self.tags[at].start] in _FINISHED:
            return at + 1
        coming = at < len(self.tags) and self.texts[self.tags[at].start] in {"now", "so"}
        return at if coming and at + 1 < len(self.tags) else None

    def _is_turned_to(self) -> bool:
        """True where nothing claims the position and its words turn to it."""
        if not self.opens or (self.led[:1] and self.led[0] in _ASKS and self.led[1:2] in (["i"], ["we"])):
            return False
        led, tail = set(self.led), self.tags[self.noun_end : self.end]
        told_when = any(self.texts[tag.start] in _TAIL | _GOES or "SAME" in tag.tags for tag in tail)
        noun = self.noun_end > self.at + 1 or self.tags[self.at].end - self.tags[self.at].start > 1
        before = self.tags[self.start - 1].tags if self.start else frozenset()
        back = bool(before & {"STAGE", "GO_BACK"}) and self._ends(self.noun_end)
        strong = (
            back  # "all going back together on the left side", "going back with the left"
            or bool(led & (_MOVES | _COMES | {"corner"}))  # "last corner offside rear"
            or onto(self.led)
            or (("this" in led or "here" in led) and "is" in led)
            or self._places_clause()
            or self.led in (["up"], ["down"])  # "up top new valve in"
        )
        told = strong or told_when or (bool(led & _TAKES) and noun)
        begins = self.end < len(self.tags) and self.texts[self.tags[self.end].start] in _DOERS
        if noun and self.start == 0 and heads_all(self.tags[self.end :], told=told, begins=begins):
            return True
        if not told or self._ends(self.end):
            whole = not self.start and self.end == self.noun_end == self.at + 2
            behind = whole and heads_another(self.tags[self.at : self.end + _FIRST], self.texts, self.sheet)
            return told or self._stands_alone() or behind
        told_when = told_when or self.led in (["up"], ["down"])
        return (noun or told_when or self._begins_phrase()) and self._goes_on(told_when=told_when)

    def _stands_alone(self) -> bool:
        """ "nearside": nothing else is said but a tool; "and the nearside" is told of what came before."""
        said_here = self.tags[: self.end] if is_tool(self.tags[self.end :], self.texts) else self.tags
        quiet = all(
            tag.kind in {"MOD", "BREAK"}
            or bool(tag.tags & {"FILLER", "GO_BACK"})
            or (tag.kind == "LINK" and "AND" not in tag.tags)
            for tag in said_here
        )
        said = {p for tag in self.tags if tag.kind == "MOD" for p in tag.meaning.positions}
        return quiet and len(said) == 1 and not any("NEG" in tag.tags for tag in self.tags)

    def _is_named(self, side: str) -> bool:
        """ "then engine side boot": the part right behind has such a position."""
        if self.end > self.at + 1 or self.end == len(self.tags) or self.tags[self.end].kind != "PART":
            return False
        meaning = self.tags[self.end].meaning
        parts = map(self.sheet.get, (*meaning.parts, *meaning.aliases))
        return any(part is not None and has_side(part, side) for part in parts)

    def _ends(self, at: int) -> bool:
        """True at the end of a clause, and where a tool is told: "front left, twelve mil socket"."""
        rest = self.tags[at:]
        return not rest or _ends_clause(rest[0], self.texts) or is_tool(rest, self.texts)

    def _places_clause(self) -> bool:
        """ "On the left the inner pad's worn", "at the rear they've three left": it is where all of it is."""
        led = self.led[-2:] in _WHERE and (_MOVES | _TAKES | _COMES).isdisjoint(self.led)
        return led and not self._ends(self.end) and self._begins_phrase()

    def _begins_phrase(self) -> bool:
        """True where a new noun with its article begins: "turn to the right the new adjuster …"."""
        tag = self.tags[self.end]
        return "DET" in tag.tags or tag.kind == "PRON" or self.texts[tag.start] in _BEGIN

    def _goes_on(self, *, told_when: bool) -> bool:
        """True where something new begins behind the turn that says nothing of the side itself."""
        tag = self.tags[self.end]
        if tag.kind in {"PART", "CHAR", "PRON"} or self.texts[tag.start] in _BEGIN:
            return True
        if tag.kind != "MOD" or tag.meaning.positions:
            return tag.kind == "MOD" and told_when
        return True

    def _is_claimed(self, side: str) -> bool:
        """ "now the left new cable's in": a part claims the side, and it is turned to as well."""
        if not self.opens or not (set(self.led) & (_MOVES | {"now", "next"}) or onto(self.led)):
            return False
        at = self.at + 1
        while at < len(self.tags) and self.tags[at].kind == "MOD" and not self.tags[at].meaning.positions:
            at += 1
        if at >= len(self.tags) or self.tags[at].kind != "PART":
            return False
        return sum(has_side(c, side) for c in self.sheet.component) >= FEW_PARTS


def _is_lead(tag: Tag, texts: Sequence[str]) -> bool:
    """True for what may stand before a side that is turned to."""
    if tag.kind in {"BREAK", *_PREDICATES} or (tag.kind == "MARK" and "STAGE" not in tag.tags):
        return False
    return "FILLER" in tag.tags or set(texts[tag.start : tag.end]) <= _LEADS


def _ends_clause(tag: Tag, texts: Sequence[str]) -> bool:
    """True for what stands between two clauses."""
    if tag.kind in {"BREAK", "MARK"}:
        return "SAME" not in tag.tags  # "now the right one same again": it is told of whole
    return (tag.kind == "LINK" and "AND" in tag.tags) or (
        "FILLER" in tag.tags and texts[tag.start] not in _MOVES
    )
