"""A shade as read against the known ones: filed, put right, or asked about."""

from __future__ import annotations

from dataclasses import replace

import pytest
from line_making import line_from

from intake.records import Field, Line, Span, State
from intake.shades.known import KnownShade, KnownShades
from intake.shades.match import match_shade

MAKER, RANGE = "Quillfen", "Brook 4"


@pytest.fixture
def known() -> KnownShades:
    return KnownShades(
        [
            KnownShade(MAKER, RANGE, "Dusk", "0411"),
            KnownShade(MAKER, RANGE, "Dust", "0412"),
            KnownShade(MAKER, RANGE, "Nebel", "0413"),
            KnownShade(MAKER, RANGE, "Mirabelle"),
            KnownShade(MAKER, RANGE, "Fog 17"),
            KnownShade(MAKER, "Fell 8", "Otter", "0411"),
            KnownShade("Otterholt", "Holm", "Heron", "0413"),
        ]
    )


def sure(text: str) -> Field:
    return Field("shade", text, 0.97, State.SURE, line=text)


def doubtful(text: str, confidence: float = 0.6, others: tuple[str, ...] = ()) -> Field:
    return Field(
        "shade",
        text,
        confidence,
        State.DOUBTFUL,
        line=text,
        others=others,
        reason="the readers do not agree on it",
    )


def read_twice(first: str, second: str) -> tuple[Field, list[Line]]:
    """A shade after a caption in a line, doubtful where the two readings differ."""
    line = line_from(f"Shade {first}", second=f"Shade {second}")
    field = sure(first) if first == second else doubtful(first, 0.99)
    return replace(field, spans=(Span(0, 6, 6 + len(first)),)), [line]


def scored(line: Line, at: int, confidence: float) -> Line:
    """``line`` with the first reader less sure of letter ``at``."""
    letters = list(line.letters)
    letters[at] = replace(letters[at], confidence=confidence)
    return replace(line, letters=tuple(letters))


@pytest.mark.parametrize("text", ["DUSK", "dusk", "D usk", "Düsk"])
def test_known_shade_takes_its_known_spelling(known: KnownShades, text: str) -> None:
    field = match_shade(sure(text), "QUILLFEN", "brook 4", None, known)
    assert (field.value, field.printed, field.state) == ("Dusk", text, State.SURE)
    assert 0.97 < field.confidence < 1
    assert field.reason == ""


def test_known_shade_as_it_is_known_stays_as_printed(known: KnownShades) -> None:
    field = match_shade(sure("Dusk"), MAKER, RANGE, "0411", known)
    assert (field.value, field.printed, field.note) == ("Dusk", "", "")


def test_letter_the_readers_differ_on_is_put_right(known: KnownShades) -> None:
    field, lines = read_twice("Nabel", "Nebel")
    matched = match_shade(field, MAKER, RANGE, None, known, lines)
    assert (matched.value, matched.printed, matched.state) == ("Nebel", "Nabel", State.SURE)
    assert matched.note == "'Nabel' taken as the known shade Nebel"


def test_look_alike_of_low_score_is_put_right(known: KnownShades) -> None:
    field, (line,) = read_twice("Nebe1", "Nebe1")
    lines = [scored(line, 10, 0.5)]
    matched = match_shade(field, MAKER, RANGE, None, known, lines)
    assert (matched.value, matched.state) == ("Nebel", State.SURE)


def test_letter_both_readers_saw_alike_is_no_misreading(known: KnownShades) -> None:
    field, lines = read_twice("Nebez", "Nebez")
    matched = match_shade(field, MAKER, RANGE, None, known, lines)
    assert (matched.value, matched.state) == ("Nebez", State.DOUBTFUL)
    assert matched.others == ("Nebel",)
    assert matched.reason == "reads 'Nebez': new, or a misreading of Nebel"


def test_weak_letter_elsewhere_does_not_excuse_a_clear_one(known: KnownShades) -> None:
    field, lines = read_twice("Nxbel", "Nxbet")
    matched = match_shade(field, MAKER, RANGE, None, known, lines)
    assert (matched.value, matched.state) == ("Nxbel", State.DOUBTFUL)


def test_other_letter_without_a_second_witness_is_asked_about(known: KnownShades) -> None:
    field, lines = read_twice("Nehel", "Nekel")
    matched = match_shade(field, MAKER, RANGE, None, known, lines)
    assert (matched.value, matched.state) == ("Nehel", State.DOUBTFUL)
    assert matched.reason == "reads 'Ne?el': perhaps Nebel"


def test_clear_letter_that_the_second_reader_overlooked_is_asked_about(
    known: KnownShades,
) -> None:
    field, (line,) = read_twice("Nebelt", "Nebel ")
    overlooked = replace(line, others=(*line.others[:-1], ""))
    matched = match_shade(field, MAKER, RANGE, None, known, [overlooked])
    assert (matched.value, matched.state) == ("Nebelt", State.DOUBTFUL)


