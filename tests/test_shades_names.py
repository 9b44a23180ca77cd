"""A heading is told to be the maker or the range by names known in full, and never by
names that are merely near."""

from __future__ import annotations

from dataclasses import replace

import pytest
from filing_tags import tag

from intake.records import Field, State, TagReading
from intake.shades.names import KnownNames, Names, with_known_names
from intake.shades.slips import Slips, with_meant_shade

SEEN_ALIKE = {"unanimous": 1.0, "witnessed": 1.0}


@pytest.fixture
def known() -> KnownNames:
    names = KnownNames()
    names.add("Quillstow Spinners", "Sluicegate")
    names.add("Quillstow Spinners", "Osier")
    names.add("Féroë Maskinspinderi", "Tidevand")
    return names


def heading(name: str, value: str | None, reason: str = "not certain", **cues: float) -> Field:
    if value is None:
        return Field(name)
    state = State.DOUBTFUL if reason else State.SURE
    return Field(name, value, 0.8, state, reason=reason, cues={**SEEN_ALIKE, **cues})


def headed(maker: Field, range_: Field) -> TagReading:
    return tag("a.jpg", 1, maker, range_)


def seen(reading: TagReading) -> tuple[tuple[object, State], tuple[object, State]]:
    maker, range_ = reading.fields["maker"], reading.fields["range"]
    return (maker.value, maker.state), (range_.value, range_.state)


def test_maker_and_range_that_are_known_together_are_sure(known: KnownNames) -> None:
    reading = headed(
        heading("maker", "QUILLSTOW SPINNERS", "the maker may be 'QUILLSTOW SPINNERS' or 'OSIER'"),
        heading("range", "OSIER", "the range 'OSIER' is not certain"),
    )
    after = with_known_names(reading, known)
    assert seen(after) == (("Quillstow Spinners", State.SURE), ("Osier", State.SURE))
    assert after.fields["maker"].printed == "QUILLSTOW SPINNERS"
    assert "known" in after.fields["maker"].note
    assert after.fields["maker"].confidence > reading.fields["maker"].confidence


def test_a_maker_and_a_range_that_were_taken_for_one_another_change_places(
    known: KnownNames,
) -> None:
    after = with_known_names(
        headed(
            heading("maker", "Osier", "the maker may be 'Osier' or 'Quillstow Spinners'"),
            heading("range", "Quillstow Spinners", ""),
        ),
        known,
    )
    assert seen(after) == (("Quillstow Spinners", State.SURE), ("Osier", State.SURE))
    assert {name: after.fields[name].name for name in ("maker", "range")} == {
        "maker": "maker",
        "range": "range",
    }


def test_accents_are_given_back_to_a_name_that_is_known_with_them(known: KnownNames) -> None:
    after = with_known_names(
        headed(heading("maker", "FEROE MASKINSPINDERI"), heading("range", "TIDEVAND")), known
    )
    assert seen(after)[0] == ("Féroë Maskinspinderi", State.SURE)


@pytest.mark.parametrize("range_", [None, "Weirwater"])
def test_a_known_maker_is_sure_with_no_range_or_a_new_one(
    known: KnownNames, range_: str | None
) -> None:
    before = headed(heading("maker", "Quillstow Spinners"), heading("range", range_))
    after = with_known_names(before, known)
    assert after.fields["maker"].state is State.SURE
    assert after.fields["range"] == before.fields["range"]


@pytest.mark.parametrize(
    ("maker", "range_", "why"),
    [
        ("Quillstow Spinner", "Osier", "a letter is missing"),
        ("Qui11stow Spinners", "Osier", "letters are taken for others"),
        ("Féroë Maskinspinderi", "Osier", "the range is another maker's"),
        ("Weirholt Mill", "Osier", "the range is another maker's and this one is new"),
        ("Osier", "Weirwater", "a range is read as the maker"),
        ("Quillstow Spinners", "Féroë Maskinspinderi", "both are makers"),
        ("Osier", "Sluicegate", "both are ranges"),
        ("Weirholt Mill", "Weirwater", "neither is known"),
    ],
)
def test_names_that_do_not_go_with_what_is_known_stay_as_doubtful_as_they_were(
    known: KnownNames, maker: str, range_: str, why: str
) -> None:
    reading = headed(heading("maker", maker), heading("range", range_))
    assert with_known_names(reading, known) == reading, why


