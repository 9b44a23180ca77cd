"""What the sheets hold, seen with readers that are not ours: openpyxl, odfpy (by pandas) and
Python's csv."""

from __future__ import annotations

import csv
import subprocess
import sys
from datetime import datetime
from itertools import islice, repeat
from pathlib import Path
from typing import Any

import openpyxl
import pandas as pd
import pytest
from exports_stash import TRICKY_LOTS, WEIGHED, balls_of_lots, balltag, cabinet_with
from filing_tags import record

from intake.errors import BadQuery, BadSheet, ExitCode
from intake.exports.book import Row, Sheet
from intake.exports.choice import chosen, condition, day
from intake.exports.exporter import rows_that_open
from intake.exports.formula_guard import unguarded
from intake.exports.kinds import exporter_for
from intake.exports.workbook import stash_sheets
from intake.filing.cabinet import Cabinet
from intake.filing.kinds import open_stash
from intake.sums.balls import balls

LEFT_OUT = frozenset({"digest", "print_hash", "version"})


def write(cabinet: Cabinet, path: Path, garment_m: float = 1200, pictures: bool = False) -> Path:
    picture = cabinet.pictures.path if pictures else None
    exporter_for(path).write(stash_sheets(balls(cabinet), "0", picture, garment_m), path)
    return path


def xlsx_rows(path: Path, sheet: str = "records") -> list[dict[str, Any]]:
    head, *rows = openpyxl.load_workbook(path)[sheet].iter_rows(values_only=True)
    return [dict(zip(head, row, strict=True)) for row in rows]


def ods_rows(path: Path, sheet: str = "records") -> list[dict[str, Any]]:
    table = pd.read_excel(path, sheet, engine="odf", dtype=object, na_filter=False)
    return [dict(row) for row in table.to_dict("records")]


def csv_rows(path: Path, sheet: str = "records") -> list[dict[str, Any]]:
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


READERS = {"out.xlsx": xlsx_rows, "out.ods": ods_rows, "out.csv": csv_rows}
TYPED = ("out.xlsx", "out.ods")


@pytest.mark.parametrize("name", READERS)
def test_every_lot_stands_there_as_text(name: str, tmp_path: Path) -> None:
    out = write(cabinet_with(tmp_path, *balls_of_lots(*TRICKY_LOTS)), tmp_path / name)
    lots = [row["lot"] for row in READERS[name](out)]
    assert [unguarded(lot) if name == "out.csv" else lot for lot in lots] == list(TRICKY_LOTS)


def test_no_cell_of_a_workbook_is_a_formula(tmp_path: Path) -> None:
    records = balls_of_lots(*TRICKY_LOTS, shade="=HYPERLINK(1)", note="-1+2", maker="@x")
    book = openpyxl.load_workbook(write(cabinet_with(tmp_path, *records), tmp_path / "out.xlsx"))
    kinds = {cell.data_type for sheet in book for row in sheet.iter_rows() for cell in row}
    assert "f" not in kinds


def test_no_cell_of_a_csv_file_begins_as_a_formula(tmp_path: Path) -> None:
    records = balls_of_lots(*TRICKY_LOTS, shade="=HYPERLINK(1)", note="-1+2", maker="@x")
    out = write(cabinet_with(tmp_path, *records), tmp_path / "out.csv")
    cells = [cell for row in csv_rows(out) for cell in row.values()]
    assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@", "\t", "\r"))]


@pytest.mark.parametrize("name", TYPED)
def test_numbers_are_numbers_and_moments_are_dates(name: str, tmp_path: Path) -> None:
    ball = record(length_m=87.5, mass_g=50.0)  # type: ignore[arg-type]
    (row,) = READERS[name](write(cabinet_with(tmp_path, ball), tmp_path / name))
    assert (row["length_m"], row["mass_g"], row["page"]) == (87.5, 50, 1)
    assert row["filed_at"] == datetime(2025, 3, 9, 17, 5, 42)
    assert row["shade_code"] == "041"


@pytest.mark.parametrize("name", READERS)
def test_every_column_of_the_stash_is_there(name: str, tmp_path: Path) -> None:
    cabinet = cabinet_with(tmp_path, record())
    (row,) = READERS[name](write(cabinet, tmp_path / name))
    assert set(row) >= {*csv_rows(cabinet.stash.path)[0]} - LEFT_OUT


def test_letters_of_every_language_and_spaces_stay(tmp_path: Path) -> None:
    shades = ["Sørøy  grå", " Ağaç", "Żółć & <Ő> ", 'Say "moss"']
    records = [record(f"{at}.jpg", shade=shade) for at, shade in enumerate(shades)]
    cabinet = cabinet_with(tmp_path, *records)
    for name, rows in READERS.items():
        assert [row["shade"] for row in rows(write(cabinet, tmp_path / name))] == shades


def test_the_head_stays_in_sight_and_every_column_can_be_filtered(tmp_path: Path) -> None:
    book = openpyxl.load_workbook(write(cabinet_with(tmp_path, record()), tmp_path / "out.xlsx"))
    for sheet in book:
        assert sheet.freeze_panes == "B2"
        assert sheet.auto_filter.ref.startswith("A1:")


