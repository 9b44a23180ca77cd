"""What a yarn number says: a table for people, JSON for scripts."""

from __future__ import annotations

import json

from rich.table import Table

from intake.sums.yarn_number import YarnNumber


def number_table(number: YarnNumber) -> Table:
    """All ways of saying ``number``; what is an estimate or a hint is marked so."""
    table = Table(show_header=False)
    table.add_column(overflow="fold")
    table.add_column(justify="right")
    fewest, most = number.wraps_range
    for name, value in (
        ("tex (g per 1000 m, ISO 1144)", f"{number.tex:.0f}"),
        ("metric number (m per g)", f"{number.metric_number:.2f}"),
        ("m per 100 g", f"{number.metres_per_100_g:.0f}"),
        ("yd per oz", f"{number.yards_per_ounce:.1f}"),
        ("yd per lb", f"{number.yards_per_pound:.0f}"),
        ("wraps per inch (estimate)", f"{fewest:.0f} to {most:.0f}"),
        (
            "weight, by length per mass (hint: Spin Off's Yarn Standards, a rough guide)",
            number.likely_weight_class,
        ),
    ):
        table.add_row(name, value)
    return table


def number_json(number: YarnNumber) -> str:
    """``number`` as one line of JSON."""
    fewest, most = number.wraps_range
    return json.dumps(
        {
            "tex": round(number.tex, 3),
            "metres_per_g": round(number.metric_number, 5),
            "metres_per_100_g": round(number.metres_per_100_g, 3),
            "yards_per_ounce": round(number.yards_per_ounce, 3),
            "yards_per_pound": round(number.yards_per_pound, 2),
            "estimated_wraps_per_inch": [round(fewest, 1), round(most, 1)],
            "likely_weight_class": number.likely_weight_class,
        }
    )
