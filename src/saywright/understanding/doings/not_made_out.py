"""Something was moved or done, and its object was not made out: "the slow valve out" where there is none.

The noun is no name of the sheet and yet close to one: it holds a word of a name, or sounds like one. Then a
person is asked, and what is said of "it" next asks too. A noun that is far from every name is another thing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import NEUTRAL, PLACES_ON_IT, PLAIN, STUFFS, WORKSHOP
from saywright.understanding.facts import Told
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.sounds.consonants import likeness, sound_key
from saywright.understanding.statements import Unclear
from saywright.understanding.subjects.parts import STALE
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import tokenise
from saywright.understanding.working import Working

_MOVES: Final = frozenset({"OFF", "ON", "ACT"})
_NOT_SAID: Final = frozenset(
    ["QUESTION", "WHATIF", "HYPO", "OTHER_JOB", "FUTURE", "SUBORDINATE", "NOT_MOVED", "PRICE", "BEFORE_WORK"]
)
_BARE: Final = frozenset({("in",), ("on",), ("out",), ("off",)})  # ends a clause: "new needle jack in"
_ALIKE: Final = 0.75  # of sound keys
_SHORTEST_KEY: Final = 2
_NO_NOUNS: Final = NEUTRAL | PLAIN | WORKSHOP | PLACES_ON_IT | STUFFS
_LONGEST_NOUN: Final = 3  # words


def ask_for_objects(told: Told, work: Working, tags: Sequence[Tag]) -> None:
    """Put out what was moved or done to something that was not made out."""
    if told.marks and any(m.tags & _NOT_SAID for m in told.marks):
        return
    for start, end in _nouns(tags, work):
        if any(first < end and start < last for first, last in work.covered):
            continue
        reason = "something was moved or done, but its name was not made out"
        work.put(work.make(Unclear, start, end, reason=reason))
        if work.hand is not None and all(getattr(s, "component", None) is None for s in work.out):
            work.hand = replace(work.hand, utterance=work.now - STALE - 1)


def _nouns(tags: Sequence[Tag], work: Working) -> Iterator[tuple[int, int]]:
    """Tokens of each noun right before or behind a movement or a doing that is close to a name."""
    for at, tag in enumerate(tags):
        if tag.kind not in _MOVES and not (
            work.texts[tag.start : tag.end] in _BARE and (at + 1 == len(tags) or tags[at + 1].kind == "BREAK")
        ):
            continue
        first = at
        while first and at - first < _LONGEST_NOUN and _is_noun(tags[first - 1], work):
            first -= 1
        led = _led(tags[:first]) if tag.kind in _MOVES else _led_anew(tags[:first])
        if first < at and led and _close(work, tags[first].start, tag.start):
            yield tags[first].start, tag.end
            continue
        behind = at + 1
        while behind < len(tags) and tags[behind].kind == "MOD":
            behind += 1
        last = behind
        while last < len(tags) and last - behind < _LONGEST_NOUN and _is_noun(tags[last], work):
            last += 1
        if at + 1 < behind < last and _close(work, tags[behind].start, tags[last - 1].end):
            yield tag.start, tags[last - 1].end


def _led(before: Sequence[Tag]) -> bool:
    """True where a noun can begin: behind an article, a link or a break, or at the beginning."""
    return not before or before[-1].kind in {"MOD", "BREAK", "AUX", "LINK"} or "FILLER" in before[-1].tags


def _led_anew(before: Sequence[Tag]) -> bool:
    """An article or "new" that no amount stands before: "twenty mil of fresh oil in" fits no part."""
    if not before or before[-1].kind != "MOD":
        return False
    return len(before) < 2 or "OF" not in before[-2].tags


def _is_noun(tag: Tag, work: Working) -> bool:
    word = work.texts[tag.start]
    if tag.kind != "WORD" or tag.tags or not word.isalpha() or len(word) < 3 or tag.end - tag.start > 1:
        return False
    return word not in _NO_NOUNS and not word.endswith(("ly", "ing"))


def _close(work: Working, start: int, end: int) -> bool:
    """True where a word is close to a name, and the noun is not the whole machine: "gear pump came in"."""
    words = work.texts[start:end]
    whole = {
        token.text for token in tokenise(f"{work.sheet.title} {work.sheet.id}".replace("-", " ").split())
    }
    return not set(words) <= whole and any(_like_a_name(word, work.lexicon) for word in words)


def _like_a_name(word: str, lexicon: Lexicon) -> bool:
    if word in lexicon.mendable:
        return True
    if len(sound_key(word)) < _SHORTEST_KEY:
        return False
    return any(word[0] == known[0] and likeness(word, known) >= _ALIKE for known, _ in lexicon.sounding)
