"""Maker, range and shade told apart on tags without captions for them."""

from __future__ import annotations

import pytest

from intake.fields.amounts.weight import is_weight_word
from intake.fields.captions import Role, find_captions
from intake.fields.care.words import lines_of_care
from intake.fields.clutter import web_names
from intake.fields.linked import Link
from intake.fields.names.colour_words import has_colour_word
from intake.fields.names.leads import (
    is_by,
)
from intake.fields.names.maker_doubts import unbacked
from intake.fields.names.shade import find_shade
from intake.fields.names.trade_words import has_trade_word, is_place, is_service_text
from intake.fields.parse import heading_options, parse
from intake.fields.pieces import Piece, find_pieces
from intake.records import Candidate, Span, State
from tests.line_making import lines_from, placed

FACTS = ("100 % wool", "50 g = 120 m", "Shade 204 Heron", "Lot 88123")


@pytest.mark.parametrize(
    "name",
    [
        "Wickenfold Dye House",
        "Zwirnerei Uhlengrund",
        "Retorderie de Valsaintre",
        "Tintoria Bellosguarda",
        "Hilandería Toscanar",
        "Twijnderij Roerdomp",
        "Färgeriet Granåsa",
        "Tvinneriet Sauelia",
        "Garnfeddet Rævhøj",
    ],
)
def test_words_for_twisting_and_dyeing_are_words_of_the_trade(name: str) -> None:
    assert has_trade_word(name)


def test_white_wool_is_a_colour_and_no_maker() -> None:
    assert has_colour_word("Wollweiß")
    assert not has_trade_word("Wollweiß")


@pytest.mark.parametrize("name", ["Dimgrå", "Hellblau", "Vert de Gris", "Azzurro", "Donkergroen"])
def test_words_for_colours_are_known_in_several_languages(name: str) -> None:
    assert has_colour_word(name)


@pytest.mark.parametrize("name", ["Allegra", "Periwinkle Lane", "Cañada", "Havbrise"])
def test_other_names_have_no_word_for_a_colour(name: str) -> None:
    assert not has_colour_word(name)


def test_a_glen_is_no_country() -> None:
    assert not is_place("Cañada")
    assert is_place("Deutschland")


def test_the_maker_may_stand_below_the_words_that_say_who_spun_it() -> None:
    lines = lines_from("Morwenstide", "Spun and dyed by", "Tolgarrow", *FACTS)
    fields = parse(lines, [])
    assert (fields["maker"].value, fields["range"].value) == ("Tolgarrow", "Morwenstide")


@pytest.mark.parametrize(
    "words", ["hand-dyed by", "gesponnen von", "filé par", "tinto da", "spunnet av", "by"]
)
def test_words_for_by_name_nobody_themselves(words: str) -> None:
    assert is_by(words)


def test_what_a_maker_did_is_no_part_of_its_name() -> None:
    lines = lines_from("Morwenstide", "Spun by Tolgarrow", *FACTS)
    names = [piece.text for piece in heading_options(lines, []).pieces]
    assert names == ["Morwenstide", "Tolgarrow"]


@pytest.mark.parametrize(
    ("words", "maker"),
    [
        ("from the house of Wether & Wold", "Wether & Wold"),
        ("une laine de la Filature du Val Perdu", "Filature du Val Perdu"),
        ("een garen van Wolspinnerij Hoogkamp", "Wolspinnerij Hoogkamp"),
        ("Spunnet på Björknäs Ullspinneri", "Björknäs Ullspinneri"),
        ("Marque déposée de Maison Valcourt & Fils", "Maison Valcourt & Fils"),
        ("Hersteller: Garnhof Lerchengrund", "Garnhof Lerchengrund"),
        ("Design & production: Tarnwater Yarns Ltd", "Tarnwater Yarns Ltd"),
    ],
)
def test_words_that_lead_up_to_the_maker_tell_it(words: str, maker: str) -> None:
    fields = parse(lines_from("Morwenstide", words, *FACTS), [])
    assert (fields["maker"].value, fields["range"].value) == (maker, "Morwenstide")
    assert fields["maker"].state is State.SURE


@pytest.mark.parametrize("words", ["Pattern by Anna Wold", "Distributed by Anna Wold"])
def test_who_drew_or_sold_is_not_led_up_to_as_the_maker(words: str) -> None:
    fields = parse(lines_from("Tolgarrow Yarns", "Morwenstide", words, *FACTS), [])
    assert fields["maker"].value == "Tolgarrow Yarns"


