"""Where values stand in rows and boxes: one in each stretch of a row of captions, far below a
caption on its axis, or below other print that is no value at all."""

from __future__ import annotations

from itertools import product

import pytest

from intake.fields.parse import parse
from intake.records import Field, Line, State
from tests.line_making import larger, line_from, lines_from, placed

FACTS = ("100 % wool", "50 g = 120 m")


def is_sure(field: Field, value: object) -> bool:
    return field.value == value and field.state is State.SURE


def facts(row: float = 8) -> list[Line]:
    return [line_from(text, row + at) for at, text in enumerate(("Kelderhof Spinnerij", *FACTS))]


def boxes(captions: tuple[str, ...], values: tuple[str, ...], aside_px: float) -> list[Line]:
    """Captions in a row, each with its value in the row below, set so far to the right of it."""
    heads = [placed(line_from(text), 280.0 * at) for at, text in enumerate(captions)]
    below = [placed(line_from(text, 1), 280.0 * at + aside_px) for at, text in enumerate(values)]
    return [*heads, *below]


@pytest.mark.parametrize("aside_px", [0.0, 100.0, 130.0])
def test_each_stretch_of_a_row_of_captions_holds_its_own_value(aside_px: float) -> None:
    lines = boxes(("Art.nr.", "Kleur", "Verfbad"), ("9622", "638-07", "0373"), aside_px)
    found = parse([*lines, *facts()], ())
    assert found["shade_code"].value == "638-07"
    assert found["lot"].value == "0373"


def test_a_day_in_the_last_stretch_is_known_by_itself() -> None:
    lines = boxes(("Shade", "Dye lot", "Packed on"), ("3348", "45688V", "2023-07-01"), 120.0)
    found = parse([*lines, *facts()], ())
    assert found["shade_code"].value == "3348"
    assert found["lot"].value == "45688V"


def test_a_row_that_lacks_a_value_is_not_shared_out() -> None:
    lines = boxes(("Art.nr.", "Kleur", "Verfbad"), ("9622", "638-07"), 130.0)
    found = parse([*lines, *facts()], ())
    assert not is_sure(found["lot"], "638-07")


def test_a_value_far_below_its_caption_on_its_axis_is_its_own() -> None:
    caption, value = line_from("Farve"), larger(line_from("0084"), 1.7)
    left = (caption.quad[1][0] - value.quad[1][0]) / 2
    found = parse([placed(caption, 500), placed(value, 500 + left, 110), *facts()], ())
    assert found["shade_code"].value == "0084"


@pytest.mark.parametrize("post_code", ["57190", "ZZ316YD"])
def test_what_stands_below_other_print_below_a_caption_is_asked_about(post_code: str) -> None:
    texts = ("Shade 5 Flint", "Lot no.", "Millrace Hollow, Sycamore Slough", post_code)
    found = parse(lines_from("Millrace Hollow Fibers", *texts, *FACTS), ())
    assert found["lot"].state is not State.SURE


def test_the_letters_of_a_language_before_a_caption_are_no_lot() -> None:
    captions = [line_from("SV Färg NL Kleur"), line_from("SV Färgbad NL Verfbad", 1)]
    values = [placed(line_from("234-65"), 420), placed(line_from("T27-582", 1), 420)]
    found = parse([*captions, *values, *facts()], ())
    assert is_sure(found["lot"], "T27-582")
    assert is_sure(found["shade_code"], "234-65")


def test_the_word_for_yarn_in_a_column_of_captions_announces_the_range() -> None:
    heads = lines_from("YARN", "COLOUR", "DYE BATCH")
    values = [placed(line_from(text, at), 260) for at, text in enumerate(
        ("Wheelbarrow", "Pearl (6.64)", "13P6")
    )]  # fmt: skip
    title = [line_from("Tannoch Brierfold & Co.", -3), larger(line_from("Tea Cosy", -2), 1.4)]
    found = parse([*title, *heads, *values, *(line_from(one, 6) for one in FACTS[:1])], ())
    assert found["range"].value == "Wheelbarrow"


def test_fibres_beside_their_shares_are_read_row_by_row() -> None:
    shares = [line_from("60%"), line_from("40%", 1)]
    fibres = [placed(line_from("hemp"), 80), placed(line_from("cotton", 1), 80)]
    lines = [shares[0], fibres[0], shares[1], *facts(3)[:1], *lines_from("50 g = 120 m"), fibres[1]]
    parts = parse(lines, ())["fibre"].value
    assert isinstance(parts, tuple)
    assert [(part.percent, part.fibre) for part in parts] == [(60, "hemp"), (40, "cotton")]


def test_a_kind_of_fibre_before_a_comma_belongs_to_the_line_above() -> None:
    texts = ("83% alpaca, 17% lana", "merino, 200 g = 444 m")
    parts = parse(lines_from("Filatura Sasso", *texts), ())["fibre"].value
    assert isinstance(parts, tuple)
    assert parts[1].kind == "merino"


def test_a_kind_behind_its_fibre_belongs_to_no_fibre_in_the_next_line() -> None:
    texts = ("50% algodón orgánico, 50% lino", "cotone biologico", "lino")
    parts = parse(lines_from("Filatura Sasso", *texts), ())["fibre"].value
    assert isinstance(parts, tuple)
    assert [part.kind for part in parts] == ["organic", ""]


