"""Other forms of an English word: plural and singular, past and -ing. Rules of spelling only."""

from __future__ import annotations

from functools import lru_cache

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


_BASE_ED = frozenset({"bleed", "speed", "exceed", "proceed"})


def is_past(word: str) -> bool:
    """True for a past form: regular or in the short list of irregular ones."""
    return word in PAST or (word.endswith("ed") and len(word) > 4 and word not in _BASE_ED)


def is_ing(word: str) -> bool:
    """True for an -ing form."""
    return word.endswith("ing") and len(word) > 5


@lru_cache(maxsize=4096)
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


def fault_forms(word: str) -> tuple[str, ...]:
    """Other forms of a one-word name of a fault: "hazed" → "hazy", "crumbling" → "crumbled"."""
    if word.endswith("ed") and len(word) > 4:
        return (*past_forms(word), *_nouns(word[:-2]), *_adjectives(word[:-2]))
    if is_ing(word):
        stem = word[:-3]
        base = stem[:-1] if len(stem) > 3 and stem[-1] == stem[-2] and stem[-1] not in "sl" else stem
        forms = (base, base + "s", stem + "ed", base + "age", stem + "e", stem + "es")
        return tuple(form for form in forms if form not in OTHER_NOUNS)
    if word.endswith("y"):
        return (word[:-1] + "iness", *(form for form in (word[:-1] + "e",) if form not in OTHER_NOUNS))
    if len(word) < 3 or word in PAST or word.endswith("s"):
        return ()
    past = verb_forms(word)[1:2]
    return (*past, plural(word), word + "ness", *_adjectives(word.removesuffix("e")))


def _nouns(stem: str) -> tuple[str, ...]:
    """ "distort-" → "distortion", "corrod-" → "corrosion", "misalign-" → "misalignment"."""
    shorter = stem[:-1] + "sion" if stem.endswith("d") else stem + "ion"
    return (shorter, stem + "ation", stem + "ment", stem + "age")


def _adjectives(stem: str) -> tuple[str, ...]:
    """ "haz-" → "hazy", "grit" → "gritty"."""
    return (stem + "y", stem + stem[-1] + "y") if stem and stem[-1] not in "yi" else ()


def act_nouns(word: str) -> tuple[str, ...]:
    """Nouns of doing beside a verb: "adjust" → "adjustment", "lubricate" → "lubrication"."""
    if is_past(word) or is_ing(word) or len(word) < 5:
        return ()
    stem = word.removesuffix("e")
    return (stem + "ion", word + "ment", stem + "ation")


_PREFIXED = 5  # letters of the longest word that is one syllable: "unclip" has more


def _doubles(word: str) -> bool:
    """One short syllable, consonant–vowel–consonant: "lap" → "lapped", "unclip" → "unclipped"."""
    word = word.removeprefix("un") if len(word) > _PREFIXED else word
    if len(word) > 5 or word[-1] in "wxy":
        return False
    vowels = sum(letter in _VOWELS for letter in word)
    return vowels == 1 and word[-1] not in _VOWELS and word[-2] in _VOWELS
