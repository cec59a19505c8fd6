"""A state feared or asked after, and what was found: "I was afraid it'd torn" / "well it hasn't". Pure.

The answer stands right behind it, in the same breath or in the next one, and is told in plain words:
"the diaphragm is not torn". What was asked and not answered is no state of anything.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from saywright.understanding.conditions.asked_states import BELIEVED, Asked, asked_of
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.naming.spellings import as_spelled
from saywright.understanding.statements import Remark
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at, tokenise

_OPENS: Final = frozenset(
    ["well", "but", "oh", "ah", "and", "hm", "hmm", "right", "thankfully", "luckily", "thank", "god", "so",
     "actually", "fortunately", "mercifully", "goodness", "then", BREAK]
)  # fmt: skip
_NO: Final = frozenset({"no", "nope", "nah"})
_YES: Final = frozenset({"yes", "yep", "yeah", "yup", "aye"})
_ANSWERS: Final = _OPENS | _NO | _YES | {"it", "they", "he", "she", "sure", "not", "is", "has"}
_IT: Final = frozenset({"it", "they", "he", "she", "that", "neither"})
_VERBS: Final = frozenset({"is", "are", "was", "were", "has", "have", "had", "does", "do", "did"})
_ENDS: Final = frozenset(["", BREAK, "and", "but", "after", "though", "just", "at", "so", "thank", "luckily"])
_NOT_AT_ALL: Final = (("not", "at", "all"), ("not", "a", "bit"), ("not", "a", "bit", "of", "it"))
_SURE: Final = (("sure", "enough"), ("right", "enough"))
_STATE_FAR: Final = 4  # tokens before the state it is in instead: "bone dry", "moves nice and free"
_DOES: Final = frozenset(
    ["moves", "runs", "spins", "turns", "slides", "comes", "goes", "feels", "looks", "sounds", "is", "has",
     "seems", "stays"]
)  # fmt: skip
_ORDERS: Final = frozenset(
    ["come", "look", "leave", "do", "try", "let", "give", "get", "go", "put", "see", "have", "take", "check",
     "keep", "make", "ask", "tell", "pass", "feel", "mind", "stop", "use"]
)  # fmt: skip
_TIMES: Final = frozenset({"time", "year", "month", "week", "job", "service", "season", "summer", "winter"})
_PEOPLE: Final = frozenset({"he", "she", "they"})
_ASIDE: Final = frozenset({"question", "what if", "once believed", "another job or time", ""})
_CLAIMS: Final = frozenset({"reckons", "says", "said", "thinks", "swears", "claims"})
_OF_OTHERS: Final = frozenset({"his", "her", "their", "my", "your", "last", "other", "mine", "ago", "had"})
_NOT_OF_IT: Final = frozenset({"i", "we", "you", "hang", "wait", "hold", "that", "not", "one", "but"})
_POINTS: Final = frozenset({"the", "this", "that", "those", "these", "my", "one"})
_LONGEST: Final = 5  # tokens before the answer


@called_by(_ANSWERS)
def found_so(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with what the last breath asked after told as it was found."""
    if not tokens or tokens[0].text not in _ANSWERS:
        return tokens
    texts = tuple([token.text for token in tokens])
    found = _answer(texts, 0) if state.recent else None
    it = _it_is(texts, lexicon) if found is None and state.recent else 0
    if (found is None and not it) or _of_a_person(texts, state):
        return tokens
    asked = _asked_before(state, lexicon)
    if asked is not None and it and asked.subject:
        named = [replace(one, word=tokens[it - 1].word) for one in asked.subject]
        return (*tokens[: it - 1], *named, *tokens[it:])
    return _told(tokens, 0, found, asked, lexicon) if asked is not None and found is not None else tokens


def _it_is(texts: tuple[str, ...], lexicon: Lexicon) -> int:
    """The token behind "it" at the head where a state is told of it: "well it's free as you like"; else 0."""
    at = 0
    while text_at(texts, at) in _OPENS and at < _LONGEST:
        at += 1
    if text_at(texts, at) not in _IT - {"that", "neither"} or text_at(texts, at + 1) not in _VERBS:
        return 0
    told = any(lexicon.names(texts, i).conditions for i in range(at + 2, min(at + 2 + _LONGEST, len(texts))))
    return at + 1 if told else 0