def test_an_empty_cell_of_a_text_column_takes_text(tmp_path: Path) -> None:
    """It is left out, and its column's format holds for it: ECMA-376 part 1, 18.3.1.13 (a column's
    style "affects cells not yet allocated")."""
    book = openpyxl.load_workbook(
        write(cabinet_with(tmp_path, record(lot="")), tmp_path / "out.xlsx")
    )
    sheet = book["records"]
    lot = next(cell for cell in sheet[1] if cell.value == "lot").column
    assert (2, lot) not in sheet._cells
    formats = [
        one.number_format for one in sheet.column_dimensions.values() if one.min <= lot <= one.max
    ]
    assert formats == ["@"]


def test_each_row_shows_its_tag(tmp_path: Path) -> None:
    cabinet = cabinet_with(tmp_path, *balls_of_lots("1", "2"), pictures=True)
    images = openpyxl.load_workbook(write(cabinet, tmp_path / "out.xlsx", pictures=True))[
        "records"
    ]._images
    assert [image.anchor._from.row for image in images] == [1, 2]
    small = write(cabinet, tmp_path / "small.xlsx")
    assert not openpyxl.load_workbook(small)["records"]._images
    assert xlsx_rows(small)[0]["tag_picture"] == cabinet.records()[0].tag_picture


def test_a_tag_whose_picture_is_gone_or_spoilt_has_none(tmp_path: Path) -> None:
    cabinet = cabinet_with(tmp_path, *balls_of_lots("1", "2"), pictures=True)
    first, second = cabinet.records()
    cabinet.pictures.path(first.id).unlink()
    cabinet.pictures.path(second.id).write_bytes(b"no picture")
    book = openpyxl.load_workbook(write(cabinet, tmp_path / "out.xlsx", pictures=True))
    assert not book["records"]._images


# What is assumed, what was weighed


@pytest.fixture
def silent(tmp_path: Path) -> Cabinet:
    """A ball whose tag says neither fibre nor length, though its maker does."""
    cabinet = cabinet_with(tmp_path, record(fibre="", length_m=None))  # type: ignore[arg-type]
    (tmp_path / "stash.makers.csv").write_text(
        "maker,fibre,length_m,mass_g\nQuillstow Spinners,100% wool,400,100\n", encoding="utf-8"
    )
    return cabinet


@pytest.mark.parametrize("name", READERS)
def test_a_column_names_what_is_assumed(name: str, silent: Cabinet, tmp_path: Path) -> None:
    (row,) = READERS[name](write(silent, tmp_path / name))
    assert row["fibre"] == "100% wool"
    assert float(row["length_m"]) == 200
    assert row["assumed"] == "fibre, length_m, left_m"


def test_an_assumed_cell_says_so_in_italics(silent: Cabinet, tmp_path: Path) -> None:
    sheet = openpyxl.load_workbook(write(silent, tmp_path / "out.xlsx"))["records"]
    cells = dict(zip((cell.value for cell in sheet[1]), sheet[2], strict=True))
    for name, assumed in {"fibre": True, "length_m": True, "care": False, "lot": False}.items():
        assert cells[name].font.i == assumed, name
        assert ('" (assumed)"' in cells[name].number_format) == assumed, name


@pytest.mark.parametrize("name", TYPED)
def test_a_weighed_ball_has_what_is_left_and_its_plus_minus(name: str, tmp_path: Path) -> None:
    cabinet = cabinet_with(tmp_path, record())
    cabinet.weigh(cabinet.records()[0].id, WEIGHED)
    (row,) = READERS[name](write(cabinet, tmp_path / name))
    assert (row["length_m"], row["left_m"], row["left_m_plus_minus"]) == (210, 62.2, 3.6)
    assert (row["mass_g"], row["left_g"], row["left_g_plus_minus"]) == (50, 14.8, 0.9)
    assert isinstance(row["weighed_at"], datetime)


# Totals


def test_totals_agree_with_those_of_pandas(tmp_path: Path) -> None:
    records = [
        record(f"{at}.jpg", 1, shade=shade, lot=lot, length_m=length_m, mass_g=50.0)  # type: ignore[arg-type]
        for at, (shade, lot, length_m) in enumerate(
            [("Kelp", "0012", 210.0), ("Kelp", "0012", 190.5), ("Kelp", "0013", 210.0),
             ("Moss", "0012", 100.0)]
        )
    ]  # fmt: skip
    cabinet = cabinet_with(tmp_path, *records)
    cabinet.weigh(cabinet.records()[0].id, WEIGHED)
    out = write(cabinet, tmp_path / "out.xlsx")
    for sheet, keys in {"lots": ["shade", "lot"], "shades": ["shade"]}.items():
        table = pd.DataFrame(xlsx_rows(out)).groupby(keys)[["left_m", "left_g"]]
        expected = table.sum().assign(balls=table.size()).to_dict("index")
        rows = xlsx_rows(out, sheet)
        assert len(rows) == len(expected)
        for row in rows:
            name = tuple(row[key] for key in keys)
            wanted = expected[name if len(keys) > 1 else name[0]]
            assert {key: row[key] for key in wanted} == pytest.approx(wanted)


