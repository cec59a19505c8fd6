"""Words as heard → tokens to read: lower case, contractions told in full, each with its word.

A token keeps the index of the word it came from, so that every statement can name its
words and their times. Punctuation in typed text becomes a break.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from saywright.understanding.fixed import fixed

BREAK = ","
HESITATIONS = frozenset({BREAK, "uh", "um", "er", "erm", "ah", "eh"})
_END = ".,;:!?…"
_WRAP = "\"'“”‘’()[]{}"
_FIGURE = re.compile(r"[-+]?#?\d[\d,]*([.,/:]\d+)?[a-z%°\"]*")

_TO_PERSONS = frozenset(
    ["told", "tell", "rang", "ring", "asked", "ask", "called", "call", "phoned", "phone", "texted", "text",
     "paid", "pay", "owe", "owes", "see", "saw", "meet", "met", "for", "to", "with", "from", "by", "about",
     "like", "than", "let", "help", "helped", "and", "but", BREAK, "is", "was"]
)  # fmt: skip
# Behind it a pronoun is an object, and no owner of what follows.
_BEHIND_OBJECT = frozenset(
    ["up", "down", "out", "off", "in", "on", "back", "over", "apart", "again", "through",
     "together", "so", "with", "to", "now", "then", "right", "all", "away", "round", "home"]
)  # fmt: skip

_WHOLE = {
    "won't": ("will", "not"),
    "can't": ("can", "not"),
    "cannot": ("can", "not"),
    "shan't": ("shall", "not"),
    "ain't": ("is", "not"),
    "gonna": ("going", "to"),
    "wanna": ("want", "to"),
    "gotta": ("got", "to"),
    "gimme": ("give", "me"),
    "lemme": ("let", "me"),
    "dunno": ("do", "not", "know"),
    "let's": ("let", "us"),
    "i'm": ("i", "am"),
    "o'clock": ("o'clock",),
    "t'other": ("the", "other"),
    "t'other's": ("the", "other", "is"),
    "°": ("degrees",),
    "&": ("and",),
    "+": ("plus",),
    "%": ("percent",),
    '"': ("inch",),
    "cc's": ("cc",),
    "em": ("them",),
    "'em": ("them",),
}
_DONE = frozenset(
    ["got", "been", "had", "gone", "done", "taken", "given", "held", "forgotten", "worn", "caught", "left"]
)
_NOT_DONE = frozenset({"need", "feed", "bleed", "speed", "shed", "weld", "embed"})  # "I'd need a new one"
_TAILS = {
    "n't": "not",
    "'re": "are",
    "'ve": "have",
    "'ll": "will",
    "'d": "would",
    "'s": "is",
}


@fixed
class Token:
    """One token; `word` is the index of the word it came from, −1 for none."""

    text: str
    word: int


def words_of(text: str) -> frozenset[str]:
    """The words of *text*, which stand with a space between."""
    return frozenset(text.split())


def text_at(texts: Sequence[str], at: int) -> str:
    """The text at *at*; "" where there is none, before the first as behind the last."""
    return texts[at] if 0 <= at < len(texts) else ""


def tokenise(words: Sequence[str]) -> tuple[Token, ...]:
    """The tokens of *words*; never fails, never drops a word that holds a letter or a digit."""
    found = [Token(text, index) for index, raw in enumerate(words) for text in word_texts(raw)]
    said = " ".join(words).lower()
    if "her" in said:
        found = _machines(found)
    if "d " in said and "'d " in said.replace("’", "'"):
        found = _pasts(found)
    return tuple(found)


def _pasts(tokens: list[Token]) -> list[Token]:
    """ "I'd got the ruler on the grip": had, where what follows is a verb's past."""
    return [
        Token("had", token.word)
        if token.text == "would" and before.word == token.word and _is_done(behind.text)
        else token
        for before, token, behind in zip([_NONE, *tokens], tokens, [*tokens[1:], _NONE], strict=False)
    ]


def _is_done(word: str) -> bool:
    return word in _DONE or (word.endswith("ed") and word not in _NOT_DONE)


def _machines(tokens: list[Token]) -> list[Token]:
    """ "cleaned her up and put her back": a part or a machine; "told her", "her lid" stay as they are."""
    texts = [token.text for token in tokens]
    return [
        Token("it", token.word) if token.text == "her" and _is_thing(texts, at) else token
        for at, token in enumerate(tokens)
    ]


def _is_thing(texts: list[str], at: int) -> bool:
    before, behind = texts[at - 1] if at else "", texts[at + 1] if at + 1 < len(texts) else ""
    if not before or before in _TO_PERSONS:
        return False
    gives = before in {"gave", "give", "giving"} and behind == "a"
    return gives or behind in _BEHIND_OBJECT


_NONE = Token("", -1)


@lru_cache(maxsize=16_384)
def word_texts(raw: str) -> tuple[str, ...]:
    """What one word gives: its pieces, and the break or question mark behind it."""
    text = raw.lower().replace("’", "'").strip(_WRAP)
    body = text.rstrip(_END + _WRAP) if not _is_plain_figure(text) else text
    tail = text[len(body) :]
    if "?" in tail:
        return (*_pieces(body), "?")
    breaks = tail.strip(_WRAP) or raw in {"-", "–", "—"}
    return (*_pieces(body), BREAK) if breaks else _pieces(body)


def _is_plain_figure(text: str) -> bool:
    return bool(text) and text[-1].isdigit() and bool(_FIGURE.fullmatch(text))


@lru_cache(maxsize=16_384)
def _pieces(body: str) -> tuple[str, ...]:
    if not body:
        return ()
    if body in _WHOLE:
        return _WHOLE[body]
    if body[0].isdigit() or (body[0] in "+-#" and body[1:2].isdigit()):
        return _figure_pieces(body)
    out: list[str] = []
    for part in re.split(r"[-–—/_]", body):
        out.extend(_contraction(part))
    return tuple(piece for piece in out if piece)


def _figure_pieces(body: str) -> tuple[str, ...]:
    """ "18.42mm" → "18.42", "mm"; "1/4" and "#60" stay whole; "4-stroke" splits."""
    match = re.match(r"([-+]?#?\d+(?:[.,/:]\d+)?)[-]?(.*)", body)
    if match is None:
        return (body,)
    number, rest = match.groups()
    if not rest:
        return (number,)
    if rest in {"st", "nd", "rd", "th"}:
        return (number + rest,)
    return (number, *(_WHOLE.get(rest) or _pieces(rest)))


def _contraction(part: str) -> tuple[str, ...]:
    if part in _WHOLE:
        return _WHOLE[part]
    for tail, full in _TAILS.items():
        if part.endswith(tail) and len(part) > len(tail):
            return (part[: -len(tail)], full)
    return (part.strip("'"),)


@lru_cache(maxsize=4_096)
def spoken_form(name: str) -> tuple[str, ...]:
    """A sheet's name as tokens: "O-ring" → ("o", "ring")."""
    return tuple(token.text for token in tokenise(name.split()) if token.text != BREAK)
