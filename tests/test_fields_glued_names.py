"""Names of maker and range that run into other print, and captions that run into each other."""

from __future__ import annotations

import pytest

from intake.fields.parse import parse
from intake.records import Field, State
from tests.line_making import line_from, lines_from, placed

MAKER = "Gale Orchard Spinners"
NAMES_AND_CODES = ("range", "shade_code", "shade", "lot")
REST = ("50 g = 120 m", "Shade 204 Heron", "Lot 88123")


def parsed(*texts: str) -> dict[str, Field]:
    return parse(lines_from(*texts), ())


def is_sure(field: Field, value: object) -> bool:
    return field.value == value and field.state is State.SURE


@pytest.mark.parametrize(
    "name",
    ["Flaxner & Sohn, Spinnerei", "Quarlock & Daughters, Spinners", "Moreau et Fils, Filature"],
)
def test_a_word_of_the_trade_behind_a_comma_belongs_to_the_makers_name(name: str) -> None:
    assert is_sure(parsed(name, "Morvello", *REST)["maker"], name)


def test_the_comma_between_the_two_lines_of_a_name_is_kept() -> None:
    found = parsed(
        "Quarlock & Daughters,", "Spinners", "Shade 204 Heron", "Lot 88123", "50 g 120 m"
    )
    assert found["maker"].value == "Quarlock & Daughters, Spinners"


@pytest.mark.parametrize(
    ("maker", "range_", "name"),
    [
        ("Spinnerei Marsbach", "Lunetto Terra", "Spinnerei Marsbach Lunetto Terra"),
        ("Marsani Filati", "Lunetto Terra", "Lunetto Terra Marsani Filati"),
        ("Marsby Uldspind", "Lunetto Terra", "Marsby Uldspind Lunetto Terra"),
    ],
)
def test_a_long_name_on_a_tag_without_a_range_is_asked_about_as_two(
    maker: str, range_: str, name: str
) -> None:
    found = parsed(name, *REST)
    assert (found["maker"].value, found["range"].value) == (maker, range_)
    assert "in one line" in found["maker"].reason
    assert "in one line" in found["range"].reason


@pytest.mark.parametrize("name", ["Filature du Moulin Vert", "Flaxner & Daughters Yarns"])
def test_a_long_name_that_is_held_together_is_sure_without_a_range(name: str) -> None:
    assert is_sure(parsed(name, *REST)["maker"], name)


def test_a_long_name_that_the_web_address_spells_is_sure_without_a_range() -> None:
    found = parsed("Lunetto Terra Marsani Filati", "www.lunettoterramarsanifilati.example", *REST)
    assert is_sure(found["maker"], "Lunetto Terra Marsani Filati")


def test_a_saying_that_ends_with_a_full_stop_is_no_range() -> None:
    assert parsed(MAKER, "Soft as a sunday.", *REST)["range"].value != "Soft as a sunday"


def test_a_number_below_a_range_in_its_size_is_asked_about() -> None:
    found = parsed(MAKER, "Summerfold", "22", *REST)
    assert found["range"].state is not State.SURE


def test_a_range_with_its_number_is_asked_about_beside_a_shade_that_has_only_a_code() -> None:
    found = parsed(MAKER, "Ombrosella 22", "Shade 87", "Lot 27270", "50 g = 211 m")
    assert found["range"].value == "Ombrosella 22"
    assert found["range"].state is State.DOUBTFUL


def test_a_maker_that_is_the_town_of_the_address_is_asked_about() -> None:
    lines = lines_from("SCHAFZUCHTVEREIN VON", "HADEMOOR", "D-99999 Hademoor, Deutschland")
    rest = [line_from(text, 6 + number) for number, text in enumerate(("Morvello", *REST))]
    assert not is_sure(parse([*lines, *rest], ())["maker"], "HADEMOOR")


def test_a_share_whose_fibre_was_misread_is_no_sure_shade_code() -> None:
    found = parsed(MAKER, "Heron", "-62-%Polyaeryl", "38 % Polyester", "Lot 88123", "50 g 120 m")
    assert not is_sure(found["shade_code"], "62")


def test_two_codes_beside_a_name_without_captions_leave_the_code_open() -> None:
    lines = [line_from(MAKER), line_from("www.galeorchardspinners.example", 1)]
    lines += [line_from("A Diario", 3), line_from("Cereza", 5), line_from("XF-3-92", 6)]
    lines += [placed(line_from("3830", 5), right_px=120), line_from("50 g = 120 m", 8)]
    found = parse(lines, ())
    assert found["shade_code"].state is not State.SURE
    assert found["lot"].state is not State.SURE


@pytest.mark.parametrize("captions", ["Col./Bagno", "Shade / Lot", "Farbe/Partie"])
def test_one_value_beside_the_captions_of_shade_and_lot_is_asked_about(captions: str) -> None:
    beside = placed(line_from("010-211.4", 3), right_px=240)
    found = parse([line_from(MAKER), line_from(captions, 3), beside, line_from(REST[0], 5)], ())
    assert found["lot"].state is not State.SURE
    assert found["shade_code"].state is not State.SURE


