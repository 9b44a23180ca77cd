"""A waiting tag comes out of the queue exactly as it went in."""

from __future__ import annotations

import json
import tempfile
from dataclasses import replace
from pathlib import Path

import pytest
from filing_tags import tag, waiting_tag
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from intake.errors import BadStash
from intake.filing.judge import Doubt, judge
from intake.filing.queue import Left, NotWaiting, Queue
from intake.filing.reading_json import reading_from_json, reading_to_json
from intake.filing.record import record_id
from intake.filing.tag_pictures import TagPictures
from intake.records import (
    Barcode,
    FibrePart,
    Field,
    Letter,
    Line,
    Reading,
    Span,
    State,
    TagReading,
)

DOUBTS = [Doubt("lot", "the two readers differ", ("0O12", "0012")), Doubt("shade", "no card")]

texts = st.text(max_size=6)  # lone surrogates too: a path may hold bytes that are no UTF-8
scores = st.floats(0, 1)
counts = st.integers(0, 400)
points = st.tuples(st.floats(-10, 4000), st.floats(-10, 4000))
quads = st.tuples(points, points, points, points)
letters = st.lists(st.builds(Letter, texts, scores, scores, scores), max_size=3).map(tuple)
parts = st.builds(FibrePart, texts, texts, st.floats(0.1, 100))
values = st.one_of(
    st.none(),
    texts,
    st.floats(0, 1e9),
    st.lists(parts, max_size=3).map(tuple),
    st.lists(texts, max_size=3).map(tuple),
)
cues = st.dictionaries(texts, scores, max_size=3)
spans = st.lists(st.builds(Span, counts, counts, counts), max_size=2).map(tuple)
fields = st.builds(
    Field,
    name=texts,
    value=values,
    confidence=scores,
    state=st.sampled_from(State),
    line=texts,
    spans=spans,
    others=st.lists(texts, max_size=3).map(tuple),
    reason=texts,
    printed=texts,
    note=texts,
    cues=cues,
)
lines = st.builds(
    Line,
    quad=quads,
    letters=letters,
    agreed=st.lists(st.booleans(), max_size=3).map(tuple),
    others=st.lists(texts, max_size=3).map(tuple),
    readings=st.lists(st.builds(Reading, texts, letters), max_size=2).map(tuple),
)
readings = st.builds(
    TagReading,
    picture=texts,
    page=counts,
    tag=counts,
    digest=texts,
    print_hash=texts,
    # What does not begin as a JPEG is no picture, and is not given out as one.
    jpeg=st.just(b"") | st.binary(max_size=20).map(b"\xff\xd8\xff".__add__),
    lines=st.lists(lines, max_size=2).map(tuple),
    barcodes=st.lists(st.builds(Barcode, texts, texts, quads), max_size=2).map(tuple),
    fields=st.dictionaries(texts, fields, max_size=3),
    notes=st.lists(texts, max_size=2).map(tuple),
)


