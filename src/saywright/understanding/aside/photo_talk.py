"""What is said of the picture just announced: "another one", "that's the after", "bad one, again".

Only where nothing else was said in the utterance, and only of a photo mark that still holds. The new mark is
of the same part and conditions. A picture taken again supersedes the mark of the bad one; one told to be the
after supersedes its own mark and keeps its time, since that is when the picture was taken.
"""

from __future__ import annotations

from collections.abc import Sequence

from saywright.flags import FlagKind, flag
from saywright.sheets.model import Stage
from saywright.understanding.statements import (
    ActionNote,
    ConditionNote,
    Identifier,
    Movement,
    PhotoMark,
    Reading,
    Unclear,
)
from saywright.understanding.tokens import HESITATIONS
from saywright.understanding.working import Working

_SAY_NOTHING = HESITATIONS | {"and", "ok", "okay", "right", "now", "then", "just", "please", "so", "well"}
_MORE = frozenset(
    ["another one", "another", "one more", "one more of that", "another of that", "another one of that",
     "another shot", "another photo", "another picture", "one more photo", "one more picture",
     "one more shot", "another one of the same", "another angle", "from the other side", "closer",
     "one closer", "another one closer", "close up of that"]
)  # fmt: skip
_AGAIN = frozenset(
    ["bad one again", "bad one", "that one is blurred", "that is blurred", "blurred again",
     "blurred one again", "retake that", "retake", "retake the photo", "retake the picture",
     "retake it", "bad one take it again", "bad one take that again", "bad photo again",
     "bad picture again", "that one is no good again", "shoot that again", "that was blurred again",
     "that one is blurred again", "bad shot again", "out of focus again"]
)  # fmt: skip
_POINTED = ("that is the", "this is the", "that one is the")
_NOUNS = ("", " one", " photo", " picture", " shot")
_STAGES: dict[str, Stage] = {
    **{f"{head} after{noun}": "as_left" for head in _POINTED for noun in _NOUNS},
    **{f"{head} before{noun}": "as_found" for head in _POINTED for noun in _NOUNS},
}
_WHEN = frozenset({"after", "before"})  # one of them is in each of these
OPENERS = frozenset(words.split()[0] for words in (*_MORE, *_AGAIN, *_STAGES))
_FACTS = (ActionNote, ConditionNote, Identifier, Movement, Reading, Unclear)
_NAMES_A_PICTURE = frozenset(["photo", "picture", "shot", "retake"])


def told_stage(texts: Sequence[str]) -> Stage | None:
    """The stage that "that's the after" tells of a picture announced in the same breath; None without it."""
    if _WHEN.isdisjoint(texts):
        return None
    words = f" {' '.join(text for text in texts if text not in HESITATIONS)} "
    return next((stage for phrase, stage in _STAGES.items() if f" {phrase} " in words), None)


def of_the_last_picture(work: Working) -> bool:
    """Put out what the utterance says of the picture announced last; False where it says nothing of one."""
    if next((text for text in work.texts if text not in _SAY_NOTHING), None) not in OPENERS:
        return False
    kept = [at for at, text in enumerate(work.texts) if text not in _SAY_NOTHING]
    words = " ".join(work.texts[at] for at in kept)
    if words not in _MORE | _AGAIN and words not in _STAGES:
        return False
    last = _last(work, far=not _NAMES_A_PICTURE.isdisjoint(words.split()))
    span = (kept[0], kept[-1] + 1)
    stage = _STAGES.get(words)
    if last is None:
        return stage is not None and _of_the_part_in_hand(work, span, stage)
    if stage is not None and stage == last.stage:
        work.covered.append(span)
        return True
    made = work.make(
        PhotoMark,
        *span,
        flags=last.flags,
        stage=stage or last.stage,
        component=last.component,
        which=last.which,
        conditions=last.conditions,
    )
    if stage is not None:
        made = made.model_copy(update={"start_s": last.start_s, "heard": f"{last.heard} … {made.heard}"})
    work.put(made)
    if words not in _MORE:
        work.supersede([last.id], made.id, *span)
    return True


def _last(work: Working, *, far: bool) -> PhotoMark | None:
    """The photo mark said last; with *far*, whatever was said since."""
    for statement in work.newest():
        if isinstance(statement, PhotoMark):
            return statement
        if isinstance(statement, _FACTS) and not far:
            return None
    return None


def _of_the_part_in_hand(work: Working, span: tuple[int, int], stage: Stage) -> bool:
    """ "That's the after", with no picture announced: it announces one of the part in hand."""
    hand = work.hand
    if hand is None:
        return False
    note = (flag(FlagKind.PART_FROM_CONTEXT),)
    made = work.make(PhotoMark, *span, flags=note, stage=stage, component=hand.component, which=hand.which)
    work.put(made)
    return True
