"""A column that the user added to the stash by hand keeps its cells, whatever is done to the
rows, and gives them back with a row that comes back."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from filing_tags import tag, waiting_tag
from openpyxl import load_workbook
from typer.testing import CliRunner

from intake.cli import app
from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.check import Check
from intake.filing.kinds import open_stash
from intake.filing.mend import mend
from intake.filing.record import COLUMNS
from intake.filing.store import Store

SHELVES = ("top, left", "cellar", "")


@pytest.fixture(params=[",", ";"])
def path(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    """Three records with the user's column ``shelf`` last, as a spreadsheet adds it."""
    path = tmp_path / "stash.csv"
    cabinet = open_cabinet(path)
    cabinet.take(tag("a.jpg", shade="Kelp", balls=4))
    cabinet.take(tag("b.jpg", shade="Weir", lot="0044"))
    waits = cabinet.take(waiting_tag("c.jpg", shade="Ember"))
    cabinet.resolve(waits.id, {"lot": "0077"})
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, delimiter=request.param)
        writer.writerows([*row, text] for row, text in zip(rows, ("shelf", *SHELVES), strict=True))
    return path


def shelves(path: Path) -> dict[str, str]:
    """What the user's column holds, by shade and lot."""
    with path.open(encoding="utf-8-sig", newline="") as file:
        delimiter = ";" if ";" in file.readline() else ","
        file.seek(0)
        rows = csv.DictReader(file, delimiter=delimiter)
        return {f"{row['shade']} {row['lot']}": row["shelf"] for row in rows}


BEFORE = {"Kelp 0012": "top, left", "Weir 0044": "cellar", "Ember 0077": ""}


def ids(cabinet: Cabinet) -> dict[str, str]:
    return {record.shade: record.id for record in cabinet.records()}


def undo(cabinet: Cabinet) -> None:
    cabinet.undo(cabinet.history.last_stroke())


def test_what_is_added_and_corrected_leaves_it_alone(path: Path) -> None:
    cabinet = open_cabinet(path)
    cabinet.take(tag("d.jpg", shade="Tarn", lot="0099"))
    cabinet.correct({ids(cabinet)["Weir"]: {"lot": "0045"}})
    assert shelves(path) == {
        "Kelp 0012": "top, left", "Weir 0045": "cellar", "Ember 0077": "", "Tarn 0099": "",
    }  # fmt: skip
    undo(cabinet)
    assert shelves(path) == {**BEFORE, "Tarn 0099": ""}


def test_a_row_that_left_comes_back_with_it(path: Path) -> None:
    cabinet = open_cabinet(path)
    known = ids(cabinet)
    cabinet.merge(known["Kelp"], [known["Weir"]])
    assert shelves(path) == {"Kelp 0012": "top, left", "Ember 0077": ""}
    undo(cabinet)
    assert shelves(path) == BEFORE
    stroke = cabinet.withdraw([known["Kelp"]])[0].stroke
    back = open_cabinet(path).undo(stroke)  # by another process
    assert shelves(path) == BEFORE
    open_cabinet(path).undo(back[0].stroke)
    undo(open_cabinet(path))
    assert shelves(path) == BEFORE


def test_a_row_made_of_another_is_on_the_same_shelf(path: Path) -> None:
    cabinet = open_cabinet(path)
    made = cabinet.split(ids(cabinet)["Kelp"], 1)[-1]
    assert open_stash(path).own_cells([made.record]) == {made.record: {"shelf": "top, left"}}
    undo(cabinet)
    assert shelves(path) == BEFORE


def test_a_tag_that_waits_again_is_filed_with_it(path: Path) -> None:
    cabinet = open_cabinet(path)
    ember = ids(cabinet)["Ember"]
    stash = open_stash(path)
    stash.rewrite(stash.records(), {ember: {"shelf": "loft"}})
    cabinet = open_cabinet(path)
    cabinet.put_back(ember)
    assert "Ember 0077" not in shelves(path)
    cabinet.resolve(ember, {"lot": "0078"})
    assert shelves(path)["Ember 0078"] == "loft"


def test_it_comes_back_with_a_stroke_that_a_kill_cut_off(path: Path) -> None:
    cabinet = open_cabinet(path)
    cabinet.withdraw([ids(cabinet)["Kelp"]])
    undo(cabinet)
    after = path.read_bytes()
    history = path.with_suffix(".history.jsonl")
    history.write_bytes(history.read_bytes().rpartition(b'{"done"')[0])
    path.write_bytes(b"".join(line for line in after.splitlines(True) if b"Kelp" not in line))
    assert "Kelp 0012" not in shelves(path)
    open_cabinet(path)
    assert shelves(path) == BEFORE


def test_a_lost_row_and_a_backup_come_back_with_it(path: Path) -> None:
    cabinet = open_cabinet(path)
    cabinet.correct({ids(cabinet)["Weir"]: {"lot": "0045"}})
    kelp = ids(cabinet)["Kelp"]
    stash = open_stash(path)
    stash.remove([kelp])  # not by a stroke: as in a spreadsheet
    store = Store(open_stash(path))
    mend(store, Check(store).findings())
    assert shelves(path)["Kelp 0012"] == "top, left"
    first = stash.backups.all()[0].name
    done = CliRunner().invoke(app, ["check", "--restore", first, "--yes", "--stash", str(path)])
    assert f"{first}" not in done.stderr
    assert shelves(path) == BEFORE


def test_rows_that_the_user_copied_keep_what_is_in_each(path: Path) -> None:
    lines = path.read_text("utf-8").splitlines()
    path.write_text("\n".join([*lines, lines[1].replace("top, left", "top, right"), ""]), "utf-8")
    stash = open_stash(path)
    stash.change([record := stash.records()[1]])
    assert [cells["shelf"] for _, cells in stash.rows()] == [*SHELVES, "top, right"]
    assert record in stash.records()


def test_a_sheet_that_comes_back_leaves_it_alone(path: Path, tmp_path: Path) -> None:
    sheet = tmp_path / "out.xlsx"
    commands = CliRunner()
    assert commands.invoke(app, ["export", str(sheet), "--stash", str(path)]).exit_code == 0
    book = load_workbook(sheet)
    rows = book["records"]
    column = next(cell.column for cell in rows[1] if cell.value == "origin")
    rows.cell(2, column).value = "Ouseby"
    book.save(sheet)
    done = commands.invoke(app, ["import", str(sheet), "--yes", "--stash", str(path)])
    assert done.exit_code == 0
    assert "Ouseby" in path.read_text("utf-8")
    assert shelves(path) == BEFORE


def test_a_column_of_another_name_in_the_history_is_not_made_again(path: Path) -> None:
    cabinet = open_cabinet(path)
    cabinet.withdraw([ids(cabinet)["Kelp"]])
    header, *lines = path.read_text("utf-8").splitlines()
    path.write_text("\n".join([header.replace(",shelf,", ",place,"), *lines, ""]), "utf-8")
    undo(open_cabinet(path))
    names = path.read_text("utf-8").splitlines()[0].split(",")
    assert [name for name in names if name not in COLUMNS] == ["place"]
    assert len(open_stash(path).records()) == 3
