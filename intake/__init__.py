"""balltag: reads pictures of yarn-ball tags into a stash and asks where it is not sure.

:func:`intake.run.intake` is the main job; the ``balltag`` command is thin over it::

    from intake import intake

    for result in intake(["shoebox/"], "stash.csv"):
        print(result.picture, result.tag, result.outcome, result.reason)
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from intake.errors import BalltagError, ExitCode
from intake.records import Field, Outcome, State, TagReading

if TYPE_CHECKING:
    from intake.run import TagResult, intake

__all__ = [
    "BalltagError",
    "ExitCode",
    "Field",
    "Outcome",
    "State",
    "TagReading",
    "TagResult",
    "intake",
]


def __getattr__(name: str) -> object:
    """The run is loaded when it is first asked for: it brings both readers with it."""
    if name in ("TagResult", "intake"):
        return getattr(import_module("intake.run"), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
