""" "You don't do one, you do both", "I'd never change just one so order two": a habit, none declined."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import put_words
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_VERBS: Final = frozenset(
    ["do", "doing", "change", "changing", "replace", "replacing", "renew", "renewing", "swap", "swapping"]
)
_ONLY: Final = frozenset({"just", "only"})
_ALONE: Final = (
    ("without", "the", "other"), ("without", "the", "others"), ("on", "its", "own"), ("by", "itself"),
    ("alone",), ("at", "a", "time"), ("only",), ("side", "only"), ("side",),
)  # fmt: skip
_ALL: Final = frozenset({"two", "both", "all", "four", "three", "pairs"})
_JOINS: Final = frozenset({BREAK, "and", "but"})
_PERSONS: Final = frozenset({"i", "we", "you"})
_SO: Final = frozenset({"so", "then"})
_OPENS: Final = frozenset(
    ["i", "we", "you", "do", "would", "never", "not", "just", "only", "ever", "no", "point", "in", "can",
     "like", "to", "should"]
)  # fmt: skip


@called_by({"one"}, beside={"not", "never", "no"})
def never_one_alone(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* without the one that nobody does alone; where nothing else is told, all of them want doing."""
    texts = tuple([token.text for token in tokens])
    for at in range(1, len(texts)):
        if texts[at] != "one" or state.stage == "as_left":
            continue
        verb = at - 1 - (texts[at - 1] in _ONLY)
        begin = _begins(texts, verb)
        end = _ends(texts, at + 1, lexicon) if begin >= 0 else 0
        if not end:
            continue
        behind = end + (text_at(texts, end) in _JOINS)
        pronoun = text_at(texts, behind) in _PERSONS
        both = text_at(texts, behind + pronoun) in _VERBS and text_at(texts, behind + pronoun + 1) in _ALL
        rest = behind + pronoun + 2 if both else behind
        if text_at(texts, rest) in _SO and rest + 1 < len(texts) and not _some(texts, rest + 1):
            return _so_many_of_it(tokens, begin, range(at + 1, end), rest, lexicon)
        if rest == len(texts) or _some(texts, rest + 1):
            return put_words(tokens, begin, len(tokens), "they", _all_of(state, lexicon), "want", "doing")
        return tokens
    return tokens


def _so_many_of_it(tokens: Tokens, begin: int, alone: range, rest: int, lexicon: Lexicon) -> Tokens:
    """ "… so order two": of what is named there, where its number stands alone."""
    texts = tuple([token.text for token in tokens])
    named = lexicon.match(texts, alone.start) if alone else None
    name = tokens[alone.start : alone.start + named[0]] if named and named[1].parts else ()
    for at in range(rest, len(texts)):
        if name and texts[at] in CARDINALS and text_at(texts, at + 1) in {"", BREAK, "on", "of", "to"}:
            return (*tokens[:begin], *tokens[rest : at + 1], *name, *tokens[at + 1 :])
    return (*tokens[:begin], *tokens[rest:])


def _begins(texts: Sequence[str], verb: int) -> int:
    """Where "you do not just change" begins, with its *verb*; -1 where that is not said of one alone."""
    begin = verb
    while begin > 0 and texts[begin - 1] in _OPENS:
        begin -= 1
    denied = not {"not", "never", "no"}.isdisjoint(texts[begin:verb])
    opens = begin == 0 or texts[begin - 1] in {BREAK, "and", "but", "then", "because"}
    return begin if verb >= 0 and texts[verb] in _VERBS and denied and opens else -1


def _ends(texts: Sequence[str], at: int, lexicon: Lexicon) -> int:
    """The token behind "shoe without the other" at *at*; 0 where another thing is told of one."""
    found = lexicon.match(tuple(texts), at) if at < len(texts) and texts[at] != BREAK else None
    at += found[0] if found is not None and (found[1].parts or found[1].aliases) else 0
    alone = next((one for one in _ALONE if tuple(texts[at : at + len(one)]) == one), ())
    at += len(alone)
    if at == len(texts):
        return at if alone else 0  # "I'm not changing one"
    goes_on = texts[at] in _JOINS | _SO or (texts[at] in _PERSONS and text_at(texts, at + 1) in _VERBS)
    return at if goes_on else 0


def _some(texts: Sequence[str], at: int) -> bool:
    """ "so a pair", "so a set": no more than that, to the end."""
    return tuple(texts[at:]) in {("a", "pair"), ("a", "set"), ("the", "pair"), ("both",), ("the", "set")}


def _all_of(state: Discourse, lexicon: Lexicon) -> str:
    part = lexicon.sheet.get(state.hand.component) if state.hand is not None else None
    return "all" if part is not None and part.count > 2 else "both"