@settings(
    max_examples=80,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(reading=readings)
def test_a_reading_comes_back_from_json_as_it_was(reading: TagReading) -> None:
    text = json.dumps(reading_to_json(reading))
    assert reading_from_json(json.loads(text), reading.jpeg) == reading


@pytest.fixture
def queue(tmp_path: Path) -> Queue:
    return Queue(tmp_path / "stash.queue", TagPictures(tmp_path / "stash.tags"))


def test_a_tag_waits_with_its_doubts_and_its_picture(queue: Queue, tmp_path: Path) -> None:
    reading = waiting_tag()
    tag_id = queue.add(reading, DOUBTS)
    item = queue.get(tag_id)
    assert (item.reading, list(item.doubts)) == (reading, DOUBTS)
    assert (tmp_path / "stash.tags" / f"{tag_id}.jpg").read_bytes() == reading.jpeg
    assert json.loads((tmp_path / "stash.queue" / f"{tag_id}.json").read_text())["version"] == 1


def test_an_absent_queue_is_empty(queue: Queue) -> None:
    assert queue.ids() == []
    assert list(queue.heads()) == []


def test_tags_wait_in_the_order_they_came(queue: Queue) -> None:
    added = [queue.add(waiting_tag("cellar.jpg", number), DOUBTS) for number in (3, 1, 2)]
    assert queue.ids() == added
    assert [item.id for item in queue.heads()] == added


def test_a_tag_that_left_can_be_restored(queue: Queue) -> None:
    tag_id = queue.add(waiting_tag(), DOUBTS)
    for left in Left:
        queue.remove(tag_id, left)
        assert tag_id not in queue
        assert queue.was_discarded(tag_id) is (left is Left.DISCARDED)
        queue.restore(tag_id)
        assert tag_id in queue
        assert not queue.was_discarded(tag_id)


def test_a_tag_that_does_not_wait_is_said_so(queue: Queue) -> None:
    for use in (queue.get, queue.head, queue.remove, queue.restore):
        with pytest.raises(NotWaiting, match="no tag t0"):
            use("t0")


def test_a_picture_that_was_taken_away_does_not_stop_the_review(queue: Queue) -> None:
    tag_id = queue.add(waiting_tag(), DOUBTS)
    (queue.folder.with_name("stash.tags") / f"{tag_id}.jpg").unlink()
    assert queue.get(tag_id).reading.jpeg == b""


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(reading=readings)
def test_a_head_is_the_tag_without_its_print_and_picture(reading: TagReading) -> None:
    with tempfile.TemporaryDirectory() as name:
        queue = Queue(Path(name) / "q", TagPictures(Path(name) / "t"))
        tag_id = queue.add(reading, DOUBTS)
        whole = queue.get(tag_id)
        bare = replace(reading, lines=(), barcodes=(), jpeg=b"")
        assert queue.head(tag_id) == replace(whole, reading=bare)
        assert whole.reading == reading


def test_a_queue_file_in_one_line_is_read_as_well(queue: Queue) -> None:
    tag_id = queue.add(waiting_tag(), DOUBTS)
    file = queue.folder / f"{tag_id}.json"
    whole, head = queue.get(tag_id), queue.head(tag_id)
    # Python's own parser takes the file for one JSON text, RFC 8259.
    data = json.loads(file.read_bytes())
    for indent in (None, 2):
        file.write_text(json.dumps(data, indent=indent))
        assert (queue.get(tag_id), queue.head(tag_id)) == (whole, head)


@pytest.mark.parametrize(
    "text",
    ["", "{", "[]", "7", '{"version": 1}', '{"version": "x"}', '{"version":1,"reading":[]}', ",\n"],
)
def test_a_damaged_queue_file_is_named(queue: Queue, text: str) -> None:
    tag_id = queue.add(waiting_tag(), DOUBTS)
    (queue.folder / f"{tag_id}.json").write_text(text)
    for use in (queue.get, queue.head):
        with pytest.raises(BadStash, match=rf"{tag_id}\.json is no queue file; move it") as caught:
            use(tag_id)
        assert "\n" not in str(caught.value)


def test_a_file_in_the_place_of_the_queue_is_named(queue: Queue) -> None:
    queue.folder.write_text("no folder")
    with pytest.raises(BadStash) as caught:
        queue.ids()
    assert str(caught.value) == (
        f"{queue.folder} cannot be read (Not a directory); "
        "see what stands there, and that you may read it"
    )


def test_a_folder_in_the_place_of_a_queue_file_is_named(queue: Queue) -> None:
    (queue.folder / "t1.json").mkdir(parents=True)
    for use in (queue.get, queue.head):
        with pytest.raises(BadStash, match=r"t1\.json cannot be read \(Is a directory\); see what"):
            use("t1")


def test_a_picture_that_may_not_be_read_is_named(plain_folder: Path) -> None:
    pictures = TagPictures(plain_folder / "stash.tags")
    pictures.save("t1", waiting_tag().jpeg)
    pictures.path("t1").chmod(0)
    with pytest.raises(BadStash, match=r"t1\.jpg cannot be read \(Permission denied\); see what"):
        pictures.load("t1")


def test_a_newer_queue_file_asks_for_the_newer_balltag(queue: Queue) -> None:
    tag_id = queue.add(waiting_tag(), DOUBTS)
    (queue.folder / f"{tag_id}.json").write_text('{"version": 2}')
    with pytest.raises(BadStash, match=r"version 2.*newer balltag"):
        queue.get(tag_id)


def test_judged_doubts_survive_the_queue() -> None:
    reading = tag("a.jpg", 1, lot=None)
    with tempfile.TemporaryDirectory() as name:
        queue = Queue(Path(name) / "q", TagPictures(Path(name) / "t"))
        assert list(queue.get(queue.add(reading, judge(reading))).doubts) == judge(reading)


def test_an_id_is_stable_and_no_number() -> None:
    digest = "a" * 64
    assert record_id(digest, 1) == record_id(digest, 1) == "t" + record_id(digest, 1)[1:]
    assert len({record_id(digest, number) for number in range(1, 1000)}) == 999
    assert record_id(digest, 11) != record_id(digest + "1", 1)
