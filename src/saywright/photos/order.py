"""Pictures whose clock is of no use, paired with marks by order.

Names of one camera count up ("IMG_0012", "IMG_0013"). Pictures already placed by time are posts:
what lies between two of them by name belongs to the marks between their marks.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

BY_ORDER_CONFIDENCE = 0.9  # as many pictures as marks, names that count up; a judgement, not measured
UNCLEAR_CONFIDENCE = 0.4
FEWEST = 3  # fewer pictures than this could be any of the marks

_NUMBER = re.compile(r"\d+")


@dataclass(frozen=True, slots=True)
class Ordered:
    """A picture and its mark, by order alone."""

    mark: str
    photo: str
    confidence: float  # 0…1
    sure: bool  # only where counts agree and names count up


def name_key(name: str) -> tuple[tuple[str | int, ...], str]:
    """Sorts IMG_9 before IMG_10; text and numbers alternate, so that like meets like."""
    parts = re.split(r"(\d+)", name.lower())
    return tuple(int(part) if index % 2 else part for index, part in enumerate(parts)), name


def counts_up(names: Sequence[str]) -> bool:
    """True where *names* differ only in one number: a camera's counter or its time stamp."""
    shapes = {_NUMBER.sub("#", name.lower()) for name in names}
    if len(shapes) != 1 or "#" not in shapes.pop():
        return False
    columns = zip(*([int(n) for n in _NUMBER.findall(name)] for name in names), strict=True)
    return sum(len(set(column)) > 1 for column in columns) == 1


def match_by_order(
    marks: Sequence[str],
    photos: Sequence[tuple[str, str]],
    loose: Collection[str],
    placed: Mapping[str, str],
    taken: Collection[str],
) -> tuple[Ordered, ...]:
    """The *loose* photos paired with marks.

    *marks* are ids as spoken; *photos* (id, name), all of them; *placed* photo → mark for those that are
    sure by time; *taken* marks that are spoken for.
    """
    loose_ids = set(loose)
    place = {mark: index for index, mark in enumerate(marks)}
    by_name = sorted(photos, key=lambda photo: name_key(photo[1]))
    steady = counts_up([name for _, name in photos]) or _sequential(by_name)
    found: list[Ordered] = []
    run: list[str] = []
    low = -1
    for photo, _ in [*by_name, ("", "")]:
        post = place.get(placed.get(photo, ""), len(marks) if photo == "" else None)
        if post is None:
            if photo in loose_ids:
                run.append(photo)
            continue
        free = [mark for mark in marks[low + 1 : max(post, low + 1)] if mark not in taken]
        found += _pair(free, run, steady=steady and (post > low), total=len(photos))
        run, low = [], max(low, post)
    return tuple(found)


def _pair(free: Sequence[str], run: Sequence[str], *, steady: bool, total: int) -> list[Ordered]:
    sure = steady and len(free) == len(run) and total >= FEWEST
    confidence = BY_ORDER_CONFIDENCE if sure else UNCLEAR_CONFIDENCE
    return [Ordered(mark, photo, confidence, sure) for mark, photo in zip(free, run, strict=False)]


def _sequential(by_name: Sequence[tuple[str, str]]) -> bool:
    """True where each name leads with its number in the series ("01_jet.jpg", "02_bowl.jpg")."""
    leads = [re.match(r"\D{0,4}(\d+)", name) for _, name in by_name]
    numbers = [int(lead.group(1)) for lead in leads if lead is not None]
    return len(numbers) == len(by_name) and len(set(numbers)) == len(numbers)
