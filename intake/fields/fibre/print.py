"""What a composition is printed with: shares, names of fibres and the words between them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from intake.fields.fibre.letter_codes import CODES, TWO_WAYS, places_of_codes
from intake.fields.fibre.names import (
    ANIMAL_HAIRS,
    FIBRES,
    FILLERS,
    HAIR,
    IMPLIED,
    KINDS,
    PURE,
    words_of,
)
from intake.fields.letters import FoldedLines, Words, listed, number_in

FIBRE_WORDS = words_of(FIBRES)
KIND_WORDS = words_of(KINDS)
PHRASES = FIBRE_WORDS.keys() | KIND_WORDS.keys()
PLAIN = {phrase.replace("'", " "): phrase for phrase in PHRASES}
"""Phrases as they are found, "lamb s wool", to the phrases themselves."""

SINGLE_WORDS = {word for phrase in PHRASES for word in re.split(r"[ ']", phrase)}


def meaning_of(word: str) -> object:
    """What a printed word stands for: words of one meaning may be mixed up freely."""
    return FIBRE_WORDS.get(word) or KIND_WORDS.get(word) or word


COLOURS = listed("marino; marine; marina; morena; moreno; morene")
"""Words that are no fibres but near to one: they stay as they are."""

_NEAR_NAMES = frozenset({"heluld", "helull"})
"""Words that names are a letter off: they are taken as printed alone."""

VOCABULARY = Words(
    {word for word in SINGLE_WORDS - _NEAR_NAMES if len(word) > 2} | COLOURS,
    meaning_of,
    kept=_NEAR_NAMES,
)

GAP = r"[\s'-]{1,2}"
PHRASE = "|".join(
    GAP.join(map(re.escape, re.split(r"[ ']", phrase)))
    for phrase in sorted(PHRASES, key=len, reverse=True)
)
LOST_SIGN = r"96(?=\s*(?:[(]|[a-z]{3}))"
"""A percent sign read as digits: a word must follow."""

PERCENT_WORD = (
    r"(?:pct\.?|per ?cento?|prozent|v\. ?h\.|procent|prosent|pour ?cent|por ?ciento)(?![a-z])"
)
"""How per cent is spelled out, in nine languages."""

PERCENT = rf"(?P<sign>%|{PERCENT_WORD}|(?P<odd>9/0|[°o0]/[°o0]|{LOST_SIGN}))"
SHARE_NUMBER = (
    r"(?:(?<=\n\.)|(?<=[a-z][.,])|(?<![\d.,]))(?<!\d[.,/])(?:100|\d{1,2}(?:[.,]\d{1,2})?)"
)
NUMBER = r"(?:(?<=\n\.)|(?<![\d.,/]))(?<!\d[.,])(?:100|\d{1,2}(?:[.,]\d{1,2})?)"
ODD_NUMBER = r"(?<![\w.,/])(?=[oli|]{0,2}\d)[\doli|]{2,3}"
UNIT = (
    r"(?!\s?(?:[gm]\b|gr|mm|cm|mtr|met|yd|yard|oz|°|x\b|c\b|ply|fach|fold|/\s?\d))"
    r"(?![\d./:x%-]|,(?! ?[a-z]{3}))"
)
TOKEN = re.compile(
    rf"(?P<share>(?:{SHARE_NUMBER})\s?(?={PERCENT})|{ODD_NUMBER}\s?(?=%))"
    rf"|(?P<percent>%|(?<=[\d ]){PERCENT_WORD}|9/0(?=\s*[a-z])|[°o0]/[°o0]|(?<=\d){LOST_SIGN}"
    rf"|(?<=\d ){LOST_SIGN})"
    rf"|(?P<phrase>(?<![a-z])(?:{PHRASE})(?![a-z]))"
    rf"|(?P<bare>{NUMBER}(?!\d){UNIT})"
    r"|(?P<word>[^\W\d_]+(?:-\n[^\W\d_]+)?)"
    r"|(?P<other>\d+|[^\s])"
)
"""Everything a composition is written with; shares before all else."""

JOINERS = frozenset("()[]'-")
"""Signs that may stand within a fibre's name."""

STAND_ALONE = listed("superwash; superfine; baby; royal; shetland; highland; jacob")
"""Kinds that mean something else on a line of their own: the wool's treatment wherever
that is printed, a weight, a range."""

_OTHER_SHARE = (
    r"(?<![a-z])(?:rebajas?|soldes?|saldi|sale|ausverkauf|aktion|aanbieding|uitverkoop|udsalg|utsalg|rea|tilbud"
    r"|oferta|offerta|toleran\w*|abweich\w*|varian\w*|(?:norm|luft)?feuchte|\w*feuchtigkeit|humid\w*|umidita|humedad"
    r"|vocht\w*|fugt\w*|fukt\w*|\w*rabatt?|remise|sconto|descuento|korting|discount|off|reduc\w*|elastici\w*|ripresa|reprise|regain|conditioning|condizion\w*"
    r"|conditionn\w*|\w*zuschlag|acondicionamiento|recuperacion|konditionering\w*"
    r"|shrink\w*|krimp\w*|schrumpf\w*|mwst|moms|mva|btw|iva|tva|vat)"
)
_BEFORE_OTHER_SHARE = re.compile(
    rf"(?:(?:{_OTHER_SHARE})(?: [a-z]{{1,3}}\.?)?[^\w\n]*|±\s?|\+ ?/? ?-\s?|\+|(?:^|\n)[-–—] ?)\Z"
)
_BEHIND_OTHER_SHARE = re.compile(rf"\s?%?\s?(?:{_OTHER_SHARE})(?![a-z])")
"""What else is printed in per cent: how far a mass may be off, humidity, what is taken off the
price, tax."""

