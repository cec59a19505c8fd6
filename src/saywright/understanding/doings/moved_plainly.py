""" "Now it is", "it's drawn", "out you come, that's the valve": movements, in plain words. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import LINKS, NUMBERS, put_plainly
from saywright.understanding.statements import Remark
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_NOW: Final = frozenset(
    [("now", "it", "is"), ("it", "is", "now"), ("now", "they", "are"), ("they", "are", "now"),
     ("there", "it", "is", "now"), ("now", "he", "is"), ("and", "now", "it", "is")]
)  # fmt: skip
_NOT_MOVED: Final = frozenset({"not moved", "not yet moved"})
_WAYS: Final = ("out", "off", "in", "on")
_IT: Final = frozenset({"it", "they", "he", "she", "that"})
_OUT: Final = frozenset({"drawn", "pulled", "winkled", "hooked", "fished", "drifted"})
_LED: Final = frozenset({"right", "there", "and", "so", "okay", "now", BREAK, "well", "oh"})
_COME: Final = frozenset({"come", "comes", "go", "goes", "pop", "slide"})
_OFF_YOU_GO: Final = ("off", "you", "go")  # said to a person
_BE: Final = frozenset({"is", "has", "are", "have"})
_HOLES: Final = frozenset({"hole", "bore", "slot", "recess", "pocket", "housing", "groove"})
_ENDS: Final = frozenset({"", BREAK, "and", "now", "too", "as", "again"})
_STILL: Final = frozenset({"the", "on", "at", "now", "again"})
_PUT: Final = frozenset({"and", BREAK, "on", "at"})  # what stands behind "four new vanes gone in"
_BESIDE: Final = (("alongside", "them"), ("beside", "them"), ("next", "to", "them"), ("alongside",))


@called_by({"now", "drawn", *_OUT})
def moved_now(tokens: Tokens, state: Discourse, _: Lexicon) -> Tokens:
    """ "Key's not back in yet" / "now it is": it went in; "right, it's drawn": it is out."""
    texts = tuple([token.text for token in tokens])
    begin = 0
    while begin < len(texts) and texts[begin] in _LED - {"now", "there"}:
        begin += 1
    if texts[begin:] in _NOW or texts in _NOW:
        way = _not_yet(state)
        said = ("they", "are") if {"they", "are"} <= {*texts} else ("it", "is")
        words = (*said, *way)
        return tuple(Token(word, tokens[-1].word) for word in words) if way else tokens
    if len(texts) > 1 and texts[-1] in _OUT and texts[-2] in _BE and text_at(texts, -3 + len(texts)) in _IT:
        return (*tokens[:-1], Token("out", tokens[-1].word))
    return tokens


def _not_yet(state: Discourse) -> tuple[str, ...]:
    """The way that the last utterance said nothing had gone yet; () where it said nothing of the kind."""
    last = [s for s in (state.recent[-1] if state.recent else ()) if isinstance(s, Remark)]
    heard = next((s.heard.lower().split() for s in last if s.reason in _NOT_MOVED), [])
    at = next((i for i, word in enumerate(heard) if word in {"not", "yet"} or word.endswith("n't")), 0)
    way = next((word for word in heard[at:] if word in _WAYS), "")
    return (("back", way) if "back" in heard else (way,)) if way else ()


@called_by({"everything", "you", "again", "alongside", "beside", "them", *_HOLES})
def moved_plainly(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "out", "in" and "came off" for such words."""
    tokens = put_plainly(tokens, (_everything, _out_you_come, _came_again, _alongside), lexicon)
    return _in_its_hole(tokens, [token.text for token in tokens], state, lexicon)