def test_a_range_named_after_a_land_is_not_taken_apart() -> None:
    names = [one.text for one in heading_options(lines_from("Laine de Valsaintre"), []).pieces]
    assert names == ["Laine de Valsaintre"]


def test_a_firms_legal_form_belongs_to_its_name() -> None:
    lines = lines_from("Hilaturas Peñarroble, S.L.", "Vega Alta", *FACTS)
    assert parse(lines, [])["maker"].value == "Hilaturas Peñarroble, S.L."


def test_a_web_address_may_spell_out_the_and_of_a_name() -> None:
    lines = lines_from("Wether & Wold", "Larkmoor", *FACTS, "www.wetherandwold.example")
    maker = parse(lines, [])["maker"]
    assert (maker.value, maker.cues["web"]) == ("Wether & Wold", 1.0)
    assert "web address" not in maker.reason


def test_an_article_that_is_called_by_a_name_is_the_range() -> None:
    assert parse(lines_from("Tolgarrow Yarns", "Artikel: Morwenstide", *FACTS), [])[
        "range"
    ].value == ("Morwenstide")


def test_an_article_that_is_a_number_is_no_range() -> None:
    assert parse(lines_from("Tolgarrow Yarns", "Artikel: 3692", *FACTS), [])["range"].value is None


def test_a_colour_that_is_called_by_a_name_is_the_shade() -> None:
    lines = lines_from("Tolgarrow Yarns", "Morwenstide", "This colour is called Heron", "Lot 88123")
    assert parse(lines, [])["shade"].state is State.SURE


def test_a_name_in_two_lines_is_one_where_the_second_begins_with_of() -> None:
    lines = lines_from("Retorderie", "de Valsaintre", "", "Crécelle", *FACTS)
    assert parse(lines, [])["maker"].value == "Retorderie de Valsaintre"


def test_two_lines_of_which_one_is_a_word_of_the_trade_are_one_beside_another_name() -> None:
    for others, state in ((["", "Halbmond"], State.SURE), ([], State.DOUBTFUL)):
        maker = parse(lines_from("Wollstube", "Kranewitt", *others, *FACTS), [])["maker"]
        assert maker.value == "Wollstube Kranewitt"
        assert maker.state is state


def test_names_with_a_printed_dash_between_them_are_two() -> None:
    lines = lines_from("Nevischio – Tintoria Bellosguarda", *FACTS)
    fields = parse(lines, [])
    assert fields["maker"].value == "Tintoria Bellosguarda"
    assert "may belong to its name" not in fields["maker"].reason


def test_a_maker_that_only_the_web_address_names_is_asked_about() -> None:
    fields = parse(lines_from("Schneeglanz", *FACTS, "hutzelwald.example"), [])
    assert (fields["maker"].value, fields["range"].value) == ("Hutzelwald", "Schneeglanz")
    assert fields["maker"].state is fields["range"].state is State.DOUBTFUL


def test_a_bare_web_address_names_its_holder() -> None:
    assert web_names(lines_from("hutzelwald.example", "3.50 m", "Ed. Fold")) == {"hutzelwald"}


def test_a_range_in_quotes_may_be_told_from_the_shade_by_its_caption() -> None:
    lines = lines_from("Tolgarrow Yarns", '"Morwenstide"', "50 g = 120 m", "Shade 204 Heron")
    assert parse(lines, [])["range"].value == "Morwenstide"


def test_words_before_a_colon_name_neither_maker_nor_range() -> None:
    lines = lines_from("Tolgarrow Yarns", "Masketal: 5 m / 7 p = 10 cm", *FACTS)
    assert parse(lines, [])["range"].value is None


def test_a_range_without_a_caption_is_asked_about_where_no_shade_was_found() -> None:
    fields = parse(lines_from("Tolgarrow Yarns", "Morwenstide", "100 % wool", "50 g = 120 m"), [])
    assert fields["shade"].value is None
    assert fields["range"].state is State.DOUBTFUL


def test_lines_of_care_are_known_in_every_language_of_a_tag() -> None:
    lines = lines_from("Tolgarrow", "Handwäsche. Nicht bleichen.", "Lavare a mano. Non stirare.")
    assert lines_of_care(lines) == {1, 2}


@pytest.mark.parametrize("text", ["Super Fine", "DK", "Sport"])
def test_a_weight_class_by_itself_names_nobody(text: str) -> None:
    assert is_weight_word(text)
    assert not is_weight_word(f"{text} Merino")


