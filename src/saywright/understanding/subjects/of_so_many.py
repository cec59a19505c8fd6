""" "None of the four is worn", "a couple of them are rusty", "one of them is worn, the left one". Pure.

In plain words: "none of them is worn", "two of them are rusty", "the left one is worn".
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import IS
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.words import CLASSES, TO_TWELVE
from saywright.understanding.second_thoughts.one_named import one_named
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

_SOME: Final = frozenset({"one", "none", "neither", *TO_TWELVE})
_VERBS: Final = IS | {
    "has",
    "have",
    "had",
    "looks",
    "look",
    "feels",
    "feel",
    "seems",
    "seem",
    "wants",
    "want",
    "needs",
    "need",
}
_BEHIND: Final = frozenset({"badly", "through", "slightly", "completely", "out", "off", "in"})
_THEM: Final = frozenset({"them", "these", "those"})


@called_by({"none", "couple", "one"})
def of_so_many(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with "of them" for "of the four", and with the one that is told behind."""
    tokens = _couple(_of_them(tokens))
    return _told_behind(tokens, lexicon)


def _of_them(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """ "One of the four is …", "not one of them is …", as "one of them", "none of them"."""
    texts = tuple([one.text for one in tokens])
    for at in range(len(texts) - 2):
        if texts[at] not in _SOME or texts[at + 1] != "of":
            continue
        many = (
            texts[at + 2] == "the"
            and text_at(texts, at + 3) in TO_TWELVE
            and text_at(texts, at + 4) in _VERBS
        )
        if many:
            tokens = (*tokens[: at + 2], replace(tokens[at + 2], text="them"), *tokens[at + 4 :])
        if texts[at] == "one" and text_at(texts, at - 1) == "not" and (many or texts[at + 2] in _THEM):
            tokens = (*tokens[: at - 1], replace(tokens[at], text="none"), *tokens[at + 1 :])
        if many:
            break
    return tokens


def _couple(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """ "A couple of them are …", as "two of them"."""
    texts = tuple([one.text for one in tokens])
    if "couple" not in texts:
        return tokens
    at = texts.index("couple")
    begin = at - (text_at(texts, at - 1) == "a")
    of_them = text_at(texts, at + 1) == "of" and text_at(texts, at + 2) in _THEM
    if not of_them and text_at(texts, at + 1) not in IS:
        return tokens
    return (*tokens[:begin], replace(tokens[at], text="two"), *tokens[at + 1 :])


def _ends_state(texts: tuple[str, ...], begin: int, end: int, lexicon: Lexicon) -> bool:
    """Whether a state or a number ends before token *end*; not in "thinner than the left", "not the left"."""
    if (
        text_at(texts, end - 1) in CLASSES
        or text_at(texts, end - 1) in lexicon.units
        or texts[end - 1] in _BEHIND
    ):
        return True
    for at in range(begin, end):
        found = lexicon.match(texts, at) if texts[at] != BREAK else None
        if found is not None and at + found[0] == end:
            return bool(found[1].conditions)
    return False


def _told_behind(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "One of them is worn, the left one", as "the left one is worn"."""
    texts = tuple([one.text for one in tokens])
    if texts[:1] != ("one",) or texts[1:2] != ("of",):
        return tokens
    verb = next((i for i in range(2, len(texts)) if texts[i] in IS), None)
    if verb is None:
        return tokens
    named = one_named(texts, 2, lexicon)
    if not (
        texts[2:verb] in {(word,) for word in _THEM}
        or (named is not None and named.end == verb and named.parts)
    ):
        return tokens
    for at in range(verb + 2, len(texts)):
        behind = one_named(texts, at, lexicon) if texts[at] == "the" or texts[at - 1] == BREAK else None
        if behind is None or behind.end != len(texts) or not behind.only_places or behind.other:
            continue
        if not _ends_state(texts, verb + 1, at - (texts[at - 1] == BREAK), lexicon):
            continue
        of = (*tokens[2:verb], replace(tokens[at], text=BREAK)) if named is not None and named.parts else ()
        state = tokens[verb : at - (texts[at - 1] == BREAK)]
        one = () if texts[-1] == "one" else (replace(tokens[-1], text="one"),)
        return (*of, replace(tokens[at], text="the"), *tokens[behind.begin :], *one, *state)
    return tokens
