""" "Bent the tang a hair", "took that off with a stone", "grease the pins": doings, in plain words. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import POINTS, ended, put_plainly, put_words
from saywright.understanding.doings.with_stuff import KINDS
from saywright.understanding.meanings import NOTHING
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_WIPES: Final = frozenset(
    ["wiping", "wiped", "smearing", "smeared", "rubbing", "rubbed", "working", "worked", "dabbing", "dabbed",
     "brushing", "brushed", "coated", "coating", "packing", "packed"]
)  # fmt: skip
_ONTO: Final = frozenset({"on", "onto", "over", "round", "around", "into", "along", "in"})
_ASTRAY: Final = frozenset(
    {"pad", "pads", "disc", "discs", "rotor", "lining", "linings", "mistake", "accident"}
)
_BACKS: Final = frozenset({"back", "backs", "backing", "ears", "edges", "behind"})
_HANDS: Final = frozenset({"my", "your", "me", "floor", "bench", "rag", "overalls"})
_SIGNS: Final = frozenset({"grease", "oil", "lube", "off", "tang", "tongue", "tab"})
_VERB_BEFORE: Final = frozenset(
    [BREAK, "and", "then", "to", "will", "just", "i", "we", "would", "must", "should", "shall", "us", "me",
     "please", "better", "rather", "well", "also", "now", "can"]
)  # fmt: skip
_UNDONE: Final = frozenset(
    [BREAK, "forgot", "forgotten", "forgets", "bothered", "bother", "failed", "meant", "supposed", "reason",
     "used", "never", "not"]
)  # fmt: skip
_OBJECTS: Final = frozenset({"the", "it", "them", "those", "these", "its", "both", "all", "this", "each"})
_AHEAD: Final = frozenset({"will", "shall", "to", "must", "should"})  # "the pins I will grease"
_HAVE_TO: Final = frozenset({"need", "have", "want", "going"})
_TANGS: Final = frozenset({"tang", "tongue", "tab"})
_OILS: Final = {"grease": "greasing", "oil": "oiling", "lube": "lubricating"}
_SOME_OF: Final = frozenset({"some", "a", "bit", "of", "just", "only", "more", "plenty"})
_PACKED: Final = frozenset({"packed", "smeared", "filled", "pack", "it", "them", "both"})
_GRIND: Final = {"stone": "stoned", "oilstone": "stoned", "file": "stoned", "emery": "polished"}
_TOOK: Final = frozenset({"took", "taken", "take", "knocked", "knock", "cleaned", "dressed", "rubbed"})
_NEXT: Final = frozenset({BREAK, "and", "then"})
_TOOL_REACH: Final = 6  # tokens from "off with" to the tool


@called_by(_SIGNS)
def plain_doings(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with plain words for what was done to a part."""
    return put_plainly(tokens, (_ground_off, _tang_bent, _wiped_on, _greasing), lexicon)


