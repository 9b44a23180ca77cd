"""Puts right what a check found, as far as that can be done without asking what is meant."""

from __future__ import annotations

import os
from collections.abc import Collection, Iterable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path

from intake.errors import BadStash
from intake.filing.changes import Action, Change
from intake.filing.check import STRAYS, Check, record_of
from intake.filing.findings import Finding, Kind
from intake.filing.kinds import open_stash
from intake.filing.layouts import Cells
from intake.filing.queue import Left
from intake.filing.record import Record
from intake.filing.safe_write import may_write, move_file
from intake.filing.store import Store


def mend(store: Store, findings: Sequence[Finding]) -> list[Finding]:
    """Mend those of ``findings`` that can be mended and are still so.  Returns what a check
    finds after that.  Raises :class:`BadStash`, :class:`NoAccess`, :class:`StashBusy`."""
    with store.stash.locked():
        check = Check(store)
        still = check.findings()
        mended = [one for one in still if one.mend and one in findings]
        _mend_files(store, check, mended)
        _mend_rows(store, mended)
        store.forget()
        if _of(mended, Kind.UNFINISHED):
            store.finish()
        _tell_edits(store, _of(mended, Kind.EDITED))
        if _of(mended, Kind.FOUND):
            _own_found_rows(store)
        store.queue.place({one.about: Left.ANSWERED for one in _of(mended, Kind.FILED_WAITS)})
        for one in _of(mended, Kind.STRAY_PICTURE):
            picture = store.pictures.path(one.about)
            move_file(picture, picture.parent / STRAYS / picture.name)
        return Check(store).findings()


def _of(findings: Iterable[Finding], *kinds: Kind) -> list[Finding]:
    return [one for one in findings if one.kind in kinds]


def _mend_files(store: Store, check: Check, mended: Sequence[Finding]) -> None:
    for one in _of(mended, Kind.LEFT_OVER):
        left = store.stash.path.parent / one.about
        with may_write(left):
            left.unlink(missing_ok=True)
    torn = {one.about for one in _of(mended, Kind.TORN)}
    for journal in check.journals():
        if journal.name in torn:
            _cut_torn_line(journal)
    if store.stash.path.name in torn:
        store.stash.append([])


def _cut_torn_line(journal: Path) -> None:
    with may_write(journal):
        os.truncate(journal, journal.read_bytes().rfind(b"\n") + 1)


def _mend_rows(store: Store, mended: Sequence[Finding]) -> None:
    """Write the rows anew where any is not as it should be, then tell what else changed."""
    right = _of(mended, Kind.DAMAGED, Kind.TURNED)
    risen = [one.about for one in _of(mended, Kind.RISEN)]
    lost = [record_of(dict(one.new)) for one in _of(mended, Kind.LOST)]
    if right or risen or lost or _of(mended, Kind.TWICE):
        rows = list(_rows_put_right(store, mended))
        ids = {one.about for one in right}
        changed = [record for record in rows if record.id in ids]
        with store.written.noting([*changed, *lost], risen):
            own = _own_cells_kept(store, {one.id for one in lost})
            store.stash.rewrite([*rows, *lost], own)


def _own_cells_kept(store: Store, ids: Collection[str]) -> dict[str, Cells]:
    """What the user's own columns hold of lost rows in the newest backup that has any of it."""
    found: dict[str, Cells] = {}
    for backup in reversed(store.stash.backups.all()) if ids else ():
        with suppress(BadStash):
            found = {**open_stash(backup).own_cells(ids), **found}
    return found


def _rows_put_right(store: Store, mended: Sequence[Finding]) -> Iterator[Record]:
    right: dict[str, dict[str, str]] = {}
    for one in _of(mended, Kind.DAMAGED, Kind.TURNED):
        right.setdefault(one.about, {}).update(one.new)
    risen = {one.about for one in _of(mended, Kind.RISEN)}
    twice = {one.about for one in _of(mended, Kind.TWICE)}
    seen: set[str] = set()
    for place, cells in store.stash.rows():
        record_id = cells["id"]
        if record_id in risen or (record_id in twice and record_id in seen):
            continue
        seen.add(record_id)
        try:
            yield record_of({**cells, **right.get(record_id, {})})
        except ValueError as error:
            raise BadStash(
                f"{place} of {store.stash.path} is no record: {error}; correct it in the file "
                "first, or put a backup back with balltag check --restore"
            ) from error


def _tell_edits(store: Store, edits: Sequence[Finding]) -> None:
    """Write into the history what another program changed, as corrections, so that it can be
    seen and taken back."""
    if not edits:
        return
    made = [
        Change("", "", "", Action.CORRECTED, one.about, dict(one.old), dict(one.new))
        for one in edits
    ]
    ids = {one.about for one in edits}
    store.history.intend(made)
    with store.written.noting([one for one in store.stash.records() if one.id in ids]):
        store.history.end()


def _own_found_rows(store: Store) -> None:
    known = store.written.rows()
    found = [
        record
        for record in store.stash.records()
        if record.id not in known or not known[record.id].is_own
    ]
    with store.written.noting(found):
        pass
