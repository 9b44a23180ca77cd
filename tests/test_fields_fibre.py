"""Fibre compositions: every name and form read, every misreading right or doubted."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fixtures.fibre_words import FIBRE_WORDS
from intake.fields.fibre.names import ANIMAL_HAIRS, FIBRES
from intake.fields.fibre.shares import find_fibre
from intake.fields.letters import listed
from intake.fields.parse import parse
from intake.records import Candidate, FibrePart, State
from intake.wording import fibre_text, value_text
from tests.line_making import line_from, lines_from, placed

DATA = Path(__file__).parent / "data"


def best(*texts: str) -> Candidate:
    found = find_fibre(lines_from(*texts))
    assert found, f"no composition in {texts}"
    return found[0]


def composition(candidate: Candidate) -> str:
    assert isinstance(candidate.value, tuple)
    return fibre_text(tuple(part for part in candidate.value if isinstance(part, FibrePart)))


def spelt(candidate: Candidate, *texts: str) -> list[str]:
    return [texts[span.line][span.start : span.end] for span in candidate.spans]


@pytest.mark.parametrize(
    ("texts", "expected"),
    [
        (("75 % Schurwolle, 25 % Polyamid",), "75% wool; 25% polyamide"),
        (("Wool 75% Nylon 25%",), "75% wool; 25% polyamide"),
        (("100% Baumwolle",), "100% cotton"),
        (("Merino 80 / Polyamide 20",), "80% wool (merino); 20% polyamide"),
        (("75% Wolle · Wool · Laine, 25% Polyamid · Polyamide",), "75% wool; 25% polyamide"),
        (("75%", "Wool", "25%", "Nylon"), "75% wool; 25% polyamide"),
        (("75% Wool 75% Wolle", "25% Nylon 25% Polyamid"), "75% wool; 25% polyamide"),
        (("50% Wool 50% Wolle", "50% Silk 50% Seide"), "50% wool; 50% silk"),
        (("Fjordal Wool", "75% Wool 25% Nylon", "Silk Cloud DK"), "75% wool; 25% polyamide"),
        (("70% Babyalpaka", "30% Maulbeerseide"), "70% alpaca (baby); 30% silk (mulberry)"),
        (("100% laine d'alpaga",), "100% alpaca"),
        (("100% Alpaca wool",), "100% alpaca"),
        (("100 % Merinoschurwolle (superwash)",), "100% wool (merino superwash)"),
        (("75% wool 25% nylon", "superwash treated"), "75% wool (superwash); 25% polyamide"),
        (("17% wool", "(merino)", "83% silk"), "17% wool (merino); 83% silk"),
        (("70% Babyalpaka, 30% Mulberry", "Seide"), "70% alpaca (baby); 30% silk (mulberry)"),
        (("75% wool 25% nylon", "not superwash"), "75% wool; 25% polyamide"),
        (("100% Bamboo",), "100% viscose (bamboo)"),
        (("60% Bambus-Viskose 40% Baumwolle",), "60% viscose (bamboo); 40% cotton"),
        (("87,5% lana merino, 12,5% poliammide",), "87.5% wool (merino); 12.5% polyamide"),
        (("96% Cotton 4% elastane",), "96% cotton; 4% elastane"),
        (("33.3% wool 33.3% silk 33.3% linen",), "33.3% wool; 33.3% silk; 33.3% linen"),
        (("50% Merino wool 50% Shetland wool",), "50% wool (merino); 50% wool (shetland)"),
        (("65% Superkid Mohair 35% seta",), "65% mohair (superkid); 35% silk"),
    ],
)
def test_reads_every_form_a_composition_is_printed_in(
    texts: tuple[str, ...], expected: str
) -> None:
    found = best(*texts)
    assert composition(found) == expected
    assert found.doubt == ""


@pytest.mark.parametrize(
    ("texts", "expected"),
    [
        (("75%Schurwolle25%Polyamid",), "75% wool; 25% polyamide"),
        (("7596 Schurwolle 2596 Polyamid",), "75% wool; 25% polyamide"),
        (("75 9/0 Schurwolle 25 9/0 Polyamid",), "75% wool; 25% polyamide"),
        (("10096 Wool",), "100% wool"),
        (("80 % W00l, 20% P0lyarnide",), "80% wool; 20% polyamide"),
        (("75% Schur-", "wolle, 25% Poly-", "amid"), "75% wool; 25% polyamide"),
        (("75％ Schurwolle（Merino）25％ Polyamid",), "75% wool (merino); 25% polyamide"),
    ],
)
def test_reads_through_faults_of_the_reader(texts: tuple[str, ...], expected: str) -> None:
    found = best(*texts)
    assert composition(found) == expected
    assert found.doubt == ""


@pytest.mark.parametrize(
    ("texts", "doubt"),
    [
        (("75% wool 20% nylon",), "come to 95 %"),
        (("75% Wool",), "come to 75 %"),
        (("70% Nylon 30% Wxxl", "Silk Cloud"), "come to 70 %"),
        (("l00% Wool",), "letters among its digits"),
        (("75% wool 25% nylon", "75% Wolle 25% Seide"), "different compositions"),
        (("75% wool 25% nylon", "80% Wolle 20% Polyamid"), "different compositions"),
        (("100% wool / silk",), "may belong to"),
        (("100% wool 30% zest",), "without a fibre"),
        (("100% lana merin",), "unread"),
        (("30% Wxxxl Silk 70% Nylon",), "unread"),
    ],
)
def test_doubts_what_does_not_come_to_one_whole(texts: tuple[str, ...], doubt: str) -> None:
    assert doubt in best(*texts).doubt


@pytest.mark.parametrize(
    "text",
    [
        "Pure new wool",
        "Reine Schurwolle",
        "Pure laine vierge",
        "Pura lana vergine",
        "Pura lana virgen",
        "Zuiver scheerwol",
        "Ren ny ull",
        "Ren ny uld",
    ],
)
def test_pure_wool_without_a_number_is_all_wool_but_less_evident(text: str) -> None:
    found = best(text)
    assert found.value == (FibrePart("wool", "", 100.0),)
    assert found.doubt == ""
    assert found.cues["whole"] < 1
    assert "no share is printed" in found.note


@pytest.mark.parametrize(
    "text",
    [
        *("Gewicht bei Normfeuchte, Toleranz ±5 %.", "Toleranz 5 %", "Tolerance +/- 5 %"),
        *("30% off", "humidity 65 %", "rel. Luftfeuchte 65 %", "Tolleranza ± 3%", "25 % moms"),
    ],
)
def test_what_else_is_printed_in_per_cent_is_no_share(text: str) -> None:
    found = best("90 % Schurwolle, 10 % Polyamid.", "400 m / 100 g", text)
    assert (composition(found), found.doubt) == ("90% wool; 10% polyamide", "")


def test_pure_wool_beside_another_fibre_is_doubted() -> None:
    assert "silk" in best("Pure new wool", "Silk Breeze").doubt


@pytest.mark.parametrize(
    "text", ["50 g = 125 m", "100% handmade", "Lana 100 m", "Silk Wash", "Merino DK", "Lot 7596 A"]
)
def test_a_fibre_name_or_a_number_alone_is_no_composition(text: str) -> None:
    assert find_fibre(lines_from(text)) == []


def test_a_name_goes_on_in_the_next_line_with_its_kind_alone() -> None:
    assert composition(best("83 % silk 17 % wool", "(merino)")) == "83% silk; 17% wool (merino)"
    for heading in ("Super Fine", "Highland", "Baby"):
        assert composition(best("100 % merino", heading)) == "100% wool (merino)"


def test_superwash_on_a_line_of_its_own_is_said_of_the_wool_above_it() -> None:
    texts = ("75 % extrafine merino", "superwash", "25 % nylon")
    assert composition(best(*texts)) == "75% wool (extrafine merino superwash); 25% polyamide"
    assert "superwash" not in composition(best("superwash", "75 % merino", "25 % nylon"))


def test_shares_in_a_column_far_from_their_names_are_read_by_rows() -> None:
    names = lines_from("Alpaca superfine", "Lana merino", "Poliammide")
    shares = [
        placed(line_from(text, number), right_px=600)
        for number, text in enumerate(("50 %", "30 %", "20 %"))
    ]
    fibre = parse([*names, *shares], [])["fibre"]
    assert fibre.value == (
        FibrePart("alpaca", "superfine", 50.0),
        FibrePart("wool", "merino", 30.0),
        FibrePart("polyamide", "", 20.0),
    )
    assert fibre.state is State.SURE


def test_a_share_may_stand_right_behind_a_stroke() -> None:
    assert composition(best("85% LAMSWOL/15% KASJMIER")) == ("85% wool (lambswool); 15% cashmere")


def test_each_language_that_repeats_a_composition_is_a_candidate_of_its_own() -> None:
    found = find_fibre(lines_from("75% Wolle 25% Polyamid", "75% wool 25% nylon"))
    assert [[span.line for span in each.spans] for each in found] == [[0] * 4, [1] * 4]
    assert found[0].value == found[1].value


def test_spans_hold_the_numbers_and_the_names_alone() -> None:
    text = "Material: 75 % Schurwolle, 25 % Polyamid"
    assert spelt(best(text), text) == ["75", "Schurwolle", "25", "Polyamid"]


def allowance_names() -> list[str]:
    """Fibres of Regulation (EU) No 1007/2011, Annex IX (OJ L 272, 18.10.2011)."""
    with (DATA / "agreed_allowances.csv").open(encoding="utf-8") as file:
        names = {row["fibre"] for row in csv.DictReader(file)}
    return sorted(name for name in names if "(" not in name and " or " not in name)


@pytest.mark.parametrize("name", allowance_names())
def test_knows_every_fibre_that_the_regulation_gives_an_allowance(name: str) -> None:
    assert best(f"100% {name}").value == (FibrePart(name, "", 100.0),)


def test_knows_the_regulations_double_names_and_animals() -> None:
    # Regulation (EU) No 1007/2011, Annex IX, lines 3, 7 and 30.
    animals = listed("alpaca; llama; camel; cashmere; mohair; angora; vicuna; yak; guanaco")
    assert animals < ANIMAL_HAIRS
    for animal in animals:
        for words in (animal, f"{animal} wool", f"{animal} hair"):
            assert composition(best(f"100% {words}")) == f"100% {animal}"
    assert composition(best("100% flax")) == composition(best("100% linen")) == "100% linen"
    assert composition(best("100% nylon")) == "100% polyamide"


@pytest.mark.parametrize(("fibre", "kind"), list(FIBRE_WORDS))
def test_knows_each_name_in_nine_languages(fibre: str, kind: str) -> None:
    for language, words in FIBRE_WORDS[fibre, kind].items():
        for word in words:
            found = best(f"100 % {word}")
            assert found.value == (FibrePart(fibre, kind, 100.0),), (language, word)
            assert found.doubt == "", (language, word)


def test_no_printed_word_names_two_fibres() -> None:
    words = [word for names in FIBRES.values() for word in names.split("; ")]
    assert len(words) == len(set(words))


PARTS = st.lists(
    st.sampled_from(sorted(FIBRE_WORDS)), min_size=1, max_size=4, unique_by=lambda p: p[0]
)
LANGUAGES = st.sampled_from(["en", "de", "fr", "it", "es", "nl", "sv", "no", "da"])
LOOKALIKES = {
    "o": "0",
    "l": "1",
    "i": "l",
    "S": "5",
    "m": "rn",
    "e": "c",
    "%": "96",
    " ": "",
    "u": "ii",
}


@st.composite
def shares(draw: st.DrawFn, count: int) -> list[int]:
    cuts = draw(
        st.lists(st.integers(1, 99), min_size=count - 1, max_size=count - 1, unique=True).map(
            sorted
        )
    )
    return [end - start for start, end in zip([0, *cuts], [*cuts, 100], strict=True)]


@st.composite
def printed(draw: st.DrawFn) -> tuple[tuple[FibrePart, ...], list[str]]:
    """A composition and the lines that print it, in one or two languages."""
    kinds = draw(PARTS)
    percents = draw(shares(len(kinds)))
    first = draw(st.booleans())
    lines = []
    for language in draw(st.lists(LANGUAGES, min_size=1, max_size=2, unique=True)):
        names = [draw(st.sampled_from(FIBRE_WORDS[kind][language])) for kind in kinds]
        pairs = [
            f"{p} % {n}" if first else f"{n} {p} %" for p, n in zip(percents, names, strict=True)
        ]
        lines.append(draw(st.sampled_from([", ", " / ", " · ", "; "])).join(pairs))
    parts = (FibrePart(f, k, float(p)) for (f, k), p in zip(kinds, percents, strict=True))
    return tuple(parts), lines


@settings(max_examples=150, deadline=None)
@given(printed())
def test_a_clean_print_in_any_language_is_read_back(
    case: tuple[tuple[FibrePart, ...], list[str]],
) -> None:
    parts, lines = case
    found = best(*lines)
    assert found.value == parts, lines
    assert found.doubt == "", lines


@settings(max_examples=100, deadline=None)
@given(printed(), st.data())
def test_a_misread_print_is_read_back_or_doubted_or_not_found(
    case: tuple[tuple[FibrePart, ...], list[str]], data: st.DataObject
) -> None:
    parts, lines = case
    noisy = []
    for line in lines:
        letters = list(line)
        for place in data.draw(st.sets(st.integers(0, len(line) - 1), max_size=4)):
            letters[place] = LOOKALIKES.get(letters[place], letters[place])
        noisy.append("".join(letters))
    found = find_fibre(lines_from(*noisy))
    if found and not found[0].doubt:
        value = found[0].value
        assert isinstance(value, tuple)
        assert {(p.fibre, p.percent) for p in value if isinstance(p, FibrePart)} == {
            (p.fibre, p.percent) for p in parts
        }, noisy


@pytest.mark.parametrize(
    "text", ["100% British wool", "100% norsk ull", "100% Schweizer Schurwolle"]
)
def test_where_a_fibre_comes_from_is_no_doubt(text: str) -> None:
    best = find_fibre(lines_from(text))[0]
    assert (best.value, best.doubt) == ((FibrePart("wool", "", 100.0),), "")


def test_a_share_between_two_names_of_which_one_is_left_over_is_asked_about() -> None:
    """Two signs were misread, so that each name seems to stand behind the other's share."""
    lines = lines_from("rnodal 1 96, alpaca 99 %", "modal 1 % · alpacka 99 96")
    assert all(candidate.doubt for candidate in find_fibre(lines))
    assert not find_fibre(lines_from("75% wool, 25%", "polyamide"))[0].doubt


