""" "The main only got blown through", "wants a load test", "no one's paying me to clean it". Pure.

Doings told with words between that the grammar does not look past, and what people in general do.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.act_forms import ing_forms
from saywright.understanding.doings.roundabout import POINTS, Form, put_by_words, put_words
from saywright.understanding.meanings import NOTHING, Act
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_GOT: Final = frozenset({"got", "gets", "get", "needed", "needs", "wants"})
_WANTS: Final = frozenset({"wants", "want", "needs", "need", "due"})
_NOBODY: Final[tuple[tuple[str, ...], ...]] = (
    ("nobody", "is"), ("no", "one", "is"), ("he", "is", "not"), ("they", "are", "not"),
    ("customer", "is", "not"), ("owner", "is", "not"),
)  # fmt: skip
_NOT_PAID: Final[tuple[tuple[str, ...], ...]] = (
    ("i", "am", "not", "paid"), ("i", "am", "not", "being", "paid"), ("i", "do", "not", "get", "paid"),
    ("we", "are", "not", "paid"),
)  # fmt: skip
_MANY: Final = frozenset({"some", "others", "most", "plenty", "lots", "many"})
_FOLK: Final = frozenset({"people", "folk", "folks", "lads", "blokes", "shops", "places", "garages", "will"})
_OBJECTS: Final = POINTS | {"the", "a", "an", "any", "both", "his", "my"}
_OILS: Final = frozenset({"grease", "oil"})


@called_by({"only", "just", *_WANTS, "paying", "paid", "never", "used", *_MANY})
def plain_clauses(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* without such words, with "you" for what people in general do."""
    return put_by_words(tokens, _FORMS, lexicon)


def _act(texts: list[str], at: int, form: str, lexicon: Lexicon) -> tuple[Act, int] | None:
    """The doing told in *form* at *at*, with the token behind it."""
    if text_at(texts, at) in {"", BREAK}:
        return None
    if form == "base" and texts[at] in _OILS and text_at(texts, at + 1) in _OBJECTS:
        return Act(texts[at], form), at + 1
    known = lexicon.match(tuple(texts), at)
    acts = known[1].acts if known is not None else NOTHING.acts
    return (acts[0], at + known[0]) if known is not None and acts and acts[0].form == form else None


def _only_got(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "The main only got blown through": got blown through."""
    for at in range(1, len(texts) - 2):
        if texts[at] not in {"only", "just"} or texts[at + 1] not in _GOT or texts[at - 1] == BREAK:
            continue
        get = texts[at + 1] in {"got", "gets", "get"}
        acted = _act(texts, at + 2, "past" if get else "ing", lexicon)
        if acted is not None and (texts[at] == "only" or get):
            return (*tokens[:at], *tokens[at + 1 :])
    return tokens


def _wants_a_test(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "It wants a load test": it needs load testing; what is of two words begins like a part."""
    for at in range(len(texts) - 2):
        if texts[at] not in _WANTS or texts[at + 1] not in {"a", "another"}:
            continue
        acted = _act(texts, at + 2, "base", lexicon)
        if acted is None or acted[1] < at + 4 or not lexicon.names(tuple(texts[: at + 3]), at + 2).aliases:
            continue
        ing = next(iter(ing_forms(acted[0].id, lexicon)), ())
        if ing:
            return put_words(tokens, at, acted[1], "needs", *ing)
    return tokens


def _not_paid_for(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "No one's paying me to clean that", "I'm not paid to polish it": it is not done."""
    for at in range(len(texts) - 3):
        who = next((one for one in _NOBODY if tuple(texts[at : at + len(one)]) == one), ())
        end = at + len(who)
        if who and texts[end : end + 3] in (["paying", "me", "to"], ["paying", "us", "to"]):
            end += 3
        else:
            who = next((one for one in _NOT_PAID if tuple(texts[at : at + len(one)]) == one), ())
            end = at + len(who) + 1
        if who and texts[end - 1] == "to" and _act(texts, end, "base", lexicon):
            return put_words(tokens, at, end, "i", "will", "not")
    return tokens


def _what_people_do(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Some wash them in petrol", "never polish a disc with emery": what one does, or does not."""
    for at in range(len(texts) - 2):
        if at and texts[at - 1] not in {BREAK, "and", "but", "so", "you", "i", "we"}:
            continue
        begin = at + 1 + (text_at(texts, at + 1) in _FOLK)
        rule = texts[at] == "never" and text_at(texts, at - 1) != "you"
        folk = texts[at] in _MANY and text_at(texts, at - 1) not in {"i", "we", "you"}
        acted = _act(texts, begin, "base", lexicon) if rule or folk else None
        if acted is None or text_at(texts, acted[1]) not in _OBJECTS:
            continue
        if folk and texts[begin] in _OILS and texts[acted[1]] not in POINTS:
            continue  # "some rust and some grease the shaft's stiff"
        if rule and texts[acted[1]] not in {"a", "an", "any"} and text_at(texts, at - 1) not in {"i", "we"}:
            continue  # "never clean the disc" may tell of what was not done
        first = at - (text_at(texts, at - 1) in {"i", "we"})
        return put_words(tokens, first, begin, *(("you", "never") if rule else ("you",)))
    return tokens


def _used_again(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Same pin as before, used it again": it was reused."""
    for at in range(len(texts) - 2):
        led = not at or texts[at - 1] in {BREAK, "and", "so", "i", "we", "just"}
        if texts[at] == "used" and led and texts[at + 1] in POINTS and texts[at + 2] == "again":
            return put_words(tokens, at, at + 3, "reused", texts[at + 1])
    return tokens


_FORMS: Final[Calls[Form]] = Calls(
    (_only_got, {"only", "just"}),
    (_wants_a_test, _WANTS),
    (_used_again, {"used"}),
    (_not_paid_for, {"paying", "paid"}),
    (_what_people_do, {"never", *_MANY}),
)
