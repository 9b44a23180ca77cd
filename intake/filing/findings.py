"""What a check of the stash may find, in words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum


class Kind(StrEnum):
    """A kind of disagreement, in words for a table."""

    UNREADABLE = "cannot be read"
    CONFLICT = "conflict copy"
    UNFINISHED = "begun and not finished"
    TORN = "torn line"
    LEFT_OVER = "left behind"
    TWICE = "stands twice"
    DAMAGED = "no record"
    TURNED = "turned by a spreadsheet"
    SUSPECT = "looks turned"
    LOST = "row taken out"
    RISEN = "row put back"
    FOUND = "not written by balltag"
    EDITED = "edited elsewhere"
    NO_PICTURE = "picture missing"
    CUT_PICTURE = "picture cut short"
    STRAY_PICTURE = "picture of no tag"
    FILED_WAITS = "filed and waiting"


MENDS: Mapping[Kind, str] = {
    Kind.UNFINISHED: "carry it out",
    Kind.TORN: "cut the torn line off; it was never reported as written",
    Kind.LEFT_OVER: "delete it; what it was to become is as it was before",
    Kind.TWICE: "keep one of the two equal rows",
    Kind.DAMAGED: "put back what balltag wrote there",
    Kind.TURNED: "put back what balltag wrote there",
    Kind.LOST: "put the row back (balltag withdraw takes a record out for good)",
    Kind.RISEN: "take the row out again (balltag undo puts a record back)",
    Kind.FOUND: "take the rows as they stand for what holds",
    Kind.EDITED: "keep the edit and write it into the history",
    Kind.STRAY_PICTURE: "move it into the folder strays beside it",
    Kind.FILED_WAITS: "take the tag out of the queue",
}
"""What mending does to each kind that can be mended."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that does not agree: ``about`` a record or file, ``what`` in words.

    ``old`` and ``new`` are cells of a row: for :attr:`Kind.EDITED` before and after the edit,
    for a row that is to be put right in ``new`` what it should hold.  ``can_mend`` is false
    where the user has to look.
    """

    kind: Kind
    about: str
    what: str
    old: Mapping[str, str] = field(default_factory=dict)
    new: Mapping[str, str] = field(default_factory=dict)
    can_mend: bool = True

    @property
    def mend(self) -> str:
        """What mending would do; empty where it cannot."""
        return MENDS.get(self.kind, "") if self.can_mend else ""
