"""Regain: how much water a yarn takes from the air, as a part of its dry mass.

What is traded is not what is held: the *agreed allowance* is a figure of commerce, fixed by
law, while the *regain* is what a balance finds in a given air.  Sums about real balls need
the regain, so it is taken from measurement where there is one and only otherwise guessed
from the allowance, with a range that is as wide as the two are known to part.
"""

from __future__ import annotations

from collections.abc import Sequence
from statistics import mean

from intake.fields.fibre.names import ANIMAL_HAIRS
from intake.records import FibrePart
from intake.sums.air import STANDARD_AIR, Air
from intake.sums.plus_minus import Figure, within

MEASURED_PCT = {
    # Table 10 of doi:10.1186/s40643-020-00339-1, which cites W. E. Morton and J. W. S. Hearle,
    # Physical Properties of Textile Fibres (2008).
    "cotton": (7.0, 8.0),
    "linen": (7.0, 7.0),
    "hemp": (8.0, 8.0),
    "jute": (12.0, 12.0),
    "silk": (10.0, 10.0),
    "wool": (14.0, 18.0),
    # Morton and Hearle again, from memory.
    "viscose": (12.0, 14.0),
    "acetate": (6.0, 6.9),
    "triacetate": (4.5, 4.5),
    "polyamide": (4.1, 4.1),
    "acrylic": (1.0, 2.0),
    "polyester": (0.4, 0.4),
}
"""Regain at standard air (20 °C, 65 % relative humidity), percent of dry mass, from low to
high.  Hair of animals is taken as wool: the same protein, and the same allowance."""

ONE_FIGURE_WITHIN = 0.15
"""How far a fibre may be from a single measured figure, as a part of it: about as far as the
ranges go that are printed (cotton 7 %, wool 12 % to either side)."""

AGREED_PCT: dict[str, tuple[float, ...]] = {
    # Regulation (EU) No 1007/2011, Annex IX.  Two figures where the yarn's make decides and
    # no tag tells it: combed and carded, cut and filament.
    "wool": (18.25, 17.0),
    "silk": (11.0,),
    "cotton": (8.5,),
    "mercerised cotton": (10.5,),
    "kapok": (10.9,),
    "linen": (12.0,),
    "hemp": (12.0,),
    "jute": (17.0,),
    "ramie": (8.5,),
    "sisal": (14.0,),
    "acetate": (9.0,),
    "cupro": (13.0,),
    "modal": (13.0,),
    "protein": (17.0,),
    "triacetate": (7.0,),
    "viscose": (13.0,),
    "acrylic": (2.0,),
    "modacrylic": (2.0,),
    "polyamide": (6.25, 5.75),
    "lyocell": (13.0,),
    "polylactide": (1.5,),
    "polyester": (1.5,),
    "polyethylene": (1.5,),
    "polypropylene": (2.0,),
    "polyurethane": (3.5, 3.0),
    "elastane": (1.5,),
    "elastolefin": (1.5,),
    "metal fibre": (2.0,),
    # The same Annex, from memory.
    "abaca": (14.0,),
    "alfa": (14.0,),
    "coir": (13.0,),
    "broom": (14.0,),
    "sunn": (12.0,),
    "henequen": (14.0,),
    "maguey": (14.0,),
    "alginate": (20.0,),
    "chlorofibre": (2.0,),
    "aramid": (8.0,),
    "polyimide": (3.5,),
    "polycarbamide": (2.0,),
    "vinylal": (5.0,),
    "trivinyl": (3.0,),
    "elastodiene": (1.0,),
    "glass fibre": (2.0, 3.0),
    "elastomultiester": (1.5,),
    "melamine": (7.0,),
    "paper": (13.75,),
}
"""Agreed allowance, percent of dry mass."""

MEASURED_TO_AGREED = (0.58, 1.06)
"""Measured regain as a part of the agreed allowance: the least (linen) and the most (wool)
of the fibres for which both have a source.  Where only the allowance is known, the regain
lies anywhere between."""

HARDLY_ANY_PCT = 2.0
"""Allowances up to here are round figures for next to no water; the regain may be none."""

