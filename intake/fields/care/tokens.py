"""The words of a clause of care with what they mean, as many together as count together."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

from intake.fields.care.asides import asides_in
from intake.fields.care.concepts import FILLERS, LONGEST, STRONG, meanings_of
from intake.fields.care.events import (
    NORWAY,
    NUMBER,
    NUMBERING,
    TEMPERATURE,
    temperature_event,
)
from intake.fields.care.forms import worded
from intake.fields.care.handling import WRINGING
from intake.fields.care.meaning import hang_together, kinds_of
from intake.fields.care.refusals import LEFT_OUT
from intake.fields.care.subjects import SUBJECT_OF

WORD = re.compile(r"[^\W\d_]+")

_NOTHING = re.compile(r"\s*(?:[.,;:|!·)]|\s[/*+-]\s|\n|$)")

_WET = re.compile(r"\b(?:ad\sacqua|in\sacqua|ad?\sumido|en\shumedo|en\smojado|a\sl.eau)\b")
"""How what is cleaned is told to get wet; the languages of the north have a word of their own."""

_DRY_WAY = re.compile(r"a secco|en seco|a sec\b|secco|seco|chem|dry|in tint|alla tint|en tint")
"""How words begin that clean without water."""

_SETTING = re.compile(
    r"(?<!\d)(?:(?:stufe|stand|niveau|setting|level)\s?([123])(?!\d)"
    r"|([123])\s?(?:dots?|punkten?|punkt|points?|punt[io]s?|punten|prick(?:ar)?|prikk(?:er)?|prik|stip(?:pen)?|stippar)\b)"
)
"""The setting of an iron or a dryer, in dots: ISO 3758 gives one for low, two for medium and three
for high (from memory)."""

_BARE_HEAT = re.compile(r"(?<![\d.,])(?:110|150|200)(?![\d%°o]|\s?[a-z]{1,3}\b)")
"""The heat of an iron without its unit: "iron max. 150"."""

_CLEANING = (
    r"(?:\w*reinig\w*|clean(?:ing|ed)?|nettoyage|sec|secco|seco|kemtvatt\w*|rens(?:ning|ing)?)"
)

_SOLVENT = re.compile(
    rf"(?:(?<![a-z])(?P<by>[pf])[ ,:]{{1,2}}(?={_CLEANING}(?![a-z])))"
    rf"|(?:(?<![a-z]){_CLEANING}\s?[:(,]?\s?(?P<by2>[pf])(?![a-z'&/-]))"
)
"""The letter of a solvent beside a word for cleaning; ISO 3758 has P and F (from memory)."""

HEATS = {"1": "low", "2": "medium", "3": "high"}

_BETWEEN = re.compile(r"[\s'-]{0,2}")

_SIGN_AND_WORD = 16
"""Letters of the sign of Norway and the word behind it."""

IN_WATER = frozenset({"water", "wasser", "eau", "acqua", "agua", "vatten", "vann", "vand"})

_SOAP = re.compile(
    r"[a-z]*(?:lessives?|savon|shampoo?ings?|detersivo|sapone|jabon|champu|detergente?s?|soap|suds"
    r"|shampoo|seife|waschmittels?|zeep|wasmiddel|tval|tvattmedel|vaskemid[a-z]*|saebe|sape)"
)
"""Words for what is washed with."""

_MADE = re.compile(
    r"(?<![a-z])(?:(?:hand)?(?:dyed|spun|painted)|gefarbt\w*|gesponnen\w*|geverfd\w*|teints?|filee?s?"
    r"|tint[oi]|tejid[oa]s?|hech[oa]s?|fatt[oa]|knitted|made|gestrickt\w*|gebreid\w*|tricotee?s?|filat[oaie]|tenid[oa]s?|hilad[oa]s?|farga[dt]\w*|farget|farvet|spun[dn]et|spunnen)"
    r"(?![a-z])[^.;:·\n]*\n?[^.;:·\n]*$"
)
"""How yarn was made, in a sentence that goes on: "dyed in small lots by hand in soft water"."""

_RINSED = re.compile(
    r"(?<![a-z])(?:rins|rinc|aus(?:ge)?spul|spul|sciacqu|risciacqu|aclar|enjuag|spoel|skyl|skol[jd])"
)
"""What is done with the water behind a washing."""

_SENTENCE = 80
"""Letters that a sentence may have before its hands."""

_BY_HAND_IN_WATER = frozenset({"hand", "allow", "mild", "heat", "hardly", "hot-or-warm"}) | {
    *HEATS.values()
}
"""What a clause may say that washes by hand because it names water."""

_BESIDE_HANDLING = frozenset({"or", "not", "without", "mild", "low"})

_LEADING_UP = worded(
    """
    zu at att a uit ud ut ur op opp upp erst vorher zuvor zuerst prima antes eerst forst forste
    d'abord doverlo doverla haberlo haberla averlo averla lavoir les los le la lo haber aver
    avoir avere
    """
)
"""Words between "without" and what is not done."""

_LETTING_GO = worded("slippe slipper slapp slappa slapper slaeppa")
_LET_GO = re.compile(r"\s(?:i|ved|vid|under)\s(?:den\s)?forst[ea](?![a-z])")
"""How dye lets go, and what stands behind it."""

_WOOL_WASHES = worded("uldvask ullvask ulltvatt ylletvatt wollwasche finvask fintvatt feinwasche")
_IN_HAND = re.compile(
    r"\s(?:(?:i|for|med|von|per|mit der)\s(?:hand|handen|haanden|haand|hande))(?![a-z])"
)
"""A washing that is gentle, by a machine or not, and how it is told to be done by hand."""

_SPINNING = re.compile(
    r"(?:schon|an|aus|kurz|leicht)?(?:ge)?schleud|spin|essor|centrifug|sentrifug|slyng|slung"
)
"""How words for the machine's spinning begin."""

