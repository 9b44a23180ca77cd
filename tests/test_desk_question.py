"""What the review page is told about a tag: places on the picture and the readers' letters."""

from __future__ import annotations

from dataclasses import replace

import pytest
from desk_pages import lot_tag
from filing_tags import doubtful, line, tag

from intake.desk.question import tag_view
from intake.filing.judge import Doubt, judge
from intake.filing.queue import Waiting
from intake.filing.same import REPEAT, REPEAT_ANSWERS
from intake.records import FIELDS, Field, Reading, Span, State, TagReading


def waiting(reading: TagReading) -> Waiting:
    return Waiting("t0123456789abcde", reading, tuple(judge(reading)))


def test_every_field_is_either_asked_about_or_listed() -> None:
    view = tag_view(waiting(lot_tag(1)))
    asked = [doubt["field"] for doubt in view["doubts"]]
    assert asked == ["lot"]
    assert sorted(asked + [field["field"] for field in view["fields"]]) == sorted(FIELDS)


def test_the_word_is_lit_where_its_letters_stand() -> None:
    """A line from x 1 to 90.5: five of its ten letters fill its second half."""
    reading = replace(tag(), lines=(line("LOT: 00412"),))
    lot = replace(doubtful("lot", "00412"), spans=(Span(0, 5, 10),))
    view = tag_view(waiting(replace(reading, fields={**reading.fields, "lot": lot})))
    (place,) = view["doubts"][0]["places"]
    assert place == ((45.8, 2.0), (90.5, 2.0), (90.5, 14.0), (45.8, 14.0))


def test_a_line_that_runs_up_the_tag_is_lit_along_its_run() -> None:
    upright = replace(line("LOT 12"), quad=((10.0, 70.0), (10.0, 10.0), (22.0, 10.0), (22.0, 70.0)))
    lot = replace(doubtful("lot", "12"), spans=(Span(0, 4, 6),))
    view = tag_view(waiting(replace(tag(), lines=(upright,), fields={"lot": lot})))
    place = view["doubts"][0]["places"][0]
    assert place == ((10.0, 30.0), (10.0, 10.0), (22.0, 10.0), (22.0, 30.0))


def test_both_readings_of_the_word_are_told_with_the_letters_that_differ() -> None:
    view = tag_view(waiting(lot_tag(1)))
    first, second = view["doubts"][0]["seen"][0]
    assert (first["before"], first["word"], first["differs"]) == ("Lot ", "0O412", [1])
    assert (second["before"], second["word"], second["differs"]) == ("Lot ", "00412", [1])


@pytest.mark.parametrize(
    ("merged", "word", "second", "seen"),
    [
        ("00412", "00412", "0412", ("", "0412", "")),
        ("Lot 0412 Red", "0412", "Lot 00412 Red", ("Lot ", "00412", " Red")),
        ("Lot 0412 Red", "0412", "Lot 0412B Red", ("Lot ", "0412B", " Red")),
        ("Lot 0412", "0412", "Lot 0412 new", ("Lot ", "0412", " new")),
        ("No. W807", "W807", "No. 4807", ("No. ", "4807", "")),
        ("Fv. Ræv", "Ræv", "Fv. Reev", ("Fv. ", "Reev", "")),
        ("Lot 12", "12", "", ("", "", "")),
    ],
)
def test_the_word_is_found_in_what_the_other_reader_saw(
    merged: str, word: str, second: str, seen: tuple[str, str, str]
) -> None:
    first = line(merged)
    read = replace(first, readings=(first.readings[0], Reading("two", line(second).letters)))
    start = merged.index(word)
    lot = replace(doubtful("lot", word), spans=(Span(0, start, start + len(word)),))
    view = tag_view(waiting(replace(tag(), lines=(read,), fields={"lot": lot})))
    one, two = view["doubts"][0]["seen"][0]
    assert one["word"] == word
    assert (two["before"], two["word"], two["after"]) == seen


def test_a_lot_that_was_not_found_has_no_place() -> None:
    reading = lot_tag(1)
    view = tag_view(waiting(replace(reading, fields={**reading.fields, "lot": Field("lot")})))
    (doubt,) = view["doubts"]
    assert doubt["field"] == "lot"
    assert doubt["value"] == ""
    assert doubt["seen"] == []


@pytest.mark.parametrize("span", [Span(9, 0, 2), Span(0, 40, 44), Span(0, 2, 2)])
def test_a_span_that_lies_nowhere_is_passed_over(span: Span) -> None:
    lot = replace(doubtful("lot", "12"), spans=(span,))
    view = tag_view(waiting(replace(tag(), lines=(line("LOT 12"),), fields={"lot": lot})))
    assert view["doubts"][0]["places"] == []


def test_a_repeat_shows_the_record_from_before_and_takes_only_its_answers() -> None:
    reason = "same shade and lot as record t00000000000000a from picture cellar.jpg"
    item = Waiting("t0123456789abcde", lot_tag(1), (Doubt(REPEAT, reason, REPEAT_ANSWERS),))
    (doubt,) = tag_view(item)["doubts"]
    assert doubt["earlier"] == "t00000000000000a"
    assert doubt["only_candidates"]
    assert doubt["question"] == "Has this tag been here before?"


def test_a_picture_that_is_gone_is_no_failure() -> None:
    view = tag_view(waiting(replace(lot_tag(1), jpeg=b"")))
    assert (view["width_px"], view["height_px"]) == (0, 0)


def test_the_state_of_each_field_is_told() -> None:
    view = tag_view(waiting(lot_tag(1)))
    states = {field["field"]: field["state"] for field in view["fields"]}
    assert states["shade"] == State.SURE
    assert states["barcode"] == State.MISSING
