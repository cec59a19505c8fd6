"""Bench talk, made: trades of its own for each list, readings in every spoken form, talk without numbers.

Pure and seeded. No trade, part or sentence frame of one list is in another, and none is of a sheet that
ships or of tests/. Values are drawn at random; nothing here is a fact about any machine.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from saywright.hearing.spoken import ONES, TENS, say_decimal, say_digits, say_grouped, say_integer


@dataclass(frozen=True, slots=True)
class Trade:
    """What is talked about at one bench."""

    parts: tuple[str, ...]
    sizes: tuple[str, ...]  # what is measured on a part
    faults: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """One utterance as said."""

    words: str
    numbers: tuple[str, ...]  # its number words, in order: what must be heard
    trade: int  # which of its list's trades


def _trade(parts: str, sizes: str, faults: str) -> Trade:
    """A trade out of lists with commas."""
    return Trade(*(tuple(words.split(",")) for words in (parts, sizes, faults)))


TRADES: dict[str, tuple[Trade, ...]] = {
    "train": (
        _trade(
            "impeller,wear ring,shaft sleeve,volute,gland,packing,coupling,check valve,foot valve",
            "clearance,runout,diameter,depth,flow,pressure",
            "pitted,scored,corroded,cavitated,leaking",
        ),
        _trade(
            "bobbin case,hook,feed dog,needle bar,presser foot,tension spring,take up lever",
            "height,gap,timing,spring tension,stitch length",
            "bent,burred,loose,worn,rusty",
        ),
        _trade(
            "crown wheel,pinion,bearing cup,shim,preload spacer,half shaft,oil seal",
            "backlash,preload,end float,thickness,turning torque",
            "chipped,blued,pitted,cracked,dry",
        ),
        _trade(
            "reed valve,spark plug,flywheel,points,coil,crank seal,big end,piston ring",
            "gap,air gap,end gap,resistance,compression,dwell",
            "fouled,glazed,broken,sooted,stuck",
        ),
        _trade(
            "injector,nozzle,delivery valve,plunger,barrel,governor weight,lift pump",
            "opening pressure,lift,spray angle,leak off,travel",
            "dribbling,seized,scuffed,carboned up,wet",
        ),
        _trade(
            "armature,commutator,brush,field coil,drive end bracket,rotor,slip ring",
            "length,resistance,diameter,spring force,undercut depth",
            "shorted,grooved,burnt,open,oily",
        ),
        _trade(
            "spindle,quill,gib,lead screw,nut,ball race,drawbar,belt",
            "runout,play,backlash,tension,taper,speed",
            "slack,notchy,frayed,tight,sticky",
        ),
    ),
    "choose": (
        _trade(
            "diaphragm,pushrod,slave piston,return spring,bleed nipple,reservoir,banjo bolt",
            "stroke,bore,free length,travel,torque",
            "perished,swollen,weeping,scratched",
        ),
        _trade(
            "derailleur hanger,cassette,chain,bottom bracket,headset,spoke,rim,axle nut",
            "stretch,dish,pitch,play,tension",
            "twisted,cracked,gritty,buckled",
        ),
    ),
    "report": (
        _trade(
            "thermostat,heating element,group seal,solenoid,boiler gasket,steam wand,burr",
            "temperature,resistance,seal depth,flow rate,spacing",
            "scaled up,furred,blocked,brittle",
        ),
        _trade(
            "mainspring,balance staff,pallet fork,escape wheel,click,barrel arbor,crown gear",
            "end shake,amplitude,pivot diameter,lift angle,rate",
            "gummed up,magnetised,tired,rusted",
        ),
    ),
    "again": (
        _trade(
            "clutch drum,brake band,chain sprocket,oiler worm,starter pawl,recoil cord,air filter",
            "lining thickness,chain pitch,cord length,idle speed,free play",
            "stretched,clogged,polished,frozen up",
        ),
        _trade(
            "cylinder valve,first stage,demand lever,mouthpiece,hose swivel,dust cap,sinter filter",
            "supply pressure,cracking effort,lever height,hose length",
            "green,hardened,creeping,torn",
        ),
    ),
}
READ: dict[str, tuple[str, ...]] = {
    "train": (
        "{part} {size} {value}",
        "{part} {size} is {value}",
        "{value} on the {part}",
        "i make that {value} {unit}",
        "that {part} comes out at {value} {unit}",
        "{size} {value} {unit}",
        "{part} {value}",
        "no call it {value}",
        "right so the {size} on this {part} is {value} {unit}",
        "{value}",
    ),
    "choose": (
        "{part} {size} reads {value}",
        "got {value} {unit} on the {part}",
        "the {size} here is {value} {unit} near enough",
        "{size} of the {part} {value}",
        "{part} at {value} {unit}",
    ),
    "report": (
        "{part} {size} measures {value} {unit}",
        "on the {part} i see {value}",
        "{part} says {value}",
        "we have {value} {unit} for the {size}",
        "{value} {unit} that is the {part}",
    ),
    "again": (
        "write down {value} {unit} for the {part}",
        "{part} {size} gives {value}",
        "the {part} shows {value} {unit}",
        "{size} now {value} {unit}",
        "that leaves {value} at the {part}",
    ),
}
TALK: dict[str, tuple[str, ...]] = {
    "train": (
        "the {part} is {fault}",
        "{part} out",
        "the {part} is a bit {fault} but it will clean up",
        "new {part} going in",
        "taking a picture of the {part}",
        "i would change that {part}",
        "no {fault} on the {part}",
        "order a {part} please",
        "{part} back on",
    ),
    "choose": (
        "that {part} looks {fault}",
        "off comes the {part}",
        "give the {part} a clean",
        "shot of the {part}",
    ),
    "report": (
        "somebody left the {part} {fault}",
        "lift the {part} away",
        "{part} wants renewing",
        "the {part} is fine",
    ),
    "again": (
        "found the {part} {fault}",
        "putting the {part} aside",
        "the {part} can stay",
        "have a look at this {part}",
    ),
}
POINT = ("point",)
POINTS = ("point", "point", "dot", "decimal")  # as people say it; point for half of them
UNITS = ("millimeters", "thou", "inches", "bar", "volts", "newton meters", "ohms", "degrees", "grams", "")
_FRACTIONS = ("half", "quarter", "three quarters", "eighth", "three eighths", "five eighths")
_NUMBER_WORDS = frozenset(
    [*ONES, *TENS[2:], "oh", "point", "hundred", "thousand", "half", "quarter", "quarters"]
)
_NUMBER_MORE = frozenset(["eighth", "eighths", "niner", "double", "sixteenths", "sixteenth"])


def numbers_in(words: str) -> tuple[str, ...]:
    """The number words of *words* in order, "oh" as zero."""
    wanted = _NUMBER_WORDS | _NUMBER_MORE
    return tuple("zero" if word == "oh" else word for word in words.split() if word in wanted)


def lines(
    list_name: str, seed: int, count: int, *, talk: float = 0.25, points: Sequence[str] = POINT
) -> Iterator[Line]:
    """*count* different lines of a list; *talk* is the share without a reading, *points* the words for it."""
    rng = random.Random(f"{list_name}/{seed}")
    seen: set[str] = set()
    while len(seen) < count:
        number = rng.randrange(len(TRADES[list_name]))
        trade = TRADES[list_name][number]
        frame = rng.choice(TALK[list_name] if rng.random() < talk else READ[list_name])
        words = frame.format(
            part=rng.choice(trade.parts),
            size=rng.choice(trade.sizes),
            fault=rng.choice(trade.faults),
            value=value(rng, points),
            unit=rng.choice(UNITS),
        )
        words = " ".join(words.split())
        if words not in seen:
            seen.add(words)
            yield Line(words, numbers_in(words), number)


def prompt(list_name: str, trade: int, rng: random.Random, count: int = 5) -> str:
    """Readings of a bench as an example to the listener, in the form that `hearing.vocabulary` gives."""
    bench = TRADES[list_name][trade]
    parts = rng.sample(bench.parts, min(count, len(bench.parts)))
    return " ".join(f"{part} {rng.choice(bench.sizes)} {value(rng)}." for part in parts)


def value(rng: random.Random, points: Sequence[str] = POINT) -> str:
    """A number as somebody may say it: decimals, groups, digits, fractions, plain."""
    form = rng.random()
    if form < 0.45:
        said = _decimal(rng)
        return said if points == POINT else said.replace("point", rng.choice(points))
    if form < 0.6:
        return say_grouped(rng.randint(100, 999) if rng.random() < 0.8 else rng.randint(1001, 9999))
    if form < 0.7:
        return say_digits(str(rng.randint(100, 9999))).replace("zero", rng.choice(("zero", "oh")))
    if form < 0.8:
        return _mixed(rng)
    return say_integer(rng.randint(1, 99) if rng.random() < 0.8 else rng.randint(100, 900))


def _decimal(rng: random.Random) -> str:
    places = rng.choice((1, 2, 2, 2, 3, 3))
    whole = rng.choice((0, rng.randint(1, 9), rng.randint(10, 99), rng.randint(10, 99)))
    text = f"{whole}.{rng.randrange(10**places):0{places}d}"
    said = say_decimal(text)
    if whole == 0 and rng.random() < 0.6:
        said = said.removeprefix("zero ")
    return said.replace("zero", "oh") if rng.random() < 0.5 and "point zero" in said else said


def _mixed(rng: random.Random) -> str:
    fraction = rng.choice(_FRACTIONS)
    article = "" if fraction.startswith(("three", "five")) else "a "
    if rng.random() < 0.25:
        return f"{article}{fraction}"
    return f"{say_integer(rng.randint(1, 12))} and {article}{fraction}"
