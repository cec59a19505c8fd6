"""Tails of short rows: the order they came in, the one of them that is new. Pure.

"Springs off, top one first then the bottom one", "outlets the same but it's the middle that's new", "pad in,
that's the new one".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.aged_rows import aged_rows
from saywright.understanding.doings.roundabout import NUMBERS, put_plainly
from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_WAYS: Final = frozenset({"off", "out", "in", "on", "back"})
_PUT: Final = frozenset({"in", "on", "home"})
_AGES: Final = frozenset({"new", "old"})
_JOINS: Final = frozenset({BREAK, "and", "then", "the", "next"})
_OPENS: Final = _JOINS | {"so", "now", "right", "okay", "its", "his"}
_ONES: Final = frozenset({"one", "ones"})
_ENDS: Final = frozenset({"", BREAK, "and", "then", "now", "so"})
_SAME: Final = frozenset({"is", "are", "the", "same", "ones", "again"})
_TOLD_NEW: Final = frozenset({"it", "is", "the", "one", "that", "a", "just", "only", BREAK})
_AT: Final = frozenset({"in", "on", "at", "for", "the", "to"})
_TWO: Final = 2
_NAME: Final = 4  # words


@called_by({"first", "ones", "old", "new", "own", "original", "same", "top", "next"})
def row_tails(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with plainer words for such tails of a row, and for a row of old and new."""
    said = {token.text for token in tokens}
    if not said.isdisjoint({"first", "ones"}):
        tokens = _in_turn(tokens, lexicon)
    if not said.isdisjoint(_AGES):
        tokens = _ones_of_age(tokens, state, lexicon)
        if "same" in said:
            tokens = _same_but_one(tokens, state, lexicon)
    return aged_rows(_short_tails(tokens, state, lexicon), state, lexicon)


def _in_turn(tokens: Tokens, lexicon: Lexicon) -> Tokens:
    """ "Springs off, the top one first then the bottom" as "springs off": in which order, and no fewer."""
    return put_plainly(tokens, (_order_told, _ones_at_places), lexicon)


