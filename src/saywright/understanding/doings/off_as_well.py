""" "Rod's straight but rusty, off as well", "upper sixty two, lower sixty three, both off": plainly. Pure.

Behind what was told of a part stands no more than that it, or each of the two, is off or out too.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import names_part
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.statements import ConditionNote, Reading
from saywright.understanding.steps import Tokens
from saywright.understanding.tokens import BREAK, Token, text_at
from saywright.understanding.wordforms import plural

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_TAILS: Final = (("as", "well"), ("too",), ("also",))
_WAYS: Final = frozenset({"off", "out"})
_BE: Final = frozenset({"are"})
_BEFORE: Final = frozenset({"and", "the", "so", "then", BREAK})
_LEADS: Final = frozenset({BREAK, "so", "and", "right"})


TOO: Final = frozenset({"well", "too", "also", "both"})


def off_as_well(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "it is off" for "off as well", "both springs off" for "both off"."""
    return _off_as_well(_both_off(tokens, state, lexicon), lexicon)


def _off_as_well(tokens: Tokens, lexicon: Lexicon) -> Tokens:
    """*tokens* with "it is off" for "off as well" right behind how it is, or what was read of it."""
    texts = tuple([token.text for token in tokens])
    tail = next((len(one) for one in _TAILS if texts[-len(one) :] == one), 0)
    at = len(texts) - tail - 1
    if not tail or at < 1 or texts[at] not in _WAYS:
        return tokens
    end = at
    while end and texts[end - 1] in _LEADS:
        end -= 1
    if texts[at] == "out" and text_at(texts, end - 1) in CLASSES:
        return tokens  # "point one two out as well": out of true
    if not end or not _is_told(texts, end, lexicon):
        return tokens
    word = tokens[at].word
    return (*tokens[:end], *(Token(text, word) for text in (BREAK, "it", "is")), tokens[at])


def _both_off(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "both springs off" for "lower's sixty two, both off", behind the upper one."""
    texts = tuple([token.text for token in tokens])
    at = len(texts) - 2 - (text_at(texts, len(texts) - 2) in _BE)
    if at < 1 or texts[at] != "both" or texts[-1] not in _WAYS:
        return tokens
    end = at
    while end and texts[end - 1] in _LEADS:
        end -= 1
    first = next((i for i, text in enumerate(texts) if text not in _BEFORE), 0)
    if texts[first] not in lexicon.positions or not _is_told(texts, end, lexicon):
        return tokens
    if names_part(texts, first, end, lexicon) or not state.recent:
        return tokens
    told = [one for one in state.recent[-1] if isinstance(one, Reading | ConditionNote)]
    parts = {one.component for one in told if one.which is not None and texts[first] not in one.which.split()}
    part = lexicon.sheet.get(parts.pop() or "") if len(parts) == 1 else None
    if part is None:
        return tokens
    name = [Token(word, tokens[at].word) for word in plural(part.label.lower()).split()]
    return (*tokens[:end], Token(BREAK, tokens[at].word), tokens[at], *name, *tokens[at + 1 :])


def _is_told(texts: Sequence[str], end: int, lexicon: Lexicon) -> bool:
    """True where a state or a number of a value ends before *end*; not "the nuts off as well"."""
    if text_at(texts, end - 1) in CLASSES:
        return True
    for begin in range(max(0, end - 3), end):
        found = lexicon.match(tuple(texts), begin) if texts[begin] != BREAK else None
        if found is not None and begin + found[0] == end:
            return bool(found[1].conditions) and not (found[1].parts or found[1].aliases or found[1].acts)
    return False