@pytest.mark.parametrize(
    "text",
    ["Buy enough of one", "Köp tillräckligt ur samma", "Jeg kommer fra", "For store og små"],
)
def test_what_a_tag_says_of_itself_or_to_its_buyer_is_no_name(text: str) -> None:
    assert is_service_text(text)


def test_an_accent_on_an_i_that_the_language_lacks_is_asked_about() -> None:
    lines = lines_from(
        "Wolspínnerij Hoogkamp", "Heidezacht", "100% wol", "Kleur 31 Víooltje", "Verfbad 7"
    )
    fields = parse(lines, [])
    assert fields["shade"].state is State.DOUBTFUL
    assert fields["shade"].others == ("Viooltje",)
    assert "'Wolspinnerij Hoogkamp'" in fields["maker"].reason


def test_an_accent_on_an_i_is_at_home_in_spanish() -> None:
    lines = lines_from("Hilados Toscanar", "Vega", "100% algodón", "Color 31 Río Frío", "Lote 7712")
    assert "accent" not in parse(lines, [])["shade"].reason


def test_a_name_behind_a_dash_in_the_ranges_line_is_the_shades() -> None:
    lines = lines_from("Morwenstide – Heron", "Shade no. 204")
    first, last, *_ = find_pieces(lines, [])
    range_ = Candidate("range", "Morwenstide", first.spans)
    code = Link(find_captions(lines)[0], Piece(Span(1, 10, 13), "204", last.frame, 30.0), 1.0)
    found = find_shade([code], [last], captioned=True, lines=lines, range_=range_)
    shade = next(one for one in found if one.name == "shade")
    assert shade.value == "Heron"
    assert shade.cues["together"] > 0


@pytest.mark.parametrize("name", ["Smoke of", "Fumo di"])
def test_a_shade_that_ends_with_of_is_asked_about(name: str) -> None:
    shade = parse(lines_from("Tolgarrow", f"Shade: {name}", "Lot 88123"), [])["shade"]
    assert "go on" in shade.reason


def test_what_a_tag_is_called_is_the_shade_where_code_and_range_stand_elsewhere() -> None:
    lines = lines_from(
        "Tolgarrow Yarns", "Quality: Morwenstide", "Name: Heron", "Shade no. 204", "Lot 881"
    )
    assert parse(lines, [])["shade"].state is State.SURE


def test_the_word_for_yarn_is_no_part_of_a_ranges_name() -> None:
    lines = lines_from("Tolgarrow Spinneri", "Garn Daggry", *FACTS)
    range_ = parse(lines, [])["range"]
    assert range_.value == "Daggry"
    assert range_.state is State.DOUBTFUL


def test_a_firm_in_front_of_its_address_in_small_print_is_a_heading() -> None:
    lines = lines_from(
        "Bergamotte", *FACTS, "© 2025 Strähnerei Fuchsmöhl, D-83124 Fuchsmöhl, Deutschland"
    )
    assert "Strähnerei Fuchsmöhl" in [one.text for one in heading_options(lines, []).pieces]


@pytest.mark.parametrize(
    ("text", "state"),
    [
        ("6 pelotes × 50 g (331 m)", State.SURE),
        ("10 balls x 50 g per pack", State.DOUBTFUL),
        ("10 balls", State.DOUBTFUL),
    ],
)
def test_balls_with_their_grams_and_nothing_else_in_the_line_are_a_pack(
    text: str, state: State
) -> None:
    assert parse(lines_from("Tolgarrow", text, *FACTS), [])["balls"].state is state


def test_a_word_for_a_colour_says_that_a_loose_name_is_the_shade() -> None:
    lines = lines_from(
        "Tolgarrow Spinneri", "", "Quality: Morwenstide", "", "", "", "Dimgrå", "Lot 88123"
    )
    shade = parse(lines, [])["shade"]
    assert (shade.value, shade.cues["colour"]) == ("Dimgrå", 1.0)
    assert not shade.reason.startswith("nothing says")


def test_a_loose_name_without_one_is_asked_about() -> None:
    lines = lines_from(
        "Tolgarrow Spinneri", "", "Quality: Morwenstide", "", "", "", "Heron", "Lot 88123"
    )
    assert parse(lines, [])["shade"].reason.startswith("nothing says")


def test_a_dash_between_a_captioned_code_and_its_name_parts_them_from_no_caption() -> None:
    lines = lines_from("Strandskov Garn", "Farve", "76-262 - Natur", "Farvebad T21")
    fields = parse(lines, [])
    assert (fields["shade"].value, fields["shade"].state) == ("Natur", State.SURE)
    assert (fields["shade_code"].value, fields["range"].value) == ("76-262", None)


