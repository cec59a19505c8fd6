"""A value, what was done about it, and the next: "sixteen hundred, bring it up, seventeen fifty now"."""

from __future__ import annotations

from typing import Final

from saywright.understanding.facts import Fact

_WOUND: Final = frozenset(
    ["bring", "brought", "wind", "wound", "turn", "turned", "take", "took", "taken", "screw", "screwed",
     "let", "knock", "knocked", "pull", "pulled", "push", "pushed", "tap", "tapped", "back", "backed", "nip",
     "nipped", "open", "opened", "close", "closed", "ease", "eased", "nudge", "nudged", "drop", "dropped",
     "set"]
)  # fmt: skip
_SHAPED: Final = frozenset(
    ["bend", "bent", "tweak", "tweaked", "adjust", "adjusted", "shim", "shimmed", "lap", "lapped", "hone",
     "honed", "lower", "lowered", "raise", "raised", "lift", "lifted", "file", "filed", "rub", "rubbed",
     "trim", "trimmed"]
)  # fmt: skip
ALTERS: Final = _WOUND | _SHAPED
_OBJECTS: Final = frozenset({"it", "that", "this", "them", "those", "him", "her", "the"})
_WAYS: Final = frozenset({"up", "down", "in", "out", "back", "on", "a"})
_WISHED: Final = frozenset(
    ["need", "needs", "want", "wants", "should", "could", "would", "must", "if", "might", "try", "not",
     "until", "till", "can", "may", "limit", "ought", "supposed"]
)  # fmt: skip
READS: Final = frozenset({"try", "tried", "check", "checked", "measure", "measured", "read"})
_READS_IT: Final = READS | {"it", "that"}
_GAP: Final = 14  # tokens from one value to the next
_IS: Final = frozenset(
    {("that", "is"), ("it", "is"), ("is", "now"), ("it", "reads"), ("she", "is"), ("they", "are")}
)


def is_altered(first: Fact, last: Fact, texts: tuple[str, ...]) -> bool:
    """True where what *first* read was set between the two, and *last* tells how it is now.

    "Bring it up to seventeen fifty" alone may be what is to be done; "now" or "that's" tells that it was.
    """
    gap = _without_reading(texts[first.phrase.end : last.phrase.start])
    if len(gap) > _GAP or ALTERS.isdisjoint(gap) or not _WISHED.isdisjoint(gap):
        return False
    ends_now = texts[last.phrase.end : last.phrase.end + 1] in {("now",), ("there",)}
    done = texts[last.phrase.end : last.phrase.end + 3] in {("that", "will", "do"), ("that", "is", "it")}
    if not (ends_now or done or gap[-2:] in _IS or gap[-1] in {"now", "there", "again"}):
        return False
    return any(_alters(gap, at) for at in range(len(gap) - 2))


def _without_reading(gap: tuple[str, ...]) -> tuple[str, ...]:
    """ "bend the tab, try it again": that it is read once more is no wish."""
    out = list(gap)
    for at in range(len(out) - 1, 0, -1):
        if out[at] == "again" and out[at - 1] in _READS_IT:
            out[at - 1] = "it"
            out[at - 2] = "read" if at > 1 and out[at - 2] in READS else out[at - 2]
    return tuple(out)


def _alters(gap: tuple[str, ...], at: int) -> bool:
    """ "bring it up", "bent the tang": a verb with what it sets, and its way where it may move parts too."""
    if gap[at] not in ALTERS or gap[at + 1] not in _OBJECTS:
        return False
    return gap[at] in _SHAPED or not _WAYS.isdisjoint(gap[at + 2 : at + 4])
