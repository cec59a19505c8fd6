""" "Toyed with soldering it but decided against it", "could have honed it", "nearly changed it". Pure.

What was thought of and dropped is declined where that is said; what would have been done is not noted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import Form, ended, put_by_words, put_words
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_WE: Final = frozenset({"i", "we"})
# Behind these stands what was thought of, as "soldering it", as "solder it".
_THOUGHT: Final[tuple[tuple[str, ...], ...]] = (
    ("toyed", "with"), ("toyed", "with", "the", "idea", "of"), ("thought", "about"), ("thought", "of"),
    ("considered",), ("was", "thinking", "of"), ("was", "thinking", "about"), ("contemplated",),
    ("had", "thought", "about"), ("had", "thought", "of"), ("wondered", "about"), ("looked", "at"),
    ("flirted", "with"), ("played", "with", "the", "idea", "of"), ("was", "planning", "on"), ("fancied",),
    ("were", "thinking", "of"), ("were", "thinking", "about"), ("debated",), ("had", "considered"),
)  # fmt: skip
_MEANT: Final[tuple[tuple[str, ...], ...]] = (
    ("was", "going", "to"), ("were", "going", "to"), ("was", "about", "to"), ("was", "tempted", "to"),
    ("had", "half", "a", "mind", "to"), ("had", "a", "mind", "to"), ("was", "planning", "to"),
    ("was", "all", "set", "to"), ("had", "planned", "to"), ("was", "minded", "to"), ("was", "inclined", "to"),
    ("were", "tempted", "to"), ("were", "about", "to"), ("planned", "to"), ("meant", "to"),
)  # fmt: skip
_DROPPED: Final[tuple[tuple[str, ...], ...]] = (
    ("decided", "against", "it"), ("decided", "against"), ("decided", "against", "that"),
    ("decided", "not", "to"), ("thought", "better", "of", "it"), ("thought", "better", "of", "that"),
    ("changed", "my", "mind"), ("did", "not"), ("did", "not", "bother"), ("did", "not", "in", "the", "end"),
    ("have", "changed", "my", "mind"), ("will", "not"), ("will", "not", "bother"), ("not", "worth", "it"),
    ("is", "not", "worth", "it"), ("was", "not", "worth", "it"), ("can", "not", "be", "bothered"),
    ("could", "not", "be", "bothered"), ("gave", "up", "on", "it"), ("gave", "up", "on", "that"),
    ("gave", "that", "up"), ("gave", "it", "up"), ("have", "decided", "not", "to"), ("no", "point"),
    ("have", "decided", "against", "it"), ("never", "did"), ("did", "not", "see", "the", "point"),
    ("is", "not", "worth", "the", "bother"), ("let", "it", "be"), ("have", "thought", "better", "of", "it"),
    ("talked", "myself", "out", "of", "it"), ("went", "off", "the", "idea"), ("gave", "it", "a", "miss"),
)  # fmt: skip
_NOT_NOW: Final = (("not", "now"), ("not", "any", "more"), ("not", "anymore"), ("but", "not", "now"))
_NOT_SURE: Final[tuple[tuple[str, ...], ...]] = (
    ("in", "two", "minds", "about"), ("in", "two", "minds", "whether", "to"),
    ("not", "sure", "whether", "to"), ("not", "sure", "about"), ("not", "sure", "if", "i", "should"),
    ("not", "sure", "whether", "i", "should"), ("undecided", "about"), ("undecided", "whether", "to"),
    ("can", "not", "decide", "whether", "to"), ("do", "not", "know", "whether", "to"), ("torn", "about"),
    ("not", "sure", "we", "should"),
)  # fmt: skip
_THEY: Final = frozenset({"they", "he", "she"})
_STILL: Final = frozenset({"meant", "planned", "planning"})  # "was planning to": it may be done still
_JOINS: Final = frozenset({BREAK, "but", "and", "then", "though", "only", "in", "the", "end"})
_BEFORE: Final = frozenset({"i", "we", "it", "that", "there", "is", "was", "have"})
_HAVE_NOT: Final = frozenset({"could", "should", "might"})
_OUGHT: Final = (("ought", "to", "have"), ("was", "meant", "to", "have"), ("needed", "to", "have"))
_THINGS: Final = frozenset({"that", "it", "this", "which", "they"})  # "that should have cleaned it"
_NEARLY: Final = frozenset({"nearly", "almost"})
_REACH: Final = 12  # tokens from what was thought of to its being dropped


@called_by({"toyed", "thought", "considered", "thinking", "contemplated", "wondered", "looked", "flirted",
            "played", "planning", "fancied", "debated", "going", "about", "tempted", "mind", "set",
            "planned", "minded", "inclined", "meant", "could", "should", "might", "ought", "nearly",
            "almost", "instead", "minds", "whether", "torn", "undecided", "sure"})  # fmt: skip
def plans_dropped(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with what was thought of as not to be done, without what would have been done."""
    return put_by_words(tokens, _FORMS, lexicon)


def _longest(texts: Sequence[str], at: int, phrases: Sequence[tuple[str, ...]]) -> int:
    """The token behind the longest of *phrases* that stands at *at*; 0 for none."""
    return max((at + len(one) for one in phrases if tuple(texts[at : at + len(one)]) == one), default=0)


