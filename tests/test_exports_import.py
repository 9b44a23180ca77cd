"""A corrected spreadsheet comes back: exported, edited with a tool that is not ours, read."""

from __future__ import annotations

import csv
import os
import pty
import random
import subprocess
import sys
import time
from collections.abc import Callable
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from zipfile import ZipFile

import openpyxl
import pandas as pd
import pytest
from exports_stash import TRICKY_LOTS, WEIGHED, balls_of_lots, balltag, cabinet_with
from filing_tags import record
from openpyxl.worksheet.worksheet import Worksheet

from intake.errors import BadSheet, ExitCode
from intake.exports.as_of import PastCells, last_stroke
from intake.exports.corrections import Corrections, find_corrections
from intake.exports.kinds import exporter_for
from intake.exports.reading_back import read_back
from intake.exports.workbook import stash_sheets
from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.changes import Action
from intake.sums.balls import balls

FORMATS = ("xlsx", "ods", "csv")


@pytest.fixture
def cabinet(tmp_path: Path) -> Cabinet:
    return cabinet_with(tmp_path, *balls_of_lots("00412", "0012", "120000", "3-12"))


def export(cabinet: Cabinet, name: str = "out.xlsx") -> Path:
    path = cabinet.stash.path.with_name(name)
    sheets = stash_sheets(balls(cabinet), last_stroke(cabinet.history), None)
    exporter_for(path).write(sheets, path)
    return path


def edited(path: Path, edit: Callable[[Worksheet, dict[str, int]], object]) -> Path:
    """The workbook at ``path`` after ``edit`` of its records, which is given the sheet and
    the columns' numbers."""
    book = openpyxl.load_workbook(path)
    sheet = book["records"]
    edit(sheet, {cell.value: cell.column for cell in sheet[1]})
    book.save(path)
    return path


def set_cells(path: Path, **values: object) -> Path:
    """The workbook with cells of its second row set."""

    def edit(sheet: Worksheet, columns: dict[str, int]) -> None:
        for name, value in values.items():
            sheet.cell(2, columns[name]).value = value

    return edited(path, edit)


def found(cabinet: Cabinet, path: Path) -> Corrections:
    return find_corrections(read_back(path), balls(cabinet), PastCells(cabinet.history))


def made(corrections: Corrections) -> list[tuple[str, str, str]]:
    assert not corrections.refused
    return [(one.column, one.old, one.new) for one in corrections.made]


def why(corrections: Corrections) -> str:
    assert not corrections.made
    (refusal,) = corrections.refused
    return refusal.why


@pytest.mark.parametrize("ending", FORMATS)
def test_what_nobody_touched_changes_nothing(ending: str, tmp_path: Path) -> None:
    records = balls_of_lots(*TRICKY_LOTS, shade=" Żółć  <Őszi>", note="-1+2", tension="22 x 30")
    cabinet = cabinet_with(tmp_path, *records)
    cabinet.weigh(records[0].id, WEIGHED)
    assert found(cabinet, export(cabinet, f"out.{ending}")) == Corrections((), ())


def test_a_corrected_workbook_changes_the_stash_and_its_history(cabinet: Cabinet) -> None:
    out = set_cells(export(cabinet), lot="0O412", shade="Kelp Dark", length_m=87.5, fibre="")
    folder = out.parent
    run = balltag(folder, "import", out.name, "--yes")
    assert run.returncode == 0, run.stderr
    assert "Changed cells in stash.csv: 4" in run.stdout
    first = open_cabinet(folder / "stash.csv").records()[0]
    assert (first.lot, first.shade, first.length_m, first.fibre) == ("0O412", "Kelp Dark", 87.5, "")
    (change,) = cabinet.history.changes(first.id)
    assert change.action is Action.CORRECTED
    assert (change.old["lot"], change.new["lot"]) == ("00412", "0O412")
    cabinet.undo(change.stroke)
    assert cabinet.record(first.id).lot == "00412"


