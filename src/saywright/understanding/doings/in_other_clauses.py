""" "First thing I did was drain it", "a new one's coming", "could do with a clean": in plain words. Pure."""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import LUBRICANTS
from saywright.understanding.doings.roundabout import (
    POINTS,
    Form,
    ended,
    put_by_words,
    put_words,
)
from saywright.understanding.meanings import NOTHING
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_SIGNS: Final = frozenset(
    ["thing", "all", "what", "order", "ordered", "coming", "way", "sent", "could", "forget", "instead",
     "rather", "inside", "grease", "oil", "keeping", "drain", "not"]
)  # fmt: skip
_ONES: Final = (
    ("a", "new", "one"), ("a", "replacement"), ("another", "one"), ("another",), ("new", "one"),
    ("new", "ones"), ("one",),
)  # fmt: skip
_COMING: Final = (
    ("on", "order"), ("ordered",), ("coming",), ("on", "its", "way"), ("on", "the", "way"),
    ("on", "their", "way"), ("in", "the", "post"),
)  # fmt: skip
_DAYS: Final = frozenset(
    ["yesterday", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "morning",
     "week", "already"]
)  # fmt: skip
_DAY_LEADS: Final = frozenset({"on", "last", "this"})
_BUT_REACH: Final = 7  # tokens of "and the pilot jets do not"
_DAY_REACH: Final = 7  # tokens from "ordered" to the day
_BUYS: Final = frozenset(
    ["buy", "buying", "get", "getting", "fit", "fitting", "order", "ordering", "have", "having", "by"]
)
_CLAUSES: Final = frozenset({BREAK, "and", "so", "but", "then", "or"})
_BASES: Final = frozenset({"order", "replace", "clean", "scrap", "soak", "lap", "polish", "lubricate"})
_HAS_TO: Final = frozenset({"need", "needs", "want", "wants", "have", "has", "had", "going"})
_DO_NOT: Final = frozenset({"do", "does", "is", "are", "will", "did"})


