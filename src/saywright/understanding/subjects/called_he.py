"""Parts called "he": "he's scored", "out of his hole", "wind him out" of what is in hand. Pure.

A person is left alone: "he's pulling the jet", "he's fine", "ring him", and talk of a customer.
"""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

_HE = frozenset({"he", "him", "his"})
_IS = frozenset({"is", "has", "was", "looks", "feels", "seems"})
_SO_MUCH = frozenset(
    ["gone", "got", "still", "all", "a", "bit", "badly", "well", "not", "quite", "nice", "and", "really",
     "only", "just", "been", "as", "proper", "completely"]
)  # fmt: skip
_REACH = 3  # tokens between the verb and the state
# Where a part belongs: no place of a person.
_PLACES = frozenset(
    ["hole", "groove", "bore", "seat", "slot", "pocket", "housing", "recess", "socket", "thread", "threads",
     "shoulder", "clip", "taper", "stud", "spindle", "shaft", "land", "counterbore", "keyway"]
)  # fmt: skip
_LITTLE = frozenset({"little", "own", "old"})
_PEOPLE_ARE = frozenset(
    {"worn", "knackered", "broken", "shot", "tight", "loose", "dirty", "dry", "sore", "bent"}
)
_GOES = frozenset({"comes", "goes", "came", "went", "drops", "slides", "pops", "falls", "is", "was"})
_WAYS = frozenset({"off", "out", "in", "on", "home", "up", "down", "through", "back"})
_AGAIN = frozenset({"right", "straight", "back", "all", "coming", "going"})
_MOVES_END = frozenset({"", BREAK, "and", "but", "now", "again", "then", "too"})
_COMES = frozenset({"comes", "drops", "slides", "pops"})
_MAY = frozenset({"will", "can", "wants", "needs", "does", "do", "would", "could", "stays"})
_READS = frozenset({"is", "measures", "reads", "mikes", "was", "weighs", "comes", "stands"})
_AT = frozenset({"at", "out", "a", "an", "about", "only", "in", "just", "stamped", "marked"})
_TAKES = frozenset(
    ["take", "took", "pull", "pulled", "push", "pushed", "tap", "tapped", "press", "pressed", "drive",
     "drove", "wind", "wound", "screw", "screwed", "lift", "lifted", "slide", "slid", "pop", "popped",
     "knock", "knocked", "fit", "fitted", "undo", "undid", "unhook", "unhooked", "wipe", "wiped", "spin",
     "spun", "prise", "prised", "turn", "turned", "ease", "eased", "hook", "hooked", "bolt"]
)  # fmt: skip
_PUTS = frozenset({"put", "set", "drop", "dropped", "get", "bring", "brought", "draw", "drew"})
_PLACED = frozenset({"in", "on", "off", "out", "back", "down", "up", "home", "through", "over"})
_INSIDE = frozenset({"in", "on", "of", "round", "inside", "through", "under", "behind", "with", "from"})
_SECOND_OBJECT = frozenset({"a", "an", "the", "to", "some", "my", "his", "what", "that", "about"})
# A person is talked of beside it, or to.
_PEOPLE = frozenset(
    ["mate", "customer", "lad", "lads", "bloke", "gaffer", "owner", "boss", "boy", "son", "dad", "brother",
     "father", "driver", "chap", "fella", "man", "guy", "who", "said", "says", "reckons", "told",
     "neighbour", "farmer", "pay", "pays", "paid", "asked", "somebody", "someone"]
)  # fmt: skip


@called_by(_HE)
def parts_called_he(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """The same tokens, "it" and "its" where a part is called "he" and a state or a place of it is told."""
    texts = tuple([token.text for token in tokens])
    if not _PEOPLE.isdisjoint(texts):
        return tokens
    hand = state.hand
    out = list(tokens)
    for at, text in enumerate(texts):
        named = _is_named(texts[:at], lexicon)
        if text == "he" and (named or hand is not None):
            if _is_told(texts, at + 1, lexicon, named=named) or _moves_or_reads(texts, at, named=named):
                out[at] = replace(tokens[at], text="it")
        elif text == "him" and (named or hand is not None) and _is_object(texts, at, lexicon, named=named):
            out[at] = replace(tokens[at], text="it")
        elif text == "his" and (named or hand is not None) and _is_of_part(texts, at):
            out[at] = replace(tokens[at], text="its")
    return tuple(out)


def _is_named(texts: tuple[str, ...], lexicon: Lexicon) -> bool:
    """True where a part, or which of several, is named in *texts*."""
    found = (lexicon.names(texts, at) for at in range(len(texts)))
    return any(one.parts or one.aliases or one.positions or "ORD" in one.tags for one in found)


def _is_told(texts: tuple[str, ...], at: int, lexicon: Lexicon, *, named: bool) -> bool:
    """ "is scored", "has gone weak", from *at* on; what people are too only of a part *named* before."""
    if at >= len(texts) or texts[at] not in _IS:
        return False
    for here in range(at + 1, min(at + 2 + _REACH, len(texts))):
        states = lexicon.names(texts, here).conditions
        if states or texts[here] in lexicon.predicates:
            of_part = texts[here] not in _PEOPLE_ARE and any(_is_fault(state, lexicon) for state in states)
            return named or of_part
        if texts[here] not in _SO_MUCH:
            return False
    return False


def _is_fault(state: str, lexicon: Lexicon) -> bool:
    spec = lexicon.sheet.get_condition(state)
    return spec is not None and not spec.good


def _is_of_part(texts: tuple[str, ...], at: int) -> bool:
    """ "in his groove", "on his little clip", "his seat is pitted"."""
    noun = at + 1 + (not _LITTLE.isdisjoint(texts[at + 1 : at + 2]))
    if noun >= len(texts) or texts[noun] == BREAK:
        return False
    return texts[noun] in _PLACES


def _moves_or_reads(texts: tuple[str, ...], at: int, *, named: bool) -> bool:
    """ "he comes off", "he wants a clean", "he's eleven point one": behind a part that is named before."""
    verb = texts[at + 1] if at + 1 < len(texts) else ""
    if verb in _GOES and _moves(texts, at + 2, named=named or verb in _COMES):
        return True
    return named and ((verb in _READS and _value_follows(texts, at + 2)) or verb in _MAY)


def _moves(texts: tuple[str, ...], at: int, *, named: bool) -> bool:
    """ "comes off", "goes back in": a way, and nothing of where a person would go."""
    while at < len(texts) and texts[at] in _AGAIN and texts[at + 1 : at + 2] and texts[at + 1] in _WAYS:
        at += 1
    way = texts[at] if at < len(texts) else ""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    return named and way in _WAYS and behind in _MOVES_END


def _value_follows(texts: tuple[str, ...], at: int) -> bool:
    """ "he measures twelve", "he's only eleven point one"."""
    while at < len(texts) and texts[at] in _AT:
        at += 1
    return at < len(texts) and (texts[at] in CLASSES or texts[at][:1].isdigit())


def _is_object(texts: tuple[str, ...], at: int, lexicon: Lexicon, *, named: bool) -> bool:
    """ "wind him out", "i cleaned him up", "there's a crack in him"."""
    before = texts[at - 1] if at else ""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    if behind in _SECOND_OBJECT or behind in CLASSES:
        return False
    if before in _INSIDE:
        return named
    if before in _PUTS:  # not "put him on the phone"
        return named and behind in _PLACED and (texts[at + 2] if at + 2 < len(texts) else "") in _MOVES_END
    if before in _TAKES:
        return behind in _PLACED or (named and behind in _MOVES_END)
    return before in lexicon.doings and before not in {"set", "leave", "left", "check", "test"}