def _dropped_at(texts: Sequence[str], begin: int) -> tuple[int, int]:
    """Where "… but decided against it" begins and ends behind *begin*; (0, 0) where nothing is dropped."""
    for at in range(begin + 1, min(len(texts), begin + _REACH)):
        now = _longest(texts, at, _NOT_NOW)
        if now and (ended(texts, now) or text_at(texts, now) in {"new", "it"}):
            return at, now  # "was going to skim it, not now, new drum"
        if texts[at] not in _JOINS:
            continue
        said = at
        while text_at(texts, said) in _JOINS | _BEFORE and not _longest(texts, said, _DROPPED):
            said += 1
        end = _longest(texts, said, _DROPPED)
        if end and (ended(texts, end) or text_at(texts, end) in {"because", "in", "again", "this"}):
            return at, end + 3 * (texts[end : end + 3] == ["in", "the", "end"])
    return 0, 0


def _thought_of(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Thought about honing it but didn't": not honing it; "was going to hone it but it's deep": neither."""
    for at in range(len(texts) - 2):
        begin = _longest(texts, at, _THOUGHT)
        to_do = not begin
        begin = begin or _longest(texts, at, _MEANT)
        theirs = begin and text_at(texts, at - 1) in _THEY
        dropped = _dropped_at(texts, begin)[1] if theirs else 0
        if dropped:
            return (*tokens[: at - 1], *tokens[dropped:])  # "they were going to replace it but never did"
        if not begin or (at and texts[at - 1] not in _WE | _JOINS | {"just", "had", "so", "well", "only"}):
            continue
        oils = to_do and texts[begin : begin + 1] in (["grease"], ["oil"]) and "but" in texts[begin:]
        if oils and not _dropped_at(texts, begin)[0]:
            return (*tokens[: at - (at > 0 and texts[at - 1] in _WE)], *tokens[begin + 1 :])
        verb = lexicon.match(tuple(texts), begin) if text_at(texts, begin) not in {"", BREAK} else None
        cut, end = _dropped_at(texts, begin)
        first = at - (at > 0 and texts[at - 1] in _WE)
        if cut:
            not_so = ("i", "will", "not") if to_do else ("i", "am", "not")
            words = [BREAK, "so"] if text_at(texts, end) == "new" else [BREAK] if end < len(texts) else []
            pause = [replace(tokens[at], text=word) for word in words]
            return (
                *tokens[:first],
                *put_words(tokens[at:cut], 0, begin - at, *not_so),
                *pause,
                *tokens[end:],
            )
        if verb is None or not verb[1].acts or verb[1].acts[0].form != ("base" if to_do else "ing"):
            continue
        still = _STILL.isdisjoint(texts[at:begin]) and texts[begin - 2 : begin - 1] != ["thinking"]
        if "but" in texts[begin:] or still:
            return (*tokens[:first], *tokens[begin + verb[0] :])
    return tokens


def _would_have(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Could have soaked it, I suppose", "should have cleaned it": was not done."""
    for at in range(len(texts) - 2):
        have = texts[at] in _HAVE_NOT and texts[at + 1] == "have"
        begin = at + 2 + (text_at(texts, at + 2) == "been") if have else _longest(texts, at, _OUGHT)
        if not begin or text_at(texts, at - 1) in _THINGS or text_at(texts, begin) in {"", BREAK}:
            continue
        verb = lexicon.match(tuple(texts), begin)
        if verb is None or not verb[1].acts or verb[1].acts[0].form != "past" or verb[1].conditions:
            continue
        first = at - (at > 0 and texts[at - 1] in _WE | {"you", "he", "really"})
        return (*tokens[:first], *tokens[begin + verb[0] :])
    return tokens


def _nearly(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "I nearly replaced the hose": it was not."""
    at = next((i for i in range(len(texts) - 1) if texts[i] in _NEARLY), -1)
    if at < 0 or texts[at + 1] == BREAK or (at and texts[at - 1] not in _WE | _JOINS | {"so", "well"}):
        return tokens
    verb = lexicon.match(tuple(texts), at + 1)
    if verb is None or not verb[1].acts or verb[1].acts[0].form != "past" or verb[1].conditions:
        return tokens
    first = at - (at > 0 and texts[at - 1] in _WE)
    cut, end = _dropped_at(texts, at + 1)
    end = end if cut else len(texts)
    return (*tokens[:first], *tokens[at + 1 + verb[0] : cut or end], *tokens[end:])


def _undecided(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "I'm in two minds about replacing it", "not sure whether to lap it": nothing is decided."""
    for at in range(len(texts) - 2):
        end = _longest(texts, at, _NOT_SURE)
        if not end or (at and texts[at - 1] not in _WE | _JOINS | {"am", "are", "so", "still"}):
            continue
        verb = lexicon.match(tuple(texts), end) if text_at(texts, end) not in {"", BREAK} else None
        if verb is not None and verb[1].acts:  # "not sure about that seal, it's hard" tells of the seal
            return put_words(tokens, at, end, "i", "wonder", "whether", "to")
    return tokens


def _instead(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Stuck a new one on instead": a new one is on."""
    gone = {at for at, text in enumerate(texts) if at and text == "instead" and ended(texts, at + 1)}
    return tuple([token for at, token in enumerate(tokens) if at not in gone]) if gone else tokens


_FORMS: Final[Calls[Form]] = Calls(
    (_instead, {"instead"}),
    (_undecided, {"minds", "whether", "torn", "undecided", "sure"}),
    (_thought_of, None),
    (_would_have, {"could", "should", "might", "ought"}),
    (_nearly, _NEARLY),
)
