"""Telling care symbols apart: patches become care processes with a confidence.

The classifier is a small convolutional network in ``symbols.onnx`` beside this file;
``fixtures/fit_symbols.py`` fits it on symbols drawn in many styles.  It judges the four parts
of a look apart; what two looks both stand for gathers the probability of both.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources

import numpy as np
import numpy.typing as npt
import onnxruntime

from intake.symbols.patch import Patch
from intake.symbols.vocabulary import (
    BASE_OF,
    KINDS,
    LOOKS,
    MOST_BARS,
    Look,
    processes_of,
)

Floats = npt.NDArray[np.float32]

_PARTS = (len(KINDS), 2, MOST_BARS + 1, 2)
_MEANINGS = tuple(dict.fromkeys(processes_of(look) for look in LOOKS))
_MEANING_OF_LOOK = np.array([_MEANINGS.index(processes_of(look)) for look in LOOKS])


@dataclass(frozen=True, slots=True)
class Verdict:
    """What one patch shows: the processes it most likely stands for (or
    :data:`~intake.symbols.vocabulary.NO_SYMBOL` or ``NAMELESS``), how likely that is from 0
    to 1, and the likeliest look."""

    processes: tuple[str, ...]
    confidence: float
    look: Look

    @property
    def base(self) -> str:
        """The shape of the likeliest look: ``tub``, ``iron``, …, or ``none``."""
        return BASE_OF[self.look.kind]


def classify(patches: Sequence[Patch], views: int = 1) -> list[Verdict]:
    """A verdict on every drawing, of which ``patches`` hold so many ``views`` each, one
    drawing's after another's: what all views say on average."""
    if not patches:
        return []
    scores = _session().run(None, {"patches": np.stack(patches)[:, None]})[0]
    looks = _likelihood_of_looks(np.asarray(scores, np.float32))
    looks = looks.reshape(-1, views, len(LOOKS)).mean(axis=1)
    meanings = np.zeros((len(looks), len(_MEANINGS)), np.float32)
    np.add.at(meanings.T, _MEANING_OF_LOOK, looks.T)
    return [
        Verdict(_MEANINGS[int(meaning.argmax())], float(meaning.max()), LOOKS[int(look.argmax())])
        for meaning, look in zip(meanings, looks, strict=True)
    ]


def _likelihood_of_looks(scores: Floats) -> Floats:
    """Probability of each of :data:`LOOKS`, (n, looks), from the network's scores."""
    whole = np.ones((len(scores), 1), np.float32)
    start = 0
    for classes in _PARTS:
        part = scores[:, start : start + classes]
        shares = np.exp(part - part.max(axis=1, keepdims=True))
        shares /= shares.sum(axis=1, keepdims=True)
        whole = (whole[:, :, None] * shares[:, None, :]).reshape(len(scores), -1)
        start += classes
    return whole


@cache
def _session() -> onnxruntime.InferenceSession:
    model = resources.files("intake.symbols").joinpath("symbols.onnx").read_bytes()
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = 1
    return onnxruntime.InferenceSession(model, options, providers=["CPUExecutionProvider"])
