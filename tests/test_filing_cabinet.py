"""A tag is in the stash once, or in the queue, or nowhere it was not reported."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from filing_tags import doubtful, tag, waiting_tag

from intake.errors import BadStash
from intake.filing.answers import BadAnswer
from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.check import Check
from intake.filing.judge import Doubt
from intake.filing.kinds import LONGEST_STEM_BYTES, open_stash
from intake.filing.queue import NotWaiting
from intake.filing.record import record_id
from intake.filing.same import ANOTHER_BALL, REPEAT, SAME_TAG_AGAIN
from intake.filing.store import Store
from intake.records import Outcome, TagReading


@pytest.fixture(params=["stash.csv", "stash.parquet"])
def path(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    return tmp_path / str(request.param)


@pytest.fixture
def cabinet(path: Path) -> Cabinet:
    return open_cabinet(path)


def lots(path: Path) -> list[str]:
    return [record.lot for record in open_stash(path).records()]


def id_of(reading: TagReading) -> str:
    return record_id(reading.digest, reading.tag)


def test_a_stash_of_the_same_name_beside_it_is_refused(cabinet: Cabinet, path: Path) -> None:
    """Both would write one history, each under a lock of its own."""
    cabinet.take(tag())
    other = path.with_suffix(".parquet" if path.suffix == ".csv" else ".csv")
    with pytest.raises(BadStash) as caught:
        open_cabinet(other)
    assert str(caught.value) == (
        f"{other} and {path.name} would share one queue and one history; rename {path.name} or "
        "move it away"
    )
    open_cabinet(path).take(waiting_tag("w.jpg", shade="Weir"))


@pytest.mark.parametrize("letters", ["L" * 242, "L" * 251, "ä" * 121])
def test_a_name_too_long_for_what_lies_beside_the_stash_is_refused(
    tmp_path: Path, letters: str
) -> None:
    with pytest.raises(BadStash, match="give it a shorter one"):
        open_cabinet(tmp_path / f"{letters}.csv")


def test_a_long_name_will_do(tmp_path: Path) -> None:
    cabinet = open_cabinet(tmp_path / f"{'L' * LONGEST_STEM_BYTES}.csv")
    record = cabinet.file(tag())
    cabinet.correct({record.id: {"lot": "0100"}})
    cabinet.take(waiting_tag("w.jpg", shade="Weir"))
    assert not Check(Store(cabinet.stash)).findings()


def test_a_sure_tag_is_filed_with_all_that_was_read(cabinet: Cabinet, path: Path) -> None:
    taken = cabinet.take(tag())
    assert taken.outcome is Outcome.FILED
    (filed,) = open_stash(path).records()
    assert filed == taken.record
    assert filed.fibre == "75% wool (merino); 25% polyamide"
    assert (filed.shade_code, filed.lot, filed.length_m, filed.mass_g) == ("041", "0012", 210, 50)
    assert filed.care == "hand wash; dry flat"
    assert (path.with_name("stash.tags") / filed.tag_picture).read_bytes() == tag().jpeg
    assert cabinet.waiting() == []


def test_a_doubtful_tag_waits_and_is_not_filed(cabinet: Cabinet, path: Path) -> None:
    taken = cabinet.take(waiting_tag())
    assert taken.outcome is Outcome.QUEUED
    assert [doubt.field for doubt in taken.doubts] == ["lot"]
    assert lots(path) == []
    assert open_cabinet(path).waiting() == [taken.id]
    assert open_cabinet(path).get(taken.id).reading == waiting_tag()


def test_a_tag_is_taken_once_however_often_it_is_read(cabinet: Cabinet, path: Path) -> None:
    cabinet.take(tag("a.jpg", 1))
    cabinet.take(waiting_tag("a.jpg", 2))
    for again in (cabinet, open_cabinet(path)):
        assert again.take(tag("a.jpg", 1)).outcome is Outcome.ALREADY
        assert again.take(tag("a.jpg", 2)).outcome is Outcome.ALREADY
    assert lots(path) == ["0012"]


def test_a_tag_that_another_process_filed_meanwhile_is_known(cabinet: Cabinet, path: Path) -> None:
    other = open_cabinet(path)
    assert other.waiting() == cabinet.waiting() == []
    other.take(tag("a.jpg", 1))
    other.take(waiting_tag("a.jpg", 2))
    assert cabinet.take(tag("a.jpg", 1)).outcome is Outcome.ALREADY
    assert cabinet.take(waiting_tag("a.jpg", 2)).outcome is Outcome.ALREADY


def test_answers_file_a_waiting_tag(cabinet: Cabinet, path: Path) -> None:
    tag_id = cabinet.take(waiting_tag()).id
    record = cabinet.resolve(tag_id, {"lot": "0012", "tension": "28 st", "mass_g": ""})
    assert record is not None
    assert (record.lot, record.tension, record.mass_g) == ("0012", "28 st", None)
    assert open_stash(path).records() == [record]
    assert cabinet.waiting() == []
    assert cabinet.take(waiting_tag()).outcome is Outcome.ALREADY


def test_a_field_without_an_answer_keeps_what_was_read(cabinet: Cabinet, path: Path) -> None:
    cabinet.resolve(cabinet.take(waiting_tag()).id, {})
    assert lots(path) == ["0O12"]


def test_a_bad_answer_leaves_the_tag_waiting(cabinet: Cabinet, path: Path) -> None:
    tag_id = cabinet.take(waiting_tag()).id
    with pytest.raises(BadAnswer):
        cabinet.resolve(tag_id, {"lot": "0012", "length_m": "abc"})
    assert cabinet.waiting() == [tag_id]
    assert lots(path) == []


def test_a_discarded_tag_is_not_asked_about_again(cabinet: Cabinet, path: Path) -> None:
    cabinet.discard(cabinet.take(waiting_tag()).id)
    for again in (cabinet, open_cabinet(path)):
        assert again.take(waiting_tag()).outcome is Outcome.ALREADY
        assert again.waiting() == []
    assert lots(path) == []


def test_an_answered_tag_can_be_put_back(cabinet: Cabinet, path: Path) -> None:
    cabinet.take(tag("a.jpg", 1))
    tag_id = cabinet.take(waiting_tag("a.jpg", 2)).id
    cabinet.resolve(tag_id, {"lot": "0013"})
    open_cabinet(path).put_back(tag_id)
    assert lots(path) == ["0012"]
    assert cabinet.waiting() == [tag_id]
    assert cabinet.get(tag_id).reading == waiting_tag("a.jpg", 2)
    cabinet.resolve(tag_id, {"lot": "0014"})
    assert lots(path) == ["0012", "0014"]


def test_a_discarded_tag_can_be_put_back(cabinet: Cabinet) -> None:
    tag_id = cabinet.take(waiting_tag()).id
    cabinet.discard(tag_id)
    cabinet.put_back(tag_id)
    assert cabinet.waiting() == [tag_id]


def test_a_tag_that_never_waited_cannot_be_put_back(cabinet: Cabinet, path: Path) -> None:
    filed = cabinet.take(tag())
    with pytest.raises(NotWaiting):
        cabinet.put_back(filed.id)
    assert lots(path) == ["0012"]


def test_a_tag_that_was_answered_elsewhere_is_said_so(cabinet: Cabinet, path: Path) -> None:
    tag_id = cabinet.take(waiting_tag()).id
    open_cabinet(path).resolve(tag_id, {"lot": "0012"})
    with pytest.raises(NotWaiting):
        cabinet.resolve(tag_id, {"lot": "9"})
    with pytest.raises(NotWaiting):
        cabinet.discard(tag_id)
    assert lots(path) == ["0012"]


def test_a_tag_cannot_wait_without_a_doubt(cabinet: Cabinet) -> None:
    with pytest.raises(ValueError, match="must have a doubt"):
        cabinet.hold(tag(), [])


def test_a_repeat_must_be_answered(cabinet: Cabinet, path: Path) -> None:
    cabinet.take(tag("a.jpg"))
    tag_id = cabinet.take(tag("b.jpg")).id
    for answers in ({}, {REPEAT: ""}, {REPEAT: "perhaps"}):
        with pytest.raises(BadAnswer, match="another ball"):
            cabinet.resolve(tag_id, answers)
    assert cabinet.resolve(tag_id, {REPEAT: ANOTHER_BALL}) is not None
    assert lots(path) == ["0012", "0012"]


def test_the_same_tag_again_is_not_filed_and_not_asked_again(cabinet: Cabinet, path: Path) -> None:
    cabinet.take(tag("a.jpg"))
    tag_id = cabinet.take(tag("b.jpg")).id
    assert cabinet.resolve(tag_id, {REPEAT: SAME_TAG_AGAIN}) is None
    assert lots(path) == ["0012"]
    assert cabinet.take(tag("b.jpg")).outcome is Outcome.ALREADY


def test_an_answer_that_makes_a_repeat_raises_the_question(cabinet: Cabinet) -> None:
    cabinet.take(tag("a.jpg"))
    tag_id = cabinet.take(tag("b.jpg", 1, doubtful("lot", "9912"))).id
    assert cabinet.further_doubts(tag_id, {"lot": "9913"}) == []
    (doubt,) = cabinet.further_doubts(tag_id, {"lot": "0012"})
    assert doubt.field == REPEAT
    assert cabinet.further_doubts(tag_id, {"lot": "0012", REPEAT: ANOTHER_BALL}) == []


def test_what_lies_beside_the_stash_is_named_after_it(cabinet: Cabinet, path: Path) -> None:
    cabinet.take(waiting_tag())
    cabinet.file(tag("b.jpg"))
    names = {each.name for each in path.parent.iterdir()}
    assert names == {
        path.name, f"{path.name}.lock", "stash.queue", "stash.tags", "stash.written.jsonl"
    }  # fmt: skip


def test_a_doubt_of_hand_is_kept_with_the_tag(cabinet: Cabinet) -> None:
    doubt = Doubt("shade", "no shade card has it", ("Kelp", "Kemp"))
    tag_id = cabinet.hold(tag(), [doubt])
    assert list(cabinet.get(tag_id).doubts) == [doubt]


# Killed between any two steps


STEPS = ["filed 1", "waits 2", "filed 2", "waits 2", "discarded 2", "waits 2", "filed 2"]
"""What :func:`work` reports: tag 1 is sure, tag 2 goes to and fro."""


def work(path: Path, report: Callable[[str], None]) -> None:
    """One run and one review, each step reported when it is done."""
    cabinet = open_cabinet(path)
    sure, asked = tag("a.jpg", 1), waiting_tag("a.jpg", 2)
    cabinet.take(sure)
    report("filed 1")
    cabinet.take(asked)
    report("waits 2")
    cabinet.resolve(id_of(asked), {"lot": "0013"})
    report("filed 2")
    cabinet.put_back(id_of(asked))
    report("waits 2")
    cabinet.discard(id_of(asked))
    report("discarded 2")
    cabinet.put_back(id_of(asked))
    report("waits 2")
    cabinet.resolve(id_of(asked), {"lot": "0014"})
    report("filed 2")


def work_until_killed(path: Path, steps: int) -> tuple[bool, list[str]]:
    """Run :func:`work` in a process that kills itself before its file-system step
    number ``steps``.  Whether it was killed, and what it had reported."""
    inward, outward = os.pipe()
    child = os.fork()
    if child == 0:
        left = steps

        def count(event: str, _: object) -> None:
            nonlocal left
            if event in ("open", "os.rename", "os.mkdir", "os.remove"):
                left -= 1
                if left == 0:
                    os.kill(os.getpid(), signal.SIGKILL)

        sys.addaudithook(count)
        try:
            work(path, lambda done: os.write(outward, f"{done}\n".encode()) and None)
        except BaseException:
            os._exit(1)
        os._exit(0)
    os.close(outward)
    with os.fdopen(inward) as reports:
        reported = reports.read().splitlines()
    _, status = os.waitpid(child, 0)
    assert not os.WIFEXITED(status) or os.WEXITSTATUS(status) == 0
    return os.WIFSIGNALED(status), reported


def check_after_kill(path: Path, reported: list[str]) -> None:
    """Each tag is in one place: where it was last reported, or where it was to go next."""
    assert reported == STEPS[: len(reported)]
    cabinet = open_cabinet(path)
    ids = [record.id for record in cabinet.stash.records()]
    first, second = id_of(tag("a.jpg", 1)), id_of(waiting_tag("a.jpg", 2))
    assert len(ids) == len(set(ids))
    assert first in ids or not reported
    held = {
        "filed 2": second in ids,
        "waits 2": second in cabinet.waiting(),
        "discarded 2": cabinet.queue.was_discarded(second),
    }
    places = [place for place, holds in held.items() if holds] or ["nowhere"]
    way = ["nowhere", *STEPS[1:], STEPS[-1]]
    done = max(len(reported) - 1, 0)
    assert len(places) == 1
    assert places[0] in way[done : done + 2]
    cabinet.take(tag("a.jpg", 1))
    cabinet.take(waiting_tag("a.jpg", 2))
    again = [record.id for record in open_stash(path).records()]
    assert len(again) == len(set(again))


@pytest.mark.parametrize(
    ("ending", "stride"),
    [
        (".csv", 3),
        pytest.param(".csv", 1, marks=pytest.mark.slow),
        pytest.param(".parquet", 1, marks=pytest.mark.slow),
    ],
)
def test_a_kill_between_any_two_steps_loses_and_doubles_nothing(
    ending: str, stride: int, tmp_path: Path
) -> None:
    work(tmp_path / f"whole{ending}", lambda _: None)  # what is loaded once is loaded here
    for steps in range(1, 400, stride):
        path = tmp_path / f"{steps}{ending}"
        killed, reported = work_until_killed(path, steps)
        check_after_kill(path, reported)
        if not killed:
            break
    assert reported == STEPS
    assert steps > 30
