"""Words → phones of the CMU set, for words that a pronouncing dictionary lacks.

Pure. First the spelling variants of the trade, then a split into two known words, then a small
table of letter rules. It need not be elegant: a rough pronunciation lets a word be heard at all.
"""

from __future__ import annotations

from collections.abc import Mapping

# Words that the dictionary has with another meaning, or does not have and that rules would miss.
OWN: dict[str, str] = {
    "psi": "P IY EH S AY",  # the dictionary holds the Greek letter
    "kpa": "K EY P IY EY",
    "rpm": "AA R P IY EH M",
    "mm": "M IH L AH M IY T ER",
    "juliett": "JH UW L IY EH T",
    "fower": "F OW ER",
    "carburettor": "K AA R B ER EH T ER",
    "circlip": "S ER K L IH P",
}
_RULES: tuple[tuple[str, str], ...] = (
    ("tion", "SH AH N"),
    ("ture", "CH ER"),
    ("ough", "AO"),
    ("eigh", "EY"),
    ("igh", "AY"),
    ("tch", "CH"),
    ("dge", "JH"),
    ("sch", "S K"),
    ("ck", "K"),
    ("ch", "CH"),
    ("sh", "SH"),
    ("th", "TH"),
    ("ph", "F"),
    ("wh", "W"),
    ("qu", "K W"),
    ("ng", "NG"),
    ("gh", "G"),
    ("kn", "N"),
    ("wr", "R"),
    ("ee", "IY"),
    ("ea", "IY"),
    ("oo", "UW"),
    ("ou", "AW"),
    ("ow", "OW"),
    ("oi", "OY"),
    ("oy", "OY"),
    ("ai", "EY"),
    ("ay", "EY"),
    ("au", "AO"),
    ("aw", "AO"),
    ("oa", "OW"),
    ("ew", "UW"),
    ("ie", "IY"),
    ("ei", "EY"),
    ("er", "ER"),
    ("ir", "ER"),
    ("ur", "ER"),
    ("ar", "AA R"),
    ("or", "AO R"),
    ("bb", "B"),
    ("dd", "D"),
    ("ff", "F"),
    ("gg", "G"),
    ("ll", "L"),
    ("mm", "M"),
    ("nn", "N"),
    ("pp", "P"),
    ("rr", "R"),
    ("ss", "S"),
    ("tt", "T"),
    ("zz", "Z"),
    ("a", "AE"),
    ("b", "B"),
    ("c", "K"),
    ("d", "D"),
    ("e", "EH"),
    ("f", "F"),
    ("g", "G"),
    ("h", "HH"),
    ("i", "IH"),
    ("j", "JH"),
    ("k", "K"),
    ("l", "L"),
    ("m", "M"),
    ("n", "N"),
    ("o", "AA"),
    ("p", "P"),
    ("q", "K"),
    ("r", "R"),
    ("s", "S"),
    ("t", "T"),
    ("u", "AH"),
    ("v", "V"),
    ("w", "W"),
    ("x", "K S"),
    ("y", "IY"),
    ("z", "Z"),
)
_LETTERS = dict(
    zip(
        "abcdefghijklmnopqrstuvwxyz",
        (
            "EY",
            "B IY",
            "S IY",
            "D IY",
            "IY",
            "EH F",
            "JH IY",
            "EY CH",
            "AY",
            "JH EY",
            "K EY",
            "EH L",
            "EH M",
            "EH N",
            "OW",
            "P IY",
            "K Y UW",
            "AA R",
            "EH S",
            "T IY",
            "Y UW",
            "V IY",
            "D AH B AH L Y UW",
            "EH K S",
            "W AY",
            "Z IY",
        ),
        strict=True,
    )
)
_SOFT = {"ce": "S", "ci": "S", "cy": "S", "ge": "JH", "gi": "JH"}
_DIGITS = (
    "Z IH R OW",
    "W AH N",
    "T UW",
    "TH R IY",
    "F AO R",
    "F AY V",
    "S IH K S",
    "S EH V AH N",
    "EY T",
    "N AY N",
)
_SHORTEST_HALF = 3


def pronounce(word: str, known: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """Ways to say *word* as phone strings, at least one; *known* is the dictionary."""
    if word in OWN:
        return (OWN[word],)
    if word in known:
        return known[word]
    return (_compound(word, known) or _spelled(word) or _by_rules(word),)


def _compound(word: str, known: Mapping[str, tuple[str, ...]]) -> str:
    """Two known words in one ("splitpin"), or one and a plain ending ("gaskets"); "" where it is neither."""
    for ending, phones in (("'s", "Z"), ("s", "Z"), ("ed", "D"), ("ing", "IH NG"), ("er", "ER")):
        stem = word.removesuffix(ending)
        if stem != word and stem in known:
            return f"{known[stem][0]} {phones}"
    for at in sorted(
        range(_SHORTEST_HALF, len(word) - _SHORTEST_HALF + 1), key=lambda i: abs(2 * i - len(word))
    ):
        if word[:at] in known and word[at:] in known:
            return f"{known[word[:at]][0]} {known[word[at:]][0]}"
    return ""


def _spelled(word: str) -> str:
    """Letter by letter where there is no vowel, figures by name; "" for a word that can be said."""
    if any(mark in "aeiouy" for mark in word) and not any(mark.isdigit() for mark in word):
        return ""
    named = [_DIGITS[int(mark)] if mark in "0123456789" else _LETTERS.get(mark, "") for mark in word]
    return " ".join(phones for phones in named if phones)


def _by_rules(word: str) -> str:
    phones: list[str] = []
    at = 0
    letters = word.replace("'", "")
    while at < len(letters):
        if at == len(letters) - 1 and letters[at] == "e" and phones:
            break  # a last e is silent
        if letters[at : at + 2] in _SOFT:
            phones.append(_SOFT[letters[at : at + 2]])
            at += 1
            continue
        for spelling, sound in _RULES:
            if letters.startswith(spelling, at):
                phones.append(sound)
                at += len(spelling)
                break
        else:
            at += 1  # a letter of another alphabet
    return " ".join(phones) or "AH"
