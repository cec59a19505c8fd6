"""Sayings that lead to a place: "done here, off to the rear", "that brings us to the right", "the front's out
of the way, crack on with the back".

By plainer words for the same. "The float is off to the right", "a crack on the lip", "the pin got stuck in
the bore" and "the bowl's out of the way" are told of parts, and stay.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.sides.relations import NOUNS
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, words_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon


# Each saying word by word, what may stand at one place parted by "|", and the plain words for it.
_SAYINGS: Final = tuple(
    (tuple(words_of(one.replace("|", " ")) for one in said.split(" ")), tuple(plain.split(" ")))
    for said, plain in (
        ("off to", "on to"),
        ("off i|we go to", "on to"),
        ("off over|round|across to", "on to"),
        ("last but|and not least", "now"),
        ("that|which|this brings|takes|leads|gets me|us to", "on to"),
        ("that|which|this brings|takes|leads|gets me|us on|back|round|over|along|neatly|nicely to", "on to"),
        ("that|which|this has brought|got me|us to", "on to"),
        ("here i|we am|are at|on", "on to"),
        ("here i|we am|are then at|on", "on to"),
        ("jack|jacked|jacking up", "on to"),
        ("last one is", "on to"),
        ("last one", "on to"),
        ("jack|stand|stands is|are under", "on to"),
        ("having a look|peep|peek|squint at", "looking at"),
        ("have a peep|peek|squint|gander at", "look at"),
    )
)
# Of a start, whatever it is made on.
_STARTS: Final = tuple(
    (tuple(words_of(one.replace("|", " ")) for one in said.split(" ")), tuple(plain.split(" ")))
    for said, plain in (
        ("get|getting stuck into|in", "start on"),
        ("crack|cracking on with", "carry on with"),
        ("press|pressing on with|to", "on to"),
        ("rinse and repeat", "now"),
    )
)
_GOING: Final = words_of(
    "right okay ok so now then and well yeah yep i we am are is all done here finished sorted straight next "
    "just that lovely good great grand super smashing cool oh ah so"
)
_STARTERS: Final = words_of(
    "us to i we will shall let gonna and then now so just can must let's time okay right"
)
_DONE: Final = words_of("all nicely finally safely")
_WAY: Final = ("out", "of", "the", "way")
_CRACK: Final = words_of("crack cracking press pressing")
_OTHERS: Final = words_of("other next last far second")
_POINTED: Final = words_of("that this")
_LONGEST_PLACE: Final = 4  # words: "the front left one"
CALLED: Final = words_of(
    "off least last brings takes leads gets brought here having peep peek squint gander stuck right crack "
    "cracking jack jacked jacking stand stands press pressing rinse way"
)


@called_by(CALLED)
def in_plain_turns(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with "on to", "start on" or "done" for a saying that leads to a place, or away from one."""
    tokens = _the_right_now(tokens, lexicon)
    at = 0
    while at < len(tokens):
        end, plain = _said_at(tuple([token.text for token in tokens]), at, lexicon)
        if end:
            tokens = (*tokens[:at], *(Token(text, tokens[at].word) for text in plain), *tokens[end:])
        at += 1
    return tokens


def _said_at(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> tuple[int, Sequence[str]]:
    """Index behind the saying at *at*, and the plain words for it; 0 where there is none."""
    if _is_gone_on(texts, at):
        return at + 2, ("go", "on")
    for said, plain in _STARTS:
        if _is_said(said, texts, at) and _is_started(texts, at):
            return at + len(said), plain
    for said, plain in _SAYINGS:
        end = at + len(said)
        if _is_said(said, texts, at) and _begins(texts, at) and place_end(texts, end, lexicon):
            return end, plain
    if texts[at : at + len(_WAY)] == _WAY and _is_place_before(texts, at, lexicon):
        return at + len(_WAY), ("done",)
    return 0, ()


def _the_right_now(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Now I am on the right" for "I am on the right now", where "right now" would tell when."""
    at = len(tokens) - 3
    if at < 0 or [token.text for token in tokens[at:]] != ["the", "right", "now"]:
        return tokens
    begin = next((i + 1 for i in range(at, -1, -1) if tokens[i].text in {BREAK, "done", "and", "so"}), 0)
    if "right" not in lexicon.positions:
        return tokens
    return (*tokens[:begin], tokens[-1], *tokens[begin:-1])


def place_end(texts: Sequence[str], at: int, lexicon: Lexicon) -> int:
    """Index behind the place at *at*, "the front left one", "number two", "other side"; 0: none."""
    begin = at + (at < len(texts) and texts[at] == "the")
    end = begin
    if texts[begin : begin + 1] != () and texts[begin] in _OTHERS:
        return begin + 2 if begin + 1 < len(texts) and texts[begin + 1] in NOUNS else 0
    if texts[begin : begin + 1] == ("number",) and texts[begin + 1 : begin + 2] != ():
        return begin + 2 if lexicon.stations and texts[begin + 1] in CARDINALS else 0
    while end < len(texts) and end - begin < _LONGEST_PLACE:
        word = lexicon.other_places.get(texts[end], texts[end])
        if word not in lexicon.positions and not (end > begin and word in NOUNS | {"hand"}):
            break
        end += 1
    return end if end > begin else 0


def _is_said(said: Sequence[frozenset[str]], texts: Sequence[str], at: int) -> bool:
    if at + len(said) > len(texts):
        return False
    return all(texts[at + i] in one for i, one in enumerate(said))


def _begins(texts: Sequence[str], at: int) -> bool:
    """True where nothing but words of going stands before the saying in its clause."""
    begin = at
    while begin and texts[begin - 1] != BREAK and at - begin < len(_GOING):
        begin -= 1
    before = texts[begin:at]
    return _GOING.issuperset(before) and tuple(before[-2:]) not in {("that", "is"), ("is",)}


def _is_started(texts: Sequence[str], at: int) -> bool:
    """True where somebody starts: "let us get stuck in", "crack on with it"; "it got stuck in" does not."""
    return at == 0 or texts[at - 1] in _STARTERS or texts[at - 1] == BREAK


def _is_gone_on(texts: Sequence[str], at: int) -> bool:
    """ "Time to crack on", "right, press on then"."""
    behind = texts[at + 2] if at + 2 < len(texts) else ""
    on = texts[at] in _CRACK and texts[at + 1 : at + 2] == ("on",)
    return on and behind in {"", BREAK, "now", "then"} and _is_started(texts, at)


def _is_place_before(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """True where what is out of the way is a place: "that side's", "the front is", "with the left one"."""
    end = at
    while end and texts[end - 1] in _DONE:
        end -= 1
    told = end > 0 and texts[end - 1] in {"is", "are", "was"}
    end -= told
    if not told and texts[end - 1 : end] == ("right",) and texts[end - 2 : end - 1] != ("the",):
        return False  # "right out of the way"
    for begin in range(max(0, end - _LONGEST_PLACE), end):
        pointed = texts[begin] in _POINTED and texts[begin + 1 : end] != ()
        if pointed and NOUNS.issuperset(texts[begin + 1 : end]) and texts[begin + 1] != "one":
            return True
        if place_end(texts, begin, lexicon) == end:
            return True
    return False
