"""A state that was heard wrong, said of a part: "cable is afraid where it enters", "a little notchy".

Where a state follows a part and its verb, the one state of the sheet that sounds like the word is meant. What
sounds only roughly so asks.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from typing import Final

from saywright.understanding.bench_words import NEUTRAL, PART_NOUNS, PAST, PLAIN
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES, DENOMINATORS
from saywright.understanding.sounds.consonants import letters_apart, sound_key
from saywright.understanding.sounds.phones import alike, consonants, phones, syllables
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import is_past, plural, singular, verb_forms

_NEAR: Final = 0.78  # alike, of a word said of a part
_NEAR_OF_IT: Final = 0.89  # of a word said of "it"
_PAST_NEAR: Final = 0.06  # more, of a past form: most verbs are said of a part
_SURE: Final = 0.88  # from here on it does not ask
_APART: Final = 0.06  # the next best is less alike by this at least
_FEWEST_SOUNDS: Final = (4, 3)  # of a word, and of one that is sure
_LONG, _VOWELS = 7, frozenset("aeiou")  # letters of a word in which one vowel may be another: "parished"
_LETTER: Final = 0.03  # less alike by this for each letter that differs, among several
_LETTERS_MORE: Final = 3  # in one of two words that sound alike
_REACH: Final = 6  # tokens from the state back to its verb
BE: Final = frozenset({"is", "are", "was", "were", "been", "gone", "has", "have", "looks", "look", "feels"})
STATE_LINKS: Final = frozenset(
    {"a", "bit", "little", "badly", "slightly", "very", "quite", "rather", "only", "also", "all",
     "just", "well", "not", "still", "too", "so", "completely", "totally", "really", "more", "now",
     "pretty", "gone", "been", "touch", "got", "tiny", "half"}
)  # fmt: skip
_BEHIND: Final = frozenset(
    {"", BREAK, "and", "on", "in", "at", "but", "all", "up", "round", "right", "so", "where",
     "near", "now", "though", "from", "by", "along", "for", "as", "inside", "outside", "with"}
)  # fmt: skip
# Said of parts as they are, whether the sheet has them or not.
_ORDINARY: Final = frozenset(
    {"soft", "cold", "hot", "warm", "cool", "thin", "thick", "long", "short", "dark", "deep",
     "late", "cheap", "shiny", "heavy", "stiff", "square", "round", "smooth", "sharp", "sound",
     "quiet", "steady", "level", "slow", "fast", "tiny", "huge", "odd", "strange", "fiddly",
     "tricky", "handy", "staked", "routed", "tucked", "home", "dead", "grand", "great", "correct",
     "crooked", "gorgeous", "greasy", "amazing", "busy", "rigid", "grim", "messy", "liquid", "pants",
     "crap", "stuffed", "blue", "slippery", "steel", "minging", "toast", "dear", "wait",
     "wide", "narrow", "high", "low", "tall", "light", "weak", "strong", "fresh", "new", "old", "rich",
     "lean", "fat", "big", "small", "tight", "nearly", "creaks", "squeals", "grumbles", "crisp", "scaled",
     "glossy", "written", "supple", "mush", "oval", "sprung", "stopping", "sings", "singing",
     "twice"}
)  # fmt: skip
# "right's shorter": more of it than another, or than it was.
ORDINARY: Final = _ORDINARY | {
    word.removesuffix("e").removesuffix("y") + more
    for word in _ORDINARY
    for more in ("ier" if word.endswith("y") else "er", f"{word[-1]}er")
}
_NUMBERS: Final = frozenset(CLASSES) | frozenset(DENOMINATORS)
_NEVER: Final = NEUTRAL | PLAIN
_PEOPLE: Final = frozenset({"i", "he", "she", "we", "you", "am", "him", "lad", "me"})
_ONLY_LINKS: Final = frozenset(
    {"all", "not", "so", "now", "well", "also", "a", "only", "more", "got", "been", "half"}
)
_SOME: Final = frozenset({"bit", "little", "touch", "lot"})
_OBJECTS: Final = frozenset({"it", "them", "him", "this", "that", "these", "those"})
_OF_IT: Final = frozenset({"it", "they", "this", "that", "these", "those", "both", "them"})


def state_of_part(texts: Sequence[str], at: int, lexicon: Lexicon) -> str:
    """The state that the word at *at* was; "" where it may be anything."""
    text = texts[at]
    if texts[at - 1 : at] == ["a"] or text in _NEVER:
        return ""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    if behind in _OBJECTS and text.endswith("ing"):
        return ""  # "if you're writing it down"
    ends = behind in _BEHIND or (behind == "a" and texts[at + 2 : at + 3] and texts[at + 2] in _SOME)
    verb = at - 1
    while verb >= 0 and at - verb < _REACH and texts[verb] in STATE_LINKS:
        verb -= 1
    if verb > 0 and texts[verb] in BE:
        least = _least(texts, verb, lexicon)
        least = least if ends else max(least, _NEAR_OF_IT) if least else 0.0
    else:
        told = (ends or behind == "new") and _is_told(texts, at, verb, lexicon)
        least = _NEAR_OF_IT if told else 0.0
    if not least or _is_form(text, lexicon) or text in lexicon.states:
        return ""
    if not (verb > 0 and texts[verb] in BE):
        return _hardly_else(text, lexicon)
    least += _PAST_NEAR if text.endswith("ed") else 0.0
    return _nearest(text, least, lexicon) or _hardly_else(text, lexicon)


def surely_told(texts: Sequence[str], at: int, lexicon: Lexicon) -> dict[int, str]:
    """The same, of a word that nothing knows and that was hardly anything else."""
    state = state_of_part(texts, at, lexicon)
    return {at: state} if state and is_sure(texts[at], state) else {}


def _is_told(texts: Sequence[str], at: int, verb: int, lexicon: Lexicon) -> bool:
    """ "ceramic scared", "bit warn", "freed and gleaned": a state told without its verb."""
    before = texts[verb] if verb >= 0 else ""
    if texts[at] in lexicon.words or texts[at] in PART_NOUNS:
        return False
    if verb < at - 1 and before not in _PEOPLE and before not in _NUMBERS:
        return not _ONLY_LINKS.issuperset(texts[verb + 1 : at])
    if before == "and" and verb:
        told = lexicon.table.get((texts[verb - 1],), NOTHING)
        return bool(told.conditions or told.acts)
    meant = lexicon.table.get((before,), NOTHING)
    return bool(meant.parts or meant.aliases or meant.positions or (meant.conditions and verb == at - 1))


def _hardly_else(text: str, lexicon: Lexicon) -> str:
    """The state or doing of the sheet with the same consonants that hardly sounds different: "sees"."""
    key = f"{text} hardly"
    if key not in lexicon.heard:
        forms = _as_said(text)
        known = dict.fromkeys((*lexicon.states, *_done(lexicon.deeds)))
        like = {
            word: max(alike(form, word, _NEAR_OF_IT) for form in forms)
            for word in known
            if any(consonants(form) == consonants(word) for form in forms)
            and word not in {plural(text), singular(text)}
        }
        ranked = sorted(((far, word) for word, far in like.items() if far >= _NEAR_OF_IT), reverse=True)
        told = {_told(word, lexicon) for far, word in ranked if far >= ranked[0][0] - _APART}
        lexicon.heard[key] = ranked[0][1] if len(told) == 1 and len(phones(text)) >= _FEWEST_SOUNDS[1] else ""
    return lexicon.heard[key]


def _told(word: str, lexicon: Lexicon) -> tuple[object, ...]:
    meant = lexicon.table.get((word,), NOTHING)
    return (*meant.conditions, *(act.id for act in meant.acts))


def _done(deeds: Iterable[str]) -> Iterator[str]:
    """ "drain" → "drained"."""
    return (form for deed in deeds for form in (deed, *verb_forms(deed)) if is_past(form))


def _is_form(text: str, lexicon: Lexicon) -> bool:
    """ "freed", "soft", "nearly": a form of a word that the sheet has, a state of its own, or how far."""
    if text.endswith("ly") or text in PAST or text in ORDINARY or text in _NUMBERS or text in lexicon.units:
        return True
    bases = (text[:-2], text[:-1], text[:-3]) if text.endswith("ed") else ()
    bases = (text[:-3], text[:-3] + "e", text[:-4]) if text.endswith("ing") else bases
    return any((b in lexicon.words or (b,) in lexicon.table) and text in verb_forms(b) for b in bases)


def state_like(text: str, lexicon: Lexicon) -> str:
    """The state that the common word *text* is hardly told from; "" for none."""
    known = text in PLAIN or text in NEUTRAL or _is_form(text, lexicon)
    return "" if known else _nearest(text, _SURE, lexicon)


@lru_cache(maxsize=64)
def _by_begin(words: tuple[str, ...]) -> dict[str, list[str]]:
    """The *words* by their first consonant, voiced or not."""
    found: dict[str, list[str]] = {}
    for word in words:
        found.setdefault(sound_key(word)[:1], []).append(word)
    return found


def is_sure(text: str, word: str) -> bool:
    """True where the state *word* was hardly anything else."""
    unlike = [pair for pair in zip(text, word, strict=False) if pair[0] != pair[1]]
    vowel = len(unlike) == 1 and set(unlike[0]) <= _VOWELS and len(text) == len(word) >= _LONG
    return vowel or max(alike(form, word) for form in _as_said(text)) >= _SURE


def _as_said(text: str) -> tuple[str, ...]:
    """ "sees solid": the d of "seized" is not heard before another consonant."""
    return (text, f"{text}d") if text.endswith("s") and not text.endswith("ss") else (text,)


def _least(texts: Sequence[str], verb: int, lexicon: Lexicon) -> float:
    """How alike the word has to be to what is said of the subject before *verb*; 0 for none at all."""
    before = texts[verb - 1]
    if before in _OF_IT:
        return _NEAR_OF_IT
    meant = lexicon.table.get((before,), NOTHING)
    named = meant.parts or meant.aliases or meant.positions or before in {"one", "ones"}
    return _NEAR if named or before in lexicon.words else 0.0


def _nearest(text: str, least: float, lexicon: Lexicon) -> str:
    """The one state that sounds like *text*."""
    key = f"{text} state {least}"
    if key not in lexicon.heard:
        beats = syllables(text)
        other = {plural(text), singular(text)}
        known = lexicon.states if text.endswith(("ed", "ing")) else lexicon.faults
        begun = _by_begin(known).get(sound_key(text)[:1], ())
        near = [w for w in begun if abs(len(w) - len(text)) <= _LETTERS_MORE]
        able = (w for w in near if abs(syllables(w) - beats) <= 1 and w not in other)
        sounding = ((alike(text, word, least - _APART), word) for word in able)
        ranked = sorted(
            sounding, key=lambda one: one[0] - _LETTER * letters_apart(text, one[1]), reverse=True
        )
        best = (
            ranked[0] if ranked and len(phones(text)) >= _FEWEST_SOUNDS[ranked[0][0] >= _SURE] else (0.0, "")
        )
        told = lexicon.table.get((best[1],), NOTHING).conditions
        rival = next((one for one in ranked[1:] if lexicon.table[one[1],].conditions != told), (0.0, text))
        ahead = best[0] - rival[0] + _LETTER * (letters_apart(text, rival[1]) - letters_apart(text, best[1]))
        lexicon.heard[key] = best[1] if best[0] >= least and ahead >= _APART else ""
    return lexicon.heard[key]
