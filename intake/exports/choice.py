"""Which balls are exported: by the day of filing and by what their columns hold."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from intake.errors import BadQuery
from intake.exports.book import moment
from intake.filing.record import COLUMNS, NUMBERS
from intake.sums.ball import Ball
from intake.wording import number_text


@dataclass(frozen=True, slots=True)
class Condition:
    """A column must hold a text, whatever its capitals."""

    column: str
    text: str

    def holds(self, ball: Ball) -> bool:
        """Whether ``ball`` is so, be it by its tag or by its maker sheet."""
        if self.column in NUMBERS:
            amounts = {"length_m": ball.length_m, "mass_g": ball.mass_g, "balls": ball.count}
            amount = amounts[self.column]
            return amount is not None and number_text(amount) == self.text
        return ball.text(self.column).casefold() == self.text.casefold()


def condition(written: str) -> Condition:
    """The condition written as ``shade=Kelp``.  Raises :class:`BadQuery`."""
    column, equals, text = written.partition("=")
    column, text = column.strip(), text.strip()
    if not equals or column not in COLUMNS:
        raise BadQuery(
            f"{written!r} is no condition; write COLUMN=TEXT, COLUMN being one of "
            f"{', '.join(COLUMNS)}"
        )
    if column in NUMBERS and text:
        text = _number_text(written, text)
    return Condition(column, text)


def day(written: str) -> date:
    """The day written as ``2025-03-09``.  Raises :class:`BadQuery`."""
    try:
        return date.fromisoformat(written)
    except ValueError as error:
        raise BadQuery(f"{written!r} is no day; write it as 2025-03-09") from error


def chosen(
    balls: Iterable[Ball], conditions: Sequence[Condition] = (), since: date | None = None
) -> list[Ball]:
    """The balls that meet all ``conditions`` and were filed on the day ``since`` (UTC) or
    later."""
    return [
        ball
        for ball in balls
        if all(one.holds(ball) for one in conditions) and (since is None or _filed(ball, since))
    ]


def _filed(ball: Ball, since: date) -> bool:
    filed = moment(ball.record.filed_at)
    return filed is not None and filed.date() >= since


def _number_text(written: str, text: str) -> str:
    try:
        return number_text(float(text))
    except ValueError as error:
        raise BadQuery(f"{written!r} asks for a number; write it as length_m=87.5") from error
