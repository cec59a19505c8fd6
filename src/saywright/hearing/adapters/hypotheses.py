"""From what an engine scored to hypotheses: words, merging, times, and doubt about what sounds invented.

Pure. Shared by the adapters, so that every engine's hypotheses mean the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from math import exp

from saywright.hearing.words import Hypothesis, Word

MAX_HYPOTHESES = 5
_WORDS_PER_S = 7.0  # nobody speaks faster for long; a decoder in a loop does
_WORDS_FREE = 3  # … except in a burst
_MIN_REPEATS = {1: 5, 2: 4, 3: 4}  # words of a phrase → repeats that look like a loop; longer phrases: 3
_ECHO_WORDS = 4  # a whole sentence of the prompt, this long or longer, may be an echo


@dataclass(frozen=True, slots=True)
class Scored:
    """One way an engine heard the utterance."""

    words: tuple[str, ...]
    log_probability: float  # natural, of the whole word sequence; only differences between hypotheses count


def weigh(scored: Sequence[Scored]) -> list[tuple[tuple[str, ...], float]]:
    """Word sequences with their share of probability, best first; equal ones merged, at most five, sum 1."""
    if not scored:
        return []
    top = max(one.log_probability for one in scored)
    sums: dict[tuple[str, ...], float] = {}
    for one in scored:
        sums[one.words] = sums.get(one.words, 0.0) + exp(one.log_probability - top)
    return share(sums)


def share(sums: dict[tuple[str, ...], float]) -> list[tuple[tuple[str, ...], float]]:
    """Best first, at most five, weights scaled to sum 1; order of equals as given."""
    best = sorted(sums.items(), key=lambda item: -item[1])[:MAX_HYPOTHESES]
    total = sum(weight for _, weight in best)
    return [(words, weight / total) for words, weight in best] if total > 0 else []


def mix(
    first: Sequence[tuple[tuple[str, ...], float]],
    second: Sequence[tuple[tuple[str, ...], float]],
    first_weight: float = 0.5,
) -> list[tuple[tuple[str, ...], float]]:
    """Two weighed hearings of one utterance as one."""
    sums: dict[tuple[str, ...], float] = {}
    for hearing, weight in ((first, first_weight), (second, 1 - first_weight)):
        for words, probability in hearing:
            sums[words] = sums.get(words, 0.0) + probability * weight
    return share({words: weight for words, weight in sums.items() if weight > 0})


def too_fast(words: Sequence[str], speech_s: float) -> bool:
    """True where so many words cannot have been said in *speech_s* seconds."""
    return len(words) > _WORDS_FREE + _WORDS_PER_S * speech_s


def find_loop(words: Sequence[str]) -> tuple[int, int, int] | None:
    """(start, phrase length, repeats) of the first phrase that repeats too often in a row; None for none."""
    for start in range(len(words)):
        for size in range(1, min(12, (len(words) - start) // 3) + 1):
            phrase = words[start : start + size]
            repeats = 1
            while list(words[start + repeats * size : start + (repeats + 1) * size]) == list(phrase):
                repeats += 1
            if repeats >= _MIN_REPEATS.get(size, 3):
                return start, size, repeats
    return None


def collapse(words: tuple[str, ...]) -> tuple[str, ...]:
    """*words* with every looping phrase said once."""
    while (loop := find_loop(words)) is not None:
        start, size, repeats = loop
        words = words[: start + size] + words[start + size * repeats :]
    return words


def tame(
    weighed: Sequence[tuple[tuple[str, ...], float]], speech_s: float
) -> list[tuple[tuple[str, ...], float]]:
    """Looping hypotheses share their probability with the same words said once.

    A loop that is too fast to have been said gives all of it away. No word is lost: the
    phrase stays, only how often it was said is in doubt.
    """
    sums: dict[tuple[str, ...], float] = {}
    for words, probability in weighed:
        once = collapse(words)
        kept = probability if once == words else 0.0 if too_fast(words, speech_s) else probability / 2
        for form, weight in ((words, kept), (once, probability - kept)):
            if weight > 0:
                sums[form] = sums.get(form, 0.0) + weight
    return share(sums)


def echoes(words: Sequence[str], sentences: Sequence[Sequence[str]]) -> bool:
    """True where a whole sentence of the prompt comes back."""
    text = f" {' '.join(words)} "
    return any(len(sentence) >= _ECHO_WORDS and f" {' '.join(sentence)} " in text for sentence in sentences)


def spread(words: Sequence[str], start_s: float, end_s: float) -> tuple[Word, ...]:
    """*words* spread over a span, each as long as it has letters; confidence unknown."""
    letters = [len(word) + 1 for word in words]
    step = (end_s - start_s) / max(1, sum(letters))
    placed: list[Word] = []
    at = 0
    for word, count in zip(words, letters, strict=True):
        placed.append(Word(text=word, start_s=start_s + at * step, end_s=start_s + (at + count) * step))
        at += count
    return tuple(placed)


def borrow_times(
    words: Sequence[str], timed: Sequence[Word], start_s: float, end_s: float
) -> tuple[Word, ...]:
    """Times for another hypothesis: shared words take those of the best one, the rest is spread between."""
    placed: list[Word] = []
    matcher = SequenceMatcher(None, [word.text for word in timed], list(words), autojunk=False)
    for tag, first, last, new_first, new_last in matcher.get_opcodes():
        if tag == "equal":
            placed += [word.model_copy(update={"confidence": None}) for word in timed[first:last]]
        elif new_last > new_first:
            left = timed[first].start_s if first < last else (timed[first - 1].end_s if first else start_s)
            right = (
                timed[last - 1].end_s
                if first < last
                else (timed[first].start_s if first < len(timed) else end_s)
            )
            low = start_s if left is None else left
            placed += spread(words[new_first:new_last], low, max(low, end_s if right is None else right))
    return tuple(placed)


def build(
    weighed: Sequence[tuple[tuple[str, ...], float]], best: Sequence[Word], start_s: float, end_s: float
) -> tuple[Hypothesis, ...]:
    """Hypotheses from weighed words; *best* are the timed words of the first."""
    made = [Hypothesis(words=tuple(best), probability=min(1.0, weighed[0][1]))]
    made += [
        Hypothesis(words=borrow_times(words, best, start_s, end_s), probability=min(1.0, probability))
        for words, probability in weighed[1:]
    ]
    return tuple(made)
