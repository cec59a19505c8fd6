"""The marker card: what is printed on it, where, and the page to print it from.

A frame of chessboard squares with ArUco markers (a ChArUco board, Garrido-Jurado and others, Pattern
Recognition 47(6), 2014) around an empty window, in which the part or a bore of it is laid. Corners on all
four sides of the part mean that its place is reached between known points, not beyond them. The page is
plain PDF, written here, so that a millimetre is a millimetre: a unit of the page is 25.4 / 72 mm (ISO 32000).

Card coordinates: millimetres, x across and y down, origin at the outer corner of the frame.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import pairwise

import cv2
import numpy as np
import numpy.typing as npt

COLUMNS, ROWS = 14, 11  # squares
SQUARE_MM, MARKER_MM = 8.0, 6.0
FRAME_SQUARES = 2  # thickness of the frame; the corners in its middle have four printed squares around them
WIDTH_MM, HEIGHT_MM = COLUMNS * SQUARE_MM, ROWS * SQUARE_MM
CROSSES_MM = ((1.0, -6.0), (111.0, -6.0), (1.0, 104.0))  # left top, right top, left bottom
ACROSS_MM, DOWN_MM = 110.0, 110.0  # between the crosses, as printed at full size
PAGE_MM = (210.0, 297.0)  # A4
ORIGIN_MM = (49.0, 60.0)  # of the frame on the page
RULER_MM = 100

Rectangle = tuple[float, float, float, float]  # x, y, width, height in card millimetres

_POINTS_PER_MM = 72 / 25.4
_RULER_AT_MM = (6.0, 93.0)
_LINE_MM = 0.1
_MODULES = 6  # of a marker's side, its border included


@cache
def board() -> cv2.aruco.CharucoBoard:
    """The whole board of which the card prints the frame."""
    dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_100)
    return cv2.aruco.CharucoBoard((COLUMNS, ROWS), SQUARE_MM, MARKER_MM, dictionary)


def printed(row: int, column: int) -> bool:
    """True where the square belongs to the frame."""
    return min(row, column, ROWS - 1 - row, COLUMNS - 1 - column) in range(FRAME_SQUARES)


@cache
def corners_mm() -> dict[int, tuple[float, float]]:
    """Board's number of a chessboard corner → its place, for the corners amid four printed squares."""
    found = {}
    for row in range(ROWS - 1):
        for column in range(COLUMNS - 1):
            around = [(row + down, column + across) for down in (0, 1) for across in (0, 1)]
            if all(printed(*square) for square in around):
                number = row * (COLUMNS - 1) + column
                found[number] = ((column + 1) * SQUARE_MM, (row + 1) * SQUARE_MM)
    return found


