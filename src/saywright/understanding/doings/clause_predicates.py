"""Findings, doings and movements → facts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.sheets.model import Component, Sheet
from saywright.understanding.bench_words import (
    PARTICLES,
)
from saywright.understanding.conditions.degrees import give_back_degree, how_far, is_good
from saywright.understanding.conditions.denials import (
    few_are,
    goes_on_negated,
    hardly_more,
    is_compared,
    is_denied_before,
)
from saywright.understanding.counting.aloud import is_counted
from saywright.understanding.doings.held_owner import hold_owner
from saywright.understanding.doings.in_place import IF_OFF
from saywright.understanding.doings.light_verbs import said_as_noun
from saywright.understanding.doings.move_verbs import finite_forms, takes_object
from saywright.understanding.doings.no_moves import moves_nothing
from saywright.understanding.doings.order_lists import order_whole_list
from saywright.understanding.doings.strangers_of_it import moved_a_stranger
from saywright.understanding.doings.turned_so import (
    TURNING,
    backed_until,
    in_fractions,
    is_backed,
    turned_a_little,
)
from saywright.understanding.facts import Fact
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.phrases import Phrase
from saywright.understanding.quantities.measures import find_measures
from saywright.understanding.second_thoughts.words import not_only
from saywright.understanding.subjects.attach_facts import add_fact, tells_place
from saywright.understanding.subjects.holders import POSSESSIVES, held_noun
from saywright.understanding.subjects.noun_phrases import (
    Subject,
    subject_of_both,
    subject_of_stranger,
)
from saywright.understanding.subjects.strangers import is_of_no_part, strange_object_of, stranger_at
from saywright.understanding.subjects.subject_places import described_noun
from saywright.understanding.tags import DEGREES
from saywright.understanding.tokens import BREAK
from saywright.understanding.walk import Walk
from saywright.understanding.wordforms import is_past

_WISH_REACH = 6  # tokens from "not want" to what is not wanted
_THOUGHT_REACH = 10  # tokens from "not think" to what is not so
_THINKING = frozenset({"think", "believe", "reckon"})
_DOUBTING = _THINKING | {"sure", "convinced", "certain", "say", "suppose", "that", "said"}
_NOT_SAID = ("would", "not", "say")
_REASONS = frozenset({"so", "because", "since", "seeing", "cos"})  # what follows stands on its own
_SEEMS = frozenset({"look", "feel", "seem", "sound", "appear", "fit", "work"})  # a denied verb of its own
_REASON_REACH = 3  # tokens from one to its verb: "seeing she's being binned"
_THERE = 5  # tokens from "there" to what is there
_MOVES = frozenset({"off", "on"})
_ALSO_PAST = frozenset({"split", "burst"})  # nouns too
_TURN = {"turn": ("turn",), "turns": ("turn",)}
_BACK = frozenset({("back", "in"), ("back", "on"), ("back",)})
_COUNTED_MOVES = frozenset({("out",), ("in",), ("off",)})
_LEAD = frozenset({"to", "at", "by", "about", "a"})  # to a number
_TURNS_REACH = 7  # tokens of "one and three quarters of a turn"
_COUNTED_BY = ("turn", "turns", "click", "clicks", "notch", "notches", "flat", "flats")
_TURNS = frozenset((word,) for word in _COUNTED_BY)
_FINITE = finite_forms()
_TAKE_OBJECT = takes_object()


def put_predicate(walk: Walk, index: int, phrase: Phrase) -> None:
    """A state, a doing or a movement was said."""
    moves = phrase.kind in _MOVES
    nothing = moves and moves_nothing(walk, index, takes_object=_takes_object(walk, phrase))
    if nothing or (moves and moved_a_stranger(walk, index)):
        walk.glue.add("WORD")
        return
    if phrase.kind == "finding" and (_names_place(walk, phrase) or how_far(walk, phrase)):
        return
    if phrase.kind == "finding" and is_compared(walk.texts, phrase.start):
        walk.glue.add("WORD")
        return
    if phrase.kind == "finding" and _is_told_not_to(walk, index):
        walk.glue.add("WORD")
        return
    stranger = stranger_at(walk, index) if phrase.kind == "finding" else None
    stranger = strange_object_of(walk, index) if phrase.kind == "doing" else stranger
    if is_of_no_part(walk, index, stranger) or (phrase.kind == "doing" and described_noun(walk, index)):
        walk.glue.add("WORD")
        return
    fact = Fact(phrase.kind, phrase, walk.segment, start=phrase.start, end=phrase.end)
    fact.if_off = moves and IF_OFF in phrase.tags
    loose = walk.glue & {"NEG", "NEED", "DECLINE"} if "BREAK" not in walk.glue else set()
    loose = loose - {"NEG", "DECLINE"} if loose and _anew(walk, phrase) else loose
    fact.aux = phrase.aux_tags | loose | _wish(walk, phrase)
    fact.aux |= _too_much(walk, phrase) if phrase.kind == "doing" else set()
    if phrase.kind == "doing" and phrase.head is not None and phrase.meaning.acts[0].form in {"base", "noun"}:
        noun = said_as_noun(walk.texts, phrase.head.start)
        fact.aux |= {noun, "NEED"} if noun == "DECLINE" else {noun} if noun else set()
    if phrase.kind == "finding":
        _finish_finding(walk, fact)
    elif phrase.kind == "doing":
        _goes_on_planned(walk, fact)
        hold_owner(walk, several=True)
    owned = stranger is not None and walk.texts[stranger.start - 1] in POSSESSIVES
    beside = stranger is not None and stranger.end < phrase.start and walk.texts[phrase.start - 1] == "it"
    if stranger is not None and not beside and len(walk.current) == 1 and (owned or not walk.used):
        walk.hold([*walk.current[:-1], held_noun(walk, stranger, walk.current[-1])], used=False)
    elif stranger is not None:
        fact.subjects = [subject_of_stranger(stranger.start, stranger.end, walk.texts)]
        walk.out.facts.append(fact)
        walk.last, walk.glue = fact, set()
        return
    verb = phrase.kind == "doing" or (moves and (_takes_object(walk, phrase) or _turned_round(walk, phrase)))
    add_fact(walk, fact, index, prefer_right=verb)
    order_whole_list(walk, index, fact)
    if phrase.kind == "finding" and walk.texts[phrase.start] == "neither":
        fact.subjects = [replace(s, selector="both") for s in fact.subjects] or [subject_of_both(phrase)]


def _is_told_not_to(walk: Walk, index: int) -> bool:
    """ "hold it gently, don't squash it": what somebody is not to do, no state."""
    phrase, before, after = walk.phrases[index], walk.before(index), walk.after(index)
    head = phrase.head.start if phrase.head is not None else phrase.start
    told = walk.texts[max(0, head - 2) : head] == ("do", "not") and not is_past(walk.texts[head])
    bare = before is None or before.end != phrase.start or before.kind not in {"subject", "lead"}
    return told and bare and after is not None and "PRON" in after.tags


def _anew(walk: Walk, phrase: Phrase) -> bool:
    """ "it doesn't look any better so I'll order one": a clause with its own subject is not denied."""
    start = phrase.start
    if phrase.kind == "doing" and walk.texts[start] == "just" and phrase.head is not None:
        return True  # "so don't argue just order one"
    if walk.texts[start] in {"i", "we"}:
        return walk.texts[start - 1] not in _DOUBTING
    if phrase.kind == "doing" and not phrase.aux_tags & {"NEG", "DECLINE"}:
        before = (p for p in reversed(walk.phrases) if p.end <= start and p.aux_tags & {"NEG", "DECLINE"})
        denied = next(before, None)
        if denied is not None and walk.texts[denied.end - 1] in _SEEMS:
            return True  # "does not look any better replace it"
    return not _REASONS.isdisjoint(walk.texts[max(0, start - _REASON_REACH) : start])


def _goes_on_planned(walk: Walk, fact: Fact) -> None:
    """ "needs to be cleaned and oiled": the second doing is as far as the first."""
    last = walk.last
    if last is None or last.kind != "doing" or fact.aux or not walk.glue <= {"AND", "BREAK", "OR"}:
        return
    forms = {last.phrase.meaning.acts[0].form, fact.phrase.meaning.acts[0].form}
    if last.phrase.end <= fact.phrase.start and len(forms) == 1 and forms <= {"past", "ing"}:
        fact.aux = last.aux & {"NEED", "DECLINE", "NEG"}


def _too_much(walk: Walk, phrase: Phrase) -> set[str]:
    """ "too small to skim": it will not be done."""
    before = walk.texts[max(0, phrase.start - 2) : phrase.end]
    return {"DECLINE"} if "too" in before and "to" in before[before.index("too") :] else set()


def _wish(walk: Walk, phrase: Phrase) -> set[str]:
    """ "the customer doesn't want it changed": the wish stands before the object."""
    if phrase.kind != "doing" or not is_past(walk.texts[phrase.end - 1]):
        return set()
    before = walk.texts[max(0, phrase.start - _WISH_REACH) : phrase.start]
    at = next((i for i, text in enumerate(before) if text in {"want", "wants", "wanted"}), None)
    if at is None and "like" in before and "would" in before[: before.index("like")]:
        at = before.index("like")  # "I'd like that one replaced"
    if at is None or at + 1 >= len(before) or before[at + 1] == "to":
        return set()
    return {"DECLINE"} if at and before[at - 1] == "not" else {"NEED"}


def turns_adjuster(fact: Fact, texts: Sequence[str], sheet: Sheet, named: Sequence[Subject]) -> bool:
    """ "wound the rebound in": turned, not fitted; not "rod's off, two pins", of parts *named*."""
    if fact.kind not in _MOVES:
        return False
    end, head = fact.phrase.end, fact.phrase.head
    said = tuple(text for text in texts[fact.phrase.start : end] if text not in {"is", "are"})
    number = (said in _COUNTED_MOVES or said in _BACK) and _number_behind(texts, end)
    if said in _BACK and not number:
        return False  # "screw back in"; "back in two turns" is turned
    counts_part = any(s.start == end and s.count is not None and s.components for s in named)
    counted = number and said in _COUNTED_MOVES and not counts_part
    verb = head.start if head is not None else fact.phrase.start
    if turned_a_little(texts, verb) or (said == ("off",) and backed_until(fact, texts)):
        return True
    behind = find_measures(texts[end : end + _TURNS_REACH], _TURN) if said in {("out",), ("in",)} else ()
    if behind and behind[0].start == 0 and behind[0].unit_said:
        return True  # "stop screw in half a turn": turned, whatever is read on it
    if not counted and texts[verb] not in TURNING and not (said[-1:] == ("off",) and is_backed(fact, texts)):
        return False
    if counted and not any(s.components for s in fact.subjects) and in_fractions(texts[end : end + 5]):
        return True  # "high's out one and three quarters": whatever it is, it was counted
    parts = [part for subject in fact.subjects for part in _able(subject, sheet)]
    noun = texts[end + 1 : end + 2] if counted else ()
    if any(" ".join(noun) in name.split() for part in parts for c in part.characteristic for name in c.names):
        return noun in _TURNS  # "impeller out two blades gone"
    return any(is_counted(c) for part in parts for c in part.characteristic)


def _number_behind(texts: Sequence[str], end: int) -> bool:
    """True where a number stands at *end*, or behind a word that leads to it; not "out, high one's …"."""
    return any(m.start == 0 or texts[end] in _LEAD for m in find_measures(texts[end : end + 2], {}))


def _able(subject: Subject, sheet: Sheet) -> list[Component]:
    """The parts that *subject* may be: as many as were said, or called by a word of its: "the low one"."""
    named = [c for c in sheet.component if c.id in subject.components and c.count >= (subject.count or 1)]
    if named or subject.components:
        return named
    words = set(subject.which)
    return [c for c in sheet.component if any(words & set(name[:-1]) for name, _ in component_names(c))]


def put_denial(walk: Walk, phrase: Phrase) -> bool:
    """ "scoring none": the denial comes last; False where it belongs to nothing."""
    last = walk.last
    if last is None or last.kind != "finding" or walk.texts[phrase.start : phrase.end] != ("none",):
        return False
    if last.phrase.end != phrase.start or last.phrase.aux:
        return False
    last.negated, last.end = True, phrase.end
    return True


def _finish_finding(walk: Walk, fact: Fact) -> None:
    """Its degree, whether it is denied, and the part that a characteristic's name stands for."""
    fact.degree = fact.phrase.aux_tags & DEGREES
    give_back_degree(walk, fact)
    before = walk.texts[max(0, fact.phrase.start - _THERE) : fact.phrase.start]
    there = "COP" in walk.glue and "there" in before  # "there's a groove"
    fact.introduced = there or _has_one(before)
    head = fact.phrase.head.start if fact.phrase.head is not None else fact.phrase.start
    fact.participle = is_past(walk.texts[fact.phrase.end - 1]) or is_past(walk.texts[head])
    if walk.texts[head] in _ALSO_PAST and walk.last is not None and walk.last.kind in _MOVES:
        fact.participle |= walk.last.phrase.end == head  # "diaphragm's out, split round the nut"
    fact.negated = (
        "NEG" in fact.aux
        or (walk.denying and (not is_good(walk, fact.phrase) or few_are(walk)))
        or _denied_apart(walk, fact.phrase)
        or goes_on_negated(walk, fact)
        or _not_thought(walk, fact)
    ) and not not_only(walk.texts, fact.phrase.head.start if fact.phrase.head else fact.phrase.start)
    if hardly_more(walk.texts, fact.phrase.start):
        fact.introduced, fact.negated = True, False
    hold_owner(walk)


