"""Take the place out of an image file's bytes, everything else left as it came.

The picture itself is not decoded, so nothing of it is lost. The EXIF standard (CIPA DC-008) keeps the
place in a directory of its own, which tag 0x8825 points to; its entries and what they point to are
overwritten with zeros, in a copy of the same length. XMP tells it as text (GPSLatitude and so on), which
is overwritten with blanks. A place that a maker hides in a note of its own is not known to this module.
"""

from __future__ import annotations

import re
import struct
import zlib

_TIFF_START = re.compile(rb"II\*\0|MM\0\*")
_XMP_PLACE = re.compile(rb"""(exif:GPS\w+\s*(?:=\s*["']|>))([^"'<]*)""")
_PNG = b"\x89PNG\r\n\x1a\n"
_PLACE_TAG = 0x8825
_LAST_PLACE_FIELD = 0x1F
_FIELD_BYTES = {1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 6: 1, 7: 1, 8: 2, 9: 4, 10: 8, 11: 4, 12: 8, 13: 4, 129: 1}
_ENTRY = 12  # bytes of an entry of a directory
_MOST_ENTRIES = 500


def without_place(data: bytes) -> bytes:
    """*data* with its place overwritten; the same object where it has none."""
    changed = bytearray(data)
    for start in _TIFF_START.finditer(data):
        _blank_exif_place(changed, start.start())
    for found in _XMP_PLACE.finditer(data):
        changed[found.start(2) : found.end(2)] = b" " * (found.end(2) - found.start(2))
    if changed == data:
        return data
    if data.startswith(_PNG):
        _mend_png_sums(changed, data)
    return bytes(changed)


def _blank_exif_place(data: bytearray, base: int) -> None:
    """Overwrite the place of the EXIF block that starts at *base*, if it is one."""
    order = "<" if data[base : base + 2] == b"II" else ">"
    first = _entries(data, base, _number(data, base + 4, order), order)
    for entry in first:
        tag, kind = struct.unpack_from(order + "HH", data, entry)
        if tag == _PLACE_TAG and kind in (4, 13):
            _blank_directory(data, base, _number(data, entry + 8, order), order)


def _blank_directory(data: bytearray, base: int, offset: int, order: str) -> None:
    entries = _entries(data, base, offset, order)
    fields = [struct.unpack_from(order + "HHI", data, entry) for entry in entries]
    if not entries or any(tag > _LAST_PLACE_FIELD for tag, _, _ in fields):
        return
    for entry, (_, kind, count) in zip(entries, fields, strict=True):
        size = _FIELD_BYTES.get(kind, 1) * count
        at = base + _number(data, entry + 8, order)
        if size > 4 and at + size <= len(data):
            data[at : at + size] = bytes(size)
        data[entry : entry + _ENTRY] = bytes(_ENTRY)
    data[base + offset : base + offset + 2] = bytes(2)


def _entries(data: bytearray, base: int, offset: int, order: str) -> list[int]:
    """Where the entries of the directory at *offset* start; none where it is no directory."""
    start = base + offset
    if offset < 8 or start + 2 > len(data):
        return []
    (count,) = struct.unpack_from(order + "H", data, start)
    if not 0 < count <= _MOST_ENTRIES or start + 2 + count * _ENTRY > len(data):
        return []
    entries = [start + 2 + index * _ENTRY for index in range(count)]
    kinds = {struct.unpack_from(order + "H", data, entry + 2)[0] for entry in entries}
    return entries if kinds <= set(_FIELD_BYTES) else []


def _number(data: bytearray, at: int, order: str) -> int:
    if at + 4 > len(data):
        return 0
    (value,) = struct.unpack_from(order + "I", data, at)
    return int(value)


def _mend_png_sums(changed: bytearray, data: bytes) -> None:
    """PNG chunks carry a checksum; a wrong one would make the picture unreadable."""
    at = len(_PNG)
    while at + 12 <= len(data):
        (length,) = struct.unpack_from(">I", data, at)
        end = at + 8 + length
        if end + 4 > len(data):
            return
        if changed[at:end] != data[at:end]:
            struct.pack_into(">I", changed, end, zlib.crc32(changed[at + 4 : end]))
        at = end + 4
