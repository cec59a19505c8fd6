"""An invented bench job: the carburetor of an old outboard motor at a harbour workshop."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from io import BytesIO
from typing import Any

from PIL import Image, ImageDraw

from saywright.flags import FlagKind, flag
from saywright.hearing.words import typed
from saywright.record import events as ev
from saywright.record.chain import link
from saywright.record.types import PhotoChecks
from saywright.sheets.model import Action, Caution, Characteristic, Component, Condition, Instrument, Sheet
from saywright.understanding import statements as said

START = datetime(2026, 3, 14, 9, 30, tzinfo=UTC)


def sheet(**changes: Any) -> Sheet:
    """A sheet with limits, sizes, a setting, a pair, parts that are renewed."""
    base = Sheet(
        id="outboard-float-carburetor",
        title="Single-float outboard carburetor",
        revision="B",
        source="Invented for the demo",
        instrument=(
            Instrument(id="caliper", names=("caliper",), resolution="0.01", max_permissible_error="0.03"),
        ),
        component=_components(),
        condition=(
            Condition(id="chewed", names=("chewed slot", "chewed up")),
            Condition(id="split", names=("split",)),
            Condition(id="gritty", names=("grit in it", "gritty")),
            Condition(id="corroded", names=("corroded",)),
            Condition(id="clean", names=("clean",), good=True),
        ),
        action=(
            Action(id="clean", names=("clean", "cleaned")),
            Action(id="replace", names=("replace", "replaced"), order=True),
            Action(id="order", names=("order", "ordered"), order=True),
            Action(id="inspect", names=("inspect", "inspected")),
        ),
        caution=(
            Caution(id="air", text="Eye protection on; keep the gun below the pressure of the shop rules"),
            Caution(id="fuel", text="No flame and no sparks near the bowl until it is drained and aired"),
        ),
    )
    return base.model_copy(update=changes)


def _components() -> tuple[Component, ...]:
    height = _characteristic(
        "height",
        "float height",
        lower="18.0",
        upper="18.8",
        instrument="caliper",
        when=("as_found", "as_left"),
    )
    mass = _characteristic("mass", "mass", unit="g", upper="9.5", source="Harbour workshop card 7")
    size = _characteristic("size", "size", unit="1", allowed=("125", "128", "130"))
    turns = _characteristic("turns_out", "turns out", unit="turn", lower="1.0", upper="2.5", restore=True)
    pad = _characteristic("thickness", "thickness", nominal="4.0", tolerance="0.2", instrument="caliper")
    sides = {"count": 2, "positions": ("left", "right")}
    return (
        Component(id="float", names=("float",), characteristic=(height, mass)),
        Component(id="main_jet", names=("main jet",), part_number="MJ-128-N", characteristic=(size,)),
        Component(id="air_screw", names=("air screw",), characteristic=(turns,)),
        Component(id="mounting_pad", names=("mounting pad",), characteristic=(pad,), **sides),
        Component(
            id="throttle_shaft",
            names=("throttle shaft",),
            characteristic=(_characteristic("clearance", "clearance", upper="0.12"),),
        ),
        Component(id="body", names=("carburetor body",), characteristic=(_characteristic("bore", "bore"),)),
        Component(id="bowl_gasket", names=("bowl gasket",), renew=True, part_number="BG-19"),
        Component(id="bowl_screw", names=("bowl screw",), count=4),
        Component(id="strainer", names=("fuel strainer",)),
    )


def _characteristic(name: str, spoken: str, **fields: Any) -> Characteristic:
    """In millimetres unless told otherwise."""
    return Characteristic.model_validate({"id": name, "names": (spoken,), "unit": "mm", **fields})


class Log:
    """Builds a chain of events a statement at a time; ten seconds of bench time an utterance."""

    def __init__(self, of: Sheet, **job: Any) -> None:
        self.sheet = of
        self.events: list[ev.Event] = []
        self._number = 0
        self._clock_s = 60.0
        opened: dict[str, Any] = {
            "job": "HW-2026-0314",
            "title": "Carburetor overhaul, twin-cylinder outboard",
            "item": "Outboard motor, 8 hp, carburetor",
            "serial": "0R-44718",
            "customer": "M. Løvås, slip 12",
        }
        self.add(ev.JobOpened(**{**opened, **job}, sheet=of), actor="Ines")

    def add(self, payload: ev.Payload, *, actor: str = "saywright") -> int:
        """Append the payload; its sequence number."""
        after = self.events[-1] if self.events else None
        at = START + timedelta(seconds=10 * len(self.events))
        self.events.append(link(payload, at=at, actor=actor, after=after))
        return self.events[-1].seq

    def say(self, kind: type[said.Said], heard: str, stage: str = "as_found", **fields: Any) -> str:
        """Append what was heard and the one statement made of it; the statement's id."""
        self._number += 1
        self._clock_s += 9.7
        utterance = typed(heard, start_s=self._clock_s).model_copy(update={"listener": "whisper tiny.en"})
        seq = self.add(ev.Heard(utterance=utterance))
        name = f"s{self._number}"
        statement = kind(
            id=name,
            stage=stage,
            heard=heard,
            start_s=self._clock_s,
            end_s=self._clock_s + 2.5,
            utterance=seq,
            **fields,
        )
        self.add(ev.Understood(heard=seq, statements=(statement,)))
        return name

    def read(self, component: str, characteristic: str, value: str, heard: str, **fields: Any) -> str:
        """A reading in the characteristic's own unit unless another is given."""
        known = self.sheet.find(component, characteristic)
        unit = fields.pop("unit", known.unit if known else "1")
        return self.say(
            said.Reading,
            heard,
            component=component,
            characteristic=characteristic,
            value=value,
            unit=unit,
            **fields,
        )


