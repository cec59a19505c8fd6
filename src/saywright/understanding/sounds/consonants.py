"""How alike two English words sound, by their consonants. Crude on purpose: it only proposes."""

from __future__ import annotations

from functools import lru_cache

_PAIRS = (
    ("ough", "f"), ("augh", "f"), ("igh", "y"), ("eigh", "y"), ("tch", "ch"), ("dge", "j"),
    ("sch", "sk"), ("ph", "f"), ("gh", ""), ("kn", "n"), ("gn", "n"), ("wr", "r"), ("ck", "k"),
    ("qu", "kw"), ("ch", "C"), ("sh", "C"), ("th", "t"), ("x", "ks"), ("ce", "se"), ("ci", "si"),
    ("cy", "sy"), ("ge", "je"), ("gi", "ji"),
)  # fmt: skip
_CLASS = {
    **dict.fromkeys("bp", "P"),
    **dict.fromkeys("dt", "T"),
    **dict.fromkeys("fv", "F"),
    **dict.fromkeys("gkcq", "K"),
    **dict.fromkeys("jC", "J"),
    **dict.fromkeys("sz", "S"),
    **dict.fromkeys("mn", "N"),
    "l": "L",
    "r": "R",
    "h": "H",
}


_STOPS = frozenset("PTK")
_STOP_FOR_STOP = 0.5


@lru_cache(maxsize=4096)
def sound_key(word: str) -> str:
    """Consonant classes of *word* in order, doubled ones once: "jet" and "chat" are both "JT"."""
    text = word
    for spelled, heard in _PAIRS:
        text = text.replace(spelled, heard)
    key = ""
    for letter in text:
        code = _CLASS.get(letter, "")
        if code and not key.endswith(code):
            key += code
    return key


def likeness(one: str, other: str) -> float:
    """1 for the same sound key, 0 for nothing in common: 1 − edit distance ÷ longer key."""
    a, b = sound_key(one), sound_key(other)
    if not a or not b:
        return 0.0
    return 1.0 - _distance(a, b) / max(len(a), len(b))


def _distance(a: str, b: str) -> float:
    """Levenshtein distance (V. I. Levenshtein, 1966); two stops are half as far apart as other sounds."""
    row = [float(at) for at in range(len(b) + 1)]
    for i, left in enumerate(a, start=1):
        previous, row[0] = row[0], float(i)
        for j, right in enumerate(b, start=1):
            previous, row[j] = row[j], min(row[j] + 1, row[j - 1] + 1, previous + _apart(left, right))
    return row[-1]


def _apart(one: str, other: str) -> float:
    """ "cat" for "cap": a stop is heard as another stop more often than as anything else."""
    return 0.0 if one == other else _STOP_FOR_STOP if {one, other} <= _STOPS else 1.0


@lru_cache(maxsize=8192)
def letters_apart(one: str, other: str) -> int:
    """How many letters differ between two words."""
    row = list(range(len(other) + 1))
    for i, left in enumerate(one, start=1):
        previous, row[0] = row[0], i
        for j, right in enumerate(other, start=1):
            previous, row[j] = row[j], min(row[j] + 1, row[j - 1] + 1, previous + (left != right))
    return row[-1]