OF_SHEEP = ("schafwolle", "schurwolle", "schapenwol", "farull", "saueull", "sauull", "fareuld")
"""How words end for the wool of a breed of sheep, of which there are too many to list."""

PART_LETTERS = 3
"""Shortest word that a run of letters without spaces is taken apart into."""

WHOLE = 100.0


@dataclass(frozen=True)
class Share:
    """A number that says how much; ``clean`` is how well it can be read, 0 to 1."""

    percent: float
    start: int
    end: int
    clean: float
    signed: bool


@dataclass(frozen=True)
class Named:
    """A fibre's name with its kinds; ``pure`` where the words say it stands alone, ``doubt`` where
    the name may be another fibre's."""

    fibre: str
    kinds: tuple[str, ...]
    start: int
    end: int
    clean: float
    pure: bool = False
    kind_only: bool = False
    doubt: str = ""


@dataclass(frozen=True)
class Token:
    """One token with its meanings: a phrase may be several words written as one."""

    sort: str
    text: str
    start: int
    end: int
    words: tuple[str, ...] = ()


def items_of(sheet: FoldedLines) -> Iterator[Share | Named | Token]:
    """Shares, fibre names and the words and signs between them, in reading order."""
    run: list[Token] = []
    codes = places_of_codes(sheet)
    for token in tokens_of(sheet.text):
        if run and not continues(sheet.text, run[-1], token):
            yield from names_in(sheet, run)
            run = []
        if token.sort == "phrase":
            run.append(token)
            continue
        if token.sort == "percent":
            continue
        if token.start in codes:
            yield in_letters(codes[token.start], token)
            continue
        share = share_of(sheet, token) if token.sort in ("share", "bare") else None
        yield share or token
    yield from names_in(sheet, run)


def in_letters(code: str, token: Token) -> Named:
    """The fibre that the letters ``code`` stand for."""
    if code in CODES:
        return Named(CODES[code], (), token.start, token.end, 1.0)
    one, other = TWO_WAYS[code]
    doubt = f"'{code.upper()}' stands for {one} or for {other}"
    return Named(one, (), token.start, token.end, 1.0, doubt=doubt)


def tokens_of(text: str) -> Iterator[Token]:
    """The text's tokens; words that are fibre words without spaces become phrases."""
    for match in TOKEN.finditer(text):
        sort = str(match.lastgroup) if match.lastgroup not in ("sign", "odd") else "share"
        printed = match[0]
        if printed in JOINERS:
            continue
        if sort == "phrase":
            yield Token(sort, printed, *match.span(), (PLAIN[re.sub(GAP, " ", printed)],))
            continue
        if sort == "word":
            words = words_without_spaces(printed.replace("-\n", ""))
            if words:
                yield Token("phrase", printed, *match.span(), words)
                continue
        yield Token(sort, printed, *match.span())


@lru_cache(maxsize=1024)
def words_without_spaces(run: str) -> tuple[str, ...]:
    """The known words that ``run`` is made of without a rest; longest first word wins."""
    if run in PHRASES or run in FILLERS or run in HAIR:
        return (run,)
    for end in range(len(run) - 1, PART_LETTERS - 1, -1):
        head = run[:end]
        if head in PHRASES or head in FILLERS or head in HAIR:
            for skip in ("", "en", "n", "s"):
                rest = run[end:]
                if rest.startswith(skip) and len(rest) - len(skip) >= PART_LETTERS:
                    tail = words_without_spaces(rest[len(skip) :])
                    if tail:
                        return (head, *tail)
    return ("wool",) if run.endswith(OF_SHEEP) else ()


_SHARE_BEFORE = re.compile(r"\d ?%\s*\Z")
"""Before a kind of fibre: its share."""


_WORD_AT_END = re.compile(r"(?P<word>[^\W\d_]+)[ '-]{1,2}\Z")


