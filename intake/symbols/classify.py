"""Telling symbols apart: patches become what they stand for, with a confidence.

The classifier is a small convolutional network in ``symbols.onnx`` beside this file;
``fixtures/fit_symbols.py`` fits it on symbols drawn in many styles.  It judges the four parts
of a look apart; what two looks of one shape both stand for gathers the probability of both.
It sees the whole of a drawing and, larger, its middle, where numbers, dots and letters stand.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from intake.inference import Inference
from intake.symbols.patch import Patch
from intake.symbols.vocabulary import (
    BASE_OF,
    KINDS,
    LOOKS,
    MOST_BARS,
    Look,
    meaning_of,
)

Floats = npt.NDArray[np.float32]

_OTHER_NUMBER, _NO_NUMBER = 0.02, 0.2
"""How much less likely a reader of words sees a number where another one or none is drawn."""

_PARTS = (len(KINDS), 2, MOST_BARS + 1, 2)
_SENSES = tuple(dict.fromkeys((BASE_OF[look.kind], meaning_of(look)) for look in LOOKS))
_SENSE_OF_LOOK = np.array([_SENSES.index((BASE_OF[look.kind], meaning_of(look))) for look in LOOKS])
_LOOKS_OF_SENSE = tuple(
    np.array([look for look, sense in enumerate(_SENSE_OF_LOOK) if sense == at])
    for at in range(len(_SENSES))
)

_CROSSED_HAND = 0.03
"""Weight of a hand that is crossed out, which stands in no table of ISO 3758 or ASTM D5489 (both
from memory): the tub alone is crossed.  The classifier was fitted on about as many as of tubs, and
an arm looks like a stroke across.  Of 1,137 crossed tubs without a hand, in styles of both splits,
2 were taken for a hand with this weight, none with more than 0.9."""

_COMMONNESS = np.array(
    [_CROSSED_HAND if look.kind == "hand wash" and look.crossed else 1.0 for look in LOOKS],
    np.float32,
)

_KEPT = 1e-4
"""What is less likely than this is not kept beside the likeliest."""

_VETO = 1e-6
"""No view makes a look less likely than this: one bad cut must not outvote the others."""


class Sense(NamedTuple):
    """One thing that a patch may show: its shape (``tub``, ``iron``, …, or ``none``), the care
    processes or the weight class that it stands for (or
    :data:`~intake.symbols.vocabulary.NO_SYMBOL` or ``NAMELESS``), how likely that is from 0
    to 1, and the likeliest look with that sense."""

    base: str
    meaning: tuple[str, ...]
    share: float
    look: Look


@dataclass(frozen=True, slots=True)
class Verdict:
    """What one patch shows: the senses that it may have, likeliest first, at least one."""

    senses: tuple[Sense, ...]

    @property
    def meaning(self) -> tuple[str, ...]:
        """What it most likely stands for."""
        return self.senses[0].meaning

    @property
    def confidence(self) -> float:
        """How likely that is, from 0 to 1."""
        return self.senses[0].share

    @property
    def look(self) -> Look:
        """How it most likely looks."""
        return self.senses[0].look

    @property
    def base(self) -> str:
        """The likeliest shape: ``tub``, ``iron``, …, or ``none``."""
        return self.senses[0].base


def classify(
    patches: Sequence[Patch], views: int = 1, numbers: Sequence[str] = ()
) -> list[Verdict]:
    """A verdict on every drawing, of which ``patches`` hold so many ``views`` each, one
    drawing's after another's.  ``numbers`` are what a reader
    of words saw in each drawing, empty where that was no number."""
    if not patches:
        return []
    (scores,) = _network().run(patches=np.stack(patches)[:, None])
    looks = _likelihood_of_looks(np.asarray(scores, np.float32))
    looks = _of_all_views(looks.reshape(-1, views, len(LOOKS))) * _COMMONNESS
    looks /= looks.sum(axis=1, keepdims=True)
    for look, number in zip(looks, numbers, strict=False):
        if number:
            look *= _fitting(number)
            look /= look.sum()
    senses = np.zeros((len(looks), len(_SENSES)), np.float32)
    np.add.at(senses.T, _SENSE_OF_LOOK, looks.T)
    return [_verdict(shares, look) for shares, look in zip(senses, looks, strict=True)]


def _of_all_views(looks: Floats) -> Floats:
    """What all views (n, views, looks) say of a drawing: their geometric mean, since they see
    the same ink."""
    if looks.shape[1] == 1:
        return np.asarray(looks[:, 0], np.float32)
    agreed = np.exp(
        np.log(np.maximum(looks, _VETO * looks.max(axis=2, keepdims=True))).mean(axis=1)
    )
    return np.asarray(agreed / agreed.sum(axis=1, keepdims=True), np.float32)


def _verdict(senses: Floats, looks: Floats) -> Verdict:
    """The verdict from the probability of each of ``_SENSES`` and of each of :data:`LOOKS`."""
    order = np.argsort(-senses)
    kept = [at for at in order if senses[at] >= _KEPT] or [order[0]]
    shown = []
    for at in kept:
        (base, meaning), own = _SENSES[at], _LOOKS_OF_SENSE[at]
        shown.append(Sense(base, meaning, float(senses[at]), LOOKS[own[looks[own].argmax()]]))
    return Verdict(tuple(shown))


def _likelihood_of_looks(scores: Floats) -> Floats:
    """Probability of each of :data:`LOOKS`, (n, looks), from the scores of the network."""
    whole = np.ones((len(scores), 1), np.float32)
    start = 0
    for classes in _PARTS:
        shares = _shares(scores[:, start : start + classes])
        whole = (whole[:, :, None] * shares[:, None, :]).reshape(len(scores), -1)
        start += classes
    return whole


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
def _network() -> Inference:
    model = resources.files("intake.symbols").joinpath("symbols.onnx").read_bytes()
    return Inference(model)
