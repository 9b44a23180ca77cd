"""What a spreadsheet that comes back changes in the stash.

A cell that the user did not touch since the export changes nothing, though the stash may
have moved on; one that was changed both there and here is refused, for nobody can tell
which of the two is right.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from intake.errors import one_line
from intake.exports.as_of import PastCells
from intake.exports.book import ASSUMED_MARK
from intake.exports.mangled import mangling
from intake.exports.records_sheet import AS_OF, ASSUMED, COLUMNS, record_text
from intake.exports.sheet_in import ID, Held, SheetCell, SheetIn, SheetRow
from intake.filing.answers import BadAnswer, answer_cell
from intake.records import FIELDS
from intake.sums.ball import Ball

CORRECTABLE = FIELDS
"""The columns that are read back; the others say where a record came from."""

SHEET_COLUMNS = frozenset(column.name for column in COLUMNS)


@dataclass(frozen=True, slots=True)
class Correction:
    """One cell that changes: in row ``row`` of the sheet, ``column`` of ``record`` from
    ``old`` to ``new``, as cell text."""

    row: int
    record: str
    column: str
    old: str
    new: str


@dataclass(frozen=True, slots=True)
class Refusal:
    """One row of which nothing is taken, and why, in words."""

    row: int
    record: str
    why: str


@dataclass(frozen=True, slots=True)
class Corrections:
    """What a sheet changes, what of it is refused, and what is worth knowing."""

    made: tuple[Correction, ...]
    refused: tuple[Refusal, ...]
    notes: tuple[str, ...] = ()

    def without(self, reasons: Mapping[str, str]) -> Corrections:
        """The same with the records of ``reasons`` refused, each for its reason."""
        rows = {one.record: one.row for one in self.made if one.record in reasons}
        left_out = [Refusal(row, record, reasons[record]) for record, row in rows.items()]
        made = tuple(one for one in self.made if one.record not in reasons)
        return replace(self, made=made, refused=(*self.refused, *left_out))

    def edits(self) -> dict[str, dict[str, str]]:
        """The new cell texts by record and column."""
        edits: dict[str, dict[str, str]] = {}
        for one in self.made:
            edits.setdefault(one.record, {})[one.column] = one.new
        return edits


class RowRefused(Exception):
    """A row cannot be taken; ``str`` says why."""


def find_corrections(sheet: SheetIn, balls: Iterable[Ball], past: PastCells) -> Corrections:
    """What ``sheet`` changes in ``balls``, whose cells were once as ``past`` says."""
    known = {ball.record.id: ball for ball in balls}
    ids = Counter(_id(row) for row in sheet.rows)
    made: list[Correction] = []
    refused: list[Refusal] = []
    for row in sheet.rows:
        try:
            made += _row_corrections(row, _ball(row, ids, known), past)
        except RowRefused as refusal:
            refused.append(Refusal(row.number, _id(row), str(refusal)))
    return Corrections(tuple(made), tuple(refused), tuple(_notes(sheet, known)))


def _id(row: SheetRow) -> str:
    return row.text(ID).strip()


def _ball(row: SheetRow, ids: Counter[str], known: Mapping[str, Ball]) -> Ball:
    """The ball that a row is about.  Raises :class:`RowRefused`."""
    record_id = _id(row)
    if not record_id:
        raise RowRefused("it has no id; new balls come in by their tags, not by a sheet")
    if ids[record_id] > 1:
        raise RowRefused("its id stands in another row too; keep one of them")
    if record_id not in known:
        raise RowRefused("the stash has no record of this id; take the row out, or export afresh")
    return known[record_id]


def _row_corrections(row: SheetRow, ball: Ball, past: PastCells) -> list[Correction]:
    """What one row changes.  Raises :class:`RowRefused`."""
    record, stroke = ball.record, _stroke(row)
    corrections = []
    for column in CORRECTABLE:
        if column not in row.cells or _is_assumed(row, ball, column):
            continue
        before, now = past.text(record, column, stroke), record_text(record, column)
        new = _new_text(column, before, row.cells[column])
        if new in (before, now):
            continue
        if before != now:
            raise RowRefused(
                f"{column} became {now or 'empty'} in the stash after the export; export it afresh"
            )
        corrections.append(Correction(row.number, record.id, column, now, new))
    return corrections


def _stroke(row: SheetRow) -> int | None:
    """The last stroke that the row knows of; ``None`` where it does not say."""
    text = row.text(AS_OF).strip()
    return int(text) if text.isdecimal() else None


def _new_text(column: str, before: str, cell: SheetCell) -> str:
    """What the user put in place of ``before``, or that.  Raises :class:`RowRefused`."""
    typed = replace(cell, text=one_line(cell.text).strip())
    if typed.held not in (Held.FORMULA, Held.ERROR) and typed.text == before.strip():
        return before
    turned = mangling(column, before, typed)
    if turned:
        raise RowRefused(f"{column} {turned}")
    try:
        return answer_cell(column, typed.text)
    except BadAnswer as error:
        raise RowRefused(f"{column}: {error}") from error


def _is_assumed(row: SheetRow, ball: Ball, column: str) -> bool:
    """Whether a cell holds what the maker sheet says, so that it is no correction.  Raises
    :class:`RowRefused` where it is marked so and holds something else."""
    said = ball.assumed.get(column, "")
    text = row.text(column).strip().removesuffix(ASSUMED_MARK)  # of a sheet saved as shown
    if ASSUMED not in row.cells:
        return bool(said) and text == said
    if column not in row.text(ASSUMED).split(", "):
        return False
    if text not in (said, record_text(ball.record, column)):
        raise RowRefused(
            f"{column} is marked {ASSUMED} and is not what the maker sheet says; take "
            f"{column} out of the cell {ASSUMED} if the ball is so, else export it afresh"
        )
    return True


def _notes(sheet: SheetIn, known: Mapping[str, Ball]) -> Iterator[str]:
    """What a user may take for done though it is not."""
    foreign = [name for name in sheet.columns if name not in SHEET_COLUMNS]
    if foreign:
        yield f"columns that balltag does not know are passed over: {', '.join(foreign)}"
    if AS_OF not in sheet.columns:
        yield (
            f"without the column {AS_OF} nobody can tell what changed in the stash after the "
            "export; look twice at what would change"
        )
    fixed = [name for name in _FIXED_TEXTS if _is_changed(sheet, known, name)]
    if fixed:
        yield f"changes to {', '.join(fixed)} are passed over; they are not for a sheet to say"
    ids = {_id(row) for row in sheet.rows}
    missing = sum(record_id not in ids for record_id in known)
    if missing:
        yield f"{missing} records of the stash have no row here; they stay as they are"


_FIXED_TEXTS = ("note", "shade_printed", "picture")
"""Text columns that are not read back and that someone may well write into."""


def _is_changed(sheet: SheetIn, known: Mapping[str, Ball], column: str) -> bool:
    return any(
        row.text(column).strip() != known[_id(row)].text(column).strip()
        for row in sheet.rows
        if column in row.cells and _id(row) in known
    )
