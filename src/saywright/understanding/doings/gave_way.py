""" "There she goes", "got him", "that did it": what would not come off came off. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.doings.moved_plainly import is_tail
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.statements import ConditionNote, Movement, Statement
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, HESITATIONS, Token

_IT: Final = frozenset({"it", "he", "she", "him", "her", "that", "they", "them"})
_OPENS: Final = frozenset({"there", "here", "out", "off", "up", "away"})
_GOES: Final = frozenset({"goes", "comes", "go", "come", "went", "came"})
_DID: Final = frozenset(
    [("that", "got", "it"), ("that", "did", "it"), ("that", "shifted", "it"), ("that", "moved", "it"),
     ("that", "has", "got", "it"), ("that", "is", "got", "it"), ("that", "has", "done", "it"),
     ("that", "is", "done", "it"), ("that", "did", "the", "trick"), ("it", "let", "go"), ("it", "gave"),
     ("it", "has", "let", "go"), ("it", "has", "given", "in"), ("it", "is", "given", "in"),
     ("it", "gave", "in"),
     ("there", "it", "is", "come"), ("there", "it", "has", "come"), ("it", "has", "come"),
     ("there", "he", "is", "come"), ("it", "has", "given"), ("that", "got", "him"), ("it", "gave", "up")]
)  # fmt: skip
_TAILS: Final = (
    ("in", "the", "end"),
    ("at", "last"),
    ("finally",),
    ("now",),
    ("then",),
    ("at", "long", "last"),
)
_HOW: Final = frozenset(
    {"hook", "pick", "puller", "magnet", "pliers", "grips", "lever", "drift", "screwdriver"}
)
_LEADS: Final = HESITATIONS | {BREAK, "and", "so", "ah", "oh", "yes", "but", "then", "right", "okay"}
_HELD: Final = frozenset(
    ["pig", "sod", "swine", "git", "brute", "nearly off", "nearly out", "hanging on", "bar one",
     "stuck", "seized", "tight", "budge", "budging", "shift", "shifting", "fighting", "stubborn", "moving",
     "jammed", "frozen", "won't", "solid", "come on", "go on", "doesn't want", "wont"]
)  # fmt: skip
_EFFORT: Final = frozenset(
    ["pull", "pulling", "puller", "heat", "heating", "tap", "tapping", "drift", "punch", "prise", "prising",
     "pry", "prying", "peel", "peeling", "wiggle", "wiggling", "twist", "lever", "levering", "air", "press",
     "driving", "drive", "push", "pushing", "knock", "knocking", "grips", "extractor", "hook", "penetrating"]
)  # fmt: skip
_AWAY: Final = frozenset({"out", "off", "in"})
_NO_PART: Final = frozenset(  # what was looked for, or runs: "where's the spanner", "the motor's running"
    ["where", "where's", "wheres", "find", "looking", "lost", "dropped", "running", "runs", "starting"]
)
_CALL: Final = 5  # words of it
_NEAR: Final = 4  # utterances
_LONGEST: Final = 9  # words before it, with which it was got off


@called_by(_IT)
def gave_way(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with "it is out" for a call at their end, where what is in hand was stuck or is worked at."""
    if state.stage != "as_found" or len(tokens) > _LONGEST + _CALL:
        return tokens
    texts = tuple([token.text for token in tokens])
    at = _called(texts)
    if at is None:
        return tokens
    named = [c for i in range(at) for c in (*lexicon.names(texts, i).parts, *lexicon.names(texts, i).aliases)]
    if not (_is_got(texts[:at], named, state, lexicon) if named else _was_held(texts[:at], state, lexicon)):
        return tokens
    word = tokens[at].word
    pause = (Token(BREAK, word),) if at else ()
    return (*tokens[:at], *pause, Token("it", word), Token("is", word), Token("out", tokens[-1].word))


