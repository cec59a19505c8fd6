"""Sheet files as a shop would write them, and the ones that ship."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from saywright.errors import InputError, NotFoundError, SheetError
from saywright.sheets import check_file, list_sheets, load_sheet
from saywright.sheets.model import Characteristic, Component

EXAMPLE = Path(__file__).with_name("example.toml")

HEAD = '[sheet]\nid = "s"\ntitle = "S"\n'


def _write(folder: Path, text: str, name: str = "mine.toml") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def _component(path: Path, component: str) -> Component:
    found = load_sheet(path).get(component)
    assert found is not None
    return found


def _characteristic(path: Path | str, component: str, characteristic: str) -> Characteristic:
    found = load_sheet(path).find(component, characteristic)
    assert found is not None
    return found


class TestFormat:
    def test_example_of_the_format_loads(self) -> None:
        """The documented example loads as it stands."""
        sheet = load_sheet(EXAMPLE)
        assert ("float", "main_jet", "air_screw") == tuple(c.id for c in sheet.component)
        height = _characteristic(EXAMPLE, "float", "height")
        assert (Decimal("18.0"), Decimal("18.8")) == height.limits
        assert (Decimal(10), Decimal(30)) == height.plausible
        assert ("as_found", "as_left") == height.when
        assert (Decimal(125), Decimal(128), Decimal(130)) == _characteristic(
            EXAMPLE, "main_jet", "size"
        ).allowed
        assert _characteristic(EXAMPLE, "air_screw", "turns_out").restore

    def test_example_has_the_common_vocabulary(self) -> None:
        """What the base defines is there beside what the sheet says."""
        sheet = load_sheet(EXAMPLE)
        assert sheet.get_condition("worn") is not None
        assert sheet.get_action("replace") is not None
        assert any("compressed air" in caution.triggers for caution in sheet.caution)

    def test_a_name_belongs_to_the_entry_that_the_sheet_gives_it_to(self) -> None:
        """The example calls "chewed up" scored; the base's own entry of that name gives it up."""
        holders = [c.id for c in load_sheet(EXAMPLE).condition if "chewed up" in c.names]
        assert ["scored"] == holders

    def test_numbers_keep_their_digits(self, tmp_path: Path) -> None:
        """38.10 stays 38.10."""
        path = _write(
            tmp_path,
            HEAD + '[[component]]\nid = "bore"\n[[component.characteristic]]\n'
            'id = "d"\nunit = "mm"\nlower = 38.10\n',
        )
        assert "38.10" == str(_characteristic(path, "bore", "d").lower)

    def test_a_name_of_the_sheet_takes_the_predicate_of_the_base(self, tmp_path: Path) -> None:
        """Who calls it notchy, or rough, has all that the base says for rough under that id."""
        said = (
            'extends = "base"\n'
            '[[condition]]\nid = "notchy"\nnames = ["notchy", "rough"]\n'
            '[[condition]]\nid = "weak"\nnames = ["soft"]\n'
        )
        sheet = load_sheet(_write(tmp_path, HEAD + said))
        notchy, softened = sheet.get_condition("notchy"), sheet.get_condition("softened")
        assert notchy is not None
        assert softened is not None
        assert sheet.get_condition("rough") is None
        assert {"rumbly", "rumbling", "growly"} <= set(notchy.predicates)
        assert {"notchy", "rough"}.isdisjoint(notchy.predicates)
        assert "soft" not in softened.predicates
        assert "gone soft" in softened.names

    def test_a_condition_of_predicates_is_shown_by_its_id(self, tmp_path: Path) -> None:
        """What has predicates only is no name anywhere, and its label is the id in words."""
        sheet = load_sheet(
            _write(tmp_path, HEAD + '[[condition]]\nid = "gone_rough"\npredicates = ["rough"]\n')
        )
        assert [("gone rough", ())] == [(c.label, c.names) for c in sheet.condition]

    def test_without_names_the_id_is_the_name(self, tmp_path: Path) -> None:
        """Underscores of an id are spaces when spoken."""
        path = _write(
            tmp_path,
            HEAD + '[[component]]\nid = "air_screw"\n[[component.characteristic]]\nid = "turns_out"\n'
            '[[condition]]\nid = "worn_out"\n[[action]]\nid = "blow_out"\n',
        )
        sheet = load_sheet(path)
        assert ("air screw",) == sheet.component[0].names
        assert ("turns out",) == sheet.component[0].characteristic[0].names
        assert ("worn out",) == sheet.condition[0].names
        assert ("blow out",) == sheet.action[0].names

    def test_positions_give_the_count(self, tmp_path: Path) -> None:
        """Two positions and no count: two are fitted."""
        path = _write(tmp_path, HEAD + '[[component]]\nid = "pad"\npositions = ["left", "right"]\n')
        assert 2 == _component(path, "pad").count

    def test_windows_text_loads(self, tmp_path: Path) -> None:
        """A byte-order mark and CR LF line ends, as some editors write, do no harm."""
        path = tmp_path / "mine.toml"
        path.write_bytes(b"\xef\xbb\xbf" + HEAD.replace("\n", "\r\n").encode())
        assert "S" == load_sheet(path).title

    def test_text_paths_are_taken_too(self, tmp_path: Path) -> None:
        """A path may come as text."""
        assert "s" == load_sheet(str(_write(tmp_path, HEAD))).id


