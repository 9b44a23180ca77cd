"""Print hashes, as :func:`intake.pictures.keep.print_hash` makes them, compared with very many.

A hash of 256 bits is kept as four whole numbers of 64, its quarters, each in a column of its own.
Among very many hashes a look takes as long as fetching them from memory, so one quarter is
compared of all of them, and the others only where that one is near.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Words = NDArray[np.uint64]

WORDS = 4
SIEVE = 1
"""The quarter that is compared first.  The one before it holds the slowest waves, in which
copies that are cut out otherwise differ most."""
_BYTES = 32
_AT_A_TIME = 1 << 16
"""So many hashes are compared at once: what lies in between stays near the processor."""

_NIBBLES = np.full(256, 255, np.uint8)
for _digits in ("0123456789abcdef", "0123456789ABCDEF"):
    _NIBBLES[list(_digits.encode())] = np.arange(16)


class Nearness(NamedTuple):
    """Hashes are near that differ in at most ``bits`` of 256 bits, and in at most
    ``quarter_bits`` of the 64 of their quarter :data:`SIEVE`."""

    bits: int
    quarter_bits: int = 64


class HashShelf:
    """The print hashes by tag id.  What is no such hash is not kept and near to nothing."""

    def __init__(self) -> None:
        self._words = tuple(array("Q") for _ in range(WORDS))
        self._ids: list[str] = []
        self._places: dict[str, int] = {}

    def put(self, tag_id: str, print_hash: str) -> None:
        """Keep the hash of a tag, in place of an earlier one."""
        self.drop(tag_id)
        words = _words_of(print_hash)
        if words is not None:
            self._places[tag_id] = len(self._ids)
            self._ids.append(tag_id)
            for column, word in zip(self._words, words.tolist(), strict=True):
                column.append(word)

    def drop(self, tag_id: str) -> None:
        """Keep the hash of a tag no longer."""
        place = self._places.pop(tag_id, None)
        if place is not None:
            self._ids[place] = ""

    def near(self, print_hash: str, nearness: Nearness) -> list[tuple[str, int]]:
        """The tags whose hash is near, and in how many bits it differs."""
        if not self._ids:
            return []
        words = [np.frombuffer(column, np.uint64) for column in self._words]
        near = near_hashes(words, print_hash, nearness)
        return [(self._ids[place], bits) for place, bits in near if self._ids[place]]


def near_hashes(
    words: Sequence[Words], print_hash: str, nearness: Nearness
) -> Iterator[tuple[int, int]]:
    """Where in the columns of ``words`` the hashes stand that are near to ``print_hash``, and in
    how many bits they differ."""
    wanted = _words_of(print_hash)
    if wanted is None:
        return
    sieved = [
        start + np.flatnonzero(apart <= nearness.quarter_bits)
        for start in range(0, len(words[0]), _AT_A_TIME)
        for apart in [np.bitwise_count(words[SIEVE][start : start + _AT_A_TIME] ^ wanted[SIEVE])]
    ]
    places = np.concatenate(sieved) if sieved else np.empty(0, np.intp)
    bits = sum(
        np.bitwise_count(column[places] ^ word).astype(np.uint16)
        for column, word in zip(words, wanted, strict=True)
    )
    near = np.flatnonzero(bits <= nearness.bits)
    yield from zip(places[near].tolist(), bits[near].tolist(), strict=True)


def columns_of_hashes(texts: NDArray[np.object_]) -> tuple[NDArray[np.int32], list[Words]]:
    """Which of very many ``texts`` are print hashes, and the columns of their words."""
    is_long = np.array([len(text) == 2 * _BYTES and text.isascii() for text in texts], np.bool_)
    places = np.flatnonzero(is_long).astype(np.int32)
    letters = np.frombuffer("".join(texts[places]).encode("ascii"), np.uint8)
    nibbles = _NIBBLES[letters].reshape(-1, 2 * _BYTES)
    is_hash = (nibbles < 16).all(axis=1)
    places, nibbles = places[is_hash], nibbles[is_hash]
    data = np.ascontiguousarray(nibbles[:, ::2] << 4 | nibbles[:, 1::2])
    words = data.view(np.uint64)
    return places, [np.ascontiguousarray(words[:, column]) for column in range(WORDS)]


def _words_of(print_hash: str) -> Words | None:
    try:
        data = bytes.fromhex(print_hash)
    except ValueError:
        return None
    return np.frombuffer(data, np.uint64) if len(data) == _BYTES else None
