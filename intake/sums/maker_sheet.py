"""The maker sheet: what holds for a maker's yarn where the tag says nothing.

Makers print only the exceptions ("pure wool unless stated").  The user writes down what
holds otherwise in a CSV file beside the stash, ``stash.makers.csv`` for ``stash.csv``.  Its
lines speak of a maker (``range`` empty) or of one range of a maker; cells are typed as
answers are (:func:`intake.filing.answers.answer_value`).
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from intake.errors import BadTable, one_line
from intake.filing.answers import BadAnswer, answer_value
from intake.filing.backups import Backups
from intake.filing.record import NUMBERS, Record
from intake.filing.safe_write import replace_file
from intake.filing.stash import Stash
from intake.hand_table import HandTable, bad_line
from intake.shades.spelling import key
from intake.wording import number_text, value_text

UNSAID = (
    "weight_class",
    "fibre",
    "care",
    "origin",
    "length_m",
    "mass_g",
    "needle_mm",
    "tension",
)
"""What a tag may leave unsaid and a maker still holds to.  Shades, lots and codes are each
ball's own and are never assumed."""

SHEET_COLUMNS = ("maker", "range", *UNSAID)
"""The sheet's columns.  Only ``maker`` must be there; their order is free."""

_SHEET = HandTable("maker sheet", SHEET_COLUMNS, needed=("maker",))


@dataclass(frozen=True, slots=True)
class MakerLine:
    """What holds for ``maker``, or for its ``range`` where that is not empty.

    ``says`` maps columns of :data:`UNSAID` to cell text.  ``length_m`` stands only with
    ``mass_g``: together they are the yarn's length per mass.
    """

    maker: str
    range: str = ""
    says: Mapping[str, str] = field(default_factory=dict)


class MakerSheet:
    """The lines of a maker sheet, looked up by maker and range."""

    def __init__(self, lines: Iterable[MakerLine] = ()) -> None:
        self.lines = tuple(lines)
        self._by_name = {_name(line.maker, line.range): line for line in self.lines}
        self._met: dict[tuple[str, str], list[MakerLine]] = {}

    def assumed(self, record: Record) -> dict[str, str]:
        """What to assume of ``record``, as cell text, in columns that its tag leaves empty.

        A line for the range wins over one for the maker, column by column; length and mass
        come from one line.  Where the tag prints one of these two, the other is worked out
        from the line's length per mass.
        """
        lines = self._lines_for(record.maker, record.range)
        if not lines:
            return {}
        silent = (
            column for column in UNSAID if column not in NUMBERS and not getattr(record, column)
        )
        said = {column: self.said(record.maker, record.range, column) for column in silent}
        return {column: text for column, text in said.items() if text} | _amounts(record, lines)

    def said(self, maker: str, range_: str, column: str) -> str:
        """What the sheet says of a text column of a maker's range; empty for nothing."""
        lines = self._lines_for(maker, range_)
        return next((line.says[column] for line in lines if column in line.says), "")

    def _lines_for(self, maker: str, range_: str) -> list[MakerLine]:
        """The lines about a maker's range, the more specific first."""
        printed = maker, range_
        if printed not in self._met:  # a stash has many balls and few names
            names = dict.fromkeys((_name(maker, range_), _name(maker, "")))
            self._met[printed] = [self._by_name[name] for name in names if name in self._by_name]
        return self._met[printed]


def maker_line(cells: Mapping[str, str]) -> MakerLine:
    """The line that ``cells`` (column to typed text) make.  Raises :class:`BadAnswer`."""
    foreign = [column for column in cells if column not in SHEET_COLUMNS]
    if foreign:
        raise BadAnswer(
            f"there is no column {foreign[0]!r}; the columns are {', '.join(SHEET_COLUMNS)}"
        )
    typed = {
        column: value_text(column, answer_value(column, text)) for column, text in cells.items()
    }
    maker, range_ = typed.pop("maker", ""), typed.pop("range", "")
    if not key(maker):
        raise BadAnswer("the maker is empty; say whose yarn this line is about")
    says = {column: typed[column] for column in UNSAID if typed.get(column)}
    if "length_m" in says and "mass_g" not in says:
        raise BadAnswer("length_m stands alone; give the mass_g of yarn that is so long")
    return MakerLine(maker, range_, says)


def maker_sheet_path(stash: Path) -> Path:
    """Where the maker sheet of the stash at ``stash`` lies."""
    return stash.with_suffix(".makers.csv")


def read_maker_sheet(stash: Stash) -> MakerSheet:
    """The maker sheet beside ``stash``; one without lines where there is no file.  Raises
    :class:`BadTable`."""
    path = maker_sheet_path(stash.path)
    if not path.exists():
        return MakerSheet()
    numbered = list(_numbered_lines(path))
    _refuse_twins(path, numbered)
    return MakerSheet(line for _, line in numbered)


def write_maker_sheet(stash: Stash, lines: Sequence[MakerLine]) -> None:
    """Put ``lines`` in place of the maker sheet beside ``stash``, at one stroke
    and after a backup.

    Raises :class:`BadTable` where two lines have one name, :class:`NoAccess` and
    :class:`StashBusy`.
    """
    path = maker_sheet_path(stash.path)
    _refuse_twins(path, list(enumerate(lines, start=2)))
    text = io.StringIO()
    rows = csv.writer(text, lineterminator="\n")
    rows.writerow(SHEET_COLUMNS)
    for line in lines:
        cells = {"maker": line.maker, "range": line.range, **line.says}
        rows.writerow([one_line(cells.get(column, "")) for column in SHEET_COLUMNS])
    # With the mark, spreadsheet programs take the file for UTF-8.
    data = text.getvalue().encode("utf-8-sig")
    with stash.locked():
        Backups(path).keep()
        replace_file(path, lambda file: file.write(data))


def _name(maker: str, range_: str) -> tuple[str, str]:
    return key(maker), key(range_)


def _amounts(record: Record, lines: Sequence[MakerLine]) -> dict[str, str]:
    """Metres and grams of a whole ball, of those two that the tag does not print."""
    line = next((line for line in lines if "mass_g" in line.says), None)
    if line is None or (record.length_m is not None and record.mass_g is not None):
        return {}
    mass_g = float(line.says["mass_g"])
    if "length_m" not in line.says:
        return {} if record.mass_g is not None else {"mass_g": number_text(mass_g)}
    length_m = float(line.says["length_m"])
    if record.mass_g is not None:
        return {"length_m": number_text(record.mass_g * length_m / mass_g)}
    if record.length_m is not None:
        return {"mass_g": number_text(record.length_m * mass_g / length_m)}
    return {"length_m": number_text(length_m), "mass_g": number_text(mass_g)}


def _numbered_lines(path: Path) -> Iterator[tuple[int, MakerLine]]:
    for number, cells in _SHEET.read(path):
        try:
            yield number, maker_line(cells)
        except BadAnswer as error:
            raise bad_line(path, number, error) from error


def _refuse_twins(path: Path, numbered: Iterable[tuple[int, MakerLine]]) -> None:
    """Refuse two lines about one maker and range: which of them holds?"""
    first: dict[tuple[str, str], int] = {}
    for number, line in numbered:
        before = first.setdefault(_name(line.maker, line.range), number)
        if before != number:
            raise BadTable(
                f"{path}, line {number}: {f'{line.maker} {line.range}'.strip()} has line {before} "
                "already; make one line of the two"
            )