@pytest.mark.parametrize("typed", [5, "5", 5.0, "x5"])
def test_a_number_of_balls_is_set_in_a_sheet(cabinet: Cabinet, typed: object) -> None:
    corrections = found(cabinet, set_cells(export(cabinet), balls=typed))
    assert made(corrections) == [("balls", "1", "5")]


@pytest.mark.parametrize("typed", [0, 2.5, "a few", datetime(2025, 3, 5), True, 100_000])
def test_what_is_no_number_of_balls_is_refused(cabinet: Cabinet, typed: object) -> None:
    assert why(found(cabinet, set_cells(export(cabinet), balls=typed))).startswith("balls")


def test_a_number_of_balls_that_was_taken_out_of_a_sheet_is_one(cabinet: Cabinet) -> None:
    cabinet.correct({cabinet.records()[0].id: {"balls": "3"}})
    out = set_cells(export(cabinet), balls=None)
    assert made(found(cabinet, out)) == [("balls", "3", "1")]


def test_a_sheet_from_before_balls_were_counted_changes_none(cabinet: Cabinet) -> None:
    cabinet.correct({cabinet.records()[0].id: {"balls": "3"}})
    out = edited(export(cabinet), lambda sheet, at: sheet.delete_cols(at["balls"]))
    assert found(cabinet, out) == Corrections((), ())


def test_an_edited_open_document_comes_back(cabinet: Cabinet) -> None:
    out = export(cabinet, "out.ods")
    table = pd.read_excel(out, "records", engine="odf", dtype=object, na_filter=False)
    table.loc[1, "shade"], table.loc[1, "lot"] = "Moss", "0077"
    table.to_excel(out, sheet_name="records", engine="odf", index=False)
    assert made(found(cabinet, out)) == [("shade", "Kelp", "Moss"), ("lot", "0012", "0077")]


def test_an_edited_csv_file_comes_back(cabinet: Cabinet) -> None:
    out = export(cabinet, "out.csv")
    text = out.read_text(encoding="utf-8").replace("'0012", "'0077").replace(",210,", ",190.5,", 1)
    out.write_text(text, encoding="utf-8")
    assert made(found(cabinet, out)) == [("length_m", "210", "190.5"), ("lot", "0012", "0077")]


def test_a_csv_file_with_semicolons_and_decimal_commas_comes_back(cabinet: Cabinet) -> None:
    cabinet.correct({cabinet.records()[0].id: {"length_m": "87.5"}})
    out = export(cabinet, "out.csv")
    with out.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.reader(file))
    place = rows[0].index("length_m")
    rows[1][place] = rows[1][place].replace(".", ",")
    rows[2][place] = "99,25"
    with out.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, delimiter=";").writerows(rows)
    assert made(found(cabinet, out)) == [("length_m", "210", "99.25")]


def test_columns_may_be_moved_added_and_left_out(cabinet: Cabinet) -> None:
    out = export(cabinet)
    table = pd.read_excel(out, "records", dtype=object, na_filter=False)
    table.loc[0, "lot"] = "0413"
    table = table[["lot", "as_of_stroke", "id"]].assign(drawer="top")
    table.to_excel(out, sheet_name="records", index=False)
    corrections = found(cabinet, out)
    assert made(corrections) == [("lot", "00412", "0413")]
    assert corrections.notes == ("columns that balltag does not know are passed over: drawer",)


# What a spreadsheet did to a lot


@pytest.mark.parametrize(
    ("value", "what"),
    [(412, "a number (412)"), (4.12e25, "a number (4.12e+25)"), (True, "true or false"),
     (datetime(2026, 12, 3), "a date (2026-12-03T00:00:00)"), ("=4+8", "a formula (=4+8)"),
     ("1.2E+05", "a power of ten"), ("412", "a number (412) from 00412")],
)  # fmt: skip
def test_a_mangled_lot_is_named_and_its_row_refused(
    value: object, what: str, cabinet: Cabinet
) -> None:
    corrections = found(cabinet, set_cells(export(cabinet), lot=value, shade="Moss"))
    assert "lot" in why(corrections)
    assert what in why(corrections)


