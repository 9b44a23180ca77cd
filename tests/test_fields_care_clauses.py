"""Care in sentences that no list has: they are understood from their words.

The sentences were made up for this test after the tables of words; common practice, no source.
"""

from __future__ import annotations

import pytest

from intake.fields.care import find_care
from intake.records import Candidate
from tests.line_making import lines_from


def best(*texts: str) -> Candidate:
    found = find_care(lines_from(*texts))
    assert len(found) == 1, f"care of {texts}: {found}"
    return found[0]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Please wash me by hand in cool water. Never put me in the dryer. Lay out flat to dry.",
            "hand wash; do not tumble dry; dry flat",
        ),
        (
            "Machine washable, wool setting, 30 degrees. Chlorine bleach must not be used.",
            "machine wash 30 mild; do not bleach",
        ),
        (
            "Dry away from direct sunlight. Do not have dry cleaned. Not to be ironed.",
            "dry in shade; do not iron; do not dry clean",
        ),
        (
            "Bis 40 °C in der Waschmaschine im Wollprogramm waschbar. Bei geringer Hitze bügeln.",
            "machine wash 40 mild; iron low",
        ),
        (
            "Auf keinen Fall in den Trockner geben, flach ausgebreitet trocknen lassen",
            "do not tumble dry; dry flat",
        ),
        (
            "Nicht in die Reinigung geben. Nicht zum Bügeln geeignet.",
            "do not iron; do not dry clean",
        ),
        (
            "Se lave à la main à l'eau froide. Ne jamais mettre au sèche-linge. Sécher à plat.",
            "hand wash; do not tumble dry; dry flat",
        ),
        (
            "Évitez le chlore. Séchage à l'ombre sur un fil. Repassage déconseillé.",
            "do not bleach; line dry; dry in shade; do not iron",
        ),
        (
            "Si lava a mano; evitare la candeggina; stirare con ferro appena tiepido",
            "hand wash; do not bleach; iron low",
        ),
        ("Vietato usare l'asciugatrice. Si può lavare a secco.", "do not tumble dry; dry clean"),
        (
            "Lávese a mano con agua fría. Nunca use lejía. Séquese en horizontal y a la sombra.",
            "hand wash; do not bleach; dry flat; dry in shade",
        ),
        (
            "Nooit in de wasdroger. Plat op een handdoek laten drogen. Niet laten stomen.",
            "do not tumble dry; dry flat; do not dry clean",
        ),
        (
            "Använd aldrig klorin. Torka plant på handduk. Får ej torka i tumlare.",
            "do not bleach; do not tumble dry; dry flat",
        ),
        (
            "Aldri i tørketrommelen. Legges flatt til tørk. Skal ikke til rens.",
            "do not tumble dry; dry flat; do not dry clean",
        ),
        (
            "Vask i hånden i koldt vand. Aldrig i tørretumbleren. Undgå blegemidler.",
            "hand wash; do not bleach; do not tumble dry",
        ),
        ("Machine 30°\nNe pas sécher en machine", "machine wash 30; do not tumble dry"),
        ("Får inte strykas\nEj kemtvätt", "do not iron; do not dry clean"),
    ],
)
def test_understands_sentences_from_their_words(text: str, expected: str) -> None:
    found = best(*text.split("\n"))
    assert found.value == tuple(expected.split("; "))
    assert found.doubt == ""


@pytest.mark.parametrize(
    "text",
    [
        "Hand wash. Do not wash or dry clean.",
        "Dry flat. Keep xut of the dryer.",
        "Liegend trocknen. Nxcht in die Reinigung geben.",
        "Sécher à plat. Pes de pressing.",
        "Do hot tumble dry",
        "Hand wash. Press through a damp cloth or steam.",
    ],
)
def test_asks_where_a_sentence_may_forbid_what_its_words_allow(text: str) -> None:
    assert best(text).doubt


def test_words_of_care_in_other_print_say_nothing() -> None:
    for text in ("Warm Sun", "Iron Hill Spinners", "Line Dance 412", "Tender Wool"):
        assert all(not one.value for one in find_care(lines_from(text))), text
