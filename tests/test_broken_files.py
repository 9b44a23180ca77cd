"""Broken files of every kind are read or named in one line: no crash, no hang, no change."""

from __future__ import annotations

import io
import os
import random
import re
import resource
import signal
import subprocess
import sys
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import numpy as np
import PIL.ExifTags
import pillow_heif
import pytest
from filing_tags import tag, use_cabinet, waiting_tag
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image

from intake.errors import BalltagError, ExitCode, PictureError
from intake.exports.reading_back import read_back
from intake.filing.cabinet import open_cabinet
from intake.filing.check import Check
from intake.filing.kinds import open_stash
from intake.filing.learnt import Learnt
from intake.filing.store import Store
from intake.pictures.load import pages
from intake.sums.maker_sheet import MakerLine, read_maker_sheet, write_maker_sheet

Mutation = Callable[[bytes], bytes]

SPLICES = [b"", b"\x00", b"\n", b"\r", b'"', b",", b";", b"\t", b"{", b"}", b"[", b"null", b"-1",
           b"1e999", b"NaN", b"\xff", b"\xff\xfe", b"\xef\xbb\xbf", b"\xc3", b'{"version":1}',
           b"99999999999999999999", b"version", b"id", b"\\ud800", b"x" * 70_000]  # fmt: skip


