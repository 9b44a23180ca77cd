"""The vocabulary that every room shares: lines, fields, tags.

Data flows one way: a picture is cut into tags, a tag is read into
:class:`Line` objects, lines are parsed into :class:`Candidate` values, the best
candidates become :class:`Field` objects, and a :class:`TagReading` carries them
to filing.  Nothing here computes; the rooms do.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from intake.errors import BalltagError


class State(StrEnum):
    """How far a field can be trusted."""

    SURE = "sure"
    DOUBTFUL = "doubtful"
    MISSING = "missing"


class Outcome(StrEnum):
    """What became of one tag."""

    FILED = "filed"
    QUEUED = "queued"
    ALREADY = "already"
    FAILED = "failed"


@dataclass(frozen=True, slots=True)
class FibrePart:
    """One part of a fibre composition.

    ``fibre`` is a name of Regulation (EU) No 1007/2011 in lower-case English,
    ``kind`` the trade's refinement of it (``merino``, ``kid``, ``superwash``; may
    be empty; several kinds are joined by one space), ``percent`` 0 < p <= 100.
    """

    fibre: str
    kind: str
    percent: float


Value = str | float | tuple[FibrePart, ...] | tuple[str, ...] | None
"""What a field can hold: text, a number, a fibre composition or care processes."""

REPORTED_FIELDS = (
    "weight_class",
    "weight_printed",
    "shade",
    "shade_code",
    "lot",
    "fibre",
    "length_m",
    "mass_g",
    "care",
    "maker",
    "range",
    "barcode",
    "balls",
)
"""Fields of the ``--json`` form, in its order.  Scripts depend on it."""

OTHER_FIELDS = ("origin", "needle_mm", "stitches_per_10cm", "rows_per_10cm", "tension")
"""Fields that the stash keeps beside the reported ones, where a tag prints them."""

FIELDS = REPORTED_FIELDS + OTHER_FIELDS


Quad = tuple[
    tuple[float, float],
    tuple[float, float],
    tuple[float, float],
    tuple[float, float],
]
"""Corners in pixels of the straightened tag: top left, top right, bottom right,
bottom left, as the text runs."""


@dataclass(frozen=True, slots=True)
class Letter:
    """One letter of a reading.

    ``left`` and ``right`` are positions along the line, 0 at its start and 1 at its
    end; ``confidence`` is the reader's own score, 0 to 1.
    """

    text: str
    confidence: float
    left: float
    right: float


@dataclass(frozen=True, slots=True)
class Reading:
    """What one reader saw in one line.  Spaces are letters too."""

    reader: str
    letters: tuple[Letter, ...]

    @property
    def text(self) -> str:
        """The reading as plain text."""
        return "".join(letter.text for letter in self.letters)

    @property
    def confidence(self) -> float:
        """Mean score of the letters that are not spaces; 0 for an empty reading."""
        scores = [letter.confidence for letter in self.letters if letter.text != " "]
        return sum(scores) / len(scores) if scores else 0.0


@dataclass(frozen=True, slots=True)
class Line:
    """One line of print: both readings, and the text that the parsers work on.

    ``letters`` is the merged reading: the first reader's letters, with spaces from
    either.  ``agreed[i]`` tells whether the second reader saw the same letter as
    ``letters[i]`` at that place; ``others[i]`` is what it saw there instead (empty
    where it agreed or saw nothing).  All three have the same length.
    """

    quad: Quad
    letters: tuple[Letter, ...]
    agreed: tuple[bool, ...]
    others: tuple[str, ...]
    readings: tuple[Reading, ...] = ()

    @property
    def text(self) -> str:
        """The merged text; ``text[i]`` belongs to ``letters[i]``."""
        return "".join(letter.text for letter in self.letters)

    @property
    def height_px(self) -> float:
        """Height of the line's box in pixels."""
        (x0, y0), _, _, (x3, y3) = self.quad
        return float(((x3 - x0) ** 2 + (y3 - y0) ** 2) ** 0.5)

    @property
    def width_px(self) -> float:
        """Length of the line's box in pixels."""
        (x0, y0), (x1, y1), _, _ = self.quad
        return float(((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5)

    @property
    def centre(self) -> tuple[float, float]:
        """Middle of the box, x and y in pixels."""
        return (
            sum(corner[0] for corner in self.quad) / 4,
            sum(corner[1] for corner in self.quad) / 4,
        )


@dataclass(frozen=True, slots=True)
class Span:
    """Where a value stands: letters ``start`` to ``end`` (exclusive) of one line."""

    line: int
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Candidate:
    """One possible value of one field, found in the lines of a tag.

    ``cues`` is named evidence from 0 (against) to 1 (for), such as ``caption`` (a
    caption names the field), ``shape`` (the text looks like such a value) or
    ``whole`` (percentages sum to 100).  ``note`` is said to the user when the value
    is kept.  ``doubt``, where set, is a reason in words never to file it unasked.
    """

    name: str
    value: Value
    spans: tuple[Span, ...]
    cues: Mapping[str, float] = field(default_factory=dict)
    note: str = ""
    doubt: str = ""


@dataclass(frozen=True, slots=True)
class Field:
    """One field of a tag as it was read.

    ``line`` is the printed line it came from, ``others`` the other readings that were
    considered (best first, as text), ``reason`` why it is not sure.  ``printed`` is
    what the tag says where ``value`` is a normalised form of it.
    """

    name: str
    value: Value = None
    confidence: float = 0.0
    state: State = State.MISSING
    line: str = ""
    spans: tuple[Span, ...] = ()
    others: tuple[str, ...] = ()
    reason: str = ""
    printed: str = ""
    note: str = ""
    cues: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Barcode:
    """One barcode: its symbology (``EAN-13``, ``EAN-8``, ``UPC-A``, ``QR``), its text
    for ever, and where it stands."""

    symbology: str
    text: str
    quad: Quad


class SymbolKind(StrEnum):
    """What a symbol is drawn for."""

    CARE = "care"
    WEIGHT = "weight"
    TENSION = "tension"


@dataclass(frozen=True, slots=True)
class Symbol:
    """One symbol drawn on a tag.

    A care symbol has ``processes``, the care processes it stands for; none where it could not
    be told or leaves open what it allows.  A skein with a number stands for a
    ``weight_class``.  A square with tension about it stands for nothing by itself.
    ``confidence`` is from 0 to 1, ``state`` tells whether that makes it sure.
    """

    processes: tuple[str, ...]
    confidence: float
    state: State
    quad: Quad
    kind: SymbolKind = SymbolKind.CARE
    weight_class: str = ""


@dataclass(frozen=True, slots=True)
class TagReading:
    """All that was read from one tag of one picture.

    ``picture`` is the path as the user gave it, ``page`` counts from 1 (1 for a plain
    picture), ``tag`` counts from 1 within the whole file, ``digest`` is the SHA-256 of
    the file's bytes, ``print_hash`` a perceptual hash of the straightened tag and
    ``jpeg`` the straightened tag itself, without metadata.
    """

    picture: str
    page: int
    tag: int
    digest: str
    print_hash: str
    jpeg: bytes
    lines: tuple[Line, ...]
    barcodes: tuple[Barcode, ...]
    fields: Mapping[str, Field]
    notes: tuple[str, ...] = ()
    symbols: tuple[Symbol, ...] = ()


@dataclass(frozen=True, slots=True)
class Spent:
    """Seconds that a process spent by stage, up to ``until_s``, since it was last asked or
    was started.  Times are seconds as :func:`time.time` counts them."""

    process: int
    process_start_s: float
    until_s: float
    seconds: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class PictureReading:
    """What one picture gave: its tags, and where it failed (wholly, or from some page on)
    the error.  ``spent`` is what its worker spent on it, where it told."""

    picture: str
    tags: tuple[TagReading, ...]
    error: BalltagError | None = None
    spent: Spent | None = field(default=None, compare=False)
