"""The first reader: the package rapidocr, its models inside its wheel, offline.

It finds the lines and reads them.  The recogniser's alphabet holds 18,000 signs; a ball
tag is printed in Latin letters, so all other signs are struck out before the best letter
is chosen at each place.
"""

from __future__ import annotations

import logging
import unicodedata
from collections.abc import Sequence
from typing import Any

import cv2
import numpy as np
import numpy.typing as npt
from rapidocr import RapidOCR
from rapidocr.ch_ppocr_rec.utils import CTCLabelDecode

from intake.reading.base import Image, LineFinder, Quads, Reader
from intake.records import Letter, Reading
from intake.stages import stage

LONGEST_SIDE_PX = 1600
"""The line finder sees no picture larger than this; letters stay legible to it down to
about 8 pixels of height."""

_SIGNS = frozenset("°€£§&%+*/=<>#@.,;:!?()[]'\"-–—’‘“”„·•½¼¾²³×~_|\\ №ßªº®©™")


class RapidReader(LineFinder, Reader):
    """rapidocr as line finder and reader; one instance holds the loaded models.

    ``threads`` is the number of threads that one call may use.
    """

    name = "rapidocr"

    def __init__(self, threads: int = 1) -> None:
        logging.getLogger("RapidOCR").setLevel(logging.ERROR)
        self._engine = RapidOCR(
            params={
                "Global.log_level": "error",
                "Global.max_side_len": LONGEST_SIDE_PX,
                "Global.return_word_box": True,
                "Det.limit_type": "max",
                "Det.limit_side_len": LONGEST_SIDE_PX,
                "EngineConfig.onnxruntime.intra_op_num_threads": threads,
                "EngineConfig.onnxruntime.inter_op_num_threads": 1,
            }
        )
        recogniser = self._engine._load_rec_model()
        recogniser.postprocess_op = _LatinDecoder(recogniser.postprocess_op.character)

    @stage("detect")
    def find_lines(self, image: Image, longest_side_px: int | None = None) -> Quads:
        """See :meth:`LineFinder.find_lines`."""
        most_px = min(longest_side_px or LONGEST_SIDE_PX, LONGEST_SIDE_PX)
        scale = min(1.0, most_px / max(image.shape[:2]))
        if scale < 1:
            image = np.asarray(
                cv2.resize(image, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA), np.uint8
            )
        found = self._engine(_bgr(image), use_det=True, use_cls=False, use_rec=False)
        if found is None or found.boxes is None or len(found.boxes) == 0:
            return np.zeros((0, 4, 2), np.float32)
        return np.asarray(found.boxes, np.float32) / np.float32(scale)

    @stage("recognise")
    def read(self, lines: Sequence[Image]) -> list[Reading]:
        """See :meth:`Reader.read`."""
        if not lines:
            return []
        result = self._engine.recognize_txt([_bgr(line) for line in lines])
        return [Reading(self.name, letters) for letters in result.word_results]


class _LatinDecoder(CTCLabelDecode):  # type: ignore[misc]
    """Decodes the recogniser's output (lines x steps x signs) into Latin letters.

    A step is one column of the network's output; a run of equal steps is one letter, and
    its score is the best step's.
    """

    def __init__(self, signs: list[str]) -> None:
        self.character = signs
        self._kept = np.array(
            [index for index, sign in enumerate(signs) if index == 0 or _is_latin(sign)]
        )
        self._letters = [signs[index] for index in self._kept]

    def __call__(
        self,
        preds: npt.NDArray[np.float32],
        return_word_box: bool = False,
        wh_ratio_list: Sequence[float] = (1.0,),
        max_wh_ratio: float = 1.0,
        **_: Any,
    ) -> tuple[list[tuple[str, float]], list[tuple[Letter, ...]]]:
        lines = [
            self._decode(scores[:, self._kept], ratio / max_wh_ratio)
            for scores, ratio in zip(preds, wh_ratio_list, strict=True)
        ]
        texts = [("".join(letter.text for letter in line), 1.0) for line in lines]
        return texts, lines

    def _decode(self, scores: npt.NDArray[np.float32], filled: float) -> tuple[Letter, ...]:
        """Letters of one line.  ``filled`` is the share of the steps that the line's
        picture takes; the rest is padding."""
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


def _bgr(image: Image) -> Image:
    return cv2.cvtColor(image, cv2.COLOR_RGB2BGR).astype(np.uint8, copy=False)
