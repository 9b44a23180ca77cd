"""Values within running words, in tables of cells, and beside what looks like them."""

from __future__ import annotations

import pytest

from intake.fields.amounts.quantities import find_quantities
from intake.fields.parse import parse
from intake.records import Field, State
from tests.line_making import line_from, lines_from, placed

MAKER = "Gale Orchard Spinners"


def parsed(*texts: str) -> dict[str, Field]:
    return parse(lines_from(*texts), ())


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("The colour is Perry, number 31, dyed in lot 3439P.", "Perry"),
        ("Die Farbe ist Gewittergrün, aus der Partie 3439P.", "Gewittergrün"),
        ("La couleur est Orage, du bain 3439P.", "Orage"),
        ("Dieses Knäuel trägt den Farbton Gewittergrün, bei uns aus Partie 3439P.", "Gewittergrün"),
    ],
)
def test_a_sentence_tells_the_shade_and_no_word_of_its_own(text: str, name: str) -> None:
    found = parsed(MAKER, text, "100 % wool", "50 g = 120 m")
    assert (found["shade"].value, found["lot"].value) == (name, "3439P")


def test_a_shade_at_the_end_of_a_line_of_running_words_may_go_on() -> None:
    found = parsed(
        MAKER, "We knit it at 24 rows. The colour is Russet", "Cloud, dyed in lot 2349R."
    )
    assert "may go on" in found["shade"].reason


def test_a_caption_at_the_end_of_a_sentence_announces_nothing_elsewhere() -> None:
    found = parsed(
        MAKER,
        "Bitte kaufen Sie genügend Garn einer Partie",
        "30 °C. Ne pas blanchir.",
        "Adresse: 7, 90871 Donnerbach",
        "Farb-Nr. / Colour / Couleur:",
        "83036 Kaltfront",
        "Lot: 1887",
    )
    assert (found["shade_code"].value, found["shade"].value) == ("83036", "Kaltfront")
    assert (found["lot"].value, found["lot"].state) == ("1887", State.SURE)


@pytest.mark.parametrize("texts", [("Gewicht bei Normfeuchte,", "Toleranz 5 %."), ("Normfeuchte",)])
def test_the_moisture_of_a_weight_is_no_maker(texts: tuple[str, ...]) -> None:
    house = "Zum Frostmännlein"
    found = parsed(house, "Windfall", "Farbe 16, Erntemond", "Partie 246", *texts)
    assert found["maker"].value == house
    assert found["range"].value == "Windfall"


def test_a_heat_below_a_unit_is_no_mass() -> None:
    lines = [
        *lines_from("Gewicht / Weight", "250"),
        placed(line_from("g", 1), 80),
        placed(line_from("40 °C", 3), 80),
        line_from("850 m", 4),
    ]
    masses = [one.value for one in find_quantities(lines) if one.name == "mass_g"]
    assert masses[:1] == [250.0]


@pytest.mark.parametrize("text", ["22 m× 30 rgs = 10 cm", "22 m x 30 rgs = 10", "27 m× 36 rgs"])
def test_stitches_beside_a_sign_of_times_are_no_code(text: str) -> None:
    found = parsed("Grisaille Laines", text, "Coloris: Plomb doux", "Bain: 3243", "100 g, 220 m")
    assert found["shade_code"].value is None


def test_a_name_right_below_the_code_of_its_caption_is_the_shades() -> None:
    lines = lines_from(
        "Wollwarte Spinnerei", "Firnlicht", "Farb-Nr. / Colour", "1452", "Morgenfrost"
    )
    found = parse([*lines, line_from("Partie 9819", 6)], ())
    assert (found["range"].value, found["shade"].value) == ("Firnlicht", "Morgenfrost")


def test_a_name_with_its_number_is_asked_about_as_a_shade() -> None:
    found = parsed("Old Gauge House", "Rainfall No. 3", "100 g, 220 m", "Freshet", "Dye lot 667")
    assert found["shade"].state is not State.SURE


def test_a_caption_within_a_house_s_name_is_none() -> None:
    found = parsed("Old Gauge House", "Rainfall", "100 g, 220 m", "Shade 204 Heron", "Dye lot 667")
    assert found["maker"].value == "Old Gauge House"


def test_a_shade_to_whose_code_the_range_stands_nearer_is_asked_about() -> None:
    found = parse(
        [
            line_from("Orage", 0),
            line_from("437", 1),
            placed(line_from("Brouillarde", 2), 0, 20),
            placed(line_from("Arc-en-fil Laines", 3), 0, 20),
            *(placed(line, 0, 300) for line in lines_from("N° de bain 63556", "155 m / 50 g")),
        ],
        (),
    )
    assert found["shade"].value == "Orage" or found["shade"].state is not State.SURE


