"""A run: pictures go through the workers, their tags to the stash or the queue."""

from __future__ import annotations

import os
from collections.abc import Generator, Iterable, Iterator
from concurrent.futures import Executor
from contextlib import closing, suppress
from dataclasses import dataclass
from pathlib import Path

from intake.errors import NoSuchRecord
from intake.filing.answers import answer_value
from intake.filing.cabinet import Taken, open_cabinet
from intake.filing.given_balls import with_given_balls
from intake.filing.knowledge import Knowledge
from intake.filing.queue import NotWaiting
from intake.filing.record import Record, record_cells, record_id
from intake.pictures.load import digest
from intake.pictures.walk import picture_files
from intake.pool import read_pictures
from intake.profile import WAIT, Profile
from intake.records import FIELDS, Field, Outcome, PictureReading, State, TagReading
from intake.shades.known import read_card
from intake.stages import each_in_stage, stage
from intake.watched import Watched
from intake.wording import value_from_text


@dataclass(frozen=True, slots=True)
class TagResult:
    """What became of one tag.  For a picture that failed ``tag`` is 0 and ``reading``
    ``None``; ``error`` then is its exception.  ``reason`` says in words why the tag is
    not filed; ``id`` is its record's."""

    picture: str
    tag: int
    outcome: Outcome
    reason: str = ""
    id: str = ""
    reading: TagReading | None = None
    error: Exception | None = None


def intake(
    pictures: Iterable[str | os.PathLike[str]],
    stash: str | os.PathLike[str] = "stash.csv",
    *,
    shade_card: str | os.PathLike[str] | None = None,
    jobs: int | None = None,
    executor: Executor | None = None,
    balls: int | None = None,
    profile: Profile | None = None,
) -> Generator[TagResult]:
    """Read ``pictures`` (files and folders) into ``stash`` (.csv or .parquet).

    Yields one :class:`TagResult` a tag, in the order of the pictures, each after it has
    been filed or queued for good.  ``shade_card`` is a CSV file of known shades, ``jobs``
    the number of worker processes (by default one a core).  An ``executor`` of
    concurrent.futures replaces them, wherever its workers are; ``jobs`` then is about how many
    pictures it reads at once.  A picture that was taken in before is not read again.

    Each tag stands for ``balls`` balls where that is given, else for as many as the name of
    its picture gives (:mod:`intake.filing.given_balls`) or as it says itself.

    A ``profile`` is told where the time goes; its ``end`` is for the caller to call.

    Raises a :class:`~intake.errors.BalltagError` where the run as a whole cannot go on
    (no picture, a stash that cannot be read or written); a bad picture is a result.
    """
    files = picture_files([Path(picture) for picture in pictures])
    filing = Filing(stash, shade_card, balls)
    readings = read_pictures(files, jobs, executor, filing.taken_in.has)
    return _closing(filing, readings, profile)


def _closing(
    filing: Filing, readings: Generator[PictureReading], profile: Profile | None
) -> Generator[TagResult]:
    """The results of ``readings``, whose workers end with them, also where they are left."""
    with closing(readings):
        yield from filing.file_all(_waited_for(readings, profile))


def _waited_for(
    readings: Iterable[PictureReading], profile: Profile | None
) -> Iterator[PictureReading]:
    for reading in each_in_stage(WAIT, readings):
        if profile is not None:
            profile.add(reading)
        yield reading


def picture_count(pictures: Iterable[str | os.PathLike[str]]) -> int:
    """How many picture files :func:`intake` would read."""
    return len(picture_files([Path(picture) for picture in pictures]))


