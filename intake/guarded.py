"""A worker in a process of its own, under guard: it is ended when it hangs or grows too large.

A plain subprocess, not one of multiprocessing's: a worker of a cluster may start it too, and a
script that calls :func:`intake.run.intake` needs no ``if __name__ == "__main__"``.  The two talk
through the worker's pipes in pickles: a path goes in, signs of life come out, then what the
picture gave.
"""

from __future__ import annotations

import os
import pickle
import signal
import subprocess
import sys
import tempfile
import time
import warnings
from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from queue import SimpleQueue
from shutil import rmtree
from threading import Event, Thread
from typing import IO

import psutil

from intake.errors import BalltagError, PictureError, TooLarge, TooSlow, said_by
from intake.records import PictureReading
from intake.stages import clock, process_start_s, spent, stage

STEP_S = 20.0
"""A page or tag takes 1 to 5 s; a worker that is on one for so long hangs.  Where more is to be
done than there are cores it has as much longer as everything takes longer there."""

MOST_BYTES = 1_500_000_000
"""A worker of more memory is ended."""

MOST_KEPT_BYTES = 1_000_000_000
"""A worker that holds more between two pictures is not used again: what it lost on its way would
be laid to the next picture.  One of a thousand pictures holds about half of it."""

_TICK_S = 0.25
_LONGEST_TICK_S = 1.0
"""A look that comes later than this was kept from coming: the machine slept, or we were stopped
and went on (Ctrl-Z).  That time is not the worker's."""


class WorkerDied(Exception):
    """A worker ended by itself, or somebody ended it: the picture may not be to blame."""


class GuardedWorker:
    """A process that reads one picture at a time and keeps its readers loaded.

    What it writes on the way lies in a folder of its own, which goes with it.
    """

    def __init__(self) -> None:
        self._folder = tempfile.TemporaryDirectory(prefix="balltag-", ignore_cleanup_errors=True)
        # A group of its own: Ctrl-C in a terminal reaches us only, and we end the workers.
        self._process = subprocess.Popen(
            [sys.executable, "-P", "-m", "intake.guarded", self._folder.name],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            env={
                **os.environ,
                "PYTHONPATH": os.pathsep.join(map(os.path.abspath, sys.path)),
            },
            start_new_session=True,
        )

    @property
    def is_alive(self) -> bool:
        """Whether it can read a picture."""
        return self._process.poll() is None

    @property
    def is_swollen(self) -> bool:
        """Whether it holds more memory between two pictures than it should."""
        try:
            held_bytes: int = psutil.Process(self._process.pid).memory_info().rss
        except psutil.NoSuchProcess:
            return False
        return held_bytes > MOST_KEPT_BYTES

    def read(self, file: Path) -> PictureReading:
        """What ``file`` gave; an error in it where the worker had to be ended.  Raises
        :class:`WorkerDied`, and any :class:`BalltagError` that is not about the picture."""
        guard = _Guard(self._process.pid, self.end)
        with guard:
            try:
                answer = self._answer(file, guard)
            except (EOFError, OSError, pickle.UnpicklingError) as error:
                self.end()
                if guard.fault is None:
                    raise WorkerDied(f"a worker broke down on {file}") from error
                return PictureReading(str(file), (), guard.fault(file))
            except BaseException:  # what it answers later would be taken for the next picture's
                self.end()
                raise
        if isinstance(answer, BalltagError):
            raise answer
        return answer

    def _answer(self, file: Path, guard: _Guard) -> PictureReading | BalltagError:
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        _send(self._process.stdin, file)
        while True:
            answer: PictureReading | BalltagError | None = pickle.load(self._process.stdout)
            if answer is not None:
                return answer
            guard.step()

    def end(self) -> None:
        """End it, whatever it is doing; one who waits for it is told."""
        # A program that it has started, such as Tesseract, would outlive it.
        with suppress(psutil.NoSuchProcess):
            for started in psutil.Process(self._process.pid).children(recursive=True):
                with suppress(psutil.NoSuchProcess):
                    started.kill()
        self._process.kill()
        self._process.wait()
        self._folder.cleanup()

    def close(self) -> None:
        """End it when nobody waits for it."""
        self.end()
        for pipe in (self._process.stdin, self._process.stdout):
            with suppress(OSError):
                if pipe is not None:
                    pipe.close()


Fault = Callable[[Path], PictureError]
"""What is said of a picture on which a worker had to be ended."""


