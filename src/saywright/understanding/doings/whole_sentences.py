""" "It is best to lap it", "it is in need of honing", "I had better not hone it": in plain words. Pure."""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import Form, ended, put_by_words, put_words
from saywright.understanding.meanings import NOTHING
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_WE: Final = frozenset({"i", "we"})
_BEGINS: Final = frozenset({BREAK, "and", "so", "but", "then", "think", "guess", "reckon", "now"})
_BE: Final = frozenset({"is", "are"})
_OBJECTS: Final = frozenset(
    {"the", "it", "them", "both", "all", "this", "that", "these", "those", "either", "any", "my"}
)
_OILS: Final = frozenset({"grease", "oil"})
_RATHER_NOT: Final = (
    ("would", "rather", "not"), ("had", "better", "not"), ("will", "not"), ("would", "not"),
    ("shall", "not"), ("need", "not"), ("must", "not"), ("should", "not"),
)  # fmt: skip
_BEST: Final = (
    ("would", "be", "best", "to"), ("is", "best", "to"), ("would", "be", "better", "to"),
    ("will", "be", "best", "to"), ("is", "better", "to"), ("would", "be", "wise", "to"),
)  # fmt: skip
_VAIN: Final = (
    ("is", "not", "worth"), ("is", "pointless"), ("would", "be", "pointless"), ("is", "no", "use"),
    ("is", "no", "good"),
)  # fmt: skip
_NEEDLESS: Final = (("is", "not", "necessary", "to"), ("is", "unnecessary", "to"))
_HOW: Final = frozenset({"dire", "urgent", "desperate", "serious", "great", "real", "bad"})


def _acts(texts: list[str], at: int, forms: Collection[str], lexicon: Lexicon) -> bool:
    """True where a word of doing in one of *forms* stands at *at*, by itself or with its particle."""
    for length in (2, 1):
        known = lexicon.table.get(tuple(texts[at : at + length]), NOTHING)
        if known.acts and known.acts[0].form in forms:
            return True
    return "base" in forms and at < len(texts) and texts[at] in _OILS


def _behind(texts: list[str], at: int, frames: tuple[tuple[str, ...], ...]) -> int:
    """The token behind the frame at *at*; 0 where none of *frames* is."""
    return next((at + len(one) for one in frames if tuple(texts[at : at + len(one)]) == one), 0)