def test_a_name_that_is_a_web_address_is_whole_and_not_asked_about_with_the_next() -> None:
    names = [placed(line_from("Il Pluviometro", 0)), placed(line_from("Pioggerella", 1), 0, -6)]
    facts = lines_from(
        "50 g", "140 m", "Tinta 35 Temporale", "Lotto 18634", "www.il-pluviometro.example"
    )
    found = parse([*names, *(placed(line, 0, 120) for line in facts)], ())
    assert (found["maker"].value, found["range"].value) == ("Il Pluviometro", "Pioggerella")


@pytest.mark.parametrize(
    "text",
    [
        *("Farbabweichungen zwischen den", "Dye lots may differ", "Les bains peuvent varier"),
        *(
            "Los tonos pueden variar",
            "Verfbaden kunnen verschillen",
            "Partien möglich. Bitte genügend",
        ),
    ],
)
def test_a_warning_about_lots_names_nothing(text: str) -> None:
    found = parsed(MAKER, "Windfall", text, "Shade 204", "Lot 88123", "100 g, 220 m")
    names = (found["maker"].value, found["range"].value, found["shade"].value)
    assert names[:2] == (MAKER, "Windfall")
    assert names[2] is None


def test_a_number_in_the_sentence_of_a_shade_is_asked_about_and_no_range() -> None:
    found = parsed(
        MAKER, "Windfall", "The colour is Perry,", "number 31, dyed in lot 3439P.", "50 g"
    )
    assert (found["shade"].value, found["shade_code"].value) == ("Perry", "31")
    assert "'number 31'" in found["shade_code"].reason
    assert found["range"].value == "Windfall"


def test_a_name_before_a_full_stop_and_a_share_is_free() -> None:
    found = parsed(MAKER, "Lokalteil", "Farbe 13", "Zeitungsrosa. 90 % Schurwolle, 10 % Polyamid.")
    assert "Zeitungsrosa" in (found["shade"].value, *found["shade"].others, found["range"].value)


def test_a_word_for_a_factory_is_no_whole_name() -> None:
    found = parsed("Manifattura", "Acquazzone", "100 g, 220 m", "Tinta 309 Grandine", "Lotto 9819")
    assert found["maker"].value != "Manifattura" or found["maker"].state is not State.SURE


@pytest.mark.parametrize("text", ["metres, in\nshade 7821 Heron.", "Dyed in the shade 7821 Heron"])
def test_a_shade_with_its_number_is_no_place_to_dry_in(text: str) -> None:
    found = parsed(MAKER, *text.split("\n"), "Hand wash. Spread flat to dry.", "100 % wool")
    assert found["care"].value == ("hand wash", "dry flat")
    assert (found["shade_code"].value, found["shade"].value) == ("7821", "Heron")


def test_what_stands_in_the_line_below_the_shade_to_dry_in_is_no_colours_number() -> None:
    found = parsed(MAKER, "Hand wash. Dry flat in shade", "50 g = 120 m")
    assert found["care"].value == ("hand wash", "dry flat", "dry in shade")


def test_the_end_of_a_lot_behind_a_stroke_is_no_mass() -> None:
    found = parsed(MAKER, "Coloris", "A549 – Cassis", "1031/408", "Bain de teinture", "20 m")
    assert found["lot"].value == "1031/408"


def test_a_town_before_its_post_code_is_no_maker_where_a_web_address_names_another() -> None:
    found = parsed(
        "Inverlossan, ZZ31 2AA,", "Scotland", "www.emberridgehandknits.example",
        "Larkmere Soft", "Sport", "Emberridge Handknits", "Shade VE93", "Lot 59494144",
    )  # fmt: skip
    assert found["maker"].value == "Emberridge Handknits"


def test_a_loose_number_is_no_sure_lot_beside_one_with_an_unknown_word() -> None:
    found = parsed(
        MAKER, "Fyrskepp", "färgton 93.1 - Teros", "klats 20-9187", "31.ZQ.99081", "50 g"
    )
    assert found["lot"].state is not State.SURE


@pytest.mark.parametrize("caption", ["sats", "satsnr", "färgsats"])
def test_the_northern_word_for_a_batch_announces_the_lot(caption: str) -> None:
    found = parsed(MAKER, "Fyrskepp", f"{caption} 20-9187", "31.ZQ.99081", "50 g = 125 m")
    assert (found["lot"].value, found["lot"].state) == ("20-9187", State.SURE)


