"""Where the command ``balltag`` starts: Ctrl-C ends it without a traceback, also while it loads.

This imports nothing that takes a moment, so that it is ready before anything else is loaded.
"""

from __future__ import annotations

import os

STOPPED = 130
"""The exit code after Ctrl-C, as shells have it: 128 and the signal's number (POSIX)."""

TOLD = "balltag: stopped; what was filed stays filed, run it again to go on"
"""What is said then."""

_STDERR = 2


def main() -> None:
    """Load the command and run it; see :func:`intake.cli.main`."""
    _open_closed()
    try:
        import signal

        is_ours = signal.getsignal(signal.SIGINT) is signal.default_int_handler
        if is_ours:  # and not ignored, as after nohup
            # Nothing is begun yet.  An exception could be lost within a library that loads.
            signal.signal(signal.SIGINT, lambda *_: _leave(TOLD))
        from intake.cli import main as run

        if is_ours:
            signal.signal(signal.SIGINT, signal.default_int_handler)
        try:
            run()
        finally:
            if is_ours:  # all is done or told: Python would print a traceback while it ends
                signal.signal(signal.SIGINT, lambda *_: _leave())
    except KeyboardInterrupt:
        _leave(TOLD)


def _open_closed() -> None:
    """Open to nowhere what the one who starts us closed of the three standard files: the next
    file that is opened would stand in for it, and a worker would talk into that."""
    for handle in range(_STDERR + 1):
        try:
            os.fstat(handle)
        except OSError:
            os.set_inheritable(os.open(os.devnull, os.O_RDWR), True)


def _leave(told: str = "") -> None:
    """End at once, with nothing to tidy up."""
    if told:
        os.write(_STDERR, f"{told}\n".encode())
    os._exit(STOPPED)
