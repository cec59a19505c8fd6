"""Phrases → facts: what is said of what, within one utterance.

A fact is one value, finding, doing or movement with the subjects it belongs to. Subjects
come before ("bowl off"), after ("pulled the bowl"), or are left to the discourse ("it is
split"). What belongs to which is decided by nearness and by the kind of word between.
"""

from __future__ import annotations

from collections.abc import Sequence

from saywright.sheets.model import Sheet
from saywright.understanding.aside.other_jobs import in_the_last_one, is_other_thing, is_own_thing, other_one
from saywright.understanding.bench_words import NEUTRAL, ON_THE_SPEAKER, PARTICLES
from saywright.understanding.conditions.degrees import put_degree
from saywright.understanding.counting.counts import small_count
from saywright.understanding.doings.clause_predicates import put_denial, put_predicate, turns_adjuster
from saywright.understanding.doings.left_out import put_absent, put_unlike
from saywright.understanding.doings.needs import put_need, wish_for_new
from saywright.understanding.doings.tool_asides import is_done_with_tool
from saywright.understanding.facts import Fact, Told
from saywright.understanding.phrases import Phrase
from saywright.understanding.second_thoughts.renamed import rename
from saywright.understanding.second_thoughts.taken_back import take_back
from saywright.understanding.sides.both_positions import both_positions
from saywright.understanding.sides.moved_numbers import counted_behind, numbers_behind_move
from saywright.understanding.sides.place_ends import one_more_there
from saywright.understanding.sides.trailing_positions import (
    new_ones_on,
    positions_first,
    positions_joined,
    positions_listed,
)
from saywright.understanding.subjects.ages_apart import ages_apart
from saywright.understanding.subjects.attach_facts import add_fact
from saywright.understanding.subjects.attach_subjects import put_lead, put_subject
from saywright.understanding.subjects.ellipsis import fill_gaps, one_of_them, same_movement
from saywright.understanding.subjects.holders import (
    is_between,
    of_held_part,
    of_its_holder,
    of_its_own_kind,
    of_its_owner,
    of_noun_before,
    of_noun_behind,
    of_noun_on_it,
    of_part_beside,
    owner_within,
)
from saywright.understanding.subjects.noun_phrases import subject_of_lead, subject_of_phrase
from saywright.understanding.subjects.shapes import is_shape
from saywright.understanding.subjects.subject_places import is_by_the_way, is_track
from saywright.understanding.subjects.told_apart import told_apart
from saywright.understanding.subjects.told_behind import tells_no_state, told_behind
from saywright.understanding.values.clause_values import put_characteristic, put_value
from saywright.understanding.walk import Walk
from saywright.understanding.wordforms import is_past

_TOOLS = frozenset({"TOOL", "INSTRUMENT"})
_IN = frozenset({("in",), ("back", "in")})


def read_clauses(found: Sequence[Phrase], texts: Sequence[str], sheet: Sheet) -> Told:
    """What the phrases *found* in the tokens *texts* tell, left to right."""
    row = [phrase.kind for phrase in found].count("measure") > 1
    found = positions_listed(numbers_behind_move(found, sheet)) if row else found
    if [phrase for phrase in found if phrase.lead]:  # all of these are about words before a noun
        found = one_more_there(new_ones_on(counted_behind(found), texts), texts)
        found = positions_joined(both_positions(ages_apart(found, texts, sheet), sheet), texts, sheet)
    if row or ("same" in texts and any(phrase.kind == "measure" for phrase in found)):
        found = positions_first(found, texts, sheet)
    walk = Walk(found, texts, sheet)
    for index, phrase in enumerate(found):
        if index not in walk.taken:
            _put(walk, index, phrase)
    put_absent(walk)
    take_back(walk)
    rename(walk)
    fill_gaps(walk)
    if "would" in texts and "if" not in texts:
        wish_for_new(walk)
    walk.out.facts = [fact for fact in walk.out.facts if _moves(fact, walk)]
    walk.out.named = walk.characteristic or (walk.left_open if not walk.out.facts else ())
    return walk.out


def _moves(fact: Fact, walk: Walk) -> bool:
    """False for what was only turned; "screw in two and a quarter" is in again where it was off."""
    if not turns_adjuster(fact, walk.texts, walk.sheet, walk.out.subjects):
        return True
    fact.if_off = walk.texts[fact.phrase.start : fact.phrase.end] in _IN and bool(fact.subjects)
    return fact.if_off


