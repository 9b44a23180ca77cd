"""Captions in brackets behind their values, lists of shades, and print about other things."""

from __future__ import annotations

from dataclasses import replace

import pytest

from intake.fields.amounts.quantities import find_mass_g
from intake.fields.amounts.weight import find_weight
from intake.fields.parse import parse
from intake.records import Field, Line, State
from tests.line_making import LETTER_WIDTH_PX, line_from, lines_from, placed

MAKER = "Gale Orchard Spinners"
REST = ("Mistral Prima", "50 g = 120 m", "Shade 204 Heron", "Lot 88123")


def parsed(*texts: str) -> dict[str, Field]:
    return parse(lines_from(*texts), ())


def is_sure(field: Field, value: object) -> bool:
    return field.value == value and field.state is State.SURE


@pytest.mark.parametrize(
    ("shade", "lot"),
    [
        ("72.7 (Shade)", "424/T1 (Bath)"),
        ("72.7 (Tinta)", "424/T1 (Bagno n.)"),
        ("72.7 (Farvenr.)", "424/T1 (Partinr.)"),
        ("72.7 [Farbe]", "424/T1 [Partie]"),
    ],
)
def test_a_caption_in_brackets_announces_what_stands_before_it(shade: str, lot: str) -> None:
    for texts in ((shade, lot), (lot, shade)):
        found = parsed(MAKER, "Mistral Prima", *texts, "50 g = 120 m")
        assert is_sure(found["shade_code"], "72.7")
        assert is_sure(found["lot"], "424/T1")


def test_name_and_code_before_a_caption_in_brackets_are_both_the_shade() -> None:
    found = parsed(
        MAKER, "Mistral Prima", "Rosa Antico, 67.9 (Tinta)", "H2-80 (Bagno)", "50 g 120 m"
    )
    assert (found["shade"].value, found["shade_code"].value) == ("Rosa Antico", "67.9")
    assert is_sure(found["lot"], "H2-80")


def test_a_list_of_shades_is_asked_about() -> None:
    listed = ("46 Kormoran", "48 Messing", "52 Flieder")
    lines = [line_from(MAKER), line_from("Mistral Prima", 1), line_from("Farbname", 3)]
    lines += [line_from(text, 4 + row) for row, text in enumerate(listed)]
    found = parse([*lines, line_from("Partie 88123", 9), line_from("50 g = 120 m", 10)], ())
    assert found["shade"].state is not State.SURE
    assert found["shade_code"].state is not State.SURE


@pytest.mark.parametrize(
    "text", ["3 x Pinetina", "tosa 2021", "Textilinstitut 18.HB.12926", "52 Flieder"]
)
def test_a_count_a_year_and_a_certificate_are_no_other_shades(text: str) -> None:
    lines = [line_from(MAKER), line_from("Mistral Prima", 1), line_from("Farbe: 46 Kormoran", 3)]
    lines += [line_from(text, 4), line_from("Partie 88123", 9), line_from("50 g = 120 m", 10)]
    found = parse(lines, ())
    assert ("the tag lists" in found["shade"].reason) is (text == "52 Flieder")


@pytest.mark.parametrize("text", ["Wol van onze 252 schapen, schering 2020", "Tosa 2021"])
def test_a_name_with_a_year_is_no_sure_shade(text: str) -> None:
    found = parsed(MAKER, "Mistral Prima", text, "50 g = 120 m", "Lot 88123")
    assert found["shade"].state is not State.SURE
    assert found["shade_code"].state is not State.SURE


@pytest.mark.parametrize(
    "text",
    [
        "PAP 20 · Papier: bitte zum Altpapier",
        "PAP 21 - Raccolta carta",
        "Eindcontrole tafel 22",
        "Contrôle final table 39",
        "Control final mesa 12",
        "De tint verschilt per bad: vergelijk de nummers",
        "La teinte varie d'un bain à l'autre",
        "3 FOR 2",
    ],
)
def test_print_about_other_things_is_no_shade(text: str) -> None:
    found = parsed(MAKER, "Mistral Prima", "50 g = 120 m", "Lot 88123", text)
    assert found["shade"].value is None
    assert found["shade_code"].value is None


def test_a_sentence_about_other_things_goes_on_in_the_next_line() -> None:
    told = ("Nyansen skiftar mellan baden: jämför numren innan du", "köper.")
    found = parsed(MAKER, "Mistral Prima", "50 g = 115 m", "Färgbad L76019", "Färg 3002", *told)
    assert found["shade"].value is None


def test_a_name_of_a_colour_that_is_left_over_is_asked_about() -> None:
    rest = [line_from(text, 1 + row) for row, text in enumerate(("Mistral Prima", "50 g = 120 m"))]
    far = placed(line_from("koper", 14), right_px=900)
    found = parse([line_from(MAKER), *rest, *lines_below("Kleur 3002", "Verfbad 88123"), far], ())
    assert not is_sure(found["shade"], "koper")


def lines_below(*texts: str) -> list[Line]:
    return [line_from(text, 5 + row) for row, text in enumerate(texts)]


