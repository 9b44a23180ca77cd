"""Care with other print beside it: advice about lots, addresses, names of another column; and words
of care joined, cut or glued as narrow print has them.

The wordings are made up; common practice, no source.
"""

from __future__ import annotations

import pytest

from intake.fields.care.words import find_care, is_answer_alone
from intake.records import Candidate, Line
from tests.line_making import LETTER_WIDTH_PX, line_from, lines_from, placed


def best(*texts: str) -> Candidate:
    return only(lines_from(*texts))


def only(lines: list[Line]) -> Candidate:
    found = find_care(lines)
    assert len(found) == 1, f"care of {[line.text for line in lines]}: {found}"
    return found[0]


def assert_care(lines: str, care: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        (
            "Do not iron. Please check all balls carry the / same number before you begin.",
            "do not iron",
        ),
        (
            "Chemische Reinigung P. Bitte vor / Arbeitsbeginn auf gleiche Partien achten.",
            "dry clean",
        ),
        (
            "Fer moyen. Vérifiez que toutes / les pelotes portent le même numéro.",
            "iron medium",
        ),
        (
            "Lavaggio a secco P Controllare che tutti i gomitoli abbiano lo stesso / numero.",
            "dry clean",
        ),
        (
            "No planchar. Compruebe que todos los ovillos lleven el mismo número.",
            "do not iron",
        ),
        (
            "Chemisch reinigen F. Let op: koop in één keer genoeg garen.",
            "dry clean",
        ),
        ("Kemtvätt tillåten P. Kontrollera att alla nystan har samma nummer.", "dry clean"),
        ("Må ikke strykes. Kjøp nok nøster med samme innfarging.", "do not iron"),
        ("Kun kemisk rens. Køb nøgler nok med samme farvebad.", "dry clean"),
    ],
)
def test_advice_about_balls_and_lots_behind_care_asks_nothing(lines: str, care: str) -> None:
    assert_care(lines, care)


def test_a_sentence_about_balls_with_what_may_be_a_misread_word_of_care_is_asked_about() -> None:
    assert best("Machine wash 30°. Keep all balls blaachcd.").doubt
    assert_care("Machine wash 30°. Keep all balls together.", "machine wash 30")


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        ("Tumble dry low. Made in the EU.", "tumble dry low"),
        ("Bügeln warm. Hergestellt in Wüllenland", "iron medium"),
        ("Nettoyage à sec P. Fabriqué en Ambrelle.", "dry clean"),
        ("Lavaggio a secco P. Prodotto in Italia.", "dry clean"),
        ("Limpieza en seco P. Hecho en España.", "dry clean"),
        ("Chemisch / reinigen F. Gemaakt in de EU.", "dry clean"),
        ("Får blekas. Tillverkat i Sverige", "any bleach"),
        ("Stryges ved middel varme. Spundet i Danmark", "iron medium"),
        ("Strykes på middels varme. Produsert i Norge", "iron medium"),
    ],
)
def test_where_the_yarn_was_made_behind_care_asks_nothing(lines: str, care: str) -> None:
    assert_care(lines, care)


@pytest.mark.parametrize("address", ["@spinnerijklaverdonk", "www.klaverdonk.example"])
def test_an_address_below_care_asks_nothing_and_joins_nothing(address: str) -> None:
    assert_care(f"Machinewas 30 °C / Niet strijken / {address}", "machine wash 30; do not iron")
    found = best("Strykning är inte tillåten", address)
    assert (found.value, found.doubt) == (("do not iron",), "")


@pytest.mark.parametrize(
    "lines",
    [
        "Do not tumble dry. Dyed by hand.",
        "Nicht in den Trockner. Von Hand gefärbt.",
        "Sèche-linge interdit. Teint à la main.",
        "Non usare l'asciugatrice. Tinto a mano.",
        "No usar secadora. Teñido a mano.",
        "Niet in de droger. Met de hand geverfd.",
        "Torktumlas ej. Färgad för hand.",
        "Ikke tørketrommel. Farget for hånd.",
        "Tåler ikke tørretumbling. Farvet med hånd.",
        "Nicht in den Trockner. Von Hand gefärbt in kleinen Partien.",
    ],
)
def test_yarn_that_hands_dyed_asks_for_no_washing_by_hand(lines: str) -> None:
    assert_care(lines, "do not tumble dry")