def _ground_off(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "It's burred, took that off with a stone": it was stoned, and nothing came off."""
    for at in range(2, len(texts) - 1):
        if texts[at : at + 2] != ["off", "with"] or texts[at - 1] not in POINTS:
            continue
        reach = range(at + 2, min(len(texts), at + _TOOL_REACH))
        tool = next((i for i in reach if texts[i] in _GRIND), None)
        if tool is None or not _NEXT.isdisjoint(texts[at + 2 : tool]):
            continue  # "took it off with the hub, file it later"
        if texts[at - 2] in _TOOK:
            return put_words(tokens, at - 2, tool + 1, _GRIND[texts[tool]], texts[at - 1])
    return tokens


def _tang_bent(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Bent the tang a hair and it's fourteen", "tang bent a touch": by that a float is adjusted."""
    for at in range(len(texts)):
        if texts[at] not in _TANGS or lexicon.table.get((texts[at],), NOTHING).parts:
            continue
        end = at + 1
        behind = " ".join(texts[at + 1 : at + 4])
        if behind in {"bent a hair", "bent a touch", "bent a bit", "bent a whisker", "bent a tad"}:
            end = at + 2
            begin = at - (texts[max(0, at - 1)] in {"the", "its"})
            return put_words(tokens, begin, end, "adjusted", *_float_or_it(lexicon))
        verb = at - 2 if at > 1 and texts[at - 1] in {"the", "its", "that"} else -1
        bends = (
            verb >= 0
            and texts[verb] in {"bend", "bends", "tweak"}
            and ("now" in texts[at:] or _a_bit(texts, verb, at))
        )
        if verb < 0 or not (bends or texts[verb] in {"bent", "tweaked"}):
            continue
        if {"not", "somebody", "was", "is", "had"} & set(texts[max(0, verb - 2) : verb]):
            return tokens  # "somebody's bent the tang": so it was found
        return put_words(tokens, verb, end, "adjusted", *_float_or_it(lexicon))
    return tokens


def _a_bit(texts: list[str], verb: int, tang: int) -> bool:
    """ "Bend the tongue a shade and again": as it is done, and no more than so far."""
    little = texts[tang + 1 : tang + 2] == ["a"] and texts[tang + 2 : tang + 3] != []
    little = little and texts[tang + 2] in {"shade", "hair", "touch", "bit", "whisker", "tad", "fraction"}
    return little and (verb == 0 or texts[verb - 1] in {BREAK, "so", "and", "then"})


def _float_or_it(lexicon: Lexicon) -> tuple[str, ...]:
    """What has a tang: the float, where there is one, else what is in hand."""
    return ("the", "float") if lexicon.table.get(("float",), NOTHING).parts else ("it",)


def _wiped_on(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Wiping grease round the seal", "smeared the boot with red grease": greased; not "wiped off"."""
    if not _ASTRAY.isdisjoint(texts) and _BACKS.isdisjoint(texts):
        return tokens  # "dabbed oil on the pads by mistake": none of it belongs there
    for at, text in enumerate(texts):
        if text not in _OILS or lexicon.table.get((text,), NOTHING).parts:
            continue
        begin = at
        while begin and texts[begin - 1] in KINDS | _SOME_OF | {"little"}:
            begin -= 1
        behind = texts[at + 1 : at + 2]
        if begin and texts[begin - 1] in _WIPES and behind[:1] and behind[0] in _ONTO:
            over = at + 2 + (texts[at + 2 : at + 3] == ["all"])
            if _HANDS.isdisjoint(texts[over : over + 2]):
                return put_words(tokens, begin - 1, over, "greased")
        if begin < 2 or texts[begin - 1] != "with":
            continue
        verb = next((i for i in range(begin - 2, max(-1, begin - 7), -1) if texts[i] in _WIPES), None)
        if verb is None or not texts[verb].endswith("ed") or BREAK in texts[verb:at]:
            continue
        if texts[verb + 1] in _OBJECTS:
            return (*put_words(tokens[: begin - 1], verb, verb + 1, "greased"), *tokens[at + 1 :])
    return tokens


def _greasing(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "It just wants grease": greasing. "Packed with fresh grease": with grease, whichever."""
    for at in range(len(texts)):
        if texts[at] not in _OILS or lexicon.table.get((texts[at],), NOTHING).parts:
            continue
        if at > 1 and texts[at - 2] in {"gave", "given"} and texts[at - 1] in POINTS and ended(texts, at + 1):
            return put_words(tokens, at - 2, at + 1, "greased", texts[at - 1])  # "given it grease"
        verb = (not at or texts[at - 1] in _VERB_BEFORE) and at + 1 < len(texts) and texts[at] != "lube"
        that = texts[at + 1 : at + 2] == ["that"] and ended(texts, at + 2)
        if verb and at and texts[at - 1] == "to" and (at == 1 or texts[at - 2] in _UNDONE):
            continue  # "he forgot to grease the pins"
        if at and texts[at - 1] in _AHEAD and texts[at] != "lube" and ended(texts, at + 1):
            undone = texts[at - 1] == "to" and (at == 1 or texts[at - 2] not in _HAVE_TO)
            return tokens if undone else put_words(tokens, at, at + 1, "lubricate")
        if verb and (that or texts[at + 1] in _OBJECTS):
            return put_words(tokens, at, at + 1, "lubricate")
        begin = at
        while begin and texts[begin - 1] in KINDS | _SOME_OF:
            begin -= 1
        if 1 < begin < at and texts[begin - 1] == "with" and texts[begin - 2] in _PACKED:
            return (*tokens[:begin], *tokens[at:])
        if begin and texts[begin - 1] in {"wants", "needs", "want", "need"} and ended(texts, at + 1):
            wanted = "not" not in texts[max(0, begin - 3) : begin]
            return put_words(tokens, begin, at + 1, _OILS[texts[at]]) if wanted else tokens
    return tokens
