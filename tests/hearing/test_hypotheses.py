"""From scores to hypotheses."""

from itertools import pairwise

import pytest

from saywright.hearing.adapters.hypotheses import (
    Scored,
    borrow_times,
    build,
    collapse,
    echoes,
    find_loop,
    mix,
    spread,
    tame,
    too_fast,
    weigh,
)


def split(text: str) -> tuple[str, ...]:
    """Words of a text."""
    return tuple(text.split())


def test_equal_texts_are_merged() -> None:
    """Hypotheses that differ only in punctuation are one, with the sum of their probabilities."""
    weighed = weigh([Scored(("two",), -1.0), Scored(("to",), -1.0), Scored(("two",), -1.0)])
    assert ("two",) == weighed[0][0]
    assert 2 / 3 == pytest.approx(weighed[0][1])


def test_at_most_five_and_sum_one() -> None:
    """Six ways become five whose probabilities sum to 1, best first."""
    weighed = weigh([Scored((word,), -i) for i, word in enumerate("abcdef")])
    assert ["a", "b", "c", "d", "e"] == [words[0] for words, _ in weighed]
    assert 1.0 == pytest.approx(sum(probability for _, probability in weighed))


def test_very_low_scores_do_not_vanish() -> None:
    """Scores far below what a float's exponential can hold still compare."""
    weighed = weigh([Scored(("a",), -5000.0), Scored(("b",), -5001.0)])
    assert 1 / (1 + 2.718281828**-1) == pytest.approx(weighed[0][1])


def test_mix_sums_what_agrees() -> None:
    """Two hearings of one utterance agree on a text: its probability is the mean."""
    mixed = mix([(("a",), 0.8), (("b",), 0.2)], [(("a",), 0.4), (("c",), 0.6)])
    assert 0.6 == pytest.approx(dict(mixed)[("a",)])


def test_a_loop_is_found_and_said_once() -> None:
    """A phrase that repeats again and again keeps one saying; all its words are kept."""
    words = split("float height") + split("is eighteen") * 6 + split("point four")
    assert (2, 2, 6) == find_loop(words)
    assert split("float height is eighteen point four") == collapse(words)


@pytest.mark.parametrize(
    "text", ["two two two", "one one one one", "tap tap tap it is loose", "no no no make that"]
)
def test_what_people_repeat_is_no_loop(text: str) -> None:
    """Three or four times the same word is speech."""
    assert find_loop(split(text)) is None


def test_a_loop_too_fast_to_say_gives_way() -> None:
    """Forty words in two seconds were not said: only the phrase once is left."""
    assert [(split("two three"), 1.0)] == tame([(split("two three") * 20, 1.0)], 2.0)


def test_a_loop_that_could_be_said_stays_in_doubt() -> None:
    """Ten words in four seconds may have been said: both forms stay, at half each."""
    weighed = dict(tame([(split("two three") * 5, 1.0)], 4.0))
    assert {split("two three") * 5: 0.5, split("two three"): 0.5} == weighed


def test_speech_without_loop_is_untouched() -> None:
    """Ordinary hypotheses pass as they are."""
    weighed = [(split("float height is eighteen"), 0.7), (split("float height is eighty"), 0.3)]
    assert weighed == tame(weighed, 2.0)


def test_too_fast() -> None:
    """Seven words a second is the most, with a few free for a burst."""
    assert not too_fast(split("one two three four"), 0.3)
    assert too_fast(split("one two three four five six seven eight nine ten"), 0.5)


def test_echo_of_the_prompt() -> None:
    """A whole sentence of the prompt in what was heard is suspicious; a part of one is not."""
    sentences = [split("main jet one forty two"), split("float height ten")]
    assert echoes(split("and main jet one forty two then"), sentences)
    assert not echoes(split("main jet one forty"), sentences)
    assert not echoes(split("float height ten"), sentences)


def test_spread_fills_the_span() -> None:
    """Words spread over a span are in order and end with it."""
    words = spread(("a", "longer", "b"), 1.0, 2.0)
    assert 1.0 == words[0].start_s
    assert words[-1].end_s == pytest.approx(2.0)
    assert all(one.end_s == two.start_s for one, two in pairwise(words))


def test_other_hypotheses_borrow_times() -> None:
    """A shared word has the same time in every hypothesis; one between keeps to its gap."""
    best = spread(split("float height eighteen point four"), 0.0, 5.0)
    other = borrow_times(split("float height is eighty point four"), best, 0.0, 5.0)
    assert split("float height is eighty point four") == tuple(word.text for word in other)
    assert best[1] == other[1]
    assert best[3].start_s == other[4].start_s
    assert other[2].start_s == best[2].start_s
    assert other[3].end_s == pytest.approx(best[2].end_s)


@pytest.mark.parametrize(
    "text", ["", "float", "x", "and float height eighteen point four two then", "four point float"]
)
def test_borrowed_times_stay_in_the_span(text: str) -> None:
    """Whatever the other hypothesis, its words lie inside the utterance, in order."""
    best = spread(split("float height eighteen point four"), 1.0, 5.0)
    other = borrow_times(split(text), best, 1.0, 5.0)
    times = [time for word in other for time in (word.start_s, word.end_s) if time is not None]
    assert split(text) == tuple(word.text for word in other)
    assert times == sorted(times)
    assert all(1.0 <= time <= 5.0 + 1e-9 for time in times)


def test_build_makes_hypotheses() -> None:
    """Weighed words and the best one's times become hypotheses."""
    weighed = [(("two",), 0.75), (("to",), 0.25)]
    made = build(weighed, spread(("two",), 0.0, 0.5), 0.0, 0.5)
    assert [("two", 0.75), ("to", 0.25)] == [(one.text, one.probability) for one in made]