class TestExtends:
    def test_a_known_id_adds_its_names(self, tmp_path: Path) -> None:
        """The base's names stay and stay in front."""
        text = HEAD + 'extends = "base"\n[[condition]]\nid = "worn"\nnames = ["knackered", "worn"]\n'
        worn = load_sheet(_write(tmp_path, text)).get_condition("worn")
        assert worn is not None
        assert "worn" == worn.names[0]
        assert 1 == worn.names.count("worn")
        assert "knackered" in worn.names

    def test_a_new_id_is_new(self, tmp_path: Path) -> None:
        """A condition the base lacks is added behind those of the base."""
        text = HEAD + 'extends = "base"\n[[condition]]\nid = "haunted"\n'
        conditions = [one.id for one in load_sheet(_write(tmp_path, text)).condition]
        assert [*(one.id for one in load_sheet("base").condition), "haunted"] == conditions

    def test_a_caution_keeps_the_text_of_the_base(self, tmp_path: Path) -> None:
        """A sheet cannot take a warning away, only add to it."""
        text = (
            HEAD + 'extends = "base"\n[[caution]]\nid = "heat"\nwhen = "oven"\ntext = "Oven at 80 at most."\n'
        )
        heat = next(c for c in load_sheet(_write(tmp_path, text)).caution if c.id == "heat")
        assert heat.text.startswith("Heat or flame")
        assert heat.text.endswith("Oven at 80 at most.")
        assert {"torch", "oven"} <= set(heat.triggers)

    def test_cautions_without_id_are_all_kept(self, tmp_path: Path) -> None:
        """Without an id nothing is merged."""
        text = HEAD + 'extends = "base"\n[[caution]]\ntext = "One."\n[[caution]]\ntext = "Two."\n'
        texts = [c.text for c in load_sheet(_write(tmp_path, text)).caution]
        assert ["One.", "Two."] == texts[-2:]

    def test_a_file_beside_it(self, tmp_path: Path) -> None:
        """A shop's own common sheet; a component of it is refined and its limits keep their source."""
        _write(
            tmp_path,
            '[sheet]\nid = "shop"\ntitle = "Shop"\nsource = "Shop book"\nrule = "simple"\n'
            '[[component]]\nid = "pad"\nnames = ["pad"]\n'
            '[[component.characteristic]]\nid = "thickness"\nunit = "mm"\nnominal = 5\ntolerance = 1\n'
            '[[component.characteristic]]\nid = "length"\nunit = "mm"\nlower = 40\n',
            "shop.toml",
        )
        path = _write(
            tmp_path,
            HEAD
            + 'source = "Mine"\nextends = "shop.toml"\n[[component]]\nid = "pad"\nnames = ["brake pad"]\n'
            '[[component.characteristic]]\nid = "thickness"\nlower = 3\n',
        )
        pad = _component(path, "pad")
        assert ("pad", "brake pad") == pad.names
        assert (Decimal(3), None) == pad.characteristic[0].limits
        assert "mm" == pad.characteristic[0].unit
        assert "Shop book" == pad.characteristic[1].source
        assert "simple" == load_sheet(path).rule

    def test_a_chain_of_three(self, tmp_path: Path) -> None:
        """A file that extends a file that extends the base has all of both."""
        middle = '[sheet]\nid = "m"\ntitle = "M"\nextends = "base"\n[[condition]]\nid = "haunted"\n'
        _write(tmp_path, middle, "middle.toml")
        sheet, base = load_sheet(_write(tmp_path, HEAD + 'extends = "middle"\n')), load_sheet("base")
        assert [*base.condition, sheet.get_condition("haunted")] == list(sheet.condition)
        assert base.action == sheet.action

    def test_a_circle_is_a_fault(self, tmp_path: Path) -> None:
        """Two sheets that extend each other are refused with the way round told."""
        _write(tmp_path, '[sheet]\nid = "b"\ntitle = "B"\nextends = "mine.toml"\n', "b.toml")
        path = _write(tmp_path, HEAD + 'extends = "b.toml"\n')
        (fault,) = check_file(path)
        assert (4, "sheet.extends") == (fault.line, fault.key)
        assert "mine.toml → b.toml → mine.toml" in fault.text

    def test_unknown_base_is_a_fault(self, tmp_path: Path) -> None:
        """The nearest known sheet is offered."""
        (fault,) = check_file(_write(tmp_path, HEAD + 'extends = "bass"\n'))
        assert (
            "line 4: sheet.extends: no sheet 'bass' ships or lies beside this file; did you mean 'base'?"
            == str(fault)
        )

    def test_faults_of_the_base_are_told_once(self, tmp_path: Path) -> None:
        """The sheet that extends a faulty one points there."""
        _write(tmp_path, '[sheet]\nid = "b"\n', "b.toml")
        (fault,) = check_file(_write(tmp_path, HEAD + 'extends = "b.toml"\n'))
        assert "'b.toml' has faults of its own, the first at line 1: sheet.title: missing" in fault.text


