"""A shop's own words: names on a sheet, in a file of their own or in the sheet."""

from __future__ import annotations

from pathlib import Path

import pytest

from saywright.errors import InputError
from saywright.hearing.vocabulary import phrases, prompt
from saywright.sheets import check_file, load_sheet
from saywright.sheets.load import load_words
from saywright.sheets.model import Sheet, ShopWord
from saywright.sheets.words import with_words
from saywright.sheets.words_text import words_text

SHEET = "outboard-float-carburetor"


@pytest.fixture(scope="module")
def sheet() -> Sheet:
    """The demo's sheet."""
    return load_sheet(SHEET)


def _names(sheet: Sheet, component: str) -> tuple[str, ...]:
    found = sheet.get(component)
    assert found is not None
    return found.names


def test_a_word_becomes_a_name(sheet: Sheet) -> None:
    """Of a part, a characteristic, a condition and an action; the shown name stays the first."""
    words = [
        ShopWord(say="The Brass Bit", means="main_jet"),
        ShopWord(say="float level", means="float.height"),
        ShopWord(say="manky", means="dirty"),
        ShopWord(say="yeet", means="replace"),
    ]
    done = with_words(sheet, words)
    assert (*_names(sheet, "main_jet"), "brass bit") == _names(done, "main_jet")
    height = done.find("float", "height")
    dirty, replace = done.get_condition("dirty"), done.get_action("replace")
    assert height is not None
    assert dirty is not None
    assert replace is not None
    assert "float level" in height.names
    assert "manky" in dirty.names
    assert "yeet" == replace.names[-1]


def test_a_word_for_another_bench_is_left_out(sheet: Sheet) -> None:
    """What this sheet does not have, this sheet does not listen for."""
    done = with_words(sheet, [ShopWord(say="slave", means="wheel_cylinder"), ShopWord(say="zwoggle")])
    assert (ShopWord(say="zwoggle"),) == done.word
    assert "zwoggle" in phrases(done)
    assert "zwoggle." in prompt(done)
    assert "slave" not in phrases(done)


def test_the_sheets_own_names_come_first(sheet: Sheet) -> None:
    """A word that names another part here keeps the sheet's meaning."""
    done = with_words(sheet, [ShopWord(say="float", means="main_jet")])
    assert _names(sheet, "main_jet") == _names(done, "main_jet")


def test_a_file_comes_back_as_written(tmp_path: Path) -> None:
    """Quotes, umlauts and phones included."""
    words = (ShopWord(say='the "gizmo"', means="float"), ShopWord(say="düse", sounds="D UW Z AH"))
    path = tmp_path / "words.toml"
    path.write_text(words_text(words), encoding="utf-8")
    assert words == load_words(path)


def test_no_file_is_no_words(tmp_path: Path) -> None:
    """A shop without words of its own needs no file."""
    assert () == load_words(tmp_path / "words.toml")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("[[word]]\nmeans = 'float'\n", "line 1: word[1].say: missing"),
        ("[[word]]\nsay = 'a'\nmeens = 'float'\n", "line 3: word[1].meens: unknown key"),
        ("[[word]]\nsay = 'a'\n[[word]]\nsay = 'the A'\n", "'a' is there already"),
        ("[[word]]\nsay = 'a b'\nsounds = 'B IY'\n", "stands beside several words"),
        ("[[word]]\nsay = 'a'\nsounds = 'B1'\n", "must be phones"),
        ("[sheet]\nid = 's'\n", "a file of words holds [[word]] tables only"),
        ("word = 3\n", "must be written as tables"),
        ("word = [3]\n", "must be written as tables"),
        ("[[word\n", "not valid TOML"),
    ],
)
def test_a_damaged_file_is_told(tmp_path: Path, text: str, told: str) -> None:
    """One line, with what and where."""
    path = tmp_path / "words.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(InputError, match="the file of the shop's words") as caught:
        load_words(path)
    assert told in str(caught.value)


def test_a_sheet_may_hold_words(tmp_path: Path) -> None:
    """Those of its own parts; an id that is not there is a fault."""
    path = tmp_path / "mine.toml"
    head = '[sheet]\nid = "s"\ntitle = "S"\nextends = "base"\n[[component]]\nid = "cam"\n'
    path.write_text(head + '[[word]]\nsay = "lobe"\nmeans = "cam"\n', encoding="utf-8")
    assert ("cam", "lobe") == _names(load_sheet(path), "cam")
    path.write_text(head + '[[word]]\nsay = "lobe"\nmeans = "camm"\n', encoding="utf-8")
    (fault,) = check_file(path)
    assert "line 9: word[1].means: nothing here has the id 'camm'; did you mean 'cam'?" == str(fault)
