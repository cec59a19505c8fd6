"""What was done, or never done, to it before: "it's been soldered twice", "they never washed it". Pure."""

from __future__ import annotations

from typing import Final

from saywright.understanding.bench_words import SOMEBODY
from saywright.understanding.facts import Fact
from saywright.understanding.tokens import BREAK

_OTHERS: Final = frozenset({"they", "he", "she", "owner", "customer", "bloke", "driver", "people", "lads"})
_NEVER: Final = frozenset({"never", "ever"})
_HELPS: Final = frozenset({"is", "has", "have", "had", "been", "obviously", "clearly", "once", "even"})
_ENDS: Final = frozenset({"", BREAK, "and", "but", "so", "now"})
_TIMES: Final = frozenset({("once",), ("twice",)})
_THEN: Final = (
    ("in", "the", "past"), ("at", "some", "point"), ("at", "some", "stage"), ("at", "one", "time"),
    ("some", "time", "ago"), ("by", "the", "last"), ("by", "the", "previous"),
)  # fmt: skip
_SOMEBODY: Final = SOMEBODY | {"whoever"}
_HAS: Final = frozenset(
    {"ever", "has", "have", "had", "is", "just", "never", "been", "clearly", "already", "only"}
)
_LATELY: Final = frozenset({"hour", "few", "minute", "half", "ten", "five"})  # "in the past hour"
_REACH: Final = 4  # tokens before what was done


def is_in_its_past(fact: Fact, texts: tuple[str, ...]) -> bool:
    """True for a doing of somebody before, which is none of this job."""
    end = fact.phrase.end
    before = texts[max(0, fact.phrase.start - _REACH) : fact.phrase.end]
    if _never(texts, fact) or _by_somebody(fact, texts):
        return True
    if "been" not in before or "i" in before or "we" in before:
        return False
    behind = texts[end : end + 3]
    closed = behind[:1] in {("before",), ("previously",)} and (texts[end + 1 : end + 2] or ("",))[0] in _ENDS
    times = behind[:1] in _TIMES and (behind[1:2] or (BREAK,))[0] in {"already", BREAK}
    by_them = behind[:1] == ("by",) and not SOMEBODY.isdisjoint(behind)
    then = behind in _THEN and (texts[end + 3 : end + 4] or ("",))[0] not in _LATELY
    return closed or times or by_them or then


def _never(texts: tuple[str, ...], fact: Fact) -> bool:
    """ "They never washed it out", "he's never cleaned them": whose parts these are."""
    said = [text for text in texts[: fact.phrase.end] if text not in _HELPS]
    at = next((i for i, text in enumerate(said) if text in _NEVER), 0)
    near = len(said) - at <= _REACH
    return at > 0 and near and said[at - 1] in _OTHERS


def _by_somebody(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "nobody ever tightened it", "somebody's polished that before": not on this job."""
    before = [text for text in texts[: fact.phrase.end] if text not in _HAS]
    at = len(before) - sum(text not in _HAS for text in texts[fact.phrase.start : fact.phrase.end])
    bid = fact.phrase.meaning.acts[0].form == "base" and "please" in texts[fact.phrase.end :]
    return at > 0 and before[at - 1] in _SOMEBODY and not bid  # "somebody top it up please"
