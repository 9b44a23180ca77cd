"""Lot, shade, code, maker and range: found by caption, place, neighbours and shape.

The layouts and words are common practice, no source; all names are invented.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from intake.fields.captions import Role, find_captions
from intake.fields.clutter import find_clutter
from intake.fields.codes import code_and_name, leading_code
from intake.fields.parse import parse
from intake.records import Barcode, FibrePart, Line, State
from tests.line_making import LINE_PITCH_PX, line_from, lines_from


def values(lines: list[Line], *names: str) -> dict[str, object]:
    fields = parse(lines, [])
    return {name: fields[name].value for name in names}


@pytest.mark.parametrize(
    ("line", "role"),
    [
        ("Dye lot: 00412", Role.LOT),
        ("LOT NO. 7731", Role.LOT),
        ("Batch 12/4", Role.LOT),
        ("Partie-Nr. 00412", Role.LOT),
        ("Partienr.00412", Role.LOT),
        ("Chargen-Nr. 3220G", Role.LOT),
        ("Färbung 3220", Role.LOT),
        ("Bain n° 00412", Role.LOT),
        ("Bagno: 4410", Role.LOT),
        ("Baño 4410", Role.LOT),
        ("Verfbad 4410", Role.LOT),
        ("Färgbad 4410", Role.LOT),
        ("Badnr. 4410", Role.LOT),
        ("Farvebad 4410", Role.LOT),
        ("Fargeparti 4410", Role.LOT),
        ("Partie / Bain / Lot: 00412", Role.LOT),
        ("Part1e: 00412", Role.LOT),
        ("Shade 17", Role.SHADE),
        ("Farbe: Nebel", Role.SHADE),
        ("Fb. 17", Role.SHADE),
        ("Coloris 17", Role.SHADE),
        ("Kleur 17", Role.SHADE),
        ("Art. 4711", Role.NUMBER),
        ("Tel. 0123 456789", Role.NUMBER),
    ],
)
def test_captions_of_nine_languages_are_known(line: str, role: Role) -> None:
    captions = find_captions(lines_from(line))
    assert [caption.role for caption in captions] == [role]


def test_a_name_that_only_begins_like_a_caption_is_none() -> None:
    assert find_captions(lines_from("Lottehaven", "Batchworth", "Coloma")) == []


@pytest.mark.parametrize(
    ("text", "code", "name"),
    [
        ("0075 Nebelgrün", "0075", "Nebelgrün"),
        ("Nebelgrün 0075", "0075", "Nebelgrün"),
        ("Nebel (0075)", "0075", "Nebel"),
        ("12-345 Rosa & Blu", "12-345", "Rosa & Blu"),
        ("Soft Rose / 12", "12", "Soft Rose"),
        ("Nebel", None, "Nebel"),
        ("02-Kiesel", "02", "Kiesel"),
        ("A117", "A117", None),
        ("N13-5b1", "N13-5b1", None),
        ("n° 0412", "0412", None),
    ],
)
def test_code_and_name_are_parted_in_any_order(
    text: str, code: str | None, name: str | None
) -> None:
    found_code, found_name = code_and_name(text)
    assert (found_code.text if found_code else None) == code
    assert (found_name.text if found_name else None) == name


def test_small_letters_within_a_code_make_it_less_likely() -> None:
    plain, odd = leading_code("1234"), leading_code("l234")
    assert plain is not None
    assert odd is not None
    assert odd.shape < plain.shape


def test_values_stand_behind_their_captions() -> None:
    lines = lines_from("Fjordmoor Garne", "Farbe 0075 Nebelgrün", "Partie 00412")
    assert values(lines, "shade", "shade_code", "lot") == {
        "shade": "Nebelgrün",
        "shade_code": "0075",
        "lot": "00412",
    }


def test_values_stand_below_their_captions() -> None:
    lines = lines_from("Fjordmoor Garne", "Dye lot", "00412", "Shade", "Nebelgrün")
    assert values(lines, "shade", "lot") == {"shade": "Nebelgrün", "lot": "00412"}


@pytest.mark.parametrize(
    "line", ["Farbe/Partie: 0075/00412", "Shade / Lot 0075 / 00412", "Col. - Bagno 0075 00412"]
)
def test_captions_in_a_row_share_the_values_behind_them(line: str) -> None:
    found = values(lines_from(line), "shade_code", "lot")
    assert found == {"shade_code": "0075", "lot": "00412"}


def test_a_value_that_two_captions_cannot_share_is_given_to_neither() -> None:
    lot = parse(lines_from("Farbe/Partie: 0075"), [])["lot"]
    assert lot.state is not State.SURE


def test_a_caption_with_nothing_beside_it_is_asked_about() -> None:
    code = parse(lines_from("Farbe Nr.", "Partie 00412"), [])["shade_code"]
    assert (code.value, code.state) == (None, State.DOUBTFUL)
    assert "Farbe Nr." in code.reason


@pytest.mark.parametrize("line", ["Cód. color 1687/9", "Art. Farbe: 1687/9"])
def test_a_caption_of_two_words_announces_a_shade(line: str) -> None:
    assert values(lines_from(line, "Lote 00412"), "shade_code") == {"shade_code": "1687/9"}


def test_a_code_that_begins_like_a_short_caption_stays_whole() -> None:
    assert values(lines_from("Farbe FV32", "Partie 00412"), "shade_code") == {"shade_code": "FV32"}


def test_a_firm_named_in_small_print_is_the_maker_and_the_heading_the_range() -> None:
    lines = lines_from("Lucciola", "Partie 00412", "Filatura Montebruno, I-20121 Monte")
    found = values(lines, "maker", "range")
    assert found == {"maker": "Filatura Montebruno", "range": "Lucciola"}


@pytest.mark.parametrize("line", ["Colour lot 00412", "Farb-Partie: 00412"])
def test_a_caption_of_two_words_announces_a_lot(line: str) -> None:
    assert values(lines_from(line), "lot", "shade_code") == {"lot": "00412", "shade_code": None}


def test_the_largest_print_on_top_is_the_maker_and_what_stands_below_the_range() -> None:
    lines = lines_from("Kronwinkel Garne", "Flockenfein", "Farbe 0075 Nebel", "Partie 00412")
    assert values(lines, "maker", "range") == {
        "maker": "Kronwinkel Garne",
        "range": "Flockenfein",
    }


def test_a_word_of_the_trade_alone_is_no_whole_name() -> None:
    assert parse(lines_from("Lanas", "Partie 00412"), [])["maker"].state is State.DOUBTFUL


def test_article_numbers_and_telephones_are_no_lots() -> None:
    lines = lines_from("Art. 48151", "Tel. +49 123 456789", "Farbe 0075 Nebel", "Partie 00412")
    fields = parse(lines, [])
    assert fields["lot"].value == "00412"
    assert fields["lot"].others == ()


def test_a_sentence_about_lots_announces_none() -> None:
    lines = lines_from("Use one dye lot for the whole garment", "Shade 17 Dusk")
    assert parse(lines, [])["lot"].state is State.MISSING


def test_digits_under_a_barcode_are_clutter() -> None:
    lines = lines_from("4 006381 333931", "00412")
    corners = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    spans = find_clutter(lines, [Barcode("EAN-13", "4006381333931", corners)])
    assert [(span.line, span.start, span.end) for span in spans] == [(0, 0, 15)]


def test_a_lot_on_which_the_readers_differ_is_never_sure() -> None:
    agreeing = parse(lines_from("Partie 00412"), [])["lot"]
    lines = lines_from("Partie 00412", second={0: "Partie 0O412"})
    differing = parse(lines, [])["lot"]
    assert differing.state is State.DOUBTFUL
    assert "0O412" in differing.reason
    assert "0O412" in differing.others
    assert differing.confidence < agreeing.confidence


def test_two_different_lots_are_asked_about() -> None:
    lot = parse(lines_from("Lot 00412", "Lot 00413"), [])["lot"]
    assert lot.state is State.DOUBTFUL
    assert {str(lot.value), *lot.others} == {"00412", "00413"}


def test_a_gap_in_a_lot_is_asked_about() -> None:
    lot = parse(lines_from("Lot 12 345"), [])["lot"]
    assert lot.state is State.DOUBTFUL


@pytest.mark.parametrize("line", ["Lot 87- 14-0", "Lot 9220 -J", "Lot 9220]5"])
def test_a_lot_whose_print_goes_on_is_asked_about(line: str) -> None:
    lot = parse(lines_from(line), [])["lot"]
    assert lot.state is State.DOUBTFUL
    assert "may be part of it" in lot.reason


def test_a_scrap_of_print_right_beside_a_lot_is_asked_about() -> None:
    lot_line, scrap = lines_from("Partie 9220", "J")
    beside = replace(scrap, quad=((170.0, 0.0), (185.0, 0.0), (185.0, 30.0), (170.0, 30.0)))
    lot = parse([lot_line, beside], [])["lot"]
    assert lot.state is State.DOUBTFUL
    assert "'J' stands right beside the lot '9220'" in lot.reason


def test_a_stroke_between_two_captions_may_be_read_as_a_letter() -> None:
    assert values(lines_from("Bain de teinture I Bad", "870.8"), "lot") == {"lot": "870.8"}


def at(line: Line, left: float, top: float) -> Line:
    """``line`` moved to another place."""
    (x0, y0), (x1, _), (_, y2), _ = line.quad
    right, bottom = left + x1 - x0, top + y2 - y0
    return replace(line, quad=((left, top), (right, top), (right, bottom), (left, bottom)))


def test_captions_stacked_in_several_languages_announce_one_value() -> None:
    texts = ("Farbe", "Colour", "Coloris", "Gris Souris", "Trocknen", "Partie", "00412")
    places = ((0, 0), (0, 40), (0, 80), (300, 40), (900, 80), (0, 200), (300, 200))
    lines = [
        at(line, left, top) for line, (left, top) in zip(lines_from(*texts), places, strict=True)
    ]
    assert values(lines, "shade", "lot") == {"shade": "Gris Souris", "lot": "00412"}


def test_captions_under_each_other_with_a_value_each_are_no_stack() -> None:
    texts = ("Fargetone", "Pear", "Farge", "82-149", "Parti", "00412")
    places = ((0, 0), (300, 0), (0, 40), (300, 40), (0, 80), (300, 80))
    lines = [
        at(line, left, top) for line, (left, top) in zip(lines_from(*texts), places, strict=True)
    ]
    assert values(lines, "shade", "shade_code", "lot") == {
        "shade": "Pear",
        "shade_code": "82-149",
        "lot": "00412",
    }


def test_a_caption_glued_to_its_code_is_no_part_of_the_lot() -> None:
    assert values(lines_from("VERFBADJ1M82"), "lot") == {"lot": "J1M82"}
    assert parse(lines_from("Lot VERFDADJ1M82"), [])["lot"].state is State.DOUBTFUL


def test_a_caption_that_was_misread_names_no_shade() -> None:
    lines = lines_from("Farve nr.", "0075", "Fargeko de", "Sand")
    assert parse(lines, [])["shade"].value != "Fargeko de"


def test_a_dash_within_a_code_does_not_part_it() -> None:
    assert values(lines_from("Farve Koks (149–82)"), "shade", "shade_code") == {
        "shade": "Koks",
        "shade_code": "149-82",
    }


@pytest.mark.parametrize("line", ["Lot TOL83", "Lot 4I17"])
def test_a_lot_in_which_a_letter_looks_like_a_digit_is_asked_about(line: str) -> None:
    lot = parse(lines_from(line), [])["lot"]
    assert lot.state is State.DOUBTFUL
    assert "look alike" in lot.reason


def test_a_number_sign_takes_no_letter_off_a_lot() -> None:
    assert values(lines_from("Lot N03113"), "lot") == {"lot": "N03113"}
    assert values(lines_from("Lot no. 03113"), "lot") == {"lot": "03113"}


def test_a_name_that_nothing_says_to_be_the_shade_is_asked_about() -> None:
    shade = parse(lines_from("Kronwinkel Garne", "Flockenfein", "Nebel", "Partie 00412"), [])[
        "shade"
    ]
    assert shade.state is not State.SURE


def test_a_kind_of_fibre_that_stands_apart_is_asked_about() -> None:
    lines = lines_from("75% Schurwolle 25% Polyamid", "50 g = 125 m", "(Merino superwash)")
    fibre = parse(lines, [])["fibre"]
    assert fibre.state is State.DOUBTFUL or "merino superwash" in str(fibre.value)


def test_words_of_care_behind_a_broken_line_are_no_shade() -> None:
    lines = lines_from("Hand wash. Dry in", "shade. tumble dry", "Shade: Prugna", "Lot 00412")
    assert parse(lines, [])["shade"].value == "Prugna"


def test_a_shade_that_is_named_like_a_maker_is_asked_about() -> None:
    shade = parse(lines_from("Shade: Laines du Valbrun", "Lot 00412"), [])["shade"]
    assert shade.state is State.DOUBTFUL


@pytest.mark.parametrize("line", ["Desde 1941", "Siden 1935", "Cert. no. 55.77453"])
def test_a_year_or_a_certificate_is_no_shade(line: str) -> None:
    lines = lines_from("Kronwinkel Garne", "Flockenfein", line, "0075 Nebelgrün", "Partie 00412")
    assert values(lines, "shade", "shade_code") == {"shade": "Nebelgrün", "shade_code": "0075"}


def test_a_gauge_under_a_caption_is_not_its_value() -> None:
    code = parse(lines_from("Kronwinkel Garne", "Partie 00412", "Farb-Nr.", "10 cm"), [])
    assert code["shade_code"].value is None


def test_two_codes_in_one_line_are_asked_about() -> None:
    code = parse(lines_from("Färg M51166-26 P0601 Björk", "Parti nr 00412"), [])["shade_code"]
    assert code.state is State.DOUBTFUL


def test_a_kind_of_fibre_by_itself_is_no_shade() -> None:
    assert (
        parse(lines_from("Kronwinkel Garne", "Partie 00412", "(mérinos)"), [])["shade"].value
        is None
    )


def test_a_lot_that_ends_like_a_count_of_rows_is_found_without_a_caption() -> None:
    lines = lines_from("Kronwinkel Garne", "Flockenfein", "600 - Salbei", "04-694R")
    assert values(lines, "lot") == {"lot": "04-694R"}


def test_a_needle_size_that_was_read_unclearly_is_left_empty_and_asks_nothing() -> None:
    needle = parse(lines_from("Nadeln 3,5 mm", second={0: "Nadeln 8,6 mm"}), [])["needle_mm"]
    assert (needle.value, needle.state) == (None, State.MISSING)


def test_mulberry_is_a_shade_though_silk_is_called_so_too() -> None:
    lines = lines_from("Kronwinkel Garne", "Flockenfein", "Shade Mulberry", "Lot 00412")
    assert values(lines, "shade") == {"shade": "Mulberry"}


def test_a_number_without_a_caption_may_be_a_length_that_was_not_made_out() -> None:
    tag = ("Kronwinkel Garne", "Flockenfein", "0075 Nebelgrün", "100% Wolle", "{}", "38612")
    measured = lines_from(*(line.format("50 g / 120 m") for line in tag))
    unmeasured = lines_from(*(line.format("50 g") for line in tag))
    assert parse(unmeasured, [])["lot"].state is State.DOUBTFUL
    assert "length" in parse(unmeasured, [])["lot"].reason
    assert "length" not in parse(measured, [])["lot"].reason


@pytest.mark.parametrize(
    ("line", "role"),
    [
        ("Färgbadsnummer 00412", Role.LOT),
        ("Innfargingsnummer: 00412", Role.LOT),
        ("Indfarvningsnr. 00412", Role.LOT),
        ("Numéro de bain 00412", Role.LOT),
        ("Numero di bagno 00412", Role.LOT),
        ("Número de baño 00412", Role.LOT),
        ("Los-Nr. 00412", Role.LOT),
        ("Numero colore 041", Role.SHADE),
        ("Numéro de coloris 041", Role.SHADE),
        ("Inhalt 50 g", Role.TOPIC),
        ("Put-up 50 g", Role.TOPIC),
    ],
)
def test_long_captions_are_captions_as_a_whole(line: str, role: Role) -> None:
    (caption,) = find_captions(lines_from(line))
    assert (caption.role, caption.start) == (role, 0)


def test_a_caption_that_asks_for_a_number_names_no_shade_in_another_line() -> None:
    fields = parse(lines_from("Numero colore", "Espliego", "Bagno 0412"), [])
    assert fields["shade"].state is not State.SURE


@pytest.mark.parametrize(
    "address",
    ["40172 Zarzalejar, España", "571 43 Kvarnlida, Sverige", "Cinderby Hollow 30819, USA"],
)
def test_a_town_with_its_code_and_country_is_neither_shade_nor_code(address: str) -> None:
    fields = parse(lines_from("Lot 0412", "50 g", address), [])
    assert fields["shade"].value is None
    assert fields["shade_code"].value is None


@pytest.mark.parametrize(
    ("name", "reason"),
    [
        ("Orvendale", "nothing but its place says that 'Orvendale' is the maker"),
        ("Garn Myrull", "may be the name of a yarn"),
        ("Les Écheveaux de", "seems to go on"),
    ],
)
def test_a_name_that_nothing_backs_is_asked_about_as_the_maker(name: str, reason: str) -> None:
    fields = parse(lines_from(name, "Shade Kelp 041", "Lot 0412", "50 g = 210 m"), [])
    assert fields["maker"].state is State.DOUBTFUL
    assert reason in fields["maker"].reason


def test_a_range_by_its_maker_is_told_apart_where_the_web_address_agrees() -> None:
    lines = lines_from("Torfmoos von Eichenried", "Farbe Kelp 041", "www.eichenried.example")
    fields = parse(lines, [])
    assert (fields["maker"].value, fields["range"].value) == ("Eichenried", "Torfmoos")


@pytest.mark.parametrize("name", ["De Kluwenhof", "Huis van Wolle", "DE KLUWENHOF"])
def test_a_small_word_within_a_makers_name_does_not_part_it(name: str) -> None:
    fields = parse(lines_from(name, "Drystone", "Shade Kelp 041"), [])
    assert name in (fields["maker"].value, *fields["maker"].others)


def test_who_drew_the_pattern_is_not_the_maker() -> None:
    fields = parse(lines_from("Hollin Fold Yarns", "Drystone", "Design by Ansa Birk"), [])
    assert fields["maker"].value == "Hollin Fold Yarns"


def test_a_maker_in_two_lines_is_joined_where_the_web_address_spells_it() -> None:
    lines = lines_from("TINTORIA", "BELLOSGUARDA", "Fienile", "www.tintoriabellosguarda.example")
    assert parse(lines, [])["maker"].value == "TINTORIA BELLOSGUARDA"


def test_half_of_the_web_addresss_name_is_asked_about_as_the_maker() -> None:
    lines = lines_from("Tintoria", "Shade Kelp 041", "www.tintoriabellosguarda.example")
    assert parse(lines, [])["maker"].state is State.DOUBTFUL


def test_the_firm_that_heads_an_address_is_the_maker() -> None:
    lines = lines_from(
        "Vereda", "100 % cachemira", "© Moravela, 03147 Moravela, España", "Color Malva 07"
    )
    fields = parse(lines, [])
    assert (fields["maker"].value, fields["range"].value) == ("Moravela", "Vereda")


def test_a_town_behind_its_post_code_is_no_shade() -> None:
    fields = parse(lines_from("8431 KL Kraailand, Nederland", "Kleur Rijp 07"), [])
    assert fields["shade"].value == "Rijp"


def test_a_shade_that_begins_like_a_tax_number_is_whole() -> None:
    fields = parse(lines_from("Fargenavn Våt Skifer (00311)", "Badnummer LZ748"), [])
    assert (fields["shade"].value, fields["shade_code"].value) == ("Våt Skifer", "00311")


def test_a_name_that_begins_like_a_code_is_asked_about() -> None:
    shade = parse(lines_from("FÄRG PYOO ROST", "Lot 0412"), [])["shade"]
    assert shade.state is State.DOUBTFUL
    assert "0 was read as O" in shade.reason


def test_a_name_in_quotes_is_offered_as_the_shade() -> None:
    fields = parse(lines_from("Hollin Fold Yarns", "Drystone", "“Nebel”", "Lot 0412"), [])
    assert fields["shade"].value == "Nebel"


def test_a_shade_and_its_code_may_stand_in_a_sentence_with_the_length() -> None:
    fields = parse(lines_from("Regenblau 17-953, Los-Nr. 5953-T, 42 m auf 100 g"), [])
    assert fields["shade"].value == "Regenblau"
    assert (fields["shade_code"].value, fields["lot"].value) == ("17-953", "5953-T")


@pytest.mark.parametrize(
    ("captions", "values", "code", "lot"),
    [
        ("Col # / Lot #", "M0514 / 45-85", "M0514", "45-85"),
        ("Col. n° / Lot de teinture", "6421-0/J0736", "6421-0", "J0736"),
    ],
)
def test_two_captions_share_out_the_line_below_them(
    captions: str, values: str, code: str, lot: str
) -> None:
    fields = parse(lines_from(captions, values), [])
    assert (fields["shade_code"].value, fields["lot"].value) == (code, lot)


def test_a_code_with_a_stroke_stays_whole_behind_two_words_of_one_caption() -> None:
    fields = parse(lines_from("Shade ref. 2489/8 Dyelot 06458"), [])
    assert (fields["shade_code"].value, fields["lot"].value) == ("2489/8", "06458")


@pytest.mark.parametrize("lot", ["N03113", "NO3113"])
def test_a_lot_that_begins_like_a_number_sign_is_whole(lot: str) -> None:
    assert parse(lines_from(f"Lot {lot}"), [])["lot"].value == lot


def _in_two_columns(*rows: tuple[str, str]) -> list[Line]:
    """Rows of a wide table as they are read, the left column first."""
    left = [line_from(caption, row) for row, (caption, _) in enumerate(rows)]
    right = [
        at(line_from(value), 900.0, row * LINE_PITCH_PX) for row, (_, value) in enumerate(rows)
    ]
    return [*left, *right]


def test_the_values_of_a_wide_table_belong_to_the_captions_in_their_rows() -> None:
    lines = _in_two_columns(
        ("Quality", "Cobnut"),
        ("Dyelot", "002900"),
        ("Needles", "4 mm"),
        ("Colour code", "6306/4"),
        ("Colour name", "Oatmeal"),
        ("linen", "70 %"),
        ("cotton", ".30 %"),
    )
    fields = parse(lines, [])
    assert fields["lot"].value == "002900"
    assert (fields["shade"].value, fields["shade_code"].value) == ("Oatmeal", "6306/4")
    assert fields["range"].value == "Cobnut"
    assert fields["fibre"].value == (FibrePart("linen", "", 70), FibrePart("cotton", "", 30))


def test_a_caption_that_asks_for_a_number_leaves_a_name_beside_it_alone() -> None:
    lines = [
        line_from("Codice colore", 1),
        line_from("01", 2),
        line_from("Mora", 3),
        at(line_from("Fienile"), 250.0, LINE_PITCH_PX),
    ]
    fields = parse(lines, [])
    assert fields["shade_code"].value == "01"
    assert fields["shade"].value != "Fienile"


def test_a_kit_is_no_range() -> None:
    fields = parse(lines_from("Quality: Kit til vanter", "Lot 0412"), [])
    assert fields["range"].value is None


def test_a_lot_that_was_broken_off_its_caption_opens_the_next_line() -> None:
    lines = lines_from("Deze bol in kleur 952 Distel, verfbad", "DG928, bevat 100% hennep")
    assert values(lines, "lot", "shade", "shade_code") == {
        "lot": "DG928", "shade": "Distel", "shade_code": "952"
    }  # fmt: skip


@pytest.mark.parametrize("line", ["My name is Kelp.", "Ich heiße Kelp.", "Nombre: Kelp"])
def test_a_name_that_a_tag_calls_itself_may_be_the_shades_and_is_asked_about(line: str) -> None:
    found = parse(lines_from("Hollin Fold Spinners", line, "Lot 99213"), [])["shade"]
    assert found.value == "Kelp"
    assert found.state is State.DOUBTFUL


def test_letter_spaced_names_are_closed_up() -> None:
    lines = lines_from("H O L L I N   F O L D   S P I N N E R S", "Lot 99213", "Shade Kelp 412")
    assert values(lines, "maker") == {"maker": "HOLLIN FOLD SPINNERS"}


def test_what_a_tag_asks_of_its_buyer_names_nothing() -> None:
    found = parse(lines_from("Conservez cette étiquette.", "Lot 99213", "Teinte 412"), [])
    assert not found["shade"].value
    assert not found["maker"].value


def test_values_that_were_taken_for_one_line_are_told_apart_by_their_columns() -> None:
    heads = [at(line_from("Colore"), 0, 0), at(line_from("Bagno/Lotto"), 165, 0)]
    together = at(line_from("302-75     30015159"), 0, LINE_PITCH_PX)
    crowded = at(line_from("302-75 30015159"), 0, LINE_PITCH_PX)
    for row in (together, crowded):
        wide = replace(row, quad=((0, 40), (330, 40), (330, 70), (0, 70)))
        found = parse([*heads, wide], [])
        assert found["shade_code"].value == "302-75"
        assert found["lot"].value == "30015159"


def test_a_lot_of_one_digit_is_asked_about_for_some_of_it_may_be_lost() -> None:
    lot = parse(lines_from("Shade 28 Kelp", "Lot 7"), [])["lot"]
    assert lot.value == "7"
    assert lot.state is State.DOUBTFUL


def test_a_day_and_month_are_no_code() -> None:
    found = parse(lines_from("Mirto", "lottoLU886", "3.1."), [])
    assert found["lot"].value == "LU886"
    assert not found["shade_code"].value


def test_a_pair_without_the_caption_that_stands_elsewhere_is_asked_about_as_the_shade() -> None:
    lines = [line_from("FLEECEWATCH 61.560.2"), at(line_from("Shade no"), 900, 400)]
    code = parse([*lines, at(line_from("Lot 99213"), 0, 80)], [])["shade_code"]
    assert code.state is not State.SURE


def test_a_name_that_the_tag_spells_with_other_accents_elsewhere_is_asked_about() -> None:
    maker = parse(lines_from("Hespeloftet Gaukàs | N-3714 Gaukås, Norge", "Daggry"), [])["maker"]
    assert maker.value == "Hespeloftet Gaukàs"
    assert "Gaukås" in maker.reason


def _set(text: str, top_px: float, height_px: float, left_px: float = 0.0) -> Line:
    """A line in letters of this height, half as wide."""
    right_px, bottom_px = left_px + len(text) * height_px / 2, top_px + height_px
    quad = ((left_px, top_px), (right_px, top_px), (right_px, bottom_px), (left_px, bottom_px))
    return replace(line_from(text), quad=quad)


def test_a_name_in_two_lines_of_large_print_is_put_together_and_asked_about() -> None:
    small = [
        _set(text, 200 + 30 * row, 22) for row, text in enumerate(("100% wool", "50 g", "120 m"))
    ]
    fields = parse(
        [_set("Wollgut", 0, 60), _set("Petersil", 68, 58), _set("Sommerwind", 145, 40), *small], []
    )
    assert fields["maker"].value == "Wollgut Petersil"
    assert "stands in two lines" in fields["maker"].reason
    assert fields["range"].value == "Sommerwind"


def test_two_lines_of_large_print_alone_may_be_one_name_or_two_and_are_asked_about() -> None:
    fields = parse([_set("Larkmoor", 0, 60), _set("Drystone", 68, 60), _set("50 g", 160, 22)], [])
    assert fields["maker"].state is State.DOUBTFUL
    assert fields["range"].reason == "'Larkmoor' beside 'Drystone' may belong to its name"


def test_lines_of_another_size_are_names_of_their_own() -> None:
    fields = parse(
        [_set("Larkmoor Yarns", 0, 60), _set("Drystone", 68, 40), _set("50 g", 160, 22)], []
    )
    assert (fields["maker"].value, fields["range"].value) == ("Larkmoor Yarns", "Drystone")
    assert fields["maker"].state is State.SURE


def _with_gap(text: str, gap: float) -> Line:
    """A line whose last space is ``gap`` of its height wide, each letter 0.5 of it."""
    line, at = _set(text, 40, 30), text.rindex(" ")
    widths = [gap if number == at else 0.5 for number in range(len(text))]
    ends = [sum(widths[: number + 1]) for number in range(len(text))]
    letters = tuple(
        replace(letter, left=(end - width) / ends[-1], right=end / ends[-1])
        for letter, width, end in zip(line.letters, widths, ends, strict=True)
    )
    right = 30 * ends[-1]
    quad = ((0.0, 40.0), (right, 40.0), (right, 70.0), (0.0, 70.0))
    return replace(line, letters=letters, quad=quad)


@pytest.mark.parametrize(
    ("gap", "name", "asks"), [(0.3, "Moor DK", True), (0.5, "Moor", True), (1.1, "Moor", False)]
)
def test_the_word_for_a_weight_behind_a_ranges_name_belongs_to_it_where_it_stands_near(
    gap: float, name: str, asks: bool
) -> None:
    lines = [
        _set("Pennywort Yarns", 0, 30),
        _with_gap("Range: Moor DK", gap),
        _set("Lot: 9", 80, 30),
    ]
    fields = parse(lines, [])
    assert (fields["range"].value, fields["weight_printed"].value) == (name, "DK")
    assert ("may be part of the range's name" in fields["range"].reason) == asks


def test_a_lot_that_may_go_on_in_the_next_line_is_asked_about() -> None:
    lot = parse(lines_from("Shade: Kelp", "Dye lot: 6B", "204417"), [])["lot"]
    assert lot.state is State.DOUBTFUL
    assert lot.reason == "the lot '6B' may go on in the next line, '204417'"


def test_a_code_far_from_the_lot_is_no_part_of_it() -> None:
    lines = [_set("Dye lot: 0612", 0, 30), _set("204417", 120, 30), _set("50 g = 90 m", 200, 30)]
    assert parse(lines, [])["lot"].state is State.SURE


def test_a_single_letter_below_a_lot_may_be_its_last() -> None:
    lot = parse(lines_from("Färg nr 518 Lavgrå", "Parti nr 0042", "B"), [])["lot"]
    assert lot.reason == "the lot '0042' may go on in the next line, 'B'"


def test_a_firm_of_fibres_keeps_its_whole_name() -> None:
    assert parse(lines_from("Sagebrush Fiber Co.", "Lot 55"), [])["maker"].value == (
        "Sagebrush Fiber Co."
    )


def test_a_number_with_a_label_of_its_own_is_no_value_of_another_caption() -> None:
    """A label that nobody knows: the number behind it may be the lot, and is no shade's code."""
    fields = parse(
        lines_from("Farbton Himbeere", "Farbe", "Kettensatz-Nr. 3220G", "50 g = 165 m", "65798"), []
    )
    assert fields["shade_code"].value != "3220G"
    assert fields["lot"].state is State.DOUBTFUL
    assert "'Kettensatz-Nr. 3220G' may be it" in fields["lot"].reason