def job_events() -> tuple[ev.Event, ...]:
    """A whole job: strip, measure, photograph, rebuild, correct. Not signed."""
    log = Log(sheet())
    log.add(ev.AudioAdded(sha256="a1" * 32, name="bench.opus", duration_s=412.0), actor="Ines")
    first, jet, marks = _strip(log)
    marks.append(_look(log))
    _rebuild(log)
    _correct(log, first, jet)
    for number, (mark, name) in enumerate(zip(marks, ("gasket", "jet", "strainer"), strict=True), start=1):
        taken = datetime(2026, 3, 14, 9, 41, 7 * number)  # a camera's clock has no zone
        checks = PhotoChecks(sharpness=0.8, exposure=0.5, width_px=400, height_px=300)
        added = ev.PhotoAdded(
            photo=f"p{number}", sha256=photo_hash(number), name=f"{name}.jpg", taken_at=taken, checks=checks
        )
        log.add(added)
        log.add(ev.PhotoPlaced(photo=f"p{number}", mark=mark, confidence=0.93))
    return tuple(log.events)


def _strip(log: Log) -> tuple[str, str, list[str]]:
    """Off with it, and the first readings. Ids of the first height, the jet size and the photo marks."""
    count = (flag(FlagKind.COUNT_FROM_SHEET),)
    log.say(
        said.Movement, "bowl screws out", component="bowl_screw", count=4, movement="removed", flags=count
    )
    gasket = {"component": "bowl_gasket"}
    log.say(said.Movement, "old bowl gasket off", **gasket, count=1, movement="removed", part="old")
    log.say(
        said.ConditionNote, "gasket is split right through", **gasket, condition="split", severity="severe"
    )
    marks = [log.say(said.PhotoMark, "photo of the split gasket", **gasket, conditions=("split",))]
    unit = (flag(FlagKind.UNIT_FROM_SHEET),)
    first = log.read("float", "height", "18.40", "float height eighteen point four zero", flags=unit)
    log.read("float", "height", "18.42", "again eighteen point four two", repeat_of=first, probability=0.97)
    log.read("float", "mass", "9.8", "float weighs nine point eight grams", unit_said="grams")
    jet = log.read("main_jet", "size", "126", "main jet says one two six", probability=0.91)
    log.say(said.ConditionNote, "slot is chewed up", component="main_jet", condition="chewed")
    marks.append(log.say(said.PhotoMark, "photo of the jet", component="main_jet", conditions=("chewed",)))
    log.read("air_screw", "turns_out", "1.5", "air screw one and a half turns out", unit_said="turns")
    return first, jet, marks