@pytest.mark.parametrize("cue", ["unanimous", "witnessed"])
def test_letters_that_the_readers_saw_otherwise_are_no_known_name(
    known: KnownNames, cue: str
) -> None:
    for spoilt in ("maker", "range"):
        fields = {
            "maker": heading("maker", "Quillstow Spinners"),
            "range": heading("range", "Osier"),
        }
        fields[spoilt] = replace(fields[spoilt], cues={**SEEN_ALIKE, cue: 0.0})
        reading = headed(fields["maker"], fields["range"])
        assert with_known_names(reading, known) == reading


def test_a_third_heading_in_the_reason_is_still_asked_about(known: KnownNames) -> None:
    reading = headed(
        heading("maker", "Quillstow Spinners", "'Dyeworks' beside 'Quillstow Spinners' may belong"),
        heading("range", "Osier", ""),
    )
    assert with_known_names(reading, known) == reading


def test_the_beginning_of_a_longer_known_name_is_still_asked_about(known: KnownNames) -> None:
    known.add("Quillstow Spinners Dyeworks", "Alder")
    reading = headed(heading("maker", "Quillstow Spinners"), heading("range", None))
    assert with_known_names(reading, known) == reading


def test_names_known_both_ways_round_are_still_asked_about(known: KnownNames) -> None:
    known.add("Osier", "Quillstow Spinners")
    reading = headed(heading("maker", "Quillstow Spinners"), heading("range", "Osier"))
    assert with_known_names(reading, known) == reading


def test_accents_that_the_second_reader_lost_are_no_difference(known: KnownNames) -> None:
    maker = heading("maker", "FÉROË MASKINSPINDERI", unanimous=0.0)
    reading = headed(replace(maker, others=("Feroe Maskinspinderi",)), heading("range", "Tidevand"))
    assert seen(with_known_names(reading, known))[0] == ("Féroë Maskinspinderi", State.SURE)


def test_an_apostrophe_in_a_name_is_no_other_heading(known: KnownNames) -> None:
    known.add("Laines d'Aubrelle", "L'Étang")
    reason = "the maker may be 'Laines d'Aubrelle' or 'L'Étang'"
    reading = headed(heading("maker", "Laines d'Aubrelle", reason), heading("range", "L'Étang"))
    assert seen(with_known_names(reading, known))[0] == ("Laines d'Aubrelle", State.SURE)
    third = replace(reading.fields["maker"], reason=f"{reason[:-1]} or 'Orme'")
    reading = headed(third, heading("range", "L'Étang"))
    assert with_known_names(reading, known) == reading


@pytest.mark.parametrize(
    ("maker", "range_", "asked"),
    [("Osier", None, "maker"), ("Weirholt Mill", "Quillstow Spinners", "range")],
)
def test_a_sure_name_that_was_more_often_the_other_kind_is_asked_about(
    known: KnownNames, maker: str, range_: str | None, asked: str
) -> None:
    after = with_known_names(
        headed(heading("maker", maker, ""), heading("range", range_, "")), known
    )
    doubtful = [name for name in ("maker", "range") if after.fields[name].state is State.DOUBTFUL]
    assert doubtful == [asked]
    known.add("Osier", "Teasel")
    for _ in range(2):
        known.add("Weirholt Mill", "Quillstow Spinners")
    both = headed(heading("maker", maker, ""), heading("range", range_, ""))
    assert with_known_names(both, known) == both


def test_sure_names_are_let_be_unless_they_are_known_the_other_way_round(
    known: KnownNames,
) -> None:
    new = headed(heading("maker", "Weirholt Mill", ""), heading("range", "Osier", ""))
    assert with_known_names(new, known) == new
    crossed = headed(heading("maker", "Osier", ""), heading("range", "Quillstow Spinners", ""))
    after = with_known_names(crossed, known)
    assert seen(after) == (("Osier", State.DOUBTFUL), ("Quillstow Spinners", State.DOUBTFUL))
    assert after.fields["maker"].others[0] == "Quillstow Spinners"
    assert "Osier" in after.fields["maker"].reason