def test_a_town_behind_its_post_code_is_asked_about_where_another_name_may_be_the_shade() -> None:
    """A post code of five digits before its town: common practice, no source."""
    lines = lines_from("Wollhof Gammert", "Kiesel", "Nebel", "4417", "72501 Gammerding")
    shade = parse(lines, [])["shade"]
    assert shade.state is not State.SURE
    assert "may be a town" in shade.reason


@pytest.mark.parametrize("words", ["Bagno tinta", "Bain couleur", "Baño de color"])
def test_a_bath_of_colour_is_a_lot_and_no_shade(words: str) -> None:
    (caption,) = find_captions(lines_from(words))
    assert caption.role is Role.LOT


@pytest.mark.parametrize("unit", ["yds", "meter", "env.", "grammes"])
def test_a_unit_behind_a_number_is_no_shade(unit: str) -> None:
    lines = lines_from("Tornvika Garn", "Vitmossa", f"l640 {unit}", "Rost 42-086")
    fields = parse(lines, [])
    assert (fields["shade"].value, fields["shade_code"].value) == ("Rost", "42-086")


@pytest.mark.parametrize(
    "word", ["Silk", "S I L K", "alpaca", "Seda"], ids=["plain", "spaced", "small", "spanish"]
)
def test_the_name_of_a_fibre_without_a_caption_is_no_sure_shade(word: str) -> None:
    lines = lines_from("Tornvika Garn", "Vitmossa", word, "4207", "Lot 99812")
    assert "a word about the fibre" in parse(lines, [])["shade"].reason


def test_a_lot_above_its_caption_is_found_where_the_other_captions_stand_above() -> None:
    lines = lines_from("Wilgenbrink Wol", "73119", "Bad", "Kleur nr.", "L8199", "Kleur", "Blauw")
    places = (0, 200, 240, 400, 440, 520, 560)
    lines = [
        placed(line, 0, top - line.quad[0][1]) for line, top in zip(lines, places, strict=True)
    ]
    fields = parse(lines, [])
    assert (fields["lot"].value, fields["lot"].state) == ("73119", State.SURE)
    assert (fields["shade"].value, fields["shade_code"].value) == ("Blauw", "L8199")


def test_of_two_numbers_that_slant_from_the_captions_of_a_lot_neither_is_sure() -> None:
    caption, one, two = lines_from("Bad", "73119", "88120")
    lines = [caption, placed(one, 80, -15), placed(two, 80, -55)]
    assert parse(lines, [])["lot"].state is not State.SURE


def test_half_of_a_caption_in_two_words_takes_no_value_of_its_own() -> None:
    lines = lines_from("Réf. coloris", "P709", "133U", "Bain")
    places = (0, 45, 140, 185)
    lines = [
        placed(line, 0, top - line.quad[0][1]) for line, top in zip(lines, places, strict=True)
    ]
    fields = parse(lines, [])
    assert (fields["shade_code"].value, fields["lot"].value) == ("P709", "133U")


@pytest.mark.parametrize(
    ("shade", "lot"), [("Väri 12 Sammal", "Erä 4417"), ("Cor 12 Musgo", "Lote 4417")]
)
def test_captions_in_finnish_and_portuguese_are_known(shade: str, lot: str) -> None:
    fields = parse(lines_from("Kehrälä Yarns", "Sataa", shade, lot), [])
    found = {name: fields[name].value for name in ("shade", "shade_code", "lot")}
    assert found == {"shade": shade.split()[-1], "shade_code": "12", "lot": "4417"}


@pytest.mark.parametrize("word", ["superwash", "Baby"])
def test_a_finish_of_a_fibre_alone_is_no_heading(word: str) -> None:
    lines = lines_from("WACHOLRODE", word, "Partie 21092438")
    assert word not in [piece.text for piece in heading_options(lines, []).pieces]


def test_a_count_of_shades_is_no_sure_code() -> None:
    lines = lines_from("Tannery Lane Yarns", "Colour 5 of 12", "Heron", "Lot 5521")
    code = parse(lines, [])["shade_code"]
    assert code.state is not State.SURE
    assert "may count the shades" in code.reason


def test_shares_of_two_fibres_without_a_sign_are_no_sure_shade() -> None:
    lines = lines_from("Otterlund Yarns", "Sea Glass", "75/25 merino nylon", "Lot 5521")
    assert "a word about the fibre" in parse(lines, [])["shade"].reason


