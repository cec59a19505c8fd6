""" "They don't look worn", "it turns out to be bent", "I noticed scoring on it": it is so, or not. Pure.

Verbs of seeming, of turning out and of noticing stand for the plain verb, where a state is told behind them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_IS: Final = {"do": "are", "does": "is", "did": "was"}
_HAS: Final = {"do": "have", "does": "has", "did": "had"}
_SEEM: Final = frozenset({"look", "seem", "appear", "sound", "feel", "prove"})
_PERSONS: Final = frozenset({"i", "we", "you", "he", "she"})
_MUCH: Final = frozenset(
    ["at", "all", "really", "very", "that", "too", "so", "a", "an", "bit", "little", "particularly", "in",
     "the",
     "least", "quite", "slightly", "badly", "actually", "rather", "pretty", "fairly", "just", "any", "even",
     "gone", "got", "been", "come"]
)  # fmt: skip
_MUCH_REACH: Final = 4
_SURELY: Final = frozenset(
    {"definitely", "clearly", "actually", "certainly", "obviously", "evidently", "plainly", "also"}
)
_BE: Final = frozenset({"is", "are", "was", "were", "has", "have", "had"})
_TURNED: Final = {
    "turns": "is",
    "turn": "are",
    "turned": "was",
    "proved": "was",
    "proves": "is",
    "prove": "are",
}
_IF: Final = frozenset({"if", "unless", "wish", "whether", "when"})
_NOTICED: Final = {"noticed": "found", "spotted": "found", "notice": "see", "spot": "see"}
_NOTICING: Final = frozenset({"finding", "seeing", "noticing", "spotting"})
_AM: Final = frozenset({"am", "are"})
_SUBJECTS: Final = frozenset(
    {"the", "it", "they", "them", "this", "these", "both", "there", "neither", "none"}
)
_CLEAR: Final = frozenset({"clear", "obvious", "plain", "certain"})
_NO_SIGN: Final = frozenset({"no", "not", "any", "for", "without", "of", "hardly", "the"})
_SEEN: Final = (
    ("can", "be", "seen"),
    ("is", "visible"),
    ("are", "visible"),
    ("was", "found"),
    ("is", "to", "be", "seen"),
)
_SUBJECT_REACH: Final = 6  # tokens of "both of the left discs"


def is_told(texts: list[str], at: int, lexicon: Lexicon) -> bool:
    """True where a state is told at *at* and nothing else that its word may be."""
    if not 0 <= at < len(texts):
        return False
    said = tuple(texts)
    found = lexicon.names(said, at)
    if found.conditions and not found.parts:
        return True
    return any(said[at : at + len(one.name)] == one.name for one in lexicon.predicates.get(said[at], ()))


def _told_at(texts: list[str], at: int, lexicon: Lexicon) -> bool:
    """True where a state is told from *at* on, behind words of how much."""
    for here in range(at, at + _MUCH_REACH + 1):
        if is_told(texts, here, lexicon):
            return True
        if text_at(texts, here) not in _MUCH:
            return False
    return False


def _put(tokens: Tokens, begin: int, end: int, *words: str) -> Tokens:
    return (*tokens[:begin], *(replace(tokens[begin], text=word) for word in words), *tokens[end:])


def _seems(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "They don't look worn", "did not seem to have torn", "it does look brittle": they are not, it is."""
    for at in range(1, len(texts) - 2):
        if texts[at] not in _IS or texts[at - 1] in _PERSONS or text_at(texts, at - 1) in _IF:
            continue
        denied = texts[at + 1] == "not"
        verb = at + 1 + denied
        while text_at(texts, verb) in {"really", "even", "actually"}:
            verb += 1
        out = text_at(texts, verb) == "turn" and text_at(texts, verb + 1) == "out"
        if text_at(texts, verb) not in _SEEM and not out:
            continue
        end, be = verb + 1 + out, _IS[texts[at]]
        if texts[end : end + 2] == ["to", "be"]:
            end += 2
        elif texts[end : end + 2] == ["to", "have"]:
            end, be = end + 2, _HAS[texts[at]]
        if _told_at(texts, end, lexicon):
            kept = tokens[:-2] if texts[-2:] == ["to", "me"] else tokens
            return _put(kept, at, end, be, *(("not",) if denied else ()))
    return tokens


