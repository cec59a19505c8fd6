"""How often each spoken command to the bench is obeyed."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.hearing.words import Utterance
from saywright.understanding.discourse import Discourse
from saywright.understanding.parse import understand
from saywright.understanding.statements import BenchCommand

from .clips import Clip
from .listening import listen
from .tables import percent
from .talk import lexicon
from .voices import VOICES, voices_of

SHEET = "outboard-float-carburetor"
_SAID = {
    "pause listening": "pause",
    "resume listening": "resume",
    "stop listening": "pause",
    "undo that": "undo",
    "undo the last one": "undo",
    "undo": "undo",
    "read that back": "read_back",
    "what's left": "left",
    "what's next": "next",
    "note the bowl is chipped at the flange": "note",
}
_CONDITIONS = ("clean", "noise 15 dB", "reverb")  # robots: clean only
_HALVES = ("tuning", "reported")


def command_clips() -> list[Clip]:
    """Each command in every voice that is installed; the half is the voice's."""
    here = {v.name for half in _HALVES for natural in (True, False) for v in voices_of(half, natural=natural)}
    return [
        Clip(SHEET, words, (command,), v.half, "command", v.name, "command", condition)
        for words, command in _SAID.items()
        for v in VOICES
        if v.name in here
        for condition in (_CONDITIONS if v.natural else _CONDITIONS[:1])
    ]


def section(engine: str) -> list[str]:
    """A row a command: how often it was obeyed, by half, and how often another was."""
    clips = command_clips()
    came = {clip: obeyed(found) for clip, found in zip(clips, listen(clips, engine), strict=True)}
    lines = [
        "| said | clips of a half | obeyed, tuning voices | obeyed, reported voices | another command |",
        "|---|---|---|---|---|",
    ]
    for words in (*_SAID, ""):
        rows = [clip for clip in clips if words in ("", clip.words)]
        halves = [[clip for clip in rows if clip.half == half] for half in _HALVES]
        shares = [
            percent(sum(came[c] == list(c.truth) for c in half) / len(half) if half else None)
            for half in halves
        ]
        other = sum(any(one not in c.truth for one in came[c]) for c in rows)
        lines.append(f"| {words or '**all**'} | {len(halves[-1])} | {' | '.join(shares)} | {other} |")
    return lines


def obeyed(utterances: Sequence[Utterance]) -> list[str]:
    """The commands that came of *utterances*."""
    state = Discourse()
    found: list[str] = []
    for utterance in utterances:
        state, statements = understand(utterance, state, lexicon(SHEET))
        found += [s.command for s in statements if isinstance(s, BenchCommand)]
    return found
