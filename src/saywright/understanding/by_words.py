"""What is made of tags, clauses and facts, each rule beside the words that call it: "mixed those up"."""

from __future__ import annotations

from typing import Final

from saywright.understanding.conditions.states_on import ON, states_on
from saywright.understanding.conditions.verdict_words import VERDICTS, verdict_words
from saywright.understanding.counting.counts import count_parts
from saywright.understanding.counting.moved_counts import count_moves
from saywright.understanding.doings.order_words import ORDERING, order_words
from saywright.understanding.doings.put_there import WAYS, by_hand, put_there
from saywright.understanding.doings.rows_behind import ROWS, rows_behind
from saywright.understanding.doings.set_moves import drop_settings
from saywright.understanding.doings.short_doings import SHORTLY, short_doings
from saywright.understanding.doings.with_it import going_on
from saywright.understanding.quantities.ordinals import ordinals_as_values
from saywright.understanding.second_thoughts.swapped import CROSSED, cut_crossed
from saywright.understanding.sides.headed_places import place_rows
from saywright.understanding.sides.likened import ENDS, LIKE, cut_here, cut_model
from saywright.understanding.sides.position_lists import number_parts
from saywright.understanding.sides.turning import MODEL
from saywright.understanding.sounds.participles import participles
from saywright.understanding.stages import note_come_back
from saywright.understanding.steps import cued
from saywright.understanding.subjects.excepted import EXCEPTS, take_exceptions
from saywright.understanding.values.marked_values import mark_values
from saywright.understanding.values.numbered import NUMBERED, told_by_number

OF_TEXTS: Final = cued(  # the tags of an utterance, once all are known
    (participles, None),
    (states_on, ON),
    (order_words, ORDERING),
    (verdict_words, VERDICTS),
    (number_parts, None),
    (told_by_number, NUMBERED),
    (count_parts, None),
    (ordinals_as_values, None),
    (short_doings, SHORTLY),
)
OF_TAGS: Final = cued(  # the same with the state of the talk
    (by_hand, {"tight"}),
    (cut_crossed, CROSSED),
    (going_on, {"back"}),
    (put_there, WAYS),
    (cut_model, MODEL | LIKE),
    (cut_here, ENDS),
)
OF_CLAUSES: Final = cued((place_rows, None), (drop_settings, None), (take_exceptions, EXCEPTS))
OF_FACTS: Final = cued(
    (count_moves, None), (rows_behind, ROWS), (note_come_back, {"from"}), (mark_values, None)
)