def _put(walk: Walk, index: int, phrase: Phrase) -> None:
    match phrase.kind:
        case "subject":
            _put_part(walk, index, phrase)
        case "lead":
            _put_lead(walk, index, phrase)
        case "char":
            put_characteristic(walk, index, phrase)
        case "measure":
            put_value(walk, index, phrase)
        case "finding" | "doing" | "off" | "on" if not is_done_with_tool(walk, index):
            put_predicate(walk, index, phrase)
        case "break":
            walk.border()
            walk.turn_side(phrase)
        case "mark":
            _put_mark(walk, index, phrase)
        case "link":
            walk.glue |= phrase.tags - ({"PREP"} if _turned_in(walk, index) else set())
        case "aux":
            _put_intention(walk, index)
            if not {"i", "we"}.isdisjoint(walk.texts[phrase.start : phrase.end]) and not _denies(phrase):
                walk.glue -= {"NEG", "DECLINE"}  # "it's not as bad, I'd still change it"
            behind = put_degree(walk, phrase) or put_denial(walk, phrase) or put_need(walk, index)
            if not (behind or put_unlike(walk, index, phrase)):
                walk.glue |= {"AUX"} | phrase.aux_tags
        case _:
            _put_intention(walk, index)
            _put_word(walk, phrase)


def _put_part(walk: Walk, index: int, phrase: Phrase) -> None:
    if index and (is_track(walk, index) or is_by_the_way(walk, phrase)):
        return
    if phrase.lead and other_one(walk, index):
        walk.put_mark(frozenset({"OTHER_JOB"}), phrase)
        return
    # An owner or a holder stands two phrases before or behind, with a link between.
    said = subject_of_phrase(phrase)
    said = of_its_owner(walk, index, said) if index > 1 else said
    said = of_held_part(walk, index, said) if phrase.lead else said
    said = of_part_beside(walk, index, said) if said.age == "new" else said
    said = told_apart(walk, index, of_its_own_kind(walk, said) if said.alias else said)
    said = of_noun_before(walk, index, said) if index else said
    said = of_noun_behind(walk, index, owner_within(walk, said) if walk.characteristic else said)
    said = of_noun_on_it(walk, index, said) if index > 1 else said
    between = "between" in walk.texts and is_between(walk, index)
    if not (between or (said.alias and is_shape(walk, index, said))):
        held = index + 2 < len(walk.phrases)
        put_subject(walk, index, of_its_holder(walk, index, said) if held else said)


def _turned_in(walk: Walk, index: int) -> bool:
    """ "back to five turns in, jam nut …": which way it was turned; nothing is in what follows."""
    before = walk.before(index)
    unit = before.measure.unit if before is not None and before.measure is not None else None
    return unit == "turn" and walk.texts[walk.phrases[index].start] in {"in", "out"}


def _denies(phrase: Phrase) -> bool:
    return bool(phrase.aux_tags & {"NEG", "DECLINE"})


def _put_intention(walk: Walk, index: int) -> None:
    """ "let's have the bar off", "I'll get the cover off": what is going to be moved."""
    phrase, before = walk.phrases[index], walk.before(index)
    if walk.texts[phrase.end - 1] not in {"have", "get", "want", "need"}:
        return
    need = phrase.aux_tags | (before.aux_tags if before is not None and before.kind == "aux" else set())
    if "NEED" not in need:
        return
    kinds = [p.kind for p in walk.phrases[index + 1 : index + 3]]
    if kinds in (["subject", "off"], ["subject", "on"]):
        walk.put_mark(frozenset({"FUTURE"}), phrase)


def _put_word(walk: Walk, phrase: Phrase) -> None:
    """A word without a meaning here; where nothing knows it, it is a stray."""
    if "INSTRUMENT" in phrase.tags:
        walk.glue.add("INSTRUMENT")
        if walk.last is not None and walk.last.kind == "value" and walk.last.segment == walk.segment:
            walk.last.measured = True
        return
    if _is_verb_of_value(walk, phrase):
        walk.glue.add("READS")
        return
    if "FILLER" in phrase.tags and walk.texts[phrase.start] in PARTICLES:
        return  # "goes back in the rear": its verb has it
    if "ONE" in phrase.tags and walk.current:
        one_of_them(walk)
    if "so" in walk.texts[phrase.start : phrase.end]:
        walk.glue -= {"PREP", "WHERE", "BESIDE"}  # "cracked by the ferrule, so we need a new one"
    walk.glue.add("WORD")
    there_is = walk.texts[phrase.start : phrase.end + 1] in {("there", "is"), ("there", "are")}
    if there_is or (not phrase.tags and is_past(walk.texts[phrase.start])):
        walk.glue -= {"NEG", "DECLINE"}  # "not poked blew it out", "no I won't there's a nick"
    if not phrase.tags and walk.texts[phrase.start] not in NEUTRAL:
        walk.out.strays.setdefault(walk.segment, []).append(phrase.start)


