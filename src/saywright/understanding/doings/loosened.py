""" "Cracked the nipple open", "backed the screws off two turns": loosened, not broken or off. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.counting.aloud import is_counted
from saywright.understanding.doings.roundabout import NUMBERS
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_LOOSE: Final = frozenset({"open", "loose", "free", "off", "half", "quarter", "slightly"})
_DET: Final = frozenset({"the", "both", "all", "its", "that", "each"})
_OPENED: Final = frozenset({"nipple", "nipples", "valve", "union", "unions", "joint", "cap", "plug", "cock"})
_TURNS: Final = frozenset({"turn", "turns"})
_REACH: Final = 6  # tokens of "the two upper bolts off half a turn"


@called_by({"cracked", "crack", "backed"})
def loosened(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "eased" for what was only loosened."""
    texts = tuple([token.text for token in tokens])
    for at in range(len(texts) - 3):
        if texts[at] == "crack" and texts[at + 1] in {"it", "them"} and texts[at + 2] in _LOOSE:
            return (*tokens[:at], Token("eased", tokens[at].word), *tokens[at + 1 :])
        if texts[at] not in {"cracked", "crack", "backed"} or texts[at + 1] not in _DET:
            continue
        end = _object_ends(texts, at + 2, lexicon)
        if not end or end >= len(texts):
            continue
        behind = texts[end : end + _REACH]
        if texts[at] != "backed":
            if behind[0] in _LOOSE or not _TURNS.isdisjoint(behind):
                return (*tokens[:at], Token("eased", tokens[at].word), *tokens[at + 1 :])
        elif behind[0] == "off" and _turned(behind[1:]) and not _is_set(texts, at + 2, end, lexicon):
            return (*tokens[:at], Token("eased", tokens[at].word), *tokens[at + 1 : end], *tokens[end + 1 :])
    return tokens


def _object_ends(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> int:
    """The token behind a name of what is turned, before which its place may stand; 0 for none."""
    while at < len(texts) and (texts[at] in lexicon.positions or texts[at] in NUMBERS):
        at += 1
    found = lexicon.match(texts, at) if at < len(texts) and texts[at] else None
    if found is None or not (found[1].parts or found[1].aliases):
        return 0
    end = at + found[0]
    return end if texts[end - 1] in FASTENERS | _OPENED else 0


def _turned(behind: tuple[str, ...]) -> bool:
    """ "… two turns", "… a turn", "… half a turn"."""
    return not _TURNS.isdisjoint(behind[:4])


def _is_set(texts: tuple[str, ...], at: int, end: int, lexicon: Lexicon) -> bool:
    """True for a screw that is set by its turns: "backed the mixture screw off two turns" reads it."""
    found = next(
        (lexicon.match(texts[:end], i) for i in range(at, end) if lexicon.match(texts[:end], i)), None
    )
    parts = map(lexicon.sheet.get, (*found[1].parts, *found[1].aliases)) if found is not None else ()
    return any(is_counted(c) for part in parts if part is not None for c in part.characteristic)
