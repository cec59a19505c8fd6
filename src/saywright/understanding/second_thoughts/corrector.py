"""Corrections: "no, make that …", "scratch that", "not one twenty eight, one twenty five".

What is corrected is found, never guessed: the reading of the same part and characteristic
where they are named, else the last one that holds. Where nothing fits, the new words are
kept as they are and ask.
"""

from __future__ import annotations

from saywright.flags import FlagKind, flag
from saywright.understanding.counting.counts import small_count
from saywright.understanding.facts import Fact, Mark, Told
from saywright.understanding.second_thoughts.at_its_place import not_of, reading_there
from saywright.understanding.second_thoughts.corrected_copies import AboutAPart, correct_others, recount
from saywright.understanding.second_thoughts.number_corrections import (
    denied_run,
    excused_between,
    in_its_unit,
    names_no_other,
    pauses_before,
    reading_of_tail,
    reading_of_value,
    reading_quoted,
    rephrases,
    said_after,
    said_of_another,
    says_instead,
    with_whole_number,
)
from saywright.understanding.second_thoughts.reread import moved_on, of_the_same_thing, read_anew
from saywright.understanding.second_thoughts.restated import left_open_before, turned_before
from saywright.understanding.second_thoughts.same_denied import same_denied
from saywright.understanding.second_thoughts.swapped import in_same_breath, says_swapped
from saywright.understanding.second_thoughts.why_wrong import (
    excused_ahead,
    forget_where_wrong,
    is_why,
    told_of_another,
)
from saywright.understanding.second_thoughts.withdrawn import (
    denies_last,
    how_many,
    in_place_of,
    taken_back,
    withdrawn_before,
)
from saywright.understanding.second_thoughts.words import turns
from saywright.understanding.settle import Settler
from saywright.understanding.statements import Correction, Reading, Statement, Unclear
from saywright.understanding.tokens import BREAK
from saywright.understanding.values.place_taking import said_place
from saywright.understanding.values.readings import ReadingSettler
from saywright.understanding.working import Working

_QUOTE_REACH = 6  # tokens from "I said" to the number


