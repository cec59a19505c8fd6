""" "I'm not buying another one", "it can go back in", "keep it": what is decided, as plain doings. Pure.

The words of the decision give way to those that the grammar knows: not replaced, used again, wants doing.
"""

from __future__ import annotations

from collections.abc import Collection
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import (
    POINTS,
    Form,
    ended,
    put_by_words,
    put_words,
)
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_SIGNS: Final = frozenset(
    ["one", "another", "back", "use", "keep", "keeping", "allowed", "done", "off", "stays", "stay", "do",
     "putting", "leave", "leaving", "again"]
)  # fmt: skip
_NEW_ONE: Final = (("a", "new", "one"), ("another", "one"), ("another",), ("a", "replacement"), ("one",))
_UNABLE: Final = frozenset({"did", "can", "could", "had"})  # "he did not fit a new one", "you can't get one"
_NEEDS: Final = frozenset({"need", "require", "warrant", "deserve", "want"})
_HAD: Final = frozenset(
    ["buying", "getting", "having", "ordering", "fitting", "have", "buy", "order", "want", "wanting", "get",
     "fit"]
)  # fmt: skip
_PERSONS: Final = frozenset(["i", "we", "he", "she", "they", "you", "customer", "owner", "boss", "gaffer"])
_MAY: Final = frozenset({"can", "could", "will", "should", "may", "might"})
_STRAIGHT: Final = frozenset({"straight", "right", "just", "all", "both"})
_ASKS: Final = _MAY | {"would", "do"}
_CLAUSES: Final = frozenset({BREAK, "and", "so", "but", "then"})
_UNSURE: Final = frozenset(
    [("no", "way"), ("no", "chance"), ("no", "one"), ("not", "know"), ("not", "sure"), ("not", "think"),
     ("not", "see"), ("not", "believe"), ("not", "reckon")]
)  # fmt: skip
_BACK_IN: Final = frozenset({"in", "on"})
_LEADS: Final = frozenset(
    [BREAK, "and", "so", "then", "i", "we", "will", "can", "would", "could", "to", "just", "but", "may",
     "might"]
)  # fmt: skip
_NOT_KEPT: Final = frozenset({"not", "never", "to", "you", "they", "he", "she", "people", "who", "which"})
_NOT_GOT: Final = frozenset(
    ["to", "i", "we", "you", "they", "can", "could", "did", "would", "he", "she", "not", "will"]
)  # fmt: skip
_WHETHER: Final = frozenset({"not", "is", "are", "was", "were", "if"})  # "is a new one wanted"
_WANTED: Final = frozenset({"wanted", "needed", "required"})
_MORE: Final = frozenset(
    [("another", "one"), ("another", "of", "those"), ("another", "of", "them"),
     ("another", "one", "of", "those")]
)  # fmt: skip
_LEFT_REACH: Final = 4  # tokens of what is left as it is
_LEFT_ENDS: Final = frozenset({"alone", "be", "as", BREAK, "and", "but", "because", "he", "she", "they"})
_STAYS: Final = frozenset({"put", "on", "in"})
_TWO: Final = {"pair": "both", "two": "both", "both": "both", "lot": "all", "set": "all"}


