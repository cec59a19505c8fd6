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
_TESTS: Final = frozenset({"tested", "testing"})
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
_YES: Final = frozenset({"yes", "yeah", "yep", "yup", "aye"})
_SO_MUCH: Final = (("a", "little"), ("a", "bit"), ("a", "touch"), ("some",), ("plenty",))
_WHERE: Final = frozenset(
    ["round", "around", "on", "by", "at", "in", "near", "along", "under", "there", "here", "only", "though",
     "inside", "outside", "towards", "where", "between", "behind"]
)  # fmt: skip
_IT: Final = frozenset({"it", "they", "he", "she"})
_HAS: Final = frozenset({"does", "do", "did", "has", "have", "had", "is", "are", "was", "were"})
_BADLY: Final = frozenset(
    {"some", "one", "plenty", "bad", "badly", "terrible", "awful", "there", "loads", "a"}
)
_STOPS: Final = frozenset({"", BREAK, "and", "but", "so"})
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
    begun = verb + 1
    named = _is_named(texts, begun, at, lexicon)
    if not named and _is_named(texts, 0, verb, lexicon):  # "left lever looked over for cracks"
        begun = next((i + 1 for i in range(verb - 1, -1, -1) if texts[i] in _STOPS), 0)
        named = _is_named(texts, begun, verb, lexicon)
        at, verb = (verb, begun) if named else (at, verb)
    subject = [token for token in tokens[begun:at] if token.text not in _OVER]
    head = tokens[where[0]]
    words = [*subject, replace(head, text="has")] if named else []
    words += [*([] if so else [replace(head, text="no")]), *tokens[begin:end]]
    if named and texts[verb] in _TESTS:  # that it was tested is told too
        words = [*tokens[verb:at], replace(head, text=BREAK), *words]
    before = tokens[:verb] if named and verb and texts[verb - 1] == BREAK else ()
    rest = tokens[last:]
    return (*before, *words, *tokens[end:first], *rest)


def _is_named(texts: tuple[str, ...], begin: int, end: int, lexicon: Lexicon) -> bool:
    return any(lexicon.names(texts, i).parts or lexicon.names(texts, i).aliases for i in range(begin, end))


def _said_at_once(texts: tuple[str, ...], end: int) -> tuple[bool, int, int] | None:
    """ "Yes", "some", "a little round the edge", "it's bad", "it doesn't" right behind the fault."""
    at = end
    while text_at(texts, at) in {BREAK, "and", "but", "well", "oh"}:
        at += 1
    much = next((one for one in _SO_MUCH if texts[at : at + len(one)] == one), ())
    if much and text_at(texts, at + len(much)) in _STOPS | _WHERE:
        return True, end, at + len(much)
    if text_at(texts, at) not in _IT or text_at(texts, at + 1) not in _HAS:
        return None
    at += 2
    if text_at(texts, at) in _STOPS:
        return True, end, at
    if text_at(texts, at) in _BADLY:
        return True, end, at + 1
    denied = text_at(texts, at) == "not" and text_at(texts, at + 1) in _STOPS
    return (False, end, at + 1) if denied else None


def _outcome(texts: tuple[str, ...], end: int) -> tuple[bool, int, int] | None:
    """Whether one was found, and the tokens that say so; None where it is not told."""
    if at_once := _said_at_once(texts, end):
        return at_once
    for at in range(end, min(end + _FAR, len(texts))):
        text, first = texts[at], at
        while first > end and (texts[first - 1] in _LITTLE | _FOUND or texts[first - 1] == "not"):
            first -= 1
        denied = "not" in texts[first:at]
        clear = at == end or texts[at - 1] in _STOPS | {"oh", "well"}
        if text in _YES and clear and text_at(texts, at + 1) != "or":
            return True, at, at + 1
        if text in _NONE and texts[at - 1] != "or" and text_at(texts, at + 1) in _LEADS:
            return False, first, at + 1
        if text == "any" and denied:
            return False, first, at + 1
        of = text_at(texts, at + 1) == "of"  # "got one of the new ones"
        if text in _ONE and not denied and not of and not _FOUND.isdisjoint(texts[first:at]):
            return True, first, at + 1
    return None
