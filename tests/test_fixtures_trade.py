"""Tags of the trade print what their truth says, with faults of their own.

Those of mills, dyers, shops, spinners, hanks, boxes, wares, the fair, the quay, the weir, the
ferry, the mole, the tarn, the heath, the alp, the grove and the fen are for tuning, those of the
cove unseen.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from types import ModuleType
from typing import Any

import numpy as np
import pytest

from fixtures import (
    alp_care,
    alp_names,
    cove_care,
    cove_names,
    fair_care,
    fair_names,
    fen_care,
    fen_names,
    ferry_care,
    ferry_names,
    grove_care,
    grove_names,
    heath_care,
    heath_names,
    label_names,
    label_words,
    layouts_alp_bands,
    layouts_alp_labels,
    layouts_alp_tags,
    layouts_boxes,
    layouts_cove_bands,
    layouts_cove_labels,
    layouts_cove_tags,
    layouts_dyers,
    layouts_fair_bands,
    layouts_fair_labels,
    layouts_fair_tags,
    layouts_fen_bands,
    layouts_fen_labels,
    layouts_fen_tags,
    layouts_ferry_bands,
    layouts_ferry_labels,
    layouts_ferry_tags,
    layouts_grove_bands,
    layouts_grove_labels,
    layouts_grove_tags,
    layouts_hanks,
    layouts_heath_bands,
    layouts_heath_labels,
    layouts_heath_tags,
    layouts_mills,
    layouts_mole_bands,
    layouts_mole_labels,
    layouts_mole_tags,
    layouts_quay_bands,
    layouts_quay_labels,
    layouts_quay_tags,
    layouts_shops,
    layouts_spinners,
    layouts_tarn_bands,
    layouts_tarn_labels,
    layouts_tarn_tags,
    layouts_ware_bands,
    layouts_ware_labels,
    layouts_ware_tags,
    layouts_weir_bands,
    layouts_weir_labels,
    layouts_weir_tags,
    mole_care,
    mole_names,
    quay_care,
    quay_names,
    shooting,
    tarn_care,
    tarn_names,
    trade_names,
    ware_care,
    ware_names,
    ware_print,
    weir_care,
    weir_names,
)
from fixtures.blocks import Block
from fixtures.care_words import CARE_WORDS
from fixtures.catalogue import Ball, catalogue, pick_ball
from fixtures.draw import on_white, tag_of
from fixtures.faces import FACES, UNSEEN, MissingFace, beside, by_role
from fixtures.languages import LANGUAGES
from fixtures.layouts import DARK, LAYOUTS, LIGHT, languages_of
from fixtures.press import Press
from fixtures.retelling import Names
from fixtures.sentences import TIE
from fixtures.shade_names import SHADE_NAMES
from fixtures.split import SPLITS, Split, faces_of, layouts_of
from intake.symbols.vocabulary import processes_of

TUNED_ON = (
    layouts_mills,
    layouts_dyers,
    layouts_shops,
    layouts_spinners,
    layouts_hanks,
    layouts_boxes,
    layouts_ware_bands,
    layouts_ware_tags,
    layouts_ware_labels,
    layouts_fair_bands,
    layouts_fair_tags,
    layouts_fair_labels,
    layouts_quay_bands,
    layouts_quay_tags,
    layouts_quay_labels,
    layouts_weir_bands,
    layouts_weir_tags,
    layouts_weir_labels,
    layouts_ferry_bands,
    layouts_ferry_tags,
    layouts_ferry_labels,
    layouts_mole_bands,
    layouts_mole_tags,
    layouts_mole_labels,
    layouts_tarn_bands,
    layouts_tarn_tags,
    layouts_tarn_labels,
    layouts_heath_bands,
    layouts_heath_tags,
    layouts_heath_labels,
    layouts_alp_bands,
    layouts_alp_tags,
    layouts_alp_labels,
    layouts_grove_bands,
    layouts_grove_tags,
    layouts_grove_labels,
    layouts_fen_bands,
    layouts_fen_tags,
    layouts_fen_labels,
)
KEPT_UNSEEN = (layouts_cove_bands, layouts_cove_tags, layouts_cove_labels)


def entered_by(modules: Sequence[ModuleType]) -> tuple[str, ...]:
    """Names of the layouts that the modules enter in the book."""
    return tuple(name for name in LAYOUTS for module in modules if hasattr(module, name))


UNSEEN_LABELS = entered_by(KEPT_UNSEEN)
TRADE = entered_by(TUNED_ON) + UNSEEN_LABELS
NAMES = (
    trade_names.NAMES,
    label_names.NAMES,
    ware_names.NAMES,
    fair_names.NAMES,
    quay_names.NAMES,
    weir_names.NAMES,
    ferry_names.NAMES,
    mole_names.NAMES,
    tarn_names.NAMES,
    heath_names.NAMES,
    alp_names.NAMES,
    grove_names.NAMES,
    fen_names.NAMES,
    cove_names.NAMES,
)
IMPERIAL = (
    re.compile(r"(?<![/\d])(?<!/ )(?P<yards>\d+) (?:yds /|yards,|yds per) (?P<ounces>[\d.½¾]+) oz"),
    re.compile(r"(?P<ounces>[\d.½¾]+) oz(?:\. /|, approx\.| skein,| =) (?P<yards>\d+) y"),
    re.compile(r"(?P<yards>\d+) yards · (?P<ounces>[\d.½¾]+) oz"),
    re.compile(r"(?P<yards>\d+) yards \((?P<ounces>[\d.½¾]+) oz\)"),
    re.compile(r"(?P<ounces>[\d.½¾]+) oz net, (?P<yards>\d+) yards"),
    re.compile(r"(?P<yards>\d+) yards per (?P<ounces>[\d.½¾]+) oz"),
    re.compile(r"Net wt (?P<ounces>[\d.½¾]+) oz \| (?P<yards>\d+) yards"),
    re.compile(r"(?P<yards>\d+) yards to (?P<ounces>[\d.½¾]+) oz"),
    re.compile(r"Net (?P<ounces>[\d.½¾]+) oz – (?P<yards>\d+) yards"),
    re.compile(r"(?P<ounces>[\d.½¾]+) oz · (?P<yards>\d+) yds"),
    re.compile(r"Contents: (?P<ounces>[\d.½¾]+) oz, (?P<yards>\d+) yd"),
    re.compile(r"(?P<yards>\d+) yd \| (?P<ounces>[\d.]+) oz"),
    re.compile(r"(?P<ounces>[\d.]+) oz holds (?P<yards>\d+) yards"),
    re.compile(r"(?P<yards>\d+) yds = (?P<ounces>[\d.]+) oz"),
    re.compile(r"(?P<ounces>[\d.]+) oz / approx\. (?P<yards>\d+) yds"),
    re.compile(r"(?P<ounces>[\d.]+) oz \((?P<yards>\d+) yds\)"),
    re.compile(r"(?P<yards>\d+) yards net (?P<ounces>[\d.]+) oz"),
)
"""Length and mass in yards and ounces alone: 1 yd = 0.9144 m and 1 oz = 28.349523125 g
(international agreement of 1959)."""

SAMPLED = [
    name if name.startswith(("fen_", "cove_")) else pytest.param(name, marks=pytest.mark.slow)
    for name in TRADE
]
"""The layouts of the newest parts; all others are left to the slow campaign."""


PRINTED_AS_THEY_ARE = ("lot", "shade_code", "shade", "range", "weight_printed")


def rng_of(seed: int) -> np.random.Generator:
    return np.random.default_rng(seed)


@dataclass
class CopyingPress(Press):
    """A press that keeps a copy of every line it sets."""

    copy: list[str] = field(default_factory=list)

    def words(self, lines: str | Sequence[str], size_pt: float, **how: Any) -> Block:
        self.copy.extend([lines] if isinstance(lines, str) else lines)
        return super().words(lines, size_pt, **how)

    def stamped(self, text: str, size_pt: float, **how: Any) -> Block:
        self.copy.append(text)
        return super().stamped(text, size_pt, **how)


def press_for(name: str, seed: int, ball: Ball | None = None) -> CopyingPress:
    layout, rng = LAYOUTS[name], rng_of(seed)
    ball = ball or pick_ball(rng)
    split: Split = "unseen" if name in UNSEEN_LABELS else "tuning"
    body, display, stamp = (
        faces_of(split, role)[seed % 3] for role in ("body", "display", "stamp")
    )
    palette = (DARK if layout.dark else LIGHT)[seed % 6]
    languages = languages_of(ball, layout.languages, rng)
    return CopyingPress(ball, languages, rng, body, display, stamp, palette, bare=layout.bare)


def drawn(name: str, press: Press) -> Block:
    try:
        return LAYOUTS[name].draw(press)
    except MissingFace as missing:
        pytest.skip(str(missing))


def set_for(name: str, seed: int, ball: Ball | None = None) -> CopyingPress:
    press = press_for(name, seed, ball)
    drawn(name, press)
    return press


def set_by_a_copying_press(name: str, seed: int) -> CopyingPress:
    return set_for(name, seed)


def closed_up(text: str) -> str:
    return "".join(text.split())


def imperial_in(print_: str) -> tuple[float, float] | None:
    """Yards and ounces where a print tells length and mass in these alone."""
    found = next(filter(None, (pattern.search(print_) for pattern in IMPERIAL)), None)
    if not found:
        return None
    ounces = found["ounces"].replace("½", ".5").replace("¾", ".75")
    return float(found["yards"]), float(ounces)


def test_the_unseen_layouts_are_those_of_the_cove() -> None:
    assert {layout.name for layout in layouts_of("unseen")} == set(UNSEEN_LABELS)
    assert len(UNSEEN_LABELS) >= 24


def test_layouts_do_not_go_in_step_with_scans_photos_and_hard_photos() -> None:
    assert math.gcd(len(layouts_of("unseen")), len(("scan", "photo", "hard"))) == 1


@pytest.mark.parametrize("name", SAMPLED)
@pytest.mark.parametrize(
    "seed", [0, *(pytest.param(seed, marks=pytest.mark.slow) for seed in (1, 2))]
)
def test_every_value_of_the_truth_stands_on_the_tag(name: str, seed: int) -> None:
    press = set_by_a_copying_press(name, seed)
    print_ = closed_up(" ".join(press.copy))
    for field_ in PRINTED_AS_THEY_ARE:
        assert closed_up(press.truth.get(field_, "")) in print_, field_
    maker = closed_up(press.truth.get("maker", ""))
    assert maker in print_ or f"{maker.lower()}.example" in print_
    imperial = imperial_in(" ".join(press.copy).replace(TIE, " "))
    if imperial and press.ball.maker.country == "USA":
        yards, ounces = imperial
        assert float(press.truth["length_m"]) == pytest.approx(yards * 0.9144, abs=0.06)
        assert float(press.truth["mass_g"]) == pytest.approx(ounces * 28.349523125, abs=0.06)
        return
    assert press.truth.get("length_m", "") in print_
    grams = int(press.truth["mass_g"])
    kilograms = f"{grams / 1000:.3f}kg"
    assert any(text in print_ for text in (str(grams), kilograms, kilograms.replace(".", ",")))


@pytest.mark.parametrize("name", SAMPLED)
def test_lot_and_code_are_set_whole_in_one_line(name: str) -> None:
    press = set_by_a_copying_press(name, 6)
    for field_ in ("lot", "shade_code"):
        value = press.truth.get(field_, "")
        assert any(value in line.replace(" ", "") for line in press.copy)


@pytest.mark.parametrize("name", SAMPLED)
def test_another_lot_gives_another_picture_of_the_same_tag(name: str) -> None:
    ball = replace(pick_ball(rng_of(4)), lot="40713", shade_code="552")
    seed = next(seed for seed in range(3, 30) if "lot" in set_for(name, seed, ball).truth)
    images = []
    for lot in ("40718", "40713"):
        press = press_for(name, seed, replace(ball, lot=lot))
        images.append(on_white(drawn(name, press)))
        assert press.truth["lot"] == lot
    one, other = (image.resize((400, 400)) for image in images)
    assert one.tobytes() != other.tobytes()


@pytest.mark.parametrize(
    "name",
    ["fen_band_unlotted", "fen_tag_farm", "cove_band_unmarked", "cove_tag_farm"],
)
def test_a_lot_that_nobody_put_on_the_tag_is_not_in_its_truth(name: str) -> None:
    presses = [set_by_a_copying_press(name, seed) for seed in range(12)]
    without = [press for press in presses if "lot" not in press.truth]
    assert 0 < len(without) < len(presses)
    for press in without:
        assert not any(press.ball.lot in line.split() for line in press.copy)


@pytest.mark.slow
def test_one_tag_names_no_maker_one_no_range_and_some_have_no_code() -> None:
    truths = [set_by_a_copying_press(name, 1).truth for name in TRADE]
    for field_ in ("maker", "range", "shade_code", "shade", "care", "barcode"):
        assert any(field_ not in truth for truth in truths), field_


def test_the_same_seed_draws_the_same_trade_tag() -> None:
    try:
        one, other = (tag_of("unseen", 5, rng_of(2)) for _ in range(2))
    except MissingFace as missing:
        pytest.skip(str(missing))
    assert one.truth == other.truth
    assert one.image.tobytes() == other.image.tobytes()


@pytest.mark.parametrize("names", NAMES)
def test_names_of_the_trade_are_in_no_other_list(names: Names) -> None:
    listed = {maker.name for maker in catalogue()}
    listed |= {made.name for maker in catalogue() for made in maker.ranges}
    for other in NAMES:
        if other is not names:
            listed |= all_of(other)
    assert not all_of(names) & listed
    shades = {(language, name) for language in LANGUAGES for name in names.shades[language]}
    fresh = [pair for pair in shades if pair[1] not in SHADE_NAMES[pair[0]]]
    assert len(fresh) > len(shades) / 2


def all_of(names: Names) -> set[str]:
    """All makers and ranges."""
    makers = {entry[0] for entries in names.makers.values() for entry in entries}
    return makers | {name for ranges in names.ranges.values() for name in ranges}


@pytest.mark.parametrize("names", NAMES)
def test_an_american_ball_keeps_to_american_makers(names: Names) -> None:
    for ball in [pick_ball(rng_of(seed)) for seed in range(400)]:
        told = names.retold(ball, rng_of(1))
        assert (told.maker.country == "USA") == (ball.maker.country == "USA")


@pytest.mark.parametrize("names", NAMES)
def test_a_maker_known_by_its_site_alone_is_spelt_there_as_it_is(names: Names) -> None:
    for seed in range(60):
        name = names.of_one_word(pick_ball(rng_of(seed))).maker.name
        assert name.isascii()
        assert name.isalpha()


def test_a_hand_that_writes_on_a_tag_is_of_the_part_of_its_print() -> None:
    for split in SPLITS:
        for body in faces_of(split, "body"):
            assert beside(body, "hand") == faces_of(split, "hand")
    assert set(faces_of("unseen", "hand")) == set(by_role("hand", UNSEEN))
    assert set(UNSEEN) < set(FACES)


def test_labels_word_care_as_no_other_tuned_tag_does() -> None:
    assert set(label_words.CARE) == set(CARE_WORDS)
    for process, said in label_words.CARE.items():
        assert set(said) == set(LANGUAGES)
        for language, phrase in said.items():
            assert phrase not in CARE_WORDS[process][language]


def test_unseen_tags_word_care_as_no_tuned_tag_does() -> None:
    assert set(cove_care.CARE) == set(CARE_WORDS)
    for language in LANGUAGES:
        tuned = {
            phrase.casefold()
            for words in (
                CARE_WORDS,
                ware_care.CARE,
                fair_care.CARE,
                quay_care.CARE,
                weir_care.CARE,
                ferry_care.CARE,
                mole_care.CARE,
                tarn_care.CARE,
                heath_care.CARE,
                alp_care.CARE,
                grove_care.CARE,
                fen_care.CARE,
            )
            for said in words.values()
            for phrase in said[language]
        } | {said[language].casefold() for said in label_words.CARE.values()}
        for process, said in cove_care.CARE.items():
            assert said[language]
            assert not {phrase.casefold() for phrase in said[language]} & tuned, process


def test_no_two_processes_are_told_in_one_phrase() -> None:
    for language in LANGUAGES:
        for said in (
            [phrases[language] for phrases in label_words.CARE.values()],
            [phrase for phrases in ware_care.CARE.values() for phrase in phrases[language]],
            [phrase for phrases in fair_care.CARE.values() for phrase in phrases[language]],
            [phrase for phrases in quay_care.CARE.values() for phrase in phrases[language]],
            [phrase for phrases in weir_care.CARE.values() for phrase in phrases[language]],
            [phrase for phrases in ferry_care.CARE.values() for phrase in phrases[language]],
            [phrase for phrases in mole_care.CARE.values() for phrase in phrases[language]],
            [phrase for phrases in tarn_care.CARE.values() for phrase in phrases[language]],
            [phrase for phrases in heath_care.CARE.values() for phrase in phrases[language]],
            [phrase for phrases in alp_care.CARE.values() for phrase in phrases[language]],
            [phrase for phrases in grove_care.CARE.values() for phrase in phrases[language]],
            [phrase for phrases in fen_care.CARE.values() for phrase in phrases[language]],
            [phrase for phrases in cove_care.CARE.values() for phrase in phrases[language]],
        ):
            assert len(said) == len(set(said))


def test_each_care_symbol_of_the_wares_stands_for_its_process() -> None:
    assert set(ware_print.LOOKS) == set(CARE_WORDS) - {"dry in shade"}
    for process, look in ware_print.LOOKS.items():
        assert processes_of(look) == (process,)
    for care in (made.care for maker in catalogue() for made in maker.ranges):
        assert "dry in shade" not in care or {"dry flat", "line dry"} & set(care)


def test_a_pack_stands_for_as_many_balls_as_it_says() -> None:
    for seed in range(4):
        press = set_by_a_copying_press("box_pack", seed)
        assert int(press.truth["balls"]) > 1
        assert any(line.startswith(press.truth["balls"] + " ") for line in press.copy)


def test_a_cone_tells_its_net_mass_and_not_what_it_weighs_with_its_tube() -> None:
    press = set_by_a_copying_press("box_cone", 2)
    gross, tare, net = (
        round(1000 * float(line.removesuffix(" kg").replace(",", ".")))
        for line in press.copy
        if line.endswith(" kg")
    )
    assert gross - tare == net == int(press.truth["mass_g"])


@pytest.mark.slow
def test_trade_tags_meet_faults_that_other_tags_do_not() -> None:
    try:
        tags = [tag_of("unseen", index, rng_of(index)).image for index in range(3)]
    except MissingFace as missing:
        pytest.skip(str(missing))
    own = {"fold", "lamp", "screen", "thumb"}
    assert not own & {fault for family in shooting.FAULT_FAMILIES for fault in family}
    corners = [tag.crop((0, 0, tag.width // 3, tag.height // 3)) for tag in tags]
    assert all(tag.info["faults"] == "handled" for tag in tags)
    faults = {
        fault
        for seed, tag in enumerate(corners * 6)
        for fault in shooting.hard_photo_shot(tag, rng_of(seed)).faults
    }
    assert faults >= own
