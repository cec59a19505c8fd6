"""Saywright: an offline bench logger.

The public names. They are loaded when first used, so that `import saywright` is quick and needs
neither a recogniser nor a microphone.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from saywright.bench import Bench
    from saywright.errors import SaywrightError
    from saywright.record.types import Record
    from saywright.sheets.load import load_sheet

__all__ = ["Bench", "Record", "SaywrightError", "load_sheet"]

_HOMES = {
    "Bench": "saywright.bench",
    "Record": "saywright.record.types",
    "SaywrightError": "saywright.errors",
    "load_sheet": "saywright.sheets.load",
}


def __getattr__(name: str) -> Any:
    if name not in _HOMES:
        raise AttributeError(f"module 'saywright' has no attribute '{name}'")
    import importlib  # noqa: PLC0415

    return getattr(importlib.import_module(_HOMES[name]), name)
