"""Names of which part stands elsewhere, or that captions and signs tell apart."""

from __future__ import annotations

from dataclasses import replace

import pytest

from intake.fields.parse import parse
from intake.records import Field, Line, State
from tests.line_making import line_from, lines_from, placed

FACTS = ("100 % wool", "50 g = 120 m", "Shade 204 Heron", "Lot 88123")


def test_a_range_behind_its_caption_ends_at_a_dash_before_the_shade() -> None:
    fields = parsed("Wiesengrund Garne", "Qualität: Heidschnucke – Moosgrün", "Farb-Nr. 4417")
    assert fields["range"].value == "Heidschnucke"
    assert fields["shade"].value == "Moosgrün"
    assert fields["maker"].value == "Wiesengrund Garne"


def test_words_behind_a_dash_are_asked_about_where_the_shade_stands_elsewhere() -> None:
    fields = parsed("Wiesengrund Garne", "Qualität: Heidschnucke – Edel", *FACTS)
    assert fields["range"].value == "Heidschnucke"
    assert "'Edel' behind 'Heidschnucke'" in fields["range"].reason


def test_a_caption_with_print_behind_it_takes_no_name_above_it() -> None:
    fields = parsed("Wiesengrund Garne", "Qualität: 100 % Schurwolle", *FACTS)
    assert fields["range"].value != "Wiesengrund Garne"


@pytest.mark.parametrize("word", ["Hersteller", "Manufacturer", "Fabricant", "Fabrikant"])
def test_a_caption_of_the_maker_needs_no_colon_where_no_name_begins_so(word: str) -> None:
    fields = parsed(f"{word} Elsternest", "Uferlicht", *FACTS)
    assert (fields["maker"].value, fields["maker"].state) == ("Elsternest", State.SURE)


def test_a_brand_may_begin_a_name() -> None:
    assert parsed("Marke Wolle", "Uferlicht", *FACTS)["maker"].value == "Marke Wolle"


def test_a_maker_stands_behind_its_caption_in_a_table() -> None:
    caption, name = line_from("Hersteller", 0), placed(line_from("Elsternest", 0), right_px=220)
    fields = parse([caption, name, *lower(lines_from("Sorte: Traumsocke", *FACTS))], [])
    assert (fields["maker"].value, fields["maker"].state) == ("Elsternest", State.SURE)
    assert fields["range"].value == "Traumsocke"


def test_a_dyers_base_is_asked_about_without_its_caption() -> None:
    fields = parsed("Teinturerie Margotte", "Base Écume", *FACTS)
    assert fields["range"].value == "Écume"
    assert "'Base Écume' may be the range's whole name" in fields["range"].reason


@pytest.mark.parametrize("line", ["© Aldersyke 2021", "© 2021 Aldersyke", "© Aldersyke"])
def test_whose_copyright_it_is_is_the_maker(line: str) -> None:
    maker = parsed("Gorse", *FACTS, line)["maker"]
    assert (maker.value, maker.state) == ("Aldersyke", State.SURE)


def test_a_town_before_its_post_code_is_no_range() -> None:
    # The form of the post code is that of BS 7666-5; ZZ is no area that is in use.
    fields = parsed("Tarrant Yarns Ltd.", *FACTS, "Thornbeck ZZ21 3QX")
    assert fields["range"].value is None


def test_a_name_with_a_number_is_asked_about_and_not_passed_over() -> None:
    fields = parsed("Merinella 400 Fino", "Tarrant Yarns Ltd.", *FACTS)
    assert fields["range"].value == "Merinella 400 Fino"
    assert "has a number" in fields["range"].reason


@pytest.mark.parametrize("right_px", [38, 60])
def test_a_small_word_beside_a_name_is_asked_about(right_px: float) -> None:
    article = line_from("Le", 0)
    name = placed(line_from("Vagabond", 0), right_px=right_px)
    fields = parse([article, name, *lower(lines_from("Filature des Ormeaux", *FACTS))], [])
    assert fields["range"].value == "Vagabond"
    assert "'Le' beside 'Vagabond'" in fields["range"].reason


