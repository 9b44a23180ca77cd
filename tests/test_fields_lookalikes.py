"""What stands where a value should and is none, and values that are printed unlike most."""

from __future__ import annotations

from dataclasses import replace

import pytest

from intake.fields.amounts.quantities import find_quantities
from intake.fields.parse import parse
from intake.records import Field, State, TagReading
from intake.shades.names import KnownNames, with_known_names
from tests.line_making import LETTER_WIDTH_PX, line_from, lines_from, placed

FAR_PX = 900.0
MAKER = "Gale Orchard Spinners"
REST = ("50 g = 120 m", "Shade 204 Heron", "Lot 88123")


def parsed(*texts: str) -> dict[str, Field]:
    return parse(lines_from(*texts), ())


def is_sure(field: Field, value: object) -> bool:
    return field.value == value and field.state is State.SURE


@pytest.mark.parametrize(
    "address", ["Place du Lavoir, 42999 Marsy", "ZA des Prés, 88999 Marsy", "Lavoir, ZZ12 3BD"]
)
def test_a_place_before_a_post_code_is_no_sure_maker_beside_two_names(address: str) -> None:
    found = parsed("Pelotes Marsoin", "Douce Nuit", *REST, address)
    assert not is_sure(found["maker"], address.partition(",")[0])


def test_a_farm_before_a_post_code_is_no_sure_maker_beside_a_name_that_has_the_town() -> None:
    found = parsed(
        "Nøddebæk Uld", "Hyldebær", "Parti 80620", "50 g 210 m", "Mejerigården, 4999 Nøddebæk"
    )
    assert not is_sure(found["maker"], "Mejerigården")


def test_a_firm_of_the_trade_before_its_post_code_is_the_maker() -> None:
    found = parsed("Douce Nuit", *REST, "Filature du Lavoir, 42999 Marsy")
    assert is_sure(found["maker"], "Filature du Lavoir")


@pytest.mark.parametrize("gap", [1, 3, 5])
@pytest.mark.parametrize("name", ["Uldtop", "Wollgras", "Aus gutem Hause", "Elleraner Alpaka"])
def test_goods_sayings_and_fibres_are_no_sure_maker(name: str, gap: int) -> None:
    rest = [line_from(text, 8 + 2 * number) for number, text in enumerate(REST)]
    for first, second in ((name, "Strandtorp"), ("Strandtorp", name)):
        found = parse([line_from(first, 0), line_from(second, gap), *rest], ())
        assert not is_sure(found["maker"], name)


def test_a_name_of_which_the_web_address_spells_only_the_end_is_asked_about() -> None:
    found = parsed("Lodenfein Fadental Zirbel", "www.fadental-zirbel.example", *REST)
    assert "in one line" in found["maker"].reason


def test_a_name_that_goes_on_behind_that_of_the_web_address_is_the_makers() -> None:
    found = parsed("Corvell International", "www.corvell.example", "Sockrunner", *REST)
    assert is_sure(found["maker"], "Corvell International")


def test_the_range_may_be_the_maker_of_another_pair_where_the_maker_is_not_sure() -> None:
    found = parsed("Pure & simple", "OAKENMERE", "100% hemp", "Slate Row", *REST)
    assert found["range"].state is not State.SURE or found["maker"].value == "OAKENMERE"


def test_small_words_behind_a_word_for_the_shade_are_no_sure_shade() -> None:
    found = parsed(MAKER, "Windfall", "Colour your day", "50 g = 120 m", "69247")
    assert not is_sure(found["shade"], "your day")


def test_a_shade_in_small_letters_behind_a_colon_is_sure() -> None:
    found = parsed(MAKER, "Windfall", "Colour: storm grey", "50 g = 120 m", "Lot 69247")
    assert is_sure(found["shade"], "storm grey")


@pytest.mark.parametrize("text", ["Oppskrifter i hefte 38", "Patterns in booklet 38"])
def test_the_number_of_a_booklet_is_no_shades_code(text: str) -> None:
    found = parsed(MAKER, "50 g 145 m", "Lot 001861", text)
    assert found["shade_code"].value is None or found["shade_code"].state is not State.SURE


@pytest.mark.parametrize("text", ["1 nøste Bomullslin", "1 ball of Harbour"])
def test_what_a_kit_holds_is_no_shade(text: str) -> None:
    found = parsed(MAKER, text, "0826 Snow", "Lot 001861", "50 g 145 m")
    assert not is_sure(found["shade"], text.partition(" ")[2])


def test_a_caption_and_is_at_the_end_of_a_line_announce_what_opens_the_next() -> None:
    found = parsed(
        "Breistoffen Terhoeve", "Deze bol Alledag weegt 100 g en is 240 m lang.",
        "Gesponnen van 75% acryl, 25% wol. De kleur is", "Kersenrood (84-12), verfbad 6059.",
    )  # fmt: skip
    assert found["shade"].value == "Kersenrood"
    assert found["lot"].value == "6059"


