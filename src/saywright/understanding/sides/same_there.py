"""What is done over again at the other place: "I do the same on the other side and they come out". Pure.

What came off here last comes off there, by its names. And what "it" is taken out of: "I take it out of the
left one" is the left one of what is in hand.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Final

from saywright.understanding.sides.place_meant import side_in_hand
from saywright.understanding.sides.same_as_there import same_as_there
from saywright.understanding.sides.turning import other_side
from saywright.understanding.statements import ActionNote, Movement
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from collections.abc import Sequence

    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_DO: Final = frozenset({"do", "did", "doing", "done"})
_AGAIN: Final = frozenset({"again", "thing", "job"})
_WHERE: Final = frozenset({"on", "to", "with", "for", "at"})
_NOUNS: Final = frozenset({"side", "one", "end", "bank", "wheel", "corner", "carb"})
_THEY: Final = frozenset({"they", "it", "those", "these", "that"})
_COME: Final = frozenset({"come", "comes", "came", "are"})
_AWAY: Final = frozenset({"out", "off", "away"})
_HEAD: Final = frozenset({"the", "now", "and", "so", "then", "well", "right", "okay", BREAK})
_MOVES: Final = frozenset({"comes", "came", "drops", "dropped", "lifts", "lifted", "slides", "falls", "fell"})
_WITH_ITS: Final = frozenset({("with", "its")})
_PAIR: Final = 2  # places
_MUST: Final = frozenset(
    ["i", "we", "must", "have", "need", "needs", "to", "will", "shall", "should", "want", "got", "am",
     "going", "order", "buy"]
)  # fmt: skip
_BUYS: Final = frozenset({"order", "buy"})
_NEEDS: Final = frozenset({"i", "we", "must", "have", "need", "needs", "will", "shall"})  # besides
_ARTICLES: Final = frozenset({"a", "an"})
_TAIL: Final = frozenset({"too", "please", "then"})
_AS_IF: Final = frozenset(
    ["if", "would", "could", "should", "might", "when", "before", "until", "till", "not", "never", "he",
     "she"]
)  # fmt: skip
_TAKES: Final = frozenset(
    ["take", "takes", "took", "taken", "taking", "pull", "pulls", "pulled", "pulling", "lift", "lifts",
     "lifted", "lifting", "draw", "draws", "drew", "drawn", "remove", "removed", "unscrew", "unscrewed",
     "undo", "undid", "undone", "unhook", "unhooked", "prise", "prised", "pried", "tease", "teased",
     "knocked", "slid", "get", "got"]
)  # fmt: skip
_GIVES: Final = frozenset(
    {"put", "puts", "putting", "fit", "fitted", "fitting", "into", "swap", "swapped", "use"}
)
_FROM: Final = (("out", "of"), ("off",), ("from",), ("off", "of"), ("out", "from"))


@called_by({"same"})
def same_there(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the other place and the names of what came off here for "the same" and for "they"."""
    tokens = same_as_there(tokens, lexicon, building=state.stage == "as_left" or any(state.off.values()))
    texts = tuple([token.text for token in tokens])
    at = next((i for i in range(len(texts) - 1) if texts[i] in _DO and "same" in texts[i + 1 : i + 3]), -1)
    told = at >= 0 and _AS_IF.isdisjoint(texts[:at])
    held = side_in_hand(state.hand, lexicon.sheet) if told else None
    if held is None:
        return tokens
    end = texts.index("same", at) + 1
    end += texts[end : end + 1] != () and texts[end] in _AGAIN
    if texts[end + 1 : end + 3] != ("the", "other") or texts[end] not in _WHERE:
        return tokens
    noun = "".join(texts[end + 3 : end + 4])
    place = other_side(lexicon.sheet, held, "end" if noun == "end" else "side") if noun in _NOUNS else None
    tail = _came_off(texts, end + 4)
    names = _came_off_here(state, held, lexicon) if place is not None and tail else []
    if place is None or not names or lexicon.names(texts, tail).conditions:
        return tokens  # "and they come out clean"
    said = ["on", "to", "the", *place.split(), BREAK, *" and ".join(names).split(), "come", "off"]
    return (*(Token(text, tokens[at].word) for text in said), *tokens[tail:])


