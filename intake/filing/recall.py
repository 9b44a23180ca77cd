"""What an index knows of a stash, with what balltag wrote since: all that is filed, without
reading all rows."""

from __future__ import annotations

from dataclasses import dataclass
from operator import attrgetter

from intake.errors import BadStash
from intake.filing.index import Index, IndexFile, Named
from intake.filing.record import COLUMNS, Record, record_from_row
from intake.filing.stash import Mark, Stash
from intake.filing.written import Written


@dataclass(frozen=True, slots=True)
class Recalled:
    """The records of ``index``, but for those that were ``put`` there or are ``gone`` since."""

    index: Index
    put: tuple[Record, ...] = ()
    gone: tuple[str, ...] = ()

    def named(self) -> dict[Named, int]:
        """The makers, ranges and shades of the records that are as the index has them, in the
        order in which they were filed first, and how many such records there are."""
        named = self.index.named()
        for record_id in (*(record.id for record in self.put), *self.gone):
            row = self.index.row(record_id)
            if row is not None:
                one = Named(*attrgetter(*Named._fields)(self.index.record(row)))
                named[one] -= 1
        return {one: times for one, times in named.items() if times}


def recall(stash: Stash, mark: Mark, written: Written, file: IndexFile) -> Recalled | None:
    """What was filed up to ``mark``; ``None`` where there is no index, or another program
    changed the stash since and nothing but the stash itself tells."""
    index = file.load()
    if index is None:
        return None
    try:
        since = written.rows_after(index.written_end)
        if since is None:
            return None
        records = [
            record_from_row([row.text(name) for name in COLUMNS])
            for row in since.values()
            if not row.is_gone
        ]
    except (BadStash, ValueError):
        return None
    # Seen after all was read, so that what another process was just writing is not believed.
    if not (written.vouches_for(stash.path) and stash.is_at(mark)):
        return None
    gone = (record_id for record_id, row in since.items() if row.is_gone)
    return Recalled(index, tuple(records), tuple(gone))
