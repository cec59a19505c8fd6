""" "Screw that holds the bowl", "shaft the float turns on", "clip holding the hose": what a part does. Pure.

Such a clause tells only which part is meant; what is said behind it is of that part, and not of the other.
Where both words are a name of the sheet, that is meant: the bowl screw, the float pin.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import PARTICLES
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at
from saywright.understanding.wordforms import is_ing, singular

if TYPE_CHECKING:
    from saywright.sheets.model import Component
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_WHICH: Final = frozenset({"that", "which"})
_HOLDING: Final = frozenset(
    {"holding", "keeping", "retaining", "securing", "locking", "carrying", "clamping"}
)
_ARTICLES: Final = frozenset({"the", "its", "both", "all", "my", "your"})
_STUFF: Final = frozenset(
    ["it", "them", "everything", "oil", "fuel", "petrol", "water", "air", "dust", "dirt", "fluid", "grease",
     "pressure", "muck"]
)  # fmt: skip
_NO_VERBS: Final = frozenset(
    ["is", "was", "has", "does", "this", "its", "us", "needs", "wants", "goes", "comes", "gets", "looks",
     "makes", "means", "explains", "takes", "reads", "measures", "weighs", "leaves", "gives", "says", "shows",
     "costs", "leaks", "fits", "passes", "beats", "suits"]
)  # fmt: skip
_VERBS_OF_MANY: Final = frozenset(
    ["hold", "keep", "carry", "drive", "clamp", "secure", "join", "lock", "locate", "retain", "feed", "push",
     "pull", "work", "close", "open", "seal", "stop", "support", "guide", "run", "turn", "slide", "sit",
     "swing", "hang", "bear", "press", "ride", "rub", "bolt", "screw", "fit", "go", "spin", "seat"]
)  # fmt: skip
_HELD: Final = frozenset(
    {"held", "kept", "carried", "drove", "clamped", "secured", "joined", "located", "retained"}
)
_PREPOSITIONS: Final = frozenset(
    {"on", "in", "through", "against", "into", "with", "over", "under", "behind", "round", "inside", "onto"}
)
_WITH_PARTICLE: Final = frozenset(
    ["hold", "keep", "shut", "let", "turn", "pull", "push", "stop", "cut", "lock", "clamp", "draw", "join",
     "tie"]
)  # fmt: skip
_KEPT: Final = frozenset(
    {"in", "on", "together", "shut", "closed", "open", "tight", "still", "back", "down", "apart"}
)
_TOLD_OF: Final = frozenset(
    {"is", "are", "was", "were", "has", "have", "had", "looks", "feels", "measures", "reads"}
)
_BORDERS: Final = frozenset({"", BREAK, "and"})
_OTHER: Final = frozenset({"other", "same", "old", "next", "last", "most", "rest"})
_OPENS: Final = (
    frozenset({"", BREAK, "and", "then", "so", "now", "old", "but", "new"}) | _ARTICLES | {"this", "a"}
)
_FASTENERS: Final = frozenset({"screw", "nut", "bolt", "pin", "spring", "clip", "stud", "washer", "circlip"})
_TORQUES: Final = frozenset({"torque", "torqued", "torques"})
_NAME: Final = 3  # words of a name


@called_by(_WHICH | _HOLDING | _PREPOSITIONS)
def defining_clauses(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* without the clauses that tell a named part by what it does."""
    texts = tuple([token.text for token in tokens])
    for at in range(1, len(texts) - 2):
        if texts[at] != "the" and texts[at] not in _WHICH and texts[at] not in _HOLDING:
            continue
        begin = _head_before(texts, at, lexicon)
        if begin is None:
            continue
        by_itself = _by_another if texts[at] == "the" else _by_verb
        end, owner = by_itself(texts, (begin, at), lexicon)
        if end:
            said = _in_full(owner, texts[begin:at], lexicon) or _of_none(owner, texts, (begin, at), lexicon)
            head = [replace(tokens[begin], text=word) for word in said]
            return (*tokens[:begin], *(head or tokens[begin:at]), *tokens[end:])
    return tokens


def _by_verb(texts: Sequence[str], head: tuple[int, int], lexicon: Lexicon) -> tuple[int, tuple[str, ...]]:
    """ "The spindle that carries the butterfly is worn": where that ends, and what it carries."""
    at = head[1] + (texts[head[1]] in _WHICH)
    many = texts[head[1] - 1].endswith("s")
    if at > head[1] and not (
        _is_verb(texts[at]) or texts[at] in _HELD or (many and texts[at] in _VERBS_OF_MANY)
    ):
        return 0, ()
    begin = at + 1 + (text_at(texts, at + 1) in _ARTICLES)
    if begin == at + 1 and text_at(texts, begin) not in _STUFF:
        return 0, ()
    if text_at(texts, begin) in _OTHER or text_at(texts, begin) in lexicon.positions:
        return 0, ()  # "the pin that holds the left shoe": which of them
    end, part = _object_end(texts, begin, lexicon)
    owner = tuple(texts[begin:end])
    if (
        part
        and lexicon.names(tuple(texts), at).conditions
        and not _in_full(owner, texts[slice(*head)], lexicon)
    ):
        return 0, ()  # "the seal that sticks the float": a fault
    if text_at(texts, end) and is_ing(texts[end]):  # "that stops the oil getting out"
        end += 1 + (text_at(texts, end + 1) in PARTICLES)
    elif _is_particle(texts, end, texts[at]):
        end += 1
    return end, owner