@pytest.mark.parametrize(
    "request_", ["Gebruik bollen van hetzelfde verfbad.", "Veillez à utiliser le même bain.",
                 "Please make sure all balls carry the same dye lot."]
)  # fmt: skip
def test_a_request_for_one_lot_is_no_caption_of_it(request_: str) -> None:
    lines = [
        *lines_from(MAKER, "Windfall", "50 g = 140 m"),
        placed(line_from("Tilleul (046)", 5), 0, 0),
        placed(line_from("636999", 6), 0, 0),
        placed(line_from(request_, 9), 0, 0),
    ]
    found = parse(lines, ())
    assert found["lot"].value == "636999"
    assert "asks for" not in found["shade_code"].reason
    assert "caption for the lot" not in found["lot"].reason


def test_a_request_with_a_colon_announces_the_lot() -> None:
    found = parsed(MAKER, "Windfall", "All of the same lot: 636999", "50 g = 140 m")
    assert is_sure(found["lot"], "636999")


def test_values_between_strokes_that_stand_apart_keep_the_strokes_within_them() -> None:
    found = parsed(MAKER, "Windfall", "Farbe / Partie: 72/622 / 84-2419", "50 g = 140 m")
    assert (found["shade_code"].value, found["lot"].value) == ("72/622", "84-2419")


def test_a_lot_in_its_captions_order_is_not_asked_about() -> None:
    found = parsed(MAKER, "Windfall", "Colore/Bagno n. 47 / 61339", "50 g = 140 m")
    assert "nearer" not in found["lot"].reason


def test_natural_is_a_shade_behind_its_caption() -> None:
    found = parsed(MAKER, "Windfall", "Shade: Natural 2910", "Lot 88123", "50 g = 140 m")
    assert (found["shade"].value, found["shade_code"].value) == ("Natural", "2910")


@pytest.mark.parametrize(
    ("printed", "meant"), [("ALPAKA BL0D", "ALPAKA BLØD"), ("KL0STER", "KLØSTER")]
)
def test_a_nought_within_a_word_is_asked_about_and_offered_as_a_letter(
    printed: str, meant: str
) -> None:
    found = parsed(
        "Strandtorp Uldspinderi", printed, "100 % alpaka", "FARVE 012 TÅGEGRÅ", "Parti 88123"
    )
    assert found["range"].value == printed
    assert found["range"].state is State.DOUBTFUL
    assert meant in found["range"].others


def test_a_code_with_a_nought_between_letters_stays_a_code() -> None:
    found = parsed(MAKER, "Windfall", "Shade A0B Heron", "Lot 88123", "50 g = 140 m")
    assert found["shade_code"].value == "A0B"


def test_italian_names_begin_with_no_accented_e() -> None:
    found = parsed(
        "Filatura Sant'Érbano", "Lucente", "Colore 12 Neve", "Lotto 4567", "50 g = 140 m"
    )
    assert "Filatura Sant'Erbano" in found["maker"].others


def test_a_kind_at_the_end_of_a_line_belongs_to_the_fibre_that_opens_the_next() -> None:
    # 50 % organic cotton, 50 % linen in Danish
    found = parsed(MAKER, "50 % ØKOLOGISK", "BOMULD · 50 % HØR")
    assert [(part.fibre, part.kind) for part in found["fibre"].value] == [
        ("cotton", "organic"),
        ("linen", ""),
    ]


@pytest.mark.parametrize("text", ["200 g = m 510 ca.", "gr. 200 = mt. 510"])
def test_metres_with_their_unit_first_outdo_a_lot_that_ends_in_m(text: str) -> None:
    found = {one.name: one.value for one in find_quantities(lines_from(text, "1623M"))}
    assert found == {"length_m": 510.0, "mass_g": 200.0}


def test_a_range_beside_a_known_maker_is_not_asked_about_as_the_maker() -> None:
    lines = [
        line_from("Ellernbrook", 0),
        line_from("SLATE ROW", 3),
        *(line_from(text, 6 + 2 * number) for number, text in enumerate(REST)),
    ]
    fields = parse(lines, ())
    maker = fields["maker"]
    assert maker.state is State.DOUBTFUL
    assert "as well as the maker" in fields["range"].reason
    known = KnownNames()
    known.add(str(maker.value), "Harbour")
    found = with_known_names(
        TagReading(
            picture="box.jpg", page=1, tag=1, digest="", print_hash="", jpeg=b"",
            lines=tuple(lines), barcodes=(), fields=fields,
        ),
        known,
    ).fields  # fmt: skip
    assert found["maker"].state is State.SURE
    assert (found["range"].value, found["range"].state) == (fields["range"].value, State.SURE)


