"""Sayings, prices, towns and what garments take stand where names and values do and are none."""

from __future__ import annotations

import pytest

from intake.fields.amounts.ball_count import find_packs
from intake.fields.amounts.quantities import find_length_m, find_mass_g
from intake.fields.captions import ends_request, find_captions
from intake.fields.clutter import find_addresses, find_clutter, is_town_below
from intake.fields.names.maker_doubts import begins_another, name_doubt
from intake.fields.names.no_names import names_nothing
from intake.fields.names.trade_words import is_service_text
from intake.fields.parse import heading_options, parse
from intake.records import Field, Span, State
from tests.line_making import LETTER_WIDTH_PX, larger, line_from, lines_from, placed

MAKER = "Gale Orchard Spinners"
FACTS = ("100 % wool", "50 g = 120 m")


def is_sure(field: Field, value: object) -> bool:
    return field.value == value and field.state is State.SURE


def test_a_request_that_goes_on_in_the_next_line_announces_no_lot() -> None:
    for above, ends in (("Kontroller at alle nøster har samme", True), ("Spunnet i Norge", False)):
        lines = lines_from("Innfarging nr.", above, "partinummer.")
        caption = find_captions(lines)[-1]
        assert caption.line == len(lines) - 1
        assert ends_request(lines, caption) is ends


def test_values_as_near_above_as_below_their_captions_are_asked_about() -> None:
    def tag(*rows: str) -> dict[str, Field]:
        lines = [*lines_from(MAKER, "Saltvinter", *FACTS)]
        return parse([*lines, *(line_from(text, 5 + at) for at, text in enumerate(rows))], ())

    plain = tag("Dye lot", "88123", "Shade no.", "926")
    open_ = tag("4711", "Dye lot", "88123", "Shade no.", "926")
    assert is_sure(plain["lot"], "88123")
    assert open_["lot"].state is not State.SURE


@pytest.mark.parametrize(
    "text",
    ["Anziché 11,95 EUR", "statt 12,50 €", "Was £9.50", "FÄRGAT DEN 08/10/27", "Dyed on 3/4/26"],
)
def test_what_a_price_or_a_day_stands_behind_is_clutter(text: str) -> None:
    spans = find_clutter(lines_from(text), ())
    assert any(span.end - span.start == len(text) for span in spans)


@pytest.mark.parametrize(
    "text",
    [
        "Ultimi gomitoli",
        "Últimos ovillos",
        "Letzte Knäuel",
        "Restposten",
        "Strickset Schal",
        "Nella confezione",
        "Contiene",
        "Kit de manoplas",
    ],
)
def test_what_is_sold_and_how_is_no_name(text: str) -> None:
    assert names_nothing(text)


@pytest.mark.parametrize("name", ["Garne mit Charakter", "Hilos con carácter", "Yarns with soul"])
def test_a_saying_about_yarn_is_hardly_its_maker(name: str) -> None:
    assert name_doubt(name, ())
    assert not name_doubt(f"{name.split()[0]} Quillstow", ())


def test_a_range_that_names_a_colour_beside_a_shade_that_names_none_is_asked_about() -> None:
    def tag(range_: str, shade: str) -> dict[str, Field]:
        return parse(lines_from(MAKER, range_, f"Shade: {shade}", "Lot: 88123", *FACTS), ())

    swapped = tag("Marine", "Zacht Tij")
    assert swapped["range"].state is not State.SURE
    assert swapped["shade"].state is not State.SURE
    assert tag("Zacht Tij", "Marine")["shade"].state is State.SURE


def test_the_end_of_a_sentence_is_not_offered_as_a_shade() -> None:
    texts = (MAKER, "Saltvinter", "Shade no. 926", "Lot 88123", *FACTS)
    for text, offered in (("forma", False), ("Forma", True)):
        shade = parse([*lines_from(*texts), line_from(text, 9)], ())["shade"]
        assert bool(shade.reason) is offered


def test_the_town_below_a_post_code_is_not_offered_as_a_shade() -> None:
    texts = (MAKER, "Saltvinter", "Shade no. 926", "Lot 88123", *FACTS)
    address = [line_from(f"{MAKER}, Dorpsstraat 62, B-7194", 9)]
    address.append(line_from("Stuurhaven", 10))
    assert not parse([*lines_from(*texts), *address], ())["shade"].reason
    country = [line_from("Strandtange, Danmark", 9)]
    assert not parse([*lines_from(*texts), *country], ())["shade"].reason


