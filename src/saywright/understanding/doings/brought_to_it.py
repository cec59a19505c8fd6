""" "Put your finger on the strainer", "take the light off it": brought to a part, which stays. Pure.

The part stays named, for what is told behind: "put my weight on the bowl, it's cracked".
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import ON_THE_SPEAKER
from saywright.understanding.steps import Calls, Tokens
from saywright.understanding.tokens import BREAK, text_at, words_of

if TYPE_CHECKING:
    from saywright.understanding.lexicon import Lexicon


_BRINGS: Final = words_of(
    "put putting puts get got getting stick stuck sticking lay laid laying rest rested hold held holding "
    "take took taking keep place placed pop popped set bring brought bringing move moved moving pull pulled "
    "pulling shine shone point hook hooked drop wipe wiped wash washed slide slid roll rolled "
    "clip clipped"
)
_OWNED: Final = words_of("the my your a an his our some this that")
_WORN: Final = words_of("hands gloves glasses specs readers goggles mask coat sleeves apron hat")
_LIGHTS: Final = words_of("light lamp torch flashlight lens mirror loupe magnifier camera phone")
_STRAIGHT: Final = words_of("edge rule ruler square")
_PROBES: Final = words_of("probe probes indicator meter leads")
_GAUGES: Final = words_of("dial pressure vacuum")
_CATCHERS: Final = words_of("tub tray bucket pan bowl tin stool stand rag rags cloth paper light")
_MEASURES: Final = words_of("calipers callipers verniers vernier")
_BODY: Final = ON_THE_SPEAKER - {"back", "pencil", "pen", "tea", "coffee", "lunch", "dinner", "rag", "pick"}
_THINGS: Final = _BODY | _WORN | _LIGHTS | words_of("weight straightedge label tag sticker tape")
_LEADS: Final = words_of(
    "i we will am going to just let me us can could you please gonna should have 've and"
)
_BETWEEN: Final = words_of("on onto in into off under over to at of with behind from by and")
_TO: Final = words_of("on onto in into off under against behind over across along near")
_NEARER: Final = words_of("closer nearer round up down over in right")
_LOOKS: Final = words_of("feel see look check")
_SO_I_CAN: Final = ("so", "i", "can")
_POINTS: Final = words_of("the it that this them these those there my your its both each here")
_FEW: Final = 6  # tokens of "where did I put the torch"
_LONGEST: Final = 3  # tokens of what is brought


def _begin(texts: list[str], at: int) -> int:
    """Where the words begin that only say who does it."""
    begin = at
    while begin and texts[begin - 1] in _LEADS - {"and"}:
        begin -= 1
    return begin


def _brought(texts: list[str], at: int, lexicon: Lexicon) -> int:
    """Where what is brought ends behind the verb at *at*; 0 where it is a part, or unknown."""
    begin = at + 1 + (text_at(texts, at + 1) in _OWNED)
    mine = text_at(texts, at + 1) in {"my", "your"}
    for end in range(begin + 1, min(begin + _LONGEST, len(texts)) + 1):
        word = texts[end - 1]
        if word == BREAK or word in _BETWEEN or word in _POINTS:
            return 0
        thing = word in _THINGS or (word == "edge" and texts[end - 2] == "straight") or word in _MEASURES
        thing = thing or (word in _STRAIGHT - {"edge"} and end == begin + 1)
        thing = thing or word in _PROBES or (word == "gauge" and texts[end - 2] in _GAUGES)
        thing = thing or (word in _CATCHERS and (texts[end - 2] == "drain" or text_at(texts, end) == "under"))
        known = word not in _MEASURES and not mine and lexicon.names(tuple(texts), end - 1).parts
        if thing and not known:
            return end
    return 0


def _put_to_it(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Put your finger on the strainer": "the strainer"; "a straight edge on the bowl": across it."""
    for at, text in enumerate(texts):
        end = _brought(texts, at, lexicon) if text in _BRINGS else 0
        if not end or text_at(texts, at - 1) == "not":
            continue  # "can't get a fag paper under it"
        way = end + (text_at(texts, end) in _NEARER and text_at(texts, end + 1) in _TO | {"to"})
        if text_at(texts, way) not in _TO | {"to"} or text_at(texts, way + 1) not in _POINTS:
            continue
        head = _begin(texts, at)
        if texts[end - 1] in _STRAIGHT | _PROBES | {"gauge"}:
            across = replace(tokens[way], text="across")
            return (*tokens[:head], *tokens[at + 1 : end], across, *tokens[way + 1 :])
        if texts[way + 1] in {"my", "your"}:
            continue
        return (*tokens[:head], *tokens[_behind_place(texts, way + 1, lexicon) :])
    return tokens


