""" "Pads all round, new, four of them", "discs both old": how old all are, put before them. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import LINKS
from saywright.understanding.numbers.words import TO_TWELVE
from saywright.understanding.statements import Movement
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_AGES: Final = frozenset({"new", "old"})
_NUMBERS: Final = frozenset(TO_TWELVE)
_ONES: Final = frozenset({"one", "ones"})
_ALL: Final = frozenset({"all", "both", "ones", "of"})
_TOLD: Final = (
    frozenset(["all", "round", "around", "both", "the", "ones", "of", "them", "set", "a", "sides", "corners"])
    | _AGES
    | _NUMBERS
)
_GETS: Final = frozenset({"got", "gets", "has", "takes", "had"})
_LONGEST: Final = 12  # tokens


@called_by(_AGES)
def ages_of_all(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with the age before the parts that it is told of, while the job goes back together."""
    if len(tokens) > _LONGEST:
        return tokens
    texts = tuple([token.text for token in tokens])
    if not (state.stage == "as_left" or _went_on(state)):
        return tokens
    begin = next((i for i, text in enumerate(texts) if text not in LINKS), 0)
    end = next((i for i in range(begin, len(texts)) if texts[i] == BREAK), len(texts))
    return _of_all(tokens, texts, (begin, end), lexicon) or _side_got(tokens, texts, begin, state, lexicon)


def _went_on(state: Discourse) -> bool:
    """True where the breath before told that something went on."""
    said = state.recent[-1] if state.recent else ()
    return any(isinstance(s, Movement) and s.movement == "fitted" for s in said)


def _of_all(tokens: Tokens, texts: tuple[str, ...], span: tuple[int, int], lexicon: Lexicon) -> Tokens:
    """ "Pads all round new four of them": "four new pads all round"; () where more is said."""
    begin, end = span
    said = texts[begin:end]
    ages = [text for text in said if text in _AGES]
    if len(ages) != 1 or _ALL.isdisjoint(said):
        return ()
    names = [i for i in range(begin, end) if texts[i] not in _TOLD]
    found = lexicon.match(texts[:end], names[0]) if names else None
    if found is None or not (found[1].parts or found[1].aliases) or not found[1].many:
        return ()
    first, last = names[0], names[0] + found[0]
    if names[-1] >= last:
        return ()
    aged = first > begin and texts[first - 1] == ages[0]
    if aged and "both" not in said and "of" not in said:
        return ()  # "new pads all round": as it is
    numbers = [i for i in range(begin, end) if texts[i] in _NUMBERS]
    if len(numbers) > 1:
        return ()
    round_ = [t for i, t in enumerate(tokens[begin:end], begin) if texts[i] in {"round", "around"}]
    word = tokens[first].word
    every = [Token("all", word), *round_[:1]] if round_ else []
    return (
        *tokens[:begin],
        *[tokens[i] for i in numbers],
        Token(ages[0], word),
        *tokens[first:last],
        *every,
        *tokens[end:],
    )


def _side_got(
    tokens: Tokens, texts: tuple[str, ...], begin: int, state: Discourse, lexicon: Lexicon
) -> Tokens:
    """ "The right got two new ones": of the part in hand."""
    at = begin + (texts[begin] == "the")
    side = texts[at] if at < len(texts) else ""
    verb = at + 1 + (texts[at + 1 : at + 2] in {("one",), ("side",)})
    age = verb + 1 + (texts[verb + 1 : verb + 2] != () and texts[verb + 1] in _NUMBERS | {"the", "a"})
    part = lexicon.sheet.get(state.hand.component) if state.hand is not None else None
    if part is None or side not in lexicon.positions or age + 2 != len(texts) or texts[verb] not in _GETS:
        return tokens
    counted = part.count > 1 and not part.positions and texts[verb + 1] in _NUMBERS
    placed = texts[age] in _AGES and texts[age + 1] in _ONES and any(side in p for p in part.positions)
    if not (placed or counted):
        return tokens
    word = tokens[verb].word
    name = [Token(text, word) for text in part.names[0].lower().split()]
    place = (Token("on", word), Token("the", word), tokens[at])
    some = [t for t in tokens[verb + 1 : age] if t.text in _NUMBERS]
    return (*tokens[:begin], *some, tokens[age], *name, *place)
