"""Words beside a state that are none of it: "ripped in half", "six point four all the same". Pure.

"All the same" behind a value is still, "straight over it" is how a nail runs, and what tore in half tore.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at, words_of

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_HALVES: Final = frozenset({"half", "two"})
_PARTS: Final = frozenset(
    ["ripped", "tore", "torn", "broke", "broken", "snapped", "split", "sheared", "cracked", "came", "cut",
     "bust", "gone", "went", "parted", "comes", "broken"]
)  # fmt: skip
_BECAME: Final = frozenset({"came", "comes", "gone", "went"})  # "the kit came in two boxes"
_SPOTS: Final = frozenset({"places", "spots"})
_OF_A_VALUE: Final = frozenset(
    ["a", "an", "the", "turn", "turns", "inch", "mil", "mm", "hour", "of", "past", "turned", "thou",
     "point"]
)  # fmt: skip
_WERE: Final = frozenset({"are", "is", "were", "was", "they", "look", "looks", "it", "be", "not"})
_OF_ONE: Final = frozenset({"is", "was", "one", "it", "reads", "that"})
_LAST: Final = frozenset({"", BREAK, "but", "though", "mind"})
_NAILS: Final = frozenset({"nail", "fingernail", "thumbnail", "finger", "thumb"})
_WHOSE: Final = frozenset({"my", "your", "the", "a"})
_RUNS: Final = frozenset({"runs", "goes", "slides", "glides", "passes", "skates", "rides"})
_OVER: Final = frozenset({"over", "across", "past", "along"})
_DROPS: Final = frozenset({"drops", "falls", "goes", "sinks", "dips", "digs"})
_INTO: Final = frozenset({"in", "into"})
_THE: Final = frozenset({"the", "that", "this", "its", "it"})
_MOVES_SO: Final = words_of("drops slides moves turns falls swings spins rolls slips drop slide move")
_FALLS: Final = frozenset({"drops", "falls", "drop"})
_HOME: Final = frozenset({"in", "home", "back", "down", "round", "shut"})
_ALONE: Final = frozenset(
    {
        ("on", "its", "own"),
        ("by", "itself"),
        ("by", "themselves"),
        ("on", "their", "own"),
        ("under", "its", "own"),
    }
)
_DO: Final = frozenset({"did", "does", "do", "would"})
_SELF: Final = frozenset({"i", "we"})
_MARKS: Final = frozenset({"groove", "step", "ridge", "ring"})
_IT: Final = frozenset({"it", "them", "that", "there", "him", "her"})
_GOES: Final = frozenset({"straight", "right", "clean", "clear"})
_SENSED: Final = frozenset(
    {"see", "feel", "hear", "tell", "notice", "smell", "know", "spot", "find", "picks", "pick"}
)
_CAME: Final = frozenset(
    {"comes", "come", "came", "coming", "fell", "falls", "pulled", "pulls", "broke", "is"}
)
_OFF: Final = frozenset({"off", "away"})
_WHILE: Final = frozenset({"as", "when", "while", "coming", "on", "getting", "taking"})
_ROUNDED: Final = frozenset({"rounded", "rounds", "rounding"})
_LONGEST: Final = 4  # tokens of what is rounded off, and from "see" to "straight off"


def _in_half(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Gasket ripped in half as it came off": torn, and half of nothing."""
    for at in range(1, len(texts) - 1):
        if texts[at] != "in" or texts[at + 1] not in _HALVES or text_at(texts, at + 2) in _OF_A_VALUE:
            continue
        before = texts[at - 1]
        if before in _BECAME and not _half_ends(texts, at + 2):
            continue
        if text_at(texts, at + 2) in _SPOTS and not lexicon.names(tuple(texts), at - 1).conditions:
            continue
        whole = lexicon.table.get((before, "in", texts[at + 1]), NOTHING).conditions
        counted = text_at(texts, at + 2) in CLASSES or lexicon.names(tuple(texts), at + 2).parts
        if before in _PARTS and not whole and not (texts[at + 1] == "two" and counted):
            alone = lexicon.names(tuple(texts), at - 1).conditions
            words = () if alone else (replace(tokens[at], text="broken"),)
            return (*tokens[: at if alone else at - 1], *words, *tokens[at + 2 :])
    return tokens


def _half_ends(texts: list[str], at: int) -> bool:
    """ "It came in half"; "in two packs", "half way" and "two days ago" say something else."""
    number = texts[at : at + 2] == ["and", "a"]  # "came in two and a half thick"
    return text_at(texts, at) in _LAST | {"and", "when", "as", "on", "so", "like"} and not number