def test_a_word_for_a_number_belongs_to_the_caption_before_it() -> None:
    heads = [placed(line_from("COL. NUMBER", 3), 0), placed(line_from("DYE BATH NO.", 3), 300)]
    line = line_from("COL. NUMBER DYE BATH NO.", 3)
    values = [line_from("663", 4), placed(line_from("0J668", 4), right_px=240)]
    for captions in (heads, [line]):
        found = parse([line_from(MAKER), *captions, *values, line_from(REST[0], 6)], ())
        assert is_sure(found["lot"], "0J668")
        assert is_sure(found["shade_code"], "663")


def test_a_shade_code_without_a_caption_is_asked_about_where_the_lot_is() -> None:
    texts = (MAKER, "Mistral Prima", "50 g = 120 m", "Lote 21175", "Cereza", "46847")
    sure = parsed(*texts)
    asked = parse(lines_from(*texts, second={3: "Lote 21178"}), ())
    assert is_sure(sure["shade_code"], "46847")
    assert asked["shade_code"].state is not State.SURE


@pytest.mark.parametrize(
    "name",
    [
        "Ullkammaren Mårsby",
        "Garnloftet Mårli",
        "Vävhallen Mårsta",
        "Gomitolificio Marsani",
        "Tejedora Marsal",
    ],
)
def test_a_word_of_yarn_and_a_house_names_a_maker(name: str) -> None:
    assert is_sure(parsed(name, "Lunetto", *REST)["maker"], name)


def test_a_name_below_a_maker_that_seems_to_go_on_is_no_sure_range() -> None:
    found = parsed("Coopérative Lainière du", "Haut-Marnois", *REST)
    assert not is_sure(found["range"], "Haut-Marnois")


def test_a_caption_of_a_range_in_two_languages_is_one() -> None:
    caption = line_from("DÉSIGNATION · DENOMINACIÓN", 3)
    value = placed(line_from("Courant d'Air", 3), right_px=480)
    found = parse([line_from(MAKER), caption, value, line_from("Lot 88123", 5)], ())
    assert is_sure(found["range"], "Courant d'Air")


def test_a_caption_that_is_another_word_too_is_one_in_a_row_of_captions() -> None:
    heads = ("Sorte", "Kolorit-Nr.", "Farbname", "Los")
    values = ("Ausdauer", "7-R", "Tanne", "N729/6")
    lines = [line_from("Restposten Spulenberger")]
    for row, texts, lefts_px in ((3, heads, (80, 260, 460, 660)), (5, values, (0, 300, 480, 620))):
        lines += [
            placed(line_from(text, row), left_px)
            for text, left_px in zip(texts, lefts_px, strict=True)
        ]
    found = parse([*lines, line_from("25 g = 223 m", 7)], ())
    assert [found[name].value for name in NAMES_AND_CODES] == [*values]


def test_a_caption_that_is_another_word_too_is_one_beside_one_that_fills_its_line() -> None:
    values = [line_from("Backstein - 05", 3), placed(line_from("C7954", 3), right_px=300)]
    below = [placed(line_from("farbe", 4), 60), placed(line_from("los", 4), right_px=320)]
    found = parse([line_from(MAKER), *values, *below, line_from("100 g = 255 m", 6)], ())
    assert is_sure(found["lot"], "C7954")
    assert is_sure(found["shade_code"], "05")


def test_a_garment_before_its_size_is_no_range() -> None:
    found = parsed(MAKER, *REST, "Jersey talla 40: 9 ovillos")
    assert found["range"].value != "Jersey"


def test_a_maker_with_the_word_for_a_needle_is_whole_behind_a_word_for_by() -> None:
    rest = [line_from(text, 5 + row) for row, text in enumerate(REST)]
    names = [line_from("Molenwiek"), line_from("van Breihuis De Korte Naald", 3)]
    found = parse([*names, *rest], ())
    assert is_sure(found["maker"], "Breihuis De Korte Naald")


def test_a_large_scrap_that_leads_on_to_the_range_beside_it_is_asked_about() -> None:
    scrap, name = line_from("PLANCHE À", 3), placed(line_from("BORD", 3), right_px=175)
    rest = [line_from(text, 8 + row) for row, text in enumerate(REST)]
    found = parse([line_from(MAKER), scrap, name, *rest], ())
    assert found["range"].reason == "'PLANCHE À' beside 'BORD' may belong to its name"


def test_an_a_with_dots_in_norwegian_print_is_asked_about() -> None:
    found = parsed(
        "fra Trikotasjefabrikken Bläkollen", "Høysåte", "50 g 230 m", "Fargens navn Nype"
    )
    assert "may be misread" in found["maker"].reason
