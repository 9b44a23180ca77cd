"""A stash that was edited in a spreadsheet reads as it stands, and is put right by the next
write, after a backup."""

from __future__ import annotations

import csv
import io
import shutil
import subprocess
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

import pandas
import pytest
from filing_tags import record
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from test_filing_stash import rows

from intake.errors import BadStash
from intake.filing.csv_stash import CsvStash
from intake.filing.kinds import open_stash
from intake.filing.layouts import Cells
from intake.filing.record import COLUMNS, VERSION, Record

KEPT = [
    record(number=1, lot="0012", shade="Flußgrün"),
    replace(record(number=2, lot="NA", note='said "two; three", once'), length_m=87.5),
    record(number=3, lot="1E5", shade_code=""),
]

Table = list[list[str]]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    open_stash(tmp_path / "stash.csv").append(KEPT)
    return tmp_path / "stash.csv"


def table(path: Path) -> Table:
    return list(csv.reader(io.StringIO(path.read_text("utf-8"), newline="")))


def save(
    path: Path, cells: Sequence[Sequence[str]], encoding: str = "utf-8", **how: object
) -> None:
    """Write as spreadsheets do: lines end with CR and LF."""
    text = io.StringIO()
    csv.writer(text, **how).writerows(cells)  # type: ignore[arg-type]
    path.write_bytes(text.getvalue().encode(encoding))


def decimal_commas(cells: Table) -> Table:
    place = COLUMNS.index("length_m")
    return [[*row[:place], row[place].replace(".", ","), *row[place + 1 :]] for row in cells]


def moved(cells: Table) -> Table:
    return [[*reversed(row)] for row in cells]


def with_own(cells: Table, *texts: str) -> Table:
    """A column of the user's own at the end, as a spreadsheet adds it."""
    return [[*row, text] for row, text in zip(cells, ("shelf", *texts), strict=True)]


EDITS: dict[str, Callable[[Path], None]] = {
    "semicolons": lambda path: save(path, decimal_commas(table(path)), delimiter=";"),
    "tabs": lambda path: save(path, table(path), delimiter="\t"),
    "a mark": lambda path: save(path, table(path), "utf-8-sig"),
    "CR and LF": lambda path: save(path, table(path)),
    "all quoted": lambda path: save(path, table(path), quoting=csv.QUOTE_ALL),
    "quoted semicolons": lambda path: save(
        path, table(path), "utf-8-sig", delimiter=";", quoting=csv.QUOTE_ALL
    ),
    "UTF-16": lambda path: save(path, table(path), "utf-16", delimiter="\t"),
    "columns moved": lambda path: save(path, moved(table(path))),
    "columns moved and tabs": lambda path: save(path, moved(table(path)), delimiter="\t"),
    "a column added": lambda path: save(path, with_own(table(path), "left", "", "a, b")),
    "a column added in between": lambda path: save(
        path, [[*row[:5], str(place), *row[5:]] for place, row in enumerate(table(path))]
    ),
    "empty rows": lambda path: save(path, [*table(path), [""] * len(COLUMNS)], delimiter=";"),
    "empty columns": lambda path: save(path, [[*row, "", ""] for row in table(path)]),
}  # fmt: skip


@pytest.fixture(params=EDITS)
def edited(request: pytest.FixtureRequest, path: Path) -> Path:
    EDITS[request.param](path)
    return path


def test_it_reads_as_it_stands_and_is_not_touched(edited: Path) -> None:
    before = edited.read_bytes()
    stash = open_stash(edited)
    assert stash.records() == KEPT
    assert stash.table().to_pylist()[1]["length_m"] == 87.5
    assert stash.read(stash.read().mark).whole is False
    assert edited.read_bytes() == before
    assert {found.name for found in edited.parent.iterdir()} <= {"stash.csv", "stash.csv.lock"}


def test_it_goes_on_with_all_that_was_there(edited: Path) -> None:
    open_stash(edited).append([record(number=4)])
    assert open_stash(edited).records() == [*KEPT, record(number=4)]
    open_stash(edited).remove([KEPT[0].id])
    assert open_stash(edited).records() == [*KEPT[1:], record(number=4)]
    frame = pandas.read_csv(edited, dtype=str, keep_default_na=False)
    assert [name for name in frame.columns if name in COLUMNS] == list(COLUMNS)


def test_a_file_that_must_be_written_anew_is_backed_up_as_it_was(path: Path) -> None:
    EDITS["semicolons"](path)
    before = path.read_bytes()
    open_stash(path).append([record(number=4)])
    (backup,) = open_stash(path).backups.all()
    assert backup.read_bytes() == before
    assert path.read_bytes().startswith(b"id,weight_class,")


@pytest.mark.parametrize("delimiter", [",", ";"])
def test_a_column_of_the_users_own_survives_every_write(path: Path, delimiter: str) -> None:
    remarks = ["left", "line one\nline two", "a; b, c"]
    save(path, with_own(table(path), *remarks), delimiter=delimiter)
    stash = open_stash(path)
    stash.append([record(number=4)])
    stash.change([replace(KEPT[1], lot="0013")])
    stash.append([record(number=5)])
    stash.remove([KEPT[0].id])
    frame = pandas.read_csv(path, dtype=str, keep_default_na=False)
    assert list(frame["shelf"]) == [*remarks[1:], "", ""]
    assert [one.lot for one in stash.records()] == ["0013", "1E5", "0012", "0012"]
    assert list(frame.columns)[-1] == "version"


