""" "Could solder it, shan't", "scraped the scale out", "had its soak": doings, in plain words. Pure."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import FASTENERS, PLACES_ON_IT
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.statements import ConditionNote
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at
from saywright.units import get_unit

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_IT: Final = frozenset({"it", "that", "them", "those"})
_WILL_NOT: Final = frozenset(
    {("shall", "not"), ("will", "not"), ("not", "going"), ("am", "not"), ("would", "not")}
)
_STUFF: Final = frozenset(
    ["scale", "limescale", "muck", "crud", "gunk", "sludge", "dirt", "rust", "carbon", "varnish", "deposits",
     "crap", "mud", "silt", "residue", "gum", "rubbish", "lime", "mortar", "cement", "weed", "sand", "salt",
     "paint", "calcium", "corrosion", "slime"]
)  # fmt: skip
_NOT_DONE: Final = frozenset(
    ["should", "could", "would", "might", "must", "if", "not", "never", "to", "who", "will", "needs"]
)  # fmt: skip
_CHIPPED: Final = frozenset({"chiselled", "hacked", "chipped", "dug"})
_RUBBED: Final = _CHIPPED | {"rubbed", "got", "picked", "scrubbed", "scoured"}
_GOT_OUT: Final = frozenset({"scraped", "flushed", "washed", "rinsed", "brushed", "wiped"}) | _RUBBED
_LITTLE: Final = frozenset({"drop", "spot", "dab", "bit", "touch", "smear", "squirt", "lick", "some"})
_BEFORE_OIL: Final = frozenset(
    ["a", "just", "wee", "little", "and", "got", "gave", "it", "i", "then", "so", "only", "needed", BREAK]
)
_ONTO: Final = frozenset({"on", "in", "down", "into", "round", "onto", "through", "over"})
_OILS: Final = frozenset({"oil", "grease"})
_DRY: Final = frozenset({"sticking", "seized", "dry", "tight", "noisy"})
_FREES: Final = frozenset({"moves", "turns", "frees", "freed", "slides", "spins", "free"})
_PEOPLE: Final = frozenset({"us", "me", "him", "her", "you"})

_TIMES: Final = frozenset({"winter", "season", "year", "summer", "month", "thousand"})
_LASTS: Final = frozenset({"do", "does", "last", "go"})


def _could_not(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Could solder it, shan't", "I could lap it but I won't": it is declined."""
    at = texts.index("could")
    act = lexicon.match(tuple(texts), at + 1) if text_at(texts, at + 1) not in {"", BREAK} else None
    if act is None or not act[1].acts or text_at(texts, at + 1 + act[0]) not in _IT:
        return tokens
    begin = at - (text_at(texts, at - 1) in {"i", "we"})
    end = at + 2 + act[0]
    no = end
    while text_at(texts, no) in {BREAK, "but", "i", "we", "am", "and"}:
        no += 1
    if tuple(texts[no : no + 2]) not in _WILL_NOT or text_at(texts, begin - 1) not in {"", BREAK, "so"}:
        return tokens
    rest = no + 2 + (text_at(texts, no + 2) == "to")
    if rest < len(texts) and texts[rest] not in {BREAK, "though", "bother", "today"}:
        return tokens
    will = [replace(tokens[at], text=word) for word in ("i", "will", "not")]
    return (*tokens[:begin], *will, *tokens[at + 1 : end])


def _stuff_at(texts: list[str], verb: int) -> int:
    """The "the" of "the scale out" behind the verb; 0 where nothing of that kind is got out."""
    begin = verb + 1 + (text_at(texts, verb + 1) == "all")
    stuff = text_at(texts, begin) == "the" and text_at(texts, begin + 1) in _STUFF
    return begin if stuff and text_at(texts, begin + 2) in {"out", "off"} else 0


