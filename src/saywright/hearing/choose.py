"""Which listener hears this job, and why.

The one named; else Vosk where a model of the sheet's language is found; else Whisper where
weights are found; else PocketSphinx, which needs nothing but its wheel.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

from saywright.errors import ModelError
from saywright.hearing.adapters import bench_ears
from saywright.hearing.adapters.bench_ears import BASE, BENCH, EARS
from saywright.hearing.adapters.sphinx import SphinxListener
from saywright.hearing.adapters.vosk import VoskListener, is_vosk_folder
from saywright.hearing.adapters.whisper import WhisperListener
from saywright.hearing.adapters.whisper_files import (
    WHEEL_PIN,
    is_multilingual,
    is_whisper_folder,
    wheel_folder,
)
from saywright.hearing.listener import Listener
from saywright.hearing.models import default_models_dirs, known_models, user_models_dir
from saywright.hearing.sample_lines import sample_lines
from saywright.hearing.vocabulary import bench_prompt, phrases
from saywright.sheets.model import Sheet

ENGINES = ("vosk", "whisper", "sphinx")
_VOSK_LANGUAGE = re.compile(r"vosk-model-(?:small-)?([a-z]{2,3})(?:-|$)")


def choose_listener(
    sheet: Sheet,
    *,
    engine: str | None = None,
    model: str | Path | None = None,
    ears: str | None = None,
    models_dirs: Iterable[Path] | None = None,
    expected: Iterable[str] = (),
    grammar: bool = False,
    threads: int = 2,
) -> tuple[Listener, str]:
    """The listener for this sheet, and one line that tells which it is and why.

    *model* is a folder, or the name of one in *models_dirs*. *ears*: "base" for the wheel's Whisper weights
    as they are, "bench" for those with the adapter for bench talk, merged into the last of *models_dirs*
    where it is not there yet; None is "base" where Whisper hears. *expected*: ids of the components
    that come next, for the prompt. *grammar*: bind Vosk to the sheet's words; off, as it was
    measured to put other talk into number words with high confidence. ModelError where what was
    named is missing, with how to get it.
    """
    dirs = tuple(default_models_dirs() if models_dirs is None else models_dirs)
    if engine is not None and engine not in ENGINES:
        raise ModelError(f"no engine is called '{engine}'", to_do=f"There are: {', '.join(ENGINES)}")
    if engine == "sphinx" and model is not None:
        raise ModelError("sphinx takes no model folder; it comes with its package", to_do="Leave --model out")
    if ears is not None:
        if engine not in (None, "whisper") or model not in (None, "tiny.en"):
            raise ModelError(
                "ears are those of Whisper tiny.en", to_do="Leave --ears out, or --engine and --model"
            )
        place = dirs[-1] if dirs else user_models_dir()
        return _with_ears(sheet, ears, place, tuple(expected), threads)
    if engine is None and model is None:
        return _by_itself(sheet, dirs, tuple(expected), grammar, threads)
    if engine == "sphinx":
        return _sphinx(sheet), "sphinx en-us, as asked for"
    folder, why = _named(sheet, engine, model, dirs)
    listener = _open(sheet, folder, tuple(expected), grammar, threads)
    return listener, f"{listener.name}, {why}"


def find_vosk(language: str, models_dirs: Iterable[Path]) -> Path | None:
    """The Vosk model of this language with the lowest published error rate; None where there is none."""
    rates = {entry.name: entry.error_rate for entry in known_models() if entry.error_rate is not None}
    found = [
        path for path in _folders(models_dirs) if is_vosk_folder(path) and vosk_language(path) == language[:2]
    ]
    return min(found, key=lambda path: (rates.get(path.name, 100.0), path.name), default=None)


def find_whisper(language: str, models_dirs: Iterable[Path]) -> Path | None:
    """Whisper weights that hear this language: a folder the user put there, else the wheel's."""
    wheel = wheel_folder()
    found = [path for path in _folders(models_dirs) if is_whisper_folder(path)]
    candidates = [*found, *([wheel] if wheel is not None and is_whisper_folder(wheel) else [])]
    return next((path for path in candidates if language.startswith("en") or is_multilingual(path)), None)


def vosk_language(folder: Path) -> str | None:
    """Language code in the folder's name, as in "vosk-model-small-en-us-0.15"; None where it tells none."""
    match = _VOSK_LANGUAGE.match(folder.name)
    return match[1] if match else None


