"""What ``balltag care`` answers: a table and cautions for people, JSON for scripts."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

from rich.table import Table
from rich.text import Text

from intake.reports.find import Json, Said
from intake.sums.common_care import CommonCare, SubjectCare, YarnCare

NOT_STATED = "not stated"


def care_said(care: CommonCare) -> Iterator[Said]:
    """The care that all yarns bear, which of them forces what, and what to mind."""
    for yarn in care.yarns:
        yield f"For {yarn.name}"
    yield care_table(care)
    for caution in care.cautions:
        yield f"Mind: {caution}."


def care_table(care: CommonCare) -> Table:
    """Care by the standard's groups."""
    table = Table(title="Mildest common care (ISO 3758:2012)", title_justify="left")
    table.add_column("")
    table.add_column("tags say", overflow="fold", ratio=2)
    several = len(care.yarns) > 1
    if several:
        table.add_column("forced by", overflow="fold", ratio=3)
    table.add_column("not stated: treat as", overflow="fold", ratio=3)
    for one in care.subjects:
        forced = [_forced_said(one.forced_by)] if several else []
        cells = (one.subject.value, _stated(one), *forced, _cautious(one, care))
        table.add_row(*map(Text, cells))
    return table


def care_json(care: CommonCare) -> Json:
    """The common care as JSON; processes under the standard's names."""
    return {
        "yarns": [_yarn_json(yarn) for yarn in care.yarns],
        "care": [
            {
                "group": one.subject.group,
                "subject": one.subject.value,
                "stated": list(one.stated),
                "forced_by": {aspect: list(names) for aspect, names in one.forced_by.items()},
                "not_stated_by": list(one.silent),
                "treat_as": list(one.treat_as),
            }
            for one in care.subjects
        ],
        "cautions": list(care.cautions),
    }


def _stated(one: SubjectCare) -> str:
    return _processes(one.stated) if one.stated else NOT_STATED


def _cautious(one: SubjectCare, care: CommonCare) -> str:
    """What a careful person does for the sake of yarns that leave the subject open."""
    if not one.silent:
        return ""
    treated = _processes(one.treat_as)
    if len(one.silent) == len(care.yarns):
        return treated
    return f"{treated} ({NOT_STATED} by {', '.join(one.silent)})"


def _forced_said(forced_by: Mapping[str, tuple[str, ...]]) -> str:
    """Aspects with the yarns that force them; the names alone where they force all."""
    if len(forced_by) == 1 or len(set(forced_by.values())) == 1:
        return ", ".join(next(iter(forced_by.values())))
    return "; ".join(f"{aspect}: {', '.join(names)}" for aspect, names in forced_by.items())


def _processes(names: Iterable[str]) -> str:
    return " or ".join(re.sub(r"(\d) C\b", r"\1 °C", name) for name in names)


def _yarn_json(yarn: YarnCare) -> Json:
    return {
        "name": yarn.name,
        "records": list(yarn.records),
        "assumed": list(yarn.assumed),
        "not_understood": list(yarn.unread),
    }
