"""Looks of care symbols and the processes they stand for."""

from __future__ import annotations

import pytest

from intake.fields.care.phrases import PROCESSES
from intake.symbols.vocabulary import (
    BASES,
    LOOKS,
    NAMELESS,
    NO_CARE,
    NO_SYMBOL,
    Look,
    processes_of,
)

# The processes of ISO 3758:2012 that have a symbol, as listed publicly, each with its look.
STANDARD = {
    "max 95 C, normal": (Look("wash 95"), "machine wash 95"),
    "max 60 C, normal": (Look("wash 60"), "machine wash 60"),
    "max 60 C, mild": (Look("wash 60", bars=1), "machine wash 60 mild"),
    "max 40 C, normal": (Look("wash 40"), "machine wash 40"),
    "max 40 C, mild": (Look("wash 40", bars=1), "machine wash 40 mild"),
    "max 40 C, very mild": (Look("wash 40", bars=2), "machine wash 40 mild"),
    "max 30 C, normal": (Look("wash 30"), "machine wash 30"),
    "max 30 C, mild": (Look("wash 30", bars=1), "machine wash 30 mild"),
    "max 30 C, very mild": (Look("wash 30", bars=2), "machine wash 30 mild"),
    "wash by hand, max 40 C": (Look("hand wash"), "hand wash"),
    "do not wash": (Look("wash", crossed=True), "do not wash"),
    "any bleach": (Look("bleach"), "any bleach"),
    "oxygen bleach only": (Look("oxygen bleach"), "oxygen bleach only"),
    "do not bleach": (Look("bleach", crossed=True), "do not bleach"),
    "normal, exhaust max 80 C": (Look("tumble normal"), "tumble dry"),
    "low, exhaust max 60 C": (Look("tumble low"), "tumble dry low"),
    "do not tumble dry": (Look("tumble", crossed=True), "do not tumble dry"),
    "line dry": (Look("line dry"), "line dry"),
    "drip line dry": (Look("drip line dry"), "drip line dry"),
    "dry flat": (Look("dry flat"), "dry flat"),
    "drip dry flat": (Look("drip dry flat"), "dry flat"),
    "max 200 C": (Look("iron high"), "iron high"),
    "max 150 C": (Look("iron medium"), "iron medium"),
    "max 110 C": (Look("iron low"), "iron low"),
    "do not iron": (Look("iron", crossed=True), "do not iron"),
    "dry clean P, normal": (Look("clean P"), "dry clean"),
    "dry clean P, mild": (Look("clean P", bars=1), "dry clean"),
    "dry clean F, normal": (Look("clean F"), "dry clean"),
    "dry clean F, mild": (Look("clean F", bars=1), "dry clean"),
    "do not dry clean": (Look("clean", crossed=True), "do not dry clean"),
    "wet clean W, normal": (Look("wet clean W"), "wet clean"),
    "wet clean W, mild": (Look("wet clean W", bars=1), "wet clean"),
    "wet clean W, very mild": (Look("wet clean W", bars=2), "wet clean"),
    "do not wet clean": (Look("wet clean W", crossed=True), "do not wet clean"),
}


@pytest.mark.parametrize("name", STANDARD)
def test_each_process_of_the_standard_is_named(name: str) -> None:
    look, process = STANDARD[name]
    assert processes_of(look) == (process,)


def test_the_corner_for_shade_is_added_to_any_way_of_drying() -> None:
    for kind in ("line dry", "drip line dry", "dry flat"):
        assert processes_of(Look(kind, shade=True)) == (kind, "dry in shade")


@pytest.mark.parametrize("look", [Look("wash 50"), Look("wash 70"), Look("wash"), Look("iron"),
                                  Look("dry"), Look("dry flat", crossed=True)])  # fmt: skip
def test_what_no_process_names_is_not_named(look: Look) -> None:
    assert processes_of(look) == NAMELESS


@pytest.mark.parametrize("base", [base for base in BASES if base not in NO_CARE | {"square"}])
def test_a_cross_forbids_whatever_is_under_it(base: str) -> None:
    for kind in BASES[base]:
        (process,) = processes_of(Look(kind, crossed=True))
        assert process.startswith("do not")


def test_every_process_has_a_symbol_and_every_look_a_meaning() -> None:
    named = {process for look in LOOKS for process in processes_of(look)}
    assert named - {*NO_SYMBOL, *NAMELESS} == set(PROCESSES)
