"""Phrases → facts: what is said of what, within one utterance.

A fact is one value, finding, doing or movement with the subjects it belongs to. Subjects
come before ("bowl off"), after ("pulled the bowl"), or are left to the discourse ("it is
split"). What belongs to which is decided by nearness and by the kind of word between.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.sheets.model import Sheet
from saywright.understanding.counts import small_count
from saywright.understanding.facts import Fact, Mark, Told
from saywright.understanding.lexicon import CharacteristicKey
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects import (
    Selector,
    Subject,
    subject_of_components,
    subject_of_lead,
    subject_of_phrase,
)

_PREDICATES = frozenset({"finding", "doing", "off", "on", "measure"})
_TRANSITIVE = frozenset(
    [
        "removed",
        "remove",
        "removing",
        "pulled",
        "pulling",
        "pull",
        "pulls",
        "take",
        "takes",
        "taking",
        "took",
        "taken",
        "lift",
        "lifted",
        "lifting",
        "unscrew",
        "unscrewed",
        "unscrewing",
        "undo",
        "undid",
        "undone",
        "undoing",
        "unbolted",
        "unbolting",
        "unclipped",
        "unhooked",
        "disconnected",
        "extracted",
        "drew",
        "drawn",
        "fitted",
        "fit",
        "fitting",
        "refit",
        "refitted",
        "refitting",
        "install",
        "installed",
        "installing",
        "reinstall",
        "reinstalled",
        "reinstalling",
        "put",
        "putting",
        "screwed",
        "screwing",
        "pressed",
        "tapped",
        "pushed",
        "pushing",
        "slid",
        "sliding",
        "mounted",
        "assembled",
        "bolted",
        "threaded",
        "clipped",
        "reconnected",
        "wound",
        "lowered",
        "placed",
        "dropped",
        "popped",
        "teased",
        "prised",
        "pried",
        "backed",
        "snapped",
        "hooked",
        "knocked",
        "fished",
    ]
)
_OWNERS = frozenset({"my", "your", "his", "her", "our", "their"})
_PLACES = frozenset(["side", "end", "way", "hand", "thing", "bit", "half", "face", "edge", "corner", "step", "turn", "time", "two", "three", "pair", "few", "couple", "lot"])
_NEUTRAL = frozenset(
    ["i", "we", "me", "us", "you", "there", "here", "inside", "underneath", "outside", "about", "just", "still", "only", "now", "again", "actually", "exactly", "too", "then", "so", "well", "up", "down", "right", "good", "okay", "think", "reckon", "say", "guess", "call", "makes", "getting", "am", "do", "does", "did", "see", "can", "found", "find", "got", "feel", "like", "much", "very", "over", "thick", "wide", "long", "deep", "high", "across", "size", "number", "and"]
)
_GLUE_WORDS = frozenset({"word", "aux", "lead"})


class Walker:
    """Walks over the phrases of one utterance once, left to right."""

    def __init__(self, found: Sequence[Phrase], texts: Sequence[str], sheet: Sheet) -> None:
        self.phrases = found
        self.texts = texts
        self.sheet = sheet
        self.out = Told()
        self.segment = 0
        self.current: list[Subject] = []
        self.used = False  # something was said of the current subjects
        self.waiting: list[Fact] = []  # facts without a subject yet
        self.carried: list[Fact] = []  # waiting facts of a list that goes on behind a comma
        self.extendable: list[Fact] = []  # facts whose objects may go on with "and the …"
        self.claims: list[Fact] = []  # facts that take the next subject
        self.characteristic: tuple[CharacteristicKey, ...] = ()
        self.characteristic_at: tuple[int, int] | None = None
        self.each: Selector = ""  # said behind a value, for the subject that follows it
        self.denying = False  # "no screws", "neither wiper": what is said of the subject is denied
        self.glue: set[str] = set()  # what stood since the last subject or fact
        self.last: Fact | None = None
        self.joined_by_and = False  # the last subject stands behind an "and"
        self.taken: set[int] = set()  # phrases used ahead of their turn

    def walk(self) -> Told:
        """The facts of the utterance."""
        for index, phrase in enumerate(self.phrases):
            if index in self.taken:
                continue
            match phrase.kind:
                case "subject":
                    self._subject(index, subject_of_phrase(phrase))
                case "lead" if self._own(index):
                    self.out.marks.append(Mark(frozenset({"OTHER_JOB"}), self.segment, phrase.start, phrase.end))
                case "lead" if self._other_thing(index):
                    self.out.marks.append(Mark(frozenset({"OTHER_JOB"}), self.segment, phrase.start, phrase.end))
                case "lead":
                    subject = subject_of_lead(phrase)
                    if subject is not None and (subject.selector in {"both", "all"} or subject.which) and self._selects_back(index, subject):
                        continue
                    if subject is not None and not self._unknown_noun(index):
                        self._subject(index, subject)
                case "char":
                    self._characteristic(phrase)
                case "measure":
                    self._value(index, phrase)
                case "finding" | "doing" | "off" | "on":
                    self._predicate(index, phrase)
                case "break":
                    self._border()
                case "mark":
                    self._mark(index, phrase)
                case "link":
                    self.glue |= phrase.tags
                case "aux" if self._degree_behind(index, phrase):
                    pass
                case "aux":
                    self.glue |= {"AUX"} | phrase.aux_tags
                case _:
                    self.glue.add("WORD")
                    if not phrase.tags and self.texts[phrase.start] not in _NEUTRAL:
                        self.out.strays.setdefault(self.segment, []).append(phrase.start)
        self._same_said()
        self._fill_pronouns()
        self._each_component()
        self.out.named = self.characteristic
        return self.out

    def _same_said(self) -> None:
        """ "seals out and the dust boots": the last movement goes for one more part."""
        fact = self.last
        if fact is None or fact.kind not in {"off", "on"} or self.used or not self.current or fact not in self.out.facts:
            return
        subject = self.current[-1]
        if subject.start < fact.phrase.end or not self.joined_by_and:
            return
        more = replace(fact, subjects=[subject], start=subject.start, end=subject.end)
        self.out.facts.append(more)

    def _each_component(self) -> None:
        """ "both gears": a short name of two parts that are fitted once each means the two of them."""
        for fact in self.out.facts:
            fact.subjects = [one for subject in fact.subjects for one in self._single_components(subject)]

    def _single_components(self, subject: Subject) -> list[Subject]:
        parts = [self.sheet.get(c) for c in subject.components]
        every = subject.selector in {"both", "all"} or (subject.many and not subject.which and subject.count is None)
        several = subject.alias and every and len(parts) > 1
        if not several or (subject.selector != "all" and len(parts) != 2) or any(p is None or p.count > 1 for p in parts):
            return [subject]
        return [replace(subject, components=(c,), selector="", alias=False, many=False) for c in subject.components]

    def _fill_pronouns(self) -> None:
        """ "six two on the inner and six oh on the outer pad": the name comes with the second."""
        named = [s for s in self.out.subjects if s.components and s.which]
        for fact in self.out.facts:
            fact.subjects = [self._filled(s, named) for s in fact.subjects]

    @staticmethod
    def _filled(subject: Subject, named: list[Subject]) -> Subject:
        if subject.components or not subject.which:
            return subject
        after = [s for s in named if s.start > subject.start]
        return replace(subject, components=after[0].components) if after else subject

    def _selects_back(self, index: int, subject: Subject) -> bool:
        """ "gear and shaft both out", "three point nine two both of them", "four point oh each on the pads"."""
        before = self.phrases[index - 1] if index else None
        if before is None or before.end != self.phrases[index].start:
            return False
        if before.kind == "subject" and self.current and not self.used and not subject.which:
            if len(self.current) == 1:
                self.current = [replace(self.current[0], selector=subject.selector, count=subject.count)]
            return True
        after = self.phrases[index + 1] if index + 1 < len(self.phrases) else None
        if subject.which and (before.kind != "measure" or after is not None):
            return False
        if subject.which and self.last is not None and self.last.phrase is before:
            self.last.subjects = [replace(s, which=subject.which) for s in self.last.subjects] or [subject]
            self.last.cover(subject.start, subject.end)
            return True
        if before.kind == "measure" and self.last is not None and self.last.phrase is before:
            self.each = subject.selector
            self.last.subjects = [replace(s, selector=subject.selector) for s in self.last.subjects]
            return True
        return False

    def _unknown_noun(self, index: int) -> bool:
        """ "both bores": a noun that the sheet does not know takes the lead away from what is in hand."""
        after = self.phrases[index + 1] if index + 1 < len(self.phrases) else None
        return after is not None and after.kind == "word" and not after.tags and after.start == self.phrases[index].end

    def _own(self, index: int) -> bool:
        """ "my hands": not a part of the job."""
        after = self.phrases[index + 1] if index + 1 < len(self.phrases) else None
        mine = any(self.texts[tag.start] in _OWNERS for tag in self.phrases[index].lead)
        return mine and after is not None and after.kind == "word" and not after.tags

    def _other_thing(self, index: int) -> bool:
        """ "the last motor", "another engine": not what is on the bench."""
        phrase = self.phrases[index]
        after = self.phrases[index + 1] if index + 1 < len(self.phrases) else None
        points_away = phrase.lead_tags & {"LAST", "OTHER"} or any(
            self.texts[tag.start] in {"another", "previous"} for tag in phrase.lead
        )
        if not points_away or after is None or after.kind != "word" or after.tags:
            return False
        return self.texts[after.start] not in _PLACES

    def _degree_behind(self, index: int, phrase: Phrase) -> bool:
        """ "scored badly", "pitted pretty bad": the degree comes last."""
        degree = phrase.aux_tags & {"SLIGHT", "MODERATE", "SEVERE"}
        last = self.last
        if not degree or last is None or last.kind != "finding" or last.phrase.end != phrase.start or last.degree:
            return False
        last.degree = frozenset({"SEVERE"}) if "SEVERE" in degree else degree
        last.end = max(last.end, phrase.end)
        return True

    # borders and marks

    def _border(self) -> None:
        self.segment += 1
        self.glue.add("BREAK")
        self.carried = [*self.carried, *self.waiting]
        self.waiting = []
        self.claims = []
        self.extendable = []

    def _mark(self, index: int, phrase: Phrase) -> None:
        tags = phrase.tags
        if "BUT" in tags or ("LIMIT" in tags and self._limit_opens(index)):
            self._border()
        self.out.marks.append(Mark(tags, self.segment, phrase.start, phrase.end))
        self.glue.add("MARK")
        if tags & {"PHOTO", "RESTORE", "SAME"}:
            kind = "photo" if "PHOTO" in tags else "restore" if "RESTORE" in tags else "same"
            self._add(
                Fact(kind, phrase, self.segment, start=phrase.start, end=phrase.end),
                index,
                prefer_right=kind != "restore",
            )

    def _limit_opens(self, index: int) -> bool:
        """ "one thirty, spec is …": a quoted limit after a value starts anew, unless it says what the value was."""
        if self.last is None or self.last.segment != self.segment or self.last.kind != "value":
            return False
        between = self.phrases[self._index_of(self.last) + 1 : index]
        return not any(p.kind == "aux" and "COP" in p.aux_tags for p in between)

    def _index_of(self, fact: Fact) -> int:
        return next(i for i, phrase in enumerate(self.phrases) if phrase is fact.phrase)

    # subjects

    def _subject(self, index: int, subject: Subject) -> None:
        phrase = self.phrases[index]
        if self.each and not subject.selector:
            subject = replace(subject, selector=self.each)
        self.each = ""
        self.denying = self._denied(index)
        if self.denying and self.texts[phrase.start - 1] == "neither":
            subject = replace(subject, selector="both")
        if subject.pronoun and self.current and not subject.components:
            subject = subject.standing_for(self.current[-1])
        elif subject.pronoun and not subject.components and subject.other_words:
            self.out.subjects.append(subject)
        if not subject.pronoun:
            self.out.subjects.append(subject)
        if self.claims:
            kinds = {fact.kind for fact in self.claims}
            listed = [f for f in (*self.carried, *self.waiting) if f.kind in kinds and f not in self.claims]
            for fact in (*listed, *self.claims):
                self._take(fact, [subject])
            self.extendable = [*listed, *self.claims]
            self._hold([subject], used=True)
        elif self.waiting and self._claimable(
            index, self.waiting[-1], by_preposition=bool(self.glue & {"PREP", "OF"})
        ):
            for fact in self.waiting:
                self._take(fact, [subject])
            self.extendable = self.waiting
            self._hold([subject], used=True)
        elif (
            self.extendable
            and "AND" in self.glue
            and "BREAK" not in self.glue
            and not self._predicate_follows(index)
        ):
            for fact in self.extendable:
                self._take(fact, [subject])
            self.current.append(subject)
        elif self._lists(subject):
            self.current.append(subject)
        elif self._is_place(subject):
            pass
        else:
            if self.last is not None and self.last.segment == self.segment:
                self.segment += 1
            self._keep_characteristic(subject)
            self._hold([subject], used=False)
            if subject.age == "new" and self._needed(index):
                self._add(
                    Fact("need_new", phrase, self.segment, start=phrase.start, end=phrase.end),
                    index,
                    prefer_right=False,
                )
        self.joined_by_and = "AND" in self.glue and not self.glue & {"AUX", "MARK"}
        self.waiting = []
        self.carried = []
        self.claims = []
        self.glue = set()

    def _stuff(self, index: int) -> bool:
        """ "polished the scratch out of the stanchion": what was done away with, not what was found."""
        after = self.phrases[index + 1 : index + 3]
        return any(p.kind == "link" and p.tags & {"OF", "PREP"} and "AND" not in p.tags for p in after[:1]) or (
            len(after) == 2 and after[0].kind == "word" and after[1].kind == "link" and "OF" in after[1].tags
        )

    def _claimable(self, index: int, fact: Fact, *, by_preposition: bool) -> bool:
        """True where the subject at *index* can be what *fact*, said before it, is about."""
        if self.glue & {"BREAK", "AND", "OR", "BUT"}:
            return False
        if by_preposition or fact.kind in {"doing", "off", "on", "photo", "same"}:
            return True
        if self.phrases[index].kind == "subject" and not (self.phrases[index].meaning.parts or self.phrases[index].meaning.aliases):
            return False
        if fact.kind == "value" and self.out.strays.get(self.segment):
            return False
        return ("COP" not in fact.aux and fact.kind == "finding") or not self._predicate_follows(index)

    def _denied(self, index: int) -> bool:
        """True for "no screws" and "neither wiper"; a "no" before an article only interrupts."""
        before = self.phrases[index - 1] if index else None
        if before is None or before.kind != "aux" or "NEG" not in before.aux_tags or before.end != self.phrases[index].start:
            return False
        return not any("DET" in tag.tags for tag in self.phrases[index].lead)

    def _hold(self, subjects: list[Subject], *, used: bool) -> None:
        self.current = subjects
        self.used = used

    def _lists(self, subject: Subject) -> bool:
        """ "the bowl and the gasket": one more of the same subjects."""
        if not self.current or self.used or subject.pronoun:
            return False
        return bool(self.glue & {"AND"} or self.glue == {"BREAK"}) and not self.glue & {"AUX", "MARK"}

    def _is_place(self, subject: Subject) -> bool:
        """ "the gasket of the bowl", "out of the body": tells where, not what."""
        if not self.current or "BREAK" in self.glue or "AND" in self.glue or subject.pronoun:
            return False
        return bool(self.glue & {"OF", "PREP"})

    def _needed(self, index: int) -> bool:
        before = self.phrases[index - 1] if index else None
        if before is None:
            return False
        return (
            before.kind == "aux"
            and bool(before.aux_tags & {"NEED"})
            and not before.aux_tags & {"DECLINE", "NEG"}
        )

    def _keep_characteristic(self, subject: Subject) -> None:
        owners = {component for component, _ in self.characteristic}
        if subject.components and not (self.characteristic and owners & set(subject.components)):
            self.characteristic = ()
            self.characteristic_at = None

    def _take(self, fact: Fact, subjects: list[Subject]) -> None:
        fact.subjects = [*fact.subjects, *subjects]
        for subject in subjects:
            fact.cover(subject.start, subject.end)

    def _predicate_follows(self, index: int) -> bool:
        for phrase in self.phrases[index + 1 :]:
            if phrase.kind in {"break", "subject"} or (phrase.kind == "link" and "AND" in phrase.tags):
                return False
            if phrase.kind in _PREDICATES or (phrase.kind == "aux" and "COP" in phrase.aux_tags):
                return True
        return False

    # what is said

    def _characteristic(self, phrase: Phrase) -> None:
        self.characteristic = phrase.meaning.characteristics
        self.characteristic_at = (phrase.start, phrase.end)
        owners = {component for component, _ in self.characteristic}
        if (
            self.current
            and not owners & {c for s in self.current for c in s.components}
            and not any(s.pronoun and not s.components for s in self.current)
        ):
            self._hold([], used=False)
        self.used = False if self.current else self.used
        self.glue.add("CHAR")

    def _value(self, index: int, phrase: Phrase) -> None:
        if self._counts_something_else(index):
            self.glue.add("WORD")
            return
        fact = Fact("value", phrase, self.segment, start=phrase.start, end=phrase.end)
        fact.introduced = bool(self.glue & {"READS", "COP"})
        if not self.characteristic and self._lists_values():
            fact.characteristics = self.last.characteristics if self.last is not None else ()
            fact.listed = True
        elif self.characteristic:
            fact.characteristics = self.characteristic
            if self.characteristic_at:
                fact.cover(*self.characteristic_at)
            self.characteristic, self.characteristic_at = (), None
        else:
            ahead = self._characteristic_ahead(index)
            if ahead is not None:
                fact.characteristics = self.phrases[ahead].meaning.characteristics
                fact.cover(self.phrases[ahead].start, self.phrases[ahead].end)
                self.taken.add(ahead)
                if self._right_subject(ahead, fact) is not None and self._by_preposition(ahead):
                    index = ahead
        if fact.listed and self.last is not None:
            self._take(fact, self.last.subjects)
            fact.start, fact.end = phrase.start, phrase.end
            self.out.facts.append(fact)
            self.last, self.glue = fact, set()
            return
        self._add(fact, index, prefer_right=False, owners={c for c, _ in fact.characteristics})

    def _counts_something_else(self, index: int) -> bool:
        """ "two hands", "three spots": a small whole number before a plural that the sheet does not know."""
        after = self.phrases[index + 1] if index + 1 < len(self.phrases) else None
        if small_count(self.phrases[index].measure) is None or after is None or after.kind not in {"word", "mark"} or after.tags - {"PLACE"}:
            return False
        word = self.texts[after.start]
        return len(word) > 3 and word.endswith("s") and not word.endswith("ss")

    def _lists_values(self) -> bool:
        """ "nine point eight one, nine point eight three": one more value of the same thing."""
        if self.last is None or self.last.kind != "value" or not self.last.characteristics or self.used is False:
            return False
        return not self.glue - {"AND", "BREAK"}

    def _characteristic_ahead(self, index: int) -> int | None:
        """ "eleven two thick": a characteristic named right after its value, if it has no value of its own."""
        for at in range(index + 1, min(index + 4, len(self.phrases))):
            phrase = self.phrases[at]
            if phrase.kind == "char":
                after = self.phrases[at + 1 : at + 3]
                return None if any(p.kind == "measure" for p in after) else at
            if phrase.kind not in {"word", "lead"} and not (
                phrase.kind == "link" and phrase.tags & {"PREP", "OF"}
            ):
                return None
        return None

    def _predicate(self, index: int, phrase: Phrase) -> None:
        fact = Fact(phrase.kind, phrase, self.segment, start=phrase.start, end=phrase.end)
        loose = self.glue & {"NEG", "NEED", "DECLINE"} if "BREAK" not in self.glue else set()
        fact.aux = phrase.aux_tags | loose
        fact.negated = "NEG" in fact.aux and phrase.kind == "finding"
        if phrase.kind == "finding" and self.denying and not self._is_good(phrase):
            fact.negated = True
        fact.degree = phrase.aux_tags & {"SLIGHT", "MODERATE", "SEVERE"}
        if phrase.kind == "finding" and self._goes_on_negated(fact):
            fact.negated = True
        if phrase.kind in {"off", "on"} and self._takes_object(phrase) and self._unknown_object(index):
            self.glue.add("WORD")
            return
        if phrase.kind in {"off", "on"} and not self.current and self._unknown_subject(index):
            self.glue.add("WORD")
            return
        owners = tuple(dict.fromkeys(component for component, _ in self.characteristic))
        if phrase.kind == "finding" and len(owners) == 1 and not self.current and self.characteristic_at:
            self._hold([subject_of_components(owners, *self.characteristic_at)], used=False)
        verb = phrase.kind == "doing" or (phrase.kind in {"off", "on"} and self._takes_object(phrase))
        self._add(fact, index, prefer_right=verb)

    def _unknown_object(self, index: int) -> bool:
        """ "put the kettle on": a noun that the sheet does not know is what was moved."""
        after = self.phrases[index + 1 : index + 3]
        return len(after) == 2 and after[0].kind == "lead" and after[1].kind == "word" and not after[1].tags

    def _unknown_subject(self, index: int) -> bool:
        """ "locknut off": a noun that the sheet does not know came off."""
        before = self.phrases[index - 1] if index else None
        if before is None or before.kind != "word" or before.tags or before.end != self.phrases[index].start:
            return False
        opens = index == 1 or self.phrases[index - 2].kind in {"lead", "break"}
        return opens and not self.texts[before.start].endswith("ly")

    def _takes_object(self, phrase: Phrase) -> bool:
        """True for "pulled", "put back in"; false for "off", "came out", "is in"."""
        return phrase.head is not None and self.texts[phrase.head.start] in _TRANSITIVE

    def _is_good(self, phrase: Phrase) -> bool:
        condition = self.sheet.get_condition(phrase.meaning.conditions[-1])
        return condition is not None and condition.good

    def _goes_on_negated(self, fact: Fact) -> bool:
        """ "no scoring, pitting or corrosion": the negation reaches over a bare list."""
        if (
            self.last is None
            or self.last.kind != "finding"
            or not self.last.negated
            or fact.degree
            or fact.phrase.aux
        ):
            return False
        return bool(self.glue & {"OR", "AND", "BREAK"}) and not self.glue & {"AUX", "MARK", "BUT", "WORD"}

    def _add(self, fact: Fact, index: int, *, prefer_right: bool, owners: set[str] | None = None) -> None:
        right = self._right_subject(index, fact)
        fitting = self.current and (owners is None or not owners or self._fits(owners))
        take_left = bool(fitting) and (
            not self.used or right is None or (not prefer_right and not self._by_preposition(index))
        )
        if (
            prefer_right
            and right is not None
            and self.current
            and not self.used
            and not self._adjacent(index)
        ):
            take_left = False
        self.glue = set()
        if fact.kind == "same" and right is None and (self.used or not self.current):
            take_left = False
        if take_left:
            self._take(fact, self.current)
            self.used = True
            self.extendable = []
        elif right is not None and self._claimable(right, fact, by_preposition=self._by_preposition(index)):
            self.claims.append(fact)
        elif not owners:
            self.waiting.append(fact)
        if fact.kind != "finding" or take_left:
            self.carried = []
        self.last = fact
        self.out.facts.append(fact)

    def _fits(self, owners: set[str]) -> bool:
        return any(not s.components or owners & set(s.components) for s in self.current)

    def _adjacent(self, index: int) -> bool:
        """True where the phrase before this one is the current subject, or only helping words stand between."""
        before = self.phrases[index - 1] if index else None
        return before is not None and before.kind in {"subject", "lead", "measure"}

    def _by_preposition(self, index: int) -> bool:
        after = self.phrases[index + 1] if index + 1 < len(self.phrases) else None
        return after is not None and after.kind == "link" and bool(after.tags & {"PREP", "OF"})

    def _right_subject(self, index: int, fact: Fact) -> int | None:
        """Index of the subject that follows with nothing of weight between."""
        direct = fact.kind in {"doing", "off", "on"}
        passed = False  # a finding that the object is hidden behind
        for at in range(index + 1, min(index + 7, len(self.phrases))):
            phrase = self.phrases[at]
            if phrase.kind == "subject" and not (
                phrase.head is not None and phrase.head.kind == "ONE" and phrase.lead_tags & {"NEW"}
            ):
                return at
            if phrase.kind == "lead" and any(tag.meaning.positions or tag.order for tag in phrase.lead):
                return at
            if phrase.kind == "measure" and phrase.measure is not None and phrase.measure.unit is None:
                continue  # "pulled two screws"
            if phrase.kind == "link" and phrase.tags & {"PREP", "OF"} and (passed or not (direct and at > index + 1)):
                continue
            if phrase.kind == "finding" and (fact.kind == "photo" or (fact.kind == "doing" and self._stuff(at))):
                passed = True
                continue
            if phrase.kind not in _GLUE_WORDS or (phrase.kind == "aux" and "COP" in phrase.aux_tags):
                return None
        return None
