"""Print hashes of many tags, compared with one all at once."""

from __future__ import annotations

import numpy as np

_BYTES = 32
_ONES = np.array([byte.bit_count() for byte in range(256)], dtype=np.uint8)


class HashShelf:
    """The print hashes of :func:`intake.pictures.keep.print_hash` by tag id.

    They stand side by side in one buffer, for a look at a million of them must not take
    longer than reading a tag.  What is no such hash is not kept and near to nothing.
    """

    def __init__(self) -> None:
        self._hashes = bytearray()
        self._ids: list[str] = []
        self._places: dict[str, int] = {}

    def put(self, tag_id: str, print_hash: str) -> None:
        """Keep the hash of a tag, in place of an earlier one."""
        self.drop(tag_id)
        data = _hash_bytes(print_hash)
        if data:
            self._places[tag_id] = len(self._ids)
            self._ids.append(tag_id)
            self._hashes += data

    def drop(self, tag_id: str) -> None:
        """Keep the hash of a tag no longer."""
        place = self._places.pop(tag_id, None)
        if place is not None:
            self._ids[place] = ""

    def near(self, print_hash: str, most_bits: int) -> list[tuple[str, int]]:
        """The tags whose hash differs in at most ``most_bits`` bits, and in how many."""
        data = _hash_bytes(print_hash)
        if not data or not self._ids:
            return []
        kept = np.frombuffer(self._hashes, np.uint8).reshape(-1, _BYTES)
        distances = _ONES[kept ^ np.frombuffer(data, np.uint8)].sum(axis=1, dtype=np.uint16)
        places = np.flatnonzero(distances <= most_bits)
        return [(self._ids[at], int(distances[at])) for at in places if self._ids[at]]


def _hash_bytes(print_hash: str) -> bytes:
    try:
        data = bytes.fromhex(print_hash)
    except ValueError:
        return b""
    return data if len(data) == _BYTES else b""
