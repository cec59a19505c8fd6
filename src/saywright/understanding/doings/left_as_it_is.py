""" "I won't touch that", "it's staying put", "they get done as a pair": decided, in plain words. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import POINTS, ended, put_plainly, put_words
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_SIGNS: Final = frozenset(
    ["leave", "touch", "touching", "staying", "stop", "stay", "stays", "keep", "doing", "pair", "pairs",
     "set", "sets"]
)  # fmt: skip
_LEADS: Final = frozenset(
    [BREAK, "and", "but", "so", "then", "i", "we", "will", "would", "to", "can", "could", "just", "please",
     "says", "said", "not", "you", "should", "or", "well", "okay", "right", "no", "am", "are", "better",
     "they", "he", "she", "let", "must", "only", "always", "never", "rather", "oh", "now", "us", "may",
     "might", "do"]
)  # fmt: skip
_DETERMINERS: Final = frozenset({"the", "its", "all", "both"})
_TO_ITSELF: Final = (("alone",), ("be",), ("well", "alone"))
_AS_IT_IS: Final = frozenset({("as",), ("where",), ("how",)})
_PERSONS: Final = frozenset({"i", "we", "you", "he", "she"})
_BE: Final = frozenset({"is", "are"})
_MAY: Final = frozenset({"can", "could", "will", "may"})
_STILL: Final = (("in", "service"), ("in", "use"), ("put",), ("on",), ("in",), ("there",))
_REACH: Final = 5  # tokens of what is left
_GET: Final = frozenset({"get", "gets", "getting", "be", "are"})
_DENIES: Final = frozenset({"not", "never", "were", "was", "been", "had", "if", "used", "some", "people"})
_ASKING: Final = frozenset({"do", "does", "did", "should", "shall"})
_AS_PAIR: Final = frozenset(
    [
        ("as", "a", "pair"),
        ("as", "a", "set"),
        ("in", "pairs"),
        ("as", "pairs"),
        ("in", "sets"),
        ("as", "sets"),
    ]
)
_WANTS: Final = frozenset({"want", "need"})


@called_by(_SIGNS)
def left_as_it_is(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with plain words for what is left, and for what is renewed together.

    While the job goes back together "it's staying there" tells where it is.
    """
    return put_plainly(tokens, _FORMS if state.stage == "as_left" else (*_FORMS, _stays), lexicon)


