"""What is in each picture, by name."""

from __future__ import annotations

from bore import bore
from brass import air_screw, float_body, jet, seat
from parts import bench, gasket, needle, strainer

SCENES = {
    "jet": jet,
    "strainer": strainer,
    "gasket": gasket,
    "bore": bore,
    "needle": needle,
    "air_screw": air_screw,
    "float": float_body,
    "seat": seat,
    "bench": bench,
}
