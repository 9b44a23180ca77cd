"""Character error rates, checked against the package jiwer."""

from __future__ import annotations

import jiwer
import pytest
from accuracy_tags import read_tag, scored, true_tag
from hypothesis import given
from hypothesis import strategies as st

from intake.accuracy.letter_errors import LetterErrors, letter_errors, one_line
from intake.accuracy.score import ReadTag, score_tag
from intake.accuracy.summary import letter_errors_by_field
from intake.accuracy.truth import TrueTag

PRINT = st.text("abcdeAB01O .-", min_size=1).map(str.strip).filter(bool)


@given(st.lists(st.tuples(st.text("abAB01 "), PRINT), min_size=1, max_size=5))
def test_error_rate_is_that_of_jiwer(pairs: list[tuple[str, str]]) -> None:
    stripped = [(read.strip(), truth) for read, truth in pairs]
    expected = jiwer.cer([truth for _, truth in stripped], [read for read, _ in stripped])
    assert letter_errors(stripped).rate == pytest.approx(expected)


def test_no_letters_have_no_errors() -> None:
    assert letter_errors([]).rate == 0.0


def test_line_breaks_are_no_errors() -> None:
    assert one_line("Far Bank\n  50 g\n") == "Far Bank 50 g"


def test_spelled_fields_are_counted_where_the_tag_carries_them() -> None:
    tags = [
        scored(true_tag(lot="0072"), read_tag(lot="0012")),
        scored(true_tag(lot="0072"), read_tag(lot=None)),
        scored(true_tag(lot=None), read_tag(lot="9")),
    ]
    errors = letter_errors_by_field(tags)
    assert errors["lot"] == LetterErrors(1 + 4, 8)
    assert "text" not in errors


def test_capitals_and_spaces_that_may_differ_are_no_letter_errors() -> None:
    tags = [scored(true_tag(shade="Far Fog"), read_tag(shade="FARFOG"))]
    assert letter_errors_by_field(tags)["shade"].edits == 0


def test_all_print_is_counted_where_the_truth_tells_it() -> None:
    told = true_tag()
    truth = TrueTag(told.picture, told.path, 1, "scan", {"lot": "72"}, text="Lot 72\n50 g")
    read = ReadTag(1, {}, text="Lot 12\n50 g")
    assert letter_errors_by_field([score_tag(truth, read)])["text"] == LetterErrors(1, 11)
