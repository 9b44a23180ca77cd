"""An index spares reading a large stash whole, and never says anything that the stash does not."""

from __future__ import annotations

import csv
import os
import random
from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

import pytest
from filing_tags import PRINT, record, sure, tag

from intake.errors import BadStash, CannotUndo
from intake.filing import store as store_room
from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.columns import table_of
from intake.filing.hash_shelf import HashShelf, Nearness
from intake.filing.index import Index, IndexFile, shade_keys
from intake.filing.kept_tags import KeptTags, kept_tag
from intake.filing.knowledge import Knowledge
from intake.filing.record import Record, record_id
from intake.filing.written import Written
from intake.pictures.keep import hash_distance
from intake.records import TagReading

SHADES = ("Kelp", "Ember", "KELP", "Tide", "")
LOTS = ("0012", "0O12", "77", "")


@pytest.fixture(autouse=True)
def few_make_an_index(monkeypatch: pytest.MonkeyPatch) -> None:
    """What a stash of thousands does, with five records."""
    monkeypatch.setattr(store_room, "INDEX_EVERY", 5)


def some_record(number: int, chance: random.Random) -> Record:
    return replace(
        record(),
        id=record_id(f"{number:064}", 1),
        digest=f"{number:064}",
        picture=f"{number}.jpg",
        shade=chance.choice(SHADES),
        shade_code=chance.choice(("041", "41", "")),
        lot=chance.choice(LOTS),
        maker=chance.choice(("Quillstow Spinners", "Hollin Fold")),
        print_hash=chance.randbytes(32).hex() if number % 7 else "no hash",
    )


def some_tag(number: int, chance: random.Random) -> TagReading:
    shade = "".join(chance.choices("bdfgklmnprst", k=8)).title()
    fields = {**PRINT, "shade": shade, "shade_code": f"{chance.randrange(10**6):06}"}
    return replace(
        tag(),
        picture=f"box {number}.jpg",
        digest=f"{number:064x}",
        print_hash=chance.randbytes(32).hex(),
        fields={name: sure(name, value) for name, value in fields.items()},
        lines=(),
    )


def filled(path: Path, count: int, chance: random.Random) -> Cabinet:
    cabinet = open_cabinet(path)
    for number in range(count):
        assert cabinet.take(some_tag(number, chance)).record is not None
    return cabinet


def index_of(path: Path) -> Path:
    return path.with_suffix(".index.arrow")


def indexed(tmp_path: Path, records: list[Record]) -> Index:
    file = IndexFile(tmp_path / "stash.index.arrow")
    file.write(table_of(records), 0)
    index = file.load()
    assert index is not None
    return index


def test_an_index_answers_as_memory_does(tmp_path: Path) -> None:
    """Against the plain thing: all tags in memory.  Hash distances against whole numbers."""
    chance = random.Random(3)
    records = [some_record(number, chance) for number in range(200)]
    by_index, in_memory = KeptTags(indexed(tmp_path, records)), KeptTags()
    for one in records:
        in_memory.put(kept_tag(one), one.print_hash)
    for one in chance.sample(records, 30):  # corrected and taken out since
        if chance.random() < 0.5:
            by_index.drop(one.id)
            in_memory.drop(one.id)
        else:
            changed = replace(one, lot=chance.choice(LOTS), shade=chance.choice(SHADES))
            by_index.put(kept_tag(changed), changed.print_hash)
            in_memory.put(kept_tag(changed), changed.print_hash)
    for one in records:
        assert (one.id in by_index) == (one.id in in_memory)
        assert by_index.get(one.id) == in_memory.get(one.id)
    assert by_index.get("t0") is None
    for lot in LOTS:
        ours, theirs = by_index.of_lot(lot), in_memory.of_lot(lot)
        assert {tag.id for tag in ours} == {tag.id for tag in theirs}
        assert len(ours) == len(theirs)
    for key in {key for one in records for key in shade_keys(one.shade, one.shade_code)}:
        assert +by_index.lots(key) == +in_memory.lots(key)
    for wanted in chance.sample(records, 10):
        ours_near, theirs_near = (
            {(tag.id, bits) for tag, bits in tags.near(wanted.print_hash, Nearness(110))}
            for tags in (by_index, in_memory)
        )
        assert ours_near == theirs_near
        if wanted.print_hash != "no hash":
            assert ours_near == {
                (one.id, hash_distance(one.print_hash, wanted.print_hash))
                for one in records
                if one.print_hash != "no hash"
                and one.id in in_memory
                and hash_distance(one.print_hash, wanted.print_hash) <= 110
            }


