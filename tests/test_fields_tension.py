"""Tension as printed and as stitches and rows over 10 cm."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from intake.fields.amounts.tension import (
    Counts,
    counts_in,
    find_tension,
    tension_areas,
    with_counts,
)
from intake.fields.amounts.tools import find_tools
from intake.records import Candidate, Field, Line, State
from tests.line_making import lines_from

DATA = Path(__file__).parent / "data"


@pytest.mark.parametrize(
    "text",
    [
        "22 sts x 30 rows = 10 x 10 cm",
        "10 x 10 cm = 22 M x 30 R",
        "22 M / 30 R = 10 cm",
        "22 m. x 30 rgs = 10 x 10 cm",
        "20 p. x 28 v. = 10 x 10 cm",
        "22 steken x 30 naalden = 10 x 10 cm",
        "22 m x 30 v = 10 x 10 cm",
        "22 stitches and 30 rows to 4 in",
        "22 Maschen / 30 Reihen = 10 cm",
        "22 sts = 10 cm",
        "10 cm: 22 stitches",
    ],
)
def test_reads_tension_as_printed(text: str) -> None:
    (found,) = find_tension(lines_from(f"Maschenprobe {text}"))
    assert found.value == text
    assert [each.name for each in find_tools(lines_from(text))] == ["tension"]


@pytest.mark.parametrize("text", ["10 x 10 cm", "50 g = 125 m", "125 m / 50 g", "Lot 22 R 30"])
def test_other_figures_are_no_tension(text: str) -> None:
    assert find_tension(lines_from(text)) == []


def test_tension_does_not_reach_into_the_next_line() -> None:
    assert find_tension(lines_from("ca 85 m", "10 x 10 cm")) == []


@given(st.integers(5, 45), st.integers(5, 60), st.sampled_from(["x", "/", ","]))
def test_stitches_and_rows_are_shut_off_from_lengths(stitches: int, rows: int, mark: str) -> None:
    text = f"{stitches} m {mark} {rows} r = 10 x 10 cm"
    assert tension_areas(text) == [(0, len(text))]


@pytest.mark.parametrize(
    "text",
    [
        "Tension 22 sts x 30 rows = 10 cm",
        "Maschenprobe 22 M x 30 R = 10 x 10 cm",
        "Échantillon 22 m x 30 rgs",
        "Campione 22 maglie e 30 ferri = 10 cm",
        "Muestra 22 puntos y 30 vueltas = 10 cm",
        "Stekenverhouding 22 st / 30 naalden = 10 cm",
        "Masktäthet 22 m × 30 v = 10 × 10 cm",
        "Strikkefasthet 22 m x 30 p på 10 cm",
        "Strikkefasthed 22 masker x 30 pinde = 10 cm",
    ],
)
def test_counts_are_read_in_every_language(text: str) -> None:
    assert counts_in(text) == Counts((22,), (30,))


@pytest.mark.parametrize(
    ("text", "counts"),
    [
        ('22 sts & 30 rows = 4"', Counts((22,), (30,))),
        ("22 sts and 30 rows per 4 x 4 in", Counts((22,), (30,))),
        ("22 sts x 30 rows = 4 in (10 cm)", Counts((22,), (30,))),
        ("11 sts x 15 rows = 5 cm", Counts((22,), (30,))),
        ("11 sts x 15 rows = 2 in", Counts((22,), (30,))),
        ("5½ sts per inch", Counts((22,))),
        ("22,5 M / 30 R = 10 cm", Counts((22.5,), (30,))),
        ("10 cm: 22 stitches", Counts((22,))),
    ],
)
def test_other_areas_are_brought_to_10_cm(text: str, counts: Counts) -> None:
    # 4 inches are taken for 10 cm, as makers do: common practice, no source.
    assert counts_in(text) == counts


@pytest.mark.parametrize(
    "text",
    [
        "22–21 sts = 10 cm",
        "22 M x 80 R = 10 cm",  # knitted squares are not so narrow
        "22 sts x 30 rows over 20 cm",
        "0 sts = 10 cm",
    ],
)
def test_what_cannot_be_a_swatch_is_left_out(text: str) -> None:
    assert counts_in(text) == Counts()


def test_the_councils_stitch_counts_are_read() -> None:
    # Craft Yarn Council, Standard Yarn Weight System: stitches to 4 inches of each category.
    with (DATA / "weight_system.csv").open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    printed = [row[f"knit_sts_per_4in_{end}"] for row in rows for end in ("low", "high")]
    for stitches in filter(None, printed):
        assert counts_in(f"{stitches} sts = 4 in") == Counts((float(stitches),))


def test_a_tension_that_is_given_in_two_languages_is_one() -> None:
    found = find_tension(lines_from("22 sts = 4 in", "22 M x 30 R = 10 cm"))
    assert [each.value for each in found] == ["22 M x 30 R = 10 cm"] * 2
    assert {span.line for each in found for span in each.spans} == {0, 1}


def tension_of(lines: list[Line], state: State = State.SURE) -> Field:
    """The field ``tension`` as the first candidate gives it."""
    best: Candidate = find_tension(lines)[0]
    return Field("tension", best.value, 0.99, state, spans=best.spans)


def counts_of(fields: dict[str, Field]) -> tuple[object, object]:
    return fields["stitches_per_10cm"].value, fields["rows_per_10cm"].value


def test_counts_of_a_sure_tension_become_fields() -> None:
    lines = lines_from("22 M x 30 R = 10 cm")
    found = with_counts({"tension": tension_of(lines)}, lines)
    assert counts_of(found) == ("22", "30")
    assert found["rows_per_10cm"].state is State.SURE


def test_a_span_of_counts_is_kept_as_one() -> None:
    lines = lines_from("21-22,5 M x 28-30 R = 10 cm")
    assert counts_of(with_counts({"tension": tension_of(lines)}, lines)) == ("21–22.5", "28–30")


def test_a_digit_on_which_the_readers_differ_leaves_both_blank_and_asks_nothing() -> None:
    lines = lines_from("22 M x 30 R = 10 cm", second={0: "22 M x 36 R = 10 cm"})
    found = with_counts({"tension": tension_of(lines)}, lines)
    assert counts_of(found) == (None, None)
    assert found["rows_per_10cm"].state is State.MISSING
    assert not found["rows_per_10cm"].reason


def test_a_tension_in_doubt_gives_no_counts() -> None:
    lines = lines_from("22 M x 30 R = 10 cm")
    found = with_counts({"tension": tension_of(lines, State.DOUBTFUL)}, lines)
    assert counts_of(found) == (None, None)


def test_words_and_drawing_that_differ_leave_the_field_blank() -> None:
    lines = lines_from("22 M x 30 R = 10 cm")
    drawn = [
        Field("stitches_per_10cm", "22", 0.9, State.SURE),
        Field("rows_per_10cm", "36", 0.9, State.SURE),
    ]
    assert counts_of(with_counts({"tension": tension_of(lines)}, lines, drawn)) == ("22", None)
    assert counts_of(with_counts({"tension": Field("tension")}, [], drawn)) == ("22", "36")
