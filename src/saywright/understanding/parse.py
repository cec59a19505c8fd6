"""Utterance → statements. Total: any words give statements or remarks, never an exception.

Every hypothesis of the listener is read against the same state; the readings of the best
one carry the probability of their values over all hypotheses (`saywright.understanding.doubt`).
"""

from __future__ import annotations

from collections.abc import Sequence

from saywright.hearing.words import Hypothesis, Utterance
from saywright.understanding.aside.marked import put_identifiers
from saywright.understanding.aside.might_be import still_in_hand
from saywright.understanding.aside.only_counted import STILL_NAMED
from saywright.understanding.aside.outside import outside
from saywright.understanding.by_words import OF_CLAUSES, OF_FACTS, OF_TAGS
from saywright.understanding.clauses import read_clauses
from saywright.understanding.commands import obey
from saywright.understanding.counting.turns import count_turns
from saywright.understanding.discourse import Discourse
from saywright.understanding.doings.aged_sides import put_aged_sides
from saywright.understanding.doings.buy_lists import told_list
from saywright.understanding.doings.buying import BuyList, settle_list
from saywright.understanding.doings.fasteners_on import fit_seated
from saywright.understanding.doings.not_made_out import ask_for_objects
from saywright.understanding.doubt import weigh
from saywright.understanding.facts import Fact, Told
from saywright.understanding.going_back import going_back
from saywright.understanding.leftovers import keep_rest
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.loose_ends import settle_rest, turn_stage, withdraw_before, withdrawals
from saywright.understanding.parts_came import PARCELS, turn_as_parts_came
from saywright.understanding.phrases import Phrase, phrases
from saywright.understanding.put_aside import read_ahead
from saywright.understanding.quantities.ordinals import ORDINALS, position_of_other, positions_taken_back
from saywright.understanding.rewording import as_said, reworded
from saywright.understanding.second_thoughts.corrector import Corrector
from saywright.understanding.second_thoughts.left_open import doubt_left_open
from saywright.understanding.second_thoughts.number_corrections import in_excuse
from saywright.understanding.second_thoughts.reread import OF_ONESELF, hung_on, said_in_full
from saywright.understanding.second_thoughts.restated import restate, turned_before
from saywright.understanding.second_thoughts.withdrawn import excuses
from saywright.understanding.settle import Settler
from saywright.understanding.sides.guessed import with_guesses
from saywright.understanding.sides.numbered_positions import as_called
from saywright.understanding.sides.stations import moved_last
from saywright.understanding.sides.strange_sides import without_strange_side
from saywright.understanding.sides.topics import cut_turns, end_on_side, open_side, take_turns
from saywright.understanding.sides.turns import Turn
from saywright.understanding.sounds.mended_names import ease, may_ease
from saywright.understanding.sounds.mending import mend
from saywright.understanding.sounds.misheard import doubt_misheard
from saywright.understanding.sounds.part_twins import in_doubt, parts_heard
from saywright.understanding.sounds.tried import may_try, tried
from saywright.understanding.statements import Reading, Statement
from saywright.understanding.steps import CUES
from saywright.understanding.subjects.machine_ends import turn_to_end
from saywright.understanding.subjects.made_out import made_out
from saywright.understanding.subjects.mentioned import mentioned_in, take_up_mentioned
from saywright.understanding.subjects.other_one import keep_other
from saywright.understanding.tagging import tag
from saywright.understanding.tags import Tag, shifted
from saywright.understanding.tokens import HESITATIONS, Token
from saywright.understanding.values.bare_rows import doubt_rows
from saywright.understanding.values.beside_itself import doubt_beside
from saywright.understanding.values.confirmed import confirm_numbers
from saywright.understanding.values.joining import join
from saywright.understanding.values.named_places import take_places
from saywright.understanding.values.once_more import put_twice
from saywright.understanding.values.places_here import places_here
from saywright.understanding.values.set_further import drop_on_the_way
from saywright.understanding.values.twice_in_doubt import leave_open
from saywright.understanding.values.two_places import doubt_at_other_end, doubt_between_places
from saywright.understanding.working import Working

# Not for the record, and still what is talked about from here on.
_STILL_NAMED = {"not moved", "not yet moved", "tool size", "quoted limit", "once believed", *STILL_NAMED}

_PARCELS, _ONESELF = CUES.bit(PARCELS | {"all"}), CUES.bit(OF_ONESELF)