@called_by({"one"}, beside={"it"})
def out_of_one(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Take the left pilot screw out" for "take it out of the left one", where that is in hand.

    Not where it goes on into the other one, nor "put it off".
    """
    texts = tuple([token.text for token in tokens])
    part = lexicon.sheet.get(state.hand.component) if state.hand is not None else None
    if part is None or not part.stations:
        return tokens
    at = texts.index("it")
    way = next((w for w in _FROM if texts[at + 1 : at + 2 + len(w)] == (*w, "the")), None)
    if not at or texts[at - 1] not in _TAKES or way is None or "one" not in texts[at:]:
        return tokens
    begin, end = at + 2 + len(way), texts.index("one", at)
    if " ".join(texts[begin:end]) not in part.stations or not _GIVES.isdisjoint(texts[end:]):
        return tokens
    named = [Token(text, tokens[at].word) for text in part.names[0].lower().split()]
    return (
        *tokens[:at],
        *tokens[begin - 1 : end],
        *named,
        Token("out", tokens[at + 1].word),
        *tokens[end + 1 :],
    )


def _came_off(texts: tuple[str, ...], at: int) -> int:
    """Index behind "and they come out" at *at*; 0 where it is not said."""
    at += texts[at : at + 1] in {(BREAK,), ("and",)}
    at += texts[at : at + 1] in {("and",), ("so",)}
    said = texts[at : at + 3]
    return at + 3 if len(said) > 2 and said[0] in _THEY and said[1] in _COME and said[2] in _AWAY else 0


def _came_off_here(state: Discourse, held: str, lexicon: Lexicon) -> list[str]:
    """The names of what came off last on the side *held*, in one utterance."""
    for group in reversed(state.recent):
        off = [m for m in group if type(m) is Movement and m.movement == "removed"]
        if off:
            return _names(off, held, lexicon)
    return []


def _names(off: Sequence[Movement], held: str, lexicon: Lexicon) -> list[str]:
    there = [m for m in off if m.which == held and m.component is not None]
    parts = [lexicon.sheet.get(m.component or "") for m in there]
    return [part.names[0].lower() for part in parts if part is not None] if len(there) == len(off) else []


@called_by({"other"})
def other_with_its(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """ "The right pilot screw comes out with its ring" for "the other one", where the left one is in hand."""
    texts = tuple([token.text for token in tokens])
    at = texts.index("other")
    if texts[at + 1 : at + 2] != ("one",) or texts[at + 2 : at + 3] == () or texts[at + 2] not in _MOVES:
        return tokens
    if not _HEAD.issuperset(texts[:at]) or _WITH_ITS.isdisjoint(pairwise(texts)):
        return tokens
    hand = state.hand
    part = lexicon.sheet.get(_owner(state, hand.component)) if hand is not None else None
    here = (hand.which or hand.side) if hand is not None else None
    if part is None or here is None or here not in part.stations or len(part.stations) != _PAIR:
        return tokens
    there = next(place for place in part.stations if place != here)
    named = [Token(text, tokens[at].word) for text in (*there.split(), *part.names[0].lower().split())]
    return (*tokens[:at], *named, *tokens[at + 2 :])


def _owner(state: Discourse, held: str) -> str:
    """What came off first where the part *held* came with it, else that part."""
    for group in reversed(state.recent):
        off = [m.component for m in group if type(m) is Movement and m.movement == "removed"]
        if off:
            return off[0] if held in off and off[0] is not None else held
    return held


@called_by({"for"})
def listed_for(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Order a left float": for "for the left one I must order a float", "for the other one a float".

    Nothing but parts of the sheet may stand behind it: no look, no clean, no bigger screwdriver.
    """
    texts = tuple([token.text for token in tokens])
    at = texts.index("for")
    end = next((i for i in range(at + 2, min(at + 5, len(texts))) if texts[i] in _NOUNS), 0)
    if not _HEAD.issuperset(texts[:at]) or texts[at + 1 : at + 2] != ("the",) or not end:
        return tokens
    place = " ".join(texts[at + 2 : end])
    if place == "other":
        held = _ordered_for(state) or side_in_hand(state.hand, lexicon.sheet)
        place = (other_side(lexicon.sheet, held) if held is not None else None) or ""
    if not any(place in c.stations for c in lexicon.sheet.component):
        return tokens
    begin = end + 1
    while begin < len(texts) and texts[begin] in _MUST:
        begin += 1
    said = frozenset(texts[end + 1 : begin])
    ordered = not _BUYS.isdisjoint(said) or (
        _goes_on(state) and (not said or "need" in said) and said <= _NEEDS
    )
    if not ordered or not _are_parts(texts, begin, lexicon):
        return tokens
    out = [Token("order", tokens[at].word)]
    for token in tokens[begin:]:
        out.append(token)
        if token.text in _ARTICLES:
            out += [Token(text, token.word) for text in place.split()]
    return tuple(out)


def _are_parts(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    """True where "a float and a needle" stands at *at*, of the sheet, and nothing else to the end."""
    while at < len(texts) and texts[at] in _ARTICLES:
        at += 1 + (texts[at + 1 : at + 2] == ("new",))
        named = lexicon.match(texts, at) if at < len(texts) else None
        if named is None or not (named[1].parts or named[1].aliases):
            return False
        at += named[0]
        if _TAIL.issuperset(texts[at:]):
            return True
        while at < len(texts) and texts[at] in {BREAK, "and"}:
            at += 1
    return False


def _goes_on(state: Discourse) -> bool:
    """True where something was ordered in the line before."""
    group = state.recent[-1] if state.recent else ()
    return any(type(s) is ActionNote and s.status == "proposed" and s.action == "order" for s in group)


def _ordered_for(state: Discourse) -> str | None:
    """The place that all that was ordered in the line before is for: the other one is across from it."""
    group = state.recent[-1] if state.recent else ()
    places = {s.which for s in group if type(s) is ActionNote and s.action == "order"}
    return places.pop() if len(places) == 1 else None
