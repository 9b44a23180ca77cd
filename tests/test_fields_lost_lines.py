"""Where a line of print went unseen, what is left of the tag is not taken for what it said."""

from __future__ import annotations

import numpy as np
import pytest

from fixtures.flawed_lines import Flaws, flawed
from intake.fields.amounts.quantities import find_length_m, find_mass_g
from intake.fields.captions import is_like_caption
from intake.fields.fibre.shares import find_fibre
from intake.fields.names.no_names import names_nothing
from intake.fields.names.stacks import is_set_alike
from intake.fields.names.trade_words import has_trade_word, is_named_like_a_house, is_place
from intake.fields.parse import heading_options, parse
from intake.fields.pieces import Frame, Piece, wide_gaps
from intake.records import Field, Letter, Line, Span, State
from tests.line_making import LETTER_WIDTH_PX, larger, line_from, lines_from, placed

MAKER = "Gale Orchard Spinners"


def parsed(*texts: str) -> dict[str, Field]:
    return parse(lines_from(*texts), ())


def is_sure(field: Field, value: object) -> bool:
    return field.value == value and field.state is State.SURE


def test_a_lot_without_a_caption_is_asked_about_on_a_tag_whose_shade_has_one() -> None:
    bare = parsed(MAKER, "Mistral", "85.295", "50 g = 120 m", "Shade: 23 Heron")
    assert bare["lot"].state is not State.SURE
    without_captions = parsed(MAKER, "Mistral", "23 Heron", "85295", "50 g = 120 m")
    captioned = parsed(MAKER, "Mistral", "Lot: 85.295", "50 g = 120 m", "Shade: 23 Heron")
    assert is_sure(captioned["lot"], "85.295")
    assert without_captions["lot"].value == "85295"


def test_a_lot_without_a_caption_is_asked_about_where_no_shade_was_found() -> None:
    found = parsed(MAKER, "Mistral", "10929", "50 g = 120 m", "100 % wool")
    assert found["lot"].state is not State.SURE


def test_a_code_apart_from_the_shades_name_is_asked_about_where_no_lot_was_found() -> None:
    lines = [line_from(MAKER), line_from("Mistral", 1), line_from("50 g = 120 m", 2)]
    lines += [line_from("Color", 4), line_from("Lilla", 5), line_from("6523F", 7)]
    found = parse(lines, ())
    assert found["lot"].value is None
    assert found["shade_code"].state is not State.SURE


def test_a_range_in_small_print_is_asked_about_where_the_shade_is_but_a_code() -> None:
    def tag(times: float) -> dict[str, Field]:
        lines = [larger(line_from("Gale Orchard Spinners Ltd"), 1.3)]
        lines += [larger(line_from("Krage", 2), times), line_from("100 % wool", 5)]
        lines += [line_from("150 g, 680 m", 6), line_from("Shade 744-34", 7)]
        lines += [line_from("Lot 530.5", 8), line_from("Dry flat", 9)]
        return parse(lines, ())

    small, large = tag(1.0)["range"], tag(1.6)["range"]
    assert small.value == large.value == "Krage"
    assert small.state is not State.SURE
    assert large.state is State.SURE


def test_a_range_is_asked_about_with_a_shade_that_has_no_caption_and_is_not_sure() -> None:
    lines = [larger(line_from(MAKER), 1.2), larger(line_from("WET SLATE", 2), 2.0)]
    lines += [line_from("Dew and Mist", 5), line_from("Cotton 55 %, Modal 45 %", 7)]
    lines += [line_from("25 g - 160 m", 8), line_from("Lot 118", 9)]
    found = parse(lines, ())
    assert found["shade"].state is State.DOUBTFUL
    assert found["range"].state is not State.SURE


