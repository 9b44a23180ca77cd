"""Firms' names told by what stands around them: an address, a word for "by", a table."""

from __future__ import annotations

from dataclasses import replace

import pytest

from intake.fields.captions import Role, find_captions
from intake.fields.parse import parse
from intake.fields.rows import with_column_captions
from intake.records import Barcode, Line, State
from tests.line_making import line_from, lines_from, placed

FACTS = ("100 % wool", "50 g = 120 m", "Shade 204 Heron", "Lot 88123")


def scaled(line: Line, factor: float) -> Line:
    """``line`` in larger print."""
    one, two, three, four = ((x * factor, y * factor) for x, y in line.quad)
    return replace(line, quad=(one, two, three, four))


def beside(left: str, right: str, row: int, gap_px: float = 60.0) -> list[Line]:
    """Two lines of one row of a table."""
    return [line_from(left, row), placed(line_from(right, row), len(left) * 15 + gap_px)]


def placed_below(down_px: float, *texts: str) -> list[Line]:
    """Lines from the second row on, moved down."""
    return [placed(line_from(text, row), 0, down_px) for row, text in enumerate(texts, start=1)]


@pytest.mark.parametrize("by", ["van", "di", "från", "fra"])
def test_a_weak_word_for_by_tells_the_maker_at_the_start_of_a_line_of_its_own(by: str) -> None:
    lines = [line_from("Dorpspomp"), *placed_below(60, f"{by} Wilgenspoel", *FACTS)]
    found = parse(lines, ())
    assert (found["maker"].value, found["range"].value) == ("Wilgenspoel", "Dorpspomp")
    assert found["maker"].state is State.SURE


@pytest.mark.parametrize(
    "name",
    [
        *("Marlpit & Daughters", "Kamgarenfabriek Leliezijl", "Wollhof Steinpichl eG"),
        *("Garnwerk Lindach", "Manifattura Bruni", "Ets. Corbeau", "Berg & Zonen"),
        *("Larkum A/S", "Lupinella S.p.A.", "Skogsrå AB", "Coöperatie Het Schaap"),
    ],
)
def test_a_firm_is_told_by_its_form_or_by_what_it_runs(name: str) -> None:
    found = parse(lines_from(name, *FACTS), ())
    assert (found["maker"].value, found["maker"].state) == (name, State.SURE)


@pytest.mark.parametrize("name", ["Wellie Wool", "Børnegarn", "Prima Lana"])
def test_a_word_for_yarn_makes_no_maker_of_a_name(name: str) -> None:
    found = parse(lines_from("Puddlejump", name, *FACTS), ())
    assert found["maker"].state is State.DOUBTFUL or found["maker"].value == "Puddlejump"


@pytest.mark.parametrize(
    "text", ["Sorteres som papir", "Bitte recyceln", "Papier à trier", "Recíclame", "Sort as paper"]
)
def test_how_a_tag_is_thrown_away_names_nobody(text: str) -> None:
    found = parse(lines_from("Pladderregn", "Regnvejr", *FACTS, text), ())
    assert text not in (found["maker"].value, found["range"].value, found["shade"].value)


def test_words_that_end_like_a_legal_form_make_no_firm_of_a_name() -> None:
    found = parse(lines_from("Ganas", *FACTS), ())
    assert found["maker"].state is State.DOUBTFUL


def test_who_a_yarn_is_by_is_no_caption_of_a_table() -> None:
    captions = ("GARENDIKTE:", "LOOPLENGTE:", "KLEUR:", "PARTIJ:", "van Wilgenspoel")
    values = ("4 mm", "120 m", "Roest", "88123", "Late Zomer")
    rows = [
        one
        for row, (left, right) in enumerate(zip(captions, values, strict=True))
        for one in beside(left, right, row)
    ]
    texts = [rows[one.line].text for one in with_column_captions(rows, find_captions(rows))]
    assert "KLEUR:" in texts
    assert "van Wilgenspoel" not in texts