def test_bath_below_the_caption_of_a_shade_in_its_size_is_a_caption() -> None:
    found = parsed(MAKER, "Mistral Prima", "200 g 310 m", "Colour code", "KD17", "Bath", "06-673K")
    assert is_sure(found["lot"], "06-673K")
    assert found["shade"].value is None


def test_captions_of_a_range_in_four_languages_are_one() -> None:
    caption = line_from("GARNNAMN / GAREN / GARN / HILO", 3)
    value = placed(line_from("Lilla Stranden", 3), right_px=800)
    found = parse([line_from(MAKER), caption, value, line_from("Lot 88123", 5)], ())
    assert is_sure(found["range"], "Lilla Stranden")


def test_the_caption_of_a_thickness_is_none_of_a_range() -> None:
    found = parsed(MAKER, "Mistral Prima", "Grosor del hilo:Medium", "50 g = 120 m", "Lote 88123")
    assert found["range"].value != "Medium"
    assert is_sure(found["weight_class"], "medium")


def test_a_dash_behind_the_word_line_announces_no_range() -> None:
    found = parsed(MAKER, *REST, "Peg out on the line – It wants no iron")
    assert found["range"].value == "Mistral Prima"


@pytest.mark.parametrize(
    "text", ["Densité de chaîne: 4 fils au cm", "retors: 4 fils", "Zwirn 4fach"]
)
def test_threads_of_a_weave_or_a_twist_are_no_weight(text: str) -> None:
    assert find_weight(lines_from(text)) == []


def test_worsteds_in_the_name_of_a_house_is_no_weight() -> None:
    found = parsed("by Ballinaclash Worsteds", *REST)
    assert found["weight_class"].value is None
    assert is_sure(found["maker"], "Ballinaclash Worsteds")


@pytest.mark.parametrize("text", ["1³/4 oz", "1³/₄ oz", "1 3/4 oz", "1¾ oz"])
def test_ounces_with_a_raised_fraction_are_read_whole(text: str) -> None:
    assert find_mass_g(lines_from(f"120 yards · {text}"))[0].value == 49.6


def test_a_code_without_a_caption_that_reads_otherwise_upside_down_is_asked_about() -> None:
    for code, sure in (("60/0", False), ("60/7", True)):
        name, number = line_from("Graugrün", 4), line_from("43-782", 5)
        lines = [line_from(MAKER), line_from("Mistral Prima", 1), line_from("100 g = 42 m", 2)]
        lot = placed(line_from(code, 12), right_px=LETTER_WIDTH_PX * 40)
        found = parse([*lines, name, number, lot], ())["lot"]
        assert (found.value, found.state is State.SURE) == (code, sure)


def test_by_between_two_numbers_says_whom_no_yarn_is_by() -> None:
    row = [placed(line_from(text, 0), left) for text, left in (("3", 0), ("POR", 60), ("2", 180))]
    names = [line_from("TETERA", 1), line_from("Lanas Montezarco", 3)]
    found = parse([*row, *names, *lines_below("200 g 225 m", "N.° de partida 88123")], ())
    assert not is_sure(found["maker"], "TETERA")


@pytest.mark.parametrize("name", ["Lane Montescuro & C.", "Lane Montescuro & Co."])
def test_and_company_is_part_of_a_makers_name(name: str) -> None:
    assert is_sure(parsed(name, *REST)["maker"], name)


def test_captions_on_both_sides_of_a_value_are_answered_by_it() -> None:
    lines = [line_from(MAKER), line_from("Mistral Prima", 1), line_from("50 g = 53 m", 7)]
    for row, texts in ((3, ("Shade", "98.5", "Farve")), (4, ("Dye lot", "6104", "Farvebad"))):
        lines += [placed(line_from(text, row), 150 * at) for at, text in enumerate(texts)]
    found = parse(lines, ())
    assert is_sure(found["shade_code"], "98.5")
    assert is_sure(found["lot"], "6104")
    assert found["shade"].state is State.MISSING
    assert not found["shade"].reason.startswith("nothing could be read")


@pytest.mark.parametrize(
    ("caption", "lot"), [("Indfarvning", "B 220"), ("Dye lot", "A 637"), ("färgparti", "K 168")]
)
def test_a_lot_whose_letter_stands_apart_is_taken_whole(caption: str, lot: str) -> None:
    found = parsed(MAKER, "Stormflod", "Koksgrå - T47", f"{caption} {lot}", "50 g = 120 m")["lot"]
    assert is_sure(found, lot)


@pytest.mark.parametrize("lot", ["N 4711", "L 4711", "O 4711", "B 22", "AB 4711", "B 4711 C"])
def test_a_lot_whose_letter_may_announce_it_is_asked_about(lot: str) -> None:
    found = parsed(MAKER, "Stormflod", "Koksgrå - T47", f"Dye lot {lot}", "50 g = 120 m")["lot"]
    assert found.state is not State.SURE


