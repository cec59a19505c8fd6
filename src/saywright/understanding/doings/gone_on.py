""" "A new one's gone on there", "new valve gone into the left", "new pair's in now": fitted. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_GONE: Final = frozenset({"gone", "went"})
_BE: Final = frozenset({"is", "are", "has", "have"})
_WAYS: Final = frozenset({"on", "in", "into", "onto"})
_ONES: Final = frozenset({"one", "ones", "pair"})
_ENDS: Final = frozenset({"", BREAK, "and", "now", "there", "already", "too", "then", "as", "so", "but"})
_HERE: Final = frozenset({("that", "side"), ("this", "side"), ("that", "end"), ("this", "end"), ("it", "")})
_THERE: Final = frozenset({"that", "this", "there"})
_BEFORE_NOW: Final = frozenset(  # found so, not put there now
    ["already", "once", "look", "looks", "last", "original", "recently", "lately", "ago", "before",
     "previous"]
)  # fmt: skip
_ASKS: Final = frozenset({"is", "are", "has", "have", "was", "were"})
_NOT_IN: Final = frozenset(  # "if a new one's gone in", "when the new one is on", "a pair of new ones is in"
    ["not", "no", "if", "when", "until", "till", "need", "needs", "want", "wants", "should", "would", "will",
     "before", "once", "order", "where", "which", "like", "than", "he", "she", "they", "said", "says",
     "whether", "of", "unless", "while", "last", "after", "had", "did", "does", "since", "never", "could",
     "as"]
)  # fmt: skip

_LEADS: Final = frozenset({BREAK, "so", "and", "right", "then", "okay", "i", "will", "shall", "not", "just"})


def _and_a_new_one(tokens: Tokens, texts: tuple[str, ...], lexicon: Lexicon) -> Tokens:
    """ "Hone it, new cups", "won't skim it, new drum": what is to be new, behind what is to be done."""
    begin = next((i for i, text in enumerate(texts) if text not in _LEADS), 0)
    verb = lexicon.match(texts, begin)
    it = begin + verb[0] if verb is not None and "base" in [a.form for a in verb[1].acts] else 0
    if not it or text_at(texts, it) not in {"it", "them", "that"}:
        return tokens
    at = it + 1
    while text_at(texts, at) in {BREAK, "and", "then"}:
        at += 1
    at += text_at(texts, at) in {"a", "two"}
    found = lexicon.match(texts, at + 1) if text_at(texts, at) == "new" and at + 1 < len(texts) else None
    if found is None or not (found[1].parts or found[1].aliases) or at + 1 + found[0] < len(texts):
        return tokens
    word = tokens[at].word
    return (*tokens[: it + 1], *(Token(text, word) for text in (BREAK, "replace", "the")), *tokens[at + 1 :])


@called_by({"new"})
def gone_on(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "new one fitted" for "new one's gone on", where no more is told than the side."""
    texts = tuple([token.text for token in tokens])
    if state.stage == "as_found":
        tokens = _and_a_new_one(tokens, texts, lexicon)
    for at in (i for i, text in enumerate(texts) if text == "new"):
        if not _NOT_IN.isdisjoint(texts[:at]) or _asks(texts, at):
            continue
        end = _noun_end(texts, at + 1, lexicon)
        if state.stage == "as_found" and not _may_go_on(texts, at, end, state, lexicon):
            continue
        verb = end
        while end and text_at(texts, verb) in _BE | {"now", "just"}:
            verb += 1
        gone = end > 0 and text_at(texts, verb) in _GONE
        way = verb + gone
        if end and texts[end - 1] == "pair" and not _pair_is_off(state):
            continue  # "drum back on" / "new pair's on there now": of something else
        if not end or (not gone and verb == end) or text_at(texts, way) not in _WAYS:
            continue
        tail = _tail(texts, way + 1, lexicon)
        if tail:
            word = tokens[way].word
            ones = (Token("two", word), tokens[at], Token("ones", word))
            named = ones if texts[end - 1] == "pair" else tokens[at:end]
            begin = at - (text_at(texts, at - 1) in {"a", "the"})
            begin -= text_at(texts, begin - 1) == "so" and begin < at  # "so a new one": no need of one
            side = tokens[way:] if text_at(texts, way + 1) == "the" else tokens[tail:]
            there = _there(state, word) if text_at(texts, way + 1) in _THERE else ()
            return (*tokens[:begin], *named, Token("fitted", word), *there, *_on(side))
    return tokens


def _may_go_on(texts: tuple[str, ...], at: int, end: int, state: Discourse, lexicon: Lexicon) -> bool:
    """True where it came off, is bad or to be bought, or others went on; not "on there already"."""
    if not _BEFORE_NOW.isdisjoint(texts[end:]):
        return False
    ends = (lexicon.match(texts[:end], start) for start in range(at + 1, end) if texts[end - 1] not in _ONES)
    named = next((one[1] for one in ends if one is not None and (one[1].parts or one[1].aliases)), None)
    hand = (state.hand.component,) if state.hand is not None else ()
    parts = (*named.parts, *named.aliases) if named is not None else hand
    faults = {condition.id for condition in lexicon.sheet.condition if not condition.good}
    bad = {c for c, _, what, present in state.seen if present and what in faults}
    bad |= {c for c, _, _ in state.planned}
    went_on = any(s.kind == "movement" and s.stage == "as_left" for group in state.recent for s in group)
    return went_on or any(state.off.get(part, 0) or part in bad for part in parts)


def _pair_is_off(state: Discourse) -> bool:
    """True where two and more of what is in hand came off, so that a pair of it goes on."""
    return state.hand is not None and state.off.get(state.hand.component, 0) > 1


def _there(state: Discourse, word: int) -> Tokens:
    """ "On that side": the one that the talk is of."""
    side = state.hand.side if state.hand is not None else None
    return tuple([Token(text, word) for text in ("on", "the", *side.split())]) if side else ()


def _on(side: Tokens) -> Tokens:
    """ "Into the left": on it."""
    into = side[:1] and side[0].text in {"into", "onto"}
    return (Token("in", side[0].word), *side[1:]) if into else side


def _asks(texts: Sequence[str], at: int) -> bool:
    """ "Is the new one on": asked."""
    begin = at - (text_at(texts, at - 1) in {"a", "the", "that"})
    return text_at(texts, begin - 1) in _ASKS and (begin == 1 or text_at(texts, begin - 2) in {BREAK, "and"})


def _noun_end(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> int:
    """The token behind the part, or "one", that is named at *at*; 0 for none."""
    if text_at(texts, at) in _ONES:
        return at + 1
    while text_at(texts, at) in lexicon.positions:
        at += 1
    found = lexicon.match(texts, at) if text_at(texts, at) not in {"", BREAK} else None
    named = found is not None and (found[1].parts or found[1].aliases)
    return at + found[0] if found is not None and named else 0


def _tail(texts: Sequence[str], at: int, lexicon: Lexicon) -> int:
    """The token from which on more is told, where no more than the side stands between; 0 where more does."""
    if text_at(texts, at) in _ENDS:
        return at + (text_at(texts, at) == "there")
    if (text_at(texts, at), text_at(texts, at + 1)) in _HERE:
        return at + 2
    if text_at(texts, at) != "the" or text_at(texts, at + 1) not in lexicon.positions:
        return 0
    end = at + 2
    while text_at(texts, end) in lexicon.positions | {"one", "side", "end"}:
        end += 1
    return end if text_at(texts, end) in _ENDS else 0