@pytest.mark.parametrize("down_px", [10, 20, 30])
def test_who_a_yarn_is_by_in_the_next_line_is_no_part_of_its_name(down_px: float) -> None:
    lines = placed_below(down_px, "van Garenhuis Wilgenspoel", *FACTS)
    found = parse([scaled(line_from("Dorpspomp"), 1.2), *lines], ())["range"]
    assert (found.value, found.state) == ("Dorpspomp", State.SURE)


def test_the_only_name_with_an_address_behind_it_is_the_makers() -> None:
    found = parse(lines_from("Laubengang", *FACTS, "Rothenlaub, CH-6184 Rothenlaub, Schweiz"), ())
    assert (found["maker"].value, found["range"].value) == ("Rothenlaub", "Laubengang")


def test_a_name_right_above_an_address_in_its_size_is_the_makers() -> None:
    found = parse(lines_from("Sendero", *FACTS, "Barrientos Rojo", "16843 Barrientos, España"), ())
    assert (found["maker"].value, found["range"].value) == ("Barrientos Rojo", "Sendero")


def test_an_address_may_have_its_country_in_the_next_line() -> None:
    lines = lines_from("Sendero", *FACTS, "REBAÑO TRES CAÑADAS, 84163 Tres Cañadas,", "España")
    assert parse(lines, ())["maker"].value == "REBAÑO TRES CAÑADAS"


def test_a_firm_behind_a_sign_of_copyright_may_be_set_in_small_letters() -> None:
    found = parse(lines_from("Button Box", *FACTS, "© tolliver wick & sons ltd"), ())
    assert found["maker"].value == "tolliver wick & sons ltd"


def test_the_sign_for_and_and_the_legal_form_are_no_words_of_a_firms_name() -> None:
    found = parse(lines_from("TOLLIVER WICK & SONS LTD", "line: Seven Stiles", *FACTS), ())
    assert found["maker"].value == "TOLLIVER WICK & SONS LTD"
    assert found["range"].value == "Seven Stiles"


@pytest.mark.parametrize("words", ["Dyed in", "Garn til en genser", "Printed in Scotland"])
def test_words_that_lead_on_or_tell_what_for_name_no_range(words: str) -> None:
    found = parse(lines_from("Larkenby Yarns", words, *FACTS), ())
    assert found["range"].value is None


def test_words_in_a_column_of_captions_are_captions_known_or_not() -> None:
    rows = [("Hilo", "Buen Día"), ("Tipo", "Medium"), ("Grueso", "fino"), ("Tono", "Y0722"),
            ("Lote", "K8409")]  # fmt: skip
    lines = [line for at, row in enumerate(rows) for line in beside(*row, at)]
    found = with_column_captions(lines, find_captions(lines))
    assert {lines[one.line].text: one.role for one in found} == {
        "Hilo": Role.RANGE,
        "Tipo": Role.TOPIC,
        "Grueso": Role.TOPIC,
        "Tono": Role.SHADE,
        "Lote": Role.LOT,
    }
    assert parse(lines, ())["range"].value == "Buen Día"


def test_a_name_at_the_margin_of_two_captions_alone_stays_a_name() -> None:
    lines = [*beside("Shade", "0412", 0), *beside("Lot", "88123", 1), *beside("Kelp", "50 g", 2)]
    assert len(with_column_captions(lines, find_captions(lines))) == 2


def test_a_name_left_over_beside_a_captioned_code_is_asked_about_and_not_taken() -> None:
    tag = ("Larkenby Yarns", "Seven Stiles", "100 % wool", "50 g = 120 m", "Shade no. 204")
    lines = [*lines_from(*tag, "Lot 88123"), placed(line_from("Wickbold"), 900, 400)]
    shade = parse(lines, ())["shade"]
    assert (shade.value, shade.state) == (None, State.DOUBTFUL)
    assert "Wickbold" in shade.others
    assert "Wickbold" in shade.reason


def test_a_shade_whose_last_word_is_one_letter_is_asked_about() -> None:
    found = parse(lines_from("Larkenby Yarns", "Shade: Notte B", "Lot 88123"), ())
    assert found["shade"].state is State.DOUBTFUL


def test_a_yarn_count_is_no_shade() -> None:
    found = parse(lines_from("Larkenby Yarns", "435 tex", "Lot: 88123"), ())
    assert (found["shade"].value, found["shade_code"].value) == (None, None)


