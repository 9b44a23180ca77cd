"""A sure maker or range that is new and reads nearly like a known one is asked about."""

from __future__ import annotations

from pathlib import Path

import pytest
from filing_tags import tag

from intake.filing.cabinet import open_cabinet
from intake.filing.knowledge import Knowledge
from intake.records import Field, State, TagReading
from intake.shades.known import KnownShade
from intake.shades.names import KnownNames
from intake.shades.near_names import with_near_names


@pytest.fixture
def known() -> KnownNames:
    names = KnownNames()
    names.add("Quillstow Spinners", "Sluicegate")
    names.add("Quillstow Spinners", "Osier")
    names.add("Féroé Maskinspinderi", "Ålevand")
    names.add("Féroé Maskinspinderi", "Dentelée")
    return names


def headed(maker: str, range_: str, state: State = State.SURE) -> TagReading:
    def field(name: str, value: str) -> Field:
        reason = "" if state is State.SURE else "not certain"
        return Field(name, value, 0.97, state, reason=reason)

    return tag("a.jpg", 1, field("maker", maker), field("range", range_))


def asked(reading: TagReading) -> list[str]:
    return [name for name in ("maker", "range") if reading.fields[name].state is not State.SURE]


@pytest.mark.parametrize("range_", ["Sluicegale", "Sluicegat", "Sluicegafe", "0sier"])
def test_a_range_that_is_a_letter_off_a_known_one_of_its_maker_is_asked_about(
    known: KnownNames, range_: str
) -> None:
    after = with_near_names(headed("Quillstow Spinners", range_), known)
    assert asked(after) == ["range"]
    field = after.fields["range"]
    assert field.value == range_
    assert field.others[0] in ("Sluicegate", "Osier")
    assert "new, or a misreading of" in field.reason


@pytest.mark.parametrize("maker", ["Quillslow Spinners", "Quilstow Spinners"])
def test_a_maker_that_is_a_letter_off_a_known_one_is_asked_about(
    known: KnownNames, maker: str
) -> None:
    after = with_near_names(headed(maker, "Sluicegate"), known)
    assert asked(after) == ["maker"]
    assert after.fields["maker"].others == ("Quillstow Spinners",)


@pytest.mark.parametrize("range_", ["Alevand", "ALEVAND"])
def test_a_range_whose_accent_both_readers_lost_is_asked_about(
    known: KnownNames, range_: str
) -> None:
    after = with_near_names(headed("Féroé Maskinspinderi", range_), known)
    assert after.fields["range"].others == ("Ålevand",)
    assert asked(after) == ["range"]


@pytest.mark.parametrize(
    ("maker", "range_"),
    [
        ("Quillstow Spinners", "Osier"),
        ("QUILLSTOW SPINNERS", "SLUICE GATE"),
        ("FEROE MASKINSPINDERI", "DENTELEE"),  # capitals are often printed without accents
        ("Quillstow Spinners", "Withy Bed"),
        ("Oakhanger Mill", "Sluicegale"),  # near another maker's range only
    ],
)
def test_known_names_and_those_that_are_near_none_are_let_be(
    known: KnownNames, maker: str, range_: str
) -> None:
    reading = headed(maker, range_)
    assert with_near_names(reading, known) is reading


def test_a_name_that_is_asked_about_already_keeps_its_reason(known: KnownNames) -> None:
    reading = headed("Quillslow Spinners", "Sluicegale", State.DOUBTFUL)
    assert with_near_names(reading, known) is reading


def test_names_of_a_shade_card_and_of_filed_tags_are_known(tmp_path: Path) -> None:
    cabinet = open_cabinet(tmp_path / "stash.csv")
    knowledge = Knowledge(cabinet, [KnownShade("Quillstow Spinners", "Osier", "Fern")])
    knowledge.refresh()
    assert asked(knowledge.applied(headed("Quillstow Spinners", "Osler"))) == ["range"]
    assert asked(knowledge.applied(headed("Quillstow Spinners", "Osier"))) == []
