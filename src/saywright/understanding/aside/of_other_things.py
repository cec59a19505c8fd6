"""Numbers of something that no sheet knows: "two strands gone", "two ton of ash", "it's the twenty inch"."""

from __future__ import annotations

from typing import Final

from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.counting.counts import small_count
from saywright.understanding.facts import Fact, Told
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.tokens import words_of

OF_SOMETHING: Final = "the number of something else"
IS_THE: Final = frozenset({"the"})
NEEDS: Final = frozenset({"need", "needs", "needed", "wants", "want", "takes", "take"})
# End in s and name nothing that can be counted.
_NO_NOUNS: Final = words_of(
    "across afterwards agrees always as backwards besides boys cheers comes counts does downwards ends "
    "feels fits folks gets gives goes guys happens has his inwards is its keeps lads less looks makes "
    "matches means measures minus nearest needs ones others outwards perhaps plus reads runs says seems "
    "shows sits sometimes sounds stands starts stays suits tells thanks this thus towards unless upwards "
    "us various wants was works yes "
)
_SHORTEST: Final = 4  # letters of a noun that is counted
_GONE: Final = words_of("gone missing broken sheared snapped bent chipped worn loose")
_NUMBERED: Final = {(word,) for word in CLASSES}
_LENGTHS: Final = frozenset({"mm", "cm", "m", "in", "ft"})
_IS: Final = frozenset({"is", "was", "are", "were"})
_ENDS: Final = 2  # tokens: "it's the"
_ITS: Final = frozenset({"its", "his", "their"})
_OF_WHAT: Final = {(word,) for word in ("a", "an", "the", *_ITS)}
TIMES_DONE: Final = frozenset(["stops", "laps", "passes", "attempts", "swipes", "squirts", "coats"])


def counts_a_noun(fact: Fact, told: Told, texts: tuple[str, ...]) -> bool:
    """ "five pumps", "two strands gone", "two ton of ash": a strange noun right behind a bare number."""
    measure, end = fact.phrase.measure, fact.phrase.end
    if measure is None or measure.unit_said is not None or fact.characteristics or end >= len(texts):
        return False
    if "point" in texts[fact.phrase.start : end]:
        return False
    noun, behind = texts[end], texts[end + 1 : end + 2]
    if _is_of_part(fact) and (behind in _NUMBERED or small_count(measure) is None):
        return False  # "wheel nuts ninety studs clean", "nuts sixty spacers ten"
    plural = (
        len(noun) >= _SHORTEST and noun.endswith("s") and not noun.endswith("ss") and noun not in _NO_NOUNS
    )
    known = end not in told.strays.get(fact.segment, ())
    if known:
        return plural and bool(behind) and behind[0] in _GONE and _begins_a_state(told, end)
    return plural or (behind == ("of",) and noun.isalpha())


def _is_of_part(fact: Fact) -> bool:
    """True where the number stands right behind the name of a part."""
    return any(s.components and not s.pronoun and s.end == fact.phrase.start for s in fact.subjects)


def _begins_a_state(told: Told, at: int) -> bool:
    """True where a state of several words begins at *at*: "strands gone"."""
    return any(
        f.kind == "finding" and f.phrase.head is not None and f.phrase.head.start == at for f in told.facts
    )


def is_called_by_size(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "front wheel out, it's the twenty inch": which one of its kind, by a length."""
    start, end, measure = fact.phrase.start, fact.phrase.end, fact.phrase.measure
    if fact.characteristics or measure is None or measure.unit_said is None or start < _ENDS:
        return False
    told = texts[start - 1] == "the" and texts[start - 2] in _IS
    return told and measure.unit in _LENGTHS and texts[end : end + 1] != ("on",)


def is_tool_for(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "For those bolts you need a thirteen and a thin fifteen": spanners."""
    start, measure = fact.phrase.start, fact.phrase.measure
    if (
        fact.characteristics
        or measure is None
        or measure.unit_said is not None
        or NEEDS.isdisjoint(texts[:start])
    ):
        return False
    before = texts[:start]
    at = max(n for n, text in enumerate(before) if text in NEEDS)
    led = before[at + 1 : at + 2] == ("a",) and not FASTENERS.isdisjoint(before[:at])
    return led and (start == at + 2 or before[-1] == "a" or before[-2:-1] == ("a",))


def of_noun_behind(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "quarter inch bit", "thirty weight": of a tool, of an oil."""
    behind = tuple(texts[fact.phrase.end :])
    kind = behind[:1] in {("weight",), ("grade",), ("grit",)}
    return not fact.characteristics and (kind or behind in {("bit",), ("bits",)})


def is_some_of_it(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "half a can of spray": how much of something else."""
    start, end = fact.phrase.start, fact.phrase.end
    share = texts[start:end] == ("half",) and texts[end : end + 1] in _OF_WHAT
    if share and texts[end] in _ITS:  # "half its holes"
        return "".join(texts[end + 1 : end + 2]).endswith("s")
    return share and texts[end + 2 : end + 3] == ("of",) and not fact.characteristics


def is_times_done(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "bedded in twenty stops down the hill": how often something was done."""
    measure = fact.phrase.measure
    bare = not fact.characteristics and measure is not None and measure.unit_said is None
    return bare and not TIMES_DONE.isdisjoint(texts[fact.phrase.end : fact.phrase.end + 1])
