"""Bench commands: few, plain, and only as a whole utterance, so that running talk never gives one.

While listening is paused, what is heard is kept as a remark and not read; only "resume" is taken.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.hearing.words import DATA_KEY, Utterance, Word
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.sounds.command_sounds import SOUND_ALIKE
from saywright.understanding.statements import BenchCommand, CommandName, Correction, Statement
from saywright.understanding.tokens import HESITATIONS, Token
from saywright.understanding.undoing import newest, undone, withdrawn_by
from saywright.understanding.working import Working

Said = tuple[tuple[Word, ...], tuple[Token, ...]]  # words as heard, and their tokens
_PHRASES: Final[dict[CommandName, str]] = {
    "pause": "pause|pause listening|stop listening|pause the listening|do not listen",
    "resume": "resume|resume listening|carry on listening|start listening|start listening again|"
    "listen again|keep listening",
    "undo": "undo|undo that|undo it|undo the last one",
    "read_back": "read that back|read it back|read back|read that back to me|read me that back",
    "left": "what is left|what is left to do|what is left to measure|what is missing|what is still missing|"
    "what do i still need|what have i missed",
    "next": "next|what is next|what comes next|what do i do next|what should i do next",
}
_COMMANDS: Final[dict[tuple[str, ...], CommandName]] = {
    tuple(text.split()): command for command, texts in _PHRASES.items() for text in texts.split("|")
}
# Words around a command that belong to it as manners do.
_BEFORE: Final = HESITATIONS | {"okay", "ok", "right", "so", "and", "please", "now"}
_AFTER: Final = HESITATIONS | {"please", "then", "now", "?"}
_NOTES: Final = (("make", "a", "note"), ("take", "a", "note"), ("note",))
_NOTE_HEADS: Final = frozenset(opening[:1] for opening in _NOTES)
# "Note that down": talk about a note, not its words.
_NO_NOTE: Final = frozenset(
    tuple(text.split()) for text in ("that down", "it down", "that", "it", "of that", "of it", "down", "this")
)
_TYPED: Final = "scripted"  # the listener's name of words that were not heard
SAID_PAUSED: Final = "listening was paused"


def obey(
    utterance: Utterance, said_words: Said, state: Discourse, lexicon: Lexicon, heard: int | None
) -> tuple[Discourse, tuple[Statement, ...]] | None:
    """State and statements where *said_words* are a command, or said while paused; None: to be read."""
    words, tokens = said_words
    said, span = _command(tokens, heard=utterance.listener not in (_TYPED, DATA_KEY))
    aside = state.paused and said != "resume" and not _at_the_desk(utterance)
    if said is None and not aside:
        return None
    work = Working(utterance, words, state, lexicon, heard)
    work.set_tokens(tokens)
    if said is None or aside:
        if tokens:
            work.remark(0, len(tokens), SAID_PAUSED)
        return replace(state, next_number=work.state().next_number), tuple(work.out)
    note = _text_of(words, tokens, span) if said == "note" else None
    work.out.append(work.make(BenchCommand, 0, len(tokens), command=said, words=note))
    if said == "note":
        return replace(work.state(), recent=state.remember(())), tuple(work.out)
    return _after(said, work, state)


def _after(said: CommandName, work: Working, state: Discourse) -> tuple[Discourse, tuple[Statement, ...]]:
    """What a command without words comes to. Only an undo changes what is known."""
    step = newest(state) if said == "undo" else None
    following = state
    if step is not None:
        gone, again = withdrawn_by(step, state)
        end = len(work.tokens)
        work.out.append(work.make(Correction, 0, end, supersedes=gone, restores=again, stage=step.stage))
        following = undone(state, step)
    paused = {"pause": True, "resume": False}.get(said, state.paused)
    number = work.state().next_number
    statements = tuple(work.out)
    return (
        replace(
            following,
            next_number=number,
            utterances=work.now,
            awaited_at=work.now,
            paused=paused,
            recent=state.remember(tuple(s for s in statements if isinstance(s, Correction))),
        ),
        statements,
    )


def _command(tokens: tuple[Token, ...], *, heard: bool) -> tuple[CommandName | None, tuple[int, int]]:
    """The command that the whole of *tokens* is, and for a note the span of its words.

    *heard*: by a recogniser, which may have written another word of the same sound.
    """
    texts = [token.text for token in tokens]
    first, end = 0, len(texts)
    if heard:
        alike = tuple(text for text in texts if text not in HESITATIONS)
        if alike in SOUND_ALIKE:
            return SOUND_ALIKE[alike], (first, end)
    while first < end and texts[first] in _BEFORE:
        first += 1
    while end > first and texts[end - 1] in _AFTER:
        end -= 1
    body = tuple(texts[first:end])
    for opening in _NOTES if body[:1] in _NOTE_HEADS else ():
        if body[: len(opening)] != opening:
            continue
        rest = tuple(text for text in body[len(opening) :] if text not in HESITATIONS)
        if len(rest) > 1 and rest not in _NO_NOTE:
            return "note", (first + len(opening), len(texts))
    return _COMMANDS.get(body), (first, end)


def _text_of(words: tuple[Word, ...], tokens: tuple[Token, ...], span: tuple[int, int]) -> str:
    """The words as heard that the tokens of *span* came from."""
    inside = [token.word for token in tokens[span[0] : span[1]] if token.text not in HESITATIONS]
    return " ".join(word.text for word in words[min(inside) :])


def _at_the_desk(utterance: Utterance) -> bool:
    """True for words typed by a person and values of a data key, which are taken all the same."""
    return utterance.listener in (_TYPED, DATA_KEY) and utterance.media is None and utterance.line is None
