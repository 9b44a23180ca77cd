"""Care told of the yarn as of someone: what it wants, what is its enemy, what it is kept away from;
and what stands beside care and forbids nothing.

The wordings are made up; common practice, no source.
"""

from __future__ import annotations

import pytest

from intake.fields.care.symbols import WASHING_UNTOLD, with_symbols
from intake.fields.care.words import find_care
from intake.fields.drawn import with_drawings
from intake.fields.parse import parse
from intake.records import Candidate, Field, State
from tests.line_making import lines_from


def best(text: str) -> Candidate:
    found = find_care(lines_from(*text.split(" / ")))
    assert len(found) == 1, f"care of {text!r}: {found}"
    return found[0]


def assert_care(text: str, care: str) -> None:
    found = best(text)
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    "text",
    [
        "By hand in lukewarm water",
        "By hand only, in cool water / with wool soap",
        "Mit der Hand in kühlem Wasser",
        "À la main / dans une eau à peine tiède",
        "A mano in acqua appena tiepida",
        "A mano con agua fría",
        "Met de hand in lauw water",
        "För hand i svalt vatten",
        "For hånd i lunkent / vann",
        "I hånden i lunkent vand",
    ],
)
def test_hands_in_water_wash_though_no_word_says_so(text: str) -> None:
    assert_care(text, "hand wash")


@pytest.mark.parametrize(
    "text",
    [
        "Dyed in small lots / by hand in cold water",
        "In kleinen Mengen gefärbt, / von Hand in kaltem Wasser",
        "Teint en petits lots / à la main dans une eau froide",
        "Not by hand in cold water",
        "By hand or machine in cold water",
    ],
)
def test_hands_in_water_wash_nothing_where_more_is_told_of_them(text: str) -> None:
    assert "hand wash" not in {
        process for found in find_care(lines_from(*text.split(" / "))) for process in found.value
    }


def test_hands_in_water_wash_below_a_caption_of_the_dye() -> None:
    assert_care("Färgbad 02-116 / För hand i svalt vatten", "hand wash")
    assert_care("Farvebad / 1234 / I hånden i lunkent vand", "hand wash")


def test_hands_that_rinse_in_water_do_not_wash() -> None:
    assert_care("Rinse by hand in cold water / Machine wash 30 °C", "machine wash 30")


@pytest.mark.parametrize(
    "text",
    [
        "Keep bleach away",
        "Von Bleiche fernhalten",
        "Tenir loin / de la Javel",
        "Tenere lontano dalla candeggina",
        "Mantener lejos / de la lejía",
        "Uit de buurt van bleek houden",
        "Håll borta från blekmedel",
        "Hold / unna blekemidler",
        "Hold / væk fra blegemidler",
    ],
)
def test_bleach_that_yarn_is_kept_away_from_is_forbidden(text: str) -> None:
    assert_care(f"Hand wash / {text}", "hand wash; do not bleach")


@pytest.mark.parametrize(
    "text",
    [
        "Keep the iron away",
        "Vom Bügeleisen / fernhalten",
        "Tenir le fer loin",
        "Tenere lontano il ferro",
        "Mantener lejos la plancha",
        "Strijkijzer weghouden",
        "Håll strykjärnet borta",
        "Hold strykejernet unna",
        "Hold strygejernet væk",
    ],
)
def test_an_iron_that_is_kept_away_is_forbidden(text: str) -> None:
    assert_care(f"Hand wash / {text}", "hand wash; do not iron")


@pytest.mark.parametrize(
    "text",
    [
        "Vom Wäschetrockner fernhalten",
        "Tenere lontano / dall'asciugatrice",
        "Mantener lejos de la secadora",
        "Uit de droogtrommel houden",
        "Ska inte / torktumlas alls",
    ],
)
def test_a_dryer_that_yarn_is_kept_away_from_is_forbidden(text: str) -> None:
    assert_care(f"Hand wash / {text}", "hand wash; do not tumble dry")


@pytest.mark.parametrize(
    ("text", "care"),
    [
        ("Håndvask. Hold / væk fra blegemidler.", "hand wash; do not bleach"),
        ("Vask meg for hånd. Hold / strykejernet unna", "hand wash; do not iron"),
    ],
)
def test_a_word_that_holds_off_what_stands_in_the_next_line_asks_nothing(
    text: str, care: str
) -> None:
    assert_care(text, care)


def test_a_list_of_what_yarn_is_kept_away_from_is_forbidden_as_a_whole() -> None:
    assert_care(
        "Hand wash / Keep away from bleach and the tumble dryer.",
        "hand wash; do not bleach; do not tumble dry",
    )
    assert_care(
        "Hand wash / Tenir loin du fer et de la Javel", "hand wash; do not bleach; do not iron"
    )


@pytest.mark.parametrize(
    "text",
    [
        "Tenir loin le fer tiède",
        "Strykejernet må ikke holdes unna",
        "The dryer is not its enemy",
        "Takes the dryer badly",
    ],
)
def test_a_negation_or_a_heat_beside_what_is_kept_away_is_asked_about(text: str) -> None:
    assert best(f"Hand wash / {text}").doubt


@pytest.mark.parametrize(
    "text",
    [
        "Bleach is its enemy",
        "Bleiche ist sein Feind",
        "La Javel est son ennemie",
        "La candeggina è sua nemica",
        "La lejía es su enemiga",
        "Bleekmiddel is de vijand",
        "Blekmedel är dess fiende",
        "Den hater blekemidler",
        "Blegemidler er dens fjende",
    ],
)
def test_an_enemy_is_forbidden(text: str) -> None:
    assert best(f"Hand wash / {text}").value == ("hand wash", "do not bleach")


