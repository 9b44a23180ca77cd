"""Tables that users write by hand come in as their spreadsheet wrote them."""

from __future__ import annotations

from pathlib import Path

import pytest

from intake.errors import BadTable
from intake.hand_table import HandTable

TABLE = HandTable("list", ("maker", "range", "shade_code"), needed=("maker",))


def read(path: Path, text: str, table: HandTable = TABLE) -> list[tuple[int, dict[str, str]]]:
    path.write_text(text, encoding="utf-8", newline="")
    return list(table.read(path))


@pytest.mark.parametrize("parted_by", [",", ";", "\t"])
@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_cells_are_parted_as_any_spreadsheet_does(
    tmp_path: Path, parted_by: str, line_end: str
) -> None:
    lines = [["shade_code", " Maker "], ["0012", "Quillfen"], ["", ""], ['"00,7;1"', " Ölfjord "]]
    text = line_end.join(parted_by.join(cells) for cells in lines)
    assert read(tmp_path / "list.csv", "\ufeff" + text) == [
        (2, {"maker": "Quillfen", "shade_code": "0012"}),
        (4, {"maker": "Ölfjord", "shade_code": "00,7;1"}),
    ]


def test_other_columns_are_refused_as_misspelt_unless_they_may_be_there(tmp_path: Path) -> None:
    path, text = tmp_path / "list.csv", "maker,rnage\nQuillfen,Brook 4\n"
    with pytest.raises(
        BadTable, match="line 1: 'rnage' is no column; write a first line with maker"
    ):
        read(path, text)
    lenient = HandTable("list", TABLE.columns, TABLE.needed, may_have_others=True)
    assert read(path, text, lenient) == [(2, {"maker": "Quillfen"})]


def test_a_line_number_counts_the_lines_of_a_text_that_breaks(tmp_path: Path) -> None:
    text = 'maker,range\n"Quill\nfen",A\nOlfjord,B,C\n'
    with pytest.raises(BadTable, match="line 4: 3 cells where the first line has 2"):
        read(tmp_path / "list.csv", text)
