"""A word that nothing here knows, where only a name or a state can stand: the one that sounds like it.

"front lunger six point nine", "carpets out", "oil seal's been sweeping". A part so taken asks; a
state is taken where it sounds nearly the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from saywright.understanding.bench_words import ELSEWHERE, NEUTRAL, PLACES_ON_IT, STUFFS, TRANSITIVE, WORKSHOP
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.sounds.little_words import BE, ENDS
from saywright.understanding.sounds.phones import alike, phones, syllables
from saywright.understanding.sounds.state_sounds import ORDINARY, state_of_part
from saywright.understanding.sounds.subject_sounds import rhymes
from saywright.understanding.tags import MOVES
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import is_past, plural, singular, verb_forms

_PART_ALIKE: Final = 0.76
_STATE_ALIKE: Final = 0.85
_PARTICIPLE_ALIKE: Final = 0.93  # "caked" is said of much, and mostly meant
_READ_ALIKE: Final = 0.9
_REACH: Final = 8  # tokens from what is read to its value
_MEASURED: Final = frozenset({"clocked", "miked"})  # "disc's clocked": said of measuring
_NO_PLACE: Final = frozenset(
    {BREAK, "to", "about", "him", "her", "me", "them", "you", "we", "i", "he", "she"}
)
_APART: Final = 0.04  # the next best is less alike by this at least
_FEWEST_SOUNDS: Final = 3
_OPENS: Final = frozenset({"", BREAK, "and", "then", "with", "the", "a", "an", "both", "new", "old", "that"})
_ARTICLES: Final = frozenset({"the", "a", "an", "that", "both", "new", "old"})
_OF_STATE: Final = frozenset({"NEG", "SLIGHT", "MODERATE", "SEVERE", "DONE"})
_BEFORE_STATE: Final = frozenset(
    {"is", "are", "been", "gone", "got", "was", "no", "some", "of", "bit", "badly", "very"}
)
_BEHIND_STATE: Final = frozenset(
    {"", BREAK, "and", "on", "in", "at", "but", "all", "up", "round", "right", "so"}
)
_HAD: Final = (["had", "a"], ["has", "a"], ["given", "a"], ["got", "a"])  # "it's had a soak"
_OFF: Final = frozenset({"off", "out"})
_NEVER: Final = NEUTRAL | PLACES_ON_IT | WORKSHOP | ELSEWHERE | STUFFS | TRANSITIVE


def by_sound(texts: list[str], at: int, lexicon: Lexicon) -> dict[int, str]:
    """What the unknown word at *at* was by its sound and its place; {} where it may be anything."""
    text = texts[at]
    one = singular(text)
    if one != text and (one in lexicon.words or (one,) in lexicon.table):
        return {}  # "the uppers": another form of a word that is known
    if (
        text in _NEVER
        or text in lexicon.tool_words
        or len(phones(text)) < _FEWEST_SOUNDS
        or text.endswith("ly")
    ):
        return {}
    if texts[max(0, at - 2) : at] in _HAD:
        found = _best(text, "deed", lexicon.deeds, _STATE_ALIKE, lexicon)
        return {at: found} if found else {}
    if (
        text not in ORDINARY
        and _is_state_slot(texts, at)
        and (text not in _MEASURED or texts[at + 1 : at + 2] == ["up"])
    ):
        least = _PARTICIPLE_ALIKE if text.endswith("ed") else _STATE_ALIKE
        found = _best(text, "state", lexicon.states, least, lexicon)
        if found:
            return {at: found}
    found = state_of_part(texts, at, lexicon)
    if found:
        return {at: found}
    if text in lexicon.words or is_past(text) or text.endswith("ing"):
        return {}
    if not _is_part_slot(texts, at, lexicon):
        ahead = _value_ahead(texts, at, lexicon)
        found = _best(text, "read", lexicon.read_words, _READ_ALIKE, lexicon) if ahead else ""
        return {at: found} if found else {}
    found = _best(text, "part", lexicon.part_words, _PART_ALIKE, lexicon)
    found = found or rhymes(text, lexicon.part_words)
    if not found and _number(texts, at + 1):
        found = _best(text, "read", lexicon.read_words, _STATE_ALIKE, lexicon)
    return {at: found} if found else {}


def done_by_sound(texts: list[str], at: int, lexicon: Lexicon) -> dict[int, str]:
    """What was done to a part, or found on it, behind its name: "cover gleaned and refitted"."""
    if not is_past(texts[at]) or not _is_deed_slot(texts, at, lexicon):
        return {}
    known = (*lexicon.states, *_done(lexicon.deeds))
    found = _best(texts[at], "done", known, _PARTICIPLE_ALIKE, lexicon)
    return {at: found} if found else {}


def _done(deeds: Iterable[str]) -> Iterable[str]:
    """ "drain" → "drained"."""
    return (form for deed in deeds for form in (deed, *verb_forms(deed)) if is_past(form))


def _is_deed_slot(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "oil drained that was ninety": a part and what was done to it, and the clause ends."""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    meant = lexicon.table.get((texts[at - 1],), NOTHING) if at else NOTHING
    return bool(meant.parts or meant.aliases) and behind in ENDS | {"that", "it"}


