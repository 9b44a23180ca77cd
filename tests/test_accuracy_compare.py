"""When a value counts as right."""

from __future__ import annotations

import unicodedata

import pytest

from intake.accuracy.compare import Verdict, same, verdict
from intake.records import FibrePart, Value

WOOL = FibrePart("wool", "merino superwash", 75.0)
NYLON = FibrePart("polyamide", "", 25.0)


@pytest.mark.parametrize(
    ("name", "read", "truth"),
    [
        ("shade", "DUSK  grey", "Dusk Grey"),
        ("shade", unicodedata.normalize("NFD", "Blåbär"), "Blåbär"),
        ("maker", "CableFerry", "Cable Ferry"),
        ("maker", "Les Fils d'Ormoy", "Les Fils d’Ormoy"),
        ("weight_printed", "4-PLY", "4-ply"),
        ("length_m", 119.5, 120.0),
        ("fibre", (NYLON, WOOL), (WOOL, NYLON)),
        ("fibre", (FibrePart("wool", "superwash merino", 75.0), NYLON), (WOOL, NYLON)),
        ("care", ("dry flat", "hand wash"), ("hand wash", "dry flat")),
    ],
)
def test_what_may_differ_in_a_right_value(name: str, read: Value, truth: Value) -> None:
    assert same(name, read, truth)


@pytest.mark.parametrize(
    ("name", "read", "truth"),
    [
        ("lot", "72", "0072"),
        ("lot", "12a", "12A"),
        ("lot", "12 4", "124"),
        ("shade_code", "14", "014"),
        ("barcode", "4006381333931", "4006381333932"),
        ("weight_class", "Light", "light"),
        ("shade", "Blabar", "Blåbär"),
        ("length_m", 119.0, 120.0),
        ("mass_g", 50.0, 100.0),
        ("fibre", (WOOL,), (WOOL, NYLON)),
        ("fibre", (FibrePart("wool", "merino", 75.0), NYLON), (WOOL, NYLON)),
        ("fibre", (FibrePart("wool", "merino superwash", 70.0), NYLON), (WOOL, NYLON)),
        ("care", ("hand wash",), ("hand wash", "dry flat")),
    ],
)
def test_what_may_not_differ_in_a_right_value(name: str, read: Value, truth: Value) -> None:
    assert not same(name, read, truth)


@pytest.mark.parametrize(
    ("read", "truth", "expected"),
    [
        ("7", "7", Verdict.RIGHT),
        ("1", "7", Verdict.WRONG),
        (None, "7", Verdict.MISSING),
        ("7", None, Verdict.INVENTED),
        (None, None, Verdict.ABSENT),
    ],
)
def test_every_case_has_its_verdict(read: Value, truth: Value, expected: Verdict) -> None:
    assert verdict("lot", read, truth) is expected


def test_only_false_values_are_false_and_an_empty_field_can_be_correct() -> None:
    assert {one for one in Verdict if one.is_false} == {Verdict.WRONG, Verdict.INVENTED}
    assert {one for one in Verdict if one.is_correct} == {Verdict.RIGHT, Verdict.ABSENT}
