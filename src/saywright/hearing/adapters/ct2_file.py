"""CTranslate2's model file, read and written. Pure.

Layout, all little-endian, as CTranslate2 4 writes it (its `Model` specification, version 6): version;
name of the specification; its revision; number of variables; of each its name, rank, dimensions, type,
length and bytes; number of aliases; of each its name and what it stands for. Names end with a zero byte,
which their length counts.
"""

from __future__ import annotations

import struct
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt

from saywright.errors import ModelError

_VERSION = 6
_TYPES: dict[int, str] = {0: "<f4", 1: "i1", 2: "<i2", 3: "<i4", 4: "<f2"}


@dataclass(frozen=True, slots=True)
class Variable:
    """One array of the file."""

    name: str
    shape: tuple[int, ...]
    type_number: int  # a key of the type table
    raw: bytes


@dataclass(frozen=True, slots=True)
class ModelFile:
    """A whole file."""

    name: str
    revision: int
    variables: tuple[Variable, ...]
    aliases: tuple[tuple[str, str], ...]

    def arrays(self) -> dict[str, npt.NDArray[Any]]:
        """Every array by its name."""
        return {
            one.name: np.frombuffer(one.raw, _TYPES[one.type_number]).reshape(one.shape)
            for one in self.variables
        }

    def with_arrays(self, changed: Mapping[str, npt.NDArray[Any]]) -> ModelFile:
        """The file with other values under some names; shape and type stay."""
        return replace(self, variables=tuple(_changed(one, changed.get(one.name)) for one in self.variables))


def read_model(data: bytes) -> ModelFile:
    """The file in *data*; ModelError where it is none of this version."""
    reader = _Reader(data)
    try:
        version = reader.number("I")
        if version != _VERSION:
            raise ModelError(
                f"the model file is of version {version}, not {_VERSION}", to_do="Get the model again"
            )
        name, revision = reader.text(), reader.number("I")
        variables = tuple(reader.variable() for _ in range(reader.number("I")))
        aliases = tuple((reader.text(), reader.text()) for _ in range(reader.number("I")))
    except (struct.error, UnicodeDecodeError, KeyError):
        raise ModelError("the model file is damaged", to_do="Get the model again") from None
    return ModelFile(name, revision, variables, aliases)


def write_model(model: ModelFile) -> bytes:
    """The bytes of the file; what `read_model` gave comes out byte for byte."""
    parts = [struct.pack("<I", _VERSION), _text(model.name)]
    parts.append(struct.pack("<II", model.revision, len(model.variables)))
    for one in model.variables:
        parts += [
            _text(one.name),
            struct.pack("<B", len(one.shape)),
            struct.pack(f"<{len(one.shape)}I", *one.shape),
        ]
        parts += [struct.pack("<BI", one.type_number, len(one.raw)), one.raw]
    parts.append(struct.pack("<I", len(model.aliases)))
    parts += [_text(alias) + _text(meant) for alias, meant in model.aliases]
    return b"".join(parts)


class _Reader:
    def __init__(self, data: bytes) -> None:
        self._data = data
        self._at = 0

    def number(self, form: str) -> int:
        (value,) = struct.unpack_from("<" + form, self._data, self._at)
        self._at += struct.calcsize("<" + form)
        return int(value)

    def text(self) -> str:
        return self.take(self.number("H"))[:-1].decode()

    def take(self, count: int) -> bytes:
        if self._at + count > len(self._data):
            raise struct.error
        self._at += count
        return self._data[self._at - count : self._at]

    def variable(self) -> Variable:
        name = self.text()
        shape = tuple(self.number("I") for _ in range(self.number("B")))
        type_number = self.number("B")
        raw = self.take(self.number("I"))
        if np.dtype(_TYPES[type_number]).itemsize * int(np.prod(shape, dtype=np.int64)) != len(raw):
            raise struct.error
        return Variable(name, shape, type_number, raw)


def _text(text: str) -> bytes:
    data = text.encode() + b"\0"
    return struct.pack("<H", len(data)) + data


def _changed(one: Variable, value: npt.NDArray[Any] | None) -> Variable:
    if value is None:
        return one
    if value.shape != one.shape:
        raise ModelError(f"{one.name} has another shape: {value.shape}, not {one.shape}")
    return replace(one, raw=value.astype(_TYPES[one.type_number]).tobytes())