def _by_itself(
    sheet: Sheet, dirs: tuple[Path, ...], expected: tuple[str, ...], grammar: bool, threads: int
) -> tuple[Listener, str]:
    places = " or ".join(str(path) for path in dirs)
    folder = find_vosk(sheet.language, dirs)
    if folder is not None:
        listener = _open(sheet, folder, expected, grammar, threads)
        return listener, f"{listener.name}, as a Vosk model for '{sheet.language}' is in {folder.parent}"
    no_vosk = f"as no Vosk model for '{sheet.language}' is in {places}"
    folder = find_whisper(sheet.language, dirs)
    if folder is not None:
        listener = _open(sheet, folder, expected, grammar, threads)
        return listener, f"{listener.name}, {no_vosk}"
    if sheet.language.startswith("en"):
        return _sphinx(sheet), f"sphinx en-us, {no_vosk}, and no Whisper weights were found"
    raise ModelError(
        f"no model that hears '{sheet.language}' was found in {places}",
        to_do="Copy a Vosk model of that language or a multilingual Whisper folder there",
    )


def _with_ears(
    sheet: Sheet, ears: str, models_dir: Path, expected: tuple[str, ...], threads: int
) -> tuple[Listener, str]:
    """The wheel's Whisper with the ears that were asked for; the base's where the others cannot be had."""
    if ears not in EARS:
        raise ModelError(f"no ears are called '{ears}'", to_do=f"There are: {', '.join(EARS)}")
    wheel = wheel_folder()
    if wheel is None:
        raise ModelError("the tiny.en weights are not installed", to_do=f"Run 'pip install {WHEEL_PIN}'")
    if not sheet.language.startswith("en"):
        raise ModelError(
            f"Whisper tiny.en hears English only, not '{sheet.language}'", to_do="Leave --ears out"
        )
    folder, name, why = wheel, "whisper tiny.en", f"as {ears} ears were asked for"
    if ears == BENCH:
        try:
            folder, name = bench_ears.bench_folder(models_dir), bench_ears.NAME
        except ModelError as error:
            why = f"with {BASE} ears: {error}"
    listener = WhisperListener(folder, prompt=bench_prompt(sheet, expected), threads=threads, name=name)
    return listener, f"{name}, {why}"


def _named(
    sheet: Sheet, engine: str | None, model: str | Path | None, dirs: tuple[Path, ...]
) -> tuple[Path, str]:
    """The folder that was asked for, and the reason as words."""
    if model is None:
        folder = find_vosk(sheet.language, dirs) if engine == "vosk" else find_whisper(sheet.language, dirs)
        if folder is None:
            how = (
                "Run 'saywright models get vosk-model-small-en-us-0.15'"
                if engine == "vosk"
                else (f"Run 'pip install {WHEEL_PIN}' or copy a CTranslate2 Whisper folder to models/")
            )
            raise ModelError(
                f"no {engine} model for '{sheet.language}' in {' or '.join(map(str, dirs))}", to_do=how
            )
        return folder, f"as {engine} was asked for"
    candidates = [Path(model), *(folder / model for folder in dirs)]
    wheel = wheel_folder()
    if str(model) == "tiny.en" and wheel is not None:
        candidates.append(wheel)
    folder = next((path for path in candidates if is_vosk_folder(path) or is_whisper_folder(path)), None)
    if folder is None:
        known = any(entry.name == str(model) for entry in known_models())
        raise ModelError(
            f"no model folder '{model}'",
            to_do=f"Run 'saywright models get {model}'"
            if known
            else "Name a folder with a Vosk or CTranslate2 Whisper model, see 'saywright models list'",
        )
    if engine is not None and engine != ("vosk" if is_vosk_folder(folder) else "whisper"):
        raise ModelError(
            f"this is no {engine} model", where=str(folder), to_do="Leave --engine out, or name another"
        )
    return folder, "as it was named"


def _open(sheet: Sheet, folder: Path, expected: tuple[str, ...], grammar: bool, threads: int) -> Listener:
    if is_vosk_folder(folder):
        return VoskListener(folder, grammar=phrases(sheet) if grammar else ())
    wheel = wheel_folder()
    name = "whisper tiny.en" if wheel is not None and folder.resolve() == wheel.resolve() else None
    return WhisperListener(
        folder, prompt=bench_prompt(sheet, expected), language=sheet.language, threads=threads, name=name
    )


def _sphinx(sheet: Sheet) -> Listener:
    if not sheet.language.startswith("en"):
        raise ModelError(f"sphinx hears English only, not '{sheet.language}'", to_do="Use vosk or whisper")
    sounds = {word.spoken: word.sounds for word in sheet.word if word.sounds}
    return SphinxListener(sample_lines(sheet), sounds=sounds)


def _folders(models_dirs: Iterable[Path]) -> list[Path]:
    return [
        path
        for folder in models_dirs
        if folder.is_dir()
        for path in sorted(folder.iterdir())
        if path.is_dir()
    ]
