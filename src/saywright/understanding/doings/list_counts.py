""" "Clamps all six rubbers two": counts that stand behind their parts in a list of what to buy."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.counting.counts import small_count
from saywright.understanding.phrases import Phrase


def counts_behind(found: tuple[Phrase, ...]) -> tuple[Phrase, ...]:
    """ "clamps all six rubbers two": of a row that begins with a bare name and ends with a number each count
    stands behind its part.
    """
    ends = next((i for i in range(1, len(found)) if _ends_counted(found[i], found[i - 1])), 0)
    last = ends + (found[ends].kind == "subject")  # the number may be told with the part
    first = last - 1
    while first > 0 and _counted(found[first]) and found[first - 1].end == found[first].start:
        first -= 1
    begins = found[first] if ends and first >= 0 else None
    if begins is None or last - first < 2 or begins.lead or begins.kind != "subject":
        return found
    out = [*found[: first + 1]]
    for phrase in found[first + 1 : last]:
        cut = _counted(phrase)
        if not cut:
            return found
        said, rest = phrase.lead[:cut], phrase.lead[cut:]
        starts = rest[0].start if rest else phrase.head.start if phrase.head is not None else phrase.end
        out.append(Phrase("lead", phrase.start, said[-1].end, None, said))
        out.append(replace(phrase, start=starts, lead=rest))
    return (*out, *found[last:])


def _ends_counted(phrase: Phrase, before: Phrase) -> bool:
    """A number behind a part that has its count before it: "all six rubbers two"."""
    if phrase.kind == "subject":
        return phrase.head is not None and phrase.head.count is not None and _counted(phrase) > 0
    counted = before.end == phrase.start and _counted(before) > 0 and before.kind == "subject"
    return counted and small_count(phrase.measure) is not None


def _counted(phrase: Phrase) -> int:
    """Words of the lead of *phrase* that tell how many, at its beginning; 0 where none do."""
    every = bool(phrase.lead) and bool(phrase.lead[0].tags & {"ALL", "BOTH"})
    at = 1 if every else 0
    return at + 1 if len(phrase.lead) > at and phrase.lead[at].count is not None else 0