class Filing:
    """Takes what the workers read into one stash, picture after picture.

    ``shade_card`` is a CSV file of known shades, ``balls`` how many balls each tag stands for
    where the user says so.  Raises a :class:`~intake.errors.BalltagError` where the stash
    cannot be read or written, the card is none, or no tag stands for so many.
    """

    def __init__(
        self,
        stash: str | os.PathLike[str],
        shade_card: str | os.PathLike[str] | None = None,
        balls: int | None = None,
    ) -> None:
        if balls is not None:
            answer_value("balls", str(balls))  # which says what cannot be
        self._balls = balls
        self.cabinet = open_cabinet(stash)
        self.taken_in = Watched(self.cabinet)
        card = () if shade_card is None else read_card(Path(shade_card))
        self._known = Knowledge(self.cabinet, card)
        with self.cabinet.stash.locked():  # a stash that cannot be written is told before the work
            self.learn_shades()

    def file_all(self, pictures: Iterable[PictureReading]) -> Iterator[TagResult]:
        """:meth:`file` for each of ``pictures``, each of which is known as taken in from then
        on; one that is known already gives neither tags nor an error."""
        for picture in pictures:
            if not picture.tags and picture.error is None:
                yield from self._already(picture.picture)
                continue
            ids = []
            for result in self.file(picture):
                ids.append(result.id)
                yield result
            if picture.error is None:
                with stage("file"):
                    self.taken_in.add(picture.tags[0].digest, ids)

    def file(self, picture: PictureReading, name: str = "") -> Iterator[TagResult]:
        """File or queue the tags of one picture; each result comes after it is kept for
        good.  ``name`` is what its sender calls it, where its file is called otherwise."""
        for reading in picture.tags:
            is_alone = len(picture.tags) == 1
            counted = with_given_balls(
                reading, self._balls, name=name or picture.picture, is_alone=is_alone
            )
            with stage("match"):
                matched = self._known.applied(counted)
            with stage("file"):
                taken = self.cabinet.take(matched)
            with stage("match"):
                if taken.record is not None:
                    self._known.add(taken.record)
                elif taken.outcome is Outcome.QUEUED:
                    self._known.add_waiting(matched)
            yield TagResult(
                picture=picture.picture,
                tag=reading.tag,
                outcome=taken.outcome,
                reason=_why(taken),
                id=taken.id,
                reading=matched,
            )
        if picture.error is not None:
            yield TagResult(
                picture.picture, 0, Outcome.FAILED, str(picture.error), error=picture.error
            )

    def _already(self, picture: str) -> Iterator[TagResult]:
        """The tags of a picture that was taken in before, as they are known now."""
        file = Path(picture)
        file_digest = digest(file)
        for number in range(1, (self.taken_in.count(file) or 0) + 1):
            tag_id = record_id(file_digest, number)
            yield TagResult(
                picture=picture,
                tag=number,
                outcome=Outcome.ALREADY,
                reason="this file was taken in before",
                id=tag_id,
                reading=self._known_reading(tag_id),
            )

    def _known_reading(self, tag_id: str) -> TagReading | None:
        with suppress(NoSuchRecord):
            return _as_filed(self.cabinet.record(tag_id))
        with suppress(NotWaiting):
            return self.cabinet.get(tag_id).reading
        return None

    def learn_shades(self) -> None:
        """Know the shades, makers and ranges of all that others filed, corrected, withdrew
        or answered since the last look."""
        self._known.refresh()


def _why(taken: Taken) -> str:
    if taken.before is not None:
        return f"{taken.before.how}: {taken.before.picture}"
    return "; ".join(doubt.reason for doubt in taken.doubts)


def _as_filed(record: Record) -> TagReading:
    """A reading of the values that stand in the stash, without print and picture."""
    values = {
        name: value_from_text(name, text)
        for name, text in record_cells(record).items()
        if name in FIELDS
    }
    fields = {
        name: Field(name) if value is None else Field(name, value, 1.0, State.SURE)
        for name, value in values.items()
    }
    return TagReading(
        picture=record.picture,
        page=int(record.page),
        tag=int(record.tag),
        digest=record.digest,
        print_hash=record.print_hash,
        jpeg=b"",
        lines=(),
        barcodes=(),
        fields=fields,
    )
