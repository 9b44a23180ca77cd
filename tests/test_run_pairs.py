"""Drawn pairs of pictures through the whole intake: no ball twice, none lost, unasked."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from fixtures import shooting
from fixtures.catalogue import pick_ball
from fixtures.draw import on_white
from fixtures.faces import by_role
from fixtures.layouts import LAYOUTS, draw_tag
from fixtures.pairs import CASES, draw_pair
from intake.filing.cabinet import open_cabinet
from intake.filing.sides import SIDE
from intake.records import Outcome
from intake.run import intake

pytestmark = pytest.mark.slow


@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("number", [1, 2])
def test_one_tag_is_one_record_and_another_ball_another_or_it_is_asked(
    case: str, number: int, tmp_path: Path
) -> None:
    pair = draw_pair(case, "unseen", 3 * number, np.random.default_rng([40, number]))
    for name, shot in zip(("day1_4711.jpg", "day9_0815.jpg"), pair.shots, strict=True):
        shot.image.save(tmp_path / name, quality=92)
    stash = tmp_path / "stash.csv"
    list(intake([tmp_path / "day1_4711.jpg"], stash, jobs=1))
    results = list(intake([tmp_path / "day9_0815.jpg"], stash, jobs=1))
    cabinet = open_cabinet(stash)
    if any(result.outcome is Outcome.QUEUED for result in results) or cabinet.waiting():
        return  # it was asked about, and nothing is lost
    balls = {record.tag_picture for record in cabinet.records()}
    assert len(balls) == (1 if pair.is_same else 2)


def test_front_and_back_of_a_drawn_tag_are_asked_about_and_joined(tmp_path: Path) -> None:
    rng = np.random.default_rng(7)
    faces = tuple(by_role(role)[0] for role in ("body", "display", "stamp"))
    drawn = draw_tag(pick_ball(rng), LAYOUTS["folded_pair"], faces, rng)  # type: ignore[arg-type]
    middle = drawn.image.width // 2
    sides = (
        drawn.image.crop((0, 0, middle - 2, drawn.image.height)),
        drawn.image.crop((middle + 2, 0, drawn.image.width, drawn.image.height)),
    )
    for number, side in enumerate(sides, 1):
        shooting.scan(on_white(side).convert("RGBA"), rng).save(
            tmp_path / f"IMG_000{number}.jpg", quality=92
        )
    stash = tmp_path / "stash.csv"
    results = list(intake([tmp_path / f"IMG_000{number}.jpg" for number in (1, 2)], stash, jobs=1))
    cabinet = open_cabinet(stash)
    asked = cabinet.get(results[1].id).doubts
    assert asked[0].field == SIDE
    assert results[0].id in asked[0].reason