def understand(
    utterance: Utterance, state: Discourse, lexicon: Lexicon, heard: int | None = None
) -> tuple[Discourse, tuple[Statement, ...]]:
    """The next state and the statements of *utterance*; *heard* is the sequence number of its event."""
    results = [(h.probability, *_read(utterance, h, state, lexicon, heard)) for h in utterance.hypotheses]
    after, statements = weigh(results, utterance.listener, lexicon.sheet)
    statements = with_guesses(statements, after, lexicon.sheet)
    return after, as_called(statements, lexicon.called) if lexicon.called else statements


def _read(
    utterance: Utterance, hypothesis: Hypothesis, state: Discourse, lexicon: Lexicon, heard: int | None
) -> tuple[Discourse, tuple[Statement, ...]]:
    tokens = as_said([word.text for word in hypothesis.words], lexicon)
    obeyed = obey(utterance, (hypothesis.words, tokens), state, lexicon, heard)
    if obeyed is not None:
        return obeyed
    tokens, put_in = parts_heard(tokens, lexicon)
    tokens, mended = mend(reworded(tokens, state, lexicon), lexicon)
    if put_in:
        mended |= in_doubt(tokens, put_in)

    def worked(said: tuple[Token, ...], put_right: frozenset[int]) -> Working:
        made = Working(utterance, hypothesis.words, state, lexicon, heard)
        _work_on(made, said, put_right)
        return made

    if not tokens or HESITATIONS.issuperset([token.text for token in tokens]):
        work = Working(utterance, hypothesis.words, state, lexicon, heard)
        return (work.hesitated() if tokens else work.state()), ()
    work = worked(tokens, mended)
    if mended and may_ease(work):
        ease(work, worked(tuple(t for at, t in enumerate(tokens) if at not in mended), frozenset()))
    if may_try(work):
        work = tried(work, tokens, mended, worked)
    return work.state(), tuple(work.out)


def _work_on(work: Working, tokens: tuple[Token, ...], mended: frozenset[int]) -> None:
    """Make the statements that *tokens* tell; *mended* are those put right by their sound."""
    work.set_tokens(tokens, mended)
    ahead = read_ahead(tokens, work)
    if ahead is not tokens:
        put_right = {id(tokens[at]) for at in mended}
        work.set_tokens(ahead, frozenset(at for at, one in enumerate(ahead) if id(one) in put_right))
    lexicon = work.lexicon
    work.hand = turn_to_end(work.texts, lexicon.machine_ends, work.hand, work.sheet)
    work.hand = without_strange_side(work.texts, lexicon, work.hand)
    places = places_here(work, lexicon)
    if not places.heads.isdisjoint(work.texts):
        tokens, work.spots, place = take_places(work.tokens, places, lexicon.words, lexicon.table)
        work.place = place or work.place
        work.set_tokens(tokens, work.mended)
    begin = put_aged_sides(work, count_turns(work, join(work)))
    if work.head:
        _put_head(work)
    if work.before.mentioned is not None:
        take_up_mentioned(work)
    if begin < len(work.tokens):
        _put_statements(work, begin)
    fit_seated(work)


def _put_head(work: Working) -> None:
    """Read what was told before a count aloud; what is counted stays in hand."""
    tokens, hand, counted = work.tokens, work.hand, work.out
    work.set_tokens(tokens[: work.head], work.mended)
    work.out = []
    _put_statements(work, 0)
    work.set_tokens(tokens, work.mended)
    work.out, work.hand, work.awaited, work.open_number = work.out + counted, hand, None, None


def _tags(work: Working, begin: int) -> tuple[Tag, ...]:
    """The tags of the tokens from *begin* on, without what only tells what a value is like."""
    tags = tag(work.tokens[begin:], work.lexicon, work.hand, moved_last(work))
    tags = tuple(shifted(t, begin) for t in tags) if begin else tags
    if not ORDINALS.isdisjoint(work.texts):
        held, turned = _read_a_position(work), turned_before(work)
        tags = positions_taken_back(tags, work.texts, work.lexicon, held=held, turned=turned)
        tags = position_of_other(tags, work.texts, work.lexicon) if held else tags
    for rule, cue in OF_TAGS:
        if cue & work.cues:
            tags = rule(tags, work)
    return tags


def _put_statements(work: Working, begin: int) -> None:
    """Read the tokens from *begin* on."""
    if work.cues & _PARCELS:
        turn_as_parts_came(work)
    tags = _tags(work, begin)
    said, turns = cut_turns(tags, work)
    turned = said is not tags
    found, listed = told_list(phrases(said), work)
    told = _clauses(found, work)
    if turns:
        take_turns(work, turns, next((one.start for one in told.facts or told.subjects), None))
    if not turned:
        open_side(told, work)
    _settle_facts(told, work, turns, listed)
    if listed is not None:
        settle_list(listed, work)
    settle_rest(told, work)
    ask_for_objects(told, work, tags)
    if turns:
        take_turns(work, turns)
    if not turned:
        end_on_side(told, work, tags)
    _second_thoughts(tags, told, work)
    keep_rest(work, tags)
    work.mentioned = mentioned_in(told, work)


