"""Where the time of a run went, as a table."""

from __future__ import annotations

from rich.table import Table

from intake.profile import STAGES, START, WAIT, Profile

_SAID = {
    START: "start, models loaded",
    "load": "load the picture",
    "find": "find the tags",
    "straighten": "straighten them",
    "detect": "detect lines",
    "recognise": "recognise them (first reader)",
    "keep": "picture to keep",
    "match": "match shades",
    WAIT: "wait for one another",
}


def profile_table(profile: Profile) -> Table:
    """Stages with their seconds and their share of all."""
    workers = profile.workers
    known = profile.accounted_for_s / profile.to_account_for_s
    table = Table(
        title="Where the time went",
        title_justify="left",
        caption=(
            f"{workers} {'worker' if workers == 1 else 'workers'} and the process that files, "
            f"for {profile.wall_s:.1f} s each: {profile.to_account_for_s:.1f} s, "
            f"of which the stages account for {known:.1%}"
        ),
        caption_justify="left",
    )
    table.add_column("stage")
    for heading in ("filing, s", "workers, s", "share"):
        table.add_column(heading, justify="right")
    for name in STAGES:
        here_s, there_s = profile.here[name], profile.there[name]
        share = (here_s + there_s) / profile.to_account_for_s
        table.add_row(_SAID.get(name, name), _seconds(here_s), _seconds(there_s), f"{share:.1%}")
    return table


def _seconds(count: float) -> str:
    return f"{count:.2f}" if count else ""
