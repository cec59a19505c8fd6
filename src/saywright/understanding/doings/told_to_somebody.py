""" "Get that greased, will you", "don't go oiling it", "have the lad clean it": orders to others. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import Form, put_by_words, put_words
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_BEGINS: Final = frozenset(
    ["", BREAK, "and", "then", "so", "right", "okay", "now", "well", "but", "please", "also", "oh", "just",
     "here", "you"]
)  # fmt: skip
_SPEAKS: Final = frozenset({"i", "we", "could", "to", "will", "should", "can", "they", "he", "who", "if"})
_OBJECTS: Final = frozenset({"the", "that", "this", "those", "these", "it", "them", "both", "all", "its"})
_OBJECT: Final = 6  # tokens of "those two lower guide pins"
_WOULD_YOU: Final = frozenset([("will", "you"), ("would", "you"), ("can", "you"), ("could", "you")])
_WHOM: Final = frozenset(
    ["him", "her", "them", "lad", "apprentice", "somebody", "someone", "boy", "lads", "machinist", "shop"]
)  # fmt: skip
_BID: Final = frozenset({"him", "her", "them", "me", "us"})  # "persuaded him to have it replaced"
_SURE: Final = (
    ("make", "sure", "you"), ("be", "sure", "to"), ("make", "certain", "you"), ("see", "that", "you"),
    ("remember", "to"), ("mind", "you"), ("make", "sure", "to"), ("you", "had", "better"),
)  # fmt: skip
_NEVER_DO: Final = (
    ("do", "not", "go"), ("do", "not", "be"), ("do", "not", "start"), ("no", "need", "to", "go"),
    ("do", "not", "you", "go"), ("you", "do", "not", "want", "to", "go"), ("do", "not", "ever", "go"),
)  # fmt: skip
_DO_NOT: Final = (
    ("do", "not", "you", "dare"), ("do", "not", "you"), ("mind", "you", "do", "not"), ("do", "not", "ever"),
    ("make", "sure", "you", "do", "not"), ("see", "that", "you", "do", "not"), ("be", "sure", "not", "to"),
    ("make", "sure", "not", "to"),
)  # fmt: skip
_OILS: Final = frozenset({"grease", "oil"})  # a noun elsewhere
_BIDS: Final = frozenset({"do", "did", "will", "would", "must", "should", "better", "can", "does"})
_WAYS: Final = frozenset({"off", "out", "in", "on", "down", "up", "back"})


@called_by({"get", "have", "go", "be", "start", "sure", "dare", "mind", "ever", "you", "certain", "see",
            "remember", "let", "grease", "oil", "refuse"})  # fmt: skip
def told_to_somebody(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with what somebody is told to do as what is needed, and what he is not to do as declined."""
    return put_by_words(tokens, _FORMS, lexicon)


def _first(texts: Sequence[str], at: int, phrases: Sequence[tuple[str, ...]]) -> int:
    """The token behind the longest of *phrases* that stands at *at*; 0 for none."""
    return max((at + len(one) for one in phrases if tuple(texts[at : at + len(one)]) == one), default=0)


def _asked(texts: Sequence[str], at: int) -> bool:
    """True where "will you", "please", "for me" is said in the clause or behind it."""
    rest = tuple(texts[at:])
    pairs = {tuple(rest[i : i + 2]) for i in range(len(rest) - 1)}
    return "please" in rest or ("for", "me") in pairs or any(rest[-2:] == one for one in _WOULD_YOU)


def _act(texts: Sequence[str], at: int, form: str, lexicon: Lexicon) -> int:
    """The token behind the word of doing in *form* at *at*; 0 where none stands there."""
    if text_at(texts, at) in {"", BREAK}:
        return 0
    if form == "base" and texts[at] in _OILS and text_at(texts, at + 1) in _OBJECTS:
        return at + 1
    known = lexicon.match(tuple(texts), at)
    return at + known[0] if known is not None and known[1].acts and known[1].acts[0].form == form else 0


