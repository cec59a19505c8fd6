"""What was ordered has come, so what is off goes on again: "right, parts are here", "box came in"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.tokens import BREAK, text_at
from saywright.understanding.working import Working

PARCELS: Final = frozenset(
    ["parts", "bits", "box", "boxes", "parcel", "package", "kit", "order", "delivery", "post", "courier",
     "spares", "goods", "stuff"]
)  # fmt: skip
_SENT: Final = frozenset({"delivery", "parcel", "post", "package"})  # in: not into anything
_BROUGHT: Final = PARCELS - {"order", "post", "courier", "boxes"}
_HELPS: Final = frozenset({"is", "are", "has", "have", "just", "all", "finally", "at", "last", "now"})
_NAMES_TOO: Final = frozenset(
    {"delivery", "box", "boxes", "post"}
)  # on some sheets what is measured or a part
_HERE: Final = frozenset({"here", "hear"})  # "hear" is how a recogniser writes it
_CAME: Final = frozenset({"come", "came", "arrived", "landed"})
_UP: Final = frozenset({("turned", "up"), ("showed", "up")})
_WITHIN: Final = frozenset({"in", "through", "been"})
_LED: Final = frozenset(
    [BREAK, "right", "okay", "so", "and", "now", "then", "well", "good", "morning", "afternoon", "lunch",
     "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "yesterday", "day", "all",
     "write", "yes", "lovely", "great", "there", "today", "ah", "oh", "uh", "finally"]
)  # fmt: skip
_SOMEWHERE: Final = frozenset(  # "all the bits are here on the bench", "the parts here are rusty"
    ["on", "by", "under", "somewhere", "in", "is", "are", "was", "were", "need", "needs", "have", "look",
     "looks", "that", "which", "who", "beside", "next", "want", "wants", "will", "to", "get", "again", "with"]
)  # fmt: skip
_OPENS: Final = frozenset({BREAK, "what", "so", "and", "now", "then", "let", "today", "finally", ""})
_THIS: Final = frozenset({("at", "last"), ("at", "long"), ("this", "morning"), ("this", "afternoon")})
_DENIES: Final = frozenset({"no", "not", "never", "nothing", "nobody"})
_BRINGERS: Final = frozenset(
    ["van", "postman", "postie", "courier", "lorry", "driver", "lad", "boy", "man", "woman", "girl", "boss"]
)
_NO_NAMES: Final = frozenset({"another", "one", "mine", "ours", "something", "that", "this", "it", "what"})
_NOT_COME: Final = frozenset(
    ["not", "no", "never", "when", "until", "till", "if", "once", "should", "will", "would", "before",
     "waiting", "wait", "hope", "hopefully", "unless", "while", "he", "she", "said", "says", "might", "could",
     "may", "must", "other", "wrong", "after", "because", "reckon", "think", "are", "have", "where", "had"]
)  # fmt: skip
_LATER: Final = frozenset({"tomorrow", "yesterday", "when", "if", "yet", "or", "later", "ago"})
_WANTED: Final = frozenset({"order", "replace"})
_ARTICLES: Final = frozenset({"the", "my", "our", "your"})
_BY: Final = frozenset({"with", "in", "by"})
_BEFORE: Final = 5  # tokens before the noun that can put it off
_BEHIND: Final = 3  # tokens behind the verb that can
_FAR: Final = 9  # tokens of "here's the van, dead on two o'clock for once, with my bits"


def turn_as_parts_came(work: Working) -> None:
    """From here on it goes back together, where what was ordered is said to have come."""
    if work.stage != "as_left" and _parts_came(work):
        work.stage = "as_left"


def _parts_came(work: Working) -> bool:
    """True where what was ordered is said to have come, and something is off for it."""
    texts = work.texts
    if (PARCELS.isdisjoint(texts) and not _all_come(texts)) or "wrong" in texts:
        return False
    if not any(work.off.values()) or not any(what in _WANTED for _, _, what in work.planned):
        return False  # "the box has arrived for the wife"
    if _all_come(texts):
        return True
    parcels = PARCELS - (_NAMES_TOO & work.lexicon.words)  # "delivery's come in at two mil"
    return any(word in parcels and _is_come(work, at) for at, word in enumerate(texts))


def _all_come(texts: Sequence[str]) -> bool:
    """ "Okay, it's all come", "they're all here": whatever it was."""
    if "all" not in texts:
        return False
    at = texts.index("all")
    it = tuple(texts[max(0, at - 2) : at])
    led = _LED.issuperset(texts[: max(0, at - 2)])  # "soaked it and it's all come" loose
    come = text_at(texts, at + 1) in {"come", "arrived"} and _goes_on(texts, at + 2)
    return (
        led
        and come
        and text_at(texts, at + 2) != "so"
        and it in {("it", "is"), ("it", "has"), ("they", "are"), ("they", "have")}
    )


def _goes_on(texts: Sequence[str], at: int) -> bool:
    """True where nothing stands at *at* that tells how or where to it came: "the bits came off the shoe"."""
    return text_at(texts, at) in _OPENS or tuple(texts[at : at + 2]) in _THIS


def _is_come(work: Working, at: int) -> bool:
    """True where the parcel at *at* has come: "box has come", "here's the van with my bits"."""
    texts = work.texts
    begin = at - (texts[at - 1] in _ARTICLES if at else 0)
    begin -= bool(begin) and texts[begin - 1] == "all"  # "all the parts are here"
    if _by_post(texts, at) or _brought(work, begin, at):
        return True
    before = texts[max(0, begin - _BEFORE) : begin]
    clause = before[len(before) - before[::-1].index(BREAK) :] if BREAK in before else before
    if not _NOT_COME.isdisjoint(clause) or (texts[at] == "post" and not _DENIES.isdisjoint(texts)):
        return False
    if texts[at] == "stuff" and (at == begin or texts[begin] == "that"):
        return False  # "all that stuff is here again"
    verb = at + 1
    while text_at(texts, verb) in _HELPS:
        verb += 1
    end = _verb_end(texts, at, verb, alone=verb == at + 1, leads=begin == 0 or texts[begin - 1] in _LED)
    return end > 0 and _LATER.isdisjoint(texts[end : end + _BEHIND])


def _verb_end(texts: Sequence[str], noun: int, verb: int, *, alone: bool, leads: bool) -> int:
    """The token behind the verb at *verb*; 0 where what stands there tells of nothing that came."""
    word, behind = text_at(texts, verb), text_at(texts, verb + 1)
    if word in _HERE:
        bare = alone and texts[noun - 1 : noun] in (("the",), ("my",), ("all",)) and texts[noun] != "boxes"
        return verb + 1 if leads and not bare and behind not in _SOMEWHERE else 0
    if texts[noun] == "boxes":
        return 0
    if word in _CAME:
        if behind in {"in", "through"}:
            verb += 1
        return verb + 1 if _goes_on(texts, verb + 1) and (leads or not alone) else 0
    if tuple(texts[verb : verb + 2]) in _UP and not alone:
        return verb + 2 if _goes_on(texts, verb + 2) else 0
    sent = texts[noun] in _SENT and _goes_on(texts, verb + 1)
    return verb + 1 if word in _WITHIN and not alone and (sent or behind == "") else 0


def _by_post(texts: Sequence[str], at: int) -> bool:
    """ "Came with the post", "arrived in the box"."""
    led = at > 2 and _LED.union({"they", "it", "all"}).issuperset(texts[: at - 3])
    return led and texts[at - 1] == "the" and texts[at - 2] in _BY and texts[at - 3] in _CAME


def _brought(work: Working, begin: int, at: int) -> bool:
    """ "Here's the van with my bits", "here comes Maureen with the box"."""
    texts = work.texts
    if begin < 3 or texts[begin - 1] != "with" or begin == at or texts[at] not in _BROUGHT:
        return False
    if not _goes_on(texts, at + 1):  # "here's the head with the box on it"
        return False
    first = max(0, begin - _FAR)
    return any(
        texts[i] in _HERE
        and (i == 0 or texts[i - 1] in _LED)
        and _is_bringer(work, texts[i + 1], texts[i + 2 : begin - 1])
        for i in range(first, begin - 2)
    )


def _is_bringer(work: Working, verb: str, who: Sequence[str]) -> bool:
    """ "(here's) the van, dead on time", "(here comes) Maureen"; no part and no thing."""
    if verb not in {"is", "comes"}:
        return False
    if not _BRINGERS.isdisjoint(who):
        return True
    return len(who) == 1 and who[0] not in _NO_NAMES | CLASSES.keys() | work.lexicon.words
