"""Words of doing that do nothing: "in that order", "keep the light still", "haven't cleaned it yet"."""

from __future__ import annotations

from itertools import pairwise

from saywright.understanding.bench_words import FASTENERS, FLUIDS, SPEAKER_IS
from saywright.understanding.conditions.back_to_faults import is_fault
from saywright.understanding.doings.in_its_past import is_in_its_past
from saywright.understanding.doings.light_verbs import is_found_stuff
from saywright.understanding.doings.no_doings import is_no_doing
from saywright.understanding.doings.only_looked import is_only_looked
from saywright.understanding.doings.stuff_used import is_stuff
from saywright.understanding.facts import Fact, Told
from saywright.understanding.meanings import Act
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.tags import DEGREES
from saywright.understanding.tokens import BREAK, spoken_form
from saywright.understanding.working import Working

_NOUN_MARKERS = frozenset({"a", "an", "that", "this", "the", "my", "your", "in"})
_GONE = frozenset(
    (word,) for word in ["both", "all", "it", "that", "they", "one", "those", "them", "is", "are"]
)
_NO_NOUNS = frozenset(  # "that can go again", "stick that in the dip"
    ["can", "will", "should", "could", "goes", "go", "is", "are", "has", "have", "in", "into", "through"]
)
_PERSONS = frozenset({("me",), ("you",), ("him",), ("her",), ("us",)})
_APPEARS = frozenset(["look", "looks", "looking", "looked", "feels", "feel", "seems", "appears"])
_FLUSHED = frozenset({"it", "the", "them", "both", "that", "this", "these", "those"})
_FLUSH_IS = frozenset({"be", "is", "are", "was", "were", "not"})
_COULD = frozenset({("i", "could"), ("we", "could"), ("you", "could"), ("one", "could")})
_CAN = frozenset({("i", "can"), ("we", "can"), ("you", "can")})
_NOBODY = frozenset({"nobody", "never"})
_CAN_NOT = (("can", "not"), ("could", "not"))
_LOOKING = frozenset({"measure", "inspect", "test"})
_HAVE_NOT = frozenset({("have", "not"), ("has", "not")})
_IN_STUFF = {("in",), ("with",), ("through",)}
_OBJECT_MARKERS = frozenset({"the", "a", "an", "my", "your", "that"})
_TWO_AND_MORE = frozenset((word,) for word in CARDINALS[1:])
_ASKS = frozenset({"can", "could", "will", "would"})
_SOMEWHERE = frozenset({("in",), ("up",), ("on",), ("over",), ("back",)})
_BINS = frozenset({"bin", "skip", "scrap", "bucket"})
_BE = frozenset({"is", "are", "has", "have"})
_AT_VALUE = 2  # tokens from "tests" to its value
_SHORTEST = 3  # letters: a plural is longer
_A_GOOD = frozenset({"a", "good", "quick", "proper", "another"})


def is_idle(work: Working, told: Told, fact: Fact, act: Act) -> bool:
    """True where *act* is not done to a part, and not going to be."""
    here = [m.tags for m in told.marks if m.segment == fact.segment and m.end <= fact.phrase.start]
    if _is_idle_talk(work, told, fact, act) or (
        ((act.form == "ing" and "NEED" not in fact.aux) or act.id in _LOOKING)
        and any("SUBORDINATE" in tags for tags in here)
    ):
        return True  # "before refitting"
    before_it = work.texts[max(0, fact.phrase.start - 2) : fact.phrase.start][-2:]
    let_me = act.id in _LOOKING and {("let", "me"), ("let", "us")} & {before_it, _before_head(work, fact)}
    tried = act.id == "blow_out" and before_it in _CAN  # "I can blow back through it": how tight it is
    if let_me or tried or before_it in _COULD:
        return True  # "let me measure those", "I could clean it up, but …"
    if (
        (fact.aux & {"NEG", "DECLINE"} and _not_done(work, fact))
        or is_in_its_past(fact, work.texts)
        or _of_what_is_no_part(work, told, fact)
        or _drains_nothing(work, fact, act)
    ):
        return True
    if work.texts[fact.phrase.end : fact.phrase.end + 1] in _PERSONS and not _for_whom(work, fact, act):
        return True
    ours = work.texts[fact.phrase.start] in {"i", "we"}  # "springs are tired, I'll reuse the hold downs"
    if any(s.components for s in fact.subjects):
        ordered = act.form == "base" and not fact.aux & {"NEED", "GIVEN"}  # "plug in and wipe your hands"
        return (ours or ordered) and _behind(fact) and _unknown_object(work, fact)
    head = fact.phrase.head
    start = head.start if head is not None else fact.phrase.start
    before = work.texts[start - 1 : start] if start else ()
    noun = bool(before) and before[0] in _NOUN_MARKERS and work.texts[start] not in _NO_NOUNS
    if act.form == "base" and noun and not fact.aux & {"NEED", "GIVEN"}:
        return True  # "in that order", "for a change": a noun
    if not fact.subjects and (_of_unknown_noun(work, fact) or _has_strange_plural(work, fact, act)):
        return True
    return _unknown_object(work, fact) or (act.form == "ing" and not fact.subjects and not fact.phrase.aux)