def test_a_word_in_small_letters_right_below_a_name_is_asked_about() -> None:
    upper, lower_half = line_from("Vinter", 0), placed(line_from("garden", 1), down_px=-8)
    rest = [placed(line, down_px=100) for line in lines_from("Filature des Ormeaux", *FACTS)]
    fields = parse([upper, lower_half, *rest], [])
    assert "'garden' beside 'Vinter'" in fields["range"].reason


@pytest.mark.parametrize(
    "words",
    [
        "Färbung von Hand",
        "Lista para tejer",
        "Ready to knit",
        "Gesponnen von Hand",
        "In kleinen Mengen von Hand gefärbt",
        "From our hills",
    ],
)
def test_how_a_yarn_was_made_or_sold_is_no_name(words: str) -> None:
    fields = parsed("Filature des Ormeaux", words, *FACTS)
    assert fields["range"].value is None
    assert fields["maker"].value == "Filature des Ormeaux"


def test_who_did_the_dyeing_is_the_maker() -> None:
    fields = parsed("Uferlicht", "Färbung von Elsternest", *FACTS)
    assert (fields["maker"].value, fields["range"].value) == ("Elsternest", "Uferlicht")


@pytest.mark.parametrize(
    ("words", "maker"),
    [
        ("Handgefärbt in der Färberei Lohse", "Färberei Lohse"),
        ("tinto a mano da Tintoria Sant'Elmo", "Tintoria Sant'Elmo"),
        ("yarn by Gillsworth & Daughters", "Gillsworth & Daughters"),
    ],
)
def test_words_of_handiwork_and_goods_lead_up_to_the_maker(words: str, maker: str) -> None:
    fields = parsed("Uferlicht", words, *FACTS)
    assert (fields["maker"].value, fields["range"].value) == (maker, "Uferlicht")


def test_a_range_before_the_code_and_the_name_of_its_shade_is_found() -> None:
    fields = parsed("Spinnerei Hagenau", "Flockenzart - 09 Nebel", *FACTS[:2], "Partie 3321")
    assert fields["range"].value == "Flockenzart"
    assert (fields["shade"].value, fields["shade_code"].value) == ("Nebel", "09")


def test_who_makes_a_yarn_for_another_house_is_not_surely_its_maker() -> None:
    fields = parsed("Cottage Loft", "Mornings", *FACTS, "Made for Cottage Loft by Ewell Ltd")
    assert (fields["maker"].value, fields["range"].value) == ("Cottage Loft", "Mornings")


@pytest.mark.parametrize(
    "lines", [("Hilos del Sauce presenta", "Vega"), ("Hilos del Sauce presents Vega",)]
)
def test_who_presents_a_range_is_its_maker(lines: tuple[str, ...]) -> None:
    fields = parsed(*lines, *FACTS)
    assert (fields["maker"].value, fields["maker"].state) == ("Hilos del Sauce", State.SURE)
    assert fields["range"].value == "Vega"


def test_the_town_of_whom_a_yarn_is_by_is_no_part_of_a_name() -> None:
    behind = parsed("Vega", "hand-dyed by Loom Lane Fibres, Tarrow", "Lot 417", "100 g = 400 m")
    assert behind["maker"].value == "Loom Lane Fibres"
    assert behind["shade"].state is State.MISSING
    shade = parsed("Filati Rocca", "Vega", "Tonalidad", "Humo de Moos, TS33", "Lote 417")
    assert (shade["shade"].value, shade["shade_code"].value) == ("Humo de Moos", "TS33")
    within = parsed("Vega", "Laget av Kveldsull i Tarrow", *FACTS)["maker"]
    assert (within.value, within.state) == ("Kveldsull", State.DOUBTFUL)
    assert "town" in within.reason


@pytest.mark.parametrize(
    ("line", "lot"),
    [("Los 93", "93"), ("Bath 417", "417"), ("Innf. 7733", "7733"), ("Indf. nr. 52", "52")],
)
def test_a_short_word_before_a_number_announces_the_lot(line: str, lot: str) -> None:
    fields = parsed("Wollhaus Immergut", "Vega", "Farbe 14 Bramble", line, "50 g = 125 m")
    assert (fields["lot"].value, fields["lot"].state) == (lot, State.SURE)
    assert fields["shade_code"].value == "14"


