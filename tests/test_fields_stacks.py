"""What is printed below what: stacked captions and values, empty boxes above a swatch, the last
word of a maker's name; and lines that name nothing."""

from __future__ import annotations

from dataclasses import replace

import pytest

from intake.fields.lot_advice import advises_on_lots
from intake.fields.parse import parse
from intake.records import State
from tests.line_making import larger, line_from, lines_from, placed

ABOUT = ("Hollin Fold", "100% wool", "50 g = 120 m")


@pytest.mark.parametrize("captions", [("Farve / Col", "Parti / Lot"), ("Coloris", "Bain")])
@pytest.mark.parametrize("values", [("79", "255.26"), ("774Y", "32/428"), ("0412", "05")])
def test_values_below_two_captions_go_in_order_and_are_asked_about(
    captions: tuple[str, str], values: tuple[str, str]
) -> None:
    texts = (*captions, *values)
    lines = [
        *(line_from(text, number) for number, text in enumerate(ABOUT)),
        *(placed(line_from(text, number), 400) for number, text in enumerate(texts)),
    ]
    fields = parse(lines, ())
    assert (fields["shade_code"].value, fields["lot"].value) == values
    assert fields["lot"].state is State.DOUBTFUL


def test_each_caption_right_above_its_own_value_is_not_asked_about() -> None:
    texts = ("Coloris", "774Y", "Bain", "32/428")
    lines = [
        *(line_from(text, number) for number, text in enumerate(ABOUT)),
        *(placed(line_from(text, number), 400) for number, text in enumerate(texts)),
    ]
    fields = parse(lines, ())
    assert (fields["shade_code"].value, fields["lot"].value) == ("774Y", "32/428")
    assert fields["lot"].state is State.SURE


@pytest.mark.parametrize(
    "line",
    [
        "Always knit from one dye lot.",
        "Nur Knäuel derselben Partie",
        "Vérifiez le bain avant de commencer",
        "Non mischiare bagni diversi.",
        "No mezcle baños distintos.",
        "Controleer het verfbad voor u begint.",
        "Blanda inte olika färgbad.",
        "Tjek partinummeret, før du begynder",
        "Bland ikke ulike partier.",
    ],
)
def test_advice_on_lots_names_no_shade(line: str) -> None:
    assert advises_on_lots(line)
    fields = parse(
        [line_from(text, at) for at, text in enumerate((*ABOUT, "Lot 0412", "774Y", line))], ()
    )
    assert fields["shade"].value is None
    assert line.split()[0] not in fields["shade"].reason


@pytest.mark.parametrize("line", ["Lot 0412", "Dye lot: same as 7", "Partij van de dag", "Bain"])
def test_what_tells_a_lot_is_no_advice(line: str) -> None:
    assert not advises_on_lots(line)


@pytest.mark.parametrize("right_px", [0, 60, 100])
def test_the_stitches_of_a_swatch_below_an_empty_box_are_not_filed_as_the_lot(
    right_px: float,
) -> None:
    tag = [line_from(text, number) for number, text in enumerate(("774Y Sloe", *ABOUT))]
    box, left_px = [placed(line_from("Dye lot", 0), 500)], 500 + right_px
    stitches = placed(line_from("36", 1.6), left_px)
    swatch = placed(line_from("10 cm", 3), left_px - 20)
    asked = parse([*tag, *box, stitches, swatch], ())["lot"]
    assert (asked.value, asked.state) == ("36", State.DOUBTFUL)
    assert "stitches" in asked.reason
    assert parse([*tag, *box, stitches], ())["lot"].state is State.SURE
    stamped = [*tag, placed(line_from("Dye lot 36", 0), 500), swatch]
    assert parse(stamped, ())["lot"].state is State.SURE


def test_a_maker_whose_name_may_go_on_below_is_asked_about() -> None:
    name, last = line_from("WOLFABRIEK DE VERRE", 6), line_from("BERG", 7)
    narrow = replace(last, quad=tuple((x + 110, y - 12) for x, y in last.quad))
    above = [larger(line_from("Tante Cornelie", 0), 2), *lines_from("", "", *ABOUT[1:])[2:]]
    lines = [*above, name, narrow]
    maker = parse(lines, ())["maker"]
    assert maker.value != "WOLFABRIEK DE VERRE" or maker.state is State.DOUBTFUL


def test_for_whom_a_yarn_was_made_is_no_maker() -> None:
    lines = [
        line_from(text, number)
        for number, text in enumerate(
            ("Produceret for Refuge 2100 af Firma Højgrav & Datter", *ABOUT[1:])
        )
    ]
    maker = parse(lines, ())["maker"]
    assert "Produceret" not in str(maker.value)


@pytest.mark.parametrize("firm", ["Fellgarrow Worsted Ltd", "QUILLSTOW WORSTED MILLS"])
def test_worsted_in_the_name_of_a_firm_is_no_weight(firm: str) -> None:
    assert parse(lines_from(firm, *ABOUT[1:]), ())["weight_class"].value is None
    assert parse(lines_from("Worsted", *ABOUT[1:]), ())["weight_class"].value == "medium"
