"""The form of a shade name that spelling habits do not change.

One tag prints ``SEA MIST``, the next ``Sea-Mist``: both are one shade.  Case, accents,
spaces and hyphens are left out of the key; a space or hyphen between two digits stays,
for ``Fog 1 2`` and ``Fog 12`` are two shades.
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

from intake.fields.letters import Folded

_LEFT_OUT = frozenset("\u0300\u0301\u0302\u0303\u0327")
"""Grave, acute, circumflex, tilde and cedilla, which some print leaves off its capitals; rings and
dots stay there, for they make other letters (common practice, no source), but for those of e and
i, which only part them from the vowel before."""

_TREMA = re.compile(r"(?<=[ei])\u0308")

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


def same_marks(one: str, other: str) -> bool:
    """Whether two names of one key have the same accents, but for those that capitals are often
    printed without where either is in capitals."""
    bare = one.isupper() or other.isupper()
    return _marks(one, bare=bare) == _marks(other, bare=bare)


def _marks(text: str, *, bare: bool) -> str:
    """``text`` without what capitals and spacing change: letters with their accents, ``bare`` of
    those that capitals are often printed without."""
    parted = unicodedata.normalize("NFD", text.casefold())
    parted = _TREMA.sub("", parted) if bare else parted
    return "".join(
        sign
        for sign in parted
        if sign.isalnum() or (unicodedata.combining(sign) and not (bare and sign in _LEFT_OUT))
    )
