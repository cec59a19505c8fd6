"""Movements not made on this bench, or not yet: "it's nearly off", "he's had the drum off before"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.bench_words import MACHINES, WORKSHOP
from saywright.understanding.tokens import BREAK
from saywright.understanding.walk import Walk

_NEARLY: Final = frozenset({"nearly", "almost", "halfway", "partway"})
_WAYS: Final = frozenset({"out", "off", "in", "on", "up", "down"})
_STILL_REACH: Final = 5  # tokens of "still got its rotor"
_HAVE: Final = frozenset({"is", "has", "have"})
_OTHERS: Final = frozenset(
    ["he", "she", "they", "customer", "owner", "bloke", "fella", "chap", "lad", "garage", "dealer", "dealers"]
)  # fmt: skip
_ASKS: Final = frozenset({"do", "does"})
_ASKED_OF: Final = frozenset({"the", "they", "it", "these", "those", "that", "this"})
_BASES: Final = frozenset({"come", "go", "fit", "slide", "lift", "pop", "pull", "drop", "push", "press"})
_OUT_REACH: Final = 5  # tokens of "the lower pin out of"
_LAID_IN: Final = WORKSHOP - {"tank", "cabinet", "mill", "press", "jig"}
_SPARE: Final = frozenset({"scrapped", "scrap", "spare", "donor", "dead", "broken", "wrecked", "written"})
_LAYS: Final = frozenset({"put", "puts", "putting", "lay", "laid", "stand", "stood", "set", "turn", "turned"})
_LAID_REACH: Final = 6  # tokens of "the left carb on its side"
_SIDES: Final = frozenset({"side", "back", "end", "face", "edge", "head", "top", "nose"})
_ONGOING: Final = frozenset({"coming", "going"})
_LATER: Final = frozenset({"minute", "later", "tomorrow", "soon", "moment", "sec", "tick", "lunch"})
_LATER_REACH: Final = 5  # tokens of "again in a minute"


def is_not_here(walk: Walk, index: int) -> bool:
    """True where the movement at phrase *index* is not made yet, is asked for, or was of others."""
    phrase, texts = walk.phrases[index], walk.texts
    start, end = phrase.start, phrase.end
    if _nearly(texts, start, end) or (phrase.kind == "on" and _still_there(texts, start)):
        return True
    if "of" in texts and _out_of_the_vice(texts, end):
        return True
    if texts[end - 1] == "off" and _off_another(texts, end):
        return True
    if "had" in texts[:start] and _others_had(texts, start):
        return True
    if "its" in texts[end : end + _LAID_REACH] and _laid_on_its_side(texts, start, end):
        return True
    ahead = texts[end : end + _LATER_REACH]
    if not _ONGOING.isdisjoint(texts[start:end]) and not _LATER.isdisjoint(ahead) and BREAK not in ahead:
        return True  # "they're coming off again in a minute"
    return texts[0] in _ASKS and _asked(texts, start)


def _out_of_the_vice(texts: Sequence[str], end: int) -> bool:
    """ "Take it out of the vice": it was not on the job there."""
    begin = end if texts[end - 1] in {"off", "out"} else end + 1
    at = next((i for i in range(begin, min(end + _OUT_REACH, len(texts) - 1)) if texts[i] == "of"), 0)
    if not at or texts[at - 1] != "out" or (begin == end and at != end):
        return False
    place = at + 1 + (texts[at + 1] in {"the", "its", "my", "that"})
    return place < len(texts) and texts[place] in _LAID_IN


def _nearly(texts: Sequence[str], start: int, end: int) -> bool:
    """ "Cover's nearly off", "eased it out as far as the lip": it is there yet."""
    if not _NEARLY.isdisjoint(texts[max(0, start - 2) : start + 1]):
        return True
    if "far" not in texts[end:]:
        return False
    way = (
        end
        if texts[end - 1] in _WAYS
        else next((i + 1 for i in range(end, len(texts)) if texts[i] in _WAYS), end)
    )
    return tuple(texts[way : way + 3]) == ("as", "far", "as")


def _laid_on_its_side(texts: Sequence[str], start: int, end: int) -> bool:
    """ "Put it on its side": how it lies."""
    at = next(i for i in range(end, end + _LAID_REACH) if texts[i] == "its")
    lies = texts[start] in _LAYS or tuple(texts[start:end]) == ("on",)
    return lies and texts[at - 1] == "on" and at + 1 < len(texts) and texts[at + 1] in _SIDES


def _still_there(texts: Sequence[str], start: int) -> bool:
    """ "This one's still got its rotor in"."""
    before = texts[max(0, start - _STILL_REACH) : start]
    at = next((i for i, text in enumerate(before) if text == "still"), None)
    return at is not None and before[at + 1 : at + 2] in (("got",), ("has",), ["got"], ["has"])


def _others_had(texts: Sequence[str], start: int) -> bool:
    """ "He's had the rear caliper off before you can tell": not on this bench."""
    for at in range(2, start):
        if texts[at] == "had" and texts[at - 1] in _HAVE and texts[at - 2] in _OTHERS:
            return {BREAK, "i", "we", "so", "but"}.isdisjoint(texts[at:start])
    return False


def _asked(texts: Sequence[str], start: int) -> bool:
    """ "Do the side plates come out from this end": asked, by its first words and its verb."""
    whom = texts[1] in _ASKED_OF if len(texts) > 1 else False
    return whom and texts[start] in _BASES and {"i", "we", BREAK}.isdisjoint(texts[1:start])


def _off_another(texts: Sequence[str], end: int) -> bool:
    """ "They come off that old saab", "it came off a scrapped one": where it was had from."""
    if tuple(texts[end - 2 : end - 1]) not in {("come",), ("came",), ("comes",)}:
        return False
    thing = (*texts[end : end + 2], "", "")
    if thing[:2] == ("that", "old"):
        return True
    return thing[0] in {"a", "an", "another"} and (thing[1] in _SPARE or thing[1] in MACHINES)
