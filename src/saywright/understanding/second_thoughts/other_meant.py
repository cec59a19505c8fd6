""" "I said left, I meant right", "that should have been the pilot jet", "not the inner, the outer". Pure.

Who tells that what he said last was of another part says so in many ways. In plain words all of them are
"no that is the right one", "no that is the pilot jet".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import IS
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.second_thoughts.one_named import (
    About,
    OneNamed,
    is_of,
    last_told,
    may_be_of,
    one_named,
    other_place,
    place_meant,
)
from saywright.understanding.second_thoughts.words import IT, read_turn
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at, words_of

_LONGEST: Final = 18
_I: Final = frozenset({"i", "we"})
_HAVE: Final = frozenset({"have", "had"})
_SAID: Final = frozenset({"said", "called", "put", "had", "told", "gave", "say"})
_AS: Final = frozenset({"it", "that", "them", "those", "down", "as", "for", "was", "is", "you"})
_MEANT: Final = frozenset({"mean", "meant"})
_MEANT_BEHIND: Final = _MEANT | {"sorry"}
_DID: Final = frozenset(
    {"measured", "read", "did", "checked", "miked", "measuring", "reading", "doing", "had"}
)
_LOOKS: Final = frozenset({"looking", "holding", "measuring", "reading", "doing", "on", "in", "at"})
_DOUBTS: Final = frozenset({"hang", "hold", "wait"})  # "hang on, that's the inlet"
_SAYS_SO: Final = frozenset({"make", "call"})
_WRONG: Final = (
    ("i", "have", "got", "the", "wrong"), ("i", "had", "the", "wrong"), ("i", "have", "the", "wrong"),
    ("that", "is", "the", "wrong"), ("that", "was", "the", "wrong"), ("got", "the", "wrong"), ("wrong",),
)  # fmt: skip
_NOUNS: Final = frozenset({"one", "side", "end", "part", "name", "hand", "word"})
_JOINS: Final = words_of(
    "but and when though it that is was i meant mean no sorry should be have been actually to say we rather"
)
_LAST: Final = words_of(
    "i mean meant sorry there not should have said my mistake bad was is it that here instead say"
)
_CALLS: Final = words_of(
    "meant mean said not been called call wrong other measured read no saying calling sorry nope nah "
    "make one opposite hang hold wait checked"
)


@called_by(_CALLS)
def other_meant(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* as "no that is the right one" where they tell only that what was said last is of another."""
    if not 1 < len(tokens) <= _LONGEST or not state.recent:
        return tokens
    said = tuple([one for one in tokens if one.text != BREAK])
    texts = tuple([one.text for one in said])
    at, turned = read_turn(texts, 0, len(texts))
    if at and texts[at - 1] == "wrong" and texts[at : at + 1] and texts[at] in _NOUNS:
        at -= 1  # "wrong one, it's the right"
    if not turned and texts[-1] in {"sorry", "mean", "meant"}:
        turned = True
    told = last_told(state) if at < len(texts) else []
    meant = _meant(texts, at, told, lexicon, turned=turned) if told else None
    if meant is None:
        return tokens
    head = [replace(said[0], text=word) for word in ("no", "that", "is", "the")]
    if meant.other:
        place = other_place(told, lexicon)
        words = [] if place is None else [replace(said[meant.begin], text=w) for w in (*place.split(), "one")]
        return (*head, *words) if words else tokens
    if not may_be_of(told, meant, lexicon) or _is_lacking(tokens, meant, told, lexicon):
        return tokens
    whole = place_meant(told, meant, lexicon)
    if whole is not None:
        return (*head, *[replace(said[meant.begin], text=word) for word in (*whole.split(), "one")])
    one = () if meant.parts or texts[meant.end - 1] in _NOUNS else (replace(said[meant.end - 1], text="one"),)
    return (*head, *said[meant.begin : meant.end], *one)


