"""Words of talk written for others that sound just the same, told by what is beside them: "gone week".

Each is a word that a bench says as well: he knew it, give it a week, weigh it, threw it out.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Final

from saywright.understanding.bench_words import HELPER
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CARDINALS, CLASSES
from saywright.understanding.tokens import BREAK, text_at, words_of
from saywright.understanding.wordforms import is_past

_PEOPLE: Final = HELPER | words_of(
    "i we you they who it nobody somebody someone everybody everyone customer owner boss lad bloke chap mike "
    "fella fellow never always already well to would"
)
_OPENS: Final = frozenset({"", BREAK, "and", "then", "so", "but", "just"})
_ENDS: Final = frozenset({"", BREAK, "and", "then", "but", "so"})
_KNOWN: Final = words_of(
    "it that he she what the there they this how i you we him her them who why about of where when better "
    "which all i'd exactly nothing something"
)
_WEIGHTS: Final = words_of("the it them that this a about in up out both each every all")
_WEIGHERS: Final = words_of("to i we you they he she will would let us me should can and not must scales")
_OF_TIME: Final = words_of("a last this next every each that per one all whole the past another mid")
_SO_WEAK: Final = {BREAK} | words_of(
    "is are was gone bit very too so looks feels seems and little rather quite pretty dead both all got go "
    "its"
)
_THROWN: Final = words_of("a away off up its his her my them out")
_LED_THROUGH: Final = words_of(
    "it them all right straight half way part been went go goes gone put thing anything nothing finger light "
    "air wire clean come comes came see look pull push poke run runs pass passes daylight water one once get"
)
_MORE: Final = words_of("more less rather other better worse different sooner earlier later further smaller")
_NOT_MORE: Final = words_of(
    "other another over under after together lower upper inner outer water rubber her"
)
_WISHES: Final = words_of("like want wants need needs have has had got going used able ready time supposed")
_ON_WAY: Final = words_of("back over across along round next close due according thanks onto")
_BEHIND_LOOSE: Final = words_of("and on in so but too at again now as though here there both") | {"", BREAK}
_OBJECTS: Final = words_of("the it them him her a an my this that these those your his their its me us you")
_BEFORE_FOR: Final = words_of(
    "order ordered ordering need needed bought bin good fit ready wait waiting fine used made looked look "
    "looking checked check checking time meant done ok okay down in off up out on"
)
_ONE: Final = frozenset({"a", "the", "that"})
_VERBS: Final = words_of(
    "see go get change clean take put come be do have make look check find leave keep order replace fit say"
)
_BEFORE_BE: Final = words_of("to will would can could might must should may it not let")
_BEHIND_BUT: Final = words_of("the it i that this not only no still he they there is nothing")


def around_twin(texts: Sequence[str], at: int, lexicon: Lexicon) -> str:
    """The word that was said for the one at *at* of `AROUND`; "" where it is itself."""
    said, is_said = AROUND[texts[at]]
    return said if is_said(texts, at, lexicon) else ""


def _is_new(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "both knew and in", "knew liner's gone in"; not "he knew", "knew about it"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    return before not in _PEOPLE and behind not in _KNOWN and bool(before or behind)


def _is_weak(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "spring's gone week", "its week", "a week spring"; not "last week", "is weeks old"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    if behind in CLASSES or behind in {"of", "ago", "old", "later", "now"}:
        return False
    named = lexicon.names(tuple(texts), at + 1)
    if before in _OF_TIME or before in CLASSES:
        return before == "a" and bool(named.parts or named.aliases) and behind not in {"pump", "pumps"}
    part = lexicon.table.get((before,), NOTHING)
    return before in _SO_WEAK or bool(part.parts or part.aliases or named.parts)


def _is_way(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "by the weigh", "the same weigh", "all the weigh round"; not "weigh it", "i weigh the float"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    return before not in _WEIGHERS | _OPENS and (behind not in _WEIGHTS or before in {"the", "same", "that"})


def _is_through(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "finger threw there's a hole", "blown threw once more"; not "he threw it out", "threw the old one"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    if before in {"it", "they"} and behind in _THROWN | {"the"}:
        return False
    if before == "out":
        return behind in {"the", "its"}
    return (before in _LED_THROUGH or is_past(before)) and behind not in _THROWN


def _is_then(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "thirty two point one oh than thirty two point one one": nothing is more than another before it."""
    return not any(_compares(word) for word in texts[:at])


