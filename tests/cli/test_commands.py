"""Commands as a person runs them: what they print, and the exit code."""

from __future__ import annotations

import io
import json
import sqlite3
import sys
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import jsonschema
import pytest
from PIL import Image

from saywright.cli.main import COMMANDS
from saywright.record.events import AudioAdded
from saywright.record.types import json_schema
from saywright.store.eventlog import SqliteStore

from .conftest import HEIGHT, SHEET, Ran

Saywright = Callable[..., Ran]


def stored(saywright: Saywright, notes: Path) -> str:
    """A job with what `notes` says; its id."""
    job = saywright("jobs", "new", "--sheet", SHEET, "--serial", "H-1042").out.strip()
    assert 0 == saywright("parse", notes, "--job", job).code
    return job


class TestHelp:
    """Every command explains itself."""

    @pytest.mark.parametrize("command", COMMANDS)
    def test_has_an_example(self, saywright: Saywright, command: str) -> None:
        """The help of a command shows how it is called."""
        ran = saywright(command, "--help")
        assert 0 == ran.code
        assert f"saywright {command}" in ran.out.partition("Example:")[2]

    @pytest.mark.parametrize(
        "command",
        [
            ("photos", "add"),
            ("review", "list"),
            ("review", "accept"),
            ("review", "correct"),
            ("review", "withdraw"),
            ("review", "explain"),
            ("review", "place"),
            ("jobs", "new"),
            ("sheet", "list"),
            ("sheet", "check"),
            ("models", "list"),
            ("models", "get"),
        ],
    )
    def test_so_has_each_part_of_a_group(self, saywright: Saywright, command: tuple[str, str]) -> None:
        """So does the help of a command within a group."""
        ran = saywright(*command, "--help")
        assert f"saywright {' '.join(command)}" in ran.out.partition("Example:")[2]

    def test_the_list_fits_80_columns(self, saywright: Saywright) -> None:
        """The overview names every command."""
        out = saywright("--help").out
        assert all(f"\n  {name} " in out for name in COMMANDS)
        assert max(len(line) for line in out.splitlines()) <= 80


class TestParse:
    """Text in, record out."""

    def test_json_is_the_record(self, saywright: Saywright, notes: Path, tmp_path: Path) -> None:
        """Standard output is JSON that fits the schema, and nothing is kept."""
        ran = saywright("parse", notes, "--sheet", SHEET, "--json")
        record = json.loads(ran.out)
        jsonschema.validate(record, json_schema())
        assert [("18.42", 1.0), ("128", 4.0)] == [(r["value"], r["start_s"]) for r in record["readings"]]
        assert (0, "") == (ran.code, ran.err)
        assert not (tmp_path / "data").exists()

    def test_standard_input(self, saywright: Saywright, monkeypatch: pytest.MonkeyPatch) -> None:
        """'-' reads what is piped in."""
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(HEIGHT.encode())))
        record = json.loads(saywright("parse", "-", "--sheet", SHEET, "--json").out)
        assert ["18.42"] == [reading["value"] for reading in record["readings"]]

    def test_tables_fit_80_columns(self, saywright: Saywright, notes: Path) -> None:
        """Without --json the record is told in tables."""
        out = saywright("parse", notes, "--sheet", SHEET).out
        assert "18.42 mm" in out
        assert max(len(line) for line in out.splitlines()) <= 80

    def test_into_a_job(self, saywright: Saywright, notes: Path) -> None:
        """With --job it is kept, and exported it prints the same record."""
        job = stored(saywright, notes)
        record = json.loads(saywright("export", job, "--format", "json").out)
        assert ["18.42", "128"] == [reading["value"] for reading in record["readings"]]


