"""The documentation names everything there is, and nothing that is gone."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import get_args

import pytest
from pydantic import BaseModel

from loading import tool
from saywright.flags import REASONS, FlagKind
from saywright.record.events import Payload
from saywright.sheets import model
from saywright.sheets.load import load_sheet
from saywright.units import UNITS

ROOT = Path(__file__).parent.parent
TABLES = {
    "sheet": model.Sheet,
    "instrument": model.Instrument,
    "component": model.Component,
    "component.characteristic": model.Characteristic,
    "condition": model.Condition,
    "action": model.Action,
    "caution": model.Caution,
    "unit": model.UnitNames,
    "word": model.ShopWord,
}


def text(name: str) -> str:
    """A page of the documentation."""
    return (ROOT / name).read_text(encoding="utf-8")


def command_page() -> str:
    """The page of commands as the tool makes it now."""
    page = tool("command_pages").page()
    assert isinstance(page, str)
    return page


def section(page: str, table: str) -> str:
    """The section of the page about sheets whose heading names this table."""
    found = [part for part in page.split("\n## ") if f"[{table}]" in part.splitlines()[0]]
    assert 1 == len(found), table
    return found[0]


def test_the_command_page_is_what_the_commands_say():
    """docs/commands.md is up to date; `make docs` writes it."""
    assert command_page() == text("docs/commands.md")


def test_every_command_has_an_example():
    """Each page of a command shows how it is called."""
    pages = re.findall(r"## (saywright[^\n]*)\n(.*?)```\n", text("docs/commands.md"), re.DOTALL)
    assert 10 < len(pages)
    assert [] == [name for name, body in pages if "Example:" not in body and "COMMAND" not in body]


def test_every_flag_is_told_with_its_reason():
    """docs/flags.md has a row for each kind, under its level, with the reason the record shows."""
    page = text("docs/flags.md")
    asks, notes = page.split("## Notes")
    for kind, (level, reason) in REASONS.items():
        assert f"| `{kind.value}` | {reason} |" in (asks if level == "ask" else notes)
    assert {kind.value for kind in FlagKind} == set(re.findall(r"^\| `(\w+)`", page, re.MULTILINE))


def test_every_event_kind_is_told():
    """docs/events.md names each kind of event."""
    page = text("docs/events.md")
    kinds = [payload.model_fields["kind"].default for payload in get_args(Payload)]
    assert 10 < len(kinds)
    assert [] == [kind for kind in kinds if f"`{kind}`" not in page]


@pytest.mark.parametrize(("table", "kind"), TABLES.items())
def test_every_sheet_key_is_told(table: str, kind: type[BaseModel]):
    """docs/sheets.md names each key of each table, and no other."""
    part = section(text("docs/sheets.md"), table if table == "sheet" else f"[{table}]")
    told = set(
        re.findall(
            r"`(\w+)`", " ".join(row.split("|")[1] for row in part.splitlines() if row.startswith("| `"))
        )
    )
    inner = set(TABLES) & set(kind.model_fields) if table == "sheet" else set()
    made_by_merging = {"own_names"}  # never written in a sheet
    keys = set(kind.model_fields) - inner - made_by_merging
    if table in {"condition", "action"}:
        told -= {"good", "order", "predicates"} - keys
    assert keys == told


def test_every_unit_is_told():
    """docs/sheets.md names each unit code."""
    page = text("docs/sheets.md")
    assert [] == [code for code in UNITS if f"`{code}`" not in page]


def test_the_sheet_in_the_page_loads(tmp_path):
    """The example of docs/sheets.md is a sheet without a fault."""
    example = re.search(r"```toml\n(.*?)```", text("docs/sheets.md"), re.DOTALL)
    assert example is not None
    file = tmp_path / "pump.toml"
    file.write_text(example[1], encoding="utf-8")
    assert "Hand bilge pump" == load_sheet(str(file)).title


def test_the_changelog_begins_with_this_version():
    """The newest entry of the changelog is the package's version."""
    version = tomllib.loads(text("pyproject.toml"))["project"]["version"]
    entry = re.search(r"^## (\S+)", text("CHANGELOG.md"), re.MULTILINE)
    assert entry is not None
    assert version == entry[1]


def test_every_dependency_is_explained():
    """docs/decisions.md has a row for each package the project names."""
    project = tomllib.loads(text("pyproject.toml"))
    named = [*project["project"]["dependencies"]]
    for group in (
        *project["project"]["optional-dependencies"].values(),
        *project["dependency-groups"].values(),
    ):
        named += [entry for entry in group if isinstance(entry, str)]
    rows = " ".join(
        row.split("|")[1] for row in text("docs/decisions.md").splitlines() if row.startswith("| ")
    )
    names = [re.split(r"[<>=~!\[; ]", entry)[0] for entry in named]
    assert 20 < len(names)
    assert [] == [name for name in names if name not in re.findall(r"[\w.-]+", rows)]


def test_every_module_of_understanding_has_its_place():
    """DEVELOPERS.md names each step once, each package once, and only modules that are there."""
    folder = ROOT / "src/saywright/understanding"
    steps = text("DEVELOPERS.md").partition("| step | modules |")[2].partition("\n\n")[0]
    assert sorted(path.name for path in folder.glob("[a-z]*.py")) == sorted(re.findall(r"`(\w+\.py)`", steps))
    table = text("DEVELOPERS.md").partition("| package | concern |")[2].partition("\n\n")[0]
    rows = re.findall(r"^\| `(\w+)/` \|.*\|(.*)\|$", table, re.MULTILINE)
    assert sorted(path.parent.name for path in folder.glob("*/__init__.py")) == sorted(
        name for name, _ in rows
    )
    lost = [
        f"{name}/{first}"
        for name, firsts in rows
        for first in re.findall(r"`(\w+\.py)`", firsts)
        if not (folder / name / first).exists()
    ]
    assert [] == lost


def test_every_section_of_the_report_is_told():
    """docs/report.md names each section that the report can have."""
    sources = [path.read_text(encoding="utf-8") for path in (ROOT / "src/saywright/report").glob("*.py")]
    titles = re.findall(r'(?:Section\(\s*"\w+",|title =)\s*"([^"]+)"', "\n".join(sources))
    assert 18 <= len(titles)
    page = " ".join(text("docs/report.md").split())
    assert [] == [title for title in titles if title not in page]


def test_links_lead_somewhere():
    """Each relative link of a page names a file that is there."""
    pages = [*ROOT.glob("*.md"), *(ROOT / "docs").glob("*.md")]
    assert 5 < len(pages)
    lost = [
        f"{page.name}: {target}"
        for page in pages
        for target in re.findall(r"\]\(([^)#:]+)[^)]*\)", page.read_text(encoding="utf-8"))
        if not (page.parent / target).exists()
    ]
    assert [] == lost
