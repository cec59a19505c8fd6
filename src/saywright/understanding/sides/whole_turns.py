"""An utterance that only says where one goes: "let's have a look at the other one", "that's that side apart".

Each of its words is of a kind that goes, looks, comes next, is done or names a place; where one is not, the
utterance tells something else, and this reads nothing. What cannot be told leaves the side open.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from saywright.understanding.meanings import Meaning
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.sides.place_meant import OTHERS, is_one_there, side_in_hand, side_meant
from saywright.understanding.sides.turn_signs import Sign, signs_of
from saywright.understanding.sides.turning import has_side, other_side
from saywright.understanding.sides.turns import Turn
from saywright.understanding.tags import Tag
from saywright.understanding.working import Working

_LONGEST = 16  # tokens
TARGETS: Final = "PX#"
_GOES_ON: Final = re.compile(r"[OGLIE]|aa")  # leads from what is done to what comes
_TURNS: Final = re.compile(r"[OGLIERH]|aa")
_POINTED_OUT: Final = re.compile(r"La?da$")
_MOVED: Final = re.compile(
    r"M(?!N)(?!.*[LGH])"
)  # not "the throttle side front right", "… and start the left"
_SWAPS: Final = re.compile(r"[OIad]*G[OIad]*S[OI]*")  # "swap sides"
_ONE_TO_GO: Final = re.compile(r"1[ZI]1aG")  # "one down one to go"
_GOERS = frozenset({"i", "we"})
_RENEWS = frozenset({"change", "changing", "swap", "swapping"})
_PLACES = frozenset({"side", "end", "corner", "wheel", "bank", "hand"})
_MORE = frozenset({"and", "is", "has", "are", "was"})  # "so's the rear": it is told of what came before
_COUNTED: Final = 2  # words of "one more" or "twenty three"; a value has more
_GIVEN: Final = re.compile(r"H(?!.*G)")  # not "grab the jack, we're going round the right"
_THAT_ONE: Final = re.compile(r"Z[aO]*d[N1]")
_THIS_IS: Final = re.compile(r"dN?")  # "this one's the rear"
_THIS_DONE: Final = re.compile(r"[O]*d*1?N?Z[aO]*")  # "that's that side done"


def whole_turn(tags: tuple[Tag, ...], work: Working) -> tuple[tuple[Tag, ...], Turn] | None:
    """The turn that *tags* tell and nothing else; with it the tags, "the other carb" by its side."""
    if not 1 < len(work.texts) <= _LONGEST or ("same", "as") in pairwise(work.texts):
        return None
    if any(tag.kind == "MEASURE" and tag.end - tag.start > _COUNTED for tag in tags):
        return None  # "right one's only one and a quarter": it is read
    signs = signs_of(tags, work) if not came_off(tags) else None
    if signs is None:
        return None
    said = [sign for sign in signs if sign.kind != "."]
    kinds = "".join([sign.kind for sign in said])
    targets = [at for at, kind in enumerate(kinds) if kind in TARGETS]
    side = Going(said, kinds, work, work.texts).side(targets)
    if side is None:
        return None
    if side[:1] in {"", "-"}:
        return tags, Turn(side[1:], 0, len(tags), leaves=True)
    if not {"K", "E"} & set(kinds):
        return tags, Turn(side, 0, len(tags))
    at = said[targets[-1]].at
    if tags[at].kind != "MOD" or not tags[at].meaning.positions:
        tags = (
            *tags[:at],
            replace(tags[at], kind="MOD", meaning=Meaning(positions=(side,))),
            *tags[at + 1 :],
        )
    return tags, Turn(side, at, at)


def came_off(tags: Sequence[Tag]) -> bool:
    """ "lower off" behind "upper spring off", "now the other one comes out": what is there came off."""
    if len(tags) < 2 or tags[-1].kind not in {"OFF", "ON"}:
        return False
    place = tags[-2]
    return bool(place.meaning.positions) or ("OTHER" in place.tags and tags[-1].end - tags[-1].start > 1)


class Going:
    """What the kinds of an utterance tell."""

    def __init__(self, said: Sequence[Sign], kinds: str, work: Working, texts: Sequence[str]) -> None:
        self.said, self.kinds, self.work, self.texts = said, kinds, work, texts
        self.held = side_in_hand(work.hand, work.sheet)

    def side(self, targets: Sequence[int]) -> str | None:
        """The side turned to; "-left" for one that is left, "" where it is open; None: nothing was told."""
        if "?" in self.kinds or len(targets) > 2:
            return None
        if not targets:
            return self._without_place()
        at, end = targets[-1], targets[-1] + 1
        while end < len(self.kinds) and self.kinds[end] in "NKU1":
            end += 1
        before, behind = self.kinds[:at], self.kinds[end:]
        led = self.said[at - 1].word if at else ""
        renewed = led in _RENEWS and self._noun(at) not in _PLACES  # "I'll change the left": the part there
        if renewed or (_POINTED_OUT.search(before) and led == "for"):
            return None  # "look at that for the rear": something is shown
        if len(targets) > 1:
            return self._second(targets[0], at, behind)
        if self._is_left(before, behind):
            return f"-{self.said[at].side if self.said[at].kind == 'P' else self.held}"
        if _MOVED.search(before) and _GOERS.isdisjoint(self.texts[1:]):
            return ""  # the light, or who holds it, goes there; not "get the jack, we're going there"
        if "Z" in before or "Z" in behind or "W" in self.kinds or self._is_told(before, behind, at, end):
            return self._handed(at) if _GIVEN.search(before) else self.resolved(at, self.held)
        return None

    def _is_told(self, before: str, behind: str, at: int, end: int) -> bool:
        """True where something turns to the place at *at*, or it stands alone as what one turns to."""
        if _TURNS.search(before + behind) is not None or _THIS_IS.fullmatch(before):
            return True
        sign, nouns = self.said[at], self.kinds[at + 1 : end]
        asked = "what" in self.texts or "how" in self.texts
        if before == "a" and self.said[0].word == ("about" if asked else "to"):
            return True  # "so to the other carb", "what about the right"
        if before + behind or not _MORE.isdisjoint(self.texts):
            return False
        if sign.kind == "X":
            return sign.word not in OTHERS or self._noun(at) in {"side", "end"}
        return (
            sign.kind == "P"
            and (nouns in {"", "U"} or self._noun(at) not in {"", "one"})
            and "K" not in nouns
        )

    def _second(self, first: int, at: int, behind: str) -> str | None:
        """ "that's the left done now the right", "the other front one", "next wheel rear left"."""
        held, one = self.said[first], self.said[at]
        between = self.kinds[first + 1 : at]
        if "X" in {held.kind, one.kind} and set(between) <= set("aNUK"):
            return self._by_two(held, one)
        led = self.kinds[:first] + between
        if "Z" in behind or not ({"Z", "V"} & set(led) or self._says_it()):
            return None
        return self.resolved(at, held.side if held.kind == "P" else self.held)

    def _by_two(self, *two: Sign) -> str | None:
        """ "the other front", "front on the other side": the corner that both mean."""
        told = next((sign for sign in two if sign.kind == "P"), None)
        if told is None or self.held is None:
            return None
        if told.side == self.held or any(sign.word in {"next", "last", "second"} for sign in two):
            return told.side if any(has_side(c, told.side) for c in self.work.sheet.component) else None
        words = set(told.side.split())
        found = {
            p
            for c in self.work.sheet.component
            if self.held in c.stations
            for p in c.stations
            if p != self.held and words < set(p.split())
        }
        return found.pop() if len(found) == 1 else None

    def _is_left(self, before: str, behind: str) -> bool:
        """ "done with the left", "that's the left finished", "leaving the left for now"."""
        if "V" in before + behind:
            return True
        if "Z" in before:
            done = before.rindex("Z")
            if _THAT_ONE.match(before[done:]):
                return False  # "done with that one, the rear now"
            return _GOES_ON.search(before[done:]) is None and before[done - 1 : done] not in {"N", "1"}
        if "Z" in behind:
            return "L" not in before and behind[0] != "O"  # "front next, and then we're done"
        return before == "da" and not behind and self._says_it()

    def _says_it(self) -> bool:
        """ "that's it for the left", "that's all on the rear"."""
        texts = self.texts
        return any(
            texts[i : i + 2] == ("that", "is") and texts[i + 2] in {"it", "all"}
            for i in range(len(texts) - 2)
        )

    def _without_place(self) -> str | None:
        if self.held is None:
            return None
        if tuple(self.texts[-2:]) in {("now", "right"), ("next", "right")} and self._is_elsewhere("right"):
            return ""  # the right one, or "right" to begin with
        if _SWAPS.fullmatch(self.kinds) or _ONE_TO_GO.fullmatch(self.kinds):
            return other_side(self.work.sheet, self.held)
        if _THIS_DONE.fullmatch(self.kinds) and not {"N", "1"}.isdisjoint(self.kinds):
            of_part = all(sign.word == "one" for sign in self.said if sign.kind in "N1")
            return (
                f"-{self.held}"
                if not of_part or is_one_there(self.work.sheet, self.work.hand, self.held)
                else None
            )
        return None

    def _is_elsewhere(self, side: str) -> bool:
        return side != self.held and any(has_side(c, side) for c in self.work.sheet.component)

    def _handed(self, at: int) -> str | None:
        """ "pass me the rear one"; "the right one" may be the one that is right."""
        sign = self.said[at]
        return "" if sign.word == "right" and "K" not in self.kinds else self.resolved(at, self.held)

    def _noun(self, at: int) -> str:
        """What the place at *at* is called: "side", "one"; "" where it is not said."""
        behind = self.said[at + 1] if at + 1 < len(self.said) else None
        if behind is not None and behind.kind in "NKU1":
            return behind.word
        tag = self.said[at]
        return tag.side if tag.kind == "X" else ""

    def resolved(self, at: int, held: str | None) -> str | None:
        """The side that the place at *at* is; "" where it cannot be told."""
        sign, sheet = self.said[at], self.work.sheet
        if sign.kind == "P":
            return sign.side if any(has_side(c, sign.side) for c in sheet.component) else None
        if held is None:
            return None
        if sign.kind == "#":
            return self._numbered(CARDINALS.index(sign.word) + 1, held)
        return side_meant(sign.word, self._noun(at), held, self.work)

    def _numbered(self, order: int, held: str) -> str | None:
        """The station of a bare number, where no count can be meant."""
        if not held.isdigit() or order > self.work.lexicon.stations or "H" in self.kinds:
            return None
        if "R" in self.kinds:
            return ""  # "that leaves two"
        sure = not {"G", "I"}.isdisjoint(self.kinds) or "aa" in self.kinds or "aO" in self.kinds
        return str(order) if sure or order == int(held) + 1 else None
