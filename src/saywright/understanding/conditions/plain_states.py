"""How a part is, by words that say it in a roundabout way: "won't seal", "outer's the worn one". Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

_HELPS: Final = frozenset({"will", "would", "does", "do", "did", "can", "could"})
_JUST: Final = frozenset({"even", "just", "quite", "really", "properly"})
_PERSONS: Final = frozenset({"i", "we", "you"})
_ONLY_IF: Final = frozenset({"if", "unless", "without", "until", "till"})
_REFUSES: Final = frozenset({"refuses", "refused", "refuse", "fails", "failed"})
_IS: Final = frozenset({"is", "are", "was", "were"})
_ENDS: Final = frozenset({"", BREAK, "and", "but", "so", "of", "then"})
_GOOD: Final = frozenset({"good", "fine", "okay", "ok", "alright", "perfect"})
_SHORTEST: Final = 3  # letters of a verb
_AS_WELL: Final = frozenset(
    {("might", "as", "well", "be"), ("may", "as", "well", "be"), ("might", "just", "as", "well", "be")}
)


@called_by({"not", "new", "one", "ones", "still", *_REFUSES})
def plain_states(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the plain words for the state that they tell."""
    said = {token.text for token in tokens}
    if "not" in said and not _HELPS.isdisjoint(said) and _ONLY_IF.isdisjoint(said):
        tokens = _does_not(tokens, lexicon)
    if not _REFUSES.isdisjoint(said) and _ONLY_IF.isdisjoint(said):
        tokens = _refuses(tokens, lexicon)
    if "new" in said:
        tokens = _as_new(tokens)
    if "still" in said:
        tokens = _still_good(tokens)
    return _the_worn_one(tokens, lexicon) if "one" in said or "ones" in said else tokens


def _texts(tokens: tuple[Token, ...]) -> tuple[str, ...]:
    return tuple([token.text for token in tokens])


def _does_not(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "The needle won't seal", "does not hold pressure": it never does."""
    texts = _texts(tokens)
    for at in range(1, len(texts) - 1):
        if texts[at] != "not" or texts[at - 1] not in _HELPS or text_at(texts, at - 2) in _PERSONS:
            continue
        known = lexicon.match(texts, at - 1)
        if known is not None and known[1].conditions:
            continue  # "will not turn"
        verb = at + 1
        while text_at(texts, verb) in _JUST:
            verb += 1
        words = _never(texts, verb, lexicon)
        if words:
            told = [replace(tokens[verb], text=word) for word in words]
            return (*tokens[: at - 1], *told, *tokens[verb + 1 :])
    return tokens


def _refuses(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "It refuses to seal": it never seals."""
    texts = _texts(tokens)
    for at in range(1, len(texts) - 2):
        if texts[at] in _REFUSES and texts[at + 1] == "to" and texts[at - 1] not in _PERSONS:
            words = _never(texts, at + 2, lexicon)
            if words:
                told = [replace(tokens[at + 2], text=word) for word in words]
                return (*tokens[:at], *told, *tokens[at + 3 :])
    return tokens


def _never(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> tuple[str, ...]:
    """That what the verb at *at* tells is not so, where that is a good state: "never seals"; else ()."""
    verb = text_at(texts, at)
    if len(verb) < _SHORTEST or not verb.isalpha():
        return ()
    for words in (("never", verb + "s"), ("is", "not", verb + "ing")):
        found = lexicon.match((words[-1], *texts[at + 1 : at + 4]), 0)
        if found is None or not found[1].conditions or found[1].parts or found[1].acts:
            continue
        spec = lexicon.sheet.get_condition(found[1].conditions[-1])
        if spec is not None and spec.good:
            return words
    return ()


def _as_new(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """ "Might as well be new", "looks new": like new."""
    texts = _texts(tokens)
    for at in range(1, len(texts)):
        if texts[at] != "new" or text_at(texts, at + 1) not in _ENDS:
            continue
        begin = next((at - n for n in (5, 4) if texts[at - n : at] in _AS_WELL), 0)
        if not begin and texts[at - 1] in {"looks", "look"}:
            begin = at - 1
        if not begin and texts[at - 2 : at] in {("looks", "like"), ("look", "like")}:
            begin = at - 2
        if begin:
            words = [replace(tokens[begin], text=word) for word in ("is", "like")]
            return (*tokens[:begin], *words, *tokens[at:])
    return tokens


def _still_good(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """ "So that's still good": it is good."""
    texts = _texts(tokens)
    for at in range(1, len(texts) - 1):
        if texts[at] == "still" and texts[at - 1] in _IS and texts[at + 1] in _GOOD:
            return (*tokens[:at], *tokens[at + 1 :])
    return tokens


def _the_worn_one(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Outer's the worn one": the outer is worn."""
    texts = _texts(tokens)
    for at in range(1, len(texts) - 3):
        if texts[at] not in _IS or texts[at + 1] != "the":
            continue
        found = lexicon.match(texts, at + 2)
        end = at + 2 + (found[0] if found is not None else 0)
        told = found is not None and bool(found[1].conditions) and not found[1].parts
        if told and text_at(texts, end) in {"one", "ones"} and text_at(texts, end + 1) in _ENDS:
            return (*tokens[: at + 1], *tokens[at + 2 : end], *tokens[end + 1 :])
    return tokens