@pytest.mark.parametrize("text", ["Peso: 3.5 oz", "1¾ oz"])
def test_ounces_alone_are_asked_about_on_a_tag_without_a_length(text: str) -> None:
    alone = parsed(MAKER, "Mistral", text, "Shade 204 Heron", "Lot 88123")["mass_g"]
    paired = parsed(MAKER, "Mistral", f"{text} - 131 yards", "Shade 204 Heron", "Lot 88123")
    assert alone.state is not State.SURE
    assert paired["mass_g"].value == alone.value
    assert paired["mass_g"].state is State.SURE


@pytest.mark.parametrize("priced", ["per 100 g: 308,00", "12,90 €/100 g", "€ 9.50 per 100 g"])
def test_the_mass_of_a_price_is_no_balls(priced: str) -> None:
    assert find_mass_g(lines_from("Linne, 100 %", priced)) == []
    (found,) = find_mass_g(lines_from("Linne, 100 %", "50 g / 125 m", priced))
    assert found.value == 50


def test_a_mass_before_a_length_has_no_price() -> None:
    (found,) = find_mass_g(lines_from("100 g: 212.50 m"))
    assert found.value == 100


def test_a_code_before_a_colour_is_no_length_on_a_tag_with_small_units() -> None:
    assert find_length_m(lines_from("Vægt: 100 g", "881M Skifer", "1588/3")) == []


def test_a_count_of_rows_is_no_length_below_a_word_for_metres() -> None:
    lines = [line_from("100 g ball, approx 320"), placed(line_from("metres", 1), 120)]
    found = find_length_m([*lines, line_from("25 sts / 36 rows (10 cm)", 3)])
    assert all(one.value != 36 for one in found)


def test_a_bracket_that_does_not_close_is_asked_about() -> None:
    (lost,) = find_fibre(lines_from("75% wool (merino", "", "25% polyamide"))
    (whole,) = find_fibre(lines_from("75% wool (merino", "superwash)", "25% polyamide"))
    assert lost.doubt
    assert not whole.doubt


def test_a_share_behind_a_colon_is_not_given_to_the_next_fibre() -> None:
    (found,) = find_fibre(lines_from("30%", "alpaca (baby): 70%; silk (mulberry):"))
    assert found.doubt


@pytest.mark.parametrize(("name", "echoed"), [("Tumble", 0.0), ("Saltmarsh", 1.0)])
def test_a_name_that_only_care_repeats_is_no_echo(name: str, echoed: float) -> None:
    lines = lines_from("Machine wash 60°C", "Tumble dry", "info@saltmarsh.example", "52 m / 50 g")
    found = heading_options([*lines, larger(line_from(name, 8), 1.3)], ())
    at = next(at for at, piece in enumerate(found.pieces) if piece.text == name)
    assert found.names[at]["echo"] == echoed


def test_a_country_names_no_range_and_a_glen_may() -> None:
    assert is_place("Canada")
    assert not is_place("Cañada")


@pytest.mark.parametrize(
    "text",
    [
        "This ball",
        "Dieses Knäuel",
        "Cette pelote",
        "Questo gomitolo",
        "Este ovillo",
        "Deze bol",
        "Detta nystan",
        "Dette nøstet",
        "Dette nøgle",
    ],
)
def test_how_a_sentence_about_the_ball_begins_is_no_name(text: str) -> None:
    assert names_nothing(text)
    assert not names_nothing(f"{text.split()[0]} Heron")


def test_a_name_behind_a_code_that_a_lots_caption_took_is_asked_about() -> None:
    lines = [*lines_from(MAKER, "Mistral", "circa 609 m", "200 g"), line_from("Bagno", 5)]
    found = parse([*lines, line_from("01 – AVORIO", 6)], ())["lot"]
    assert "AVORIO" in found.reason


def test_a_caption_that_is_another_word_too_is_like_one() -> None:
    assert is_like_caption("Los")
    assert not is_like_caption("Lotus")