def test_dyed_in_a_shade_names_it_and_says_nothing_of_drying() -> None:
    fields = parsed("Lune Fibres", "Vega", "dyed in shade Ember", "Lot 417", "100 g = 400 m")
    assert (fields["shade"].value, fields["care"].value) == ("Ember", None)
    dried = parsed("Lune Fibres", "Vega", "Shade Ember", "Lot 417", "Dry flat in shade")
    assert dried["care"].value == ("dry flat", "dry in shade")
    assert dried["shade"].value == "Ember"


def test_what_a_share_is_of_names_no_range() -> None:
    fields = parsed("Garnhof Lerche", "Lot 417", "Farbe Moos", "100 % Zwirbel", "50 g = 125 m")
    assert fields["range"].value is None


def test_the_legal_form_of_a_maker_may_lack_in_its_web_address() -> None:
    maker = parsed("Birkenhügel GmbH", "Vega", *FACTS, "www.birkenhuegel.example")["maker"]
    assert (maker.value, maker.state) == ("Birkenhügel GmbH", State.SURE)


def test_a_maker_in_brackets_behind_the_range_is_the_maker() -> None:
    fields = parsed("Kvalitet: Snöhare (Färgeriet Granåsa)", "Färg: Moss", "Partinummer: 34-80")
    assert (fields["maker"].value, fields["range"].value) == ("Färgeriet Granåsa", "Snöhare")


def test_an_apostrophe_before_a_share_is_part_of_the_name() -> None:
    fields = parsed("Lune Fibres", "Tinker's Row: 92 % cotton, 8 % elastane", *FACTS[1:])
    assert fields["range"].value == "Tinker's Row"


@pytest.mark.parametrize("maker", ["Laines Verlaure", "Filati Colletersa", "Wick Spinning Co."])
def test_a_house_needs_no_range_beside_its_name(maker: str) -> None:
    field = parsed(maker, *FACTS)["maker"]
    assert (field.value, field.state) == (maker, State.SURE)


def test_wool_alone_does_not_make_a_name_that_of_a_house() -> None:
    assert parsed("Tindbru Wool", *FACTS)["maker"].state is State.DOUBTFUL


def test_an_english_lane_is_no_italian_wool() -> None:
    assert parsed("Mossdale", "Otterburn Lane", *FACTS)["maker"].state is State.DOUBTFUL
    assert parsed("Lane Vallenera", "Vega", *FACTS)["maker"].state is State.SURE


def test_a_range_that_ends_with_a_weight_is_asked_about() -> None:
    found = parsed("Lune Fibres", "Moor Medium", *FACTS)["range"]
    assert found.state is State.DOUBTFUL
    assert "the weight alone" in found.reason


def test_a_roman_two_read_as_letters_is_no_caption() -> None:
    found = parsed("Garnhof Lerche", "Uferlicht ll", *FACTS)["range"]
    assert (found.value, found.state) != ("Uferlicht", State.SURE)


def test_a_shade_behind_its_caption_may_be_a_letter_off_another_caption() -> None:
    fields = parsed("Laines Verlaure", "Vega", "Teinte Paille", "Bain 1632")
    assert fields["shade"].value == "Paille"


def test_a_code_may_be_the_lot_where_the_lots_caption_has_nothing() -> None:
    lines = ("Lune Fibres", "Vega", "Colour Sea Moss 2087", "100 g = 400 m")
    assert parsed(*lines, "Dye batch 41288")["shade_code"].state is State.SURE
    asked = parsed(*lines, "Dye lot")["shade_code"]
    assert (asked.value, asked.state) == ("2087", State.DOUBTFUL)


def test_a_reference_of_the_colour_is_its_code() -> None:
    fields = parsed("Laines Verlaure", "Vega", "Réf. coloris: 824", "Couleur Mousse", "Bain 1632")
    assert (fields["shade_code"].value, fields["shade"].value) == ("824", "Mousse")


@pytest.mark.parametrize(
    "line",
    [
        "Cruelty free", "Each skein is unique", "Laine de nos moutons", "Mill end", "Neue Qualität",
        "Jeder Strang ein Unikat", "Pezzo unico", "Edición limitada", "Lekker zacht", "Myk og varm",
        "Cada madeja es única", "Fleece from Dolly", "Pflanzengefärbt", "God fornøjelse",
    ],
)  # fmt: skip
def test_words_of_praise_are_no_maker(line: str) -> None:
    fields = parsed("Hollin Fold", line, "Colour 204", "Lot 12345", "100 g = 400 m")
    assert fields["maker"].value == "Hollin Fold"
    fields = parsed("Hollin Fold Yarns", line, "Rambler", "Shade: Ember", "Lot 12345")
    assert (fields["maker"].value, fields["shade"].value) == ("Hollin Fold Yarns", "Ember")


