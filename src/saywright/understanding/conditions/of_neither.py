""" "Neither of the two is cracked", "not a single pad is worn", "and the right one is too". Pure.

Of which of several a state is, or is not, in the words in which it is plainest.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.conditions.seeming import is_told
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_OPENS: Final = frozenset({"", BREAK, "and", "but", "so", "well", "then", "now"})
_IS: Final = frozenset({"is", "are", "was", "were"})
_SAYS: Final = _IS | {
    "looks",
    "look",
    "seems",
    "seem",
    "feels",
    "feel",
    "has",
    "have",
    "had",
    "shows",
    "show",
}
_JUST: Final = frozenset(
    {"at", "all", "really", "actually", "even", "any", "a", "an", "got", "to", "be", "been"}
)
_REACH: Final = 5  # tokens of "seems to be at all"
_LONGEST: Final = 4  # tokens of "the right upper one"
_TOO: Final = ({"too"}, {"also"})
_AS_WELL: Final = ["as", "well"]
_LEADS: Final = frozenset({"the", "this", "that", "one", "other"})


def _told_at(texts: list[str], at: int, lexicon: Lexicon) -> bool:
    """True where a state is told from *at* on, behind little words."""
    for here in range(at, min(at + _REACH, len(texts))):
        if is_told(texts, here, lexicon):
            return True
        if texts[here] not in _JUST:
            return False
    return False


def _several(texts: list[str], at: int, lexicon: Lexicon) -> int:
    """Length of the part at *at*, where the sheet has several of it; else 0."""
    found = lexicon.match(tuple(texts), at) if at < len(texts) else None
    if found is None or not found[1].parts:
        return 0
    specs = [lexicon.sheet.get(part) for part in found[1].parts]
    return found[0] if any(spec is not None and spec.count > 1 for spec in specs) else 0


def _put(tokens: Tokens, begin: int, end: int, *words: str) -> Tokens:
    return (*tokens[:begin], *(replace(tokens[begin], text=word) for word in words), *tokens[end:])


def _neither_one(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Neither of the two is cracked", "neither one is", "neither looks worn": neither of them."""
    at = texts.index("neither") if "neither" in texts else texts.index("none")
    end = at + 1
    if texts[end : end + 3] in (["of", "the", "two"], ["of", "these", "two"], ["of", "those", "two"]):
        end += 3
    elif text_at(texts, end) == "one":
        end += 1
    elif text_at(texts, at - 1) not in _OPENS:
        return tokens
    told = text_at(texts, end) in _SAYS and _told_at(texts, end + 1, lexicon)
    return _put(tokens, at, end, texts[at], "of", "them") if told else tokens


def _not_a_single(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Not a single pad is worn", "not a single one is": none of them is."""
    at = texts.index("single") - 2
    if at < 0 or texts[at : at + 2] != ["not", "a"]:
        return tokens
    part = _several(texts, at + 3, lexicon)
    one = text_at(texts, at + 3) == "one"
    end = at + 3 + (part or one)
    if not (part or one) or text_at(texts, end) not in _SAYS or not _told_at(texts, end + 1, lexicon):
        return tokens
    return (
        _put(tokens, at, at + 3, "none", "of", "the") if part else _put(tokens, at, end, "none", "of", "them")
    )


def _no_part_is(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "No pad is worn": none of the pads."""
    at = texts.index("no")
    part = _several(texts, at + 1, lexicon) if text_at(texts, at - 1) in _OPENS else 0
    end = at + 1 + part
    told = part and text_at(texts, end) in _IS and _told_at(texts, end + 1, lexicon)
    return _put(tokens, at, at + 1, "none", "of", "the") if told else tokens


def _neither_nor(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Neither the left nor the right is stiff": the left is not stiff, the right is not."""
    if "neither" not in texts:
        return tokens
    at, nor = texts.index("neither"), texts.index("nor")
    verb = next((i for i in range(nor + 2, min(nor + 2 + _LONGEST, len(texts))) if texts[i] in _IS), 0)
    if not at < nor <= at + 1 + _LONGEST or not verb or not _told_at(texts, verb + 1, lexicon):
        return tokens
    end = next((i for i in range(verb, len(texts)) if texts[i] in {BREAK, "but", "and"}), len(texts))
    first, second = tokens[at + 1 : nor], tokens[nor + 1 : verb]
    if not all(_is_one(part, lexicon) for part in (first, second)):
        return tokens
    denied = replace(tokens[at], text="not")
    said = (tokens[verb], denied, *tokens[verb + 1 : end])
    border = replace(tokens[nor], text=BREAK)
    return (*tokens[:at], *first, *said, border, *second, *said, *tokens[end:])


def _is_one(tokens: Tokens, lexicon: Lexicon) -> bool:
    """ "The left", "the right one", "the left pad"."""
    texts = tuple([token.text for token in tokens])
    named = [lexicon.names(texts, at) for at, text in enumerate(texts) if text not in _LEADS]
    return bool(texts) and all(one.parts or one.aliases or one.positions for one in named)


def _both_so(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "This one is both torn and stiff": torn and stiff."""
    at = texts.index("both")
    if text_at(texts, at - 1) not in {"is", "was", "looks", "seems"}:
        return tokens
    found = lexicon.match(tuple(texts), at + 1) if at + 1 < len(texts) else None
    end = at + 1 + (found[0] if found is not None else 1)
    so = found is not None and bool(found[1].conditions) and text_at(texts, end) == "and"
    return (*tokens[:at], *tokens[at + 1 :]) if so and _told_at(texts, end + 1, lexicon) else tokens


def _so_too(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "The left one is cracked and the right one is too": and so is the right one."""
    end = len(texts) - (2 if texts[-2:] == _AS_WELL else 1)
    if texts[end:] not in (["too"], ["also"], _AS_WELL) or text_at(texts, end - 1) not in _IS:
        return tokens
    link = next((i for i in range(end - 2, max(0, end - 3 - _LONGEST), -1) if texts[i] in {"and", BREAK}), 0)
    if not link or not _is_one(tokens[link + 1 : end - 1], lexicon):
        return tokens
    if not any(lexicon.names(tuple(texts), i).conditions for i in range(link)):
        return tokens
    so = replace(tokens[end - 1], text="so")
    return (
        *tokens[:link],
        replace(tokens[link], text="and"),
        so,
        tokens[end - 1],
        *tokens[link + 1 : end - 1],
    )


_RULES: Final[Calls[Callable[[Tokens, list[str], Lexicon], Tokens]]] = Calls(
    (_neither_nor, {"nor"}),
    (_neither_one, {"neither", "none"}),
    (_not_a_single, {"single"}),
    (_no_part_is, {"no"}),
    (_both_so, {"both"}),
    (_so_too, {"too", "also", "well"}),
)


@called_by(_RULES.words)
def of_neither(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with plain words for which of them it is so."""
    return _RULES.put(tokens, lambda plainer, said: plainer(said, [token.text for token in said], lexicon))
