"""Telling symbols apart: patches become what they stand for, with a confidence.

The classifier is a small convolutional network in ``symbols.onnx`` beside this file;
``fixtures/fit_symbols.py`` fits it on symbols drawn in many styles.  It judges the four parts
of a look apart; what two looks both stand for gathers the probability of both.  The number in
a tub or a skein is looked at a second time, larger, by a network of its own: the kind must
suit both.
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
    BASES,
    KINDS,
    LOOKS,
    MOST_BARS,
    NUMBERED,
    Look,
    meaning_of,
)

Floats = npt.NDArray[np.float32]

_OTHER_NUMBER, _NO_NUMBER = 0.02, 0.2
"""How much less likely a reader of words sees a number where another one or none is drawn."""

_PARTS = (len(KINDS), 2, MOST_BARS + 1, 2)
_MEANINGS = tuple(dict.fromkeys(meaning_of(look) for look in LOOKS))
_MEANING_OF_LOOK = np.array([_MEANINGS.index(meaning_of(look)) for look in LOOKS])


_SMALLEST = 1e-30
"""Keeps from dividing by nothing."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """What one patch shows: the care processes or the weight class that it most likely stands
    for (or :data:`~intake.symbols.vocabulary.NO_SYMBOL` or ``NAMELESS``), how likely that is
    from 0 to 1, and the likeliest look."""

    meaning: tuple[str, ...]
    confidence: float
    look: Look

    @property
    def base(self) -> str:
        """The shape of the likeliest look: ``tub``, ``iron``, …, or ``none``."""
        return BASE_OF[self.look.kind]


def classify(
    patches: Sequence[Patch], views: int = 1, numbers: Sequence[str] = ()
) -> list[Verdict]:
    """A verdict on every drawing, of which ``patches`` hold so many ``views`` each, one
    drawing's after another's: what all views say on average.  ``numbers`` are what a reader
    of words saw in each drawing, empty where that was no number."""
    if not patches:
        return []
    scores, numbers_seen = _session().run(None, {"patches": np.stack(patches)[:, None]})
    looks = _likelihood_of_looks(
        np.asarray(scores, np.float32), np.asarray(numbers_seen, np.float32)
    )
    looks = looks.reshape(-1, views, len(LOOKS)).mean(axis=1)
    for look, number in zip(looks, numbers, strict=False):
        if number:
            look *= _fitting(number)
            look /= look.sum()
    meanings = np.zeros((len(looks), len(_MEANINGS)), np.float32)
    np.add.at(meanings.T, _MEANING_OF_LOOK, looks.T)
    return [
        Verdict(_MEANINGS[int(meaning.argmax())], float(meaning.max()), LOOKS[int(look.argmax())])
        for meaning, look in zip(meanings, looks, strict=True)
    ]


def _likelihood_of_looks(scores: Floats, numbers: Floats) -> Floats:
    """Probability of each of :data:`LOOKS`, (n, looks), from the scores of both networks."""
    whole = np.ones((len(scores), 1), np.float32)
    start = 0
    for classes in _PARTS:
        shares = _shares(scores[:, start : start + classes])
        if start == 0:
            shares = _with_numbers(shares, numbers)
        whole = (whole[:, :, None] * shares[:, None, :]).reshape(len(scores), -1)
        start += classes
    return whole


def _with_numbers(kinds: Floats, numbers: Floats) -> Floats:
    """Probability of each kind, (n, kinds), where the ``numbers`` were looked at too: of the
    kinds of one shape those become likelier that suit them, the shape as a whole does not."""
    kinds = kinds.copy()
    start = 0
    for base in NUMBERED:
        at = [KINDS.index(kind) for kind in BASES[base]]
        both = kinds[:, at] * _shares(numbers[:, start : start + len(at)])
        both *= kinds[:, at].sum(axis=1, keepdims=True) / np.maximum(
            both.sum(axis=1, keepdims=True), _SMALLEST
        )
        kinds[:, at] = both
        start += len(at)
    return kinds


def _shares(scores: Floats) -> Floats:
    """Scores as probabilities that sum to 1."""
    shares = np.exp(scores - scores.max(axis=1, keepdims=True))
    return np.asarray(shares / shares.sum(axis=1, keepdims=True), np.float32)


@cache
def _fitting(number: str) -> Floats:
    """How well each of :data:`LOOKS` goes with a ``number`` that was read in it, from 0 to 1."""
    drawn = [last if (last := look.kind.split()[-1]).isdigit() else "" for look in LOOKS]
    fits = {number: 1.0, "": _NO_NUMBER}
    return np.array([fits.get(one, _OTHER_NUMBER) for one in drawn], np.float32)


@cache
def _session() -> onnxruntime.InferenceSession:
    model = resources.files("intake.symbols").joinpath("symbols.onnx").read_bytes()
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = 1
    return onnxruntime.InferenceSession(model, options, providers=["CPUExecutionProvider"])
