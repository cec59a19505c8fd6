"""Of what a state is asked after or feared: "is the left pad cracked", "afraid it might be torn". Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.fixed import fixed
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.tokens import BREAK, Token

BELIEVED: Final = frozenset(
    ["thought", "afraid", "worried", "feared", "expected", "expecting", "sworn", "reckoned", "wondered",
     "wonder", "wondering"]
)  # fmt: skip
_OPENERS: Final = BELIEVED | frozenset(
    ["i", "we", "you", "was", "were", "am", "is", "are", "has", "have", "had", "does", "do", "did", "could",
     "can", "would", "might", "if", "whether", "half", "hope", "hoping", "well", "so", "now", "oh", "and",
     "he", "she", "they", "customer", "owner", "bloke", "chap", "fella", "lad", "reckons", "says", "said",
     "thinks", "swears", "claims", "told", "for", "a", "moment", "second", "minute", "at", "first",
     "maybe", "perhaps", "suppose", "say", "me", "let", "us", "see", "just", "right", "hm", BREAK]
)  # fmt: skip
_TRAILS: Final = frozenset(
    ["is", "are", "was", "were", "be", "been", "being", "had", "has", "have", "might", "may", "could",
     "would", "must", "gone", "got", "going", "to", "look", "looks", "feel", "feels", "a", "bit", "at", "all",
     "any", "little", "also", "been", "turned", "still", "really", "turns", "turn", "out", "proves", "proved"]
)  # fmt: skip
_SEVERAL: Final = frozenset({"are", "were", "they", "these", "those"})
_POINTS: Final = frozenset({"the", "it", "he", "she", "they", "those", "these", "this", "my", "our", "one"})
_NO_ANSWER: Final = frozenset(
    {"not", "no", "never", "why", "how", "what", "who", "where", "when", "which", "or"}
)
_DO: Final = frozenset({"does", "do", "did"})
_LONGEST: Final = 6  # tokens of what it is asked of


@fixed
class Asked:
    """A state that was asked after."""

    subject: tuple[Token, ...]  # of what; () for what is in hand
    state: tuple[Token, ...]
    several: bool
    believed: bool  # it was thought so or feared; else asked


def asked_of(tokens: tuple[Token, ...], lexicon: Lexicon) -> Asked | None:
    """The one state that *tokens* ask after, and of what; None where it is not as plain as that."""
    tokens = _going_on(tokens, lexicon)
    texts = tuple([token.text for token in tokens])
    if not _NO_ANSWER.isdisjoint(texts):
        return None
    states = list[tuple[int, int]]()
    at = 0
    while at < len(texts):
        found = lexicon.match(texts, at)
        if found is not None and found[1].conditions and not (found[1].parts or found[1].aliases):
            states.append((at, at + found[0]))
        at += found[0] if found is not None else 1
    if len(states) != 1:
        return None
    begin, end = states[0]
    first = 0
    while first < begin and texts[first] in _OPENERS:
        first += 1
    first += first < begin - 1 and texts[first] == "that" and texts[first + 1] in _POINTS
    last = begin
    while last > first and texts[last - 1] in _TRAILS:
        last -= 1
    if last - first > _LONGEST:
        return None
    subject = tokens[first:last]
    named = any(
        lexicon.names(texts, at).parts or lexicon.names(texts, at).aliases for at in range(first, last)
    )
    if subject and not named and not (len(subject) == 1 and subject[0].text in _POINTS | {"that"}):
        return None  # "is the weather dry"
    return Asked(
        subject, tokens[begin:end], not _SEVERAL.isdisjoint(texts[:begin]), not BELIEVED.isdisjoint(texts)
    )


def _going_on(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Does it stick": is it sticking."""
    if not tokens or tokens[0].text not in _DO:
        return tokens
    going = ((token.text + "ing", token.text[:-1] + "ing") for token in tokens)
    said = [next((one for one in two if lexicon.table.get((one,), NOTHING).conditions), "") for two in going]
    return tuple([replace(t, text=word) if word else t for t, word in zip(tokens, said, strict=True)])