class Corrector:
    """Handles the corrections of one utterance."""

    def __init__(self, work: Working, told: Told, settler: Settler) -> None:
        self.work = work
        self.told = told
        self.readings: ReadingSettler = settler.readings
        self.settler = settler
        self.withdrawn: list[Statement] = []  # in this utterance, by "scratch that"
        self.put_right: Reading | None = None  # what was put right last in this utterance

    def value(self, fact: Fact, following: Fact | None) -> bool:
        """Take a value that corrects or is denied; False where it is a plain one.

        *following* is the fact behind it, which may say what is right.
        """
        forget_where_wrong(self.work, self.told, fact)
        if following is not None and following.kind == "value":
            why = is_why(self.work, fact, following)
            if why or self._denied_behind(fact, following) or self._quoted(fact, following):
                return True
            in_its_unit(fact, following, self.work.texts)
        denied = self.denied(fact, following)
        run = denied_run(self.work, fact, following) if denied is None else None
        if run is not None:
            self.replace(run[1], run[0])
            return True
        if denied is not None and following is not None:
            self.work.covered.append((fact.start, fact.end))
            following.kind = "correcting"
            self.replace(following, denied)
            return True
        if fact.phrase.start and self.work.texts[fact.phrase.start - 1] == "not":
            if following is None and denies_last(self.work, fact):
                return True
            if says_instead(self.work.texts, fact.phrase.start) and self.replace(fact):
                return True
            if following is not None and following.kind == "value" and not following.characteristics:
                following.characteristics = fact.characteristics
                following.subjects = following.subjects or fact.subjects
            self.work.remark(fact.start, fact.end, "denied")
            return True
        anew = self.withdrawn or withdrawn_before(self.work) is not None
        return self._in_its_place(fact) if anew else self._announced(fact)

    def _announced(self, fact: Fact) -> bool:
        """Take a value that a no or "make that" before it makes a correction; False for others."""
        if same_denied(self.work, self.told, fact):
            return False
        fellow = in_same_breath(self.work, self.put_right, fact) if self.put_right is not None else None
        if fellow is not None:
            return self.replace(fact, fellow)
        opener = self.opener(fact)
        if opener is None and not self.says_no(fact):
            of_the_same_thing(self.work, fact, self.told)
            old = read_anew(self.work, fact, self.told)
            return old is not None and self.replace(fact, old)
        told_of_another(self.work, fact, opener)
        made = len(self.work.out)
        if self.quantity(fact) or self.replace(fact) or len(self.work.out) > made:
            return True  # done, or asked about
        of_nothing = opener is not None and "GO_BACK" not in opener.tags
        if of_nothing and not fact.subjects and not fact.characteristics:
            self.unclear_target(fact)
            return True
        return False

    def _in_its_place(self, fact: Fact) -> bool:
        """ "scratch that, it was forty two": of what was withdrawn; it corrects nothing else."""
        old = in_place_of(self.work, self.told, fact, self.withdrawn)
        if old is None:
            return False
        made = self.readings.value(fact, old.stage, replaces=old)
        correct_others(self.work, old, made, fact)
        for at, one in enumerate(self.work.out if made else ()):
            if isinstance(one, Correction) and old.id in one.supersedes and one.by is None:
                self.work.out[at] = one.model_copy(update={"by": made[0].id})
        return bool(made) or any(isinstance(s, Unclear) for s in self.work.out[-1:])

    def _denied_behind(self, fact: Fact, following: Fact) -> bool:
        """ "was thirty eight point oh eight, not oh nine five": the second is the wrong one."""
        start, measure = following.phrase.start, following.phrase.measure
        if measure is None or self.work.texts[start - 1] != "not" or following.characteristics:
            return False
        old = reading_of_value(self.work, measure) or reading_of_tail(self.work, measure)
        if old is None or not self.replace(fact, old):
            return False
        following.kind = "denied"
        self.work.covered.append((start - 1, following.phrase.end))
        return True

    def _put_right(self, fact: Fact, following: Fact) -> bool:
        """ "I said thirty eight point oh five, it's oh six": the value on record is put right."""
        old = reading_quoted(self.work, fact, fact.phrase.measure) if fact.phrase.measure else None
        if old is None or not self.replace(following, old):
            return False
        following.kind = "correcting"
        self.work.covered.append((fact.start, fact.end))
        return True

    def _quoted(self, fact: Fact, following: Fact) -> bool:
        """ "I said one point one eight, I meant …": what was said wrong is quoted, not said again."""
        start = fact.phrase.start
        said = {("i", "said"), ("i", "had"), ("i", "called")} & {
            self.work.texts[at : at + 2] for at in range(max(0, start - _QUOTE_REACH), start - 1)
        }
        opener = self.opener(following)
        if said and opener is None and following.introduced:
            return self._put_right(fact, following)
        if not said or opener is None or opener.start < fact.phrase.end:
            return False
        following.subjects = following.subjects or fact.subjects
        following.characteristics = following.characteristics or fact.characteristics
        self.work.covered.append((max(0, start - 2), fact.end))
        return True

    def scratch(self, mark: Mark) -> None:
        """Withdraw what was said last: before the mark, else in the last utterance that made anything."""
        many = how_many(self.work, mark)
        here: list[Statement] = [
            s for s in self.work.out if s.id not in self.work.gone and isinstance(s, AboutAPart)
        ]
        said = self.work.live()[-many:] if many else (here or self.work.last_group())
        self.withdrawn = said if many else taken_back(self.work, self.told, mark, said)
        if self.withdrawn:
            self.work.supersede([s.id for s in self.withdrawn], None, mark.start, mark.end)

    def opener(self, fact: Fact) -> Mark | None:
        """The mark that makes a value a correction: right before it, with nothing settled between."""
        best: Mark | None = None
        for mark in self.told.marks:
            if rephrases(mark, self.work):
                continue
            if "MAKE_THAT" in mark.tags and said_after(fact, mark, self.told, self.work.texts):
                return mark
            if mark.tags & {"MAKE_THAT", "GO_BACK"} and mark.end <= fact.phrase.start:
                between = [
                    f
                    for f in self.told.facts
                    if mark.end <= f.phrase.start < fact.phrase.start and f.kind == "value"
                ]
                if not between:
                    best = mark
        return best

    def says_no(self, fact: Fact) -> bool:
        """ "no, eighteen point five": a bare no right before a value corrects the last one."""
        head = self.work.texts[max(0, fact.phrase.start - 3) : fact.phrase.start]
        at = next((s for s in self.work.spots if s.end in {fact.phrase.start, fact.phrase.start - 1}), None)
        if at is not None:  # "no, middle was forty eight oh four"
            head = self.work.texts[max(0, at.start - 2) : at.start]
        before = [t for t in head if t != BREAK]
        if before and before[-1] == "no" and names_no_other(self.work, fact):
            return True
        if pauses_before(self.work, fact) or excused_between(fact, self.told, self.work.texts):
            return True
        turned = turns(self.work.texts, 0, fact.start) or says_swapped(self.work.texts, fact.start)
        turned = turned or excused_ahead(self.work.texts, fact.phrase.start, self.work.lexicon.positions)
        if not (
            turned or (fact.start <= 1 and (turned_before(self.work) or left_open_before(self.work, fact)))
        ):
            return False
        target = self._target(fact)
        return target is not None and target.stage == self.work.stage

    def denied(self, fact: Fact, following: Fact | None) -> Reading | None:
        """ "not one twenty eight, one twenty five": the reading that is denied; None where it is none."""
        denied = self.work.texts[max(0, fact.phrase.start - 1) : fact.phrase.start] == ("not",)
        if following is None or following.kind != "value" or not denied:
            return None
        measure = fact.phrase.measure
        return reading_of_value(self.work, measure) if measure is not None else None

    def replace(self, fact: Fact, target: Reading | None = None) -> bool:
        """Take the value as a correction; False where nothing is there to correct."""
        target = target or self._target(fact)
        if target is None:
            return False
        fact = with_whole_number(self.work, fact, target)
        fact.introduced = True  # what is put right tells what it is of
        made = self.readings.value(fact, target.stage, replaces=target)
        if not made:
            return False
        self.put_right = target
        opener = self.opener(fact)
        if opener is not None:
            self.work.covered.append((opener.start, opener.end))
        twin = next((one for one in made if one.which == target.which), made[0])
        self.work.supersede([target.id], twin.id, fact.start, fact.end)
        correct_others(self.work, target, made, fact)
        return True

    def quantity(self, fact: Fact) -> bool:
        """ "no, make it three": how many of what was to be done last, or how many moved."""
        count = small_count(fact.phrase.measure)
        if count is None or fact.characteristics:
            return False
        return recount(self.work, count, fact.start, fact.end)

    def _target(self, fact: Fact) -> Reading | None:
        named = [c for s in fact.subjects for c in s.components]
        which = {w for s in fact.subjects if s.components for w in s.which}
        characteristics = {key[1] for key in fact.characteristics}
        last = self.work.live()[-1:]
        if not named and not characteristics and last and isinstance(last[0], Unclear):
            return None  # what was said last was not made out: that is what is put right
        owners = {key[0] for key in fact.characteristics}
        near = [s for s in self.work.live() if isinstance(s, Reading)]
        if near and not (named or which or characteristics) and moved_on(self.work, fact, near[-1]):
            return None  # another part is in hand by now
        moved = said_of_another(fact, near) if which else None
        if moved is not None and moved.which not in which and self.opener(fact) is not None:
            return moved  # "inner pad seven, no, make that outer, seven"
        readings = self.work.readings() if named or characteristics else near
        placed = reading_there(fact, near, self.told) if not named else None
        if placed is not None:
            return placed
        place = said_place(self.work, self.told.spans(), (fact.phrase.start, fact.phrase.end))
        for reading in reversed(readings):
            if place is not None and reading.place not in {place, None}:
                continue
            if (named and reading.component not in named) or (which and reading.which not in {None, *which}):
                continue
            if characteristics and (
                reading.characteristic not in characteristics or reading.component not in owners
            ):
                continue
            return None if not_of(self.work, fact, reading) else reading
        return said_of_another(fact, readings) if named else None

    def unclear_target(self, fact: Fact) -> None:
        """A correction of nothing that is on record: kept as said, and asked about."""
        before = len(self.work.out)
        self.readings.value(fact, self.settler.stage_of(fact))
        for index in range(before, len(self.work.out)):
            made = self.work.out[index]
            if isinstance(made, Reading):
                self.work.out[index] = made.model_copy(
                    update={"flags": (*made.flags, flag(FlagKind.CORRECTION_UNCLEAR))}
                )
