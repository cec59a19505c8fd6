""" "Both the piston and the liner are out": one of each that is named, not two of the first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.phrases import Phrase

_BOTH = frozenset({"BOTH"})


def both_of_two(found: Sequence[Phrase]) -> Sequence[Phrase]:
    """The same phrases, without a "both" that only goes before two different parts joined by "and"."""
    out = list(found)
    for at in range(len(out) - 2):
        first, link, second = out[at : at + 3]
        if not first.lead or not first.lead[0].tags & _BOTH or "AND" not in link.tags:
            continue
        if second.kind == "subject" and (_are_two(first, second) or _at_two(first, second)):
            out[at] = replace(first, lead=first.lead[1:], start=_begin(first))
    return out


def _at_two(first: Phrase, second: Phrase) -> bool:
    """ "both the upper and the lower bush": two places of one part."""
    places = [any(tag.meaning.positions for tag in p.lead) for p in (first, second)]
    return first.head is None and all(places) and not first.lead[0].meaning.positions


def _are_two(first: Phrase, second: Phrase) -> bool:
    """Two names that share no part; "both pads and the pin" has two of the first."""
    if first.kind != "subject":
        return False
    one, other = (p.meaning.parts or p.meaning.aliases for p in (first, second))
    article = len(first.lead) > 1 and "DET" in first.lead[1].tags
    plain = not first.meaning.many and first.lead[0].end - first.lead[0].start == 1
    return bool(one and other) and not set(one) & set(other) and (article or plain)


def _begin(phrase: Phrase) -> int:
    """Where *phrase* begins without the first word of its lead."""
    rest = phrase.lead[1:]
    return rest[0].start if rest or phrase.head is None else phrase.head.start