def test_the_tags_of_a_lot_come_in_the_order_of_the_stash(tmp_path: Path) -> None:
    chance = random.Random(4)
    records = [some_record(number, chance) for number in range(100)]
    tags = KeptTags(indexed(tmp_path, records))
    expected = [one.id for one in records if one.lot == "77" and (one.shade or one.shade_code)]
    assert [tag.id for tag in tags.of_lot("77")] == expected
    assert [one.id for one in tags.last()] == [one.id for one in records]


def test_hashes_that_differ_everywhere_are_not_near() -> None:
    shelf = HashShelf()
    shelf.put("t1", "00" * 32)
    assert shelf.near("ff" * 32, Nearness(48)) == []
    assert shelf.near("ff" * 32, Nearness(256)) == [("t1", 256)]


@pytest.mark.parametrize("ending", [".csv", ".parquet"])
def test_a_large_stash_is_known_without_reading_it(ending: str, tmp_path: Path) -> None:
    chance, path = random.Random(5), tmp_path / f"stash{ending}"
    filled(path, 7, chance)
    assert index_of(path).exists()
    cabinet = open_cabinet(path)
    recalled = cabinet.recall(cabinet.stash.read().mark)
    assert recalled is not None
    assert len(recalled.index) + len(recalled.put) == 7
    assert all(cabinet.has_met(record_id(f"{number:064x}", 1)) for number in range(7))
    assert not cabinet.has_met(record_id(f"{7:064x}", 1))


def test_records_corrected_and_withdrawn_since_are_known_as_they_are(tmp_path: Path) -> None:
    chance, path = random.Random(6), tmp_path / "stash.csv"
    cabinet = filled(path, 8, chance)
    first, second, *_ = cabinet.records()
    cabinet.correct({first.id: {"shade": "Otter", "lot": "0777"}})
    cabinet.withdraw([second.id])
    same_knowledge(path)
    fresh = open_cabinet(path)
    assert fresh.recall(fresh.stash.read().mark) is not None
    near = fresh.correction_doubts({fresh.records()[3].id: {"shade": "Otter", "lot": "O777"}})
    assert [doubt.field for doubt in near.popitem()[1]] == ["lot"]
    assert fresh.take(some_tag(0, random.Random(6))).before is not None


def same_knowledge(path: Path) -> None:
    """With the index and without it the same is known."""
    with_index = knowledge_of(path)
    hidden = index_of(path).rename(path.with_name("hidden"))
    without = knowledge_of(path)
    hidden.rename(index_of(path))
    assert with_index == without


def knowledge_of(path: Path) -> tuple[object, ...]:
    cabinet = open_cabinet(path)
    known = Knowledge(cabinet)
    known.refresh()
    shades = sorted({one.shade for one in cabinet.records()} | {"Otter", "Kelp"})
    makers = ("Quillstow Spinners", "Hollin Fold")
    return (
        [known.shades.everything.same(shade) for shade in shades],
        [known.shades.everything.codes_of(shade) for shade in shades],
        [known.names.maker(maker) for maker in makers],
        [known.names.pair(maker, "Sluicegate") for maker in makers],
        len(known.shades.everything),
    )


@pytest.mark.parametrize("seed", range(6))
def test_whatever_was_done_the_same_is_known(seed: int, tmp_path: Path) -> None:
    chance, path = random.Random(seed), tmp_path / "stash.csv"
    cabinet = filled(path, 6, chance)
    for number in range(6, 26):
        if chance.random() < 0.3:
            cabinet = open_cabinet(path)
        stroke(chance, path)(cabinet, number, chance)
        if index_of(path).exists():
            same_knowledge(path)
    same = open_cabinet(path)
    met = {one.id for one in same.records()}
    assert all(same.has_met(one) for one in met)
    assert [one.id for one in same.stash.records()] == list(met) or len(met) == len(same.records())


Stroke = Callable[[Cabinet, int, random.Random], object]


