""" "The float's in my hand", "needle's on the bench", "caliper's hung on a wire": so it is off. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import TO_TWELVE
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.sheets.model import Component
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_KEPT: Final = frozenset(
    ["bench", "tray", "trays", "hand", "hands", "palm", "lap", "tin", "rag", "pot", "jar", "cloth", "bin",
     "hook", "wire", "string", "bungee", "strap", "hanger", "paper", "towel", "mat", "tub"]
)  # fmt: skip
_HANGERS: Final = frozenset({"hook", "wire", "string", "bungee", "strap", "hanger"})
_HUNG: Final = frozenset({"hung", "hanging", "hangs", "tied", "swinging", "dangling", "up"})
_SOME: Final = frozenset({"a", "some", "bit", "piece"})
_LEADS: Final = frozenset({"in", "on", "from", "by"})
_BETWEEN: Final = frozenset(
    ["the", "my", "a", "its", "his", "our", "this", "that", "bit", "of", "bent", "piece", "coat", "some",
     "old", "parts", "left", "right", "two"]
)  # fmt: skip
_LIES: Final = frozenset(
    ["up", "down", "lying", "sitting", "hanging", "hung", "out", "here", "there", "now", "safely", "lies",
     "sits", "laid", "over", "all", "both", "sat", "tied", "already", "swinging", "dangling", "hangs"]
)  # fmt: skip
_BE: Final = frozenset({"is", "are"})
_BEFORE: Final = frozenset(
    {"the", "both", "all", "its", "his", "their", "a", "that", "those", "these", *TO_TWELVE}
)
_OPENS: Final = frozenset(
    [BREAK, "and", "so", "now", "then", "right", "okay", "out", "off", "well", "there", "is", "are", "that"]
)  # fmt: skip
_TOLD_SO: Final = frozenset({"that", "there", "here"})  # "that's four shoes on the bench"
_NOT_OFF: Final = frozenset(  # not told of what came off here
    ["new", "spare", "other", "if", "when", "not", "no", "leave", "leaving", "should", "would", "where",
     "while", "old", "next", "until", "till", "was", "were", "had", "will", "who", "whose", "never", "same"]
)  # fmt: skip
_ENDS: Final = frozenset(
    ["", BREAK, "and", "now", "with", "look", "already", "then", "there", "so", "but", "it", "where", "they"]
)  # fmt: skip
_BOTH: Final = ("the one", "the other")
_THEN: Final = frozenset({"then", "now", "straight", "away"})
_LONGEST: Final = 4  # words of a name
_REACH: Final = 6  # tokens between "is in" and the place


@called_by(_KEPT)
def lies_there(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "is off" for where a part lies that was on the job until now."""
    texts = tuple([token.text for token in tokens])
    place = next((i for i, text in enumerate(texts) if text in _KEPT and i > 1), 0)
    if state.stage != "as_found" or not (any(state.off.values()) or "out" in texts or "off" in texts[:place]):
        return tokens  # "right, carb's on the bench, let's strip it"
    lead = _lead_before(texts, place)
    if not lead or text_at(texts, place + 1) not in _ENDS or not _NOT_OFF.isdisjoint(texts[: place + 1]):
        return tokens
    end, told = _subject_end(texts, lead)
    begin = _subject_begin(texts, end, state, lexicon)
    if begin is None:
        return tokens
    so = begin > 1 and texts[begin - 1] in _BE and texts[begin - 2] in _TOLD_SO
    word = tokens[place].word
    if texts[place] == "bin":  # so that is said, too
        alone = begin == 0 and _THEN.issuperset(texts[place + 1 :])
        return (*tokens[:end], Token("out", word), *tokens[lead:]) if alone else tokens
    if "up" in texts[end:lead] and texts[place] not in _HANGERS:
        return tokens  # "the cover's up on the bench and the gasket is brittle": to be looked at
    if not told and not so and (begin or place + 1 < len(texts)):
        return tokens  # "measured the shoes on the bench"
    begins = begin - 2 if so else begin
    off = (Token("are" if texts[end - 1].endswith("s") else "is", word), Token("off", word))
    return (*tokens[:begins], *tokens[begin:end], *off, *tokens[place + 1 :])


def _lead_before(texts: Sequence[str], place: int) -> int:
    """The token of "in", "on" that leads to the place; 0 for none."""
    at = place - 1
    while at > 0 and place - at < _REACH and texts[at] in _BETWEEN:
        at -= 1
    if at < 1 or texts[at] not in _LEADS or (texts[at] in {"from", "by"} and texts[place] not in _HANGERS):
        return 0
    if texts[place] in _HANGERS and not _is_hung(texts, at, place):
        return 0
    owned = texts[at + 1 : place] != () or texts[place] in _HANGERS  # "on bench", "in hand"
    return at if owned else 0


def _is_hung(texts: Sequence[str], lead: int, place: int) -> bool:
    """ "Hung on a bit of wire"; not "on its hook", "on the wire", where it may belong."""
    return not _SOME.isdisjoint(texts[lead + 1 : place]) and not _HUNG.isdisjoint(texts[:lead])


def _subject_end(texts: Sequence[str], lead: int) -> tuple[int, bool]:
    """The token behind what lies there, and whether a verb stands between."""
    at, told = lead, False
    while at > 0 and texts[at - 1] in _LIES | _BE and tuple(texts[:at]) != ("both",):
        at -= 1
        told = told or texts[at] in _BE | {"lies", "sits", "hangs", "hung", "lying", "hanging"}
    return at, told


def _subject_begin(texts: tuple[str, ...], end: int, state: Discourse, lexicon: Lexicon) -> int | None:
    """Where the part begins that is named right before *end* and opens its clause; None for none."""
    if end == 1 and texts[0] == "both":  # "both in the bin then"
        part = lexicon.sheet.get(state.hand.component) if state.hand is not None else None
        return 0 if part is not None and state.off.get(part.id, 0) == 0 and part.count == len(_BOTH) else None
    for start in range(end - 1, max(-1, end - 1 - _LONGEST), -1):
        found = lexicon.match(texts[:end], start) if texts[start] else None
        if found is None or start + found[0] != end or not (found[1].parts or found[1].aliases):
            continue
        parts = map(lexicon.sheet.get, (*found[1].parts, *found[1].aliases))
        places = [text for text in texts[:end] if text in lexicon.positions]
        if not any(part is not None and _is_on(part, places, state) for part in parts):
            return None
        first = start
        while first and (texts[first - 1] in _BEFORE or texts[first - 1] in lexicon.positions):
            first -= 1
        if first == 0 or texts[first - 1] in _OPENS:
            return first
    return None


def _is_on(part: Component, places: Sequence[str], state: Discourse) -> bool:
    """True where none of *part* came off, or none at the *places* named or the side in hand."""
    if not state.off.get(part.id, 0):
        return True
    side = set(places or (state.hand.side or "").split() if state.hand is not None else places)
    here = [which for which in part.whiches if which and side.issubset(which.split())] if side else []
    gone = {which for component, which in state.came_off - state.refitted if component == part.id}
    return bool(part.positions and here) and None not in gone and not gone.issuperset(here)
