""" "Rear left lining", "rear left ten": a side between the words of a name, or in place of its noun. Pure.

Where the sheet calls a part "rear lining" and has one on the left, it is the left rear lining.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import called_by_places
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.sheets.model import Component
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon
    from saywright.understanding.meanings import Meaning

_LEADS: Final = frozenset({"is", "was", "at", "has", "got", "reads"})
_STEPPED_OVER: Final = frozenset({BREAK, "now", "then"})  # "now the front left, four point one"


@called_by_places
def ends_before_sides(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with each such side before the name, and the noun where it was left out."""
    texts = tuple([token.text for token in tokens])
    if lexicon.positions.isdisjoint(texts):
        return tokens
    out = tokens
    for at in range(len(texts) - 2, 0, -1):
        if texts[at] not in lexicon.positions or texts[at - 1] not in lexicon.steps:
            continue
        if texts[at + 1] in lexicon.steps[texts[at - 1]].longer:
            out = _before_name(out, texts, at, lexicon)
    if "ones" in texts:  # "rear ones left two point nine"
        out = tuple(t for at, t in enumerate(out) if not _is_noun(texts, at, lexicon))
    texts = tuple([token.text for token in out])
    for at in range(len(texts) - 2, 0, -1):
        if _is_value(texts, at + 1) and {texts[at - 1], texts[at]} & lexicon.positions:
            out = _with_noun(out, texts, at, state, lexicon)
    return out


def _before_name(
    tokens: tuple[Token, ...], texts: tuple[str, ...], at: int, lexicon: Lexicon
) -> tuple[Token, ...]:
    """ "Rear left lining" as "left rear lining"."""
    whole = lexicon.match(texts, at - 1)
    if whole is not None and whole[0] > 1:
        return tokens
    found = lexicon.match((texts[at - 1], *texts[at + 1 :]), 0)
    parts = [lexicon.sheet.get(c) for c in found[1].parts] if found is not None and found[0] > 1 else []
    if not parts or not all(part is not None and texts[at] in part.stations for part in parts):
        return tokens
    return (*tokens[: at - 1], tokens[at], tokens[at - 1], *tokens[at + 1 :])


def _is_noun(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    behind = texts[at + 1 : at + 3]
    sided = len(behind) > 1 and behind[0] in lexicon.positions and behind[1] in CLASSES
    return texts[at] == "ones" and sided and text_at(texts, at - 1) in lexicon.steps


def _is_value(texts: tuple[str, ...], at: int) -> bool:
    while text_at(texts, at) in _STEPPED_OVER:
        at += 1
    if at >= len(texts):
        return False
    return texts[at] in CLASSES or (texts[at] in _LEADS and text_at(texts, at + 1) in CLASSES)


def _with_noun(
    tokens: tuple[Token, ...], texts: tuple[str, ...], at: int, state: Discourse, lexicon: Lexicon
) -> tuple[Token, ...]:
    """ "Rear left ten" as "left rear shoes ten", where that is read on the rear shoes."""
    for first, side in ((at - 1, at), (at, at - 1)):
        if texts[side] not in lexicon.positions or texts[first] in {"left", "right"}:
            continue
        end = texts[first].removesuffix("s")  # "rears left two point nine"
        named = [c for c in lexicon.sheet.component if texts[side] in c.stations and _noun(c, end)]
        if named and not any(
            {end, texts[side]} <= {*p.split()} for c in lexicon.sheet.component for p in c.positions
        ):
            meant = _meant(named, texts, at, state, lexicon)
            if meant is not None:
                words = (texts[side], end, *_noun(meant, end))
                return (*tokens[: at - 1], *(Token(w, tokens[at].word) for w in words), *tokens[at + 1 :])
    return tokens


def _noun(part: Component, end: str) -> tuple[str, ...]:
    """The words behind *end* in a name of *part*; () where none begins so."""
    names = [tuple(name.lower().replace("-", " ").split()) for name in part.names]
    called = [name[1:] for name in names if len(name) > 1 and name[0] == end]
    return min(called, key=lambda noun: noun[-1].endswith("s"), default=())  # the singular


def _meant(
    named: list[Component], texts: tuple[str, ...], at: int, state: Discourse, lexicon: Lexicon
) -> Component | None:
    """The one of *named* that has what is read in this utterance, or is like the part talked of."""
    if len(named) == 1:
        return None  # nothing else there has such sides: its place alone tells it
    said = [meaning for _, meaning in _names(texts, lexicon)]
    read = {key[1] for meaning in said for key in meaning.characteristics}
    of = {c for meaning in said for c in (*meaning.parts, *meaning.aliases)}
    before = [part for begin, meaning in _names(texts, lexicon) if begin < at for part in meaning.parts]
    held = before[-1] if before else state.hand.component if state.hand is not None else ""
    like = lexicon.sheet.get(held)
    nouns = {n.split()[-1] for n in like.names} if like is not None else set()
    if alike := [c for c in named if any(one.id in read for one in c.characteristic)]:
        named = alike
    else:
        named = [c for c in named if c.id in of] or named
    if len(named) > 1:
        named = [c for c in named if nouns & {n.split()[-1] for n in c.names}]
    return named[0] if len(named) == 1 else None


def _names(texts: tuple[str, ...], lexicon: Lexicon) -> Iterator[tuple[int, Meaning]]:
    at = 0
    while at < len(texts):
        found = lexicon.match(texts, at) if texts[at] else None
        if found is not None:
            yield at, found[1]
        at += found[0] if found is not None else 1
