"""Doings said as a noun: "gave it a wipe", "it's had a good clean", "wants a polish"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.bench_words import AWAY
from saywright.understanding.tokens import BREAK

_ARTICLES = frozenset({"a", "an", "another", "some"})
_COLOUR_REACH = 3  # tokens between the article and the noun: "a really good clean"
_VERB_REACH = 10  # tokens between the verb and the article: its object
_STUFFS = frozenset({"loctite", "threadlocker", "thread", "anti", "copper"})  # "thread lock", "copper grease"
_LATER = frozenset({"later", "tomorrow", "after", "when", "next"})
_STUFF_REACH = 6  # tokens: "anti seize on both the threads"
_ON_IT = frozenset({"on", "round", "around"})
# Of a stuff that was found there, and of one that was not used, or not yet.
FOUND_SO = frozenset({"there", "see", "was", "were", "had", "has", "found", "old", "he", "she", "somebody"})
NOT_YET = frozenset(
    {"needs", "need", "wants", "want", "get", "gets", "will", "would", "to", "for", "no", "without"}
)
_DONE = frozenset({"gave", "given", "giving", "had", "got", "done", "after", "put", "fitted"})
_WAS_ENOUGH = frozenset(
    [("was", "enough"), ("did", "it"), ("did", "for"), ("did", "the"), ("sorted", "it"), ("sorted", "that"),
     ("cured", "it"), ("fixed", "it"), ("was", "all")]
)  # fmt: skip
_MIGHT = frozenset({"could", "should", "would", "might", "must", "may", "to"})
_HAD_TO = frozenset([("had", "to"), ("managed", "to")])
_GIVING = frozenset({"give", "giving", "need", "want", "get", "getting", "require"})
_DENIED = frozenset({"not", "no", "against", "never"})
_ANEW = frozenset({BREAK, "and", "but", "so", "because", "then"})
_DENIED_REACH = 5  # tokens of "not going to give"
_PLANNED = frozenset(
    ["give", "gives", "get", "gets", "have", "has", "needs", "need", "wants", "want", "with", "for"]
)


def said_as_noun(texts: Sequence[str], at: int) -> str:
    """ "GIVEN", "NEED" or "": whether the doing at token *at* is a noun, and was done or is wanted."""
    if texts[at] in _STUFFS and _put_on(texts, at):
        return "GIVEN"
    near = range(at - 1, max(-1, at - 1 - _COLOUR_REACH), -1)
    article = next((i for i in near if texts[i] in _ARTICLES), None)
    if article is None or BREAK in texts[article:at]:
        return ""
    if tuple(texts[at + 1 : at + 3]) in _WAS_ENOUGH:
        return "GIVEN"
    for i in range(article - 1, max(-1, article - 1 - _VERB_REACH), -1):
        if texts[i] == BREAK:
            return ""
        if texts[i] in _DONE or (texts[i] == "did" and texts[i + 1] in _ARTICLES):  # "did a dye pen on it"
            ahead = texts[i] == "had" and texts[i - 1 : i] in (["have"], ("have",))
            ahead = ahead and texts[i - 2] in _MIGHT  # "they've had a good soak"
            return _unless_denied(texts, i, "" if ahead else "GIVEN")
        if texts[i] in _PLANNED:
            had_to = tuple(texts[max(0, i - 2) : i]) in _HAD_TO
            return _unless_denied(texts, i, "GIVEN" if had_to else "NEED")
    return ""


def _unless_denied(texts: Sequence[str], verb: int, so: str) -> str:
    """ "I will not give it a clean", "decided against giving it a wipe", "no need to give …": declined."""
    gives = texts[verb] in _GIVING and verb > 0
    before = texts[max(0, verb - _DENIED_REACH) : verb] if gives else ()
    begin = next((i + 1 for i in range(len(before) - 1, -1, -1) if before[i] in _ANEW), 0)
    return "DECLINE" if not _DENIED.isdisjoint(before[begin:]) else so


def _put_on(texts: Sequence[str], at: int) -> bool:
    """ "in with a little loctite", "anti seize on the threads": it was used, where nobody says it will be."""
    before = texts[max(0, at - 1 - _COLOUR_REACH) : at]
    behind = texts[at + 1 : at + _STUFF_REACH]
    on_it = not _ON_IT.isdisjoint(behind) and AWAY.isdisjoint(behind) and _LATER.isdisjoint(texts[at:])
    used = "with" in before or on_it  # not "anti seize on the shelf"
    return used and (FOUND_SO | NOT_YET).isdisjoint(texts[max(0, at - _VERB_REACH) : at])


def is_found_stuff(texts: Sequence[str], at: int) -> bool:
    """ "there was loctite on the threads": the stuff at token *at* is no doing, it was there."""
    before = texts[max(0, at - _VERB_REACH) : at]
    there = not FOUND_SO.isdisjoint(before) and NOT_YET.isdisjoint(before)
    return texts[at] in _STUFFS and there and not _ON_IT.isdisjoint(texts[at + 1 : at + _STUFF_REACH])
