"""What somebody else has, or had somewhere else: "chap down the road reckons his bulb perished". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

_PERSONS: Final = frozenset(
    ["neighbour", "neighbor", "mate", "brother", "cousin", "dad", "father", "uncle", "friend", "bloke",
     "chap", "fella", "lad", "boss", "gaffer", "farmer", "guy", "fellow", "girl", "woman", "lady", "man"]
)  # fmt: skip
# Of the shop, and what they tell is of what is on the bench: "the lad says the left hose is leaking".
OF_THE_SHOP: Final = frozenset({"lad", "lads", "boss", "gaffer", "girl", "apprentice", "foreman"})
_SAYS: Final = frozenset(
    ["reckons", "says", "said", "swears", "swore", "claims", "claimed", "thinks", "reckoned", "complains",
     "complained", "told", "tells", "insists"]
)  # fmt: skip
_HIS: Final = frozenset({"his", "her", "their"})
_AT: Final = frozenset({"at", "in", "from", "over", "down", "up"})
_AWAY: Final = _AT | {"next", "across", "opposite", "round", "who", "of", "with", "on"}
_PLACES: Final = frozenset(
    ["farm", "yard", "marina", "club", "pub", "school", "church", "works", "factory", "dairy", "harbour",
     "harbor", "quarry", "allotment", "boatyard", "barn", "village", "town", "road", "neighbours",
     "neighbors", "college", "depot", "campsite", "hotel", "hospital"]
)  # fmt: skip
_THEN: Final = frozenset({"had", "was", "were", "went", "did", "got", "came"})
_NEXT: Final = frozenset({"the", "this", "it", "my", "our", "that", "their", "his", "her"})
_FAR: Final = 5  # tokens from the person to what is said
_NEAR: Final = 4  # tokens from "his" to what is told of it
_KIN: Final = frozenset(
    {"neighbour", "neighbor", "mate", "brother", "cousin", "uncle", "dad", "father", "friend"}
)
_IS_HERE: Final = {
    (),
    ("here",),
    ("coming",),
    ("happy",),
    ("in",),
    ("at",),
    ("on",),
    ("back",),
    ("not",),
    ("a",),
    ("the",),
}
_TOLD: Final = frozenset({"told", "asked"})
_SAID_TO_ME: Final = frozenset({"me", "us"})
_SEEN: Final = {("seen", "it"), ("seen", "them"), ("seen", "one"), ("seen", "that")}
_HERE: Final = frozenset({"just", "have", "i", "we", "now", "be"})
CUES: Final = _PERSONS | _PLACES | _HIS | {"door", "seen"}


def is_somebodys(before: Sequence[str], told: Sequence[str] = ()) -> bool:
    """True where the words *before* what is *told* say that it is of what is not on the bench."""
    if (
        before[:1] == ("the",)
        and before[2:3] == ("is",)
        and before[1] in _KIN
        and before[3:4] not in _IS_HERE
    ):
        return True  # "the neighbour's drums were scored"
    if tuple(before[:3]) == ("next", "door", "is") or _is_bidden(before, told):
        return True
    if CUES.isdisjoint(before):
        return False
    if tuple(before[-2:]) in _SEEN and _HERE.isdisjoint(before[-4:-2]):
        return True  # "never polish one, seen it ruined"; not "I've just seen it leaking"
    person = next((at for at, text in enumerate(before) if text in _PERSONS), None)
    if person is not None:
        said = before[person + 1 : person + 1 + _FAR]
        says = next((at for at, text in enumerate(said) if text in _SAYS), None)
        if says is not None and not _is_of_the_shop(before, person, said[:says]):
            return True  # "chap down the road reckons"
        near = before[person + 1 :][-_NEAR:]
        his = next((at for at in range(len(near) - 1, -1, -1) if near[at] in _HIS), len(near))
        if near[his:] and _NEXT.isdisjoint(near[his + 1 :]):
            return True  # "a mate went over the bars when his pads fell apart"
    return any(
        one in _AT and other in _NEXT and _was_there(before, at + 2)
        for at, (one, other) in enumerate(pairwise(before))
    )


def _is_of_the_shop(before: Sequence[str], person: int, between: Sequence[str]) -> bool:
    """ "The lad says"; not "the lad next door says", and "his boss says"."""
    led = before[person - 1] if person else "the"
    return before[person] in OF_THE_SHOP and led not in _HIS | {"is"} and _AWAY.isdisjoint(between)


def _was_there(before: Sequence[str], at: int) -> bool:
    """ "The pump at the farm had …": a place, and what was so there."""
    return not _PLACES.isdisjoint(before[at : at + 1]) and not _THEN.isdisjoint(before[at + 1 : at + 2])


def _is_bidden(before: Sequence[str], told: Sequence[str]) -> bool:
    """ "Told the lad on the next ramp to scrap his shoes": what he does is to his own."""
    bid = next((at for at, text in enumerate(before) if text in _TOLD), None)
    if bid is None or tuple(before[-1:]) != ("to",) or not _SAID_TO_ME.isdisjoint(before[bid:]):
        return False
    return not _HIS.isdisjoint(told)