@called_by(_SIGNS)
def in_other_clauses(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with plain words for what was done, ordered, wanted or given up.

    While the job goes back together what is kept is no more than held.
    """
    return put_by_words(tokens, _BUILDING if state.stage == "as_left" else _STRIPPING, lexicon)


def _thing_i_did(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "First thing I did was drain the bowl", "all I did was clean it": I had to."""
    for at in range(1, len(texts) - 3):
        if texts[at : at + 3] not in (["i", "did", "was"], ["we", "did", "was"]):
            continue
        begin = at - 1 - (texts[at - 1] == "thing")
        if texts[max(0, begin)] not in {"first", "next", "last", "only", "all", "what", "other"}:
            return tokens
        begin -= begin > 0 and texts[begin - 1] in {"the", "very"}
        end = at + 3 + (texts[at + 3] == "to")
        return put_words(tokens, max(0, begin), end, "i", "had", "to")
    return tokens


def _is_coming(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "A new one's on order", "one's on its way": I have ordered one."""
    for at in range(1, len(texts) - 1):
        if texts[at] not in {"is", "are"} or texts[at + 1] not in {
            "on",
            "ordered",
            "coming",
            "in",
            "already",
        }:
            continue
        begin = at + 1 + (texts[at + 1] == "already")
        said = next((one for one in _COMING if tuple(texts[begin : begin + len(one)]) == one), ())
        new = next((one for one in _ONES if tuple(texts[max(0, at - len(one)) : at]) == one), ())
        clause = at - len(new)
        if not said or not new or not ended(texts, begin + len(said)):
            continue
        if new == ("one",) and said == ("coming",):
            continue
        if clause and texts[clause - 1] not in _CLAUSES | {"there"}:
            continue  # "the left one is coming"
        return put_words(tokens, clause, begin + len(said), "i", "have", "ordered", _them(new))
    return tokens


def _them(new: tuple[str, ...]) -> str:
    return "them" if new[-1] == "ones" else "it"


def _sent_off(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "I sent off for both yesterday": I ordered both."""
    for at in range(len(texts) - 3):
        if texts[at] == "sent" and texts[at + 1] in {"off", "away"} and texts[at + 2] == "for":
            plain = put_words(tokens, at, at + 3, "ordered")
            return _on_a_day(plain, [token.text for token in plain], lexicon)
    return tokens


def _on_a_day(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "The hose was ordered on Monday": it was ordered."""
    at = next((i for i, text in enumerate(texts) if text == "ordered"), None)
    if at is None:
        return tokens
    day = next((i for i in range(at + 1, min(len(texts), at + _DAY_REACH)) if texts[i] in _DAYS), None)
    if day is None or not ended(texts, day + 1) or not _CLAUSES.isdisjoint(texts[at:day]):
        return tokens
    begin = day - (texts[day - 1] in _DAY_LEADS)
    return (*tokens[:begin], *tokens[day + 1 :])


def _could_do_with(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "The cable could do with a drop of oil": it needs one; not "I could do with a coffee"."""
    for at in range(1, len(texts) - 3):
        if texts[at : at + 3] == ["could", "do", "with"] and texts[at - 1] not in {
            "i",
            "we",
            "you",
            "he",
            "she",
        }:
            return put_words(tokens, at, at + 3, "needs")
    return tokens


def _forgotten(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Don't let me forget to order one": order one. "Forget the soldering": I am not doing that."""
    at = texts.index("forget") if "forget" in texts else 0
    if texts[at : at + 1] != ["forget"]:
        return tokens
    if texts[max(0, at - 4) : at] == ["do", "not", "let", "me"] and texts[at + 1 : at + 2] == ["to"]:
        return put_words(tokens, at - 4, at + 2, "i", "need", "to")
    if texts[max(0, at - 2) : at] == ["do", "not"] and texts[at + 1 : at + 2] == ["to"]:
        return put_words(tokens, at - 2, at + 2, "i", "need", "to")
    doing = at + 1 + (texts[at + 1 : at + 2] in (["the"], ["about"]))
    known = lexicon.table.get(tuple(texts[doing : doing + 1]), NOTHING)
    if (
        doing < len(texts)
        and known.acts
        and texts[doing].endswith("ing")
        and (not at or texts[at - 1] in _FREE)
    ):
        return put_words(tokens, at, doing + 1, "i", "am", "not", texts[doing], "it", BREAK)
    return tokens


_FREE: Final = _CLAUSES | {"no", "nah", "just", "right", "okay", "oh", "well"}


def _instead_of_buying(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "I'll lap it rather than buy one": instead of replacing it."""
    for at in range(1, len(texts) - 3):
        if texts[at : at + 2] not in (["instead", "of"], ["rather", "than"]) or texts[at + 2] not in _BUYS:
            continue
        new = next((one for one in _ONES if tuple(texts[at + 3 : at + 3 + len(one)]) == one), ())
        if new and ended(texts, at + 3 + len(new)):
            return put_words(tokens, at, at + 3 + len(new), "instead", "of", "replacing", "it")
    return tokens


_IFS: Final = frozenset(
    ["if", "when", "before", "once", "until", "till", "after", "shall", "should", "do", "can", "every",
     "always", "usually", "normally", "later", "tomorrow"]
)  # fmt: skip
_DRAINS: Final = frozenset({"will", "would", "just", "not", "i", "we"})


def _drained(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Drain the bowls": drain them off; not the drain plug."""
    if not lexicon.table.get(("drained",), NOTHING).acts or lexicon.table.get(("drain",), NOTHING).parts:
        return tokens
    for at in range(len(texts) - 1):
        before = texts[at - 1] if at else BREAK
        told = before == "to" and at > 1 and texts[at - 2] in _HAS_TO  # not "tell him to drain it"
        verb = texts[at] == "drain" and (told or before in _CLAUSES | _DRAINS)
        if verb and texts[at + 1] in POINTS | {"the", "all", "both"}:
            mine = before in {"i", "we"}
            if mine and not _IFS.isdisjoint(texts[: at - 1]):
                return tokens  # "every spring I drain the bowl"
            return put_words(tokens, at, at + 1, *(("drained",) if mine else ("drain", "off")))
    return tokens


def _inside_and_out(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Cleaned the caliper inside and out": all of it, and nothing came out."""
    for at in range(1, len(texts) - 2):
        if texts[at : at + 3] == ["inside", "and", "out"] and ended(texts, at + 3):
            return (*tokens[:at], *tokens[at + 3 :])
    return tokens


def _some_grease(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Put some grease on the pins": a bit of grease, and no part went on."""
    for at in range(len(texts) - 2):
        named = lexicon.table.get((texts[at + 1],), NOTHING).parts
        if texts[at - 1 : at + 1] == ["put", "some"] and texts[at + 1] in LUBRICANTS and not named:
            return put_words(tokens, at, at + 1, "a", "bit", "of")
    return tokens


def _keeping(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "The left one I'm keeping", "I'm keeping the left one": it stays."""
    for at in range(1, len(texts)):
        if texts[at] != "keeping" or texts[at - 1] != "am" or texts[at - 2 : at - 1] != ["i"]:
            continue
        if at > 2 and ended(texts, at + 1) and texts[at - 3] not in _CLAUSES:
            return put_words(tokens, at - 2, at + 1, "stays")
        rest = at + 1 + (texts[at + 1 : at + 2] == ["the"])
        place = lexicon.match(tuple(texts), rest) if rest < len(texts) else None
        if place is None or not (place[1].positions or place[1].parts) or texts[at + 1] in POINTS:
            return tokens
        end = rest + place[0]
        end += texts[end : end + 1] == ["one"]
        if ended(texts, end):
            named = tuple(token for token in tokens[at + 1 : end] if token.text != "one" or place[1].parts)
            one = () if place[1].parts else ("one",)
            return (
                *tokens[: at - 2],
                *named,
                *put_words(tokens[at : at + 1], 0, 1, *one, "stays"),
                *tokens[end:],
            )
    return tokens


def _but_not(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Order both mains but not the pilots", "these get replaced and the pilots don't": do not do those."""
    if "not" not in texts[2:]:
        return tokens
    act = _act_before(texts, lexicon)
    if not act:
        return tokens
    at = next((i for i in range(1, len(texts) - 2) if texts[i : i + 3] == ["but", "not", "the"]), 0)
    if at:
        named = lexicon.match(tuple(texts), at + 3) if at + 3 < len(texts) else None
        end = at + 3 + (named[0] if named is not None and (named[1].parts or named[1].positions) else 0)
        end += texts[end : end + 1] == ["one"]
        if end == at + 3 or not ended(texts, end):
            return tokens
        return put_words(tokens, at, at + 2, BREAK, "do", "not", act)
    last = len(texts) - 1
    joins = [i for i in range(1, last - 1) if texts[i] in {"and", "but"} and texts[i + 1] == "the"]
    if not joins or texts[last] != "not" or texts[last - 1] not in _DO_NOT or last - joins[-1] > _BUT_REACH:
        return tokens
    begin = joins[-1]
    said = tuple(texts[begin + 1 : last - 1])
    if not any((m := lexicon.match(said, i)) and (m[1].parts or m[1].positions) for i in range(len(said))):
        return tokens
    head = put_words(tokens, begin, begin + 1, BREAK, "do", "not", act)
    return head[: len(head) - 2]


def _act_before(texts: list[str], lexicon: Lexicon) -> str:
    """What the first verb of doing tells to do to the others: "order", "replace"; "" for what was done."""
    for at, text in enumerate(texts):
        known = lexicon.table.get((text,), NOTHING)
        if not known.acts or known.parts:
            continue
        act = known.acts[0]
        gets = texts[at - 1 : at] in (["get"], ["gets"]) or "be" in texts[max(0, at - 1) : at]
        return act.id if act.id in _BASES and (act.form == "base" or gets) else ""
    return ""


_FORMS: Final[tuple[tuple[Form, Collection[str] | None], ...]] = (
    (_thing_i_did, {"did"}),
    (_is_coming, {"is", "are"}),
    (_sent_off, {"sent"}),
    (_on_a_day, {"ordered"}),
    (_could_do_with, {"could"}),
    (_forgotten, {"forget"}),
    (_instead_of_buying, {"instead", "rather"}),
    (_inside_and_out, {"inside"}),
    (_drained, {"drain"}),
    (_some_grease, {"some"}),
    (_but_not, {"not"}),
)
_BUILDING: Final = Calls(*_FORMS)
_STRIPPING: Final = Calls(*_FORMS, (_keeping, {"keeping"}))
