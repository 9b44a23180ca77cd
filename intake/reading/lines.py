"""Lines of print: cut from the tag, and the two readings of each merged into one."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from statistics import median

import cv2
import numpy as np
import numpy.typing as npt
from rapidfuzz.distance import Levenshtein

from intake.reading.base import Image, Quads
from intake.records import Letter, Line, Quad, Reading
from intake.stages import stage

_PAD = 0.06
"""Share of a line's height that is cut out beyond its box on each side: the finder's
boxes shave accents and descenders."""

_WORD_ROOM = 0.12
"""Room left and right of a word that is cut out, in line heights."""

_NAME_WORDS = 4
"""A line of at most so many words may be a name."""

_WORD = re.compile(r"\S+")

_CODE = re.compile(r"(?=.*\d)[A-Z0-9]+(?:[-/.][A-Z0-9]+)*")
_LOOKALIKES = "O0I1"

_SMALLEST_PX = 4.0

_SAME_MARK = str.maketrans({"–": "-", "—": "-", "’": "'", "‘": "'", "“": '"', "”": '"', "•": "·"})


_SIGN_FOR = {"]": "J", "$": "S", "£": "E", "&": "8"}
"""Signs that the second reader puts for a capital or digit of a code.  On drawn tags the
first reader's letter was right in all 8 codes that differed only so."""

_STROKED = {"ø": "o", "Ø": "O", "ł": "l", "Ł": "L"}
"""Letters whose stroke Unicode does not take apart."""

_RINGED = "åÅ"

_LIGATURES = {"ae": "æ", "AE": "Æ", "Ae": "Æ", "oe": "œ", "OE": "Œ"}


@stage("straighten")
def cut_lines(image: Image, quads: Quads) -> list[Image]:
    """Each box of ``quads`` as a level picture of its own, text running left to right."""
    return [_cut(image, quad) for quad in quads]


def _cut(image: Image, quad: npt.NDArray[np.float32]) -> Image:
    sides_px = np.linalg.norm(np.roll(quad, -1, axis=0) - quad, axis=1)
    width_px = float(max(sides_px[0], sides_px[2], _SMALLEST_PX))
    height_px = float(max(sides_px[1], sides_px[3], _SMALLEST_PX))
    pad_px = _PAD * height_px
    size = (round(width_px + 2 * pad_px), round(height_px + 2 * pad_px))
    inner = np.array(
        [
            (pad_px, pad_px),
            (pad_px + width_px, pad_px),
            (pad_px + width_px, pad_px + height_px),
            (pad_px, pad_px + height_px),
        ],
        np.float32,
    )
    matrix = cv2.getPerspectiveTransform(quad.astype(np.float32), inner)
    return cv2.warpPerspective(
        image, matrix, size, flags=cv2.INTER_CUBIC, borderMode=cv2.BORDER_REPLICATE
    ).astype(np.uint8)


def open_words(line: Line) -> list[tuple[int, int]]:
    """Words of ``line`` that are worth another look, each as its first letter and the one
    behind its last: those on which the readers differ, if they hold a digit or the line is
    as short as a name."""
    words = [match.span() for match in _WORD.finditer(line.text)]
    return [
        (start, end)
        for start, end in words
        if not all(line.agreed[start:end])
        and (
            len(words) <= _NAME_WORDS
            or any(letter.text.isdigit() for letter in line.letters[start:end])
        )
    ]


def open_codes(line: Line) -> list[tuple[int, int]]:
    """Those of :func:`open_words` that are set like codes, in capitals and digits.

    Where the readers differ on O and 0 or I and 1 in a code with letters, no look settles
    it: these have one shape in many typefaces.
    """
    return [
        (start, end)
        for start, end in open_words(line)
        if _CODE.fullmatch(line.text[start:end])
        and (
            line.text[start:end].isdigit()
            or not any(
                letter.text in _LOOKALIKES and not agreed
                for letter, agreed in zip(
                    line.letters[start:end], line.agreed[start:end], strict=True
                )
            )
        )
    ]


@stage("straighten")
def cut_word(image: Image, line: Line, start: int, end: int) -> Image:
    """Letters ``start`` to ``end`` of ``line`` as a picture of their own."""
    room = _WORD_ROOM * line.height_px / max(line.width_px, 1.0)
    left, right = line.letters[start].left - room, line.letters[end - 1].right + room
    top_left, top_right, bottom_right, bottom_left = np.array(line.quad, np.float32)
    across, below = top_right - top_left, bottom_right - bottom_left
    corners = [
        top_left + across * left,
        top_left + across * right,
        bottom_left + below * right,
        bottom_left + below * left,
    ]
    return _cut(image, np.array(corners, np.float32))


def confirmed(line: Line, start: int, end: int) -> Line:
    """``line`` with letters ``start`` to ``end`` seen alike by both readers after all."""
    inside = range(start, end)
    return replace(
        line,
        agreed=tuple(seen or at in inside for at, seen in enumerate(line.agreed)),
        others=tuple("" if at in inside else other for at, other in enumerate(line.others)),
    )