def _everything(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Everything's back on the right, that's two shoes and the drum": those are on, there."""
    at = next((i for i, text in enumerate(texts) if text == "everything"), -1)
    told = next((i for i in range(at + 3, len(texts) - 2) if texts[i : i + 2] == ["that", "is"]), 0)
    if at < 0 or text_at(texts, at + 1) not in _BE or not told:
        return tokens
    between = [text for text in texts[at + 2 : told] if text != BREAK]
    way = next((i for i, text in enumerate(between) if text in _WAYS), -1)
    place = [text for text in between[way + 1 :] if text not in _STILL]
    told_where = {*place} <= lexicon.positions | {"side", "end", "hand"}
    if way < 0 or not {*between[:way]} <= {"back", "all"} or not told_where:
        return tokens  # "everything's on the bench, that's …", "everything's in stock"
    side = ("on", "the", *place, BREAK) if place else ()
    words = ("are", *(["back"] if "back" in between[:way] else []), between[way])
    put = [[Token(word, tokens[told - 1].word) for word in some] for some in (side, words)]
    return (*tokens[:at], *put[0], *tokens[told + 2 :], *put[1])


def _out_you_come(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Out you come my lovely, that's the relief valve": it is out."""
    at = next((i for i, text in enumerate(texts[:2]) if text in _WAYS), -1)
    if (
        at < 0
        or text_at(texts, at + 1) not in {"you", "he", "she", "it"}
        or text_at(texts, at + 2) not in _COME
    ):
        return tokens
    told = next((i for i in range(at + 3, len(texts) - 2) if texts[i : i + 2] == ["that", "is"]), 0)
    if not told or "and" in texts[at:told] or tuple(texts[at : at + 3]) == _OFF_YOU_GO:
        return tokens
    begin = told + 2 + (texts[told + 2] in {"the", "a"})
    found = lexicon.match(tuple(texts), begin) if begin < len(texts) else None
    named = found is not None and bool(found[1].parts or found[1].aliases)
    ends = found is not None and text_at(texts, begin + found[0]) in _ENDS
    return (*tokens[told + 2 :], tokens[at]) if named and ends else tokens


def _came_again(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "The cover's had to come off again": it came off."""
    at = next((i for i in range(1, len(texts) - 3) if texts[i : i + 2] == ["had", "to"]), 0)
    if not at or texts[at + 2] not in {"come", "go"} or texts[at + 3] not in {*_WAYS, "back"}:
        return tokens
    begin = at - (texts[at - 1] in _BE)
    return (*tokens[:begin], Token("came", tokens[at].word), *tokens[at + 3 :])


def _in_its_hole(tokens: Tokens, texts: Sequence[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "That new one's in its hole": it is in; not of what was never off."""
    for at in range(1, len(texts) - 2):
        led = texts[at] == "in" and texts[at - 1] in _BE and texts[at + 1] in {"its", "his", "their"}
        if not led or texts[at + 2].removesuffix("s") not in _HOLES or text_at(texts, at + 3) not in _ENDS:
            continue
        named = (c for i in range(at) for c in lexicon.names(tuple(texts), i).parts)
        if "new" in texts[:at] or any(state.off.get(c) for c in named):
            return (*tokens[: at + 1], *tokens[at + 3 :])
    return tokens


def _alongside(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Four new vanes gone in and four of the old ones alongside them": those went in too."""
    tail = next((t for t in _BESIDE if tuple(texts[-len(t) :]) == t), None)
    head = texts[: -len(tail)] if tail is not None else []
    at = len(head) - 1 - head[::-1].index("and") if "and" in head else 0
    way = next((head[i] for i in range(at) if head[i] in {"in", "on"} and head[i + 1] in _PUT), "")
    if (
        tail is None
        or not way
        or NUMBERS.isdisjoint(head[at + 1 :])
        or not {"in", "on"}.isdisjoint(head[at:])
    ):
        return tokens
    return (*tokens[: len(head)], Token(way, tokens[-1].word))


def is_tail(texts: Sequence[str], at: int) -> bool:
    """ "… so that's them all home", "and that's the pair": no more is told from *at* on."""
    rest = [text for text in texts[at:] if text not in LINKS and text != BREAK]
    if rest[:2] != ["that", "is"]:
        return not rest
    return {*rest[2:]} <= {
        "them",
        "the",
        "all",
        "lot",
        "pair",
        "both",
        "set",
        "of",
        "done",
        "home",
        "in",
        "out",
        "off",
    }