def _look(log: Log) -> str:
    """More readings, one of them in doubt, and the strainer. The id of its photo mark."""
    log.read("mounting_pad", "thickness", "4.18", "left pad four point one eight", which="left")
    log.read("mounting_pad", "thickness", "3.72", "right pad three seven two", which="right")
    shaft = ("throttle_shaft", "clearance")
    log.read(*shaft, "4", "shaft clearance four thou", unit="thou", unit_said="thou")
    about = (flag(FlagKind.APPROXIMATE, "about"),)
    log.read(*shaft, "0.13", "or about point one three", approximate=True, probability=0.6, flags=about)
    log.read("body", "bore", "28.31", "bore twenty eight three one")
    strainer = {"component": "strainer"}
    log.say(said.ConditionNote, "grit in the strainer", **strainer, condition="gritty", severity="moderate")
    mark = log.say(said.PhotoMark, "and one of the strainer", **strainer, conditions=("gritty",))
    body = {"component": "body"}
    log.say(said.ConditionNote, "body isn't corroded", **body, condition="corroded", present=False)
    log.say(
        said.Identifier, "stamp on the body reads four four one b", **body, identifier="stamp", value="441B"
    )
    order = {"component": "main_jet", "action": "order", "status": "proposed", "quantity": 1}
    log.say(said.ActionNote, "order a main jet and replace it", **order)
    log.say(said.Remark, "what was the score last night", reason="")
    log.say(said.Remark, "ten millimetre spanner", reason="tool size")
    log.say(said.Unclear, "it's about eighteen something", reason="not understood", component="float")
    return mark


def _rebuild(log: Log) -> None:
    """Back together, one screw short."""
    left = {"stage": "as_left"}
    log.say(
        said.ActionNote, "cleaned the strainer", **left, component="strainer", action="clean", status="done"
    )
    restored = (flag(FlagKind.RESTORED),)
    log.read("air_screw", "turns_out", "1.5", "air screw back where it was", **left, flags=restored)
    log.read("float", "height", "18.55", "float height now eighteen five five", **left)
    new = {"component": "bowl_gasket", "count": 1, "movement": "fitted", "part": "new"}
    log.say(said.Movement, "new bowl gasket on", **left, **new)
    screws = {"component": "bowl_screw", "count": 3, "movement": "fitted"}
    log.say(said.Movement, "three bowl screws in", **left, **screws)


def _correct(log: Log, first: str, jet: str) -> None:
    """What was said wrong at the bench, and what a person put right afterwards."""
    left = {"stage": "as_left"}
    wrong = log.read("float", "mass", "9.3", "float nine point three grams now", **left)
    right = log.read("float", "mass", "9.1", "no make that nine point one", **left)
    log.say(said.Correction, "no make that nine point one", **left, supersedes=(wrong,), by=right)
    radio = log.say(
        said.ConditionNote, "corroded harbour rail", **left, component="body", condition="corroded"
    )
    new = {"value": "128"}
    log.add(ev.ItemCorrected(item=jet, changes=new, why="listened again: one two eight"), actor="Ines")
    log.add(ev.ItemAccepted(item=first), actor="Ines")
    log.add(ev.ItemWithdrawn(item=radio, why="that was the radio"), actor="Ines")
    log.add(
        ev.OpenItemExplained(open_item="off:bowl_screw", why="thread is stripped, screw follows"),
        actor="Ines",
    )


def photo_hash(number: int) -> str:
    """The name under which the sample picture is handed over."""
    return f"{number:064x}"


def pictures() -> dict[str, bytes]:
    """Three small rendered pictures, by SHA-256 name."""
    return {photo_hash(number): _picture(number) for number in (1, 2, 3)}


def _picture(number: int) -> bytes:
    """A brass disc with a slot on a bench; the shade differs by number. JPEG bytes."""
    image = Image.new("RGB", (400, 300 if number != 2 else 520), (96, 98, 102))
    draw = ImageDraw.Draw(image)
    middle = image.height // 2
    draw.ellipse(
        (110, middle - 90, 290, middle + 90), fill=(196, 150 - 20 * number, 70), outline=(40, 36, 30), width=4
    )
    draw.rectangle((120, middle - 10, 280, middle + 10), fill=(50, 46, 40))
    out = BytesIO()
    image.save(out, "JPEG", quality=80)
    return out.getvalue()
