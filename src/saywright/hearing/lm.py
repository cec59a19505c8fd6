"""Sample lines → a trigram language model in ARPA text, for recognisers that need one.

Pure. Absolute discounting: a fixed part of each count is held back and given to the next
shorter context (Katz's back-off scheme; S. M. Katz, "Estimation of probabilities from sparse
data …", IEEE Trans. ASSP 35(3), 1987, with the discount of Ney, Essen and Kneser, 1994).
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from math import log10

_DISCOUNT = (
    0.1  # small: what a bench says is close to the sample lines, and unseen pairs are mostly mishearings
)
_START, _END = "<s>", "</s>"
_FLOOR = -99.0

Gram = tuple[str, ...]


def arpa(lines: Iterable[str]) -> str:
    """ARPA text of a trigram model over *lines*, words separated by spaces."""
    counts: tuple[Counter[Gram], Counter[Gram], Counter[Gram]] = (Counter(), Counter(), Counter())
    for line in lines:
        marked = (_START, *line.split(), _END)
        for order, counter in enumerate(counts, start=1):
            counter.update(marked[i : i + order] for i in range(len(marked) - order + 1))
    unigrams = _unigrams(counts[0])
    bigrams, back_1 = _discounted(counts[1], unigrams)
    trigrams, back_2 = _discounted(counts[2], bigrams, lower_back=back_1, lowest=unigrams)
    parts = [
        "\\data\\",
        *(f"ngram {n}={len(t)}" for n, t in enumerate((unigrams, bigrams, trigrams), start=1)),
    ]
    for order, (table, back) in enumerate(((unigrams, back_1), (bigrams, back_2), (trigrams, None)), start=1):
        parts.append(f"\n\\{order}-grams:")
        for gram in sorted(table):
            tail = "" if back is None else f" {_log(back.get(gram, 1.0)):.4f}"
            parts.append(f"{_log(table[gram]):.4f} {' '.join(gram)}{tail}")
    return "\n".join([*parts, "\n\\end\\", ""])


def _unigrams(counts: Counter[Gram]) -> dict[Gram, float]:
    """Relative frequencies; the start mark is never predicted."""
    total = sum(count for gram, count in counts.items() if gram != (_START,))
    table = {gram: count / total for gram, count in counts.items()}
    table[(_START,)] = 0.0
    return table


def _discounted(
    counts: Counter[Gram],
    lower: Mapping[Gram, float],
    *,
    lower_back: Mapping[Gram, float] | None = None,
    lowest: Mapping[Gram, float] | None = None,
) -> tuple[dict[Gram, float], dict[Gram, float]]:
    """Probabilities of the grams seen, and the back-off weight of each context."""
    by_context: dict[Gram, list[Gram]] = defaultdict(list)
    for gram in counts:
        by_context[gram[:-1]].append(gram)
    table: dict[Gram, float] = {}
    back: dict[Gram, float] = {}
    for context, grams in by_context.items():
        total = sum(counts[gram] for gram in grams)
        for gram in grams:
            table[gram] = (counts[gram] - _DISCOUNT) / total
        known = sum(_shorter(gram[1:], lower, lower_back, lowest) for gram in grams)
        held_back = _DISCOUNT * len(grams) / total
        back[context] = held_back / max(1e-6, 1.0 - known) if known < 1.0 else 1.0
    return table, back


def _shorter(
    gram: Gram,
    lower: Mapping[Gram, float],
    lower_back: Mapping[Gram, float] | None,
    lowest: Mapping[Gram, float] | None,
) -> float:
    """Probability of *gram* under the next shorter model, itself backing off where it was not seen."""
    if gram in lower or lower_back is None or lowest is None:
        return lower.get(gram, 0.0)
    return lower_back.get(gram[:-1], 1.0) * lowest.get(gram[1:], 0.0)


def _log(probability: float) -> float:
    return log10(probability) if probability > 0 else _FLOOR