@pytest.mark.parametrize("head", ["Verflot 21052", "Partida de tinte 21052", "Kleurlot 21052"])
def test_more_words_for_a_lot_are_known(head: str) -> None:
    assert parse(lines_from(head), ())["lot"].value == "21052"


def test_a_firm_with_its_legal_form_before_its_address_goes_by_its_name_in_large() -> None:
    address = "Filatura Montesecco S.p.A., 13900 Valsorda, Italia"
    head = scaled(line_from("Filatura Montesecco"), 1.6)
    found = parse([head, *placed_below(60, "Nuvolana", *FACTS, address)], ())
    assert found["maker"].value == "Filatura Montesecco"


def test_made_in_with_its_space_lost_names_nobody() -> None:
    found = parse(lines_from("Sommerdis", *FACTS, "Fremstilleti Danmark"), ())
    assert found["maker"].value != "Fremstilleti Danmark"


def test_an_article_within_a_house_is_no_word_for_by() -> None:
    lines = lines_from("SPINNERIJ DE RIETKRAAG", "Kluutje", *FACTS, "www.rietkraag.example")
    assert parse(lines, ())["maker"].value == "SPINNERIJ DE RIETKRAAG"


def test_a_kind_of_fibre_below_a_range_in_its_size_may_belong_to_it() -> None:
    found = parse(lines_from("Filatura Montesecco", "Nuvolana", "Extrafine", "", *FACTS), ())
    assert found["range"].state is State.DOUBTFUL


def test_a_gap_in_a_lot_offers_it_whole_first() -> None:
    lot = parse(lines_from("Parti: 57 9"), ())["lot"]
    assert (lot.value, lot.state) == ("579", State.DOUBTFUL)
    assert "57" in lot.others


def test_half_of_a_barcode_is_no_lot() -> None:
    code = Barcode("EAN-13", "4022709702616", ((0, 0), (1, 0), (1, 1), (0, 1)))
    assert parse(lines_from("100 % wool", "022709", "702616"), (code,))["lot"].value is None


def test_a_lot_with_another_captions_value_much_nearer_is_asked_about() -> None:
    lines = [
        placed(line_from("tinta"), 280, 0),
        placed(line_from("15568439"), 730, 0),
        placed(line_from("422-33"), 1025, 0),
        placed(line_from("n° lotto"), 785, 55),
    ]
    lot = parse(lines, ())["lot"]
    assert (lot.value, lot.state) == ("15568439", State.SURE) or lot.state is State.DOUBTFUL


@pytest.mark.parametrize("text", ["von Birkentau", "di Cardalana", "par Lavigne"])
def test_whom_a_yarn_is_by_is_no_shade(text: str) -> None:
    found = parse([line_from("Farbton"), *placed_below(0, text)], ())
    assert found["shade"].value is None


def test_a_short_word_for_shade_before_a_number_is_a_caption() -> None:
    found = parse(lines_from("Sh. No.:4506/1", "Colour:Frosted Plum", "Lot:H805"), ())
    assert (found["shade_code"].value, found["shade"].value) == ("4506/1", "Frosted Plum")


@pytest.mark.parametrize("words", ["Så sköter du garnet", "So pflegen", "How to care for it"])
def test_a_heading_over_words_of_care_names_nobody(words: str) -> None:
    found = parse(lines_from("Sommerdis", *FACTS, words, "Hand wash"), ())
    assert words not in (found["maker"].value, found["range"].value)


def test_a_name_glued_to_a_figure_before_it_is_asked_about() -> None:
    shade = parse(lines_from("Shade 4459 0ld Gold", "Lot 88123"), ())["shade"]
    assert shade.state is State.DOUBTFUL


def test_letters_behind_a_lots_digits_are_no_caption() -> None:
    assert parse(lines_from("Lot: 8145ID"), ())["lot"].value == "8145ID"


@pytest.mark.parametrize("text", ["Parti 27427]", "Lot 8145|", "Lot 8145)"])
def test_a_lot_with_a_mark_glued_behind_it_that_closes_nothing_is_asked_about(text: str) -> None:
    assert parse(lines_from(text), ())["lot"].state is State.DOUBTFUL