def test_a_maker_and_its_range_in_one_line_leave_no_other_range_for_sure() -> None:
    lines = [larger(line_from("Wilgenkatje van Ververij"), 1.8)]
    lines += [larger(line_from("Kraailand", 2), 1.5), line_from("655 m", 5)]
    lines += [line_from("Klaver 1884, verfpartij nr. 64337F", 6), line_from("100 % zijde", 7)]
    found = parse([*lines, line_from("www.ververijkraailand.example", 9)], ())
    assert "in one line" in found["maker"].reason
    assert found["range"].state is not State.SURE


def test_another_value_below_captions_of_shade_and_lot_leaves_a_parted_one_open() -> None:
    lines = [line_from(MAKER), line_from("Mistral", 1), line_from("53 m / 50 g", 2)]
    lines += [line_from("Charge Lot Fb. Couleur", 4), line_from("9739/65", 5)]
    lines.append(placed(line_from("V537 LILAC", 5), 10 * LETTER_WIDTH_PX))
    found = parse(lines, ())
    assert not is_sure(found["lot"], "9739")
    assert not is_sure(found["shade_code"], "65")


def test_a_space_of_one_width_type_parts_no_columns() -> None:
    def monospaced(spaces: int) -> list[int]:
        text = "ROSA" + " " * spaces + "VIEJO"
        cells = [
            Letter(letter, 0.99, at / len(text), (at + 1) / len(text))
            for at, letter in enumerate(text)
        ]
        wide_px = 25.0 * len(text)
        quad = ((0.0, 0.0), (wide_px, 0.0), (wide_px, 30.0), (0.0, 30.0))
        agreed = (True,) * len(text)
        return wide_gaps(Line(quad, tuple(cells), agreed, ("",) * len(text)))

    assert monospaced(1) == []
    assert monospaced(2) != []


def test_flaws_lose_lines_and_run_neighbours_together() -> None:
    lines = [line_from("Lot", 0), placed(line_from("88123", 0), 4 * LETTER_WIDTH_PX)]
    rng = np.random.default_rng(7)
    assert flawed(lines, Flaws(lost=1.0), rng) == []
    (whole,) = flawed(lines, Flaws(joined=1.0), rng)
    assert whole.text == "Lot 88123"
    left = [letter.left for letter in whole.letters]
    assert left == sorted(left)


def test_a_share_with_a_mark_before_its_name_is_asked_about() -> None:
    lines = lines_from("5 %", "MOHAIR (KID) 65 % · SEIDE 30 % · MERINO")
    assert all(one.doubt for one in find_fibre(lines))


def test_a_share_taken_off_the_price_is_no_fibres() -> None:
    (found,) = find_fibre(lines_from("REBAJAS", "-40%", "80 % acrílico, 20 % lana"))
    assert not found.doubt
    (table,) = find_fibre(lines_from("70% Wool, 28% Nylon, 2% Elastane", "2%", "Do not bleach"))[:1]
    assert not table.doubt


@pytest.mark.parametrize("text", ["Håndfarvet", "Cardigan", "Chaqueta", "Rabatt", "Teint main"])
def test_how_it_is_made_worn_or_sold_is_no_name(text: str) -> None:
    assert names_nothing(text)


@pytest.mark.parametrize("text", ["Haus Tammerlin", "Casa Ortigueña", "Huis Wilgenhorst"])
def test_a_house_is_named_so(text: str) -> None:
    assert is_named_like_a_house(text)
    assert has_trade_word(text)
    assert not has_trade_word(text.split()[1])


def test_lines_of_one_size_are_stacked_though_one_has_letters_that_reach_down() -> None:
    def piece(text: str, top: float, height: float) -> Piece:
        frame = Frame(0.0, top, 200.0, top + height)
        return Piece(Span(0, 0, len(text)), text, frame, height)

    assert is_set_alike(piece("Trollvass", 0, 48), piece("Tynn", 50, 61))
    assert not is_set_alike(piece("Trollvass", 0, 48), piece("Fjell", 50, 80))
