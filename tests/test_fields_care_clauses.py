"""Care in sentences that no list has: they are understood from their words.

The sentences were made up for this test after the tables of words; common practice, no source.
"""

from __future__ import annotations

from textwrap import wrap

import pytest

from intake.fields.care.words import find_care
from tests.care_reading import best
from tests.line_making import lines_from


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


@pytest.mark.parametrize("width", [20, 30, 200])
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Do not wash, bleach or iron. Dry clean.",
         "do not wash; do not bleach; do not iron; dry clean"),
        ("Do not bleach, tumble dry or iron. Hand wash.",
         "hand wash; do not bleach; do not tumble dry; do not iron"),
        ("Nicht bleichen oder im Trockner trocknen", "do not bleach; do not tumble dry"),
        ("Ne pas blanchir ni repasser. Nettoyage à sec possible.",
         "do not bleach; do not iron; dry clean"),
        ("Non candeggiare né stirare", "do not bleach; do not iron"),
        ("No usar lejía ni secadora", "do not bleach; do not tumble dry"),
        ("Niet bleken of strijken", "do not bleach; do not iron"),
        ("Får ej blekas eller torktumlas", "do not bleach; do not tumble dry"),
        ("Tåler ikke bleking eller tørketrommel", "do not bleach; do not tumble dry"),
        ("Må ikke bleges eller tumbles", "do not bleach; do not tumble dry"),
    ],
)  # fmt: skip
def test_one_negation_forbids_all_things_of_its_list(text: str, expected: str, width: int) -> None:
    found = best(*wrap(text, width))
    assert found.value == tuple(expected.split("; "))
    assert found.doubt == ""


@pytest.mark.parametrize(
    "text",
    [
        "Do not bleach or iron low",
        "Do not bleach, hand wash or dry clean",
        "Do not bleach, tumble dry or hang dry",
        "Do not iron or tumble dry on high",
    ],
)
def test_a_choice_behind_a_negation_is_asked(text: str) -> None:
    assert best(text).doubt


def test_a_negation_ends_with_its_line_where_the_next_begins_with_another() -> None:
    found = best("Do not wash, do not iron, dry clean", "Nicht waschen, nicht bügeln, Chemische")
    assert "do not dry clean" not in found.value


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Iron, low heat", "iron low"),
        ("Mit Dampf bügeln, mittlere Hitze", "iron medium"),
        ("Tumble dry (low)", "tumble dry low"),
        ("Bügeln Stufe 1, nicht bleichen", "do not bleach; iron low"),
        ("Strijken op stand twee", "iron medium"),
        ("Repasser à 3 points", "iron high"),
        ("Strykes på to prikker", "iron medium"),
        ("Iron on reverse at low heat, do not steam", "iron low"),
    ],
)
def test_a_heat_is_told_in_dots_or_behind_a_comma(text: str, expected: str) -> None:
    """The dots are those of ISO 3758: one for low, two for medium, three for high (from memory)."""
    found = best(text)
    assert found.value == tuple(expected.split("; "))
    assert found.doubt == ""


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Liggend drogen, niet in de zon", "dry flat; dry in shade"),
        ("Dry flat. Keep out of the sun.", "dry flat; dry in shade"),
        ("Liegend trocknen, nicht in der Sonne", "dry flat; dry in shade"),
    ],
)
def test_what_is_dried_out_of_the_sun_is_dried_in_shade(text: str, expected: str) -> None:
    found = best(text)
    assert found.value == tuple(expected.split("; "))
    assert found.doubt == ""


def test_the_sun_forbidden_for_no_known_reason_is_asked() -> None:
    assert best("Hand wash. Keep away from sunlight.").doubt


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (("Hand wash, spin gently, dry flat in the", "shade"), "hand wash; dry flat; dry in shade"),
        (("Skal ikke vaskes, kun", "renses"), "do not wash; dry clean"),
        (("Hand wash cold, roll in a towel,", "dry flat"), "hand wash; dry flat"),
    ],
)
def test_nothing_is_lost_at_the_end_of_a_line(lines: tuple[str, str], expected: str) -> None:
    found = best(*lines)
    assert found.value == tuple(expected.split("; "))
    assert found.doubt == ""


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("Wash dark colours in the dryer at 40 °C, machine", "it is not clear what"),
        ("Not suitable for machine washing", "machine wash is forbidden, but not what is allowed"),
        ("Nicht in der Maschine waschen. Nicht bügeln.", "machine wash is forbidden, but not what"),
    ],
)
def test_words_of_care_that_tell_no_washing_are_asked_about_though_they_stand_alone(
    text: str, asked: str
) -> None:
    assert best(text).doubt.startswith(asked)


def test_a_machine_forbidden_beside_washing_by_hand_leaves_no_question() -> None:
    found = best("Hand wash. Not suitable for machine washing.")
    assert (found.value, found.doubt) == (("hand wash",), "")


@pytest.mark.parametrize(
    "text",
    [
        "Tumble dry? No. Hand wash.",
        "Can it be machine washed at 30? Never.",
        "Trockner? Besser nicht. Liegend trocknen.",
    ],
)
def test_a_question_is_asked_about(text: str) -> None:
    assert best(text).doubt
