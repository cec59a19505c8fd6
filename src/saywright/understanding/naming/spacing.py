"""Names written in one word or in two: "run out" for "runout", "layshaft" for "lay shaft", "oh ring".

A recogniser spaces words as its vocabulary has them. They sound the same, so nothing is doubtful.
"""

from __future__ import annotations

from dataclasses import replace
from operator import add

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.tokens import Token

_SHORTEST = 5  # letters of a name that two tokens make
_RINGS = frozenset({"ring", "rings"})
_RESPACED = _RINGS | {"quarters"}
_PLACES = frozenset({"side", "end", "hand"})
_ONES = frozenset({"one", "ones"})


def respaced(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """The same tokens, spaced as the sheet spaces its names; "parts are in, let's …" is no inlet."""
    if _spaced_so(tokens, lexicon):
        return tokens
    out: list[Token] = []
    for at, token in enumerate(tokens):
        before = out[-1] if out else None
        said_to_all = token.text == "let" and tokens[at + 1 : at + 2] and tokens[at + 1].text == "us"
        if token.text in _PLACES and (owner := _owner(out, lexicon)):
            out[-len(owner) :] = [replace(owner[0], text=owner[0].text.removesuffix("s")), token]
        elif before is not None and not said_to_all and _is_one_word(before.text, token.text, lexicon):
            out[-1] = replace(before, text=before.text + token.text)
        elif token.text == "is" and _is_of_place(tokens, at - 1, at + 1, lexicon):
            continue
        elif token.text in lexicon.positions_with_s and _is_of_place(tokens, at, at + 1, lexicon):
            out.append(replace(token, text=token.text[:-1]))
        elif token.text[:-1] in lexicon.positions and _is_position_with_is(tokens, at, lexicon):
            out += [replace(token, text=token.text[:-1]), replace(token, text="is")]
        elif token.text in lexicon.owners_with_s and _owns(tokens, at, lexicon):
            out.append(replace(token, text=token.text[:-1]))
        elif before is not None and before.text == "a" and token.text == "quarters":
            out.append(replace(token, text="quarter"))  # "one and a quarters"
        elif before is not None and before.text == "oh" and token.text in _RINGS and "o" in lexicon.words:
            out[-1:] = [replace(before, text="o"), token]
        elif (apart := lexicon.glued.get(token.text)) is not None and (token.text,) not in lexicon.table:
            out += [replace(token, text=word) for word in apart]
        else:
            out.append(token)
    return tuple(out)


def _spaced_so(tokens: tuple[Token, ...], lexicon: Lexicon) -> bool:
    """True where no word gives a reason to look closer; most talk does not."""
    texts = [token.text for token in tokens]
    return (
        lexicon.words.isdisjoint(map(add, texts, texts[1:]))
        and lexicon.glued.keys().isdisjoint(texts)
        and lexicon.positions_with_s.isdisjoint(texts)
        and _RESPACED.isdisjoint(texts)
        and lexicon.owners_with_s.isdisjoint(texts)
        and ("is" not in texts or lexicon.positions.isdisjoint(texts))
        and ("side" not in texts or lexicon.positions.isdisjoint(map(add, texts, texts[1:])))
    )


def _owner(said: list[Token], lexicon: Lexicon) -> list[Token]:
    """ "driver's", "drivers" before a side: the position, and the "is" that is none; empty for others."""
    if len(said) > 1 and said[-1].text == "is" and said[-1].word == said[-2].word:
        return said[-2:] if said[-2].text in lexicon.positions else []
    written = bool(said) and said[-1].text in lexicon.positions_with_s
    return said[-1:] if written and said[-1].text not in lexicon.words else []


def _is_of_place(tokens: tuple[Token, ...], at: int, behind: int, lexicon: Lexicon) -> bool:
    """ "the driver's disc", "drivers one's cracked": the place at *at* owns what is named at *behind*."""
    word = tokens[at].text if at >= 0 else ""
    place = word[:-1] if word in lexicon.positions_with_s and (word,) not in lexicon.table else word
    texts = tuple([token.text for token in tokens[behind : behind + 4]])
    if place not in lexicon.positions or place in CLASSES or not texts:
        return False
    if texts[0] in _ONES:
        return not is_number_word(texts, 1) and texts[1:2] != ("point",)
    meant = lexicon.names(texts, 0)
    parts = [lexicon.sheet.get(part) for part in meant.parts]
    return any(part is not None and part.has_places((place,)) for part in parts)


def _owns(tokens: tuple[Token, ...], at: int, lexicon: Lexicon) -> bool:
    """ "manifolds bolts": "manifold's bolts", as a recogniser writes it, where one manifold is fitted."""
    behind = tokens[at + 1].text if at + 1 < len(tokens) else ""
    whole = lexicon.table.get((tokens[at].text[:-1], behind))
    return whole is not None and bool(whole.parts) and (tokens[at].text, behind) not in lexicon.table


def _is_position_with_is(tokens: tuple[Token, ...], at: int, lexicon: Lexicon) -> bool:
    """ "the outlets five point nine": "outlet's", without its apostrophe, before what is said of it."""
    text = tokens[at].text
    if not text.endswith("s") or (text,) in lexicon.table:
        return False
    if at + 1 >= len(tokens):
        return False
    behind = lexicon.names(tuple(token.text for token in tokens[at : at + 4]), 1)
    return tokens[at + 1].text in CLASSES or bool(behind.conditions or behind.acts)


def _is_one_word(first: str, second: str, lexicon: Lexicon) -> bool:
    whole = first + second
    if second == "side" and whole in lexicon.positions:
        return True  # "off side" of a car, whatever else is off
    if whole not in lexicon.words or len(whole) < _SHORTEST or not whole.isalpha():
        return False
    return (first, second) not in lexicon.table and not (first in lexicon.words and second in lexicon.words)