@pytest.mark.parametrize(
    ("words", "fibre", "kind"),
    [
        ("mulbärssilke", "silk", "mulberry"),
        ("fårull", "wool", ""),
        ("saueull", "wool", ""),
        ("fåreuld", "wool", ""),
        ("ekobomull", "cotton", "organic"),
        ("kæmmet bomuld", "cotton", "combed"),
        ("ekstrafin merinoull", "wool", "extrafine merino"),
        ("puuvilla", "cotton", ""),
        ("algodão", "cotton", ""),
        ("PBT", "polyester", ""),
        ("metalliserad polyester", "metal fibre", ""),
    ],
)
def test_fibres_are_known_by_the_words_of_the_north_too(words: str, fibre: str, kind: str) -> None:
    """Names of Regulation (EU) No 1007/2011, Annex I, and of the trade; from memory."""
    best = find_fibre(lines_from(f"60% {words}", "40% mohair"))[0]
    assert isinstance(best.value, tuple)
    part = best.value[0]
    assert isinstance(part, FibrePart)
    assert (part.fibre, set(part.kind.split()), best.doubt) == (fibre, set(kind.split()), "")


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("75/25 SW merino/nylon", "75% wool (merino); 25% polyamide"),
        ("70/20/10 Baby Alpaca / Silk / Yak", "70% alpaca (baby); 20% silk; 10% yak"),
    ],
)
def test_shares_may_stand_together_before_their_fibres(line: str, expected: str) -> None:
    fields = parse(lines_from("Lune Fibres", "Shade Ember", line, "Lot 417"), [])
    assert fibre_text(fields["fibre"].value) == expected
    assert fields["shade_code"].value is None


