"""Compositions that are told without a sign of per cent, apart from their fibres, or as pure."""

from __future__ import annotations

import pytest

from intake.fields.fibre.shares import find_fibre
from intake.fields.parse import parse
from intake.records import Field, State
from intake.wording import value_text
from tests.line_making import lines_from


def fibre(*texts: str) -> Field:
    return parse(lines_from(*texts), ())["fibre"]


def told(*texts: str) -> tuple[str, State]:
    found = fibre(*texts)
    return value_text("fibre", found.value), found.state


@pytest.mark.parametrize(
    ("text", "composition"),
    [
        ("Merino/Seide 80/20", "80% wool (merino); 20% silk"),
        ("Ull/akryl 60%/40%", "60% wool; 40% acrylic"),
        ("Superwash ull / polyamid: 75% / 25%", "75% wool (superwash); 25% polyamide"),
        ("50/50 ull och akryl", "50% wool; 50% acrylic"),
        ("80/20 Merino & Silk", "80% wool (merino); 20% silk"),
        ("75/25 merino/nylon", "75% wool (merino); 25% polyamide"),
    ],
)
def test_shares_may_stand_together_on_either_side_of_their_fibres(
    text: str, composition: str
) -> None:
    assert told(text, "100 g") == (composition, State.SURE)


def test_numbers_that_come_to_100_beside_fibres_are_shares_among_other_numbers() -> None:
    assert told("Ull 55, hampa 45", "50 g", "färg 9") == ("55% wool; 45% hemp", State.SURE)


@pytest.mark.parametrize("text", ["Wool 28, silk 71", "Merino/Seide 80/30", "Ullgarn 55, lott 45"])
def test_numbers_that_come_to_less_or_more_are_none(text: str) -> None:
    assert fibre(text, "50 g").value is None


def test_shares_that_stand_together_give_way_to_others_on_the_tag() -> None:
    assert fibre("Merino/Seide 80/20", "70% Wolle", "40% Seide").state is State.DOUBTFUL


@pytest.mark.parametrize(
    ("text", "composition"),
    [
        ("Reine Baumwolle", "100% cotton"),
        ("PURA LANA", "100% wool"),
        ("Ren ull", "100% wool"),
        ("Zuiver scheerwol - Pure laine vierge - Pure new wool", "100% wool"),
        ("Qualität: reine Schafschurwolle", "100% wool"),
    ],
)
def test_a_pure_fibre_is_sure_on_a_tag_with_other_numbers(text: str, composition: str) -> None:
    assert told(text, "Partie 7", "50 g") == (composition, State.SURE)


def test_a_pure_fibre_in_a_sentence_is_asked_about() -> None:
    assert fibre("knit in pure wool from our farm", "Lot 5").state is State.DOUBTFUL


@pytest.mark.parametrize("text", ["Råstoff: 100 % ull", "Rohstoff: 100 % Wolle"])
def test_a_raw_material_is_no_price_that_is_off(text: str) -> None:
    assert told(text) == ("100% wool", State.SURE)


@pytest.mark.parametrize("text", ["30% off", "Rabatt 20 %", "Mengenrabatt 20 %"])
def test_what_is_off_the_price_is_no_share(text: str) -> None:
    assert told(text, "80 % Wolle, 20 % Seide") == ("80% wool; 20% silk", State.SURE)


def test_a_treatment_between_a_fibre_and_its_share_is_known() -> None:
    found = told("Merinoull, superwash-behandlet 100%")
    assert found == ("100% wool (merino superwash)", State.SURE)


def test_a_kind_that_heads_the_composition_is_asked_about() -> None:
    (found, *_) = find_fibre(lines_from("Återvunnet material: 90% bomull, 10% elastan"))
    assert found.doubt == "'Återvunnet' before the composition may belong to all of it"


@pytest.mark.parametrize(
    ("text", "composition"),
    [
        ("100% Schafschurwolle", "100% wool"),
        ("100% svensk finull", "100% wool"),
        ("100% Texelse wol", "100% wool"),
        ("Algodón nativo orgánico 100%", "100% cotton (organic)"),
        ("Lana merina trashumante 100%", "100% wool (merino)"),
        ("100% mérinos filé en Italie", "100% wool (merino)"),
        ("90% gjenvunnet bomull 10% elastan", "90% cotton (recycled); 10% elastane"),
    ],
)
def test_where_a_fibre_grew_and_how_it_was_spun_changes_nothing(
    text: str, composition: str
) -> None:
    assert told(text) == (composition, State.SURE)


@pytest.mark.parametrize(
    "text",
    [
        *("100 per cent wool", "100 pct. uld", "100 Prozent Schurwolle", "100 pour cent laine"),
        *("100 procent ull", "100 prosent ull", "100 por ciento lana", "100 per cento lana"),
    ],
)
def test_per_cent_may_be_spelled_out(text: str) -> None:
    assert told(text) == ("100% wool", State.SURE)


@pytest.mark.parametrize(
    ("text", "composition"),
    [
        ("100% Milchschafwolle", "100% wool"),
        ("100% egyptisk bomull", "100% cotton (egyptian)"),
        ("Coton perlé 100%", "100% cotton"),
    ],
)
def test_breeds_and_finishes_are_known(text: str, composition: str) -> None:
    assert told(text) == (composition, State.SURE)