def test_the_name_of_a_firm_is_not_its_range_too() -> None:
    fields = parsed("THISTLEWICK", "Burr", "© Thistlewick Ltd 2024", *FACTS)
    assert (fields["maker"].value, fields["range"].value) == ("Thistlewick Ltd", "Burr")


def test_a_maker_before_a_post_code_and_its_town_is_a_name() -> None:
    fields = parsed(
        "HAVSDIS", "Färg 3317", "Parti 90412", "Norrtorp Garn AB, Box 44, 512 60 Lindby"
    )
    assert (fields["maker"].value, fields["range"].value) == ("Norrtorp Garn AB", "HAVSDIS")
    assert (fields["shade"].value, fields["shade_code"].value) == (None, "3317")


def test_what_a_maker_does_is_no_part_of_its_name() -> None:
    fields = parsed("Lyckan Garn handfärgat garn", "Vadmal", *FACTS)
    assert (fields["maker"].value, fields["range"].value) == ("Lyckan Garn", "Vadmal")
    assert parsed("Lyckan Garn", "Home Spun", *FACTS)["range"].value == "Home Spun"


@pytest.mark.parametrize("name", ["Merino Fine", "Tumble", "Retama"])
def test_a_range_may_be_named_with_words_of_fibre_or_care(name: str) -> None:
    lines = ("Filati Rocca", name, "Colore 214 Ocra", "Lotto 77102", "100% lana merino", "50 g")
    assert parsed(*lines)["range"].value == name


def test_a_shade_beside_its_code_may_be_named_with_a_word_of_fibre() -> None:
    fields = parsed("Lanas Robledal", "Vega", "85% lana – 15% seda", "10 – Natur", "Lote 417")
    assert (fields["shade"].value, fields["shade_code"].value) == ("Natur", "10")


def test_a_town_before_its_post_code_and_a_country_overseas_is_no_shade() -> None:
    lines = ("Sea Mist", "941", "Lot 417", "Lake Wick 3471, Australia")
    fields = parsed("Wick Spinning Co.", "Otterburn", *lines)
    assert (fields["shade"].value, fields["shade_code"].value) == ("Sea Mist", "941")


def test_stitches_and_rows_are_no_shade() -> None:
    fields = parsed("Garens Lerche", "Vega", "29 steken x 38 naalden", "Muisgrijs", "203-66")
    assert (fields["shade"].value, fields["shade_code"].value) == ("Muisgrijs", "203-66")


@pytest.mark.parametrize(
    ("captions", "values"),
    [
        ("Farge/Colore PARTI", "Plomme (57) 223858"),
        ("Farge / Parti", "57 Plomme 223858"),
        ("Parti / Farge", "223858 Plomme 57"),
    ],
)
def test_the_name_and_the_code_of_a_shade_stand_in_one_line_with_the_lot(
    captions: str, values: str
) -> None:
    fields = parsed("Fjell Garn", "Brim", captions, values, "100 g = 400 m")
    found = [fields[name].value for name in ("shade", "shade_code", "lot")]
    assert found == ["Plomme", "57", "223858"]


def test_a_code_right_beside_the_lot_may_be_part_of_it() -> None:
    fields = parsed("Fjell Garn", "Brim", "Farge / Parti", "Plomme 57 223858", "100 g = 400 m")
    assert fields["lot"].state is not State.SURE


def test_the_number_of_the_bath_is_not_asked_of_the_colour() -> None:
    fields = parsed("Hilos Moral", "Vega", "Col. N° de baño", "Lila 1432983", "100 g = 400 m")
    assert (fields["shade"].value, fields["lot"].value) == ("Lila", "1432983")


def test_words_for_the_same_lot_are_no_shade() -> None:
    fields = parsed("Lyngmose Uld", "Vega", "Køb nok nøgler fra", "samme parti.", "Parti 776")
    assert fields["shade"].value is None


