"""How long a ball is and how much it weighs.

A tag prints many lengths and masses: in two systems, per another mass than the ball's,
for a whole garment.  What is filed is the length and mass of the ball itself.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from intake.fields.amounts.before_numbers import CAPTION
from intake.fields.amounts.doubts_of_measures import misread_grams, of_a_range, of_several_balls
from intake.fields.amounts.measure_heads import headed, labelled, sums_up, without_next_heads
from intake.fields.amounts.measures import (
    NET,
    NET_SIGN,
    Measure,
    measures_of,
)
from intake.fields.amounts.tension import prints_an_area
from intake.fields.amounts.units import GRAMS_PER_OUNCE
from intake.fields.letters import FoldedLines
from intake.records import Candidate, Line, Span
from intake.wording import number_text, value_text

JOINT = re.compile(
    r"[ ).]*(?:(?:[=/(·,:;~≈±+|-]|per|pro|je|a|al|par|por|op|auf|pr|til|to|for|pour|fur"
    r"|pa|on|su|in|sur|every|each|is|ca|approx\w*|env\w*|circa|cirka|aprox\w*|ong\w*|about|etwa|omkr\w*|ungefahr)"
    r"[ .]*)*"
)
"""What stands between a length and the mass it is printed for."""

PLAUSIBLE_M_PER_G = (0.1, 20.0)
"""Strips of jersey on a roll come to little more than a metre in ten grams."""

USUAL_MASSES_G = frozenset(
    {10, 15, 20, 25, 30, 40, 50, 60, 70, 75, 80, 85, 90, 100, 110, 113, 115, 120, 125, 130, 140}
    | {150, 160, 170, 180, 200, 220, 225, 227, 250, 300, 350, 400, 450, 454, 500, 600, 700, 750}
    | {800, 850, 900, 1000}
)
"""Masses that balls are wound to; common practice, no source."""

OUNCE_ROUNDING_G = 1.5
"""How far ounces with one decimal miss the grams that were wound."""

SHORT_M = 30.0
"""A length below this is more often stitches or a misread number than a ball's."""


MOST_STITCHES = 60.0
"""More stitches than this hardly stand on 10 cm."""

SHORT_ALONE_M = 60.0
"""And below this on a tag without a mass: "35 m" are stitches in many languages."""

CONVERTED = "converted from"
"""How the note on a quantity begins that was printed in yards or ounces alone."""


@dataclass(frozen=True)
class Amount:
    """One quantity with all measures that print it."""

    measures: tuple[Measure, ...]
    doubt: str = ""

    @property
    def first(self) -> Measure:
        """The measure that counts: metres and grams before yards and ounces."""
        return min(self.measures, key=lambda measure: (not measure.native, not measure.clean))

    @property
    def value(self) -> float:
        """Metres or grams; converted ones to a tenth."""
        return self.first.amount if self.first.native else round(self.first.amount, 1)

    @property
    def in_both_systems(self) -> bool:
        """Whether metric and imperial units confirm each other."""
        return len({measure.native for measure in self.measures}) == 2 and not self.doubt

    @property
    def note(self) -> str:
        """What the user should know about a converted quantity."""
        return "" if self.first.native else f"{CONVERTED} {self.first.printed}"


@dataclass(frozen=True)
class Ball:
    """What is known of the ball's mass: ``doubt`` where another mass may be meant."""

    mass: Amount
    doubt: str = ""


def find_length_m(lines: Sequence[Line]) -> list[Candidate]:
    """Lengths of the ball in metres, likeliest first."""
    return [each for each in find_quantities(lines) if each.name == "length_m"]


def find_mass_g(lines: Sequence[Line]) -> list[Candidate]:
    """Masses of the ball in grams, likeliest first."""
    return [each for each in find_quantities(lines) if each.name == "mass_g"]


