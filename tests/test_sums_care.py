"""The care that all yarns of a garment bear, after ISO 3758:2012."""

from __future__ import annotations

import csv
import json
from itertools import combinations_with_replacement, permutations
from pathlib import Path

import pytest
from filing_tags import tag
from hypothesis import given
from hypothesis import strategies as st
from sums_balls import ball
from typer.testing import CliRunner

from intake.cli import app
from intake.errors import WhichBall
from intake.fields.care.phrases import PROCESSES
from intake.filing.cabinet import open_cabinet
from intake.records import FibrePart
from intake.sums.ball import Ball
from intake.sums.care_limits import (
    ASPECTS,
    STANDARD,
    Subject,
    both,
    limits_of,
    loosest,
    process_name,
)
from intake.sums.common_care import CommonCare, SubjectCare, common_care
from intake.sums.maker_sheet import MakerLine, MakerSheet

DATA = Path(__file__).parent / "data"
COTTON = "100% cotton"


def yarn(care: str, fibre: str = COTTON, shade: str = "Kelp") -> Ball:
    return ball(care=care, fibre=fibre, shade=shade, shade_code="")


def common(*cares: str) -> CommonCare:
    """Care of cotton yarns with these care texts; the shades are A, B and so on."""
    return common_care(yarn(care, shade="ABCDE"[at]) for at, care in enumerate(cares))


def about(care: CommonCare, subject: Subject) -> SubjectCare:
    return next(one for one in care.subjects if one.subject is subject)


def washing(*cares: str) -> tuple[str, ...]:
    return about(common(*cares), Subject.WASHING).stated


def shades(names: tuple[str, ...]) -> list[str]:
    return [name.split()[-1] for name in names]


# The standard's processes


def standard_rows() -> list[tuple[str, str]]:
    # ISO 3758:2012, processes as listed publicly.
    with (DATA / "care_processes.csv").open(encoding="utf-8") as file:
        return [(row["group"], row["process"]) for row in csv.DictReader(file)]


@pytest.mark.parametrize(("group", "process"), standard_rows())
def test_each_process_of_the_standard_stands_in_its_group(group: str, process: str) -> None:
    subject, limits = limits_of(process)
    assert subject.group == group
    assert len(limits) == len(ASPECTS[subject])


def test_there_are_no_processes_but_those_of_the_standard() -> None:
    known = {(subject.group, name) for subject, names in STANDARD.items() for name in names}
    assert known == set(standard_rows())


@pytest.mark.parametrize("process", PROCESSES)
def test_each_process_that_a_stash_keeps_is_one_of_the_standards(process: str) -> None:
    subject, limits = limits_of(process)
    assert process_name(subject, limits)
    only = about(common(process), subject)
    assert len(only.stated) == 1


@pytest.mark.parametrize(
    ("gentle", "rough"),
    [
        # The orders that the standard's own words give.
        ("max 30 C, normal", "max 40 C, normal"),
        ("max 60 C, mild", "max 60 C, normal"),
        ("max 40 C, very mild", "max 40 C, mild"),
        ("wash by hand, max 40 C", "max 40 C, very mild"),
        ("do not wash", "wash by hand, max 40 C"),
        ("oxygen bleach only", "any bleach"),
        ("do not bleach", "oxygen bleach only"),
        ("low, exhaust max 60 C", "normal, exhaust max 80 C"),
        ("max 110 C", "max 150 C"),
        ("max 150 C", "max 200 C"),
        ("dry clean F, normal", "dry clean P, normal"),
        ("dry clean P, mild", "dry clean P, normal"),
        ("wet clean W, very mild", "wet clean W, mild"),
        # Orders that it leaves open: common practice, no source.
        ("dry flat", "line dry"),
        ("drip line dry", "line dry"),
        ("drip dry flat", "drip line dry"),
    ],
)
def test_of_two_processes_the_gentler_is_common(gentle: str, rough: str) -> None:
    subject, _ = limits_of(gentle)
    assert about(common(gentle, rough), subject).stated == (gentle,)


