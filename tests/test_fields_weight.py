"""Weight words and their categories, and the note on length per mass."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from intake.fields.amounts.weight import CATEGORIES, find_weight, length_note
from intake.fields.parse import parse
from tests.line_making import lines_from

DATA = Path(__file__).parent / "data"
YARD_M, POUND_G = 0.9144, 453.59237  # international yard and pound agreement, 1959


def weight(*texts: str) -> tuple[object, object, str]:
    """Class, printed weight and doubt."""
    found = find_weight(lines_from(*texts))
    first = {candidate.name: candidate for candidate in reversed(found)}
    if not first:
        return None, None, ""
    return first["weight_class"].value, first["weight_printed"].value, found[0].doubt


def weight_system() -> list[dict[str, str]]:
    """Craft Yarn Council, Standard Yarn Weight System."""
    with (DATA / "weight_system.csv").open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


def test_categories_are_the_councils_by_number() -> None:
    assert tuple(row["category"] for row in weight_system()) == CATEGORIES


def council_words() -> list[tuple[str, set[str]]]:
    """Each word of the Council's table with all the categories that list it."""
    listed: dict[str, set[str]] = {}
    for row in weight_system():
        for word in row["words_on_labels"].split("; "):
            if "crochet thread" in word:
                continue  # no word for a knitting yarn
            listed.setdefault(word.lower(), set()).add(row["category"])
    return sorted(listed.items())


@pytest.mark.parametrize(("word", "categories"), council_words())
def test_knows_every_word_of_the_councils_table(word: str, categories: set[str]) -> None:
    found, printed, doubt = weight(word)
    assert found in categories
    assert printed == word
    assert bool(doubt) == (len(categories) > 1)


@pytest.mark.parametrize("number", range(8))
def test_knows_the_councils_numbers(number: int) -> None:
    name = CATEGORIES[number]
    for text in (f"({number}) {name.title()}", f"{name.upper()} ({number})", f"{number} {name}"):
        assert weight(text) == (name, text, "")
    assert weight(f"Yarn weight: {number}")[0] == name


@pytest.mark.parametrize(
    ("text", "category", "printed"),
    [
        # British, Australian and German words: common practice, no source.
        ("2 ply", "lace", "2 ply"),
        ("3 ply", "super fine", "3 ply"),
        ("4 ply", "super fine", "4 ply"),
        ("4-PLY", "super fine", "4-PLY"),
        ("4ply", "super fine", "4ply"),
        ("Baby 4 ply", "super fine", "4 ply"),
        ("5 ply", "fine", "5 ply"),
        ("8 ply", "light", "8 ply"),
        ("10 ply", "medium", "10 ply"),
        ("12 ply", "bulky", "12 ply"),
        ("Moorland DK", "light", "DK"),
        ("Fjordal Aran", "medium", "Aran"),
        ("Double Knitting", "light", "Double Knitting"),
        ("light worsted", "light", "light worsted"),
        ("Super Chunky", "super bulky", "Super Chunky"),
        ("Sockenwolle 4-fädig", "super fine", "4-fädig"),
        ("Sockenwolle 6-fach", "light", "6-fach"),
        ("Sockenwolle", "super fine", "Sockenwolle"),
        ("Fell Sock", "super fine", "Sock"),
        ("Sock DK", "light", "DK"),
        ("Worsted 3-ply", "medium", "Worsted"),
        ("Wor5ted", "medium", "Worsted"),
        ("Fingering", "super fine", "Fingering"),
    ],
)
def test_knows_the_trades_words(text: str, category: str, printed: str) -> None:
    assert weight(text) == (category, printed, "")


@pytest.mark.parametrize(
    "texts",
    [
        ("100 % baby alpaca",),
        ("superfine merino",),
        ("worsted spun",),
        ("DK: Håndvask 30",),
        ("DE/AT/DK",),
        ("DK-7100 Lærkedal",),
        ("Nero DK41",),
        ("Light Grey",),
        ("Fine merino wool",),
        ("Rev. 4",),
        ("gentle cyc1e",),
        ("50 g", "125 m"),
    ],
)
def test_words_that_only_look_like_weights_are_none(texts: tuple[str, ...]) -> None:
    assert find_weight(lines_from(*texts)) == []


@pytest.mark.parametrize(
    ("texts", "doubt"),
    [
        (("DK", "4 ply"), "different weights"),
        (("(3) Medium",), "the number says light"),
        (("Baby",), "can mean super fine or fine"),
        (("Roving",), "can mean super bulky or jumbo"),
        (("Supcr Chunky",), "is unread"),
        (("4 ply", "100 g = 115 m"), "count may be misread"),
    ],
)
def test_asks_where_a_weight_is_uncertain(texts: tuple[str, ...], doubt: str) -> None:
    assert doubt in weight(*texts)[2]


