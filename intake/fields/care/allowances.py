"""Rows of words that allow without any limit, in nine languages; and what may not be taken for a
word that allows.

Common practice, no source; all are folded.
"""

from __future__ import annotations

from collections.abc import Collection

_WITHOUT = (
    ("without", "any", "restriction restrictions limit limits limitation limitations"),
    ("ohne", "jede", "einschrankung einschrankungen begrenzung beschrankung beschrankungen"),
    ("sans", "aucune", "restriction restrictions limite limites limitation limitations reserve"),
    ("senza", "alcuna", "restrizione restrizioni limite limiti limitazione limitazioni"),
    ("sin", "ninguna", "restriccion restricciones limite limites limitacion limitaciones"),
    ("zonder", "enige", "beperking beperkingen begrenzing restrictie restricties"),
    ("utan", "nagon", "begransning begransningar inskrankning inskrankningar restriktioner"),
    ("uten", "noen", "begrensning begrensninger innskrenkning innskrenkninger restriksjoner"),
    ("uden", "nogen", "begraensning begraensninger indskraenkning indskraenkninger restriktioner"),
)
"""What is lacking, in every language: the word for without, the one for any, and the limits."""

UNRESTRICTED = frozenset(
    " ".join(row)
    for without, some, limits in _WITHOUT
    for limit in limits.split()
    for row in ((without, limit), (without, some, limit))
)
"""Rows of words that allow, though each holds one that forbids: "sans restriction"."""

_DENYING = ("o", "u", "un", "in", "im", "on", "non", "a")
"""What makes of a word that allows, put before it, one that forbids."""


def denied(words: Collection[str]) -> frozenset[str]:
    """``words`` that allow, each with every beginning that turns it into its opposite."""
    return frozenset(start + word for word in words for start in _DENYING)