@pytest.mark.parametrize("unanimous", [0.0, 1.0])
def test_a_reading_that_was_answered_before_is_known_whatever_the_readers_agree_on(
    known: KnownNames, unanimous: float
) -> None:
    known.slips.add("maker", "", "Quillst0w Spinners", "Quillstow Spinners")
    maker = heading("maker", "Quillst0w Spinners", unanimous=unanimous)
    after = with_known_names(headed(maker, heading("range", "Osier")), known)
    assert seen(after)[0] == ("Quillstow Spinners", State.SURE)
    assert "Quillst0w Spinners" in after.fields["maker"].note


def test_a_known_name_is_never_taken_for_a_misread_one(known: KnownNames) -> None:
    known.add("Quillstaw Spinners", "Alder")
    known.slips.add("maker", "", "Quillstaw Spinners", "Quillstow Spinners")
    reading = headed(
        heading("maker", "Quillstaw Spinners", unanimous=0.0), heading("range", "Osier")
    )
    assert with_known_names(reading, known) == reading


def test_lots_codes_and_shades_are_not_touched_by_names(known: KnownNames) -> None:
    known.add("Kelp", "0012")
    known.slips.add("lot", "", "0012", "0O12")
    known.slips.add("shade_code", "", "041", "O41")
    reading = headed(heading("maker", "Quillstow Spinners"), heading("range", "Osier"))
    after = with_meant_shade(with_known_names(reading, known), known.slips)
    for name in ("lot", "shade_code", "shade"):
        assert after.fields[name] == reading.fields[name]


def test_a_maker_without_a_name_teaches_nothing() -> None:
    known = KnownNames()
    known.add("", "Osier")
    known.add(" - ", "Osier")
    assert not known.is_known("Osier")
    assert not known.is_known("")
    assert known.pair("", "Osier") is None


def test_the_first_spelling_stays_the_known_one(known: KnownNames) -> None:
    known.add("QUILLSTOW SPINNERS", "OSIER")
    assert known.pair("quillstow-spinners", "osier") == Names("Quillstow Spinners", "Osier")


# Shades that were read so and answered otherwise


@pytest.fixture
def slips() -> Slips:
    slips = Slips()
    slips.add("shade", "Quillstow Spinners", "Ke1p", "Kelp")
    slips.add("shade", "Quillstow Spinners", "Cool", "Coal")
    return slips


def shaded(value: str, state: State = State.SURE) -> TagReading:
    return tag("a.jpg", 1, Field("shade", value, 0.98, state, others=("Kemp",)))


@pytest.mark.parametrize("state", [State.SURE, State.DOUBTFUL])
def test_a_shade_that_is_no_word_is_put_right_and_stays_as_sure_as_it_was(
    slips: Slips, state: State
) -> None:
    field = with_meant_shade(shaded("KE1P", state), slips).fields["shade"]
    assert (field.value, field.printed, field.state) == ("Kelp", "KE1P", state)
    assert "KE1P" in field.note


def test_a_shade_that_may_be_one_of_its_own_is_only_offered_the_other(slips: Slips) -> None:
    field = with_meant_shade(shaded("Cool"), slips).fields["shade"]
    assert (field.value, field.state, field.others) == ("Cool", State.SURE, ("Coal", "Kemp"))


def test_a_slip_with_another_maker_or_with_two_meanings_says_nothing(slips: Slips) -> None:
    other = replace(
        shaded("Ke1p"), fields={**shaded("Ke1p").fields, "maker": Field("maker", "Weirholt Mill")}
    )
    assert with_meant_shade(other, slips) == other
    slips.add("shade", "Quillstow Spinners", "Ke1p", "Kemp")
    assert with_meant_shade(shaded("Ke1p"), slips) == shaded("Ke1p")


@pytest.mark.parametrize("read", ["Den Trotte Alken", "DEN TROTTE ALKEN"])
def test_a_known_name_with_another_letter_is_asked_about(read: str) -> None:
    known = KnownNames([Names("Den Trøtte Alken", "Tidevand")])
    after = with_known_names(headed(heading("maker", read), heading("range", "Tidevand")), known)
    maker = after.fields["maker"]
    assert (maker.value, maker.state) == (read, State.DOUBTFUL)
    assert "Den Trøtte Alken" in maker.others
