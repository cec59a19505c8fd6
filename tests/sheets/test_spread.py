"""Names with alternatives and words that may be left out.

The marks mean what they mean in the W3C Recommendation "Speech Recognition Grammar Specification Version 1.0"
(16 March 2004), sections 2.4 (alternatives) and 2.5 (optional expansion), ABNF form.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.sheets import check_file, load_sheet
from saywright.sheets.spread import MOST, SpreadError, spread

HEAD = '[sheet]\nid = "s"\ntitle = "S"\n'

WORD = st.text("abc", min_size=1, max_size=2)
NAME = st.recursive(
    WORD,
    lambda inner: st.one_of(
        st.tuples(inner, inner).map(" ".join),
        st.lists(inner, min_size=2, max_size=3).map(lambda ways: f"({' | '.join(ways)})"),
        inner.map(lambda what: f"[{what}]"),
    ),
    max_leaves=6,
)


def _said_by(name: str) -> re.Pattern[str]:
    """The same name as a regular expression over words, each with a space behind it."""
    words = re.sub(r"[abc]+", lambda m: f"{m[0]}_", name).replace(" ", "")
    return re.compile(
        words.replace("[", "(?:").replace("]", ")?").replace("(", "(?:").replace("(?:?:", "(?:")
    )


class TestSpread:
    def test_a_plain_name_stays_as_it_is(self) -> None:
        """No mark, no other way of saying it."""
        assert spread("no  give in it") == ("no  give in it",)

    def test_alternatives(self) -> None:
        """W3C SRGS 1.0, example of section 2.4: each is said alone."""
        assert spread("Michael | Yuriko | Mary | Duke") == ("Michael", "Yuriko", "Mary", "Duke")

    def test_what_may_be_left_out(self) -> None:
        """W3C SRGS 1.0, section 2.5: "[very] good" is said with the word or without it."""
        assert spread("[very] good") == ("very good", "good")

    def test_one_in_the_other(self) -> None:
        """Alternatives hold words that may be left out, and the other way round."""
        said = spread("as good as the day [it was (made | fitted [new])]")
        assert said == (
            "as good as the day it was made",
            "as good as the day it was fitted new",
            "as good as the day it was fitted",
            "as good as the day",
        )

    @given(NAME)
    def test_as_a_regular_expression_says(self, name: str) -> None:
        """Each way is one that the same name, written as a regular expression, takes whole."""
        try:
            said = spread(name)
        except SpreadError:
            assert _said_by(name).fullmatch("")  # nothing has to be said
            return
        taken = _said_by(name)
        assert len(set(said)) == len(said)
        assert all(taken.fullmatch("".join(f"{word}_" for word in way.split())) for way in said)

    @pytest.mark.parametrize(
        ("name", "what"),
        [
            ("( " * 2000 + "a", "more than 40 brackets"),
            ("turns (freely", "')' is missing"),
            ("turns [freely)", "']' is missing"),
            ("turns freely)", "')' closes nothing"),
            ("turns (freely | )", "is empty"),
            ("turns ()", "is empty"),
            ("[turns] [freely]", "nothing has to be said"),
            ("turns |", "is empty"),
            (" ".join(["(a | b | c)"] * 6), f"more than {MOST}"),
        ],
    )
    def test_marks_that_do_not_fit(self, name: str, what: str) -> None:
        """They are told, none is guessed."""
        with pytest.raises(SpreadError, match=re.escape(what)):
            spread(name)

    @given(st.text("ab()[]| ", max_size=14))
    def test_any_text_is_spread_or_told(self, name: str) -> None:
        """Total: ways of saying it, or what is wrong with the marks."""
        try:
            said = spread(name)
        except SpreadError:
            return
        assert "" not in said or not name.strip()


class TestInASheet:
    def test_names_of_all_kinds(self, tmp_path: Path) -> None:
        """Of a component, a characteristic, a condition its predicates, a caution; a repeat counts once."""
        path = tmp_path / "s.toml"
        path.write_text(
            HEAD
            + '[[component]]\nid = "cup"\nnames = ["[leather] cup"]\n'
            + '[[component.characteristic]]\nid = "width"\nnames = ["(width | breadth)"]\n'
            + '[[condition]]\nid = "free"\nnames = ["turns easy", "(turns | runs) (easy | free)"]\n'
            + 'predicates = ["(dead | quite) free"]\n'
            + '[[caution]]\nwhen = ["(white | mineral) spirit"]\ntext = "No flames."\n'
        )
        sheet = load_sheet(path)
        cup, free = sheet.get("cup"), sheet.get_condition("free")
        assert cup is not None
        assert free is not None
        assert cup.names == ("leather cup", "cup")
        assert cup.characteristic[0].names == ("width", "breadth")
        assert free.names == ("turns easy", "turns free", "runs easy", "runs free")
        assert free.predicates == ("dead free", "quite free")
        assert sheet.caution[0].when == ("white spirit", "mineral spirit")

    def test_bad_marks_are_a_fault_with_its_line(self, tmp_path: Path) -> None:
        """As any other: what, where, what to do."""
        path = tmp_path / "s.toml"
        path.write_text(HEAD + '[[condition]]\nid = "free"\nnames = ["turns (easy"]\n')
        told = [str(fault) for fault in check_file(path)]
        assert told == ["line 6: condition[1].names: 'turns (easy': ')' is missing"]