def continues(text: str, last: Token, token: Token) -> bool:
    """Whether ``token`` goes on with the fibre name that ``last`` belongs to.

    A name goes on in the next line only between a kind and its fibre, and only where that
    line does not give a share of its own, the kind stands right behind its share, or the line
    begins with the kind in brackets: "17 % wool" above "(merino)".
    """
    between = text[last.end : token.start]
    if token.sort != "phrase":
        return False
    if re.fullmatch(r"[ '()\[\]]*|-", between):
        return True
    rest = re.split(r"[\n,;]", text[token.end :], maxsplit=1)[0]  # "merino, 200 g"
    in_brackets = re.fullmatch(r" ?\n ?[(\[]", between) is not None and rest[:1] in (")", "]")
    if in_brackets and _only_kinds(token) and any(word in FIBRE_WORDS for word in last.words):
        return True
    has_share = any(letter.isdigit() for letter in rest)
    if re.fullmatch(r"[ '()\[\]]*\n[ '()\[\]]*", between) is None:
        return False
    opens = _WORD_AT_END.search(text, 0, last.start)
    told = opens is not None and opens["word"] in FIBRE_WORDS  # "cotone biologico" above "lino"
    wrapped = _only_kinds(last) and any(word in FIBRE_WORDS for word in token.words) and not told
    if wrapped and (not has_share or _SHARE_BEFORE.search(text, 0, last.start)):
        return True  # "30 % mulberry" above "silk"
    if has_share:
        return False
    before = text[: token.start]
    bracketed = any(before.rfind(opens) > before.rfind(shuts) for opens, shuts in ("()", "[]"))
    kinds = {KIND_WORDS.get(word, "") for word in token.words}
    return _only_kinds(token) and (bracketed or not kinds & STAND_ALONE)


def _only_kinds(token: Token) -> bool:
    return bool(token.words) and all(word in KIND_WORDS for word in token.words)


def share_of(sheet: FoldedLines, token: Token) -> Share | None:
    """The share that a token spells; ``None`` where it is out of bounds or of something else."""
    number = number_in(token.text)
    if number is None or not 0 < number[0] <= WHOLE:
        return None
    before = sheet.text[max(0, token.start - 30) : token.start]
    other = _BEFORE_OTHER_SHARE.search(before) and not _adds_fibre(before)
    if other or _BEHIND_OTHER_SHARE.match(sheet.text, token.end):
        return None
    value, all_digits = number
    digits = len(token.text.rstrip())
    signed = token.sort == "share"
    sign = re.compile(rf"%|{PERCENT_WORD}")
    plain_sign = sign.match(sheet.text, token.end) is not None
    clean = 0.4 if not all_digits else 1.0 if plain_sign else 0.8
    return Share(value, token.start, token.start + digits, clean, signed)


def _adds_fibre(before: str) -> bool:
    """Whether a plus sign behind a fibre ends the print before a share: "cotton +15% linen"."""
    words = re.findall(r"[^\W\d_]+", before)
    return before.endswith("+") and bool(words) and bool(words_without_spaces(words[-1]))


def names_in(sheet: FoldedLines, run: Sequence[Token]) -> Iterator[Named]:
    """The fibres that a run of words names: one, unless it names several in a row."""
    fibres: list[tuple[str, Token]] = []
    kinds: list[tuple[str, Token]] = []
    pure = False
    for token in run:
        for word in token.words:
            pure = pure or word in PURE
            if word in FIBRE_WORDS:
                fibres.append((FIBRE_WORDS[word], token))
            elif word in KIND_WORDS:
                kinds.append((KIND_WORDS[word], token))
    fibres = without_hair_words(fibres)
    if not fibres and not kinds:
        return
    kind_names = tuple(dict.fromkeys(kind for kind, _ in kinds))
    if len({fibre for fibre, _ in fibres}) <= 1:
        fibre = (
            fibres[0][0]
            if fibres
            else next((IMPLIED[kind] for kind in kind_names if kind in IMPLIED), "")
        )
        tokens = [token for _, token in fibres + kinds]
        yield named(sheet, fibre, kind_names, tokens, pure, kind_only=not fibres)
        return
    yield from names_in_a_row(sheet, run)


def names_in_a_row(sheet: FoldedLines, run: Sequence[Token]) -> Iterator[Named]:
    """Several fibres named one after the other, each with the kinds before it."""
    pending: list[Token] = []
    for token in run:
        pending.append(token)
        if any(word in FIBRE_WORDS for word in token.words):
            words = [word for each in pending for word in each.words]
            fibre = next(FIBRE_WORDS[word] for word in words if word in FIBRE_WORDS)
            kinds = tuple(KIND_WORDS[word] for word in words if word in KIND_WORDS)
            yield named(sheet, fibre, kinds, pending, pure=False)
            pending = []


def without_hair_words(fibres: list[tuple[str, Token]]) -> list[tuple[str, Token]]:
    """``alpaca wool`` is alpaca: wool after an animal's name is its hair."""
    if any(fibre in ANIMAL_HAIRS for fibre, _ in fibres):
        return [(fibre, token) for fibre, token in fibres if fibre != "wool"]
    return fibres


def named(
    sheet: FoldedLines,
    fibre: str,
    kinds: tuple[str, ...],
    tokens: Sequence[Token],
    pure: bool,
    kind_only: bool = False,
) -> Named:
    """A name over the letters of its tokens."""
    start, end = min(t.start for t in tokens), max(t.end for t in tokens)
    clean = 0.8 if sheet.is_mended(start, end) else 1.0
    return Named(fibre, kinds, start, end, clean, pure, kind_only)
