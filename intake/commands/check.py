"""``balltag check``: whether the stash and what lies beside it agree, and mending it."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from intake.commands.options import DEFAULT_STASH, JsonOption, StashOption
from intake.errors import BadStash, ExitCode, NotAsked

if TYPE_CHECKING:
    from collections.abc import Sequence

    from intake.filing.findings import Finding
    from intake.filing.store import Store


def check(
    stash: StashOption = DEFAULT_STASH,
    mend: Annotated[bool, typer.Option("--mend", help="Ask, and mend what can be mended.")] = False,
    yes: Annotated[bool, typer.Option("--yes", help="With --mend: do not ask.")] = False,
    restore: Annotated[
        str, typer.Option("--restore", metavar="BACKUP", help="First put this backup back.")
    ] = "",
    as_json: JsonOption = False,
) -> None:
    """Prove that stash, queue, tag pictures and history agree; show what can be mended."""
    from intake.console import say
    from intake.filing.kinds import open_stash
    from intake.filing.store import Store

    store = Store(open_stash(stash))
    if not (stash.exists() or store.written.path.exists() or restore):
        raise BadStash(f"there is no stash {stash}; give another with --stash")
    if restore:
        store.stash.backups.named(restore)
        _restore(store, restore, yes)
    found = _findings(store)
    if as_json:
        _say_json(found)
    else:
        _say(store, found)
    if mend and any(one.mend for one in found):
        found = _mend(store, found, yes)
        if not as_json:
            say("Mended." if not found else f"Mended; what is left to you: {len(found)}")
    raise typer.Exit(ExitCode.NOT_AGREED if found else ExitCode.OK)


def warn_of_conflict_copies(stash: Path) -> None:
    """Say so in one line where a sync program left copies beside the stash."""
    from intake.filing.conflict_copies import conflict_copies

    copies = conflict_copies(stash)
    if copies:
        more = f" and {len(copies) - 1} more" if copies[1:] else ""
        print(
            f"balltag: {copies[0].name}{more} beside the stash: it was changed on two machines; "
            "see balltag check",
            file=sys.stderr,
        )


def _findings(store: Store) -> list[Finding]:
    """A look while nobody writes, where the folder allows that."""
    from intake.errors import NoAccess
    from intake.filing.check import Check

    try:
        with store.stash.locked():
            return Check(store).findings()
    except NoAccess:
        return Check(store).findings()


def _mend(store: Store, found: Sequence[Finding], yes: bool) -> list[Finding]:
    from intake.filing.mend import mend
    from intake.reports.check import by_kind

    if not yes and not sys.stdin.isatty():
        raise NotAsked("nothing was mended; run it in a terminal to be asked, or add --yes")
    wanted = [
        one
        for kind, same in by_kind([one for one in found if one.mend])
        if yes or typer.confirm(f"{kind} ({len(same)}): {same[0].mend}?")
        for one in same
    ]
    return mend(store, wanted)


def _restore(store: Store, name: str, yes: bool) -> None:
    if not yes and not sys.stdin.isatty():
        raise NotAsked("nothing was put back; run it in a terminal to be asked, or add --yes")
    if yes or typer.confirm(f"Put {name} in place of {store.stash.path}, after a backup of that?"):
        store.restore(name)


def _say(store: Store, found: Sequence[Finding]) -> None:
    from intake.console import say
    from intake.reports.check import findings_table

    if found:
        say(findings_table(found))
    else:
        say(f"{store.stash.path} and all that lies beside it agree.")
    backups = store.stash.backups.all()
    if backups:
        say(f"Backups in {backups[0].parent}: {len(backups)}, the newest {backups[-1].name}")


def _say_json(found: Sequence[Finding]) -> None:
    from intake.reports.check import finding_json

    for one in found:
        print(finding_json(one))