def test_an_accent_within_a_dutch_word_is_asked_about() -> None:
    lines = ("kleur 12 Moos", "Verfbad 417", "100 % wol")
    asked = parsed("Spinnerij Lerche", "Kiévitsbloem", *lines)["range"]
    assert (asked.state, asked.others[0]) == (State.DOUBTFUL, "Kievitsbloem")
    french = parsed("Filature Lerche", "Mèche", "coloris 12 Mousse", "Bain 417")["range"]
    assert "accent" not in french.reason


def test_two_letters_behind_a_code_may_be_the_shade_and_are_asked_about() -> None:
    shade = parsed("Nordlys Garn", "Uferlicht", *FACTS[:2], "Farge 12 Is")["shade"]
    assert (shade.value, shade.state) == ("Is", State.DOUBTFUL)


def test_about_is_no_shade() -> None:
    fields = parsed("Filature des Ormeaux", "Uferlicht", "aprox 413", *FACTS[:2])
    assert fields["shade"].value is None


def test_a_small_word_far_from_a_name_is_no_part_of_it() -> None:
    article = line_from("Le", 0)
    name = placed(line_from("Vagabond", 0), right_px=120)
    fields = parse([article, name, *lower(lines_from("Filature des Ormeaux", *FACTS))], [])
    assert "'Le'" not in fields["range"].reason


def test_a_word_of_the_trade_below_a_name_belongs_to_it() -> None:
    fields = parsed("spun by", "Hob Lane", "Spinners", *FACTS)
    assert fields["maker"].value == "Hob Lane Spinners"
    assert "two lines" in fields["maker"].reason


def test_fibre_may_end_a_makers_name() -> None:
    assert parsed("Pippin & Plum Fibre", "Uferlicht", *FACTS)["maker"].value == (
        "Pippin & Plum Fibre"
    )


def test_a_web_address_may_leave_out_a_names_article() -> None:
    maker = parsed("Les Teintes de Margotte", *FACTS[:2], "Écume", "www.teintesdemargotte.example")[
        "maker"
    ]
    assert (maker.value, maker.state) == ("Les Teintes de Margotte", State.SURE)


def test_a_number_behind_a_caption_in_a_language_that_is_not_known_is_asked_about() -> None:
    fields = parsed("Fonaltanya", "Dérharmat", "50 g = 120 m", "Festésszám: 1203")
    for name in ("shade", "shade_code"):
        assert fields[name].state is not State.SURE
    assert "may be a caption" in fields["shade_code"].reason


def test_a_loose_lot_that_begins_with_a_letter_and_a_point_is_asked_about() -> None:
    fields = parsed("Tarrant Yarns Ltd.", "Uferlicht", *FACTS[:3], "P.44128")
    assert "caption of the lot" in fields["lot"].reason


def test_an_accent_that_no_language_of_the_tag_has_is_asked_about() -> None:
    fields = parsed("Havfruens Garñ", "Skumring", "100 % uld", "Løbelængde 120 m", *FACTS)
    assert "'Havfruens Garn'" in fields["maker"].reason


def test_a_tilde_on_n_is_at_home_in_spanish() -> None:
    fields = parsed("Hilaturas Peñamora", "Albufera", "Lavar a mano", *FACTS)
    assert "accent" not in fields["maker"].reason


def test_a_small_word_in_upright_print_is_found_beside_its_name() -> None:
    name = replace(
        line_from("Kluwenmakers"), quad=((0.0, 500.0), (0.0, 140.0), (40.0, 140.0), (40.0, 500.0))
    )
    article = replace(
        line_from("De"), quad=((0.0, 560.0), (0.0, 510.0), (40.0, 510.0), (40.0, 560.0))
    )
    rest = [placed(line, right_px=200) for line in lines_from("Avondrood", *FACTS)]
    fields = parse([name, article, *rest], [])
    assert fields["maker"].value == "Kluwenmakers"
    assert "'De' beside 'Kluwenmakers'" in fields["maker"].reason


def test_a_misread_sign_of_a_registered_name_is_no_part_of_it() -> None:
    fields = parsed("BJØRKHEIA SPINNERI°", "Snøspurv", *FACTS)
    assert (fields["maker"].value, fields["range"].value) == ("BJØRKHEIA SPINNERI", "Snøspurv")


