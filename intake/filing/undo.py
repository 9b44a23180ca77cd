"""Whether a change can be taken back."""

from __future__ import annotations

from intake.errors import CannotUndo
from intake.filing.changes import Action, Change
from intake.filing.store import Store
from intake.filing.strokes import LEFT_BY, OF_RECORDS, holds


def check_can_undo(change: Change, store: Store) -> None:
    """Refuse to take ``change``, which stands, back where that would undo more than it
    did: where its record or tag has changed since, here or by another program.  Raises
    :class:`CannotUndo`."""
    later = store.history.later(change)
    if later:
        raise CannotUndo(
            f"{change.record} was {later[-1].action} after stroke {change.stroke}; "
            f"take back stroke {later[-1].stroke} first"
        )
    first, makes = store.history.origin(change)
    if first.action is Action.SETTLED and change.record not in store.queue:
        raise CannotUndo(
            f"the tag {change.record} does not wait any more; take its picture in again"
        )
    if first.action not in OF_RECORDS:
        return
    if not holds(change, store.records().get(change.record)):
        raise CannotUndo(
            f"record {change.record} is not as stroke {change.stroke} left it; "
            "correct it as it stands now"
        )
    if first.action in LEFT_BY:
        _check_queue(change, store, makes)


def _check_queue(change: Change, store: Store, left: bool) -> None:
    tag_id = change.record
    if (store.queue.left(tag_id) is None) if left else (tag_id not in store.queue):
        raise CannotUndo(
            f"the queue no longer has the tag {tag_id} as stroke {change.stroke} left it; "
            "take its picture in again"
        )