def _compares(word: str) -> bool:
    return word in _MORE or (
        word.endswith(("er", "ier")) and word not in _NOT_MORE and len(word) > len("her")
    )


def _is_than(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "more then two thou", "rather then renew it"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    return before == "rather" or (before in {"more", "less"} and behind in CLASSES)


def _is_too(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "to much for me", "it's to tight": no verb and no object."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    if behind in {"much", "many"}:
        return text_at(texts, at + 2) not in {"use", "less"}
    told = lexicon.table.get((behind,), NOTHING)
    so = bool(told.conditions) and not told.acts and text_at(texts, at + 2) in _ENDS
    return before in {"is", "are", "was", "bit", "far", "way", "looks"} and so


def _is_to(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "i'd like too see", "over two the nearside", "need two change it"; not "is there too the"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    if text_at(texts, at - 2) == "number":
        return False
    if behind == "be":
        return before not in CARDINALS
    if before in _ON_WAY and behind in _OBJECTS - {"it"} and texts[at] == "two":
        return True
    return before in _WISHES and behind in _VERBS and texts[at] == "too"


def _is_for(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "order a disc four the left one", "fore the record": an article stands behind no number."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    if texts[at] == "fore":
        number = before in CLASSES or behind in CLASSES or behind in lexicon.units or before == "number"
        return not number and not lexicon.names(tuple(texts), at + 1).many and before != "the"
    if behind not in _OBJECTS - {"it"} or before in CLASSES or before == "number":
        return False
    part = lexicon.table.get((before,), NOTHING)
    named = [lexicon.sheet.get(one) for one in (*part.parts, *part.aliases)]
    if named:
        return not part.many and all(one is not None and one.count < len("four") for one in named)
    return before in _BEFORE_FOR - {"in", "off", "on", "up", "out", "down"}


def _is_loose(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "clip's lose", "lose on its shaft": nothing behind it that could be lost."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    part = lexicon.table.get((before,), NOTHING)
    led = before in {"is", "are", "was", "bit", "come", "came", "works", "worked", "gone", "very", "too"}
    if led:
        return behind not in _OBJECTS
    return bool(part.parts or part.aliases) and behind in _BEHIND_LOOSE  # "seals lose pressure"


def _is_read(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "the gauge red three hundred", "i red it twice"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    return (
        behind in CLASSES and behind != "one" and before not in {"is", "the", "a"} | lexicon.positions
    ) or before in {"i", "we"}


def _is_hole(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "a whole in it", "the drain whole"; not "a whole one", "came away whole"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    return before in {"a", "big", "small", "the", "little"} and behind in {"in", "through", "right", "there"}


def _is_whole(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "a hole new pump", "the hole lot"."""
    return (
        text_at(texts, at + 1) in {"lot", "new", "thing", "job", "set", "time"}
        and text_at(texts, at - 1) in _ONE
    )


def _is_be(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    return text_at(texts, at - 1) in _BEFORE_BE


def _is_but(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    return text_at(texts, at + 1) in _BEHIND_BUT


def _is_oh(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "point owe five", "three point four owe"; not "we owe forty"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    beside = before in CLASSES or before in {"oh", "owe"} or (before not in _PEOPLE and behind in CLASSES)
    return beside and behind not in _OBJECTS


def _is_of(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "off coarse", "of coarse"."""
    return text_at(texts, at - 1) in {"of", "off"}


Is = Callable[[Sequence[str], int, Lexicon], bool]
# Heard → said, and what tells that it was.
AROUND: Final[Mapping[str, tuple[str, Is]]] = {
    "knew": ("new", _is_new),
    "week": ("weak", _is_weak),
    "weigh": ("way", _is_way),
    "threw": ("through", _is_through),
    "than": ("then", _is_then),
    "then": ("than", _is_than),
    "to": ("too", _is_too),
    "too": ("to", _is_to),
    "two": ("to", _is_to),
    "four": ("for", _is_for),
    "fore": ("for", _is_for),
    "lose": ("loose", _is_loose),
    "red": ("read", _is_read),
    "whole": ("hole", _is_hole),
    "hole": ("whole", _is_whole),
    "bee": ("be", _is_be),
    "butt": ("but", _is_but),
    "owe": ("oh", _is_oh),
    "coarse": ("course", _is_of),
}