class TestBadFiles:
    def test_syntax_error_is_one_fault_with_its_line(self, tmp_path: Path) -> None:
        """What the TOML parser finds comes with the line, without a traceback."""
        (fault,) = check_file(_write(tmp_path, HEAD + "lower = \n"))
        assert 4 == fault.line
        assert "not valid TOML: Invalid value" == fault.text

    def test_an_unclosed_end_is_put_on_the_last_line(self, tmp_path: Path) -> None:
        """The parser speaks of the end of the document; the fault still has a line."""
        (fault,) = check_file(_write(tmp_path, HEAD + 'x = """'))
        assert 4 == fault.line

    def test_not_text(self, tmp_path: Path) -> None:
        """A picture is no sheet."""
        path = tmp_path / "mine.toml"
        path.write_bytes(b"[sheet]\n\xff\xd8\xff")
        (fault,) = check_file(path)
        assert (2, "not UTF-8 text; save the sheet as UTF-8") == (fault.line, fault.text)

    def test_all_faults_are_in_the_error(self, tmp_path: Path) -> None:
        """The error carries every fault and says how to see them all."""
        path = _write(tmp_path, '[sheet]\n[[component]]\ncolour = 1\nrenew = "yes"\n')
        with pytest.raises(SheetError) as caught:
            load_sheet(path)
        assert 5 == len(caught.value.faults)
        assert "has 5 faults" in str(caught.value)
        assert f"Run 'saywright sheet check {path}' for the whole list" in str(caught.value)

    def test_no_such_sheet(self) -> None:
        """A mistyped id gets the nearest one offered."""
        with pytest.raises(NotFoundError) as caught:
            load_sheet("outboard-float-carburettor")
        assert (
            "no bench sheet 'outboard-float-carburettor'. Give a TOML file or the id of a shipped sheet; "
            "did you mean 'outboard-float-carburetor'?" == str(caught.value)
        )

    def test_a_folder_is_no_sheet(self, tmp_path: Path) -> None:
        """One clear line for a folder."""
        with pytest.raises(InputError) as caught:
            load_sheet(tmp_path)
        assert f"{tmp_path}: the bench sheet cannot be read (is a directory). Name a TOML file" == str(
            caught.value
        )


class TestShipped:
    def test_list(self) -> None:
        """Sheets for a job are listed; the mere vocabulary is not."""
        listed = {sheet.id: sheet.title for sheet in list_sheets()}
        assert "Single-float outboard carburetor" == listed["outboard-float-carburetor"]
        assert "base" not in listed

    @pytest.mark.parametrize("name", ["base", *(sheet.id for sheet in list_sheets())])
    def test_shipped_sheets_have_no_fault(self, name: str) -> None:
        """What ships passes its own check."""
        assert () == check_file(name)

    def test_size_of_the_demo_sheet(self) -> None:
        """The full sheet is full, and says of itself that it is invented."""
        sheet = load_sheet("outboard-float-carburetor")
        assert 14 <= len(sheet.component)
        assert 22 <= len(list(sheet.characteristics()))
        assert "Invented for the demo" == sheet.source

    def test_size_of_the_vocabulary(self) -> None:
        """The common vocabulary is rich, and good states are marked as such."""
        base = load_sheet("base")
        assert 30 <= len(base.condition)
        assert 15 <= len(base.action)
        assert {"clean", "clear", "straight", "free", "dry"} <= {c.id for c in base.condition if c.good}

    def test_names_are_told_apart(self) -> None:
        """No spoken name stands for two conditions or two actions."""
        sheet = load_sheet("outboard-float-carburetor")
        for entries in (sheet.condition, sheet.action):
            names = [name for entry in entries for name in entry.names]
            assert len(set(names)) == len(names)

    def test_cautions_defer_to_rules_that_apply(self) -> None:
        """Each common caution points to local rules and, where there is one, the maker's manual."""
        for caution in load_sheet("base").caution:
            assert "local" in caution.text
            assert caution.triggers
