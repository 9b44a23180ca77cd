"""Advice about lots, "Always knit from one dye lot": a sentence that names nothing.

The words are those of nine languages, common practice, no source.
"""

from __future__ import annotations

import re

from intake.fields.letters import Folded

_LOT = (
    r"(?:(?:dye ?)?(?:lots?|batch(?:es)?)|dye ?baths?|\w*part(?:ie|ien|ier|iet|ij|ijen)"
    r"|part(?:i|ie|ij)?(?:nr|nummer|nummeret|nummers?)|(?:farbe?|farge?|farve?|verf|tint)?bad(?:e|er|et"
    r"|en|ene|s)?|bains?|bagn[io]|banos?|partidas?|partit[ae]|lotes?)"
)
_ADVISES = (
    r"(?:always|only|check|compare|buy|use|knit|work|mix|keep|different|various|same|single|one"
    r"|immer|stets|nur|prufen|vergleichen|achten|beachten|mischen|verschiedene[nr]?|der ?selben"
    r"|gleichen?|einer|toujours|seul|verifie[zr]|melange[zr]|differents|memes?"
    r"|sempre|solo|controll(?:ar|at)e|mescolare|mischiare|divers[ie]|stess[oa]|unic[oa]"
    r"|siempre|compruebe|comprobar|mezcl(?:e|ar|en)|distint[oa]s|diferentes|mism[oa]|un solo"
    r"|altijd|alleen|controleer|meng|mengen|verschillende|(?:het|de)zelfde|zelfde|een"
    r"|alltid|kontrollera|blanda|olika|samma|ett|kontroller|bland|ulike|forskellige|samme"
    r"|tjek|sjekk|altid|kun|kontroll[ae]\w*)"
)
_LOT_NAMED = re.compile(rf"(?<![a-z]){_LOT}(?![a-z])")
_ADVISED = re.compile(rf"(?<![a-z]){_ADVISES}(?![a-z])")

_FEWEST_WORDS = 3


def advises_on_lots(line: str) -> bool:
    """Whether a whole ``line`` without a number tells how to deal with lots."""
    text = Folded(line).text
    if len(text.split()) < _FEWEST_WORDS or any(sign.isdigit() or sign == ":" for sign in text):
        return False
    named = _LOT_NAMED.search(text)
    return named is not None and any(
        match.end() <= named.start() or match.start() >= named.end()
        for match in _ADVISED.finditer(text)
    )
