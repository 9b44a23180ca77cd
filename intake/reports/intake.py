"""What a run says: JSON lines for scripts, tables for people."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from rich.table import Table
from rich.text import Text

from intake.errors import ExitCode, one_line
from intake.filing.record import Record
from intake.records import REPORTED_FIELDS, FibrePart, Field, Outcome, Value
from intake.run import TagResult
from intake.wording import number_text, value_text

Json = dict[str, object]

_OUTCOME_WORDS = {
    Outcome.FILED: "filed",
    Outcome.QUEUED: "queued",
    Outcome.ALREADY: "already there",
    Outcome.FAILED: "failed",
}


def json_line(result: TagResult) -> str:
    """One tag as one line of JSON.  Scripts depend on its form:
    ``{"picture", "tag", "state", "reason", "fields": {NAME: {"value", "confidence",
    "state"}}}``, NAME being :data:`~intake.records.REPORTED_FIELDS`."""
    fields: Mapping[str, Field] = result.reading.fields if result.reading else {}
    return (
        json.dumps(
            {
                "picture": result.picture,
                "tag": result.tag,
                "state": result.outcome.value,
                "reason": result.reason or None,
                "fields": {
                    name: _field_json(fields.get(name, Field(name))) for name in REPORTED_FIELDS
                },
            },
            ensure_ascii=False,
        )
        .encode(errors="backslashreplace")
        .decode()
    )  # as JSON escapes what is no text in a name


def _field_json(read: Field) -> Json:
    return {
        "value": _value_json(read.value),
        "confidence": round(read.confidence, 4),
        "state": read.state.value,
    }


def _value_json(value: Value) -> object:
    if isinstance(value, tuple):
        return [_part_json(part) if isinstance(part, FibrePart) else part for part in value]
    return value


def _part_json(part: FibrePart) -> Json:
    return {"fibre": part.fibre, "kind": part.kind or None, "percent": part.percent}


def tag_line(result: TagResult) -> str:
    """One tag as one line for people: where it is, what became of it, and what it is or
    why it is not filed."""
    if result.outcome is Outcome.FAILED:  # its reason names the picture
        return f"failed: {result.reason}"
    where = one_line(f"{result.picture} #{result.tag}")
    said = what_of(result)
    return f"{where}: {_OUTCOME_WORDS[result.outcome]}" + (f", {said}" if said else "")


def what_of(result: TagResult) -> str:
    """The shade and lot of a tag that was filed, as far as it names them; of another, why
    it was not."""
    if result.outcome is not Outcome.FILED:
        return result.reason
    fields = result.reading.fields if result.reading else {}
    shade, code, lot = (
        value_text(name, fields.get(name, Field(name)).value)
        for name in ("shade", "shade_code", "lot")
    )
    parts = (f"{shade} {code}".strip(), f"lot {lot}" if lot else "")
    return ", ".join(part for part in parts if part)


@dataclass
class Tally:
    """Counts what became of the tags of a run and keeps why those not filed were not."""

    counts: Counter[Outcome] = field(default_factory=Counter)
    kept: list[TagResult] = field(default_factory=list)

    def add(self, result: TagResult) -> None:
        """Count one result; only those that are not filed are remembered, without their
        readings, so that a long run does not grow."""
        self.counts[result.outcome] += 1
        if result.outcome is not Outcome.FILED:
            self.kept.append(TagResult(result.picture, result.tag, result.outcome, result.reason))

    @property
    def waiting(self) -> int:
        """How many tags of the run were queued."""
        return self.counts[Outcome.QUEUED]

    @property
    def exit_code(self) -> ExitCode:
        """How the run ends: a queue is normal, failed pictures are told by the code."""
        failed = self.counts[Outcome.FAILED]
        if not failed:
            return ExitCode.OK
        return ExitCode.SOME_FAILED if failed < self.counts.total() else ExitCode.NO_PICTURE

    def in_words(self) -> str:
        """How many tags were filed, queued, there already and failed."""
        return ", ".join(f"{self.counts[one]} {words}" for one, words in _OUTCOME_WORDS.items())

    def table(self) -> Table:
        """How many tags were filed, queued, there already and failed, and why."""
        table = Table(title="What became of the tags", title_justify="left")
        table.add_column("")
        table.add_column("tags", justify="right")
        table.add_column("picture", overflow="fold")
        table.add_column("why", overflow="fold", ratio=1)
        for outcome, words in _OUTCOME_WORDS.items():
            rows = [one for one in self.kept if one.outcome is outcome]
            table.add_row(words, str(self.counts[outcome]), end_section=not rows)
            for row in rows:
                where = f"{row.picture} #{row.tag}" if row.tag else row.picture
                cells = (Text(one_line(cell)) for cell in (where, row.reason))
                table.add_row("", "", *cells, end_section=row is rows[-1])
        return table


def records_table(records: Iterable[Record]) -> Table:
    """Records as a table to look at: who made it, shade, lot, what it is, how to wash it."""
    table = Table(title="Records", title_justify="left")
    for heading in ("maker and range", "shade", "lot", "weight", "fibre", "ball", "care"):
        table.add_column(heading, overflow="fold")
    for record in records:
        cells: Sequence[str] = (
            f"{record.maker} {record.range}".strip(),
            f"{record.shade} {record.shade_code}".strip(),
            record.lot,
            record.weight_class,
            record.fibre,
            _ball(record),
            record.care,
        )
        table.add_row(*(Text(cell) for cell in cells))
    return table


def _ball(record: Record) -> str:
    amounts = ((record.mass_g, "g"), (record.length_m, "m"))
    one = ", ".join(f"{number_text(number)} {unit}" for number, unit in amounts if number)
    return one if record.balls == 1 else f"{record.balls} balls" + (f" of {one}" if one else "")
