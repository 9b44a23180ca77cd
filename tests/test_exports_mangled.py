"""Text that a spreadsheet turned into something else is told from text that was typed."""

from __future__ import annotations

import pytest
from babel.dates import get_month_names
from hypothesis import given
from hypothesis import strategies as st

from intake.exports.mangled import mangling
from intake.exports.sheet_in import Held, SheetCell
from intake.filing.turned import turned_into


def of_text(known: str, text: str) -> str:
    return mangling("lot", known, SheetCell(Held.BARE, text))


@pytest.mark.parametrize(
    ("known", "text", "what"),
    [
        ("00412", "412", "a number"),
        ("+4", "4", "a number"),
        ("4.10", "4.1", "a number"),
        ("120000", "1.2E+05", "a power of ten"),
        ("12E4", "1,2E+05", "a power of ten"),
        ("", "1.2E+05", "a power of ten"),
        ("12345678901234567890", "12345678901234600000", "a number"),
        ("3-12", "2026-12-03", "a date"),
        ("3/12", "03/12/26", "a date"),
        ("3-12", "3-Dec", "a date"),
        ("3-12", "12. März 2026", "a date"),
        ("MAR5", "Mar-05", "a date"),
        ("9:30", "09:30:00", "a date"),
    ],
)
def test_what_spreadsheets_make_of_lots_is_told(known: str, text: str, what: str) -> None:
    # The forms are those that LibreOffice Calc and Excel show (from memory).
    told = of_text(known, text)
    assert f"looks turned into {what}" in told
    assert text in told


@pytest.mark.parametrize(
    ("known", "text"),
    [
        ("0O12", "0012"),
        ("412", "413"),
        ("", "0012"),
        ("B7", "87"),
        ("Kelp", "Kelp Dark"),
        ("7", ""),
    ],
)
def test_a_correction_is_no_mangling(known: str, text: str) -> None:
    assert of_text(known, text) == ""


@given(st.from_regex(r"0+[1-9]\d{0,9}", fullmatch=True))
def test_every_lost_leading_zero_is_told(lot: str) -> None:
    assert of_text(lot, lot.lstrip("0"))


@pytest.mark.parametrize("held", [Held.NUMBER, Held.DATE, Held.TRUTH, Held.FORMULA, Held.ERROR])
def test_a_cell_of_another_type_is_told(held: Held) -> None:
    told = mangling("lot", "00412", SheetCell(held, "412"))
    assert str(held) in told
    assert "412" in told


def test_a_number_that_still_says_the_same_is_the_same() -> None:
    assert mangling("lot", "412", SheetCell(Held.NUMBER, "412")) == ""


@pytest.mark.parametrize("held", [Held.NUMBER, Held.TEXT, Held.BARE])
def test_a_length_may_be_a_number(held: Held) -> None:
    assert mangling("length_m", "210", SheetCell(held, "87.5")) == ""


@pytest.mark.parametrize("held", [Held.DATE, Held.TRUTH, Held.FORMULA, Held.ERROR])
def test_a_length_is_no_date(held: Held) -> None:
    assert str(held) in mangling("length_m", "210", SheetCell(held, "2026-01-01"))


@pytest.mark.parametrize(
    "language", ["en", "de", "fr", "it", "es", "pt", "nl", "da", "sv", "fi", "pl"]
)
@pytest.mark.parametrize("width", ["abbreviated", "wide"])
def test_dates_with_months_of_a_language_are_known(language: str, width: str) -> None:
    """The months' names as Unicode CLDR has them, by the package Babel."""
    for month in get_month_names(width, locale=language).values():
        assert turned_into("3-4", f"03-{month}") == "a date"
        assert turned_into("3-4", f"3. {month} 2026") == "a date"


@pytest.mark.parametrize("text", ["4 ply", "8 fold", "12 Kelp", "10 wide"])
def test_a_number_and_a_word_are_no_date(text: str) -> None:
    assert turned_into("3 ply", text) == ""
