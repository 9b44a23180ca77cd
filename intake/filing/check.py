"""Whether the stash, the queue, the tag pictures, the history and what was learnt agree.

A check changes nothing; :mod:`intake.filing.mend` does.
"""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from intake.errors import BadStash
from intake.filing.conflict_copies import conflict_copies
from intake.filing.findings import Finding, Kind
from intake.filing.kinds import open_stash
from intake.filing.layouts import Cells
from intake.filing.learnt import Learnt
from intake.filing.queue import NotWaiting
from intake.filing.record import COLUMNS, NUMBERS, Record, is_record_id, record_from_row
from intake.filing.safe_write import cannot_read
from intake.filing.store import Store
from intake.filing.strokes import OF_RECORDS, is_whole
from intake.filing.turned import turned_into
from intake.filing.turned_cells import TEXTS
from intake.filing.written import Row, filled

STRAYS = "strays"
"""The folder among the tag pictures for those of no tag."""

_JPEG_END = b"\xff\xd9"
"""The marker that ends a JPEG picture (ISO/IEC 10918-1, B.1.1.3: EOI)."""

Gone = None
"""What the history says of a record that it took out."""


class Check:
    """Looks through one stash with what lies beside it."""

    def __init__(self, store: Store) -> None:
        self._store = store
        self._stash = store.stash
        self._rows: list[tuple[str, Cells]] = []
        self._known: dict[str, Row] = {}
        self._told: dict[str, Cells | None] = {}
        self._begun: set[str] = set()

    def findings(self) -> list[Finding]:
        """All that does not agree.  A part that cannot be read is itself a finding, and the
        others are looked at without it."""
        found = [
            *self._part(self._conflict_copies),
            *self._part(self._left_overs),
            *self._part(self._history),
            *self._part(self._learnt),
            *self._part(self._written),
            *self._part(self._torn),
        ]
        rows = list(self._part(self._stash_rows))
        unread = [one for one in rows if one.kind is Kind.UNREADABLE]
        if not unread:  # else all that waits or has a picture would seem lost
            rows += [
                *self._part(self._lost_rows),
                *self._part(self._queue),
                *self._part(self._pictures),
            ]
        return list({(one.kind, one.about, one.what): one for one in (*found, *rows)}.values())

    def _part(self, look: Callable[[], Iterable[Finding]]) -> Iterator[Finding]:
        try:
            yield from look()
        except BadStash as error:
            yield Finding(Kind.UNREADABLE, self._stash.path.name, str(error))

    # Files

    def _conflict_copies(self) -> Iterator[Finding]:
        for copy in conflict_copies(self._stash.path):
            yield Finding(Kind.CONFLICT, copy.name, self._about_copy(copy))

    def _about_copy(self, copy: Path) -> str:
        advice = "take out of it what is missing here, then move it away"
        if copy.suffix != self._stash.path.suffix or copy.parent != self._stash.path.parent:
            return f"the same file was changed on two machines; {advice}"
        try:
            theirs = {record.id: record for record in open_stash(copy).records()}
            ours = {record.id: record for record in self._stash.records()}
        except BadStash as error:
            return f"it cannot be compared: {error}"
        more = len(theirs.keys() - ours.keys())
        others = sum(theirs[one] != ours[one] for one in theirs.keys() & ours.keys())
        return (
            f"the stash was changed on two machines; {more} of its records are not in the stash "
            f"and {others} are others there; {advice}"
        )

    def _left_overs(self) -> Iterator[Finding]:
        path = self._stash.path
        folders = (
            self._store.queue.folder,
            self._store.pictures.folder,
            path.with_suffix(".backups"),
        )
        ours = [
            path.with_name(f"{path.name}.new"),
            *(f for one in folders for f in one.rglob("*.new")),
        ]
        for file in ours:
            if file.is_file():
                yield Finding(
                    Kind.LEFT_OVER, str(file.relative_to(path.parent)),
                    "a process that was killed did not finish writing it",
                )  # fmt: skip

    def journals(self) -> list[Path]:
        """The files of lines beside the stash."""
        endings = ("history", "learnt", "watched", "written")
        return [self._stash.path.with_suffix(f".{ending}.jsonl") for ending in endings]

    def _torn(self) -> Iterator[Finding]:
        for journal in self.journals():
            if has_torn_line(journal):
                yield Finding(Kind.TORN, journal.name, "its last line was cut short")
        if self._stash.has_torn_line():
            yield Finding(Kind.TORN, self._stash.path.name, "its last line was cut short")

    def _history(self) -> Iterator[Finding]:
        begun = self._store.history.unfinished()
        self._begun = {change.record for change in begun}
        if begun:
            yield Finding(
                Kind.UNFINISHED, f"stroke {begun[0].stroke}",
                f"the history has it, the stash may not: {len(begun)} {begun[0].action}",
            )  # fmt: skip
        self._told = told(self._store)

    def _learnt(self) -> Iterator[Finding]:
        Learnt(self._stash.path.with_suffix(".learnt.jsonl"), self._store.history).lessons()
        yield from ()

    def _written(self) -> Iterator[Finding]:
        self._known = self._store.written.rows()
        yield from ()

    # Rows

    def _stash_rows(self) -> Iterator[Finding]:
        self._rows = list(self._stash.rows())
        yield from self._twice()
        unknown = []
        for place, cells in self._rows:
            one = cells["id"]
            before = self._known.get(one)
            if one in self._begun:
                continue
            yield from self._damaged(place, cells, before)
            if before is None or not before.is_own:
                yield from self._risen(place, one, before)
                yield from _suspects(place, cells)
                unknown.append(one)
            elif is_record(cells):
                yield from self._turned_or_edited(place, cells, before)
        if unknown:
            first = f"{unknown[0]}{' and others' if unknown[1:] else ''}"
            yield Finding(
                Kind.FOUND, first,
                f"balltag does not know that it wrote these rows: {len(unknown)}",
            )  # fmt: skip

    def _twice(self) -> Iterator[Finding]:
        counts = Counter(cells["id"] for _, cells in self._rows)
        for one in (one for one, count in counts.items() if count > 1):
            equal = [cells for _, cells in self._rows if cells["id"] == one]
            alike = all(cells == equal[0] for cells in equal)
            places = " and ".join(place for place, cells in self._rows if cells["id"] == one)
            yield Finding(
                Kind.TWICE, one,
                f"{places} have this id" + ("" if alike else " and differ; delete the wrong one"),
                can_mend=alike,
            )  # fmt: skip

    def _damaged(self, place: str, cells: Cells, before: Row | None) -> Iterator[Finding]:
        try:
            record_of(cells)
        except ValueError as error:
            wrong = {name: before.text(name) for name in (*NUMBERS, "version")} if before else {}
            right = {name: text for name, text in wrong.items() if text != cells.get(name)}
            yield Finding(
                Kind.DAMAGED, cells["id"], f"{place}: {error}{_put_right(right)}",
                new=right, can_mend=is_record({**cells, **right}),
            )  # fmt: skip

    def _risen(self, place: str, one: str, before: Row | None) -> Iterator[Finding]:
        is_gone = one in self._told and self._told[one] is Gone
        if is_gone and (before is None or before.is_gone):
            yield Finding(Kind.RISEN, one, f"{place}: the history has it taken out")

    def _turned_or_edited(self, place: str, cells: Cells, before: Row) -> Iterator[Finding]:
        now = filled(record_of(cells))
        turned = {
            name: before.text(name)
            for name in TEXTS
            if turned_into(before.text(name), now.get(name, ""))
        }
        if turned:
            yield Finding(
                Kind.TURNED, cells["id"], f"{place}: {_arrows(cells, turned)}", new=turned
            )
        names = {name for name in COLUMNS if now.get(name, "") != before.text(name)}
        old = {**{name: before.text(name) for name in names}, **(before.was or {})}
        old = {name: text for name, text in old.items() if name not in turned}
        told = self._told.get(cells["id"]) or {}
        old |= {
            name: text
            for name, text in told.items()
            if name not in turned and text != now.get(name, "")
        }
        if old:
            new = {name: now.get(name, "") for name in old}
            yield Finding(Kind.EDITED, cells["id"], f"{place}: {_arrows(old, new)}", old, new)

    def _lost_rows(self) -> Iterator[Finding]:
        there = {cells["id"] for _, cells in self._rows} | self._begun
        said = {one: cells for one, cells in self._told.items() if cells and is_whole(cells)}
        kept = {one: row.cells for one, row in self._known.items() if not row.is_gone}
        for one, cells in {**kept, **said, **kept}.items():
            is_out = one in self._told and self._told[one] is Gone
            if one not in there and not is_out:
                whole = {name: cells.get(name, "") for name in COLUMNS}
                yield Finding(
                    Kind.LOST, one,
                    f"{cells.get('shade', '')} lot {cells.get('lot') or 'none'} was filed and is "
                    "not in the stash",
                    new=whole, can_mend=is_record(whole),
                )  # fmt: skip

    # Queue and pictures

    def _queue(self) -> Iterator[Finding]:
        filed = {cells["id"] for _, cells in self._rows}
        for tag_id in self._store.queue.ids():
            if tag_id in filed and tag_id not in self._begun:
                yield Finding(Kind.FILED_WAITS, tag_id, "it is in the stash and in the queue")
            try:
                self._store.queue.get(tag_id)
            except NotWaiting:
                continue  # it was answered just now
            except BadStash as error:
                yield Finding(Kind.UNREADABLE, f"{tag_id}.json", str(error))

    def _pictures(self) -> Iterator[Finding]:
        pictures, queue = self._store.pictures, self._store.queue
        filed = [cells["id"] for _, cells in self._rows]
        waiting = queue.ids()
        for tag_id in dict.fromkeys((*filed, *waiting)):
            path = pictures.path(tag_id)
            if not pictures.has(tag_id):
                yield Finding(Kind.NO_PICTURE, tag_id, f"there is no {path.name}")
            elif not _ends_as_jpeg(path):
                yield Finding(Kind.CUT_PICTURE, tag_id, f"{path.name} ends too early")
        known = {*filed, *waiting, *self._known, *self._told, *self._begun}
        known |= {change.record for change in self._store.history.changes()}
        for path in sorted(pictures.folder.glob("*.jpg")):
            tag_id = path.stem
            if is_record_id(tag_id) and tag_id not in known and queue.left(tag_id) is None:
                yield Finding(Kind.STRAY_PICTURE, tag_id, f"no tag knows {path.name}")


