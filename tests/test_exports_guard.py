"""Text in a CSV file stays text, and comes back as it was."""

from __future__ import annotations

import pytest
from exports_stash import TRICKY_LOTS
from hypothesis import given
from hypothesis import strategies as st

from intake.exports.formula_guard import guarded, unguarded


@pytest.mark.parametrize("first", "=+-@\t\r")
def test_what_would_be_a_formula_is_guarded(first: str) -> None:
    # The signs are those that OWASP's page "CSV Injection" lists (from memory).
    assert guarded(f"{first}1") == f"'{first}1"


@pytest.mark.parametrize(
    "text", ["00412", "3-12", "12/03/26", "1E5", "1.5e+3", "50%", "9:30", "true", "5 Mar", "€5"]
)
def test_what_would_be_a_number_a_date_or_a_truth_is_guarded(text: str) -> None:
    assert guarded(text) == "'" + text


@pytest.mark.parametrize("text", ["", "Kelp", "B7", "'tis", "75% wool; 25% silk", "4 ply", "'"])
def test_plain_text_is_left_alone(text: str) -> None:
    assert guarded(text) == text
    assert unguarded(text) == text


@given(st.one_of(st.text(), st.text("='+-@012 eE/%\t\rmarMAR"), st.sampled_from(TRICKY_LOTS)))
def test_every_text_comes_back_as_it_was(text: str) -> None:
    assert unguarded(guarded(text)) == text
