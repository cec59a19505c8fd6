""" "No need to do the bushes", "it doesn't need replacing yet", "float keep, jet keep", plainly. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import ended, put_plainly, put_words
from saywright.understanding.meanings import NOTHING
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_NO: Final = (("no", "need", "to", "do"), ("no", "point", "doing"), ("no", "point", "in", "doing"))
_THE: Final = frozenset({"the", "these", "those", "both", "all", "that", "this"})
_UP: Final = frozenset({"up", "again", "yet", "by", "with"})  # "no need to do the bolts up"


@called_by({"need", "point", "yet", "keep"})
def need_not(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with plain words for what need not be done, and for what is kept."""
    return put_plainly(tokens, (_no_need, _not_yet, _keep), lexicon)


def _no_need(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "No need to do the bushes": to replace them; not "to do the runout", "to do the bolts up"."""
    for at in range(len(texts) - 3):
        said = next((one for one in _NO if tuple(texts[at : at + len(one)]) == one), ())
        noun = _behind_lead(texts, at + len(said), lexicon)
        found = lexicon.match(tuple(texts), noun) if said and noun < len(texts) else None
        if found is None or not found[1].parts or found[1].characteristics:
            continue
        if _UP.isdisjoint(texts[noun + found[0] : noun + found[0] + 2]):
            return put_words(tokens, at, at + len(said), "no", "need", "to", "replace")
    return tokens


def _not_yet(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "It doesn't need replacing yet": it does not."""
    for at in range(3, len(texts)):
        needs = texts[at - 3 : at - 1] in (["not", "need"], ["not", "want"]) and texts[at - 1].endswith("ing")
        if needs and texts[at] == "yet" and ended(texts, at + 1):
            return (*tokens[:at], *tokens[at + 1 :])
    return tokens


def _keep(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Float keep main jet keep": each is used again; not "the floats keep sticking"."""
    for at in range(1, len(texts)):
        if texts[at] != "keep" or not _ends_with_part(texts, at, lexicon):
            continue
        behind = _behind_lead(texts, at + 1, lexicon)
        following = lexicon.match(tuple(texts), behind) if behind < len(texts) else None
        named = following is not None and bool(following[1].parts)
        if named or ended(texts, at + 1):
            tokens = put_words(tokens, at, at + 1, "reuse")
            return _keep(tokens, [token.text for token in tokens], lexicon)
    return tokens


def _behind_lead(texts: list[str], at: int, lexicon: Lexicon) -> int:
    """The token behind "the", "both", "left" from *at* on."""
    while at < len(texts) and (texts[at] in _THE or texts[at] in lexicon.positions):
        at += 1
    return at


def _ends_with_part(texts: list[str], end: int, lexicon: Lexicon) -> bool:
    """True where a part is named right before token *end*, behind nothing, a pause or another "keep"."""
    for begin in range(end - 1, max(-1, end - 5), -1):
        if lexicon.table.get(tuple(texts[begin:end]), NOTHING).parts:
            lead = begin
            while lead and (texts[lead - 1] in lexicon.positions or texts[lead - 1] in _THE):
                lead -= 1
            if not lead or texts[lead - 1] in {BREAK, "keep", "reuse", "and", "so"}:
                return True
    return False
