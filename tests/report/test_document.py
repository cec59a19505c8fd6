"""The document: each section says what the record holds, with its evidence."""

from __future__ import annotations

from collections.abc import Sequence
from types import ModuleType

import pytest

from report_support import row_with, rows_of, section_of, spans, words_of
from saywright.judging.judge import judge
from saywright.record import events as ev
from saywright.record.events import Event
from saywright.record.fold import fold
from saywright.record.types import Action, Photo, Record
from saywright.report.document import build_document
from saywright.report.sections import since_words
from saywright.report.tree import Document, Pictures, plain
from saywright.sheets.model import Sheet
from saywright.understanding import statements as said


def test_every_value_carries_item_and_event(document: Document, record: Record) -> None:
    """A reading that holds is in the readings table with the id and event of its item."""
    shown = {
        (span.evidence.item, span.evidence.event): span
        for span in spans(section_of(document, "readings"))
        if span.evidence and span.tone == "figure"
    }
    held = [reading for reading in record.readings if reading.superseded_by is None]
    assert {(reading.id, reading.event) for reading in held} == set(shown)
    for reading in held:
        span = shown[(reading.id, reading.event)]
        assert reading.value in span.text
        assert (reading.decision, reading.provisional) == (span.mark, span.provisional)


def test_found_and_left_stand_side_by_side_against_limits(document: Document) -> None:
    """One row a characteristic: limits with their source, as found with its mean, as left."""
    row = row_with(document, "readings", "Float height")
    assert "18.0 to 18.8 mm / source (a)" == row[1]
    assert row[2].startswith("18.40 mm s5 / 18.42 mm s6 / mean 18.41 mm (range 0.02 mm), U ± ")
    assert row[3].startswith("18.55 mm ")
    assert row[3].endswith(": conforms")


def test_sources_of_limits_are_told_below(document: Document) -> None:
    """The letter behind a limit is resolved; a characteristic may have a source of its own."""
    words = [span.text for span in spans(section_of(document, "readings"))]
    assert "(a) Limits from: Invented for the demo" in words
    assert "(b) Limits from: Harbour workshop card 7" in words
    assert "at most 9.5 g / source (b)" == row_with(document, "readings", "Mass")[1]


def test_no_limit_has_no_source(document: Document) -> None:
    """Nothing is claimed where the sheet says nothing."""
    assert "none" == row_with(document, "readings", "Bore")[1]


def test_open_items_are_all_there_the_explained_last(document: Document, record: Record) -> None:
    """What waits comes first and is marked; what is explained has its reason."""
    rows = rows_of(document, "open")
    assert len(record.open_items) == len(rows)
    assert [True, True, False] == [row.asks for row in rows]
    assert "May stay open: thread is stripped, screw follows" in words_of(rows[-1])[2]


def test_ledger_tells_off_on_and_renewed(document: Document) -> None:
    """Four screws off, three on: one short. The gasket came off old and went on new."""
    assert ["Bowl screw", "4", "4", "3", "0", "1 not back on"] == row_with(document, "ledger", "Bowl screw")[
        :6
    ]
    gasket = row_with(document, "ledger", "Bowl gasket")
    assert ["1", "1", "1", "1", "balanced"] == gasket[1:6]


def test_parts_to_order_have_number_reason_and_evidence(document: Document) -> None:
    """The jet, with the sheet's part number and the condition that asks for it."""
    row = row_with(document, "parts", "Main jet")
    assert ["Main jet", "1", "MJ-128-N", "chewed slot"] == row[:4]


def test_photos_have_captions_and_the_words_that_announced_them(document: Document, record: Record) -> None:
    """Each picture tells its part, its stage, what it shows and its file."""
    block = section_of(document, "photos").blocks[0]
    assert isinstance(block, Pictures)
    captions = [[plain(part) for part in picture.caption] for picture in block.pictures]
    assert [photo.sha256 for photo in record.photos] == [picture.sha256 for picture in block.pictures]
    assert captions[1][0].startswith("Main jet, as found: chewed slot")
    assert "“photo of the jet”" == captions[1][1]
    assert "jet.jpg" in captions[1][2]


def test_trace_leads_from_each_item_to_words_time_and_event(document: Document, record: Record) -> None:
    """Clip time, words and event number of each item; who accepted it."""
    rows = {row.anchor: words_of(row) for row in rows_of(document, "trace")}
    for reading in record.readings:
        row = rows[reading.id]
        assert f"“{reading.heard}”" == row[2]
        assert str(reading.event) == row[4]
        assert (reading.accepted_by or "") == row[5]
    assert "01:48.5" == rows["s5"][3]


def test_trace_names_listener_recording_and_hashes(document: Document, events: Sequence[Event]) -> None:
    """What is needed to check the report against the log."""
    words = "".join(span.text for span in spans(section_of(document, "trace")))
    assert "heard by whisper tiny.en" in words
    assert "a1" * 32 in words
    assert events[-1].hash in words
    assert f"The log holds {len(events)} events" in words


