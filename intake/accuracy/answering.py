"""Answers from the truth: what a review would say of the tags that wait."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress

from intake.accuracy.score import TagScore
from intake.accuracy.truth import TrueTag
from intake.filing.answers import BadAnswer
from intake.filing.cabinet import Cabinet
from intake.filing.judge import Doubt
from intake.filing.same import ANOTHER_BALL, REPEAT
from intake.filing.sides import SIDE, TAG_OF_ITS_OWN
from intake.wording import value_text

_OF_WHOLE_TAGS = {REPEAT: ANOTHER_BALL, SIDE: TAG_OF_ITS_OWN}
"""Each tag of a truth file is one by itself."""


def answer_waiting(cabinet: Cabinet, ids: dict[int, str], tags: Sequence[TagScore]) -> bool:
    """Answer what is asked about the scored ``tags`` of a picture with their truth, as a
    careful review would; ``ids`` tells their ids by the number of the tag that was read.

    Tells whether anything was answered.  A tag stays in the queue where its truth is nothing that
    may be typed, such as a composition that makes no whole.
    """
    any_filed = False
    for tag in tags:
        if tag.is_queued and tag.read is not None:
            with suppress(BadAnswer):
                cabinet.resolve(ids[tag.read.number], answers(tag.truth, tag.read.doubts))
                any_filed = True
    return any_filed


def answers(truth: TrueTag, doubts: Sequence[Doubt]) -> dict[str, str]:
    """What the truth says to ``doubts``, as :meth:`Cabinet.resolve` takes it; fields that the
    truth does not tell of stay as they were read."""
    found = {}
    for name in (doubt.field for doubt in doubts):
        if name in _OF_WHOLE_TAGS:
            found[name] = _OF_WHOLE_TAGS[name]
        elif name in truth.values:
            found[name] = value_text(name, truth.values[name])
    return found