def test_the_other_rows_go_through(cabinet: Cabinet) -> None:
    def edit(sheet: Worksheet, columns: dict[str, int]) -> None:
        sheet.cell(2, columns["lot"]).value = 412
        sheet.cell(3, columns["shade"]).value = "Moss"

    out = edited(export(cabinet), edit)
    run = balltag(out.parent, "import", out.name, "--yes")
    assert run.returncode == 3
    assert "was turned into a number (412) from 00412" in run.stdout
    records = open_cabinet(cabinet.stash.path).records()
    assert [one.lot for one in records] == ["00412", "0012", "120000", "3-12"]
    assert [one.shade for one in records] == ["Kelp", "Moss", "Kelp", "Kelp"]


# Rows


def test_rows_without_a_record_are_refused(cabinet: Cabinet) -> None:
    def edit(sheet: Worksheet, columns: dict[str, int]) -> None:
        sheet.cell(2, columns["id"]).value = "t000000000000000"
        sheet.cell(3, columns["id"]).value = None
        sheet.cell(4, columns["id"]).value = sheet.cell(5, columns["id"]).value

    corrections = found(cabinet, edited(export(cabinet), edit))
    assert [(one.row, one.why.split(";")[0]) for one in corrections.refused] == [
        (2, "the stash has no record of this id"),
        (3, "it has no id"),
        (4, "its id stands in another row too"),
        (5, "its id stands in another row too"),
    ]


def test_a_row_that_is_gone_takes_no_record_away(cabinet: Cabinet) -> None:
    out = edited(export(cabinet), lambda sheet, columns: sheet.delete_rows(2, 2))
    run = balltag(out.parent, "import", out.name, "--yes")
    assert run.returncode == 0
    assert "2 records of the stash have no row here; they stay as they are" in run.stdout
    assert len(open_cabinet(cabinet.stash.path).records()) == 4


@pytest.mark.parametrize(
    ("column", "value", "words"),
    [
        ("length_m", "long", "length_m: 'long' is no length in metres"),
        ("length_m", -5, "above 0"),
        ("fibre", "wool", "fibre: not a fibre composition"),
        ("length_m", datetime(2026, 1, 1), "not a number"),
    ],
)
def test_a_value_that_cannot_be_is_refused(
    column: str, value: object, words: str, cabinet: Cabinet
) -> None:
    assert words in why(found(cabinet, set_cells(export(cabinet), **{column: value})))


def test_what_is_not_for_a_sheet_to_say_is_passed_over(cabinet: Cabinet) -> None:
    corrections = found(cabinet, set_cells(export(cabinet), note="mine", picture="x.jpg"))
    assert made(corrections) == []
    assert corrections.notes == (
        "changes to note, picture are passed over; they are not for a sheet to say",
    )


# What changed in the stash meanwhile


def test_an_old_sheet_does_not_take_back_what_was_corrected_since(cabinet: Cabinet) -> None:
    out = export(cabinet)
    first = cabinet.records()[0]
    cabinet.correct({first.id: {"lot": "00413", "shade": "Moss"}})
    assert found(cabinet, out) == Corrections((), ())
    set_cells(out, shade="Fern")
    assert "shade became Moss in the stash after the export" in why(found(cabinet, out))


def test_a_cell_that_both_corrected_alike_is_no_conflict(cabinet: Cabinet) -> None:
    out = set_cells(export(cabinet), shade="Moss")
    cabinet.correct({cabinet.records()[0].id: {"shade": "Moss"}})
    assert made(found(cabinet, out)) == []


def test_a_correction_that_was_undone_since_does_not_come_back(cabinet: Cabinet) -> None:
    (change,) = cabinet.correct({cabinet.records()[0].id: {"lot": "00413"}})
    out = export(cabinet)
    cabinet.undo(change.stroke)
    assert found(cabinet, out) == Corrections((), ())


