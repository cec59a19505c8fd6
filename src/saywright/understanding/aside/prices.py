"""Numbers that are prices: "a whole pump for two hundred and forty pounds", "one for two eighty". Pure."""

from __future__ import annotations

from typing import Final

from saywright.understanding.facts import Fact

_MONEY = frozenset({"quid", "euro", "euros", "dollars", "bucks", "pence", "kroner"})
_BUYING: Final = frozenset({"get", "buy", "bought", "sell", "sells", "sold"})
_THEY_ASK: Final = {("they", "want"), ("they", "ask"), ("they", "charge"), ("he", "wants"), ("she", "wants")}


def is_price(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "a whole pump for two hundred and forty pounds": pounds of money, not of pressure."""
    start, measure = fact.phrase.start, fact.phrase.measure
    pounds = measure is not None and measure.unit_said in {"pound", "pounds"}
    if measure is not None and not measure.units and measure.unit is None and not fact.characteristics:
        if texts[max(0, start - 2) : start] == ("alone", "is") and measure.readings[0].value.isdigit():
            return True  # "the impeller alone's two hundred and forty"
        if _bought_for(texts, start) and measure.readings[0].value.isdigit():
            return True  # "I could get a whole new pump for two eighty"
        if not _MONEY.isdisjoint(texts[:start]) and measure.readings[0].value.isdigit():
            return True  # "discs are thirty eight quid each, pads twenty six"
    return pounds and not fact.characteristics and texts[max(0, start - 1) : start] in {("for",), ("cost",)}


def _bought_for(texts: tuple[str, ...], start: int) -> bool:
    """ "get one for two eighty", "they want two eighty for a new pump": what it costs."""
    if texts[start - 1 : start] == ("for",):
        return not _BUYING.isdisjoint(texts[: start - 1])
    asked = texts[max(0, start - 2) : start] in _THEY_ASK
    return asked and "for" in texts[start:]
