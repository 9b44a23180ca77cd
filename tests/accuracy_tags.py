"""True and read tags for the tests of accuracy: two balls from a ferryman's spare room.

Makers and shades are made up.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from intake.accuracy.score import ReadTag, TagScore, score_picture
from intake.accuracy.truth import TrueTag
from intake.filing.judge import Doubt
from intake.records import FibrePart, Field, Outcome, State, Value

SAYS: Mapping[str, Value] = {
    "weight_class": "light",
    "shade": "Rötlich Fern",
    "shade_code": "014",
    "lot": "0072",
    "fibre": (FibrePart("wool", "", 80.0), FibrePart("silk", "mulberry", 20.0)),
    "length_m": 120.0,
    "mass_g": 50.0,
    "care": ("hand wash", "dry flat"),
    "maker": "Cable Ferry Spinnery",
    "range": "Far Bank",
}


def true_tag(number: int = 1, kind: str = "scan", **values: Value) -> TrueTag:
    """A tag that says :data:`SAYS` with ``values`` in their place."""
    path = Path("spare room.jpg")
    return TrueTag(path.name, path, number, kind, {**SAYS, **values})


def read_tag(
    number: int = 1,
    outcome: Outcome = Outcome.FILED,
    confidence: float = 0.99,
    doubts: tuple[Doubt, ...] = (),
    **values: Value,
) -> ReadTag:
    """A tag that was read as :data:`SAYS` with ``values`` in their place."""
    fields = {
        name: Field(name, value, confidence, State.SURE)
        for name, value in {**SAYS, **values}.items()
        if value is not None
    }
    return ReadTag(number, fields, outcome=outcome, doubts=doubts)


def scored(truth: TrueTag, read: ReadTag | None) -> TagScore:
    """The score of one tag that is alone on its picture."""
    return score_picture([truth], [read] if read else []).tags[0]
