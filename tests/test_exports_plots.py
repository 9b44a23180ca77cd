"""Plots of the stash: what they count, and that they can be drawn and read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from xml.etree import ElementTree

import pandas as pd
import PIL.Image
import pytest
from exports_stash import balltag, cabinet_with
from filing_tags import record
from matplotlib.figure import Figure

from intake.errors import BadPlot
from intake.exports.plot_kinds import Plot
from intake.exports.plots import (
    MOST_BARS,
    MOST_SHADES,
    draw,
    lots_by_day,
    lots_figure,
    metres_by_class,
    metres_figure,
)
from intake.filing.record import Record
from intake.sums.ball import Ball
from intake.sums.lots import shades


def ball(number: int, **values: object) -> Ball:
    return Ball(record(f"{number}.jpg", **values))  # type: ignore[arg-type]


def labels(figure: Figure) -> list[str]:
    """Every text that a figure shows."""
    figure.draw_without_rendering()
    return [text.get_text() for text in figure.findobj(lambda one: hasattr(one, "get_text"))]


def test_metres_are_summed_by_class_and_shade() -> None:
    some = [
        ball(1, weight_class="bulky", shade="Kelp", length_m=50.0),
        ball(2, weight_class="lace", shade="Kelp", length_m=800.0),
        ball(3, weight_class="lace", shade="Moss", length_m=900.0),
        ball(4, weight_class="lace", shade="Kelp", length_m=200.0),
        ball(5, weight_class="", shade="Kelp", length_m=10.0),
        ball(6, weight_class="lace", shade="Fern", length_m=None),
    ]
    table = pd.DataFrame(
        {"class": one.record.weight_class, "shade": one.record.shade, "m": one.left_m}
        for one in some
    )
    expected = table.groupby(["class", "shade"])["m"].sum()
    found = metres_by_class(some)
    assert list(found) == ["lace", "bulky", "weight class not known"]
    assert [name.split()[0] for name in found["lace"]] == ["Kelp", "Moss"]
    assert list(found["lace"].values()) == [expected["lace", "Kelp"], expected["lace", "Moss"]]


def test_every_bar_has_its_name_and_number_and_the_axis_its_unit() -> None:
    shown = labels(metres_figure([ball(1, weight_class="lace", length_m=812.0)]))
    assert "Kelp 041, Quillstow Spinners Sluicegate" in shown
    assert "812 m" in shown
    assert "metres left (m)" in shown
    assert "lace: 812 m" in shown


def test_shades_beyond_the_most_share_a_bar_and_no_metre_is_lost() -> None:
    some = [
        ball(at, weight_class="lace", shade=f"Shade {at}", length_m=100.0 + at) for at in range(30)
    ]
    shown = labels(metres_figure(some))
    assert f"{30 - MOST_BARS + 1} other shades" in shown
    assert f"lace: {sum(100 + at for at in range(30))} m" in shown


def days(shade_balls: Sequence[Ball]) -> dict[date, int]:
    (shade,) = shades(shade_balls)
    return lots_by_day(shade)


def test_lots_are_counted_from_the_day_their_first_ball_came() -> None:
    some = [
        ball(1, lot="0012", filed_at="2025-03-09T17:05:42Z"),
        ball(2, lot="0012", filed_at="2025-06-01T00:00:00Z"),
        ball(3, lot="0013", filed_at="2025-03-09T23:59:59Z"),
        ball(4, lot="4477", filed_at="2025-05-01T08:00:00Z"),
        ball(5, lot="", filed_at="2025-07-01T08:00:00Z"),
    ]
    assert days(some) == {date(2025, 3, 9): 2, date(2025, 5, 1): 3}


def test_the_plot_of_lots_tells_how_many_and_what_it_leaves_out() -> None:
    some = [ball(at, shade=f"Shade {at}", lot="0012") for at in range(MOST_SHADES + 3)]
    shown = labels(lots_figure(some))
    assert any("3 shades with fewer are left out" in text for text in shown)
    assert "day of filing (UTC)" in shown
    assert shown.count("1") == MOST_SHADES


@pytest.mark.parametrize("plot", Plot)
def test_a_plot_is_drawn_as_png_and_svg(plot: Plot, tmp_path: Path) -> None:
    some = [ball(at, shade=f"Sørøy {at}") for at in range(3)]
    draw(some, plot, tmp_path / "plot.png")
    draw(some, plot, tmp_path / "plot.svg")
    with PIL.Image.open(tmp_path / "plot.png") as picture:
        assert picture.format == "PNG"
        assert picture.width >= 1000
    assert ElementTree.parse(tmp_path / "plot.svg").getroot().tag.endswith("svg")


@pytest.mark.parametrize(
    ("records", "name"), [([], "plot.png"), ([record(lot="")], "plot.png"), ([record()], "a.gif")]
)
def test_what_cannot_be_drawn_is_told(records: list[Record], name: str, tmp_path: Path) -> None:
    with pytest.raises(BadPlot):
        draw([Ball(one) for one in records], Plot.LOTS, tmp_path / name)
    assert not (tmp_path / name).exists()


def test_a_plot_of_metres_without_metres_is_told(tmp_path: Path) -> None:
    with pytest.raises(BadPlot, match="no ball has metres that are known; there is nothing to dr"):
        draw([Ball(replace(record(), length_m=None))], Plot.METRES, tmp_path / "plot.png")
    assert not (tmp_path / "plot.png").exists()


def test_the_command_draws(tmp_path: Path) -> None:
    cabinet_with(tmp_path, record())
    run = balltag(tmp_path, "plot", "lots.svg", "--of", "lots")
    assert run.returncode == 0, run.stderr
    assert (tmp_path / "lots.svg").stat().st_size > 1000