def _value_ahead(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "gap under the straight edge is point oh three": what is read, and where, then the value."""
    if (texts[at - 1] if at else "") not in _OPENS:
        return False
    said = tuple(texts)
    for ahead in range(at + 1, min(at + 1 + _REACH, len(texts))):
        if _number(texts, ahead):
            return True
        found = lexicon.names(said, ahead)
        if texts[ahead] in _NO_PLACE or found.parts or found.characteristics or found.conditions:
            return False
    return False


def _best(text: str, kind: str, known: Iterable[str], least: float, lexicon: Lexicon) -> str:
    """The one word of *known*, those of *kind*, that sounds like *text*; "" for none, or for two as like."""
    key = f"{text} {kind} {least} best"
    if key not in lexicon.heard:
        other = {plural(text), singular(text)}
        beats = syllables(text)
        able = (word for word in known if word not in other and syllables(word) == beats)
        ranked = sorted(((alike(text, word, least - _APART), word) for word in able), reverse=True)
        best = ranked[0][1] if ranked and ranked[0][0] >= least else ""
        rivals = (far for far, word in ranked[1:] if word not in {plural(best), singular(best)})
        lone = bool(best) and ranked[0][0] - next(rivals, 0.0) >= _APART
        lexicon.heard[key] = best if lone else ""
    return lexicon.heard[key]


def _is_state_slot(texts: Sequence[str], at: int) -> bool:
    """ "been … and", "no … on it": where a state or a fault is told."""
    before = texts[at - 1] if at else ""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    return before in _BEFORE_STATE and behind in _BEHIND_STATE


def _is_part_slot(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """True where a noun stands at *at* of which something is said right beside it."""
    before = texts[at - 1] if at else ""
    opens = before in _OPENS or before in lexicon.positions
    said = tuple(texts)
    acted = opens and before in _ARTICLES and at > 1 and bool(lexicon.names(said, at - 2).acts)
    if acted:
        return True
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    if behind in BE:
        told = lexicon.names(said, at + 2)
        return bool(told.conditions or told.tags & (MOVES | _OF_STATE)) or (opens and _number(texts, at + 2))
    told = lexicon.names(said, at + 1)
    if before in _OFF:
        return "MOVE_OFF" in told.tags  # "nut off bail off"
    if not (opens or before in CLASSES):
        return False
    if told.conditions or told.acts or told.tags & {"MOVE_OFF", "MOVE_ON"}:
        return True
    if _number(texts, at + 1):
        return opens and before not in _ARTICLES - {"the"}
    loose = bool(told.tags & MOVES) and (texts[at + 2] if at + 2 < len(texts) else "") in ENDS
    listed = (
        (before in _ARTICLES or before in CLASSES) and behind in ENDS | {"the"} and _orders(said, at, lexicon)
    )
    return loose or listed or (before == "new" and behind in ENDS)


def _number(texts: Sequence[str], at: int) -> bool:
    return at < len(texts) and (texts[at] in CLASSES or texts[at] == "point")


def _orders(said: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    """True where something is ordered or done before: what follows is a list of parts."""
    return any(lexicon.table.get((word,), NOTHING).acts for word in said[:at])
