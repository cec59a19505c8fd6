"""A roll of all stations, each with its value: "vacuum one twenty eight two twenty seven three twenty eight".

Where the words can be shared out in one way only, so that each station in its order has a value and the
values are alike, "number" is put in before each station. "Gauges on" before it stands for what they read.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from saywright.quantity import parse_value
from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.numbers.words import CARDINALS, OH
from saywright.understanding.quantities.measures import find_measures
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, spoken_form

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_FEWEST = 3  # stations; of two the words are too often one number
_ALIKE = Fraction(3, 2)  # the largest of the values over the smallest
_WITHIN = frozenset({"point", "and", "a", "half", "quarter", "quarters", "hundred", BREAK}) | OH
_SHOW = frozenset({"on", "say", "read", "reading", "show", "saying", "showing", "are", "the", "now", BREAK})

Roll = tuple[tuple[int, int, int], ...]  # of each station: where its number stands; its value [start, end)


@called_by({CARDINALS[_FEWEST - 1]})
def with_numbers(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with "number" before each station of a roll."""
    if lexicon.stations < _FEWEST:
        return tokens
    texts = tuple([token.text for token in tokens])
    orders = CARDINALS[: lexicon.stations]
    if not {*orders} <= {*texts} or "number" in texts:
        return tokens
    begin = texts.index("one")
    rolls = [roll for roll in _shared_out(texts, begin, orders) if _are_alike(roll, texts)]
    if len(rolls) != 1:
        return tokens
    out = list(_by_what_they_read(tokens[:begin], lexicon))
    for at, start, end in rolls[0]:
        out += [Token("number", tokens[at].word), tokens[at], *tokens[start:end]]
    return (*out, *tokens[rolls[0][-1][-1] :])


def _shared_out(texts: tuple[str, ...], at: int, orders: tuple[str, ...]) -> Iterator[Roll]:
    """All ways to share the words from *at* on among *orders*, the first of which stands there."""
    run = at
    while run < len(texts) and (is_number_word(texts, run) or texts[run] in _WITHIN):
        run += 1
    if len(orders) == 1:
        if run > at + 1:
            yield ((at, at + 1, run),)
        return
    for end in range(at + 2, run):
        if texts[end] == orders[1]:
            for rest in _shared_out(texts, end, orders[1:]):
                yield ((at, at + 1, end), *rest)


def _are_alike(roll: Roll, texts: tuple[str, ...]) -> bool:
    """True where each station has one number, and they are near each other."""
    values: list[Fraction] = []
    for _, start, end in roll:
        said = texts[start : end - (texts[end - 1] == BREAK)]
        found = find_measures(said, {})
        if len(found) != 1 or (found[0].start, found[0].end) != (0, len(said)) or not found[0].readings:
            return False
        values.append(parse_value(found[0].readings[0].value))
    return 0 < max(values) <= min(values) * _ALIKE


def _by_what_they_read(head: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "gauges on": the one thing that is read with them, by its name."""
    end = len(head)
    while end and head[end - 1].text in _SHOW:
        end -= 1
    if not end:
        return head
    called = [
        i
        for i in lexicon.sheet.instrument
        if any(spoken_form(name)[-1] == head[end - 1].text for name in i.names)
    ]
    read = [c for _, c in lexicon.sheet.characteristics() if [c.instrument] == [i.id for i in called]]
    if len(read) != 1:
        return head
    words = spoken_form(called[0].names[0])[:-1]
    while end > 1 and head[end - 2].text in {*words, *spoken_form(" ".join(called[0].names))}:
        end -= 1
    return (*head[: end - 1], *(Token(text, head[end - 1].word) for text in spoken_form(read[0].names[0])))