@pytest.mark.parametrize("subject", list(Subject))
def test_what_two_processes_share_is_all_that_is_within_both(subject: Subject) -> None:
    # Brute force over the standard's list.
    for (_, one), (_, two) in combinations_with_replacement(STANDARD[subject].items(), 2):
        shared = both(one, two)
        assert process_name(subject, shared)
        for limits in STANDARD[subject].values():
            within_both = both(limits, one) == limits and both(limits, two) == limits
            assert within_both == (both(limits, shared) == limits)


CARE = st.lists(
    st.sampled_from([name for _, name in standard_rows()] + list(PROCESSES)), max_size=6
).map("; ".join)


@given(st.lists(CARE, min_size=1, max_size=4))
def test_common_care_is_within_what_each_yarn_bears_in_any_order(cares: list[str]) -> None:
    care = common(*cares)
    for one in care.subjects:
        for yarn_care in care.yarns:
            for process in (*one.stated, *one.treat_as):
                limits = limits_in(one.subject, process)
                borne = yarn_care.stated.get(one.subject)
                assert borne is None or any(both(limits, each) == limits for each in borne)
    for order in list(permutations(range(len(cares))))[:4]:
        again = common(*(cares[at] for at in order))
        for before, after in zip(care.subjects, again.subjects, strict=True):
            assert set(before.stated) == set(after.stated)
            assert set(before.treat_as) == set(after.treat_as)


def limits_in(subject: Subject, process: str) -> tuple[int, ...]:
    """Limits by name, of those too that the standard has no single process for."""
    if process == "wash by hand, max 30 C":
        return (30, limits_of("hand wash")[1][1])
    if process.endswith("in the shade"):
        how = process.removesuffix("in the shade").rstrip(", ")
        shade = limits_of("dry in shade")[1]
        return both(limits_of(how)[1], shade) if how else shade
    found, limits = limits_of(process)
    assert found is subject
    return limits


# Several yarns


def test_both_limits_hold_where_neither_process_is_gentler() -> None:
    assert washing("max 60 C, mild", "machine wash 40") == ("max 40 C, mild",)
    assert washing("hand wash", "machine wash 30") == ("wash by hand, max 30 C",)
    dry = about(common("dry clean P, mild", "dry clean F, normal"), Subject.DRY_CLEANING)
    assert dry.stated == ("dry clean F, mild",)
    natural = about(common("drip line dry", "dry flat; dry in shade"), Subject.NATURAL_DRYING)
    assert natural.stated == ("drip dry flat, in the shade",)


def test_a_tag_that_offers_two_washes_leaves_the_choice() -> None:
    offered = "hand wash; machine wash 30 mild"
    assert set(washing(offered)) == {"wash by hand, max 40 C", "max 30 C, very mild"}
    assert washing(offered, "machine wash 40") == ("wash by hand, max 40 C", "max 30 C, very mild")
    assert washing(offered, "machine wash 30 mild") == ("max 30 C, very mild",)
    assert washing(offered, "hand wash") == ("wash by hand, max 40 C",)


def test_a_tag_that_contradicts_itself_is_taken_at_its_gentlest() -> None:
    assert washing("do not wash; machine wash 40") == ("do not wash",)
    assert about(common("iron high; iron low"), Subject.IRONING).stated == ("max 110 C",)


def test_it_is_told_which_yarn_forces_what() -> None:
    care = about(common("machine wash 60", "machine wash 40 mild", "machine wash 30"),
                 Subject.WASHING)  # fmt: skip
    assert care.stated == ("max 30 C, very mild",)
    assert shades(care.forced_by["temperature"]) == ["C"]
    assert shades(care.forced_by["handling"]) == ["B"]