@called_by(_SIGNS)
def plain_verdicts(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with plain words for what is decided; parts go back in while it is built."""
    return put_by_words(tokens, _BUILDING if state.stage == "as_left" else _STRIPPING, lexicon)


def _behind_new_one(texts: list[str], at: int) -> int:
    """The token behind "a new one", "another" at *at*, where the clause ends there; else 0."""
    for words in _NEW_ONE:
        end = at + len(words)
        if tuple(texts[at:end]) == words and (ended(texts, end) or texts[end : end + 1] == ["for"]):
            return end
    return 0


def _not_new(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "It doesn't need a new one", "I'm not buying another", "he says no to a new one": not replaced."""
    for at in range(1, len(texts) - 1):
        if texts[at - 1] != "not" and texts[at - 1 : at + 1] != ["no", "to"]:
            continue
        if texts[at] == "putting" and texts[at + 1] in POINTS and texts[at + 2 : at + 3] == ["back"]:
            end = at + 3 + (texts[at + 3 : at + 4] != [] and texts[at + 3] in _BACK_IN)
            return put_words(tokens, at, end, "reusing", texts[at + 1])  # "I'm not putting that back"
        behind = at + 1 + (texts[at + 1] == "for" and texts[at] in {"pay", "paying"})
        end = _behind_new_one(texts, behind)
        if not end:
            continue
        if texts[at - 1] == "no":
            begin = at - 2 if at > 1 and texts[at - 2] in {"says", "said", "say"} else at - 1
            begin -= begin > 0 and texts[begin - 1] in _PERSONS
            return put_words(tokens, begin, end, "i", "am", "not", "replacing", "it")
        first = max(at - 3, 0)
        person = not _PERSONS.isdisjoint(texts[first:at])
        if texts[at] in _NEEDS and texts[at - 2 : at - 1] and not person:
            return put_words(tokens, at, end, "need", "replacing")
        has_none = texts[at] == "have" and texts[at - 2] in {"do", "does"}  # "I don't have one"
        if texts[at] in _HAD and (has_none or texts[at - 2] in _UNABLE):
            continue  # whether there is one, or what others did
        wants = texts[at] in {"want", "wanting"} and "new" not in texts[behind:end]  # "don't want another"
        if (texts[at] in _HAD and not wants) or behind > at + 1:
            subject = next((i for i in range(first, at) if texts[i] in _PERSONS), at - 1)
            return put_words(tokens, subject, end, "i", "am", "not", "replacing", "it")
    return tokens


def _goes_back(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "I'll polish that and it can go back in", "they're going back", while it is stripped: used again."""
    for at in range(2, len(texts)):
        going = texts[at - 1 : at + 1] == ["going", "back"] and texts[at - 2] in {"is", "are"}
        going = going and not _denied(texts, at)
        if going and ended(texts, at + 1) and not {"not", "when", "before", "until"} & set(texts[:at]):
            return put_words(tokens, at - 2, at + 1, "can", "go", "again")
    for at in range(1, len(texts) - 1):
        if texts[at : at + 2] != ["go", "back"]:
            continue
        begin = at
        while begin and texts[begin - 1] in _STRAIGHT:
            begin -= 1
        if not begin or texts[begin - 1] not in _MAY or _denied(texts, begin):
            continue
        end = at + 2 + (texts[at + 2 : at + 3] != [] and texts[at + 2] in _BACK_IN)
        end += texts[end : end + 1] == ["again"]
        if ended(texts, end):
            return put_words(tokens, begin - 1, end, "can", "go", "again")
    return tokens


def _denied(texts: list[str], at: int) -> bool:
    """ "No way that can go back", "nobody would say it can": it cannot, or nobody knows."""
    begin = next((i + 1 for i in range(at - 1, -1, -1) if texts[i] in _CLAUSES), 0)
    clause = texts[begin:at]
    return "nobody" in clause or any(pair in _UNSURE for pair in pairwise(clause))


def _no_way_back(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "It can't go back in": it is not used again, and nothing went in."""
    for at in range(2, len(texts) - 1):
        if texts[at : at + 2] == ["go", "back"] and texts[at - 2 : at] in (["can", "not"], ["could", "not"]):
            end = at + 2 + (texts[at + 2 : at + 3] != [] and texts[at + 2] in _BACK_IN)
            return put_words(tokens, at, end, "go", "again")
    return tokens


def _kept(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Clean it up and use it", "we'll keep them": used again; "keep it clean" tells another thing."""
    for at in range(len(texts) - 1):
        if texts[at] not in {"use", "keep", "keeping"} or texts[at + 1] not in POINTS:
            continue
        before = texts[at - 1] if at else BREAK
        if before in {"i", "we"} and at > 1 and texts[at - 2] in _ASKS:
            continue  # "would I keep it"
        if before == "would" and "but" in texts[at:]:
            continue  # "I'd keep that one but it's worn"
        lead = before in _LEADS if texts[at] == "use" else before not in _NOT_KEPT
        kept_as = texts[at + 2 : at + 3] == [BREAK] and texts[at + 3 : at + 4] in (["for"], ["as"])
        if kept_as:
            continue  # "keep it, for a pattern"
        end = at + 2 + (texts[at + 2 : at + 3] in (["one"], ["ones"]))
        if lead and (end >= len(texts) or texts[end] in {BREAK, "and", "but", "then"}):
            return put_words(tokens, at, end, "use", texts[at + 1], "again")
    return tokens


def _allowed(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "The left one's allowed to stay": it can. "It stays on", "stays put": it stays."""
    for at in range(1, len(texts)):
        allowed = texts[at : at + 2] == ["allowed", "to"] and texts[at - 1] in {"is", "are"}
        if allowed and texts[at + 2 : at + 3] != ["be"]:  # not "it's allowed to be ten", the limit
            return put_words(tokens, at - 1, at + 2, "can")
        stays = texts[at - 1] in {"stays", "stay"} and texts[at] in _STAYS
        if stays and ended(texts, at + 1):
            return (*tokens[:at], *tokens[at + 1 :])
    return tokens


def _to_be_done(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "That's got to be done", "it'll have to be done again": it wants doing."""
    for at in range(2, len(texts)):
        if texts[at - 2 : at + 1] != ["to", "be", "done"]:
            continue
        end = at + 1 + (texts[at + 1 : at + 2] == ["again"])
        begin = at - 2
        while begin and texts[begin - 1] in {"has", "have", "got", "will", "is", "are", "needs", "need"}:
            begin -= 1
        if begin < at - 2 and begin and ended(texts, end):
            return put_words(tokens, begin, end, "wants", "doing")
    return tokens


def _said_to_leave(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "He says leave the springs": they are not replaced. "Front ones I'm leaving": I'd leave."""
    for at in range(1, len(texts)):
        if texts[at - 1 : at + 1] == ["am", "leaving"] and texts[max(0, at - 2)] in {"i", "we"}:
            return put_words(tokens, at - 1, at + 1, "would", "leave")
        if texts[at] != "leave" or texts[at - 1] not in {"says", "said", "to"}:
            continue
        persons = (i for i in range(at - 1, max(-1, at - 5), -1) if texts[i] in _PERSONS - {"i", "we"})
        begin = next(persons, None)
        said = begin is not None and not {"says", "said"}.isdisjoint(texts[begin:at])
        rest = texts[at + 1 : _behind_left(texts, at + 1)]
        left = rest in (["it"], ["them"], ["that"]) or _named_last([*texts[: at + 1], *rest], at + 1, lexicon)
        if begin is not None and said and left and len(rest) <= _LEFT_REACH:
            said_off = texts[at + 1 + len(rest) : at + 2 + len(rest)] in (["alone"], ["be"])
            cut = at + 1 + len(rest)
            tokens = (*tokens[:cut], *tokens[cut + said_off :])
            return put_words(tokens, begin, at + 1, "i", "am", "not", "replacing")
    return tokens


def _behind_left(texts: list[str], at: int) -> int:
    """ "says to leave the slides | alone, he'll do without": where what is left ends."""
    ends = (i for i in range(at + 1, len(texts)) if texts[i] in _LEFT_ENDS)
    return next(ends, len(texts))


def _named_last(texts: list[str], begin: int, lexicon: Lexicon) -> bool:
    """True where what is said from *begin* ends with a part: "the springs", not "the springs to soak"."""
    found = [(i, lexicon.match(tuple(texts), i)) for i in range(begin, len(texts))]
    return any(
        one is not None and bool(one[1].parts or one[1].aliases) and i + one[0] == len(texts)
        for i, one in found
    )


def _goes_again(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "It'll flip over and go again": it will."""
    for at in range(2, len(texts) - 1):
        if texts[at : at + 2] == ["go", "again"] and texts[at - 1] == "and" and ended(texts, at + 2):
            may = not {"will", "can"}.isdisjoint(texts[max(0, at - 8) : at])
            return put_words(tokens, at, at + 1, "will", "go") if may else tokens
    return tokens


def _wanted(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "It's scored, new one wanted", "that'll be another one of those": it needs a new one."""
    for at in range(1, len(texts) - 1):
        got = texts[at : at + 2] == ["get", "another"] and texts[at - 1] not in _NOT_GOT
        if got and ended(texts, at + 2 + (texts[at + 2 : at + 3] == ["one"])):
            return put_words(tokens, at, at + 2, "needs", "another")
        if texts[at : at + 2] == ["new", "one"] and texts[at + 2 : at + 3] and texts[at + 2] in _WANTED:
            begin = at - (texts[at - 1] == "a")
            if begin and ended(texts, at + 3) and texts[begin - 1] == "no":
                return put_words(tokens, begin - 1, at + 3, "i", "am", "not", "replacing", "it")
            if begin and ended(texts, at + 3) and texts[begin - 1] not in _WHETHER:
                return put_words(tokens, begin, at + 3, "needs", "a", "new", "one")
        be = texts[at - 1 : at + 1] == ["will", "be"]  # not "that's another one", of what came off
        more = next((n for n in (4, 3, 2) if tuple(texts[at + 1 : at + 1 + n]) in _MORE), 0) if be else 0
        if more and ended(texts, at + 1 + more):
            return put_words(tokens, at - 1, at + 1 + more, "needs", "a", "new", "one")
    return tokens


def _do_both(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Do the pair of them", "I'll do the two of those": both of them."""
    for at in range(len(texts) - 4):
        said = texts[at] == "do" and texts[at + 1] == "the" and texts[at + 2] in _TWO
        if said and texts[at + 3] == "of" and texts[at + 4] in POINTS and ended(texts, at + 5):
            return put_words(tokens, at + 1, at + 5, _TWO[texts[at + 2]], "of", "them")
    return tokens


_FORMS: Final[tuple[tuple[Form, Collection[str] | None], ...]] = (
    (_said_to_leave, {"leave", "leaving"}),
    (_goes_again, {"again"}),
    (_wanted, _WANTED | {"another"}),
    (_do_both, {"do"}),
    (_not_new, {"not", "no"}),
    (_kept, {"use", "keep", "keeping"}),
    (_allowed, {"allowed", "stays", "stay"}),
    (_to_be_done, {"done"}),
    (_no_way_back, {"back"}),
)
_BUILDING: Final = Calls(*_FORMS)
_STRIPPING: Final = Calls(*_FORMS, (_goes_back, {"back"}))