def _by_another(texts: Sequence[str], head: tuple[int, int], lexicon: Lexicon) -> tuple[int, tuple[str, ...]]:
    """ "Shaft the butterfly turns on, you can rock it": where that ends, and what turns on it."""
    end, part = _object_end(texts, head[1] + 1, lexicon)
    verb, behind = text_at(texts, end), text_at(texts, end + 2)
    if not part or text_at(texts, end + 1) not in _PREPOSITIONS or not behind:
        return 0, ()
    surely = behind in _TOLD_OF or (behind in CLASSES and texts[end + 1] != "at")
    in_full = surely and (verb in _VERBS_OF_MANY or verb in {"passes", "goes", "fits", "comes"})
    if not (_is_verb(verb) or in_full):
        return 0, ()
    told = lexicon.names(tuple(texts), end).conditions or lexicon.names(tuple(texts), end + 1).conditions
    if not surely and (behind in _ARTICLES | {"a", "it", BREAK, "and"} or told):
        return 0, ()  # "slide the needle sits in the bottom"
    return end + 2, tuple(texts[head[1] + 1 : end])


def _in_full(owner: tuple[str, ...], head: Sequence[str], lexicon: Lexicon) -> tuple[str, ...]:
    """ "bowl screw" of the screw that holds the bowl; () where the sheet has none."""
    for said in (owner, (*owner[:-1], singular(owner[-1]))) if owner else ():
        if lexicon.table.get((*said, *head), NOTHING).parts:
            return (*said, *head)
    return ()


def _of_none(
    owner: tuple[str, ...], texts: Sequence[str], head: tuple[int, int], lexicon: Lexicon
) -> tuple[str, ...]:
    """What is told of where the sheet has no such screw: a word that names nothing; () where it has one.

    "Screw that holds the jet" is not the mixture screw; what its torque is of is what it holds.
    """
    begin, at = head
    meant = lexicon.names(tuple(texts), begin)
    held, whole = _components(meant, lexicon), _components(lexicon.table.get(owner, NOTHING), lexicon)
    if at - begin > 1 or singular(texts[begin]) not in _FASTENERS or not held or not whole:
        return ()
    names = [name.split() for spec in held for name in spec.names]
    said = {singular(text) for text in (*owner, texts[at], texts[at + 1])}
    said |= {singular(name.split()[-1]) for spec in whole for name in spec.names}  # "lid": the cover screw
    words = {singular(word) for name in names for word in name}
    ids = {spec.id for spec in whole}
    if [texts[begin]] in names or said & words or any(spec.inside in ids for spec in held):
        return ()
    if not _TORQUES.isdisjoint(texts) and any(spec.get("torque") for spec in whole):
        return owner
    return (" ".join((texts[begin], *owner)),)


def _components(meant: Meaning, lexicon: Lexicon) -> list[Component]:
    """What *meant* names on the sheet, in full or in short."""
    found = (lexicon.sheet.get(c) for c in (*meant.parts, *meant.aliases))
    return [spec for spec in found if spec is not None]


def _is_particle(texts: Sequence[str], at: int, verb: str) -> bool:
    """ "that holds the cover on is …", "that shuts the fuel off"; not "that catches the dirt, out"."""
    word, behind = text_at(texts, at), text_at(texts, at + 1)
    if word not in PARTICLES | _KEPT:
        return False
    if behind in _TOLD_OF:
        return True
    stem = verb[:-3] if is_ing(verb) else singular(verb)
    holds = stem in _WITH_PARTICLE or verb in _HELD
    return holds and (word in _KEPT or behind not in _BORDERS)


def _is_verb(word: str) -> bool:
    return word.endswith("s") and not word.endswith("ss") and word not in _NO_VERBS


def _object_end(texts: Sequence[str], at: int, lexicon: Lexicon) -> tuple[int, bool]:
    """The token behind the noun at *at*, and whether that is a part."""
    found = lexicon.match(tuple(texts), at) if text_at(texts, at) not in {"", BREAK} else None
    if found is not None and (found[1].parts or found[1].aliases):
        return at + found[0], True
    return min(at + 1, len(texts)), False


def _head_before(texts: Sequence[str], end: int, lexicon: Lexicon) -> int | None:
    """Where the name begins that ends right before *end* and opens what is said."""
    for begin in range(max(0, end - _NAME), end):
        found = lexicon.match(tuple(texts[:end]), begin) if texts[begin] not in {"", BREAK} else None
        if found is not None and (found[1].parts or found[1].aliases) and begin + found[0] == end:
            before = text_at(texts, begin - 1)
            return begin if before in _OPENS or before in lexicon.positions else None
    return None