UNKNOWN_PCT = (0.0, 18.0)
"""Of fibres that nothing is known of: from none to the most that wool holds."""

HISTORY_WITHIN = 0.06
"""Yarn that comes from damp air keeps more water than yarn from dry air: half the gap, as a
part of the regain.  Morton and Hearle, from memory: 2.0 points of 16 for wool, 0.9 of 7.5
for cotton."""

SWING_WITHIN = 0.3
"""One curve stands for all fibres; how far a fibre's own may swing more or less than it from
standard air to other air, as a part of the swing.  Our estimate, no source."""


def gibson_curve(humidity: Figure) -> Figure:
    """Regain at relative ``humidity`` (0 to 1) as a multiple of that at 0.65, of any fibre.

    P. W. Gibson, US Army Natick reports on hygroscopic porous media (1996).
    """
    return 0.578 * humidity * (1 / (0.321 + humidity) + 1 / (1.262 - humidity))


def is_known(part: FibrePart) -> bool:
    """Whether there is any figure for the fibre."""
    return _listed_name(part) in MEASURED_PCT.keys() | AGREED_PCT.keys()


def agreed_pct(part: FibrePart) -> float:
    """The fibre's agreed allowance, percent of dry mass."""
    return mean(AGREED_PCT.get(_listed_name(part), UNKNOWN_PCT))


def regain_range_pct(part: FibrePart) -> tuple[float, float]:
    """The least and the most regain at standard air, percent of dry mass."""
    name = _listed_name(part)
    if name in MEASURED_PCT:
        low, high = MEASURED_PCT[name]
        widening = ONE_FIGURE_WITHIN * low if low == high else 0.0
        return low - widening, high + widening
    if name not in AGREED_PCT:
        return UNKNOWN_PCT
    agreed = agreed_pct(part)
    least, most = MEASURED_TO_AGREED
    return (0.0 if agreed <= HARDLY_ANY_PCT else least * agreed), most * agreed


def dry_shares(parts: Sequence[FibrePart]) -> list[float]:
    """What part of the dry mass each fibre is; they sum to 1.

    A tag's percentages are of mass with the agreed allowances (Regulation (EU) No 1007/2011,
    Article 19, from memory), so each is divided by its own.  It matters little: wool of 75 %
    beside polyamide is 73 % of the dry mass.
    """
    dry = [part.percent / (1 + agreed_pct(part) / 100) for part in parts]
    return [mass / sum(dry) for mass in dry]


def standard_regain(parts: Sequence[FibrePart]) -> Figure:
    """Regain of a composition at standard air, as a part of dry mass, with its plus-minus."""
    return sum(
        share * _standard_regain_of(part)
        for part, share in zip(parts, dry_shares(parts), strict=True)
    )


def regain(standard: Figure, air: Air) -> Figure:
    """Regain in ``air``, as a part of dry mass, of yarn that has :func:`standard_regain`
    ``standard``: with the plus-minus of the humidity, the curve and the yarn's history."""
    humidity = within(air.humidity_pct / 100, air.within_pct / 100, "humidity")
    swing = gibson_curve(humidity) / gibson_curve(STANDARD_AIR.humidity_pct / 100) - 1
    return (
        standard
        * (1 + swing * within(1.0, SWING_WITHIN, "curve"))
        * within(1.0, HISTORY_WITHIN, "history")
    )


def mass_ratio(parts: Sequence[FibrePart], air: Air) -> Figure:
    """What yarn weighs in ``air``, as a multiple of its mass at standard air."""
    standard = standard_regain(parts)
    return (1 + regain(standard, air)) / (1 + standard)


def _listed_name(part: FibrePart) -> str:
    """The name under which the tables have the fibre."""
    if part.fibre in ANIMAL_HAIRS:
        return "wool"
    if part.fibre == "cotton" and "mercerised" in part.kind.split():
        return "mercerised cotton"
    return part.fibre


def _standard_regain_of(part: FibrePart) -> Figure:
    low, high = regain_range_pct(part)
    return within((low + high) / 200, (high - low) / 200, "regain")