def test_a_mild_wash_may_be_a_very_mild_one_and_it_is_said_so() -> None:
    """Mild and very mild are kept alike, and wool felts in the rougher of the two."""
    care = common("machine wash 40 mild")
    assert about(care, Subject.WASHING).stated == ("max 40 C, very mild",)
    assert any("very mild is meant" in caution for caution in care.cautions)


def test_nobody_forces_what_all_agree_on() -> None:
    assert about(common("hand wash", "hand wash"), Subject.WASHING).forced_by == {}
    choice = about(common("hand wash; machine wash 30 mild", "hand wash"), Subject.WASHING)
    assert shades(choice.forced_by["handling"]) == ["B"]


# What is not stated


def test_what_no_tag_states_is_not_made_up() -> None:
    bleach = about(common("hand wash", "machine wash 40"), Subject.BLEACHING)
    assert bleach.stated == ()
    assert shades(bleach.silent) == ["A", "B"]
    assert bleach.treat_as == ("do not bleach",)


def test_a_silent_yarn_is_treated_with_care_beside_one_that_bears_much() -> None:
    care = about(common("machine wash 60", ""), Subject.WASHING)
    assert care.stated == ("max 60 C, normal",)
    assert shades(care.silent) == ["B"]
    assert care.treat_as == ("wash by hand, max 30 C",)


def test_a_silent_yarn_loosens_nothing() -> None:
    care = about(common("do not wash", ""), Subject.WASHING)
    assert care.treat_as == ("do not wash",)


def test_a_shade_alone_says_not_how_to_dry() -> None:
    care = about(common("dry in shade"), Subject.NATURAL_DRYING)
    assert care.stated == ("in the shade",)
    assert shades(care.silent) == ["A"]
    assert care.treat_as == ("dry flat, in the shade",)


def test_a_grade_that_is_not_kept_is_taken_at_its_gentlest_and_said() -> None:
    care = common("tumble dry; dry clean; wet clean")
    assert about(care, Subject.TUMBLE_DRYING).stated == ("low, exhaust max 60 C",)
    assert about(care, Subject.DRY_CLEANING).stated == ("dry clean F, mild",)
    assert about(care, Subject.WET_CLEANING).stated == ("wet clean W, very mild",)
    assert sum("is not kept" in caution for caution in care.cautions) == 3


def test_words_that_are_no_process_are_named_and_count_for_nothing() -> None:
    care = common("wash like silk; dry flat")
    assert about(care, Subject.WASHING).stated == ()
    assert any("wash like silk" in caution for caution in care.cautions)


# Cautions


def cautions_of(*fibres: str, care: str = "machine wash 40; line dry") -> str:
    balls = (yarn(care, fibre, "ABCDE"[at]) for at, fibre in enumerate(fibres))
    return "\n".join(common_care(balls).cautions)


@pytest.mark.parametrize(
    "fibre",
    ["100% wool", "75% wool (merino); 25% polyamide", "50% alpaca; 50% wool (superwash)"],
)
def test_wool_without_the_word_superwash_may_felt(fibre: str) -> None:
    # Common practice, no source: unsaid is not superwash.
    assert "may felt" in cautions_of(fibre)


@pytest.mark.parametrize("fibre", ["100% wool (merino superwash)", COTTON, "100% acrylic"])
def test_superwash_and_what_is_no_wool_do_not_felt(fibre: str) -> None:
    assert "felt" not in cautions_of(fibre)


def test_an_unknown_fibre_is_taken_for_wool_that_felts() -> None:
    assert "fibre not stated" in cautions_of("")
    assert "fibre not stated" in cautions_of("mostly wool")  # typed into the file by hand


def test_a_toy_filled_with_polyester_may_hang_where_else_it_is_dried_flat() -> None:
    # Common practice, no source.
    assert "may hang to dry" in cautions_of(COTTON, care="dry flat")
    assert "may hang to dry" in cautions_of(COTTON, care="")
    assert "may hang to dry" not in cautions_of(COTTON, care="line dry")


