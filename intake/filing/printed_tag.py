"""The code on a tag that balltag printed for a part ball: which record it is about."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from intake.filing.judge import Doubt
from intake.filing.record import Record
from intake.filing.same import ANOTHER_BALL, REPEAT, REPEAT_ANSWERS, SAME_TAG_AGAIN, Before
from intake.records import Barcode, Field, State, TagReading

_PREFIX = "balltag:"
_CODE = re.compile(rf"{_PREFIX}(t[0-9a-f]{{15}})")


def code_text(record_id: str) -> str:
    """What the QR code of a printed tag says: ``balltag:`` and the record's id."""
    return _PREFIX + record_id


def printed_for(barcodes: Iterable[Barcode]) -> tuple[str, ...]:
    """The ids of the records whose printed tags are in a picture of a tag, each once."""
    codes = (_CODE.fullmatch(one.text) for one in barcodes if one.symbology == "QR")
    return tuple(dict.fromkeys(code[1] for code in codes if code))


def printed_doubts(reading: TagReading, known: Sequence[Record]) -> list[Doubt]:
    """What is to be asked about a tag with such codes: whether it is one of ``known``, the
    records of its codes that are in the stash.  Nothing where it surely is."""
    ids, lots = printed_for(reading.barcodes), {record.lot for record in known}
    if not ids:
        return []
    lot = reading.fields.get("lot") or Field("lot")
    printed = f"this shows a tag that balltag printed for record {', '.join(ids)}"
    if len(known) < len(ids):
        reason = f"{printed}, which is not in this stash"
    elif lot.state is State.SURE and lot.value not in lots:
        # Another ball's tag may lie so near that both were taken for one.
        reason = f"{printed}, whose lot is {' or '.join(sorted(lots))}, yet lot {lot.value} is read"
    else:
        return []
    return [Doubt(REPEAT, f"{reason}: {ANOTHER_BALL}, or the {SAME_TAG_AGAIN}?", REPEAT_ANSWERS)]


def printed_before(known: Sequence[Record]) -> Before:
    """How a printed tag is known to be that of ``known`` records, mostly one."""
    ids = ", ".join(record.id for record in known)
    return Before(known[0].id, known[0].picture, f"a tag printed by balltag for record {ids}")
