"""What does not suit the yarn, what suits it without limit, and what is laid out on a towel.

Written from general knowledge of how care is worded (common practice, no source).
"""

from __future__ import annotations

import pytest

from intake.fields.care.allowances import UNRESTRICTED, denied
from intake.fields.care.concepts import allowing_words, meanings_of
from intake.fields.care.events import MENDED
from tests.care_reading import best


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        ("Handtvätt. Torktumlare är olämplig.", "hand wash; do not tumble dry"),
        ("Handtvätt. Torktumlare är / olämplig.", "hand wash; do not tumble dry"),
        ("Tvätta för hand. Olämplig för / torktumlare.", "hand wash; do not tumble dry"),
        ("Håndvask. Strykejern uegnet.", "hand wash; do not iron"),
        ("Lavage main. Sèche-linge inadapté.", "hand wash; do not tumble dry"),
        ("Lavare a mano. Asciugatrice inadatta.", "hand wash; do not tumble dry"),
        ("Lavar a mano. Secadora inadecuada.", "hand wash; do not tumble dry"),
        ("Hand wash. Leave out all / bleach.", "hand wash; do not bleach"),
        ("Hand wash. Leave the iron / aside.", "hand wash; do not iron"),
        ("Handtvätt. Blek / aldrig.", "hand wash; do not bleach"),
        ("Håndvask. Blek aldri, stryk aldri.", "hand wash; do not bleach; do not iron"),
        ("Håndvask. Bleg ikke.", "hand wash; do not bleach"),
        ("Lavar a mano. Nunca / emplear lejía.", "hand wash; do not bleach"),
    ],
)
def test_what_does_not_suit_is_forbidden(lines: str, care: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    "lines",
    [
        "Lavage main. Sèche-linge sans restriction.",
        "Lavage main. Sèche-linge sans / restriction.",
        "Lavage main. Sèche-linge / sans restriction.",
        "Handwäsche. Trockner ohne Einschränkung.",
        "Lavare a mano. Asciugatrice senza limitazioni.",
        "Lavar a mano. Secadora sin restricciones.",
        "Handwas. Droger zonder beperking.",
        "Handtvätt. Torktumlare utan / begränsning.",
        "Håndvask. Tumbler uden begrænsning.",
    ],
)
def test_a_dryer_without_limit_is_allowed(lines: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (("hand wash", "tumble dry"), "")


@pytest.mark.parametrize(
    "lines",
    [
        "Handtvätt. Torktumlare är olmplig.",
        "Handtvätt. Torktumlare är o lämplig.",
        "Håndvask. Tørketrommel er uegnt.",
        "Handwäsche. Trockner ungeeignt.",
        "Lavar a mano. Secadora inadecuda.",
        "Lavage main. Séchage en machine, non sans restriction.",
        "Hand wash. Peg / out to dry.",
        "Handwas. Niet op een handdoek uitspreiden.",
        "Hand wash. Lay on a clean rack.",
    ],
)
def test_what_these_words_leave_open_is_asked(lines: str) -> None:
    assert best(*lines.split(" / ")).doubt


@pytest.mark.parametrize(
    "lines",
    [
        "Handwas. Uitspreiden op een / handdoek.",
        "Handwäsche. Auf / Handtuch flach auslegen.",
        "Lavare a mano. Disporre / in piano su un asciugamano.",
        "Lavare a mano. In piano fino / ad asciutto.",
        "Lavar a mano. Dejar secar / estirado en plano.",
        "Handtvätt. Plant tills / det är torrt.",
        "Håndvask. Fladt, / til det er tørt.",
        "Håndvask. Træk i facon, læg / fladt til tørre.",
        "Main, lessive / pour laine. Sécher à plat.",
        "A mano con / detersivo per lana. In piano fino ad asciutto.",
    ],
)
def test_what_is_laid_out_dries_flat(lines: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (("hand wash", "dry flat"), "")


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        ("Hand wash. Iron at two / dots / Please check the dye lot.", "hand wash; iron medium"),
        ("Handwäsche. Bügeln, / zwei Punkte / Sandweg 4", "hand wash; iron medium"),
        ("Handwäsche. Bügeln, zwei Punkte / D-29704 Birkenkuhle", "hand wash; iron medium"),
    ],
)
def test_a_heat_is_told_from_what_is_printed_below(lines: str, care: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


def test_a_price_that_was_and_the_number_of_a_colour_forbid_no_washing() -> None:
    assert best("Hand wash", "Was £12.00", "Colour No.").value == ("hand wash",)


def test_no_word_with_a_beginning_that_denies_is_taken_for_one_that_allows() -> None:
    long = {word for word in denied(allowing_words()) if len(word) > 7}
    assert not {word for word in long if meanings_of((MENDED.nearest(word) or "",)) == ("allow",)}


def test_rows_without_limit_allow() -> None:
    assert all(meanings_of(tuple(row.split())) == ("allow",) for row in UNRESTRICTED)
