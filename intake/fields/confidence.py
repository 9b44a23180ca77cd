"""Confidence: evidence weighed by a small fitted model, one a field.

The model is a logistic regression.  Its figures are in ``confidence.json`` beside this
file; ``fixtures/fit_confidence.py`` fits them on drawn tags with known truth.

A heading is right where it is the maker's (or the range's) at all, and its letters are
right too: the model tells of the letters, and the cue :data:`ROLE` of the rest.
"""

from __future__ import annotations

import json
import math
from functools import cache
from importlib import resources

from intake.fields.evidence import Evidence

SURE = 0.97
"""From this confidence on a field is sure, if no rule says to ask."""

SURE_HEADING = 0.9
"""The same for maker and range: that one was taken for the other is seen at a glance and
harms no garment, while asking about every new maker would make one long queue."""


_HIGH_ENOUGH = 1.3

ROLE = "role"
"""The cue that is itself a probability: that a name is what its field takes it for."""


@cache
def _models() -> dict[str, dict[str, float]]:
    text = resources.files("intake.fields").joinpath("confidence.json").read_text("utf-8")
    models: dict[str, dict[str, float]] = json.loads(text)["fields"]
    return models


def confidence(field: str, found: Evidence) -> float:
    """Probability from 0 to 1 that a value of ``field`` with this evidence is right."""
    weights = _models()[field]
    total = weights["intercept"]
    for name, weight in weights.items():
        if name != "intercept":
            total += weight * transformed(name, found.get(name, 0.0))
    return found.get(ROLE, 1.0) / (1 + math.exp(-max(-30.0, min(30.0, total))))


def transformed(name: str, value: float) -> float:
    """The form in which a piece of evidence enters the model: letter scores crowd at 1,
    so they are spread out on a logarithmic scale (0.9, 0.99, 0.999 are 1, 2, 3).  The lowest
    score of a value tells nothing more above 0.95."""
    if name not in ("weakest", "steady"):
        return value
    spread = -math.log10(1.0001 - min(1.0, max(0.0, value)))
    return min(spread, _HIGH_ENOUGH) if name == "weakest" else spread
