"""A tag that was here before is known again; what is like it is asked about."""

from __future__ import annotations

import io
from dataclasses import replace

import numpy as np
import PIL.Image
import pytest
from filing_tags import PRINT, record, tag
from hypothesis import given
from hypothesis import strategies as st

from intake.filing.hash_shelf import HashShelf, Nearness
from intake.filing.judge import Doubt
from intake.filing.record import record_from_reading
from intake.filing.same import REPEAT, REPEAT_ANSWERS, LookBack, Past, lot_neighbours
from intake.pictures.keep import hash_distance, print_hash, tag_jpeg
from intake.records import TagReading


def past_of(*readings: TagReading) -> Past:
    jpegs = {record_from_reading(reading).id: reading.jpeg for reading in readings}
    past = Past(lambda tag_id: jpegs.get(tag_id, b""))
    for reading in readings:
        past.remember(record_from_reading(reading))
    return past


def copy_of(reading: TagReading, scale: float = 1.0, quality: int = 60) -> TagReading:
    """The same picture in another file: resized and compressed anew."""
    picture = PIL.Image.open(io.BytesIO(reading.jpeg))
    size = (round(picture.width * scale), round(picture.height * scale))
    data = io.BytesIO()
    picture.resize(size, PIL.Image.Resampling.LANCZOS).save(data, "JPEG", quality=quality)
    pixels = np.asarray(PIL.Image.open(data).convert("RGB"))
    return replace(
        reading,
        picture="copy.jpg",
        digest="c" * 64,
        print_hash=print_hash(pixels),
        jpeg=tag_jpeg(pixels),
    )


def doubts(look: LookBack) -> list[str]:
    assert look.before is None
    return [doubt.field for doubt in look.doubts]


def test_nothing_is_known_of_a_first_tag() -> None:
    assert past_of().look_back(tag()) == LookBack()


def test_the_same_tag_of_the_same_file_is_known() -> None:
    look = past_of(tag("a.jpg", 1), tag("a.jpg", 2)).look_back(tag("a.jpg", 2))
    assert look.before is not None
    assert (look.before.picture, look.before.how) == ("a.jpg", "the same file")


@pytest.mark.parametrize("quality", [60, 95])
def test_a_copy_of_the_picture_is_known(quality: int) -> None:
    look = past_of(tag("a.jpg")).look_back(copy_of(tag("a.jpg"), quality=quality))
    assert look.before is not None
    assert (look.before.picture, look.before.how) == ("a.jpg", "a copy of the same picture")


@pytest.mark.parametrize("scale", [0.8, 0.4])
def test_a_smaller_copy_is_known_or_asked_about(scale: float) -> None:
    look = past_of(tag("a.jpg")).look_back(copy_of(tag("a.jpg"), scale))
    assert look.before is not None or doubts(look) == [REPEAT]


def test_a_copy_that_reads_differently_is_asked_about() -> None:
    copy = copy_of(tag("a.jpg", lot="0012"))
    misread = replace(copy, fields={**copy.fields, "lot": tag(lot="7312").fields["lot"]})
    look = past_of(tag("a.jpg", lot="0012")).look_back(misread)
    assert doubts(look) == [REPEAT]
    assert "yet it reads differently" in look.doubts[0].reason


def test_the_same_print_in_another_picture_is_asked_about() -> None:
    earlier = tag("a.jpg")
    look = past_of(earlier).look_back(tag("b.jpg"))
    tag_id = record_from_reading(earlier).id
    assert look.before is None
    assert look.doubts == (
        Doubt(
            REPEAT,
            f"same shade and lot as record {tag_id} from picture a.jpg: "
            "another ball, or the same tag again?",
            REPEAT_ANSWERS,
        ),
    )


def test_the_same_print_twice_in_one_picture_is_two_balls() -> None:
    assert past_of(tag("a.jpg", 1)).look_back(tag("a.jpg", 2)) == LookBack()


def test_the_same_print_on_another_page_is_asked_about() -> None:
    other_page = replace(tag("a.pdf", 2), page=2)
    assert doubts(past_of(tag("a.pdf", 1)).look_back(other_page)) == [REPEAT]


@pytest.mark.parametrize(
    "name", ["maker", "range", "shade", "shade_code", "lot", "length_m", "mass_g"]
)
def test_another_value_makes_another_ball(name: str) -> None:
    other = {"length_m": 105.0, "mass_g": 100.0}.get(name, "777")
    look = past_of(tag("a.jpg")).look_back(tag("b.jpg", **{name: other}))
    assert look == LookBack()


def test_capitals_do_not_make_another_ball() -> None:
    look = past_of(tag("a.jpg")).look_back(tag("b.jpg", shade=str(PRINT["shade"]).upper()))
    assert doubts(look) == [REPEAT]


