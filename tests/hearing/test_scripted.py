"""Text files as utterances."""

from pathlib import Path

import numpy as np
import pytest

from saywright.errors import TextError
from saywright.hearing.adapters.scripted import (
    ScriptedListener,
    decode,
    parse_script,
    read_script,
    script_words,
)
from saywright.hearing.listener import SAMPLE_RATE_HZ


def test_lines_become_utterances() -> None:
    """Comments and blank lines are left out but counted."""
    heard = parse_script("# job\n\n[04:12.6] Float height is 18.42.\nmain jet one twenty-eight\n")
    assert [(252.6, 3, "float height is 18.42"), (None, 4, "main jet one twenty eight")] == [
        (one.start_s, one.line, one.best.text) for one in heard
    ]


@pytest.mark.parametrize(
    ("prefix", "start_s"),
    [("[12.6]", 12.6), ("[04:12]", 252.0), ("[1:04:12.5]", 3852.5), ("[ 0:00.0 ]", 0.0), ("[90:00]", 5400.0)],
)
def test_start_times(prefix: str, start_s: float) -> None:
    """Seconds, minutes and hours."""
    assert start_s == parse_script(f"{prefix} float off")[0].start_s


def test_what_is_no_time_stays_words() -> None:
    """A bracket that holds no time loses none of its words."""
    assert ["see page", "four float"] == [one.best.text for one in parse_script("[see] page\n[four] float")]
    assert parse_script("[see] page")[0].start_s is None


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("It's 18.40 mm.", "it's 18.40 mm"),
        ("18.42mm", "18.42 mm"),
        ("twenty-one, o-ring", "twenty one o ring"),
        ("minus -3 degrees", "minus -3 degrees"),
        ("3/64 in, 5%", "3/64 in 5 percent"),
        ("tag A-113, M8", "tag a 113 m8"),
        ("nuts & bolts", "nuts and bolts"),
        ("5-8", "5 8"),
        ("1,250", "1,250"),
        ("“Quoted” – words…", "quoted words"),
        ("twenty five, twenty four", "twenty five, twenty four"),
        ("25, 24; gap 3", "25, 24 gap 3"),
        ("bolts, one, two, three, out", "bolts one two three out"),
        ("pads two, three, two", "pads two, three, two"),
        (
            "eighteen, point four off two thousand, four hundred",
            "eighteen point four off two thousand four hundred",
        ),
        ("one,", "one"),
    ],
)
def test_words_keep_figures_whole(text: str, words: str) -> None:
    """Figures are never torn apart; punctuation goes, but for the comma that parts two numbers."""
    assert words.split() == script_words(text)


def test_no_text_no_utterance() -> None:
    """An empty file, or one of comments and dashes, gives nothing."""
    assert () == parse_script("")
    assert () == parse_script("# only\n---\n\n")


def test_binary_is_refused(tmp_path: Path) -> None:
    """A picture that is called text gets one clear line."""
    path = tmp_path / "x.txt"
    path.write_bytes(b"abc\n\xff\xd8\xff\xe0\x00\x10JFIF")
    with pytest.raises(TextError) as caught:
        read_script(path)
    wanted = f"{path}: not readable as text (line 2). Give a UTF-8 text file with one utterance a line"
    assert wanted == str(caught.value)


def test_control_characters_are_refused() -> None:
    """Valid UTF-8 with NUL bytes in it is no text either."""
    with pytest.raises(TextError, match=r"not a text file \(line 2\)"):
        parse_script("abc\nfoo\x00bar")


def test_missing_file(tmp_path: Path) -> None:
    """A file that is not there is told with its name."""
    with pytest.raises(TextError, match="cannot be read"):
        read_script(tmp_path / "none.txt")


def test_utf16_with_mark() -> None:
    """Text as some editors write it."""
    assert "float off" == decode("float off".encode("utf-16"))


def test_listener_speaks_when_the_audio_passes() -> None:
    """Utterances come when their time has passed, one without a time at once, the rest at the end."""
    listener = ScriptedListener(parse_script("[0:01] one\ntwo\n[0:03] three\n[9:00] four"))
    second = np.zeros(SAMPLE_RATE_HZ, dtype=np.float32)
    assert [] == listener.feed(second)
    assert ["one", "two"] == [one.best.text for one in listener.feed(second)]
    assert [] == listener.feed(second)
    assert ["three"] == [one.best.text for one in listener.feed(second)]
    assert ["four"] == [one.best.text for one in listener.finish()]
    assert ["one", "two", "three", "four"] == [one.best.text for one in listener.finish()]
