"""The balls of one tag as the sums see them: the tag, what its maker leaves unsaid, and what
is left."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from intake.filing.record import Record


@dataclass(frozen=True, slots=True)
class Weighing:
    """What was left of one ball when it was last weighed, at ``at`` (UTC, ISO 8601).

    ``mass_g`` is the yarn's mass at standard air (20 °C, 65 % relative humidity, ISO
    139), ``length_m`` the metres it makes; each plus or minus its uncertainty.
    """

    at: str
    mass_g: float
    mass_uncertainty_g: float
    length_m: float
    length_uncertainty_m: float


@dataclass(frozen=True, slots=True)
class Ball:
    """The ball of one record, or the balls: a tag may stand for several that are alike.

    ``assumed`` maps columns on which the tag is silent to what the maker sheet says
    holds then, as cell text; it never has a column that the tag fills.  ``weighing`` is
    of one of the balls; the others are whole.
    """

    record: Record
    assumed: Mapping[str, str] = field(default_factory=dict)
    weighing: Weighing | None = None

    def text(self, column: str) -> str:
        """A column's cell text: the tag's, else the assumed one, else empty."""
        return str(getattr(self.record, column) or "") or self.assumed.get(column, "")

    def is_assumed(self, column: str) -> bool:
        """Whether :meth:`text` gives what the maker sheet assumes."""
        return column in self.assumed

    @property
    def count(self) -> int:
        """How many balls there are."""
        return self.record.balls

    def each(self) -> tuple[Ball, ...]:
        """The balls one by one, the weighed one first."""
        if self.count == 1:
            return (self,)
        record = replace(self.record, balls=1)
        first, other = Ball(record, self.assumed, self.weighing), Ball(record, self.assumed)
        return (first, *[other] * (self.count - 1))

    @property
    def length_m(self) -> float | None:
        """Metres on a whole ball, as printed or assumed."""
        return self._number(self.record.length_m, "length_m")

    @property
    def mass_g(self) -> float | None:
        """Grams of a whole ball, as printed or assumed."""
        return self._number(self.record.mass_g, "mass_g")

    @property
    def left_m(self) -> float | None:
        """Metres that are left on all: as last weighed, else whole balls'."""
        return self._left(self.weighing.length_m if self.weighing else None, self.length_m)

    @property
    def left_g(self) -> float | None:
        """Grams at standard air that are left of all: as last weighed, else whole balls'."""
        return self._left(self.weighing.mass_g if self.weighing else None, self.mass_g)

    def _left(self, weighed: float | None, whole: float | None) -> float | None:
        """What all balls come to, one of them as ``weighed``, ``None`` where that or the
        amount of a whole one would have to be known and is not."""
        wholes = self.count if weighed is None else self.count - 1
        if not wholes:
            return weighed
        return None if whole is None else (weighed or 0.0) + wholes * whole

    def _number(self, printed: float | None, column: str) -> float | None:
        if printed is not None:
            return printed
        return float(self.assumed[column]) if column in self.assumed else None