def _behind_place(texts: list[str], at: int, lexicon: Lexicon) -> int:
    """ "Shine the lamp on the right one": behind that, for no side is turned to; else *at*."""
    end = at + 1
    while text_at(texts, end) in lexicon.positions | {"other"}:
        end += 1
    one = text_at(texts, end) in {"one", "ones", "side", "hand"}
    bare = one or text_at(texts, end) in {BREAK, "", "and", "so"}
    return end + one if end > at + 1 and bare else at


def _on_himself(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Take my gloves off to feel the float", "wipe my hands": nothing of the job."""
    for at in range(len(texts) - 2):
        his = texts[at] in _BRINGS and texts[at + 1] in {"my", "your", "me"}
        if not his or texts[at + 2] not in _WORN:
            continue
        end = at + 3 + (text_at(texts, at + 3) in {"on", "off", "up", "down"})
        if text_at(texts, end) == "to" and text_at(texts, end + 1) in _LOOKS:
            end += 2
        elif tuple(texts[end : end + 3]) == _SO_I_CAN and text_at(texts, end + 3) in _LOOKS:
            end += 4
        elif text_at(texts, end) not in {BREAK, "and", ""}:
            continue
        end += text_at(texts, end) in {BREAK, "and"}
        return (*tokens[: _begin(texts, at)], *tokens[end:])
    return tokens


def _air_to_it(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Put some air to the caliper": with air through it, it would be blown out."""
    at = next((i for i in range(1, len(texts) - 2) if texts[i] == "air"), 0)
    if not at or texts[at + 1] not in {"to", "on", "into", "in"} or texts[at + 2] not in _POINTS:
        return tokens
    verb = next((i for i in range(max(0, at - 4), at) if texts[i] in {"put", "putting", "get", "got"}), -1)
    between = texts[verb + 1 : at]
    if verb < 0 or not {*between} <= {"some", "a", "bit", "of", "little", "the", "shop"}:
        return tokens
    return (*tokens[: _begin(texts, verb)], *tokens[at + 2 :])


def _looked_for(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Where did I put the torch": what is told behind it is of the job."""
    if texts[:2] not in (["where", "is"], ["where", "did"], ["where", "are"]):
        return tokens
    end = next((i for i, text in enumerate(texts) if text in {BREAK, "and"}), 0)
    sought = end and text_at(texts, end - 1) in _THINGS | _PROBES | _STRAIGHT
    return tokens[end + 1 :] if sought and end <= _FEW and end + 1 < len(texts) else tokens


RULES: Final[Calls[Callable[[Tokens, list[str], Lexicon], Tokens]]] = Calls(
    (_on_himself, _WORN),
    (_put_to_it, _THINGS | _STRAIGHT | _MEASURES | _PROBES | {"gauge"} | _CATCHERS),
    (_air_to_it, {"air"}),
    (_looked_for, {"where"}),
)


def brought_to_it(tokens: Tokens, lexicon: Lexicon) -> Tokens:
    """*tokens* without what is only brought to a part, or is the speaker's own."""
    return RULES.put(tokens, lambda rule, said: rule(said, [token.text for token in said], lexicon))