def test_look_alike_that_the_second_reader_saw_as_a_third_letter_is_asked_about(
    known: KnownShades,
) -> None:
    field, (line,) = read_twice("Nebe1", "Nebet")
    lines = [scored(line, 10, 0.5)]
    matched = match_shade(field, MAKER, RANGE, None, known, lines)
    assert (matched.value, matched.state) == ("Nebe1", State.DOUBTFUL)


def with_run(line: Line, seen: str) -> Line:
    """``line`` as merged where the second reader saw ``seen`` for letters 2 to 4 of the
    shade: the line tells the whole run at its start."""
    agreed = (True,) * 7 + (False,) * 3 + (True,)
    return replace(line, agreed=agreed, others=("",) * 7 + (seen, "", "", ""))


def test_run_of_other_letters_is_weighed_letter_by_letter(known: KnownShades) -> None:
    known.add(KnownShade(MAKER, RANGE, "Nebal"))
    field, (line,) = read_twice("Nabal", "Nebol")
    matched = match_shade(field, MAKER, RANGE, None, known, [with_run(line, "ebo")])
    assert (matched.value, matched.state) == ("Nebal", State.SURE)


def test_known_shade_that_only_the_second_reader_saw_is_a_rival(known: KnownShades) -> None:
    known.add(KnownShade(MAKER, RANGE, "Nebal"))
    field, (line,) = read_twice("Nabal", "Nebel")
    matched = match_shade(field, MAKER, RANGE, None, known, [with_run(line, "ebe")])
    assert (matched.value, matched.state) == ("Nabal", State.DOUBTFUL)
    assert matched.others == ("Nebal", "Nebel")


def test_single_reader_does_not_put_its_own_clear_letters_right(known: KnownShades) -> None:
    field, (line,) = read_twice("Nobol", "Nobol")
    alone = replace(line, agreed=(False,) * len(line.letters))
    matched = match_shade(replace(field, state=State.DOUBTFUL), MAKER, RANGE, None, known, [alone])
    assert matched.state is State.DOUBTFUL


def test_reading_between_two_shades_is_asked_about(known: KnownShades) -> None:
    matched = match_shade(doubtful("Dus?"), MAKER, RANGE, None, known)
    assert (matched.value, matched.state) == ("Dus?", State.DOUBTFUL)
    assert matched.others == ("Dusk", "Dust")
    assert matched.reason == "reads 'Dus?': near both Dusk and Dust"


def test_known_shade_with_a_weak_letter_and_a_rival_is_asked_about(known: KnownShades) -> None:
    field, lines = read_twice("Dusk", "Dust")
    matched = match_shade(field, MAKER, RANGE, None, known, lines)
    assert (matched.value, matched.state) == ("Dusk", State.DOUBTFUL)
    assert matched.others == ("Dust",)
    assert matched.reason == "reads 'Dus?': near both Dusk and Dust"


def test_known_shade_named_by_another_reading_is_asked_about(known: KnownShades) -> None:
    matched = match_shade(doubtful("Dosk", others=("Dusk", "Dust")), MAKER, RANGE, None, known)
    assert matched.state is State.DOUBTFUL
    assert matched.others == ("Dusk", "Dust")


def test_code_decides_between_two_near_shades(known: KnownShades) -> None:
    matched = match_shade(doubtful("Dus?"), MAKER, RANGE, "0412", known)
    assert (matched.value, matched.state) == ("Dust", State.SURE)


def test_code_does_not_overrule_a_shade_read_as_it_is_known(known: KnownShades) -> None:
    for field, lines in (read_twice("Dusk", "Dust"), read_twice("Dusk", "Dusk")):
        matched = match_shade(field, MAKER, RANGE, "0412", known, lines)
        assert (matched.value, matched.state) == ("Dusk", State.DOUBTFUL)


def test_code_of_another_shade_is_told(known: KnownShades) -> None:
    matched = match_shade(sure("Dusk"), MAKER, RANGE, "0413", known)
    assert matched.state is State.DOUBTFUL
    assert matched.reason == "code 0413 is Nebel in the stash, this tag reads Dusk"


def test_known_shade_with_an_unknown_code_is_asked_about(known: KnownShades) -> None:
    matched = match_shade(sure("Dusk"), MAKER, RANGE, "411", known)
    assert matched.state is State.DOUBTFUL
    assert matched.reason == "Dusk has code 0411 in the stash, this tag reads 411"


def test_new_shade_with_the_code_of_a_known_one_is_asked_about(known: KnownShades) -> None:
    matched = match_shade(sure("Moor"), MAKER, RANGE, "0413", known)
    assert (matched.value, matched.state) == ("Moor", State.DOUBTFUL)
    assert matched.others == ("Nebel",)


def test_disagreeing_code_frees_a_new_shade_next_to_a_known_one(known: KnownShades) -> None:
    assert match_shade(sure("Nebet"), MAKER, RANGE, "0499", known) == sure("Nebet")


