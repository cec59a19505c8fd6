"""The tools that the Makefile runs."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from loading import TOOLS, tool

ROOT = Path(__file__).parent.parent


def test_a_long_function_and_a_long_module_are_named(tmp_path):
    """Each is told with its place and its length; lengths just below the bound are not."""
    check = tool("size_check").too_long
    file = tmp_path / "long.py"
    file.write_text("def f():\n" + "    x = 1\n" * 49, encoding="utf-8")
    assert [f"{file}:1: f has 50 lines, 50 or more"] == check(file, functions=True)
    assert [] == check(file, functions=False)
    file.write_text("def f():\n" + "    x = 1\n" * 48, encoding="utf-8")
    assert [] == check(file, functions=True)
    file.write_text("x = 1\n" * 300, encoding="utf-8")
    assert [f"{file}: 300 lines, 300 or more"] == check(file, functions=True)
    file.write_text("x = 1\n" * 299, encoding="utf-8")
    assert [] == check(file, functions=True)


@pytest.mark.parametrize("script", ["system-packages", "install-locked", "check-wheel"])
def test_a_script_is_plain_shell(script):
    """The scripts parse in the plain shell that Debian has as /bin/sh."""
    assert 0 == subprocess.run(["sh", "-n", str(TOOLS / script)], check=False).returncode


@pytest.mark.parametrize("lock", ["run", "dev", "installer"])
def test_a_lock_has_hashes_and_names_no_index(lock):
    """Every package of a lock is pinned with a hash, and no address is in it."""
    text = (ROOT / "requirements" / f"{lock}.lock").read_text(encoding="utf-8")
    entries = [entry for entry in text.split("\n") if entry and entry[0].isalnum()]
    assert 0 < len(entries)
    assert [] == [entry for entry in entries if "==" not in entry or not entry.endswith("\\")]
    assert "://" not in text
    assert "index-url" not in text


def test_the_locks_agree():
    """What the demo and the tests both need is locked in the same version, so one follows the other fast."""
    versions = {}
    for lock in ("run", "dev"):
        text = (ROOT / "requirements" / f"{lock}.lock").read_text(encoding="utf-8")
        versions[lock] = {line.split(" ;")[0].rstrip(" \\") for line in text.splitlines() if "==" in line}
    assert set() == versions["run"] - versions["dev"]
