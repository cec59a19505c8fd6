"""A fault that is looked for is none yet: "checked the lever for cracks, none", "looked for leaks". Pure.

What was found is told behind it: "found none", "nothing", "and there's one by the pivot".
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

_LOOKS: Final = frozenset(
    ["check", "checked", "checking", "look", "looked", "looking", "feel", "felt", "feeling", "search",
     "searched", "searching", "inspect", "inspected", "inspecting", "eye", "watch", "watched", "watching",
     "over", "examined", "hunted", "tested",
     "test", "testing", "out"]
)  # fmt: skip
_SOME: Final = frozenset({"any", "the", "signs", "sign", "of", "a", "more", "hairline", "for"})
_LIST: Final = frozenset({"and", "or"})
_OVER: Final = frozenset(
    {"over", "out", "again", "carefully", "closely", "all", "through", "round", "properly"}
)
_FOUND: Final = frozenset(
    {"found", "find", "see", "saw", "seen", "spotted", "is", "are", "was", "were", "got"}
)
_NONE: Final = frozenset({"none", "nothing", "no", "nope", "nowt", "neither"})
_ONE: Final = frozenset({"one", "some", "a", "two", "plenty"})
_LITTLE: Final = frozenset(
    {BREAK, "and", "but", "i", "we", "there", "them", "so", "could", "can", "did", "do"}
)
_LEADS: Final = frozenset({"", BREAK, "and", "in", "on", "at", "round", "around"})
_FAR: Final = 8  # tokens from the verb to "for", and from the fault to what was found


@called_by({"for"})
def not_yet_found(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with what was looked for told as it was found, or left out where that is not told."""
    texts = tuple([token.text for token in tokens])
    for at in range(1, len(texts) - 1):
        if texts[at] != "for" or _LOOKS.isdisjoint(texts[max(0, at - _FAR) : at]):
            continue
        begin = at + 1
        while text_at(texts, begin) in _SOME:
            begin += 1
        end = _faults_end(texts, begin, lexicon)
        if end > begin:
            return _told(tokens, (at, begin, end), lexicon)
    return tokens


def _faults_end(texts: tuple[str, ...], begin: int, lexicon: Lexicon) -> int:
    """The token behind the faults that begin at *begin*: "cracks", "wear and cracks"."""
    end = begin
    while end < len(texts):
        at = end + (end > begin and texts[end] in _LIST)
        found = lexicon.match(texts, at) if at < len(texts) else None
        spec = lexicon.sheet.get_condition(found[1].conditions[-1]) if found and found[1].conditions else None
        if found is None or spec is None or spec.good or found[1].parts:
            break
        end = at + found[0]
    return end


def _told(tokens: tuple[Token, ...], where: tuple[int, int, int], lexicon: Lexicon) -> tuple[Token, ...]:
    texts = tuple([token.text for token in tokens])
    at, begin, end = where
    verb = next(
        i for i in range(at - 1, -1, -1) if (texts[i] in _LOOKS and texts[i] not in {"over", "out"}) or not i
    )
    outcome = _outcome(texts, end)
    if outcome is None and texts[at - 1] == "out":
        return (*tokens[:verb], *tokens[end:])  # "look out for cracks in the drums"
    if outcome is None:
        return (*tokens[:begin], replace(tokens[begin], text="defects"), *tokens[end:])
    so, first, last = outcome
    subject = [token for token in tokens[verb + 1 : at] if token.text not in _OVER]
    named = any(lexicon.names(texts, i).parts or lexicon.names(texts, i).aliases for i in range(verb + 1, at))
    head = tokens[at]
    words = [*subject, replace(head, text="has")] if named else []
    words += [*([] if so else [replace(head, text="no")]), *tokens[begin:end]]
    before = tokens[:verb] if named and verb and texts[verb - 1] == BREAK else ()
    rest = tokens[last:]
    return (*before, *words, *tokens[end:first], *rest)


def _outcome(texts: tuple[str, ...], end: int) -> tuple[bool, int, int] | None:
    """Whether one was found, and the tokens that say so; None where it is not told."""
    for at in range(end, min(end + _FAR, len(texts))):
        text, first = texts[at], at
        while first > end and (texts[first - 1] in _LITTLE | _FOUND or texts[first - 1] == "not"):
            first -= 1
        denied = "not" in texts[first:at]
        if text in _NONE and text_at(texts, at + 1) in _LEADS:
            return False, first, at + 1
        if text == "any" and denied:
            return False, first, at + 1
        if text in _ONE and not denied and not _FOUND.isdisjoint(texts[first:at]):
            return True, first, at + 1
    return None
