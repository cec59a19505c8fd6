"""Tails of short rows: the order they came in, the last that comes, the one of them that is new. Pure.

"Springs off, top one first then the bottom one", "circlip, piston and here come the cups", "outlets the same
but it's the middle that's new", "pad in, that's the new one".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import NUMBERS, put_plainly
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
_COMES: Final = (("here", "come"), ("here", "comes"))
_NAME: Final = 4  # words


@called_by({"first", "ones"})
def in_turn(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Springs off, the top one first then the bottom" as "springs off": in which order, and no fewer."""
    return put_plainly(tokens, (_order_told, _ones_at_places), lexicon)


def _order_told(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    at = texts.index("first") if "first" in texts else 0
    begin = at - (text_at(texts, at - 1) in _ONES) - 1
    first, second = text_at(texts, begin), [text for text in texts[at + 1 :] if text not in _JOINS | _ONES]
    while begin and texts[begin - 1] in {BREAK, "the"}:
        begin -= 1
    named = _name_before(texts, begin - 1, lexicon) if text_at(texts, begin - 1) in _WAYS else None
    if named is None or len(second) != 1 or "then" not in texts[at:] or not texts[named[1] - 1].endswith("s"):
        return tokens
    parts = [lexicon.sheet.get(c) for c in named[2]]
    places = {lexicon.other_places.get(word, word) for word in (first, second[0])}
    told = all(p is not None and p.has_places((place,)) for p in parts for place in places)
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


@called_by({"old", "new"})
def rest_and_one(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
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


@called_by({"come", "comes"})
def row_that_comes(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Circlip, piston and here come the cups": each came out, while things come apart."""
    texts = tuple([token.text for token in tokens])
    at = next((i for i in range(1, len(texts) - 2) if texts[i : i + 2] in _COMES), 0)
    if not at or state.stage != "as_found":
        return tokens
    row, last = _names(texts[:at], lexicon), _names(texts[at + 2 :], lexicon)
    if not row or last is None:
        return tokens
    noun = () if last and last[-1][1] > last[-1][0] else row[-1]
    behind = tokens[at + 2 :] if not noun else (*tokens[at + 2 :], *tokens[noun[0] : noun[1]])
    out: list[Token] = []
    for begin, end in row:
        start = begin
        while start and (texts[start - 1] in lexicon.positions or texts[start - 1] in lexicon.other_places):
            start -= 1
        out += [*tokens[start:end], *(Token(word, tokens[end - 1].word) for word in ("out", BREAK))]
    return (*out, *behind, Token("out", tokens[-1].word))


def _names(texts: tuple[str, ...], lexicon: Lexicon) -> list[tuple[int, int]] | None:
    """The names of parts that *texts* consist of; None where more is said."""
    found: list[tuple[int, int]] = []
    at = 0
    while at < len(texts):
        named = lexicon.match(texts, at) if texts[at] != BREAK else None
        if named is not None and (named[1].parts or named[1].aliases):
            found.append((at, at + named[0]))
            at += named[0]
        elif texts[at] in _OPENS | lexicon.positions | _ONES or texts[at] in lexicon.other_places:
            at += 1
        else:
            return None
    return found


@called_by({"same"})
def same_but_one(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
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


@called_by({"top", "next", "is"})
def short_tails(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
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