def test_a_lot_is_asked_about_whose_letter_only_one_reader_saw_apart() -> None:
    seen = line_from("Dye lot K 168", 3)
    other = replace(seen.readings[0], letters=seen.readings[0].letters[:9] + seen.letters[10:])
    assert other.text == "Dye lot K168"
    lines = [*lines_from(MAKER, "Stormflod", "Koksgrå - T47"), line_from("50 g = 120 m", 4)]
    for readings in ((seen.readings[0], other), (other, seen.readings[1])):
        found = parse([*lines, replace(seen, readings=readings)], ())["lot"]
        assert (found.value, found.state) == ("K 168", State.DOUBTFUL)


def test_a_lot_in_which_one_reader_saw_a_gap_is_asked_about() -> None:
    whole, apart = line_from("Dye lot K168", 3), line_from("Dye lot K 168", 3)
    lines = [*lines_from(MAKER, "Stormflod", "Koksgrå - T47"), line_from("50 g = 120 m", 4)]
    readings = (whole.readings[0], apart.readings[1])
    found = parse([*lines, replace(whole, readings=readings)], ())["lot"]
    assert (found.value, found.state) == ("K168", State.DOUBTFUL)
    assert "K 168" in found.reason
    assert is_sure(parse([*lines, whole], ())["lot"], "K168")


def test_a_caption_of_the_lot_takes_nothing_else_where_a_number_stands_behind_it() -> None:
    found = parsed(MAKER, "Stormflod", "Koksgrå - T47", "Indfarvning (B) 220", "50 g = 120 m")
    assert found["lot"].value != "T47"


def test_a_fibre_in_several_languages_is_no_caption_of_a_range() -> None:
    fibre, name = line_from("wool/ull/uld/Wolle 80 %", 3), placed(line_from("Stormflod", 2), 150)
    found = parse([line_from(MAKER), name, fibre, line_from("polyamid 20 %", 4)], ())
    assert not found["range"].cues.get("caption")


def test_a_house_with_its_number_in_a_row_of_houses_is_no_shade() -> None:
    found = parsed(MAKER, *REST[:2], "Dye lot 88123", "14 Tanner's Row, Ottermere")
    assert found["shade_code"].value != "14"


def test_a_name_with_a_number_in_the_largest_print_is_no_sure_shade() -> None:
    large = line_from("Pastora 4", 0)
    (left, top), (right, _), (_, bottom), _ = large.quad
    quad = ((left, top), (2 * right, top), (2 * right, 2 * bottom), (left, 2 * bottom))
    lines = [replace(large, quad=quad), line_from(MAKER, 3), line_from("Lote 84-894", 6)]
    found = parse([*lines, line_from("330 m, 50 g", 8)], ())
    assert not is_sure(found["shade"], "Pastora")
    assert not is_sure(found["shade_code"], "4")


def test_a_lot_and_a_shade_alone_are_asked_about() -> None:
    scrap = parsed("Farbe", "A-110", "Partie", "40870", "Preis 9,50 €")
    assert (scrap["lot"].value, scrap["lot"].state) == ("40870", State.DOUBTFUL)
    assert is_sure(parsed("Farbe", "A-110", "Partie", "40870", "50 g = 120 m")["lot"], "40870")


def test_a_caption_in_brackets_in_a_box_of_its_own_announces_what_stands_before_it() -> None:
    lines = [line_from(MAKER), line_from("Mistral", 1), line_from("Honing, 24.8", 3)]
    lines.append(placed(line_from("(Kleurstelling)", 3), 13.5 * LETTER_WIDTH_PX))
    lines.append(line_from("K0177", 5))
    lines.append(placed(line_from("(Kleurbad nr.)", 5), 6.5 * LETTER_WIDTH_PX))
    found = parse([*lines, line_from("ca. 200 m/50 g", 7)], ())
    assert (found["shade"].value, found["shade_code"].value) == ("Honing", "24.8")
    assert is_sure(found["lot"], "K0177")


def test_captions_at_the_heads_of_deep_cells_announce_what_stands_below_them() -> None:
    heads = ("Coul.", "Lot", "Longueur")
    cells = ("0510 Rose thé", "32388/1", "175 m")
    lines = [line_from(MAKER), line_from("50 g", 1), line_from("Ventoril", 3)]
    for row, texts in ((5, heads), (8, cells)):
        lines += [placed(line_from(text, row), 350 * at) for at, text in enumerate(texts)]
    found = parse(lines, ())
    assert (found["shade"].value, found["shade_code"].value) == ("Rose thé", "0510")
    assert found["lot"].value == "32388/1"


def test_values_in_one_box_below_captions_of_their_own_are_parted_at_their_margins() -> None:
    lines = lines_from("Filati Mondorana", "Ranaluce", "50 g - 120 m")
    lines += [line_from("Col.", 4), placed(line_from("Lotto", 4), 12 * LETTER_WIDTH_PX)]
    found = parse([*lines, line_from("8947 Prugna 98782", 5)], ())
    assert (found["shade"].value, found["shade_code"].value) == ("Prugna", "8947")
    assert is_sure(found["lot"], "98782")
    astray = [*lines[:3], line_from("Col.", 4), placed(line_from("Lotto", 4), 9 * LETTER_WIDTH_PX)]
    assert not is_sure(parse([*astray, line_from("8947 Prugna 98782", 5)], ())["lot"], "98782")
