"""Words of movement that move no part of the sheet: "put the kettle on", "the drill goes in"."""

from __future__ import annotations

from saywright.understanding.bench_words import HELPER, NEUTRAL, SOMEBODY, SWITCHED
from saywright.understanding.doings.not_off_here import is_not_here
from saywright.understanding.doings.runs_out import runs_out
from saywright.understanding.doings.stays_there import stays_there
from saywright.understanding.doings.tool_asides import is_tool_with_size
from saywright.understanding.phrases import Phrase
from saywright.understanding.tags import DEGREES
from saywright.understanding.tokens import BREAK
from saywright.understanding.walk import Walk
from saywright.understanding.wordforms import is_past

_FOLDS = frozenset({"peel", "peels", "peeled", "peeling", "fold", "folded", "folding", "roll", "rolled"})
_FLAKES = frozenset({"lifting", "peeling", "flaking", "coming", "breaking", "falling"})
_FREED = frozenset({"free", "freed", "freeing", "dried", "drying"})
_PUTS = frozenset({"put", "stick", "stuck", "putting", "set", "place", "pop", "popped"})
_SOMEBODY_REACH = 6  # tokens from who did it to the movement
_TOOLS = frozenset({"TOOL", "INSTRUMENT"})
_OTHERS = {("they",), *((one,) for one in SOMEBODY)}
_PULLS = frozenset({"pull", "pulls", "pulling", "pulled"})
_ASIDE = frozenset({"left", "right", "one", "nearside", "offside"})
_SENDS = frozenset({"going", "goes", "go", "gone", "sent", "send", "sending"})
_AWAY = frozenset({"out", "off", "away"})
_RIGHT_OFF = frozenset({"right", "clean", "straight", "off"})


def moves_nothing(walk: Walk, index: int, *, takes_object: bool) -> bool:
    """True where the movement at phrase *index* is of nothing on the sheet, or none at all."""
    if takes_object and (_unknown_object(walk, index) or _somebody(walk, index)):
        return True
    if (
        (walk.phrases[index].aux_tags & DEGREES and not takes_object)  # "it's a good bit out": of its limits
        or _pulls_to(walk, index)
        or _broke_off(walk, index)
        or _flakes_off(walk, index)
        or _paid_for(walk, index)
        or _sent_to_be(walk, index)
        or runs_out(walk, index)
        or stays_there(walk, index)
        or is_not_here(walk, index)
    ):
        return True
    if walk.phrases[index].kind == "on" and (
        _in_relation(walk, index) or _gauges(walk, index) or _weighed(walk, index)
    ):
        return True
    if (
        _left_there(walk, index)
        or _freed(walk, index)
        or _folded(walk, index)
        or (takes_object and _puts_tool(walk, index))
    ):
        return True
    return (
        _switched(walk, index)
        or _unknown_subject(walk, index)
        or _some_of_it(walk, index)
        or _by_somebody(walk, index)
        or _unknown_verb(walk, index)
    )


def _pulls_to(walk: Walk, index: int) -> bool:
    """ "trailer pulling to the left": where it goes."""
    end = walk.phrases[index].end
    side = walk.texts[end + 1 : end + 3]
    to = walk.texts[end - 1] in _PULLS and walk.texts[end : end + 1] == ("to",)
    return to and not _ASIDE.isdisjoint(side)


def _broke_off(walk: Walk, index: int) -> bool:
    """ "nipple snapped right off", "sheared clean off": how it broke; it did not come out."""
    phrase, last = walk.phrases[index], walk.last
    if last is None or last.kind != "finding" or last.phrase.end != phrase.start or last.negated:
        return False
    words = walk.texts[phrase.start : phrase.end]
    return words[-1] == "off" and last.participle and _RIGHT_OFF.issuperset(words)


def _flakes_off(walk: Walk, index: int) -> bool:
    """ "lining's lifting off that one": what is measured on a part lifts off it; the part is there."""
    phrase, before = walk.phrases[index], walk.before(index)
    flakes = not _FLAKES.isdisjoint(walk.texts[phrase.start : phrase.end]) and phrase.kind == "off"
    return flakes and before is not None and before.kind == "char" and before.end == phrase.start


def _sent_to_be(walk: Walk, index: int) -> bool:
    """ "covers going out to be ground", "gone off for chroming": somebody else does it, elsewhere."""
    phrase, after = walk.phrases[index], walk.after(index)
    if after is None or after.kind not in {"doing", "link", "aux"} or walk.texts[phrase.end - 1] not in _AWAY:
        return False
    goes = not _SENDS.isdisjoint(walk.texts[max(0, phrase.end - 2) : phrase.end])
    done = walk.texts[after.start : after.start + 2] == ("to", "be") or walk.texts[after.start] == "for"
    ahead = walk.phrases[index + 2 : index + 3] if after.kind == "link" else [after]
    return goes and done and (after.kind == "aux" or (bool(ahead) and ahead[0].kind == "doing"))


