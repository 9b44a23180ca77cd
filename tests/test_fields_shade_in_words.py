"""Shades that stand in sentences, and words that are near a shade's code and no name of one."""

from __future__ import annotations

import pytest

from intake.fields.parse import parse
from intake.records import Field, State
from tests.line_making import lines_from

MAKER = "Gale Orchard Spinners"
REST = ("50 g = 120 m", "100 % wool")


def parsed(*texts: str) -> dict[str, Field]:
    return parse(lines_from(MAKER, "Windfall", *texts, *REST), ())


@pytest.mark.parametrize(
    "words",
    ["Dip it in Kestrel (D369). Simmer with", "tauche sie in Kestrel (D369) und lasse",
     "Plonger dans Kestrel (D369).", "Sumergir en Kestrel (D369).", "Doppa i Kestrel (D369).",
     "Dyp i Kestrel (D369).", "Immergere in Kestrel (D369)."],
)  # fmt: skip
def test_what_a_yarn_is_dipped_in_is_its_shade_without_the_verb(words: str) -> None:
    found = parsed(words, "Lot 2200")
    assert found["shade"].value == "Kestrel"
    assert found["shade_code"].value == "D369"


@pytest.mark.parametrize("words", ["in Kestrel (1987)", "made in Kestrel (D369)"])
def test_words_that_dye_nothing_lead_to_no_shade(words: str) -> None:
    found = parsed(words, "Shade 12 Moss", "Lot 2200")
    assert (found["shade"].value, found["shade_code"].value) == ("Moss", "12")


@pytest.mark.parametrize(
    "words",
    ["Ved etterbestilling oppgi farge", "Ved efterbestilling oplyses farve", "Please quote shade",
     "Bei Nachbestellung bitte angeben: Farbe", "Hvis mere ønskes nevnes farge"],
)  # fmt: skip
def test_a_request_that_leads_to_a_shades_code_is_no_name(words: str) -> None:
    found = parsed(f"{words} 94/91", "Lot 2200")
    assert (found["shade"].value, found["shade_code"].value) == (None, "94/91")


@pytest.mark.parametrize(
    "text",
    ["1 härva = 50 g = 120 m", "1 Strang = 50 g = 120 m", "2-fädig gezwirnt", "2-draads getwijnd",
     "2-trådigt spunnet", "3 brins retors"],
)  # fmt: skip
def test_balls_and_threads_are_no_shade(text: str) -> None:
    found = parse(lines_from(MAKER, "Windfall", text, "100 % wool", "Lot 2200"), ())
    assert (found["shade"].value, found["shade_code"].value) == (None, None)


@pytest.mark.parametrize(
    "text", ["undyed, the colour the sheep came in", "Detta är färgen på denna härva"]
)
def test_words_behind_a_caption_within_a_sentence_are_asked_about(text: str) -> None:
    found = parsed(text, "Lot 2200")
    assert found["shade"].state is not State.SURE


@pytest.mark.parametrize("text", ["Colores: Tierra y Crudo", "Colours: Moss and Peat"])
def test_several_shades_behind_one_caption_are_asked_about(text: str) -> None:
    assert parsed(text, "Lot 2200")["shade"].state is State.DOUBTFUL


def test_a_digit_at_the_end_of_many_words_may_be_part_of_the_name() -> None:
    found = parsed("Farbe: Sturm über Heide 3", "Lot 2200")
    assert found["shade"].state is State.DOUBTFUL
    assert found["shade_code"].state is State.DOUBTFUL


def test_a_number_below_the_shades_name_is_asked_about() -> None:
    found = parsed("Colour/Couleur: Galah", "No./Nº: 029", "Lot 2200")
    assert (found["shade_code"].value, found["shade_code"].state) == ("029", State.DOUBTFUL)


def test_words_in_small_letters_are_no_entry_of_a_list_of_shades() -> None:
    found = parsed("Colore 680-52, Cenere", "11 pecore sulla collina", "Lotto 2200")
    assert (found["shade"].value, found["shade"].state) == ("Cenere", State.SURE)


def test_a_word_that_only_links_others_is_no_shade() -> None:
    found = parsed("Färg 238", "Lot 2200", "Uppge färg- och partinummer vid efterbeställning")
    assert (found["shade"].value, found["shade_code"].value) == (None, "238")


def test_a_name_above_the_shades_code_and_below_another_is_asked_about() -> None:
    found = parse(
        lines_from("ENDELAGER", "Windfall", "Klippensaum", "FARBE 29461", "PARTIE 323", *REST), ()
    )
    assert found["shade"].state is not State.SURE


def test_a_code_before_more_of_a_sentence_is_one_shade() -> None:
    found = parsed("Coloris 12 et provient du bain 2200")
    assert (found["shade_code"].value, found["shade_code"].state) == ("12", State.SURE)