class TestHear:
    """Audio in, words or record out."""

    @pytest.mark.usefixtures("ears")
    def test_words(self, saywright: Saywright, audio: Path, tmp_path: Path) -> None:
        """Without --json the words are printed with their times; nothing is kept."""
        ran = saywright("hear", audio, "--sheet", SHEET)
        assert f"[00:01.0] {HEIGHT}\n[00:04.0] main jet one twenty eight\n" == ran.out
        assert not (tmp_path / "data").exists()

    @pytest.mark.usefixtures("ears")
    def test_record(self, saywright: Saywright, audio: Path) -> None:
        """With --json the record is printed, valid against the schema."""
        record = json.loads(saywright("hear", audio, "--sheet", SHEET, "--json").out)
        jsonschema.validate(record, json_schema())
        assert ["18.42", "128"] == [reading["value"] for reading in record["readings"]]

    @pytest.mark.usefixtures("ears")
    def test_into_a_job_once(self, saywright: Saywright, audio: Path) -> None:
        """A recording goes into a job once; the second time is refused with exit code 6."""
        job = saywright("jobs", "new", "--sheet", SHEET).out.strip()
        assert 0 == saywright("hear", audio, "--job", job).code
        again = saywright("hear", audio, "--job", job)
        assert 6 == again.code
        assert f"saywright: {audio}: this recording was already heard in job {job}" in again.err

    @pytest.mark.usefixtures("ears")
    def test_bad_audio(self, saywright: Saywright, tmp_path: Path) -> None:
        """Text named .wav, an empty file and no file at all: one line each, exit code 2."""
        (tmp_path / "text.wav").write_text("words, not samples " * 200)
        (tmp_path / "empty.wav").write_bytes(b"")
        for name in ("text.wav", "empty.wav", "gone.wav"):
            ran = saywright("hear", tmp_path / name, "--sheet", SHEET)
            assert (2, 1) == (ran.code, ran.err.count("\n"))
            assert ran.err.startswith(f"saywright: {tmp_path / name}: ")


class TestReview:
    """What asks is settled, and the record signed."""

    def test_correct_and_trace(self, saywright: Saywright, notes: Path) -> None:
        """A correction changes the value, in the person's name."""
        job = stored(saywright, notes)
        ran = saywright("review", "correct", job, "s1", "value=18.24", "--by", "Ada", "--why", "clip played")
        assert 0 == ran.code
        record = json.loads(saywright("export", job).out)
        assert ("18.24", "Ada") == (record["readings"][0]["value"], record["readings"][0]["accepted_by"])

    def test_a_stale_decision(self, saywright: Saywright, notes: Path) -> None:
        """--seen refuses to decide on what changed since."""
        job = stored(saywright, notes)
        ran = saywright("review", "accept", job, "s1", "--seen", "2", "--by", "Ada")
        assert 6 == ran.code
        assert "the item was changed by event" in ran.err

    def test_signing(self, saywright: Saywright, notes: Path) -> None:
        """Refused with what is open; once all is explained it is signed and the report can be written."""
        job = stored(saywright, notes)
        assert 6 == saywright("sign", job, "--by", "Ada").code
        for item in json.loads(saywright("review", "list", job, "--json").out):
            assert 0 == saywright("review", "explain", job, item["id"], "trial run", "--by", "Ada").code
        assert saywright("sign", job, "--by", "Ada").out.startswith("Signed by Ada")
        made = saywright("report", job, "--format", "html", "--out", "out")
        assert (0, f"out/saywright-{job}.html\n") == (made.code, made.out)


class TestPhotos:
    """Pictures into a job."""

    def test_good_and_bad_ones(self, saywright: Saywright, notes: Path, tmp_path: Path) -> None:
        """The good picture is taken in, the bad one told, and the exit code says that not all was done."""
        job = stored(saywright, notes)
        camera = tmp_path / "camera"
        camera.mkdir()
        Image.effect_noise((80, 60), 90).convert("RGB").save(camera / "a.jpg")
        (camera / "b.jpg").write_text("no picture")
        ran = saywright("photos", "add", job, camera)
        assert 2 == ran.code
        assert "1 taken in, 0 already there, 1 refused" in ran.err
        assert "a.jpg" in ran.out
        assert "saywright: b.jpg: this is not a picture" in ran.err


