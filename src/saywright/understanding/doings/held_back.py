""" "Push down on it", "pull it tight", "with the hose held up", "goes on the scales": it stays on. Pure."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.only_worked import begin_of, object_at, starts
from saywright.understanding.steps import Calls, Tokens
from saywright.understanding.tokens import BREAK, text_at, words_of

if TYPE_CHECKING:
    from saywright.understanding.lexicon import Lexicon

Rule = Callable[[Tokens, list[str], "Lexicon"], Tokens]


_LEANS: Final = words_of("pull pulled push pushed press pressed bear lean leaned")
_HELD: Final = words_of("pulled pushed held pressed lifted drawn folded")
_WAYS: Final = words_of("up down back in over open shut tight out")
_TIGHT: Final = (
    ("tight",), ("straight",), ("to", "the", "stop"), ("up", "to", "the", "stop"), ("against", "the", "stop"),
    ("hard", "over"), ("back", "to", "the", "stop"),
)  # fmt: skip
_HEADS: Final = frozenset({"", BREAK, "and", "then", "now", "when", "if", "so"})
_ENDS: Final = frozenset({"", BREAK, "and", "so", "for", "while", "then"})
_GOES: Final = words_of("goes going went")
_RESTS: Final = words_of("scales bench vice vise plate lathe blocks glass lamp microscope tester")
_HANDING: Final = words_of("pass hand bring fetch give hold chuck sling get")


def _leant_on(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Push down on the needle", "pull against it"; a cover that is pushed down on its studs is on."""
    for at, text in enumerate(texts):
        if text not in _LEANS or text_at(texts, (begin := begin_of(texts, at)) - 1) not in _HEADS:
            continue
        way = at + 1 + (text_at(texts, at + 1) in {"up", "down"})
        way += text_at(texts, way) == "back" and way == at + 1 and text[:4] == "pull"
        on = {"on", "against"} if way > at + 1 else {"against"}  # "pull on it" is read so already
        if text_at(texts, way) in on and object_at(texts, way + 1, lexicon)[0]:
            return (*tokens[:begin], *tokens[way + 1 :])
    return tokens


def _pulled_tight(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Pull the cable tight", "push it up to the stop": how it is held then, not how it is."""
    for at, text in enumerate(texts):
        end = object_at(texts, at + 1, lexicon)[0] if text in _LEANS else 0
        size = starts(texts, end, _TIGHT) if end else 0
        if size and text_at(texts, end + size) in _ENDS:
            return (*tokens[: begin_of(texts, at)], *tokens[at + 1 : end], *tokens[end + size :])
    return tokens


def _with_it_held(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "With the hose held up": what is told is of the hose, and it is still on."""
    at = texts.index("with")
    end = object_at(texts, at + 1, lexicon)[0]
    way = end + 1
    held = end and text_at(texts, end) in _HELD and text_at(texts, way) in _WAYS - {"out"}
    if not held or text_at(texts, at - 1) not in _HEADS or text_at(texts, way + 1) not in _ENDS:
        return tokens
    return (*tokens[:at], *tokens[at + 1 : end], *tokens[way + 1 :])


def _goes_on_scales(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "The float goes on the scales": it is not fitted there."""
    at = next((i for i in range(1, len(texts) - 3) if texts[i] in _GOES), 0)
    if not at or texts[at + 1] not in {"on", "in", "under"} or texts[at + 2] not in {"the", "my"}:
        return tokens
    end = at + 3 + (text_at(texts, at + 3) in {"vee", "surface", "kitchen"})
    rests = text_at(texts, end) in _RESTS and text_at(texts, end + 1) in _ENDS
    return (*tokens[:at], *tokens[end + 1 :]) if rests else tokens


def _will_you(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Pass the bowl over will you and float height fourteen": what is read behind is no question."""
    at = next((i for i in range(2, len(texts) - 2) if texts[i : i + 3] == ["will", "you", "and"]), 0)
    return (*tokens[:at], *tokens[at + 2 :]) if at and texts[0] in _HANDING else tokens


RULES: Final[Calls[Rule]] = Calls(
    (_leant_on, _LEANS),
    (_pulled_tight, _LEANS),
    (_with_it_held, {"with"}),
    (_goes_on_scales, _GOES),
    (_will_you, {"will"}),
)


def held_back(tokens: Tokens, lexicon: Lexicon) -> Tokens:
    """*tokens* without what tells how a part is held."""
    return RULES.put(tokens, lambda rule, said: rule(said, [token.text for token in said], lexicon))