_RACKS = worded(
    """
    droogrek torkstallning torrestativ torkestativ tendedero stendino stendibiancheria
    trockengestell etendoir
    """
)
"""What laundry hangs on or lies on."""

_DRIED = frozenset({"hang", "spread", "dry"})

_DRIPPING = _DRIED | {"unwrung", "drip", "shade", "sun", "away", "far", "allow", "not", "mild"}
"""What a clause may say of wool that is hung up without being wrung."""

VAGUE = ("wash",)
"""The kinds of a clause that tells how hot to wash and not by what."""

FEWEST = 2
"""A clause of fewer meaning words is left to the phrases."""

UNREAD = 3
"""A word of so many letters that means nothing here is unread."""

_COOLEST = 20
"""What is said to be cooler, in degrees Celsius, is no heat but a count: 39 F."""


@dataclass(frozen=True, slots=True)
class Token:
    """A word, or several that count together, with their meanings; none for an unread one."""

    start: int
    end: int
    meanings: tuple[str, ...] = ()
    celsius: int = 0
    filler: bool = False

    @property
    def is_unread(self) -> bool:
        """Whether the word is none of those that care is told in."""
        return not self.meanings and not self.filler


Clause = list[Token]

Place = tuple[int, int]


_KEPT = 4096
"""So many clauses are kept: each of a tag's is asked for some five times, some 50 a tag."""


def tokens_of(text: str, start: int, end: int) -> Clause:
    """The words of a clause, as many together as count together."""
    return list(_tokens_of(text, start, end))


@lru_cache(maxsize=_KEPT)
def _tokens_of(text: str, start: int, end: int) -> tuple[Token, ...]:
    numbered = [match.start() for match in NUMBERING.finditer(text, start, end)]
    numbered += [match.start() for match in NORWAY.finditer(text, start, end + _SIGN_AND_WORD)]
    asides = [Token(max(low, start), min(high, end), filler=True)
              for low, high in asides_in(text).items() if low < end and start < high]  # fmt: skip
    words = [
        word
        for word in WORD.finditer(text, start, end)
        if word.start() not in numbered
        and not any(aside.start <= word.start() < aside.end for aside in asides)
    ]
    heats = [
        match
        for match in TEMPERATURE.finditer(text, start, end)
        if temperature_event(match).celsius >= _COOLEST
    ]
    settings = [Token(*match.span(), (HEATS[match[match.lastindex or 1]],))
                for match in _SETTING.finditer(text, start, end)]  # fmt: skip
    found = [Token(*match.span(), ("heat",), temperature_event(match).celsius) for match in heats]
    about = {meaning for word in words for meaning in meanings_of((word[0],))}
    if {"wash", "machine", "program"} & about:
        found += [
            Token(*match.span(), ("heat",), int(match[0]))
            for match in NUMBER.finditer(text, start, end)
            if all(match.start() != heat.start() for heat in heats)
        ]
    if "iron" in about:
        found += [
            Token(*match.span(), ("heat",), int(match[0]))
            for match in _BARE_HEAT.finditer(text, start, end)
            if all(match.start() != heat.start() for heat in heats)
        ]
    found += [*settings, *asides]
    solvents = [match.span(match.lastgroup or 0) for match in _SOLVENT.finditer(text)]
    found += [Token(*place, ("clean",)) for place in solvents if start <= place[0] < end]
    told = tuple(found)
    at = 0
    while at < len(words):
        size, token = _token(text, words[at : at + LONGEST])
        if not any(one.start < token.end and token.start < one.end for one in told):
            found.append(token)
        at += size
    ordered = sorted(found, key=lambda token: token.start)
    ordered = _by_hand(text, _without_bleeding(text, ordered))
    ordered = _with_wet_cleaning(text, start, end, ordered)
    ordered = _without_hanging(text, _with_water(text, _with_wool(text, ordered)))
    return tuple(_without_handling(text, _denied_once(text, _on_racks(text, ordered))))