def _apart(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Change that leave the other": two clauses, the second of the other one."""
    at = next((i for i in range(len(texts) - 2) if texts[i] == "leave" and texts[i + 2] == "other"), -1)
    if at >= 0:
        end = at + 3 + (texts[at + 3 : at + 4] == ["one"])
        rest = end + next((n for n in (2, 1) if tuple(texts[end : end + n]) in _TO_ITSELF), 0)
        if ended(texts, rest):
            tokens = put_words(tokens, at + 2, rest, "other", "one")
            texts = [token.text for token in tokens]
    for at in range(2, len(texts) - 1):
        if texts[at] == "leave" and texts[at - 1] not in _LEADS and texts[at + 1] in _DETERMINERS | POINTS:
            return put_words(tokens, at, at, BREAK)
    return tokens


def _untouched(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "I won't touch the lower one", "no need to touch that": I'd leave it."""
    at = next((i for i in range(2, len(texts)) if texts[i] in {"touch", "touching"}), 0)
    begin = at
    if at and texts[at - 3 : at] == ["no", "need", "to"]:
        begin = at - 3
    elif at > 2 and texts[at - 1] == "not" and texts[at - 3] in {"i", "we"}:
        begin = at - 3  # "I will not touch", "I am not touching"
    elif texts[max(0, at - 5) : at] in (
        ["i", "am", "not", "going", "to"],
        ["we", "are", "not", "going", "to"],
    ):
        begin = at - 5
    if begin == at or len(texts) - at > _REACH + 1:
        return tokens
    bare = at + 1 >= len(texts)
    if bare and not begin:
        return tokens
    return put_words(tokens, begin, at + 1, "i", "would", "leave")


def _left_alone(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Leave that where it is", "leave them be": leave it."""
    at = next((i for i, text in enumerate(texts[:-2]) if text == "leave"), -1)
    if at < 0 or texts[at + 1] not in {"it", "that", "this"}:
        return tokens
    begin = at + 2 + (texts[at + 2] in {"one", "ones"})
    alone = next((n for n in (2, 1) if tuple(texts[begin : begin + n]) in _TO_ITSELF), 0)
    if not alone and tuple(texts[begin : begin + 1]) in _AS_IT_IS and texts[begin + 2 : begin + 3]:
        alone = 3 if texts[begin + 2] in _BE and texts[begin + 1] in POINTS else 0
    return put_words(tokens, begin, begin + alone) if alone and ended(texts, begin + alone) else tokens


def _stays(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "They're staying put", "the pin can stop where it is", "stays in service": it stays."""
    for at in range(1, len(texts)):
        staying = texts[at] == "staying" and texts[at - 1] in _BE
        stops = texts[at] in {"stop", "stay"} and texts[at - 1] in _MAY
        stops = stops and at > 1 and texts[at - 2] not in _PERSONS  # not "I'll stop there"
        if not staying and not stops and texts[at] not in {"stays", "stay"}:
            continue
        end = at + 1
        end += next((len(one) for one in _STILL if tuple(texts[end : end + len(one)]) == one), 0)
        where = end == at + 1 and tuple(texts[end : end + 1]) in _AS_IT_IS
        if where and texts[end + 2 : end + 3] in (["is"], ["are"]):
            end += 3
        if not ended(texts, end) or (end == at + 1 and texts[at] in {"stays", "stay"}):
            continue
        return put_words(tokens, at - 1 if staying else at, end, "stay" if stops else "stays")
    return tokens


def _kept_there(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Keep the lower one": it stays; "keep the screws" may mean where they are put."""
    for at in range(len(texts) - 2):
        if texts[at] != "keep" or texts[at + 1] != "the" or (at and texts[at - 1] not in {BREAK, "and", "i"}):
            continue
        one = len(texts) - 1 if texts[-1] == "one" else len(texts)
        place = lexicon.match(tuple(texts), at + 2)
        if place is not None and place[1] is not None and place[1].positions and at + 2 + place[0] == one:
            return (*put_words(tokens[at + 1 : at + 2 + place[0]], 0, 0), *_words(tokens, at, "one", "stays"))
    return tokens


def _words(tokens: Tokens, at: int, *words: str) -> Tokens:
    return put_words(tokens[at : at + 1], 0, 1, *words)


def _not_wanted(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "The idle needle doesn't want doing": it does not need replacing."""
    for at in range(2, len(texts)):
        if (
            texts[at] == "doing"
            and texts[at - 1] in _WANTS
            and texts[at - 2] == "not"
            and ended(texts, at + 1)
        ):
            return put_words(tokens, at - 1, at + 1, "need", "replacing")
    return tokens


def _as_a_pair(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "They get done as a pair", "you do them in pairs": they want doing, where one of them has a fault."""
    if not texts or texts[0] in _ASKING:
        return tokens
    for at in range(2, len(texts)):
        pair = next((one for one in _AS_PAIR if tuple(texts[at : at + len(one)]) == one), ())
        if not pair or not ended(texts, at + len(pair)) or not _DENIES.isdisjoint(texts[:at]):
            continue
        if texts[at - 1] == "done" and texts[at - 2] in _GET:
            begin = at - 2
            while begin > 1 and texts[begin - 1] in _MAY | _GET | {"to", "have", "always", "should"}:
                begin -= 1
            return put_words(tokens, begin, at + len(pair), "both", "want", "doing") if begin else tokens
        if texts[at - 2 : at] in (["they", "go"], ["these", "go"], ["those", "go"]) and at == 2:
            return put_words(tokens, 0, at + len(pair), "they", "both", "want", "doing")
        if texts[at - 1] in POINTS and texts[at - 2] in {"do", "doing", "change", "changing"}:
            begin = next((i + 1 for i in range(at - 2, -1, -1) if texts[i] in {BREAK, "and", "so"}), 0)
            return put_words(tokens, begin, at + len(pair), "they", "both", "want", "doing")
    return tokens


_FORMS: Final = (_apart, _untouched, _left_alone, _kept_there, _not_wanted, _as_a_pair)
