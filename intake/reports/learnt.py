"""What answers taught, told to people and to scripts."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import asdict

from rich.table import Table
from rich.text import Text

from intake.filing.learnt import Kind, Lesson


def lessons_table(lessons: Iterable[Lesson], title: str = "Learnt from answers") -> Table:
    """``lessons``, the newest first."""
    table = Table(title=title, title_justify="left")
    table.add_column("lesson", justify="right")
    table.add_column("what was learnt", overflow="fold")
    table.add_column("maker and range", overflow="fold")
    table.add_column("from record")
    for lesson in reversed(list(lessons)):
        of = "" if lesson.field == "maker" else f"{lesson.maker} {lesson.range}".strip()
        table.add_row(*map(Text, (lesson.id, lesson_text(lesson), of, lesson.record)))
    return table


def lesson_text(lesson: Lesson) -> str:
    """A lesson in one line."""
    if lesson.kind is Kind.SLIP:
        return f"{lesson.field} read as {lesson.read!r} is {lesson.meant}"
    code = f" with code {lesson.shade_code}" if lesson.shade_code else ""
    return f"{lesson.field} {lesson.meant}{code}"


def lesson_json(lesson: Lesson) -> str:
    """One lesson as one line of JSON."""
    return json.dumps(asdict(lesson), ensure_ascii=False)
