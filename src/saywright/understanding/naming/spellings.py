"""British and American spellings of one word: "centre" said on a sheet that writes "center". Pure.

A word that only the sheet's other spelling is known for is read as the sheet spells it, wherever it
stands; where a sheet spells one word both ways, it is read as its positions do.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace

from saywright.understanding.meanings import NOTHING, Meaning, Name
from saywright.understanding.tokens import Token

# Pairs that follow no rule, each with what may stand behind it: "tyres", "moulded", "greyish".
_PAIRS = (
    ("tyre", "tire"), ("grey", "gray"), ("mould", "mold"), ("aluminium", "aluminum"), ("kerb", "curb"),
    ("carburettor", "carburetor"), ("carburetter", "carburetor"), ("carburettor", "carburetter"),
    ("plough", "plow"), ("gauge", "gage"), ("gaug", "gag"), ("draught", "draft"),
    ("disc", "disk"), ("vice", "vise"), ("analogue", "analog"), ("smoulder", "smolder"),
    ("sulphur", "sulfur"), ("sulphate", "sulfate"), ("sulphat", "sulfat"),
)  # fmt: skip
_TAILS = "(s|es|ed|y|ish|ing|ings)?"
_LAST = "[aeiou][b-df-hj-np-tv-z]+[ae]"  # before the l of a second syllable: no "stalled"
# British, American: the letters that differ, with what must stand around them.
_RULES = (
    (r"([bt])re(s|d)?", r"([bt])er(s|ed)?"),  # centre, fibre, metre
    (r"([bt])ring", r"([bt])ering"),  # centring
    (r"([lbdvpnmk])our(s|ed|ing|less)?", r"([lbdvpnmk])or(s|ed|ing|less)?"),  # colour, vapour
    (r"([iy])s(e|es|ed|er|ers|ing|ation)", r"([iy])z(e|es|ed|er|ers|ing|ation)"),  # oxidise, analyse
    (rf"({_LAST})ll(ed|er|ers|ing)", rf"({_LAST})l(ed|er|ers|ing)"),  # swivelled, pedalling
)
_MIDDLES = (("re", "er"), ("r", "er"), ("our", "or"), ("s", "z"), ("ll", "l"))
_SHORTEST = 4  # letters; shorter words are spelled in one way


def other_spellings(word: str) -> Iterator[str]:
    """What *word* may be spelled as on the other side of the ocean; some of it may be no word."""
    if len(word) < _SHORTEST or not word.isalpha():
        return
    for one, two in _PAIRS:
        for here, there in ((one, two), (two, one)):
            if word.startswith(here) and re.fullmatch(_TAILS, word[len(here) :]):
                yield there + word[len(here) :]
    for patterns, letters in zip(_RULES, _MIDDLES, strict=True):
        for side in (0, 1):
            found = re.search(f"{patterns[side]}$", word)
            if found is not None and found.start() > 0:
                behind = found.group(2) or "" if found.re.groups > 1 else "ing"
                yield word[: found.start()] + found.group(1) + _joined(letters[1 - side], behind)


def _joined(letters: str, behind: str) -> str:
    """ "centre" + "d", "center" + "ed"."""
    if letters == "re" and behind == "ed":
        return "red"
    return letters + ("ed" if letters == "er" and behind == "d" else behind)


def spelled_on_sheet(
    words: Collection[str], positions: Collection[str], table: Mapping[Name, Meaning]
) -> Mapping[str, str]:
    """Words that the sheet spells otherwise → its spelling; *words* are those of its names."""
    found: dict[str, str] = {}
    for word in sorted(words):
        known = table.get((word,), NOTHING)
        for other in other_spellings(word):
            both = other in words and word in positions and other not in positions
            if both or (other not in words and _means_no_more(table.get((other,), NOTHING), known)):
                found.setdefault(other, word)
    return found


def _means_no_more(other: Meaning, known: Meaning) -> bool:
    """True where the other spelling is no name of its own: bench talk of the same kind at most."""
    return other == Meaning(tags=other.tags & known.tags)


def add_spellings(table: dict[Name, Meaning], spelled: Mapping[str, str]) -> None:
    """Add each name of *table* as its words are read: "centre bolt" where positions say "center"."""
    for name in [n for n in table if not spelled.keys().isdisjoint(n)]:
        table.setdefault(tuple(spelled.get(word, word) for word in name), table[name])


def as_spelled(tokens: tuple[Token, ...], spelled: Mapping[str, str]) -> tuple[Token, ...]:
    """*tokens* as the sheet spells them."""
    if not spelled or _holds_none(spelled, tokens):
        return tokens
    return tuple([replace(t, text=spelled[t.text]) if t.text in spelled else t for t in tokens])


def _holds_none(spelled: Mapping[str, str], tokens: Iterable[Token]) -> bool:
    return spelled.keys().isdisjoint([token.text for token in tokens])
