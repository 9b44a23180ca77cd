"""The sizes of paper that tags are printed on."""

from __future__ import annotations

from enum import StrEnum


class Paper(StrEnum):
    """ISO 216's A4, and North America's Letter."""

    A4 = "a4"
    LETTER = "letter"
