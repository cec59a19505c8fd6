""" "Both get replaced", "I'll do it anyway", "it isn't worth saving": decided, in plain words. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import POINTS, Form, ended, put_by_words, put_words
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.wordforms import is_past

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_SIGNS: Final = frozenset(
    ["both", "anyway", "anyhow", "worth", "stops", "stop", "pair", "regardless", "live", "saving", "run",
     "stretch"]
)  # fmt: skip
_GET: Final = frozenset({"get", "gets", "getting"})
_SAVED: Final = frozenset({"saving", "keeping", "reusing", "using", "putting", "fixing"})
_DO: Final = frozenset({"will", "would", "still", "and", "but", "i", "we"})
_AS_WELL: Final = frozenset({"may", "might"})
_OBJECT_REACH: Final = 4  # tokens of "do the inlet needle anyway"
_MAY: Final = frozenset({"can", "could", "will"})
_PEOPLE: Final = frozenset({"i", "we", "he", "she", "they", "customer", "owner", "boss", "gaffer"})
_NEW_ONE: Final = (["a", "new", "one"], ["another", "one"], ["another"], ["new", "ones"], ["new"])
_STOPS: Final = frozenset({"on", "in", "there", "put"})


@called_by(_SIGNS)
def decided_so(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with plain words for what is decided on a part."""
    if any(token.text == "live" for token in tokens) and _is_kept(state):
        return tokens  # "I can live with that" / "customer will live with that"
    return put_by_words(tokens, _FORMS, lexicon)


def _is_kept(state: Discourse) -> bool:
    """True where it was said of what is in hand that it will do."""
    hand = state.hand
    return hand is not None and (hand.component, hand.which, "reuse") in state.planned


def _both_get(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Still, both get replaced": they both do. "May as well do the pair": I will."""
    for at in range(len(texts) - 2):
        if texts[at] == "both" and texts[at + 1] in _GET and is_past(texts[at + 2]):
            named = at and texts[at - 1] not in {"so", "still", "and", "but", "then", "anyway"}
            return tokens if named else put_words(tokens, at, at + 1, "they", "both")
    for at in range(len(texts) - 3):
        if texts[at] in _AS_WELL and texts[at + 1 : at + 4] == ["as", "well", "do"]:
            begin = at - (at > 0 and texts[at - 1] in {"i", "we"})
            return put_words(tokens, begin, at + 3, "i", "will")
    return tokens


def _done_anyway(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Needle's fine but I'll do it anyway": it is replaced; not so "the needle height"."""
    for at in range(1, len(texts) - 2):
        if texts[at] != "do" or texts[at - 1] not in _DO or texts[at + 1] not in POINTS | {"the"}:
            continue
        end = next((i for i in range(at + 2, len(texts)) if texts[i] in _SIGNS), len(texts))
        if texts[end : end + 1] not in (["anyway"], ["anyhow"], ["regardless"]) or end - at > _OBJECT_REACH:
            continue
        if texts[at + 1] in POINTS or _is_part(texts, at + 2, end, lexicon):
            return put_words(tokens, at, at + 1, "replace")
    return tokens


def _is_part(texts: list[str], start: int, end: int, lexicon: Lexicon) -> bool:
    """True where the name of a part ends at *end*."""
    found = (lexicon.match(tuple(texts), at) for at in range(start, end))
    named = ((at, one) for at, one in enumerate(found, start) if one is not None)
    return any(at + one[0] == end and bool(one[1].parts or one[1].aliases) for at, one in named)


def _not_worth(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "The case isn't worth saving": it is scrap."""
    for at in range(2, len(texts) - 1):
        if texts[at] != "worth" or texts[at - 1] != "not" or texts[at - 2] not in {"is", "are"}:
            continue
        end = at + 2 + (texts[at + 2 : at + 3] in (["again"], ["back"]))
        if texts[at + 1] in _SAVED and ended(texts, end):
            return put_words(tokens, at - 1, end, "scrap")
    return tokens


def _stops_on(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "No scoring, so the disc stops on": it stays."""
    for at in range(1, len(texts) - 1):
        if texts[at] in {"stops", "stop"} and texts[at + 1] in _STOPS and ended(texts, at + 2):
            so = "so" in texts[:at] or texts[at - 1] in POINTS
            return put_words(tokens, at, at + 2, "stays") if so else tokens
    return tokens


def _lived_with(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Dented but I can live with that": it will do; not "I'd live with that up to point two"."""
    for at in range(2, len(texts) - 2):
        if texts[at : at + 2] != ["live", "with"] or texts[at + 2] not in POINTS or at + 3 < len(texts):
            continue
        if texts[at - 1] in _MAY and texts[at - 2] in _PEOPLE:
            begin = at - 2 - (texts[max(0, at - 3)] == "the" and at > 2)
            return put_words(tokens, begin, at + 3, "it", "will", "do")
    return tokens


def _no_saving(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "There's no saving that": it is scrap."""
    for at in range(1, len(texts) - 1):
        if texts[at - 1 : at + 1] == ["no", "saving"] and texts[at + 1] in POINTS and ended(texts, at + 2):
            begin = at - 1 - 2 * (texts[max(0, at - 3) : at - 1] == ["there", "is"])
            return put_words(tokens, begin, at + 2, texts[at + 1], "is", "for", "scrap")
    return tokens


def _will_not_run_to(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Customer won't run to a new one", "budget doesn't stretch to another": it is not replaced."""
    for at in range(2, len(texts) - 2):
        if texts[at] not in {"run", "stretch"} or texts[at - 1] != "not" or texts[at + 1] != "to":
            continue
        new = next((one for one in _NEW_ONE if texts[at + 2 : at + 2 + len(one)] == one), [])
        who = next((i for i in range(at - 3, max(-1, at - 5), -1) if texts[i] in _PEOPLE | {"budget"}), -1)
        if new and who >= 0 and ended(texts, at + 2 + len(new)):
            begin = who - (who > 0 and texts[who - 1] in {"the", "his", "their"})
            return put_words(tokens, begin, at + 2 + len(new), "i", "am", "not", "replacing", "it")
    return tokens


_FORMS: Final[Calls[Form]] = Calls(
    (_both_get, {"both", "pair", "may", "might"}),
    (_done_anyway, {"anyway", "anyhow", "regardless"}),
    (_not_worth, {"worth"}),
    (_stops_on, {"stops", "stop"}),
    (_lived_with, {"live"}),
    (_no_saving, {"saving"}),
    (_will_not_run_to, {"run", "stretch"}),
)