def _denied_once(text: str, tokens: Clause) -> Clause:
    """``tokens``, a word that tells to do without told as an unread one where another one forbids:
    "do not leave out" forbids nothing."""
    left_out = [text[token.start : token.end].replace("\n", " ") in LEFT_OUT for token in tokens]
    if sum("not" in token.meanings or "without" in token.meanings for token in tokens) < FEWEST:
        return tokens
    return [
        replace(token, meanings=(), filler=False) if left else token
        for token, left in zip(tokens, left_out, strict=True)
    ]


def _on_racks(text: str, tokens: Clause) -> Clause:
    """``tokens``, a rack told as what wool lies on where they say that it lies: "flat on a
    rack"."""
    if not any("flat" in token.meanings for token in tokens):
        return tokens
    return [
        replace(token, meanings=(), filler=True)
        if token.meanings == ("hang",) and text[token.start : token.end] in _RACKS
        else token
        for token in tokens
    ]


def _without_bleeding(text: str, tokens: Clause) -> Clause:
    """``tokens``, a word that lets something be told of nothing where it is dye that lets go: the
    north has one word for both, "kan slippe i første vask"."""
    return [
        replace(token, meanings=(), filler=True)
        if text[token.start : token.end] in _LETTING_GO and _LET_GO.match(text, token.end)
        else token
        for token in tokens
    ]


def _by_hand(text: str, tokens: Clause) -> Clause:
    """``tokens``, a washing of wool told as one by hand where nothing but that it is done so stands
    right behind it: "uldvask i hånden"."""
    found = list(tokens)
    for at, token in enumerate(found):
        wool = text[token.start : token.end] in _WOOL_WASHES
        if wool and _IN_HAND.match(text, token.end):
            found[at] = replace(token, meanings=("wash",))
    return found


def _with_wet_cleaning(text: str, start: int, end: int, tokens: Clause) -> Clause:
    """``tokens``, a cleaning told as a wet one where the clause says that it is done in water."""
    said = {name for token in tokens for name in token.meanings}
    if not _WET.search(text, start, end) or {"wash", "hand", "machine"} & said:
        return tokens
    if any(token.meanings == ("clean",) and _DRY_WAY.match(text, token.start) for token in tokens):
        return tokens
    return [
        replace(token, meanings=("wet",)) if token.meanings == ("clean",) else token
        for token in tokens
    ]


def _with_water(text: str, tokens: Clause) -> Clause:
    """``tokens``, the water or the soap of a clause that begins with the hand and tells of nothing
    else but how hot it is told as washing: "by hand in tepid water", "by hand, soap for wool"."""
    telling = [token for token in tokens if token.meanings]
    said = {name for token in telling for name in token.meanings}
    strange = any(token.is_unread for token in tokens)
    if any(
        _SOAP.fullmatch(word)
        for token in tokens
        for word in WORD.findall(text, token.start, token.end)
    ):
        said.discard("wool")  # "with soap for wool"
    if strange or not said <= _BY_HAND_IN_WATER or telling[:1] == [] or "hand" not in said:
        return tokens
    made = _MADE.search(text, max(0, telling[0].start - _SENTENCE), telling[0].start)
    rinsed = _RINSED.search(text, tokens[0].start, tokens[-1].end)
    if telling[0].meanings != ("hand",) or made or rinsed:
        return tokens
    return [
        replace(token, meanings=(*token.meanings, "wash"), filler=False)
        if token.start > telling[0].start
        and any(
            word in IN_WATER or _SOAP.fullmatch(word)
            for word in WORD.findall(text, token.start, token.end)
        )
        else token
        for token in tokens
    ]


def _without_hanging(text: str, tokens: Clause) -> Clause:
    """``tokens``, what is not hung told so where nothing but "to" and its like stands between
    "without" and the hanging: "dry flat without hanging"."""
    found = list(tokens)
    without = False
    for at, token in enumerate(found):
        if without and token.meanings == ("hang",):
            found[at] = replace(token, meanings=("unhung",))
        leads = token.filler and text[token.start : token.end] in _LEADING_UP
        without = token.meanings == ("without",) or (without and leads)
    return found


