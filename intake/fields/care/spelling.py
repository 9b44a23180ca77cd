"""Words of care that narrow paper breaks or shortens, spelled out: "wa-/schen", "asc. in piano".

Common practice, no source; all are folded.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from intake.fields.care.concepts import FILLERS, meanings_of
from intake.fields.care.events import MENDED, NEGATIONS, VOCABULARY
from intake.fields.care.lists import AND
from intake.fields.letters import FoldedLines, Respelling

_BROKEN = re.compile(
    r"(?<![a-z])(?P<head>[a-z]+)- ?\n ?(?P<tail>[a-z]+)(?![a-z])(?P<close>[.,;:!]*)(?P<rest> ?)"
)
"""A word with a hyphen at the end of a line, and the one that the next line begins with."""

_DASHED = re.compile(r"(?<=[a-z\d°.])- (?=[a-z]+[ ,.;:-])(?!(?:und|oder|u)\b)")
"""A dash that has lost the space before it: "Handwash- Do not bleach"."""

_OR = frozenset({"or", "oder", "ou", "o", "of", "eller"})

_DEGREES = r"\s?\d\d\s?°"

_BY_HAND_OR_HOW_HOT = (
    r"(?=(?:a la |a |en |in )?(?:mano|main|machine|mach\b|maquina|maq\b|lavatrice|lavadora|delic"
    r"|lana|laine|lavabiancheria|secco|seco)|a?\s?\d\d\s?°)"
)
"""What washing is told with in French, Italian and Spanish, and "lav", low in Norwegian, is not."""

_FLAT_OR_SHADE = r"(?=(?:en (?:plano|horizontal|sombra)|a la sombra|horizontal|extendid))"

_SHORTENED = tuple(
    (re.compile(rf"(?<![a-z]){short}\.\s?{behind}"), whole)
    for short, behind, whole in (
        ("(?<!pa )(?<!ved )(?<!vid )lav", _BY_HAND_OR_HOW_HOT, "lavar"),
        ("handw", "", "handwasche"),
        ("masch", rf"(?=wasch|{_DEGREES})", "maschinen"),
        ("mach", rf"(?={_DEGREES})", "machine"),
        ("maq", "", "maquina"),
        ("mask", rf"(?=vask|tvatt|{_DEGREES})", "maskin"),
        ("waschm", "", "waschmaschine"),
        ("chem", "(?=rein)", "chemische"),
        ("(?:kjem|kem)", "(?=ren)", "kemisk"),
        ("lieg", "(?=trock)", "liegend"),
        ("trockn", "", "trocknen"),
        ("bug", "", "bugeln"),
        ("sech", "", "sechage"),
        ("repass?", "", "repassage"),
        ("nett", "(?=a sec)", "nettoyage"),
        ("prog(?:r)?", "", "programm"),
        ("asc(?:iug)?", "", "asciugare"),
        ("stir", "", "stirare"),
        ("cand", "", "candeggio"),
        ("sec", _FLAT_OR_SHADE, "secar"),
        ("planch", "", "planchar"),
        ("(?:temp|tmp)", "", "temperatur"),
        ("delic", "", "delicat"),
        ("wash", r"(?=prog|temp)", "washing"),
    )
)  # fmt: skip
"""Words shortened with a stop, by what must stand behind them, and what they are short for:
"masch." and "mask." are stitches too."""


_HEADED = re.compile(
    r"(?<![a-z])(?:wash(?:ing)? instructions?|waschanleitung|waschhinweis\w*|wasvoorschrift\w*"
    r"|vaskeanvisning|vaskerad|tvattrad|tvattanvisning|(?:istruzioni|consigli) di lavaggio"
    r"|instrucciones de lavado|(?:conseils?|instructions?|mode) de lavage)\s?:\s?"
    r"(?=(?:gently |only |nur |solo |alleen |kun |bara |endast )?"
    r"(?:by hand|(?:von|per|mit der) hand"
    r"|(?:met|op) de hand|a mano|a la main|for hand|i hand(?:en)?)(?![a-z]))"
)
"""A heading that only what stands behind it makes a washing: "Wasvoorschrift: met de hand"."""


_NYNORSK = {
    r"ikkje": "ikke",
    r"(?P<stem>(?:hand|maskin)?vask|handvask|maskinvask|t[ou]rk|tromletork|bleik|blek|stryk|hengj?"
    r"|leggj?|reins|rull|press|form|vr|sentrifuger|luft|bruk|nytt|strekkj?)ast": "es",
    r"strykje|strykja": "stryke",
    r"bleiking": "bleking",
    r"bleikje|bleike|bleik": "bleke",
    r"bleikemiddel": "blekemiddel",
    r"reinsing": "rensing",
    r"reins|reinse": "rens",
    r"turk|turke": "tork",
    r"hengj(?:e|a)": "henge",
    r"hengjande": "hengende",
    r"legg(?:je|ja)": "legge",
    r"liggjande": "liggende",
    r"skansam": "skansom",
    r"skansamt": "skansomt",
    r"vatn": "vann",
    r"lunka": "lunken",
    r"berre": "bare",
    r"saman": "sammen",
    r"toler": "taler",
    r"kokevask(?:en)?|kokvask(?:en)?": "maskinvask",
}
"""The other written language of Norway, whose words of care are those of the first with other
endings; and washing at the boil, which as a word of its own would be taken for "ikkevask"."""

_SAME_STEM = {"turk": "tork", "bleik": "blek", "reins": "rens", "hengj": "heng"}
_SAME_STEM |= {"leggj": "legg", "strekkj": "strekk", "vr": "vrid"}

_NYNORSK_WORD = re.compile(
    "|".join(
        rf"(?<![a-z])(?:{word})(?![a-z])".replace("?P<stem>", rf"?P<stem{at}>")
        for at, word in enumerate(_NYNORSK)
    )
)

_BY_HAND = (
    r"(?:(?:only|just|nur|seulement|uniquement|solo|solamente|soltanto|unicamente|alleen|enkel"
    r"|bara|endast|kun|bare) )?(?:by hand|(?:von|per|mit der) hand|(?:met|op) de hand|a mano"
    r"|a la main|for hand|i handen|i hand)"
    r"(?: (?:only|alleen|uniquement|seulement|soltanto|solamente|unicamente|enbart))?"
)
_WASHED_BY_HAND = re.compile(
    rf"(?P<before>[^.;:,|\n!()·]*[^.;:,|\n!()·\s])(?P<comma>,) ?{_BY_HAND}(?= ?(?:[.,;:|!·)\n]|$))"
)
"""A washing that only the words behind a comma tell to be done by hand: "wash in cold water, by
hand"."""

