"""A job to lay on the desk: heard in two hearings, with pictures, questions and hostile names."""

from __future__ import annotations

import io
import wave
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from decimal import Decimal

from PIL import Image, ImageDraw

from saywright.flags import FlagKind, flag
from saywright.hearing.words import Hypothesis, Utterance, Word
from saywright.record import events as ev
from saywright.record.types import PhotoChecks
from saywright.sheets.model import Action, Caution, Characteristic, Component, Condition, Sheet
from saywright.store.protocol import Store
from saywright.understanding import statements as said

START = datetime(2026, 3, 14, 9, 30, tzinfo=UTC)
HOSTILE = "<script>alert('bowl')</script>\"'&"
JOB = "20260314-1"


@dataclass
class Minutes:
    """A clock that goes on by a minute each time it is read."""

    now: datetime = START

    def __call__(self) -> datetime:
        """The time, UTC."""
        self.now += timedelta(minutes=1)
        return self.now


def sheet() -> Sheet:
    """A sheet with limits, sizes, a setting, a pair and a part that is renewed."""
    height = Characteristic(
        id="height",
        names=("height",),
        unit="mm",
        lower=Decimal("18.0"),
        upper=Decimal("18.8"),
        when=("as_found",),
    )
    size = Characteristic(id="size", names=("size",), allowed=(Decimal(125), Decimal(128)))
    turns = Characteristic(
        id="turns_out", names=("turns out",), unit="turn", upper=Decimal("2.5"), restore=True
    )
    pad = Characteristic(id="thickness", names=("thickness",), unit="mm", lower=Decimal("3.8"))
    return Sheet(
        id="carburetor",
        title="Single-float outboard carburetor",
        revision="B",
        component=(
            Component(id="float", names=("float",), characteristic=(height,)),
            Component(id="main_jet", names=("main jet",), characteristic=(size,)),
            Component(id="air_screw", names=("air screw",), characteristic=(turns,)),
            Component(id="pad", names=("pad",), count=2, positions=("left", "right"), characteristic=(pad,)),
            Component(id="bowl_gasket", names=("bowl gasket",), renew=True),
        ),
        condition=(
            Condition(id="scored", names=("scored",)),
            Condition(id="clean", names=("clean",), good=True),
        ),
        action=(Action(id="clean", names=("clean",)), Action(id="order", names=("order",), order=True)),
        caution=(Caution(when="compressed air", text="Eye protection on"),),
    )


def tone_wav(seconds: float = 60.0) -> bytes:
    """A WAV file, 16 kHz mono, of silence."""
    buffer = io.BytesIO()
    with wave.open(buffer, "wb") as wav:
        wav.setnchannels(1)
        wav.setsampwidth(2)
        wav.setframerate(16_000)
        wav.writeframes(bytes(2 * int(16_000 * seconds)))
    return buffer.getvalue()


def picture(colour: tuple[int, int, int] = (181, 143, 74), format_name: str = "JPEG") -> bytes:
    """A picture of a disc, 640 × 480 px."""
    image = Image.new("RGB", (640, 480), (96, 104, 110))
    ImageDraw.Draw(image).ellipse((200, 120, 440, 360), fill=colour)
    buffer = io.BytesIO()
    image.save(buffer, format_name)
    return buffer.getvalue()


def heard(text: str, start_s: float, media: str, *others: tuple[str, float]) -> Utterance:
    """An utterance in a recording, two seconds long."""
    first = 1.0 - sum(share for _, share in others)
    hypotheses = tuple(
        Hypothesis(words=tuple(Word(text=word) for word in words.split()), probability=share)
        for words, share in ((text, first), *others)
    )
    return Utterance(
        hypotheses=hypotheses, start_s=start_s, end_s=start_s + 2, listener="scripted", media=media
    )


