"""The words of a change of mind: "no", "hang on no", "tell a lie", "or rather", "as you were". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.bench_words import IS
from saywright.understanding.tokens import HESITATIONS

# Said around a change of mind; by themselves they change nothing.
PAUSES: Final = HESITATIONS | frozenset(
    ["hang", "hold", "on", "wait", "actually", "well", "oh", "yeah", "yes", "look", "so", "but", "then",
     "a", "minute", "sec", "second", "up", "see"]
)  # fmt: skip
_WORDS: Final = frozenset(
    {"no", "nope", "nah", "sorry", "rather", "correction", "apologies", "oops", "whoops"}
)
_PHRASES: Final = tuple(
    tuple(said.split())
    for said in (
        "i tell a lie", "tell a lie", "as you were", "i mean", "i meant", "or rather", "my mistake",
        "my fault", "false alarm", "make that", "make it", "take that back", "i take that back",
        "scratch that", "strike that", "scrap that", "forget that", "ignore that", "delete that",
        "cancel that", "disregard that", "scrub that",
        "that is wrong", "that was wrong", "that is not right", "that was not right", "that is not it",
        "i am wrong", "i was wrong", "wrong", "i stand corrected", "my bad",
        "i beg your pardon", "beg your pardon", "beg pardon", "pardon me", "excuse me",
        "i am telling you a lie", "i am telling a lie", "telling a lie", "i am lying", "i lie",
        "let me check that", "let me check", "let me check again", "let me read that again",
        "let me look again",
        "i misread", "i misread that", "i misread it", "misread that", "misread it", "i miscounted",
        "miscounted", "i lost count", "lost count", "say again", "say that again",
    )
)  # fmt: skip
_PAUSED: Final = frozenset({("hang", "about"), ("wait", "now"), ("no", "now"), ("hold", "hard")})
NO: Final = frozenset({"no", "nope", "nah"})
_FIRST: Final = frozenset(said[0] for said in _PHRASES)
_BY_FIRST: Final = {word: tuple(said for said in _PHRASES if said[0] == word) for word in _FIRST}
TURNING: Final = _WORDS | {said[-1] for said in _PHRASES}  # one of them stands in each change of mind
BEGIN: Final = PAUSES | _WORDS | _FIRST  # one of them is the first word of each
IT: Final = frozenset({"it", "that", "they", "this", "those", "these"})
_PAST: Final = frozenset({"was", "were", "had", "misread", "misheard", "forgot"})
WHAT_WENT: Final = frozenset({"the", "my", "they", "there", "this"})  # its first word
_WENT_WRONG: Final = frozenset(
    ["moved", "slipped", "slid", "shifted", "rocked", "was", "were", "had", "not", "stuck", "caught",
     "jumped", "fell", "lifted", "dropped", "tilted", "tipped", "rolled", "twisted", "came"]
)  # fmt: skip
_VERB_REACH: Final = 3  # tokens from the turn to the verb of what went wrong
ONLY: Final = frozenset({"just", "only", "merely"})
_LEADS: Final = IT | IS | ONLY | {"a", "an", "the", "some", "got", "has", "have", "more", "bit", "of"}


def read_turn(texts: Sequence[str], start: int, end: int) -> tuple[int, bool]:
    """The token behind the words of a change of mind from *start* on, and whether one of them says so."""
    at, said = start, False
    if start >= end or texts[start] not in BEGIN:
        return start, False  # as most talk
    while at < end:
        if tuple(texts[at : at + 2]) == ("oh", "no") and not IT.isdisjoint(texts[at + 2 : at + 3]):
            at += 2  # "oh no, it's cracked": nobody changes his mind
            continue
        if texts[at] in _WORDS:
            at, said = at + 1, True
            continue
        phrase = _phrase_at(texts, at) if texts[at] in _BY_FIRST else ()
        if phrase and at + len(phrase) <= end:
            at, said = at + len(phrase), True
        elif texts[at] in PAUSES or (at > start and tuple(texts[at - 1 : at + 1]) in _PAUSED):
            at += 1
        else:
            break
    return at, said


def turns_at(texts: Sequence[str], at: int) -> bool:
    """ "no it's", "wait that was": a word that denies nothing behind it and takes back what was before."""
    word, behind, verb = (*texts[at : at + 3], "", "", "")[:3]
    return behind in IT and (word in NO or (word == "wait" and verb in IS))


def turns(texts: Sequence[str], start: int, end: int) -> bool:
    """True where the tokens [start, end) take back what was said before them: "no it is just"."""
    at, said = read_turn(texts, start, end)
    return said and _LEADS.issuperset(texts[at:end])


def made_excuse(texts: Sequence[str]) -> bool:
    """ "no, I was on the lip", "hang on, it had slipped": why what was said last was wrong."""
    at, said = read_turn(texts, 0, len(texts))
    return at > 0 and (said or texts[0] in PAUSES) and not _PAST.isdisjoint(texts[at : at + _VERB_REACH])


def went_wrong(texts: Sequence[str]) -> bool:
    """ "the stand moved", "the spring was not home": what made a value wrong; not "the needle settled"."""
    return not _WENT_WRONG.isdisjoint(texts)


def turned_back(texts: Sequence[str], end: int) -> bool:
    """True where a change of mind stands right before *end*: "fifteen, no, correction, sixteen"."""
    return any(read_turn(texts, at, end) == (end, True) for at in range(max(0, end - 2), end))


def only_turns(texts: Sequence[str]) -> bool:
    """True where *texts* are nothing but a change of mind: "no", "hang on tell a lie"."""
    at, said = read_turn(texts, 0, len(texts))
    return said and at == len(texts)


def not_only(texts: Sequence[str], at: int) -> bool:
    """ "isn't just gummed up": the state that begins at *at* is denied no more than in part."""
    return at > 1 and texts[at - 2] == "not" and texts[at - 1] in ONLY


def _phrase_at(texts: Sequence[str], at: int) -> tuple[str, ...]:
    return next((said for said in _BY_FIRST[texts[at]] if tuple(texts[at : at + len(said)]) == said), ())


def ends_in_doubt(texts: Sequence[str]) -> bool:
    """ "hang on", "wait" right before what is said instead."""
    return tuple(texts[-2:]) in {("hang", "on"), ("hold", "on"), *_PAUSED} or tuple(texts[-1:]) == ("wait",)
