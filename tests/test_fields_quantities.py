"""Length and mass of the ball: units, pairs of systems, and the traps of a tag."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from intake.fields.amounts.quantities import find_length_m, find_mass_g, find_quantities
from intake.fields.amounts.units import GRAMS_PER_OUNCE, METRES_PER_YARD
from intake.records import Candidate
from tests.line_making import line_from, lines_from, placed

UNITS = pint.UnitRegistry()


def ball(*texts: str) -> tuple[float | None, float | None]:
    """Length in metres and mass in grams, only where nothing is doubted."""
    lines = lines_from(*texts)
    return sure(find_length_m(lines)), sure(find_mass_g(lines))


def sure(found: list[Candidate]) -> float | None:
    if not found or found[0].doubt:
        return None
    value = found[0].value
    assert isinstance(value, float)
    return value


def doubts(*texts: str) -> str:
    return " / ".join(candidate.doubt for candidate in find_quantities(lines_from(*texts)))


@pytest.mark.parametrize(
    ("texts", "length_m", "mass_g"),
    [
        (("50 g = ca. 125 m",), 125.0, 50.0),
        (("LL 125 m / 50 g",), 125.0, 50.0),
        (("approx. 137 yds (125 m) per 50 g (1¾ oz)",), 125.0, 50.0),
        (("50g e 1.76oz",), None, 50.0),
        (("125 Mtr.",), 125.0, None),
        (("env. 125 mètres", "50 g"), 125.0, 50.0),
        (("4 x 50 g",), None, 50.0),
        (("4 x 50 g = 200 g", "125 m"), 125.0, 50.0),
        (("gr. 50 = mt. 125",), 125.0, 50.0),
        (("400m/437yds", "100g/3.53oz"), 400.0, 100.0),
        (("Nettovikt: 100 g", "Löplängd: ca 212 m"), 212.0, 100.0),
        (("1,200 m / 100 g",), 1200.0, 100.0),
        (("87,5 m / 25 g",), 87.5, 25.0),
    ],
)
def test_reads_the_forms_that_tags_print(
    texts: tuple[str, ...], length_m: float | None, mass_g: float | None
) -> None:
    assert ball(*texts) == (length_m, mass_g)


@pytest.mark.parametrize(
    ("text", "length_m"),
    [
        ("50g=ca.125m", 125.0),
        ("50gca125m", 125.0),
        ("137yds(125m)per50g(1¾oz)", 125.0),
        ("125rn/50g", 125.0),
        ("LL125m/50g", 125.0),
    ],
)
def test_reads_through_lost_spaces(text: str, length_m: float) -> None:
    assert ball(text) == (length_m, 50.0)


@pytest.mark.parametrize(
    "texts",
    [
        ("22 M x 30 R = 10 x 10 cm", "50 g = 125 m"),
        ("22 m. x 30 rgs = 10 x 10 cm", "50 g = 125 m"),
        ("Tension 10 x 10 cm, needles 4 mm", "50 g = 125 m"),
        ("Sweater size 40 needs 500 g", "50 g = 125 m"),
        ("Gr. 40 = 450 g", "50 g = 125 m"),
        ("Pulli 600 g", "50 g = 125 m"),
        ("Lot 167G", "50 g = 125 m"),
        ("Shade 12M", "50 g = 125 m"),
        ("Lot nr.", "613M", "50 g = 125 m"),
        ("955G", "50 g = 125 m"),
        ("Tel. 01632 960123", "50 g = 125 m"),
        ("30 °C", "50 g = 125 m"),
    ],
)
def test_other_numbers_of_a_tag_are_not_the_balls(texts: tuple[str, ...]) -> None:
    assert ball(*texts) == (125.0, 50.0)


def test_a_measure_with_a_large_unit_in_a_line_of_its_own_counts_where_it_is_the_only_one() -> None:
    assert ball("50G", "125M") == (125.0, 50.0)


def test_a_length_per_another_mass_is_scaled_to_a_ball_that_says_its_mass() -> None:
    found = find_length_m(lines_from("Net weight 100 g", "LL 210 m/50 g"))
    assert [(each.value, each.doubt) for each in found] == [(420.0, "")]
    assert "210 m per 50 g" in found[0].note


def test_a_length_per_another_mass_is_asked_for_where_the_balls_mass_is_unsure() -> None:
    assert ball("100 g; LL 210 m/50 g") == (None, None)
    found = find_length_m(lines_from("100 g; LL 210 m/50 g"))
    assert found[0].value == 420.0
    assert "which does the ball weigh" in found[0].doubt


@pytest.mark.parametrize(
    ("texts", "doubt"),
    [
        (("150 yds / 125 m", "50 g"), "125 m and 150 yds do not agree"),
        (("120 m / 137 yds / 50 g",), "do not agree"),
        (("50 g / 3.5 oz", "125 m"), "do not agree"),
        (("l25 m / 50 g",), "letters among its digits"),
        (("5O g = 125 m",), "letters among its digits"),
        (("50 g = 125 m", "100 g = 250 m"), "different masses"),
        (("50 g", "125 m", "420 m"), "different lengths"),
        (("50 g = 5000 m",), "hardly the length"),
        (("45 g",), "unusual mass"),
        (("125 m", "1.76 oz"), "no grams"),
        (("50 g", "12 m"), "short for a ball"),
    ],
)
def test_asks_where_figures_are_odd_or_disagree(texts: tuple[str, ...], doubt: str) -> None:
    assert doubt in doubts(*texts)


def test_units_are_those_of_an_independent_library() -> None:
    # pint's unit definitions; both are exact by the agreement of 1959.
    assert UNITS.Quantity(1, "yard").to("metre").magnitude == METRES_PER_YARD
    assert UNITS.Quantity(1, "ounce").to("gram").magnitude == pytest.approx(
        GRAMS_PER_OUNCE, abs=1e-12
    )


@given(st.integers(40, 900), st.sampled_from(["yds", "yards", "yd"]))
def test_yards_alone_are_converted_and_noted(yards: int, unit: str) -> None:
    (found,) = find_length_m(lines_from(f"{yards} {unit} / 100 g"))
    metres = UNITS.Quantity(yards, "yard").to("metre").magnitude
    assert found.value == pytest.approx(metres, abs=0.05)
    assert "converted from" in found.note


@given(st.sampled_from(["0.88", "1.76", "1¾", "3.5", "3½", "3 1/2", "4", "7.05"]))
def test_ounces_alone_are_converted_and_noted(ounces: str) -> None:
    worth = {"1¾": 1.75, "3½": 3.5, "3 1/2": 3.5}.get(ounces) or float(ounces)
    (found,) = find_mass_g(lines_from(f"{ounces} oz", "220 yds"))
    grams = UNITS.Quantity(worth, "ounce").to("gram").magnitude
    assert found.value == pytest.approx(grams, abs=0.05)
    assert found.doubt == ""


@given(st.integers(40, 900), st.sampled_from([25, 50, 100, 150, 200]))
def test_metres_with_their_yards_always_agree(length_m: int, mass_g: int) -> None:
    yards = round(UNITS.Quantity(length_m, "metre").to("yard").magnitude)
    ounces = round(UNITS.Quantity(mass_g, "gram").to("ounce").magnitude, 2)
    found = ball(f"{mass_g} g / {ounces} oz = {length_m} m / {yards} yds")
    if 0.2 <= length_m / mass_g <= 20:
        assert found == (float(length_m), float(mass_g))


@given(st.integers(100, 999), st.integers(0, 2), st.integers(0, 9))
def test_one_misread_digit_beside_yards_is_never_taken_unasked(
    length_m: int, place: int, digit: int
) -> None:
    yards = round(length_m / METRES_PER_YARD)
    digits = list(str(length_m))
    digits[place] = str(digit)
    misread = int("".join(digits))
    length, _ = ball(f"100 g = {misread} m / {yards} yds")
    assert length is None or abs(length - length_m) <= 3.5  # half a five, and half a yard


def test_spans_hold_number_and_unit() -> None:
    texts = ("approx. 137 yds (125 m) per 50 g",)
    spelt = [
        texts[s.line][s.start : s.end] for c in find_quantities(lines_from(*texts)) for s in c.spans
    ]
    assert spelt == ["50 g", "125 m"]


@pytest.mark.parametrize("text", ["Largo 95 m / 150 9", "Largo: 95 m = 150 q"])
def test_a_misread_unit_behind_a_length_is_a_question_with_the_likely_mass(text: str) -> None:
    (mass,) = (one for one in find_quantities(lines_from(text)) if one.name == "mass_g")
    assert mass.value == 150.0
    assert "150 g" in mass.doubt


def test_a_length_may_stand_right_behind_its_caption() -> None:
    assert ball("Længde157 m / 50 g") == (157.0, 50.0)


def test_a_misread_unit_is_a_question_with_the_likely_mass() -> None:
    candidates = [
        one for one in find_quantities(lines_from("150 9", "ca. 660 m")) if one.name == "mass_g"
    ]
    assert [one.value for one in candidates] == [150.0]
    assert "the unit was not read" in candidates[0].doubt


def test_a_digit_read_behind_a_fraction_is_no_amount_of_its_own() -> None:
    candidates = find_quantities(lines_from("100 g / 3½2 oz = aprox. 325 m / 355 yds"))
    masses = [one for one in candidates if one.name == "mass_g"]
    assert [one.value for one in masses] == [100.0]
    assert masses[0].doubt == ""


@pytest.mark.parametrize(
    ("texts", "length_m", "mass_g"),
    [
        (("Brutto 1,020 kg", "Tara 0,070 kg", "Netto 0,950 kg"), None, 950.0),
        (("Gross  Tare  Net", "1.020 kg  0.070 kg  0.950 kg"), None, 950.0),
        (("Net weight 0.5 kg",), None, 500.0),
        (("Weight (g)    Length (m)", "50                  210"), 210.0, 50.0),
        (("Farbe Partie    g    m", "412   99213    50   125"), 125.0, 50.0),
    ],
)
def test_reads_masses_with_their_heads_and_numbers_whose_unit_is_in_the_head(
    texts: tuple[str, ...], length_m: float | None, mass_g: float
) -> None:
    assert ball(*texts) == (length_m, mass_g)


def test_a_unit_that_heads_its_own_number_is_not_that_of_the_number_before_it() -> None:
    rows = [(0, 0, "metres"), (1, 0, "225"), (0, 300, "grams"), (1, 300, "100")]
    lines = [placed(line_from(text, row), right_px=right) for row, right, text in rows]
    found = find_quantities(lines)
    assert [one.value for one in found if one.name == "length_m"] == [225.0]
    assert [one.value for one in found if one.name == "mass_g"] == [100.0]


def test_asks_where_gross_mass_tare_and_net_mass_do_not_add_up() -> None:
    assert "do not add up" in doubts("Brutto 1,020 kg", "Tara 0,070 kg", "Netto 0,850 kg")


@pytest.mark.parametrize("text", ["gr. 50 = mt. 85 circa", "mt. 85 ca. = gr. 50", "gr 50  mt 85"])
def test_reads_units_that_stand_before_their_numbers(text: str) -> None:
    assert ball(text, "Kelp") == (85.0, 50.0)


@pytest.mark.parametrize("text", ["1 3/4 oz", "1-3/4 oz", "1¾ oz"])
def test_reads_ounces_in_fractions(text: str) -> None:
    grams = UNITS.Quantity(1.75, "ounce").to("gram").magnitude
    assert sure(find_mass_g(lines_from(f"{text} / 110 yards"))) == pytest.approx(grams, abs=0.05)


@pytest.mark.parametrize(
    "lines",
    [
        ("gr. 100 netti - mt. 160 ca.",),
        ("Peso gr. 100", "Lunghezza mt. 160"),
        ("gr. 100 netti", "mt. 160 circa"),
    ],
)
def test_a_unit_before_its_number_is_read_beside_net_alone_and_in_two_lines(
    lines: tuple[str, ...],
) -> None:
    found = find_quantities(lines_from(*lines))
    assert {one.name: one.value for one in found} == {"mass_g": 100.0, "length_m": 160.0}


def test_a_garments_size_above_a_short_number_is_no_mass() -> None:
    assert not find_quantities(lines_from("Gr. 40", "m 12"))


@pytest.mark.parametrize(
    ("print_", "length_m"),
    [("Längd 3 000 m", 3000.0), ("LL 1 200 m", 1200.0), ("100 g = 1 250 m", 1250.0)],
)
def test_a_space_may_part_the_thousands_of_a_length(print_: str, length_m: float) -> None:
    assert find_length_m(lines_from(print_))[0].value == length_m


def test_a_number_behind_a_word_is_no_part_of_the_length_behind_it() -> None:
    assert find_length_m(lines_from("Shade 12 125 m"))[0].value == 125.0


@pytest.mark.parametrize("print_", ["200g897 yds4-ply", "200g820m/897yds"])
def test_a_mass_and_a_length_that_lost_the_mark_between_them_are_read(print_: str) -> None:
    lines = lines_from(print_)
    assert find_mass_g(lines)[0].value == 200.0
    assert find_length_m(lines)[0].value == pytest.approx(820.0, abs=0.5)


@pytest.mark.parametrize("print_", ["825m-2009", "Vægt 200 9", "Vikt 2009"])
def test_a_mass_whose_unit_was_read_as_a_nine_is_offered_as_a_question(print_: str) -> None:
    found = find_mass_g(lines_from(print_))
    assert [(one.value, bool(one.doubt)) for one in found] == [(200.0, True)]
