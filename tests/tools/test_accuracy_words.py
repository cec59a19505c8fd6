"""Words wrong, words misheard, and the rows of truth."""

import pytest
from accuracy.cases import kind_of, plain, read_talks
from accuracy.edits import edits, words_of
from accuracy.noise import Misheard
from accuracy.paths import CORPUS


@pytest.mark.parametrize(
    ("wanted", "found", "count"),
    [
        ("a b c", "a b c", 0),
        ("a b c", "a c", 1),
        ("a b", "a x b", 1),
        ("a b", "a x", 1),
        ("", "a b", 2),
        ("k i t t e n", "s i t t i n g", 3),  # the usual example of the distance, common practice
    ],
)
def test_words_wrong_are_counted(wanted, found, count):
    """Words put in, left out and changed each count once."""
    assert count == edits(wanted.split(), found.split())


def test_words_are_without_punctuation():
    """Case and marks do not make a word wrong."""
    assert ["it's", "18", "mm"] == words_of("It's 18 mm!")


def test_nothing_is_misheard_at_a_rate_of_zero():
    """The plain row of the table is the text as it is."""
    words = "float height is eighteen point four two".split()  # noqa: SIM905
    assert words == Misheard(words, rate=0.0, seed=1).hear(words)


def test_the_same_seed_mishears_the_same():
    """Two runs of the harness measure the same words."""
    words = ["float", "height", "eighteen", "point", "four"] * 20
    first, again = (Misheard(words, rate=0.3, seed=5).hear(words) for _ in range(2))
    assert first == again
    assert first != words


def test_about_the_rate_is_misheard():
    """Of ten thousand words at a rate of a tenth some thousand are wrong; a swap makes two edits of one."""
    words = ["two", "point", "eighteen", "height"] * 2500
    heard = Misheard(words, rate=0.1, seed=3).hear(words)
    dropped = len(words) - len(heard)
    assert 250 < dropped < 420  # a third of a thousand


def test_a_number_is_taken_for_one_that_sounds_alike():
    """Fifteen and fifty are taken for each other."""
    misheard = Misheard(["fifteen"], rate=1.0, seed=2)
    heard = {word for _ in range(30) for word in misheard.hear(["fifteen"])}
    assert "fifty" in heard
    assert heard <= {"fifteen", "fifty"}


def test_a_talk_is_read_with_its_truth(tmp_path):
    """Sheet, reason, words and rows; an empty file is no talk, a stray line is named."""
    file = tmp_path / "talk.txt"
    file.write_text("sheet: s\nwhy: terse\n> float height two\n  reading float.height 2 mm  asks?\n", "utf-8")
    (talk,) = read_talks(file)
    assert ("s", "terse", (("float height two", ("reading float.height 2 mm asks?",)),)) == (
        talk.sheet,
        talk.why,
        talk.lines,
    )
    assert "reading float.height 2 mm" == plain(talk.lines[0][1][0])
    assert "reading" == kind_of(talk.lines[0][1][0])
    file.write_text("float height two\n", "utf-8")
    with pytest.raises(ValueError, match=r"talk\.txt:1"):
        read_talks(file)


def test_the_corpus_is_large_and_of_two_styles():
    """At least 300 utterances over four sheets, each said once, half of them terse."""
    talks = [talk for path in sorted(CORPUS.glob("*.txt")) for talk in read_talks(path)]
    words = [talk.lines[0][0] for talk in talks]
    assert 300 <= len(talks)
    assert 4 == len({talk.sheet for talk in talks})
    assert len(words) == len(set(words))
    assert len(talks) / 2 == sum(talk.why == "terse" for talk in talks)
    assert not any(mark.isdigit() for one in words for mark in one)
