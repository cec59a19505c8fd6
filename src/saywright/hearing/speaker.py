"""A voice for reading back: espeak-ng, where it is installed."""

from __future__ import annotations

import re
import shutil
import subprocess
from typing import Protocol

from saywright.units import UNITS

_PROGRAM = "espeak-ng"
_WORDS_A_MINUTE = 150
_LONGEST_S = 30.0  # of one text; a sound system that hangs must not hold up the bench


_NAMES = {unit.symbol: unit.names[:2] for unit in UNITS.values() if unit.symbol and unit.names}
_MEASURED = re.compile(r"([\d.,/]+)[\s\u00a0\u202f]*([^\s\d,;:.?!]+(?:\.m)?)")


def spoken(text: str) -> str:
    """*text* as it is to be spoken: a unit behind a value by its name ("18.42 mm" → "18.42 millimeters")."""

    def named(match: re.Match[str]) -> str:
        value, symbol = match.groups()
        names = _NAMES.get(symbol)
        return match[0] if names is None else f"{value} {names[0 if value == '1' else -1]}"

    return " ".join(_MEASURED.sub(named, text).split())


class Speaker(Protocol):
    """Something that speaks."""

    def say(self, text: str) -> None:
        """Speak *text*; returns when it is spoken."""
        ...


def find_speaker(language: str = "en") -> Speaker | None:
    """The voice that is installed; None where there is none."""
    program = shutil.which(_PROGRAM)
    return EspeakSpeaker(program, language) if program is not None else None


class EspeakSpeaker:
    """Speaks through the program at a path."""

    def __init__(self, program: str, language: str) -> None:
        self._command = [program, "-v", language, "-s", str(_WORDS_A_MINUTE), "--stdin"]

    def say(self, text: str) -> None:
        """Speak *text*; a sound system that fails is passed over, as reading back is a comfort."""
        try:
            subprocess.run(
                self._command,
                input=spoken(text).encode(),
                capture_output=True,
                timeout=_LONGEST_S,
                check=False,
            )
        except (OSError, subprocess.TimeoutExpired):
            return
