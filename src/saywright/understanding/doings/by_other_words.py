""" "Shoes away", "they won't go again": movements and verdicts by other words, as plain ones. Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.move_verbs import plain_forms
from saywright.understanding.doings.roundabout import LINKS, NUMBERS, ended
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_BEFORE: Final = NUMBERS | {"the", "both", "all", "that", "its", "old", "is", "are", "comes", "came"}
_NAME_REACH: Final = 3  # words of a name
_HELPERS: Final = frozenset({"will", "would", "could", "should", "can", "must", "have", "are", "were"})
_VERBS: Final = frozenset(
    {"get", "do", "be", "need", "want", "have", "go", "come", "stay", "been", "getting"}
)
_PRONOUNS: Final = frozenset({"it", "they", "that", "she", "i"})
_LEADS: Final = frozenset({BREAK, "and", "but", "so", "it"})
_BEFORE_TURNS: Final = frozenset(CLASSES) | {"half", "quarter", "quarters", "full", "complete", "whole"}
_LIFTS: Final = frozenset(
    ["lift", "lifted", "lifting", "pull", "pulled", "pulling", "draw", "drew", "slide", "slid", "ease",
     "eased", "take", "took", "come", "comes", "came"]
)  # fmt: skip
_AFTER_IT: Final = frozenset({("after", "it"), ("after", "him"), ("after", "them"), ("after", "that")})
_ENDLESS: Final = frozenset({"is", "are", "was", "look", "looking", "and", "one", "minute", "day", "month"})
VERBS: Final = {verb: form for verb, form in plain_forms().items() if verb not in {"seat", "slot"}}
_SIGNS: Final = VERBS.keys() | {"both", "all", "again", "turns", "after", "way", "away"}
_WAYS: Final = frozenset({("out",), ("off",)})
_OBJECTS: Final = frozenset({("the",), ("both",), ("its",), ("his",), ("that",), ("those",), ("all",)})
_PERSONS: Final = frozenset({"i", "we", "he", "she", "you"})
_ALL_THE_WAY: Final = ("all", "the", "way")
_CLAUSE_ENDS: Final = frozenset({(), (BREAK,), ("and",), ("now",)})
_NEVER: Final = frozenset({"not", "never"})


@called_by(_SIGNS)
def in_plain_words(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with "off" for the "away" of a part, "turned out", "not be reused" for "not go again"."""
    texts = tuple([token.text for token in tokens])
    if "both" in texts or "all" in texts:
        tokens = _before_helper(tokens, texts)
        texts = tuple([token.text for token in tokens])
    if "again" in texts:
        tokens = _not_again(tokens, texts)
    if "turns" in texts:
        tokens = _found_out(tokens, texts, lexicon)
    if "after" in texts:
        tokens = _behind_it(tokens, texts)
    if not VERBS.keys().isdisjoint(texts):
        tokens = _was_done(tokens, lexicon)
    if "way" in texts:
        tokens = _right_out(tokens, lexicon)
        texts = tuple([token.text for token in tokens])
    if "away" not in texts:
        return tokens
    away = {at for at, text in enumerate(texts) if text == "away" and _is_off(texts, at, lexicon)}
    return tuple([replace(t, text="off") if at in away else t for at, t in enumerate(tokens)])


