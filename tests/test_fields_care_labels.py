"""Labels of yarn in nine languages as strangers may word them, broken over lines and shortened.

``data/care_labels.csv`` is written from general knowledge of how care is worded (common practice,
no source), each with its truth before it was first read; a stroke with a blank on either side ends
a line.  It holds what was new to the tables of words, and a part of what was not.  Of 180 written
before a look at the tables, 76 were right and unasked with the old tables and 127 when first read
with the new ones; of 90 more, 30 and 53; of another 90, 33 and 62.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from rapidfuzz.distance import Levenshtein

from intake.fields.care.concepts import STRONG, WHOLE, meanings_of
from intake.fields.care.events import MENDED, NEGATIONS
from intake.fields.care.remarks import REMARKS
from intake.fields.care.spelling import spelled_out
from intake.fields.care.words import find_care
from intake.fields.letters import FoldedLines, Words, alike
from intake.records import Candidate, Span
from tests.line_making import lines_from

with (Path(__file__).parent / "data" / "care_labels.csv").open(encoding="utf-8") as file:
    LABELS = [(row["lines"], row["care"]) for row in csv.DictReader(file)]


def best(lines: str) -> Candidate:
    found = find_care(lines_from(*lines.split(" / ")))
    assert len(found) == 1, f"care of {lines}: {found}"
    return found[0]


@pytest.mark.parametrize(("lines", "care"), LABELS)
def test_a_label_is_read_without_a_question(lines: str, care: str) -> None:
    found = best(lines)
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    "lines",
    [
        "Machine wash 40 °C. / Handwäsche.",
        "Handwäsche. / Machine wash 30 °C. / Lavage à la main.",
        "Lavage machine 30° laine. / Handwäsche.",
        "Handwas. / Machine wash 40 °C.",
        "Handtvätt. / Machine wash 40 °C.",
        "Bleichen erlaubt. Handwäsche. / Do not bleach. Hand wash.",
        "Ne pas repasser. Lavage main. / Iron on low. Hand wash.",
    ],
)
def test_languages_that_say_different_things_are_asked_about(lines: str) -> None:
    assert "are printed" in best(lines).doubt


@pytest.mark.parametrize(
    "lines",
    [
        "Må ike i tørretumbler. Håndvask.",
        "Il lavaggio a secco è consigliato. Lavare a mano.",
        "Lavage à la mai.",
        "Secar en plano. Lavado a ma- / ne, sin frotar.",
        "Nettoyage àsec: non. Lavage main.",
        "Bleichen: mein. Handwäsche.",
        "Kjemisk rensfrarådes. Håndvask.",
        "Hand wash. Unless dry, iron low.",
        "Machine wash 30 °C, programa lxna.",
        "Machine wash 30 °C. Dry flat. Cool iro.",
        "Do not iron. Met de hqnd, lauw water.",
        "Dry flat. Do not iron. Hand wxsh.",
        "Do not iron. Dry flat. Wxxl cycle / 30 degrees.",
        "Machine wash: 30 °C, wool. Cool iron.",
        "Hand wash. Tumble dry on moderately.",
    ],
)
def test_a_word_that_may_be_a_misread_one_of_care_is_asked_about(lines: str) -> None:
    assert best(lines).doubt


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        ("Hand wash. Needs no ironing.", "hand wash"),
        ("Handwäsche. Bügeln nicht nötig.", "hand wash"),
        ("Hand wash. Felts when washed warm.", "hand wash"),
        ("Handvask. Krymper ved varm vask.", "hand wash"),
        ("Lavage main, sans frotter ni tordre.", "hand wash"),
        ("Handwäsche. Waschen ohne optische Aufheller.", "hand wash"),
        ("Hand wash. Do not steam.", "hand wash"),
        ("Hand wash with wool detergent, spin briefly.", "hand wash"),
    ],
)
def test_a_remark_leaves_no_process(lines: str, care: str) -> None:
    found = best(lines)
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    ("lines", "text"),
    [
        ("Dry flat, wa- / ter", "dry flat, water"),
        ("Hand- / wäsche, kalt", "handwasche,\nkalt"),
        ("Only non- / chlorine bleach", "only non-\nchlorine bleach"),
        ("Lavado a ma- / no", "lavado a mano"),
        ("Hand- / oder Wollwäsche", "hand-\noder wollwasche"),
        ("Lav. a mano 30°", "lavar a mano 30°"),
        ("Stryk på lav. 30° maskinvask", "stryk pa lav. 30° maskinvask"),
        ("22 Masch. x 30 R.", "22 masch. x 30 r."),
        ("Masch. 30°", "maschinen 30°"),
        ("Wasvoorschrift: met de hand", "wash met de hand"),
        ("Wasvoorschrift: 30°", "wasvoorschrift: 30°"),
    ],
)
def test_broken_and_shortened_words_are_spelled_out(lines: str, text: str) -> None:
    assert spelled_out(FoldedLines(lines_from(*lines.split(" / ")))).text == text


def test_a_word_broken_over_two_lines_is_shown_in_both() -> None:
    found = best("Hand- / wäsche")
    assert found.spans == (Span(0, 0, 5), Span(1, 0, 6))


def test_what_forbids_is_taken_for_no_other_word_nor_any_for_it() -> None:
    words = Words({"consigliato", "trockner"}, kept={"sconsigliato"})
    assert words.nearest("sconsigliato") == "sconsigliato"
    assert words.nearest("sconsigliatc") is None
    assert words.nearest("tr0ckner") == "trockner"
    assert all(MENDED.nearest(word) == word for word in ("sconsigliato", "frarades", "vermieden"))


def test_no_word_of_remarks_means_anything_or_forbids() -> None:
    assert not {word for word in REMARKS if meanings_of((word,))}
    assert not REMARKS & NEGATIONS


def test_no_long_word_of_remarks_is_a_letter_away_from_what_forbids_or_care_is_about() -> None:
    """But for French "presser", to squeeze, beside English "pressed", and the like; stitches are
    "masker", which is to be no "maskine"."""
    telling = {
        words[0]
        for words, said in WHOLE.items()
        if len(words) == 1 and ({"not", "without"} | STRONG) & set(said)
    }
    near = {
        word
        for word in REMARKS
        for one in telling
        if min(len(word), len(one)) > 5
        and Levenshtein.distance(alike(word), alike(one), score_cutoff=1) <= 1
    }
    assert near <= {"doivent", "masker", "mojada", "mojadas", "presser", "presses", "pressez"}
