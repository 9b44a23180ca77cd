"""The exports as LibreOffice opens and saves them."""

from __future__ import annotations

import csv
import shutil
import subprocess
from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from xml.etree import ElementTree

import pandas as pd
import pytest
from exports_stash import TRICKY_LOTS, balls_of_lots, balltag, cabinet_with

from intake.exports.as_of import PastCells
from intake.exports.corrections import Corrections, find_corrections
from intake.exports.formula_guard import unguarded
from intake.exports.reading_back import read_back
from intake.filing.cabinet import Cabinet
from intake.sums.balls import balls

SOFFICE = shutil.which("soffice")
pytestmark = pytest.mark.skipif(
    SOFFICE is None, reason="LibreOffice (libreoffice-calc-nogui) is not installed"
)

# Field and text separators, UTF-8, from row 1; text in quotes, values not as shown, formulas
# as such, every sheet: LibreOffice Help, "Filter Options for CSV".
QUOTED_TEXT = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,true,false,true,false,false,-1"
SEMICOLONS = "csv:Text - txt - csv (StarCalc):59,34,76,1"
AS_SHOWN = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true"
READ_UTF8 = "--infilter=CSV:44,34,76,1"
"""What the dialogue that opens a CSV file offers for one with a byte order mark."""

_OPEN_DOCUMENT = "{urn:oasis:names:tc:opendocument:xmlns:"
_TABLE = f"{_OPEN_DOCUMENT}table:1.0}}"
_STYLE = f"{_OPEN_DOCUMENT}style:1.0}}"
_NUMBER = f"{_OPEN_DOCUMENT}datastyle:1.0}}"
"""Namespaces of OpenDocument 1.3, part 3."""


@pytest.fixture(scope="module")
def cabinet(tmp_path_factory: pytest.TempPathFactory) -> Cabinet:
    """A stash with tricky lots, and what it exports."""
    folder = tmp_path_factory.mktemp("exports")
    (folder / "stash.makers.csv").write_text("maker,care\n=Quillstow+1,hand wash\n")
    records = balls_of_lots(
        *TRICKY_LOTS, shade="Żółć  Őszi", maker="=Quillstow+1", care="", length_m=87.53333333
    )
    records[0] = replace(records[0], balls=5)
    cabinet = cabinet_with(folder, *records, pictures=True)
    for name in ("excel.xlsx", "open.ods", "plain.csv"):
        assert balltag(folder, "export", name).returncode == 0
    return cabinet


@pytest.fixture(scope="module")
def folder(cabinet: Cabinet) -> Path:
    return cabinet.stash.path.parent


def convert(folder: Path, names: Sequence[str], target: str, *options: str) -> Path:
    """What LibreOffice saves of files in ``folder`` as ``target``: a folder."""
    out = folder / f"saved {'-'.join(names)} {target[-9:]}"
    command = [
        str(SOFFICE), f"-env:UserInstallation={(folder / 'profile').as_uri()}", "--headless",
        *options, "--convert-to", target, "--outdir", str(out), *names,
    ]  # fmt: skip
    subprocess.run(command, cwd=folder, check=True, capture_output=True, timeout=180)
    return out


@pytest.fixture(scope="module")
def opened(folder: Path) -> Path:
    return convert(folder, ["excel.xlsx", "open.ods"], QUOTED_TEXT)


def saved(cabinet: Cabinet, path: Path) -> Corrections:
    return find_corrections(read_back(path), balls(cabinet), PastCells(cabinet.history))


def test_an_empty_cell_of_a_text_column_takes_text(folder: Path) -> None:
    out = convert(folder, ["excel.xlsx"], "fods")
    root = ElementTree.parse(out / "excel.fods").getroot()
    text_styles = {one.get(f"{_STYLE}name") for one in root.iter(f"{_NUMBER}text-style")}
    takes_text = {
        one.get(f"{_STYLE}name")
        for one in root.iter(f"{_STYLE}style")
        if one.get(f"{_STYLE}data-style-name") in text_styles
    }
    table = next(root.iter(f"{_TABLE}table"))
    columns = _repeated(table, "table-column", "number-columns-repeated")
    head, first = [
        _repeated(row, "table-cell", "number-columns-repeated")
        for row in list(table.iter(f"{_TABLE}table-row"))[:2]
    ]
    place = next(
        at for at, cell in enumerate(head) if "".join(cell.itertext()).strip() == "barcode"
    )
    assert "".join(first[place].itertext()).strip() == ""
    style = first[place].get(f"{_TABLE}style-name")
    assert (style or columns[place].get(f"{_TABLE}default-cell-style-name")) in takes_text


def _repeated(parent: ElementTree.Element, name: str, times: str) -> list[ElementTree.Element]:
    """The children of that name, each as often as it stands for."""
    return [
        one
        for one in parent.iter(f"{_TABLE}{name}")
        for _ in range(min(int(one.get(f"{_TABLE}{times}", "1")), 100))
    ]


@pytest.mark.parametrize("name", ["excel", "open"])
def test_a_workbook_opens_with_text_numbers_and_totals(name: str, opened: Path) -> None:
    raw = (opened / f"{name}-records.csv").read_text(encoding="utf-8")
    first = raw.splitlines()[1]
    assert '"00412"' in first
    assert '"041"' in first
    assert ",87.53333333,50,5,437.66666" in first
    assert ",,250,," in first
    rows = list(csv.DictReader(raw.splitlines()))
    assert [row["lot"] for row in rows] == list(TRICKY_LOTS)
    assert {row["maker"] for row in rows} == {"=Quillstow+1"}
    with (opened / f"{name}-shades.csv").open(encoding="utf-8", newline="") as file:
        (total,) = csv.DictReader(file)
    assert int(total["balls"]) == sum(int(row["balls"]) for row in rows) == len(rows) + 4
    assert float(total["left_m"]) == pytest.approx(
        sum(int(row["balls"]) * float(row["length_m"]) for row in rows)
    )
    assert float(total["left_g"]) == 50 * (len(rows) + 4)


def test_a_csv_file_opens_with_its_lots(folder: Path, cabinet: Cabinet) -> None:
    out = convert(folder, ["plain.csv"], SEMICOLONS, READ_UTF8) / "plain.csv"
    with out.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file, delimiter=";"))
    assert [unguarded(row["lot"]) for row in rows] == list(TRICKY_LOTS)
    assert {row["shade"] for row in rows} == {"Żółć  Őszi"}
    assert saved(cabinet, out) == Corrections((), ())


def test_a_workbook_saved_as_csv_as_it_is_shown_comes_back(folder: Path, cabinet: Cabinet) -> None:
    out = convert(folder, ["excel.xlsx", "open.ods"], AS_SHOWN)
    for name in ("excel", "open"):
        text = (out / f"{name}.csv").read_text(encoding="utf-8")
        assert text.count("hand wash (assumed)") == len(TRICKY_LOTS)
        # No guard was written here, so the apostrophe of '7 is taken for one: it is asked.
        corrections = saved(cabinet, out / f"{name}.csv")
        assert [(one.old, one.new) for one in corrections.made] == [("'7", "7")]
        assert not corrections.refused


def test_what_libreoffice_saves_anew_comes_back_unchanged(folder: Path, cabinet: Cabinet) -> None:
    out = convert(folder, ["excel.xlsx"], "ods") / "excel.ods"
    table = pd.read_excel(out, "records", engine="odf", dtype=object, na_filter=False)
    assert list(table["lot"]) == list(TRICKY_LOTS)
    assert table["filed_at"][0] == datetime(2025, 3, 9, 17, 5, 42)
    assert saved(cabinet, out) == Corrections((), ())
