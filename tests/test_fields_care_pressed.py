"""Care as shops of the mountains word it: pressed, left out, on a rack, on the shady side; and what
of it stays asked about."""

from __future__ import annotations

import pytest

from tests.care_reading import best


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        (("Håndvask", "Presses med lunkent jern"), ("hand wash", "iron low")),
        (("Handtvätt", "Pressas ej"), ("hand wash", "do not iron")),
        (("Håndvask", "Vannet må ikke presses ut"), ("hand wash",)),
        (("Hand wash", "Soap free from bleach only"), ("hand wash", "do not bleach")),
        (("Hand wash", "Bleach free from chlorine only"), ("hand wash", "oxygen bleach only")),
        (
            ("Lavadora, posición lana, 30 °C", "Lejía, nunca", "Extender bien en plano"),
            ("machine wash 30 mild", "do not bleach", "dry flat"),
        ),
        (("A mano", "La secadora no", "Planchar a baja temperatura"), ("do not tumble dry",)),
        (("Handwas", "Op een droogrek plat drogen"), ("hand wash", "dry flat")),
        (("Se lave à la main", "Sécher du côté ombre"), ("hand wash", "dry in shade")),
        (
            ("Lavare a mano", "Lasciar perdere la candeggina", "Distendere bene in piano"),
            ("hand wash", "do not bleach", "dry flat"),
        ),
        (("Von Hand handwarm durchspülen", "Auf Bleiche verzichten"), ("hand wash",)),
    ],
)
def test_care_of_the_mountains_is_read(lines: tuple[str, ...], care: tuple[str, ...]) -> None:
    found = best(*lines)
    assert isinstance(found.value, tuple)
    assert set(care) <= set(found.value)
    assert not {"tumble dry", "any bleach"} & set(found.value)
    assert found.doubt == ""


@pytest.mark.parametrize(
    "lines",
    [
        ("Handwäsche", "Nicht bleichen", "Auf dem", "F lachtrockner", "HEUALP"),
        ("Blekning undviks", "Torkas plant", "Xqessas med svalt bolt", "HÖALM"),
        ("Maschine 40 °C", "Auf den Trockner muss man nicht verzichten"),
        ("Lavar a mano", "Secadora, nunca", "caliente"),
        ("Nat ophangen", "Line dry", "Hand wash"),
    ],
)
def test_what_is_left_beside_care_is_asked_about(lines: tuple[str, ...]) -> None:
    assert best(*lines).doubt


def test_a_fibre_beside_its_share_is_no_word_of_care() -> None:
    assert best("60 % ull, 15 % angorx; Håndvask; Tørkes flatt").doubt == ""
