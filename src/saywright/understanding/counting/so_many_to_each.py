""" "Eight bolts out, four a cover", "screws off, two per side": how many sit at each, and no value. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import ended
from saywright.understanding.numbers.words import COUNTS
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_TO_EACH: Final = frozenset({"a", "an", "per", "to", "for", "on", "each", "apiece"})
_ONE_OF: Final = frozenset({"a", "an", "each", "every", "per"})
_PLACES: Final = frozenset({"side", "end", "leg", "corner", "face", "half", "pair", "row", "bank"})
_OFF: Final = frozenset({"out", "off"})
_WAYS: Final = _OFF | {"in", "on"}
_MOVES: Final = _WAYS | {"home", "again", "back", BREAK}


@called_by(_TO_EACH)
def so_many_to_each(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* without how many there are at each, behind what moved; "nine each" may be a torque."""
    texts = tuple([token.text for token in tokens])
    for at in range(2, len(texts) - 1):
        if texts[at] not in COUNTS or texts[at - 1] not in _MOVES or _WAYS.isdisjoint(texts[:at]):
            continue
        end = _end(texts, at + 1, lexicon)
        if end and _may_be_so_many(texts, at, _told_of(texts[:at], state, lexicon), bare=end == at + 2):
            begin = at - (end == len(texts) and texts[at - 1] == BREAK)
            return (*tokens[:begin], *tokens[end:])
    return tokens


def _end(texts: Sequence[str], at: int, lexicon: Lexicon) -> int:
    """The token behind "a cover", "per side", "to each leg", "each"; 0 where it is something else."""
    begin = at + (text_at(texts, at) in {"to", "for", "on"})
    if text_at(texts, begin) not in _ONE_OF | {"apiece"}:
        return 0
    if texts[begin] in {"each", "apiece"} and ended(texts, begin + 1):
        return begin + 1
    found = lexicon.match(tuple(texts), begin + 1) if text_at(texts, begin + 1) not in {"", BREAK} else None
    length = found[0] if found is not None and (found[1].parts or found[1].aliases) else 0
    length = length or int(text_at(texts, begin + 1) in _PLACES)
    return begin + 1 + length if length and ended(texts, begin + 1 + length) else 0


def _told_of(before: Sequence[str], state: Discourse, lexicon: Lexicon) -> list[int]:
    """How many there are of what is told of: as said, or as the sheet has of the parts named, or in hand."""
    said = (lexicon.names(tuple(before), i) for i in range(len(before)))
    named = [c for one in said for c in (*one.parts, *one.aliases)]
    named = named or ([state.hand.component] if state.hand is not None else [])
    parts = [part for part in map(lexicon.sheet.get, named) if part is not None]
    return [part.count for part in parts] + [COUNTS[text] for text in before if text in COUNTS]


def _may_be_so_many(texts: Sequence[str], at: int, counts: Sequence[int], *, bare: bool) -> bool:
    """True where so many can sit at each: "four a cover" of eight, not "nine a cover" of eight."""
    if bare and (_OFF.isdisjoint(texts[:at]) or COUNTS[texts[at]] in counts):
        return False  # "bolts in, nine each", "both pads off, two each"
    return any(count >= COUNTS[texts[at]] and count % COUNTS[texts[at]] == 0 for count in counts)