def test_the_sign_of_a_trade_mark_is_no_part_of_a_name() -> None:
    name, sign = line_from("Cragwick Handknits", 0), placed(line_from("TM", 0), right_px=275)
    fields = parse([name, sign, *lower(lines_from("Uferlicht", *FACTS))], [])
    assert fields["maker"].state is State.SURE


def test_a_town_with_a_comma_before_its_post_code_and_country_is_no_name() -> None:
    fields = parsed("Craglea", "Uferlicht", *FACTS, "Nantbrook, ZZ40 5KN, Wales")
    assert "Nantbrook" not in (fields["maker"].value, fields["range"].value)
    firm = parsed("Uferlicht", *FACTS, "Hollin Fold, ZZ7 4LB Hollin")
    assert firm["maker"].value == "Hollin Fold"


@pytest.mark.parametrize("name", ["Natblà", "Natblá", "Natblä"])
def test_an_accent_in_place_of_the_ring_of_a_northern_tag_is_asked_about(name: str) -> None:
    tag = ("Sølunds Garn", "Uferlicht", "100 % bomuld", "50 g = 120 m", "Parti 88123")
    shade = parsed(*tag, f"Farve 413 {name}")["shade"]
    assert "'Natblå'" in shade.reason


def test_such_an_accent_is_at_home_where_its_language_is_on_the_tag() -> None:
    tag = ("Sølunds Garn", "Uferlicht", "100 % bomuld", "50 g = 120 m", "Bain / Parti 88123")
    assert "accent" not in parsed(*tag, "Coloris 413 Déjà")["shade"].reason


def test_a_value_right_below_its_caption_goes_before_one_far_to_the_right() -> None:
    caption, value = line_from("FARGETONE", 0), placed(line_from("Koks", 1), down_px=-8)
    aside = placed(line_from("Kveldsro", 0), right_px=400)
    rest = lines_from("Tindås Spinneri", "100 % ull", "50 g = 120 m", "Parti 88123")
    fields = parse([caption, aside, value, *(placed(line, down_px=120) for line in rest)], [])
    assert (fields["shade"].value, fields["range"].value) == ("Koks", "Kveldsro")


def test_a_value_below_another_caption_is_not_taken_to_the_right_of_one() -> None:
    """Two columns, a little out of line, each with its caption above its value."""
    columns = [("Shade", 0, 0), ("Ink PF96", -22, 28), ("Dye lot", 140, -12), ("45599375", 132, 12)]
    lines = [placed(line_from(text, 0), right_px=x, down_px=y + 20) for text, x, y in columns]
    rest = lines_from("Quernstone Yarns", "ROOK", "100 % wool", "50 g = 120 m")
    fields = parse([*lines, *(placed(line, down_px=120) for line in rest)], [])
    assert (fields["shade"].value, fields["shade_code"].value) == ("Ink", "PF96")
    assert fields["lot"].value == "45599375"


def test_words_about_the_tension_give_way_to_a_code_and_a_name() -> None:
    fields = parsed("Kieselwiek & Söhne", "Grünspecht", "30 Reihen", "Veal G193", *FACTS[:2])
    assert (fields["shade"].value, fields["shade_code"].value) == ("Veal", "G193")


def test_a_yarns_name_does_not_hide_the_maker_that_the_web_address_names() -> None:
    fields = parsed("Garn Vitmossa", "100 % ull", "50 g = 120 m", "www.tornvika.example")
    assert (fields["maker"].value, fields["range"].value) == ("Tornvika", "Vitmossa")
    assert fields["maker"].state is State.DOUBTFUL


def test_a_name_before_the_composition_and_a_colon_is_asked_about() -> None:
    fields = parsed(
        "Ververij Kraailand", "Hooiberg: 87,5 % merinowol, 12,5 % polyester", *FACTS[1:]
    )
    assert fields["range"].value == "Hooiberg"
    assert "colon" in fields["range"].reason


def test_a_known_caption_before_the_composition_is_no_name() -> None:
    fields = parsed("Ververij Kraailand", "Samenstelling: 100 % merinowol", *FACTS[1:])
    assert fields["range"].value is None


