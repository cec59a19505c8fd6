"""A place told by where it lies from the one in hand: "the one behind it", "its opposite number". Pure.

"The back wheel same side", "the other side, front one", "diagonally opposite", "the last corner" are places
of the sheet that are one, two or no words away from the one worked on.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.sides.turning import other_side
from saywright.understanding.tokens import BREAK, words_of

if TYPE_CHECKING:
    from saywright.sheets.model import Sheet
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon


# What any of several places is called, beside the parts that sit there.
NOUNS: Final = words_of(
    "one wheel corner side end station unit hub brake position cylinder carb barrel pot bank hole number"
)
_IT: Final = words_of("it that this him her them")
_FROM: Final = words_of("of from to")
_FORWARD: Final = {"rear": "front", "back": "front", "aft": "fore", "tail": "nose"}
_UPWARD: Final = {"lower": "upper", "bottom": "top"}
_AXES: Final = ({"front", "fore", "rear", "back", "aft"}, {"upper", "top", "lower", "bottom"})


def _turned(way: Mapping[str, str]) -> Mapping[str, str]:
    return {there: here for here, there in way.items() if here != "back"}


# Words behind "the one" → the word of a place in hand, and the one of the place so told.
_BY_WORD: Final[Mapping[str, Mapping[str, str]]] = {
    "behind": _turned(_FORWARD),
    "ahead": _FORWARD,
    "front": _FORWARD,  # "in front"
    "above": _UPWARD,
    "below": _turned(_UPWARD),
    "under": _turned(_UPWARD),
    "underneath": _turned(_UPWARD),
    "beneath": _turned(_UPWARD),
}
_ALONG: Final[Mapping[str, Mapping[str, str]]] = {
    "back": _BY_WORD["behind"],
    "behind": _BY_WORD["behind"],
    "forward": _FORWARD,
    "forwards": _FORWARD,
    "ahead": _FORWARD,
    "down": _BY_WORD["below"],
    "up": _UPWARD,
}
_OPPOSITE: Final = words_of("opposite across facing")
_DIAGONALLY: Final = words_of("diagonal diagonally")
_BESIDE: Final = words_of("beside alongside")
_NEIGHBOURS: Final = words_of("neighbour neighbor")
_KIN: Final = _NEIGHBOURS | words_of("mate partner brother sister twin oppo companion pal")
_AXLES: Final = words_of("axle beam end")
_SIDES: Final = words_of("side one wheel corner")
_HERE: Final = words_of("same this")
_CLOSES: Final = frozenset({"", BREAK, "now", "then", "next", "please", "so", "and"})
_DETERMINERS: Final = words_of("the a an my his her that this")  # of what it lies behind, else
_STRAIGHT: Final = words_of("straight right directly bang")
RELATIONS: Final = frozenset(
    {
        *_BY_WORD,
        *_OPPOSITE,
        *_DIAGONALLY,
        *_BESIDE,
        *_KIN,
        "same",
        "this",
        "other",
        "last",
        "next",
        "back",
        "rear",
    }
)


class Places:
    """The places of a sheet around the one worked on."""

    def __init__(self, texts: tuple[str, ...], held: str, state: Discourse, lexicon: Lexicon) -> None:
        self.texts, self.held, self.state, self.lexicon = texts, held, state, lexicon
        self.all = {p for c in lexicon.sheet.component if held in c.stations for p in c.stations}

    def at(self, begin: int) -> tuple[int, str] | None:
        """Index behind the words at *begin* that tell a place by where it lies, and that place."""
        at = begin + (self._text(begin) in {"the", "its", "his", "that"})
        word = self._text(at)
        found = self._same_axle(at) or self._end_of_side(at) or self._across_with_end(at)
        found = found or self._next_along(at) or self._kin(at)
        if found is None and self._is_noun(at):
            found = self._one_that_lies(at + 1)
        if found is None and (word in _OPPOSITE or word in _DIAGONALLY):
            found = self._named_opposite(at)
        if (
            found is None
            and word == "last"
            and self._text(at + 1) in {"corner", "wheel"}
            and self._text(at + 2) != "of"
        ):
            found = _both(at + 2, self._left_over())
        return found

    def _same_axle(self, at: int) -> tuple[int, str] | None:
        """ "same axle other side", "other side of the axle", "the other wheel on this axle"."""
        if self._text(at) in _HERE and self._text(at + 1) in _AXLES:
            end = at + 2 + (self._text(at + 2) == BREAK)
            end += self._text(end) == "the"
            side = self._text(end) == "other" and self._text(end + 1) in _SIDES
            return _both(end + 2, self.across() if side else None)
        if self._text(at) != "other" or self._text(at + 1) not in _SIDES:
            return None
        end = at + 2
        end += self._text(end) in {"of", "on", "at"}
        pointed = self._text(end) in _HERE or (end > at + 2 and self._text(end) == "the")
        axle = self._text(end + 1) in _AXLES and self._text(end + 2) in _CLOSES
        return _both(end + 2, self.across() if pointed and axle else None)

    def _next_along(self, at: int) -> tuple[int, str] | None:
        """ "next one back", "the next wheel forward"; not "next one back on", which moved."""
        if self._text(at) != "next":
            return None
        end = self._noun_end(at + 1)
        word, behind = self._text(end), self._text(end + 1)
        way = _ALONG.get(word)
        if way is None or (behind not in _CLOSES and not self.lexicon.names(self.texts, end + 1).parts):
            return None
        return _both(end + 1, self.swapped(way))

    def _kin(self, at: int) -> tuple[int, str] | None:
        """ "its neighbour at the back", "its mate across the axle", "its neighbour", of two."""
        if self._text(at) not in _KIN or self._text(at - 1) not in {"its", "his", "the"}:
            return None
        end = at + 1
        end += self._text(end) in {"at", "on", "in"}
        end += self._text(end) == "the"
        if self.with_end(self._text(end)) is not None:
            return _both(self._noun_end(end + 1), self.with_end(self._text(end)))
        if self._text(end) == "behind" or self._text(end) == "ahead":
            return _both(self._behind_it(end + 1), self.swapped(_BY_WORD[self._text(end)]))
        if self._text(end) == "other" and self._text(end + 1) == "side":
            return _both(end + 2, self.across())
        if self._text(end) in _OPPOSITE:
            over = end + 1 + (self._text(end + 1) == "the")
            over += over > end + 1 and self._text(over) in _AXLES
            return _both(over, self.across())
        known = self._text(at) in _NEIGHBOURS and self._text(at - 1) != "the" and len(self.all) == 2
        return _both(at + 1, self.across() if known else None)

    def _one_that_lies(self, at: int) -> tuple[int, str] | None:
        """ "(the one) behind it", "in front", "next to that", "across from it"."""
        at += self._text(at) in _STRAIGHT
        word = self._text(at)
        if self._of_a_thing(at + (2 if word in {"in", "next"} else 1)):
            return None
        if word == "in" and self._text(at + 1) == "front":
            return _both(self._behind_it(at + 2), self.swapped(_FORWARD))
        if word in _BY_WORD and word != "front":
            return _both(self._behind_it(at + 1), self.swapped(_BY_WORD[word]))
        if word in _BESIDE or (word == "next" and self._text(at + 1) == "to"):
            end = self._behind_it(at + (1 if word in _BESIDE else 2))
            return _both(end, self.across() if len(self.all) == 2 else None)
        if word in _OPPOSITE or word in _DIAGONALLY:
            return self._named_opposite(at)
        return None

    def _named_opposite(self, at: int) -> tuple[int, str] | None:
        """ "opposite", "the opposite corner", "its opposite number", "diagonally across from it"."""
        if self._of_a_thing(at + 1 + (self._text(at) in _DIAGONALLY and self._text(at + 1) in _OPPOSITE)):
            return None
        if self._text(at) in _DIAGONALLY:
            end = at + 1 + (self._text(at + 1) in _OPPOSITE)
            far = other_side(self._sheet, self.held, "end")
            side = other_side(self._sheet, far) if far is not None and len(self.held.split()) > 1 else None
            return _both(self._behind_it(self._noun_end(end)), side)
        if self._text(at) == "across" and self._text(at + 1) in {"", "from"}:
            return _both(self._behind_it(at + 1), self.across())
        if self._text(at) == "opposite":
            return _both(self._behind_it(self._noun_end(at + 1)), self.across())
        return None

    def _end_of_side(self, at: int) -> tuple[int, str] | None:
        """ "the back wheel same side", "rear one on this side", "same side at the back"."""
        if self._text(at) in _HERE and self._text(at + 1) == "side":
            pointed = self._text(at) == "this"
            at += 2
            at += self._text(at) in {"at", ","}
            at += self._text(at) == "the"
            end = self._axle_end(at + 1)
            told = not pointed or self._text(end) in _CLOSES or end > at + 1
            return _both(end, self.with_end(self._text(at)) if told else None)
        word = self._text(at)
        if self.with_end(word) is None:
            return None
        end = self._axle_end(at + 1)
        if (
            end > at + 1
            and self._text(at - 1) == "the"
            and self._text(end) not in {"on", "of", "same", "this"}
        ):
            return end, self.with_end(word) or ""  # "the back one", on the side worked on
        end += self._text(end) in {"on", "of"}
        end += self._text(end) == "the"
        if self._text(end) not in {"same", "this"} or self._text(end + 1) != "side":
            return None
        return end + 2, self.with_end(word) or ""

    def _across_with_end(self, at: int) -> tuple[int, str] | None:
        """ "the other side front one", "the front one on the other side"."""
        if self._text(at) == "other" and self._text(at + 1) == "side":
            at += 2
            at += self._text(at) in {"at", ","}
            at += self._text(at) == "the"
            return _both(self._noun_end(at + 1), self.with_end(self._text(at), self.across()))
        place = self.with_end(self._text(at), self.across())
        end = self._noun_end(at + 1)
        end += self._text(end) in {"on", "of"}
        end += self._text(end) == "the"
        if place is None or self._text(end) != "other" or self._text(end + 1) != "side":
            return None
        return end + 2, place

    def across(self) -> str | None:
        """The place at the same end on the other side, or the other one of two."""
        return other_side(self._sheet, self.held)

    def swapped(self, way: Mapping[str, str]) -> str | None:
        """The place of which one word is another than in the one in hand, by *way*."""
        words = self.held.split()
        for at, word in enumerate(words):
            there = way.get(word)
            if there is not None:
                return self._known(
                    [*words[:at], self.lexicon.other_places.get(there, there), *words[at + 1 :]]
                )
        return None

    def with_end(self, word: str, held: str | None = "") -> str | None:
        """The place *held*, else that in hand, with *word* as its end: "rear left" for "back"."""
        axis = next((axis for axis in _AXES if word in axis), None)
        said = (self.held if held == "" else held or "").split()
        if axis is None or len(said) != 2 or sum(one in axis for one in said) != 1:
            return None
        word = self.lexicon.other_places.get(word, word)
        return self._known([word if one in axis else one for one in said])

    def _left_over(self) -> str | None:
        """The one place of a row that nothing was done at so far."""
        order, row = self.state.order, self.lexicon.row
        left = [place for place in row if place not in order]
        return left[0] if len(left) == 1 and self.held in row else None

    def _known(self, words: Sequence[str]) -> str | None:
        place = " ".join(words)
        return place if place in self.all else None

    @property
    def _sheet(self) -> Sheet:
        return self.lexicon.sheet

    def _text(self, at: int) -> str:
        return self.texts[at] if 0 <= at < len(self.texts) else ""

    def _is_noun(self, at: int) -> bool:
        return self._text(at) in NOUNS

    def _noun_end(self, at: int) -> int:
        return at + self._is_noun(at)

    def _axle_end(self, at: int) -> int:
        return at + (self._text(at) in NOUNS or self._text(at) in _AXLES)

    def _of_a_thing(self, at: int) -> bool:
        """True where a thing stands behind the relation: "opposite the cylinder", not "behind that"."""
        at += self._text(at) in _FROM
        return self._text(at) in _DETERMINERS and self._behind_it(at) == at

    def _behind_it(self, at: int) -> int:
        """Index behind "of it", "from that one", "it"."""
        end = at + (self._text(at) in _FROM)
        if self._text(end) not in _IT:
            return at
        return end + 1 + (self._text(end) in {"this", "that"} and self._text(end + 1) == "one")


def _both(end: int, place: str | None) -> tuple[int, str] | None:
    return (end, place) if place is not None else None
