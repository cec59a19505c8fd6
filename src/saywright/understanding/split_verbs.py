"""Verbs said around their object: "take the bowl off" means what "take off the bowl" means."""

from __future__ import annotations

from saywright.understanding.lexicon import PARTICLES, Lexicon
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.number_words import CLASSES
from saywright.understanding.tokens import BREAK

_NOT_SPLIT = frozenset({"STAGE", "PHOTO", "FILLER", "MAKE_THAT"})  # "put it back together" moves no part
_SPLIT_REACH = 6  # tokens between a verb and its particle


def join_split_verbs(texts: tuple[str, ...], lexicon: Lexicon) -> tuple[dict[int, Meaning], tuple[str, ...]]:
    """ "take the bowl off": the verb gets the meaning of "take off", the particle is blanked."""
    joined: dict[int, Meaning] = {}
    words = list(texts)
    for at, text in enumerate(texts):
        if text not in lexicon.splittable or _NOT_SPLIT & lexicon.names(texts, at).tags:
            continue
        for to in range(at + 2, min(at + 2 + _SPLIT_REACH, len(texts))):
            if texts[to - 1] in {BREAK, "and", "is", "but"}:
                break
            if texts[to] not in PARTICLES or not words[to] or _fills(texts, at, to):
                continue
            length, meaning = _verb_with_particle(text, texts, to, lexicon)
            if length:
                joined[at] = meaning
                for blank in range(to, to + length):
                    words[blank] = ""
                break
    return joined, tuple(words)


def _fills(texts: tuple[str, ...], at: int, to: int) -> bool:
    """ "put twelve mil of oil in the left leg": an amount goes in somewhere; no part is fitted."""
    return texts[at + 1] in CLASSES and texts[to] in {"in", "on"} and texts[to + 1 : to + 2] == ("the",)


def _verb_with_particle(verb: str, texts: tuple[str, ...], to: int, lexicon: Lexicon) -> tuple[int, Meaning]:
    for length in (3, 2, 1):
        particle = texts[to : to + length]
        if len(particle) < length or (
            to + length < len(texts)
            and length == 1
            and lexicon.table.get(texts[to + 1 : to + 2], NOTHING).parts
        ):
            continue
        meaning = lexicon.table.get((verb, *particle))
        if meaning is not None and (meaning.acts or meaning.tags & {"MOVE_OFF", "MOVE_ON"}):
            return length, meaning
    return 0, NOTHING


def split_kind(meaning: Meaning) -> str:
    """The kind of tag that a verb joined with its particle gets."""
    if meaning.acts:
        return "ACT"
    return "OFF" if "MOVE_OFF" in meaning.tags else "ON"