def test_a_caption_with_a_letter_misread_is_known_with_its_word_for_number_too() -> None:
    assert parse(lines_from("Garens Zandpad", "Nerfbadnr . 6236-M"), [])["lot"].value == "6236-M"


@pytest.mark.parametrize("word", ["Metraggio", "Metraje", "Yardage"])
def test_a_caption_of_the_length_is_no_range(word: str) -> None:
    lines = lines_from("Filatura Acquaspersa", word, "219 yds / 200 m / 50 g", "Lotto 37-05")
    assert word not in [piece.text for piece in heading_options(lines, []).pieces]


def test_a_place_that_no_other_name_could_take_tells_the_maker() -> None:
    found = heading_options(lines_from("Kieselhorst", "Moosgrund"), [])
    for role, asks in ((0.995, False), (0.98, True)):
        cues = {"role": role, "made_by": 0, "heads_address": 0, "web": 0, "echo": 0, "trade": 0}
        assert bool(unbacked("Kieselhorst", cues, found, captioned=False)) is asks
    alone = heading_options(lines_from("Kieselhorst"), [])
    assert unbacked("Kieselhorst", {**cues, "role": 1.0}, alone, captioned=False)


def test_a_shade_called_as_a_kind_of_silk_casts_no_doubt_on_the_fibre() -> None:
    lines = lines_from("Skogli Ull", "75% ull, 25% polyamid", "Farge Mulberry E782", "Parti L0494")
    fields = parse(lines, [])
    assert (fields["fibre"].state, fields["shade"].value) == (State.SURE, "Mulberry")


@pytest.mark.parametrize(
    ("name", "asks"), [("Spinnerij Mergeldam", False), ("Fil du Berger", True), ("Heidbach", True)]
)
def test_a_lone_name_is_the_makers_where_only_firms_are_called_so(name: str, asks: bool) -> None:
    """On drawn tags all 11 lone names with such a word were the maker's."""
    maker = parse(lines_from(name, "100 g / 200 m", "Kleur 12 Kelp", "Bad 4417"), [])["maker"]
    assert (maker.state is not State.SURE) is asks


def test_words_below_two_captions_are_their_values_only_where_both_fit() -> None:
    color, lot, name = lines_from("Color", "Lot", "Fine Larkholt")
    lines = [color, placed(lot, 160, -40), placed(name, 0, 20)]
    assert parse(lines, [])["shade"].value != "Fine"


def test_a_bleach_in_french_is_no_caption_and_how_to_dry_no_shade() -> None:
    assert find_captions(lines_from("Pas de chlore. Ne")) == []
    fields = parse(lines_from("Gomitolo Orsa", "Tinta", "à plat.", "Bagno 7395"), [])
    assert fields["shade"].value != "à plat"


@pytest.mark.parametrize(
    ("maker", "meant", "rest"),
    [
        ("TALLER ÖVEJAS PINTAS", "TALLER OVEJAS PINTAS", "Color 12 Menta | Baño 27-076"),
        ("HANDFARVERIET RAVNSØ", "HÅNDFARVERIET RAVNSØ", "Farve 12 Mynte | Parti 27-076"),
        ("LATELIER DE COUDRAIE", "L'ATELIER DE COUDRAIE", "Coloris 12 Menthe | Bain 27-076"),
    ],
)
def test_a_sign_that_both_readers_add_or_lose_is_asked_about(
    maker: str, meant: str, rest: str
) -> None:
    field = parse(lines_from(maker, "Abrigo", *rest.split(" | ")), [])["maker"]
    assert field.value == maker
    assert field.state is State.DOUBTFUL
    assert meant in field.reason or meant in field.others


def test_a_dotted_letter_is_at_home_in_swedish() -> None:
    lines = lines_from("LÖVSJÖ ULLVERK", "Abrigo", "Färg 12 Mynta", "Färgbad 27-076")
    assert "accent" not in parse(lines, [])["maker"].reason


def test_a_word_for_everyday_yarn_is_no_sign_of_a_maker() -> None:
    assert has_trade_word("Hverdagens Garn")
    assert not has_trade_word("VARDAGSGARN")


def test_a_word_that_the_web_address_has_before_the_makers_name_is_asked_about() -> None:
    lines = lines_from("TINTORIA", "BELLOSGUARDA", "CORTECCIA", "www.tintoriabellosguarda.example")
    maker = parse(lines, [])["maker"]
    assert maker.value != "BELLOSGUARDA" or "'TINTORIA'" in maker.reason
