"""Known makers and ranges are found wherever a tag prints them, and only whole."""

from __future__ import annotations

from dataclasses import replace

import pytest
from filing_tags import tag
from line_making import lines_from

from intake.fields.names.questions import PLACE_ONLY, may_be_either
from intake.records import Field, Line, Span, State, TagReading
from intake.shades.names import KnownNames
from intake.shades.printed_names import with_printed_names


@pytest.fixture
def known() -> KnownNames:
    names = KnownNames()
    names.add("Quillstow Spinners", "Sluicegate")
    names.add("Moravela", "Vereda")
    return names


def read(*texts: str, maker: Field | None = None, range_: Field | None = None) -> TagReading:
    return with_lines(
        tag("a.jpg", 1, maker or Field("maker"), range_ or Field("range")), lines_from(*texts)
    )


def with_lines(reading: TagReading, lines: list[Line]) -> TagReading:
    return replace(reading, lines=tuple(lines))


def doubtful(name: str, value: str, *others: str) -> Field:
    return Field(name, value, 0.4, State.DOUBTFUL, others=others, reason="not certain")


def test_a_known_maker_in_small_print_is_the_maker(known: KnownNames) -> None:
    reading = read(
        "Vereda",
        "© Moravela, 03147 Moravela, España",
        maker=doubtful("maker", "Vereda"),
    )
    fields = with_printed_names(reading, known).fields
    assert (fields["maker"].value, fields["maker"].state) == ("Moravela", State.SURE)
    assert (fields["range"].value, fields["range"].state) == ("Vereda", State.SURE)
    assert fields["range"].spans == (Span(0, 0, 6),)


def test_a_known_maker_is_known_by_its_web_address(known: KnownNames) -> None:
    reading = read("Hilo Hojarasca", "www.moravela.example")
    maker = with_printed_names(reading, known).fields["maker"]
    assert (maker.value, maker.state) == ("Moravela", State.SURE)
    assert "web address" in maker.note


@pytest.mark.parametrize(
    "line",
    ["Quillstow Spinners & Sons", "Old Quillstow Spinners", "Quillstow Spinners-Hall"],
)
def test_part_of_a_longer_name_is_not_the_known_one(known: KnownNames, line: str) -> None:
    assert with_printed_names(read(line), known).fields["maker"].value is None


def test_a_name_that_the_readers_saw_unlike_is_not_looked_up(known: KnownNames) -> None:
    lines = lines_from("Moravela", second={0: "Moravelo"})
    reading = with_lines(read("Moravela"), lines)
    assert with_printed_names(reading, known).fields["maker"].value is None


def test_two_known_makers_on_one_tag_settle_nothing(known: KnownNames) -> None:
    reading = read("Moravela", "Quillstow Spinners", maker=doubtful("maker", "Moravela"))
    assert with_printed_names(reading, known).fields["maker"].state is State.DOUBTFUL


def test_a_sure_maker_stays(known: KnownNames) -> None:
    sure = Field("maker", "Orvendale Yarns", 0.99, State.SURE)
    assert with_printed_names(read("Moravela", maker=sure), known).fields["maker"] == sure


def test_a_sure_shade_that_is_named_like_a_maker_stays_the_shade(known: KnownNames) -> None:
    shade = Field("shade", "Moravela", 0.99, State.SURE, spans=(Span(0, 0, 8),))
    reading = with_lines(tag("a.jpg", 1, shade, Field("maker")), lines_from("Moravela"))
    assert with_printed_names(reading, known).fields["maker"].value is None


def test_the_name_that_was_taken_for_the_maker_is_offered_as_the_range(known: KnownNames) -> None:
    reading = read(
        "Hojarasca",
        "Moravela",
        maker=doubtful("maker", "Hojarasca", "Moravela"),
        range_=doubtful("range", "Moravela"),
    )
    fields = with_printed_names(reading, known).fields
    assert fields["maker"].value == "Moravela"
    assert (fields["range"].value, fields["range"].state) == ("Hojarasca", State.DOUBTFUL)


def test_the_one_name_beside_a_known_maker_is_the_range(known: KnownNames) -> None:
    known.add("Hollin Fold", "Greylag")
    texts = ("Quillstow Spinners", "Greylag")
    maker = doubtful("maker", texts[0], texts[1])
    told = {"unanimous": 1.0, "witnessed": 1.0}
    range_ = replace(
        doubtful("range", texts[1]),
        reason=may_be_either(texts[0]),
        line=texts[1],
        spans=(Span(1, 0, len(texts[1])),),
        cues={"role": 0.9, "agreed": 1.0, "clear": 1.0, "weakest": 1.0, "steady": 1.0, **told},
    )
    fields = with_printed_names(read(*texts, maker=maker, range_=range_), known).fields
    assert (fields["maker"].value, fields["maker"].state) == (texts[0], State.SURE)
    assert (fields["range"].value, fields["range"].state) == (texts[1], State.SURE)
    third = replace(range_, others=("Saltvinter",))
    fields = with_printed_names(read(*texts, maker=maker, range_=third), known).fields
    assert fields["range"].state is State.DOUBTFUL


def test_a_name_that_only_its_place_took_for_the_maker_is_the_range(known: KnownNames) -> None:
    told = {"unanimous": 1.0, "witnessed": 1.0, "agreed": 1.0, "clear": 1.0}
    first = Field(
        "maker",
        "Zia Bruna",
        0.6,
        State.DOUBTFUL,
        line="Zia Bruna",
        spans=(Span(1, 0, 9),),
        others=("Moravela",),
        reason=f"{PLACE_ONLY} 'Zia Bruna' is the maker",
        cues={"role": 0.52, "weakest": 1.0, "steady": 1.0, **told},
    )
    second = doubtful("range", "Moravela")
    fields = with_printed_names(
        read("Moravela", "Zia Bruna", maker=first, range_=second), known
    ).fields
    assert (fields["maker"].value, fields["maker"].state) == ("Moravela", State.SURE)
    assert (fields["range"].value, fields["range"].state) == ("Zia Bruna", State.SURE)
    saying = replace(first, reason="'Zia Bruna' may be a saying and no maker")
    fields = with_printed_names(
        read("Moravela", "Zia Bruna", maker=saying, range_=second), known
    ).fields
    assert fields["range"].state is State.DOUBTFUL


def test_a_known_maker_that_is_printed_with_another_letter_is_asked_about() -> None:
    known = KnownNames()
    known.add("DEN TROTTE ALKEN")
    reading = read("Den Trøtte Alken", maker=doubtful("maker", "Den Trøtte Alken"))
    maker = with_printed_names(reading, known).fields["maker"]
    assert (maker.value, maker.state) == ("Den Trøtte Alken", State.DOUBTFUL)
    assert maker.others[:1] == ("DEN TROTTE ALKEN",)


def test_a_web_address_does_not_give_a_maker_other_letters() -> None:
    known = KnownNames()
    known.add("DEN TROTTE ALKEN")
    maker = doubtful("maker", "Den Trøtte Alken")
    found = with_printed_names(read("www.dentrottealken.example", maker=maker), known)
    assert found.fields["maker"].value == "Den Trøtte Alken"
    assert found.fields["maker"].state is State.DOUBTFUL