def test_a_range_a_letter_off_a_word_for_the_weight_is_asked_about() -> None:
    fields = parsed("Lane Serraspina", "Super Fihe", *FACTS)
    assert "weight" in fields["range"].reason


def test_a_name_much_larger_than_the_others_is_the_makers_or_the_ranges() -> None:
    large = replace(
        line_from("ALBUFERA"), quad=((0.0, 0.0), (400.0, 0.0), (400.0, 90.0), (0.0, 90.0))
    )
    rest = lines_from("Color: Azafrán", "Lote: 90412", "Hilaturas Peñamora", "Alfadarra")
    fields = parse([large, *(placed(line, down_px=150) for line in rest)], [])
    assert (fields["range"].value, fields["maker"].value) == ("ALBUFERA", "Hilaturas Peñamora")


def test_two_words_that_ran_together_are_asked_about() -> None:
    fields = parsed("UllvarenSkogli", *FACTS, "Mykull", "www.ullvarenskogli.example")
    assert "space lost" in fields["maker"].reason


def test_the_maker_that_the_web_address_spells_is_no_shade() -> None:
    texts = ("Zwaluwbeek", "100 % hennep", "Pruim", "KLEUR", "WOLHUIS KIEVIT")
    fields = parsed(*texts, "wolhuiskievit.example")
    assert fields["maker"].value == "WOLHUIS KIEVIT"
    assert fields["shade"].value == "Pruim"


def test_the_date_of_a_printed_form_is_no_shade() -> None:
    fields = parsed("Thrushcombe Yarns", "Uferlicht", "M60 - Lichen", "Batch 11825", "Rev. 02/21")
    assert (fields["shade"].value, fields["shade_code"].value) == ("Lichen", "M60")


def test_two_loose_pairs_of_code_and_name_are_asked_about() -> None:
    fields = parsed("Thrushcombe Yarns", "Uferlicht", "M60 - Lichen", "Vel 0221", *FACTS[:2])
    assert "more than one shade" in fields["shade"].reason


def test_print_that_one_reader_saw_before_a_code_is_asked_about() -> None:
    seen = "Farge Shade LysD-35N"
    line = line_from("Farge Shade .. -35N".rjust(len(seen)), 2, second=seen)
    fields = parse([*lines_from("Steinheia Garn", "Uferlicht"), line], [])
    assert fields["shade_code"].state is State.DOUBTFUL


def parsed(*texts: str) -> dict[str, Field]:
    return parse(lines_from(*texts), [])


def lower(lines: list[Line]) -> list[Line]:
    """``lines`` two rows further down."""
    return [placed(line, down_px=60) for line in lines]


def test_a_name_that_seems_to_go_on_in_the_next_line_is_asked_about() -> None:
    lines = lines_from("Hollin Fold Spinners · Breath", "of Winter", *FACTS)
    found = parse(lines, ())["range"]
    assert found.value != "Breath" or found.state is State.DOUBTFUL


def test_words_of_a_sentence_are_no_range_unasked() -> None:
    story = (
        "The first wheel of the house turned below the weir.",
        "Even today, water drives one of our twisting frames, and the rest is",
        "done by eleven people and a dog.",
    )
    found = parse(lines_from("Tolliver Wick Spinners", *story, *FACTS), ())
    assert found["range"].state is not State.SURE


def test_a_word_for_reference_is_no_name_of_a_shade() -> None:
    lines = lines_from("Filatura Bruni", "Filato: Brina", "RIF. COLORE . . . 046", "Bagno 88123")
    found = parse(lines, ())
    assert (found["shade"].value, found["shade_code"].value) == (None, "046")


@pytest.mark.parametrize(
    ("name", "plain", "facts"),
    [
        ("Synøptic Yârn Co.", "Synoptic Yarn Co.", ("Worsted 100% merino wool", "Needles 5 mm")),
        (
            "Kallfrønt Spinneri",
            "Kallfront Spinneri",
            ("70% ull, 30% polyamid", "Tillverkad i Sverige"),
        ),
    ],
)
def test_a_stroke_or_a_hat_that_no_language_of_the_tag_has_is_asked_about(
    name: str, plain: str, facts: tuple[str, ...]
) -> None:
    fields = parsed(name, "Warm Sector", *facts, *FACTS[1:])
    assert f"'{plain}'" in fields["maker"].reason
