"""What is known of makers, ranges and shades: by the stash, a shade card and answers."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from intake.filing.cabinet import Cabinet
from intake.filing.index import Named
from intake.filing.learnt import Kind, Lesson
from intake.filing.record import Record
from intake.filing.stash import Mark
from intake.records import State, TagReading
from intake.shades.known import KnownShade, KnownShades
from intake.shades.match import with_known_shade
from intake.shades.names import KnownNames, with_known_names
from intake.shades.near_names import with_near_names
from intake.shades.printed_names import with_printed_names
from intake.shades.slips import with_meant_shade


class Knowledge:
    """What the stash of ``cabinet``, the shades of ``card`` and the lessons of earlier
    answers tell of a new tag."""

    def __init__(self, cabinet: Cabinet, card: Sequence[KnownShade] = ()) -> None:
        self._cabinet = cabinet
        self._card = card
        self._mark: Mark | None = None
        self._lessons: list[Lesson] = []
        self.shades = KnownShades()
        self.names = KnownNames()

    def refresh(self) -> None:
        """Know all that others filed, corrected, withdrew or answered since the last look.
        Raises :class:`BadStash`."""
        lessons = self._cabinet.learnt.lessons()
        rows = self._cabinet.stash.read(self._mark if lessons == self._lessons else None)
        records = rows.records
        if rows.whole:
            self.shades, self.names = KnownShades(), KnownNames()
            recalled = self._cabinet.recall(rows.mark)
            if recalled is not None:
                self._know_named(recalled.named())
                records = recalled.put
        for record in records:
            self.add(record)
        if rows.whole:
            for shade in self._card:
                self.shades.add(shade)
                self.names.add(shade.maker, shade.range)
            self._learn(lessons)
        self._mark, self._lessons = rows.mark, lessons

    def add(self, record: Record) -> None:
        """Know the names of a record that was just filed."""
        self.shades.add(record)
        self.names.add(record.maker, record.range)

    def add_waiting(self, reading: TagReading) -> None:
        """Know the maker of a tag that waits, where it is sure and something else is asked about.
        Its range is not learnt: two makers' ranges may be called alike, and the next tag with that
        name would be asked about."""
        maker = reading.fields.get("maker")
        if maker is not None and maker.state is State.SURE:
            self.names.add(str(maker.value))

    def applied(self, reading: TagReading) -> TagReading:
        """``reading`` with its maker, range and shade compared with what is known.  Lots
        and codes stay as they were read."""
        headed = with_printed_names(with_known_names(reading, self.names), self.names)
        named = with_near_names(headed, self.names)
        return with_known_shade(with_meant_shade(named, self.names.slips), self.shades)

    def _know_named(self, named: Mapping[Named, int]) -> None:
        times: Counter[tuple[str, str]] = Counter()
        for one, records in named.items():
            self.shades.add(one)
            times[one.maker, one.range] += records
        for (maker, range_), records in times.items():
            self.names.add(maker, range_, records)

    def _learn(self, lessons: Iterable[Lesson]) -> None:
        for lesson in lessons:
            if lesson.kind is Kind.SLIP:
                # The maker of a heading is not known before the heading is.
                maker = lesson.maker if lesson.field == "shade" else ""
                self.names.slips.add(lesson.field, maker, lesson.read, lesson.meant)
            elif lesson.field == "shade":
                self.shades.add(lesson)
            elif lesson.field == "maker":
                self.names.add(lesson.meant)
            else:
                self.names.add(lesson.maker, lesson.meant)
