"""The first reader: the models of the package rapidocr, inside its wheel, offline.

They find the lines and read them.  The recogniser's alphabet holds 18,000 signs; a ball
tag is printed in Latin letters, so all other signs are struck out before the best letter
is chosen at each place.

Only the models are taken, for loading the package takes longer than reading a tag.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from importlib.resources import files

import cv2
import numpy as np
import numpy.typing as npt

from intake.inference import Inference
from intake.reading.base import Image, LineFinder, Quads, Reader
from intake.reading.text_boxes import boxes_of
from intake.records import Letter, Reading
from intake.stages import stage

FINDER, RECOGNISER = "PP-OCRv6_det_small.onnx", "PP-OCRv6_rec_small.onnx"

LONGEST_SIDE_PX = 1600
"""The line finder sees no picture larger than this; letters stay legible to it down to
about 8 pixels of height."""

_WHOLE_PX = 32
"""The sides of what the finder sees are multiples of this."""

_LEAST_SIDE_PX = 30
_LONGEST_SHAPE = 8
"""A picture with a shorter side, or longer than so many times its height, gets black bars above
and below: of little that is very long the finder sees nothing."""

_LINE_PX = 48
_BLANK_PX = 48
_LEAST_WIDTH_PX = 384
"""The recogniser reads lines of this height, each with at least so much blank behind it and on a
picture of at least this width: with less it is less sure of letters and loses some at the end."""

_SIGNS = frozenset("°€£§&%+*/=<>#@.,;:!?()[]'\"-–—’‘“”„·•½¼¾²³×~_|\\ №ßªº®©™")

Tensor = npt.NDArray[np.float32]


class RapidReader(LineFinder, Reader):
    """rapidocr's models as line finder and reader; one instance holds them loaded.

    ``threads`` is the number of threads that one call may use.
    """

    name = "rapidocr"

    def __init__(self, threads: int = 1) -> None:
        self._finder = Inference(_model(FINDER), threads)
        self._recogniser = Inference(_model(RECOGNISER), threads)
        signs = self._recogniser.notes["character"].splitlines()
        self._decoder = _LatinDecoder(["", *signs, " "])

    @stage("detect")
    def find_lines(self, image: Image, longest_side_px: int | None = None) -> Quads:
        """See :meth:`LineFinder.find_lines`."""
        most_px = min(longest_side_px or LONGEST_SIDE_PX, LONGEST_SIDE_PX)
        scale = min(1.0, most_px / max(image.shape[:2]))
        if scale < 1:
            image = np.asarray(
                cv2.resize(image, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA), np.uint8
            )
        height_px, width_px = image.shape[:2]
        bar_px = _bar_px(height_px, width_px)
        shown = cv2.copyMakeBorder(image, bar_px, bar_px, 0, 0, cv2.BORDER_CONSTANT)
        size = [max(1, round(side_px / _WHOLE_PX)) * _WHOLE_PX for side_px in shown.shape[1::-1]]
        (seen,) = self._finder.run(x=_as_input(cv2.resize(shown, size))[None])
        boxes = boxes_of(seen[0, 0], width_px, height_px + 2 * bar_px)
        boxes -= (0, bar_px)
        return np.clip(boxes, 0, (width_px, height_px)).astype(np.float32) / np.float32(scale)

    @stage("recognise")
    def read(self, lines: Sequence[Image]) -> list[Reading]:
        """See :meth:`Reader.read`."""
        return [Reading(self.name, self._letters(line)) for line in lines]

    def _letters(self, line: Image) -> tuple[Letter, ...]:
        """The letters of a line, which is shown alone: in one batch with longer ones it would be
        padded to their length, which takes longer and now and then changes what is read."""
        own_px = _LINE_PX * (line.shape[1] / line.shape[0])
        all_px = max(own_px + _BLANK_PX, _LEAST_WIDTH_PX)
        shown = np.zeros((1, 3, _LINE_PX, int(all_px)), np.float32)
        width_px = min(shown.shape[3], int(np.ceil(own_px)))
        shown[0, :, :, :width_px] = _as_input(cv2.resize(line, (width_px, _LINE_PX)))
        (scores,) = self._recogniser.run(x=shown)
        return self._decoder.decoded(scores[0], own_px / all_px)


def _model(name: str) -> bytes:
    """What one of rapidocr's models holds."""
    return files("rapidocr").joinpath("models", name).read_bytes()


def _bar_px(height_px: int, width_px: int) -> int:
    """How high the bars above and below a picture are."""
    if height_px > _LEAST_SIDE_PX and width_px <= _LONGEST_SHAPE * height_px:
        return 0
    return abs(2 * max(int(width_px / _LONGEST_SHAPE), _LEAST_SIDE_PX) - height_px) // 2


def _as_input(image: Image | cv2.typing.MatLike) -> Tensor:
    """The picture as the models want it: blue, green, red, each from -1 to 1."""
    planes = np.asarray(image)[..., ::-1].transpose(2, 0, 1).astype(np.float32)
    planes *= 2 / 255
    planes -= 1
    return planes


class _LatinDecoder:
    """Decodes the recogniser's output (steps x signs) into Latin letters.

    A step is one column of the network's output; a run of equal steps is one letter, and
    its score is the best step's.  The first sign stands for none.
    """

    def __init__(self, signs: Sequence[str]) -> None:
        self._kept = np.array(
            [index for index, sign in enumerate(signs) if index == 0 or _is_latin(sign)]
        )
        self._letters = [signs[index] for index in self._kept]

    def decoded(self, scores: Tensor, filled: float) -> tuple[Letter, ...]:
        """Letters of one line.  ``filled`` is the share of the steps that the line's
        picture takes; the rest is padding."""
        scores = scores[:, self._kept]
        steps = max(1.0, len(scores) * min(filled, 1.0))
        best = scores.argmax(axis=1)
        starts = np.flatnonzero(np.r_[True, best[1:] != best[:-1]])
        ends = np.r_[starts[1:], len(best)]
        letters = []
        for start, end in zip(starts, ends, strict=True):
            sign = int(best[start])
            if sign == 0:
                continue
            confidence = float(scores[start:end, sign].max())
            left, right = float(min(start / steps, 1)), float(min(end / steps, 1))
            letters.append(Letter(self._letters[sign], confidence, left, right))
        return tuple(letters)


def _is_latin(sign: str) -> bool:
    if sign in _SIGNS or (sign.isascii() and sign.isdigit()):
        return True
    return len(sign) == 1 and sign.isalpha() and unicodedata.name(sign, "").startswith("LATIN ")