def column(*texts: str, right_px: float, first: int = 0) -> list[Line]:
    return [
        placed(line_from(text, number), right_px=right_px)
        for number, text in enumerate(texts, start=first)
    ]


def woven(*columns: list[Line]) -> list[Line]:
    return [line for row in zip(*columns, strict=True) for line in row]


def test_names_of_another_column_between_lines_of_care_ask_nothing() -> None:
    care = column(
        "Lavatrice 40 °C, programma delicati",
        "Candeggio escluso",
        "Asciugatura in tamburo esclusa",
        right_px=60 * LETTER_WIDTH_PX,
    )
    names = column("FILATI", "SERAFINA", "Giallo", right_px=0)
    found = only(woven(names, care))
    assert found.value == ("machine wash 40 mild", "do not bleach", "do not tumble dry")
    assert not found.doubt
    assert {span.line for span in found.spans} == {1, 3, 5}


def test_a_sentence_goes_on_below_in_its_own_column() -> None:
    care = column(
        "No usar lejía. Secadora a",
        "temperatura normal. No planchar.",
        right_px=60 * LETTER_WIDTH_PX,
    )
    found = only(woven(care, column("Pluvina", "Grosor", right_px=0)))
    assert (found.value, found.doubt) == (("do not bleach", "tumble dry", "do not iron"), "")


@pytest.mark.parametrize(("gap_letters", "asked"), [(1, True), (20, False)])
def test_only_print_well_aside_is_another_column(gap_letters: int, asked: bool) -> None:
    names = column("FILATURA", "SERAFINA", "OMBROSAL", right_px=0)
    care = column(
        "Lavatrice 40 °C",
        "Candeggio escluso",
        "Asciugatura in tamburo esclusa",
        right_px=(len("SERAFINA") + gap_letters) * LETTER_WIDTH_PX,
    )
    assert bool(only(woven(names, care)).doubt) == asked


@pytest.mark.parametrize(
    "rows",
    [
        "Machine wash 30 °C / yes / Tumble dry low / no / Dry clean / no",
        "Maschinenwäsche 30 °C / ja / Trockner geeignet / nein / Chemisch reinigen / nein",
    ],
)
def test_a_table_in_which_a_no_may_belong_to_two_rows_is_asked_about(rows: str) -> None:
    assert best(*rows.split(" / ")).doubt


def test_what_a_cell_says_that_answers_is_told_from_what_names_a_process() -> None:
    assert is_answer_alone("No")
    assert is_answer_alone("nicht")
    assert not is_answer_alone("Do not bleach")
    assert not is_answer_alone("Giallo")
    assert not is_answer_alone("4021-07")
    assert not is_answer_alone("")


@pytest.mark.parametrize(
    "dryer",
    [
        "Tumble dry at normal heat",
        "Trockner bei normaler Temperatur",
        "Séchage en tambour à température normale",
        "Asciugatrice a temperatura normale",
        "Secadora a temperatura normal",
        "Droger op normale temperatuur",
        "Torktumlas vid normal temperatur",
        "Tørketrommel på normal varme",
        "Tørretumbling ved normal temperatur",
    ],
)
def test_a_dryer_with_its_normal_heat_is_one_that_may_be_hot(dryer: str) -> None:
    assert_care(dryer, "tumble dry")


@pytest.mark.parametrize(
    "dryer",
    ["Tumble dry normal or low heat", "Secadora a temperatura normal: no", "Iron at normal heat"],
)
def test_a_normal_heat_that_is_not_plain_is_asked_about(dryer: str) -> None:
    assert best(dryer).doubt


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        ("Alleen zuurstofbleekmiddel", "oxygen bleach only"),
        ("Nur Sauerstoffbleichmittel", "oxygen bleach only"),
        ("Kun oksygenbasert blekemiddel", "oxygen bleach only"),
        ("Kun iltholdigt blegemiddel", "oxygen bleach only"),
        ("Professioneel natreinigen", "wet clean"),
        ("Niet natreinigen", "do not wet clean"),
        ("Nicht waschen / Zur Reinigung geben", "do not wash; dry clean"),
        ("Non lavable / Confier au pressing", "do not wash; dry clean"),
    ],
)
def test_bleaching_and_cleaning_in_a_compound_or_by_a_firm_are_known(lines: str, care: str) -> None:
    assert_care(lines, care)


