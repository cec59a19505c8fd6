"""Utterance → statements. Total: any words give statements or remarks, never an exception.

Every hypothesis of the listener is read against the same state; the readings of the best
one carry the probability of their values over all hypotheses (`saywright.understanding.doubt`).
"""

from __future__ import annotations

from fractions import Fraction

from saywright.hearing.words import Hypothesis, Utterance
from saywright.quantity import parse_value
from saywright.understanding.clauses import read_clauses
from saywright.understanding.corrections import Corrector
from saywright.understanding.counting import count_run
from saywright.understanding.discourse import Counting, Discourse
from saywright.understanding.doubt import mistrust, weigh
from saywright.understanding.facts import Fact, Mark, Told
from saywright.understanding.identifiers import Spelled, spelled_after
from saywright.understanding.joining import join
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.mending import mend
from saywright.understanding.outside import outside
from saywright.understanding.phrases import phrases
from saywright.understanding.settle import Settler
from saywright.understanding.statements import (
    ActionNote,
    ConditionNote,
    Identifier,
    IdentifierKind,
    Movement,
    Reading,
    Statement,
    Unclear,
)
from saywright.understanding.tagging import tag
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import tokenise
from saywright.understanding.turns import count_turns
from saywright.understanding.working import Working

_IDENTIFIERS: tuple[tuple[str, IdentifierKind], ...] = (
    ("SERIAL", "serial"),
    ("PART_NUMBER", "part_number"),
    ("TAG", "tag"),
    ("STAMP", "stamp"),
    ("ENDS", "serial"),
)


def understand(
    utterance: Utterance, state: Discourse, lexicon: Lexicon, heard: int | None = None
) -> tuple[Discourse, tuple[Statement, ...]]:
    """The next state and the statements of *utterance*; *heard* is the sequence number of its event."""
    results = [(h.probability, *_read(utterance, h, state, lexicon, heard)) for h in utterance.hypotheses]
    return mistrust(*weigh(results, lexicon.sheet), utterance.listener)


def _read(
    utterance: Utterance, hypothesis: Hypothesis, state: Discourse, lexicon: Lexicon, heard: int | None
) -> tuple[Discourse, tuple[Statement, ...]]:
    work = Working(utterance, hypothesis.words, state, lexicon, heard)
    work.set_tokens(*mend(tokenise([word.text for word in hypothesis.words]), lexicon))
    if not work.tokens:
        return work.state(), ()
    begin = join(work)
    begin = count_turns(work, begin)
    if begin < len(work.tokens):
        _statements(work, begin)
    return work.state(), tuple(work.out)


def _statements(work: Working, begin: int) -> None:
    tags = tuple(_shifted(t, begin) for t in tag(work.tokens[begin:], work.lexicon))
    told = read_clauses(phrases(tags), work.texts, work.sheet)
    settler = Settler(work, told)
    corrector = Corrector(work, told, settler)
    spelled_spans = _identifiers(work, told, settler)
    scratched = _scratches(told)
    taken = [*spelled_spans, *((m.end, m.end + 1) for m in told.marks if "SCRATCH_MANY" in m.tags)]
    for index, fact in enumerate(told.facts):
        _scratch_before(fact.start, scratched, corrector)
        _stage_before(fact, told, work)
        if any(start < fact.phrase.end and fact.phrase.start < end for start, end in taken):
            continue
        reason = outside(fact, told, work.texts)
        if reason:
            work.remark(fact.start, fact.end, reason)
            if reason in _STILL_NAMED:
                settler.parts(fact)
            continue
        following = told.facts[index + 1] if index + 1 < len(told.facts) else None
        _settle(fact, following, corrector, settler)
    _scratch_before(len(work.texts), scratched, corrector)
    _stage_before(None, told, work)
    _unit_alone(told, work)
    _marks_alone(told, corrector, work)
    _one_more(told, work, settler)
    _named_alone(told, work)
    work.leftovers(_fillers(tags))


_STILL_NAMED = frozenset({"not moved", "not yet moved", "tool size", "quoted limit"})


def _shifted(one: Tag, by: int) -> Tag:
    if by == 0:
        return one
    from dataclasses import replace

    measure = one.measure
    moved = replace(measure, start=measure.start + by, end=measure.end + by) if measure is not None else None
    return replace(one, start=one.start + by, end=one.end + by, measure=moved)


def _settle(fact: Fact, following: Fact | None, corrector: Corrector, settler: Settler) -> None:
    if fact.kind != "value":
        earlier = corrector.work.live()
        made_before = len(corrector.work.out)
        settler.settle(fact)
        if fact.kind == "finding" and corrector.opener(fact) is not None:
            corrector.condition(earlier, corrector.work.out[made_before:])
        return
    run = corrector.run_denied(fact)
    if run is not None:
        corrector.replace(run[1], run[0])
        return
    denied = corrector.denied(fact, following)
    if denied is not None and following is not None:
        corrector.work.covered.append((fact.start, fact.end))
        following.kind = "correcting"
        corrector.replace(following, denied)
        return
    if fact.phrase.start and corrector.work.texts[fact.phrase.start - 1] == "not":
        if following is not None and following.kind == "value" and not following.characteristics:
            following.characteristics = fact.characteristics
            following.subjects = following.subjects or fact.subjects
        corrector.work.remark(fact.start, fact.end, "denied")
        return
    opener = corrector.opener(fact)
    if opener is not None or corrector.says_no(fact):
        if corrector.quantity(fact) or corrector.replace(fact):
            return
        if (
            opener is not None
            and "GO_BACK" not in opener.tags
            and not fact.subjects
            and not fact.characteristics
        ):
            corrector.unclear_target(fact)
            return
    settler.settle(fact)


