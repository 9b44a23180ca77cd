"""A tag that balltag printed for a part ball is known as that ball's record."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from filing_tags import doubtful, tag

from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.printed_tag import code_text, printed_for
from intake.filing.same import ANOTHER_BALL, REPEAT
from intake.records import Barcode, Field, Outcome, TagReading

QUAD = ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0))


def with_codes(reading: TagReading, *texts: str, symbology: str = "QR") -> TagReading:
    return replace(reading, barcodes=tuple(Barcode(symbology, text, QUAD) for text in texts))


@pytest.fixture
def cabinet(tmp_path: Path) -> Cabinet:
    """A stash with two balls of one shade, of lots 0012 and 4477."""
    cabinet = open_cabinet(tmp_path / "stash.csv")
    for reading in (tag("cellar.jpg"), tag("attic.jpg", lot="4477")):
        assert cabinet.take(reading).outcome is Outcome.FILED
    return cabinet


def test_a_code_names_its_record() -> None:
    record_id = "t0123456789abcde"
    codes = with_codes(tag(), "https://example.org", code_text(record_id), code_text(record_id))
    assert code_text(record_id) == "balltag:t0123456789abcde"
    assert printed_for(codes.barcodes) == (record_id,)


@pytest.mark.parametrize(
    ("text", "symbology"),
    [("balltag:t0123", "QR"), ("xballtag:t0123456789abcde", "QR"), ("", "QR"),
     ("balltag:t0123456789abcde", "EAN-13")],
)  # fmt: skip
def test_other_codes_name_none(text: str, symbology: str) -> None:
    assert printed_for(with_codes(tag(), text, symbology=symbology).barcodes) == ()


def test_a_printed_tag_is_its_record_and_no_new_ball(cabinet: Cabinet) -> None:
    first = cabinet.records()[0]
    taken = cabinet.take(with_codes(tag("printed.jpg", length_m=62.0), code_text(first.id)))
    assert taken.outcome is Outcome.ALREADY
    assert taken.before is not None
    assert (taken.before.id, taken.before.picture) == (first.id, "cellar.jpg")
    assert first.id in taken.before.how
    assert len(cabinet.records()) == 2


def test_two_printed_tags_in_one_are_both_named(cabinet: Cabinet) -> None:
    ids = [record.id for record in cabinet.records()]
    taken = cabinet.take(with_codes(tag("printed.jpg"), *map(code_text, ids)))
    assert taken.outcome is Outcome.ALREADY
    assert taken.before is not None
    assert all(one in taken.before.how for one in ids)


def test_a_printed_tag_of_an_unknown_record_is_asked_about(cabinet: Cabinet) -> None:
    unknown = with_codes(tag("printed.jpg", lot="991"), code_text("t0123456789abcde"))
    taken = cabinet.take(unknown)
    assert taken.outcome is Outcome.QUEUED
    (doubt,) = taken.doubts
    assert doubt.field == REPEAT
    assert "t0123456789abcde, which is not in this stash" in doubt.reason
    assert cabinet.resolve(taken.id, {REPEAT: ANOTHER_BALL}) is not None


def test_a_printed_tag_of_a_withdrawn_record_is_asked_about(cabinet: Cabinet) -> None:
    first = cabinet.records()[0]
    cabinet.withdraw([first.id])
    taken = cabinet.take(with_codes(tag("printed.jpg", lot="991"), code_text(first.id)))
    assert taken.outcome is Outcome.QUEUED


def test_another_balls_tag_beside_a_printed_one_is_not_swallowed(cabinet: Cabinet) -> None:
    first = cabinet.records()[0]
    taken = cabinet.take(with_codes(tag("both.jpg", lot="991"), code_text(first.id)))
    assert taken.outcome is Outcome.QUEUED
    (doubt,) = taken.doubts
    assert "whose lot is 0012, yet lot 991 is read" in doubt.reason


@pytest.mark.parametrize("lot", [doubtful("lot", "0O12"), Field("lot")])
def test_a_lot_that_is_not_surely_read_does_not_hide_the_record(
    lot: Field, cabinet: Cabinet
) -> None:
    first = cabinet.records()[0]
    taken = cabinet.take(with_codes(tag("printed.jpg", 1, lot), code_text(first.id)))
    assert taken.outcome is Outcome.ALREADY