def _drains_nothing(work: Working, fact: Fact, act: Act) -> bool:
    """ "Drained it into the jug" with the release screw in hand: a screw holds nothing."""
    held = work.sheet.get(work.hand.component) if work.hand is not None else None
    if held is None or act.id != "drain" or any(s.components and not s.pronoun for s in fact.subjects):
        return False
    return spoken_form(held.names[0])[-1] in FASTENERS | {"plug", "cock", "tap"}


def _of_what_is_no_part(work: Working, told: Told, fact: Fact) -> bool:
    """ "that nineteen socket's cracked that's going in the bin": it is not on the sheet."""
    at = next((i for i, text in enumerate(work.texts[: fact.phrase.start]) if text in _BE), 0)
    if not at or any(not s.pronoun for s in fact.subjects):
        return False
    if any(s.components and not s.pronoun and s.start < fact.phrase.start for s in told.subjects):
        return False
    noun = work.lexicon.names(work.texts, at - 1)
    known = bool(noun.parts or noun.aliases)
    return not known and (work.texts[at - 1] in FLUIDS or "TOOL" in noun.tags)


def _as_a_rule(work: Working, fact: Fact) -> bool:
    """ "you always measure it cold", "you bin them at two point eight": how such things are done."""
    words = work.texts[max(0, fact.phrase.start - 2) : fact.phrase.start + 2]
    if "you" in words and not {"always", "should", "never", "have"}.isdisjoint(words):
        return True
    start = fact.phrase.start
    said = work.texts[max(0, start - 2) : start]
    act = fact.phrase.meaning.acts[0]
    asks = len(said) > 1 and said[0] in _ASKS  # "would you change the pair", "can you order two seals"
    told = bool(fact.aux & {"NEED", "GIVEN"}) and not asks
    return (
        said[-1:] == ("you",) and act.form == "base" and not told and not (asks and _orders_only(work, act))
    )


def _is_state_of(work: Working, fact: Fact, act: Act) -> bool:
    """ "soaked in oil", "should be flush", "chuck it in the vice": nothing done, or nothing of that kind."""
    start, end = fact.phrase.start, fact.phrase.end
    if work.texts[end - 1] in {"it", "them", "that"} and work.texts[end : end + 1] in _SOMEWHERE:
        return _BINS.isdisjoint(work.texts[end : end + 3])
    soaked = work.texts[end - 1] == "soaked" and "COP" in fact.aux and "DONE" not in fact.aux
    if soaked and work.texts[end : end + 1] in {("in",), ("with",)}:
        return not FLUIDS.isdisjoint(work.texts[end + 1 : end + 3])
    if work.texts[end - 1] != "flush" or act.form != "base" or work.texts[start:end] == ("flush",):
        return False
    object_said = not _FLUSHED.isdisjoint(work.texts[end : end + 1])
    return not object_said or not _FLUSH_IS.isdisjoint(work.texts[end - 2 : end - 1])  # "I will flush it out"