def _paid_for(walk: Walk, index: int) -> bool:
    """ "I paid six bucks for that bearing in seventy nine": when it was bought."""
    behind = walk.after(index)
    if not walk.out.marks or behind is None or behind.kind != "measure":
        return False
    return any("PRICE" in m.tags and m.segment == walk.segment for m in walk.out.marks)


def _switched(walk: Walk, index: int) -> bool:
    """ "supply is off now", "power's back on": switched, and taken off nothing; not the sheet's own mains."""
    noun = walk.before(index)
    if noun is None or noun.end != walk.phrases[index].start or noun.meaning.parts or noun.meaning.aliases:
        return False
    return walk.texts[noun.end - 1] in SWITCHED


def _left_there(walk: Walk, index: int) -> bool:
    """ "leave the cover off", "left both bushes in": nothing moved."""
    before, verb = walk.before(index), walk.before(index - 1) if index else None
    if before is not None and "LEAVE" in before.tags and before.end == walk.phrases[index].start:
        return True  # "leave it off"
    if before is None or verb is None or before.kind != "subject" or verb.kind != "word":
        return False
    beside = verb.end == before.start and before.end == walk.phrases[index].start
    return beside and walk.texts[verb.start : verb.end] in {("leave",), ("left",), ("leaving",)}


def _folded(walk: Walk, index: int) -> bool:
    """ "peeled the boot back": out of the way; nothing was fitted."""
    before, verb = walk.before(index), walk.before(index - 1) if index else None
    phrase = walk.phrases[index]
    way = walk.texts[phrase.start : phrase.end]
    if before is None or verb is None or way[:1] != ("back",):
        return False
    beside = verb.end == before.start and before.end == phrase.start
    if walk.texts[verb.start] in _FOLDS:
        return beside and verb.kind == "word"  # "peel the boot back on the cylinder"
    if way != ("back",):
        return False
    return beside and verb.kind == "word" and not verb.tags and is_past(walk.texts[verb.start])


def _freed(walk: Walk, index: int) -> bool:
    """ "freed the pin off": it moves again, and stays where it is."""
    before = walk.before(index)
    if before is None or before.kind != "subject" or before.end != walk.phrases[index].start:
        return False
    return walk.texts[max(0, before.start - 1)] in _FREED and walk.texts[before.end] == "off"


def _puts_tool(walk: Walk, index: int) -> bool:
    """ "put the seventeen mil socket on the bolt": a tool was moved."""
    behind = walk.phrases[index + 1 : index + 5]
    at = 0
    while at < len(behind) and behind[at].kind in {"lead", "measure"}:
        at += 1
    if not at or at + 1 >= len(behind) or not behind[at].tags & _TOOLS:
        return False
    return walk.texts[behind[at + 1].start] in {"on", "onto", "in", "into", "to"}


def _unknown_verb(walk: Walk, index: int) -> bool:
    """ "drill it out and helicoil it": a verb that nothing here knows, before its object and particle."""
    phrase, pronoun, verb = walk.phrases[index], walk.before(index), walk.before(index - 1) if index else None
    if pronoun is None or verb is None or phrase.aux or not verb.tags <= {"TOOL"}:
        return False
    beside = verb.end == pronoun.start and pronoun.end == phrase.start
    it = walk.texts[pronoun.start : pronoun.end] in {("it",), ("them",), ("that",)}
    word = walk.texts[verb.start]
    base = word not in NEUTRAL and not is_past(word) and not word.endswith(("s", "ing"))
    return beside and it and base and index == 2 and verb.kind in {"word", "mark"}


def _unknown_object(walk: Walk, index: int) -> bool:
    """ "put the kettle on", "put twelve mil of oil in": what was moved is no part of the sheet."""
    after = walk.phrases[index + 1 : index + 3]
    before = walk.before(index)
    if before is not None and before.meaning.parts and before.end == walk.phrases[index].start:
        return False  # "emulsion tube drops out the holes are blocked"
    measure = after[0].measure if after else None
    if len(after) == 2 and is_tool_with_size(*after):
        return False  # "solenoid unscrewed, seventeen mil spanner"
    if measure is not None and measure.unit_said is not None:
        return True
    led = len(after) == 2 and (
        after[0].kind == "lead" or "SLIGHT" in after[0].aux_tags
    )  # "put a bit of spit on"
    return led and after[1].kind == "word" and not after[1].tags


