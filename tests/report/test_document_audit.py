"""What was changed, by whom and why, in the document."""

from __future__ import annotations

from types import ModuleType

from report_support import row_with, rows_of, words_of
from saywright.judging.judge import judge
from saywright.record import events as ev
from saywright.record.fold import fold
from saywright.record.types import PhotoChecks, Record
from saywright.report.document import build_document
from saywright.report.tree import Document, plain
from saywright.sheets.model import Sheet
from saywright.understanding import statements as said


def test_replaced_reading_is_told_only_as_a_correction(document: Document) -> None:
    """What was said wrong stays readable, and counts nowhere."""
    assert not [
        row for row in map(words_of, rows_of(document, "readings")) if any("9.3 g" in field for field in row)
    ]
    row = row_with(document, "corrections", "9.3 g")
    assert "said at the bench" == row[1]
    assert "“no make that nine point one”" in row[3]


def test_persons_correction_tells_before_after_who_and_why(document: Document) -> None:
    """The audit of a changed value."""
    row = row_with(document, "corrections", "126")
    assert "value: 126 → 128" == row[2]
    assert row[1].startswith("Ines / 14 March 2026, ")
    assert "listened again: one two eight" == row[3]


def test_second_correction_starts_from_the_first(sample: ModuleType, sheet: Sheet) -> None:
    """The value before is the one that held, not the one first heard."""
    log = sample.Log(sheet)
    item = log.read("float", "height", "18.1", "height")
    log.add(ev.ItemCorrected(item=item, changes={"value": "18.2"}, why="a"), actor="Ines")
    log.add(ev.ItemCorrected(item=item, changes={"value": "18.3"}, why="b"), actor="Tor")
    document = build_document(judge(fold(log.events), sheet), sheet, events=log.events)
    assert ["value: 18.1 → 18.2", "value: 18.2 → 18.3"] == [
        words_of(r)[2] for r in rows_of(document, "corrections")
    ]


def test_withdrawal_and_explanation_are_in_the_audit(document: Document) -> None:
    """Taking something out, and letting something be, are told with their reasons."""
    assert "that was the radio" == row_with(document, "corrections", "withdrawn; heard")[3]
    assert "thread is stripped, screw follows" == row_with(document, "corrections", "off:bowl_screw")[3]


def test_changes_to_the_job_and_a_lost_signature_are_in_the_audit(sample: ModuleType, sheet: Sheet) -> None:
    """What is printed at the head was changed by somebody; a signature that no longer holds is told of."""
    log = sample.Log(sheet)
    log.add(ev.Signed(record_hash=log.events[-1].hash), actor="Ines")
    log.add(ev.JobDescribed(serial="0R-44719"), actor="Tor")
    document = build_document(judge(fold(log.events), sheet), sheet, events=log.events)
    rows = [words_of(row) for row in rows_of(document, "corrections")]
    assert ["signed; a later change took the signature away", "serial: 0R-44718 → 0R-44719"] == [
        r[2] for r in rows
    ]
    assert rows[1][1].startswith("Tor / ")


def test_signature_that_holds_is_no_correction(sample: ModuleType, sheet: Sheet) -> None:
    """A signed job with nothing changed says so."""
    log = sample.Log(sheet)
    log.add(ev.Signed(record_hash=log.events[-1].hash), actor="Ines")
    document = build_document(judge(fold(log.events), sheet), sheet, events=log.events)
    assert document.head.signed
    assert [] == rows_of(document, "corrections")


def test_picture_placed_by_a_person_is_in_the_audit(sample: ModuleType, sheet: Sheet) -> None:
    """Where a machine did not match the picture, the person who did is named."""
    log = sample.Log(sheet)
    mark = log.say(said.PhotoMark, "photo of the jet", component="main_jet")
    log.add(ev.PhotoAdded(photo="p1", sha256="0" * 64, name="a.jpg", checks=PhotoChecks()))
    log.add(ev.PhotoPlaced(photo="p1", mark=mark), actor="Ines")
    document = build_document(judge(fold(log.events), sheet), sheet, events=log.events)
    assert mark == row_with(document, "corrections", "picture p1 placed by hand")[0]


def test_corrections_are_told_without_the_events_too(record: Record, sheet: Sheet) -> None:
    """The record alone knows who changed what, and that something was withdrawn."""
    rows = [words_of(row) for row in rows_of(build_document(record, sheet), "corrections")]
    assert any("value was 126" in row[2] and "Ines" == row[1] for row in rows)
    assert any("withdrawn" in row[2] for row in rows)


def test_the_revision_is_told(sample: ModuleType, sheet: Sheet) -> None:
    """A signed record has its number; what changes after is the next one, which names the one before."""
    log = sample.Log(sheet)
    log.read("float", "height", "18.42", "float height eighteen four two")

    def told() -> str | None:
        document = build_document(judge(fold(log.events), sheet), sheet, events=log.events)
        facts = {fact.label: plain(fact.value) for fact in document.head.facts}
        return facts.get("Revision of this record")

    assert told() is None
    log.add(ev.Signed(record_hash=log.events[-1].hash), actor="Ines")
    assert "1" == told()
    log.read("float", "height", "18.44", "float height eighteen four four")
    assert "2, in place of revision 1, signed by Ines on " == (told() or "")[:45]