def _is_told_when(work: Working, fact: Fact) -> bool:
    """ "two hundred and one before it must be scrapped": when it would be done."""
    before = work.texts[max(0, fact.phrase.start - 2) : fact.phrase.start]
    return before[:1] == ("before",) and before[1:] in {("it",), ("they",), ("you",), ("we",)}


def _to_somebody(work: Working, fact: Fact, act: Act) -> bool:
    """ "wipe your hands": done to what is no part of the job."""
    after = work.texts[fact.phrase.end : fact.phrase.end + 2]
    owned = act.form == "base" and len(after) > 1 and after[0] in {"my", "your", "his"}
    return owned and not work.lexicon.names(work.texts, fact.phrase.end + 1).parts


def _is_idle_talk(work: Working, told: Told, fact: Fact, act: Act) -> bool:
    """No verb, or one that tells of no doing on this job: "I'm clean out of split pins"."""
    return (
        (act.form == "base" and _before_head(work, fact) in SPEAKER_IS)
        or _is_no_verb(work, fact, act)
        or _told_by_value(work, told, fact, act)
        or is_only_looked(work.texts, told, fact, act)
        or is_no_doing(work, told, fact, act)
        or _as_a_rule(work, fact)
        or _is_state_of(work, fact, act)
        or _is_told_when(work, fact)
        or _to_somebody(work, fact, act)
    )


def _told_by_value(work: Working, told: Told, fact: Fact, act: Act) -> bool:
    """ "measuring off the face, three eighty", "fluid tests at four percent": the value tells it."""
    if act.id == "tighten" and act.form == "base":  # "nip them up, ten newton metres"
        return any(f.kind == "value" and f.phrase.start >= fact.phrase.end for f in told.facts)
    values = [f for f in told.facts if f.kind == "value"] if act.id in _LOOKING else []
    reads = work.texts[fact.phrase.end - 1].endswith("s")
    if reads and any(f.phrase.start - fact.phrase.end <= _AT_VALUE for f in values):
        return True
    return act.id == "measure" and act.form != "base" and bool(values)


def _before_head(work: Working, fact: Fact) -> tuple[str, ...]:
    head = fact.phrase.head
    return work.texts[max(0, head.start - 2) : head.start] if head is not None else ()


def _is_no_verb(work: Working, fact: Fact, act: Act) -> bool:
    """ "looks polished", "the adjustment was off": how a thing is, not what was done."""
    end = fact.phrase.end
    told = work.texts[end - 1] == "history" and work.texts[max(0, end - 2) : end - 1] not in _GONE
    if told or (act.form == "past" and _is_soaked(work, fact)) or _is_used(work, fact, act):
        return True  # "service history"; "both history" is thrown out
    if act.form == "past" and not _APPEARS.isdisjoint(work.texts[fact.phrase.start : fact.phrase.end]):
        return True
    before = _before_head(work, fact)
    tool = act.form == "base" and "GIVEN" not in fact.aux and not {"with", "using"}.isdisjoint(before)
    if tool and not _is_fault(work, before[-1]):
        return True  # "with fine emery", and not "black with muck, order one"
    if (
        act.form == "base"
        and fact.phrase.end - fact.phrase.start == 1
        and work.texts[fact.phrase.end :][:1] == ("of",)
    ):
        return True  # "a patch of rust"
    flush = work.texts[fact.phrase.start :][:2] in {("flush",), ("flush", BREAK)} and fact.phrase.start
    if flush and work.texts[fact.phrase.start - 1] not in _A_GOOD:
        return True  # "snapped off flush", and not "needs a flush"
    if act.form == "base" and (before in {("in", "the"), ("in", "that")} or before[-1:] == ("in",)):
        return True  # "back in the order they came", "put them in order"
    start = fact.phrase.start
    if act.form == "past" and not _NOBODY.isdisjoint(work.texts[max(0, start - 2) : start]):
        return True  # "nobody ever tightened it"
    return act.form == "noun" and not fact.aux & {"NEED", "GIVEN", "DECLINE"}


