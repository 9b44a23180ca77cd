"""A part ball on a kitchen scale: metres left, give or take.

The yarn's mass in the room's air is turned into its mass at standard air, for which the tag
states length per mass.  Every source of doubt is a share of the plus-minus, added in
quadrature (GUM, JCGM 100:2008, 5.1.2).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from intake.errors import BadAmount, NotWeighable
from intake.filing.record import utc_now
from intake.records import FibrePart
from intake.sums.air import Air
from intake.sums.ball import Ball, Weighing
from intake.sums.plus_minus import COVERAGE_FACTOR, Figure, shares, twice_rounded, within
from intake.sums.regain import is_known, mass_ratio, regain_range_pct
from intake.wording import fibre_parts, number_text

STEP_G = 1.0
"""The step of a usual kitchen scale."""

WINDING_PCT = 5.0
"""How far a ball's length per mass may be from what its tag says, to either side; common
practice, no source.  (For mass alone, Directive 76/211/EEC, Annex I, 2.4, lets a single pack
of 100 g fall short by 4.5 g.)  It also covers grams that were traded at the agreed allowance
and not at standard air: wool is then 1 % off, linen almost 5 %."""

NEEDED = {"fibre": "fibre", "length_m": "length", "mass_g": "mass"}


@dataclass(frozen=True, slots=True)
class Share:
    """What one source brings to the plus-minus: standard uncertainties of grams and metres."""

    source: str
    words: str
    mass_g: float
    length_m: float


@dataclass(frozen=True, slots=True)
class Whole:
    """A whole ball as its tag or its maker states it, at standard air."""

    parts: tuple[FibrePart, ...]
    length_m: float
    mass_g: float


@dataclass(frozen=True, slots=True)
class Scale:
    """What the scale showed and what is to be taken off (core, tag), in grams; ``step_g`` is
    the step in which it shows both."""

    balance_g: float
    step_g: float = STEP_G
    tare_g: float = 0.0

    def __post_init__(self) -> None:
        if not 0 < self.step_g < math.inf:
            raise BadAmount(f"no scale has steps of {number_text(self.step_g)} g; give one above 0")
        if not 0 <= self.tare_g < math.inf:
            raise BadAmount(f"{number_text(self.tare_g)} g cannot be taken off; give 0 or more")
        if not self.tare_g < self.balance_g < math.inf:
            raise BadAmount(
                f"no yarn is left of {number_text(self.balance_g)} g "
                f"when {number_text(self.tare_g)} g are taken off; weigh again"
            )

    @property
    def net_g(self) -> Figure:
        """The yarn's grams in the room's air; the zero, too, is rounded to a step."""
        taken_off = within(self.tare_g, self.step_g / 2 if self.tare_g else 0.0, "tare")
        return twice_rounded(self.balance_g, self.step_g, "scale") - taken_off


@dataclass(frozen=True, slots=True)
class Weighed:
    """A weighing and how it came about.

    ``budget`` is every source of the plus-minus, the largest first; ``remarks`` are what the
    user should know; ``too_much`` is why this can hardly be a part of the ball, empty
    where it can.
    """

    weighing: Weighing
    whole: Whole
    scale: Scale
    air: Air
    winding_pct: float
    budget: tuple[Share, ...]
    remarks: tuple[str, ...]
    too_much: str

    @property
    def figures(self) -> Mapping[str, str]:
        """The weighing as the history keeps it: cell text by name."""
        numbers = {
            "mass_g": self.weighing.mass_g,
            "mass_uncertainty_g": self.weighing.mass_uncertainty_g,
            "length_m": self.weighing.length_m,
            "length_uncertainty_m": self.weighing.length_uncertainty_m,
            "balance_g": self.scale.balance_g,
            "step_g": self.scale.step_g,
            "tare_g": self.scale.tare_g,
            "humidity_pct": self.air.humidity_pct,
            "humidity_within_pct": self.air.within_pct,
            "winding_pct": self.winding_pct,
            "coverage_factor": COVERAGE_FACTOR,
        }
        return {name: number_text(number) for name, number in numbers.items()}


def weigh(
    ball: Ball,
    balance_g: float,
    *,
    air: Air,
    step_g: float = STEP_G,
    tare_g: float = 0.0,
    winding_pct: float = WINDING_PCT,
) -> Weighed:
    """What is left of ``ball``, which weighs ``balance_g`` grams in ``air``; where its record
    stands for several, of one of them.

    ``step_g`` is the scale's step, ``tare_g`` what is not yarn, ``winding_pct`` how far the
    maker may miss the stated length per mass.  Plus-minuses are standard uncertainties times
    :data:`~intake.sums.plus_minus.COVERAGE_FACTOR`.  Raises
    :class:`~intake.errors.NotWeighable` where the ball's fibre, length or mass is not known
    and :class:`~intake.errors.BadAmount` for figures that cannot be.
    """
    whole = whole_ball(ball)
    scale = Scale(balance_g, step_g, tare_g)
    if not 0 <= winding_pct <= 50:
        raise BadAmount(f"a maker does not wind within {number_text(winding_pct)} %; give 0 to 50")
    mass_g = scale.net_g / mass_ratio(whole.parts, air)
    length_m = mass_g * whole.length_m / whole.mass_g * within(1.0, winding_pct / 100, "winding")
    weighing = Weighing(
        at=utc_now(),
        mass_g=_tenths(mass_g.nominal_value),
        mass_uncertainty_g=_tenths_up(COVERAGE_FACTOR * mass_g.std_dev),
        length_m=_tenths(length_m.nominal_value),
        length_uncertainty_m=_tenths_up(COVERAGE_FACTOR * length_m.std_dev),
    )
    return Weighed(
        weighing=weighing,
        whole=whole,
        scale=scale,
        air=air,
        winding_pct=winding_pct,
        budget=_budget(mass_g, length_m, _sources(whole, scale, air, winding_pct)),
        remarks=tuple(_remarks(ball, whole, weighing)),
        too_much=_too_much(weighing, whole),
    )


def refuse_second(ball: Ball) -> None:
    """Refuse to weigh one of several balls of a record of which one was weighed before: which
    of the two is it?  Raises :class:`~intake.errors.NotWeighable`."""
    if ball.count > 1 and ball.weighing is not None:
        others = ball.count - 1
        raise NotWeighable(
            f"{ball.record.id} stands for {ball.count} balls, and one of them was weighed before; "
            f"give the others a record of their own with balltag split {ball.record.id} "
            f"--balls {others}, then weigh the one that you mean"
        )


def whole_ball(ball: Ball) -> Whole:
    """What must be known of a ball to weigh it.  Raises
    :class:`~intake.errors.NotWeighable`, which names all that is missing."""
    missing = [words for column, words in NEEDED.items() if not ball.text(column)]
    if missing:
        raise NotWeighable(
            f"the {' and the '.join(missing)} of {ball.record.id} "
            f"{'is' if len(missing) == 1 else 'are'} not known, and metres cannot be worked out "
            "without; correct the record, or write into the maker sheet what its maker holds to"
        )
    try:
        parts = fibre_parts(ball.text("fibre"))
        length_m, mass_g = float(ball.text("length_m")), float(ball.text("mass_g"))
    except ValueError as error:
        raise NotWeighable(f"{ball.record.id}: {error}; correct the record") from error
    if not (length_m > 0 and mass_g > 0):
        raise NotWeighable(
            f"{ball.record.id} says {number_text(length_m)} m and {number_text(mass_g)} g; "
            "correct the record: both must be above 0"
        )
    return Whole(parts, length_m, mass_g)


def _tenths(amount: float) -> float:
    return round(amount, 1)


def _tenths_up(plus_minus: float) -> float:
    """A plus-minus is never rounded to less than it is."""
    return math.ceil(plus_minus * 10) / 10


def _budget(mass_g: Figure, length_m: Figure, sources: Mapping[str, str]) -> tuple[Share, ...]:
    of_mass, of_length = shares(mass_g), shares(length_m)
    budget = [
        Share(source, sources[source], of_mass.get(source, 0.0), part_m)
        for source, part_m in of_length.items()
    ]
    return tuple(sorted(budget, key=lambda share: -share.length_m))


def _sources(whole: Whole, scale: Scale, air: Air, winding_pct: float) -> dict[str, str]:
    """Each source of the plus-minus in plain words."""
    step = number_text(scale.step_g)
    return {
        "scale": f"the scale shows steps of {step} g, at zero and under the ball",
        "tare": f"what was taken off was weighed in steps of {step} g",
        "humidity": f"the air: {air.words}",
        "regain": f"the water held at standard air: {_regains(whole.parts)}",
        "curve": "one curve of water against humidity for all fibres (Gibson)",
        "history": "whether the ball came from drier or from damper air",
        "winding": f"the maker's metres per gram, within {number_text(winding_pct)} % "
        "(common practice)",
    }


def _regains(parts: tuple[FibrePart, ...]) -> str:
    def told(part: FibrePart) -> str:
        low, high = regain_range_pct(part)
        return f"{part.fibre} {low:.1f} to {high:.1f} %"

    return ", ".join(dict.fromkeys(told(part) for part in parts))


def _remarks(ball: Ball, whole: Whole, weighing: Weighing) -> list[str]:
    remarks = []
    if ball.count > 1:
        remarks.append(
            f"{ball.record.id} stands for {ball.count} balls; the one weighed gets a record of "
            f"its own, and {ball.count - 1} stay there"
        )
    assumed = [words for column, words in NEEDED.items() if ball.is_assumed(column)]
    if assumed:
        remarks.append(
            f"the tag does not say the {' and the '.join(assumed)}; the maker sheet does"
        )
    unknown = [part.fibre for part in whole.parts if not is_known(part)]
    if unknown:
        remarks.append(
            f"how much water {' and '.join(unknown)} holds is not known; taken as anything from "
            "none to as much as wool"
        )
    if weighing.length_uncertainty_m >= weighing.length_m:
        remarks.append("so little is left that this scale cannot tell it from nothing")
    return remarks


def _too_much(weighing: Weighing, whole: Whole) -> str:
    least_m = weighing.length_m - weighing.length_uncertainty_m
    if least_m <= whole.length_m:
        return ""
    return (
        f"{number_text(weighing.length_m)} m ± {number_text(weighing.length_uncertainty_m)} m is "
        f"more than the {number_text(whole.length_m)} m of a whole ball"
    )
