"""What can happen to a record after it was filed, as the history keeps it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum


class Action(StrEnum):
    """What was done."""

    ANSWERED = "answered"
    """A waiting tag was answered and filed."""
    SETTLED = "settled"
    """A doubt about a waiting tag was answered; the tag goes on waiting.  ``old`` is what
    was read, ``new`` the answer."""
    DISCARDED = "discarded"
    """A waiting tag was taken out of the queue for good."""
    JOINED = "joined"
    """A waiting tag was taken out of the queue: it is the other side of a record's tag."""
    CORRECTED = "corrected"
    """Columns of a filed record were changed."""
    MERGED = "merged"
    """A record left the stash: it was the same ball as another, which stays."""
    WITHDRAWN = "withdrawn"
    """A record left the stash."""
    SPLIT = "split"
    """Balls of a record became a record of their own: one change takes them off the first,
    another of the same stroke puts the new one in."""
    WEIGHED = "weighed"
    """A part ball was put on a scale; the record itself stays as it is."""
    UNDONE = "undone"
    """An earlier change was taken back."""


@dataclass(frozen=True, slots=True)
class Change:
    """One line of the history.

    ``at`` is the moment in UTC (ISO 8601), ``record`` the id of the record or waiting
    tag.  ``old`` and ``new`` map columns to cell text and hold only what changed: every
    column in ``old`` where a record left the stash, every column in ``new`` where one
    came in, a weighing's figures in ``new``.  Changes made at one stroke share
    ``stroke``.  ``undoes`` is the stroke that an undo took back, ``into`` the record that
    a merged one or the other side of a tag went into; both are empty otherwise.  ``own``
    is what columns that the user added hold of a record that came in or left.
    """

    id: str
    at: str
    stroke: str
    action: Action
    record: str
    old: Mapping[str, str]
    new: Mapping[str, str]
    undoes: str = ""
    into: str = ""
    own: Mapping[str, str] = field(default_factory=dict)
