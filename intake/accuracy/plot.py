"""The reliability plot: confidence against how often values were right."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from matplotlib.figure import Figure

from intake.accuracy.score import TagScore
from intake.accuracy.summary import Calibration, calibration
from intake.errors import BadPlot, NoAccess

_WIDTH_IN = 2.6
_COLUMNS = 4


def draw_reliability(tags: Sequence[TagScore], path: Path) -> None:
    """Draw one small plot a field, and one of all fields, into the picture ``path``.
    Raises :class:`~intake.errors.NoAccess`."""
    names = tags[0].fields if tags else ()
    parts = {name: calibration(tag.fields[name] for tag in tags) for name in names}
    every = calibration(score for tag in tags for score in tag.fields.values())
    figure = reliability_figure({"all fields": every, **parts})
    try:
        figure.savefig(path, dpi=150)
    except OSError as error:
        raise NoAccess(f"{path} cannot be drawn ({error.strerror}); give another file") from error


def check_is_picture(path: Path) -> None:
    """Refuse a file that cannot be drawn into by its name.  Raises
    :class:`~intake.errors.BadPlot`."""
    if path.suffix.lower()[1:] not in Figure().canvas.get_supported_filetypes():
        raise BadPlot(f"{path} is no picture by its name; end it with .png or .svg")


def reliability_figure(parts: Mapping[str, Calibration]) -> Figure:
    """A grid of reliability plots; a dot's size tells how many values are in its bin."""
    rows = -(-len(parts) // _COLUMNS)
    figure = Figure(figsize=(_COLUMNS * _WIDTH_IN, rows * _WIDTH_IN), layout="constrained")
    for at, (name, part) in enumerate(parts.items(), 1):
        axes = figure.add_subplot(rows, _COLUMNS, at)
        axes.plot([0, 1], [0, 1], color="0.7", linewidth=1)
        sizes = [8 + 60 * one.count / part.count for one in part.bins]
        stated, right = (
            [one.confidence for one in part.bins],
            [one.frequency for one in part.bins],
        )
        axes.scatter(stated, right, s=sizes, color="tab:blue", zorder=2)
        axes.set(xlim=(-0.03, 1.03), ylim=(-0.03, 1.03), aspect="equal")
        axes.set_title(f"{name} (n = {part.count})\nECE {part.error:.3f}", fontsize=8)
        axes.tick_params(labelsize=7)
    figure.supxlabel("confidence", fontsize=9)
    figure.supylabel("share right", fontsize=9)
    return figure
