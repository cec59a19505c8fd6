"""The one tree of failures.

Doubt is data (see `saywright.flags`); only what cannot go on is an exception.

    SaywrightError
    ├── InputError            a file or text that was given is not usable
    │   ├── AudioError
    │   ├── ImageError
    │   ├── TextError
    │   └── SheetError        carries every fault, not just the first
    ├── ModelError            a recogniser's model is missing or damaged
    ├── DeviceError           microphone or other hardware
    ├── StoreError            the log, the media store or a file of ours cannot be read or written
    │   ├── ChainError        a stored event does not fit the hash of the one before
    │   └── DiskFullError
    ├── NotFoundError         no such job, item or picture
    ├── RefusedError          what was asked is against the rules of the record
    │   └── StaleError        somebody changed the item in between
    └── MissingPartError      an optional program or library is not installed
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from saywright.sheets.fault import Fault


class SaywrightError(Exception):
    """A failure told in one line: what is wrong, with what, and what to do about it."""

    exit_code = 1

    def __init__(self, what: str, *, where: str = "", to_do: str = "") -> None:
        self.what = what
        self.where = where
        self.to_do = to_do
        super().__init__(what, where, to_do)

    def __str__(self) -> str:
        head = f"{self.where}: {self.what}" if self.where else self.what
        return f"{head}. {self.to_do}" if self.to_do else head

    def __reduce__(self) -> tuple[Any, ...]:
        # Built from keyword arguments, an exception cannot be unpickled by its `args` alone.
        return _rebuilt, (type(self), self.args, dict(self.__dict__))


def _rebuilt(kind: type[SaywrightError], args: tuple[Any, ...], fields: dict[str, Any]) -> SaywrightError:
    """The error as it was before it was pickled."""
    error = kind.__new__(kind)
    error.args = args
    error.__dict__.update(fields)
    return error


class InputError(SaywrightError):
    """A file or text that was given cannot be used."""

    exit_code = 2


class AudioError(InputError):
    """Not audio, or audio that cannot be decoded."""


class ImageError(InputError):
    """Not a picture, or a picture that cannot be decoded."""


class TextError(InputError):
    """A text file that cannot be read as utterances."""


class SheetError(InputError):
    """A bench sheet with faults."""

    def __init__(self, where: str, faults: tuple[Fault, ...]) -> None:
        self.faults = faults
        lines = "; ".join(str(fault) for fault in faults[:3])
        more = f" (and {len(faults) - 3} more)" if len(faults) > 3 else ""
        super().__init__(
            f"the bench sheet has {len(faults)} fault{'s' if len(faults) != 1 else ''}: {lines}{more}",
            where=where,
            to_do=f"Run 'saywright sheet check {where}' for the whole list",
        )


class ModelError(SaywrightError):
    """A recogniser's model is missing, damaged or not the one that was pinned."""

    exit_code = 3


class DeviceError(SaywrightError):
    """No microphone, or one that went away."""

    exit_code = 3


class StoreError(SaywrightError):
    """The log, the media store or a file of ours cannot be read or written."""

    exit_code = 4


class ChainError(StoreError):
    """A stored event does not fit the one before it: the log was altered or damaged."""


class DiskFullError(StoreError):
    """No room to write; what was committed before is kept."""


class NotFoundError(SaywrightError):
    """No such job, item, picture or sheet."""

    exit_code = 5


class RefusedError(SaywrightError):
    """What was asked goes against the rules of the record."""

    exit_code = 6


class StaleError(RefusedError):
    """The item was changed by somebody else after it was read."""


class MissingPartError(SaywrightError):
    """An optional program or library is not installed."""

    exit_code = 3
