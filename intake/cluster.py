"""Workers on other machines: a cluster of dask.distributed, from the extra ``[cluster]``.

Its workers only read; the stash and all filing stay here.  They need not see the pictures, see
:mod:`intake.sending`.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Iterator
from concurrent.futures import Executor
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from threading import Event, Thread
from typing import TYPE_CHECKING

from intake.errors import BalltagError, MissingProgram, NoWorkers, quoted, said_by
from intake.sending import refuse_others, versions

if TYPE_CHECKING:
    from distributed import Client

ANSWER_S = 10.0
"""A cluster that has not answered by then is not there."""

ALONE_S = 60.0
"""A cluster that has had no worker for so long is given up; one that starts anew comes back."""

_LOOK_S = 2.0

HOW_TO_INSTALL = "--cluster needs dask.distributed; install it with: pip install 'balltag[cluster]'"


@dataclass(frozen=True, slots=True)
class Cluster:
    """A cluster that reads pictures: give both to :func:`intake.run.intake`, ``workers`` as
    the number of jobs."""

    executor: Executor
    workers: int


@contextmanager
def connected(address: str) -> Iterator[Cluster]:
    """The cluster whose scheduler is at ``address``, such as ``tcp://192.168.1.20:8786``.

    Raises :class:`MissingProgram` where dask.distributed is not installed, and
    :class:`NoWorkers` where the cluster does not answer, has no workers, or one of them reads
    with something else than this machine.
    """
    with _client(address) as client:
        workers = _checked_workers(client, address)
        done = Event()
        looking = Thread(target=_close_when_alone, args=(client, done), daemon=True)
        looking.start()
        try:
            yield Cluster(client.get_executor(pure=False), workers)
        finally:
            done.set()
            looking.join()


@contextmanager
def _client(address: str) -> Iterator[Client]:
    try:
        import dask
        from distributed import Client
    except ImportError as error:
        raise MissingProgram(HOW_TO_INSTALL) from error
    # What it logs of a lost worker or scheduler we say ourselves, in one line.
    for name in ("distributed", "distributed.client"):
        logging.getLogger(name).setLevel(logging.CRITICAL)
    dask.config.set({"distributed.admin.large-graph-warning-threshold": "1GB"})
    try:
        asyncio.run(asyncio.wait_for(_answer(_address(address)), ANSWER_S))
        client = Client(_address(address), timeout=ANSWER_S, set_as_default=False)
    except Exception as error:  # each kind of address has its own
        raise NoWorkers(
            f"no cluster answers at {quoted(address)}; start one with 'dask scheduler', and give "
            "the address that it prints"
        ) from error
    try:
        yield client
    finally:
        with suppress(Exception):  # whatever is left of it, we are leaving
            client.close(timeout=_LOOK_S)


async def _answer(address: str) -> None:
    """Wait for a scheduler to say who it is; something else there might never answer."""
    from distributed import rpc

    async with rpc(address) as scheduler:
        await scheduler.identity()


def _address(address: str) -> str:
    if not address:  # dask would start a cluster of its own
        raise ValueError("no address")
    return address if "://" in address else f"tcp://{address}"


def _checked_workers(client: Client, address: str) -> int:
    """How many pictures the workers read at once, when all of them read as we do."""
    try:
        client.wait_for_workers(1, timeout=ANSWER_S)
    except TimeoutError as error:
        raise NoWorkers(
            f"the cluster at {address} has no workers; start one on each machine with "
            f"'dask worker {address}'"
        ) from error
    try:
        client.run(refuse_others, versions())
        client.submit(refuse_others, versions(), pure=False).result(timeout=ANSWER_S)
    except BalltagError:
        raise
    except Exception as error:
        raise NoWorkers(
            f"the workers at {address} cannot run balltag ({said_by(error)}); install it as here, "
            "with the extra [cluster], on each machine of the cluster"
        ) from error
    return sum(client.nthreads().values())


def _close_when_alone(client: Client, done: Event) -> None:
    """Without a worker all pictures would wait for ever: let go of them."""
    alone_s = 0.0
    while alone_s < ALONE_S and not done.wait(_LOOK_S):
        try:
            alone_s = 0.0 if client.nthreads() else alone_s + _LOOK_S
        except Exception:  # the scheduler does not answer
            alone_s += _LOOK_S
    if not done.is_set():
        with suppress(Exception):
            client.close(timeout=_LOOK_S)
