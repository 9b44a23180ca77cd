"""Care told by what the dryer or bleach would do to the yarn, by a heat that is hardly one, and by
sentences that go on in the next line: nothing that forbids is taken as allowing."""

from __future__ import annotations

import pytest

from tests.care_reading import best


def care_of(text: str) -> tuple[str, str]:
    found = best(*text.split(" / "))
    return "; ".join(found.value), found.doubt


@pytest.mark.parametrize(
    "text",
    [
        "Hand wash. The tumble dryer will ruin it.",
        "Hand wash. Tumble drying destroys the fibre.",
        "Hand wash. Tumble dryers ruin wool.",
        "Handwäsche. Der Trockner zerstört das Garn.",
        "Lavage à la main. Le sèche-linge abîme le fil.",
        "Lavage à la main. Le sèche-linge l'abîmerait.",
        "Lavare a mano. L'asciugatrice lo rovina.",
        "Lavar a mano. La secadora lo estropea.",
        "Handwas. De droger bederft het garen.",
        "Handtvätt. Torktumlare förstör garnet.",
        "Håndvask. Tørretumbleren ødelægger garnet.",
        "Handwäsche. Trockner macht das Garn kaputt.",
        "Handwas. De droger / maakt het garen kapot.",
        "Handwas. Kan niet tegen de droger.",
        "Handwas. Droogtrommel is uit den boze.",
        "Hand wash. Tumble drying is out of the question.",
        "Lavage main. Sèche-linge à bannir.",
        "Handwäsche. Trockner ist tabu.",
        "Håndvask. Tørketrommel ødelegger garnet.",
        "Hand wash. The tumble dryer / will ruin it.",
        "Hand wash. The tumble / dryer will ruin it.",
        "Handwäsche. Der Wäschetrockner / zerstört das Garn.",
        "Lavar a mano. La secadora / lo estropea.",
        "Handtvätt. Torktumlare / förstör garnet.",
    ],
)
def test_a_dryer_that_ruins_the_yarn_is_forbidden(text: str) -> None:
    assert care_of(text) == ("hand wash; do not tumble dry", "")


@pytest.mark.parametrize(
    "text",
    [
        "Hand wash. Bleach would harm it.",
        "Hand wash. Bleach attacks the fibre.",
        "Handwäsche. Bleichmittel schadet der Wolle.",
        "Lavage à la main. Le chlore détruit la fibre.",
        "Lavare a mano. La candeggina danneggia il filato.",
        "Lavar a mano. La lejía daña la fibra.",
        "Handwas. Bleekmiddel beschadigt de wol.",
        "Handtvätt. Blekmedel skadar garnet.",
        "Håndvask. Blekemidler skader ulla.",
        "Håndvask. Blegemiddel skader garnet.",
        "Handwäsche. Ohne Bleichmittel waschen.",
        "Handtvätt. Får inte behandlas med blekmedel.",
        "Håndvask. Må ikke behandles med blegemiddel.",
        "Lavage main. Ne pas traiter au chlore.",
        "Handtvätt- Aldrig blekmedel",
    ],
)
def test_bleach_that_harms_the_yarn_or_is_not_to_touch_it_is_forbidden(text: str) -> None:
    assert care_of(text) == ("hand wash; do not bleach", "")


@pytest.mark.parametrize(
    "text",
    [
        "Hand wash. Tumble drying does not harm it.",
        "Håndvask. Tørretumbling / skader ikke garnet.",
        "Hand wash. Tumble drying hardly harms it.",
        "Hand wash. Tolerates tumble drying badly.",
        "Lavage main. Supporte mal le sèche-linge.",
        "Lavare a mano. Sopporta male l'asciugatrice.",
        "Handwas. Verdraagt de droger slecht.",
        "Handwäsche. Verträgt den Trockner schlecht.",
        "Handtvätt. Tål torktumling dåligt.",
        "Håndvask. Tåler dårligt tørretumbling.",
        "Hand wash. Hot iron ruins it.",
        "Hand wash. Washing above 30 °C ruins the wool.",
        "Hand wash. To avoid damage, tumble dry low.",
        "Hand wash. Tumble drying shrinks it.",
        "Hand wash. Shrinks in the tumble dryer.",
        "Hand wash. Tumble drying will rvin it.",
        "Hand wash. Tumble drying / xqvks the yarn.",
        "Håndvask. Kemisk rens / xr ikke tilladt.",
    ],
)
def test_a_warning_that_is_not_plain_is_asked_about(text: str) -> None:
    assert care_of(text)[1]


@pytest.mark.parametrize(
    "text",
    [
        "Hand wash. Tumble dry low / Contents: 50 g",
        "Hand wash. Tumble dry low / www.example",
        "Hand wash. Tumble dry low / Hagelmark Yarns",
    ],
)
def test_what_stands_below_care_and_does_not_go_on_with_it_is_no_doubt(text: str) -> None:
    assert care_of(text) == ("hand wash; tumble dry low", "")


@pytest.mark.parametrize(
    "text",
    [
        "Hand wash. Iron barely warm.",
        "Hand wash. Barely warm iron.",
        "Hand wash. Iron just warm.",
        "Handwäsche. Kaum warm bügeln.",
        "Handwäsche. Leicht warm bügeln.",
        "Handwäsche. Nur lauwarm überbügeln.",
        "Lavage main. Fer à peine chaud.",
        "Lavage main. Fer à peine tiède.",
        "Lavare a mano. Ferro appena caldo.",
        "Lavar a mano. Plancha apenas caliente.",
        "Handwas. Amper warm strijken.",
        "Handwas. Nauwelijks warm strijken.",
        "Handtvätt. Knappt varmt strykjärn.",
        "Handtvätt. Endast svag strykvärme.",
        "Håndvask. Knapt varmt strykejern.",
        "Håndvask. Bare svak strykevarme.",
        "Håndvask. Knap varmt strygejern.",
        "Håndvask. Kun svag strygevarme.",
    ],
)
def test_a_heat_that_is_hardly_one_is_the_lowest(text: str) -> None:
    assert care_of(text) == ("hand wash; iron low", "")