def _settle_facts(told: Told, work: Working, turns: list[tuple[int, Turn]], listed: BuyList | None) -> None:
    """Make the statements of what is told, in order, with the turns to a side and the list between."""
    for rule, cue in OF_FACTS:
        if cue & work.cues:
            rule(told, work)
    settler = Settler(work, told)
    corrector = Corrector(work, told, settler)
    waiting = withdrawals(told) if told.marks else []
    taken = [*put_identifiers(work, told)]
    if told.marks:
        taken += [(m.end, m.end + 1) for m in told.marks if "SCRATCH_MANY" in m.tags]
    if listed is not None:
        settle_list(listed, work, told.facts[0].start if told.facts else 0)
    for index, fact in enumerate(told.facts):
        if told.marks or turns:
            withdraw_before(fact.phrase.start, waiting, corrector)
            take_turns(work, turns, fact.phrase.start)
            turn_stage(fact, told, work)
        fact.subjects = made_out(fact, told, work)
        if taken and any(start < fact.phrase.end and fact.phrase.start < end for start, end in taken):
            continue
        reason = outside(fact, told, work.texts, work.sheet)
        if reason:
            if reason == "not moved" and settler.doings.fits_later(fact):
                continue
            work.remark(fact.start, fact.end, reason)
            fact.kind = "aside" if reason == "a difference" else fact.kind
            if reason in _STILL_NAMED or (reason == "what if" and still_in_hand(fact, work)):
                settler.parts(fact)
            continue
        _settle(fact, told.facts[index + 1 :], corrector, settler)
    if told.marks:
        withdraw_before(len(work.texts), waiting, corrector)
        turn_stage(None, told, work)


def _second_thoughts(tags: tuple[Tag, ...], told: Told, work: Working) -> None:
    """Put in doubt what the whole utterance does not bear out, and see whether it goes back together."""
    if Reading in map(type, work.out):
        confirm_numbers(work)
        hung_on(work)
        if work.cues & _ONESELF:
            said_in_full(work, told)
        doubt_rows(work)
    if work.said:  # else nothing was read
        doubt_misheard(work, tags)
        doubt_beside(work)
        doubt_left_open(told, work)
        doubt_between_places(work)
        doubt_at_other_end(work)
        put_twice(work)
        drop_on_the_way(work)
        leave_open(work)
    if work.stage != "as_left" and going_back(work):
        work.stage = "as_left"


def _clauses(found: tuple[Phrase, ...], work: Working) -> Told:
    """What the phrases tell, each in its place."""
    told = read_clauses(found, work.texts, work.sheet)
    for rule, cue in OF_CLAUSES:
        if cue & work.cues:
            rule(told, work)
    return told


def _read_a_position(work: Working) -> bool:
    """True where what was read last is told by a position: "the clip's in the third groove"."""
    last = work.last_reading()
    spec = work.sheet.find(last.component, last.characteristic) if last is not None else None
    return last is not None and spec is not None and spec.unit == "1" and len(last.value) == 1


def _settle(fact: Fact, later: Sequence[Fact], corrector: Corrector, settler: Settler) -> None:
    """Settle one fact; what *later* ones tell of the other one is of the same."""
    made = len(corrector.work.out)
    _settle_alone(fact, later, corrector, settler)
    keep_other(fact, later, corrector.work.out[made:], corrector.work.texts)


def _settle_alone(fact: Fact, later: Sequence[Fact], corrector: Corrector, settler: Settler) -> None:
    """Settle one fact, as a correction where its words, or those of *later* ones, say so."""
    if fact.kind == "value":
        if not corrector.value(fact, later[0] if later else None):
            settler.settle(fact)
        return
    work = corrector.work
    why = in_excuse(fact, corrector.told, work.texts)
    if why or excuses(work, corrector.told, fact, corrector.withdrawn):
        work.remark(fact.start, fact.end, "why a value was wrong")
        return
    before = tuple(work.out)
    settler.settle(fact)
    if fact.kind in {"finding", "doing", "off", "on"}:
        marked = corrector.opener(fact) is not None
        restate(work, fact, before, work.out[len(before) :], marked=marked)