def _get_it_done(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Get that handle greased, will you": it needs it; "get the hose off, will you": it is not off."""
    for at in range(len(texts) - 2):
        verb = texts[at]
        bid = text_at(texts, at - 1) == "to" and text_at(texts, at - 2) in _BID
        if verb not in {"get", "have"} or not (bid or text_at(texts, at - 1) in _BEGINS):
            continue
        if verb == "have" and not bid and not _asked(texts, at):
            continue
        if texts[at + 1] not in _OBJECTS:
            continue
        for end in range(at + 2, min(at + 2 + _OBJECT, len(texts))):
            if texts[end] == BREAK:
                break
            if _act(texts, end, "past", lexicon):
                begin = 0 if bid else at - (text_at(texts, at - 1) == "you")
                needs = put_words(tokens[at : at + 1], 0, 1, "needs")
                return (*tokens[:begin], *tokens[at + 1 : end], *needs, *tokens[end:])
            if texts[end] in _WAYS and not bid and _asked(texts, end):
                return put_words(tokens, at, at, "need", "to")
    return tokens


def _whom(texts: Sequence[str], at: int) -> int:
    """The token behind "him", "the lad" at *at*; 0 for anything else."""
    begin = at + (text_at(texts, at) in {"the", "a", "our", "my"})
    return begin + 1 if text_at(texts, begin) in _WHOM else 0


def _by_whom(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Have the lad clean it", "I'll let him hone it", "get him to lap it": it is to be done."""
    for at in range(len(texts) - 2):
        who = _whom(texts, at + 1) if texts[at] in {"get", "have", "let"} else 0
        begin = who + (text_at(texts, who) == "to") if who else 0
        if not begin or not _act(texts, begin, "base", lexicon) or "not" in texts[:at]:
            continue
        if "to" in texts[max(0, at - 1) : at] or texts[max(0, at - 1)] in {"did", "you"}:
            continue
        start = at
        while start and texts[start - 1] in {"i", "we", "will", "would", "can", "just"}:
            start -= 1
        return put_words(tokens, start, begin, "need", "to")
    return tokens


def _make_sure(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Make sure you grease the pins", "make sure the pins are greased": they need it."""
    for at in range(len(texts) - 2):
        end = _first(texts, at, _SURE)
        if end and text_at(texts, at - 1) in _BEGINS and _act(texts, end, "base", lexicon):
            return put_words(tokens, at, end, "need", "to")
        made = texts[at : at + 2] in (["make", "sure"], ["make", "certain"]) and at + 2
        if not made or text_at(texts, at - 1) not in _BEGINS or text_at(texts, made) not in _OBJECTS:
            continue
        ends = range(made + 1, min(made + _OBJECT, len(texts) - 1))
        be = next((i for i in ends if texts[i] in {"is", "are"} and _act(texts, i + 1, "past", lexicon)), 0)
        if be and BREAK not in texts[made:be]:
            return (*tokens[:at], *tokens[made:be], *put_words(tokens[be:], 0, 1, "needs"))
    return tokens


def _do_not(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Don't go oiling the leathers", "don't you dare grease the pads": it is not to be done."""
    for at in range(len(texts) - 2):
        end = _first(texts, at, _NEVER_DO)
        if end and _act(texts, end, "ing", lexicon):
            return put_words(tokens, at, end, "i", "am", "not")
        end = _first(texts, at, _DO_NOT)
        if end and _act(texts, end, "base", lexicon):
            return put_words(tokens, at, end, "i", "will", "not")
    return tokens


def _not_oil(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "He told me not to grease the axle", "do not grease the pads": the verb, and no stuff."""
    acts = lexicon.names(("lubricate",), 0).acts
    for at in range(1, len(texts) - 1):
        led = texts[at - 1] == "not" or texts[max(0, at - 2) : at] == ["not", "to"]
        if texts[at] in _OILS and led and texts[at + 1] in _OBJECTS and acts and acts[0].form == "base":
            if texts[at - 1] == "not" and text_at(texts, at - 2) not in _BIDS:
                continue  # "that's not oil, it's fluid"
            return put_words(tokens, at, at + 1, "lubricate")
    return tokens


def _refuse(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "I refuse to clean that": I will not."""
    at = next((i for i in range(1, len(texts) - 2) if texts[i : i + 2] == ["refuse", "to"]), 0)
    return put_words(tokens, at, at + 2, "will", "not") if at and texts[at - 1] in {"i", "we"} else tokens


def _would_you(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Could you clean the disc for me": it is to be cleaned; "could you lap that": a question."""
    for at in range(len(texts) - 3):
        if tuple(texts[at : at + 2]) not in _WOULD_YOU or text_at(texts, at - 1) not in _BEGINS:
            continue
        end = at + 2 + (texts[at + 2] in {"just", "please"})
        rest = texts[end:]
        asked = rest[-2:] == ["for", "me"] or rest[-1:] == ["please"] or texts[at + 2] == "please"
        if asked and _act(texts, end, "base", lexicon):
            return put_words(tokens, at, end, "need", "to")
    return tokens


_FORMS: Final[Calls[Form]] = Calls(
    (_get_it_done, {"get", "have"}),
    (_by_whom, {"get", "have", "let"}),
    (_do_not, {"go", "be", "start", "dare", "you", "ever", "sure", "mind"}),
    (_not_oil, _OILS),
    (_refuse, {"refuse"}),
    (_make_sure, {"sure", "certain", "remember", "mind", "see", "better"}),
    (_would_you, {"you"}),
)