def _rather_not(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "I had better not clean it", "we need not grease both": I am not going to; not "it will not clean"."""
    for at in range(1, len(texts) - 2):
        end = _behind(texts, at, _RATHER_NOT)
        ours = bool(end) and texts[at - 1] in _WE and not _OBJECTS.isdisjoint(texts[end + 1 : end + 2])
        if ours and _acts(texts, end, {"base"}, lexicon):
            return put_words(tokens, at, end, "am", "not", "going", "to")
    return tokens


def _would_rather(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "I would rather clean it": I will; nothing is rather clean."""
    for at in range(1, len(texts) - 2):
        said = texts[at : at + 2] == ["would", "rather"] and texts[at - 1] in _WE
        if said and _acts(texts, at + 2, {"base"}, lexicon):
            return put_words(tokens, at, at + 2, "will")
    return tokens


def _is_best(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "It is best to lap it", "it would be better to hone both": I will."""
    for at in range(1, len(texts) - 3):
        end = _behind(texts, at, _BEST)
        alone = texts[at - 1] == "it" and (at == 1 or texts[at - 2] in _BEGINS)
        if end and alone and _acts(texts, end, {"base"}, lexicon):
            return put_words(tokens, at - 1, end, "i", "will")
    return tokens


def _better_done(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "The seat would be better lapped": it should be."""
    for at in range(1, len(texts) - 2):
        if texts[at : at + 3] == ["would", "be", "better"] and _acts(texts, at + 3, {"past"}, lexicon):
            return put_words(tokens, at, at + 3, "should", "be")
    return tokens


def _in_need(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "The hose is in need of replacing", "both are in dire need of a clean": needs; nothing is in."""
    for at in range(1, len(texts) - 2):
        if texts[at : at + 2] != ["need", "of"]:
            continue
        begin = at - 1 - (texts[at - 1] in _HOW)
        if begin < 1 or texts[begin] != "in":
            continue
        denied = texts[begin - 1] == "not"
        be = begin - 1 - denied
        if be >= 0 and texts[be] in _BE:
            many = texts[be] == "are"
            plain = ("do" if many else "does", "not", "need") if denied else ("need" if many else "needs",)
            return put_words(tokens, be, at + 2, *plain)
    return tokens


def _in_vain(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "It is not worth honing the left one", "it is pointless cleaning it": no point in it."""
    for at in range(1, len(texts) - 2):
        if texts[at - 1] != "it":
            continue
        end = _behind(texts, at, _VAIN)
        way = end + 1 + (tuple(texts[end + 1 : end + 2]) in {("out",), ("up",), ("through",), ("down",)})
        object_said = bool(end) and bool(texts[way : way + 1]) and texts[way] in _OBJECTS
        if object_said and _acts(texts, end, {"ing"}, lexicon):
            return put_words(tokens, at - 1, end, "no", "point", "in")
        end = _behind(texts, at, _NEEDLESS)
        if end and _acts(texts, end, {"base"}, lexicon):
            return put_words(tokens, at - 1, end, "no", "need", "to")
    return tokens


def _deserves(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "The drums deserve honing", "both require cleaning": need it."""
    for at in range(1, len(texts) - 1):
        told = texts[at] in _NEEDED and texts[at - 1] not in {"not", "i", "we", "you", "to"}
        if told and (_acts(texts, at + 1, {"ing"}, lexicon) or texts[at + 1] in {"a", "some"}):
            return put_words(tokens, at, at + 1, _NEEDED[texts[at]])
    return tokens


def _gets_a(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "It gets a good clean", "the pins will get some grease", "it is not getting a wash": needs it."""
    for at in range(1, len(texts) - 2):
        if texts[at] not in _GETS or texts[at + 1] not in {"a", "some"} or not _is_treat(texts, at + 2):
            continue
        begin = at
        while begin and texts[begin - 1] in _AHEAD:
            begin -= 1
        run = set(texts[begin : at + 1])
        if not begin or texts[begin - 1] in _PERSONS or not run & _SURELY:
            continue
        plain = ("does", "not", "need") if "not" in run else ("needs",)
        return put_words(tokens, begin, at + 1, *plain)
    return tokens


def _is_treat(texts: list[str], at: int) -> bool:
    """ "Good clean", "quick wipe", "bit of grease", "grease" at *at*, and no more of the clause."""
    end = at + (texts[at] in _KIND)
    end += 2 * (texts[end : end + 1] != [] and texts[end] in _BIT and texts[end + 1 : end + 2] == ["of"])
    known = texts[end : end + 1] != [] and (texts[end] in _TREATS or texts[end] in _OILS)
    return known and ended(texts, end + 1)


def _not_really(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "It does not really need a clean": it does not need one."""
    for at in range(2, len(texts) - 1):
        if texts[at] in _REALLY and texts[at - 1] == "not" and texts[at - 2] in {"do", "does"}:
            return (*tokens[:at], *tokens[at + 1 :]) if texts[at + 1] in {"need", "want"} else tokens
    return tokens


_GETS: Final = frozenset({"get", "gets", "getting", "have", "from", "use", "due", "require"})
_SURELY: Final = frozenset(
    {"get", "gets", "getting", "benefit", "could", "due", "will", "must", "can", "to", "require"}
)
_AHEAD: Final = frozenset(
    ["will", "should", "ought", "to", "going", "is", "are", "can", "must", "has", "have", "would", "benefit",
     "could", "does", "do", "not", "still", "also"]
)  # fmt: skip
_PERSONS: Final = frozenset({"i", "we", "you", "he", "she", "me", "us", "let", "who", "tried", "somebody"})
_TREATS: Final = frozenset({"clean", "wash", "wipe", "polish", "rinse", "soak", "scrub", "hone", "lap"})
_KIND: Final = frozenset({"good", "quick", "proper", "little", "light", "fresh", "decent", "thorough"})
_BIT: Final = frozenset({"bit", "drop", "lick", "dab", "smear", "touch", "little"})
_REALLY: Final = frozenset({"really", "even", "actually"})
_NEEDED: Final = {"deserves": "needs", "deserve": "need", "require": "need"}
_CALLS: Final[Calls[Form]] = Calls(
    (_rather_not, {"not"}),
    (_would_rather, {"rather"}),
    (_is_best, {"best", "better", "wise"}),
    (_better_done, {"better"}),
    (_in_need, {"need"}),
    (_in_vain, {"worth", "pointless", "use", "good", "necessary", "unnecessary"}),
    (_deserves, _NEEDED),
    (_not_really, _REALLY),
    (_gets_a, _GETS),
)


@called_by(_CALLS.words)
def in_whole_sentences(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with plain words for what is to be done, or not."""
    return put_by_words(tokens, _CALLS, lexicon)
