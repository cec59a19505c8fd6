"""Each error tells in one line what is wrong, where, and what to do."""

from __future__ import annotations

import inspect
import pickle

import pytest

from saywright import errors
from saywright.sheets.fault import Fault

PLAIN = [
    (errors.SaywrightError, Exception, 1),
    (errors.InputError, errors.SaywrightError, 2),
    (errors.AudioError, errors.InputError, 2),
    (errors.ImageError, errors.InputError, 2),
    (errors.TextError, errors.InputError, 2),
    (errors.ModelError, errors.SaywrightError, 3),
    (errors.DeviceError, errors.SaywrightError, 3),
    (errors.StoreError, errors.SaywrightError, 4),
    (errors.ChainError, errors.StoreError, 4),
    (errors.DiskFullError, errors.StoreError, 4),
    (errors.NotFoundError, errors.SaywrightError, 5),
    (errors.RefusedError, errors.SaywrightError, 6),
    (errors.StaleError, errors.RefusedError, 6),
    (errors.MissingPartError, errors.SaywrightError, 3),
]


@pytest.mark.parametrize(("kind", "parent", "exit_code"), PLAIN)
def test_whole_message(
    kind: type[errors.SaywrightError], parent: type[BaseException], exit_code: int
) -> None:
    """Place, lack and remedy make one line; the fields stay readable; the exit code is the class's."""
    error = kind("not audio", where="bench.wav", to_do="Give a sound file")
    assert "bench.wav: not audio. Give a sound file" == str(error)
    assert ("not audio", "bench.wav", "Give a sound file") == (error.what, error.where, error.to_do)
    assert (parent, exit_code) == (kind.__base__, kind.exit_code)


@pytest.mark.parametrize(
    ("given", "line"),
    [
        ({}, "the log is empty"),
        ({"where": "j1"}, "j1: the log is empty"),
        ({"to_do": "Open a job first"}, "the log is empty. Open a job first"),
    ],
)
def test_parts_left_out(given: dict[str, str], line: str) -> None:
    """What is not known is not printed."""
    assert line == str(errors.StoreError("the log is empty", **given))


@pytest.mark.parametrize(
    ("count", "line"),
    [
        (1, "1 fault: line 1: a: bad. "),
        (2, "2 faults: line 1: a: bad; line 2: a: bad. "),
        (
            5,
            "5 faults: line 1: a: bad; line 2: a: bad; line 3: a: bad (and 2 more). ",
        ),
    ],
)
def test_sheet_error(count: int, line: str) -> None:
    """The first three faults in the line, all of them on the error."""
    faults = tuple(Fault(n, "a", "bad") for n in range(1, count + 1))
    error = errors.SheetError("s.toml", faults)
    remedy = "Run 'saywright sheet check s.toml' for the whole list"
    assert f"s.toml: the bench sheet has {line}{remedy}" == str(error)
    assert (faults, 2) == (error.faults, error.exit_code)


def test_fault_places() -> None:
    """A fault of no line belongs to the whole file; one without a key has only its text."""
    assert "whole file: a.b: bad" == str(Fault(None, "a.b", "bad"))
    assert "line 3: bad" == str(Fault(3, "", "bad"))


def test_tree_in_the_docstring_is_complete() -> None:
    """Every error of the module is drawn in its tree."""
    kinds = [name for name, _ in inspect.getmembers(errors, inspect.isclass) if name.endswith("Error")]
    assert [] == [name for name in kinds if name not in (errors.__doc__ or "")]
    assert len(PLAIN) + 1 == len(kinds)


def test_can_be_sent_between_processes() -> None:
    """An error keeps what it was caused by when it is pickled."""
    error = errors.AudioError("not audio", where="bench.wav", to_do="Give a sound file")
    twin = pickle.loads(pickle.dumps(error))
    assert (type(error), str(error), error.args) == (type(twin), str(twin), twin.args)
    sheet = errors.SheetError("s.toml", (Fault(1, "a", "bad"),))
    assert sheet.faults == pickle.loads(pickle.dumps(sheet)).faults
