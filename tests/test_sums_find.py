"""What is looked for is found; a lot is found exactly or not at all."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from pathlib import Path

import pytest
from filing_tags import doubtful, tag
from hypothesis import given, settings
from hypothesis import strategies as st
from sums_balls import ball, weighed
from typer.testing import CliRunner

from intake.cli import app
from intake.errors import BadQuery
from intake.fields.amounts.weight import CATEGORIES
from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.columns import table_of
from intake.shades.confusion import confusable
from intake.sums.ball import Ball
from intake.sums.balls import balls
from intake.sums.catalogue import Catalogue, catalogue
from intake.sums.find import Found, Metres, Query, find, metres
from intake.sums.lots import Lot, ShadeName, lots
from intake.sums.maker_sheet import MakerLine, MakerSheet, maker_line, write_maker_sheet
from intake.sums.owned import Owned, ShopTag, Verdict, owned, shop_tag
from intake.sums.terms import near_lots, weight_category

TIDEMILL = "Tidemill & Daughters"
BRANAS = "Brånäs Ull"

CUPBOARD = (
    ball(),
    ball(),
    ball(lot="0013"),
    ball(shade="Ember", shade_code="042", lot="0012", weighing=weighed(20.0, 84.0)),
    ball(shade="Sea Mist", shade_code="7", lot="A-117", weight_class="light", fibre="100% linen"),
    ball(maker=TIDEMILL, range="", shade="Kelp", shade_code="", lot="0012"),
    ball(maker=BRANAS, shade="Kelp", lot="", length_m=None, fibre="100% wool (shetland superwash)"),
)


def catalogue_of(*stash: Ball, sheet: MakerSheet | None = None) -> Catalogue:
    weighings = {each.record.id: each.weighing for each in stash if each.weighing}
    return Catalogue(table_of([each.record for each in stash]), sheet or MakerSheet(), weighings)


def found_in_cupboard(*words: str, **terms: str) -> Found:
    return find(catalogue_of(*CUPBOARD), Query(words=words, **terms))  # type: ignore[arg-type]


def places(found: tuple[Lot, ...]) -> list[int]:
    """Numbers of the balls in the cupboard."""
    numbers = {each.record.id: place for place, each in enumerate(CUPBOARD)}
    return sorted(numbers[each.record.id] for lot in found for each in lot.balls)


def test_no_term_finds_all() -> None:
    assert places(found_in_cupboard().lots) == list(range(len(CUPBOARD)))


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (["kelp"], [0, 1, 2, 5, 6]),
        (["KELP", "tidemill"], [5]),
        (["branas"], [6]),
        (["BRÅNÄS-ull"], [6]),
        (["seamist"], [4]),
        (["sea mist"], [4]),
        (["linen"], [4]),
        (["leinen"], [4]),
        (["dk"], [4]),
        (["dry flat", "ember"], [3]),
        (["0013"], [2]),
        (["13"], []),
        (["001"], []),
        (["041"], [0, 1, 2, 6]),
        (["41"], []),
        (["no such word"], []),
    ],
)
def test_words_are_found_wherever_they_stand(words: list[str], expected: list[int]) -> None:
    assert places(found_in_cupboard(*words).lots) == expected


@pytest.mark.parametrize(
    ("terms", "expected"),
    [
        ({"shade": "kelp"}, [0, 1, 2, 5, 6]),
        ({"shade": "042"}, [3]),
        ({"shade": "42"}, []),
        ({"maker": "quillstow"}, [0, 1, 2, 3, 4]),
        ({"lot": "0012"}, [0, 1, 3, 5]),
        ({"lot": " 0012 "}, [0, 1, 3, 5]),
        ({"lot": "A–117"}, [4]),
        ({"lot": "a-117"}, []),
        ({"lot": "A117"}, []),
        ({"lot": "12"}, []),
        ({"weight_class": "DK"}, [4]),
        ({"weight_class": "3"}, [4]),
        ({"weight_class": "8-ply"}, [4]),
        ({"weight_class": "super fine"}, [0, 1, 2, 3, 5, 6]),
        ({"weight_class": "fine"}, []),
        ({"fibre": "laine nylon"}, [0, 1, 2, 3, 5]),
        ({"fibre": "shetland"}, [6]),
        ({"fibre": "wool", "lot": "0012", "maker": "tidemill"}, [5]),
    ],
)
def test_terms_are_found_in_their_columns(terms: dict[str, str], expected: list[int]) -> None:
    assert places(found_in_cupboard(**terms).lots) == expected


def test_one_ball_is_found_by_its_id() -> None:
    assert places(found_in_cupboard(CUPBOARD[3].record.id).lots) == [3]


def test_a_misspelt_name_is_found_and_said() -> None:
    found = found_in_cupboard("tidmill", shade="klep")
    assert places(found.lots) == [5]
    assert found.taken_as == {"tidmill": (TIDEMILL,), "klep": ("Kelp",)}


def test_a_name_that_is_there_is_never_taken_for_another() -> None:
    stash = catalogue_of(ball(shade="Dusk"), ball(shade="Dust"))
    found = find(stash, Query(shade="dust"))
    assert [lot.name.shade for lot in found.lots] == ["Dust"]
    assert not found.taken_as


def test_names_equally_near_are_all_shown() -> None:
    found = find(catalogue_of(ball(shade="Dusk"), ball(shade="Dust")), Query(shade="dusl"))
    assert found.taken_as == {"dusl": ("Dusk", "Dust")}
    assert len(found.lots) == 2


@pytest.mark.parametrize("lot", ["O012", "0O12", "00l2", "012", "12", "00012", "0012a", "1002"])
def test_no_other_lot_is_ever_found_for_a_lot(lot: str) -> None:
    assert found_in_cupboard(lot=lot).lots == ()
    assert found_in_cupboard(lot).lots == ()


@pytest.mark.parametrize("lot", ["0O12", "00l2", "012", "12", "O012"])
def test_a_lot_one_confusable_letter_away_is_shown_apart(lot: str) -> None:
    found = found_in_cupboard(lot=lot, shade="Kelp")
    assert found.lots == ()
    assert places(found.near) == [0, 1, 5]
    assert {each.lot for each in found.near} == {"0012"}


def test_near_lots_are_shown_beside_the_lot_itself() -> None:
    stash = catalogue_of(ball(lot="5811"), ball(lot="S811"), ball(lot="7811"))
    found = find(stash, Query(lot="5811"))
    assert [lot.lot for lot in found.lots] == ["5811"]
    assert [lot.lot for lot in found.near] == ["S811"]


def test_near_lots_fit_the_other_terms() -> None:
    assert places(found_in_cupboard(lot="0O12", maker="tidemill").near) == [5]
    assert places(found_in_cupboard("0O12", "ember").near) == [3]


lot_texts = st.text("0O1lIaA5S8Brnm-/", max_size=6)


@settings(deadline=None)
@given(lot_texts, st.lists(lot_texts, max_size=8, unique=True))
def test_all_confusable_lots_are_near(lot: str, others: list[str]) -> None:
    """Brute force over every lot, without the quick look that comes first."""
    near = set(near_lots(lot, others))
    expected = {
        other for other in others if other and other != lot and lot and confusable(lot, other)
    }
    assert near >= expected
    assert lot not in near
    assert "" not in near


def test_an_unknown_lot_of_a_known_shade_names_the_lots_there_are() -> None:
    found = found_in_cupboard(lot="7741", shade="Kelp", maker="quillstow")
    assert found.lots == ()
    assert [lot.lot for lot in found.other_lots] == ["0012", "0013"]


def test_metres_are_those_left_in_a_lot() -> None:
    def lots_with(text: str) -> list[str]:
        query = Query(maker="quillstow", metres=metres(text))
        return [f"{x.name.shade} {x.lot}" for x in find(catalogue_of(*CUPBOARD), query).lots]

    assert lots_with("400..") == ["Kelp 0012"]
    assert lots_with("..100") == ["Ember 0012"]
    assert lots_with("84..210") == ["Ember 0012", "Kelp 0013", "Sea Mist A-117"]


def test_lots_whose_metres_are_not_known_are_shown_apart() -> None:
    found = find(catalogue_of(*CUPBOARD), Query(maker="branas", metres=metres("200..")))
    assert found.lots == ()
    assert places(found.unmeasured) == [6]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("200..", Metres(200)),
        ("200", Metres(200)),
        ("..87.5 m", Metres(0, 87.5)),
        ("200..400", Metres(200, 400)),
        ("200 .. 400m", Metres(200, 400)),
    ],
)
def test_metres_can_be_asked_for(text: str, expected: Metres) -> None:
    assert metres(text) == expected


@pytest.mark.parametrize("text", ["", "..", "many", "400..200", "-5..", "nan.."])
def test_metres_that_mean_nothing_are_refused(text: str) -> None:
    with pytest.raises(BadQuery, match="metres"):
        metres(text)


@settings(deadline=None)
@given(st.floats(0, 1e6), st.floats(0, 1e6))
def test_a_range_of_metres_reads_as_python_reads_its_numbers(least: float, more: float) -> None:
    found = metres(f"{least:.3f}..{least + more:.3f}")
    assert math.isclose(found.least, least, abs_tol=0.001)
    assert math.isclose(found.most, least + more, abs_tol=0.001)


def test_class_numbers_are_those_of_the_yarn_council() -> None:
    """Craft Yarn Council, Standard Yarn Weight System: numbers and categories."""
    rows = (Path(__file__).parent / "data/weight_system.csv").read_text().splitlines()[1:]
    for number, name in (row.split(",")[:2] for row in rows):
        assert weight_category(number) == weight_category(name.upper()) == name
    assert weight_category(str(len(CATEGORIES))) is None
    assert weight_category("a wool of no class") is None


def test_what_the_maker_sheet_assumes_is_found_and_marked() -> None:
    sheet = MakerSheet([maker_line({"maker": "quillstow spinners", "origin": "England"})])
    stash = catalogue_of(ball(origin=""), ball(origin="Wales"), ball(maker=BRANAS), sheet=sheet)
    (lot,) = find(stash, Query(words=("england",))).lots
    (mine,) = lot.balls
    assert mine.text("origin") == "England"
    assert mine.is_assumed("origin")


sheets = st.lists(
    st.builds(
        MakerLine,
        st.sampled_from(["Quillstow Spinners", TIDEMILL]),
        st.sampled_from(["", "Sluicegate", "Millrace"]),
        st.dictionaries(st.sampled_from(["fibre", "care", "origin"]), st.sampled_from("xyz")),
    ),
    unique_by=lambda line: (line.maker, line.range),
    max_size=4,
)
stashes = st.lists(
    st.builds(
        ball,
        maker=st.sampled_from(["Quillstow Spinners", "QUILLSTOW SPINNERS", TIDEMILL, ""]),
        range=st.sampled_from(["", "Sluicegate"]),
        fibre=st.sampled_from(["", "100% silk"]),
        origin=st.sampled_from(["", "Wales"]),
        lot=st.sampled_from(["1", "l", ""]),
    ),
    max_size=6,
)


@settings(deadline=None)
@given(sheets, stashes)
def test_columns_hold_what_the_balls_hold(lines: list[MakerLine], stash: list[Ball]) -> None:
    """Ball by ball, the slow way, every column is the same."""
    sheet = MakerSheet(lines)
    by_column = catalogue_of(*stash, sheet=sheet)
    one_by_one = [Ball(each.record, sheet.assumed(each.record)) for each in stash]
    assert by_column.balls(by_column.all()) == one_by_one
    for name in ("fibre", "care", "origin", "maker", "lot"):
        column = by_column.column(name)
        assert [column.texts[code] for code in column.codes] == [
            each.text(name) for each in one_by_one
        ]
    assert by_column.lots(by_column.all()) == lots(one_by_one)


def test_some_balls_are_grouped_as_the_whole_stash_is() -> None:
    """Two codes bear the name, so a name alone is of neither, though only one is found."""
    stash = catalogue_of(ball(shade_code=""), ball(), ball(shade_code="051", lot="9"))
    assert len(find(stash, Query(lot="0012")).lots) == 2


def test_an_empty_stash_has_nothing(tmp_path: Path) -> None:
    empty = catalogue(open_cabinet(tmp_path / "stash.csv"))
    assert find(empty, Query(words=("kelp",), lot="0012", metres=Metres(1))) == Found(())
    assert find(empty, Query()) == Found(())


def shop(lot: str, shade: str = "KELP", maker: str = "Quillstow Spinners") -> ShopTag:
    return ShopTag(ShadeName(maker, "Sluicegate", shade, ""), lot)


def asked(tag: ShopTag) -> Owned:
    return owned(catalogue_of(*CUPBOARD), tag)


def test_a_lot_that_is_owned_is_told_with_its_balls() -> None:
    answer = asked(shop("0012"))
    assert answer.verdict is Verdict.THIS_LOT
    assert places(answer.this_lot) == [0, 1]
    assert places(answer.other_lots) == [2]
    assert places(answer.other_yarns) == [3, 5]


def test_a_shade_that_is_owned_in_other_lots_is_told() -> None:
    answer = asked(shop("7741"))
    assert answer.verdict is Verdict.OTHER_LOTS
    assert places(answer.other_lots) == [0, 1, 2]


def test_a_tag_of_nothing_that_is_owned_is_told() -> None:
    answer = asked(shop("0012", "Heather", "Fjordspinn Vik"))
    assert answer.verdict is Verdict.NOT_AT_ALL
    assert places(answer.other_yarns) == [0, 1, 3, 5]


def test_a_lot_one_confusable_letter_away_calls_for_a_look() -> None:
    answer = asked(shop("00l2"))
    assert answer.verdict is Verdict.LOOK_AGAIN
    assert answer.this_lot == ()
    assert places(answer.near) == [0, 1]


def test_a_doubtful_lot_is_never_told_as_owned() -> None:
    reading = tag("shop.jpg", 1, doubtful("lot", "0012", "0013"))
    answer = asked(shop_tag(reading))
    assert answer.verdict is Verdict.LOOK_AGAIN
    assert places(answer.this_lot) == [0, 1]
    assert places(answer.near) == [2]
    assert [doubt.field for doubt in answer.tag.doubts] == ["lot"]


def test_a_lot_that_was_not_read_is_never_told_as_not_owned() -> None:
    answer = asked(shop_tag(tag("shop.jpg", lot=None)))
    assert answer.verdict is Verdict.LOOK_AGAIN
    assert answer.this_lot == answer.near == ()
    assert places(answer.other_lots) == [0, 1, 2]


def test_a_shade_that_was_not_read_is_never_told_as_not_owned() -> None:
    answer = asked(shop_tag(tag("shop.jpg", shade=None, shade_code=None, lot="7741")))
    assert answer.verdict is Verdict.LOOK_AGAIN


def test_a_doubt_about_the_maker_is_settled_by_the_balls_of_the_lot() -> None:
    maker = doubtful("maker", "Sluicegate", "Quillstow Spinners")
    question = shop_tag(tag("shop.jpg", 1, maker))
    assert owned(catalogue_of(*CUPBOARD[:5]), question).verdict is Verdict.THIS_LOT
    assert asked(question).verdict is Verdict.LOOK_AGAIN
    assert places(asked(question).this_lot) == [0, 1, 5]


def test_a_maker_that_may_be_yet_another_calls_for_a_look() -> None:
    maker = doubtful("maker", "Fjordspinn Vik", "Sluicegate")
    answer = asked(shop_tag(tag("shop.jpg", 1, maker)))
    assert answer.verdict is Verdict.LOOK_AGAIN
    assert [doubt.field for doubt in answer.tag.doubts] == ["maker"]


@pytest.fixture
def cabinet(tmp_path: Path) -> Cabinet:
    cabinet = open_cabinet(tmp_path / "stash.csv")
    cabinet.stash.append([each.record for each in CUPBOARD])
    return cabinet


WEIGHED = {
    "mass_g": "20",
    "mass_uncertainty_g": "0.8",
    "length_m": "84",
    "length_uncertainty_m": "5.5",
}


def test_balls_carry_their_last_weighing_that_stands(cabinet: Cabinet) -> None:
    mine = CUPBOARD[0].record.id
    cabinet.weigh(mine, {**WEIGHED, "length_m": "120"})
    last = cabinet.weigh(mine, {**WEIGHED, "balance_g": "21"})
    assert balls(cabinet)[0].left_m == 84.0
    assert find(catalogue(cabinet), Query(words=(mine,))).lots[0].totals.left_m == 84.0
    cabinet.undo(last.stroke)
    assert balls(cabinet)[0].left_m == 120.0
    assert balls(cabinet)[1].left_m == 210.0


def test_balls_take_the_sheet_beside_their_stash(cabinet: Cabinet) -> None:
    line = {"maker": BRANAS, "length_m": "180", "mass_g": "100"}
    write_maker_sheet(cabinet.stash, [maker_line(line)])
    mine = balls(cabinet)[6]
    assert (mine.left_m, mine.is_assumed("length_m")) == (90.0, True)
    assert (mine.left_g, mine.is_assumed("mass_g")) == (50.0, False)
    assert not balls(cabinet, MakerSheet())[6].assumed


def run(cabinet: Cabinet, *arguments: str) -> str:
    result = CliRunner().invoke(app, ["find", "--stash", str(cabinet.stash.path), *arguments])
    assert result.exit_code == 0, result.output
    return result.output


def test_the_command_prints_a_table(cabinet: Cabinet) -> None:
    text = run(cabinet, "kelp", "--lot", "0012", "--maker", "quillstow")
    assert "Sluicegate" in text
    assert "420" in text
    assert "0013" not in text


def test_the_command_marks_what_is_assumed(cabinet: Cabinet) -> None:
    line = {"maker": BRANAS, "length_m": "180", "mass_g": "100"}
    write_maker_sheet(cabinet.stash, [maker_line(line)])
    text = run(cabinet, "branas")
    assert "90*" in text
    assert "the maker sheet says so" in text


def test_the_command_says_in_one_line_that_nothing_is_found(cabinet: Cabinet) -> None:
    assert run(cabinet, "--lot", "7741") == "nothing found\n"


def test_the_command_says_what_a_misspelt_name_was_taken_for(cabinet: Cabinet) -> None:
    text = run(cabinet, "klep")
    assert "'klep' is nowhere in the stash; taken as Kelp" in text
    assert "Tidemill" in text


def test_the_command_shows_a_lot_that_is_easily_taken_for_it_apart(cabinet: Cabinet) -> None:
    text = run(cabinet, "--lot", "0O12", "--shade", "kelp")
    nothing, near = text.split("Near, look again")
    assert nothing.strip() == "nothing found"
    near, others = near.split("All fits but the lot")
    assert near.count("0012") == 2
    assert "0013" in others
    assert "0012" not in others


def test_the_command_shows_apart_what_may_have_the_metres(cabinet: Cabinet) -> None:
    text = run(cabinet, "--metres", "150..", "--shade", "kelp")
    found, perhaps = text.split("Perhaps: not all metres are known")
    assert "not known" not in found
    assert perhaps.count("not known") == 2  # its lot and its metres


def test_the_command_says_that_nothing_may_stand_in(cabinet: Cabinet) -> None:
    text = run(cabinet, "--like", CUPBOARD[0].record.id, "--shade", "Sundew")
    assert text.strip() == "nothing found"


def test_the_command_answers_in_json(cabinet: Cabinet) -> None:
    found = json.loads(run(cabinet, "--lot", "0O12", "--shade", "kelp", "--json"))
    assert found["lots"] == []
    assert {lot["lot"] for lot in found["near"]} == {"0012"}
    lot = json.loads(run(cabinet, "--shade", "ember", "--json"))["lots"][0]
    assert (lot["lot"], lot["balls"], lot["left_m"]) == ("0012", 1, 210.0)
    assert lot["records"][0]["fields"]["shade_code"] == "042"


def test_the_command_finds_what_may_stand_in(cabinet: Cabinet) -> None:
    text = run(cabinet, "--like", CUPBOARD[0].record.id, "--fibre", "linen")
    assert "Sea Mist" in text
    assert "100% in other fibres" in text


def test_the_command_reads_a_tag_in_a_shop_and_leaves_the_stash_alone(tmp_path: Path) -> None:
    """The truth of the picture stands beside its maker, in fixtures/demo_truth.csv."""
    cabinet = open_cabinet(tmp_path / "stash.csv")
    mine = ball(
        maker="Lanas Valdeoro", range="Alameda", shade="Tabaco", shade_code="E0505",
        lot="63/4", length_m=323.0, mass_g=100.0,
    )  # fmt: skip
    cabinet.stash.append([mine.record, replace(mine.record, id="t1", lot="71/2")])
    before = {path: path.read_bytes() for path in tmp_path.rglob("*")}
    picture = Path(__file__).resolve().parent.parent / "demo_scans/scan_05.jpg"
    answer = json.loads(run(cabinet, "--picture", str(picture), "--json").splitlines()[-1])
    assert answer["tag"]["lot"] == "63/4"
    assert answer["verdict"] == "this lot"
    assert [lot["records"][0]["id"] for lot in answer["this_lot"]] == [mine.record.id]
    assert [lot["lot"] for lot in answer["other_lots"]] == ["71/2"]
    said = run(cabinet, "--picture", str(picture))
    assert "On the tag: Lanas Valdeoro Alameda Tabaco E0505, lot 63/4" in said
    this_lot, others = said.split("You own the shade in other lots")
    assert "63/4" in this_lot.split("You own of this lot")[1]
    assert "71/2" in others
    assert {path: path.read_bytes() for path in tmp_path.rglob("*")} == before


@pytest.mark.parametrize(
    ("arguments", "code"),
    [(["--metres", "few"], 2), (["--picture", "x.jpg", "kelp"], 2), (["--picture", "x.jpg"], 3)],
)
def test_the_command_fails_with_a_line_and_a_code(
    cabinet: Cabinet, arguments: list[str], code: int
) -> None:
    result = CliRunner().invoke(app, ["find", "--stash", str(cabinet.stash.path), *arguments])
    assert getattr(result.exception, "exit_code", None) == code
    assert len(str(result.exception).splitlines()) == 1
