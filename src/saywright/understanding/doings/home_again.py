""" "In they went", "the nut's run down", "it's up again", "that's a new pair in": in plain words. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.doings.move_verbs import takes_object
from saywright.understanding.doings.roundabout import NUMBERS, ended, put_words
from saywright.understanding.doings.row_comes import row_that_comes
from saywright.understanding.statements import Movement
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_MANY: Final = frozenset({"they", "those", "these"})
_IT: Final = frozenset({"it", "that", "she", "he"}) | _MANY
_GO: Final = frozenset({"go", "went", "come", "goes", "came"})
_OPENS: Final = frozenset({"", BREAK, "and", "so", "then", "now", "right", "okay", "there"})
_IN: Final = frozenset({"in", "on", "home"})
_BE: Final = frozenset({"is", "are", "has"})
_RUN: Final = frozenset({"run", "wound", "spun", "nipped", "screwed"})
_ONTO: Final = ("on", "top", "of")
_SAT: Final = frozenset(
    ["sat", "seated", "pressed", "pushed", "hooked", "slid", "tapped", "clipped", "rolled", "stretched",
     "popped", "slipped", "sitting", "hung"]
)  # fmt: skip
_WHERE: Final = frozenset({"up", "on", "in", "down", "there", "home", "now", "over", "back", "again"})
_OWN: Final = frozenset({"its", "their", "his"})
_ONES: Final = frozenset({"one", "ones", "pair", "set"})
_TRANSITIVE: Final = takes_object()
_AT_EACH: Final = frozenset({"on", "under", "round", "behind"})
_COMES: Final = (("there", "goes"), ("here", "comes"), ("there", "go"), ("here", "come"))
_LED: Final = _OPENS | {"here", "is", "the", "a", "this"}
_AWAY: Final = frozenset({"out", "off", "away"})


@called_by({"go", "went", "goes", "come", "run", "wound", "spun", "home", "up", "new", "top", "there",
            "here", "with", "each", "comes"})  # fmt: skip
def home_again(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "they are back in" and the like for such words."""
    tokens = row_that_comes(tokens, state, lexicon)
    return _CALLS.put(tokens, lambda form, said: form(said, [t.text for t in said], state, lexicon))


def _is_off(state: Discourse) -> bool:
    """True where what is in hand came off."""
    return state.hand is not None and state.off.get(state.hand.component, 0) > 0


def _named_off(texts: Sequence[str], end: int, state: Discourse, lexicon: Lexicon) -> int:
    """Where the part begins that is named right before *end* and is off; -1 for none."""
    for begin in range(max(0, end - 3), end):
        found = lexicon.match(tuple(texts[:end]), begin) if texts[begin] != BREAK else None
        if found is not None and begin + found[0] == end:
            parts = (*found[1].parts, *found[1].aliases)
            return begin if any(state.off.get(part, 0) for part in parts) else -1
    return -1


def _in_they_go(tokens: Tokens, texts: list[str], state: Discourse, _: Lexicon) -> Tokens:
    """ "And back in they went", "on they go": they are back in; "on we go" goes nowhere."""
    for at in range(len(texts) - 2):
        way = at + (texts[at] == "back")
        told = text_at(texts, way) in _IN and text_at(texts, way + 1) in _MANY
        if not told or text_at(texts, way + 2) not in _GO or text_at(texts, at - 1) not in _OPENS:
            continue
        end = way + 3 + (text_at(texts, way + 3) == "again")
        if ended(texts, end) and _is_off(state):
            return put_words(
                tokens, at, end, "they", "are", "back", "in" if texts[way] == "home" else texts[way]
            )
    return tokens


