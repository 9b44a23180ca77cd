"""Sessions of onnxruntime, set up alike for all models that are used here."""

from __future__ import annotations

import os
from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from functools import cache
from typing import Any

import numpy.typing as npt
import onnxruntime


class Inference:
    """A model that is held loaded; ``model`` is what its file holds.

    It runs on ``threads`` threads, and numbers below 1.2e-38 count as 0.  A processor takes a
    hundred times as long for these, and models hold them: of the line finder's widest layers two
    thirds of the weights are so small.  With them at 0 it takes 0.37 of the time and finds the
    same.  onnxruntime sets the processor so for the thread that makes the first session of a
    process; all models are made and run on a thread of their own, so that whoever calls them goes
    on counting as ever.
    """

    def __init__(self, model: bytes, threads: int = 1) -> None:
        self._session = _thread().submit(_session, model, threads).result()

    def run(self, **inputs: npt.NDArray[Any]) -> list[npt.NDArray[Any]]:
        """What the model makes of its ``inputs``, by their names."""
        outputs: list[npt.NDArray[Any]] = _thread().submit(self._session.run, None, inputs).result()
        return outputs

    @property
    def notes(self) -> Mapping[str, str]:
        """What its makers wrote into the model, by name."""
        notes: Mapping[str, str] = self._session.get_modelmeta().custom_metadata_map
        return notes


def _session(model: bytes, threads: int) -> onnxruntime.InferenceSession:
    options = onnxruntime.SessionOptions()
    options.log_severity_level = 4
    options.intra_op_num_threads = threads
    options.inter_op_num_threads = 1
    options.enable_cpu_mem_arena = False  # it never gives back what the largest picture took
    options.add_session_config_entry("session.set_denormal_as_zero", "1")
    return onnxruntime.InferenceSession(model, options, providers=["CPUExecutionProvider"])


@cache
def _thread() -> ThreadPoolExecutor:
    return ThreadPoolExecutor(max_workers=1, thread_name_prefix="inference")


if hasattr(os, "register_at_fork"):  # a forked process has none of its parent's threads
    os.register_at_fork(after_in_child=_thread.cache_clear)
