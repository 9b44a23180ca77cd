"""Which language a tag is printed in, as far as its letters need to know.

Danish and Norwegian have letters of their own, ø and æ.  The first reader loses their
strokes in capitals, and the second's data for all Latin letters loses them with it; its
data for Danish keeps them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

_LETTERS = re.compile(r"[øæØÆ]")
_DANISH_OR_NORWEGIAN = re.compile(
    r"\b(?:ikke|m[åa]|og|t[åa]ler|skal|vask\w*|h[åa]ndvask|maskinvask|uld|ull|pinder?|pinner|farven?"
    r"|farge\w*|farvenr|parti\w*|badnr|indfarvning|innfarging|norge|danmark|bomuld|bomull"
    r"|strikkefasthe[dt]|l[øo]pelengde|l[øo]bel[æa]\w*|vekt|v[æa]gt|kjemisk|kemisk|t[øo]rke\w*"
    r"|t[øo]rre\w*|strykes?|bleg\w*|bleke\w*|fremstillet|produsert|spundet|heklen[åa]l|garn)\b",
    re.IGNORECASE,
)
_OTHERS = re.compile(
    r"\b(?:och|ej|tv[äa]tt\w*|stickor|f[äa]rg\w*|sverige|nystan|bomull|torkas?|und|nicht|waschen"
    r"|farbe|wolle|nadeln|partie|deutschland|the|wash|wool|shade|needles|dry|laver|laine|coloris"
    r"|lavare|lana|colore|lavar|wassen|wol|kleur|naalden)\b",
    re.IGNORECASE,
)

_SIGNS_ENOUGH = 2


def is_danish_or_norwegian(texts: Iterable[str]) -> bool:
    """Whether lines of print are mostly Danish or Norwegian, so that an O in them may be an
    Ø and AE an Æ."""
    print_ = "\n".join(texts)
    for_it = len(_DANISH_OR_NORWEGIAN.findall(print_)) + len(_LETTERS.findall(print_))
    return for_it >= _SIGNS_ENOUGH and for_it > len(_OTHERS.findall(print_))