@pytest.mark.parametrize("line", ["75/20 merino/nylon", "75/25 merino", "80/20 Zwirbel/nylon"])
def test_strokes_that_do_not_add_up_tell_no_composition(line: str) -> None:
    assert parse(lines_from("Lune Fibres", "Shade Ember", line), [])["fibre"].value is None


def test_a_kind_in_brackets_opens_a_line_that_has_another_share() -> None:
    found = find_fibre(lines_from("35% Alpaca / 35% Wol", "(merino) / 30% Acryl"))
    assert fibre_text(found[0].value) == "35% alpaca; 35% wool (merino); 30% acrylic"


def test_a_share_before_its_fibre_below_another_fibre_is_asked_about() -> None:
    (found, *_) = find_fibre(lines_from("Silk", "72% Kid Mohair - 28%"))
    assert found.doubt


def test_a_plus_sign_before_a_share_adds_a_fibre() -> None:
    found = find_fibre(lines_from("85% algodón +15% cáñamo"))
    assert value_text("fibre", found[0].value) == "85% cotton; 15% hemp"


def test_a_plus_sign_before_a_tolerance_adds_no_fibre() -> None:
    found = find_fibre(lines_from("100% cotton", "Netto 50 g +5%"))
    assert value_text("fibre", found[0].value) == "100% cotton"
    assert not found[0].doubt


