""" "Point one five goes in easy, point two just about": blades that were tried, and the last of them. Pure.

The first that goes is no value where another goes behind it, and is the value where the next one does not. A
blade that goes in is no part that went on.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.words import CLASSES, OH
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, HESITATIONS, Token

_GOES: Final = frozenset({"goes", "slides", "slips", "passes", "went", "slid"})
_WAYS: Final = frozenset({"in", "under", "through", "between", "there", "into"})
_HOW: Final = tuple(
    tuple(said.split())
    for said in (
        "dead easy", "too easy", "easy", "easily", "freely", "fine", "nicely", "loose", "no bother",
        "no trouble", "no problem", "all right", "alright", "okay", "sweet", "a treat",
        "with room to spare", "just about",
        "just", "tight", "with a drag", "snug",
    )
)  # fmt: skip
_BARELY: Final = (("just", "about"), ("just", "and", "no", "more"))
_DENIES: Final = {(verb, "not") for verb in ("will", "does", "did", "would")}
_SMALL: Final = HESITATIONS | {BREAK, "and", "but", "then", "the", "a", "so", "now"}
_GAPS: Final = frozenset(
    ["gap", "gaps", "clearance", "play", "float", "feeler", "feelers", "blade", "blades", "shim", "gauge"]
)
_LENGTHS: Final = frozenset({"mm", "thou"})


@called_by(_GOES | {"just"})
def blades_tried(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* without what is told of a blade of the feelers, and without the one that another outdid."""
    at = 0
    tried = any(token.text in _GOES for token in tokens)  # "six point two just about" may be less than that
    while at < len(tokens):
        texts = tuple([token.text for token in tokens])
        start = _number(texts, at, lexicon)
        goes = texts[at] in _GOES
        barely = next((len(said) for said in _BARELY if tried and texts[at : at + len(said)] == said), 0)
        if start == at or not (goes or barely):
            at += 1
            continue
        end = _told(texts, at + 1) if goes else at + barely
        following = next((i for i in range(end, len(texts)) if texts[i] in CLASSES), len(texts))
        if goes and following == len(texts) and texts[end - 1] not in _WAYS and end == at + 1:
            return tokens  # "the point two goes": said of something else
        if goes and not _SMALL.issuperset(texts[end:following] or ("?",)) and _is_of_a_part(texts, lexicon):
            return tokens  # "outer pad six point two goes in": a part that goes on
        pause = Token(BREAK, tokens[at].word)
        outdone = goes and following < len(texts) and _goes_next(texts, end, following)
        kept = tokens[:start] if outdone else tokens[:at]
        over = () if outdone else ("so", *texts[start:at])
        if over and texts[-len(over) :] == over:  # "… so point one": the same once more
            tokens = tokens[: -len(over)]
        tokens = (*kept, pause, *tokens[end:])
        at = len(kept) + 1
    return tokens


def _number(texts: Sequence[str], end: int, lexicon: Lexicon) -> int:
    """Where the length begins that ends before token *end*, in decimals or with its unit; *end* for none."""
    at = end
    unit = at and _LENGTHS.intersection(lexicon.units.get(texts[at - 1], ()))
    at -= bool(unit)
    while at and (texts[at - 1] in CLASSES or (texts[at - 1] in OH and at > 1)):
        at -= 1
    said = texts[at:end]
    return at if "point" in said or (unit and len(said) > 1) else end


def _is_of_a_part(texts: tuple[str, ...], lexicon: Lexicon) -> bool:
    """True where a part is named, and nothing of it that blades could be tried in."""
    named = [lexicon.names(texts, at) for at in range(len(texts))]
    gap = not _GAPS.isdisjoint(texts) or any(one.characteristics for one in named)
    return not gap and any(one.parts or one.aliases for one in named)


def _told(texts: Sequence[str], at: int) -> int:
    """Where what is told behind "goes" ends: "in easy"."""
    at += texts[at : at + 1] != () and texts[at] in _WAYS
    how = next((len(said) for said in _HOW if tuple(texts[at : at + len(said)]) == said), 0)
    return at + how


def _goes_next(texts: Sequence[str], end: int, number: int) -> bool:
    """True where the number behind is another blade that was tried, and goes too."""
    stop = number
    while stop < len(texts) and (texts[stop] in CLASSES or texts[stop] in OH):
        stop += 1
    denied = tuple(texts[stop : stop + 2]) in _DENIES or texts[stop : stop + 1] == ("no",)
    return _SMALL.issuperset(texts[end:number]) and not denied