def test_disagreeing_code_keeps_a_weak_reading_from_being_put_right(known: KnownShades) -> None:
    field, lines = read_twice("Nabel", "Nebel")
    matched = match_shade(field, MAKER, RANGE, "0499", known, lines)
    assert (matched.value, matched.state) == ("Nabel", State.DOUBTFUL)
    assert matched.reason == "Nebel has code 0413 in the stash, this tag reads 0499"


def test_codes_of_other_ranges_and_makers_say_nothing(known: KnownShades) -> None:
    for code in ("0411", "0413"):
        assert match_shade(sure("Moor"), MAKER, "Tarn 2", code, known) == sure("Moor")
        assert match_shade(sure("Moor"), None, None, code, known) == sure("Moor")


def test_new_shade_both_readers_saw_alike_stays_sure(known: KnownShades) -> None:
    assert match_shade(sure("Lichen"), MAKER, RANGE, "0077", known) == sure("Lichen")


def test_new_shade_the_readers_differ_on_stays_doubtful(known: KnownShades) -> None:
    assert match_shade(doubtful("Lichen"), MAKER, RANGE, None, known) == doubtful("Lichen")


def test_shade_of_the_makers_other_range_is_found(known: KnownShades) -> None:
    matched = match_shade(sure("OTTER"), MAKER, RANGE, None, known)
    assert (matched.value, matched.state) == ("Otter", State.SURE)


def test_other_makers_shades_are_only_offered(known: KnownShades) -> None:
    assert match_shade(sure("Heran"), MAKER, RANGE, None, known) == sure("Heran")
    matched = match_shade(doubtful("Heran"), MAKER, RANGE, None, known)
    assert (matched.value, matched.state, matched.others) == (
        "Heran",
        State.DOUBTFUL,
        ("Heron",),
    )


def test_number_of_a_shade_is_never_put_right_by_its_letters(known: KnownShades) -> None:
    field, lines = read_twice("Fog 12", "Fog 17")
    matched = match_shade(field, MAKER, RANGE, None, known, lines)
    assert (matched.value, matched.state) == ("Fog 12", State.DOUBTFUL)


@pytest.mark.parametrize(
    ("first", "second"), [("Mirabele", "Mirabelle"), ("Mirabellle", "Mirabelle")]
)
def test_lost_or_doubled_letter_is_put_right(known: KnownShades, first: str, second: str) -> None:
    matched = match_shade(doubtful(first, others=(second,)), MAKER, RANGE, None, known)
    assert (matched.value, matched.printed) == ("Mirabelle", first)
    assert matched.state is State.SURE


def test_another_text_that_may_be_the_shade_keeps_the_doubt(known: KnownShades) -> None:
    field, lines = read_twice("Nabel", "Nebel")
    why = "the shade may be 'Nabel' or 'Handmade'"
    rivalled = replace(field, others=("Handmade", "Nebel"), reason=why)
    matched = match_shade(rivalled, MAKER, RANGE, None, known, lines)
    assert (matched.value, matched.state) == ("Nebel", State.DOUBTFUL)
    assert matched.others == ("Handmade",)
    assert matched.reason == why


def test_doubtful_field_with_clear_letters_stays_doubtful(known: KnownShades) -> None:
    clear = replace(doubtful("NEBEL", 0.99), reason="stands where the range should")
    matched = match_shade(clear, MAKER, RANGE, None, known)
    assert (matched.value, matched.state) == ("Nebel", State.DOUBTFUL)
    assert matched.reason == "stands where the range should"


def test_missing_shade_stays_missing_and_the_codes_shade_is_offered(known: KnownShades) -> None:
    field = match_shade(Field("shade"), MAKER, RANGE, "0413", known)
    assert (field.value, field.state, field.others) == (None, State.MISSING, ("Nebel",))
    assert field.reason == "no shade was read; code 0413 is Nebel in the stash"


def test_code_of_two_shades_offers_none(known: KnownShades) -> None:
    known.add(KnownShade(MAKER, RANGE, "Moss", "0413"))
    assert match_shade(Field("shade"), MAKER, RANGE, "0413", known) == Field("shade")


def test_accent_that_parts_two_known_shades_counts(known: KnownShades) -> None:
    known.add(KnownShade(MAKER, RANGE, "Rose"))
    known.add(KnownShade(MAKER, RANGE, "Rosé"))
    assert match_shade(sure("ROSÉ"), MAKER, RANGE, None, known).value == "Rosé"
    known.add(KnownShade(MAKER, RANGE, "Rösé"))
    assert match_shade(sure("Rosè"), MAKER, RANGE, None, known).state is State.DOUBTFUL


def test_nothing_known_changes_nothing() -> None:
    assert match_shade(sure("Dusk"), MAKER, RANGE, "0411", KnownShades()) == sure("Dusk")