def test_a_lot_in_brackets_is_sure() -> None:
    assert parse(lines_from("Lot (8145)", "50 g = 120 m"), ())["lot"].state is State.SURE


def test_a_code_at_the_end_of_a_line_is_no_length_in_the_unit_below() -> None:
    found = parse(lines_from("Lot 20-2232", "Metri", "510 m"), ())
    assert (found["lot"].value, found["length_m"].value) == ("20-2232", 510.0)


@pytest.mark.parametrize(
    "words", ["Kategori = Aran", "Varunr | 34886", "Scan voor gratis patronen"]
)
def test_words_for_a_class_or_a_number_name_neither_maker_nor_range(words: str) -> None:
    found = parse(lines_from("Larkenby Yarns", words, *FACTS), ())
    word = words.split()[0]
    assert not any(str(found[name].value).startswith(word) for name in ("maker", "range", "shade"))


def test_a_caption_in_a_second_language_is_no_range() -> None:
    found = parse(lines_from("Larkenby Yarns", "Garennaam / Produkt", "Haardvuur", *FACTS), ())
    assert found["range"].value != "Produkt"


def test_a_range_over_its_maker_in_one_size_is_asked_about() -> None:
    found = parse(lines_from("Bakenlicht", "van Draadlust", *FACTS), ())
    assert found["maker"].state is State.DOUBTFUL


@pytest.mark.parametrize("name", ["Notte B", "I Gyvelgul"])
def test_a_letter_by_itself_in_a_name_is_asked_about(name: str) -> None:
    assert parse(lines_from(f"Farge: {name}"), ())["shade"].state is State.DOUBTFUL


def test_a_town_before_its_country_is_no_maker() -> None:
    found = parse(lines_from("Pomeriggio", *FACTS, "Olmetti, Italia"), ())
    assert found["maker"].value != "Olmetti"


@pytest.mark.parametrize(
    "name",
    [
        "Brodrene Kverndal-Moe",
        "Systrarna Hallebo",
        "Jakob Wendelfink Söhne",
        "Corvisart & Cie",
        "Tintes Valderroble",
        "Sybutikken Fingerhatten",
        "Trikotasjefabrikken Lomvi",
        "Warenhaus Kesselring",
        "Verfatelier Rietkraag",
        "Spoleforeningen Krikand",
    ],
)
def test_a_house_is_told_by_whose_it_is_or_by_what_it_does(name: str) -> None:
    found = parse(lines_from(name, "Halbmond", *FACTS), ())
    assert (found["maker"].value, found["maker"].state) == (name, State.SURE)
    assert (found["range"].value, found["range"].state) == ("Halbmond", State.SURE)


def test_a_caption_of_a_number_behind_a_firm_is_its_legal_form_misread() -> None:
    lines = [
        *lines_from("Curlew"),
        placed(line_from("Moss Spinning Co. Id."), 700),
        placed(line_from("Colour"), 0, 60),
        placed(line_from("188-08 Moth Wing"), 400, 60),
        placed(line_from("Dye lot no."), 0, 110),
        placed(line_from("163B"), 400, 110),
    ]
    found = parse(lines, ())
    assert [found[name].value for name in ("shade_code", "shade", "lot")] == [
        "188-08",
        "Moth Wing",
        "163B",
    ]
    assert found["maker"].state is State.DOUBTFUL


def test_a_range_behind_a_firm_with_an_article_is_asked_about() -> None:
    found = parse(lines_from("Wolspinnerij De Grutto Weidevogel", *FACTS), ())
    assert found["maker"].state is State.DOUBTFUL


@pytest.mark.parametrize(
    ("name", "web", "state"),
    [
        ("Garenhuis Lammerzoet", "garenhuislamme", State.SURE),
        ("Garenhuis Lammerzoet Wei", "garenhuislammerzoet", State.DOUBTFUL),
    ],
)
def test_a_web_address_may_cut_a_long_name_off_within_a_word(
    name: str, web: str, state: State
) -> None:
    found = parse(lines_from(name, "Halbmond", *FACTS, f"www.{web}.example"), ())
    assert (found["maker"].value, found["maker"].state) == (name, state)
