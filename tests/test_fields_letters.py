"""Folding for matching, and the way back to the letters of the print."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from intake.fields.letters import Folded, FoldedLines, Words, number_in
from intake.records import Span
from tests.line_making import lines_from


@pytest.mark.parametrize(
    ("printed", "folded"),
    [
        ("Straße", "strasse"),
        ("Løpelengde", "lopelengde"),
        ("VÆGT", "vaegt"),
        ("Ågård", "agard"),
        ("75％", "75%"),
        ("3½–4", "3½-4"),
        ("30℃", "30°c"),
        ("10×10", "10x10"),
    ],
)
def test_folds_what_readers_confuse(printed: str, folded: str) -> None:
    assert Folded(printed).text == folded


@given(st.text(max_size=40))
def test_every_folded_letter_leads_back_to_one_printed(text: str) -> None:
    folded = Folded(text)
    assert len(folded.origin) == len(folded.text)
    assert folded.origin == sorted(folded.origin)
    if folded.text:
        start, end = folded.span(0, len(folded.text))
        assert 0 <= start < end <= len(text)


@given(st.lists(st.text(max_size=20), max_size=4))
def test_spans_of_lines_hold_no_outer_blanks(texts: list[str]) -> None:
    sheet = FoldedLines(lines_from(*texts))
    for span in sheet.spans(0, len(sheet.text)):
        printed = texts[span.line][span.start : span.end]
        assert printed == printed.strip() != ""


def test_a_mended_word_leads_to_the_letters_as_read() -> None:
    texts = ("75%Schurwo1le", "P0lyarnid")
    sheet = FoldedLines(lines_from(*texts)).mended(Words(["schurwolle", "polyamid"]))
    assert sheet.text == "75%schurwolle\npolyamid"
    assert sheet.printed(3, 13) == "Schurwo1le"
    assert sheet.spans(3, 22) == (Span(0, 3, 13), Span(1, 0, 9))
    assert sheet.is_mended(3, 4)
    assert not sheet.is_mended(0, 3)


def test_short_words_are_read_in_full_but_for_lookalikes() -> None:
    words = Words(["lana", "lama", "wool", "baumwolle"])
    assert words.nearest("w00l") == "wool"
    assert words.nearest("lanz") is None
    assert words.nearest("baumwo1ie") == "baumwolle"
    assert words.nearest("baumwxlle") == "baumwolle"


def test_a_word_as_near_to_two_meanings_stays_unread() -> None:
    assert Words(["modal", "medal"]).nearest("mxdal") is None
    assert Words(["polyamid", "polyimid"]).nearest("polyxmid") is None
    same = Words(["polyamid", "polyamide"], meaning=lambda word: "polyamide")
    assert same.nearest("polyamxd") is not None


def test_a_word_with_two_letters_more_is_not_mended_away() -> None:
    # "no" and "ej" before a phrase turn it round
    assert Words(["torktumlas"]).nearest("ejtorktumlas") is None


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("125", (125.0, True)),
        ("3,5", (3.5, True)),
        ("l25", (125.0, False)),
        ("5o", (50.0, False)),
        ("lo", None),
        ("1.2.3", None),
        ("", None),
    ],
)
def test_numbers_tell_whether_their_letters_are_digits(
    text: str, number: tuple[float, bool] | None
) -> None:
    assert number_in(text) == number