def told(store: Store) -> dict[str, Cells | None]:
    """What the history alone says of each record: the cells that it knows, or that it took
    the record out.  Raises :class:`BadStash`."""
    said: dict[str, Cells | None] = {}
    for change in store.history.changes():
        if store.history.origin(change)[0].action not in OF_RECORDS:
            continue
        if is_whole(change.new):
            said[change.record] = dict(change.new)
        elif is_whole(change.old):
            said[change.record] = Gone
        elif change.new:
            said[change.record] = {**(said.get(change.record) or {}), **change.new}
    return said


def record_of(cells: Cells) -> Record:
    """The record that a row's cells make; ``ValueError`` where they make none."""
    return record_from_row([cells.get(name, "") for name in COLUMNS])


def is_record(cells: Cells) -> bool:
    """Whether a row's cells make a record."""
    try:
        return is_record_id(record_of(cells).id)
    except ValueError:
        return False


def has_torn_line(path: Path) -> bool:
    """Whether the last line of a file of lines was cut short."""
    try:
        with path.open("rb") as file:
            if file.seek(0, os.SEEK_END) == 0:
                return False
            file.seek(-1, os.SEEK_END)
            return file.read() != b"\n"
    except FileNotFoundError:
        return False
    except OSError as error:
        raise cannot_read(path, error) from error


def _suspects(place: str, cells: Cells) -> Iterator[Finding]:
    for name in TEXTS:
        into = turned_into("", cells.get(name, ""))
        if into:
            yield Finding(
                Kind.SUSPECT, cells["id"],
                f"{place}: {name} {cells[name]} looks like {into}; compare it with the tag picture",
            )  # fmt: skip


def _arrows(old: Cells, new: Cells) -> str:
    return "; ".join(
        f"{name}: {old.get(name) or 'none'} → {text or 'none'}" for name, text in new.items()
    )


def _put_right(cells: Cells) -> str:
    return f" ({', '.join(f'{name} was {text}' for name, text in cells.items())})" if cells else ""


def _ends_as_jpeg(path: Path) -> bool:
    try:
        with path.open("rb") as file:
            size = file.seek(0, os.SEEK_END)
            file.seek(max(0, size - len(_JPEG_END)))
            return file.read() == _JPEG_END
    except OSError:
        return False
