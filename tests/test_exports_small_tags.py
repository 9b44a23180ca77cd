"""Small tags on paper: rendered by PDFium, their codes read by ZXing, and read by intake."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import PIL.Image
import pypdfium2
import pytest
import zxingcpp
from exports_stash import WEIGHED, balls_of_lots, balltag, cabinet_with
from filing_tags import plain_record, record

from intake.exports.paper import Paper
from intake.exports.small_tags import A_PAGE, HEIGHT_MM, WIDTH_MM, write_small_tags
from intake.exports.tag_words import tag_words
from intake.filing.cabinet import Cabinet
from intake.filing.record import Record
from intake.records import Outcome
from intake.run import intake
from intake.sums.ball import Ball, Weighing
from intake.sums.balls import balls

MM = 72 / 25.4


def written(folder: Path, *some: Ball, paper: Paper = Paper.A4) -> pypdfium2.PdfDocument:
    path = folder / "tags.pdf"
    write_small_tags(some, path, paper)
    return pypdfium2.PdfDocument(path)


def balls_of(*records: Record) -> list[Ball]:
    return [Ball(one) for one in records]


def page_image(pdf: pypdfium2.PdfDocument, page: int = 0, dpi: float = 150) -> PIL.Image.Image:
    image = pdf[page].render(scale=dpi / 72).to_pil()
    assert isinstance(image, PIL.Image.Image)
    return image


def codes(image: PIL.Image.Image) -> set[str]:
    return {one.text for one in zxingcpp.read_barcodes(image)}


def text_of(pdf: pypdfium2.PdfDocument, page: int = 0) -> str:
    return str(pdf[page].get_textpage().get_text_range())


def test_every_tag_has_a_code_with_its_records_id(tmp_path: Path) -> None:
    records = balls_of_lots(*(f"{lot:04}" for lot in range(A_PAGE + 1)))
    pdf = written(tmp_path, *balls_of(*records))
    assert len(pdf) == 2
    read = [codes(page_image(pdf, page)) for page in (0, 1)]
    assert read[0] == {f"balltag:{one.id}" for one in records[:A_PAGE]}
    assert read[1] == {f"balltag:{records[-1].id}"}


@pytest.mark.parametrize(
    ("paper", "size_mm"), [(Paper.A4, (210, 297)), (Paper.LETTER, (215.9, 279.4))]
)
def test_tags_lie_within_the_paper(
    paper: Paper, size_mm: tuple[float, float], tmp_path: Path
) -> None:
    # ISO 216 for A4; ANSI/ASME Y14.1 for Letter (8.5 x 11 in).
    pdf = written(tmp_path, *balls_of(*balls_of_lots(*"123456789ABC")), paper=paper)
    assert [side / MM for side in pdf[0].get_size()] == pytest.approx(size_mm, abs=0.1)
    ink = page_image(pdf).convert("L").point(lambda grey: 255 if grey < 128 else 0).getbbox()
    assert ink is not None
    width, height = page_image(pdf).size
    rim_px = 6 / 25.4 * 150  # what common printers leave white (common practice, no source)
    assert min(ink[0], ink[1], width - ink[2], height - ink[3]) > rim_px


def test_a_tag_says_what_is_needed(tmp_path: Path) -> None:
    weighing = Weighing("2026-05-01T10:00:00Z", 14.8, 0.9, 62.2, 3.6)
    ball = Ball(record(lot="00412", care=""), {"care": "hand wash"}, weighing)
    text = text_of(written(tmp_path, ball))
    for words in ("Kelp 041", "lot 00412", "62.2 m ± 3.6 m left, 2026-05-01", "Quillstow Spinners",
                  "75% wool (merino)", "hand wash (assumed)", ball.record.id):  # fmt: skip
        assert words in text


def test_a_whole_ball_and_one_of_unknown_length_say_so() -> None:
    assert tag_words(Ball(record())).left.text == "210 m, whole ball"
    unknown = replace(record(), length_m=None)
    assert tag_words(Ball(unknown)).left.text == "metres not known"
    assumed = tag_words(Ball(unknown, {"length_m": "200"})).left
    assert (assumed.text, assumed.assumed) == ("200 m, whole ball (assumed)", True)


def test_all_latin_letters_are_in_faces_that_the_file_brings(tmp_path: Path) -> None:
    shade = "Sørøy ğŁőżÆßŠŹ"
    pdf = written(tmp_path, *balls_of(record(shade=shade, shade_code="")))
    assert shade in text_of(pdf)
    assert b"Helvetica" not in (tmp_path / "tags.pdf").read_bytes()


def test_a_long_lot_is_made_smaller_and_not_cut(tmp_path: Path) -> None:
    lot = "W" * 40
    pdf = written(tmp_path, *balls_of(record(lot=lot)))
    assert f"lot {lot}" in text_of(pdf)
    page = pdf[0].get_textpage()
    start = page.get_text_range().index(lot)
    rights = [page.get_charbox(place)[2] for place in range(start, start + len(lot))]
    tag_left = (pdf[0].get_size()[0] - 2 * WIDTH_MM * MM) / 2
    assert max(rights) < tag_left + WIDTH_MM * MM - 20 * MM  # left of the code


def test_words_without_a_space_stay_clear_of_the_code(tmp_path: Path) -> None:
    long = "Kammgarnspinnereigenossenschaft" * 3
    ball = record(maker=long, shade=long, care=long)
    pdf = written(tmp_path, *balls_of(ball))
    assert codes(page_image(pdf)) == {f"balltag:{ball.id}"}


def test_words_that_fit_at_no_size_end_in_dots(tmp_path: Path) -> None:
    care = "; ".join(["do not tumble dry"] * 60)
    pdf = written(tmp_path, *balls_of(record(care=care)))
    page = pdf[0].get_textpage()
    text = page.get_text_range()
    assert "…" in text
    boxes = [page.get_charbox(place) for place in range(page.count_chars()) if text[place].strip()]
    top = (pdf[0].get_size()[1] + 6 * HEIGHT_MM * MM) / 2
    assert min(box[1] for box in boxes) > top - HEIGHT_MM * MM


def test_the_command_prints_weighed_balls_or_those_that_are_named(tmp_path: Path) -> None:
    cabinet = cabinet_with(tmp_path, *balls_of_lots("0012", "4477", "00412"))
    nothing = balltag(tmp_path, "tags", "tags.pdf")
    assert (nothing.returncode, nothing.stderr.count("\n")) == (2, 1)
    first, second, third = cabinet.records()
    cabinet.weigh(second.id, WEIGHED)
    assert balltag(tmp_path, "tags", "tags.pdf").returncode == 0
    pdf = pypdfium2.PdfDocument(tmp_path / "tags.pdf")
    assert codes(page_image(pdf)) == {f"balltag:{second.id}"}
    named = balltag(tmp_path, "tags", "named.pdf", "00412", first.id, "--paper", "letter")
    assert named.returncode == 0, named.stderr
    pdf = pypdfium2.PdfDocument(tmp_path / "named.pdf")
    assert codes(page_image(pdf)) == {f"balltag:{first.id}", f"balltag:{third.id}"}
    assert balltag(tmp_path, "tags", "stash.csv", "00412").returncode == 2
    assert len(Cabinet(cabinet.stash).records()) == 3


def on_a_table(pdf: pypdfium2.PdfDocument, path: Path) -> Path:
    """A photograph's stand-in of the first tag, cut out: a little turned, on a table."""
    dpi = 200
    page = page_image(pdf, dpi=dpi)
    left = (page.width - 2 * WIDTH_MM / 25.4 * dpi) / 2
    top = (page.height - 6 * HEIGHT_MM / 25.4 * dpi) / 2
    size = (WIDTH_MM / 25.4 * dpi, HEIGHT_MM / 25.4 * dpi)
    cut = page.crop((int(left), int(top), int(left + size[0]), int(top + size[1])))
    wood = (120, 100, 90)
    table = PIL.Image.new("RGB", (1200, 900), wood)
    table.paste(
        cut.rotate(7, PIL.Image.Resampling.BICUBIC, expand=True, fillcolor=wood), (200, 200)
    )
    table.save(path, quality=85)
    return path


def test_intake_knows_a_printed_tag_as_its_record_and_asks_about_a_foreign_one(
    tmp_path: Path,
) -> None:
    cabinet = cabinet_with(tmp_path, record(lot="00412"))
    (known,) = balls(cabinet)
    own = on_a_table(written(tmp_path, known), tmp_path / "own.jpg")
    elsewhere = Ball(replace(plain_record("other.jpg", 3), lot="7730"))
    foreign = on_a_table(written(tmp_path, elsewhere), tmp_path / "foreign.jpg")
    results = list(intake([own, foreign], cabinet.stash.path, jobs=1))
    assert [result.outcome for result in results] == [Outcome.ALREADY, Outcome.QUEUED]
    assert f"printed by balltag for record {known.record.id}" in results[0].reason
    assert elsewhere.record.id in results[1].reason
    assert [one.id for one in Cabinet(cabinet.stash).records()] == [known.record.id]
