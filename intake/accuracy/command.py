"""The work of ``balltag accuracy``: measure, print, and write what was asked for."""

from __future__ import annotations

import json
import os
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from rich.console import Console
from rich.progress import track

from intake.accuracy.as_json import accuracy_json
from intake.accuracy.evidence_rows import write_evidence
from intake.accuracy.measure import Accuracy, Measured, measure, measure_whole_pictures
from intake.accuracy.plot import check_is_picture, draw_reliability
from intake.accuracy.tables import tables
from intake.accuracy.truth import read_truth
from intake.errors import NoAccess


@dataclass(frozen=True, slots=True)
class Files:
    """Files to write; ``None`` for those that are not wanted."""

    out: Path | None = None
    plot: Path | None = None
    dump: Path | None = None
    keep_lines: Path | None = None


def measure_and_tell(
    folder: Path,
    truth_file: Path,
    console: Console,
    files: Files,
    *,
    from_lines: Path | None = None,
    baselines: bool = False,
    reviewed: bool = False,
    shade_card: Path | None = None,
    jobs: int | None = None,
) -> None:
    """Measure how well the pictures in ``folder`` are read and print tables on
    ``console``.  Raises a :class:`~intake.errors.BalltagError`."""
    for path in (files.out, files.plot, files.dump, files.keep_lines):
        _check_place(path)
    if files.plot:
        check_is_picture(files.plot)
    truth = read_truth(truth_file, folder)
    accuracy = Accuracy()
    count = len(truth.pictures)
    read = measure(
        truth,
        jobs=jobs,
        shade_card=shade_card,
        keep_lines=files.keep_lines,
        from_lines=from_lines,
        first_reader=baselines,
        reviewed=reviewed,
    )
    _collect(accuracy, read, "reading", count)
    if baselines:
        _collect(accuracy, measure_whole_pictures(truth, jobs=jobs), "reading baselines", count)
    for table in tables(accuracy):
        console.print(table)
    _write(accuracy, files)


def _collect(accuracy: Accuracy, found: Iterable[Measured], what: str, count: int) -> None:
    console = Console(stderr=True)
    for one in track(found, what, count, console=console, disable=not console.is_terminal):
        accuracy.add(one)


def _write(accuracy: Accuracy, files: Files) -> None:
    if files.out:
        text = json.dumps(accuracy_json(accuracy), indent=1, ensure_ascii=False)
        try:
            files.out.write_text(text + "\n", encoding="utf-8")
        except OSError as error:
            raise NoAccess(
                f"{files.out} cannot be written ({error.strerror}); give another file"
            ) from error
    if files.dump:
        write_evidence(accuracy.tags, files.dump)
    if files.plot:
        draw_reliability(accuracy.tags, files.plot)


def _check_place(path: Path | None) -> None:
    """Refuse a file that cannot be written before hours of reading, not after."""
    if path is None:
        return
    if path.is_dir() or not os.access(path.parent, os.W_OK):
        raise NoAccess(f"{path} cannot be written; name a file in a folder that can be")