@stage("parse")
def merge(quad: Quad, first: Reading, second: Reading | None) -> Line:
    """One line from both readings.

    The letters are the first reader's.  Where the second saw something else at a letter's
    place, that is kept in ``others``; what it saw between two letters is told at the
    letter before.  A space that only the second saw is taken over where the first left a
    gap for one.  The style of dashes and quotes does not count as difference, nor an
    accent that only one of them saw: readers lose accents and do not make them up (on drawn
    tags the letter with the accent was right 57 times in 59), nor a sign that no print on a
    tag holds and that looks like the letter.
    """
    if second is None:
        count = len(first.letters)
        return Line(quad, first.letters, (False,) * count, ("",) * count, (first,))
    first = _with_ligatures(first, second.text)
    ours = [letter for letter in first.letters if letter.text != " "]
    theirs = [letter for letter in second.letters if letter.text != " "]
    agreed = [False] * len(ours)
    others = [""] * len(ours)
    partner: dict[int, int] = {}
    plain_ours = [plain_marks(letter.text) for letter in ours]
    plain_theirs = [plain_marks(letter.text) for letter in theirs]
    for step in Levenshtein.opcodes(plain_ours, plain_theirs):
        seen = "".join(letter.text for letter in theirs[step.dest_start : step.dest_end])
        if step.tag == "insert":
            if ours:
                at = max(0, step.src_start - 1)
                agreed[at], others[at] = False, ours[at].text + seen
            continue
        for offset, at in enumerate(range(step.src_start, step.src_end)):
            if step.tag == "equal":
                agreed[at] = True
                partner[at] = step.dest_start + offset
            elif at == step.src_start:
                others[at] = seen
        if step.tag == "replace" and step.src_end - step.src_start == len(seen):
            for at, sign in zip(range(step.src_start, step.src_end), seen, strict=True):
                accented = _lost_accent(ours[at].text, sign)
                if _SIGN_FOR.get(sign) == ours[at].text:
                    agreed[at], others[at] = True, ""
                if accented:
                    ours[at] = replace(ours[at], text=accented)
                    agreed[at], others[at] = True, ""
    return _spaced(quad, first, second, ours, agreed, others, partner)


def _spaced(
    quad: Quad,
    first: Reading,
    second: Reading,
    ours: Sequence[Letter],
    agreed: Sequence[bool],
    others: Sequence[str],
    partner: dict[int, int],
) -> Line:
    """The line with its spaces put back between the letters."""
    first_gaps = _gaps(first.letters)
    second_gaps = _gaps(second.letters)
    usual = median([b.left - a.left for a, b in pairwise(ours)] or [0.0])
    letters: list[Letter] = []
    both: list[bool] = []
    instead: list[str] = []
    for at, letter in enumerate(ours):
        after_first = at in first_gaps
        after_second = partner.get(at - 1, -2) + 1 == partner.get(at, -9) and (
            partner[at] in second_gaps
        )
        wide = at > 0 and letter.left - ours[at - 1].left > 1.45 * usual
        if at > 0 and (after_first or (after_second and wide)):
            letters.append(Letter(" ", 1.0, ours[at - 1].right, letter.left))
            both.append(after_first == after_second)
            instead.append("")
        letters.append(letter)
        both.append(agreed[at])
        instead.append(others[at])
    return Line(quad, tuple(letters), tuple(both), tuple(instead), (first, second))


def _gaps(letters: Sequence[Letter]) -> set[int]:
    """Numbers of the letters, spaces not counted, that stand after a space."""
    found: set[int] = set()
    count = 0
    for letter in letters:
        if letter.text == " ":
            found.add(count)
        else:
            count += 1
    return found


def _lost_accent(ours: str, theirs: str) -> str:
    """The accented one of two letters that differ by an accent which one of them lacks;
    empty for other letters, and for an å of the second reader alone: the first one knows it
    well, and data for Danish make it up."""
    plain, accented = sorted((ours, theirs), key=lambda one: not one.isascii())
    if theirs in _RINGED and theirs == accented:
        return ""
    if plain.isascii() and not accented.isascii() and _bare(accented) == plain:
        return accented
    return ""


def without_lost_accents(ours: str, theirs: str) -> tuple[str, str]:
    """Both readings of one print, ligatures as two letters and accents that only one of them
    has taken away."""
    for pair, ligature in _LIGATURES.items():
        ours, theirs = ours.replace(ligature, pair), theirs.replace(ligature, pair)
    if len(ours) != len(theirs):
        return ours, theirs
    pairs = [
        (_bare(a), _bare(b)) if _lost_accent(a, b) else (a, b)
        for a, b in zip(ours, theirs, strict=True)
    ]
    return "".join(a for a, _ in pairs), "".join(b for _, b in pairs)


def _bare(sign: str) -> str:
    marks = unicodedata.normalize("NFD", sign)
    return _STROKED.get(sign) or "".join(c for c in marks if not unicodedata.combining(c))


def _with_ligatures(first: Reading, second_text: str) -> Reading:
    """``first`` with its two letters made one where the second reader saw a ligature: the
    first one's models do not know them."""
    for pair, ligature in _LIGATURES.items():
        places = [
            at
            for at, letter in enumerate(first.letters[:-1])
            if letter.text + first.letters[at + 1].text == pair
        ]
        if places and second_text.count(ligature) == len(places):
            letters = list(first.letters)
            for at in reversed(places):
                joined = replace(letters[at], text=ligature, right=letters[at + 1].right)
                letters[at : at + 2] = [joined]
            first = replace(first, letters=tuple(letters))
    return first


def plain_marks(text: str) -> str:
    """``text`` with dashes, quotes and bullets in one style."""
    return text.translate(_SAME_MARK)
