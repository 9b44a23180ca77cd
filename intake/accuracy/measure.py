"""Measuring: a run over pictures whose truth is known, scored picture by picture.

The tags go the way of every run, into a stash that is thrown away afterwards: so what is
filed or asked is what a user would see, with known shades, neighbouring lots and repeats.
"""

from __future__ import annotations

import tempfile
from collections.abc import Iterable, Iterator, Mapping
from contextlib import closing, nullcontext
from dataclasses import dataclass, field
from pathlib import Path

from intake.accuracy.answering import answer_waiting
from intake.accuracy.baselines import (
    FIRST_READER,
    first_reader_baseline,
    whole_picture_baselines,
)
from intake.accuracy.kept_lines import KeptReadings, LineKeeper
from intake.accuracy.score import PictureScore, ReadTag, TagScore, score_picture
from intake.accuracy.truth import Truth
from intake.filing.cabinet import Cabinet
from intake.pool import read_pictures
from intake.records import Outcome
from intake.run import Filing, TagResult


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
    reviewed: bool = False,
) -> Iterator[Measured]:
    """Read all pictures of ``truth`` and score them, in its order.

    ``jobs`` and ``shade_card`` are as for :func:`intake.run.intake`.  ``keep_lines`` is a
    file that the lines of all pictures are written to, ``from_lines`` such a file to parse
    in place of reading.  ``first_reader`` adds the baseline of the first reader alone.
    ``reviewed`` has what is asked answered with the truth before the next picture, so that
    makers and shades become known as they do in use.
    Raises what :func:`intake.run.intake` raises, and
    :class:`~intake.accuracy.kept_lines.BadLines`.
    """
    names = {path: tags[0].picture for path, tags in truth.pictures.items()}
    readings = (
        iter(KeptReadings(from_lines, names))
        if from_lines
        else read_pictures(list(truth.pictures), jobs)
    )
    with (
        closing(readings),
        tempfile.TemporaryDirectory(prefix="balltag-accuracy-") as folder,
        LineKeeper(keep_lines) if keep_lines else nullcontext() as keeper,
    ):
        filing = Filing(Path(folder) / "stash.csv", shade_card)
        for reading in readings:
            tags = truth.pictures[Path(reading.picture)]
            if keeper is not None:
                keeper.keep(tags[0].picture, reading.tags, reading.error)
            results = [result for result in filing.file_all([reading]) if result.reading]
            score = score_picture(tags, list(_read_tags(results, filing.cabinet)))
            if reviewed and answer_waiting(
                filing.cabinet, {result.tag: result.id for result in results}, score.tags
            ):
                filing.learn_shades()
            less = {FIRST_READER: first_reader_baseline(reading.tags)} if first_reader else {}
            yield Measured(score, {name: score_picture(tags, read) for name, read in less.items()})


def measure_whole_pictures(truth: Truth, *, jobs: int | None = None) -> Iterator[Measured]:
    """Score the baselines that read whole pictures, in the order of ``truth``."""
    found = whole_picture_baselines(list(truth.pictures), jobs)
    for tags, baselines in zip(truth.pictures.values(), found, strict=True):
        scores = {name: score_picture(tags, read) for name, read in baselines.items()}
        yield Measured(baselines=scores)


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
