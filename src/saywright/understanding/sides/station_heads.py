"""A part at a station by the first word of its name: "delivery two" for delivery valve two.

Only where that word alone is the name of something read, so that the number behind it could be taken for its
value, and where one kind of part at the stations is called so.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from saywright.sheets.model import Sheet
from saywright.understanding.meanings import NOTHING
from saywright.understanding.naming.sheet_names import Table, component_names
from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.steps import called_by_places
from saywright.understanding.tokens import Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_GOES_ON = frozenset({"point", "and", "half", "quarter", "hundred", "thousand"})


def station_heads(sheet: Sheet, table: Table) -> Mapping[str, str]:
    """First words of names that also name what is read → the noun behind them."""
    found: dict[str, str] = {}
    for part in sheet.component:
        if part.positions or not part.stations:
            continue
        for name, _ in component_names(part):
            alone = table.get(name[:1], NOTHING)
            short = set(alone.aliases) <= {part.id} and not alone.parts
            if len(name) == 2 and alone.characteristics and short:
                found.setdefault(name[0], name[1])
    return found


@called_by_places
def with_nouns(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the noun put in where the number of a station follows such a word."""
    heads = lexicon.station_heads
    if not heads:
        return tokens
    texts = tuple([token.text for token in tokens])
    if heads.keys().isdisjoint(texts):
        return tokens
    out: list[Token] = []
    for at, token in enumerate(tokens):
        noun = heads.get(texts[at - 1], "") if at else ""
        if noun and _stands_for(noun, texts, at):
            out.append(Token(noun, token.word))
            continue
        out.append(token)
        if token.text not in heads or not _is_station(texts, at + 1, lexicon):
            continue
        if not _stands_for(heads[token.text], texts, at + 1):
            out.append(Token(heads[token.text], token.word))
    return tuple(out)


def _stands_for(noun: str, texts: tuple[str, ...], at: int) -> bool:
    """ "suction valve's stuck and delivery one's worn": for the *noun* said before without a number."""
    if texts[at] != "one" or noun not in texts[:at]:
        return False
    return texts[texts.index(noun) + 1] not in CARDINALS


def _is_station(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    """True where the number at *at* is a station's, and neither goes on nor has a unit."""
    if at >= len(texts) or texts[at] not in CARDINALS[: lexicon.stations]:
        return False
    after = texts[at + 1] if at + 1 < len(texts) else ""
    return (
        bool(after)
        and after not in _GOES_ON
        and after not in lexicon.units
        and not is_number_word(texts, at + 1)
    )
