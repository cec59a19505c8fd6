"""A voice for reading back: espeak-ng, where it is installed."""

from __future__ import annotations

import re
import shutil
import subprocess
from typing import Protocol

from saywright.errors import DeviceError
from saywright.units import UNITS

_PROGRAM = "espeak-ng"
_TO_DO = "Mend the sound output, or leave reading back out"
_WORDS_A_MINUTE = 150
_WORD_S = 1.0  # more than any word takes; a sound system that hangs must not hold up the bench
_START_S = 3.0


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
        """Speak *text*; returns when it is spoken. DeviceError where the sound system fails."""
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
        """Speak *text*; DeviceError where the sound system fails."""
        said = spoken(text)
        limit_s = _START_S + _WORD_S * len(said.split())
        try:
            done = subprocess.run(
                self._command, input=said.encode(), capture_output=True, timeout=limit_s, check=False
            )
        except subprocess.TimeoutExpired:
            raise DeviceError("the loudspeaker takes no sound", to_do=_TO_DO) from None
        except OSError as error:
            raise DeviceError(f"{_PROGRAM} does not start ({error.strerror})", to_do=_TO_DO) from None
        if done.returncode:
            told = done.stderr.decode(errors="replace").strip().splitlines()
            why = told[-1] if told else f"exit code {done.returncode}"
            raise DeviceError(f"{_PROGRAM} failed ({why})", to_do=_TO_DO)