def black_mm() -> Iterator[Rectangle]:
    """What is black on the frame: squares, and the dark modules of the markers row by row."""
    markers: dict[tuple[int, int], int] = {}
    for number, corners in zip(np.asarray(board().getIds()).ravel(), board().getObjPoints(), strict=True):
        x_mm, y_mm = np.asarray(corners).reshape(-1, 3)[:, :2].mean(axis=0)
        markers[int(y_mm // SQUARE_MM), int(x_mm // SQUARE_MM)] = int(number)
    for row in range(ROWS):
        for column in range(COLUMNS):
            if not printed(row, column):
                continue
            at = (column * SQUARE_MM, row * SQUARE_MM)
            if (row, column) in markers:
                yield from _marker(markers[row, column], at)
            else:
                yield (*at, SQUARE_MM, SQUARE_MM)


def _marker(number: int, at: tuple[float, float]) -> Iterator[Rectangle]:
    """Runs of dark modules; a run is one rectangle, so that no hairline shows between two."""
    bits = cv2.aruco.generateImageMarker(board().getDictionary(), number, _MODULES) < 128
    step_mm = MARKER_MM / _MODULES
    inset_mm = (SQUARE_MM - MARKER_MM) / 2
    for row, dark in enumerate(bits):
        edges = np.flatnonzero(np.diff(np.concatenate([[False], dark, [False]]).astype(np.int8)))
        for start, end in edges.reshape(-1, 2):
            x_mm, y_mm = at[0] + inset_mm + start * step_mm, at[1] + inset_mm + row * step_mm
            yield (x_mm, y_mm, float(end - start) * step_mm, step_mm)


def picture(px_per_mm: float, border_mm: float = 4.0) -> npt.NDArray[np.uint8]:
    """The frame as (height, width) uint8, black on white; edges fall on whole pixels for whole px_per_mm."""
    size = [round((side + 2 * border_mm) * px_per_mm) for side in (HEIGHT_MM, WIDTH_MM)]
    plane = np.full(size, 255, dtype=np.uint8)
    for x_mm, y_mm, wide_mm, high_mm in black_mm():
        left, right = (round((border_mm + x) * px_per_mm) for x in (x_mm, x_mm + wide_mm))
        top, bottom = (round((border_mm + y) * px_per_mm) for y in (y_mm, y_mm + high_mm))
        plane[top:bottom, left:right] = 0
    return plane


def card_pdf() -> bytes:
    """A4 with the card at exact size: frame, ruler, three crosses, how to check the print."""
    fills = [_fill(rectangle) for rectangle in black_mm()]
    lines = [*_crosses(), *_ruler(), *_outline()]
    notes = (
        (0.0, -28.0, 12.0, "Saywright marker card"),
        (
            0.0,
            -22.0,
            8.0,
            "Print at 100 %, not fitted to the page. Paste on something flat.",
        ),
        (0.0, -17.0, 8.0, "Lay the part in the window, the face to be measured level with the card."),
        (8.0, 105.5, 7.0, f"Check the print with a caliper: upper crosses {ACROSS_MM:.2f} mm apart,"),
        (8.0, 108.5, 7.0, f"left crosses {DOWN_MM:.2f} mm. Give what you measured with the picture."),
    )
    texts = [_text(*note) for note in notes]
    texts += [_text(_RULER_AT_MM[0] + mm - 1, _RULER_AT_MM[1] + 7.5, 6, str(mm)) for mm in range(0, 101, 10)]
    pen = f"0 G {_LINE_MM * _POINTS_PER_MM:.4f} w"
    return _pdf("\n".join(["0 g", *fills, pen, *lines, *texts]))


def _on_page(x_mm: float, y_mm: float) -> tuple[float, float]:
    """Card millimetres → points of the page, which count up from its foot."""
    return (
        (ORIGIN_MM[0] + x_mm) * _POINTS_PER_MM,
        (PAGE_MM[1] - ORIGIN_MM[1] - y_mm) * _POINTS_PER_MM,
    )


def _fill(rectangle: Rectangle) -> str:
    x_mm, y_mm, wide_mm, high_mm = rectangle
    x, y = _on_page(x_mm, y_mm + high_mm)
    return f"{x:.4f} {y:.4f} {wide_mm * _POINTS_PER_MM:.4f} {high_mm * _POINTS_PER_MM:.4f} re f"


def _line(from_mm: tuple[float, float], to_mm: tuple[float, float]) -> str:
    (x, y), (end_x, end_y) = _on_page(*from_mm), _on_page(*to_mm)
    return f"{x:.4f} {y:.4f} m {end_x:.4f} {end_y:.4f} l S"


def _crosses() -> Iterator[str]:
    for x_mm, y_mm in CROSSES_MM:
        yield _line((x_mm - 3, y_mm), (x_mm + 3, y_mm))
        yield _line((x_mm, y_mm - 3), (x_mm, y_mm + 3))


def _ruler() -> Iterator[str]:
    x_mm, y_mm = _RULER_AT_MM
    yield _line((x_mm, y_mm), (x_mm + RULER_MM, y_mm))
    for mm in range(RULER_MM + 1):
        tick_mm = 5.0 if mm % 10 == 0 else 3.5 if mm % 5 == 0 else 2.0
        yield _line((x_mm + mm, y_mm), (x_mm + mm, y_mm + tick_mm))


def _outline() -> Iterator[str]:
    """Where to cut."""
    left, top, right, bottom = -5.0, -12.0, WIDTH_MM + 5, 110.0
    corners = [(left, top), (right, top), (right, bottom), (left, bottom), (left, top)]
    for start, end in pairwise(corners):
        yield _line(start, end)


def _text(x_mm: float, y_mm: float, size_pt: float, words: str) -> str:
    x, y = _on_page(x_mm, y_mm)
    safe = words.replace("\\", r"\\").replace("(", r"\(").replace(")", r"\)")
    return f"BT /F {size_pt:g} Tf {x:.4f} {y:.4f} Td ({safe}) Tj ET"


def _pdf(content: str) -> bytes:
    """One page of *content* as PDF 1.4 (ISO 32000-1, clause 7.5: objects, their places, the trailer)."""
    width, height = (side * _POINTS_PER_MM for side in PAGE_MM)
    stream = content.encode("latin-1")
    objects: Sequence[bytes] = (
        # PrintScaling None asks the reader's print dialogue to leave the size alone.
        b"<< /Type /Catalog /Pages 2 0 R /ViewerPreferences << /PrintScaling /None >> >>",
        b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
        f"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 {width:.4f} {height:.4f}] /Contents 4 0 R "
        f"/Resources << /Font << /F 5 0 R >> >> >>".encode(),
        b"<< /Length " + str(len(stream)).encode() + b" >>\nstream\n" + stream + b"\nendstream",
        b"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>",
    )
    out = bytearray(b"%PDF-1.4\n")
    places = []
    for number, body in enumerate(objects, start=1):
        places.append(len(out))
        out += f"{number} 0 obj\n".encode() + body + b"\nendobj\n"
    table = len(out)
    out += f"xref\n0 {len(objects) + 1}\n0000000000 65535 f \n".encode()
    out += b"".join(f"{place:010d} 00000 n \n".encode() for place in places)
    out += f"trailer\n<< /Size {len(objects) + 1} /Root 1 0 R >>\nstartxref\n{table}\n%%EOF\n".encode()
    return bytes(out)