def _turns_out(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "It turns out to be sticky", "they proved to be scored": it is, they were."""
    for at in range(1, len(texts) - 2):
        end = at + (2 if texts[at].startswith("turn") else 1)
        if texts[at] not in _TURNED or (end == at + 2 and texts[at + 1] != "out"):
            continue
        to_be = texts[end : end + 2] == ["to", "be"]
        denied = text_at(texts, end) == "not" and texts[end + 1 : end + 3] == ["to", "be"]
        told = end + 2 + denied if to_be or denied else end
        if texts[at - 1] not in _PERSONS and (to_be or denied) and _told_at(texts, told, lexicon):
            return _put(tokens, at, told, _TURNED[texts[at]], *(("not",) if denied else ()))
    return tokens


def _appears(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Both appear chipped", "it has become stiff": they are, it is."""
    for at in range(1, len(texts) - 1):
        word, before = texts[at], texts[at - 1]
        if word not in {"appear", "appeared", "become", "became", "becomes"}:
            continue
        has = word == "become" and before in {"has", "have"}
        if (
            before
            in {"not", "to", "did", "does", "do", "will", "may", "might", "can", "could", "would"} | _PERSONS
        ):
            continue
        end = at + 3 if texts[at + 1 : at + 3] == ["to", "be"] else at + 1
        if not is_told(texts, end, lexicon) and not _told_at(texts, end, lexicon):
            continue
        be = "are" if before == "have" or word == "appear" else "is"
        return _put(tokens, at - has, end, be)
    return tokens


def _surely(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "It is definitely glazed", "it is in fact cracked": it is."""
    for at in range(1, len(texts) - 1):
        end = at + 1 if texts[at] in _SURELY else at + 2 if texts[at : at + 2] == ["in", "fact"] else at
        if (
            end > at
            and texts[at - 1] in _BE
            and is_told(texts, end + (text_at(texts, end) == "not"), lexicon)
        ):
            return (*tokens[:at], *tokens[end:])
    return tokens


def _noticed(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "I noticed scoring on it", "I am finding wear on it", "I could see a crack": I found, I see it."""
    at = next((i for i, text in enumerate(texts) if text in {"i", "we"}), 0)
    if not _IF.isdisjoint(texts[:at]):
        return tokens
    end, word = at + 2, _NOTICED.get(text_at(texts, at + 1), "")
    noticing = text_at(texts, at + 1) in _AM and text_at(texts, at + 2) in _NOTICING
    if noticing or texts[at + 1 : at + 3] == ["could", "see"]:
        end, word = at + 3, "see"
    if not word or text_at(texts, at) not in {"i", "we"}:
        return tokens
    noun = end + (text_at(texts, end) in {"a", "an", "some", "signs", "no"})
    noun += text_at(texts, noun) == "of"
    return _put(tokens, at + 1, end, word) if _told_at(texts, noun, lexicon) else tokens


def _signs_of(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "There are signs of rust on it", "it shows signs of wear": there is rust on it."""
    at = texts.index("signs")
    if text_at(texts, at + 1) != "of" or text_at(texts, at - 1) in _NO_SIGN or "not" in texts[:at]:
        return tokens
    if not _told_at(texts, at + 2, lexicon):
        return tokens
    there = texts[max(0, at - 2) : at] == ["there", "are"]
    kept = (*tokens[: at - 1], replace(tokens[at - 1], text="is")) if there else tokens[:at]
    return (*kept, *tokens[at + 2 :])


def _it_looks_as_if(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "It looks as if this one is loose", "it is clear that the hose is worn": so it is."""
    for at in range(len(texts) - 4 if "it" in texts else 0):
        if texts[at] != "it" or text_at(texts, at - 1) not in {"", BREAK, "and", "but", "so", "well", "now"}:
            continue
        words = texts[at + 1 : at + 4]
        if words[0] in {"looks", "seems", "appears", "feels", "sounds"} and words[1] in {
            "as",
            "like",
            "that",
        }:
            simile = words[1] == "as" and words[2] in {"if", "though"}
            there = words[1] == "like" and words[2] == "there"
            if simile or there:
                return (*tokens[:at], *tokens[at + (4 if simile else 3) :])
        if (
            words[0] == "is"
            and words[1] in _CLEAR
            and words[2] == "that"
            and text_at(texts, at + 4) in _SUBJECTS
        ):
            return (*tokens[:at], *tokens[at + 4 :])
    return tokens


def _do_not_find(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "I do not find it soft", "I don't see that it is split": I do not think that it is."""
    for at in range(2, len(texts) - 2):
        if texts[at] not in {"find", "see"} or texts[at - 1] != "not" or texts[at - 2] not in _IS:
            continue
        if texts[at + 1] == "that" and text_at(texts, at + 2) in _SUBJECTS:
            return _put(tokens, at, at + 1, "think")
        if texts[at] == "see" or texts[at + 1] not in _SUBJECTS:
            continue
        told = next((i for i in range(at + 2, at + 2 + _SUBJECT_REACH) if is_told(texts, i, lexicon)), 0)
        if told and text_at(texts, told - 1) not in {"is", "are", "a", "an", "any", "the", "to"}:
            return (
                *_put(tokens, at, at + 1, "think")[:told],
                replace(tokens[told], text="is"),
                *tokens[told:],
            )
    return tokens


def _to_be_seen(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "A crack can be seen on it", "a tear is visible on it": there is a crack on it."""
    begin = 1 if texts[0] in {"a", "an", "some"} else 0
    found = lexicon.match(tuple(texts), begin)
    if found is None or not found[1].conditions or found[1].parts:
        return tokens
    at = begin + found[0]
    seen = next((words for words in _SEEN if tuple(texts[at : at + len(words)]) == words), ())
    if not seen or text_at(texts, at + len(seen)) not in {"on", "in", "at"}:
        return tokens
    there = (replace(tokens[0], text=word) for word in ("there", "is"))
    return (*there, *tokens[:at], *tokens[at + len(seen) :])


_RULES: Final[Calls[Callable[[Tokens, list[str], Lexicon], Tokens]]] = Calls(
    (_it_looks_as_if, {"if", "though", "there", "that"}),
    (_signs_of, {"signs"}),
    (_do_not_find, {"find", "see"}),
    (_to_be_seen, {"seen", "visible", "found"}),
    (_seems, _IS),
    (_turns_out, _TURNED),
    (_appears, {"appear", "appeared", "become", "became", "becomes"}),
    (_noticed, _NOTICED.keys() | _NOTICING | {"could"}),
    (_surely, _SURELY | {"fact"}),
)


@called_by(_RULES.words)
def as_it_seems(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with the plain verb where a state is told behind one of seeming or noticing."""
    return _RULES.put(tokens, lambda plainer, said: plainer(said, [token.text for token in said], lexicon))
