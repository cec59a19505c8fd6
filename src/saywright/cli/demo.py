"""`demo`: the whole job on the recording and the pictures that ship, compared with what should come out."""

from __future__ import annotations

import json
import time
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import click

from saywright.bench import Bench
from saywright.cli.common import bar, note, now, table, write_file
from saywright.cli.ears import Choice, listener_options, make_listener
from saywright.cli.photos import expanded
from saywright.errors import InputError, NotFoundError, RefusedError
from saywright.record.events import AudioAdded
from saywright.scoring import Result, Score, Silent, compare, score_photos
from saywright.sheets.load import load_sheet
from saywright.store.eventlog import SqliteStore

_SHEET = "outboard-float-carburetor"
_EXPECTED = "expected.json"
_TO_DO = "Name a folder that holds what should come out, as demo_audio and demo_images do"
_SOUNDS = {".opus", ".ogg", ".wav", ".flac", ".mp3", ".m4a"}


@dataclass(frozen=True)
class _Outcome:
    """What the demo came to."""

    result: Result
    photos: Score
    heard_s: float  # time that hearing and understanding took
    whole_s: float  # time from the first sample to the report
    audio_s: float


@click.command()
@click.option("--audio", type=click.Path(path_type=Path), help="Folder with recordings and expected.json.")
@click.option("--images", type=click.Path(path_type=Path), help="Folder with pictures and expected.json.")
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("demo_output"),
    show_default=True,
    help="Folder for the report and the store.",
)
@listener_options
def demo(audio: Path | None, images: Path | None, out: Path, **asked: str | None) -> None:
    """The whole job on the recording and the pictures that ship.

    Ends with the score against the expected record; fails on a silent error.

    \b
    Example:
      saywright demo --out demo_output
    """
    audio = _folder(audio, "demo_audio")
    images = _folder(images, "demo_images")
    expected, pictures = _expected(audio), _expected(images)
    started = time.monotonic()
    store = SqliteStore(out / "data")
    try:
        sheet = load_sheet(str(expected.get("sheet", _SHEET)))
        listener = make_listener(sheet, Choice(**asked))
        bench = Bench.open(store, sheet, clock=now, listener=listener, **_job(expected))
        heard_s = _hear(bench, audio)
        _look(bench, images)
        files = _report(bench, out)
        record = bench.record()
        click.echo(bench.export("text").decode(), nl=False)
        lengths = {
            e.payload.sha256: e.payload.duration_s or 0.0
            for e in bench.events()
            if isinstance(e.payload, AudioAdded)
        }
        outcome = _Outcome(
            compare(record, expected.get("record", expected)),
            score_photos(record.photos, pictures),
            heard_s,
            time.monotonic() - started,
            sum(lengths.values()),
        )
    finally:
        store.close()
    click.echo(_score_text(outcome))
    click.echo("\nFiles\n" + "\n".join(f"  {path}" for path in files))
    if outcome.result.silent:
        count = len(outcome.result.silent)
        raise RefusedError(
            f"{count} silent error{'s' if count != 1 else ''}", where="demo", to_do="See above"
        )


def _folder(given: Path | None, name: str) -> Path:
    """The folder named, else the one beside us, else the one of the checkout this program runs from."""
    places = [given] if given else [Path(name), Path(__file__).resolve().parents[3] / name]
    for place in places:
        if place.is_dir():
            return place
    raise NotFoundError(
        "no such folder",
        where=str(places[0]),
        to_do=f"Run it in a checkout of Saywright, or name the folder with --{name.removeprefix('demo_')}",
    )


def _expected(folder: Path) -> dict[str, Any]:
    place = folder / _EXPECTED
    try:
        data = json.loads(place.read_text(encoding="utf-8"))
    except OSError as error:
        raise InputError(f"cannot be read ({error.strerror})", where=str(place), to_do=_TO_DO) from None
    except ValueError as error:
        raise InputError(f"is no JSON ({error})", where=str(place), to_do=_TO_DO) from None
    if not isinstance(data, dict):
        raise InputError("is no JSON object", where=str(place), to_do=_TO_DO)
    return data


def _job(expected: Mapping[str, Any]) -> dict[str, str]:
    job = expected.get("job", {})
    return {key: job[key] for key in ("title", "item", "customer") if job.get(key)}


def _hear(bench: Bench, folder: Path) -> float:
    started = time.monotonic()
    for path in sorted(path for path in folder.iterdir() if path.suffix.lower() in _SOUNDS):
        with bar(f"Hearing {path.name}") as step:
            heard = bench.hear_file(path, progress=step)
        note(f"Heard {path.name}: {len(heard)} utterances")
    return time.monotonic() - started


def _look(bench: Bench, folder: Path) -> None:
    with bar("Taking in pictures") as step:
        added = bench.add_photos(expanded((folder,)), progress=step)
    bench.match_photos()
    note(f"Took in {len(added)} pictures")


def _report(bench: Bench, out: Path) -> list[Path]:
    with bar("Setting the report") as step:
        step(0, None)
        made = bench.report()
    files = [write_file(out / f"report.{name}", content) for name, content in made.items()]
    for form, name in (("json", "record.json"), ("csv", "readings.csv"), ("parts", "parts.csv")):
        files.append(write_file(out / name, bench.export(form)))
    return files


def _score_text(outcome: _Outcome) -> str:
    result = outcome.result
    rows = [_row(score) for score in (*result.scores, outcome.photos)]
    told = [
        "\nAgainst the expected record",
        table(("Kind", "Expected", "Found", "Right", "Precision", "Recall", "F1"), rows),
        "",
        f"Silent errors: {len(result.silent)}",
        *(f"  {_silent(one)}" for one in result.silent),
        f"Right readings that ask: {result.right_that_ask} of {result.right_readings}"
        f" ({result.ask_share:.0%})",
        f"Time: {outcome.heard_s:.0f} s to hear, {outcome.whole_s:.0f} s in all, "
        f"for {outcome.audio_s:.0f} s of audio",
        *_differences(result.scores),
        *_differences((outcome.photos,)),
    ]
    return "\n".join(told)


def _row(score: Score) -> tuple[str, ...]:
    return (
        score.kind,
        str(score.expected),
        str(score.found),
        str(score.right),
        f"{score.precision:.3f}",
        f"{score.recall:.3f}",
        f"{score.f1:.3f}",
    )


def _silent(one: Silent) -> str:
    which = f" {one.which}" if one.which else ""
    return f"{one.id} {one.component}{which} {one.characteristic} {one.value} {one.unit}: “{one.heard}”"


def _differences(scores: tuple[Score, ...]) -> list[str]:
    lines = []
    for score in scores:
        lines += [f"  {score.kind}, missed: {_words(key)}" for key in score.missed]
        lines += [f"  {score.kind}, not expected: {_words(key)}" for key in score.surplus]
    return ["", "What differs", *lines] if lines else []


def _words(key: tuple[Any, ...]) -> str:
    return ", ".join("–" if part is None else str(part) for part in key)