def test_wool_whose_letters_were_read_for_capitals_is_wool() -> None:
    field = parse(lines_from("55 % Akryl - 45 % UII", "50 g = 120 m"), ())["fibre"]
    assert value_text("fibre", field.value) == "55% acrylic; 45% wool"


def test_a_name_below_that_is_near_to_a_kind_of_fibre_stays_a_name() -> None:
    lines = ("FILATURA LAGO ALTO", "53% LINO + 47% COTONE", "MORENA", "100 g = 100 m")
    fields = parse(lines_from(*lines), ())
    assert value_text("fibre", fields["fibre"].value) == "53% linen; 47% cotton"
    assert all(span.line != 2 for span in fields["fibre"].spans)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("60% WP 23% PA 17% WO", "60% alpaca; 23% polyamide; 17% wool"),
        ("50% WO 50% PC", "50% wool; 50% acrylic"),
        ("CO 92% - EL 8%", "92% cotton; 8% elastane"),
        ("100% SE", "100% silk"),
    ],
)
def test_letters_that_stand_for_fibres_are_read(text: str, expected: str) -> None:
    """ISO 2076 and DIN 60001-4, from memory."""
    found = best(text)
    assert composition(found) == expected
    assert not found.doubt


@pytest.mark.parametrize("text", ["70% WO 30% HA", "80% WO 20% AC", "60% CO 40% PE"])
def test_letters_that_stand_for_two_fibres_are_asked_about(text: str) -> None:
    assert "stands for" in best(text).doubt


def test_letters_among_words_are_no_fibres() -> None:
    assert not find_fibre(lines_from("Save 20% PA cash card"))


def test_a_kind_with_an_apostrophe_is_read() -> None:
    assert composition(best("100% Lamb's wool")) == "100% wool (lambswool)"


@pytest.mark.parametrize(
    "texts",
    [
        ("75% Lana virgen, 25% Poliamida", "wool 75%; polyamide 25%"),
        ("wool 75% polyamide 25%", "75% uld 25% polyamid"),
        ("Schurwolle 75 %", "Polyamid 25 %", "75 % ull, 25 %", "polyamid"),
    ],
)
def test_languages_with_shares_on_either_side_are_one_composition(texts: tuple[str, ...]) -> None:
    found = parse(lines_from("Kelderhof Spinnerij", *texts, "50 g = 120 m"), ())["fibre"]
    assert value_text("fibre", found.value) == "75% wool; 25% polyamide"
    assert found.state is State.SURE


def test_languages_that_differ_are_asked_about() -> None:
    texts = ("75% Lana virgen, 25% Poliamida", "wool 70%; polyamide 30%")
    assert parse(lines_from(*texts), ())["fibre"].state is State.DOUBTFUL