@st.composite
def mutations(draw: st.DrawFn) -> Mutation:
    """Some cuts of a file replaced by others."""
    cuts = draw(
        st.lists(
            st.tuples(
                st.floats(0, 1),
                st.integers(0, 40),
                st.one_of(st.sampled_from(SPLICES), st.binary()),
            ),
            max_size=4,
        )
    )
    keep = draw(st.floats(0, 1)) if draw(st.booleans()) else 1.0

    def mutate(data: bytes) -> bytes:
        for place, length, splice in cuts:
            at = int(place * len(data))
            data = data[:at] + splice + data[at + length :]
        return data[: int(keep * len(data))]

    return mutate


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A stash with all that can lie beside it."""
    path = tmp_path_factory.mktemp("whole") / "stash.csv"
    cabinet = open_cabinet(path)
    filed = [cabinet.file(tag(f"{one}.jpg", shade=f"Tide {one}")).id for one in "abc"]
    waiting = [cabinet.take(waiting_tag(f"{one}.jpg", shade=f"Fen {one}")).id for one in "xyz"]
    cabinet.correct({filed[0]: {"lot": "0100", "shade": "Tarn"}})
    cabinet.resolve(waiting[0], {"lot": "0990", "maker": "Quillstow Mill"})
    cabinet.undo(cabinet.history.last_stroke())
    write_maker_sheet(cabinet.stash, [MakerLine("Quillstow Spinners", says={"fibre": "100% wool"})])
    return path


def read_stash(path: Path) -> None:
    open_stash(path).records()
    list(open_stash(path).rows())


PARTS: dict[str, tuple[Callable[[Path], Path], list[Callable[[Path], object]]]] = {
    "stash": (lambda path: path, [read_stash, lambda path: open_stash(path).table(), use_cabinet]),
    "a sheet": (lambda path: path, [read_back]),
    "history": (lambda path: path.with_suffix(".history.jsonl"), [use_cabinet]),
    "learnt": (
        lambda path: path.with_suffix(".learnt.jsonl"),
        [lambda path: Learnt(path.with_suffix(".learnt.jsonl"), Store(open_stash(path)).history)
         .lessons()],
    ),
    "written": (
        lambda path: path.with_suffix(".written.jsonl"),
        [lambda path: Store(open_stash(path)).written.rows(), use_cabinet],
    ),
    "queue": (
        lambda path: min(path.with_suffix(".queue").glob("*.json")),
        [use_cabinet],
    ),
    "maker sheet": (
        lambda path: path.with_suffix(".makers.csv"),
        [lambda path: read_maker_sheet(open_stash(path))],
    ),
}  # fmt: skip


def said_by(use: Callable[[Path], object], path: Path) -> str:
    try:
        use(path)
    except BalltagError as error:
        return str(error)
    return "read"


def one_line_each(path: Path, part: str, mutate: Mutation) -> None:
    where, uses = PARTS[part]
    file = where(path)
    sound = file.read_bytes()
    broken = mutate(sound)
    # A file that is given a later moment, as one that another program wrote.
    try:
        for use in [*uses, lambda path: Check(Store(open_stash(path))).findings()]:
            file.write_bytes(broken)
            later_ns = file.stat().st_mtime_ns + 1_000_000_000
            os.utime(file, ns=(later_ns, later_ns))
            said = said_by(use, path)
            assert len(said.splitlines()) == 1, said
            assert len(said) < 2000
            # A history cut short makes its last stroke one that is to be carried out.
            whole = broken[: broken.rfind(b"\n") + 1] if part == "history" else broken
            assert file.read_bytes().startswith(whole)
            assert part == "history" or file.read_bytes() == broken
    finally:
        file.write_bytes(sound)


few = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
many = settings(max_examples=500, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@pytest.mark.parametrize("part", PARTS)
@few
@given(mutate=mutations())
def test_a_broken_part_is_read_or_named_in_one_line(
    whole: Path, part: str, mutate: Mutation
) -> None:
    one_line_each(whole, part, mutate)


@pytest.mark.slow
@pytest.mark.parametrize("part", PARTS)
@many
@given(mutate=mutations())
def test_many_broken_parts_are_read_or_named_in_one_line(
    whole: Path, part: str, mutate: Mutation
) -> None:
    one_line_each(whole, part, mutate)


# Pictures

LONGEST_S = 20
MOST_BYTES = 1_500_000_000


def saved(kind: str, mode: str = "RGB", **how: object) -> bytes:
    pixels = np.random.default_rng(7).integers(0, 255, (60, 90, 3), dtype=np.uint8)
    data = io.BytesIO()
    if kind == "HEIF":
        pillow_heif.register_heif_opener()
    Image.fromarray(pixels).convert(mode).save(data, kind, **how)
    return data.getvalue()


def turned_by_exif() -> bytes:
    exif = Image.Exif()
    exif[PIL.ExifTags.Base.Orientation] = 6
    return saved("JPEG", exif=exif)


PICTURES: dict[str, Callable[[], bytes]] = {
    "JPEG": lambda: saved("JPEG"),
    "progressive JPEG": lambda: saved("JPEG", progressive=True),
    "JPEG of four inks": lambda: saved("JPEG", "CMYK"),
    "turned JPEG": turned_by_exif,
    "PNG": lambda: saved("PNG"),
    "PNG of a palette": lambda: saved("PNG", "P"),
    "PNG of 16 bits": lambda: saved("PNG", "I;16"),
    "TIFF": lambda: saved("TIFF"),
    "deflated TIFF": lambda: saved("TIFF", compression="tiff_adobe_deflate"),
    "TIFF with LZW": lambda: saved("TIFF", compression="tiff_lzw"),
    "TIFF with JPEG": lambda: saved("TIFF", compression="jpeg"),
    "packed TIFF": lambda: saved("TIFF", compression="packbits"),
    "fax": lambda: saved("TIFF", "1", compression="group4"),
    "TIFF of pages": lambda: saved(
        "TIFF", save_all=True, append_images=[Image.new("L", (80, 60), 90)] * 2
    ),
    "WebP": lambda: saved("WEBP"),
    "lossless WebP": lambda: saved("WEBP", "RGBA", lossless=True),
    "HEIC": lambda: saved("HEIF"),
    "PDF": lambda: saved("PDF"),
}


def broken_picture(sound: bytes, seed: int) -> bytes:
    """Bytes set, taken out, put in, doubled or cut off, half of them near the head, where the
    sizes stand."""
    chance, data = random.Random(seed), bytearray(sound)
    for _ in range(chance.choice([1, 1, 2, 5, 40])):
        reach = min(len(data), 200) if chance.random() < 0.5 else len(data)
        at, length = chance.randrange(max(reach, 1)), chance.choice([1, 1, 2, 4, 16])
        what = chance.random()
        if what < 0.6:
            data[at : at + length] = (
                chance.choice([b"\xff", b"\x00", b"\x7f", chance.randbytes(1)]) * length
            )
        elif what < 0.75:
            del data[at : at + length]
        elif what < 0.9:
            data[at:at] = data[at : at + length * 8]
        else:
            del data[at:]
    return bytes(data)


def load_broken(folder: Path, kind: str, first: int, count: int) -> tuple[int, int]:
    """Load broken pictures in a process of its own.  How many were refused, and the most
    memory it took, in bytes."""
    sound = PICTURES[kind]()
    inward, outward = os.pipe()
    child = os.fork()
    if child == 0:
        os._exit(_load_each(folder / "picture", sound, range(first, first + count), outward))
    os.close(outward)
    with os.fdopen(inward) as lines:
        told = lines.read().splitlines()
    _, status = os.waitpid(child, 0)
    assert status == 0, f"{kind}: {told[-1:]}"
    return sum(line.endswith("refused") for line in told), int(told[-1].split()[-1])


def _load_each(file: Path, sound: bytes, seeds: range, out: int) -> int:
    signal.signal(signal.SIGALRM, signal.SIG_DFL)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss  # what the forking process holds
    for seed in seeds:
        os.write(out, f"seed {seed}\n".encode())
        file.write_bytes(broken_picture(sound, seed))
        signal.alarm(LONGEST_S)
        try:
            for page in pages(file):
                assert page.image.ndim == 3
        except PictureError as error:
            if len(str(error).splitlines()) != 1:
                return 2
            os.write(out, f"{seed} refused\n".encode())
        except BaseException as error:
            with suppress(OSError):
                os.write(out, f"seed {seed}: {error!r}\n".encode())
            return 1
        signal.alarm(0)
    most = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) * 1024
    os.write(out, f"most {most}\n".encode())
    return 0


@pytest.mark.parametrize("kind", PICTURES)
def test_broken_pictures_are_loaded_or_named(tmp_path: Path, kind: str) -> None:
    refused, most = load_broken(tmp_path, kind, 0, 60)
    assert refused > 5
    assert most < MOST_BYTES


def test_each_broken_picture_is_one_line_whatever_libraries_print(
    tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    box = tmp_path / "box"
    box.mkdir()
    for name, how in (("a", "jpeg"), ("b", "packbits"), ("c", "tiff_adobe_deflate")):
        data = bytearray(saved("TIFF", compression=how))
        for place in range(len(data) // 3, len(data) // 2, 7):
            data[place] ^= 0x5A
        (box / f"{name}.tif").write_bytes(data)
        with suppress(PictureError):
            list(pages(box / f"{name}.tif"))
    assert capfd.readouterr().err.splitlines()  # by the libraries
    done = subprocess.run(
        [sys.executable, "-m", "intake", "intake", box, "--stash", tmp_path / "stash.csv"],
        capture_output=True, text=True, timeout=300, cwd=Path(__file__).parent.parent,
    )  # fmt: skip
    assert done.returncode == ExitCode.NO_PICTURE
    for name in ("a.tif", "b.tif", "c.tif"):
        told = [line for line in (done.stdout + done.stderr).splitlines() if name in line]
        assert len(told) == 1
    assert not re.search("JPEGLib|Decode|tempfile", done.stdout + done.stderr)


@pytest.mark.slow
@pytest.mark.parametrize("kind", PICTURES)
def test_thousands_of_broken_pictures_are_loaded_or_named(tmp_path: Path, kind: str) -> None:
    refused, most = load_broken(tmp_path, kind, 1000, 3000)
    print(f"{kind}: {refused} of 3000 refused, at most {most / 1e6:.0f} MB")
    assert most < MOST_BYTES