def find_quantities(lines: Sequence[Line]) -> list[Candidate]:
    """Candidates for ``mass_g`` and ``length_m``, each likeliest first.

    The length is that of the ball: one printed per another mass is scaled, with a note.
    Metres must agree with yards and grams with ounces within their rounding.  Yards and
    ounces alone are converted, with a note.
    """
    sheet = FoldedLines(lines)
    read = without_next_heads(lines, sheet, list(measures_of(sheet)))
    read = labelled(lines, sheet, read)
    measures = [each for each in read if each.label not in ("gross", "tare")]
    measures += headed(lines, sheet, measures)
    measures.sort(key=lambda measure: measure.start)
    lengths = amounts_of([measure for measure in measures if measure.sort == "length"])
    masses = without_packs(amounts_of([m for m in measures if m.sort == "mass" and not m.rate]))
    rates = [Amount((one,)) for one in measures if one.rate]
    joined = joined_masses(sheet, measures, lengths, [*masses, *rates])
    masses = without_strays(sheet, masses, joined)
    ball = ball_of(sheet, masses, joined)
    if ball is not None and not sums_up(read):
        ball = Ball(ball.mass, "gross mass, tare and net mass do not add up")
    return [
        *(list(mass_candidates(sheet, masses, ball, lengths)) or misread_grams(sheet)),
        *length_candidates(sheet, lengths, joined, ball),
    ]


# Composing: from measures to quantities of the ball


def amounts_of(measures: Sequence[Measure]) -> list[Amount]:
    """Measures that print one quantity as one amount; metric ones lead."""
    amounts: list[list[Measure]] = []
    for measure in sorted(measures, key=lambda measure: not measure.native):
        same = next((group for group in amounts if is_one(group[0], measure)), None)
        if same is None:
            amounts.append([measure])
        else:
            same.append(measure)
    return with_conflicts([Amount(tuple(group)) for group in amounts])


def is_one(first: Measure, other: Measure) -> bool:
    """Whether two measures are one quantity: equal in one system, near in two."""
    if first.native == other.native:
        return first.amount == other.amount
    return first.agrees(other)


def with_conflicts(amounts: Sequence[Amount]) -> list[Amount]:
    """Amounts, the metric ones doubted where imperial ones beside them say otherwise."""
    metric = [amount for amount in amounts if amount.first.native]
    imperial = [amount for amount in amounts if not amount.first.native]
    if not metric or not imperial:
        return list(amounts)
    other = imperial[0].first.printed
    unsure = [amount for amount in metric if not amount.in_both_systems]
    return [
        Amount(amount.measures, f"{amount.first.printed} and {other} do not agree")
        if amount in unsure or not unsure
        else amount
        for amount in metric
    ]


def without_packs(masses: Sequence[Amount]) -> list[Amount]:
    """Masses without those of whole packs, as in ``10 x 50 g = 500 g``."""
    packs = {m.amount * m.count for mass in masses for m in mass.measures if m.count > 1}
    return [mass for mass in masses if mass.value not in packs or mass.first.count > 1]


def without_strays(
    sheet: FoldedLines, masses: Sequence[Amount], joined: dict[Amount, list[Amount]]
) -> list[Amount]:
    """Masses without those that no ball has and nothing confirms, if others are left."""
    per = [mass for partners in joined.values() for mass in partners]
    likely = [mass for mass in masses if mass in per or not unusual_mass(sheet, mass)]
    return likely or list(masses)


def joined_masses(
    sheet: FoldedLines,
    measures: Sequence[Measure],
    lengths: Sequence[Amount],
    masses: Sequence[Amount],
) -> dict[Amount, list[Amount]]:
    """For each length the masses that it is printed for, side by side."""
    joined: dict[Amount, list[Amount]] = {length: [] for length in lengths}
    for first, second in pairwise(measures):
        if first.sort == second.sort or not JOINT.fullmatch(sheet.text[first.end : second.start]):
            continue
        length = next((each for each in lengths if {first, second} & set(each.measures)), None)
        mass = next((each for each in masses if {first, second} & set(each.measures)), None)
        if length and mass and mass not in joined[length]:
            joined[length].append(mass)
    return joined