def _stuff_out(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "I've scraped the scale out", "got all the muck off": it was scraped, cleaned."""
    at = next((i for i in range(len(texts)) if texts[i] in _GOT_OUT and _stuff_at(texts, i)), -1)
    begin = _stuff_at(texts, at)
    if at < 0:
        return tokens
    known = lexicon.table.get((texts[at],), NOTHING).acts
    plain = (
        "scraped" if texts[at] in _CHIPPED and lexicon.table.get(("scraped",), NOTHING).acts else "cleaned"
    )
    verb = tokens[at] if known else replace(tokens[at], text=plain)
    if not _NOT_DONE.isdisjoint(texts[:at]):
        return tokens
    end = begin + 3
    tokens = (*tokens[:at], verb, *tokens[at + 1 :])
    if text_at(texts, end) == "of" and text_at(texts, end + 1) in {"it", "them", "the", "both"}:
        return (*tokens[: at + 1], *tokens[end + 1 :])
    if text_at(texts, end) in {"the", "my", "both"} or lexicon.names(tuple(texts), end).parts:
        return (*tokens[: at + 1], *tokens[end:])  # "scraped the crud off the left plate"
    return (*tokens[: at + 1], replace(tokens[at], text="it"), *tokens[end:])


def _had_its(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Jet's had its soak", "both have had their bath": a soak, and it was done."""
    for at in range(1, len(texts) - 2):
        owned = (
            texts[at] == "had"
            and texts[at + 1] in {"its", "their"}
            and texts[at - 1] in {"has", "have", "is"}
        )
        if owned and lexicon.names(tuple(texts), at + 2).acts:
            return (*tokens[: at + 1], replace(tokens[at + 1], text="a"), *tokens[at + 2 :])
    return tokens


def _oil_there(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Flap sticks" / "drop of oil there, moves free now", "got some oil down it": it was oiled."""
    oil = next((i for i in range(1, len(texts)) if texts[i] in _OILS), 0)
    little = oil - 1 - (texts[oil - 1] == "of")
    if not oil or texts[little] not in _LITTLE or not _BEFORE_OIL.issuperset(texts[:little]):
        return tokens
    begin = oil + 1 + (text_at(texts, oil + 1) in _ONTO)
    end = _oiled_end(texts, begin, lexicon)
    if not end or (begin == oil + 1 and texts[begin] != "there"):
        return tokens
    dry = _was_dry(state)
    named = lexicon.match(tuple(texts), begin + 1) if end > begin + 1 else None
    if named is not None and (named[1].parts or named[1].aliases):
        meant = dry.keys() & {*named[1].parts, *named[1].aliases}
        if not meant:
            return tokens  # "some oil on the shoes" of a cable that sticks
        end = begin + 1 + named[0]
        of = {which for part in meant for which in dry[part]}
        place = of.pop().split() if len(of) == 1 and texts[begin] == "the" else []
        oiled = (
            tokens[begin],
            *(replace(tokens[begin], text=word) for word in place),
            *tokens[begin + 1 : end],
        )
    elif (state.hand is None or state.hand.component not in dry) and _FREES.isdisjoint(texts[end:]):
        return tokens  # what is in hand was not told to stick
    else:
        oiled = (replace(tokens[oil], text="it"),)
    return (replace(tokens[oil], text="lubricated"), *oiled, replace(tokens[oil], text=BREAK), *tokens[end:])


def _oiled_end(texts: Sequence[str], begin: int, lexicon: Lexicon) -> int:
    """The token behind "it", "both ends" or "the pivot" at *begin*; 0 for what else may be oily."""
    if text_at(texts, begin) in _IT | {"there"}:
        return begin + 1
    if text_at(texts, begin) not in {"the", "both", "each", "its"}:
        return 0
    place = text_at(texts, begin + 1) in PLACES_ON_IT | {"pivot", "pivots"}
    named = lexicon.names(tuple(texts), begin + 1)
    return begin + 2 if place or named.parts or named.aliases else 0


def _was_dry(state: Discourse) -> dict[str | None, set[str]]:
    """The parts that were found to stick, or to be dry, just now, with which of each."""
    near = [s for group in state.recent[-2:] for s in group if isinstance(s, ConditionNote)]
    dry: dict[str | None, set[str]] = {}
    for note in near:
        if note.present and note.condition in _DRY:
            dry.setdefault(note.component, set()).add(note.which or "")
    return dry


def _sees_out(tokens: Tokens, texts: list[str], _: Discourse, __: Lexicon) -> Tokens:
    """ "That'll see us both out": it lasts, and nothing came out."""
    at = texts.index("see")
    end = at + 2 + (text_at(texts, at + 2) in {"both", "all"})
    if text_at(texts, at + 1) not in _PEOPLE or text_at(texts, end) != "out":
        return tokens
    return (*tokens[: at + 2], *tokens[end + 1 :])


def _another_winter(tokens: Tokens, texts: list[str], _: Discourse, __: Lexicon) -> Tokens:
    """ "It'll do another season", "do another winter that": it will do."""
    at = texts.index("another")
    if text_at(texts, at + 1) not in _TIMES or text_at(texts, at - 1) not in _LASTS:
        return tokens
    if at == 1 and text_at(texts, at + 2) == "that":  # "do another winter, that"
        will = [replace(tokens[0], text=word) for word in ("that", "will", "do", BREAK)]
        return (*will, *tokens[at + 3 :])
    return (*tokens[:at], *tokens[at + 2 :])


def _on_the_wrench(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Eight on the wrench", with what is tightened in hand: the torque wrench, and no size of one."""
    at = texts.index("wrench")
    part = lexicon.sheet.get(state.hand.component) if state.hand is not None else None
    tightened = part is not None and any(get_unit(c.unit).kind == "torque" for c in part.characteristic)
    shown = (
        texts[max(0, at - 2) : at] == ["on", "the"]
        and text_at(texts, at - 3) in CLASSES
        and text_at(texts, at + 1) in {"", BREAK}
    )
    if not (tightened and shown) or state.stage != "as_left":
        return tokens
    return (*tokens[:at], replace(tokens[at], text="torque"), *tokens[at:])


def _on_both_nuts(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Carb on both nuts", while it goes back together: the carb is on, and so are both nuts."""
    at = next((i for i in range(1, len(texts) - 1) if texts[i : i + 2] == ["on", "both"]), 0)
    found = lexicon.match(tuple(texts), at + 2) if at and text_at(texts, at + 2) not in {"", BREAK} else None
    if (
        found is None
        or state.stage != "as_left"
        or at + 2 + found[0] != len(texts)
        or texts[-1] not in FASTENERS
    ):
        return tokens
    last = lexicon.names(tuple(texts), at - 1)
    if not (last.parts or last.aliases) or texts[at - 1] in FASTENERS:
        return tokens
    fasteners = [lexicon.sheet.get(part) for part in (*found[1].parts, *found[1].aliases)]
    if not any(c is not None and (c.count == 2 or texts[at - 1] in c.id.split("_")) for c in fasteners):
        return tokens  # "pump on both bolts", of which the sheet has those of another
    return (
        *tokens[: at + 1],
        replace(tokens[at], text=BREAK),
        *tokens[at + 1 :],
        replace(tokens[-1], text="on"),
    )


def _on_what_is_there(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Old impeller on that with a new key", "new bearings both on the shaft": on."""
    for at in range(1, len(texts) - 2):
        if texts[at] != "on":
            continue
        if texts[at + 1] == "that" and text_at(texts, at + 2) == "with" and state.stage == "as_left":
            return (*tokens[: at + 1], *tokens[at + 2 :])
        if texts[at - 1] != "both" or texts[at + 1] != "the" or "new" not in texts[: at - 1]:
            continue
        found = lexicon.match(tuple(texts), at + 2)
        named = lexicon.names(tuple(texts), at - 2) if at > 1 else NOTHING
        if found is not None and found[1].parts and (named.parts or named.aliases):
            return (*tokens[: at + 1], replace(tokens[at], text=BREAK), *tokens[at + 2 + found[0] :])
    return tokens


_RULES: Final[Calls[Callable[[Tokens, list[str], Discourse, Lexicon], Tokens]]] = Calls(
    (_could_not, {"could"}),
    (_stuff_out, _GOT_OUT),
    (_had_its, {"had"}),
    (_oil_there, _OILS),
    (_sees_out, {"see"}),
    (_another_winter, {"another"}),
    (_on_the_wrench, {"wrench"}),
    (_on_both_nuts, {"both"}),
    (_on_what_is_there, {"on"}),
)


@called_by(_RULES.words)
def done_shortly(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with plain words for such doings and verdicts."""
    return _RULES.put(
        tokens, lambda plainer, said: plainer(said, [token.text for token in said], state, lexicon)
    )