@pytest.mark.parametrize(
    "lines",
    [
        "Non lavable / Confier au pressing",
        "Nicht waschen / Zur Reinigung",
        "Do not wash / Dry cleaner",
        "Niet wassen / Naar de stomerij",
        "Non lavare / In tintoria",
        "No lavar / Tintorería",
        "Tvättas ej / Lämnas till kemtvätt",
        "Vaskes ikke / Renseri",
    ],
)
def test_what_is_not_washed_is_not_forbidden_to_clean(lines: str) -> None:
    found = best(*lines.split(" / "))
    assert "do not dry clean" not in found.value
    assert found.value == ("do not wash", "dry clean") or found.doubt


def test_a_negation_before_a_compound_is_never_lost() -> None:
    assert best("Geen zuurstofbleekmiddel").doubt
    assert best("Ne pas confier au pressing").value == ("do not dry clean",)


@pytest.mark.parametrize("place", ["à lombre", "allombra", "all ombra", "à l'ombre"])
def test_an_article_without_its_apostrophe_is_parted(place: str) -> None:
    verb = "Sécher" if "à" in place else "Asciugare"
    assert_care(f"{verb} {place}", "dry in shade")


@pytest.mark.parametrize("ring", ['"', "“", "'", "*"])
def test_a_ring_read_as_quotes_or_a_star_is_that_of_degrees(ring: str) -> None:
    assert_care(f"30 {ring}C machinewas", "machine wash 30")


@pytest.mark.parametrize(
    "lines",
    [
        "Machinewas 30 °C, mild programma Niet bleken Liggend / drogen",
        "Maschinenwäsche 30 °C, mildes Programm Nicht bleichen Liegend / trocknen",
        "Lavar a máquina 30 °C, programa suave No usar lejía Secar / en plano",
        "Maskinvask 30 °C, skånsomt program Ikke blekes Flattørkes",
    ],
)
def test_a_mild_programme_without_a_stop_behind_it_is_read(lines: str) -> None:
    assert_care(lines, "machine wash 30 mild; do not bleach; dry flat")


def test_a_heading_names_no_mild_programme() -> None:
    assert_care(
        "CUIDADO / Lavar a máquina a 40 °C / No usar lejía", "machine wash 40; do not bleach"
    )
    assert_care("Lavar con cuidado a máquina a 40 °C", "machine wash 40 mild")


def test_a_machine_of_which_no_washing_was_read_is_asked_about() -> None:
    found = best("Lvage e mchine . rorme dlcat Sce plt.", "Sécher à l'ombre, Fer doux")
    assert "no washing" in found.doubt


def test_a_line_that_adds_nothing_and_says_more_with_the_next_one_stands_with_that() -> None:
    assert_care(
        "Nada de secadora / Devolver la forma y secar en / plano / Prohibido planchar",
        "do not tumble dry; dry flat; do not iron",
    )


@pytest.mark.parametrize(
    "heading", ["vaskeråd Vask i maskin, 40 °C", "Modo de lavado En lavadora, 40 °C"]
)
def test_a_heading_before_the_washing_asks_nothing(heading: str) -> None:
    assert_care(heading, "machine wash 40")


@pytest.mark.parametrize(
    "without",
    [
        "without bleach or tumble dryer",
        "ohne Bleiche oder Trockner",
        "sans javel ni sèche-linge",
        "senza candeggio né asciugatrice",
        "sin lejía ni secadora",
        "zonder bleek of droger",
        "utan klor eller torktumlare",
        "uten klor eller tørketrommel",
        "uden klor eller tørretumbler",
    ],
)
def test_all_that_a_list_goes_without_is_forbidden(without: str) -> None:
    assert_care(
        f"30 °C machine wash; {without}", "machine wash 30; do not bleach; do not tumble dry"
    )


@pytest.mark.parametrize(
    "washing",
    [
        "Lavatrice 30 °C senza centrifuga o ammollo",
        "Machine 30 °C sans essorage ou trempage",
        "Lavadora 30 °C sin centrifugado o remojo",
    ],
)
def test_a_machine_that_is_not_to_spin_or_soak_washes_all_the_same(washing: str) -> None:
    found = best(washing, "Asciugare in piano")
    assert "machine wash 30" in found.value or found.doubt
