"""Kinds of words of which an utterance is made that only says where one goes: "over to the other one then".

Each kind is a letter, so that it is told by the order of the kinds, not of the words, what leads where.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from saywright.understanding.bench_words import FINISHED
from saywright.understanding.wordforms import verb_forms


def _words(text: str) -> tuple[str, ...]:
    return tuple(text.split(" "))


def _forms(text: str) -> tuple[str, ...]:
    return tuple(form for word in _words(text) for form in (word, *verb_forms(word)))


_KINDS: Final = {
    # G: goes, or changes over; a turn
    "G": _forms("move turn switch swap change jump hop skip pop nip cross shift return walk step flip spin")
    + _words("go goes going gone went come comes coming came swing swinging shine spinning heading"),
    # L: begins on what is there, or looks at it
    "L": _forms("kick look tackle start attack strip work crack carry finish")
    + _words("see seeing do doing does get getting begin beginning take taking making make build building")
    + _words("want wants"),
    # H: hands it over
    "H": _words("pass hand give bring fetch grab"),
    # I: leads there by itself
    "I": _words("onto over across round around up back down"),
    # a: may lead there
    "a": _words("on to at with for in of about"),
    # O: tells that it comes now
    "O": _words("now next then time first"),
    # E: the same is done there
    "E": _words("same again repeat repeating job thing procedure routine drill likewise ditto"),
    # R: what is left to do
    "R": _words("leaves left remains remaining only just"),
    # Z: what is left is done
    "Z": (*FINISHED, "pieces", "bits"),
    # V: leaves it, or has had enough of it
    "V": _words("leave leaving enough from wait happy"),
    # W: is still on it
    "W": _words("still staying stay sticking stick more"),
    # N: what a place is called
    "N": _words("side end one hand wheel unit corner bank half"),
    "S": _words("sides ends"),
    # d: points at what is in hand
    "d": _words("this that"),
    # . : leads nowhere, and denies nothing
    ".": _words(
        "i we me us you let will shall have can could would might may am is are been well as the a "
        "an it its and so okay ok right yeah um uh er oh anyway here there while bit quick straight what "
        "like mate lads please yes yep aye today my his their our think reckon guess number all off out "
        "along they them him her she he these those"
    ),
}
KIND_OF: Final[Mapping[str, str]] = {word: kind for kind, words in _KINDS.items() for word in words}
