"""The terminal review, driven by typed lines, in a stream and in a real terminal."""

from __future__ import annotations

import io
import os
import pty
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from filing_tags import doubtful, tag, waiting_tag
from rich.console import Console

from intake.filing.answers import BadAnswer
from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.judge import Doubt
from intake.filing.record import Record
from intake.filing.same import REPEAT, REPEAT_ANSWERS
from intake.records import Field
from intake.terminal_review import BadChoice, Command, Summary, review, understand

LOT = Doubt("lot", "the two readers differ", ("0O12", "0012"))


@pytest.fixture
def cabinet(tmp_path: Path) -> Cabinet:
    return open_cabinet(tmp_path / "stash.csv")


def answer(cabinet: Cabinet, *typed: str) -> tuple[Summary, str]:
    """The review with these lines typed, and what it printed."""
    shown = io.StringIO()
    lines = io.StringIO("".join(f"{line}\n" for line in typed))
    return review(cabinet, Console(file=shown, width=60), lines), shown.getvalue()


def filed(cabinet: Cabinet) -> list[Record]:
    return cabinet.stash.records()


def lots(cabinet: Cabinet) -> list[str]:
    return [record.lot for record in filed(cabinet)]


def three_shades(cabinet: Cabinet) -> None:
    """Three waiting tags that have nothing to do with each other."""
    for number, shade in enumerate(("Kelp", "Moss", "Ember"), 1):
        cabinet.take(waiting_tag("cellar.jpg", number, shade=shade, shade_code=None))


# What was typed


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("", None),
        ("1", None),
        ("2", "0012"),
        ("=2", "2"),
        ("3", "3"),
        ("0O12", None),
        ("0013", "0013"),
        ("-", ""),
        ("=-", "-"),
        ("b", Command.BACK),
        ("=b", "b"),
        ("==b", "=b"),
        ("B", "B"),
        ("?", Command.HELP),
    ],
)
def test_typed_text_is_understood(typed: str, meant: str | Command | None) -> None:
    assert understand(typed, LOT, "0O12") == meant


def test_a_number_that_is_an_answer_and_a_value_is_asked_again() -> None:
    doubt = Doubt("shade_code", "two candidates", ("2", "3"))
    with pytest.raises(BadChoice, match="type =3 or =2"):
        understand("2", doubt, "2")
    assert understand("=3", doubt, "2") == "3"
    assert understand("=2", doubt, "2") is None


def test_nothing_read_is_kept_by_enter() -> None:
    assert understand("", Doubt("lot", "no lot was found"), "") is None


def test_a_repeat_wants_one_of_its_answers() -> None:
    doubt = Doubt(REPEAT, "same shade and lot", REPEAT_ANSWERS)
    assert understand("1", doubt, "") == REPEAT_ANSWERS[0]
    for typed in ("", "-", "3", "maybe", "="):
        with pytest.raises(BadChoice):
            understand(typed, doubt, "")


def test_an_answer_that_the_field_cannot_hold_is_refused() -> None:
    with pytest.raises(BadAnswer):
        understand("abc", Doubt("length_m", "not sure"), "210")


# The pass


def test_each_answer_files_its_tag(cabinet: Cabinet) -> None:
    three_shades(cabinet)
    summary, shown = answer(cabinet, "2", "", "7", "")
    assert lots(cabinet) == ["0012", "0O12", "7"]
    assert summary == Summary(filed=3, discarded=0, waiting=0)
    assert "the two readers differ" in shown
    assert "Tag 3 of 3" in shown


def test_a_tag_is_shown_with_its_picture_what_is_sure_and_the_reason(cabinet: Cabinet) -> None:
    tag_id = cabinet.take(waiting_tag(shade="[red]Kelp[/red]")).id
    _, shown = answer(cabinet)
    assert f"look at {cabinet.pictures.path(tag_id)}\n" in shown
    assert "from cellar.jpg, page 1, tag 1" in shown
    assert "shade: [red]Kelp[/red]\n" in shown
    assert "fibre composition: 75% wool (merino); 25% polyamide\n" in shown
    assert "lot? the two readers differ\n    printed: lot 0O12\n    1  0O12\n    2  0012\n" in shown