def _is_verb_of_value(walk: Walk, phrase: Phrase) -> bool:
    """ "first one pulls three point one": an unknown verb between what was named and its value."""
    pulling = walk.texts[phrase.start : phrase.end] == ("pulling",)  # "both pulling twenty six"
    third = walk.texts[phrase.start].endswith("s") and not phrase.tags
    if not (third or pulling) or phrase.end - phrase.start > 1:
        return False
    index = next(i for i, one in enumerate(walk.phrases) if one is phrase)
    before, after = walk.before(index), walk.after(index)
    if before is None or after is None or before.end != phrase.start or after.start != phrase.end:
        return False
    rest = walk.phrases[index + 1 :]
    led = [p for p in rest[:2] if walk.texts[p.start : p.end] in {("a",), ("number",)}]
    after = rest[len(led)] if len(led) < len(rest) else after  # "the primary takes a number fifty six"
    return (
        before.kind in {"subject", "lead"} and after.kind == "measure" and small_count(after.measure) is None
    )


def _put_lead(walk: Walk, index: int, phrase: Phrase) -> None:
    if is_own_thing(walk, index) or is_other_thing(walk, index) or in_the_last_one(walk, index):
        own = not ON_THE_SPEAKER.isdisjoint(walk.texts[phrase.end : phrase.end + 1])
        if walk.out.facts and (own or "AND" in walk.phrases[index - 1].tags):
            walk.border()  # "hold downs all in and my thumbs are raw", "piston's scored my arm's aching"
        walk.put_mark(frozenset({"OTHER_JOB"}), phrase)
        return
    behind = walk.after(index)
    if "OTHER" in phrase.lead_tags and behind is not None and behind.tags & _TOOLS:
        return  # "let's try the other gauge"
    subject = subject_of_lead(phrase)
    if subject is not None:
        put_lead(walk, index, subject)


def _put_mark(walk: Walk, index: int, phrase: Phrase) -> None:
    tags = phrase.tags
    if "LIMIT" in tags and _where_done(walk, phrase):
        walk.glue.add("WORD")
        return
    if "BUT" in tags:
        same_movement(walk)
    if "BUT" in tags or ("LIMIT" in tags and _limit_opens(walk, index)):
        walk.border()
    walk.put_mark(tags, phrase)
    walk.glue |= {"MARK", *(tags & {"READS"})}
    kind = next((kind for kind in ("photo", "restore", "same") if kind.upper() in tags), None)
    if kind is not None and tells_no_state(walk, index, kind):
        return
    if kind is not None and not (kind == "same" and told_behind(walk, index)):
        fact = Fact(kind, phrase, walk.segment, start=phrase.start, end=phrase.end)
        add_fact(walk, fact, index, prefer_right=kind != "restore")


def _where_done(walk: Walk, phrase: Phrase) -> bool:
    """ "lapped the cover on the plate": a place of work, no data plate."""
    last = walk.last
    return (
        walk.texts[phrase.start] == "on"
        and last is not None
        and last.kind == "doing"
        and last.segment == walk.segment
    )


def _limit_opens(walk: Walk, index: int) -> bool:
    """ "one thirty, spec is …": a quoted limit behind a value starts anew, unless it tells of that value."""
    last = walk.last
    if last is None or last.segment != walk.segment or last.kind != "value":
        return False
    if walk.texts[walk.phrases[index].start] == "on":
        return False  # "three fifty on the plate": where it stands
    since = next(i for i, phrase in enumerate(walk.phrases) if phrase is last.phrase)
    after, between = walk.after(index), walk.phrases[since + 1 : index]
    ends = after is None or after.kind in {"break", "word", "link"}
    beside = all(p.kind == "char" for p in between) and not (after is not None and "READS" in after.tags)
    if beside and ends and walk.phrases[index].end - walk.phrases[index].start == 1:
        return False  # "wants point one max", "rules say twenty four mil bore max and they check"
    return not any(p.kind == "aux" and "COP" in p.aux_tags for p in between)