def _called(texts: Sequence[str]) -> int | None:
    """Where the call begins that ends what is said; None without one."""
    end = len(texts)
    for tail in _TAILS:
        if texts[end - len(tail) : end] == tail:
            end -= len(tail)
            break
    told = next((i for i in range(end) if tuple(texts[i : i + 2]) == ("that", "is")), 0)
    if told and is_tail(texts, told):
        end = told  # "… that's the lot"
    elif texts[end - 3 : end - 1] in (("with", "a"), ("with", "the")) and texts[end - 1] in _HOW:
        end -= 3
    elif "in" in texts[-3:] and texts[-1] in {"arms", "hands", "hand"} and "got" in texts:
        end = len(texts) - 1 - list(reversed(texts)).index("got") - 2  # "… I've got it in my arms"
    for at in range(max(0, end - 4), end - 1):
        said = tuple(texts[at:end])
        opened = len(said) == 3 and said[0] in _OPENS and said[1] in _IT and said[2] in _GOES
        got = len(said) == 2 and said[0] == "got" and said[1] in _IT and (at == 0 or texts[at - 1] in _LEADS)
        it = ("it", *said[1:]) if said[0] in {"he", "she"} else said
        if opened or got or it in _DID:
            begin = at
            while begin and texts[begin - 1] in _LEADS:
                begin -= 1
            return begin
    return None


def _is_got(before: Sequence[str], named: Sequence[str], state: Discourse, lexicon: Lexicon) -> bool:
    """ "Puller on the impeller and here she comes": of the part that is worked at in the same breath."""
    parts = [part for part in map(lexicon.sheet.get, named) if part is not None]
    on = any(state.off.get(part.id, 0) < part.count for part in parts)
    worked = not (_EFFORT | _HELD).isdisjoint(before)
    return on and worked and _AWAY.isdisjoint(before)


def _was_held(before: Sequence[str], state: Discourse, lexicon: Lexicon) -> bool:
    return not _tells(state, _NO_PART, 1) and (_held_up(state, lexicon) or _worked_at(before, state, lexicon))


def _held_up(state: Discourse, lexicon: Lexicon) -> bool:
    """True where the part in hand is on, and was told to be stuck."""
    hand = state.hand
    if hand is None or not _is_on(state, lexicon):
        return False
    for said in _last(state, _NEAR):
        if isinstance(said, ConditionNote) and said.component == hand.component:
            stuck = said.present and said.condition in {"seized", "tight", "stuck"}
            if stuck and said.which in {None, hand.which}:
                return True
    return _tells(state, _HELD)


def _worked_at(before: Sequence[str], state: Discourse, lexicon: Lexicon) -> bool:
    """True where the part in hand is on, and something was done to get it off."""
    return _is_on(state, lexicon) and (not _EFFORT.isdisjoint(before) or _tells(state, _EFFORT))


def _is_on(state: Discourse, lexicon: Lexicon) -> bool:
    """True where the part in hand was named just now, and did not come off."""
    hand = state.hand
    part = lexicon.sheet.get(hand.component) if hand is not None else None
    if hand is None or part is None or state.utterances - hand.utterance > _NEAR:
        return False
    gone = [s for s in _last(state, _NEAR) if isinstance(s, Movement) and s.component == hand.component]
    if not part.positions and part.count - state.off.get(part.id, 0) == 1 < part.count:
        return True  # "vanes are out bar one" … "got him": the last of them
    return state.off.get(part.id, 0) < part.count and all(s.which not in {None, hand.which} for s in gone)


def _tells(state: Discourse, words: frozenset[str], utterances: int = 2) -> bool:
    """True where one of *words* was said in the last two utterances, or so many."""
    said = " ".join(s.heard.lower() for s in _last(state, utterances))
    return any(f" {word} " in f" {said} " for word in words)


def _last(state: Discourse, utterances: int) -> Iterator[Statement]:
    for group in state.recent[-utterances:]:
        yield from group
