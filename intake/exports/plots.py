"""Plots of the stash: metres by weight class and shade, lots per shade over time.

Every bar and mark stands beside its name and its number, so that nothing hangs on colour.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from matplotlib.axes import Axes
from matplotlib.dates import AutoDateLocator, DateFormatter, date2num
from matplotlib.figure import Figure

from intake.errors import BadPlot
from intake.exports.book import moment
from intake.exports.plot_kinds import Plot
from intake.fields.amounts.weight import CATEGORIES
from intake.filing.safe_write import replace_file
from intake.sums.ball import Ball
from intake.sums.lots import Shade, shades
from intake.sums.terms import weight_category
from intake.wording import number_text

MOST_BARS = 12
"""Shades of one weight class that have a bar of their own; the others share one."""

MOST_SHADES = 25
"""Shades whose lots are drawn over time: those with the most lots."""

_WIDTH_IN = 8.0
_BAR_IN = 0.26
_AXES_IN = 0.75
_LONGEST_NAME = 44
_DPI = 150
_FORMATS = {".png": "png", ".svg": "svg"}
_NOT_KNOWN = "weight class not known"
_LEAST_RIM_DAYS = 10.0
"""An axis of fewer days would be marked with hours."""

_INK = "#24506e"


def draw(balls: Sequence[Ball], plot: Plot, path: Path) -> None:
    """Draw ``plot`` of ``balls`` into ``path`` (.png or .svg).  Raises :class:`BadPlot` and
    :class:`~intake.errors.NoAccess`."""
    kind = _FORMATS.get(path.suffix.lower())
    if kind is None:
        raise BadPlot(f"{path} is no picture by its name; end it with .png or .svg")
    figure = metres_figure(balls) if plot is Plot.METRES else lots_figure(balls)
    replace_file(path, lambda file: figure.savefig(file, format=kind, dpi=_DPI))


# Metres


def metres_by_class(balls: Sequence[Ball]) -> dict[str, dict[str, float]]:
    """Metres left by weight class (finest first) and shade (most metres first); shades of
    which no metres are known are left out."""
    by_class: defaultdict[str, list[Ball]] = defaultdict(list)
    for ball in balls:
        text = ball.text("weight_class")
        by_class[weight_category(text) or text or _NOT_KNOWN].append(ball)
    found = {}
    for weight_class in sorted(by_class, key=_fineness):
        metres = {
            _name(shade): shade.totals.left_m
            for shade in shades(by_class[weight_class])
            if shade.totals.left_m > 0
        }
        if metres:
            found[weight_class] = dict(sorted(metres.items(), key=lambda one: -one[1]))
    return found


def metres_figure(balls: Sequence[Ball]) -> Figure:
    """A bar a shade, the shades of one weight class together.  Raises :class:`BadPlot` where
    no metres are known."""
    found = {name: _with_rest(bars) for name, bars in metres_by_class(balls).items()}
    if not found:
        raise BadPlot("no ball has metres that are known; there is nothing to draw")
    counts = [len(bars) for bars in found.values()]
    figure = Figure(
        figsize=(_WIDTH_IN, sum(counts) * _BAR_IN + len(counts) * _AXES_IN), layout="constrained"
    )
    rows = figure.subplots(
        len(found), sharex=True, squeeze=False, height_ratios=[count + 0.6 for count in counts]
    )
    for (weight_class, bars), (axes,) in zip(found.items(), rows, strict=True):
        _draw_bars(axes, weight_class, bars)
    figure.supxlabel("metres left (m)", fontsize=9)
    return figure


def _draw_bars(axes: Axes, weight_class: str, bars: dict[str, float]) -> None:
    places = range(len(bars))
    drawn = axes.barh(places, list(bars.values()), height=0.7, color=_INK)
    axes.set_yticks(places, list(map(_cut, bars)))
    labels = [f"{number_text(round(length_m))} m" for length_m in bars.values()]
    axes.bar_label(drawn, labels, padding=3, fontsize=7)
    axes.set_title(
        f"{weight_class}: {number_text(round(sum(bars.values())))} m", fontsize=9, loc="left"
    )
    axes.invert_yaxis()
    axes.margins(x=0.12, y=0.02)
    axes.tick_params(labelsize=7)
    axes.spines[["top", "right"]].set_visible(False)


def _with_rest(metres: dict[str, float]) -> dict[str, float]:
    """``metres`` with all but the greatest put together."""
    if len(metres) <= MOST_BARS:
        return metres
    kept = dict(list(metres.items())[: MOST_BARS - 1])
    rest = len(metres) - len(kept)
    return kept | {f"{rest} other shades": sum(metres.values()) - sum(kept.values())}


def _fineness(weight_class: str) -> tuple[int, str]:
    known = weight_class in CATEGORIES
    return (CATEGORIES.index(weight_class) if known else len(CATEGORIES), weight_class)


# Lots


def lots_by_day(shade: Shade) -> dict[date, int]:
    """How many lots of a shade the stash held at the end of each day (UTC) on which one came
    in.  Balls whose lot is not known count for none."""
    first_days = sorted(
        min(days)
        for lot in shade.lots
        if lot.lot and (days := [day for ball in lot.balls if (day := _day(ball))])
    )
    return {day: count for count, day in enumerate(first_days, start=1)}


def lots_figure(balls: Sequence[Ball]) -> Figure:
    """A line a shade over the days on which its lots came in, each day marked with the number
    of lots by then.  Raises :class:`BadPlot` where no lot is known."""
    by_shade = {_name(shade): days for shade in shades(balls) if (days := lots_by_day(shade))}
    if not by_shade:
        raise BadPlot("no ball has a lot that is known; there is nothing to draw")
    names = sorted(by_shade, key=lambda name: (-max(by_shade[name].values()), name))
    drawn = names[:MOST_SHADES]
    last = max(day for name in drawn for day in by_shade[name])
    figure = Figure(figsize=(_WIDTH_IN, len(drawn) * _BAR_IN + 1.2), layout="constrained")
    axes = figure.subplots()
    for place, name in enumerate(drawn):
        _draw_days(axes, place, by_shade[name], last)
    axes.set_yticks(range(len(drawn)), list(map(_cut, drawn)), fontsize=7)
    axes.set_ylim(len(drawn) - 0.4, -0.6)
    first = min(day for name in drawn for day in by_shade[name])
    rim = max(_LEAST_RIM_DAYS, 0.04 * (last - first).days)
    axes.set_xlim(_place(first) - rim, _place(last) + rim)
    _mark_days(axes)
    axes.tick_params(axis="x", labelsize=7)
    axes.set_xlabel("day of filing (UTC)", fontsize=9)
    rest = len(names) - len(drawn)
    more = f"; {rest} shades with fewer are left out" if rest else ""
    axes.set_title(
        f"Lots of each shade; the number is how many by then{more}", fontsize=9, loc="left"
    )
    axes.spines[["top", "right"]].set_visible(False)
    return figure


def _draw_days(axes: Axes, place: int, days: dict[date, int], last: date) -> None:
    places = [_place(day) for day in days]
    axes.hlines(place, places[0], _place(last), colors="0.8", linewidth=1, zorder=1)
    mark = {"boxstyle": "circle,pad=0.25", "facecolor": "white", "edgecolor": _INK}
    for x, count in zip(places, days.values(), strict=True):
        # A later mark covers an earlier one that is too near, which it counts.
        axes.text(x, place, str(count), ha="center", va="center", fontsize=7, zorder=2 + count,
                  bbox=mark)  # fmt: skip


def _mark_days(axes: Axes) -> None:
    locator = AutoDateLocator(maxticks=7)  # type: ignore[no-untyped-call]
    formatter = DateFormatter("%Y-%m-%d")  # type: ignore[no-untyped-call]
    axes.xaxis.set_major_locator(locator)
    axes.xaxis.set_major_formatter(formatter)


def _place(day: date) -> float:
    return float(date2num(day))  # type: ignore[no-untyped-call]


def _day(ball: Ball) -> date | None:
    filed = moment(ball.record.filed_at)
    return filed.date() if filed else None


def _name(shade: Shade) -> str:
    return ", ".join(filter(None, (shade.name.text, shade.name.yarn))) or "shade not known"


def _cut(name: str) -> str:
    """A name as long as an axis has room for."""
    return name if len(name) <= _LONGEST_NAME else f"{name[: _LONGEST_NAME - 1]}…"