def _scratches(told: Told) -> list[Mark]:
    return [mark for mark in told.marks if mark.tags & {"SCRATCH", "SCRATCH_MANY"}]


def _scratch_before(position: int, marks: list[Mark], corrector: Corrector) -> None:
    while marks and marks[0].start < position:
        corrector.scratch(marks.pop(0))


def _stage_before(fact: Fact | None, told: Told, work: Working) -> None:
    """Talk of going back together turns the stage, unless it is only ahead."""
    for mark in told.marks:
        if "STAGE" not in mark.tags or (fact is not None and mark.start > fact.start):
            continue
        around = work.texts[max(0, mark.start - 6) : mark.start]
        if any(text in _NOT_YET for text in around) or any(
            m.tags & {"QUESTION", "WHATIF", "OTHER_JOB", "STAGE_NOT"} for m in told.marks
        ):
            continue
        work.stage = "as_left"


_NOT_YET = frozenset(
    {
        "before",
        "until",
        "till",
        "when",
        "once",
        "needs",
        "need",
        "not",
        "if",
        "unless",
        "last",
        "after",
        "ready",
        "requires",
        "wants",
    }
)


def _unit_alone(told: Told, work: Working) -> None:
    """ "Air pressure ate tea psi": a characteristic and a unit, but no number that was understood."""
    if not told.named or any(fact.kind == "value" for fact in told.facts):
        return
    units = [
        at
        for at, text in enumerate(work.texts)
        if text in work.lexicon.units and (text,) not in work.lexicon.table
    ]
    if units:
        component = told.named[0][0]
        reason = "a characteristic and a unit, but no number that was understood"
        work.put(work.make(Unclear, 0, units[-1] + 1, component=component, reason=reason))


def _marks_alone(told: Told, corrector: Corrector, work: Working) -> None:
    """Corrections of the part alone, and "leave it"."""
    has_facts = any(fact.kind not in {"photo"} for fact in told.facts)
    for mark in told.marks:
        if "MAKE_THAT" in mark.tags and not has_facts:
            corrector.part_only(mark)
        if "LEAVE" in mark.tags:
            _leave(work, mark)


def _one_more(told: Told, work: Working, settler: Settler) -> None:
    """ "And the upper", "other two as well": the last movement or finding goes for one more part."""
    joined = work.texts[0] in {"and", "also", "plus"} or work.texts[-1] in {"too", "well"}
    if told.facts or not joined or told.strays or told.named:
        return
    last = next((s for s in reversed(work.live()) if isinstance(s, Movement | ConditionNote)), None)
    subjects = [s for s in told.subjects if s.components or s.other_words]
    if last is None or not subjects:
        return
    settler.again(last, subjects)


def _leave(work: Working, mark: Mark) -> None:
    """ "Leave it": the action that was proposed last for the part in hand is declined."""
    for statement in reversed(work.live()):
        if isinstance(statement, ActionNote) and statement.status == "proposed":
            if work.hand is not None and statement.component not in {None, work.hand.component}:
                continue
            work.put(
                work.make(
                    ActionNote,
                    mark.start,
                    mark.end,
                    component=statement.component,
                    which=statement.which,
                    action=statement.action,
                    status="declined",
                )
            )
            return


def _named_alone(told: Told, work: Working) -> None:
    """A part or a characteristic named without a value: what comes next may complete it."""
    if told.subjects and not told.facts:
        from saywright.understanding.parts import resolve

        part = resolve(told.subjects[-1], work.sheet, work.hand, work.now, off=work.off)
        if part is not None:
            work.named(part.component, part.single)
    if told.named:
        owners = {component for component, _ in told.named}
        held = work.hand.component if work.hand is not None else None
        if held in owners:
            work.awaited = next(key for key in told.named if key[0] == held)
        elif len(owners) == 1:
            work.awaited = told.named[0]
            work.named(told.named[0][0], None)


def _identifiers(work: Working, told: Told, settler: Settler) -> list[tuple[int, int]]:
    spans: list[tuple[int, int]] = []
    for mark in told.marks:
        kind = next((kind for tag_, kind in _IDENTIFIERS if tag_ in mark.tags), None)
        found = spelled_after(work.texts, mark.end) if kind is not None else None
        if kind is None or found is None or any(start <= found.start < end for start, end in spans):
            continue
        if kind in {"stamp", "tag"} and not found.letters:
            continue
        partial = "ENDS" in mark.tags or any(
            "ENDS" in m.tags and mark.end <= m.start <= found.start for m in told.marks
        )
        _identifier(work, told, kind, mark, found, partial=partial)
        spans.append((mark.start, found.end))
    del settler
    return spans


def _identifier(
    work: Working, told: Told, kind: IdentifierKind, mark: Mark, found: Spelled, *, partial: bool
) -> None:
    from saywright.flags import FlagKind, flag

    named = [s for s in told.subjects if s.components and s.start < found.start]
    component = named[-1].components[0] if named else None
    if component is None and kind in {"stamp", "part_number"} and work.hand is not None:
        component = work.hand.component
    work.put(
        work.make(
            Identifier,
            mark.start,
            found.end,
            flags=[flag(FlagKind.IDENTIFIER_PARTIAL, found.value)] if partial else [],
            identifier=kind,
            component=component,
            value=found.value,
            partial=partial,
        )
    )


def _fillers(tags: tuple[Tag, ...]) -> frozenset[int]:
    """Tokens that say nothing by themselves: fillers, articles, helping words, links."""
    out: set[int] = set()
    for one in tags:
        if "FILLER" in one.tags or one.kind in {"MOD", "AUX", "LINK", "BREAK", "PRON"}:
            out.update(range(one.start, one.end))
    return frozenset(out)


__all__ = ["Counting", "Fraction", "Reading", "Unclear", "count_run", "parse_value", "understand"]
