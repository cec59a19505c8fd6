"""What is told of no part here: "he swears blind it leaks", "never trust a shiny hook". Pure.

What others are sure of, what they had next door, who could hear a fault, what one never does, what hides
what, and what one would love to find. It reaches to the end of its clause.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from saywright.sheets.model import Sheet
from saywright.understanding.aside.hearsay import hearsay
from saywright.understanding.aside.somebodys import OF_THE_SHOP
from saywright.understanding.facts import Fact
from saywright.understanding.tokens import BREAK, text_at

_ENDS: Final = frozenset({BREAK, "but", "so", "though", "because"})
_IDLE: Final = frozenset(
    ["and", "well", "now", "anyway", "right", "mind", "you", "remember", "always", "ever"]
)  # fmt: skip
_SELF: Final = frozenset({"i", "we"})
_SWEARS: Final = frozenset(
    ["swears", "swore", "insists", "insisted", "claims", "claimed", "maintains", "maintained"]
)  # fmt: skip
_SURE: Final = frozenset({"convinced", "adamant", "certain", "positive"})
_FACTS: Final = frozenset({"certain", "positive"})
_WHO: Final = frozenset({"he", "she", "they", "boy", "wife", "fella", "bloke"})
_IS: Final = frozenset({"is", "was", "are", "were"})
_BY: Final = frozenset({"him", "her", "them"})
_PERSONS: Final = frozenset(
    ["owner", "customer", "driver", "rider", "skipper", "farmer", "boss", "client", "operator", "lad",
     "chap"]
)  # fmt: skip
_SAID: Final = frozenset({("rumour", "has"), ("rumor", "has"), ("word", "has"), ("legend", "has"),
                          ("word", "is"), ("story", "goes"), ("story", "is")})  # fmt: skip
_FAR_OFF: Final = frozenset(
    {("next", "door"), ("next", "bench"), ("next", "bay"), ("next", "ramp"), ("other", "bay"),
     ("other", "bench"), ("other", "ramp"), ("round", "the"), ("across", "the"), ("over", "the"),
     ("down", "the"), ("up", "the")}
)  # fmt: skip
_THERE: Final = frozenset(
    ["yard", "road", "street", "way", "field", "lane", "fence", "corner", "hill", "river", "hall",
     "corridor"]
)  # fmt: skip
_HAD: Final = frozenset({"had", "has", "have", "was", "were"})
_ANYBODY: Final = frozenset({"anyone", "anybody", "everyone", "everybody"})
_CAN: Final = frozenset({"could", "can", "would", "used"})
_NEVER: Final = frozenset(
    ["trust", "buy", "believe", "assume", "accept", "use", "fit", "refit", "take", "bet", "ignore",
     "reuse"]
)  # fmt: skip
_FITS: Final = frozenset({"use", "fit", "refit", "take", "reuse"})
_THIS: Final = frozenset({"that", "this", "those", "these", "it", "them"})
_ALWAYS: Final = frozenset({"check", "look", "suspect", "inspect", "beware", "mistrust"})
_HIDES: Final = frozenset(
    ["hides", "masks", "means", "causes", "breeds", "spells", "invites", "hide", "mask", "mean", "cause",
     "brings"]
)  # fmt: skip
_POINTS: Final = frozenset({"it", "that", "this", "which", "they", "what", "noise"})
_SPEAKS: Final = frozenset({"i", "we", "you"})  # "I mean two"
_WISHED: Final = frozenset({"see", "find", "get", "have", "meet", "own", "work"})
_ONE: Final = frozenset({"a", "an", "one", "some", "just", "any"})
_NICE: Final = frozenset({"nice", "lovely", "great", "grand", "good", "a"})
_WOULD: Final = frozenset(
    {("would", "love"), ("would", "like"), ("would", "give"), ("would", "be"), ("not", "it")}
)
CUES: Final = (
    _SWEARS | _SURE | {"according", "rumour", "rumor", "legend", "word", "story", "next", "across", "over"}
    | {"down", "up", "round", "other", "who", "never", "always", "beware"} | _HIDES | {"would"}
)  # fmt: skip


def told_of_none(fact: Fact, texts: Sequence[str], sheet: Sheet) -> str:
    """Why *fact* is hearsay, a rule or a story; "" where it is told of a part here."""
    return hearsay(fact, texts, sheet) or story(fact, texts)


def story(fact: Fact, texts: Sequence[str]) -> str:
    """Why *fact* is told of no part here; "" where it is."""
    if fact.kind == "photo" or CUES.isdisjoint(texts):
        return ""
    start = fact.phrase.head.start if fact.phrase.head is not None else fact.phrase.start
    clause = next((i for i in range(start, 0, -1) if texts[i - 1] in _ENDS), 0)
    before = tuple(texts[clause:start])
    end = next((i for i in range(start, len(texts)) if texts[i] in _ENDS), len(texts))
    if _sure_of_it(before) or _said_about(before) or _who_could(before):
        return "another job or time"
    if _of_next_door(before) or (clause == start - 1 and _of_next_door(texts[start:end])):
        return "another job or time"  # "the yellow one next door had …"
    if _rule(before, texts[start:end], fact) or _hides(before):
        return "what one does"
    return "what if" if _wished(before) else ""


def _sure_of_it(before: Sequence[str]) -> bool:
    """ "The old boy swears blind it has been leaking"; not "I'm convinced", "the lad swears"."""
    for at, text in enumerate(before[:-1]):
        who = at - 1 - (text in _SURE)
        sure = text in _SURE and text_at(before, at - 1) in _IS
        person = who >= 0 and before[who] in _PERSONS | _WHO
        if text in _FACTS and not person:
            continue  # "it's certain the rod is bent"
        if (sure or text in _SWEARS) and who >= 0 and before[who] not in _SELF | OF_THE_SHOP:
            return True
    return False


def _said_about(before: Sequence[str]) -> bool:
    """ "According to him", "rumour has it"; not "according to the gauge"."""
    pairs = set(pairwise(before))
    if pairs & _SAID:
        return True
    if ("according", "to") not in pairs:
        return False
    behind = before[before.index("according") + 2 :]
    return text_at(behind, 0) in _BY or text_at(behind, 1) in _PERSONS


def _of_next_door(before: Sequence[str]) -> bool:
    """ "The yellow one next door had its hook …", "the engine across the yard had"."""
    for at, pair in enumerate(pairwise(before)):
        if at == 0 or pair not in _FAR_OFF:
            continue
        end = at + 2 + (pair[1] == "the")
        if (pair[1] != "the" or text_at(before, end - 1) in _THERE) and text_at(before, end) in _HAD:
            return True
    return False


def _who_could(before: Sequence[str]) -> bool:
    """ "A girl at the mill who could hear a burr": what people can."""
    words = before[1:]
    said = any(who == "who" and verb in _CAN for who, verb in pairwise(words))
    return said and _ANYBODY.isdisjoint(before)  # "anyone who can see can tell it's bent"


def _rule(before: Sequence[str], rest: Sequence[str], fact: Fact) -> bool:
    """ "Never trust a hook with fresh paint on it", "always look for wear": what one does, or never."""
    opens = next((i for i, text in enumerate(before) if text not in _IDLE - {"always"}), len(before))
    first, verb = text_at(before, opens), text_at((*before, *rest), opens + 1)
    this = text_at((*before, *rest), opens + 2) in _THIS and verb in _FITS
    if this:
        return False  # "never use that float again"
    if first == "never" and (verb != "fit" or fact.kind == "finding"):
        return verb in _NEVER
    return fact.kind == "finding" and (first == "beware" or (first == "always" and verb in _ALWAYS))


def _hides(before: Sequence[str]) -> bool:
    """ "Paint hides cracks", "grit means wear": true of all; not "that means it's worn"."""
    if len(before) < len(("paint", "hides")) or before[-1] not in _HIDES or before[-2] in _POINTS | _SPEAKS:
        return False
    return before[-2].isalpha() and set(before[:-2]) <= _IDLE


def _wished(before: Sequence[str]) -> bool:
    """ "I'd love to find one of these with a cartridge that wasn't leaking"."""
    for at, pair in enumerate(pairwise(before)):
        if pair not in _WOULD:
            continue
        rest = before[at + 2 :]
        if pair == ("would", "give"):
            return text_at(rest, 0) in {"anything", "my", "good"}
        if pair in {("would", "be"), ("not", "it")}:
            nice = rest[1:] if pair[0] == "not" else rest
            return text_at(nice, 0) in _NICE and "to" in nice and not _WISHED.isdisjoint(nice)
        if text_at(rest, 0) == "to" and text_at(rest, 1) in _WISHED and text_at(rest, 2) in _ONE:
            return True
    return False
