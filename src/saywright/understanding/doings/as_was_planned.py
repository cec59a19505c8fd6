""" "It's had its ten minutes in there", "which I have", "in to soak": what was planned, plainly. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.act_forms import base_forms, past_forms
from saywright.understanding.doings.roundabout import POINTS, ended, put_words
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.statements import ActionNote
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_HAS: Final = frozenset({"has", "have", "is", "are"})
_OWN: Final = frozenset({"its", "their", "his", "the"})
_TIMES: Final = frozenset(CLASSES) | {"full", "half", "good", "a", "an", "of", "couple"}
_LONG: Final = frozenset({"minutes", "minute", "mins", "hour", "hours", "night", "day", "time"})
_THERE: Final = (("in", "there"), ("in", "it"), ("in",), ("in", "that"))
_BATHS: Final = ("ultrasonic", "soak", "dip", "bath", "steep")
_COMES: Final = frozenset({"come", "came"})
_WELL: Final = frozenset(
    ["nicely", "lovely", "well", "great", "beautiful", "beautifully", "treat", "new", "clean", "shiny",
     "bright", "nice", "grand", "smashing", "spotless"]
)  # fmt: skip
_WORKS: Final = frozenset({"clean", "polish", "hone", "lap", "deburr", "scrape", "flush", "soak"})
_DID: Final = frozenset({"have", "did", "just"})
_GONE: Final = {"going": False, "goes": False, "go": False, "went": True, "gone": True}


@called_by({"had", "which", "in", "left", "come", "came"})
def as_was_planned(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with the plain doing for words that only say that it was done as planned."""
    return _CALLS.put(tokens, lambda form, said: form(said, [t.text for t in said], state, lexicon))


def _had_its_time(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "I'll give it ten minutes in the ultrasonic" / "it's had its ten minutes in there": it was in it."""
    for at in range(2, len(texts) - 1):
        if texts[at] != "had" or texts[at - 1] not in _HAS or texts[at + 1] not in _OWN:
            continue
        end = at + 2
        while text_at(texts, end) in _TIMES:
            end += 1
        if text_at(texts, end) not in _LONG:
            continue
        end += 1
        end += max((len(one) for one in _THERE if tuple(texts[end : end + len(one)]) == one), default=0)
        bath = _planned_bath(state, lexicon) if ended(texts, end) else ()
        return put_words(tokens, at, end, "been", *bath) if bath else tokens
    return tokens


def _planned_bath(state: Discourse, lexicon: Lexicon) -> Sequence[str]:
    """ "In the ultrasonic", "soaked": what was planned for what is in hand; () where no bath was."""
    hand = state.hand
    planned = [a for c, _, a in state.planned if hand is not None and c == hand.component]
    for action in (a for one in _BATHS for a in planned if one in a):
        place = next((n for n in base_forms(action, lexicon) if n[:2] == ("in", "the")), ())
        return place or next(iter(past_forms(action, lexicon)), ())
    return ()


def _which_i_have(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "I'm going to replace it" / "which I have": it was replaced."""
    begin = int(texts[:1] == ["and"])
    if texts[begin : begin + 2] not in (["which", "i"], ["which", "we"]):
        return tokens
    end = begin + 2
    while text_at(texts, end) in _DID | {"now", "done"}:
        end += 1
    last = [s for s in (state.recent[-1] if state.recent else ()) if isinstance(s, ActionNote)]
    if end == begin + 2 or not ended(texts, end) or len(last) != 1 or last[0].status != "proposed":
        return tokens
    past = next(iter(past_forms(last[0].action, lexicon)), ())
    return put_words(tokens, 0, end, *past, "it") if past else tokens


def _came_up(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Clean it with a strip of fine paper" / "there that's come up nicely": it was cleaned."""
    at = next((i for i in range(1, len(texts) - 2) if texts[i] in _COMES and texts[i + 1] == "up"), 0)
    begin = at - (at > 0 and texts[at - 1] in _HAS)
    well = at + 2 + (text_at(texts, at + 2) in {"really", "very", "a", "like", "nice"})
    if not at or text_at(texts, begin - 1) not in POINTS or text_at(texts, well) not in _WELL:
        return tokens
    hand = state.hand
    planned = {a for c, w, a in state.planned if hand and c == hand.component and w in {hand.which, None}}
    works = planned & _WORKS
    if len(works) != 1 or not ended(texts, well + 1):
        return tokens
    past = next(iter(past_forms(works.pop(), lexicon)), ())
    return put_words(tokens, begin, well + 1, "has", "been", *past) if past else tokens


def _in_to_soak(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Main jet's going in to soak": it is to be soaked, and went in nowhere; "went in to soak": it was."""
    for at in range(1, len(texts) - 2):
        if texts[at : at + 2] != ["in", "to"] or texts[at - 1] not in _GONE:
            continue
        acts = lexicon.names(tuple(texts), at + 2).acts
        bath = bool(acts) and acts[0].form == "base" and any(one in acts[0].id for one in _BATHS)
        past = next(iter(past_forms(acts[0].id, lexicon)), ()) if bath else ()
        if not past or not ended(texts, at + 3):
            continue
        begin = at - 1 - (texts[at - 2] in _HAS if at > 1 else False)
        helping = ("has", "been") if _GONE[texts[at - 1]] else ("needs", "to", "be")
        return put_words(tokens, begin, at + 3, *helping, *past)
    return tokens


def _left_to_soak(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Left it to soak in diesel": it was soaked; "should have left it to soak" was not."""
    for at in range(len(texts) - 3):
        if texts[at] != "left" or texts[at + 1] not in POINTS or texts[at + 2] != "to":
            continue
        acts = lexicon.names(tuple(texts), at + 3).acts
        led = at == 0 or texts[at - 1] in {"i", "we", "just", "and", BREAK, "then", "so"}
        past = (
            next(iter(past_forms(acts[0].id, lexicon)), ()) if led and acts and acts[0].id in _BATHS else ()
        )
        if past:
            return put_words(tokens, at, at + 4, *past, texts[at + 1])
    return tokens


_CALLS: Final = Calls(
    (_had_its_time, {"had"}),
    (_which_i_have, {"which"}),
    (_in_to_soak, {"in"}),
    (_left_to_soak, {"left"}),
    (_came_up, _COMES),
)
