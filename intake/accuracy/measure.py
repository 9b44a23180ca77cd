"""Measuring: a run over pictures whose truth is known, scored picture by picture.

The tags go the way of every run, into a stash that is thrown away afterwards: so what is
filed or asked is what a user would see, with known shades, neighbouring lots and repeats.
"""

from __future__ import annotations

import tempfile
from collections.abc import Iterable, Iterator, Mapping
from contextlib import nullcontext
from dataclasses import dataclass, field
from itertools import groupby
from pathlib import Path

from intake.accuracy.baselines import (
    FIRST_READER,
    first_reader_baseline,
    whole_picture_baselines,
)
from intake.accuracy.kept_lines import KeptReadings, LineKeeper
from intake.accuracy.score import PictureScore, ReadTag, TagScore, score_picture
from intake.accuracy.truth import Truth
from intake.filing.cabinet import Cabinet, open_cabinet
from intake.records import Outcome, TagReading
from intake.run import Filing, TagResult, intake


@dataclass(frozen=True, slots=True)
class Measured:
    """The scores of one picture: of balltag, and of baselines by their name."""

    score: PictureScore | None = None
    baselines: Mapping[str, PictureScore] = field(default_factory=dict)


@dataclass
class Accuracy:
    """All that was measured: the scored tags, tags that were read where there are none,
    and the tags as each baseline read them."""

    tags: list[TagScore] = field(default_factory=list)
    extra: list[ReadTag] = field(default_factory=list)
    baselines: dict[str, list[TagScore]] = field(default_factory=dict)

    def add(self, measured: Measured) -> None:
        """Take in what was measured on one picture."""
        if measured.score is not None:
            self.tags += measured.score.tags
            self.extra += measured.score.extra
        for name, score in measured.baselines.items():
            self.baselines.setdefault(name, []).extend(score.tags)


def measure(
    truth: Truth,
    *,
    jobs: int | None = None,
    shade_card: Path | None = None,
    keep_lines: Path | None = None,
    from_lines: Path | None = None,
    first_reader: bool = False,
) -> Iterator[Measured]:
    """Read all pictures of ``truth`` and score them, in its order.

    ``jobs`` and ``shade_card`` are as for :func:`intake.run.intake`.  ``keep_lines`` is a
    file that the lines of all pictures are written to, ``from_lines`` such a file to parse
    in place of reading.  ``first_reader`` adds the baseline of the first reader alone.
    Raises what :func:`intake.run.intake` raises, and
    :class:`~intake.accuracy.kept_lines.BadLines`.
    """
    names = {path: tags[0].picture for path, tags in truth.pictures.items()}
    kept = KeptReadings(from_lines, names) if from_lines else None
    with (
        tempfile.TemporaryDirectory(prefix="balltag-accuracy-") as folder,
        LineKeeper(keep_lines) if keep_lines else nullcontext() as keeper,
    ):
        stash = Path(folder) / "stash.csv"
        cabinet = open_cabinet(stash)
        results = (
            intake(list(truth.pictures), stash, shade_card=shade_card, jobs=jobs)
            if kept is None
            else Filing(stash, shade_card).file_all(kept)
        )
        for picture, group in groupby(results, key=lambda result: Path(result.picture)):
            of_picture = list(group)
            tags, readings = truth.pictures[picture], _readings(of_picture)
            if keeper is not None:
                error = next((one.error for one in of_picture if one.error), None)
                keeper.keep(names[picture], readings, error)
            score = score_picture(tags, list(_read_tags(of_picture, cabinet)))
            less = {FIRST_READER: first_reader_baseline(readings)} if first_reader else {}
            yield Measured(score, {name: score_picture(tags, read) for name, read in less.items()})


def measure_whole_pictures(truth: Truth, *, jobs: int | None = None) -> Iterator[Measured]:
    """Score the baselines that read whole pictures, in the order of ``truth``."""
    found = whole_picture_baselines(list(truth.pictures), jobs)
    for tags, baselines in zip(truth.pictures.values(), found, strict=True):
        scores = {name: score_picture(tags, read) for name, read in baselines.items()}
        yield Measured(baselines=scores)


def _readings(results: Iterable[TagResult]) -> list[TagReading]:
    return [result.reading for result in results if result.reading is not None]


def _read_tags(results: Iterable[TagResult], cabinet: Cabinet) -> Iterator[ReadTag]:
    for result in results:
        if result.reading is None:
            continue
        queued = result.outcome is Outcome.QUEUED
        yield ReadTag(
            number=result.tag,
            fields=result.reading.fields,
            text="\n".join(line.text for line in result.reading.lines),
            outcome=result.outcome,
            doubts=cabinet.get(result.id).doubts if queued else (),
            symbols=result.reading.symbols,
        )
