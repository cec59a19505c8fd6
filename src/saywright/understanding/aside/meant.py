"""Values that are meant for later or told as a rule: "it'll want eleven", "goes to twenty five". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.facts import Fact, Told
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.tokens import BREAK

_ENDS: Final = frozenset({BREAK, "but", "so", "because", "though"})
_MODALS: Final = frozenset({"will", "shall", "would"})
# What a modal makes a wish or a rule of, with the number right behind.
_WISHES: Final = frozenset({"be", "want", "need", "take", "have", "expect", "like", "go", "get", "come"})
_BETWEEN: Final = frozenset(
    ["to", "on", "in", "at", "out", "up", "down", "back", "be", "about", "around", "of", "a", "the", "not",
     "probably", "then", "it", "them", "him", "for", "see"]
)  # fmt: skip
_SPEAKERS: Final = frozenset({"i", "we"})
_PROBES: Final = frozenset({"gauge", "feeler", "feelers", "blade", "wire", "drill", "bar", "plug"})
_OTHERS: Final = frozenset({"he", "she", "they"})
_OUGHT: Final = frozenset({"need", "needs", "has", "have", "wants", "want", "got", "going"})
_AIMS: Final = frozenset({"aiming", "shooting", "looking", "hoping", "heading"})
_NOT_EVEN: Final = (("not", "even"), ("nowhere", "near"), ("not", "nearly"), ("nothing", "like"))
_FROM_NEW: Final = frozenset({("when", "new"), ("from", "new")})
_IT_WAS: Final = frozenset({"that", "it", "they", "this", "those", "these", "she", "he"})
_WOULD_BE: Final = frozenset({("would", "have", "been"), ("will", "have", "been")})
_LATER: Final = frozenset({"later", "tomorrow", "afterwards", "eventually", "after", "when", "once"})
_SETS: Final = frozenset(
    ["set", "do", "torque", "tighten", "wind", "turn", "put", "bring", "take", "open", "close", "adjust"]
)  # fmt: skip
_GOES: Final = frozenset({"goes", "go"})
_AT: Final = frozenset({"at", "to"})
_WANTS: Final = frozenset({"want", "wants", "need", "needs"})
_DOINGS: Final = frozenset(
    ["doing", "torquing", "tightening", "setting", "nipping", "winding", "turning", "taking", "bringing"]
)  # fmt: skip
_NOT_YET: Final = frozenset({"when", "once"})  # "when it goes back"
_GOING_BACK: Final = frozenset({"goes", "go", "is", "are", "put", "comes", "going"})
_BACK: Final = frozenset({"back", "together"})
_SOUND: Final = frozenset(
    {"healthy", "good", "proper", "decent", "sound", "fresh", "normal", "fit", "working"}
)
_HAS: Final = frozenset(
    ["gives", "makes", "has", "is", "reads", "shows", "measures", "does", "pulls", "holds", "at", "about"]
)  # fmt: skip
_WAS: Final = frozenset({"was", "were"})
_REACH: Final = 8  # tokens from the modal to its number
# One of these stands right before the number, or one of the others anywhere; else nothing is meant so.
_BEFORE_AIM: Final = _AIMS | _AT | {"be", "for", *(second for _, second in _NOT_EVEN)}
_BEFORE_RULE: Final = _AT | {"gets", "get", "is"}
_IN_RULE: Final = _MODALS | {"going", "had"}


def meant_value(fact: Fact, told: Told, texts: Sequence[str]) -> bool:
    """True where the words before the number say what it ought to or will be, and nobody read it."""
    start = fact.phrase.start
    if tuple(texts[fact.phrase.end : fact.phrase.end + 2]) in _FROM_NEW:
        return True
    if "been" in texts and _once_was(texts[fact.phrase.end :]):
        return True
    if _goes_back_later(texts[:start], texts[fact.phrase.end :]) or _of_a_good_one(texts[:start]):
        return True
    if not start or (texts[start - 1] not in _BEFORE_AIM and _MODALS.isdisjoint(texts)):
        return False
    before = _clause(fact, told, texts)
    for_it = texts[start] in {"for", "four"}
    if _is_aim(before, for_it=for_it) or _wished(before) or _wants_doing(before):
        return True
    return _set_later(before, texts[start:])


def _once_was(behind: Sequence[str]) -> bool:
    """ "Six thou new that would have been", "ten it would have been": what it had before it wore."""
    at = 1 if behind[:1] == ("new",) else 0
    said = tuple(behind[at + 1 : at + 4]) if behind[at : at + 1] and behind[at] in _IT_WAS else ()
    return said in _WOULD_BE and CLASSES.keys().isdisjoint(behind[at + 4 : at + 6])


def _of_a_good_one(before: Sequence[str]) -> bool:
    """ "a healthy one gives a hundred and ten", "a good pump makes twenty": what any such one has."""
    if _SOUND.isdisjoint(before) or "a" not in before:
        return False
    at = max(i for i, text in enumerate(before) if text == "a")
    sound = before[at + 1 : at + 2]
    return sound[:1] != () and sound[0] in _SOUND and len(before) - at in {4, 5} and before[-1] in _HAS


def _is_aim(before: Sequence[str], *, for_it: bool) -> bool:
    """ "aiming for", "needs to be", "good down to", "not even" right before the number."""
    two = tuple(before[-2:])
    if two[-1:] and two[-1] in _AIMS and for_it:
        return True  # "aiming for point oh five", the word for taken for a digit
    if two in _NOT_EVEN or (two[1:] == ("for",) and two[0] in _AIMS):
        return True
    if two == ("to", "be"):
        return not _OUGHT.isdisjoint(before[-3:-2])
    if two == ("going", "to"):
        return _SPEAKERS.isdisjoint(before[-4:])
    rule = (two == ("go", "to") and "can" in before) or (two == ("down", "to") and "good" in before)
    return rule or two in {("wear", "to"), ("wear", "at")}


def _clause(fact: Fact, told: Told, texts: Sequence[str]) -> Sequence[str]:
    """The tokens of the clause before the number, no further back than the value before."""
    start = fact.phrase.start
    floor = max((f.phrase.end for f in told.facts if f.kind == "value" and f.phrase.end <= start), default=0)
    at = start
    while at > floor and texts[at - 1] not in _ENDS and start - at < _REACH:
        at -= 1
    return texts[at:start]


def _wished(before: Sequence[str]) -> bool:
    """ "will want", "would be", "it'll go on to": a modal, its verb, and small words up to the number."""
    at = next((i for i in range(len(before) - 1, -1, -1) if before[i] in _MODALS), None)
    if at is None:
        return False
    rest = [text for text in before[at + 1 :] if text != "not"]
    if not rest or rest[0] not in _WISHES or not _BETWEEN.issuperset(rest[1:]):
        return False
    own = bool(at) and before[at - 1] in _SPEAKERS
    that = bool(at) and before[at - 1] == "that"  # "that'll be three point seven": as he reads it
    return not (own and rest[0] in {"go", "take", "have", "get"}) and not (that and rest[0] == "be")


def _wants_doing(before: Sequence[str]) -> bool:
    """ "caps want doing to ninety", "nut needs torquing up to": what is still to be done to it."""
    pairs = [at for at, text in enumerate(before[:-1]) if text in _WANTS and before[at + 1] in _DOINGS]
    return bool(pairs) and _BETWEEN.issuperset(before[pairs[-1] + 2 :])


def _goes_back_later(before: Sequence[str], behind: Sequence[str]) -> bool:
    """ "ninety when it goes back", "… once they're back on": not yet; "was two when I put it back": read."""
    at = 1 if behind[:1] == (BREAK,) else 0
    if _NOT_YET.isdisjoint(behind[at : at + 1]) or not _WAS.isdisjoint(before):
        return False
    clause = behind[at + 1 : at + 6]
    verb = next((i for i, text in enumerate(clause) if text in _GOING_BACK), len(clause))
    # "when it's pushed back": how it is read
    reach = 2 if clause[verb : verb + 1] in (("is",), ("are",)) else 4
    return not _BACK.isdisjoint(clause[verb + 1 : verb + reach])


def _set_later(before: Sequence[str], behind: Sequence[str]) -> bool:
    """ "I'll set it to four later"."""
    will = any(text in _MODALS and i and before[i - 1] in _SPEAKERS for i, text in enumerate(before))
    return will and not _SETS.isdisjoint(before) and not _LATER.isdisjoint(behind)


def may_be_meant(fact: Fact, told: Told, texts: Sequence[str], *, torque: bool) -> str:
    """The words that leave open whether it was read or is only meant: "goes to", "gets"; "" for none."""
    start = fact.phrase.start
    if not start or (texts[start - 1] not in _BEFORE_RULE and _IN_RULE.isdisjoint(texts)):
        return ""
    before = list(_clause(fact, told, texts))
    if not before:
        return ""
    two = before[-2:]
    probed = not torque and not _PROBES.isdisjoint(before)  # "the feeler goes in at point nine": it is read
    if len(two) > 1 and two[1] in _AT and (two[0] in _GOES or before[-3:-2] == ["goes"]) and not probed:
        return "goes to"
    if before[-1] in {"gets", "get"} and before[-2:-1] not in (["i"], ["we"]):
        return "gets"
    if "going" in before[:-1] and before[before.index("going") + 1] == "to" and "call" not in before:
        return "going to"
    if not _OTHERS.isdisjoint(before) and "had" in before:
        return "had it at"
    if torque and "for" in before[1:-1] and before[-1] == "is":
        return "the torque for it"
    will = any(text in _MODALS and i and before[i - 1] in _SPEAKERS for i, text in enumerate(before))
    set_to = _SETS if torque else {"do"}
    anew = not will or set_to.isdisjoint(before) or "again" in before  # "I'll do that again, eleven"
    return "" if anew else "will do"
