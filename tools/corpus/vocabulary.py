"""What is said at four benches: the things measured and the sentences they come in. Written by hand.

A value is `style low high places`: drawn evenly between the bounds in steps of its last place.
Styles: dec (digits after the point one by one), group (one twenty eight), int, turn (quarters),
thou (halves).
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Thing:
    """Something that is measured at a bench."""

    target: str  # PART.CHARACTERISTIC or PART/WHICH.CHARACTERISTIC, as in tests/cases
    names: tuple[str, ...]  # how it is said, part and characteristic
    style: str
    low: float
    high: float
    places: int
    unit: str  # code
    spoken: tuple[str, ...]  # units as said; "" where none may be said


def _thing(line: str) -> Thing:
    target, names, value, unit, spoken = (part.strip() for part in line.split("|"))
    style, low, high, places = value.split()
    return Thing(
        target,
        tuple(n.strip() for n in names.split(",")),
        style,
        float(low),
        float(high),
        int(places),
        unit,
        tuple(s.strip() for s in spoken.split(",")),
    )


def _things(text: str) -> tuple[Thing, ...]:
    return tuple(_thing(line) for line in text.strip().splitlines())


@dataclass(frozen=True)
class Bench:
    """One bench: its sheet, what is measured, which parts are talked about."""

    sheet: str
    things: tuple[Thing, ...]
    parts: tuple[tuple[str, str], ...]  # (component id, name), one fitted of each


BENCHES = (
    Bench(
        "outboard-float-carburetor",
        _things(
            """
            float.height | float height | dec 17.6 19.2 2 | mm | , millimeters, mil
            float.drop | float drop | dec 25.4 29.6 1 | mm | , millimeters
            float.weight | float weight | dec 8.6 12.4 1 | g | grams
            needle.length | needle length | dec 22.2 22.95 2 | mm | , millimeters
            main_jet.size | main jet, the main jet | group 110 142 0 | 1 |
            pilot_jet.size | pilot jet, slow jet, idle jet | int 42 55 0 | 1 |
            air_screw.turns_out | air screw | turn 0.75 3 0 | turn | turns out
            throttle_bore.diameter | throttle bore diameter | dec 23.9 24.2 2 | mm | , millimeters
            throttle_plate.thickness | throttle plate thickness | dec 1.02 1.34 2 | mm | , millimeters
            throttle_shaft.diameter | throttle shaft diameter | dec 7.93 7.999 3 | mm | , millimeters
            throttle_shaft.end_play | throttle shaft end play | dec 0.06 0.44 2 | mm | , millimeters
            shaft_bush/upper.bore | upper shaft bush bore | dec 8.01 8.12 2 | mm | , millimeters
            shaft_bush/lower.bore | lower shaft bush bore | dec 8.01 8.12 2 | mm | , millimeters
            return_spring.free_length | return spring free length | dec 23.5 26.8 1 | mm | , millimeters
            emulsion_tube.bore | emulsion tube bore | dec 2.55 2.71 2 | mm | , millimeters
            float_pin.diameter | float pin diameter | dec 2.461 2.508 3 | mm | , millimeters
            seat.bore | seat bore, needle seat bore | dec 1.48 1.68 2 | mm | , millimeters
            seat.pop_off | pop off pressure, opening pressure | dec 7.2 13.1 1 | psi | psi, p s i
            bowl.flatness | bowl flatness | dec 0.02 0.22 2 | mm | , millimeters
            strainer.length | strainer length | dec 17.2 18.9 1 | mm | , millimeters
            inlet_fitting.torque | inlet fitting torque | dec 3.8 6.4 1 | N.m | newton meters
            drain_screw.torque | drain screw torque | dec 1.1 2.3 1 | N.m | newton meters
            """
        ),
        (
            ("float", "float"),
            ("main_jet", "main jet"),
            ("throttle_plate", "throttle plate"),
            ("return_spring", "return spring"),
            ("needle", "inlet needle"),
            ("bowl", "float bowl"),
            ("strainer", "fuel strainer"),
            ("drain_screw", "drain screw"),
            ("emulsion_tube", "emulsion tube"),
            ("float_pin", "float pin"),
        ),
    ),
    Bench(
        "gear-pump.toml",
        _things(
            """
            pump_body.end_clearance | end clearance | thou 1 6 1 | thou | thou
            cover.flatness | cover flatness | thou 0.5 3 1 | thou | thou
            drive_gear.width | drive gear width | dec 0.996 1.0005 4 | in | , inches
            drive_gear.outside_diameter | drive gear outside diameter | dec 2.241 2.253 3 | in | , inches
            idler_gear.width | idler gear width | dec 0.9962 0.9999 4 | in | , inches
            drive_shaft.diameter | drive shaft diameter | dec 0.8732 0.8754 4 | in | , inches
            drive_shaft.runout | drive shaft runout | thou 0.5 4 1 | thou | thou
            idler_shaft.diameter | idler shaft diameter | dec 0.7481 0.7504 4 | in | , inches
            bushing/front.bore | front bushing bore | dec 0.875 0.8812 4 | in | , inches
            bushing/rear.bore | rear bushing bore | dec 0.875 0.8812 4 | in | , inches
            cover_gasket.thickness | cover gasket thickness | thou 1.5 4 1 | thou | thou
            flange_gasket.thickness | flange gasket thickness | dec 0.026 0.038 3 | in | , inches
            relief_valve.cracking | cracking pressure, relief valve cracking pressure \
            | group 128 172 0 | psi | psi, p s i
            relief_spring.free_length | relief spring free length | dec 1.582 1.671 3 | in | , inches
            adjusting_screw.turns_in | adjusting screw | turn 1.5 6.5 0 | turn | turns in
            key.width | key width, woodruff key width | dec 0.151 0.158 3 | in | , inches
            """.replace("\\\n", "")
        ),
        (
            ("drive_gear", "drive gear"),
            ("idler_gear", "idler gear"),
            ("cover", "end cover"),
            ("drive_shaft", "drive shaft"),
            ("lip_seal", "lip seal"),
            ("relief_spring", "relief spring"),
            ("key", "woodruff key"),
            ("relief_valve", "relief valve"),
            ("adjusting_screw", "adjusting screw"),
        ),
    ),
    Bench(
        "suspension-fork.toml",
        _things(
            """
            stanchion/left.diameter | left stanchion diameter | dec 31.9 32.01 2 | mm | , millimeters
            stanchion/right.diameter | right stanchion diameter | dec 31.9 32.01 2 | mm | , millimeters
            stanchion/left.runout | left stanchion runout | dec 0.03 0.24 2 | mm | , millimeters
            lower_leg/left.bath_oil | left lower leg bath oil | int 8 18 0 | mL | mils, milliliters, ml
            bushing/upper left.bore | upper left bushing bore | dec 32.01 32.19 2 | mm | , millimeters
            bushing/lower right.bore | lower right bushing bore | dec 32.01 32.19 2 | mm | , millimeters
            damper.oil_volume | damper oil volume | group 131 148 0 | mL | milliliters, ml
            damper.oil_level | damper oil level | int 76 97 0 | mm | millimeters
            damper_rod.diameter | damper rod diameter | dec 9.44 9.56 2 | mm | , millimeters
            rebound.clicks | rebound | int 3 17 0 | 1 | clicks out, clicks
            compression.clicks | compression | int 2 14 0 | 1 | clicks out, clicks
            air_spring.pressure | air pressure | int 56 98 0 | psi | psi, p s i
            air_spring.pressure | air spring pressure | group 101 118 0 | psi | psi
            top_cap/left.torque | left top cap torque | int 21 33 0 | N.m | newton meters
            top_cap/right.torque | right top cap torque | int 21 33 0 | N.m | newton meters
            piston_o_ring.section | piston o ring section | dec 2.48 2.81 2 | mm | , millimeters
            foot_bolt/left.torque | left foot bolt torque | dec 5.4 8.6 1 | N.m | newton meters
            axle.torque | axle torque | dec 8.5 12.5 1 | N.m | newton meters
            """
        ),
        (
            ("damper", "damper"),
            ("damper_rod", "damper rod"),
            ("air_spring", "air spring"),
            ("piston_o_ring", "piston o ring"),
            ("axle", "axle"),
            ("steerer", "steerer tube"),
            ("rebound", "rebound knob"),
        ),
    ),
    Bench(
        "twin-piston-caliper.toml",
        _things(
            """
            piston/leading.diameter | leading piston diameter | dec 38.04 38.16 2 | mm | , millimeters
            piston/trailing.diameter | trailing piston diameter | dec 38.041 38.159 3 | mm | , millimeters
            piston_bore/leading.diameter | leading bore diameter | dec 38.12 38.27 2 | mm | , millimeters
            piston_bore/trailing.diameter | trailing bore diameter | dec 38.12 38.27 2 | mm | , millimeters
            piston_seal/leading.section | leading seal section | dec 3.72 4.18 2 | mm | , millimeters
            pad/inner.thickness | inner pad, inner pad thickness | dec 2.3 11.2 1 | mm | , millimeters, mil
            pad/outer.thickness | outer pad, outer pad thickness | dec 2.3 11.2 1 | mm | , millimeters, mil
            disc.thickness | disc thickness | dec 9.31 10.18 2 | mm | , millimeters
            disc.runout | disc runout | dec 0.02 0.24 2 | mm | , millimeters
            disc.diameter | disc outside diameter | group 256 264 0 | mm | millimeters
            slide_pin/upper.diameter | upper slide pin diameter | dec 8.91 9.03 2 | mm | , millimeters
            slide_pin/lower.diameter | lower slide pin diameter | dec 8.91 9.03 2 | mm | , millimeters
            pad_pin.length | pad pin length | dec 60.7 63.4 1 | mm | , millimeters
            bleed_screw.torque | bleed screw torque | dec 5.2 9.6 1 | N.m | newton meters
            banjo_bolt.torque | banjo bolt torque | int 23 38 0 | N.m | newton meters
            mounting_bolt/upper.torque | upper mounting bolt torque | int 43 57 0 | N.m | newton meters
            """
        ),
        (
            ("disc", "disc"),
            ("caliper_body", "caliper body"),
            ("rattle_spring", "anti rattle spring"),
            ("bleed_screw", "bleed screw"),
            ("banjo_bolt", "banjo bolt"),
            ("pad_pin", "pad pin"),
        ),
    ),
)

# {n} the thing's name, {v} its value with unit. Terse readings.
TERSE = ("{n} {v}", "{n} is {v}", "{n} {v}", "{n} reads {v}", "{n} at {v}")
# Running talk around one reading; what else it says is in TALK_SAYS_TOO.
TALK = (
    "right then i've wiped it down and the {n} comes out at {v}",
    "let me just get the gauge square on this and yeah {n} is {v}",
    "okay so moving along here the {n} measures {v} which i can live with",
    "i'm getting {v} on the {n}",
    "that's better now i can see it the {n} is {v}",
    "hang on while i zero this thing okay {n} {v}",
    "i had to go in twice to be sure but {n} is {v}",
    "so the {n} reads {v} and that matches how it was running",
    "the {n} then that's {v}",
    "well it was tight getting in there but i make the {n} {v}",
    "next one down the list is the {n} and that reads {v}",
    "good light here so i trust this one {n} {v}",
)
TALK_SAYS_TOO = {TALK[0]: ("action - clean done",)}  # wiped it down
# Talk around a reading and a finding: {p} a part, {c} a condition as said.
TALK_FOUND = (
    "the {n} is {v} and the {p} is {c}",
    "{p} looks {c} to me and the {n} reads {v}",
    "okay the {p} is {c} then {n} {v}",
)
# Talk without a reading.
TALK_ONLY = (
    ("the {p} is {c} i'm afraid", "condition {i} {k}"),
    ("i can see now that the {p} is {c}", "condition {i} {k}"),
    ("the {p} needs replacing", "action {i} replace proposed"),
    ("okay {p} is out and on the bench", "movement {i} removed 1"),
    ("let me take a photo of the {p}", "photo {i}"),
    ("i've cleaned the {p}", "action {i} clean done"),
)
CONDITIONS = (
    ("scored", "scored"),
    ("worn", "worn"),
    ("bent", "bent"),
    ("cracked", "cracked"),
    ("corroded", "corroded"),
    ("pitted", "pitted"),
    ("rusty", "rusted"),
    ("sticking", "sticking"),
    ("brittle", "brittle"),
)