def _somebody(walk: Walk, index: int) -> bool:
    """ "they fitted a new gasket": other people did, at another time."""
    before, phrase = walk.before(index), walk.phrases[index]
    if before is None or before.end != phrase.start or "COP" in phrase.aux_tags:
        return False
    return walk.texts[before.start : before.end] in _OTHERS


def _by_somebody(walk: Walk, index: int) -> bool:
    """ "somebody's forced the needle in": before the job."""
    phrase = walk.phrases[index]
    before = walk.texts[max(0, phrase.start - _SOMEBODY_REACH) : phrase.end]
    if before[-3:-2] == ("some",) and phrase.end - phrase.start == 1:
        return walk.phrases[index - 1].kind == "word"  # "some genius put it in backwards"
    if SOMEBODY.isdisjoint(before):
        return False
    at = next(i for i, text in enumerate(before) if text in SOMEBODY)
    return {BREAK, "and", "so"}.isdisjoint(before[at:])


def _unknown_subject(walk: Walk, index: int) -> bool:
    """ "locknut off": a noun that the sheet does not know came off."""
    before = walk.before(index)
    if before is None or before.kind != "word" or before.tags or before.end != walk.phrases[index].start:
        return False
    if walk.texts[before.start] in NEUTRAL or _doing_it(walk, before.start):
        return False  # "I pulled the bowl", "he's pulling the bowl now"
    article = index > 1 and walk.phrases[index - 2].kind == "lead"  # "the foot's off"
    article = article or _there_is(walk, before)
    opens = article or (not walk.current and (index == 1 or walk.phrases[index - 2].kind == "break"))
    return opens and not walk.texts[before.start].endswith("ly")


def _doing_it(walk: Walk, at: int) -> bool:
    """ "he's pulling the left one": who works while another dictates."""
    return walk.texts[at] in HELPER and walk.texts[at + 1] == "is" and walk.texts[at + 2].endswith("ing")


def _there_is(walk: Walk, noun: Phrase) -> bool:
    """ "there's water got in"."""
    return walk.texts[max(0, noun.start - 2) : noun.start] in {("there", "is"), ("there", "was")}


def _some_of_it(walk: Walk, index: int) -> bool:
    """ "half a litre of it came out": so much of what is in hand, no part."""
    of, measure = walk.phrases[index - 2 : index - 1], walk.phrases[index - 3 : index - 2]
    before = walk.before(index)
    if index < 3 or before is None or before.kind != "subject" or before.meaning.parts:
        return False
    said = measure[0].measure
    return said is not None and said.unit_said is not None and "OF" in of[0].tags


def _in_relation(walk: Walk, index: int) -> bool:
    """ "the seat it sits in", "the bag they came in": a clause that tells which, no movement."""
    phrase = walk.phrases[index]
    words = walk.texts[phrase.start : phrase.end]
    verb = walk.before(index)
    if words in {("in",), ("on",)} and verb is not None and verb.kind == "word" and verb.end == phrase.start:
        index, words = index - 1, (walk.texts[verb.start], *words)  # "the bore it runs in"
    pronoun, noun = walk.before(index), walk.before(index - 1) if index else None
    if (
        pronoun is not None
        and walk.texts[max(0, pronoun.start - 1)] == "where"
        and pronoun.end == walk.phrases[index].start
    ):
        return True  # "a wear mark where it goes in the jet"
    if pronoun is None or noun is None:
        return False
    ends_in = words[-1] in {"in", "on"} and words[0] not in {"is", "are", "back"} and len(words) == 2
    named = noun.kind in {"subject", "char"} or (noun.kind == "word" and not noun.tags)
    named = named and noun.end == pronoun.start
    return ends_in and named and walk.texts[pronoun.start : pronoun.end] in {("it",), ("they",)}


def _gauges(walk: Walk, index: int) -> bool:
    """ "the forty two drill goes in": what it is tried with, nothing is fitted."""
    before = walk.before(index)
    if before is None or before.end != walk.phrases[index].start:
        return False
    tools = [p for p in walk.phrases[:index] if p.kind in {"mark", "word"} and p.tags & _TOOLS]
    return before in tools or before.kind == "char" or (before.kind == "measure" and bool(tools))


def _weighed(walk: Walk, index: int) -> bool:
    """ "put them on the kitchen scales": on what they are measured with, nothing is fitted."""
    behind = walk.phrases[index + 1 : index + 5]
    at = next((i for i, p in enumerate(behind) if walk.texts[p.start] in {"on", "in", "under"}), None)
    on = walk.texts[walk.phrases[index].end - 1] in {"on", "in"}
    if walk.texts[walk.phrases[index].start] not in _PUTS or (at is None and not on):
        return False
    rest = behind if at is None else behind[at + 1 :]
    noun = next((p for p in rest if p.kind != "lead"), None)
    return noun is not None and "INSTRUMENT" in noun.tags
