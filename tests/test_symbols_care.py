"""Care in words and in symbols: they corroborate each other, and a contradiction is asked."""

from __future__ import annotations

import pytest

from intake.fields.care.phrases import PROCESSES
from intake.fields.care.subjects import MILDEST_FIRST
from intake.fields.care.symbols import with_symbols
from intake.records import Field, Quad, State, Symbol

PLACE: Quad = ((0, 0), (10, 0), (10, 10), (0, 10))
ROW = ("machine wash 30 mild", "do not bleach", "dry flat", "iron low")


def words(*processes: str, state: State = State.SURE, reason: str = "") -> Field:
    return Field("care", processes or None, 0.99 if processes else 0.0, state, reason=reason)


def symbol(*processes: str, sure: bool = True) -> Symbol:
    sure = sure and bool(processes)
    confidence, state = (0.999, State.SURE) if sure else (0.7, State.DOUBTFUL)
    return Symbol(processes, confidence, state, PLACE)


def symbols(*processes: str) -> list[Symbol]:
    return [symbol(process) for process in processes]


NO_WORDS = Field("care")


def test_without_symbols_care_from_words_stays_as_it_is() -> None:
    care = words("hand wash", "dry flat")
    assert with_symbols(care, []) is care


def test_every_process_is_of_one_subject() -> None:
    listed = [process for processes in MILDEST_FIRST.values() for process in processes]
    assert sorted(listed) == sorted(PROCESSES)


def test_a_whole_sure_row_is_filed_without_words() -> None:
    care = with_symbols(NO_WORDS, symbols(*ROW))
    assert care.value == ROW
    assert care.state is State.SURE
    assert care.note


@pytest.mark.parametrize("unread", [symbol(), symbol("iron low", sure=False)])
def test_a_row_with_one_symbol_in_doubt_is_asked(unread: Symbol) -> None:
    care = with_symbols(NO_WORDS, [*symbols(*ROW[:3]), unread])
    assert care.state is State.DOUBTFUL
    assert care.reason


def test_a_row_that_does_not_tell_how_to_wash_is_asked() -> None:
    care = with_symbols(NO_WORDS, symbols(*ROW[1:]))
    assert care.state is State.DOUBTFUL


def test_two_sure_symbols_are_filed_without_words_and_one_is_too_few_to_be_all() -> None:
    care = with_symbols(NO_WORDS, symbols(*ROW[:2]))
    assert care.state is State.SURE
    assert care.value == ROW[:2]
    care = with_symbols(NO_WORDS, symbols(*ROW[:1]))
    assert care.state is State.DOUBTFUL
    assert care.value == ROW[:1]


def test_a_crossed_iron_without_a_triangle_is_asked() -> None:
    care = with_symbols(NO_WORDS, symbols("hand wash", "do not iron", "dry flat"))
    assert care.state is State.DOUBTFUL


@pytest.mark.parametrize("drying", ["do not tumble dry", "dry flat", "dry in shade"])
def test_a_crossed_iron_behind_a_symbol_of_drying_is_no_triangle(drying: str) -> None:
    care = with_symbols(NO_WORDS, symbols("hand wash", drying, "do not iron", "dry clean"))
    assert care.state is State.SURE
    assert care.value == ("hand wash", drying, "do not iron", "dry clean")


def test_a_symbol_that_stands_twice_is_asked() -> None:
    care = with_symbols(NO_WORDS, symbols(*ROW, ROW[1]))
    assert care.state is State.DOUBTFUL


def test_symbols_add_what_the_words_leave_out() -> None:
    care = with_symbols(words("hand wash"), symbols("hand wash", "do not bleach"))
    assert care.value == ("hand wash", "do not bleach")
    assert care.state is State.SURE


@pytest.mark.parametrize(
    ("said", "drawn", "milder"),
    [
        ("machine wash 40", "machine wash 30 mild", "machine wash 30 mild"),
        ("hand wash", "machine wash 30", "hand wash"),
        ("iron medium", "do not iron", "do not iron"),
        ("tumble dry", "tumble dry low", "tumble dry low"),
        ("line dry", "dry flat", "dry flat"),
    ],
)
def test_a_contradiction_is_asked_and_shows_the_milder(said: str, drawn: str, milder: str) -> None:
    care = with_symbols(words(said, "do not dry clean"), symbols(drawn, "do not dry clean"))
    assert care.state is State.DOUBTFUL
    assert said in care.reason
    assert drawn in care.reason
    assert care.value is not None
    assert milder in care.value  # type: ignore[operator]
    assert (drawn if milder == said else said) not in care.value  # type: ignore[operator]