def _without_handling(text: str, tokens: Clause) -> Clause:
    """``tokens``, what is done "without wringing or twisting" told of nothing where they tell of
    care all the same, and as dripping where they tell of wool that is hung up or dried."""
    found = list(tokens)
    at = 0
    while at < len(found):
        last = at
        if found[at].meanings == ("without",):
            for place in range(at + 1, len(found)):
                said = set(found[place].meanings)
                if said & {"other", "drip"} and (said != {"drip"} or place == at + 1):
                    last = place
                elif said - _BESIDE_HANDLING or (
                    found[place].is_unread
                    and text[found[place].start : found[place].end] not in _LEADING_UP
                ):
                    break
        wrung = any(
            WRINGING.match(text, token.start) and token.meanings
            for token in found[at + 1 : last + 1]
        )
        for place in range(at, last + 1) if last > at else ():
            meanings = ("unwrung",) if wrung and place == last else ()
            found[place] = replace(found[place], meanings=meanings, filler=True)
        at = last + 1
    said = {name for token in found for name in token.meanings}
    if said == {"wash", "machine", "heat", "other"}:  # "machine wash 30 °C short spin"
        return [
            replace(token, meanings=(), filler=True)
            if token.meanings == ("other",) and _SPINNING.match(text, token.start)
            else token
            for token in found
        ]
    if "unwrung" in said and said <= _DRIPPING and not said & {"flat"} and said & _DRIED:
        return [
            replace(token, meanings=("drip",)) if token.meanings == ("unwrung",) else token
            for token in found
        ]
    found = [
        replace(token, meanings=()) if token.meanings == ("unwrung",) else token for token in found
    ]
    left = [token.meanings for token in found if token.meanings]
    return (
        found
        if sum(map(len, left)) >= FEWEST and any(STRONG & set(said) for said in left)
        else tokens
    )


def is_unwrung(text: str) -> bool:
    """Whether ``text`` says that wool is not wrung or spun: "without wringing"."""
    tokens = tokens_of(text, 0, len(text))
    return any(
        token.meanings == ("without",)
        and any(
            {"other", "drip"} & set(wrung.meanings) and WRINGING.match(text, wrung.start)
            for wrung in tokens[at + 1 :]
        )
        for at, token in enumerate(tokens)
    )


def _with_wool(text: str, tokens: Clause) -> Clause:
    """``tokens``, wool right behind a heat and with nothing behind it, or between a machine and a
    heat, told as the programme of a machine: "machine wash 30° wool", "30 °C (wool)", "machine
    wash wool 30°"."""
    found = list(tokens)
    for at, (heat, token) in enumerate(pairwise(tokens), start=1):
        near = (
            text[heat.end : token.start].strip(" ") in ("", "(")
            and "\n" not in text[heat.end : token.end]
        )
        alone = near and _NOTHING.match(text, token.end)
        if heat.celsius and token.meanings == ("wool",) and alone:
            found[at] = replace(token, meanings=("wool", "program"))
    for at, (before, token, heat) in enumerate(zip(tokens, tokens[1:], tokens[2:], strict=False)):
        ways = {*before.meanings, *(tokens[at - 1].meanings if at else ())}
        named = token.meanings == ("wool",) and "machine" in ways and "not" not in ways
        close = (
            not text[before.end : token.start].strip() and "\n" not in text[before.end : heat.end]
        )
        if named and close and heat.celsius:
            found[at + 1] = replace(token, meanings=("wool", "program"))
    return found


def _token(text: str, words: Sequence[re.Match[str]]) -> tuple[int, Token]:
    for size in range(len(words), 0, -1):
        gaps = pairwise(words[:size])
        close = all(_BETWEEN.fullmatch(text, one.end(), two.start()) for one, two in gaps)
        meanings = meanings_of(tuple(word[0] for word in words[:size])) if close else ()
        if meanings:
            return size, Token(words[0].start(), words[size - 1].end(), meanings)
    word = words[0]
    beside = text[max(0, word.start() - 1) : word.start()] + text[word.end() : word.end() + 1]
    broken = any(sign.isdigit() for sign in beside)
    return 1, Token(*word.span(), filler=word[0] in FILLERS and not broken)


def kinds_in(tokens: Clause) -> tuple[str, ...]:
    meanings = [meaning for token in tokens for meaning in token.meanings]
    return kinds_of(meanings, [token.celsius for token in tokens if token.celsius])


def hangs_together(tokens: Clause) -> bool:
    meanings = [meaning for token in tokens for meaning in token.meanings]
    return hang_together(meanings, [token.celsius for token in tokens if token.celsius])


def is_whole(tokens: Clause) -> bool:
    """Whether a line says something of care by itself, be it in one compound word."""
    said = [name for token in tokens for name in token.meanings]
    tells = len(said) >= FEWEST and bool(STRONG & set(said))
    return tells and kinds_in(tokens) not in ((), VAGUE)


def subjects_of(tokens: Clause) -> Sequence[str]:
    """The subjects of what a clause says in full; none where it does not."""
    said = [name for token in tokens for name in token.meanings]
    if len(said) < FEWEST or any(token.is_unread for token in tokens):
        return ()
    return [SUBJECT_OF.get(kind, "") for kind in kinds_in(tokens) if kind != "wash"]
