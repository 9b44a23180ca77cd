"""A ball as the sums see it: its tag, what its maker leaves unsaid, and what is left."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from intake.filing.record import Record


@dataclass(frozen=True, slots=True)
class Weighing:
    """What was left of a ball when it was last weighed, at ``at`` (UTC, ISO 8601).

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
    """One ball of the stash.

    ``assumed`` maps columns on which the tag is silent to what the maker sheet says
    holds then, as cell text; it never has a column that the tag fills.
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
    def length_m(self) -> float | None:
        """Metres on a whole ball, as printed or assumed."""
        return self._number(self.record.length_m, "length_m")

    @property
    def mass_g(self) -> float | None:
        """Grams of a whole ball, as printed or assumed."""
        return self._number(self.record.mass_g, "mass_g")

    @property
    def left_m(self) -> float | None:
        """Metres that are left: as last weighed, else a whole ball's."""
        return self.weighing.length_m if self.weighing else self.length_m

    @property
    def left_g(self) -> float | None:
        """Grams at standard air that are left: as last weighed, else a whole ball's."""
        return self.weighing.mass_g if self.weighing else self.mass_g

    def _number(self, printed: float | None, column: str) -> float | None:
        if printed is not None:
            return printed
        return float(self.assumed[column]) if column in self.assumed else None