def test_tags_without_a_lot_are_not_taken_for_repeats() -> None:
    assert past_of(tag("a.jpg", lot=None)).look_back(tag("b.jpg", lot=None)) == LookBack()


def test_what_was_forgotten_is_not_looked_back_at() -> None:
    past = past_of(tag("a.jpg"))
    past.forget(record_from_reading(tag("a.jpg")).id)
    assert past.look_back(tag("b.jpg", lot="0O12")) == LookBack()
    assert past.look_back(tag("a.jpg")) == LookBack()


def test_a_spoilt_kept_picture_does_not_stop_the_run() -> None:
    past = Past(lambda tag_id: b"no picture")
    past.remember(record_from_reading(tag("a.jpg")))
    assert doubts(past.look_back(copy_of(tag("a.jpg")))) == [REPEAT]


# Hashes

hashes = st.binary(min_size=32, max_size=32).map(bytes.hex)


@given(
    kept=st.lists(hashes, unique=True, max_size=6),
    sought=hashes,
    nearness=st.builds(Nearness, st.integers(0, 256), st.integers(0, 64)),
)
def test_hashes_are_as_far_apart_on_the_shelf_as_one_by_one(
    kept: list[str], sought: str, nearness: Nearness
) -> None:
    shelf = HashShelf()
    for each in kept:
        shelf.put(each, each)
    shelf.drop(kept[0] if kept else "")
    expected = [(each, hash_distance(each, sought)) for each in kept[1:]]
    second_quarter = slice(16, 32)
    assert shelf.near(sought, nearness) == [
        (each, bits)
        for each, bits in expected
        if bits <= nearness.bits
        and hash_distance(each[second_quarter], sought[second_quarter]) <= nearness.quarter_bits
    ]


def test_a_hash_takes_the_place_of_the_earlier_one() -> None:
    shelf = HashShelf()
    shelf.put("t1", "00" * 32)
    shelf.put("t1", "01" * 32)
    assert shelf.near("01" * 32, Nearness(256)) == [("t1", 0)]


@pytest.mark.parametrize("spoilt", ["", "00", "zz" * 32, "0" * 63])
def test_what_is_no_hash_is_near_to_nothing(spoilt: str) -> None:
    shelf = HashShelf()
    shelf.put("t1", spoilt)
    shelf.put("t2", "00" * 32)
    assert shelf.near(spoilt, Nearness(256)) == []
    assert shelf.near("00" * 32, Nearness(256)) == [("t2", 0)]


# Lots one slip apart


def test_a_lot_one_confused_letter_from_a_known_one_is_asked_about() -> None:
    look = past_of(tag("a.jpg", lot="0012")).look_back(tag("b.jpg", lot="0O12"))
    (doubt,) = look.doubts
    assert (doubt.field, doubt.candidates) == ("lot", ("0O12", "0012"))
    assert "lot 0O12 is one easily confused letter from lot 0012" in doubt.reason


def test_lots_are_compared_within_a_shade_by_its_name_or_its_code() -> None:
    past = past_of(tag("a.jpg", lot="0012", shade="Kelp", shade_code="041"))
    by_name = tag("b.jpg", lot="0O12", shade_code=None)
    by_code = tag("b.jpg", lot="0O12", shade=None)
    other = tag("b.jpg", lot="0O12", shade="Moss", shade_code="042")
    assert doubts(past.look_back(by_name)) == ["lot"]
    assert doubts(past.look_back(by_code)) == ["lot"]
    assert past.look_back(other) == LookBack()


def test_a_corrected_lot_is_remembered_in_place_of_the_old_one() -> None:
    past = past_of(tag("a.jpg", lot="0O12"))
    past.remember(record_from_reading(tag("a.jpg", lot="4477")))
    assert past.look_back(tag("b.jpg", lot="0012")) == LookBack()


@pytest.mark.parametrize(
    ("lot", "other"),
    [("S012", "5012"), ("B7", "87"), ("1Z4", "124"), ("G3", "63"), ("l9", "19"), ("rn4", "m4")],
)
def test_letters_that_readers_confuse_make_neighbours(lot: str, other: str) -> None:
    # The pairs are common practice among readers of print, no source.
    assert lot_neighbours(lot, [other]) == [other]
    assert lot_neighbours(other, [lot]) == [lot]


def test_lots_that_differ_otherwise_are_no_neighbours() -> None:
    assert lot_neighbours("0012", ["0012", "0013", "4477", "5O1Z"]) == []
    assert lot_neighbours("", ["0012"]) == []


def test_records_and_readings_look_back_alike() -> None:
    past = past_of(tag("a.jpg"))
    assert [doubt.field for doubt in past.repeats(record("b.jpg"))] == [REPEAT]
    assert past.repeats(record("a.jpg")) == []