@pytest.mark.parametrize(
    ("sentence", "code"),
    [
        ("Este ovillo es del color E0645 y procede", "E0645"),
        ("Deze bol heeft kleur 252C en komt uit", "252C"),
        ("Detta nystan har färg 71B och kommer", "71B"),
        ("Cette pelote porte le coloris 340 et provient", "340"),
    ],
)
def test_a_sentence_goes_on_behind_a_code_and_names_no_shade(sentence: str, code: str) -> None:
    found = parse(lines_from("Kelderhof Spinnerij", sentence, *FACTS), ())
    assert found["shade_code"].value == code
    assert found["shade"].value is None


@pytest.mark.parametrize(
    "street", ["Camino del Fresno, 54, 59710 Encinarredonda, España", "Lundgränd 1"]
)
def test_a_street_is_no_maker(street: str) -> None:
    lines = lines_from("Lanera Encinarredonda", street, "Col. 849", "Lote 8836567", *FACTS)
    maker = parse(lines, ())["maker"]
    assert maker.value not in ("Camino del Fresno", "Lundgränd 1")


@pytest.mark.parametrize(
    ("sold", "by"), list(product(["Verkocht", "Sælges", "Selges", "Säljs"], ["door", "af", "av"]))
)
def test_the_shop_that_sells_a_ball_is_not_its_maker(sold: str, by: str) -> None:
    lines = lines_from(
        "Zondagssloot", "Wolwerken Vlierstroom BV, 7159 VS Vlierstroom, Nederland",
        f"{sold} {by} Varuhuset Grinden", "Kleur 12 Linde", "Verfbad 7040-J", *FACTS,
    )  # fmt: skip
    assert parse(lines, ())["maker"].value == "Wolwerken Vlierstroom BV"


def test_a_stroke_between_mass_and_length_is_no_digit_and_is_asked_about() -> None:
    length = parse(lines_from("Kelderhof Spinnerij", "200g|440m", "100 % wool"), ())["length_m"]
    assert length.value == 440
    assert length.state is State.DOUBTFUL


def without_captions(*lone: str) -> Field:
    """The lot of a tag without captions, on which ``lone`` numbers stand apart."""
    names = [line_from("MILLRACE HOLLOW FIBERS"), larger(line_from("BELLROPE", 2), 1.8)]
    lines = [*names, line_from("014, Kingfisher", 5)]
    lines += [placed(line_from(text, at), 640) for at, text in enumerate(FACTS)]
    lines += [placed(line_from(text, 6), 900 + 400 * at) for at, text in enumerate(lone)]
    return parse(lines, ())["lot"]


def test_a_lot_without_a_caption_beside_another_lone_number_is_asked_about() -> None:
    assert is_sure(without_captions("48-2233"), "48-2233")
    assert without_captions("48-2233", "24").state is not State.SURE


def test_a_lot_without_a_caption_that_may_be_sizes_of_needles_is_asked_about() -> None:
    assert without_captions("2.5/3").state is not State.SURE


def left_over(*lines: Line) -> Field:
    coded = lines_from("Kelderhof Spinnerij BV", "Kleur : N45", "Charge : D70-532", *FACTS)
    range_ = larger(line_from("Hazelnacht", -3), 2)
    return parse([range_, *coded, *lines], ())["shade"]


def test_a_name_beside_a_number_labels_it_and_is_asked_about_no_more() -> None:
    sizes = [placed(line_from(text, 9), 200 + 100 * at) for at, text in enumerate(("36/37", "38"))]
    assert left_over(line_from("Schoenmaat", 9), *sizes).reason == ""
    assert "may be the name" in left_over(line_from("Schoenmaat", 9)).reason


def test_a_name_that_shares_its_line_is_asked_about_no_more() -> None:
    assert left_over(line_from("Greenwood Fibre Mark 563381", 9)).value is None
    assert left_over(line_from("Greenwood Fibre Mark 563381", 9)).reason == ""


def test_a_name_on_the_axis_of_the_code_is_kept_and_asked_about() -> None:
    head = larger(line_from("Hazelnacht", -3), 2)
    code, name = line_from("Kleur : N45", 12), line_from("Meibeuk", 13.5)
    name = placed(name, (code.quad[1][0] - name.quad[1][0]) / 2)
    rest = lines_from("Kelderhof Spinnerij BV", "Charge : D70-532", *FACTS)
    shade = parse([head, *rest, code, name], ())["shade"]
    assert shade.value == "Meibeuk"
    assert shade.state is State.DOUBTFUL


def steps(words: tuple[str, ...]) -> list[Line]:
    """Lines under each other, every second one set in by the length of a caption."""
    return [placed(line_from(text, at), 110.0 * (at % 2)) for at, text in enumerate(words)]


def test_values_in_steps_below_their_captions_are_read() -> None:
    lines = steps(("Kleur", "W7", "Partij", "1420-3"))
    found = parse([*lines, *facts()], ())
    assert found["shade_code"].value == "W7"
    assert found["lot"].value == "1420-3"


def test_a_step_that_may_lead_up_as_well_is_asked_about() -> None:
    lines = steps(("Article", "175.55", "Kleur", "W7", "Partij", "1420-3"))
    found = parse([*lines, *facts(10)], ())
    assert found["shade_code"].value == "W7"
    assert found["lot"].value == "1420-3"
    assert found["lot"].state is State.DOUBTFUL
    assert found["shade_code"].state is State.DOUBTFUL
