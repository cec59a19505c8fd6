"""The rows of tests/cases, counted, those that are not understood yet with them."""

from types import SimpleNamespace

from accuracy.rows import RowCounter, Rows
from accuracy.tables import rows_table


def told(test, outcome, when="call"):
    """What pytest reports of one test."""
    return SimpleNamespace(nodeid=f"tests/understanding/{test}", outcome=outcome, when=when)


def test_rows_are_counted_by_their_file():
    """A row passed or not; one of not_yet counts among all rows, and is not right; set-up is no row."""
    counter = RowCounter()
    for report in (
        told("test_cases.py::test_talk[pump.txt:3 a reading]", "passed"),
        told("test_cases.py::test_talk[pump.txt:9 another]", "failed"),
        told("test_cases.py::test_not_yet[pump.txt:3 two at once]", "skipped"),
        told("test_cases.py::test_not_yet[fork.txt:3 three words]", "skipped"),
        told("test_numbers.py::TestCases::test_row[one]", "passed"),
        told("test_numbers.py::TestCases::test_row[one]", "passed", when="setup"),
    ):
        counter.pytest_runtest_logreport(report)
    assert {
        "pump.txt": Rows(1, 3, 1),
        "fork.txt": Rows(0, 1, 1),
        "numbers.tsv": Rows(1, 1, 0),
    } == counter.counts


def test_the_share_is_of_all_rows():
    """What is not understood yet is not left out of the sum."""
    table = rows_table({"pump.txt": Rows(6, 8, 2), "fork.txt": Rows(3, 4, 1)})
    assert "| fork.txt | 3 | 1 | 4 |" == table[2]
    assert "| all | 9 (75.0 %) | 3 | 12 |" == table[-1]
