"""Words of care in all their forms: a stem with the endings that its language gives it."""

from __future__ import annotations

GERMAN = "- e er es em en"
FRENCH = "- e s es"
ITALIAN = "o a i e"
SPANISH = "o a os as"
DUTCH = "- e"
NORSE = "- t e a"
"""Endings of an adjective in the language, "-" for none; Norse is Danish, Norwegian and Swedish."""


def formed(stems: str, endings: str) -> frozenset[str]:
    """Every one of ``stems`` with every one of ``endings``, both parted by spaces; "-" is none."""
    return frozenset(
        stem + ending.strip("-") for stem in stems.split() for ending in endings.split()
    )


def worded(words: str) -> frozenset[str]:
    """Words parted by spaces."""
    return frozenset(words.split())
