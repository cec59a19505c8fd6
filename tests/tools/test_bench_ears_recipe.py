"""The recipe of the bench ears: its lists, its figures and, with PyTorch, a few steps of training."""

import itertools
import os
import shutil
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from loading import load

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
    for one, other in itertools.combinations(("train", "choose", "report"), 2):
        parts = [{part for trade in text.TRADES[name] for part in trade.parts} for name in (one, other)]
        assert set() == parts[0] & parts[1]
        assert set() == set(text.READ[one]) & set(text.READ[other])
        assert set() == set(text.TALK[one]) & set(text.TALK[other])
        said = [{line.words for line in text.lines(name, 1, 300)} for name in (one, other)]
        assert set() == said[0] & said[1]


def test_voices_of_the_lists_are_others_than_those_of_training():
    """A speaker is in one list only."""
    speech = loaded("speech")
    choose, report = ({voice.name for voice in speech.EVALUATED[name]} for name in ("choose", "report"))
    assert set() == choose & report
    trained = {"slt", *(f"{accent}+{variant}" for accent in speech._ACCENTS for variant in speech._VARIANTS)}
    assert set() == trained & (choose | report)


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


@pytest.mark.slow
def test_a_few_steps_of_training_give_an_adapter(tmp_path):
    """pack and train --smoke run on a processor; what comes out merges. Left out without PyTorch."""
    pytest.importorskip(
        "torch", reason="PyTorch is not a dependency; the recipe has an environment of its own"
    )
    needed = [Path("/usr/share/wordnet"), Path("/usr/share/asterisk/sounds/en_US_f_Allison/digits/1.g722")]
    if not all(path.exists() for path in needed) or not (shutil.which("flite") and shutil.which("espeak-ng")):
        pytest.skip("flite, espeak-ng, WordNet or the recorded prompts are not installed")
    paths = os.pathsep.join(str(ROOT / part) for part in ("tools", "src", "models/bench_ears"))
    env = {**os.environ, "PYTHONPATH": os.pathsep.join([paths, *sys.path])}
    pack, out = tmp_path / "pack", tmp_path / "out"
    for command in (["pack.py", str(pack)], ["train.py", "--pack", str(pack), "--out", str(out), "--smoke"]):
        subprocess.run([sys.executable, str(RECIPE / command[0]), *command[1:]], check=True, env=env)
    with np.load(out / "rank4-steps3-seed1.npz") as found, np.load(RECIPE / "adapter.npz") as shipped:
        assert set(shipped.files) == set(found.files)
        assert all(shipped[name].shape == found[name].shape for name in shipped.files)
        assert any(np.any(found[name]) for name in found.files if name.endswith(":up"))
