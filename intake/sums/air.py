"""The air that yarn was lying in: its relative humidity, measured or guessed by the room."""

from __future__ import annotations

from dataclasses import dataclass

from intake.errors import BadAmount
from intake.wording import number_text

HYGROMETER_WITHIN_PCT = 5.0
"""How far a household hygrometer may be off; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Air:
    """Air of ``humidity_pct`` relative humidity, give or take ``within_pct``, both in
    percent; ``name`` is the room's, or empty where the humidity was measured."""

    humidity_pct: float
    within_pct: float = HYGROMETER_WITHIN_PCT
    name: str = ""

    def __post_init__(self) -> None:
        if not 1 <= self.humidity_pct <= 100:
            raise BadAmount(
                f"a humidity of {number_text(self.humidity_pct)} % cannot be; "
                "give relative humidity in percent, from 1 to 100"
            )
        if not 0 <= self.within_pct <= 50:
            raise BadAmount(
                f"a humidity cannot be known within {number_text(self.within_pct)} %; "
                "give a plus-minus from 0 to 50"
            )

    @property
    def words(self) -> str:
        """The air in words, as ``living room, 50 % ± 10 %``."""
        figures = f"{number_text(self.humidity_pct)} % ± {number_text(self.within_pct)} %"
        return f"{self.name}, {figures}" if self.name else figures


STANDARD_AIR = Air(65.0, 4.0, "standard air")
"""ISO 139: 20 °C and 65 % relative humidity; its tolerance of 4 % is from memory."""

ANY_ROOM = Air(50.0, 20.0, "a room of unknown humidity")
"""Where nothing is said: most lived-in rooms; common practice, no source."""

ROOMS = {
    air.name: air
    for air in (
        Air(38.0, 8.0, "dry radiator"),
        Air(50.0, 10.0, "living room"),
        Air(87.0, 5.0, "bathroom"),
        STANDARD_AIR,
    )
}
"""Rooms by name.  Their humidities are common practice, no source.

Those of the dry radiator and of the bathroom are the ones at which wool of 100 g comes to
the 94 g and 110 g that the trade tells of, so those two figures cannot prove the curve of
:mod:`intake.sums.regain`; they only show that it stays among humidities that occur.
"""


def room(name: str) -> Air:
    """The air of the room called ``name``, in any case; ``damp bathroom`` is a bathroom.
    Raises :class:`~intake.errors.BadAmount` where no room, or more than one, is meant."""
    wanted = " ".join(name.lower().split())
    meant = [air for known, air in ROOMS.items() if wanted and (known in wanted or wanted in known)]
    if len(meant) != 1:
        raise BadAmount(
            f"no room is known as {name!r}; name one of {', '.join(ROOMS)}, "
            "or give the humidity in percent"
        )
    return meant[0]