def test_lots_under_a_garment_are_listed_with_what_they_lack(tmp_path: Path) -> None:
    records = [*balls_of_lots("0001", "0002"), record("c.jpg", lot="0002")]
    out = write(cabinet_with(tmp_path, *records), tmp_path / "out.xlsx", garment_m=300)
    (row,) = xlsx_rows(out, "lots under 300 m")
    assert (row["lot"], row["left_m"], row["lacking_m"]) == ("0001", 210, 90)


# Choosing


def test_balls_are_chosen_by_conditions_and_by_day(tmp_path: Path) -> None:
    records = [
        record("a.jpg", shade="Kelp", filed_at="2025-03-08T23:59:59Z"),
        record("b.jpg", shade="KELP", filed_at="2025-03-09T00:00:00Z"),
        record("c.jpg", shade="Moss", filed_at="2025-03-09T00:00:00Z"),
    ]
    every = balls(cabinet_with(tmp_path, *records))

    def found(*written: str, since: str = "2000-01-01") -> list[str]:
        some = chosen(every, [condition(one) for one in written], day(since))
        return [ball.record.picture for ball in some]

    assert found("shade=kelp") == ["a.jpg", "b.jpg"]
    assert found("shade=kelp", since="2025-03-09") == ["b.jpg"]
    assert found("shade=kelp", "picture=a.jpg") == ["a.jpg"]
    assert found("length_m=210.0", "shade=moss") == ["c.jpg"]
    assert found("lot=12") == []


@pytest.mark.parametrize("written", ["Kelp", "colour=Kelp", "length_m=long"])
def test_a_condition_that_cannot_be_looked_for_is_refused(written: str) -> None:
    with pytest.raises(BadQuery):
        condition(written)


def test_a_day_that_is_none_is_refused() -> None:
    with pytest.raises(BadQuery):
        day("last week")


def test_another_ending_is_refused() -> None:
    with pytest.raises(BadSheet):
        exporter_for(Path("out.doc"))


def test_the_command_says_how_many_balls_it_wrote(tmp_path: Path) -> None:
    cabinet_with(tmp_path, *balls_of_lots("1", "2", "3"))
    run = balltag(tmp_path, "export", "out.xlsx", "--where", "lot=2")
    assert (run.returncode, run.stdout.strip()) == (0, "1 of 3 balls are in out.xlsx")
    assert [row["lot"] for row in xlsx_rows(tmp_path / "out.xlsx")] == ["2"]
    run = balltag(tmp_path, "export", "out.pdf")
    assert (run.returncode, run.stderr.count("\n")) == (5, 1)


@pytest.mark.parametrize("name", ["stash.csv", "./stash.csv", "stash.makers.csv"])
def test_the_stash_itself_is_never_written_over(name: str, tmp_path: Path) -> None:
    cabinet = cabinet_with(tmp_path, *balls_of_lots("0012"))
    before = cabinet.stash.path.read_bytes()
    run = balltag(tmp_path, "export", name)
    assert (run.returncode, run.stderr.count("\n")) == (5, 1)
    assert cabinet.stash.path.read_bytes() == before


def test_a_file_that_would_be_a_second_stash_of_its_name_is_not_written(tmp_path: Path) -> None:
    cabinet = cabinet_with(tmp_path, *balls_of_lots("0012"))
    open_stash(tmp_path / "wool.parquet").append(cabinet.stash.records())
    run = subprocess.run(
        [sys.executable, "-m", "intake", "export", "wool.csv", "--stash", "wool.parquet"],
        cwd=tmp_path, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert run.returncode == ExitCode.BAD_STASH
    assert run.stderr == (
        "balltag: wool.csv belongs to the stash itself; give another file to export to\n"
    )
    assert not (tmp_path / "wool.csv").exists()


def test_a_link_that_leads_round_is_written_over(tmp_path: Path) -> None:
    cabinet_with(tmp_path, *balls_of_lots("0012"))
    (tmp_path / "out.csv").symlink_to("out.csv")
    run = balltag(tmp_path, "export", "out.csv")
    assert run.returncode in (0, 6)
    assert "Traceback" not in run.stderr


def test_a_stash_without_balls_makes_empty_sheets(tmp_path: Path) -> None:
    for name, rows in READERS.items():
        assert rows(write(cabinet_with(tmp_path), tmp_path / name)) == []


def test_more_rows_than_a_spreadsheet_opens_are_refused() -> None:
    # 1,048,576 rows: "Excel specifications and limits"; LibreOffice Calc has the same.
    rows = rows_that_open(Sheet("records", (), repeat(Row(()))))
    assert sum(1 for _ in islice(rows, 1_048_575)) == 1_048_575
    with pytest.raises(BadSheet):
        next(rows)