@called_by(BELIEVED)
def found_in_one_breath(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Thought the spring had gone weak but no": the spring is not weak."""
    texts = tuple([token.text for token in tokens])
    begin = next((at for at, text in enumerate(texts) if text in BELIEVED), len(texts))
    for at in range(begin + 3, len(texts)):
        if texts[at] not in {"but", BREAK} or (found := _answer(texts, at + 1)) is None:
            continue
        asked = asked_of(tokens[:at], lexicon)
        if asked is not None and asked.believed:
            return _told(tokens, at, found, asked, lexicon)
    return tokens


def _answer(texts: tuple[str, ...], begin: int) -> tuple[bool, bool, int] | None:
    """Whether it is so, whether a verb says it, and where the rest begins; None where there is no answer."""
    at = begin
    while text_at(texts, at) in _OPENS and at - begin < _LONGEST:
        at += 1
    said = text_at(texts, at)
    bare = said in _NO | _YES
    so = said in _YES
    at += bare
    while bare and text_at(texts, at) in (_OPENS | _NO) - {"right"}:
        at += 1
    if texts[at : at + 2] in _SURE:
        at += 2
        if text_at(texts, at) in _ENDS:
            return True, True, at
    none = next((one for one in _NOT_AT_ALL if texts[at : at + len(one)] == one), ())
    if none and text_at(texts, at + len(none)) in _ENDS:
        return False, True, at + len(none)
    pronoun = text_at(texts, at) in _IT
    if pronoun and text_at(texts, at + 1) in _VERBS:
        verb = at + 1
        end = verb + 1 + (text_at(texts, verb + 1) == "not")
        if text_at(texts, end) in _ENDS:
            return end == verb + 1, True, end
    return (so, False, at) if bare else None


def _asked_before(state: Discourse, lexicon: Lexicon) -> Asked | None:
    """What the last breath asked after or feared, where nothing in it is for the record."""
    said = state.recent[-1]
    if not said or not all(isinstance(one, Remark) and one.reason in _ASIDE for one in said):
        return None
    reasons = {one.reason for one in said if isinstance(one, Remark)}
    heard = " ".join([one.heard for one in said])
    if _is_of_then(heard.split()):
        return None
    if reasons == {""} or ("another job or time" in reasons and not _is_claim(heard.split())):
        return None
    return asked_of(as_spelled(tokenise(heard.split()), lexicon.spelled), lexicon)


def _is_of_then(heard: Sequence[str]) -> bool:
    """ "Was the piston stuck last time": not of now."""
    pairs = pairwise(heard)
    return any(one == "last" and two in _TIMES for one, two in pairs) or "yesterday" in heard


def _of_a_person(texts: tuple[str, ...], state: Discourse) -> bool:
    """ "He reckons it's stuck" / "well he does": of him who says it."""
    said = next((text for text in texts[: _LONGEST + 1] if text in _IT), "")
    if said not in _PEOPLE:
        return False
    heard = [word for one in state.recent[-1] if isinstance(one, Remark) for word in one.heard.split()]
    return said in heard or (said != "they" and not _CLAIMS.isdisjoint(heard))


def _is_claim(heard: Sequence[str]) -> bool:
    """ "He reckons the piston is stuck": of what is on the bench."""
    return not _CLAIMS.isdisjoint(heard) and _OF_OTHERS.isdisjoint(heard)


def _told(
    tokens: tuple[Token, ...], begin: int, found: tuple[bool, bool, int], asked: Asked, lexicon: Lexicon
) -> tuple[Token, ...]:
    """The tokens with the answer in plain words at *begin*, and what is told behind it."""
    so, verb, end = found
    texts = tuple([token.text for token in tokens])
    rest = tokens[end:]
    if not verb and rest and (so or not _goes_on(texts[end:], asked, lexicon)):
        return tokens  # "no, I had the burr", "no, the other one"
    head = tokens[begin]
    subject = asked.subject or (replace(head, text="it"),)
    words = [*subject, replace(head, text="are" if asked.several else "is")]
    words += [*([] if so else [replace(head, text="not")]), *asked.state]
    if not begin:  # of the last breath: these words are told now
        words = [replace(one, word=head.word) for one in words]
    if rest and not verb and rest[0].text not in _IT:
        put = ("it",) if rest[0].text in _DOES else ("it", "is")
        rest = (*[replace(rest[0], text=word) for word in put], *rest)
    return (*words, *([replace(head, text=BREAK)] if rest else []), *rest)


def _goes_on(rest: tuple[str, ...], asked: Asked, lexicon: Lexicon) -> bool:
    """ "No, just dirty", "no it's got plenty of push left in it": how it is instead."""
    if rest[0] in _NOT_OF_IT | _ORDERS or (rest[0] in _IT and text_at(rest, 2) in _POINTS):
        return False  # "no I've got the wrong one", "no it's the high one that's bent", "no leave it, …"
    if rest[0] not in _IT and text_at(rest, 1) in _POINTS | _IT | {"them"}:
        return False  # "no clean it first", "no free the other one"
    far = len(rest) if rest[0] in _IT else _STATE_FAR
    for at in range(min(far, len(rest))):
        named = lexicon.names(rest, at)
        if named.parts or named.aliases or named.positions or (rest[at] == BREAK and rest[0] not in _IT):
            return asked.believed and rest[0] in _IT
        if named.conditions:
            return True
    return asked.believed and rest[0] in _IT
