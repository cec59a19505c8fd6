""" "Pumped the pistons out with the lever", "push it and pull it", "choke on and she's away": it stays. Pure.

What a part is worked by, what runs meanwhile, and what of it is only set so far. The part stays named.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.only_worked import begin_of, object_at, starts
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Calls, Tokens
from saywright.understanding.tokens import BREAK, text_at, words_of

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

Rule = Callable[[Tokens, list[str], "Discourse", "Lexicon"], Tokens]

_FORCES: Final = words_of(
    "pump pumped pumping push pushed pushing press pressed pressing squeeze squeezed pop popped popping blow "
    "blew blown force forced forcing work worked"
)
_WORKED_BY: Final = words_of("lever pedal handle treadle primer")
_OWNED: Final = words_of("the its a my brake clutch foot hand")
_TOLD_OF_IT: Final = words_of("of off out on in still bent broken cracked missing loose down up held")
_AWAY: Final = words_of("out off up")
_TRIES: Final = words_of("push pull press turn rock lift work twist wiggle")
_TO_ME: Final = words_of("pull lift")
_IT: Final = words_of("it them that")
_RUNS: Final = words_of("engine pump motor machine compressor")
_PULLS: Final = words_of("pull pulled pulling push pushed pushing press pressed squeeze squeezed")
_GONE: Final = words_of("out off away clear apart free")
_STARTS: Final = words_of(
    "pull pulls fires fired starts started start runs running cranks crank kick kicks goes listen warm cold "
    "revs ticks catches coughs idle idles idling"
)
_SET: Final = words_of("on off in out half full")
_NO_CHOKE: Final = words_of("plate shaft spindle lever cable spring rod screw screws butterfly tube knob")
_CLEANS: Final = words_of("cleaned clean cleaning wiped wipe washed wash hosed degreased rinsed")
_DIRT: Final = words_of(
    "gasket gaskets dirt dust gunk muck grease oil rust crud paint carbon it them that this"
)
_SHOES: Final = words_of("shoe shoes pads")
_WINDS: Final = words_of("wind winding wound screw screwing screwed click clicked clicking adjust adjusted")
_ENDS: Final = frozenset({"", BREAK, "and", "so", "then"})
_AGAIN: Final = (
    ("out", "in", "again"), ("out", "and", "in", "again"), ("out", "back", "in", "again"),
    ("out", "and", "back", "in", "again"), ("out", "then", "in", "again"),
)  # fmt: skip


def _by_lever(tokens: Tokens, texts: list[str], _: Discourse, __: Lexicon) -> Tokens:
    """ "Pumped both pistons out with the lever": what they were moved by, and what did not come out."""
    verb = next((i for i, text in enumerate(texts) if text in _FORCES), -1)
    by = next((i for i in range(verb + 2, len(texts) - 1) if texts[i] in {"with", "using", "by"}), 0)
    if verb < 0 or not by or _AWAY.isdisjoint(texts[verb:by]):
        return tokens
    noun = by + 1
    while text_at(texts, noun) in _OWNED:
        noun += 1
    worked = text_at(texts, noun) in _WORKED_BY and text_at(texts, noun + 1) not in _TOLD_OF_IT
    return (*tokens[:by], *tokens[noun + 1 :]) if worked else tokens


def _there_and_back(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Push it and pull it", "pull the shaft and push it": how far it goes."""
    for at in range(len(texts) - 3):
        if texts[at] not in _TRIES:
            continue
        end = object_at(texts, at + 1, lexicon)[0]
        again = end and texts[end : end + 1] == ["and"] and _is_contrary(texts[at], text_at(texts, end + 1))
        if again and text_at(texts, end + 2) in _IT and text_at(texts, end + 3) in _ENDS:
            own = tokens[at + 1 : end] if texts[at + 1] not in _IT else ()
            return (*tokens[: begin_of(texts, at)], *own, *tokens[end + 3 :])
    return tokens


