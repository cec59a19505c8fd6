"""The recipe of the bench ears: its lists, its figures and, where PyTorch is, a few steps of training."""

import importlib.util
import itertools
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from loading import load
from saywright.hearing.adapters.whisper import WhisperListener
from saywright.hearing.adapters.whisper_files import file_sha256, wheel_folder

ROOT = Path(__file__).parents[2]
RECIPE = ROOT / "models" / "bench_ears"


def loaded(name):
    """A module of the recipe, which is no package."""
    sys.path.insert(0, str(RECIPE))
    try:
        return load(RECIPE / f"{name}.py", name)
    finally:
        sys.path.remove(str(RECIPE))


@pytest.fixture(scope="module")
def text():
    """Lines of bench talk."""
    return loaded("text")


def test_the_lists_have_nothing_in_common(text):
    """No part, frame or line of one list is in another."""
    for one, other in itertools.combinations(text.TRADES, 2):
        parts = [{part for trade in text.TRADES[name] for part in trade.parts} for name in (one, other)]
        assert set() == parts[0] & parts[1]
        assert set() == set(text.READ[one]) & set(text.READ[other])
        assert set() == set(text.TALK[one]) & set(text.TALK[other])
        said = [{line.words for line in text.lines(name, 1, 300)} for name in (one, other)]
        assert set() == said[0] & said[1]


def test_voices_of_the_lists_are_others_than_those_of_training():
    """A speaker is trained on, chosen by or reported on."""
    speech = loaded("speech")
    choose, *report = ({voice.name for voice in speech.EVALUATED[n]} for n in ("choose", "report", "again"))
    assert set() == choose & (report[0] | report[1])
    trained = {"slt", *(f"{accent}+{variant}" for accent in speech._ACCENTS for variant in speech._VARIANTS)}
    assert set() == trained & (choose | report[0] | report[1])


def test_other_languages_are_in_one_list():
    """Of training, of choosing, or of the sounds in tools/accuracy that are no speech for a listener."""
    foreign = loaded("foreign")
    codes = [set(frames) for frames in foreign.FRAMES.values()]
    assert set() == codes[0] & codes[1]
    assert set() == (codes[0] | codes[1]) & {"de", "fr", "es", "it", "pl"}
    assert list(foreign.lines("choose", 1, 9)) == list(foreign.lines("choose", 1, 9))


def test_words_for_the_point(text):
    """Text without them is what it was; with them "dot" and "decimal" are said as well."""
    plain = " ".join(line.words for line in text.lines("train", 1, 300))
    assert {"dot", "decimal"}.isdisjoint(plain.split())
    more = " ".join(line.words for line in text.lines("train", 1, 300, points=text.POINTS))
    assert {"point", "dot", "decimal"} <= set(more.split())


def test_lines_are_the_same_each_time(text):
    """The seed gives the list."""
    assert list(text.lines("choose", 2, 50)) == list(text.lines("choose", 2, 50))
    assert list(text.lines("choose", 2, 50)) != list(text.lines("choose", 3, 50))


def test_numbers_of_a_line(text):
    """Number words in order, "oh" as zero, nothing else."""
    assert ("eight", "point", "zero", "three") == text.numbers_in("bush eight point oh three millimeters")
    assert () == text.numbers_in("somebody left the burr furred")


@pytest.mark.parametrize(
    ("gained", "lost", "p"),
    [(0, 0, 1.0), (5, 0, 2 / 32), (0, 5, 2 / 32), (9, 1, 22 / 1024), (3, 3, 1.0)],
)
def test_sign_test(gained, lost, p):
    """Two-sided binomial tail at one half, by hand."""
    assert pytest.approx(p) == loaded("figures").sign_p(gained, lost)


def test_interval_of_a_share():
    """Wilson, 1927: of 8 in 10, 49 % to 94 % (recomputed)."""
    assert "80 % (49–94)" == loaded("figures").interval([True] * 8 + [False] * 2)


NOT_DEBIANS = (  # what the recipe needs beside PyTorch and numpy, out of the environment of the tests
    "annotated_types",
    "pydantic",
    "pydantic_core",
    "tokenizers",
    "typing_extensions.py",
    "typing_inspection",
)
DEBIANS_PYTHON = "/usr/bin/python3"


def python_with_torch(folder):
    """An interpreter that has PyTorch, and what its search path needs; skips the test where there is none.

    That of the tests, or Debian's, whose PyTorch goes with Debian's numpy: the rest is linked into *folder*.
    """
    if importlib.util.find_spec("torch"):
        return sys.executable, [path for path in sys.path if path]
    version = "import sys, torch; print(*sys.version_info[:2])"
    found = subprocess.run([DEBIANS_PYTHON, "-c", version], capture_output=True, text=True, check=False)
    if found.returncode or found.stdout.split() != [str(part) for part in sys.version_info[:2]]:
        pytest.skip("no PyTorch: it is no dependency, and Debian's python3-torch is not here for this Python")
    packages = Path(importlib.util.find_spec("tokenizers").origin).parents[1]
    folder.mkdir()
    for name in NOT_DEBIANS:
        (folder / name).symlink_to(packages / name)
    return DEBIANS_PYTHON, [str(folder)]


def run(*command, path):
    """What a command of the recipe prints."""
    own = [str(ROOT / part) for part in ("tools", "src", "models/bench_ears")]
    env = {**os.environ, "PYTHONPATH": os.pathsep.join([*own, *path])}
    done = subprocess.run(list(map(str, command)), capture_output=True, text=True, env=env, check=False)
    assert 0 == done.returncode, done.stderr[-2000:]
    return done.stdout


@pytest.mark.slow
def test_a_few_steps_of_training_give_an_adapter_that_hears(tmp_path):
    """pack, train --smoke and merge on a processor: the loss falls, the adapter fits, the listener hears."""
    needed = [Path("/usr/share/wordnet"), Path("/usr/share/asterisk/sounds/en_US_f_Allison/digits/1.g722")]
    missing = [str(path) for path in needed if not path.exists()]
    missing += [program for program in ("flite", "espeak-ng") if not shutil.which(program)]
    if missing:
        pytest.skip(f"not installed: {', '.join(missing)}")
    python, path = python_with_torch(tmp_path / "linked")
    pack, out, merged = tmp_path / "pack", tmp_path / "out", tmp_path / "merged"
    run(sys.executable, RECIPE / "pack.py", pack, path=sys.path)
    told = run(
        python, RECIPE / "train.py", "--pack", pack, "--out", out, "--smoke", "--workers", "2", path=path
    )
    loss = json.loads(told.splitlines()[0])
    assert loss["after"] < loss["before"]
    adapter = out / "rank4-steps5-seed1.npz"
    with np.load(adapter) as found, np.load(RECIPE / "adapter.npz") as shipped:
        assert set(shipped.files) == set(found.files)
        assert all(shipped[name].shape == found[name].shape for name in shipped.files)
        assert any(np.any(found[name]) for name in found.files if name.endswith(":up"))
    run(sys.executable, RECIPE / "merge.py", adapter, "1.0", merged, path=sys.path)
    assert file_sha256(merged / "model.bin") != file_sha256(wheel_folder() / "model.bin")
    speech = loaded("speech")
    samples = np.pad(speech.say("valve gap thirty two", speech.Voice("flite", "slt")), (8000, 24_000))
    listener = WhisperListener(merged, threads=2, name="whisper smoke")
    heard = [*listener.feed(samples), *listener.finish()]
    assert "thirty two" in " ".join(one.best.text for one in heard)
