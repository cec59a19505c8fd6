"""What stands behind "in" and "on": the next part of a row, or the place of the part before."""

from __future__ import annotations

from saywright.understanding.around import Around
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK

_LEADS = frozenset({"NEW", "BOTH", "ALL"})


def new_part_begins(around: Around, at: int) -> bool:
    """ "three screws in new filter": without an article, a new part is the next one, not where these went."""
    if "NEW" not in around.names(at).tags or around.text(at) in {"a", "an", "the"}:
        return False
    at += 1
    while at < len(around.texts) and around.texts[at] not in {"", BREAK} and not around.names_part(at):
        found = around.names(at)
        if not (found.positions or found.tags & _LEADS or at in around.measures):
            return False
        at += 1
    return at < len(around.texts) and around.texts[at] != "" and around.names_part(at)


def is_where_one_is(around: Around, last: Tag, at: int) -> bool:
    """ "pressure shim in the front one's one point oh five": which of several a single part is of."""
    if last.kind != "PART" or last.meaning.many or around.text(at) != "the":
        return False
    found = around.names(at + 1)
    return bool(found.positions) and not found.conditions and around.text(at + 2) == "one"
