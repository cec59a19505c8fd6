"""Other forms of an English word: plural and singular, past and -ing. Rules of spelling only."""

from __future__ import annotations

from saywright.understanding.bench_words import OTHER_NOUNS, PAST

_VOWELS = "aeiou"


def plural(word: str) -> str:
    """The regular plural of a noun."""
    if word.endswith(("s", "x", "z", "ch", "sh")):
        return word + "es"
    if word.endswith("y") and word[-2:-1] not in _VOWELS:
        return word[:-1] + "ies"
    return word + "s"


def singular(word: str) -> str:
    """The singular of a regular plural; the word itself where it is none."""
    if len(word) < 4 or word.endswith("ss") or not word.endswith("s") or word.endswith(("us", "is")):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("ches", "shes", "xes", "zes", "sses")):
        return word[:-2]
    return word[:-1]


def is_past(word: str) -> bool:
    """True for a past form: regular or in the short list of irregular ones."""
    return word in PAST or (word.endswith("ed") and len(word) > 4)


def is_ing(word: str) -> bool:
    """True for an -ing form."""
    return word.endswith("ing") and len(word) > 5


def verb_forms(word: str) -> tuple[str, ...]:
    """-s, -ed and -ing forms of a base form; () for a word that is a form already."""
    if is_past(word) or is_ing(word) or len(word) < 3:
        return ()
    if word.endswith("e"):
        return (word + "s", word + "d", word[:-1] + "ing")
    if word.endswith("y") and word[-2] not in _VOWELS:
        return (word[:-1] + "ies", word[:-1] + "ied", word + "ing")
    if _doubles(word):
        return (word + "s", word + word[-1] + "ed", word + word[-1] + "ing")
    return (plural(word), word + "ed", word + "ing")


def past_forms(word: str) -> tuple[str, ...]:
    """Nouns and forms beside a past participle: "scored" → "scoring", "score", "scores"."""
    if not (word.endswith("ed") and len(word) > 4):
        return ()
    stem = word[:-2]
    if len(stem) > 3 and stem[-1] == stem[-2] and stem[-1] not in "sl":
        base = stem[:-1]
        return (stem + "ing", base, plural(base))
    forms = (stem + "ing", stem, plural(stem), stem + "e", stem + "es")
    return tuple(form for form in forms if form not in OTHER_NOUNS)


def _doubles(word: str) -> bool:
    """One short syllable, consonant–vowel–consonant: "lap" → "lapped"."""
    if len(word) > 5 or word[-1] in "wxy":
        return False
    vowels = sum(letter in _VOWELS for letter in word)
    return vowels == 1 and word[-1] not in _VOWELS and word[-2] in _VOWELS