class TestHouse:
    """Jobs, history, verification, sheets, models, schema."""

    def test_jobs(self, saywright: Saywright, notes: Path) -> None:
        """The list shows what is on record."""
        assert "No jobs yet" in saywright("jobs").out
        job = stored(saywright, notes)
        assert f"{job}" in saywright("jobs").out
        assert ["H-1042"] == [row["serial"] for row in json.loads(saywright("jobs", "--json").out)]

    def test_jobs_tell_what_was_not_heard_to_its_end(self, saywright: Saywright, notes: Path) -> None:
        """A recording that was cut off is told beside its job, in the JSON too."""
        job = stored(saywright, notes)
        assert [0] == [row["unheard"] for row in json.loads(saywright("jobs", "--json").out)]
        with closing(SqliteStore(notes.parent / "data")) as store:
            cut = AudioAdded(sha256="a" * 64, name="cut.wav")
            at = len(store.events(job))
            store.append(job, [cut], at=datetime.now(UTC), actor="Ada", after_seq=at)
        assert "1 recording not heard to the end" in " ".join(saywright("jobs").out.split())
        assert [1] == [row["unheard"] for row in json.loads(saywright("jobs", "--json").out)]

    def test_history(self, saywright: Saywright, notes: Path) -> None:
        """Two visits of one item stand side by side, whatever the case of its serial number."""
        stored(saywright, notes)
        stored(saywright, notes)
        told = json.loads(saywright("history", "h-1042", "--json").out)
        visits, courses = told["visits"], told["courses"]
        assert [(2, False)] * 2 == [(len(one["points"]), one["changes"][0]["real"]) for one in courses]
        assert [["18.42 mm", "128"]] * 2 == [[r["as_found"] for r in visit["readings"]] for visit in visits]
        table = saywright("history", "H-1042").out
        assert 4 == table.count("18.42 mm")  # two lines, and once each in the comparison
        assert ": the same." in table
        assert 5 == saywright("history", "X-1").code

    def test_verify(self, saywright: Saywright, notes: Path, tmp_path: Path) -> None:
        """An untouched log is whole; an altered one is found, in JSON too, with exit code 4."""
        job = stored(saywright, notes)
        assert (0, None) == (
            saywright("verify").code,
            json.loads(saywright("verify", "--json").out)[0]["fault"],
        )
        with closing(sqlite3.connect(tmp_path / "data" / "log.sqlite3")) as connection:
            connection.execute("DROP TRIGGER event_no_update")
            connection.execute("UPDATE event SET actor = 'Eve' WHERE seq = 2")
            connection.commit()
        ran = saywright("verify", job, "--json")
        assert (4, "event 2 was altered") == (ran.code, json.loads(ran.out)[0]["fault"])

    def test_verify_finds_an_altered_file(self, saywright: Saywright, notes: Path, tmp_path: Path) -> None:
        """A picture changed behind the log's back is found, with the event that names it."""
        job = stored(saywright, notes)
        Image.effect_noise((80, 60), 90).convert("RGB").save(tmp_path / "a.jpg")
        saywright("photos", "add", job, tmp_path / "a.jpg")
        (kept,) = (path for path in (tmp_path / "data" / "media").rglob("*") if path.is_file())
        kept.write_bytes(b"another picture")
        ran = saywright("verify", job)
        assert 4 == ran.code
        assert "the file was altered, named by event 8" in ran.out

    def test_sheet_check(self, saywright: Saywright, tmp_path: Path) -> None:
        """Every fault is printed with its line; the exit code is 2."""
        path = tmp_path / "bad.toml"
        path.write_text(
            '[sheet]\nid = "x"\n\n[[component]]\nid = "a"\ncount = 0\n\n[[component]]\nid = "a"\n'
        )
        ran = saywright("sheet", "check", path, "--json")
        faults = json.loads(ran.out)
        assert 2 == ran.code
        assert len(faults) >= 2
        assert all(fault["key"] for fault in faults)
        assert 0 == saywright("sheet", "check", SHEET).code

    def test_models(self, saywright: Saywright) -> None:
        """The models known are listed; an unknown one is one line."""
        assert json.loads(saywright("models", "list", "--json").out)
        assert 3 == saywright("models", "get", "no-such-model").code

    def test_schema(self, saywright: Saywright) -> None:
        """The schema printed is the record's."""
        assert json_schema() == json.loads(saywright("schema").out)


def test_marker_card_is_written_and_never_elsewhere(saywright, tmp_path):
    """`marker` writes a PDF where it is told, and says in one line where it cannot."""
    ran = saywright("marker", "--out", "card.pdf")
    assert 0 == ran.code
    assert (tmp_path / "card.pdf").read_bytes().startswith(b"%PDF-1.4")
    assert "110.00 mm" in ran.err
    ran = saywright("marker", "--out", "card.pdf/card.pdf")
    told = "saywright: card.pdf/card.pdf: the file cannot be written (File exists). Name another place\n"
    assert (4, told) == (ran.code, ran.err)