def test_going_back_takes_a_filed_tag_out_again(cabinet: Cabinet) -> None:
    three_shades(cabinet)
    answer(cabinet, "2", "0099", "b", "b", "=b", "2", "-", "")
    assert lots(cabinet) == ["b", "0012", ""]


def test_going_back_reaches_the_first_question_from_the_end(cabinet: Cabinet) -> None:
    three_shades(cabinet)
    summary, shown = answer(cabinet, "1", "1", "1", "b", "b", "b", "b", "2", "2", "2", "")
    assert lots(cabinet) == ["0012", "0012", "0012"]
    assert summary.filed == 3
    assert "this is the first question" in shown


def test_going_back_within_a_tag_asks_its_question_again(cabinet: Cabinet) -> None:
    cabinet.take(tag("a.jpg", 1, doubtful("lot", "0O12", "0012"), doubtful("mass_g", 50.0, "56")))
    answer(cabinet, "2", "b", "0013", "2", "")
    assert [(record.lot, record.mass_g) for record in filed(cabinet)] == [("0013", 56.0)]


def test_going_back_undoes_skipping_and_discarding(cabinet: Cabinet) -> None:
    three_shades(cabinet)
    summary, _ = answer(cabinet, "s", "d", "b", "b", "2", "2", "d", "")
    assert lots(cabinet) == ["0012", "0012"]
    assert summary == Summary(filed=2, discarded=1, waiting=0)


def test_a_skipped_tag_waits_on_and_a_discarded_one_does_not(cabinet: Cabinet) -> None:
    three_shades(cabinet)
    summary, _ = answer(cabinet, "s", "d", "2", "")
    assert summary == Summary(filed=1, discarded=1, waiting=1)
    assert len(cabinet.waiting()) == 1
    assert lots(cabinet) == ["0012"]


@pytest.mark.parametrize("ending", [["q"], []])
def test_stopping_keeps_what_was_answered(cabinet: Cabinet, ending: list[str]) -> None:
    three_shades(cabinet)
    summary, _ = answer(cabinet, "2", *ending)
    assert summary == Summary(filed=1, discarded=0, waiting=2)
    assert lots(cabinet) == ["0012"]


def test_a_wrong_number_gets_one_line_and_is_asked_again(cabinet: Cabinet) -> None:
    cabinet.take(tag("a.jpg", 1, doubtful("length_m", 210.0, "270")))
    _, shown = answer(cabinet, "abc", "-3", "270", "")
    assert shown.count("type a number above 0") == 2
    assert [record.length_m for record in filed(cabinet)] == [270.0]


def test_a_composition_as_read_is_kept_even_where_it_is_not_whole(cabinet: Cabinet) -> None:
    (part, _) = tag().fields["fibre"].value  # type: ignore[misc]
    cabinet.take(tag("a.jpg", 1, doubtful("fibre", (part,))))
    answer(cabinet, "", "")
    assert [record.fibre for record in filed(cabinet)] == ["75% wool (merino)"]


def test_help_says_how_to_enter_a_letter(cabinet: Cabinet) -> None:
    cabinet.take(waiting_tag())
    _, shown = answer(cabinet, "?", "q")
    assert "=text" in shown
    assert "=b" in shown


def test_a_missing_lot_can_be_left_empty(cabinet: Cabinet) -> None:
    cabinet.take(tag("a.jpg", 1, Field("lot")))
    _, shown = answer(cabinet, "", "")
    assert lots(cabinet) == [""]
    assert "lot: none" in shown


def test_the_same_tag_again_is_left_out_and_can_be_taken_back(cabinet: Cabinet) -> None:
    cabinet.take(tag("a.jpg"))
    cabinet.take(tag("b.jpg"))
    summary, shown = answer(cabinet, "2", "b", "1", "")
    assert "another ball, or the same tag again?" in shown
    assert lots(cabinet) == ["0012", "0012"]
    assert summary == Summary(filed=1, discarded=0, waiting=0)