def _all_the_same(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Lift on that one's six point four all the same": still so; not "are all the same"."""
    for at in range(2, len(texts) - 2):
        still = texts[at : at + 3] == ["all", "the", "same"] and text_at(texts, at + 3) in _LAST
        behind = texts[at - 1] not in _WERE and not CLASSES.keys().isdisjoint(texts[max(0, at - 3) : at])
        one = not _OF_ONE.isdisjoint(texts[max(0, at - 8) : at])  # not "springs twenty four, all the same"
        if still and behind and one:
            return (*tokens[:at], *tokens[at + 3 :])
    return tokens


def _straight_off(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "You can see it straight off", "a bud picks it up straight away": at once."""
    for at in range(1, len(texts) - 1):
        if texts[at] not in {"straight", "right"} or texts[at + 1] not in _OFF:
            continue
        near = texts[max(0, at - _LONGEST) : at]
        if not _SENSED.isdisjoint(near) and _CAME.isdisjoint(near):
            return (*tokens[:at], *tokens[at + 2 :])
    return tokens


def _nail(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Your nail runs straight over it": how little it is; "your nail drops in it": how much."""
    at = next(i for i, text in enumerate(texts) if text in _NAILS)
    verb = at + 1
    way = verb + 1 + (text_at(texts, verb + 1) in _GOES)
    over = text_at(texts, verb) in _RUNS and text_at(texts, way) in _OVER
    goes = text_at(texts, verb) == "goes" and texts[at] in {"finger", "thumb"}
    into = text_at(texts, verb) in _DROPS and text_at(texts, way) in _INTO and not goes
    end = way + 1 + (text_at(texts, way + 1) in _IT)
    if not (over or into) or text_at(texts, end) not in {"", BREAK, "and", "but", "so"}:
        return tokens
    begin = at - (text_at(texts, at - 1) in _WHOSE)
    told = any(lexicon.names(tuple(texts), i).conditions for i in range(begin))
    if into and not told and _MARKS.isdisjoint(texts[:begin]):
        return (*tokens[:begin], replace(tokens[at], text="scored"), *tokens[end:])
    begin -= text_at(texts, begin - 1) in {BREAK, "and", "but"}
    return (*tokens[:begin], *tokens[end:])


def _to_know(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "The tube didn't want to know so it's gone in the dip": it would not."""
    for at in range(len(texts) - 4):
        if texts[at] in _DO and texts[at + 1 : at + 5] == ["not", "want", "to", "know"]:
            return (*tokens[:at], *tokens[at + 5 :])
    return tokens


def _like_to_see(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "I'd like to see this gasket changed": it wants changing."""
    for at in range(1, len(texts) - 5):
        if (
            texts[at] != "would"
            or texts[at + 1 : at + 4] != ["like", "to", "see"]
            or texts[at - 1] not in _SELF
        ):
            continue
        end = next((i for i in range(at + 4, len(texts)) if texts[i] in {BREAK, "and", "but"}), len(texts))
        done = lexicon.names(tuple(texts), end - 1)
        if done.acts and texts[end - 1].endswith("ed"):
            needs = replace(tokens[at], text="needs")
            return (*tokens[: at - 1], *tokens[at + 4 : end - 1], needs, tokens[end - 1], *tokens[end:])
    return tokens


def _point_of(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "A burr on the point of the hook": on its tip."""
    for at in range(1, len(texts) - 2):
        if texts[at - 1 : at + 2] == ["the", "point", "of"] and texts[at + 2] in _THE:
            return (*tokens[:at], replace(tokens[at], text="tip"), *tokens[at + 1 :])
    return tokens


def _by_itself(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Drops in on its own", "slides by itself": it moves freely."""
    for at in range(1, len(texts) - 1):
        verb, way = texts[at], at + 1 + (texts[at + 1] in _HOME)
        alone = tuple(texts[way : way + 3]) in _ALONE or tuple(texts[way : way + 2]) in _ALONE
        if (
            verb not in _MOVES_SO
            or not alone
            or not lexicon.table.get(("moves", "freely"), NOTHING).conditions
        ):
            continue
        if verb in _FALLS and texts[at + 1] in _HOME - {"in"}:
            continue  # "the piston falls back on its own" may be what is wrong with it
        end = way + (2 if tuple(texts[way : way + 2]) in _ALONE else 3)
        end += text_at(texts, end) == "weight"
        words = (replace(tokens[at], text="moves"), replace(tokens[at], text="freely"))
        return (*tokens[:at], *words, *tokens[end:])
    return tokens


def _ripped(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Gasket ripped as it came off": torn; nobody ripped it off."""
    at = texts.index("ripped")
    when = text_at(texts, at + 1) in _WHILE
    if not at or not when or not lexicon.table.get(("tore",), NOTHING).conditions:
        return tokens
    return (*tokens[:at], replace(tokens[at], text="tore"), *tokens[at + 1 :])


def _rounded_off(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Some clown rounded the bleeder off": rounded off the bleeder, which is still there."""
    for at, text in enumerate(texts):
        off = next((i for i in range(at + 2, min(at + 2 + _LONGEST, len(texts))) if texts[i] == "off"), 0)
        apart = text in _ROUNDED and off > at + 1 and BREAK not in texts[at:off]
        if apart and lexicon.table.get((text, "off"), NOTHING).conditions:
            return (*tokens[: at + 1], tokens[off], *tokens[at + 1 : off], *tokens[off + 1 :])
    return tokens


_RULES: Final[Calls[Callable[[Tokens, list[str], Lexicon], Tokens]]] = Calls(
    (_in_half, _HALVES),
    (_all_the_same, {"same"}),
    (_straight_off, _OFF),
    (_nail, _NAILS),
    (_to_know, {"know"}),
    (_like_to_see, {"see"}),
    (_point_of, {"point"}),
    (_by_itself, {"own", "itself", "themselves", "weight"}),
    (_ripped, {"ripped"}),
    (_rounded_off, _ROUNDED),
)


@called_by(_RULES.words)
def beside_states(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* without such words, or with plain ones for them."""
    return _RULES.put(tokens, lambda plainer, said: plainer(said, [token.text for token in said], lexicon))
