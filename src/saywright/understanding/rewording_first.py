"""The rewordings that run first: what is set aside, where one turns to, what is so of which, corrections.

Each is told by the words that call it (`steps.called_by`). Pure.
"""

from __future__ import annotations

from typing import Final

from saywright.understanding.aside.broken_off import broken_off
from saywright.understanding.aside.exclaimed import exclaimed_apart, oh_apart
from saywright.understanding.aside.fastener_sizes import sizes_aside
from saywright.understanding.aside.limit_heads import limit_heads
from saywright.understanding.aside.similes import similes_apart
from saywright.understanding.aside.talk_apart import (
    half_hours_apart,
    talk_apart,
    though_apart,
    while_at_it_apart,
)
from saywright.understanding.conditions.answered import found_so
from saywright.understanding.conditions.it_stopped import it_stopped
from saywright.understanding.conditions.many_words import in_many_words
from saywright.understanding.conditions.missing_its import missing_its
from saywright.understanding.conditions.of_neither import of_neither
from saywright.understanding.conditions.seeming import as_it_seems
from saywright.understanding.conditions.so_is_the_other import nor_is_another, so_is_the_other
from saywright.understanding.counting.clicked_back import clicked_back, till_it_seats
from saywright.understanding.counting.so_many_to_each import so_many_to_each
from saywright.understanding.doings.clauses_apart import (
    as_well_apart,
    both_sides_apart,
    clauses_apart,
    denied_apart,
    new_one_apart,
)
from saywright.understanding.doings.put_on_it_too import before_anything, put_on_it_too
from saywright.understanding.doings.same_doing import same_doing
from saywright.understanding.naming.your_parts import your_parts
from saywright.understanding.quantities.exact_before import exact_before
from saywright.understanding.quantities.run_together import (
    and_turned_on,
    each_of_them,
    ones_on_that_side,
    the_others_are,
    they_get,
    turned_ninety,
)
from saywright.understanding.second_thoughts.after_all import after_all
from saywright.understanding.second_thoughts.both_are import both_are
from saywright.understanding.second_thoughts.excused_numbers import excused_numbers
from saywright.understanding.second_thoughts.named_anew import named_anew
from saywright.understanding.second_thoughts.not_to_be import not_to_be
from saywright.understanding.second_thoughts.other_doing import other_doing
from saywright.understanding.second_thoughts.other_meant import other_meant
from saywright.understanding.second_thoughts.read_wrongly import read_wrongly
from saywright.understanding.second_thoughts.scrubbed_last import scrubbed_last
from saywright.understanding.second_thoughts.state_meant import state_meant
from saywright.understanding.second_thoughts.swap_those import swap_those
from saywright.understanding.second_thoughts.what_i_said import what_i_said
from saywright.understanding.sides.as_it_was_there import as_it_was_there
from saywright.understanding.sides.back_to_first import back_to_first
from saywright.understanding.sides.corner_words import as_corners, on_this_side
from saywright.understanding.sides.gone_there import gone_there
from saywright.understanding.sides.kinds_first import begun_with
from saywright.understanding.sides.on_the_other import other_one_apart
from saywright.understanding.sides.other_face import on_the_part
from saywright.understanding.sides.places_apart import places_apart
from saywright.understanding.sides.places_done import places_done
from saywright.understanding.sides.same_there import listed_for, other_with_its, out_of_one, same_there
from saywright.understanding.sides.the_others import both_of_them, hand_left_out, of_the_others
from saywright.understanding.sides.turn_idioms import in_plain_turns
from saywright.understanding.sides.wheel_there import at_the_other_end, wheel_there
from saywright.understanding.sides.where_it_began import same_way, so_it_goes_back, where_it_began
from saywright.understanding.steps import Step
from saywright.understanding.subjects.held_by_so_many import held_by_so_many
from saywright.understanding.subjects.of_so_many import of_so_many
from saywright.understanding.values.blades_tried import blades_tried
from saywright.understanding.values.gauge_goes import gauge_goes
from saywright.understanding.values.spun_and_read import spun_and_read
from saywright.understanding.values.the_right_size import the_right_size

FIRST: Final[tuple[Step, ...]] = (
    your_parts,
    where_it_began,
    so_it_goes_back,
    same_way,
    of_so_many,
    places_apart,
    clauses_apart,
    denied_apart,
    other_doing,
    both_sides_apart,
    as_well_apart,
    new_one_apart,
    read_wrongly,
    broken_off,
    clicked_back,
    till_it_seats,
    put_on_it_too,
    before_anything,
    excused_numbers,
    blades_tried,
    exact_before,
    turned_ninety,
    and_turned_on,
    the_others_are,
    each_of_them,
    they_get,
    ones_on_that_side,
    held_by_so_many,
    so_many_to_each,
    sizes_aside,
    oh_apart,
    half_hours_apart,
    talk_apart,
    while_at_it_apart,
    though_apart,
    exclaimed_apart,
    similes_apart,
    as_it_was_there,
    limit_heads,
    swap_those,
    other_one_apart,
    wheel_there,
    at_the_other_end,
    gauge_goes,
    spun_and_read,
    the_right_size,
    same_there,
    out_of_one,
    other_with_its,
    listed_for,
    on_the_part,
    hand_left_out,
    both_of_them,
    of_the_others,
    places_done,
    back_to_first,
    in_plain_turns,
    gone_there,
    as_corners,
    on_this_side,
    begun_with,
    it_stopped,
    in_many_words,
    as_it_seems,
    of_neither,
    found_so,
    not_to_be,
    both_are,
    state_meant,
    named_anew,
    what_i_said,
    scrubbed_last,
    other_meant,
    after_all,
    so_is_the_other,
    nor_is_another,
    missing_its,
    same_doing,
)