def _is_contrary(first: str, then: str) -> bool:
    """True where *then* undoes *first*, or neither takes it out; not "pull the pin and lift it"."""
    return first != then and then in _TRIES and not {first, then} <= _TO_ME | {"turn", "twist"}


def _while_it_runs(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Engine running pull the primer": worked; nothing comes off a machine that runs."""
    runs = next((i for i in range(1, len(texts)) if texts[i] == "running" and texts[i - 1] in _RUNS), 0)
    verb = next((i for i in range(runs + 1, len(texts)) if texts[i] in _PULLS), 0) if runs else 0
    end = object_at(texts, verb + 1, lexicon)[0] if verb else 0
    if not end or text_at(texts, end) in _GONE:
        return tokens
    return (*tokens[: begin_of(texts, verb)], *tokens[verb + 1 :])


def _choke_on(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Choke on and away she goes", "listen to that off choke": how it is set to start."""
    at = texts.index("choke")
    meant = lexicon.names(tuple(texts), at)
    out = any(state.off.get(part) for part in (*meant.parts, *meant.aliases))
    if text_at(texts, at + 1) in _NO_CHOKE or (out and _STARTS.isdisjoint(texts)):
        return tokens
    if _STARTS.isdisjoint(texts) and text_at(texts, at + 1) != "on":
        return tokens
    if text_at(texts, at + 1) in _SET and text_at(texts, at + 2) in _ENDS | {"now"}:
        end = at + 2
        away = tuple(texts[end : end + 4]) in {("and", "away", w, "goes") for w in ("she", "it", "he")}
        return (*tokens[:at], *tokens[end + 4 * away :])
    return (*tokens[: at - 1], *tokens[at + 1 :]) if at and texts[at - 1] in _SET else tokens


def _cleaned_off(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "I've cleaned the shoe off with spirit": cleaned, and where it was; no dirt off it."""
    for at, text in enumerate(texts):
        begin = at + 1 + (text_at(texts, at + 1) == "both")
        led = begin + 2 if text_at(texts, begin) in {"the", "that"} else begin  # "the leading shoe"
        end = (object_at(texts, begin, lexicon)[0] or object_at(texts, led, lexicon)[0]) * (text in _CLEANS)
        if end and texts[end - 1] not in _DIRT and text_at(texts, end) == "off":
            return (*tokens[:end], *tokens[end + 1 :])
    return tokens


def _wound_out(tokens: Tokens, texts: list[str], _: Discourse, __: Lexicon) -> Tokens:
    """ "Wind the shoes out": by their adjuster, till they touch."""
    for at in range(len(texts) - 2):
        noun = at + 1 + (texts[at + 1] in {"the", "both", "those"})
        if (
            texts[at] in _WINDS
            and text_at(texts, noun) in _SHOES
            and text_at(texts, noun + 1) in {"out", "up"}
        ):
            return (*tokens[: begin_of(texts, at)], *tokens[noun + 2 :])
    return tokens


def _out_in_again(tokens: Tokens, texts: list[str], _: Discourse, __: Lexicon) -> Tokens:
    """ "Back out in again, one and three quarters": counted once more."""
    for at, text in enumerate(texts):
        size = starts(texts, at, _AGAIN) if text == "out" else 0
        if size and not CLASSES.keys().isdisjoint(texts[at + size :]):
            begin = at - (text_at(texts, at - 1) == "back")
            return (*tokens[:begin], *tokens[at + size - 1 :])
    return tokens


RULES: Final[Calls[Rule]] = Calls(
    (_by_lever, _WORKED_BY),
    (_there_and_back, _TRIES),
    (_while_it_runs, {"running"}),
    (_choke_on, {"choke"}),
    (_cleaned_off, _CLEANS),
    (_wound_out, _WINDS),
    (_out_in_again, {"again"}),
)


def worked_by_it(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* without what tells by what, and how far, a part is only worked."""
    return RULES.put(tokens, lambda rule, said: rule(said, [token.text for token in said], state, lexicon))
