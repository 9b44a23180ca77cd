"""Needle sizes."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from intake.fields.amounts.tools import UK_SIZES_MM, US_SIZES_MM, find_needle_mm
from tests.line_making import lines_from

DATA = Path(__file__).parent / "data"


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("Nadelstärke 3,5–4 mm", "3.5–4"),
        ("Needles: 3.5–4", "3.5–4"),
        ("Nadeln 4 - 4,5 mm", "4–4.5"),
        ("4mm", "4"),
        ("aiguilles n° 4", "4"),
        ("Aig. 2,5 mm", "2.5"),
        ("Ferri n. 4", "4"),
        ("Aghi 3–3,5", "3–3.5"),
        ("Agujas nº 3 mm", "3"),
        ("Naald nr. 6,5 mm", "6.5"),
        ("Stickor nr 5 – 5,5 mm", "5–5.5"),
        ("Strikkepinde 3½", "3.5"),
        ("US 6 / 4 mm", "4"),
        ("US 8/UK9/4mm", "4"),
        ("needle size US 7 (4.5 mm)", "4.5"),
        ("Aiguilles 4 - 125 m", "4"),
    ],
)
def test_reads_needle_sizes_in_mm(text: str, size: str) -> None:
    (found,) = find_needle_mm(lines_from(text))
    assert found.value == size
    assert found.note == ""


def test_a_hook_counts_only_where_no_needle_is_named() -> None:
    assert [each.value for each in find_needle_mm(lines_from("Hook 4.5 mm"))] == ["4.5"]
    both = find_needle_mm(lines_from("Hook 4.5 mm", "Needles 4 mm"))
    assert [each.value for each in both] == ["4"]


@pytest.mark.parametrize(("text", "size"), [("US 7", "4.5"), ("US 10½", "6.5"), ("UK 8", "4")])
def test_sizes_of_one_country_alone_are_converted_and_noted(text: str, size: str) -> None:
    (found,) = find_needle_mm(lines_from(text))
    assert found.value == size
    assert "converted" in found.note


@pytest.mark.parametrize(
    "text", ["10 x 10 cm", "LL 125 m / 50 g", "22 sts x 30 rows", "Needles 125 m", "US", "50 mm"]
)
def test_other_figures_are_no_needles(text: str) -> None:
    assert find_needle_mm(lines_from(text)) == []


def test_size_tables_run_with_the_sizes() -> None:
    # American numbers grow with the needle, old British ones shrink: common practice.
    us = [US_SIZES_MM[size] for size in sorted(US_SIZES_MM, key=float)]
    uk = [UK_SIZES_MM[size] for size in sorted(UK_SIZES_MM, key=float, reverse=True)]
    assert us == sorted(us)
    assert uk == sorted(uk)


def test_american_sizes_reach_the_limits_of_the_councils_categories() -> None:
    # Craft Yarn Council, Standard Yarn Weight System: needle limits of the categories.
    with (DATA / "weight_system.csv").open(encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(file) if row["number"] in "12345"]
    limits = {float(row[key]) for row in rows for key in ("needle_mm_low", "needle_mm_high")}
    assert limits <= set(US_SIZES_MM.values())
