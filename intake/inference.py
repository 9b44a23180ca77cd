"""Sessions of onnxruntime, set up alike for all models that are used here."""

from __future__ import annotations

import onnxruntime


def inference_session(model: bytes, threads: int = 1) -> onnxruntime.InferenceSession:
    """A session that runs ``model`` (what its file holds) on ``threads`` threads.

    Numbers below 1.2e-38 count as 0.  A processor takes a hundred times as long for these, and
    models hold them: of the line finder's widest layers two thirds of the weights are so small.
    With them at 0 it takes 0.37 of the time and finds the same.  onnxruntime heeds this for the
    thread that makes the first session of a process, so all are made here.
    """
    options = onnxruntime.SessionOptions()
    options.log_severity_level = 4
    options.intra_op_num_threads = threads
    options.inter_op_num_threads = 1
    options.enable_cpu_mem_arena = False  # it never gives back what the largest picture took
    options.add_session_config_entry("session.set_denormal_as_zero", "1")
    return onnxruntime.InferenceSession(model, options, providers=["CPUExecutionProvider"])