def stroke(chance: random.Random, path: Path) -> Stroke:
    def file(cabinet: Cabinet, number: int, chance: random.Random) -> None:
        cabinet.take(some_tag(number, chance))

    def correct(cabinet: Cabinet, number: int, chance: random.Random) -> None:
        one = chance.choice(cabinet.records())
        cabinet.correct({one.id: {"shade": f"Otter {number}", "maker": "Hollin Fold"}})

    def withdraw(cabinet: Cabinet, number: int, chance: random.Random) -> None:
        if len(cabinet.records()) > 3:
            cabinet.withdraw([chance.choice(cabinet.records()).id])

    def undo(cabinet: Cabinet, number: int, chance: random.Random) -> None:
        if last := cabinet.history.last_stroke():
            with suppress(CannotUndo):  # an edit came between
                cabinet.undo(last)

    def edit(cabinet: Cabinet, number: int, chance: random.Random) -> None:
        edit_a_shade(path, chance)

    return chance.choice((file, file, correct, withdraw, undo, edit))


def edit_a_shade(path: Path, chance: random.Random) -> None:
    """Change a row in place with a letter for a letter, as an editor may: the file stays as
    long as it is, and the same file."""
    rows = list(csv.reader(path.open(encoding="utf-8", newline="")))
    row = chance.choice(rows[1:])
    column = rows[0].index("shade")
    row[column] = row[column][:-1] + chance.choice("bdfgklm")
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows(rows)


def test_an_edit_in_place_before_rows_are_added_is_seen(tmp_path: Path) -> None:
    """What size, place and the last bytes before would not tell."""
    chance, path = random.Random(8), tmp_path / "stash.csv"
    filled(path, 6, chance)
    assert index_of(path).exists()
    edit_a_shade(path, chance)
    assert open_cabinet(path).recall(open_cabinet(path).stash.read().mark) is None
    open_cabinet(path).take(some_tag(50, chance))
    shades = {one.shade for one in open_cabinet(path).records()}
    known = Knowledge(open_cabinet(path))
    known.refresh()
    assert all(known.shades.everything.same(shade) for shade in shades)


def test_an_index_that_is_broken_newer_or_of_an_older_stash_is_not_used(tmp_path: Path) -> None:
    chance, path = random.Random(9), tmp_path / "stash.csv"
    filled(path, 6, chance)
    whole = index_of(path).read_bytes()
    newer = whole.replace(b"1 of stash", b"9 of stash")
    assert newer != whole
    for data in (b"", b"rubbish", whole[: len(whole) // 2], newer):
        index_of(path).write_bytes(data)
        assert IndexFile(index_of(path)).load() is None
        assert len(open_cabinet(path).records()) == 6
        assert open_cabinet(path).has_met(record_id(f"{3:064x}", 1))


def test_a_kill_between_the_list_of_what_is_written_and_the_row_is_no_record(
    tmp_path: Path,
) -> None:
    """The list says that a row was written; the stash, which was not reached, that it was not."""
    chance, path = random.Random(10), tmp_path / "stash.csv"
    filled(path, 6, chance)
    written = path.with_suffix(".written.jsonl")
    stash = path.read_bytes()
    open_cabinet(path).take(some_tag(60, random.Random(11)))
    path.write_bytes(stash)
    lost = some_tag(60, random.Random(11))
    assert written.read_bytes().count(b"\n") == 8
    cabinet = open_cabinet(path)
    assert not cabinet.has_met(record_id(lost.digest, 1))
    assert cabinet.take(lost).record is not None
    assert len(open_cabinet(path).records()) == 7


def test_two_rows_of_one_id_make_no_index(tmp_path: Path) -> None:
    one = some_record(1, random.Random(1))
    file = IndexFile(tmp_path / "stash.index.arrow")
    file.write(table_of([one, one]), 0)
    assert file.load() is None


def test_a_folder_in_the_place_of_the_list_of_what_is_written_is_named(tmp_path: Path) -> None:
    path = tmp_path / "stash.written.jsonl"
    path.mkdir()
    written = Written(path)
    for use in (written.rows, written.end, lambda: written.rows_after(0)):
        with pytest.raises(BadStash) as caught:
            use()
        assert str(caught.value) == (
            f"{path} cannot be read (Is a directory); "
            "see what stands there, and that you may read it"
        )


def test_a_list_of_what_is_written_that_was_cut_short_tells_nothing_of_after(
    tmp_path: Path,
) -> None:
    path = tmp_path / "stash.csv"
    cabinet = filled(path, 3, random.Random(1))
    written = Written(cabinet.stash.path.with_suffix(".written.jsonl"))
    end = written.end()
    assert written.rows_after(end) == {}
    os.truncate(written.path, end - 1)
    assert written.rows_after(end) is None