class _Guard:
    """Looks after one worker while it reads one picture, and ends it when it must."""

    def __init__(self, pid: int, end: Callable[[], None]) -> None:
        self.fault: Fault | None = None
        self._pid = pid
        self._end = end
        self._steps = 0
        self._done = Event()
        self._thread = Thread(target=self._look, daemon=True)

    def __enter__(self) -> None:
        self._thread.start()

    def __exit__(self, *_: object) -> None:
        self._done.set()
        if self._thread.is_alive():
            self._thread.join()

    def step(self) -> None:
        """The worker gave a sign of life."""
        self._steps += 1

    def _look(self) -> None:
        with suppress(psutil.NoSuchProcess):
            worker = psutil.Process(self._pid)
            seen, waited_s, looked_s = self._steps, 0.0, time.monotonic()
            while self.fault is None and not self._done.wait(_TICK_S):
                waited_s = waited_s if seen == self._steps else 0.0
                seen, before_s, looked_s = self._steps, looked_s, time.monotonic()
                waited_s += min(looked_s - before_s, _LONGEST_TICK_S)
                if worker.memory_info().rss > MOST_BYTES:
                    self.fault = _too_large
                elif waited_s > STEP_S * _crowding():
                    self.fault = _too_slow
        if self.fault is not None:
            self._end()


def _crowding() -> float:
    """How many times longer all takes here than on a machine that keeps up: 1 or more."""
    return max(1.0, psutil.getloadavg()[0] / (psutil.cpu_count() or 1))


def _too_large(file: Path) -> PictureError:
    return TooLarge(
        f"{file}: reading it takes more than {MOST_BYTES / 1e9:.1f} GB of memory; "
        "scan it at 300 dpi"
    )


def _too_slow(file: Path) -> PictureError:
    return TooSlow(
        f"{file}: the reader hung on it for {STEP_S:.0f} s and was ended; scan or save it again"
    )


# The worker's side


def serve(folder: str) -> None:
    """Read the pictures that are asked for, one after the other, until nobody is there to ask;
    what is written on the way goes to ``folder``."""
    answers = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    _silence_libraries()
    tempfile.tempdir = folder
    asked: SimpleQueue[Path] = SimpleQueue()
    listening = Thread(target=_listen, args=(asked, folder), daemon=True)
    listening.start()
    clock().add("start", time.time() - process_start_s())
    with stage("start"):
        from intake.worker import worker_readers  # after the listening began: it takes a moment

        worker_readers()
    with suppress(BrokenPipeError):
        while True:
            with stage("wait"):
                file = asked.get()
            answer = _read(file, lambda: _send(answers, None))
            if isinstance(answer, PictureReading):
                answer = replace(answer, spent=spent())
            _send(answers, answer)
    listening.join()  # which ends us


def _silence_libraries() -> None:
    """What libraries of C print about a picture goes nowhere: the picture's own line says it.
    What Python says of a worker that breaks down is still seen."""
    sys.stderr = os.fdopen(os.dup(sys.stderr.fileno()), "w", buffering=1)
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    os.dup2(nowhere, 2)
    os.close(nowhere)
    warnings.simplefilter("ignore")


def _read(file: Path, step: Callable[[], None]) -> PictureReading | BalltagError:
    from intake.worker import read_picture

    step()
    try:
        return read_picture(file, step)
    except BalltagError as error:
        return error
    except Exception as error:
        # A fault of ours on one picture must not keep the others from being read.
        fault = PictureError(
            f"{file}: balltag failed on it ({type(error).__name__}: {said_by(error)}); scan or "
            "save it again"
        )
        return PictureReading(str(file), (), fault)


def _listen(asked: SimpleQueue[Path], folder: str) -> None:
    """Pass on what is asked; when the one who asks is gone, leave at once and leave nothing."""
    with suppress(EOFError, OSError):
        while True:
            asked.put(pickle.load(sys.stdin.buffer))
    leaving = f"{folder}.leaving"
    with suppress(OSError):
        Path(folder).rename(leaving)  # nothing new gets into it
    rmtree(leaving, ignore_errors=True)
    if hasattr(os, "killpg"):
        os.killpg(0, signal.SIGKILL)  # with the programs that it has started
    os._exit(0)


def _send(pipe: IO[bytes], message: object) -> None:
    pickle.dump(message, pipe)
    pipe.flush()


if __name__ == "__main__":
    serve(sys.argv[1])
