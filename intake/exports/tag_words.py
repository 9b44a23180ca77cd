"""What a small tag says: for a part ball, or for several whole ones."""

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
    """The metres on the balls, and when they were weighed."""
    weighing, assumed = ball.weighing, ball.is_assumed("length_m")
    texts = []
    if weighing is not None:
        give_or_take = number_text(weighing.length_uncertainty_m)
        texts = [f"{number_text(weighing.length_m)} m ± {give_or_take} m left, {weighing.at[:10]}"]
    if wholes := ball.count - len(texts):
        texts.append(_wholes(wholes, ball.length_m))
    return Words("; ".join(texts) + (ASSUMED_MARK if assumed else ""), assumed)


def _wholes(count: int, length_m: float | None) -> str:
    """Whole balls, and the metres on each of them."""
    if length_m is None:
        return "metres not known" if count == 1 else f"{count} balls, metres not known"
    metres = f"{number_text(length_m)} m"
    return f"{metres}, whole ball" if count == 1 else f"{count} whole balls of {metres}"
