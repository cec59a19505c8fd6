""" "Left main jet, no, right main jet is blocked", "pilot, sorry, main jet is out": of the last one. Pure.

So too "hang on, it's the pilot jet that's blocked": who pauses and points out the one takes back the other.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import IS
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.second_thoughts.one_named import OneNamed, one_named
from saywright.understanding.second_thoughts.words import IT, PAUSES, read_turn
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, words_of

_CALLS: Final = words_of("no nope nah sorry rather correction mean meant that hang wait actually")
_VERBS: Final = IS | {
    "has",
    "have",
    "had",
    "needs",
    "wants",
    "looks",
    "feels",
    "came",
    "comes",
    "went",
    "goes",
}
_WHICH: Final = frozenset({"that", "which", "what"})


@called_by(_CALLS)
def named_anew(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* without the part that was named by mistake, right before the right one."""
    texts = tuple([token.text for token in tokens])
    first = one_named(texts, 0, lexicon)
    if first is None:
        return _pointed_out(tokens, texts, lexicon)
    at, turned = read_turn(texts, first.end, len(texts))
    second = one_named(texts, at, lexicon) if turned else None
    if second is None or not first.parts or not second.parts:
        return tokens
    rest = [text for text in texts[second.end :] if text != BREAK]
    name = lexicon.match(texts, second.end - 1)
    plural = name is not None and name[1].many
    if not rest or rest[0] not in _VERBS or plural:
        return tokens
    return (*_place_of(tokens, first, second, lexicon), *tokens[second.begin :])


def _place_of(
    tokens: tuple[Token, ...], first: OneNamed, second: OneNamed, lexicon: Lexicon
) -> tuple[Token, ...]:
    """ "Left needle, no, float went in": the place told of the first is that of the second too."""
    spec = lexicon.sheet.get(second.parts[0]) if len(second.parts) == 1 else None
    if second.places or spec is None or " ".join(first.places) not in spec.positions:
        return ()
    return tokens[first.begin : first.begin + len(first.places)]


def _pointed_out(tokens: tuple[Token, ...], texts: tuple[str, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Hang on, it's the pilot jet that's blocked", as behind a no."""
    at, turned = read_turn(texts, 0, len(texts))
    if (
        turned
        or not at
        or texts[0] not in PAUSES - {"so", "then", "well", "oh", "but", "yeah", "yes", "see", "look"}
    ):
        return tokens
    if not (texts[at : at + 1] and texts[at] in IT and texts[at + 1 : at + 2] and texts[at + 1] in IS):
        return tokens
    one = one_named(texts, at + 2, lexicon)
    behind = texts[one.end : one.end + 2] if one is not None else ()
    if len(behind) < 2 or behind[0] not in _WHICH or behind[1] not in _VERBS:
        return tokens
    return (replace(tokens[0], text="no"), *tokens[at:])
