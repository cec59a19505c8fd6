"""Parts of an invented pump that the sheets of several tests have."""

from __future__ import annotations

from decimal import Decimal

from saywright.sheets.model import Characteristic, Component, Instrument

CALIPER = Instrument(
    id="caliper",
    names=("caliper",),
    unit="mm",
    resolution=Decimal("0.01"),
    max_permissible_error=Decimal("0.03"),
)
FLOAT = Component(
    id="float",
    names=("float",),
    characteristic=(
        Characteristic(
            id="height",
            names=("float height",),
            unit="mm",
            lower=Decimal("18.0"),
            upper=Decimal("18.8"),
            instrument="caliper",
            when=("as_found", "as_left"),
        ),
    ),
)
SIZE = Characteristic(id="size", names=("size",), allowed=(Decimal(125), Decimal(128), Decimal(130)))
