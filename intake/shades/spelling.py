"""The form of a shade name that spelling habits do not change.

One tag prints ``SEA MIST``, the next ``Sea-Mist``: both are one shade.  Case, accents,
spaces and hyphens are left out of the key; a space or hyphen between two digits stays,
for ``Fog 1 2`` and ``Fog 12`` are two shades.
"""

from __future__ import annotations

import re
from functools import lru_cache

from intake.fields.letters import Folded

_KEPT = re.compile(r"[^ -]|(?<=\d)[ -](?=[ -]*\d)")


def key_letters(text: str) -> list[tuple[str, int]]:
    """The letters of the key of ``text``, each with the number of its letter in ``text``."""
    folded = Folded(text)
    return [
        ("-" if match[0] == " " else match[0], folded.origin[match.start()])
        for match in _KEPT.finditer(folded.text)
    ]


@lru_cache(maxsize=1 << 16)
def key(text: str) -> str:
    """``text`` without case, accents, spaces and hyphens."""
    return "".join(letter for letter, _ in key_letters(text))
