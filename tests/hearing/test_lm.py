"""The small language model in ARPA text."""

import re
from collections import defaultdict

import pytest

from saywright.hearing.lm import arpa

LINES = ("main jet one twenty eight", "main jet one thirty", "float height one", "float off", "one one one")


def tables(text: str) -> dict[int, dict[tuple[str, ...], tuple[float, float]]]:
    """ARPA text → order → words → (probability, back-off weight)."""
    found: dict[int, dict[tuple[str, ...], tuple[float, float]]] = defaultdict(dict)
    order = 0
    for line in text.splitlines():
        if match := re.fullmatch(r"\\(\d)-grams:", line):
            order = int(match[1])
        elif order and line and not line.startswith("\\"):
            fields = line.split()
            back = float(fields[order + 1]) if len(fields) > order + 1 else 0.0
            found[order][tuple(fields[1 : order + 1])] = (10 ** float(fields[0]), 10**back)
    return found


def probability(model: dict[int, dict[tuple[str, ...], tuple[float, float]]], gram: tuple[str, ...]) -> float:
    """Katz back-off, as a recogniser reads the file."""
    if gram in model[len(gram)]:
        return model[len(gram)][gram][0]
    if len(gram) == 1:
        return 0.0
    back = model[len(gram) - 1].get(gram[:-1], (0.0, 1.0))[1]
    return back * probability(model, gram[1:])


@pytest.mark.parametrize(
    "context", [(), ("main",), ("one",), ("main", "jet"), ("one", "one"), ("jet", "float")]
)
def test_probabilities_sum_to_one(context: tuple[str, ...]) -> None:
    """After any context the words and the end mark share the whole probability."""
    model = tables(arpa(LINES))
    words = [gram for gram in model[1] if gram != ("<s>",)]
    assert 1.0 == pytest.approx(sum(probability(model, (*context, *word)) for word in words), abs=2e-3)


def test_seen_is_likelier_than_unseen() -> None:
    """ "main jet" is likelier than "main float", and neither is impossible."""
    model = tables(arpa(LINES))
    assert probability(model, ("main", "jet")) > 0.5 > probability(model, ("main", "float")) > 0


def test_counts_are_declared() -> None:
    """The header tells how many grams follow, as the format wants."""
    text = arpa(LINES)
    model = tables(text)
    assert [f"ngram {n}={len(model[n])}" for n in (1, 2, 3)] == re.findall(r"ngram \d=\d+", text)
    assert text.rstrip().endswith("\\end\\")
