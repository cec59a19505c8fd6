""" "Front nozzle's new rear one's old": what ends one saying and begins the next, without the comma."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.phrases import Phrase

_AGES = frozenset({"NEW", "OLD"})
_ALL = frozenset({"BOTH", "ALL"})


def ages_apart(found: Sequence[Phrase], texts: Sequence[str]) -> Sequence[Phrase]:
    """The same phrases, a "new" that ends what was said before it as a phrase of its own."""
    if all(len(phrase.lead) < 2 for phrase in found):
        return found
    out: list[Phrase] = []
    for at, phrase in enumerate(found):
        if not _ends_before(found, at, texts):
            out.append(phrase)
            continue
        cut = 2 if phrase.lead[1].tags & _ALL else 1
        first, rest = phrase.lead[:cut], phrase.lead[cut:]
        begins = rest[0].start if rest else phrase.head.start if phrase.head is not None else phrase.end
        out.append(Phrase("lead", phrase.start, first[-1].end, None, first))
        out.append(replace(phrase, start=begins, lead=rest))
    return out


def _ends_before(found: Sequence[Phrase], at: int, texts: Sequence[str]) -> bool:
    """True for a part, "is", then "new" and a position, of which something is said in turn."""
    phrase = found[at]
    if not at or at + 1 >= len(found) or phrase.kind != "subject" or len(phrase.lead) < 2:
        return False
    first, second = phrase.lead[:2]
    if first.tags & _AGES and second.tags & _ALL:  # "body o rings new both cover on"
        before = found[at - 1]
        return before.kind == "subject" and before.end == phrase.start and before.meaning.many
    if not first.tags & _AGES or first.tags & {"DET"} or not second.meaning.positions:
        return False
    if texts[found[at + 1].start] not in {"is", "are"}:
        return False
    before = found[at - 1]
    if before.kind == "subject":  # "front disc new rear one's the old one"
        return before.end == phrase.start and any(tag.meaning.positions for tag in before.lead)
    is_so = texts[before.start : before.end] in {("is",), ("are",)}
    return is_so and at > 1 and found[at - 2].kind == "subject"
