""" "Another two", "and the last pair", "that's the eighth out": how many more of the same moved. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.moved_plainly import is_tail
from saywright.understanding.doings.roundabout import LINKS
from saywright.understanding.numbers.words import COUNTS, ORDINALS, TO_TWELVE
from saywright.understanding.statements import Movement, Remark
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_MORE: Final = frozenset({"another", "more", "last", "final", "other"})
_FELLOWS: Final = frozenset({"mate", "partner", "twin", "fellow", "brother", "sister"})
_TO_GO: Final = frozenset({("to", "go"), ("left",), ("left", "to", "go")})
_SIGNS: Final = _MORE | frozenset(ORDINALS) | _FELLOWS | {"one", "straggler", "make"}
_NUMBERS: Final = COUNTS | {"pair": 2, "couple": 2}
_WAYS: Final = frozenset({"off", "out", "in", "on", "undone", "back"})
_BEHIND: Final = frozenset({BREAK, "now", "then", "too"})
_OPENS: Final = LINKS | {"there", "go", "goes", "that", "is", "now"}
_SHORT: Final = 12  # tokens
_TWO: Final = 2


@called_by(_SIGNS)
def counted_on(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with the part that is counted on, and which way it went."""
    if len(tokens) > _SHORT:
        return tokens
    texts = tuple([token.text for token in tokens])
    tokens = _as_it_comes(tokens, texts)
    at = next((i for i, text in enumerate(texts) if text not in _OPENS), len(texts))
    if "straggler" in texts[1:]:  # "phone rang, sorry, the straggler's off now"
        at = texts.index("straggler") - 1
    if at + 1 >= len(texts):
        return tokens
    if texts[at : at + 2] == ("make", "that"):
        return _still_to_go(tokens, texts, at + 2, state, lexicon)
    moved = _moved_last(state)
    more = _how_many(texts, at, moved)
    if more is None:
        return _the_nth(tokens, texts, at, state, lexicon)
    count, end = more
    part = lexicon.sheet.get(moved.component or "") if moved is not None else None
    if moved is None or part is None or moved.which is not None:
        return tokens
    off = state.off.get(part.id, 0)
    way = "out" if moved.movement == "removed" else "in"
    left = part.count - off if way == "out" else off or part.count - moved.count
    told = text_at(texts, end) in _WAYS
    if texts[at] == "one" and not told:
        return tokens  # "one more and I'm done"
    end += told
    tail = is_tail(texts, end)
    if not 0 < count <= min(left, len(TO_TWELVE)) or not (tail or _BEHIND.issuperset(texts[end:])):
        return tokens
    return (*_told(count, part.names[0], way, tokens[at].word), *(() if tail else tokens[end:]))


def _moved_last(state: Discourse) -> Movement | None:
    """What moved in the breath before, where no more was told there."""
    said = [s for s in state.recent[-1] if not isinstance(s, Remark)] if state.recent else []
    return said[0] if len(said) == 1 and isinstance(said[0], Movement) else None


def _how_many(texts: Sequence[str], at: int, moved: Movement | None) -> tuple[int, int] | None:
    """ "Another two", "two more", "the final pair", "the other half": how many, and the token behind it."""
    if texts[at] == "another" and texts[at + 1] in _NUMBERS:
        return _NUMBERS[texts[at + 1]], at + 2
    if texts[at] in _NUMBERS and texts[at + 1] == "more":
        return _NUMBERS[texts[at]], at + 2
    if texts[at] in {"its", "his", "their"} and texts[at + 1] in _FELLOWS:
        return 1, at + 2  # "now its mate and that's the pair"
    if texts[at : at + 2] == ("the", "straggler"):
        return 1, at + 2 + (text_at(texts, at + 2) == "is")
    if texts[at] != "the" or at + 2 >= len(texts) or texts[at + 1] not in _MORE:
        return None
    if texts[at + 2] == "half":
        return (moved.count, at + 3) if moved is not None and texts[at + 1] == "other" else None
    number = _NUMBERS.get(texts[at + 2], 0)
    return (number, at + 3) if number >= _TWO else None


def _the_nth(tokens: Tokens, texts: Sequence[str], at: int, state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "That's the eighth out": as many more as are off by then."""
    nth = text_at(texts, at + 1)
    end = at + 2 + (text_at(texts, at + 2) == "one")
    if texts[at] != "the" or nth not in ORDINALS or texts[:at][-2:] != ("that", "is"):
        return tokens
    part = lexicon.sheet.get(state.hand.component) if state.hand is not None else None
    if part is None or text_at(texts, end) not in {"out", "off", "undone"} or end + 1 != len(texts):
        return tokens
    number = ORDINALS[nth]
    more = number - state.off.get(part.id, 0)
    if part.positions or not 0 < more <= len(TO_TWELVE) or number > part.count:
        return tokens
    return _told(more, part.names[0], "out", tokens[at].word)


def _still_to_go(tokens: Tokens, texts: Sequence[str], at: int, state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Five out, three to go" / "make that two to go": one more is out, and nothing was told wrong."""
    moved = _moved_last(state)
    part = lexicon.sheet.get(moved.component or "") if moved is not None else None
    left = COUNTS.get(text_at(texts, at), 0)
    if moved is None or part is None or not left or tuple(texts[at + 1 :]) not in _TO_GO | {()}:
        return tokens
    heard = [word for s in state.recent[-1] for word in s.heard.lower().split()]
    before = next(
        (COUNTS.get(a, 0) for a, *b in zip(heard, heard[1:], heard[2:], strict=False) if b == ["to", "go"]), 0
    )
    more = before - left
    way = "out" if moved.movement == "removed" else "in"
    if not 0 < more <= len(TO_TWELVE):
        return tokens
    told = _told(more, part.names[0], way, tokens[0].word)
    return (*told[:-1], Token(way, tokens[-1].word))  # so that "two to go" is in its quote


def _as_it_comes(tokens: Tokens, texts: Sequence[str]) -> Tokens:
    """ "That's one out, two, three and four": out behind the last of them."""
    at = next(
        (i for i in range(len(texts) - 3) if texts[i] == "one" and texts[i + 1] in {"out", "off"}), None
    )
    if at is None or text_at(texts, at + 2) != "two":
        return tokens
    end, number = at + 3, 3
    while end < len(texts) and (texts[end] in {"and", "then"} or texts[end] == _number(number)):
        number += texts[end] == _number(number)
        end += 1
    if (
        number < _TWO + 2
        or text_at(texts, end) in {texts[at + 1], "and"}
        or texts[end - 1] in {"and", "then"}
    ):
        return tokens
    return (*tokens[: at + 1], *tokens[at + 2 : end], tokens[at + 1], *tokens[end:])


def _number(number: int) -> str:
    return TO_TWELVE[number - 1] if number <= len(TO_TWELVE) else ""


def _told(count: int, name: str, way: str, word: int) -> Tokens:
    return tuple([Token(text, word) for text in (TO_TWELVE[count - 1], *name.lower().split(), way)])