_NO_HAND_BEHIND = frozenset(
    ("not", "without", "hand", "machine", "tumble", "bleach", "iron", "clean", "hang", "flat")
)


def _with_hands(text: str) -> Iterator[Respelling]:
    for match in _WASHED_BY_HAND.finditer(text):
        words = re.findall(r"[^\W\d_]+", match["before"])
        said = {meaning for word in words for meaning in meanings_of((word,))}
        forbids = bool({"not", "without"} & said or set(words) & set(NEGATIONS))
        if "wash" in said and not said & _NO_HAND_BEHIND and not forbids:
            yield *match.span("comma"), ""
        elif "machine" in said and forbids and not said & {*_NO_HAND_BEHIND} - {"not", "machine"}:
            yield *match.span("comma"), "; wash"


_HAND_OR_MACHINE = re.compile(
    r"(?<![a-z])hand ?- ?(?=(?:oder|und|u\.|/|of|en|eller|och|og) ?"
    r"(?:maschinenwasch|machinewas|maskintvatt|maskinvask))"
    r"|(?<![a-z])hand(?= ?(?:or|/) ?machine ?wash)"
)
"""A washing by hand that lends its word from the one by machine: "Hand- oder Maschinenwäsche"."""


def _both_ways(text: str) -> Iterator[Respelling]:
    for match in _HAND_OR_MACHINE.finditer(text):
        yield (
            *match.span(),
            "hand wash" + (" " if match[0].endswith(" ") or "-" in match[0] else ""),
        )