def _order_told(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    at = texts.index("first") if "first" in texts else 0
    begin = at - (text_at(texts, at - 1) in _ONES) - 1
    if begin < 0:
        return tokens
    first, second = text_at(texts, begin), [text for text in texts[at + 1 :] if text not in _JOINS | _ONES]
    while begin and texts[begin - 1] in {BREAK, "the"}:
        begin -= 1
    named = _name_before(texts, begin - 1, lexicon) if text_at(texts, begin - 1) in _WAYS else None
    if named is None or len(second) != 1 or "then" not in texts[at:] or not texts[named[1] - 1].endswith("s"):
        return tokens
    parts = [lexicon.sheet.get(c) for c in named[2]]
    places = {lexicon.other_places.get(word, word) for word in (first, second[0])}
    told = all(p is not None and p.has_places((place,)) for p in parts for place in places)
    if "one" not in texts and all(p is not None and places <= {*p.positions} for p in parts):
        return tokens  # "rollers out, idle first, then the drive": each by its name
    return tokens[:begin] if told and len(places) > 1 else tokens


def _ones_at_places(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Springs, new ones in top and bottom" as "new springs in top and bottom"."""
    at = next((i for i in range(2, len(texts)) if texts[i] == "ones" and texts[i - 1] in _AGES), 0)
    rest = [text for text in texts[at + 1 :] if text not in _JOINS]
    places = [lexicon.other_places.get(text, text) for text in rest[1:]]
    named = _name_before(texts, at - 1 - (text_at(texts, at - 2) in {BREAK, "the"}), lexicon) if at else None
    if named is None or text_at(rest, 0) not in _PUT or len(places) < 2 or not lexicon.positions >= {*places}:
        return tokens
    if named[0] and texts[named[0] - 1] not in _OPENS:
        return tokens
    return (*tokens[: named[0]], tokens[at - 1], *tokens[named[0] : named[1]], *tokens[at + 1 :])


def _ones_of_age(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """One in hand by its place, the rest beside one: "low one old one in", "two old, the new upper"."""
    return _rest_and_one(_ones_in_hand(tokens, state, lexicon), lexicon)


def _ones_in_hand(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Low one, old one in, one and a quarter": "low screw old one in" of the screws in hand."""
    texts = [token.text for token in tokens]
    part = lexicon.sheet.get(state.hand.component) if state.hand is not None else None
    if part is None or len(part.positions) < _TWO or texts.count("one") < _TWO:
        return tokens
    out: list[Token] = []
    for at, token in enumerate(tokens):
        place = texts[at - 1] if at and texts[at] == "one" else ""
        opens = place and (at == 1 or texts[at - 2] in _OPENS)
        end = at + 1 + (text_at(texts, at + 1) == BREAK)
        aged = text_at(texts, end) in _AGES and text_at(texts, end + 1) == "one"
        if opens and aged and text_at(texts, end + 2) in _PUT and part.has_places((place,)):
            out += [replace(token, text=word) for word in part.names[0].lower().split()]
        else:
            out.append(token)
    said = tuple(out) if [t.text for t in out] != texts else tokens
    return put_plainly(said, (_old_one_set,), lexicon) if "old" in texts else said


def _old_one_set(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Low screw old one in one and a half" as "old low screw in, one and a half": in, and so far."""
    at = texts.index("old")
    named = _name_before(texts, at - (texts[at - 1] == BREAK), lexicon)
    begin = named[0] if named is not None else 0
    while begin and texts[begin - 1] in lexicon.positions:
        begin -= 1
    number = at + 3 + (text_at(texts, at + 3) == BREAK)
    put = text_at(texts, at + 1) == "one" and text_at(texts, at + 2) in _PUT
    if (
        named is None
        or not put
        or not is_number_word(texts, number)
        or (begin and texts[begin - 1] not in _OPENS)
    ):
        return tokens
    pause = Token(BREAK, tokens[at].word)
    return (*tokens[:begin], tokens[at], *tokens[begin : named[1]], tokens[at + 2], pause, *tokens[number:])


def _rest_and_one(tokens: Tokens, lexicon: Lexicon) -> Tokens:
    """ "Springs two old and the new upper" as "springs two old ones and a new one in the upper"."""
    texts = [token.text for token in tokens]
    at = next((i for i in range(1, len(texts) - 4) if texts[i] in NUMBERS and texts[i + 1] in _AGES), 0)
    if not at or _name_before(texts, at - (texts[at - 1] == BREAK), lexicon) is None:
        return tokens
    joint = at + 2 + (texts[at + 2] == "ones")
    begin = joint + (texts[joint] in {"and", BREAK})
    begin += text_at(texts, begin) in {"the", "a"}
    age = text_at(texts, begin)
    end = begin + 1 + (text_at(texts, begin + 1) == "one")
    while text_at(texts, end) in _AT:
        end += 1
    place = text_at(texts, end)
    placed = {lexicon.other_places.get(place, place), place} & lexicon.positions
    if begin == joint or age not in _AGES - {texts[at + 1]} or not placed or texts[at] == "one":
        return tokens
    words = ("ones", "and", "a", age, "one", "in", "the")
    return (*tokens[: at + 2], *(Token(word, tokens[begin].word) for word in words), *tokens[end:])


def _same_but_one(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Outlets the same but it's the middle that's new" as "outlets back in, the middle one is new"."""
    texts = [token.text for token in tokens]
    same = texts.index("same")
    at = same
    while at and texts[at - 1] in _SAME:
        at -= 1
    named = _name_before(texts, at, lexicon)
    end = same + 1
    while text_at(texts, end) in _SAME:
        end += 1
    rest = [text for text in texts[end + 1 :] if text not in _TOLD_NEW]
    if (
        named is None
        or text_at(texts, end) not in {"but", "except"}
        or rest[-1:] != ["new"]
        or len(rest) != 2
    ):
        return tokens
    place = lexicon.other_places.get(rest[0], rest[0])
    off = all(state.off.get(c) for c in named[2])
    if place not in lexicon.positions or not (off or state.stage == "as_left"):
        return tokens
    words = ("back", "in", BREAK, "the", place, "one", "is", "new")
    return (*tokens[: named[1]], *(Token(word, tokens[same].word) for word in words))


def _short_tails(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Cap on top" of what is off, "ring's in, seal next", "in, that's the new one" in plain words."""
    if state.stage == "as_found" and not state.off:
        return tokens
    texts = [token.text for token in tokens]
    if "top" in texts:
        tokens = _on_top(tokens, texts, state, lexicon)
    return put_plainly(tokens, (_next_comes, _that_is_new), lexicon)


def _on_top(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "… then the cap on top": on."""
    end = len(texts)
    if texts[-2:-1] == ["of"]:
        end -= 2
    named = _name_before(texts, end - 2, lexicon) if texts[end - 2 : end] == ["on", "top"] else None
    if named is None or not all(state.off.get(c) for c in named[2]):
        return tokens
    begin = named[0]
    while begin and texts[begin - 1] in lexicon.positions | _AGES | {"the"}:
        begin -= 1
    within = begin and texts[begin] == "the" and texts[begin - 1] in _WAYS  # "chip on the ring on top"
    opens = not within and (not begin or texts[begin - 1] in _OPENS | _WAYS)
    return tokens[: end - 1] if opens else tokens


def _next_comes(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Ring's in seal next": the seal is none it is in."""
    named = _name_before(texts, len(texts) - 1, lexicon) if texts[-1:] == ["next"] else None
    at = named[0] if named is not None else 0
    if at < 2 or texts[at - 1] not in _WAYS or _name_before(texts, at - 2, lexicon) is None:
        return tokens
    return (
        (*tokens[:at], Token(BREAK, tokens[at].word), *tokens[at:])
        if texts[at - 2] in {"is", "are"}
        else tokens
    )


def _that_is_new(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Top spring in, that's the new one" as "… in, the new one"."""
    cut = [
        at
        for at in range(1, len(texts) - 3)
        if texts[at : at + 2] == ["that", "is"]
        and text_at(texts, at + 3) in _AGES
        and text_at(texts, at + 4) in _ONES
        and text_at(texts, at - 1 - (texts[at - 1] == BREAK)) in _PUT
        and text_at(texts, at + 5) in _ENDS
    ]
    if not cut:
        return tokens
    out: list[Token] = []
    for at, token in enumerate(tokens):
        if at in cut:
            out.append(replace(token, text=BREAK))
        elif at - 1 not in cut:
            out.append(token)
    return tuple(out)


def _name_before(texts: Sequence[str], end: int, lexicon: Lexicon) -> tuple[int, int, tuple[str, ...]] | None:
    """The name of a part that ends at *end*: its first token, *end*, and the parts."""
    words = tuple(texts[: max(end, 0)])
    if end > 0 and texts[end - 1] in {"is", "are"}:
        return _name_before(texts, end - 1, lexicon)
    for begin in range(max(0, end - _NAME), end):
        found = lexicon.match(words, begin) if words[begin] != BREAK else None
        if found is not None and begin + found[0] == end and (found[1].parts or found[1].aliases):
            return begin, end, (*found[1].parts, *found[1].aliases)
    return None
