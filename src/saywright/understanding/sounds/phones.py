"""How alike two English words sound, vowels too: spelling → crude phones, and a weighted distance of them.

Finer than the consonants of `consonants`: it is asked of words that nothing here knows, where a name
or a state could stand.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import accumulate
from typing import Final

# Spellings by the sound they mostly have; the longest first. Capitals are sounds of their own:
# C ch, S sh, T th, N ng, I ee, E ay, Y eye, O oh, U oo, A aw, W ow, R er.
_SPELLED: Final = (
    ("ough", "A"), ("augh", "A"), ("eigh", "E"), ("tion", "Sn"), ("igh", "Y"), ("tch", "C"), ("dge", "j"),
    ("cea", "sI"), ("cei", "sI"), ("sei", "sI"), ("que", "k"), ("alk", "Ak"), ("gge", "ge"),
    ("sch", "sk"), ("ear", "Ir"), ("air", "Er"), ("are", "Er"), ("oar", "Or"), ("ore", "Ar"), ("oor", "Or"),
    ("our", "Ar"), ("ere", "Er"), ("ph", "f"), ("gh", ""), ("kn", "n"), ("gn", "n"), ("wr", "r"), ("wh", "w"),
    ("ck", "k"), ("qu", "kw"), ("ch", "C"), ("sh", "S"), ("th", "T"), ("ng", "N"), ("mb", "m"), ("ee", "I"),
    ("ea", "I"), ("ie", "I"), ("oo", "U"), ("ew", "U"), ("ue", "U"), ("ai", "E"), ("ay", "E"), ("ei", "E"),
    ("ey", "I"), ("oa", "O"), ("oe", "O"), ("ow", "O"), ("ou", "W"), ("au", "A"), ("aw", "A"), ("al", "Al"),
    ("war", "wA"),
    ("or", "A"), ("er", "R"), ("ir", "R"), ("ur", "R"), ("ar", "ar"), ("oi", "Oy"), ("oy", "Oy"),
    ("ce", "se"), ("ci", "si"), ("cy", "sy"), ("ge", "je"), ("gi", "ji"), ("x", "ks"), ("c", "k"), ("q", "k"),
)  # fmt: skip
# Words of the bench, and some that they are heard as, that sound otherwise than they are spelled.
_IRREGULAR: Final = {
    "rough": "ruf", "tough": "tuf", "enough": "Inuf", "cough": "kof", "trough": "trof", "quay": "kI",
    "bah": "bar", "height": "hYt", "weight": "wEt", "lose": "lUs", "whole": "hOl", "heart": "hart",
    "rear": "rIr", "rare": "rEr", "cruise": "krUs", "bruise": "brUs", "fruit": "frUt", "suit": "sUt",
    "juice": "jUs",
}  # fmt: skip
_LONG: Final = {"a": "E", "e": "I", "i": "Y", "o": "O", "u": "U"}  # before a consonant and a silent e
_VOWELS: Final = frozenset("aeiouyIEYOUAWR")
_TWIN: Final = {"b": "p", "d": "t", "T": "t", "g": "k", "v": "f", "z": "s", "S": "s", "j": "C"}
_NEAR: Final = {
    frozenset(pair): cost
    for pairs, cost in (
        ("pb td kg fv sz Cj CS jS Td Tt Tf TD mn nN rR yI iI oA aA oO uU eE ae ao ei eR aR uR", 0.3),
        ("pt pk tk bd bg dg mN lr rw ly vw vb fT sT sS zj jd Ct sC lw hw wr AO OU EY YI au ou", 0.5),
    )
    for pair in pairs.split()
}
_VOWEL_FOR_VOWEL: Final = 0.5
_APART: Final = {
    one + other: _NEAR.get(frozenset((one, other)), _VOWEL_FOR_VOWEL if {one, other} <= _VOWELS else 1.0)
    for one in {*"".join(map("".join, _NEAR)), *_VOWELS}
    for other in {*"".join(map("".join, _NEAR)), *_VOWELS}
}  # two sounds, as a string → how far they are apart; others are 1 apart
_LOST: Final = 0.9  # what a sound costs that only one of the words has
_LOSS: Final = {**dict.fromkeys((*"hwyr", *_VOWELS), 0.5), "l": 0.6}  # those that are easily lost


@lru_cache(maxsize=8_192)
def phones(word: str) -> str:
    """The sounds of *word*, one character each; "" where it has none."""
    if word in _IRREGULAR:
        return _IRREGULAR[word]
    text = word.lower()
    text = text[:-1] if len(text) > 3 and text.endswith("e") and text[-2] not in _VOWELS else text
    silent_e = text != word.lower()
    out, at = "", 0
    while at < len(text):
        if silent_e and at == len(text) - 2 and text[at] in _LONG and text[at + 1].isalpha():
            out, at = out + _LONG[text[at]], at + 1
            continue
        found = next(((s, p) for s, p in _SPELLED if text.startswith(s, at)), (text[at], text[at]))
        out, at = out + found[1], at + len(found[0])
    out = (
        f"{out[:-2]}d" if out.endswith("ed") and word.endswith("ed") and out[-3:-2] not in "td" else out
    )  # "frayed"
    heard = "".join(sound for i, sound in enumerate(out) if sound.isalpha() and out[i - 1 : i] != sound)
    return f"{heard[:-2]}l" if heard.endswith("le") else heard


@lru_cache(maxsize=8_192)
def consonants(word: str) -> str:
    """The consonants that sound in *word*, voiced ones as their twins, without an r."""
    return "".join(_TWIN.get(sound, sound) for sound in phones(word) if sound not in _VOWELS)


@lru_cache(maxsize=8_192)
def syllables(word: str) -> int:
    """How many vowels sound in *word*."""
    return sum(sound in _VOWELS for sound in phones(word))


@lru_cache(maxsize=16_384)
def alike(one: str, other: str, least: float = 0.0) -> float:
    """1 for words that sound the same, 0 for nothing in common: 1 − distance ÷ longer word.

    What cannot come to *least* is 0 and costs little.
    """
    a, b = phones(one), phones(other)
    longer = max(len(a), len(b))
    if not a or not b or abs(len(a) - len(b)) * 0.5 > (1.0 - least) * longer:
        return 0.0
    far = _distance(a, b, (1.0 - least) * longer)
    return max(0.0, 1.0 - far / longer)


def _distance(a: str, b: str, most: float) -> float:
    """Levenshtein distance (V. I. Levenshtein, 1966), each step as far as the sounds are apart.

    Given up where it is above *most* for certain.
    """
    losses = [_LOSS.get(sound, _LOST) for sound in b]
    row = [0.0, *accumulate(losses)]
    for left in a:
        lost = _LOSS.get(left, _LOST)
        previous = row[0]
        least = before = row[0] = previous + lost
        for j, right in enumerate(b, start=1):
            far = previous if left == right else previous + _APART.get(left + right, 1.0)
            previous = row[j]
            far = previous + lost if previous + lost < far else far
            before += losses[j - 1]
            before = row[j] = before if before < far else far
            least = before if before < least else least
        if least > most:
            return float(len(a) + len(b))
    return row[-1]