def test_allergy_is_asked_about_for_animal_fibres_only() -> None:
    assert "allergy" in cautions_of(COTTON, "100% mohair (kid)")
    assert "allergy" not in cautions_of(COTTON, "100% linen")


def test_small_parts_and_local_rules_are_always_minded() -> None:
    said = cautions_of(COTTON)
    assert "small parts" in said
    assert "follow the tag and local rules" in said


# The yarns


def test_balls_of_one_yarn_are_one_entry_and_unlike_tags_are_two() -> None:
    same = [ball(), ball(), ball(lot="0013")]
    assert len(common_care(same).yarns) == 1
    care = common_care([*same, ball(care="do not wash")])
    assert len({one.name for one in care.yarns}) == 2
    assert [len(one.records) for one in care.yarns] == [3, 1]
    assert about(care, Subject.WASHING).stated == ("do not wash",)


def test_care_from_the_maker_sheet_is_said_to_be_assumed() -> None:
    sheet = MakerSheet([MakerLine("Quillstow Spinners", says={"care": "hand wash"})])
    care = common_care([ball(care="", sheet=sheet)])
    assert about(care, Subject.WASHING).stated == ("wash by hand, max 40 C",)
    assert any("care assumed from the maker sheet" in caution for caution in care.cautions)


def test_no_yarn_has_no_care() -> None:
    with pytest.raises(ValueError, match="no yarn"):
        common_care([])


@given(st.lists(st.sampled_from(list(STANDARD[Subject.WASHING].values())), max_size=6))
def test_the_loosest_are_those_that_no_other_includes(choices: list[tuple[int, ...]]) -> None:
    kept = loosest(choices)
    assert all(any(both(one, two) == one for two in kept) for one in choices)
    assert not any(both(one, two) == one for one in kept for two in kept if one != two)


# The command


@pytest.fixture
def stash(tmp_path: Path) -> Path:
    path = tmp_path / "stash.csv"
    cabinet = open_cabinet(path)
    superwash = (FibrePart("wool", "merino superwash", 100.0),)
    cabinet.file(tag("one.jpg"))
    cabinet.file(tag("two.jpg", shade="Dark Kelp", shade_code="044", fibre=superwash,
                     care=("machine wash 30 mild", "line dry")))  # fmt: skip
    cabinet.file(tag("three.jpg", shade="Ember", shade_code="042", care=None))
    return path


def answer(stash: Path, *words: str) -> str:
    result = CliRunner().invoke(app, ["care", *words, "--stash", str(stash)])
    assert result.exit_code == 0, result.exception
    return result.output


def test_the_command_answers_with_a_table(stash: Path) -> None:
    said = " ".join(answer(stash, "Kelp", "Dark Kelp").split())
    assert "wash by hand, max 30 °C" in said
    assert "may felt: Quillstow Spinners Sluicegate Kelp 041," in said


def test_the_command_answers_as_json_for_ids_and_words(stash: Path) -> None:
    ember = open_cabinet(stash).records()[2].id
    said = json.loads(answer(stash, "041", ember, "--json"))
    assert [one["records"] for one in said["yarns"]][1] == [ember]
    wash = said["care"][0]
    assert wash["group"] == "washing"
    assert wash["stated"] == ["wash by hand, max 40 C"]
    assert wash["treat_as"] == ["wash by hand, max 30 C"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("Quillstow", "several yarns"),
        ("Embr", "near it: .*Ember 042"),
        ("Limpet", "no yarn"),
        (" ", "no yarn"),
    ],
)
def test_the_command_asks_where_it_is_not_sure_which_yarn(
    stash: Path, words: str, said: str
) -> None:
    result = CliRunner().invoke(app, ["care", words, "--stash", str(stash)])
    assert isinstance(result.exception, WhichBall)
    with pytest.raises(WhichBall, match=said):
        raise result.exception