def test_a_weighing_since_is_no_change_of_the_tag(cabinet: Cabinet) -> None:
    out = set_cells(export(cabinet), length_m=190)
    cabinet.weigh(cabinet.records()[0].id, WEIGHED)
    assert made(found(cabinet, out)) == [("length_m", "210", "190")]


def test_a_sheet_that_does_not_say_when_it_was_written_is_told(cabinet: Cabinet) -> None:
    def edit(sheet: Worksheet, columns: dict[str, int]) -> None:
        sheet.delete_cols(columns["as_of_stroke"])

    (note,) = found(cabinet, edited(export(cabinet), edit)).notes
    assert "without the column as_of_stroke" in note


# What is assumed


@pytest.fixture
def silent(tmp_path: Path) -> Cabinet:
    """A ball whose tag names no fibre, though its maker does."""
    (tmp_path / "stash.makers.csv").write_text("maker,fibre\nQuillstow Spinners,100% wool\n")
    return cabinet_with(tmp_path, record(fibre=""))


def test_an_assumed_value_does_not_become_a_reading(silent: Cabinet) -> None:
    assert found(silent, export(silent)) == Corrections((), ())


def test_an_assumed_value_is_filed_when_its_mark_is_taken_away(silent: Cabinet) -> None:
    out = set_cells(export(silent), assumed="")
    assert made(found(silent, out)) == [("fibre", "", "100% wool")]


def test_a_marked_value_that_was_changed_is_asked_back(silent: Cabinet) -> None:
    out = set_cells(export(silent), fibre="100% linen")
    assert "take fibre out of the cell assumed" in why(found(silent, out))


# Asking


def import_in_terminal(folder: Path, answer: str) -> subprocess.CompletedProcess[str]:
    """Run the import with a terminal for its input, and type ``answer``."""
    ours, theirs = pty.openpty()
    os.write(ours, answer.encode())
    try:
        return subprocess.run(
            [sys.executable, "-m", "intake", "import", "out.xlsx", "--stash", "stash.csv"],
            cwd=folder, stdin=theirs, capture_output=True, text=True, check=False,
        )  # fmt: skip
    finally:
        os.close(ours)
        os.close(theirs)


@pytest.mark.parametrize(("answer", "shade"), [("y\n", "Moss"), ("n\n", "Kelp")])
def test_the_user_is_asked(answer: str, shade: str, cabinet: Cabinet) -> None:
    out = set_cells(export(cabinet), shade="Moss")
    run = import_in_terminal(out.parent, answer)
    assert run.returncode == 0, run.stderr
    assert "Make these changes?" in run.stdout + run.stderr
    assert open_cabinet(cabinet.stash.path).records()[0].shade == shade


def test_the_user_sees_what_to_look_at_twice_before_agreeing(cabinet: Cabinet) -> None:
    # 0O12 is one easily confused letter from the lot 0012 of the same shade.
    run = import_in_terminal(set_cells(export(cabinet), lot="0O12").parent, "y\n")
    shown = " ".join(run.stdout.split())
    assert shown.index("Look at these twice") < shown.index("easily confused")
    assert open_cabinet(cabinet.stash.path).records()[0].lot == "0O12"