@pytest.mark.parametrize("text", ["Jersey adulto: unos 10 ovillos", "Sweater: about 10 balls"])
def test_what_a_garment_takes_is_no_number_of_balls(text: str) -> None:
    assert find_packs(lines_from(text)) == []


def test_a_word_for_by_beside_a_code_is_no_part_of_it() -> None:
    lines = [*lines_from(MAKER, "Saltvinter", *FACTS), line_from("Shade no. 709C", 5)]
    beside = placed(line_from("by", 5), 15 * LETTER_WIDTH_PX)
    found = parse([*lines, beside, line_from("Lot 88123", 7)], ())
    assert is_sure(found["shade_code"], "709C")


def test_a_name_that_begins_as_no_word_does_is_asked_about() -> None:
    for name, state in (("Msen Spinners", State.DOUBTFUL), ("Masen Spinners", State.SURE)):
        texts = (name, "Saltvinter", "Shade no. 926", "Lot 88123", *FACTS)
        assert parse(lines_from(*texts), ())["maker"].state is state


def test_sisters_are_a_firm_unless_a_sentence_speaks_of_them() -> None:
    assert not is_service_text("Hermanas")
    assert not is_service_text("The Three Sisters")
    assert is_service_text("please keep me with my sisters")


def test_the_end_of_a_code_is_no_sign_of_a_number_before_a_caption() -> None:
    texts = (MAKER, "Saltvinter", *FACTS)
    found = parse(lines_from(*texts, "FARVENR. 343N PARTI NR. 67128X"), ())
    assert is_sure(found["shade_code"], "343N")
    assert is_sure(found["lot"], "67128X")
    swapped = parse(lines_from(*texts, "PARTI NR. 343N FARVENR. 67128"), ())
    assert is_sure(swapped["lot"], "343N")
    apart = parse(lines_from(*texts, "FARVENR. 343 N. PARTI 67128X"), ())
    assert (apart["shade_code"].value, apart["lot"].value) == ("343", "67128X")


def test_a_town_that_begins_like_a_legal_form_is_no_part_of_the_firm() -> None:
    lines = [*lines_from("Lampwick", *FACTS, "Shade 845Y", "Lot 51061")]
    lines.append(line_from("Inchquarrie Mill, Inchquarrie, ZZ38 4DT", 9))
    lines.append(line_from("www.inchquarriemill.example", 10))
    assert parse(lines, ())["maker"].value == "Inchquarrie Mill"


def test_a_caption_in_a_row_of_a_table_without_a_value_takes_none_of_another_row() -> None:
    heads = ("Farve", "Partinr.", "Nettovægt", "Løbelængde", "Pinde")
    values = ("", "9822N", "100 g", "40 m", "16")
    lines = [line_from(MAKER), larger(line_from("Grå Mole", 2), 1.8)]
    for row, (head, value) in enumerate(zip(heads, values, strict=True)):
        lines.append(line_from(head, 5 + 1.5 * row))
        if value:
            lines.append(placed(line_from(value, 5 + 1.5 * row), 40 * LETTER_WIDTH_PX))
    found = parse([*lines, line_from("100 % akryl", 14)], ())
    assert found["shade"].value != "Grå Mole"
    assert is_sure(found["lot"], "9822N")


def test_a_lot_apart_from_its_caption_is_asked_about_where_no_shade_was_found() -> None:
    lines = [*lines_from(MAKER, "Saltvinter", *FACTS)]
    apart = parse([*lines, line_from("0238", 6), line_from("Dye lot", 7)], ())["lot"]
    beside = parse([*lines, line_from("Dye lot 0238", 7)], ())["lot"]
    assert apart.state is not State.SURE
    assert is_sure(beside, "0238")


def test_a_street_before_its_number_or_behind_it_is_an_address() -> None:
    for text in ("69 rue du Lavoir", "14 bis, quai des Brumes", "Via Roma 36"):
        assert find_addresses(lines_from(f"Les Filles, {text}"))


def test_a_firm_over_two_letter_spaced_lines_is_one_name() -> None:
    lines = [line_from("T I N T O R E R Í A"), placed(line_from("P U E R T O A L B O R", 1), -15)]
    lines += [larger(line_from("Espigón Gris", 3), 2.5), line_from("lana 100 %", 6)]
    lines += [line_from("50 g = 120 m", 7), line_from("Color 926", 8), line_from("Lote 88123", 9)]
    found = parse(lines, ())["maker"]
    assert found.value == "TINTORERÍA PUERTOALBOR"


