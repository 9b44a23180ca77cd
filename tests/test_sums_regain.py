"""Water in yarn: against the Regulation, published regains and figures of the trade."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from intake.errors import BadAmount
from intake.fields.fibre.names import FIBRES
from intake.records import FibrePart
from intake.sums.air import ANY_ROOM, ROOMS, STANDARD_AIR, Air, room
from intake.sums.regain import (
    AGREED_PCT,
    MEASURED_PCT,
    MEASURED_TO_AGREED,
    agreed_pct,
    dry_shares,
    gibson_curve,
    is_known,
    mass_ratio,
    regain_range_pct,
    standard_regain,
)
from intake.sums.weigh import WINDING_PCT

DATA = Path(__file__).parent / "data"
WOOL = (FibrePart("wool", "", 100.0),)
NO_FIGURES = {"fluorofibre", "other fibres"}


def table(name: str) -> list[dict[str, str]]:
    with (DATA / name).open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


def pure(fibre: str, kind: str = "") -> FibrePart:
    return FibrePart(fibre, kind, 100.0)


def allowances() -> dict[str, set[float]]:
    """Regulation (EU) No 1007/2011, Annex IX, under the names that tags are read into."""
    ours = {"flax (linen)": "linen", "polyamide or nylon": "polyamide"}
    listed: dict[str, set[float]] = {}
    for row in table("agreed_allowances.csv"):
        name = ours.get(row["fibre"], row["fibre"])
        name = f"mercerised {name}" if row["form"] == "mercerised" else name
        listed.setdefault(name, set()).add(float(row["percent"]))
    return listed


HAIR = next(name for name in allowances() if name.startswith("animal hair"))


@pytest.mark.parametrize("fibre", sorted(allowances().keys() - {HAIR}))
def test_allowances_are_the_regulations(fibre: str) -> None:
    assert set(AGREED_PCT[fibre]) == allowances()[fibre]


@pytest.mark.parametrize("fibre", HAIR.partition("(")[2].rstrip(")").split())
def test_hair_has_the_regulations_allowance_for_hair(fibre: str) -> None:
    least, most = min(allowances()[HAIR]), max(allowances()[HAIR])
    assert least <= agreed_pct(pure(fibre)) <= most


@pytest.mark.parametrize("row", table("regain_at_standard_air.csv"), ids=lambda row: row["fibre"])
def test_regain_at_standard_air_is_as_published(row: dict[str, str]) -> None:
    # Table 10 of doi:10.1186/s40643-020-00339-1, after Morton & Hearle (2008).
    low, high = float(row["regain_65rh_20c_low"]), float(row["regain_65rh_20c_high"])
    part = pure({"flax": "linen"}.get(row["fibre"], row["fibre"]))
    ours_low, ours_high = regain_range_pct(part)
    assert ours_low <= low <= high <= ours_high
    assert 100 * standard_regain((part,)).nominal_value == pytest.approx((low + high) / 2)


def test_wools_traded_regains_lie_within_the_measured_range() -> None:
    low, high = regain_range_pct(pure("wool"))
    assert low <= 16.0 <= high  # Australian Wool Testing Authority, glossary, "regain"
    assert low > 13.6  # ASTM D1909-13: a figure of commerce, less than wool holds
    assert high < 18.25  # Regulation (EU) No 1007/2011, Annex IX, combed: more than wool holds


def test_a_guess_from_the_allowance_spans_what_measured_fibres_do() -> None:
    agreed = allowances()
    ratios = [
        bound / allowance
        for row in table("regain_at_standard_air.csv")
        for bound in (float(row["regain_65rh_20c_low"]), float(row["regain_65rh_20c_high"]))
        for allowance in agreed[{"flax": "linen"}.get(row["fibre"], row["fibre"])]
    ]
    assert (round(min(ratios), 2), round(max(ratios), 2)) == MEASURED_TO_AGREED


@pytest.mark.parametrize("fibre", ["modal", "lyocell", "cupro", "kapok", "ramie", "sisal"])
def test_a_fibre_with_an_allowance_alone_has_a_wider_range(fibre: str) -> None:
    low, high = regain_range_pct(pure(fibre))
    assert (high - low) / agreed_pct(pure(fibre)) > 0.4
    assert fibre not in MEASURED_PCT


def test_mercerised_cotton_holds_more_than_cotton() -> None:
    # Annex IX: 10.5 % against 8.5 %.
    plain, mercerised = pure("cotton"), pure("cotton", "pima mercerised")
    assert agreed_pct(mercerised) == 10.5 > agreed_pct(plain)
    assert sum(regain_range_pct(mercerised)) > sum(regain_range_pct(plain))


@pytest.mark.parametrize("fibre", sorted(FIBRES.keys() - NO_FIGURES))
def test_every_fibre_that_tags_are_read_into_is_known(fibre: str) -> None:
    assert is_known(pure(fibre))


def test_fibres_that_nothing_is_known_of_may_hold_anything_up_to_wool() -> None:
    assert regain_range_pct(pure("other fibres")) == (0.0, regain_range_pct(pure("wool"))[1])


def test_gibsons_curve_is_one_at_standard_air() -> None:
    assert gibson_curve(0.65) == pytest.approx(1.0, rel=0.005)


@pytest.mark.parametrize("humidity", [0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.9, 1.0])
def test_gibsons_curve_meets_another_published_one(humidity: float) -> None:
    # The regain curve of the public clothing model adamcwatts/clothing_model (functions.py);
    # from memory it is W. A. Lotens's, Heat transfer from humans wearing clothing (1993).
    other = 0.55 * humidity * (1 / (0.25 + humidity) + 1 / (1.25 - humidity))
    assert gibson_curve(humidity) == pytest.approx(other, abs=0.03)


@given(st.floats(1.0, 99.0), st.sampled_from(sorted(FIBRES.keys() - NO_FIGURES)))
def test_yarn_is_heavier_in_damper_air(humidity_pct: float, fibre: str) -> None:
    here, damper = (
        mass_ratio((pure(fibre),), Air(each)).nominal_value
        for each in (humidity_pct, humidity_pct + 1.0)
    )
    assert here < damper


TWO_FIBRES = st.lists(st.sampled_from(sorted(FIBRES)), min_size=2, max_size=2, unique=True)


@given(st.floats(1.0, 99.0), TWO_FIBRES)
def test_a_blend_lies_between_its_parts(percent: float, fibres: list[str]) -> None:
    one, other = fibres
    blend = (FibrePart(one, "", percent), FibrePart(other, "", 100 - percent))
    least, most = sorted(standard_regain((pure(each),)).nominal_value for each in fibres)
    assert least - 1e-12 <= standard_regain(blend).nominal_value <= most + 1e-12
    assert sum(dry_shares(blend)) == pytest.approx(1.0)


def test_a_blend_is_shared_out_by_dry_mass() -> None:
    # Regulation (EU) No 1007/2011: percentages are of mass with the agreed allowances (wool
    # 17.625 % midway, polyamide 6 %), worked by hand.
    wool, polyamide = dry_shares((FibrePart("wool", "", 75.0), FibrePart("polyamide", "", 25.0)))
    assert wool == pytest.approx((75 / 1.17625) / (75 / 1.17625 + 25 / 1.06))
    assert polyamide == pytest.approx(1 - wool)


def test_yarn_at_standard_air_weighs_what_its_tag_says() -> None:
    assert mass_ratio(WOOL, STANDARD_AIR).nominal_value == pytest.approx(1.0)


@pytest.mark.parametrize(("name", "mass_g"), [("dry radiator", 94.0), ("bathroom", 110.0)])
def test_wool_in_named_rooms_weighs_what_the_trade_tells(name: str, mass_g: float) -> None:
    # tests/data/common_practice.csv: common practice, no source.
    told = {float(row["value"]) for row in table("common_practice.csv") if row["unit"] == "g"}
    assert mass_g in told
    found = 100 * mass_ratio(WOOL, ROOMS[name])
    assert found.nominal_value == pytest.approx(mass_g, abs=0.5)
    assert found.std_dev > 1.0


def test_dry_and_damp_air_bring_wool_near_what_the_trade_tells() -> None:
    # A heated room in winter has 30 to 40 %, a steamy one 85 to 90 %: from memory.
    for humidity_pct, told_g in ((30.0, 94.0), (40.0, 94.0), (85.0, 110.0), (90.0, 110.0)):
        found_g = 100 * mass_ratio(WOOL, Air(humidity_pct))
        assert abs(found_g.nominal_value - told_g) < 2 * found_g.std_dev


@pytest.mark.parametrize("fibre", sorted(MEASURED_PCT))
def test_mass_traded_at_the_allowance_is_within_what_winding_is_given(fibre: str) -> None:
    traded = 1 + agreed_pct(pure(fibre)) / 100
    weighed = 1 + standard_regain((pure(fibre),)).nominal_value
    assert abs(traded / weighed - 1) < WINDING_PCT / 100


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("living room", "living room"),
        ("Damp  Bathroom", "bathroom"),
        ("RADIATOR", "dry radiator"),
        ("standard air", "standard air"),
    ],
)
def test_rooms_are_known_by_name(typed: str, name: str) -> None:
    assert room(typed).name == name


@pytest.mark.parametrize("typed", ["", "attic", "room", "living room or bathroom"])
def test_other_rooms_are_asked_about(typed: str) -> None:
    with pytest.raises(BadAmount, match="name one of dry radiator, living room"):
        room(typed)


@pytest.mark.parametrize(("humidity_pct", "within_pct"), [(0.45, 5), (101, 5), (45, 60), (45, -1)])
def test_air_that_cannot_be_is_refused(humidity_pct: float, within_pct: float) -> None:
    with pytest.raises(BadAmount, match="cannot be"):
        Air(humidity_pct, within_pct)


def test_an_unknown_room_is_known_least() -> None:
    assert ANY_ROOM.within_pct > max(air.within_pct for air in ROOMS.values())
