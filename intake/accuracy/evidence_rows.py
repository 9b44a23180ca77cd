"""One row for each scored field: what was read, on what evidence, and what is true.

From these rows the confidence models are fitted, and failures are grouped by cause.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from pathlib import Path

from intake.accuracy.score import TagScore
from intake.errors import NoAccess
from intake.wording import value_text

Row = dict[str, object]


def evidence_rows(tag: TagScore) -> Iterator[Row]:
    """A row a field: ``picture``, ``tag``, ``kind``, ``outcome``, ``field``, ``value``,
    ``truth`` (both as cells of a stash), ``verdict``, ``right``, ``state``,
    ``confidence``, ``reason``, ``printed``, ``line``, ``others``, ``evidence``, and
    ``about``, the truth file's other columns."""
    outcome = tag.read.outcome if tag.read else None
    for name, score in tag.fields.items():
        read = score.read
        yield {
            "picture": tag.truth.picture,
            "tag": tag.truth.tag,
            "kind": tag.truth.kind,
            "outcome": outcome.value if outcome else "unread",
            "field": name,
            "value": value_text(name, read.value),
            "truth": value_text(name, tag.truth.values[name]),
            "verdict": score.verdict.value,
            "right": score.verdict.is_correct,
            "state": read.state.value,
            "confidence": read.confidence,
            "reason": read.reason,
            "printed": read.printed,
            "line": read.line,
            "others": list(read.others),
            "evidence": dict(read.cues),
            "about": dict(tag.truth.about),
        }


def write_evidence(tags: Iterable[TagScore], path: Path) -> None:
    """Write the rows of all ``tags`` to ``path``, a line of JSON each.  Raises
    :class:`NoAccess`."""
    try:
        with path.open("w", encoding="utf-8") as file:
            for tag in tags:
                for row in evidence_rows(tag):
                    file.write(json.dumps(row, ensure_ascii=False) + "\n")
    except OSError as error:
        raise NoAccess(f"{path} cannot be written ({error.strerror}); give another file") from error
