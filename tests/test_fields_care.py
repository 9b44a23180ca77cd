"""Care in words: each phrase means its process, and no lost word turns it round."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fixtures.care_words import CARE_WORDS
from intake.fields.care.phrases import PHRASES, PROCESSES
from intake.fields.care.words import find_care
from intake.wording import care_text
from tests.care_reading import best
from tests.line_making import lines_from

DATA = Path(__file__).parent / "data"


@pytest.mark.parametrize("process", list(CARE_WORDS))
def test_knows_each_phrase_in_nine_languages(process: str) -> None:
    for language, phrases in CARE_WORDS[process].items():
        for phrase in phrases:
            for printed in (phrase, phrase.upper(), phrase + "."):
                found = best(printed)
                assert found.value == (process,), (language, printed)
                assert found.doubt == "", (language, printed)


@pytest.mark.parametrize(
    ("texts", "expected"),
    [
        (("Hand wash at 30°",), ("hand wash",)),
        (("Handwäsche bis 30 °C, liegend trocknen",), ("hand wash", "dry flat")),
        (("Machine wash 30°C gentle, cool iron 110°C",), ("machine wash 30 mild", "iron low")),
        (("30 °C Wollwaschgang",), ("machine wash 30 mild",)),
        (("Handwaschprogramm 30°",), ("machine wash 30 mild",)),
        (("Machine laine 30°",), ("machine wash 30 mild",)),
        (("Machine wash 40. Do not bleach.",), ("machine wash 40", "do not bleach")),
        (("Machine wash 30, dry clean P",), ("machine wash 30", "dry clean")),
        (("Lavable a máquina a 40°", "Tvättas i maskin 4O°"), ("machine wash 40",)),
        (("Machine wash 86°F",), ("machine wash 30",)),
        (("Machine washable.", "30°C"), ("machine wash 30",)),
        (("Machine wash 40",), ("machine wash 40",)),
        (("Machine wash 30 °C. Wool cycle.",), ("machine wash 30 mild",)),
        (("Machine wash 60 °C delicate",), ("machine wash 60 mild",)),
        (("Do not", "tumble dry"), ("do not tumble dry",)),
        (("Drip dry flat",), ("dry flat",)),
        (("Iron max 150 °C",), ("iron medium",)),
        (("Hand wash or machine wash 30° wool cycle",), ("hand wash", "machine wash 30 mild")),
        (("Hand wash with mild detergent. Do not wring.",), ("hand wash",)),
        (("Do not machine wash. Hand wash.",), ("hand wash",)),
        (
            ("EN: Hand wash, dry flat", "DE: Handwäsche, liegend trocknen"),
            ("hand wash", "dry flat"),
        ),
    ],
)
def test_reads_instructions(texts: tuple[str, ...], expected: tuple[str, ...]) -> None:
    found = best(*texts)
    assert found.value == expected
    assert found.doubt == ""


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Handwaschbis30°C", ("hand wash",)),
        ("NurHandwäsche", ("hand wash",)),
        ("Maschinenwasche 30o Wollwaschgang", ("machine wash 30 mild",)),
        ("machine wash 300C", ("machine wash 30",)),
        ("30 C Maschinenwäsche", ("machine wash 30",)),
        ("Do n0t tumb1e dry", ("do not tumble dry",)),
        ("Donotbleach", ("do not bleach",)),
        ("Nicht b1eichen", ("do not bleach",)),
        ("Lie-\ngend trocknen".replace("-\n", ""), ("dry flat",)),
    ],
)
def test_reads_through_faults_of_the_reader(text: str, expected: tuple[str, ...]) -> None:
    found = best(text)
    assert found.value == expected
    assert found.doubt == ""


@pytest.mark.parametrize(
    ("texts", "doubt"),
    [
        (("Machine washable",), "without a temperature"),
        (("Waschen bei 30 °C",), "not whether by hand"),
        (("Do not wash. Machine wash 30°",), "both 'do not wash'"),
        (("Handwäsche", "Machine wash 30° or 40°"), "two washing temperatures"),
        (("Hand wash, machine wash 30°",), "both hand wash and machine wash"),
        (("Do not machine wash. Machine wash 30°",), "allowed and forbidden"),
        (("Machine wash 30°", "Machine wash 40°"), "both 'machine wash 30'"),
        (("Do not bleach. Oxygen bleach only.",), "both 'do not bleach'"),
        (("Tumble dry low. Do not tumble dry.",), "both 'do not tumble dry'"),
        (("Cool iron. Do not iron.",), "both 'do not iron'"),
        (("Hot iron. Cool iron.",), "both 'iron high'"),
        (("Iron.",), "without its heat"),
        (("Machine wash 50°",), "no usual washing"),
        (("Machine wash 3O°C",), "letters among its digits"),
        (("Hand wash. Noh candeggiare.",), "unread"),
    ],
)
def test_asks_where_care_is_vague_or_contradicts_itself(texts: tuple[str, ...], doubt: str) -> None:
    assert doubt in best(*texts).doubt


@pytest.mark.parametrize(
    "text",
    [
        "Do nct tumble dry",
        "Nxcht chemisch reinigen",
        "Nief in de droger, chemisch reinigen",
        "Torktumlas cj",
        "Får ejtorktumlas",
        "not\nhot iron",
        "Dry clean nicht",
    ],
)
def test_a_phrase_whose_negation_may_be_lost_is_never_taken_unasked(text: str) -> None:
    found = find_care(lines_from(*text.split("\n")))
    allowed = {"tumble dry", "dry clean", "iron high"}
    for candidate in found:
        assert candidate.doubt or not allowed & set(candidate.value or ()), candidate  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "text",
    ["Silk Wash", "Silk Wash 30", "Moorland Wash DK", "50 g = 125 m", "Iron Grey", "Delicate", ""],
)
def test_words_that_are_no_care_phrase_do_not_count(text: str) -> None:
    found = find_care(lines_from(text))
    assert all(not candidate.value for candidate in found)


def test_spans_hold_the_deciding_words_of_each_process_once() -> None:
    texts = ("Care: Hand wash. Dry flat.", "Handwäsche. Liegend trocknen.")
    found = best(*texts)
    assert [texts[s.line][s.start : s.end] for s in found.spans] == ["Hand wash", "Dry flat"]


ISO_3758_KEPT_AS = {
    "max 95 C, normal": "machine wash 95",
    "max 60 C, normal": "machine wash 60",
    "max 60 C, mild": "machine wash 60 mild",
    "max 40 C, normal": "machine wash 40",
    "max 40 C, mild": "machine wash 40 mild",
    "max 30 C, normal": "machine wash 30",
    "max 30 C, mild": "machine wash 30 mild",
    "wash by hand, max 40 C": "hand wash",
    "do not wash": "do not wash",
    "any bleach": "any bleach",
    "oxygen bleach only": "oxygen bleach only",
    "do not bleach": "do not bleach",
    "normal, exhaust max 80 C": "tumble dry",
    "low, exhaust max 60 C": "tumble dry low",
    "do not tumble dry": "do not tumble dry",
    "line dry": "line dry",
    "drip line dry": "drip line dry",
    "dry flat": "dry flat",
    "in the shade (added to any of the four)": "dry in shade",
    "max 200 C": "iron high",
    "max 150 C": "iron medium",
    "max 110 C": "iron low",
    "do not iron": "do not iron",
    "dry clean P, normal": "dry clean",
    "do not dry clean": "do not dry clean",
    "wet clean W, normal": "wet clean",
    "do not wet clean": "do not wet clean",
}


def test_every_process_is_one_of_the_standards() -> None:
    # ISO 3758:2012, processes as listed publicly; a ball's tag needs no finer grades.
    with (DATA / "care_processes.csv").open(encoding="utf-8") as file:
        standard = {row["process"] for row in csv.DictReader(file)}
    assert set(ISO_3758_KEPT_AS) <= standard
    assert sorted(ISO_3758_KEPT_AS.values()) == sorted(PROCESSES)


@pytest.mark.parametrize(("heat", "process"), [(200, "high"), (150, "medium"), (110, "low")])
def test_iron_heats_are_those_of_the_standard(heat: int, process: str) -> None:
    assert ISO_3758_KEPT_AS[f"max {heat} C"] == f"iron {process}"
    assert best(f"Iron max. {heat} °C").value == (f"iron {process}",)


def test_every_process_but_machine_washing_has_phrases_of_its_own() -> None:
    named = {process for process in PROCESSES if not process.startswith("machine wash")}
    assert named <= set(PHRASES)


CARE_SETS = st.sampled_from(
    [
        ("hand wash", "do not bleach", "do not tumble dry", "dry flat"),
        ("machine wash 30 mild", "do not bleach", "dry flat", "iron low"),
        ("machine wash 40", "tumble dry low", "iron medium", "dry clean"),
        ("do not wash", "do not tumble dry", "do not iron", "dry clean"),
        ("machine wash 60", "tumble dry", "iron high", "do not dry clean"),
        ("hand wash", "line dry", "dry in shade", "do not iron", "do not dry clean"),
    ]
)
LANGUAGES = st.lists(
    st.sampled_from(["en", "de", "fr", "it", "es", "nl", "sv", "no", "da"]),
    min_size=1,
    max_size=3,
    unique=True,
)
LOOKALIKES = {
    "o": "0",
    "l": "1",
    "i": "l",
    "t": "f",
    "m": "rn",
    "e": "c",
    "n": "h",
    " ": "",
    "c": "e",
}


def paragraph(processes: tuple[str, ...], language: str, join: str) -> str:
    return join.join(CARE_WORDS[process][language][0] for process in processes)


@settings(max_examples=100, deadline=None)
@given(CARE_SETS, LANGUAGES, st.sampled_from([". ", " · ", ", ", " / "]))
def test_a_clean_print_in_any_languages_is_read_back(
    processes: tuple[str, ...], languages: list[str], join: str
) -> None:
    found = best(*(paragraph(processes, language, join) for language in languages))
    assert found.value == processes
    assert found.doubt == ""


@settings(max_examples=100, deadline=None)
@given(CARE_SETS, LANGUAGES, st.data())
def test_a_misread_print_never_allows_unasked_what_is_not_allowed(
    processes: tuple[str, ...], languages: list[str], data: st.DataObject
) -> None:
    noisy = []
    for language in languages:
        letters = list(paragraph(processes, language, ". "))
        for place in data.draw(st.sets(st.integers(0, len(letters) - 1), max_size=4)):
            letters[place] = LOOKALIKES.get(letters[place], letters[place])
        noisy.append("".join(letters))
    for candidate in find_care(lines_from(*noisy)):
        if not candidate.doubt:
            assert isinstance(candidate.value, tuple)
            assert set(candidate.value) <= set(processes), noisy


def test_a_gentle_washing_is_kept_before_a_stop_without_its_space() -> None:
    text = "Lavage en machine à 30 °C, cycle délicat.Nc pas blanchir. Sécher à plat."
    assert "machine wash 30 mild" in best(text).value


def test_a_line_that_ends_within_a_phrase_is_asked_about() -> None:
    lines = lines_from("Hand wash, Do not bleach, Do not tumble dry, Dry", "Fogbank", "flat")
    (care,) = find_care(lines)
    assert care.doubt == "'Dry' at the end of the care words goes on"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Machine wash warm, gentle cycle. Do not bleach.", "machine wash 40 mild; do not bleach"),
        ("MACHINE WASH COLD, TUMBLE DRY LOW", "machine wash 30; tumble dry low"),
        ("Machine wash cold / tumble dry low", "machine wash 30; tumble dry low"),
    ],
)
def test_the_waters_heat_in_words_is_that_of_the_washing_no_hotter(
    text: str, expected: str
) -> None:
    """Care Labeling Rule, 16 CFR 423, appendix A (from memory): cold to 30 °C, warm to 44 °C."""
    found = find_care(lines_from(text))
    assert "; ".join(found[0].value) == expected
    assert not found[0].doubt


@pytest.mark.parametrize(("under", "read"), [("Tuch", True), ("Handtuch", True), ("Brett", False)])
def test_a_sentence_over_two_lines_is_read_or_asked_about(under: str, read: bool) -> None:
    lines = lines_from(
        "Bitte mit der Hand waschen.", "Bleichen nicht erlaubt. Nicht im",
        "Trockner trocknen. Liegend auf", f"einem {under} trocknen. Bügeln bis",
        "110 °C. Chemische Reinigung", "möglich.",
    )  # fmt: skip
    (found,) = find_care(lines)
    assert ("dry flat" in found.value) == read
    assert bool(found.doubt) != read


def test_a_sign_for_norway_before_its_language_forbids_nothing() -> None:
    found = find_care(
        lines_from("DE Handwäsche. Nicht bleichen.", "NO Håndvask. Tåler ikke bleking.")
    )
    assert found[0].value == ("hand wash", "do not bleach")
    assert not found[0].doubt


def test_no_before_an_english_phrase_still_forbids() -> None:
    assert find_care(lines_from("NO BLEACH", "HAND WASH"))[0].value == (
        "hand wash",
        "do not bleach",
    )


@pytest.mark.parametrize("other", ["24 Maschen x 32 Reihen", "Sport", "Super Bulky"])
def test_stitches_and_weight_classes_among_the_care_words_are_none_of_them(other: str) -> None:
    lines = lines_from("Handwäsche. Nicht bleichen.", other, "Liegend trocknen. Nicht bügeln.")
    assert not find_care(lines)[0].doubt


def test_a_heat_that_should_follow_in_another_place_is_asked_for() -> None:
    lines = lines_from(
        "Machine wash warm (40°C). Tumble dry on", "50 g 53 m", "low heat. Medium iron."
    )
    assert "goes on" in find_care(lines)[0].doubt


def test_a_warning_that_colours_may_bleed_asks_nothing() -> None:
    found = find_care(lines_from("Cool hand wash, lay flat to dry. Colours may bleed."))
    assert (found[0].value, found[0].doubt) == (("hand wash", "dry flat"), "")


def test_words_with_a_digit_in_their_middle_are_unread() -> None:
    assert find_care(lines_from("Torktumlas på1åg temperatur"))[0].doubt


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Strykes maks 200C", "iron high"),
        ("Repasser à 110 C maxi.", "iron low"),
        ("Bügeln bis 150 C.", "iron medium"),
        ("Fer chaud moyen. Pressing possible.", "iron medium; dry clean"),
        ("Lavadora 40°, Secar sobre superficie plana", "machine wash 40; dry flat"),
        ("Ej vattentvätt. Ej blekning.", "do not wash; do not bleach"),
        ("Séchage en tambour à température modérée", "tumble dry low"),
        ("Sèche-linge modéré", "tumble dry low"),
        ("Sécher à plat – Fer à 1 10° maximum", "dry flat; iron low"),
    ],
)
def test_care_as_small_mills_print_it(text: str, expected: str) -> None:
    """Common practice, no source."""
    candidate = best(text)
    assert (care_text(candidate.value), candidate.doubt) == (expected, "")


@pytest.mark.parametrize("text", ["TINTORIA A MANO LE GAZZE", "Teinturerie de Valombre"])
def test_a_dye_works_is_no_dry_cleaner(text: str) -> None:
    assert find_care(lines_from(text)) == []


def test_three_digits_and_c_are_no_heat_to_wash_at() -> None:
    assert best("Maskinvask 200C").doubt


def test_the_heat_of_an_iron_that_is_told_of_nothing_is_asked_about() -> None:
    assert "110 °C" in best("Lavare a mano.", "Max 110 °C").doubt