@pytest.mark.parametrize("iron", ["strygejern", "strykejern", "strykjärn"])
def test_the_degrees_tell_how_hot_an_iron_of_the_north_is(iron: str) -> None:
    """ "Varmt" is 200 °C to some and 150 °C to others."""
    assert care_of(f"Varmt {iron}, 150 °C") == ("iron medium", "")
    assert care_of(f"Varmt {iron}, 200 °C") == ("iron high", "")
    assert care_of(f"Meget varmt {iron}") == ("iron high", "")
    assert care_of(f"Håndvask. Varmt {iron}")[1]


@pytest.mark.parametrize(
    ("text", "care"),
    [
        ("Hand wash. Dry cleaning excluded.", "do not dry clean"),
        ("Handwäsche. Chemische Reinigung ausgeschlossen.", "do not dry clean"),
        ("Lavage main. Nettoyage à sec exclu.", "do not dry clean"),
        ("Lavar a mano. Limpieza en seco excluida.", "do not dry clean"),
        ("Handwas. Stomen uitgesloten.", "do not dry clean"),
        ("Handtvätt. Kemtvätt utesluten.", "do not dry clean"),
        ("Håndvask. Kemisk rens udelukket.", "do not dry clean"),
        ("Håndvask. Kjemisk rens utelukket.", "do not dry clean"),
        ("Håndvask. Kemisk rens / er ikke tilladt.", "do not dry clean"),
        ("Håndvask. Kjemisk rens / er ikke tillatt.", "do not dry clean"),
        ("Lavage à la main. Nettoyage à sec / n'est pas permis.", "do not dry clean"),
        ("Håndvask. Kemisk rens er tilladt.", "dry clean"),
        ("Håndvask. Kjemisk rens er tillatt.", "dry clean"),
        ("Lavar a mano. Limpieza en seco autorizada.", "dry clean"),
    ],
)
def test_cleaning_is_allowed_or_ruled_out(text: str, care: str) -> None:
    assert care_of(text) == (f"hand wash; {care}", "")


@pytest.mark.parametrize(
    ("text", "care"),
    [
        ("Handtvätt. Torktumling avrådes bestämt.", "do not tumble dry"),
        ("Håndvask. Tørretumbler / frarådes på det kraftigste.", "do not tumble dry"),
        ("Håndvask. Tørketrommel frarådes på det sterkeste.", "do not tumble dry"),
        ("Handwäsche. Trockner strengstens verboten.", "do not tumble dry"),
        ("Handwas. Droogtrommel ten strengste afgeraden.", "do not tumble dry"),
        ("Lavage main. Séchage en tambour fortement déconseillé.", "do not tumble dry"),
        ("Håndvask. Går fint i tørretumbleren.", "tumble dry"),
        ("Håndvask. Går fint i tørketrommelen.", "tumble dry"),
        ("Handtvätt. Går bra att torktumla.", "tumble dry"),
        ("Handtvätt. Torktumlas på lågvärme.", "tumble dry low"),
    ],
)
def test_a_dryer_is_advised_against_or_does_well(text: str, care: str) -> None:
    assert care_of(text) == (f"hand wash; {care}", "")


@pytest.mark.parametrize(
    ("text", "care"),
    [
        ("Lauwwarme handwas.", "hand wash"),
        ("Lauwarme / Handwäsche.", "hand wash"),
        ("Enbart handtvätt.", "hand wash"),
        ("Udelukkende håndvask.", "hand wash"),
        ("Utelukkende håndvask.", "hand wash"),
        ("Wasinstructie: handwas.", "hand wash"),
        ("Tvättanvisning: Maskintvätt 40 °C.", "machine wash 40"),
        (
            "Machine wash, water no hotter than 30 °C / No bleaching agents / Dry flat",
            "machine wash 30; do not bleach; dry flat",
        ),
        ("Hand wash. Cool iron, 110 °C at most.", "hand wash; iron low"),
        ("Hand wash. Dry flat. Dry where no sun reaches it.", "hand wash; dry flat; dry in shade"),
        ("Håndvask. Tørkes flatt. Tørkes ikke i sola.", "hand wash; dry flat; dry in shade"),
    ],
)
def test_words_around_a_process_are_known(text: str, care: str) -> None:
    assert care_of(text) == (care, "")


@pytest.mark.parametrize("text", ["Wash by hand -", "Wash by hand-", "Hand wash. / Dry flat,"])
def test_care_that_ends_as_a_list_does_that_goes_on_is_asked_about(text: str) -> None:
    assert care_of(text)[1]


@pytest.mark.parametrize(
    ("text", "care"),
    [
        ("Hand wash; / Dry flat", "hand wash; dry flat"),
        ("Hand wash. / Dry flat.", "hand wash; dry flat"),
        ("Hand wash. / Cool iron, / at most 110 °C", "hand wash; iron low"),
    ],
)
def test_a_sign_that_the_next_line_of_care_stands_behind_is_no_doubt(text: str, care: str) -> None:
    assert care_of(text) == (care, "")
