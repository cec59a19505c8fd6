"""Talk in other languages, of which an English listener is to write nothing. Own sentences. Pure and seeded.

No language of one list is in another; those of the lists for reporting are in tools/accuracy.
"""

from __future__ import annotations

import random
from collections.abc import Iterator

from speech import Voice

FRAMES: dict[str, dict[str, tuple[str, ...]]] = {
    "train": {
        "sv": ("ventilen sitter {n} millimeter högt", "fjädern är sliten", "vi börjar klockan {n}"),
        "pt": ("o pistão mede {n} milímetros", "a mola está gasta", "hoje chegaram {n} peças"),
        "nl": ("de klep staat op {n} millimeter", "de veer is versleten", "er liggen {n} bouten in de bak"),
        "cs": ("píst má {n} milimetrů", "pružina je opotřebovaná", "v krabici je {n} šroubů"),
        "fi": ("männän halkaisija on {n} millimetriä", "jousi on kulunut", "laatikossa on {n} pulttia"),
        "hu": ("a dugattyú {n} milliméter", "a rugó elkopott", "a dobozban {n} csavar van"),
        "tr": ("piston {n} milimetre", "yay aşınmış", "kutuda {n} cıvata var"),
    },
    "choose": {
        "da": ("stemplet måler {n} millimeter", "fjederen er slidt", "vi starter klokken {n}"),
        "ro": ("pistonul are {n} milimetri", "arcul este uzat", "în cutie sunt {n} șuruburi"),
        "hr": ("klip ima {n} milimetara", "opruga je istrošena", "počinjemo u {n} sati"),
    },
}
_SPEAKERS = ("", "+f1", "+f2", "+f4", "+m1", "+m2", "+m4", "+m6")


def lines(list_name: str, seed: int, count: int) -> Iterator[tuple[str, Voice]]:
    """*count* sentences, each with a voice of its language; a third or more hold a number."""
    rng = random.Random(f"{list_name}/{seed}")
    for _ in range(count):
        code = rng.choice(sorted(FRAMES[list_name]))
        number = rng.choice((str(rng.randint(1, 999)), f"{rng.randint(1, 99)},{rng.randint(1, 9)}"))
        pace, pitch = round(rng.uniform(0.8, 1.3), 2), rng.randint(25, 80)
        voice = Voice("espeak-ng", code + rng.choice(_SPEAKERS), pace, pitch)
        yield rng.choice(FRAMES[list_name][code]).format(n=number), voice