def test_a_line_torn_beside_a_column_of_the_users_own_is_passed_over(path: Path) -> None:
    save(path, with_own(table(path), "left", "right", "top"))
    stash = open_stash(path)
    stash.append([record(number=4)])
    whole = path.read_bytes()
    stash.append([record(number=5)])
    line = path.read_bytes()[len(whole) :]
    for end in range(0, len(line) - 1, 11):
        path.write_bytes(whole + line[:end])
        assert open_stash(path).records() == [*KEPT, record(number=4)]


def refuse(path: Path, match: str) -> None:
    before = path.read_bytes()
    for use in (open_stash(path).records, lambda: open_stash(path).append([record(number=9)])):
        with pytest.raises(BadStash, match=match) as caught:
            use()
        assert "\n" not in str(caught.value)
    assert path.read_bytes() == before


def test_cells_under_no_name_are_refused_for_they_would_be_lost(path: Path) -> None:
    cells = table(path)
    save(path, [[*cells[0], ""], *([*row, "mine"] for row in cells[1:])])
    refuse(path, "line 2 .*under no column name")


def test_two_columns_of_one_name_are_refused(path: Path) -> None:
    save(path, [[*row, row[6]] for row in table(path)])
    refuse(path, "'lot' twice")


def test_an_old_eight_bit_encoding_is_refused_for_it_cannot_be_told(path: Path) -> None:
    save(path, table(path), "cp1252", delimiter=";")
    refuse(path, "save it as CSV in UTF-8")


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    kept=st.lists(rows, min_size=1, max_size=4, unique_by=lambda row: row.id),
    delimiter=st.sampled_from(",;\t"),
    encoding=st.sampled_from(["utf-8", "utf-8-sig", "utf-16"]),
    quoting=st.sampled_from([csv.QUOTE_MINIMAL, csv.QUOTE_ALL]),
    order=st.permutations(COLUMNS),
)
def test_any_form_of_any_record_comes_back(
    kept: list[Record],
    delimiter: str,
    encoding: str,
    quoting: int,
    order: list[str],
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    path = tmp_path_factory.mktemp("edited") / "stash.csv"
    open_stash(path).append(kept)
    places = [COLUMNS.index(name) for name in order]
    cells = [[row[place] for place in places] for row in table(path)]
    save(path, cells, encoding, delimiter=delimiter, quoting=quoting)
    assert open_stash(path).records() == kept
    open_stash(path).append(kept[:1])
    assert open_stash(path).records() == [*kept, kept[0]]


@pytest.mark.slow
@pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is not installed")
def test_libreoffice_saves_a_stash_that_opens(path: Path, tmp_path: Path) -> None:
    """LibreOffice guesses types as a user's spreadsheet does: lots lose their zeros, and the
    rows still read."""
    subprocess.run(
        ["soffice", "--headless", "--convert-to", "csv:Text - txt - csv (StarCalc):59,34,76",
         "--outdir", str(tmp_path / "out"), str(path)],
        check=True, capture_output=True, timeout=180,
    )  # fmt: skip
    back = open_stash(tmp_path / "out" / "stash.csv").records()
    assert [one.id for one in back] == [one.id for one in KEPT]
    assert back[0].lot == "12"


# Layouts


def from_nought(cells: Cells) -> Cells:
    """A made-up layout before the first: the lot was called ``batch``."""
    cells = {**cells, "lot": cells["batch"], "version": VERSION}
    del cells["batch"]
    return cells


STEPS = {"0": from_nought}


@pytest.fixture
def older(path: Path) -> Path:
    head, *body = table(path)
    head[head.index("lot")] = "batch"
    save(path, [head, *([*row[:-1], "0"] for row in body)])
    return path


def test_an_older_layout_opens_as_it_is(older: Path) -> None:
    before = older.read_bytes()
    assert CsvStash(older, steps=STEPS).records() == KEPT
    assert older.read_bytes() == before


def test_an_older_layout_is_put_into_the_present_one_after_a_backup(older: Path) -> None:
    before = older.read_bytes()
    CsvStash(older, steps=STEPS).append([record(number=4)])
    assert open_stash(older).records() == [*KEPT, record(number=4)]
    (backup,) = open_stash(older).backups.all()
    assert backup.read_bytes() == before
    assert table(older)[0] == list(COLUMNS)


def test_a_layout_that_nothing_is_known_of_is_refused(older: Path) -> None:
    refuse(older, "has 'batch' and lacks 'lot'")


def test_a_newer_row_below_older_ones_is_refused(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:-2] + b"3\n")
    with pytest.raises(BadStash, match=r"version 3.*newer balltag"):
        open_stash(path).records()
    with pytest.raises(BadStash, match=r"version 3.*newer balltag"):
        open_stash(path).remove([KEPT[0].id])


def test_a_stash_whose_column_of_the_version_was_taken_out_is_named(path: Path) -> None:
    table = list(csv.reader(path.open(encoding="utf-8", newline="")))
    version = table[0].index("version")
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows(row[:version] + row[version + 1 :] for row in table)
    with pytest.raises(BadStash, match=r"line 2 .* its version is ''"):
        open_stash(path).records()
