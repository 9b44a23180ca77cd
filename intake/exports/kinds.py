"""The kinds of spreadsheet, by the ending of the file."""

from __future__ import annotations

from pathlib import Path

from intake.errors import BadSheet
from intake.exports.csv_exporter import CsvExporter
from intake.exports.exporter import Exporter
from intake.exports.ods_exporter import OdsExporter
from intake.exports.xlsx_exporter import XlsxExporter

EXPORTERS: dict[str, type[Exporter]] = {
    ".xlsx": XlsxExporter,
    ".ods": OdsExporter,
    ".csv": CsvExporter,
}


def exporter_for(path: Path) -> Exporter:
    """What writes ``path``, by its ending.  Raises :class:`BadSheet` for another one."""
    kind = EXPORTERS.get(path.suffix.lower())
    if kind is None:
        raise BadSheet(f"{path} is no spreadsheet by its name; end it with .xlsx, .ods or .csv")
    return kind()