def test_words_below_captions_that_stand_under_their_values_are_none_of_them() -> None:
    rows = [
        placed(line_from("Høstløv (72-808)", 2), 90),
        placed(line_from("005522", 2), 518),
        placed(line_from("Farge · Färg · Kleur", 3), 90),
        placed(line_from("Badnr. | Badnr", 3), 480),
        placed(line_from("GRÅORBRU ULL", 5), 90),
    ]
    wide = line_from("GRÅORBRU ULL GRÅORBRU ULL GRÅORBRU ULL", 5)
    rows[-1] = replace(rows[-1], quad=placed(wide, 90).quad)
    found = parse([line_from("100 % Wolle", 0), *rows, line_from("200 g – 860 m", 9)], ())
    assert (found["shade"].value, found["lot"].value) == ("Høstløv", "005522")


@pytest.mark.parametrize("heading", ["Cura del capo", "Teneur en fibres", "Wasvoorschrift"])
def test_headings_of_other_blocks_are_no_maker(heading: str) -> None:
    found = parsed("Qualité: Windfall", "50 g = 120 m", heading, "Lot 88123")
    assert found["maker"].value is None


def test_what_colours_may_do_is_no_sure_shade() -> None:
    found = parsed(
        MAKER, "Windfall", "Køb nok garn på én gang, farven kan variere.", "Farvenr 580U"
    )
    assert not is_sure(found["shade"], "kan variere")


def test_a_weight_that_begins_the_line_of_a_range_may_be_part_of_its_name() -> None:
    found = parsed(MAKER, "Sock Parade", "50 g = 210 m", "Shade C823 Rust", "Lot 85208")
    assert "'Sock' may be part" in found["range"].reason


def test_a_word_about_the_fibre_is_no_sure_range() -> None:
    found = parsed(
        "Nøddebæk Uldspinderi", "MERINOULD", "100 % uld", "Farve 204 Lyng", "Parti 88123"
    )
    assert not is_sure(found["range"], "MERINOULD")


def test_lavender_in_french_is_a_shade_and_no_word_about_care() -> None:
    found = parsed("Tisserelle", "Brume", "Coloris 067 Lavande", "Bain W807", "50 g = 120 m")
    assert is_sure(found["shade"], "Lavande")


def test_two_values_that_end_at_one_margin_belong_to_the_captions_in_their_rows() -> None:
    rows = (("col.", "Cold Gold"), ("dye lot nr", "64-96-3"))
    lines = [line_from(MAKER, 0), line_from("run 60 m / 100 g", 4)]
    for number, (caption, value) in enumerate(rows):
        lines.append(line_from(caption, 5 + number))
        lines.append(
            placed(line_from(value, 5 + number), right_px=FAR_PX - LETTER_WIDTH_PX * len(value))
        )
    found = parse(lines, ())
    assert is_sure(found["shade"], "Cold Gold")
    assert is_sure(found["lot"], "64-96-3")


def test_a_name_that_begins_the_name_of_the_shade_is_backed_by_nothing() -> None:
    found = parsed(
        "Efterår", "Efterårsløv 888G", "240 m / 50 g", "Partinr. J489", "100% morbærsilke"
    )
    assert not is_sure(found["maker"], "Efterår")


def test_the_word_for_yarn_before_a_ranges_name_is_asked_about_in_french() -> None:
    found = parsed("Retorderie de Marsaintre", "Fil Crécelle", *REST)
    assert "whole name" in found["range"].reason


@pytest.mark.parametrize("saying", ["Aus gutem Hause", "Pour petits et grands", "Med havets ro"])
def test_a_saying_is_no_sure_range(saying: str) -> None:
    found = parsed("Garnkontor Marsel", saying, *REST)
    assert not is_sure(found["range"], saying)


def test_a_figure_apart_from_a_shades_code_in_brackets_is_asked_about() -> None:
    found = parsed("Halbmond", "Colour Tin Roof (1 79-04)", "Lot 88123", "50 g = 120 m")
    assert found["shade"].value == "Tin Roof"
    assert found["shade_code"].state is State.DOUBTFUL


def test_a_lot_with_a_capital_like_a_unit_before_a_point_is_no_length() -> None:
    found = parsed("Halbmond", "Partij 34M.88", "100 g = 190 m")
    assert is_sure(found["lot"], "34M.88")
    assert is_sure(found["length_m"], 190.0)


def test_a_count_with_its_caption_below_the_lot_is_no_part_of_it() -> None:
    heads, values = ("Farbnummer", "Färbepartie", "Nm"), ("097 Holunder", "7776", "8/2")
    rows = [
        *(line_from(head, 0.8 * at + 1) for at, head in enumerate(heads)),
        *(placed(line_from(value, 0.8 * at + 1), FAR_PX) for at, value in enumerate(values)),
    ]
    found = parse([*lines_from("Garnwerk Lindenau"), *rows], ())
    assert is_sure(found["lot"], "7776")
    bare = parse([*lines_from("Garnwerk Lindenau"), *rows[:2], *rows[3:]], ())
    assert bare["lot"].state is State.DOUBTFUL