@pytest.mark.parametrize(
    ("text", "care"),
    [
        ("Usual machine programme, 40 °C", "machine wash 40"),
        ("Normaler Maschinengang, 40 °C", "machine wash 40"),
        ("Cycle ordinaire en machine, 40 °C", "machine wash 40"),
        ("Ciclo normale in lavatrice, 40 °C", "machine wash 40"),
        ("Ciclo normal de lavadora, 40 °C", "machine wash 40"),
        ("Gewoon machineprogramma, 40 °C", "machine wash 40"),
        ("Vanligt maskinprogram, 40 °C", "machine wash 40"),
        ("Hvordan vaskes det? / Almindeligt maskinprogram, 40 °C", "machine wash 40"),
        ("Schonender Maschinengang, 30 °C", "machine wash 30 mild"),
        ("Voorzichtig machineprogramma, 30 °C", "machine wash 30 mild"),
        ("Skånsomt maskinprogram, 30 °C", "machine wash 30 mild"),
        ("Wasmachine op de wolstand, 30 °C", "machine wash 30 mild"),
        ("Tvättmaskin med ullprogram, 30 oC", "machine wash 30 mild"),
    ],
)
def test_a_programme_of_the_machine_washes(text: str, care: str) -> None:
    assert_care(text, care)


@pytest.mark.parametrize(
    ("text", "care"),
    [
        ("Takes a hot iron, 200 °C", "iron high"),
        ("Tåler varm stryking, 200 °C", "iron high"),
        ("Tåler varm stryking, 150 °C", "iron medium"),
        ("It wants no iron", "do not iron"),
        ("Puede ir a la limpieza en seco", "dry clean"),
        ("Får inte / lämnas till kemtvätt", "do not dry clean"),
        ("Kan leveres til kjemisk rens", "dry clean"),
        ("Trocknet auch im Wäschetrockner", "tumble dry"),
        ("Tål torktumlare bra", "tumble dry"),
        ("Tumble dryer, gentle heat only", "tumble dry low"),
        ("Trockner, nur sanfte Hitze", "tumble dry low"),
        ("Peg out on the line", "line dry"),
        ("Häng upp på tvättlina", "line dry"),
        ("Bred ut plant på en handduk", "dry flat"),
        ("Bred ud fladt på et håndklæde", "dry flat"),
        ("Beskytt mot sol under tørking", "dry in shade"),
        ("Beskyt mod sol under tørring", "dry in shade"),
    ],
)
def test_what_yarn_takes_and_how_it_is_dried_is_read_in_other_words(text: str, care: str) -> None:
    assert_care(f"Vuole il lavaggio a mano / {text}", f"hand wash; {care}")


@pytest.mark.parametrize(
    "text",
    [
        "Dyed by hand: no two hanks are twins.",
        "Von Hand gefärbt: kein Strang hat einen Zwilling.",
        "Met de hand geverfd: geen streng heeft een tweeling.",
        "Handfärgat: ingen härva har en tvilling.",
        "Siegel Stille Wiese, Zertifikat QM/55/413",
        "Keurmerk Stille Wei, certificaat QM/85/889",
        "Mærket Stille Eng, certifikat QM/38/573",
        "Kettingdichtheid: 2 draden per cm",
        "Bestelnr.",
    ],
)
def test_a_line_about_hanks_seals_or_numbers_asks_nothing_of_care(text: str) -> None:
    assert_care(f"Hand wash / Dry flat / {text}", "hand wash; dry flat")


def test_no_skein_in_a_line_that_tells_of_care_is_still_asked_about() -> None:
    assert best("Machine wash 30 °C / No skein in the dryer").doubt


def test_the_sign_of_norway_forbids_nothing_of_the_line_above() -> None:
    assert_care(
        "SV: Handtvätt, får lämnas till kemtvätt / NO: For hånd i lunkent vann",
        "hand wash; dry clean",
    )


def test_a_list_that_ends_with_a_comma_behind_harmless_words_goes_on() -> None:
    found = best("Skal ikke vaskes i vann, Tørketrommel er ikke noe for den,")
    assert "ends with ','" in found.doubt


def care_of(*texts: str) -> Field:
    lines = lines_from(*texts)
    return with_drawings(parse(lines, ()), lines, ())["care"]


@pytest.mark.parametrize(
    ("text", "care"),
    [("Dry flat", "dry flat"), ("Liegend trocknen. Nicht bügeln", "dry flat; do not iron")],
)
def test_care_in_words_that_tells_of_no_washing_is_asked_about(text: str, care: str) -> None:
    found = care_of(text, "Lot 12345")
    assert (found.value, found.state) == (tuple(care.split("; ")), State.DOUBTFUL)
    assert found.reason == WASHING_UNTOLD


def test_care_that_tells_of_a_washing_or_that_there_is_none_is_sure() -> None:
    assert care_of("Hand wash. Dry flat", "Lot 12345").state is State.SURE
    assert care_of("Do not wash. Dry clean", "Lot 12345").state is State.SURE


def test_care_that_was_not_found_gets_no_question() -> None:
    nothing = care_of("Lot 12345")
    assert with_symbols(nothing, ()) == nothing
    assert not nothing.reason
