"""Words of states that find nothing on the part in hand: praise, people, the whole machine, what is known."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.bench_words import IS, LUBRICANTS, PARTICLES, SEALANTS
from saywright.understanding.conditions.done_to_another import done_to_another
from saywright.understanding.conditions.freed import frees_stranger, was_freed
from saywright.understanding.conditions.likened_states import is_likened, of_the_bench
from saywright.understanding.conditions.said_in_passing import is_in_passing
from saywright.understanding.conditions.without_verb import is_away, is_cleared
from saywright.understanding.facts import Fact, Told
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.wordforms import is_ing, is_past
from saywright.understanding.working import Working

_IDIOMS = (("life",), ("time",), ("luck",), ("work",))
_TO_LOOK = (("speak", "of"), ("look", "at"))
_LED_BY = frozenset({"straight", "right", "flat"})  # "straight in there", "right down the middle"
_THE_PLACE = frozenset({"the", "there", "its", "this", "that"})
_A_GOOD = (("look",), ("feel",), ("bit",), ("few",), ("deal",), ("idea",), ("while",), ("inch",), ("mil",))
_FACES = (("face",), ("faces",), ("surface",), ("lip",), ("edge",), ("land",), ("ring",), ("washer",))
_OTHERS = frozenset({"rest", "other"})
_OKAY = frozenset({"okay", "ok", "right", "alright"})
_IN_PLACE = frozenset({"rolls", "runs", "spins", "sits", "lies", "turns"})  # "it rolls straight on the glass"
_SECURED = frozenset({"over", "back", "up", "down"})
_USED = frozenset({"with", "using"})
_PERSONS = frozenset({"i", "we", "you", "he", "she"})
# What a whole machine does: "she's ticking over", "it idles".
_RUNNER = frozenset({"it", "she", "he", "is", "not", "will", "and", "still"})
_RUNS = frozenset(
    ["idle", "idles", "idling", "start", "starts", "starting", "stalls", "stalling", "revs", "surges"]
)  # fmt: skip
_RUNS_SO = frozenset(
    [("ticking", "over"), ("ticks", "over"), ("tick", "over"), ("cuts", "out"), ("pulls", "to"),
     ("pulling", "to"), ("runs", "like"), ("runs", "sweet")]
)  # fmt: skip
_RUN_WORDS = _RUNS | {first for first, _ in _RUNS_SO}
_PERCEIVED = frozenset(
    {"see", "saw", "seen", "feel", "felt", "found", "find", "spotted", "noticed", "got", "have"}
)
_RULES = frozenset({"usually", "normally", "typically", "generally", "often", "always", "tend", "tends"})
_THERE_IS_YOUR = ({"there", "that", "here"}, {"is"}, {"your", "my", "our", "his"})
_PLACED = frozenset({"on", "at", "in", "near"})
_HERE = frozenset({"this", "that", "these", "both", "each"})  # "bleeders free on this one": where it is so
_EASE = {("trouble",), ("bother",), ("problem",), ("problems",), ("fuss",), ("drama",), ("issues",)}
_EASILY = {("fine",), ("okay",), ("ok",), ("good",), ("all", "right"), ("alright",)}
_PLACED_SO = PARTICLES | {"is", "are", "was", "were", "has"}  # "pads out, fine": not how they came
_STUFFS = LUBRICANTS | SEALANTS
_FIRMLY = frozenset(["in", "down", "up", "on", "home", "seated", "bottomed", "tightened", "wound", "screwed"])
_WAYS = frozenset({"side", "to", "up", "down", "and", "in", "out", "end", "back", "forth", "of", "about"})
_LAYS = frozenset({"put", "of", "putting", "with", "spread", "some", "new", "fresh"})
_STUFF_REACH = 4  # tokens: "of red rubber grease"


def finds_nothing(work: Working, told: Told, fact: Fact, condition: str) -> bool:
    """True where the words of *condition* tell of something else than how a part is."""
    return (
        _describes_noun(work, fact, condition)
        or _told_better(work, told, fact)
        or frees_stranger(work, fact)
        or done_to_another(fact, work.texts)
        or _of_person(work, fact)
        or _is_secured(work, told, fact)
        or _of_machine(work, told, fact)
        or _worked_on(work, fact)
        or _as_a_rule(work, fact)
        or _names_what_is_read(work, told, fact)
        or is_likened(work, told, fact)
        or _comes_of_it(work, told, fact)
        or _is_faint_praise(work, fact)
        or _is_some_stuff(work, fact)
        or _came_easily(work, told, fact)
        or _is_how_firm(work, fact)
        or of_the_bench(work, told, fact)
        or is_in_passing(work, told, fact)
    )


def _came_easily(work: Working, told: Told, fact: Fact) -> bool:
    """ "left one's off no trouble", "it came undone fine": how it came, no finding."""
    words = work.texts[fact.phrase.start : fact.phrase.end]
    no_trouble = words[:1] == ("no",) and words[1:2] in _EASE
    if not no_trouble and words not in _EASILY:
        return False
    moved = (f for f in told.facts if f.kind in {"off", "on"} and f.phrase.end == fact.phrase.start)
    return any(no_trouble or work.texts[f.phrase.start] not in _PLACED_SO for f in moved)


def _is_how_firm(work: Working, fact: Fact) -> bool:
    """ "someone's wound it in hard", "it was done up hard": how firmly, not what it is like."""
    start, end = fact.phrase.start, fact.phrase.end
    return work.texts[start:end] == ("hard",) and bool(start) and work.texts[start - 1] in _FIRMLY


def _is_some_stuff(work: Working, fact: Fact) -> bool:
    """ "a smear of grease on the shaft", "slapped grease all over the pin": stuff that was put there.

    "Grease all over the shoes" was found, as long as nothing goes back together.
    """
    start = fact.phrase.start
    if work.texts[start] in _STUFFS and work.texts[start + 1 : start + 3] == ("all", "over"):
        verb = work.texts[start - 1] if start else ""
        return work.stage == "as_left" or is_past(verb) or verb in _LAYS
    of, *stuff = work.texts[fact.phrase.end : fact.phrase.end + _STUFF_REACH] or ("",)
    return of == "of" and work.texts[fact.phrase.end - 1] == "smear" and not _STUFFS.isdisjoint(stuff)


def _names_what_is_read(work: Working, told: Told, fact: Fact) -> bool:
    """ "forty five mil of play", "pedal play twenty five": what the value is of, where that is read on it."""
    start, end = fact.phrase.start, fact.phrase.end
    if end - start != 1 or not any(f.kind == "value" for f in told.facts):
        return False
    ways = 3 * (work.texts[end + 1 : end + 2] == ("to",))  # "play side to side point two"
    values = [f for f in told.facts if f.kind == "value"]
    values = [f for f in values if 0 <= start - f.phrase.end <= 1 or 0 <= f.phrase.start - end - ways <= 1]
    subjects = [s for f in values if f.subjects == fact.subjects for s in f.subjects]
    held = [work.hand.component] if values and not subjects and work.hand is not None else []
    parts = [work.sheet.get(c) for c in (*(c for s in subjects for c in s.components), *held)]
    names = {name.split()[-1] for p in parts if p is not None for c in p.characteristic for name in c.names}
    return work.texts[start] in names and "no" not in work.texts[max(0, start - 2) : start]


def _as_a_rule(work: Working, fact: Fact) -> bool:
    """ "the shaft, which usually wears first on these": what such parts do, not how this one is."""
    said = work.texts[max(0, fact.phrase.start - 2) : fact.phrase.start + 1]
    if _RULES.isdisjoint(said):
        return False
    return "COP" not in fact.phrase.aux_tags and ("always" not in said or not fact.participle)


def _is_secured(work: Working, told: Told, fact: Fact) -> bool:
    """ "new split pin in the axle and bent over": what was done to what was just fitted."""
    words = work.texts[fact.phrase.start : fact.phrase.end]
    if fact.phrase.aux or len(words) < 2 or not is_past(words[0]) or words[-1] not in _SECURED:
        return False
    on = [f for f in told.facts if f.kind == "on" and f.phrase.end <= fact.phrase.start]
    if work.texts[fact.phrase.start - 1] == "and" and any(fact.segment - f.segment <= 1 for f in on):
        return True  # also behind where it went: "in the axle and bent over"
    return any(f.subjects == fact.subjects for f in on)


def _of_machine(work: Working, told: Told, fact: Fact) -> bool:
    """ "it won't idle and it drips": of the whole machine, or nothing is in hand yet.

    Its complaint is told before anything came off, the verdict when all is back on.
    """
    nothing = work.hand is None and work.before.hand is None
    if not nothing and _RUN_WORDS.isdisjoint(work.texts):
        return False
    if any(s.components or s.other_words or s.unclear for s in told.subjects):
        return False
    bare = all(
        s.pronoun and not (s.components or s.other_words or s.unclear or s.this) for s in fact.subjects
    )
    if not bare:
        return False
    if nothing:
        return bool(fact.subjects)
    words, end = work.texts, len(work.texts)
    end = words.index("why") if "why" in words[fact.phrase.end :] else end  # "… that's why it won't idle"
    return any(_runs(words[at], words[at + 1 : at + 2]) for at in range(1, end) if words[at - 1] in _RUNNER)


def _runs(verb: str, behind: tuple[str, ...]) -> bool:
    """ "idles", "ticks over"; not "starts binding"."""
    if verb in _RUNS:
        return not (behind and (is_ing(behind[0]) or behind[0] == "to"))
    return (verb, *behind) in _RUNS_SO


def _worked_on(work: Working, fact: Fact) -> bool:
    """ "I hit the hard spots with emery": a fault that somebody worked on; it is known already."""
    head = fact.phrase.head.start if fact.phrase.head is not None else fact.phrase.start
    words = work.texts[max(0, head - 3) : head]
    if len(words) < 3 or words[0] not in {"i", "we"} or words[2] != "the" or fact.phrase.aux:
        return False
    return words[1] not in _PERCEIVED and not work.lexicon.names(work.texts, head - 2).tags


def _comes_of_it(work: Working, told: Told, fact: Fact) -> bool:
    """ "it's torn so there's your leak": what comes of what was found, told to a listener."""
    head = fact.phrase.head.start if fact.phrase.head is not None else fact.phrase.start
    if head < len(_THERE_IS_YOUR) or any(
        said not in one for said, one in zip(work.texts[head - 3 : head], _THERE_IS_YOUR, strict=True)
    ):
        return False
    leads_on = fact.phrase.meaning.conditions[-1] == "leaking" and work.texts[0] in {"and", "so"}
    return leads_on or any(f.kind == "finding" and f.phrase.end < head - 2 for f in told.facts)


def _is_faint_praise(work: Working, fact: Fact) -> bool:
    """ "two thou, not bad at all": of a value or of the work; "the plate's not bad at all" is of a part."""
    if work.texts[fact.phrase.end - 3 : fact.phrase.end] != ("bad", "at", "all"):
        return False
    return "COP" not in fact.phrase.aux_tags or not any(not s.pronoun for s in fact.subjects)


def _describes_noun(work: Working, fact: Fact, condition: str) -> bool:
    """ "a good scrub", "drops straight out": a good word that colours what follows it."""
    spec = work.sheet.get_condition(condition)
    end = fact.phrase.end
    after = work.texts[end : end + 1]
    if after in _IDIOMS or (condition == "sealing" and after in _FACES):
        return True  # "they've had a hard life", "the sealing face is fine"
    if after in _A_GOOD and work.texts[max(0, fact.phrase.start - 1)] in {"a", "another"}:
        return True  # "had a good look at both covers"
    if (
        after == ("to",)
        and "FILLER" not in work.lexicon.names(work.texts, end).tags  # "all right to be fair"
        and not (fact.participle or is_ing(work.texts[end - 1]))  # "crumbling, two legs gone"
        and work.texts[end + 1 : end + 3] not in _TO_LOOK
        and _is_verb(work.texts[end + 1 : end + 2])
    ):
        return True  # "hard to get at", "good to go"
    if fact.negated and work.texts[end : end + 2] in {("to", "me"), ("to", "us"), ("to", "anyone")}:
        return True  # "frame number's no good to me"
    if spec is None or not spec.good or not after or fact.phrase.head is None:
        return False
    following = work.lexicon.names(work.texts, end)
    if is_ing(after[0]) and following == NOTHING:
        return True  # "free flowing"; not "slide's clean, spring's short"
    if _leads_a_way(work, fact, fact.phrase.head.start):
        return True
    article = work.texts[fact.phrase.head.start - 1] if fact.phrase.head.start else ""
    before = work.texts[max(0, fact.phrase.head.start - 2) : fact.phrase.head.start]
    on_place = article == "the" and before[0] in _PLACED  # "three oh one on the good part"
    on_place = on_place and not (following.parts or following.tags - {"PLACE"})
    tool = article in _USED or (article == "the" and before[0] in _USED)  # "with the fine emery"
    tool = tool or (article == "in" and before[0] not in IS and not fact.phrase.aux)  # "in clean oil"
    return (
        (tool or on_place or article in {"a", "an", "some"})
        and after[0].isalpha()
        and (
            tool
            or on_place
            or (after[0],) not in work.lexicon.table
            or bool(work.lexicon.table[(after[0],)].acts)
        )
    )


def _leads_a_way(work: Working, fact: Fact, start: int) -> bool:
    """ "Drops straight out": a way; not "smooth down there", "clear in the glass"."""
    end = fact.phrase.end
    after = work.texts[end : end + 2]
    if "COP" in fact.phrase.aux_tags or after[0] not in PARTICLES - {"again", "apart"} or end - start != 1:
        return False
    if work.texts[start - 1] in _IN_PLACE or after == ("back", "here"):
        return False
    if after[0] == "on" and after[1:] and after[1] in _HERE:
        return False
    if is_cleared(work.texts, end) or work.texts[end - 1] in _LED_BY:
        return True
    return _THE_PLACE.isdisjoint(after[1:]) or is_away(work.texts, end)


def _of_person(work: Working, fact: Fact) -> bool:
    """ "we're fine there", "I'm worn out": said of people."""
    at = fact.phrase.start - 1  # "left adjuster I got free with some heat"
    before = work.texts[max(0, at) : fact.phrase.start + 1]
    person = not _PERSONS.isdisjoint(before) and "COP" in fact.phrase.aux_tags
    person = person and not (before[:1] == ("she",) and fact.subjects)
    person = person and not (
        before[:1] == ("i",) and any(s.components and s.end == at for s in fact.subjects)
    )
    return person or before[:1] == ("am",)


def _is_verb(words: Sequence[str]) -> bool:
    """True for what may be a verb: no number, no person, no noun with its article."""
    return bool(words) and words[0] not in CLASSES and words[0] not in {"me", "us", "the", "a", "half", "it"}


def _named_at(fact: Fact) -> int:
    return max((s.start for s in fact.subjects if s.start < fact.phrase.start), default=0)


def _told_better(work: Working, told: Told, fact: Fact) -> bool:
    """ "okay, no play": a bare "okay" beside something that is told of the same part."""
    if work.texts[fact.phrase.end - 1] not in _OKAY or any(s.selector in _OTHERS for s in fact.subjects):
        return False
    several = "are" in work.texts[max(0, fact.phrase.start - 2) : fact.phrase.start]  # "are both all right"
    right_behind = any(s.components and s.end == fact.phrase.start for s in fact.subjects)
    said_of_it = (
        ("COP" in fact.phrase.aux_tags or several or right_behind)
        and any(s.components for s in fact.subjects)
        and not any(_named_at(fact) <= at < fact.phrase.start for at in told.strays.get(fact.segment, ()))
    )
    kinds = {"value"} if said_of_it else {"finding", "value"}  # "seats are okay and no pitting" tells two
    others = [f for f in told.facts if f is not fact and f.kind in kinds and not was_freed(work, f)]
    return any(
        f.subjects == fact.subjects
        or (not said_of_it and all(s.pronoun and not s.which and not s.single for s in f.subjects))
        for f in others
    )
