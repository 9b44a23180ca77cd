"""Where the yarn was made or spun."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from intake.fields.letters import FoldedLines, Words, listed
from intake.fields.names.trade_words import is_named_like_a_firm
from intake.records import Candidate, Line

PHRASES = {
    "en": r"(?:hand)?(?:made|spun|produced|manufactured|designed and made)"
    r"(?: (?:and|&) (?:hand ?)?(?:dyed|spun|made))? in|product of|produce of",
    "de": r"(?:hergestellt|gesponnen|produziert|gefertigt)(?: und gefarbt)? in(?: der| den)?",
    "fr": r"(?:fabrique|file|produit|fait|filee|fabriquee)(?: et teint)? (?:en|au|aux|a|dans les)",
    "it": r"(?:prodotto|filato|fatto|fabbricato|prodotta|filata) (?:in|a|nel|negli)",
    "es": r"(?:hecho|fabricado|hilado|producido|elaborado) en",
    "nl": r"(?:gemaakt|geproduceerd|vervaardigd|geproduceert) in",
    "sv": r"(?:tillverka[dt]|spunne[nt]|producera[dt]|gjor[dt]) i",
    "no": r"(?:produsert|laget|spunnet) i",
    "da": r"(?:fremstillet|spundet|produceret|lavet) i",
}
"""Words before a place, by language; the languages of one tag name one place."""

PHRASE = re.compile(
    "|".join(
        rf"(?P<{language}>(?<![a-z])(?:{phrase}))".replace(" ", r"[\s-]?")
        for language, phrase in PHRASES.items()
    )
)
VOCABULARY = Words(
    listed(
        "made; spun; produced; manufactured; product; hergestellt; gesponnen; produziert;"
        " gefertigt; fabrique; file; produit; prodotto; filato; fabbricato; hecho; fabricado;"
        " hilado; producido; gemaakt; geproduceerd; vervaardigd; tillverkad; tillverkat;"
        " spunnet; spunnen; produsert; fremstillet; spundet; produceret"
    )
)
PLACE = re.compile(
    r"[\s:]{0,2}(?P<place>(?:[a-z]\.(?:\s?[a-z]\.)+)|[a-z][a-z'-]*(?: [a-z&][a-z'-]*){0,4})"
)
END = re.compile(
    r" (?:by|for|from|with|fur|von|mit|pour|par|avec|per|da|con|por|para|door|voor|av|for|af|til"
    r"|exclusively|only|since)(?![a-z]).*"
)
"""Words that end a place's name."""


_BY_HAND = re.compile(r"(?:la )?(?:main|mano|hand)\b")
"""No place: "filé à la main"; neither is the firm of "a product of Moleside Mills"."""


def find_origin(lines: Sequence[Line]) -> list[Candidate]:
    """The place that the yarn was made in, as printed, likeliest first.

    Several languages name one place: English is kept, else what stands first.  Two
    places in one language make a doubt.
    """
    sheet = FoldedLines(lines).mended(VOCABULARY)
    found = list(places_of(sheet))
    first = next((each for each in found if each[0] == "en"), found[0] if found else None)
    if first is None:
        return []
    language = first[0]
    same = {str(each.value).casefold(): each for other, each in found if other == language}
    if len(same) == 1:
        return [first[1]]
    doubt = "different places are printed: " + " and ".join(str(e.value) for e in same.values())
    return [Candidate(e.name, e.value, e.spans, e.cues, doubt=doubt) for e in same.values()]


def places_of(sheet: FoldedLines) -> Iterator[tuple[str, Candidate]]:
    """Language of the phrase and the place behind it, in reading order."""
    for match in PHRASE.finditer(sheet.text):
        place = PLACE.match(sheet.text, match.end())
        if place is None:
            continue
        start, end = place.span("place")
        cut = END.search(sheet.text, start, end)
        end = cut.start() if cut else end
        named = " ".join(sheet.printed(start, end).split())
        if _BY_HAND.match(sheet.text, start) or is_named_like_a_firm(named):
            continue
        shape = 0.8 if sheet.is_mended(match.start(), end) else 1.0
        yield (
            str(match.lastgroup),
            Candidate(
                "origin",
                named,
                sheet.spans(start, end),
                {"caption": 1.0, "shape": shape},
            ),
        )