def _run_down(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "The nut's run down on top of them again", "screw's wound back home": it is on, of what was off."""
    for at in range(1, len(texts)):
        if texts[at] not in _RUN or texts[at - 1] not in _BE or text_at(texts, at - 2) not in FASTENERS:
            continue
        end = at + 1 + (text_at(texts, at + 1) == "back")
        if text_at(texts, end) not in {"down", "home"} or _named_off(texts, at - 1, state, lexicon) < 0:
            continue
        end = _behind_top(texts, end + 1)
        end += text_at(texts, end) == "again"
        if ended(texts, end):
            return put_words(tokens, at, end, "back", "on")
    return tokens


def _behind_top(texts: Sequence[str], at: int) -> int:
    """The token behind "on top of them", "on it" at *at*; *at* where neither stands there."""
    begin = (
        at + len(_ONTO) if tuple(texts[at : at + len(_ONTO)]) == _ONTO else at + (text_at(texts, at) == "on")
    )
    return begin + 1 if begin > at and text_at(texts, begin) in {"it", "them", "that", "those"} else at


def _on_top(tokens: Tokens, texts: list[str], _: Discourse, __: Lexicon) -> Tokens:
    """ "Fitting's screwed in on top of it": screwed in."""
    for at in range(2, len(texts)):
        end = _behind_top(texts, at) if texts[at : at + 3] == [*_ONTO] else at
        if end > at and ended(texts, end) and texts[at - 1] in {"in", "on", "down", "back"}:
            return (*tokens[:at], *tokens[end:])
    return tokens


def _up_again(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "It's up again", "it's home again, a new pin at each end": it is back, of what was off."""
    for at in range(2, len(texts)):
        if texts[at] not in {"up", "home"}:
            continue
        back = text_at(texts, at - 1) == "back"
        verb = at - 1 - back
        end = at + 1 + (text_at(texts, at + 1) == "again")
        if text_at(texts, verb) not in _BE or (not back and end == at + 1 and texts[at] == "up"):
            continue
        tail = ended(texts, end) or texts[end : end + 2] in (["with", "its"], ["with", "a"])
        of_it = texts[verb - 1] in _IT and _is_off(state)
        if tail and (of_it or _named_off(texts, verb, state, lexicon) >= 0):
            return put_words(tokens, at - back, end, "back", "in" if texts[at] == "home" else "on")
    return tokens


def _there_goes(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Inner pad's out, and there goes the outer": the outer is out as well."""
    for at in range(len(texts) - 3):
        if tuple(texts[at : at + 2]) not in _COMES or texts[at + 2] != "the":
            continue
        end = at + 3
        while text_at(texts, end) in lexicon.positions:
            end += 1
        one = text_at(texts, end) == "one"
        last = [s for s in (state.recent[-1] if state.recent else ()) if isinstance(s, Movement)]
        before = not _AWAY.isdisjoint(texts[:at]) or (bool(last) and last[-1].movement == "removed")
        if end > at + 3 and before and ended(texts, end + one) and text_at(texts, at - 1) in _OPENS:
            begin = at - (text_at(texts, at - 1) == "and")
            out = put_words(tokens[at : at + 1], 0, 1, "one", "is", "out")
            return (
                *tokens[:begin],
                replace(tokens[at], text="and"),
                *tokens[at + 2 : end],
                *out,
                *tokens[end + one :],
            )
    return tokens


def _new_one_sat(tokens: Tokens, texts: list[str], _: Discourse, __: Lexicon) -> Tokens:
    """ "New one's sat on its peg", "new one pressed up there now", "that's a new pair in": it is in."""
    for at in range(len(texts) - 1):
        if texts[at] != "new" or texts[at + 1] not in _ONES:
            continue
        article = at - (text_at(texts, at - 1) in {"a", "the"} | NUMBERS)
        here = article > 1 and texts[article - 2 : article] == ["that", "is"]
        if here and text_at(texts, at + 2) in {"in", "on"} and ended(texts, at + 3):
            be = tokens[article - 1 : article]
            return (*tokens[: article - 2], *tokens[article : at + 2], *be, *tokens[at + 2 :])
        verb = at + 2 + (text_at(texts, at + 2) in _BE) + (text_at(texts, at + 3) == "been")
        end = _behind_place(texts, verb + 1) if text_at(texts, verb) in _SAT else 0
        if end and ended(texts, end):
            return put_words(tokens, at + 2, end, "is", "in")
    return tokens


def _new_pair(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Greased the new pair and rolled them on": the two new ones, of what two came off of."""
    hand = state.hand
    if hand is None or state.off.get(hand.component, 0) != len(("one", "another")):
        return tokens
    for at in range(1, len(texts) - 2):
        if (
            texts[at : at + 3] not in (["the", "new", "pair"], ["a", "new", "pair"])
            or "of" in texts[at + 3 : at + 4]
        ):
            continue
        if lexicon.names(tuple(texts[:at]), at - 1).acts or texts[at - 1] in _TRANSITIVE:
            return put_words(tokens, at, at + 3, "the", "two", "new", "ones")
    return tokens


def _behind_place(texts: Sequence[str], at: int) -> int:
    """The token behind "on its peg", "up there now" at *at*; 0 where no place is told."""
    end = at
    while text_at(texts, end) in _WHERE:
        end += 1
    if end > at and text_at(texts, end) in _OWN and text_at(texts, end + 1) not in {"", BREAK}:
        end += 2
    return end if end > at else 0


def _one_to_each(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "A new washer on each bolt": it is on, at each; the bolts went nowhere."""
    for at in range(2, len(texts) - 2):
        if texts[at + 1] != "each" or texts[at] not in _AT_EACH or "new" not in texts[max(0, at - 4) : at]:
            continue
        named = lexicon.match(tuple(texts), at + 2)
        before = (lexicon.match(tuple(texts[:at]), i) for i in range(max(0, at - 3), at))
        thing = any(one is not None and bool(one[1].parts or one[1].aliases) for one in before)
        if thing and named is not None and named[1].parts and ended(texts, at + 2 + named[0]):
            return put_words(tokens, at, at + 1, "on", "at")
    return tokens


def _it_goes_in(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Here is the new needle, it goes in with the old float": new needle goes in; no seat "it goes in"."""
    at = next((i for i, text in enumerate(texts) if text == "new"), 0)
    if state.stage != "as_left" or "new" not in texts or not _LED.issuperset(texts[:at]):
        return tokens
    found = lexicon.match(tuple(texts), at + 1) if at + 1 < len(texts) else None
    end = at + 1 + found[0] if found is not None and (found[1].parts or found[1].aliases) else 0
    goes = end + 1 + (text_at(texts, end) == BREAK)
    told = text_at(texts, goes - 1) in {"it", "they"} and text_at(texts, goes) in {"goes", "go"}
    if not end or not told or text_at(texts, goes + 1) not in _IN:
        return tokens
    return (*tokens[at:end], *tokens[goes:])


def _out_with_the_one(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Out with the one screw": with one screw."""
    for at in range(len(texts) - 4):
        if (
            texts[at] in _AWAY
            and text_at(texts, at - 1) in _OPENS
            and texts[at + 1 : at + 3] == ["with", "the"]
            and texts[at + 3] in NUMBERS
        ):
            named = lexicon.names(tuple(texts), at + 4)
            if named.parts or named.aliases:
                return (*tokens[: at + 2], *tokens[at + 3 :])
    return tokens


_CALLS: Final = Calls(
    (_in_they_go, _MANY),
    (_on_top, {"top"}),
    (_run_down, _RUN),
    (_up_again, {"up", "home"}),
    (_there_goes, {"there", "here"}),
    (_new_one_sat, {"new"}),
    (_one_to_each, {"each"}),
    (_new_pair, {"pair"}),
    (_it_goes_in, {"goes", "go"}),
    (_out_with_the_one, {"with"}),
)
