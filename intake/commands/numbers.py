"""``balltag numbers``: how fine a yarn is, in the trade's ways of saying it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from intake.commands.options import JsonOption
from intake.errors import BadAmount

if TYPE_CHECKING:
    from intake.sums.yarn_number import YarnNumber


def numbers(
    length_m: Annotated[float | None, typer.Option("--length", help="Metres.")] = None,
    mass_g: Annotated[float | None, typer.Option("--mass", help="Grams of that length.")] = None,
    yards: Annotated[float | None, typer.Option("--yards", help="Yards, for --length.")] = None,
    ounces: Annotated[float | None, typer.Option("--ounces", help="Ounces, for --mass.")] = None,
    tex: Annotated[
        float | None, typer.Option("--tex", help="Grams of 1000 m, for length and mass.")
    ] = None,
    as_json: JsonOption = False,
) -> None:
    """Say length per mass as tex, m per 100 g, yd per oz, wraps and likely weight."""
    from intake.console import say
    from intake.reports.numbers import number_json, number_table

    number = _number(length_m, mass_g, yards, ounces, tex)
    if as_json:
        print(number_json(number))
    else:
        say(number_table(number))


def _number(
    length_m: float | None,
    mass_g: float | None,
    yards: float | None,
    ounces: float | None,
    tex: float | None,
) -> YarnNumber:
    """The yarn number that the options describe.  Raises
    :class:`~intake.errors.BadAmount` where they describe none, or two."""
    from intake.fields.amounts.units import GRAMS_PER_OUNCE, METRES_PER_YARD
    from intake.sums.yarn_number import YarnNumber, yarn_number

    lengths = [length_m] if length_m is not None else []
    lengths += [yards * METRES_PER_YARD] if yards is not None else []
    masses = [mass_g] if mass_g is not None else []
    masses += [ounces * GRAMS_PER_OUNCE] if ounces is not None else []
    if tex is not None and not lengths and not masses:
        return YarnNumber(tex)
    if tex is not None or len(lengths) != 1 or len(masses) != 1:
        raise BadAmount(
            "give one length and its mass, as --length 210 --mass 50 or "
            "--yards 230 --ounces 1.75, or else --tex alone"
        )
    return yarn_number(lengths[0], masses[0])
