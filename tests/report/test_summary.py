"""The summary: how many readings stand how, what was found, fitted, done and what still stands."""

from __future__ import annotations

from types import ModuleType

from report_support import rows_of, section_of, spans, words_of
from saywright.judging.judge import judge
from saywright.record.fold import fold
from saywright.record.types import Record
from saywright.report.document import build_document
from saywright.report.tree import Document, Prose, Tally, plain
from saywright.sheets.model import Sheet
from saywright.understanding import statements as said


def test_tally_counts_each_reading_once(document: Document, record: Record) -> None:
    """Settled readings by decision, those that ask apart; together all that hold, and the sentence agrees."""
    tally = next(block for block in section_of(document, "summary").blocks if isinstance(block, Tally))
    held = [reading for reading in record.readings if reading.superseded_by is None]
    asking = sum(reading.provisional for reading in held)
    assert asking > 0
    assert len(held) == tally.counts[0].count
    for count in tally.counts[1:-1]:
        assert sum(r.decision == count.mark and not r.provisional for r in held) == count.count
    assert asking == tally.counts[-1].count
    words = "".join(span.text for span in spans(section_of(document, "summary")))
    assert f"{len(held)} readings were taken: {tally.counts[1].count} conform to their limits" in words
    assert f"{asking} still asks, provisional" in words


def test_summary_names_what_does_not_conform(document: Document, record: Record) -> None:
    """Each settled reading that does not conform is in the summary, none that asks is."""
    named = {span.evidence.item for span in spans(section_of(document, "summary")) if span.evidence}
    bad = [r for r in record.readings if r.decision == "does_not_conform" and r.superseded_by is None]
    assert any(reading.provisional for reading in bad)
    for reading in bad:
        assert reading.provisional != (reading.id in named)


def summary_words(document: Document) -> str:
    """The summary in one string."""
    return "".join(span.text for span in spans(section_of(document, "summary")))


def test_good_news_as_left_is_told_only_where_it_is_whole(sample: ModuleType, sheet: Sheet) -> None:
    """All as left conform: it is said. One fails: it is not."""
    log = sample.Log(sheet)
    log.read("float", "height", "18.5", "height", stage="as_left")
    whole = build_document(judge(fold(log.events), sheet), sheet)
    assert "As left: the one reading with a limit conforms." in summary_words(whole)
    log.read("float", "mass", "10.9", "mass", stage="as_left")
    broken = build_document(judge(fold(log.events), sheet), sheet)
    assert "As left: " not in summary_words(broken)


def test_good_news_hides_no_part_that_was_not_read_again(
    document: Document, record: Record, sample: ModuleType, sheet: Sheet
) -> None:
    """What was found out of its limits and has no reading as left stands behind the good news."""
    assert "As left: the 3 readings with a limit conform." in summary_words(document)
    points = [
        point
        for block in section_of(document, "summary").blocks
        if isinstance(block, Prose)
        for point in block.lines
        if plain(point).startswith("Not read as left, and as found does not conform: ")
    ]
    named = {span.evidence.item for point in points for span in point if span.evidence}
    left = {(r.component, r.which, r.characteristic) for r in record.readings if r.stage == "as_left"}
    bad = [r for r in record.readings if r.decision == "does_not_conform" and not r.provisional]
    assert {r.id for r in bad if (r.component, r.which, r.characteristic) not in left} == named
    assert named
    log = sample.Log(sheet)
    log.read("float", "height", "19.9", "height")
    stripped = build_document(judge(fold(log.events), sheet), sheet)
    assert "Not read as left" not in summary_words(stripped)


def test_a_proposal_that_was_done_since_is_proposed_no_more(sample: ModuleType, sheet: Sheet) -> None:
    """The summary names what still stands; the table says what became of the rest, and where."""
    log = sample.Log(sheet)
    jet = {"component": "main_jet", "action": "replace"}
    log.say(said.ActionNote, "jet needs replacing", **jet, status="proposed")
    log.say(
        said.ActionNote,
        "gasket needs replacing",
        component="bowl_gasket",
        action="replace",
        status="proposed",
    )
    log.say(said.ActionNote, "order a gasket", component="bowl_gasket", action="order", status="proposed")
    new = log.say(
        said.Movement, "new gasket on", component="bowl_gasket", count=1, movement="fitted", part="new"
    )
    document = build_document(judge(fold(log.events), sheet), sheet)
    told = summary_words(document)
    assert (
        "Still proposed: main jet (replace) s1, bowl gasket (order; a new one was fitted since) s3." in told
    )
    status = [words_of(row)[2] for row in rows_of(document, "actions")]
    assert ["proposed", *2 * [f"proposed / a new one fitted since {new}"]] == status


def test_the_summary_names_new_parts_once(sample: ModuleType, sheet: Sheet) -> None:
    """A part said to go on new is named with its count; a replacement told as work stands under "Done"."""
    log = sample.Log(sheet)
    screw = {"component": "bowl_screw", "movement": "fitted"}
    two = log.say(said.Movement, "two new screws in", **screw, count=2, part="new")
    one = log.say(said.Movement, "and another new one", **screw, count=1, part="new")
    log.say(said.Movement, "the old one back", **screw, count=1, part="old")
    log.say(said.ActionNote, "replaced the jet", component="main_jet", action="replace", status="done")
    told = summary_words(build_document(judge(fold(log.events), sheet), sheet))
    assert f"New parts fitted: 3 × bowl screw {two} {one}." in told
    assert "Done: main jet (replace) s4." in told