def test_weight_words_next_to_other_lines_are_not_joined_with_them() -> None:
    assert weight("Super Fine", "Wolhuis Zandvoorde")[:2] == ("super fine", "Super Fine")
    assert weight("DK", "59124 Terzano")[:2] == ("light", "DK")
    assert weight("Lot 29/4", "Medium")[:2] == ("medium", "Medium")


def bands() -> list[tuple[str, float, float]]:
    """*Spin Off* magazine, Yarn Standards handout: yards per pound of each category."""
    with (DATA / "yards_per_pound.csv").open(encoding="utf-8") as file:
        return [
            (
                row["category"],
                float(row["yards_per_pound_low"] or 1),
                float(row["yards_per_pound_high"] or 5000),
            )
            for row in csv.DictReader(file)
        ]


@pytest.mark.parametrize(("category", "low", "high"), bands())
@given(part=st.floats(0, 1))
def test_no_note_where_length_per_mass_fits_the_class(
    category: str, low: float, high: float, part: float
) -> None:
    yards_per_pound = low + part * (high - low)
    assert length_note(category, yards_per_pound * YARD_M, POUND_G) == ""


@pytest.mark.parametrize(("category", "low", "high"), bands())
def test_a_note_names_the_class_that_length_per_mass_points_to(
    category: str, low: float, high: float
) -> None:
    place = CATEGORIES.index(category)
    middle_m = (low + high) / 2 * YARD_M
    for other in (place - 2, place + 2):
        if 0 <= other < 7:
            assert category in length_note(CATEGORIES[other], middle_m, POUND_G)


def test_a_thick_aran_keeps_its_class_and_is_noted() -> None:
    # 110 m per 100 g on one maker's aran ball: common practice, no source.
    note = length_note("medium", 110.0, 100.0)
    assert note == "thick for medium: 110 m per 100 g is more usual for bulky"
    assert weight("Aran", "100 g = 110 m") == ("medium", "Aran", "")


@pytest.mark.parametrize(
    ("weight_class", "length_m", "mass_g"),
    [("", 1.0, 1.0), ("light", 0.0, 50.0), ("light", 1.0, 0.0)],
)
def test_no_note_without_a_class_a_length_and_a_mass(
    weight_class: str, length_m: float, mass_g: float
) -> None:
    assert length_note(weight_class, length_m, mass_g) == ""


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Stärke : Medium", ("medium", "Medium")),
        ("Yarn weight: LIGHT", ("light", "LIGHT")),
        ("Tykkelse - Fine", ("fine", "Fine")),
        ("Weight: light brown", (None, None)),
        ("Weight medium 50 g", (None, None)),
    ],
)
def test_a_word_that_alone_means_little_is_a_weight_behind_its_caption(
    text: str, found: tuple[str | None, str | None]
) -> None:
    assert weight("Alba", text, "50 g = 120 m")[:2] == found


def test_the_second_line_of_a_name_is_no_weight() -> None:
    assert weight("Alba", "Fine")[:2] == (None, None)
    assert weight("Lot 29/4", "Fine")[:2] == ("fine", "Fine")


def test_denmarks_sign_before_a_composition_is_no_weight() -> None:
    assert weight("DK 100% uld", "GB 100% wool")[:2] == (None, None)


def test_an_accent_read_on_an_english_word_is_no_part_of_it() -> None:
    printed = [one.value for one in find_weight(lines_from("Laçe")) if one.name == "weight_printed"]
    assert printed == ["Lace"]


def test_denmark_in_brackets_before_its_words_is_no_weight() -> None:
    lines = lines_from("(N) lammeull 100%. Kun håndvask.", "(DK) 100 % lammeuld. Kun håndvask.")
    assert parse(lines, [])["weight_class"].value is None
    assert parse(lines_from("Double Knitting (DK) 100% wool"), [])["weight_class"].value == "light"


@pytest.mark.parametrize(
    ("word", "category"), [("Light DK", "light"), ("heavy lace", "lace"), ("Heavy Aran", "medium")]
)
def test_a_light_or_heavy_one_within_a_category_is_printed_whole(word: str, category: str) -> None:
    found = parse(lines_from("Blåkulle", word, "40 g 105 m"), ())
    assert found["weight_printed"].value == word
    assert found["weight_class"].value == category
    assert found["range"].value == "Blåkulle" or found["maker"].value == "Blåkulle"
