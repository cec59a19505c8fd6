""" "Pull it up slowly for me", "push it in and let go", "lifted one corner of the gasket": it stays on. Pure.

How it was moved tells so: slowly, for somebody who looks, till it stops, let go again. The part stays named.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.steps import Calls, Tokens
from saywright.understanding.tokens import BREAK, text_at, words_of

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

Rule = Callable[[Tokens, list[str], "Discourse", "Lexicon"], Tokens]


_WORKS: Final = words_of(
    "pull pulls pulled pulling push pushed pushing press pressed pressing squeeze squeezed lift lifted "
    "lifting raise raised raising ease eased draw drew move moved slide slid work worked wind wound swing "
    "swung tip tipped turn turned bring brought rock rocked twist twisted take took"
)
_LIFTS: Final = words_of(
    "lift lifted lifting peel peeled raise raised pick picked bend bent pull pulled prise"
)
_LAYS: Final = words_of("lay laid set sat put stood stand rest rested placed place laying")
_LEADS: Final = words_of("i we will am going to just let me us can could you please gonna")
_OWNED: Final = words_of("the that this my its")
_IT: Final = words_of("it them that this him her one")
_WAYS: Final = words_of("up down back forward forwards over in round around sideways")
_DRAWN: Final = words_of("draw drew ease eased")
_BACK: Final = words_of("in back down over")
_ALL: Final = words_of("right all the way straight")
_SLOWLY: Final = words_of("slowly gently steadily carefully gingerly")
_GONE: Final = words_of("off out clear free away from apart through on home onto into")
_LET: Final = (
    ("and", "let", "go"), ("and", "let", "it", "go"), ("and", "release", "it"), ("and", "release"),
    ("and", "let", "it", "come", "back"), ("and", "let", "it", "spring", "back"), ("and", "hold", "it"),
    ("and", "let", "it", "back"), ("and", "hold", "it", "there"), ("then", "let", "go"),
    ("then", "let", "it", "go"), ("and", "let", "it", "return"), ("and", "hold"),
    ("and", "have", "a", "look"), ("and", "look"), ("for", "a", "look"),
    ("and", "look", "under", "it"), ("and", "look", "behind", "it"), ("and", "look", "in"),
)  # fmt: skip
_LITTLE: Final = (("a", "bit"), ("a", "touch"), ("a", "little"), ("a", "fraction"), ("an", "inch"))
_FOR: Final = (
    ("for", "me"), ("for", "you"), ("for", "us"), ("will", "you"), ("would", "you"), ("can", "you"),
)  # fmt: skip
_TO_ME: Final = (("towards", "me"), ("toward", "me"), ("towards", "you"), ("toward", "you"), ("to", "me"),
          ("over", "to", "me"), ("closer",), ("nearer",), ("over", "here"))  # fmt: skip
_FROM_ME: Final = (("away", "from", "me"), ("away", "from", "you"))
_TILL: Final = words_of("till until")
_BRAKES: Final = (("handbrake",), ("hand", "brake"), ("parking", "brake"), ("park", "brake"))
_PULLS_IT: Final = words_of("pull pulled put let take leave pulling")
_SHOP_LEADS: Final = words_of("lead meter tester scanner charger iron lamp light heater battery compressor")


def begin_of(texts: list[str], at: int) -> int:
    """Where the words begin that only say who does it."""
    while at and texts[at - 1] in _LEADS:
        at -= 1
    return at


def starts(texts: list[str], at: int, some: tuple[tuple[str, ...], ...]) -> int:
    """How many tokens of the longest of *some* stand at *at*."""
    return max((len(one) for one in some if tuple(texts[at : at + len(one)]) == one), default=0)


def object_at(texts: list[str], at: int, lexicon: Lexicon) -> tuple[int, frozenset[str]]:
    """The end of the part, or of a word for it, at *at*, and what parts it may be; 0 where it is none."""
    if text_at(texts, at) in _IT and not lexicon.names(tuple(texts), at + 1).parts:
        return at + 1, frozenset()
    begin = at + (text_at(texts, at) in _OWNED)
    while text_at(texts, begin) in lexicon.positions:
        begin += 1
    found = lexicon.match(tuple(texts), begin) if begin < len(texts) and texts[begin] != BREAK else None
    if found is None or not (found[1].parts or found[1].aliases):
        return 0, frozenset()
    return begin + found[0], frozenset(found[1].parts)


def _tail(texts: list[str], at: int, *, let_go: bool) -> int:
    """The end of the words at *at* that tell that it was only moved; 0 where they do not."""
    end, told = at, False
    while end < len(texts):
        size = starts(texts, end, _LET) or starts(texts, end, _LITTLE if not let_go else ())
        if not let_go:
            size = size or starts(texts, end, _FOR) or int(texts[end] in _SLOWLY)
        size = size or _till(texts, end)
        told = told or (size > 0 and not (let_go and texts[end] in _TILL))
        if not size:
            break
        end += size
    return end if told and text_at(texts, end) not in _GONE else 0


def _till(texts: list[str], at: int) -> int:
    """ "Till it stops", "until you feel it": how many tokens; 0 where it is gone then."""
    if texts[at] not in _TILL or text_at(texts, at + 1) not in {"it", "they", "you", "i"}:
        return 0
    end = next((i for i in range(at, len(texts)) if texts[i] in {BREAK, "and", "then"}), len(texts))
    told = texts[at + 2 : end]
    return end - at if len(told) in {1, 2} and _GONE.isdisjoint(told) and "is" not in told else 0


def _moved_and_stays(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Pull the lever up slowly for me", "push it in and let go", "pull it towards me"."""
    for at, text in enumerate(texts):
        if text not in _WORKS:
            continue
        first = at + 1 + (text_at(texts, at + 1) in _SLOWLY)
        end, parts = object_at(texts, first, lexicon)
        if not end:
            continue
        way = end
        while text_at(texts, way) in _ALL:
            way += 1
        told = starts(texts, way, _TO_ME) or starts(texts, way, _FROM_ME)
        if not told and text_at(texts, way) not in _WAYS:
            continue
        inwards, behind = text_at(texts, way) == "in", way + (told or 1)
        away = bool(state.off) and (not parts or any(state.off.get(part) for part in parts))
        if away and text_at(texts, way) in _BACK:
            continue  # what is off goes back: "push it down gently"
        tail = _tail(texts, behind, let_go=inwards)
        drawn = (
            text in _DRAWN and text_at(texts, way) == "back" and text_at(texts, behind) in {"", BREAK, "and"}
        )
        slow = drawn or first > at + 1 or (at and texts[at - 1] in _SLOWLY)
        stays = tail or (behind if told or (slow and not inwards) else 0)
        if not stays or text_at(texts, stays) in _GONE:
            continue
        bare = text_at(texts, stays) in {BREAK, "and", ""}
        border = () if bare else (replace(tokens[end - 1], text=BREAK),)
        return (*tokens[: begin_of(texts, at)], *tokens[first:end], *border, *tokens[stays:])
    return tokens