def ball_of(
    sheet: FoldedLines, masses: Sequence[Amount], joined: dict[Amount, list[Amount]]
) -> Ball | None:
    """The ball's mass: the only one printed, or the only one that no length is per."""
    if len(masses) == 1:
        return Ball(masses[0])
    per = [mass for partners in joined.values() for mass in partners]
    net = [mass for mass in masses if any(each.label == "net" for each in mass.measures)]
    if len(net) == 1 and not per:
        return Ball(net[0])
    free = [mass for mass in masses if mass not in per]
    if len(free) != 1 or not per:
        return None
    if any(is_net(sheet, measure) for measure in free[0].measures):
        return Ball(free[0])
    both = f"{per[0].first.printed} and {free[0].first.printed}"
    return Ball(free[0], f"{both} are printed: which does the ball weigh?")


def is_net(sheet: FoldedLines, mass: Measure) -> bool:
    """Whether words or the estimated sign say that a mass is the ball's own."""
    before = sheet.text[max(0, mass.start - 30) : mass.start]
    return mass.label == "net" or bool(NET.search(before) or NET_SIGN.match(sheet.text, mass.end))


# Judging: candidates with their doubts


def mass_candidates(
    sheet: FoldedLines, masses: Sequence[Amount], ball: Ball | None, lengths: Sequence[Amount]
) -> Iterator[Candidate]:
    """Each mass as a candidate, the ball's first."""
    first = ball.mass if ball else None
    sure = ball is not None and not ball.doubt
    likely = [mass for mass in masses if mass is first or not sure]
    in_metres = any(length.first.native for length in lengths)
    for mass in sorted(likely, key=lambda mass: mass is not first):
        doubt = mass.doubt or odd_digits(mass) or of_a_range(mass.first)
        doubt = doubt or of_several_balls(sheet, mass.measures)
        if ball is None:
            doubt = doubt or several(masses)
        elif mass is first:
            doubt = doubt or ball.doubt or unusual_mass(sheet, mass)
        else:
            doubt = f"{ball.mass.first.printed} seems to be the ball's mass"
        if in_metres and not mass.first.native:
            doubt = doubt or f"only {mass.first.printed} could be read, no grams"
        note = mass.note
        if mass.first.count > 1:
            note = f"a pack of {mass.first.count} is printed; this is the mass of one ball"
        usual = 1.0 if is_usual(mass) or mass.in_both_systems else 0.7
        cues = cues_of(mass) | {"usual": usual, "pair": 1.0 if lengths else 0.6}
        candidate = Candidate("mass_g", mass.value, spans_of(sheet, mass), cues, note, doubt)
        yield from (candidate, *repeats(sheet, candidate, mass))


def length_candidates(
    sheet: FoldedLines,
    lengths: Sequence[Amount],
    joined: dict[Amount, list[Amount]],
    ball: Ball | None,
) -> list[Candidate]:
    """Each length as a candidate for the ball's, scaled where it is per another mass."""
    every = [(each, length_candidate(sheet, each, joined[each], ball)) for each in lengths]
    likely = [(length, found) for length, found in every if is_likely(found)] or every
    different = list(dict.fromkeys(value_text("length_m", found.value) for _, found in likely))
    found = [
        each
        for length, candidate in likely
        for each in (candidate, *repeats(sheet, candidate, length))
    ]
    if len(different) < 2:
        return found
    doubt = "different lengths are printed: " + " and ".join(f"{m} m" for m in different[:2])
    doubted = [replace(each, doubt=each.doubt or doubt) for each in found]
    return sorted(doubted, key=lambda candidate: -sum(candidate.cues.values()))


def repeats(sheet: FoldedLines, candidate: Candidate, amount: Amount) -> Iterator[Candidate]:
    """The same quantity over the letters of each further print of it in the same unit."""
    for measure in amount.measures:
        same = measure.native == amount.first.native and measure.amount == amount.first.amount
        if same and measure is not amount.first and measure.clean:
            yield replace(candidate, spans=sheet.spans(measure.start, measure.end))


def is_likely(candidate: Candidate) -> bool:
    """Whether a length can be a ball's; numbers of codes and stitches seldom can."""
    told = candidate.cues["pair"] == 1.0 and candidate.cues["plausible"] > 0
    value = candidate.value
    return told or (isinstance(value, float) and value >= SHORT_M and not candidate.doubt)