def _is_used(work: Working, fact: Fact, act: Act) -> bool:
    """ "with a bit of metal polish": what something was done with; "there was loctite on it"."""
    if act.form == "past" or fact.phrase.head is None or "GIVEN" in fact.aux:
        return False
    if is_found_stuff(work.texts, fact.phrase.head.start):
        return True
    if "with" not in work.texts:
        return False
    return is_stuff(work.texts, fact.phrase.head.start, fact.phrase.end, ing=act.form == "ing")


def _is_fault(work: Working, word: str) -> bool:
    known = work.lexicon.table.get((word,))
    return known is not None and any(is_fault(work, condition) for condition in known.conditions)


def _is_soaked(work: Working, fact: Fact) -> bool:
    """ "they're soaked in oil": how they were found."""
    words = work.texts[fact.phrase.start : fact.phrase.end]
    found = work.stage == "as_found" and words[:1] in {("is",), ("are",), ("was",), ("were",)}
    return (
        found
        and words[-1] == "soaked"
        and "been" not in words
        and work.texts[fact.phrase.end :][:1] in _IN_STUFF
    )


def _for_whom(work: Working, fact: Fact, act: Act) -> bool:
    """ "order me a new seal": for whom it is had, not what it is done to."""
    return _orders(work, act) and any(s.components for s in fact.subjects)


def _orders_only(work: Working, act: Act) -> bool:
    return _orders(work, act) and act.id != "replace"


def _orders(work: Working, act: Act) -> bool:
    action = work.sheet.get_action(act.id)
    return action is not None and action.order


def _not_done(work: Working, fact: Fact) -> bool:
    """ "haven't cleaned it", "not cleaned yet": nothing was done, and nothing declined."""
    said = work.texts[fact.phrase.start : fact.end + 4]
    if "yet" in said or said[:2] in _HAVE_NOT or said[1:3] in _HAVE_NOT:
        return True
    before = work.texts[max(0, fact.phrase.start - 1) : fact.phrase.start + 2]
    if any(pair in pairwise(before) for pair in _CAN_NOT):
        return True
    looks = any(act.id in _LOOKING for act in fact.phrase.meaning.acts)
    return looks and ("did", "not") in pairwise(before)  # nothing was decided


def _of_unknown_noun(work: Working, fact: Fact) -> bool:
    """ "the bench's cleaned": a noun that the sheet does not know is what it was done to."""
    start = fact.phrase.start
    if start < 2 or work.texts[start] not in {"is", "are", "has", "have", "was", "were"}:
        return False
    noun, article = work.texts[start - 1], work.texts[start - 2]
    known = work.lexicon.table.get((noun,))
    return article in _OBJECT_MARKERS and noun.isalpha() and (known is None or not known.tags)


def _has_strange_plural(work: Working, fact: Fact, act: Act) -> bool:
    """ "order two shoes": of parts that the sheet does not know, right behind the verb."""
    at = fact.phrase.end
    while work.lexicon.names(work.texts, at).tags & {"NEW"} or work.texts[at : at + 1] in _TWO_AND_MORE:
        at += 1
    word = next(iter(work.texts[at : at + 1]), "")
    plural = len(word) > _SHORTEST and word.endswith("s") and not word.endswith(("ss", "us", "is"))
    return act.form == "base" and plural and (word,) not in work.lexicon.table


def _behind(fact: Fact) -> bool:
    """True where all that *fact* is of was named before it."""
    return all(s.end <= fact.phrase.start for s in fact.subjects)


def _unknown_object(work: Working, fact: Fact) -> bool:
    """ "keep the light still": what was done was done to something that the sheet does not know."""
    after = work.texts[fact.phrase.end : fact.phrase.end + 2]
    if len(after) < 2 or after[0] not in _OBJECT_MARKERS or not after[1].isalpha():
        return False
    if "BOTH" in work.lexicon.names(work.texts, fact.phrase.end).tags:
        return False  # "order a pair"
    known = work.lexicon.table.get((after[1],))
    plain = known is None or (bool(known.tags) and known.tags <= DEGREES)  # "the light", "the deep"
    return plain and after[1] not in work.lexicon.words
