"""Care for tests: what printed lines say of it, read as one candidate."""

from __future__ import annotations

from intake.fields.care.words import find_care
from intake.records import Candidate
from tests.line_making import lines_from


def best(*texts: str) -> Candidate:
    """The one candidate of the care that ``texts`` print."""
    found = find_care(lines_from(*texts))
    assert len(found) == 1, f"care of {texts}: {found}"
    return found[0]
