"""`photos check`, `measure` and `debris`: what an image file is good for, and millimetres from it."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Any

import click

from saywright.bench import Bench
from saywright.cli.common import (
    by_option,
    json_option,
    note,
    now,
    print_json,
    table,
    user_store,
    who,
    write_file,
)
from saywright.record.events import PhotoMeasured
from saywright.wiring.lenses import calibrate_files, load_lens, save_lens
from saywright.wiring.measuring import PLACES, ScaleBy, Shown, debris_of_file, debris_rows, measure_file
from saywright.wiring.pictures import check_file, faults_told, oddities_told

FORMS = {"compact": "compact", "fibre": "fibre", "fibre_wide": "fibre, width not resolved"}


class _Place(click.ParamType):  # type: ignore[type-arg,unused-ignore]
    name = "X,Y"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        if isinstance(value, tuple):
            return value
        try:
            x, y = (float(part) for part in str(value).split(","))
        except ValueError:
            self.fail(f"'{value}' is no place; give it in pixels as X,Y", param, ctx)
        return x, y


PLACE = _Place()


def scale_options(command: Callable[..., None]) -> Callable[..., None]:
    """The options that give a scale, handed on as `by`."""

    @click.option(
        "--across", type=float, metavar="MM", help="Between the upper crosses of the card, measured."
    )
    @click.option("--down", type=float, metavar="MM", help="Between the left crosses of the card, measured.")
    @click.option("--from", "start", type=PLACE, help="One end of a known distance, in pixels.")
    @click.option("--to", "end", type=PLACE, help="Its other end.")
    @click.option("--known", type=float, metavar="MM", help="The known distance.")
    @click.option(
        "--lens", type=click.Path(path_type=Path, dir_okay=False), help="Profile made by 'photos calibrate'."
    )
    @wraps(command)
    def wrapped(
        *args: Any,
        across: float | None,
        down: float | None,
        start: tuple[float, float] | None,
        end: tuple[float, float] | None,
        known: float | None,
        lens: Path | None,
        **rest: Any,
    ) -> None:
        given = [value is not None for value in (start, end, known)]
        if any(given) and not all(given):
            raise click.UsageError("A known distance needs --from, --to and --known.")
        if any(given) and (across is not None or down is not None):
            raise click.UsageError("Give the card's crosses or a known distance, not both.")
        by = ScaleBy(
            across_mm=across,
            down_mm=down,
            start_px=start,
            end_px=end,
            known_mm=known,
            lens=None if lens is None else load_lens(lens),
        )
        command(*args, by=by, **rest)

    return wrapped


@click.command()
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option(
    "--out",
    type=click.Path(path_type=Path, dir_okay=False),
    default=Path("lens.json"),
    show_default=True,
    help="Where to keep the profile.",
)
def calibrate(files: tuple[Path, ...], out: Path) -> None:
    """What the lens bends, from five and more pictures of the marker card, as a profile for measuring.

    All with one camera at one zoom, the card filling the picture, leaning another way each time.

    \b
    Example:
      saywright photos calibrate card-*.jpg --out phone.json
    """
    found = calibrate_files(files)
    save_lens(out, found)
    note(f"{out}: {found.views} pictures, corners {found.rms_px:.2f} pixels off after the fit")


@click.command()
@click.argument("kind", type=click.Choice(tuple(PLACES)))
@click.argument("file", type=click.Path(path_type=Path))
@click.argument("places", nargs=-1, required=True, type=PLACE)
@scale_options
@click.option("--job", metavar="JOB", help="FILE is then the id of a picture of this job.")
@by_option
@json_option
def measure(
    *,
    kind: str,
    file: Path,
    places: tuple[tuple[float, float], ...],
    by: ScaleBy,
    job: str | None,
    actor: str | None,
    as_json: bool,
) -> None:
    """A distance, a circle or an angle in a picture with a scale; places in pixels as X,Y.

    A distance needs its ends; a circle its middle and a place on its rim; an angle an arm, the corner, the
    other arm. The value is a candidate: with --job it stays with the picture, and is no reading.

    \b
    Example:
      saywright photos measure circle jet.jpg 1460,1220 1490,1220 --across 110.1 --down 109.9
    """
    shown = Shown(kind, places, by)
    if job is not None:
        _keep(job, str(file), shown, who(actor))
        return
    found = measure_file(file, shown)
    unit = "deg" if kind == "angle" else "mm"
    if as_json:
        print_json({"kind": kind, "value": found.value, "u": found.u, "unit": unit, "share": found.share})
        return
    digits = 1 if kind == "angle" else 3
    note_of = f"; {100 * found.share:.0f} % of the rim found" if kind == "circle" else ""
    click.echo(f"{kind} {found.value:.{digits}f} {unit} ± {2 * found.u:.{digits}f} {unit} (k = 2){note_of}")


def _keep(job: str, photo: str, shown: Shown, actor: str) -> None:
    with user_store() as store:
        event = Bench.resume(store, job, clock=now).measure_photo(photo, shown, actor=actor)
    kept = event.payload
    assert isinstance(kept, PhotoMeasured)
    found = kept.measurement
    note(f"{found.id} kept with picture {kept.photo}: {found.kind} {found.value} {found.unit}, u = {found.u}")


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.argument("corners", nargs=-1, type=PLACE)
@click.option("--job", metavar="JOB", help="FILE is then the id of a picture of this job.")
@by_option
@json_option
def check(
    *,
    file: Path,
    corners: tuple[tuple[float, float], ...],
    job: str | None,
    actor: str | None,
    as_json: bool,
) -> None:
    """Focus, motion, light and nearness of the part: where it is seen, or in the box between two corners.

    Corners in pixels as X,Y, across from each other. With --job the picture of the job is checked again, and
    carries what was found in place of what was before.

    \b
    Example:
      saywright photos check p3 1200,800 2600,2100 --job 20260301-1
    """
    if len(corners) not in (0, 2):
        raise click.UsageError("Give two corners of the part, or none.")
    if job is not None:
        with user_store() as store:
            bench = Bench.resume(store, job, clock=now)
            bench.check_photo(str(file), corners, actor=who(actor))
            found = bench.photo(str(file)).checks
    else:
        found = check_file(file, corners)
    assert found is not None
    if as_json:
        print_json(found.model_dump(mode="json", exclude={"moved_deg"}))
        return
    left, top, width, height = (100 * side for side in found.region or (0.0, 0.0, 1.0, 1.0))
    click.echo(f"looked at {left:.0f} to {left + width:.0f} % across, {top:.0f} to {top + height:.0f} % down")
    unseen = "; no detail there to tell focus by" if found.sharpness is None else ""
    click.echo(("; ".join(faults_told(found)) or "nothing wrong with it") + unseen)
    for odd in oddities_told(found):
        click.echo(odd)


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@scale_options
@click.option(
    "--overlay", "place", type=click.Path(path_type=Path, dir_okay=False), help="Draw them, a JPEG."
)
@json_option
def debris(file: Path, by: ScaleBy, place: Path | None, as_json: bool) -> None:
    """Particles on a cloth, a strainer or a filter: counted, sized, classed by ISO 16232.

    With the card only its window is searched. What has too few pixels is counted and not sized.

    \b
    Example:
      saywright photos debris cloth.jpg --across 110.1 --down 109.9 --overlay found.jpg
    """
    found = debris_of_file(file, by)
    result = found.debris
    if place is not None:
        write_file(place, found.overlay_jpeg)
    rows = debris_rows(result)
    if as_json:
        counts = [{"class": c, "compact": n, "fibres": f} for c, n, f in result.counts()]
        head = {"resolved_from_um": result.resolved_from_um, "not_resolved": result.not_resolved}
        print_json({**head, "um_per_px": result.um_per_px, "classes": counts, "particles": rows})
        return
    if rows:
        columns = ("No.", "Class", "Max Feret µm", "Min Feret µm", "Area µm²", "Form")
        keys = ("number", "class", "feret_max_um", "feret_min_um", "area_um2")
        click.echo(table(columns, [(*(_shown(row[k]) for k in keys), FORMS[row["form"]]) for row in rows]))
    shown = [(c, str(n), str(f)) for c, n, f in result.counts()]
    click.echo(table(("Class", "Particles", "Fibres"), shown))
    smaller = f"{result.not_resolved} smaller spots counted, not sized"
    note(f"resolved from {result.resolved_from_um:.0f} µm; {smaller}")


def _shown(value: float | str) -> str:
    return value if isinstance(value, str) else f"{value:.0f}"
