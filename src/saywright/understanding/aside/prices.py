"""Numbers that are prices: "a whole pump for two hundred and forty pounds", "one for two eighty". Pure."""

from __future__ import annotations

from typing import Final

from saywright.hearing.spoken import TENS
from saywright.quantity import parse_value
from saywright.sheets.model import Sheet
from saywright.understanding.facts import Fact, Told
from saywright.understanding.quantities.plausible import is_far_out
from saywright.understanding.tokens import words_of

_MONEY: Final = frozenset({"quid", "euro", "euros", "dollars", "bucks", "pence", "kroner"})
_POUNDS: Final = frozenset({"pound", "pounds"})
_IS: Final = frozenset({("is",), ("are",)})
_READ_IN_POUNDS: Final = frozenset({"psi", "lb", "lbf", "lbf.in", "lbf.ft"})
_EACH: Final = frozenset({("each",), ("apiece",)})
_A_SET: Final = frozenset({("a", noun) for noun in ("pair", "set", "piece", "time", "throw", "kit")})
_COSTS: Final = frozenset({("for",), ("cost",)})
_SET_AT: Final = frozenset({("at",), ("to",)})
_SOLD_BY: Final = words_of("side set pair go pop time throw bottle tin tube box day week hour lot")
_WAS_BOUGHT: Final = {("bought", be) for be in ("was", "were", "is", "cost")}
_PEOPLE: Final = frozenset({("they",), ("he",), ("she",), ("you",)})
_THE_LOT: Final = frozenset({("a",), ("the",)})  # "thirty pounds a side", "forty two pound the set"
_BUYING: Final = frozenset({"get", "buy", "bought", "sell", "sells", "sold"})
_THEY_ASK: Final = frozenset(
    {("they", "want"), ("they", "ask"), ("they", "charge"), ("he", "wants"), ("she", "wants")}
)


def is_price(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "a whole pump for two hundred and forty pounds": pounds of money, not of pressure."""
    start, measure = fact.phrase.start, fact.phrase.measure
    if measure is None or fact.characteristics:
        return False
    if measure.unit is None and not measure.units and measure.readings[0].value.isdigit():
        alone = texts[max(0, start - 2) : start] == ("alone", "is")  # "the impeller alone's two hundred"
        earlier = not _MONEY.isdisjoint(texts[:start])  # "discs are thirty eight quid each, pads twenty six"
        earlier = earlier or any(
            first in _POUNDS and (the,) in _THE_LOT and lot in _SOLD_BY
            for first, the, lot in zip(texts[:start], texts[1:start], texts[2:start], strict=False)
        )  # "shoes are forty six pound the set and the cables eighteen each"
        return alone or earlier or _bought_for(texts, start)
    behind = texts[fact.phrase.end : fact.phrase.end + 1]
    if measure.unit_said in _POUNDS and (behind == ("apiece",) or (behind and behind[0] in TENS)):
        return True  # "they're only eight pounds apiece", "twenty two pound fifty for the bits"
    if measure.unit_said in _POUNDS and texts[max(0, start - 1) : start] not in _SET_AT:
        sold = texts[fact.phrase.end : fact.phrase.end + 3]
        if any(s.components and not s.pronoun for s in fact.subjects):
            return False  # "cover screws ninety pounds and they're tight", "flange bolts one twenty the lot"
        if sold[:1] == ("and",) and sold[1:2] in _PEOPLE:
            return True  # "eighty five pounds and they can fetch it themselves"
        if sold[:1] in _THE_LOT and not _SOLD_BY.isdisjoint(sold[1:]):
            return True  # "thirty eight pounds a side they are"
    return measure.unit_said in _POUNDS and texts[max(0, start - 1) : start] in _COSTS


def costs_so_much(fact: Fact, texts: tuple[str, ...], sheet: Sheet) -> bool:
    """ "nineteen pound each" where pounds are no unit; "new pump's three forty" where no such is read."""
    measure, end = fact.phrase.measure, fact.phrase.end
    if measure is None or fact.characteristics:
        return False
    specs = [c for part in sheet.component for c in part.characteristic]
    if measure.unit_said in _POUNDS:
        each = texts[end : end + 1] in _EACH and not any(c.unit in _READ_IN_POUNDS for c in specs)
        return each or texts[end : end + 2] in _A_SET
    start = fact.phrase.start
    new = [s for s in fact.subjects if s.age == "new" and texts[s.end : start] in _IS]
    if not new or measure.unit_said is not None or not measure.readings[0].value.isdigit():
        return False
    owned = {c for s in new for c in s.components}
    could_be = [c for part in sheet.component if part.id in owned for c in part.characteristic]
    if any(c.allowed for c in could_be):
        return False  # "new jet's one thirty" is its size, were it the wrong one
    return bool(owned) and all(
        is_far_out(c, parse_value(r.value)) for c in could_be for r in measure.readings
    )


def _bought_for(texts: tuple[str, ...], start: int) -> bool:
    """ "get one for two eighty", "they want two eighty for it", "the last I bought was": what it costs."""
    if texts[max(0, start - 2) : start] in _WAS_BOUGHT:
        return True
    if texts[start - 1 : start] == ("for",):
        return not _BUYING.isdisjoint(texts[: start - 1])
    asked = texts[max(0, start - 2) : start] in _THEY_ASK
    return asked and "for" in texts[start:]


def is_paid_for(fact: Fact, told: Told, texts: tuple[str, ...]) -> bool:
    """ "I charge forty pounds for a full clean": what the money is for, and nothing done or to be done."""
    start = fact.phrase.start
    paid = [m.end for m in told.marks if "PRICE" in m.tags and m.segment == fact.segment and m.end <= start]
    sums = [f.phrase.end for f in told.facts if f.kind == "value" and f.phrase.end <= start]
    if not paid or not sums or sums[-1] < paid[0] or fact.phrase.meaning.acts[0].form == "past":
        return False
    return texts[sums[-1] : sums[-1] + 1] == ("for",)
