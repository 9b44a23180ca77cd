"""What can be plotted of a stash."""

from __future__ import annotations

from enum import StrEnum


class Plot(StrEnum):
    """Metres by weight class and shade; lots per shade over time."""

    METRES = "metres"
    LOTS = "lots"