def test_two_ways_to_wash_in_words_stand_beside_a_symbol_for_one_of_them() -> None:
    care = with_symbols(words("hand wash", "machine wash 30 mild"), symbols("hand wash"))
    assert care.value == ("hand wash", "machine wash 30 mild")
    assert care.state is State.SURE


def test_words_in_doubt_are_settled_by_a_whole_row_that_says_the_same() -> None:
    doubtful = words(*ROW[:2], state=State.DOUBTFUL, reason="the care was read unclearly")
    assert with_symbols(doubtful, symbols(*ROW)).state is State.SURE


def test_words_in_doubt_stay_so_beside_symbols_that_do_not_say_it_all() -> None:
    doubtful = words(*ROW[:2], state=State.DOUBTFUL, reason="the care was read unclearly")
    care = with_symbols(doubtful, symbols(ROW[1]))
    assert care.state is State.DOUBTFUL
    assert care.reason == "the care was read unclearly"


def test_a_symbol_that_was_not_read_may_be_the_one_that_the_words_tell_of() -> None:
    care = with_symbols(words(*ROW), [*symbols(*ROW[:3]), symbol()])
    assert care.state is State.SURE


def test_a_symbol_that_was_not_read_and_that_no_words_tell_of_is_asked() -> None:
    care = with_symbols(words(*ROW[:3]), [*symbols(*ROW[:3]), symbol()])
    assert care.state is State.DOUBTFUL


def test_a_symbol_that_was_not_read_is_asked_where_nothing_tells_how_to_wash() -> None:
    assert ROW[0].startswith("machine wash")
    care = with_symbols(words("dry in shade"), [symbol(), *symbols(*ROW[1:])])
    assert (care.state, care.reason) == (
        State.DOUBTFUL,
        f"1 of {len(ROW)} care symbols could not be read",
    )


def test_symbols_that_say_nothing_leave_a_reason() -> None:
    care = with_symbols(NO_WORDS, [symbol(), symbol()])
    assert care.value is None
    assert care.reason


def unclear(*processes: str, confidence: float) -> Symbol:
    return Symbol(processes, confidence, State.DOUBTFUL, PLACE)


def test_a_symbol_that_was_read_unclearly_puts_no_other_in_doubt_where_words_tell_it() -> None:
    row = [symbol("hand wash"), symbol("do not bleach"), unclear("iron low", confidence=0.95)]
    care = with_symbols(words("hand wash", "iron low"), row)
    assert care.value == ("hand wash", "do not bleach", "iron low")
    assert care.state is State.SURE


def test_an_unclear_symbol_that_no_words_tell_of_is_named_in_the_question() -> None:
    row = [symbol("hand wash"), symbol("do not bleach"), unclear("iron low", confidence=0.95)]
    care = with_symbols(words("hand wash"), row)
    assert care.state is State.DOUBTFUL
    assert "'iron low'" in care.reason
    assert "do not bleach" not in care.reason


def test_sure_words_settle_a_symbol_of_their_subject_that_could_be_either() -> None:
    row = [unclear("machine wash 40", confidence=0.6), symbol("do not bleach")]
    care = with_symbols(words("machine wash 30"), row)
    assert care.value == ("machine wash 30", "do not bleach")
    assert care.state is State.SURE


def test_words_in_doubt_settle_no_symbol() -> None:
    row = [unclear("machine wash 40", confidence=0.6), symbol("do not bleach")]
    care = with_symbols(words("machine wash 30", state=State.DOUBTFUL, reason="unclear"), row)
    assert care.state is State.DOUBTFUL


def test_a_symbol_that_is_likely_though_not_sure_contradicts_words() -> None:
    row = [unclear("machine wash 40", confidence=0.95), symbol("do not bleach")]
    assert with_symbols(words("machine wash 30"), row).state is State.DOUBTFUL
