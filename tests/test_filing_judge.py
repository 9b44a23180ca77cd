"""A tag is filed only where nothing about it is doubtful."""

from __future__ import annotations

import pytest
from filing_tags import WOOL, doubtful, tag

from intake.filing.answers import BadAnswer, answer_value, answered
from intake.filing.judge import Doubt, judge, one_per_field
from intake.records import FibrePart, Field, State


def test_a_tag_read_for_sure_is_filed() -> None:
    assert judge(tag()) == []


def test_a_doubtful_field_is_asked_with_its_reason_and_other_readings() -> None:
    reading = tag("a.jpg", 1, doubtful("lot", "0O12", "0012", "0012", "OO12"))
    expected = Doubt("lot", "the two readers differ", ("0O12", "0012", "OO12"))
    assert judge(reading) == [expected]


def test_a_doubt_without_a_reason_still_has_words() -> None:
    (doubt,) = judge(tag("a.jpg", 1, doubtful("length_m", 210.0, "270", reason="")))
    assert doubt == Doubt("length_m", "the length in metres is not sure", ("210", "270"))


def test_a_lot_is_asked_for_where_none_was_found() -> None:
    (doubt,) = judge(tag(lot=None))
    assert doubt.field == "lot"
    assert "no lot was found; type it, or leave it empty if the tag has none" in doubt.reason


@pytest.mark.parametrize("name", ["lot", "fibre", "length_m", "mass_g"])
def test_a_missing_field_that_the_tag_may_carry_is_asked_for(name: str) -> None:
    (doubt,) = judge(tag("a.jpg", 1, Field(name, reason="a line was unread", others=("7",))))
    assert (doubt.field, doubt.candidates) == (name, ("7",))
    assert doubt.reason.startswith("a line was unread; type it")


@pytest.mark.parametrize("name", ["fibre", "length_m", "mass_g"])
def test_a_field_that_the_tag_does_not_carry_is_not_asked_for(name: str) -> None:
    assert judge(tag(**{name: None})) == []


def test_a_shade_name_or_a_shade_code_will_do() -> None:
    assert judge(tag(shade=None)) == []
    assert judge(tag(shade_code=None)) == []
    assert [doubt.field for doubt in judge(tag(shade=None, shade_code=None))] == ["shade"]


@pytest.mark.parametrize(
    "name", ["weight_class", "care", "maker", "range", "barcode", "origin", "needle_mm", "tension"]
)
def test_what_many_tags_lack_is_not_asked_for(name: str) -> None:
    assert judge(tag(**{name: None})) == []


def test_any_doubtful_field_is_asked_even_where_it_could_be_missing() -> None:
    fields = (doubtful("barcode", "2000000000015"), doubtful("tension", "28 st"))
    assert [doubt.field for doubt in judge(tag("a.jpg", 1, *fields))] == ["barcode", "tension"]


def test_doubts_about_one_field_are_asked_as_one() -> None:
    doubts = [Doubt("lot", "a", ("1", "2")), Doubt("shade", "b"), Doubt("lot", "c", ("2", "3"))]
    assert one_per_field(doubts) == [Doubt("lot", "a; c", ("1", "2", "3")), Doubt("shade", "b")]


# Answers


@pytest.mark.parametrize("lot", ["0012", "1E5", "NA", "=1+1", "-", "nan"])
def test_an_answered_lot_stays_the_text_it_is(lot: str) -> None:
    assert answer_value("lot", lot) == lot


def test_an_empty_answer_says_that_the_tag_does_not_carry_it() -> None:
    assert answer_value("mass_g", " ") is None
    cleared = answered(tag(), {"mass_g": ""}).fields["mass_g"]
    assert (cleared.state, cleared.value) == (State.MISSING, None)


@pytest.mark.parametrize("text", ["abc", "0", "-5", "nan", "inf", "1,000", "50 g", "1e999"])
def test_a_mass_must_be_a_number_above_zero(text: str) -> None:
    with pytest.raises(BadAnswer, match="mass in grams"):
        answer_value("mass_g", text)


def test_a_number_may_have_a_point() -> None:
    assert answer_value("length_m", "87.5") == 87.5


@pytest.mark.parametrize(
    ("text", "match"),
    [
        ("soft", "not a fibre composition"),
        ("75% wool; 20% polyamide", "makes 95%"),
        ("100% wool; 0% silk", "its share"),
    ],
)
def test_a_composition_must_be_whole(text: str, match: str) -> None:
    with pytest.raises(BadAnswer, match=match):
        answer_value("fibre", text)


def test_a_composition_may_be_rounded() -> None:
    thirds = answer_value("fibre", "33% wool; 33% silk; 33% mohair (kid)")
    assert thirds == (
        FibrePart("wool", "", 33.0),
        FibrePart("silk", "", 33.0),
        FibrePart("mohair", "kid", 33.0),
    )


def test_an_unknown_field_is_refused() -> None:
    with pytest.raises(BadAnswer, match="no field 'colour'"):
        answer_value("colour", "red")


def test_keeping_a_value_keeps_what_was_printed_and_another_value_drops_it() -> None:
    printed = Field("shade", "Kelp", 0.5, State.DOUBTFUL, printed="KELP 41")
    reading = tag("a.jpg", 1, printed)
    kept = answered(reading, {"shade": "Kelp"}).fields["shade"]
    assert (kept.state, kept.printed) == (State.SURE, "KELP 41")
    changed = answered(reading, {"shade": "Kemp"}).fields["shade"]
    assert (changed.state, changed.value, changed.printed) == (State.SURE, "Kemp", "")
    assert reading.fields["shade"] is printed
    assert answered(reading, {}).fields["fibre"].value == WOOL
