""" "Upper and lower pin", "right lower's seized" behind upper pins: the noun that was said once. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse, Hand
    from saywright.understanding.lexicon import Lexicon

_APART: Final = frozenset(  # words that tell one from another, and name nothing by themselves
    ["upper", "lower", "top", "bottom", "inner", "outer", "front", "rear", "back", "inlet", "outlet",
     "suction", "delivery", "discharge", "primary", "secondary", "leading", "trailing", "high", "low", "fast",
     "slow", "pilot", "main", "large", "small", "big", "little", "long", "short", "near", "far", "drive"]
)  # fmt: skip
_BEHIND: Final = frozenset(
    ["", BREAK, "is", "are", "was", "were", "has", "have", "too", "and", "both", "out", "off", "in", "on",
     "came", "reads"]
)  # fmt: skip
_BEFORE: Final = frozenset({"", BREAK, "the", "and", "both", "then", "but", "its", "same"})


@called_by({"ones"})
def ones_of_kind(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """ "The high pressure ones out": seals so called, and several of them."""
    texts = [token.text for token in tokens]
    for at in range(1, len(texts)):
        if texts[at] != "ones":
            continue
        for size in (2, 1):
            head = texts[max(0, at - size) : at]
            itself = lexicon.match(tuple(texts), at - size) if head else None
            if itself is not None and itself[1].parts:
                continue  # "the wheel ones" may be its nuts or its cylinders
            if len(head) < size or not lexicon.positions.isdisjoint(head):
                continue
            named = [
                (c.id, n) for c in lexicon.sheet.component for n in c.names if n.lower().split()[:-1] == head
            ]
            nouns = {name.lower().split()[-1] for _, name in named if name.endswith("s")}
            if len({part for part, _ in named}) == 1 and len(nouns) == 1:
                return (*tokens[:at], Token(nouns.pop(), tokens[at].word), *tokens[at + 1 :])
    return tokens


@called_by({*_APART, *(f"{word}s" for word in _APART)})
def nouns_put_back(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the noun behind a word that tells one part of a name from another."""
    texts = tuple([token.text for token in tokens])
    out, hand = list(tokens), state.hand
    for at in range(len(texts) - 1, -1, -1):
        word = texts[at] if texts[at] in lexicon.heads else texts[at].removesuffix("s")
        if word not in _APART or word not in lexicon.heads or _is_named(texts, at, word, lexicon):
            continue
        noun = _shared(texts, at, word, lexicon) or _in_hand(texts, at, word, lexicon, hand)
        if noun:
            out[at : at + 1] = [Token(word, tokens[at].word), Token(noun, tokens[at].word)]
    return tuple(out) if len(out) != len(tokens) else tokens


def _is_named(texts: tuple[str, ...], at: int, word: str, lexicon: Lexicon) -> bool:
    """True where the word is a name itself, or goes on as one."""
    found = lexicon.match(texts, at)
    whole = found is not None and (found[0] > 1 or bool(found[1].parts or found[1].aliases))
    placed = bool(word) and any(word in p.split() for c in lexicon.sheet.component for p in c.positions)
    return whole or placed


def _shared(texts: tuple[str, ...], at: int, word: str, lexicon: Lexicon) -> str:
    """ "Upper and lower pin twenty seven": the noun behind the other one, where a value is told of both."""
    if text_at(texts, at + 1) not in {"and", "or"} or texts[at] != word or CLASSES.keys().isdisjoint(texts):
        return ""
    begin = at + 2 + (text_at(texts, at + 2) == "the")
    found = lexicon.match(texts, begin) if begin < len(texts) and texts[begin] else None
    if found is None or found[0] < 2 or not found[1].parts:
        return ""
    noun = texts[begin + found[0] - 1]
    if noun.endswith("s"):
        return ""  # "inner and outer pads": told together elsewhere
    return noun if (word, noun) in lexicon.table and lexicon.table[word, noun].parts else ""


def _in_hand(texts: tuple[str, ...], at: int, word: str, lexicon: Lexicon, hand: Hand | None) -> str:
    """ "Right lower's seized", "left top and bottom both nine": the noun of what is talked of."""
    held = lexicon.sheet.get(hand.component) if hand is not None else None
    if held is None:
        return ""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    if not (before in _BEFORE or before in lexicon.positions) or not (behind in _BEHIND or behind in CLASSES):
        return ""
    if behind == "and" and (
        text_at(texts, at + 2) not in lexicon.heads or _is_named(texts, at + 2, "", lexicon)
    ):
        return ""  # "inner and outer pads": told together
    nouns = {name.lower().split()[-1] for name in held.names if " " in name}
    parts = set(lexicon.heads[word])
    for noun in sorted(nouns - {*texts} - {text.removesuffix("s") for text in texts}, key=len):
        found = lexicon.table.get((word, noun))
        part = lexicon.sheet.get(found.parts[0]) if found is not None and len(found.parts) == 1 else None
        if part is not None and part.id in parts and part.stations == held.stations:
            return noun
    return ""
