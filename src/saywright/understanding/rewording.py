"""What was said in the words that the grammar knows: the sheet's spelling, its positions, its names. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.aside.had_down_as import had_down_as
from saywright.understanding.aside.would_but import would_but
from saywright.understanding.conditions.adverbs import beside_states
from saywright.understanding.conditions.all_present import all_present
from saywright.understanding.conditions.answered import found_in_one_breath
from saywright.understanding.conditions.by_somebody import done_by_somebody, should_be_there, wrong_one_fitted
from saywright.understanding.conditions.how_worn import how_worn
from saywright.understanding.conditions.in_the_way import not_in_the_way
from saywright.understanding.conditions.looked_for import not_yet_found
from saywright.understanding.conditions.plain_states import plain_states
from saywright.understanding.conditions.plainly import states_plainly
from saywright.understanding.conditions.soaked_linings import soaked_linings
from saywright.understanding.conditions.told_shortly import told_shortly
from saywright.understanding.discourse import Discourse
from saywright.understanding.doings.ages_behind import ages_behind
from saywright.understanding.doings.ages_of_all import ages_of_all
from saywright.understanding.doings.all_but import moved_all_but
from saywright.understanding.doings.as_was_planned import as_was_planned
from saywright.understanding.doings.back_with import back_with
from saywright.understanding.doings.by_other_words import in_plain_words
from saywright.understanding.doings.by_tool import by_going_over, by_tool
from saywright.understanding.doings.comes_away import comes_away
from saywright.understanding.doings.counted_on import counted_on
from saywright.understanding.doings.cut_anew import cut_anew
from saywright.understanding.doings.decided_so import decided_so
from saywright.understanding.doings.did_as_well import did_as_well
from saywright.understanding.doings.done_shortly import done_shortly
from saywright.understanding.doings.dropped_for import dropped_for
from saywright.understanding.doings.gave_way import gave_way
from saywright.understanding.doings.gone_on import gone_on
from saywright.understanding.doings.home_again import home_again
from saywright.understanding.doings.in_other_clauses import in_other_clauses
from saywright.understanding.doings.into_its_place import into_its_place, is_in_its_place
from saywright.understanding.doings.left_as_it_is import left_as_it_is
from saywright.understanding.doings.left_in_stuff import left_in_stuff
from saywright.understanding.doings.lies_there import lies_there
from saywright.understanding.doings.loosened import loosened
from saywright.understanding.doings.moved_plainly import moved_now, moved_plainly
from saywright.understanding.doings.moves_in_short import moves_in_full
from saywright.understanding.doings.need_not import need_not
from saywright.understanding.doings.never_one_alone import never_one_alone
from saywright.understanding.doings.new_ones_go import new_ones_go
from saywright.understanding.doings.out_of_its_place import out_of_its_place
from saywright.understanding.doings.plain_clauses import plain_clauses
from saywright.understanding.doings.plain_doings import plain_doings
from saywright.understanding.doings.plain_orders import plain_orders
from saywright.understanding.doings.plain_verdicts import plain_verdicts
from saywright.understanding.doings.plans_dropped import plans_dropped
from saywright.understanding.doings.pulled_up_to import pulled_up_to
from saywright.understanding.doings.row_tails import row_tails
from saywright.understanding.doings.rows_of_all import rows_of_all
from saywright.understanding.doings.taken_off import taken_off
from saywright.understanding.doings.told_by_result import (
    in_the_bin,
    knocked_straight,
    never_bothered,
    one_more_of_those,
    went_in_the_bin,
    were_it,
)
from saywright.understanding.doings.told_to_somebody import told_to_somebody
from saywright.understanding.doings.tried_by_hand import tried_by_hand
from saywright.understanding.doings.turned_down import others_decide
from saywright.understanding.doings.whole_sentences import in_whole_sentences
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.naming.nouns_put_back import nouns_put_back, ones_of_kind
from saywright.understanding.naming.place_synonyms import as_on_sheet
from saywright.understanding.naming.rear_ends import gone_out
from saywright.understanding.naming.spellings import as_spelled
from saywright.understanding.quantities.short_of import short_of
from saywright.understanding.rewording_first import FIRST
from saywright.understanding.second_thoughts.own_answers import as_answered, states_answered
from saywright.understanding.second_thoughts.side_meant import side_meant
from saywright.understanding.second_thoughts.was_not_done import was_not_done
from saywright.understanding.sides.and_then import and_the_other, there_is_the_other
from saywright.understanding.sides.ends_before_sides import ends_before_sides
from saywright.understanding.sides.first_and_second import first_and_second
from saywright.understanding.sides.kinds_first import side_of_kind
from saywright.understanding.sides.next_numbers import with_next_number
from saywright.understanding.sides.on_the_other import on_the_other
from saywright.understanding.sides.plural_places import places_in_plural
from saywright.understanding.sides.ranks_by_side import ranks_by_side
from saywright.understanding.sides.row_order import by_rank
from saywright.understanding.sides.same_order import in_same_order, on_both_of_them
from saywright.understanding.sides.station_heads import with_nouns
from saywright.understanding.sides.station_ones import ones_named
from saywright.understanding.sides.station_rolls import with_numbers
from saywright.understanding.sounds.twins import TWINS, twins_heard
from saywright.understanding.steps import Steps
from saywright.understanding.subjects.called_he import parts_called_he
from saywright.understanding.subjects.defining_clauses import defining_clauses
from saywright.understanding.subjects.known_by_fault import known_by_fault
from saywright.understanding.subjects.ones_that_were import ones_that_were
from saywright.understanding.tokens import Token, tokenise
from saywright.understanding.values.both_behind import turned_out, with_both_behind
from saywright.understanding.values.read_in_full import read_in_full
from saywright.understanding.values.same_but import same_but
from saywright.understanding.values.told_otherwise import put_in_rank, told_otherwise
from saywright.understanding.values.under_another import under_another
from saywright.understanding.values.while_read import seen_while_read

_STEPS: Final = Steps(
    *FIRST,
    would_but,
    knocked_straight,
    in_the_bin,
    went_in_the_bin,
    never_bothered,
    one_more_of_those,
    were_it,
    had_down_as,
    found_in_one_breath,
    states_answered,
    not_yet_found,
    not_in_the_way,
    how_worn,
    done_by_somebody,
    wrong_one_fitted,
    should_be_there,
    all_present,
    plain_states,
    beside_states,
    tried_by_hand,
    defining_clauses,
    told_shortly,
    others_decide,
    was_not_done,
    plans_dropped,
    dropped_for,
    did_as_well,
    cut_anew,
    soaked_linings,
    told_to_somebody,
    plain_clauses,
    as_was_planned,
    in_whole_sentences,
    done_shortly,
    by_tool,
    by_going_over,
    loosened,
    short_of,
    nouns_put_back,
    ones_of_kind,
    put_in_rank,
    read_in_full,
    told_otherwise,
    side_meant,
    same_but,
    home_again,
    back_with,
    into_its_place,
    is_in_its_place,
    out_of_its_place,
    moved_now,
    moved_plainly,
    counted_on,
    taken_off,
    comes_away,
    new_ones_go,
    gone_on,
    lies_there,
    rows_of_all,
    moved_all_but,
    gave_way,
    moves_in_full,
    row_tails,
    ages_of_all,
    as_answered,
    in_plain_words,
    known_by_fault,
    ones_that_were,
    states_plainly,
    left_in_stuff,
    decided_so,
    in_other_clauses,
    never_one_alone,
    left_as_it_is,
    ages_behind,
    plain_doings,
    pulled_up_to,
    need_not,
    plain_verdicts,
    plain_orders,
    places_in_plural,
    first_and_second,
    in_same_order,
    ends_before_sides,
    by_rank,
    ranks_by_side,
    on_both_of_them,
    gone_out,
    as_on_sheet,
    there_is_the_other,
    and_the_other,
    on_the_other,
    side_of_kind,
    under_another,
    seen_while_read,
    parts_called_he,
    ones_named,
    turned_out,
    with_both_behind,
    with_next_number,
    with_nouns,
    with_numbers,
)


def as_said(words: Sequence[str], lexicon: Lexicon) -> tuple[Token, ...]:
    """The tokens of *words*, spelled as the sheet spells, without the twins that a recogniser writes."""
    tokens = tokenise(words)
    texts = [token.text for token in tokens]
    if not lexicon.spelled.keys().isdisjoint(texts):
        tokens = as_spelled(tokens, lexicon.spelled)
    elif TWINS.isdisjoint(texts):
        return tokens
    return twins_heard(tokens, lexicon)


def reworded(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with plainer words for the same: answers, orders, places, parts that are called he."""
    return _STEPS.run(tokens, state, lexicon)