def _is_lacking(tokens: tuple[Token, ...], meant: OneNamed, told: Sequence[About], lexicon: Lexicon) -> bool:
    """ "Pads out", "no springs": of which there are none; not "no pilot" behind the main jet, a jet too."""
    texts = tuple([one.text for one in tokens])
    at = next((i for i in range(len(texts) - 1) if texts[i] == "no"), -1)
    if at < 0 or at + 1 == len(texts) or meant.places or not meant.parts:
        return False
    found = lexicon.match(texts, at + 1) if texts[at + 1] != BREAK else None
    if found is None or not (found[1].parts or found[1].aliases):
        return False
    alike = [set(one.aliases) for one in lexicon.table.values() if one.aliases]
    of = {s.component for s in told}
    return not any(of & kin and kin & set(meant.parts) for kin in alike)


def _meant(
    texts: tuple[str, ...], at: int, told: Sequence[About], lexicon: Lexicon, *, turned: bool
) -> OneNamed | None:
    """The one that is meant, where nothing else is told; *at* is the token behind the change of mind."""
    denied, at = _denied_first(texts, at, lexicon)
    if denied is not None and not is_of(told, denied):
        return None
    begin, sure = (at, True) if denied is not None else _lead(texts, at, turned=turned or texts[0] in _DOUBTS)
    named = one_named(texts, begin, lexicon)
    if named is None:
        return None
    rest = texts[named.end :]
    if rest[:1] == ("not",):  # "the right one, not the left"
        other = one_named(texts, named.end + 1, lexicon)
        ended = other is not None and other.end == len(texts) and is_of(told, other)
        return named if ended else None
    if not _LAST.issuperset(rest):
        return None
    sure = sure or not _MEANT_BEHIND.isdisjoint(rest) or (turned and begin == at)
    return named if sure else None


def _lead(texts: tuple[str, ...], at: int, *, turned: bool) -> tuple[int, bool]:
    """The token behind "that should have been", "wrong one, it's", and whether they say enough."""
    for wrong in _WRONG:
        end = at + len(wrong)
        if texts[at:end] == wrong and text_at(texts, end) in _NOUNS:
            pointed = text_at(texts, end + 1) in IT and text_at(texts, end + 2) in IS
            return end + 1 + 2 * pointed, True
    word, behind = text_at(texts, at), texts[at + 1 : at + 4]
    if word in IT:
        at += behind[:1] == ("one",)
        behind = texts[at + 1 : at + 4]
        if behind == ("should", "have", "been"):
            return at + 4, True
        if behind[:2] in {("should", "be"), ("should", "say")}:
            return at + 3, turned
        if text_at(behind, 0) in IS:
            return at + 2, turned or behind[0] == "was"
    if word in _SAYS_SO and text_at(behind, 0) in IT:
        return at + 2, True
    if word in _I and text_at(behind, 0) in {"am", "was"} and text_at(behind, 1) in _LOOKS:
        return at + 3 + (text_at(behind, 2) == "at"), turned
    if word in _I and text_at(behind, 0) in _DID:
        return at + 2, turned
    meant = word in _I and text_at(behind, 0) in _MEANT
    return at + meant * (2 + 2 * (behind[1:3] == ("to", "say"))), meant


def _denied_first(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> tuple[OneNamed | None, int]:
    """The one that was said wrong, told first, and the token where the other begins; (None, *at*) for none.

    "I said left, I meant …", "I called it the main jet, it's …", "it's not the left, it's …".
    """
    begin = at
    if texts[begin : begin + 3] in {("did", "i", "say"), ("i", "keep", "saying"), ("i", "keep", "calling")}:
        begin += 3
        begin += text_at(texts, begin) in IT
    elif text_at(texts, begin) in _I and text_at(texts, begin + 1) in _HAVE | _SAID:
        begin += 2 + (texts[begin + 1] in _HAVE and text_at(texts, begin + 2) in _SAID)
        while begin < len(texts) and texts[begin] in _AS:
            begin += 1
    else:
        begin += 2 * (text_at(texts, begin) in IT and text_at(texts, begin + 1) in IS)
        if texts[begin : begin + 1] != ("not",):
            return None, at
        begin += 1
    denied = one_named(texts, begin, lexicon)
    if denied is None:
        return None, at
    end = denied.end
    while end < len(texts) and texts[end] in _JOINS:
        end += 1
    return (denied, end) if end < len(texts) else (None, at)