def test_a_word_that_asks_for_a_number_is_no_shade() -> None:
    found = parsed(MAKER, "Vinterhamn", "färg", "klatsnr", "18436S", "50 g = 35 m")
    assert found["shade"].value != "klatsnr"


def test_inches_above_a_caption_are_no_place_to_dry_in() -> None:
    found = parsed(MAKER, "20 sts", "10cm = 4in", "Shade", "Lilac", "Lot 07873", "150 g = 250 m")
    assert found["care"].value is None
    assert found["shade"].value == "Lilac"


def test_a_lot_that_begins_like_grams_is_whole() -> None:
    found = parsed(MAKER, "Windfall", "Lot", "70G-73", "50 g = 120 m")
    assert found["lot"].value == "70G-73"


@pytest.mark.parametrize("text", ["50G-125M", "50g/125m"])
def test_grams_before_a_length_stay_grams(text: str) -> None:
    found = parsed(MAKER, "Windfall", text)
    assert (found["mass_g"].value, found["length_m"].value) == (50.0, 125.0)


@pytest.mark.parametrize(
    "text", ["Fargen er Gyvelgul, nummer 7-62", "Farven er Gyvelgul, nr. 7-62"]
)
def test_a_northern_sentence_tells_the_shade(text: str) -> None:
    found = parsed("Gyvelbakken Spinneri", "Dugg", text, "fra fargebadet 88123", "50 g = 120 m")
    assert found["shade"].value == "Gyvelgul"


def test_a_sentence_in_place_of_a_shade_is_asked_about() -> None:
    found = parsed("Gyvelbakken Spinneri", "Dugg", "Tonen er Gyvelgul 762", "Parti 88123", "50 g")
    assert found["shade"].value != "Tonen er Gyvelgul" or found["shade"].state is not State.SURE


def test_a_word_made_like_a_caption_is_no_sure_shade() -> None:
    found = parsed("Gyvelbakken Spinneri", "Dugg", "Färg", "Färgställning", "Parti 88123", "50 g")
    assert found["shade"].value != "Färgställning" or found["shade"].state is not State.SURE


def test_a_range_that_seems_to_go_on_is_asked_about() -> None:
    found = parsed(
        "Gyvelbakken Spinneri", "Garn: Dugg og", "Farge 204 Hegre", "Parti 88123", "50 g"
    )
    assert found["range"].value != "Dugg og" or found["range"].state is not State.SURE


def test_what_a_garment_needs_is_no_shade() -> None:
    found = parsed("Garenhuis Wilgen", "Dorpspomp", "bollen nodig", "Kleurnr. 204", "Verfbad 88123")
    assert found["shade"].value != "bollen nodig"


def test_a_word_for_a_number_before_a_code_is_no_scrap_of_it() -> None:
    found = parsed(MAKER, "Windfall", "The colour is Foxglove, number DY06, from", "dye lot 88123.")
    assert (found["shade_code"].value, found["shade_code"].state) == ("DY06", State.SURE)


@pytest.mark.parametrize("mark", [",", "."])
def test_a_town_before_its_post_code_is_no_maker(mark: str) -> None:
    found = parsed(
        "Tollgate", "Shade 204 Heron", "Lot 88123", "50 g = 120 m",
        "Inchtarvit Woollen Works", f"Inchtarvit, ZZ36 9LD{mark} Scotland",
    )  # fmt: skip
    assert found["maker"].value == "Inchtarvit Woollen Works"


@pytest.mark.parametrize("word", ["MATIÈRES", "Fiberinnehåll", "Breinaalden", "Wastips", "Type"])
def test_a_caption_of_something_else_is_no_range(word: str) -> None:
    found = parsed(MAKER, "Vent Debout", word, "Shade 204 Heron", "Lot 88123", "50 g = 120 m")
    assert (found["range"].value, found["range"].state) == ("Vent Debout", State.SURE)


@pytest.mark.parametrize(("code", "digits"), [("KO240", "K0240"), ("OR2", "0R2"), ("I3O", "130")])
def test_a_code_whose_letters_look_like_digits_is_offered_with_digits(
    code: str, digits: str
) -> None:
    found = parsed(MAKER, "Windfall", f"Shade no. {code}", "Lot 88123", "50 g = 120 m")[
        "shade_code"
    ]
    assert (found.value, found.state) == (code, State.DOUBTFUL)
    assert digits in found.others