def test_a_recording_is_named_once_by_its_content(
    record: Record, sheet: Sheet, events: Sequence[Event]
) -> None:
    """Told twice by the log, named once; one that still goes on has no hash of its content."""
    live = ev.AudioAdded(sha256="c3" * 32, recording="c3" * 32, name="microphone")
    opened, *rest = events
    still = [opened, opened.model_copy(update={"payload": live}), *rest]
    ended = live.model_copy(update={"sha256": "d4" * 32, "duration_s": 9.0})

    def words(told: Sequence[Event]) -> str:
        section = section_of(build_document(record, sheet, events=told), "trace")
        return "".join(span.text for span in spans(section))

    assert "Recording microphone, not ended." in words(still)
    after = words([*still, opened.model_copy(update={"payload": ended})])
    assert 1 == after.count("Recording microphone")
    assert f"Recording microphone, SHA-256 {'d4' * 32}." in after


def test_a_picture_nobody_announced_came_as_a_file(record: Record, sheet: Sheet) -> None:
    """It was not entered by hand."""
    picture = Photo(id="p77", stage="as_found", heard="", sha256="e5" * 32, name="x.jpg")
    shown = build_document(record.model_copy(update={"photos": (picture,)}), sheet)
    rows = {row.anchor: words_of(row) for row in rows_of(shown, "trace")}
    assert "a file" == rows["p77"][3]


@pytest.mark.parametrize(
    ("rule", "words"), [("iso14253", "1.65 u"), ("guarded", "1 U"), ("simple", "simple")]
)
def test_rule_is_told_in_words(record: Record, sheet: Sheet, rule: str, words: str) -> None:
    """The report names the rule of the sheet, not a default."""
    changed = sheet.model_copy(update={"rule": rule})
    section = section_of(build_document(judge(record, changed), changed), "judged")
    assert words in "".join(span.text for span in spans(section))


def test_each_decision_has_its_sentence(document: Document, record: Record) -> None:
    """Every reading that holds is in the table of judgements."""
    told = {field for row in rows_of(document, "judged") for field in words_of(row)[0].split(" / ")}
    assert {reading.id for reading in record.readings if reading.superseded_by is None} == told


def test_cautions_of_the_sheet_are_printed(document: Document) -> None:
    """Both cautions, whole."""
    words = [span.text for span in spans(section_of(document, "cautions"))]
    assert "Eye protection on; keep the gun below the pressure of the shop rules." in words
    assert 2 == len(words)


def test_unknown_part_and_characteristic_are_still_shown(sample: ModuleType, sheet: Sheet) -> None:
    """A reading of what the sheet does not know is not lost."""
    log = sample.Log(sheet)
    log.say(said.Reading, "thing", component="odd_part", characteristic="odd_size", value="7.70", unit="mm")
    document = build_document(judge(fold(log.events), sheet), sheet)
    row = row_with(document, "readings", "Odd size")
    assert "none" == row[1]
    assert row[2].startswith("7.70 mm")


def test_which_one_not_said_is_told(sample: ModuleType, sheet: Sheet) -> None:
    """Of a pair without a side, the report does not pick one."""
    log = sample.Log(sheet)
    log.read("mounting_pad", "thickness", "4.02", "pad four oh two")
    document = build_document(judge(fold(log.events), sheet), sheet)
    assert "Thickness / which one not said" == row_with(document, "readings", "4.02")[0]


def test_head_names_job_and_says_draft(document: Document, record: Record) -> None:
    """Unsigned is said first, with how much waits."""
    facts = {fact.label: plain(fact.value) for fact in document.head.facts}
    assert record.job.serial == facts["Serial number"]
    assert "Single-float outboard carburetor, revision B" == facts["Bench sheet"]
    assert ("NOT SIGNED: draft", False) == (document.head.status, document.head.signed)
    assert "2 open items wait for a person." == plain(document.head.status_detail)


def test_time_of_the_document_is_that_of_its_last_event(document: Document, events: Sequence[Event]) -> None:
    """No clock is read."""
    assert events[-1].at == document.made_at


def _action(item_id: str, action: str, status: str) -> Action:
    return Action.model_validate(
        {"id": item_id, "stage": "as_found", "heard": "heard", "component": "main_jet", "action": action}
        | {"status": status}
    )


def test_an_order_that_nobody_placed_is_not_called_done() -> None:
    """ "Order a main jet", then "replaced the main jet": a new one is on, and none was ordered."""
    order = _action("s1", "order", "proposed")
    assert "a new one fitted since" == since_words(_action("s2", "replace", "done"), order)
    assert "done since" == since_words(_action("s2", "order", "done"), order)
    assert "decided against since" == since_words(_action("s2", "replace", "declined"), order)
