""" "Bearings are in new ones", "pads in new pair", "float pins old ones": how old it is, behind it. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

_AGES: Final = frozenset({"new", "old"})
_ONES: Final = frozenset({"one", "ones", "pair", "set"})
_WAYS: Final = frozenset({"in", "on", "back"})
_BE: Final = frozenset({"is", "are"})
_DET: Final = frozenset({"a", "the", "its", "their", "his"})
_ENDS: Final = frozenset({"", BREAK, "and", "then", "both", "all", "front", "each", "so", "with", "this"})
_LEADS: Final = frozenset({BREAK, "and", "then", "so", "right", "okay", "now", "the", "both", "all"})
_INTO: Final = frozenset({"in", "on", "into", "onto"})
_NOT_HOW: Final = frozenset(  # "new ones for the left", "new ones needed": wanted, or where they are
    ["", "for", "to", "of", "is", "are", "was", "were", "needed", "wanted", "please", "need", "from", "at",
     "cost", "came", "come", "coming", "here", "there", "ordered", "off", "out", "not", "and", "or", BREAK]
)  # fmt: skip
_TWO: Final = 2
_SHORT: Final = 8  # tokens of a line that is no more than a name and its age


@called_by(_AGES)
def ages_behind(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with "in new ones" behind the part; alone behind a part, it went in."""
    texts, building = tuple([token.text for token in tokens]), state.stage == "as_left"
    row = _aged_row(texts, lexicon) if building or texts.count("old") + texts.count("new") > 1 else ()
    if row:
        return _aged_before([one for one in tokens if one.text != BREAK], row)
    for at in range(1, len(texts)):
        if texts[at] not in _AGES:
            continue
        if building and texts[at - 2 : at - 1] == ("with",) and texts[at - 1] in _DET:
            tokens = _joined(tokens, texts, at, lexicon)
        end = at + 2
        if texts[at + 1 : end] == () or texts[at + 1] not in _ONES or text_at(texts, end) == "of":
            continue
        begin = at - (texts[at - 1] in _DET)
        paused = texts[begin - 1] == BREAK
        begin -= paused
        ones = _ones(tokens, at)
        if texts[begin - 1] in _WAYS and _goes_on_so(texts, begin - 1, end, lexicon):
            if paused:
                return (*tokens[: begin + 1], *ones, *tokens[end:])
            be = begin - 2 if texts[begin - 2] in _BE else begin
            return (*tokens[:be], *tokens[max(be, begin - 1) : begin], *ones, *tokens[end:])
        if building and end == len(texts) <= _SHORT and _is_all(texts[:begin], lexicon):
            word = tokens[begin - 1].word
            return (*tokens[:begin], Token("in", word), Token(BREAK, word), *ones)
        if building and _are_off(texts, begin, state, lexicon) and text_at(texts, end) not in _NOT_HOW:
            return _and_how(tokens, begin, at)
    return tokens


def _are_off(texts: Sequence[str], begin: int, state: Discourse, lexicon: Lexicon) -> bool:
    """True where the name of a part that is off, and no more, stands before *begin*: "seals first"."""
    end = begin - (texts[begin - 1] == "first")
    name = next((i for i in range(end) if texts[i] not in _LEADS), end)
    found = lexicon.match(tuple(texts), name) if name < end and texts[name] != BREAK else None
    if found is None or name + found[0] != end:
        return False
    return any(state.off.get(part, 0) for part in (*found[1].parts, *found[1].aliases))


def _and_how(tokens: tuple[Token, ...], begin: int, at: int) -> tuple[Token, ...]:
    """ "Bearings new ones in both ends", "springs new ones hooks facing in": new, and in there."""
    end = begin - (tokens[begin - 1].text == "first")
    name = next(i for i in range(end) if tokens[i].text not in _LEADS)
    aged = (*tokens[:name], tokens[at], *tokens[name:end])
    if tokens[at + 2].text in _INTO:
        return (*aged, *tokens[at + 2 :])
    word = tokens[at].word
    return (*aged, Token("in", word), Token(BREAK, word), *tokens[at + 2 :])


def _aged_row(texts: Sequence[str], lexicon: Lexicon) -> tuple[int, ...]:
    """Where each age stands in "cylinder on new hose on old": behind each one, to the last."""
    if any(texts[at] in _AGES and texts[at + 1] != BREAK for at in range(len(texts) - 1)) and BREAK in texts:
        return ()
    texts = [text for text in texts if text != BREAK]
    ages = tuple([at for at, text in enumerate(texts) if text in _AGES])
    if not ages or ages[-1] != len(texts) - 1 or (len(ages) == 1 and texts[-1] == "new"):
        return ()
    begin = 0
    for at in ages:
        if at < _TWO or texts[at - 1] not in _WAYS or not _is_all(texts[begin : at - 1], lexicon):
            return ()
        begin = at + 1
    return ages


def _aged_before(tokens: Sequence[Token], ages: Sequence[int]) -> tuple[Token, ...]:
    """ "New cylinder on, old hose on"."""
    out: list[Token] = []
    begin = 0
    for at in ages:
        name = next(i for i in range(begin, at) if tokens[i].text not in _LEADS)
        pause = [Token(BREAK, tokens[begin].word)] if begin else []
        out += [*pause, *tokens[begin:name], tokens[at], *tokens[name:at]]
        begin = at + 1
    return tuple(out)


def _ones(tokens: Sequence[Token], at: int) -> tuple[Token, Token]:
    """ "New pair" as "new ones"."""
    noun = tokens[at + 1]
    return tokens[at], Token("one" if noun.text == "one" else "ones", noun.word)


def _goes_on_so(texts: Sequence[str], way: int, end: int, lexicon: Lexicon) -> bool:
    ends = text_at(texts, end) in _ENDS or text_at(texts, end) in lexicon.positions
    return ends and _is_moved(texts, way, lexicon)


def _is_moved(texts: Sequence[str], way: int, lexicon: Lexicon) -> bool:
    """ "Bearings are in", "pads back in": a part, and no more than "are" between."""
    at = way - 1
    while at > 0 and texts[at] in {"is", "are", "back", "both", "all", "go", "goes", "went"}:
        at -= 1
    return any(_ends_at(texts, start, at + 1, lexicon) for start in range(max(0, at - 3), at + 1))


def _is_all(texts: Sequence[str], lexicon: Lexicon) -> bool:
    """True for the name of one part and no more."""
    at = next((i for i, text in enumerate(texts) if text not in _LEADS), len(texts))
    return at < len(texts) and _ends_at(texts, at, len(texts), lexicon)


def _ends_at(texts: Sequence[str], start: int, end: int, lexicon: Lexicon) -> bool:
    found = lexicon.match(tuple(texts), start) if texts[start] != BREAK else None
    return found is not None and start + found[0] == end and bool(found[1].parts or found[1].aliases)


def _joined(tokens: tuple[Token, ...], texts: Sequence[str], at: int, lexicon: Lexicon) -> tuple[Token, ...]:
    """ "New shoes with the old springs": both went on; only where no more is said."""
    first = next((i for i, text in enumerate(texts) if text not in _LEADS), 0)
    if texts[first] not in _AGES or not _ends_at(texts, first + 1, at - 2, lexicon):
        return tokens
    found = lexicon.match(tuple(texts), at + 1) if at + 1 < len(texts) else None
    end = at + 1 + found[0] if found is not None else 0
    if (
        found is None
        or not (found[1].parts or found[1].aliases)
        or text_at(texts, end) not in {"", BREAK, "on"}
    ):
        return tokens
    return (*tokens[: at - 2], Token("and", tokens[at - 2].word), *tokens[at - 1 :])
