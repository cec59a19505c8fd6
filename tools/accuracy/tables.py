"""Figures → Markdown. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from .calibrate import Bin, Price
from .outcomes import KINDS, Outcome, f1
from .rows import Rows

Row = tuple[str, Sequence[Outcome]]  # what was heard, what came of each clip


def percent(share: float | None) -> str:
    """A share in percent, or a dash."""
    return "–" if share is None else f"{100 * share:.1f} %"


def share(outcomes: Sequence[Outcome], name: str) -> float | None:
    """Share of *outcomes* for which the property of that name holds; None of none."""
    return sum(bool(getattr(one, name)) for one in outcomes) / len(outcomes) if outcomes else None


def heard_table(rows: Iterable[Row]) -> list[str]:
    """Words, numbers, silent errors, asks and the record for each kind of clip."""
    lines = [
        "| speech | clips | words wrong | exact numbers | silent errors | asks | lost | readings F1 "
        "| record F1 |",
        "|---|---|---|---|---|---|---|---|---|",
    ]
    for name, outcomes in rows:
        if not outcomes:
            continue
        said = [one for one in outcomes if one.has_reading]
        wrong = sum(one.word_errors for one in outcomes) / max(1, sum(one.words for one in outcomes))
        cells = [percent(share(said, what)) for what in ("exact", "silent", "asks", "lost")]
        scores = [_score(f1(outcomes, kind)) for kind in ("reading", None)]
        lines.append(f"| {name} | {len(outcomes)} | {percent(wrong)} | {' | '.join(cells + scores)} |")
    return lines


def text_table(rows: Iterable[tuple[float, Sequence[Outcome]]]) -> list[str]:
    """Understanding alone at each rate of misheard words."""
    heads = " | ".join(f"{kind} F1" for kind in KINDS)
    lines = [
        f"| words misheard | utterances | {heads} | silent errors | right readings that ask |",
        f"|---|---|{'---|' * (len(KINDS) + 2)}",
    ]
    for rate, outcomes in rows:
        given = [one for outcome in outcomes for one in outcome.givens]
        silent = sum(not one.right and not one.asks for one in given)
        right = [one for one in given if one.right and not one.meant_to_ask]
        asked = sum(one.asks for one in right) / max(1, len(right))
        scores = " | ".join(_score(f1(outcomes, kind)) for kind in KINDS)
        lines.append(f"| {percent(rate)} | {len(outcomes)} | {scores} | {silent} | {percent(asked)} |")
    return lines


def trap_table(rows: Iterable[tuple[str, str, Outcome]]) -> list[str]:
    """What came of sounds that are no reading (kind of sound, words heard, outcome), a row a kind."""
    lines = [
        "| sound | clips | taken for a reading | asked about | words heard in one |",
        "|---|---|---|---|---|",
    ]
    kinds: dict[str, list[tuple[str, Outcome]]] = {}
    for kind, words, one in rows:
        kinds.setdefault(kind, []).append((words, one))
    for kind, found in kinds.items():
        given = [given for _, one in found for given in one.givens]
        taken = sum(not one.asks for one in given)
        asked = len(given) - taken + sum(one.unclear for _, one in found)
        lines.append(f"| {kind} | {len(found)} | {taken} | {asked} | {found[0][0] or '–'} |")
    return lines


def reliability_table(bins: Iterable[Bin]) -> list[str]:
    """Is a probability what it says?"""
    lines = ["| probability | readings | said, on average | right |", "|---|---|---|---|"]
    lines += [
        f"| {one.low:.2f} to {one.high:.2f} | {one.count} | {percent(one.said)} | {percent(one.right)} |"
        for one in bins
    ]
    return lines


def price_table(tuning: Sequence[Price], reported: Sequence[Price], taken_from: float) -> list[str]:
    """The trade-off on both halves; the threshold in use is marked."""
    lines = [
        "| taken from | tuning: silent errors | asks | needless | reported: silent errors | asks "
        "| needless |",
        "|---|---|---|---|---|---|---|",
    ]
    for one, other in zip(tuning, reported, strict=True):
        mark = " (in use)" if abs(one.threshold - taken_from) < 1e-9 else ""
        cells = (percent(x) for x in _priced(one) + _priced(other))
        lines.append(f"| {one.threshold:.2f}{mark} | {' | '.join(cells)} |")
    return lines


def _priced(price: Price) -> tuple[float, float, float]:
    return price.silent, price.asks, price.needless


def rows_table(counts: Mapping[str, Rows]) -> list[str]:
    """The rows of tests/cases as a table: file, rows that come out as written, those not yet, rows."""
    lines = ["| file | as written | not yet | rows |", "|---|---|---|---|"]
    lines += [f"| {file} | {n.right} | {n.not_yet} | {n.rows} |" for file, n in sorted(counts.items())]
    right, not_yet, rows = (
        sum(getattr(n, name) for n in counts.values()) for name in ("right", "not_yet", "rows")
    )
    return [*lines, f"| all | {right} ({percent(right / rows)}) | {not_yet} | {rows} |"]


def _score(value: float | None) -> str:
    return "–" if value is None else f"{value:.3f}"