def length_candidate(
    sheet: FoldedLines, length: Amount, partners: Sequence[Amount], ball: Ball | None
) -> Candidate:
    """One length as the ball's."""
    value, note, spans = length.value, length.note, spans_of(sheet, length)
    doubt = length.doubt or odd_digits(length) or of_a_range(length.first)
    if ball is None:
        mass = partners[0] if partners else None
        doubt = doubt or ("the ball's mass is not sure, so its length is not" if mass else "")
    else:
        mass = ball.mass
        if partners and mass not in partners:
            per = partners[0]
            value = round(value * mass.value / per.value, 1)
            note = f"{length.first.printed} per {per.first.printed}, for a ball of {mass.value:g} g"
            spans += spans_of(sheet, per) + spans_of(sheet, mass)
            doubt = doubt or ball.doubt
            if per.first.rate:
                doubt = doubt or f"{number_text(value)} m is reckoned: {note}"
    whole = length.first.whole
    if not doubt and whole and plausibility(whole, mass.value if mass else None):
        doubt = f"{number_text(whole)} m may be printed, or {number_text(value)} m"
    plausible = plausibility(value, mass.value if mass else None)
    if not doubt and plausible == 0.0:
        doubt = f"{number_text(value)} m is hardly the length of this ball"
    captioned = any(
        CAPTION.search(sheet.text[max(0, m.start - 30) : m.start]) for m in length.measures
    )
    told = bool(partners) or captioned
    if not doubt and value < (SHORT_M if ball else SHORT_ALONE_M) and not told:
        doubt = f"{number_text(value)} m is short for a ball"
    if not (doubt or told) and value <= MOST_STITCHES and prints_an_area(sheet.text):
        doubt = f"'{length.first.printed}' may be the stitches of a swatch"
    cues = cues_of(length) | {
        "pair": 1.0 if told else 0.7,
        "plausible": plausible,
    }
    return Candidate("length_m", value, spans, cues, note, doubt)


def plausibility(length_m: float, mass_g: float | None) -> float:
    """1 for a length that yarn of this mass can have, 0 for another, between if unknown."""
    if mass_g is None:
        return 0.7
    low, high = PLAUSIBLE_M_PER_G
    return 1.0 if low <= length_m / mass_g <= high else 0.0


def cues_of(amount: Amount) -> dict[str, float]:
    """Evidence from the print alone."""
    cues = {"shape": 1.0 if amount.first.clean else 0.4}
    if amount.in_both_systems:
        cues["both systems"] = 1.0
    return cues


def odd_digits(amount: Amount) -> str:
    """The doubt about letters among the digits."""
    if amount.first.clean:
        return ""
    return f"'{amount.first.printed}' has letters among its digits"


def several(masses: Sequence[Amount]) -> str:
    """The doubt about several masses."""
    printed = " and ".join(mass.first.printed for mass in masses[:3])
    return f"different masses are printed: {printed}"


def unusual_mass(sheet: FoldedLines, mass: Amount) -> str:
    """The doubt about a mass that no ball is wound to and nothing confirms."""
    confirmed = mass.in_both_systems or any(is_net(sheet, each) for each in mass.measures)
    if is_usual(mass) or (confirmed and mass.first.native):
        return ""
    return f"{mass.first.printed} is an unusual mass for a ball"


def is_usual(mass: Amount) -> bool:
    """Whether balls are wound to a mass: a usual number of grams, or quarters of ounces."""
    if mass.first.native:
        return mass.value in USUAL_MASSES_G
    quarters = 4 * mass.first.amount / GRAMS_PER_OUNCE
    near = any(abs(mass.first.amount - usual) <= OUNCE_ROUNDING_G for usual in USUAL_MASSES_G)
    return near or abs(quarters - round(quarters)) < 1e-6


def spans_of(sheet: FoldedLines, amount: Amount) -> tuple[Span, ...]:
    """Letters of the measure that counts, with its unit."""
    return sheet.spans(amount.first.start, amount.first.end)
