"""A question that the speaker answers himself: "would I bother, I would not", "is it bent, no". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

_ASKS: Final = frozenset({"would", "should", "will", "shall", "do", "am"})
_ANSWERS: Final = _ASKS | {"not"}
_BETWEEN: Final = frozenset({BREAK, "no", "yes", "yeah", "nope", "yep"})
_OPENS: Final = 3  # tokens before the question: "now then so"
_FEWEST: Final = 5  # "would I replace it I would"
_BE: Final = frozenset({"is", "are", "was", "were"})
_IT: Final = frozenset({"it", "they", "that", "this", "she", "he"})
_NO: Final = frozenset({"no", "nope", "nah"})
_YES: Final = frozenset({"yes", "yeah", "yep", "yup"})
_THE: Final = frozenset({"the", "this", "that"})
_AT_ALL: Final = frozenset({"at", "all", "anywhere", BREAK})
_GOES_ON: Final = frozenset(
    {"good", "doubt", "wonder", "more", "worse", "less", "idea", "use", "better", "telling", "matter"}
)
_UNKNOWN: Final = frozenset({"idea", "telling"})
_PERHAPS: Final = frozenset({"probably", "maybe", "possibly", "perhaps", "i"})
_IS_INSTEAD: Final = frozenset({"not", "just", "only", "fine", "good", "all", "okay", BREAK})
_NO_ANSWER: Final = frozenset(
    ["or", "you", "do", "last", "ask", "tell", "guess", "leave", "look", "come", "wait", "hang", "hold",
     "try", "let", "give", "get", "go", "put", "see", "have", "i", "we", "certain", "sure", "who", "what"]
)  # fmt: skip
_NOT_KNOWN: Final = frozenset({"sure", "certain", "that", "yet", "the", "really", "this", "now", "today"})
_LEADS: Final = frozenset({"", BREAK, "so", "now", "and", "well", "right", "hang"})
_STATE: Final = 2  # words of a state


@called_by(_ANSWERS)
def as_answered(tokens: tuple[Token, ...], _: Discourse, __: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the answer in the place of the question: "I would not bother with a new one"."""
    if len(tokens) < _FEWEST or tokens[-1].text not in _ANSWERS:
        return tokens
    texts = [token.text for token in tokens]
    asked = next((at for at in range(_OPENS + 1) if texts[at] in _ASKS and texts[at + 1] == "i"), None)
    if asked is None:
        return tokens
    end = len(texts) - 2 - (texts[-1] == "not")
    if texts[end : end + 2] != ["i", texts[asked]] or end <= asked + 2:
        return tokens
    last = end
    while last > asked + 2 and texts[last - 1] in _BETWEEN:
        last -= 1
    return (*tokens[:asked], *tokens[end:], *tokens[asked + 2 : last])


@called_by(_NO | _YES)
def states_answered(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Bent is it, no", "is the seal cracked, nope", "is it worn, yes": how it was found to be."""
    texts = [token.text for token in tokens]
    if _BE.isdisjoint(texts):
        return tokens
    for at in range(1, len(texts)):
        if texts[at] not in _NO | _YES:
            continue
        end = at
        while end and texts[end - 1] in _AT_ALL:
            end -= 1
        tag = _tag(texts, end, lexicon)
        asked = tag or _question(texts, end, lexicon)
        if asked is None or not (tag or text_at(texts, at + 1) not in _IT):
            continue
        begin, subject, state = asked
        if not _is_answer(texts, at):
            if not tag or text_at(texts, at + 1) not in _UNKNOWN:
                continue
            return (  # "cracked is it, no idea": a question
                *tokens[:begin],
                *tokens[state.stop : end],
                *tokens[begin : state.stop],
                *tokens[at:],
            )
        words = [*(tokens[i] for i in subject), *([replace(tokens[at], text="is")] if subject else [])]
        words += [replace(tokens[at], text="not")] if texts[at] in _NO else []
        border = replace(tokens[at], text=BREAK)
        return (*tokens[:begin], *words, *(tokens[i] for i in state), border, *tokens[at + 1 :])
    return tokens


def _tag(texts: Sequence[str], end: int, lexicon: Lexicon) -> tuple[int, range, range] | None:
    """ "Bent is it": where it begins, its subject, where one is named, and its state."""
    if end < len(("bent", "is", "it")) or texts[end - 2] not in _BE or texts[end - 1] not in _IT:
        return None
    begin = _state_before(texts, end - 2, lexicon)
    return (begin, range(0), range(begin, end - 2)) if begin is not None and _opens(texts, begin) else None


def _question(texts: Sequence[str], end: int, lexicon: Lexicon) -> tuple[int, range, range] | None:
    """ "Is it bent", "are the pads glazed": the same."""
    state = _state_before(texts, end, lexicon)
    asked = next((i for i in range(state - 1, -1, -1) if texts[i] in _BE), None) if state else None
    if state is None or asked is None or not _opens(texts, asked):
        return None
    if _is_named(texts, asked + 1, state, lexicon) or (texts[asked + 1] in _IT and state == asked + 2):
        return asked, range(asked + 1, state), range(state, end)
    return None


def _is_named(texts: Sequence[str], begin: int, end: int, lexicon: Lexicon) -> bool:
    """True where no more than a part and its place is named: "the seal", "stage two piston"."""
    for at in range(begin, end):
        found = lexicon.match(tuple(texts[:end]), at) if texts[at] != BREAK else None
        if found is not None and (found[1].parts or found[1].aliases) and at + found[0] == end:
            return True
        if texts[at] not in lexicon.positions | lexicon.station_words | CLASSES.keys() | _THE:
            return False
    return False


def _opens(texts: Sequence[str], at: int) -> bool:
    return (texts[at - 1] if at else "") in _LEADS


def _state_before(texts: Sequence[str], end: int, lexicon: Lexicon) -> int | None:
    """Where the state begins that ends at *end*."""
    for begin in range(max(0, end - _STATE), end):
        found = lexicon.match(tuple(texts[:end]), begin) if texts[begin] not in {"", BREAK} else None
        if found is not None and begin + found[0] == end and found[1].conditions:
            return begin
    return None


def _is_answer(texts: Sequence[str], at: int) -> bool:
    """ "No", "no, it's fine", "no, just dirty"; not "no good", "no idea", "yes or no", "no you tell me"."""
    first = at + 1
    while text_at(texts, first) == BREAK:
        first += 1
    said = text_at(texts, first)
    if said in _NO_ANSWER or (said == "not" and text_at(texts, first + 1) in _NOT_KNOWN):
        return False
    if texts[at] in _YES:
        return text_at(texts, at + 1) not in _PERHAPS
    behind = tuple(texts[at + 1 : at + 4])
    if behind[:1] and behind[0] in _IT:
        return len(behind) > 2 and behind[1] in _BE and behind[2] in _IS_INSTEAD
    return not behind or behind[0] not in _GOES_ON
