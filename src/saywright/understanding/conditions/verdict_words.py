"""Words that decide on a part without a verb of doing: "that can stay", "it'll do", "wants doing"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING, Act, Meaning, Name
from saywright.understanding.tags import Tag

KEPT, DO = "kept", "do"  # forms of an act; settled by what is known of the part

VERDICTS = frozenset({"stay", "stays", "staying", "do", "doing", "keep", "back"})
_NAMED = frozenset({"PART", "PRON", "ONE", "MOD"})
_IDLE = frozenset({"though", "well", "then", "as", "is", "there", "again"})
_MAY_DO = frozenset({"will", "would", "should", "can"})


def verdict_words(tags: Sequence[Tag], texts: Sequence[str], lexicon: Lexicon) -> Sequence[Tag]:
    """The same tags, such words as doings of a form of their own."""
    return [_read(tags, at, texts, lexicon) for at in range(len(tags))]


def _read(tags: Sequence[Tag], at: int, texts: Sequence[str], lexicon: Lexicon) -> Tag:
    """The tag that takes the place of the one at *at*."""
    one = tags[at]
    last = texts[one.end - 1]
    if "GO_BACK" in one.tags and last == "back" and at:
        not_back = (
            "DECLINE" in tags[at - 1].tags and texts[one.start] == "going" and _ends(tags, at + 1, texts)
        )
        return _act(one, ("reuse",), "base", lexicon) if not_back else one  # "and won't be going back"
    if one.kind not in {"WORD", "AUX"} or last not in VERDICTS:
        return one
    before = tags[at - 1] if at else None
    if last in {"stay", "stays", "staying"} and _ends(tags, at + 1, texts):
        stays = before is not None and (before.kind in _NAMED or texts[before.end - 1] in _MAY_DO)
        return _act(one, ("reuse",), KEPT, lexicon) if stays else one
    if last == "do" and one.kind == "WORD" and before is not None and _will_do(tags, at, texts):
        return _act(one, ("reuse",), KEPT, lexicon)
    if last == "keep" and before is not None and before.kind == "AUX" and _ends(tags, at + 1, texts):
        kept = at > 1 and tags[at - 2].kind in {"PART", "ONE"} and "NEED" in before.tags
        return _act(one, ("reuse",), "base", lexicon) if kept else one
    wants = (
        last == "doing" and before is not None and texts[before.end - 1] in {"want", "wants", "needs", "need"}
    )
    ends = wants and (_ends(tags, at + 1, texts) or tags[at + 1].kind in {"MOD", "PART"})
    return _act(one, ("replace",), DO, lexicon) if ends else one


def _act(one: Tag, name: Name, form: str, lexicon: Lexicon) -> Tag:
    acts = lexicon.table.get(name, NOTHING).acts
    meant = Meaning(acts=(Act(acts[0].id, form),)) if acts else NOTHING
    return replace(one, kind="ACT", meaning=meant) if acts else one


def _will_do(tags: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    """ "bowl will do", "it'll do"; "that'll do" only where it was said how it is."""
    will, named = tags[at - 1], tags[at - 2] if at > 1 else None
    if named is None or texts[will.start : will.end] != ("will",) or not _ends(tags, at + 1, texts):
        return False
    vague = texts[named.end - 1] in {"that", "this"} and named.kind == "PRON"
    return named.kind in _NAMED and (not vague or any(t.kind == "COND" for t in tags[:at]))


def _ends(tags: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    """True where the clause ends before the tag at *at*."""
    while at < len(tags) and ("FILLER" in tags[at].tags or texts[tags[at].start] in _IDLE):
        if tags[at].kind == "BREAK" or tags[at].tags & {"BUT", "AND"}:
            break
        at += 1
    if at >= len(tags):
        return True
    one = tags[at]
    return (
        one.kind == "BREAK"
        or bool(one.tags & {"BUT", "AND"})
        or texts[one.start] in {"i", "no", "too", "and", "just"}
    )
