"""What is done with one, told shortly of another: "left one greased" / "right one's done too". Pure.

The doing that was told last is put in its place in full: "right adjuster has been greased".
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final, Literal

from saywright.sheets.model import Component
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.statements import ActionNote, Remark
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token

Status = Literal["done", "proposed", "declined"]

_BEFORE: Final = frozenset({"but", "and", "well", "so", "then", "oh", "i", "we", BREAK})
_BEHIND: Final = frozenset(
    {"though", "mind", "you", "either", "today", "now", "already", "as", "well", "too", BREAK}
)
_ALSO: Final = frozenset({"too", "well"})
_LEADS: Final = frozenset({"the", "that", "this", "my", "those", "these"})
_ONES: Final = frozenset({"one", "ones", "side"})
_LONGEST: Final = 6  # tokens of "the other rear wheel cylinder"
_DONE: Final = (
    "is done,are done,has been done,have been done,done,got done,i have done,got it,got the same,"
    "has had the same"
)
_TO_DO: Final = (
    "to follow,is to follow,not yet,is not yet,"
    "is not done yet,has not been done yet,needs it,wants it,needs the same,wants the same,needs doing,"
    "wants doing,is to be done,i will do later,does,do"
)
_NOT_TO_DO: Final = (
    "does not,do not,does not need it,do not need it,did not need it,does not want it,needs none,"
    "does not need doing,i did not bother with,i am not bothering with,will not need it"
)
_NOT: Final = (
    "did not bother with,not bothering with,never bothered with,did not bother doing,no call for that on,"
    "no call for it on,no need for that on,no need for it on,no need of that on,no need to do,not doing,"
    "am not doing,did not do"
)


def _phrases(said: str, status: Status) -> dict[tuple[str, ...], Status]:
    return {tuple(phrase.split()): status for phrase in said.split(",")}


_TAILS: Final[Mapping[tuple[str, ...], Status]] = {
    **_phrases(_DONE, "done"),
    **_phrases(_TO_DO, "proposed"),
    **_phrases(_NOT_TO_DO, "declined"),
}
_HEADS: Final[Mapping[tuple[str, ...], Status]] = {
    **_phrases(_NOT, "declined"),
    **_phrases("did,have done,did the same to,done", "done"),
}
_CUES: Final = frozenset(
    ["done", "follow", "yet", "do", "does", "did", "needs", "need", "wants", "bother", "bothering",
     "bothered",     "call", "too", "well", "doing", "got", "had"]
)  # fmt: skip
_TO_BE: Final[Mapping[Status, tuple[str, ...]]] = {
    "done": ("has", "been"),
    "proposed": ("to", "be"),
    "declined": ("is", "not", "to", "be"),
}
# Done to each alike; another is not replaced, bent or skimmed because one was.
_CLEANING: Final = frozenset(
    ["clean", "blow_out", "soak", "ultrasonic", "lubricate", "flush", "scrape", "polish", "deburr"]
)  # fmt: skip
_REACH: Final = 2  # utterances back in which the doing was told


@called_by(_CUES)
def same_doing(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with what was done, or is to be, of one told in full of the other."""
    if not state.recent or len(tokens) > _LONGEST + 6:
        return tokens
    last = _last_doing(state)
    part = lexicon.sheet.get(last.component) if last is not None and last.component is not None else None
    if last is None or part is None:
        return tokens
    texts = [token.text for token in tokens]
    begin = next((at for at, text in enumerate(texts) if text not in _BEFORE), len(texts))
    end = len(texts)
    while end > begin and texts[end - 1] in _BEHIND:
        end -= 1
    told = _told(texts[begin:end], last, also=not _ALSO.isdisjoint(texts[end:]))
    if told is None:
        return tokens
    first, size, status = told
    named = _named(tokens[begin + first : begin + first + size], part, lexicon)
    done = _past(last.action, lexicon)
    surely = status != "done" or (last.action in _CLEANING and "done" not in texts)
    if not surely and _is_another(texts[begin : begin + first + size], part, lexicon):
        return tokens  # "the drum's done as well": worn, or finished
    if not named or not done or (status == "done" and "side" in texts and last.status == "done"):
        return tokens
    words = [replace(tokens[begin], text=word) for word in (*_TO_BE[status], *done)]
    return (*tokens[:begin], *named, *words)


def _last_doing(state: Discourse) -> ActionNote | None:
    """The last thing told, where it is a doing."""
    near = [s for group in state.recent[-_REACH:] for s in group if not isinstance(s, Remark)]
    last = near[-1] if near else None
    return last if isinstance(last, ActionNote) and last.id not in state.gone else None


def _told(texts: Sequence[str], last: ActionNote, *, also: bool) -> tuple[int, int, Status] | None:
    """Where another is named, in how many words, and what is told of it."""
    for head, status in _HEADS.items():
        if tuple(texts[: len(head)]) == head and len(head) < len(texts) <= len(head) + _LONGEST:
            return len(head), len(texts) - len(head), status
    for size in range(1, min(_LONGEST, len(texts)) + 1):
        tail = tuple(texts[size:])
        if not tail:
            return (0, size, last.status) if also else None
        if tail in _TAILS:
            does = tail in {("does",), ("do",)}
            if does and last.status == "done":
                return None
            return 0, size, _TAILS[tail]
    return None


def _named(tokens: Tokens, part: Component, lexicon: Lexicon) -> Tokens:
    """ "The right one", "the other", "the pilot": with its name; () where none is told so."""
    texts = tuple([token.text for token in tokens])
    name = next(iter(component_names(part)))[0]
    out: list[Token] = []
    at, other, whole = 0, False, False
    while at < len(texts):
        found = lexicon.match(texts, at)
        meant = found[1] if found is not None else NOTHING
        named = bool(meant.parts or meant.aliases or meant.positions)
        length = found[0] if found is not None and named else 1
        if meant.parts or meant.aliases:
            other = whole = True
        elif meant.positions or texts[at] in lexicon.positions or texts[at] == "other":
            other = True
        elif texts[at] in _ONES:
            if not other or at != len(texts) - 1:
                return ()
            break
        elif texts[at] not in _LEADS:
            return ()
        out += tokens[at : at + length]
        at += length
    if not other:
        return ()
    return (*out, *([] if whole else [replace(tokens[-1], text=word) for word in name]))


def _is_another(texts: Sequence[str], part: Component, lexicon: Lexicon) -> bool:
    """ "the drum" behind the hose; a side and the part itself are none."""
    named = (
        (meant.parts, meant.aliases)
        for meant in (lexicon.names(tuple(texts), at) for at in range(len(texts)))
    )
    return any((parts or aliases) and part.id not in {*parts, *aliases} for parts, aliases in named)


def _past(action: str, lexicon: Lexicon) -> tuple[str, ...]:
    """ "greased" of what is greased; () where the sheet has no such word."""
    spec = lexicon.sheet.get_action(action)
    for name in spec.names if spec is not None else ():
        said = tuple(name.split())
        meant = lexicon.table.get(said, NOTHING)
        if any(act.id == action and act.form == "past" for act in meant.acts) and not meant.conditions:
            return said
    return ()