@pytest.mark.parametrize("text", ["Emballé le 02-2022", "Packed on 3/4/26", "Tinto il 11-2024"])
def test_the_month_of_packing_or_dyeing_is_clutter(text: str) -> None:
    assert any(span.end - span.start == len(text) for span in find_clutter(lines_from(text), ()))


def test_how_far_a_ball_goes_is_no_shade() -> None:
    found = parse(lines_from(MAKER, "Lampwick", *FACTS, "100 g = 1 pair up to size 45"), ())
    assert found["shade"].value is None
    assert found["shade_code"].value is None


def test_a_few_metres_without_a_mass_are_asked_about() -> None:
    assert all(one.doubt for one in find_length_m(lines_from("35 m", "44 p")))
    assert not any(one.doubt for one in find_length_m(lines_from("35 m", "50 g")))
    assert not any(one.doubt for one in find_length_m(lines_from("Length 35 m")))


def test_a_town_below_a_post_code_in_two_parts_is_one() -> None:
    lines = lines_from("Vrångsta Ullspinneri, Storgatan 58, 971 04", "Vrångsta")
    assert is_town_below(lines, Span(1, 0, 8))
    above = lines_from("Vrångsta", "Vrångsta Ullspinneri, Storgatan 58, 971 04")
    assert not is_town_below(above, Span(0, 0, 8))


@pytest.mark.parametrize("text", ["Garnklasse", "Yarn weight", "Garnstärke", "Garendikte"])
def test_what_asks_for_the_weight_of_yarn_is_no_name(text: str) -> None:
    assert names_nothing(text)


def test_letter_spaced_digits_beside_a_code_may_be_part_of_it() -> None:
    lines = [*lines_from(MAKER, "Saltvinter", *FACTS, "Lot 88123"), line_from("Shade no. 2", 7)]
    lines.append(placed(line_from("4 5 5 6", 7), 12 * LETTER_WIDTH_PX))
    assert parse(lines, ())["shade_code"].state is not State.SURE


def test_a_firm_before_its_country_is_the_maker_all_the_same() -> None:
    texts = ("Kvarnviks Ull, Sverige", "Saltvinter", "Färg 926", "Parti 88123", *FACTS)
    assert parse(lines_from(*texts), ())["maker"].value == "Kvarnviks Ull"


def test_a_mass_before_the_needles_has_no_price() -> None:
    (found,) = find_mass_g(lines_from("100 g 4.00 mm"))
    assert found.value == 100


def test_a_shade_before_by_is_no_number_of_pairs() -> None:
    assert not find_clutter(lines_from("Coloris 4 par Atelier Poldermain"), ())
    assert find_clutter(lines_from("3 pairs of socks"), ())


def test_rhubarb_has_lost_no_letter() -> None:
    found = parse(lines_from(MAKER, "Saltvinter", "Farbe Rhabarber", "Partie 88123", *FACTS), ())
    assert is_sure(found["shade"], "Rhabarber")


def test_a_range_that_only_ends_like_a_colour_is_not_asked_about() -> None:
    texts = (MAKER, "Avondrood", "Kleur: Oudroze", "Verfbad: 88123", *FACTS)
    found = parse(lines_from(*texts), ())
    assert found["shade"].state is State.SURE
    assert "colour" not in found["range"].reason


def test_a_town_that_a_longer_name_begins_with_is_not_the_maker_for_sure() -> None:
    lines = [larger(line_from("Quillerby & Thorne"), 1.7)]
    lines += [line_from("Quillerby, ZZ7 2HM, Tel. 01632 960659", 2.2)]
    found = heading_options(lines, ())
    town, firm = sorted(found.pieces, key=lambda piece: len(piece.text))
    assert (town.text, firm.text) == ("Quillerby", "Quillerby & Thorne")
    assert begins_another(town, found)
    assert not begins_another(firm, found)


def test_a_house_of_kin_without_a_name_goes_on() -> None:
    assert name_doubt("Hilaturas Hermanos", ())
    assert not name_doubt("Bellotero Hermanos", ())


def test_yarn_that_is_dyed_by_hand_is_no_name() -> None:
    assert names_nothing("Handfärgat garn")
    assert names_nothing("Hand dyed yarn")