def _has_one(before: Sequence[str]) -> bool:
    """ "it's got a ring worn in it": what it has, by a noun that nothing here knows."""
    at = next((i for i in range(len(before) - 1, -1, -1) if before[i] in {"a", "an", "some"}), 0)
    return at > 0 and before[at - 1] in {"has", "have", "got", "had"} and 1 < len(before) - at < _THERE - 1


def _not_thought(walk: Walk, fact: Fact) -> bool:
    """ "I don't think it's cracked", "not what I'd call worn"."""
    before = walk.texts[max(0, fact.phrase.start - _THOUGHT_REACH) : fact.phrase.start]
    if "say" in before and _NOT_SAID in zip(before, before[1:], before[2:], strict=False):
        return BREAK not in before and "but" not in before
    if _THINKING.isdisjoint(before[1:]):
        return False
    at = next(i for i in range(len(before) - 1, 0, -1) if before[i] in _THINKING)
    return before[at - 1] == "not" and BREAK not in before[at:] and "but" not in before[at:]


def _denied_apart(walk: Walk, phrase: Phrase) -> bool:
    """ "and no pitting", "has not been scored", "not a scratch"."""
    head = phrase.head.start if phrase.head is not None else phrase.start
    return any(is_denied_before(walk.texts, at) for at in {phrase.start, head})


def _takes_object(walk: Walk, phrase: Phrase) -> bool:
    """True for "pulled", "put back in"; false for "off", "came out", "is in"."""
    return phrase.head is not None and walk.texts[phrase.head.start] in _TAKE_OBJECT


def _turned_round(walk: Walk, phrase: Phrase) -> bool:
    """ "out comes the float": what came out follows."""
    head = phrase.head
    return head is not None and walk.texts[head.start] in PARTICLES and walk.texts[head.end - 1] in _FINITE


def _names_place(walk: Walk, phrase: Phrase) -> bool:
    """ "pitted just under the seal groove": the groove is where, not what."""
    last = walk.last
    if last is None or last.segment != walk.segment or "COP" in phrase.aux_tags or phrase.aux:
        return False
    return tells_place(walk.glue, last) and not walk.glue & {"AND", "BREAK", "AUX"}