def test_a_stash_that_changes_while_it_asks_is_looked_at_once_more(cabinet: Cabinet) -> None:
    """What is agreed to is what was shown."""
    out = set_cells(export(cabinet), shade="Moss")
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "intake", "import", "out.xlsx", "--stash", "stash.csv"]
    with subprocess.Popen(
        command, cwd=out.parent, stdin=theirs, stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as run:
        assert run.stdout is not None
        assert run.stderr is not None
        said = b""
        while b"Make these changes?" not in said:
            letter = run.stdout.read(1)
            assert letter, run.stderr.read()
            said += letter
        cabinet.correct({cabinet.records()[0].id: {"shade": "Marram"}})
        os.write(ours, b"y\n")
        complaint = run.stderr.read().decode()
    os.close(ours)
    os.close(theirs)
    assert run.returncode == ExitCode.BUSY
    (line,) = complaint.splitlines()
    assert line == "balltag: stash.csv was changed meanwhile; run it again and look once more"
    assert open_cabinet(cabinet.stash.path).records()[0].shade == "Marram"


def test_without_anyone_to_ask_it_only_shows(cabinet: Cabinet) -> None:
    out = set_cells(export(cabinet), shade="Moss")
    run = balltag(out.parent, "import", out.name)
    assert run.returncode == 9
    assert "Moss" in run.stdout
    assert run.stderr.count("\n") == 1
    assert open_cabinet(cabinet.stash.path).records()[0].shade == "Kelp"


def test_a_doubtful_correction_is_left_out_where_nobody_is_asked(cabinet: Cabinet) -> None:
    # 0O12 is one easily confused letter from the lot 0012 of the same shade.
    out = set_cells(export(cabinet), lot="0O12")
    run = balltag(out.parent, "import", out.name, "--yes")
    assert run.returncode == 3
    assert "easily confused" in run.stdout
    assert open_cabinet(cabinet.stash.path).records()[0].lot == "00412"


# Files


@pytest.mark.parametrize(
    ("name", "content", "words"),
    [
        ("a.pdf", b"", "no spreadsheet by its name"),
        ("a.xlsx", b"no zip", "no whole .xlsx file"),
        ("a.ods", b"PK\x03\x04", "no whole .ods file"),
        ("a.csv", b"", "no column 'id'"),
        ("a.csv", b"shade,lot\nKelp,0012\n", "no column 'id'"),
        ("a.csv", b"id,lot,lot\n", "column 'lot' twice"),
        ("a.csv", "id,shade\nt1,grå\n".encode("cp1252"), "not in UTF-8"),
    ],
)
def test_a_file_that_is_no_sheet_of_records_is_refused(
    name: str, content: bytes, words: str, tmp_path: Path
) -> None:
    path = tmp_path / name
    path.write_bytes(content)
    with pytest.raises(BadSheet, match=words):
        read_back(path)


@pytest.mark.parametrize("ending", FORMATS)
def test_a_spoilt_file_is_read_or_refused(ending: str, cabinet: Cabinet) -> None:
    out = export(cabinet, f"out.{ending}")
    whole, chance = out.read_bytes(), random.Random(7)
    for _ in range(80):
        spoilt = bytearray(whole)
        for place in chance.sample(range(len(whole)), 3):
            spoilt[place] = chance.randrange(256)
        out.write_bytes(spoilt[: chance.choice((len(whole), chance.randrange(len(whole))))])
        with suppress(BadSheet):
            read_back(out)


def test_a_cell_touched_at_the_edge_of_the_sheet_costs_nothing(
    cabinet: Cabinet, tmp_path: Path
) -> None:
    """A sheet of .xlsx has 1,048,576 rows of 16,384 cells (Excel specifications and limits)."""
    path = export(cabinet)
    whole = read_back(path)
    book = openpyxl.load_workbook(path)
    book["records"].cell(1_048_576, 16_384, " x")
    book.save(path)
    began_s = time.process_time()
    assert read_back(path) == whole
    assert time.process_time() - began_s < 20


def test_spaces_without_end_are_cut(tmp_path: Path, cabinet: Cabinet) -> None:
    path = export(cabinet, "out.ods")
    parts = {name: ZipFile(path).read(name) for name in ZipFile(path).namelist()}
    many = b'<text:p><text:s text:c="2000000000"/>'
    parts["content.xml"] = parts["content.xml"].replace(b"<text:p>", many, 1)
    with ZipFile(path, "w") as spoilt:
        for name, part in parts.items():
            spoilt.writestr(name, part)
    with suppress(BadSheet):
        assert all(len(name) < 10_000 for name in read_back(path).columns)


def test_a_file_that_is_not_there_is_told_in_one_line(tmp_path: Path) -> None:
    run = balltag(tmp_path, "import", "gone.xlsx")
    assert (run.returncode, run.stderr.count("\n")) == (5, 1)
