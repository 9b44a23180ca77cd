"""What was already answered about a tag that goes on waiting.

The queue keeps each tag as it was read; the answers stand in the history, so that taking
one back brings its doubt back.
"""

from __future__ import annotations

from dataclasses import replace

from intake.filing.answers import answered
from intake.filing.changes import Action
from intake.filing.history import History
from intake.filing.queue import Waiting


def with_answers(item: Waiting, history: History) -> Waiting:
    """``item`` with the answers that ``history`` has to it: their fields are sure, and
    their doubts are gone."""
    answers: dict[str, str] = {}
    for change in history.standing(item.id):
        if change.action is Action.SETTLED:
            answers.update(change.new)
    if not answers:
        return item
    doubts = tuple(doubt for doubt in item.doubts if doubt.field not in answers)
    return replace(item, reading=answered(item.reading, answers), doubts=doubts)