def test_an_answer_that_makes_the_tag_a_repeat_raises_that_question(cabinet: Cabinet) -> None:
    cabinet.take(tag("a.jpg"))
    cabinet.take(tag("b.jpg", 1, doubtful("lot", "9912", "0012")))
    summary, shown = answer(cabinet, "2", "2", "")
    assert "same shade and lot as record" in shown
    assert lots(cabinet) == ["0012"]
    assert summary == Summary(filed=0, discarded=1, waiting=0)


def test_going_back_over_a_raised_question_forgets_it_where_it_no_longer_arises(
    cabinet: Cabinet,
) -> None:
    cabinet.take(tag("a.jpg"))
    cabinet.take(tag("b.jpg", 1, doubtful("lot", "9912", "0012")))
    answer(cabinet, "2", "b", "1", "")
    assert lots(cabinet) == ["0012", "9912"]


def test_a_tag_answered_elsewhere_is_passed_over(cabinet: Cabinet) -> None:
    three_shades(cabinet)
    other = open_cabinet(cabinet.stash.path)
    first = other.waiting()[0]

    class Typist(io.StringIO):
        def readline(self, size: int | None = -1, /) -> str:
            if first in other.waiting():
                other.resolve(first, {"lot": "elsewhere"})
            return super().readline()

    review(cabinet, Console(file=io.StringIO()), Typist("2\n2\n2\n\n"))
    assert lots(cabinet) == ["elsewhere", "0012", "0012"]


class Lines(io.StringIO):
    """Typed lines, with something done elsewhere before the second one is typed."""

    def __init__(self, lines: str, elsewhere: Callable[[], object]) -> None:
        super().__init__(lines)
        self._left, self._elsewhere = 1, elsewhere

    def readline(self, size: int | None = -1, /) -> str:
        if self._left == 0:
            self._elsewhere()
        self._left -= 1
        return super().readline()


def test_a_tag_that_was_corrected_elsewhere_is_not_taken_back(cabinet: Cabinet) -> None:
    three_shades(cabinet)
    first, second = cabinet.waiting()[:2]
    other = open_cabinet(cabinet.stash.path)
    shown = io.StringIO()
    lines = Lines("1\nb\n2\nq\n", lambda: other.correct({first: {"lot": "0099"}}))
    review(cabinet, Console(file=shown, width=60), lines)
    assert "was corrected after" in shown.getvalue()
    assert [cabinet.record(one).lot for one in (first, second)] == ["0099", "0012"]


def test_what_was_answered_for_a_group_is_not_asked_again(cabinet: Cabinet) -> None:
    fields = (doubtful("shade", "Kclp", "Kelp"), doubtful("lot", "0O12", "0012"))
    tag_id = cabinet.take(tag("a.jpg", 1, *fields)).id
    cabinet.settle({tag_id: {"shade": "Kelp"}})
    summary, shown = answer(cabinet, "2")
    assert summary == Summary(filed=1, discarded=0, waiting=0)
    assert "shade: Kelp" in shown
    assert [(record.shade, record.lot) for record in filed(cabinet)] == [("Kelp", "0012")]


def test_an_empty_queue_asks_nothing(cabinet: Cabinet) -> None:
    assert answer(cabinet) == (Summary(0, 0, 0), "")


REVIEW = """
import sys
from rich.console import Console
from intake.filing.cabinet import open_cabinet
from intake.terminal_review import review
print(review(open_cabinet(sys.argv[1]), Console(), sys.stdin))
"""


def test_the_review_runs_in_a_real_terminal(cabinet: Cabinet) -> None:
    three_shades(cabinet)
    ours, theirs = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-c", REVIEW, str(cabinet.stash.path)],
        stdin=theirs,
        stdout=theirs,
        stderr=theirs,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path), "TERM": "xterm"},
    )
    os.close(theirs)
    os.write(ours, "2\nb\n0013\ns\nÄ7\n\n".encode())
    shown = b""
    while b"Summary(" not in shown:
        shown += os.read(ours, 4096)
    assert process.wait(30) == 0
    os.close(ours)
    assert lots(cabinet) == ["0013", "Ä7"]
    assert "Summary(filed=2, discarded=0, waiting=1)" in shown.decode()