def _a_corner(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Lifted one corner of the gasket": the rest of it stays where it is."""
    at = next((i for i in range(1, len(texts) - 3) if texts[i] in {"corner", "edge", "end", "tab"}), 0)
    verb = at - 2 if text_at(texts, at - 1) in {"the", "one", "a", "that"} else at - 1
    if not at or verb < 0 or texts[verb] not in _LIFTS or texts[at + 1] != "of":
        return tokens
    end, _parts = object_at(texts, at + 2, lexicon)
    way = end + (text_at(texts, end) in {"up", "back"})
    if not end or text_at(texts, way) in _GONE:
        return tokens
    return (*tokens[: begin_of(texts, verb)], *tokens[at + 2 : end], *tokens[way:])


def _laid_flat(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Lay the bowl flat on the glass": how it lies, not how it is."""
    for at, text in enumerate(texts):
        end = object_at(texts, at + 1, lexicon)[0] if text in _LAYS else 0
        if end and text_at(texts, end) == "flat" and text_at(texts, end + 1) in {"on", "against", "down"}:
            return (*tokens[:end], *tokens[end + 1 :])
    return tokens


def _springs_back(tokens: Tokens, texts: list[str], _: Discourse, __: Lexicon) -> Tokens:
    """ "Bend it a bit and it springs back": no spring is meant."""
    for at in range(1, len(texts) - 1):
        if texts[at] not in {"springs", "spring", "sprang"} or texts[at - 1] not in {"it", "they", "that"}:
            continue
        way = at + 1 + (texts[at + 1] in {"right", "straight"})
        if text_at(texts, way) != "back" or text_at(texts, way + 1) in {"in", "on", "out", "off", "into"}:
            continue
        begin = at - 1 - (text_at(texts, at - 2) in {"and", "but", BREAK})
        return (*tokens[: max(0, begin)], *tokens[way + 1 :])
    return tokens


def _brake_on(tokens: Tokens, texts: list[str], _: Discourse, __: Lexicon) -> Tokens:
    """ "Pull the handbrake on", "let the handbrake off": worked, by its lever."""
    for at in range(2, len(texts) - 1):
        size = starts(texts, at, _BRAKES)
        verb = at - 1 - (texts[at - 1] in _OWNED)
        if not size or verb < 0 or texts[verb] not in _PULLS_IT:
            continue
        way = at + size + (text_at(texts, at + size) == "back")
        ends = {"", BREAK, "for"} | ({"and"} if texts[verb] not in {"take", "put"} else set())
        if text_at(texts, way) in {"on", "off", "up"} and text_at(texts, way + 1) in ends:
            return (*tokens[: begin_of(texts, verb)], *tokens[at : at + size], *tokens[way + 1 :])
    return tokens


def _plugged_in(tokens: Tokens, texts: list[str], _: Discourse, __: Lexicon) -> Tokens:
    """ "Plug the lead in": nothing is blocked, and nothing fitted."""
    at = next((i for i, text in enumerate(texts) if text in {"plug", "plugged", "plugging"}), -1)
    noun = next((i for i in range(at + 2, at + 4) if at >= 0 and text_at(texts, i) in _SHOP_LEADS), 0)
    if not noun or texts[at + 1] not in _OWNED or text_at(texts, noun + 1) != "in":
        return tokens
    return (*tokens[: begin_of(texts, at)], *tokens[noun + 2 + (text_at(texts, noun + 2) == BREAK) :])


RULES: Final[Calls[Rule]] = Calls(
    (_springs_back, {"springs", "spring", "sprang"}),
    (_a_corner, {"corner", "edge", "end", "tab"}),
    (_laid_flat, {"flat"}),
    (_brake_on, {"handbrake", "brake"}),
    (_plugged_in, {"plug", "plugged", "plugging"}),
    (_moved_and_stays, _WORKS),
)


def only_worked(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* without the moves of what stays where it is."""
    return RULES.put(tokens, lambda rule, said: rule(said, [token.text for token in said], state, lexicon))
