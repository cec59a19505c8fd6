""" "No, scored", "scored I should say", "did I say worn, I meant scored": as "no it is scored". Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.second_thoughts.one_named import last_told
from saywright.understanding.second_thoughts.words import PAUSES, read_turn
from saywright.understanding.statements import ConditionNote
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

_BEHIND: Final = (
    ("rather",), ("i", "should", "say"), ("should", "i", "say"), ("i", "mean"), ("i", "meant"), ("sorry",),
    ("i", "meant", "to", "say"), ("i", "should", "have", "said"), ("more", "like"), (),
)  # fmt: skip
_SAID: Final = (("did", "i", "say"), ("i", "said"), ("i", "keep", "saying"))
_ADJECTIVES: Final = frozenset(
    ["worn", "bent", "torn", "broken", "loose", "stiff", "frozen", "good", "fine", "clear", "free", "tight",
     "straight", "swollen", "burnt", "seized", "hard", "soft", "brittle", "smooth"]
)  # fmt: skip
_DENIED_WHOLE: Final = frozenset({"good", "better", "worse"})
_NOUNS_IN_Y: Final = frozenset({"play", "decay"})


@called_by({"rather", "say", "said", "mean", "meant", "no", "nope", "nah", "sorry", "like", "saying"})
def state_meant(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* as "no it is scored" where they tell only another state than the one told last."""
    said = tuple([one for one in tokens if one.text != BREAK])
    texts = tuple([one.text for one in said])
    if not 1 < len(texts) <= 10 or not state.recent:
        return tokens
    at, turned = read_turn(texts, 0, len(texts))
    if _is_no_state(texts, at):
        return tokens
    at = _behind_said(texts, at, lexicon)
    meant = at > 0 and texts[at - 1] in {"mean", "meant"}
    at += text_at(texts, at) == "or"
    found = lexicon.match(texts, at) if at < len(texts) else None
    if found is None or not found[1].conditions or found[1].parts or found[1].aliases:
        return tokens
    behind = texts[at + found[0] :]
    told = last_told(state)
    last = told[-1] if told else None
    if behind not in _BEHIND or not isinstance(last, ConditionNote) or not last.present:
        return tokens
    if last.condition in found[1].conditions or not (
        behind or meant or (turned and _is_adjective(texts[at]))
    ):
        return tokens
    return (*[replace(said[0], text=word) for word in ("no", "it", "is")], *said[at : at + found[0]])


def _behind_said(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> int:
    """The token behind "did I say worn, I meant"; *at* itself where that is not said."""
    lead = next((lead for lead in _SAID if texts[at : at + len(lead)] == lead), None)
    found = lexicon.match(texts, at + len(lead)) if lead and at + len(lead) < len(texts) else None
    if lead is None or found is None or not found[1].conditions:
        return at
    end = at + len(lead) + found[0]
    while text_at(texts, end) in PAUSES | {"no", "sorry"}:
        end += 1
    meant = text_at(texts, end) == "i" and text_at(texts, end + 1) in {"mean", "meant"}
    return end + 2 if meant else at


def _is_no_state(texts: tuple[str, ...], at: int) -> bool:
    """ "No good", "no better" deny it, "rather rusty" is how much so, and "or rather rusty" another."""
    before = text_at(texts, at - 1)
    if before in {"no", "not"} and text_at(texts, at) in _DENIED_WHOLE:
        return True
    return at == 1 and before == "rather"


def _is_adjective(text: str) -> bool:
    """ "scored", "rusty": behind a no it denies nothing."""
    return text in _ADJECTIVES or text.endswith("ed") or (text.endswith("y") and text not in _NOUNS_IN_Y)