def _right_out(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Both mixture screws all the way out", "and all the way out": out."""
    texts = tuple([token.text for token in tokens])
    at = next((i for i in range(len(texts) - 3) if texts[i : i + 3] == _ALL_THE_WAY), None)
    if at is None or (texts[at + 3],) not in _WAYS or texts[at + 4 : at + 5] not in _CLAUSE_ENDS:
        return tokens
    named = any(
        start + found[0] == at and bool(found[1].parts or found[1].aliases)
        for start in range(max(0, at - _NAME_REACH), at)
        if (found := lexicon.match(texts, start)) is not None
    )
    alone = all(text in {"and", "then", "it", "now"} for text in texts[:at])
    return (*tokens[:at], *tokens[at + 3 :]) if named or alone else tokens


def _behind_it(tokens: tuple[Token, ...], texts: tuple[str, ...]) -> tuple[Token, ...]:
    """ "Plate out and the bearing after it": behind it."""
    behind = {
        at
        for at in range(2, len(texts) - 1)
        if texts[at : at + 2] in _AFTER_IT and ended(texts, at + 2) and texts[at - 1] not in _ENDLESS
    }
    return tuple([replace(t, text="behind") if at in behind else t for at, t in enumerate(tokens)])


def _was_done(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "I drive out the pin", "press off the bearing": a verb that is a noun too; not "clip off the hose"."""
    texts = tuple([token.text for token in tokens])
    done = {
        at: replace(t, text=VERBS[t.text])
        for at, t in enumerate(tokens)
        if t.text in VERBS
        and texts[at + 1 : at + 2] in _WAYS
        and texts[at + 2 : at + 3] in _OBJECTS
        and _is_verb(texts, at, lexicon)
        and lexicon.table.get(texts[at : at + 2], NOTHING) == NOTHING
    }
    return tuple([done.get(at, t) for at, t in enumerate(tokens)]) if done else tokens


def _is_verb(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    if at and texts[at - 1] in _PERSONS:
        return True
    known = lexicon.table.get((texts[at],), NOTHING)
    return (at == 0 or texts[at - 1] in LINKS | {BREAK, "next"}) and not (known.parts or known.aliases)


def _is_off(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    """ "springs away and the drum away": parts and no more, in a clause of their own."""
    if not ended(texts, at + 1):
        return False
    end = at
    while end and texts[end - 1] in {"is", "are", "both", "all"}:
        end -= 1
    starts = range(end - 1, max(-1, end - 1 - _NAME_REACH), -1)
    return any(_opens(texts, i, lexicon) for i in starts if _is_name(texts, i, end, lexicon))


def _opens(texts: tuple[str, ...], begin: int, lexicon: Lexicon) -> bool:
    """True where nothing but which and how many stands before *begin* in its clause."""
    while begin and (texts[begin - 1] in _BEFORE or texts[begin - 1] in lexicon.positions):
        begin -= 1
    before = texts[begin - 1] if begin else BREAK
    return before == BREAK or before in LINKS or before in _LIFTS  # "I lift the caliper away"


def _is_name(texts: tuple[str, ...], start: int, end: int, lexicon: Lexicon) -> bool:
    found = lexicon.match(texts[:end], start) if texts[start] else None
    return found is not None and start + found[0] == end and bool(found[1].parts or found[1].aliases)


def _before_helper(tokens: tuple[Token, ...], texts: tuple[str, ...]) -> tuple[Token, ...]:
    """ "They'll both get changed", "bearings could both do with it": both of them, said before the helper."""
    for at in range(2, len(texts) - 1):
        if texts[at] in {"both", "all"} and texts[at - 1] in _HELPERS and texts[at + 1] in _VERBS:
            begin = at - 1 - (texts[at - 2] == "they")  # "both will get changed"
            return (*tokens[:begin], tokens[at], tokens[at - 1], *tokens[at + 1 :])
    return tokens


def _found_out(tokens: tuple[Token, ...], texts: tuple[str, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "I thought it was cracked, turns out it's fine": nothing came out. But "three turns out it was"."""
    unread = not lexicon.table.get(("turns", "out"), NOTHING).characteristics
    found = {
        at
        for at in range(len(texts) - 2)
        if texts[at : at + 2] == ("turns", "out")
        and texts[at + 2] in _PRONOUNS
        and (at == 0 or texts[at - 1] in _LEADS or (unread and texts[at - 1] not in _BEFORE_TURNS))
    }
    return tuple([replace(t, text="turned") if at in found else t for at, t in enumerate(tokens)])


def _not_again(tokens: tuple[Token, ...], texts: tuple[str, ...]) -> tuple[Token, ...]:
    """ "They'll not go again", "those never go again"; "let's go again" is another try."""
    at = next((i for i in range(1, len(texts) - 1) if texts[i : i + 2] == ("go", "again")), None)
    if at is None or texts[at - 1] not in _NEVER or "us" in texts[:at] or not ended(texts, at + 2):
        return tokens
    be, reused = replace(tokens[at], text="be"), replace(tokens[at + 1], text="reused")
    return (*tokens[:at], be, reused, *tokens[at + 2 :])