_SENTENCE = re.compile(r"[^.;:,|\n!()·]+")


def _allowed_too(text: str) -> Iterator[Respelling]:
    """The word that allows put before the second of two things too: "Tåler maskinvask og
    tørketrommel"."""
    for sentence in _SENTENCE.finditer(text):
        words = list(re.finditer(r"[^\W\d_]+", sentence[0]))
        said = [meanings_of((word[0],)) for word in words]
        if not words or said[0] != ("allow",) or any(word[0] in NEGATIONS for word in words):
            continue
        for at, word in enumerate(words):
            before, behind = (
                {name for names in part for name in names} for part in (said[1:at], said[at + 1 :])
            )
            if word[0] in AND and "machine" in before and behind == {"tumble"}:
                start, end = (sentence.start() + place for place in word.span())
                yield start, end, f", {words[0][0]}"


def _in_bokmal(text: str) -> Iterator[Respelling]:
    for match in _NYNORSK_WORD.finditer(text):
        stem = next((part for part in match.groups() if part), "")
        if stem:
            yield *match.span(), _SAME_STEM.get(stem, stem) + "es"
            continue
        whole = next(new for old, new in _NYNORSK.items() if re.fullmatch(old, match[0]))
        yield *match.span(), whole


def spelled_out(sheet: FoldedLines) -> FoldedLines:
    """``sheet`` with words whole that a line's end breaks and those in full that are shortened.

    A broken word goes to the line that it begins in.  One that is not known when it is whole is
    left as it is where both halves are words by themselves: "tumble-/dry".
    """
    parted = sheet.respelled(list(_parted(sheet)))
    whole = parted.respelled(list(_whole(parted.text)))
    full = whole.respelled(sorted(_full(whole.text)))
    text = full.text
    more = [*_with_hands(text), *_in_bokmal(text), *_allowed_too(text), *_both_ways(text)]
    return full.respelled(sorted(more))


def _parted(sheet: FoldedLines) -> Iterator[Respelling]:
    for match in _DASHED.finditer(sheet.text):
        behind = sheet.printed(match.end(), match.end() + 1)
        if behind.isupper():
            yield *match.span(), " - "


def _whole(text: str) -> Iterator[Respelling]:
    for match in _BROKEN.finditer(text):
        head, tail = match["head"], match["tail"]
        word = head + tail
        by_themselves = _is_known(tail) and (_is_known(head) or tail in AND | _OR)
        by_themselves &= tail not in NEGATIONS  # "ma-/no" misread
        if _is_known(word) or not by_themselves:
            yield match.start("head"), match.end("tail"), word
            if match["rest"]:
                yield *match.span("rest"), "\n"


_ELIDED = re.compile(
    r"(?<![a-z])(?P<head>l|d|all|dall|dell|nell|sull)(?=(?:ombre|ombra|eau|acqua|air|aria|envers"
    r"|asciugatrice|etendoir|oxygene|ossigeno|adoucissant|ammorbidente)(?![a-z]))"
)
"""An article that has lost its apostrophe: "à lombre"."""


def _full(text: str) -> Iterator[Respelling]:
    for match in _HEADED.finditer(text):
        yield match.start(), match.end(), "wash "
    for match in _ELIDED.finditer(text):
        yield *match.span(), match["head"] + "'"
    for pattern, whole in _SHORTENED:
        for match in pattern.finditer(text):
            yield match.start(), match.end(), whole + " "


def _is_known(word: str) -> bool:
    return bool(meanings_of((word,))) or word in FILLERS or word in VOCABULARY or word in MENDED
