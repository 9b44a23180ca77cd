"""What a small tag for a part ball says."""

from __future__ import annotations

from dataclasses import dataclass

from intake.exports.book import ASSUMED_MARK
from intake.sums.ball import Ball
from intake.wording import number_text


@dataclass(frozen=True, slots=True)
class Words:
    """One entry on a tag; ``assumed`` where it is the maker sheet's and not the tag's."""

    text: str
    assumed: bool = False


@dataclass(frozen=True, slots=True)
class TagWords:
    """The entries of one tag: ``shade`` and ``lot`` stand large, ``left`` below them, the
    others small, each wrapped."""

    shade: Words
    lot: Words
    left: Words
    others: tuple[Words, ...]


def tag_words(ball: Ball) -> TagWords:
    """The words on the tag of ``ball``."""
    record = ball.record
    shade = " ".join(filter(None, (record.shade, record.shade_code)))
    yarn = " ".join(filter(None, (record.maker, record.range)))
    others = (Words(yarn), _entry(ball, "fibre"), _entry(ball, "care"))
    return TagWords(
        Words(shade or "shade not known"),
        Words(f"lot {record.lot}" if record.lot else "lot not known"),
        _left(ball),
        tuple(words for words in others if words.text),
    )


def _entry(ball: Ball, column: str) -> Words:
    text, assumed = ball.text(column), ball.is_assumed(column)
    return Words(text + ASSUMED_MARK if assumed else text, assumed)


def _left(ball: Ball) -> Words:
    """The metres on the ball, and when they were weighed."""
    weighing, length_m = ball.weighing, ball.left_m
    if length_m is None:
        return Words("metres not known")
    assumed = ball.is_assumed("length_m")
    mark = ASSUMED_MARK if assumed else ""
    if weighing is None:
        return Words(f"{number_text(length_m)} m, whole ball{mark}", assumed)
    give_or_take = number_text(weighing.length_uncertainty_m)
    return Words(
        f"{number_text(length_m)} m ± {give_or_take} m left, {weighing.at[:10]}{mark}", assumed
    )
