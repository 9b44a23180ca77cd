"""Yarn numbers: how long yarn is for its mass, in the trade's ways of saying it.

A length stands for its mass at standard air (20 °C, 65 % relative humidity, ISO 139).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from intake.errors import BadAmount
from intake.fields.amounts.units import GRAMS_PER_OUNCE, GRAMS_PER_POUND, METRES_PER_YARD
from intake.fields.amounts.weight import usual_category
from intake.wording import number_text

WRAPS_PER_ROOT_YARDS_PER_POUND = 0.37
"""Wraps per inch over the square root of yards per pound.  The root because a yarn's section
grows with its mass per length; the figure is fitted by eye to the spinners' usual wraps for
each category (7 for bulky to 18 for lace), from memory: common practice, no source."""

WRAPS_WITHIN = 0.25
"""How far an estimate of wraps may be off, as a part of it: lofty and hard-twisted yarns
differ so much.  Common practice, no source."""


@dataclass(frozen=True, slots=True)
class YarnNumber:
    """A yarn's fineness, kept as grams per 1000 m (tex, ISO 1144); all else follows."""

    tex: float

    def __post_init__(self) -> None:
        if not 0 < self.tex < math.inf:
            raise BadAmount(f"no yarn has {number_text(self.tex)} tex; give one above 0")

    @property
    def metric_number(self) -> float:
        """Metres per gram (Nm)."""
        return 1000 / self.tex

    @property
    def metres_per_100_g(self) -> float:
        """Metres in 100 g."""
        return 100 * self.metric_number

    @property
    def yards_per_ounce(self) -> float:
        """Yards in an avoirdupois ounce."""
        return self.metric_number * GRAMS_PER_OUNCE / METRES_PER_YARD

    @property
    def yards_per_pound(self) -> float:
        """Yards in an avoirdupois pound."""
        return self.metric_number * GRAMS_PER_POUND / METRES_PER_YARD

    @property
    def estimated_wraps_per_inch(self) -> float:
        """Wraps round a ruler's inch: an estimate, good to :data:`WRAPS_WITHIN`."""
        return WRAPS_PER_ROOT_YARDS_PER_POUND * math.sqrt(self.yards_per_pound)

    @property
    def wraps_range(self) -> tuple[float, float]:
        """The fewest and the most wraps per inch that the estimate allows."""
        wraps = self.estimated_wraps_per_inch
        return wraps * (1 - WRAPS_WITHIN), wraps * (1 + WRAPS_WITHIN)

    @property
    def likely_weight_class(self) -> str:
        """The category that such yarn most often has: a hint, never a reading.

        *Spin Off* magazine, Yarn Standards handout, built on the Craft Yarn Council's
        categories; by its own words a rough guide.  Jumbo is not told from super bulky.
        """
        return usual_category(self.metric_number, 1.0)


def yarn_number(length_m: float, mass_g: float) -> YarnNumber:
    """The number of yarn that is ``length_m`` metres long at ``mass_g`` grams.
    Raises :class:`~intake.errors.BadAmount` where either is not above 0."""
    for amount, unit in ((length_m, "m"), (mass_g, "g")):
        if not 0 < amount < math.inf:
            raise BadAmount(f"no yarn has {number_text(amount)} {unit}; give one above 0")
    return YarnNumber(1000 * mass_g / length_m)
