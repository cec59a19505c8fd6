"""The list of models and fetching one."""

import io
import threading
import zipfile
from collections.abc import Iterator
from functools import partial
from hashlib import sha256
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

from saywright.errors import ModelError
from saywright.hearing import models
from saywright.hearing.models import ModelEntry, find_entry, get_model, installed_at, known_models


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """Say nothing."""


@pytest.fixture
def served(tmp_path: Path) -> Iterator[tuple[Path, str]]:
    """A folder and the loopback address at which it is served."""
    folder = tmp_path / "served"
    folder.mkdir()
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(folder))) as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        yield folder, f"http://127.0.0.1:{server.server_port}"
        server.shutdown()
        thread.join()


def vosk_zip(name: str, extra: str | None = None) -> bytes:
    """An archive with what a Vosk folder must hold."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as packed:
        packed.writestr(f"{name}/am/final.mdl", b"x" * 1000)
        packed.writestr(f"{name}/graph/HCLr.fst", b"x")
        if extra is not None:
            packed.writestr(extra, b"x")
    return out.getvalue()


def listed(monkeypatch: pytest.MonkeyPatch, **fields: object) -> None:
    """Put one entry in place of the list."""
    base = {
        "engine": "vosk",
        "name": "vosk-model-xx",
        "language": "xx",
        "size_mb": 1,
        "licence": "L",
        "source": "S",
    }
    entry = ModelEntry.model_validate({**base, **fields})
    monkeypatch.setattr(models, "known_models", lambda: (entry,))


def test_the_list_is_whole() -> None:
    """Every entry can be got somehow, and every published rate names its test set and its source."""
    entries = known_models()
    assert {"vosk", "whisper", "sphinx"} == {entry.engine for entry in entries}
    assert len({entry.name for entry in entries}) == len(entries)
    for entry in entries:
        ways = [entry.wheel is not None, entry.url is not None, bool(entry.base_url and entry.files)]
        assert 1 == sum(ways)
        assert (
            (entry.error_rate is None) == (entry.error_rate_source is None) == (entry.error_rate_on is None)
        )


def test_published_error_rates() -> None:
    """Vosk model list of 2024-12-23, LibriSpeech test-clean: 9.85, 7.82, 5.69."""
    rates = {entry.name: entry.error_rate for entry in known_models() if entry.engine == "vosk"}
    assert {
        "vosk-model-small-en-us-0.15": 9.85,
        "vosk-model-en-us-0.22-lgraph": 7.82,
        "vosk-model-en-us-0.22": 5.69,
    } == rates


def test_installed_state(tmp_path: Path) -> None:
    """A model folder is found where it lies; the wheels are found as packages."""
    entry = find_entry("vosk-model-small-en-us-0.15")
    assert installed_at(entry, [tmp_path]) is None
    with zipfile.ZipFile(io.BytesIO(vosk_zip(entry.name))) as packed:
        packed.extractall(tmp_path)
    assert str(tmp_path / entry.name) == installed_at(entry, [tmp_path])
    assert installed_at(find_entry("tiny.en"), [tmp_path]) is not None
    assert installed_at(find_entry("sphinx/en-us"), [tmp_path]) is not None


def test_unknown_name() -> None:
    """A name that is not listed is told with those that are."""
    with pytest.raises(
        ModelError, match=r"no model is called 'nosuch'\. There are: vosk-model-small-en-us-0\.15, "
    ):
        find_entry("nosuch")


def test_get_an_archive(served: tuple[Path, str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The archive is fetched with progress, checked, unpacked; a second time nothing is fetched."""
    folder, address = served
    data = vosk_zip("vosk-model-xx")
    (folder / "m.zip").write_bytes(data)
    listed(monkeypatch, url=f"{address}/m.zip", sha256=sha256(data).hexdigest())
    told: list[tuple[int, int | None]] = []
    place = get_model(
        "vosk-model-xx", into=tmp_path / "models", progress=lambda done, total: told.append((done, total))
    )
    assert tmp_path / "models" / "vosk-model-xx" == place
    assert (place / "am" / "final.mdl").is_file()
    assert (len(data), len(data)) == told[-1]
    (folder / "m.zip").unlink()
    assert place == get_model("vosk-model-xx", into=tmp_path / "models")
    assert ["vosk-model-xx"] == [path.name for path in (tmp_path / "models").iterdir()]


def test_get_single_files(served: tuple[Path, str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A Whisper folder is fetched file by file."""
    folder, address = served
    names = ("config.json", "tokenizer.json", "vocabulary.txt", "model.bin")
    for name in names:
        (folder / name).write_bytes(b"x")
    listed(monkeypatch, engine="whisper", name="w", base_url=address, files=names)
    assert set(names) == {path.name for path in get_model("w", into=tmp_path / "models").iterdir()}


BAD_ARCHIVES = {
    "other hash": (vosk_zip("vosk-model-xx"), {"sha256": "0" * 64}, "the file fetched is not the one listed"),
    "no zip": (b"no zip", {}, "the archive is damaged"),
    "path up": (vosk_zip("vosk-model-xx", "../out.txt"), {}, "a path that leads out of it"),
    "path from the root": (vosk_zip("vosk-model-xx", "/abs.txt"), {}, "a path that leads out of it"),
}


@pytest.mark.parametrize("case", BAD_ARCHIVES)
def test_bad_archives(
    served: tuple[Path, str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, case: str
) -> None:
    """A wrong, damaged or hostile archive is refused and leaves nothing behind."""
    data, fields, text = BAD_ARCHIVES[case]
    folder, address = served
    (folder / "m.zip").write_bytes(data)
    listed(monkeypatch, url=f"{address}/m.zip", **fields)
    with pytest.raises(ModelError, match=text):
        get_model("vosk-model-xx", into=tmp_path / "models")
    assert [] == list((tmp_path / "models").iterdir())
    assert not (tmp_path / "out.txt").exists()


def test_other_contents_are_refused(
    served: tuple[Path, str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An archive without a model in it is not installed."""
    folder, address = served
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as packed:
        packed.writestr("vosk-model-xx/readme", b"x")
    (folder / "m.zip").write_bytes(out.getvalue())
    listed(monkeypatch, url=f"{address}/m.zip")
    with pytest.raises(ModelError, match="not a model of this engine"):
        get_model("vosk-model-xx", into=tmp_path / "models")


def test_server_says_no(served: tuple[Path, str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A missing file on the server is told with its number."""
    listed(monkeypatch, url=f"{served[1]}/none.zip")
    with pytest.raises(ModelError, match="the server answered 404"):
        get_model("vosk-model-xx", into=tmp_path / "models")


def test_no_network(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a network there is one clear line with what to do instead."""
    listed(monkeypatch, url="http://127.0.0.1:9/m.zip")
    with pytest.raises(ModelError) as caught:
        get_model("vosk-model-xx", into=tmp_path / "models")
    assert "\n" not in str(caught.value)
    assert str(caught.value).startswith("http://127.0.0.1:9/m.zip: the network cannot be reached (")
    assert str(caught.value).endswith("fetch it on another machine and copy its folder to models/")


def test_a_wheel_is_not_fetched() -> None:
    """What comes as a package that is installed is told, not fetched."""
    assert get_model("tiny.en").is_dir()