def script(media: str) -> list[tuple[Utterance, said.Statement]]:
    """What was said, and how it was understood; ids and event numbers are filled in by `fill`."""
    at: said.Stage = "as_found"
    return [
        (
            heard(
                "float height is eighteen point four two",
                4,
                media,
                ("float height is eighteen point four", 0.3),
            ),
            said.Reading(
                id="s1",
                stage=at,
                heard="float height is eighteen point four two",
                component="float",
                characteristic="height",
                value="18.42",
                unit="mm",
                in_sheet_unit="18.42",
                start_s=4,
                end_s=6,
                flags=(flag(FlagKind.UNIT_FROM_SHEET), flag(FlagKind.HEARINGS_DISAGREE, "18.42 or 18.4")),
            ),
        ),
        (
            heard("main jet is a one thirty five", 9, media),
            said.Reading(
                id="s2",
                stage=at,
                heard="main jet is a one thirty five",
                component="main_jet",
                characteristic="size",
                value="135",
                unit="1",
                in_sheet_unit="135",
                start_s=9,
                end_s=11,
            ),
        ),
        (
            heard("slot badly scored", 13, media),
            said.ConditionNote(
                id="s3",
                stage=at,
                heard="slot badly scored",
                component="main_jet",
                condition="scored",
                severity="severe",
                start_s=13,
                end_s=15,
                flags=(flag(FlagKind.PART_FROM_CONTEXT, "main jet"),),
            ),
        ),
        (
            heard("photo of that", 17, media),
            said.PhotoMark(
                id="s4",
                stage=at,
                heard="photo of that",
                component="main_jet",
                conditions=("scored",),
                start_s=17,
                end_s=18,
            ),
        ),
        (
            heard("bowl gasket out", 20, media),
            said.Movement(
                id="s5",
                stage=at,
                heard="bowl gasket out",
                component="bowl_gasket",
                count=1,
                movement="removed",
                start_s=20,
                end_s=21,
            ),
        ),
        (
            heard("it's about eighteen something", 24, media),
            said.Unclear(
                id="s6",
                stage=at,
                heard="it's about eighteen something",
                reason="a number with no part",
                start_s=24,
                end_s=26,
            ),
        ),
        (
            heard("order one of those", 30, media),
            said.ActionNote(
                id="s7",
                stage=at,
                heard="order one of those",
                component="main_jet",
                action="order",
                status="proposed",
                quantity=1,
                start_s=30,
                end_s=31,
            ),
        ),
        (
            heard("the tide is out", 40, media),
            said.Remark(id="s8", stage=at, heard=f"the tide is out {HOSTILE}", start_s=40, end_s=41),
        ),
        (
            heard("serial ends four seven", 44, media),
            said.Identifier(
                id="s9",
                stage=at,
                heard="serial ends four seven",
                identifier="stamp",
                value="47",
                component="main_jet",
                start_s=44,
                end_s=46,
            ),
        ),
    ]


def fill(store: Store, clock: Callable[[], datetime]) -> None:
    """Append the whole job."""
    seq = 0

    def keep(*payloads: ev.Payload, actor: str = "saywright") -> None:
        nonlocal seq
        seq = store.append(JOB, payloads, at=clock(), actor=actor, after_seq=seq)[-1].seq

    media = store.media.put_bytes(tone_wav())
    opened = ev.JobOpened(
        job=JOB,
        title="Carburetor off the harbour launch",
        sheet=sheet(),
        item="Old outboard, two-stroke",
        serial="HB-2047",
        customer=HOSTILE,
    )
    keep(opened, actor="technician")
    keep(ev.AudioAdded(sha256=media, name="bench.wav", duration_s=60.0))
    for utterance, statement in script(media):
        keep(ev.Heard(utterance=utterance))
        keep(ev.Understood(heard=seq, statements=(statement.model_copy(update={"utterance": seq}),)))
    for number, name in enumerate(("jet.jpg", f"{HOSTILE}.jpg"), start=1):
        sha256 = store.media.put_bytes(picture((181, 143, 60 * number)))
        keep(
            ev.PhotoAdded(
                photo=f"p{number}", sha256=sha256, name=name, checks=PhotoChecks(blurred=number == 2)
            )
        )


def many_asking(store: Store, clock: Callable[[], datetime], number: int, job: str = "20260314-2") -> str:
    """A job with *number* readings of the float, each waiting for a person; its id."""
    opened = ev.JobOpened(job=job, title="Forty floats", sheet=sheet(), serial="HB-40")
    seq = store.append(job, [opened], at=clock(), actor="technician", after_seq=0)[-1].seq
    payloads: list[ev.Payload] = []
    for place in range(number):
        value = f"18.{place % 80:02d}"
        utterance = heard(f"float height {value}", 4.0 * place, "0" * 64).model_copy(update={"media": None})
        payloads.append(ev.Heard(utterance=utterance))
        reading = said.Reading(
            id=f"s{place + 1}",
            stage="as_found",
            heard=f"float height {value}",
            component="float",
            characteristic="height",
            value=value,
            unit="mm",
            in_sheet_unit=value,
            start_s=4.0 * place,
            end_s=4.0 * place + 2,
            utterance=seq + len(payloads),
            flags=(flag(FlagKind.HEARINGS_DISAGREE, f"{value} or 18.8"),),
        )
        payloads.append(ev.Understood(heard=seq + len(payloads), statements=(reading,)))
    store.append(job, payloads, at=clock(), actor="saywright", after_seq=seq)
    return job
