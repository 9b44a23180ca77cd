"""balltag: reads pictures of yarn-ball tags into a stash and asks where it is not sure.

:func:`intake.run.intake` is the main job; the ``balltag`` command is thin over it::

    from intake import intake

    for result in intake(["shoebox/"], "stash.csv"):
        print(result.picture, result.tag, result.outcome, result.reason)

:func:`intake.exports.frame.stash_frame` gives the stash as a pandas data frame.
"""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from intake.errors import BalltagError, ExitCode
    from intake.exports.frame import stash_frame
    from intake.records import Field, Outcome, State, TagReading
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
    "stash_frame",
]


_MODULES = {
    "BalltagError": "intake.errors",
    "ExitCode": "intake.errors",
    "Field": "intake.records",
    "Outcome": "intake.records",
    "State": "intake.records",
    "TagReading": "intake.records",
    "TagResult": "intake.run",
    "intake": "intake.run",
    "stash_frame": "intake.exports.frame",
}


def __getattr__(name: str) -> object:
    """Each is loaded when it is first asked for: the run brings both readers with it, and the
    command must be ready for Ctrl-C before it loads anything."""
    if name not in _MODULES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    return getattr(import_module(_MODULES[name]), name)