def test_letters_that_a_hyphen_joins_to_a_number_are_part_of_the_code() -> None:
    fields = parse(lines_from("Farge - FV-65", "Parti 8812"), [])
    assert fields["shade_code"].value == "FV-65"
    alone = parse(lines_from("Heidelinje 50 g = 165 m", "Himbeere", "Fb-32", "Partie 8812"), [])
    assert alone["shade_code"].state is not State.SURE


def test_a_shade_called_like_a_caption_stands_behind_its_caption() -> None:
    lines = lines_from("Färg - Kol", "8817-3", "Färgbad - B55-77")
    assert values(lines, "shade", "lot") == {"shade": "Kol", "lot": "B55-77"}
    assert values(lines_from("Kol. 12", "Färgbad 4410"), "shade_code") == {"shade_code": "12"}


def test_what_stands_above_one_caption_of_a_row_alone_is_not_its_value() -> None:
    """A table whose values stand a little aside of their captions."""
    top = [_set("Douceur d'Avril", 30, 34, 19), _set("Bergerie de Maupertas", 42, 24, 305)]
    heads = [_set("Coloris", 86, 20, 29), _set("N° de lot", 86, 20, 221)]
    row = [_set("Naturel", 121, 28, 120), _set("V839", 121, 28, 315)]
    below = [("Poids", 27), ("Longueur", 176), ("Aiguilles", 325)]
    below_them = [("100g", 68), ("385 m", 215), ("2,5mm", 354)]
    rest = [_set(text, 191, 20, left) for text, left in below]
    rest += [_set(text, 226, 26, left) for text, left in below_them]
    fields = parse([*top, *heads, *row, *rest], [])
    assert fields["shade"].value != "Douceur d'Avril"
    assert fields["lot"].value == "V839"


@pytest.mark.parametrize("printed", ["farbzahl 89", "SH. NO.- 6100", "i fargen 886"])
def test_a_caption_that_is_not_known_is_not_filed_as_the_shade(printed: str) -> None:
    fields = parse(lines_from("Wollmaus", printed, "Lot 8823"), [])
    assert fields["shade"].state is not State.SURE


def test_a_word_for_fibre_within_a_firms_name_is_no_caption() -> None:
    fields = parse(lines_from("Wintersweet by Yellow Barn Fiber Guild", "Shade 12", "Lot 8823"), [])
    assert (fields["maker"].value, fields["range"].value) == (
        "Yellow Barn Fiber Guild", "Wintersweet",
    )  # fmt: skip
