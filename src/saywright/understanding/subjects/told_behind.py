""" "Gasket ditto flattened", "same again, that needle worn": what is the same is told behind it."""

from __future__ import annotations

from saywright.understanding.walk import Walk


def told_behind(walk: Walk, index: int) -> bool:
    """ "gasket ditto flattened", "same again on the face it's scored": what is the same is told behind."""
    for phrase in walk.phrases[index + 1 :]:
        if phrase.kind == "finding":
            return True
        named = (
            phrase.kind == "subject"
            and bool(phrase.lead)
            and bool(phrase.meaning.parts or phrase.meaning.aliases)
        )
        if named and walk.texts[walk.phrases[index].end - 1] == "again":
            continue  # "same again, that needle worn"
        where = phrase.tags & {"PREP", "PLACE"} and "AND" not in phrase.tags
        if not where and not (phrase.kind == "subject" and "PRON" in phrase.tags and not phrase.lead):
            return False
    return False


def tells_no_state(walk: Walk, index: int, kind: str) -> bool:
    """ "springs off, same as before": how they came off; "right hand side, same socket": only the tool."""
    before, behind = walk.before(index), walk.after(index)
    if kind == "same":
        return behind is not None and "TOOL" in behind.tags
    off = before is not None and before.kind == "off"
    return kind == "restore" and off and walk.texts[walk.phrases[index].start] == "same"
