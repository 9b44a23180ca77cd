"""What lots, shade codes and names look like in print."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from intake.fields.names.trade_words import has_firm_word

_MARK = "[-–—/._]"
_CODE = rf"(?=[^\s]*\d)[A-Z0-9]+(?:{_MARK}[A-Z0-9]+)*[a-z]?"
_ODD_CODE = r"(?=[^\s]*\d)(?![^\s]*[A-Za-z]{4})[A-Za-z0-9]+(?:[-–—/._][A-Za-z0-9]+)*"
_CODE_TOKEN = re.compile(rf"(?:{_CODE})(?![\w%]|\s?°|{_MARK}(?![^\W\d_]{{3}})\w)")
_ODD_TOKEN = re.compile(rf"(?:{_ODD_CODE})(?![\w%]|\s?°)")
_STRAY = re.compile(r"(?:[a-z]|[^\w\s]{1,4})\s+(?=[A-Z0-9]{2})")
_LETTERS_TOKEN = re.compile(r"[A-Z]{2,5}(?:[-/][A-Z]{1,5})?(?!\w)")
_ZERO_WORD = r"(?=[^\W_]{4})[^\W\d_]+0[^\W\d_]+(?!\w)"
"""A word in which an O or Ø was read as 0, "R0DLØK"."""

_NAME_WORD = (
    rf"(?:{_ZERO_WORD}|F\.[lI]{{2}}i|F\.LLI|['’][tns](?= )"
    r"|[^\W\d_][^\W\d_'’.&-]*(?:['’&-][^\W\d_]+)*(?:(?<=s)['’]|\.)?)"
)
_FORM = (
    r"(?P<form>,? (?:S\.? ?L\.?(?: ?U\.?)?|S\.? ?A\.?(?:S\.?)?|S\.? ?[rR]\.? ?[lL]\.?"
    r"|S\.? ?[pP]\.? ?[aA]\.?"
    r"|S\. ?[cC]\.|S\. ?[nN]\. ?[cC]\.|S\. ?de R\. ?L\.|B\.? ?V\.?|N\. ?V\.|V\. ?[oO]\. ?[fF]\."
    r"|A/S|I/S|ApS|AB|AS|(?i:(?:pty\.? )?Ltd\.?|Inc\.?|LLC|GmbH|(?:Handels)?Ges\. ?m\. ?b\. ?H\."
    r"|m\. ?b\. ?H\.|ek\. för\.)|e\.? ?K\.?|e\. ?V\.|Lda\.?|Co\.?))?"
)
"""The legal form behind a firm's name."""

_FORM_BEFORE = r"(?:(?:A/S|A\.-B\.|A\.B\.|I/S|N\. ?V\.|B\. ?V\.|S\. ?A\.|S\. ?p\. ?A\.) )?"
"""A legal form that stands before the name."""

_NAME = re.compile(rf"{_FORM_BEFORE}{_NAME_WORD}(?: (?:[&+/] ?)?{_NAME_WORD})*{_FORM}")
_ANDS = frozenset("&+/")
"""Signs between the words of a name."""

_NUMBER_SIGN = re.compile(r"(?:n\.?[°º]\.?|(?:n|no|nr)[. ]|#)\s*(?=[A-Z]{0,3}\d)", re.IGNORECASE)

_GOES_ON = re.compile(r"[^\s.,;:)(/|·=–—-]|\s?[-–—/.]\s?(?:\d|[A-Za-z]{1,2}(?![A-Za-z]))")
"""Behind a code: a sign set close to it, or a dash, stroke or point with digits or a
letter or two behind it, apart from the code by a gap."""

LONGEST_NAME_WORDS = 4
_LONGEST_LINKED, _MOST_UNLINKED = 6, 3
_LONGEST_FIRM, _MOST_OF_FIRM = 8, 5
"""A name has so many words at most; or more, if so many at most are no articles and the like,
the last two where it is named like a firm."""

_LINKS = re.compile(
    r"(?:the|of|and|on|d|v|von|vom|zu|zum|zur|und|der|die|das|dem|den|am|im|de|des|du|la|le|les|et|à|au"
    r"|aux|sur|en|di|del|dell|della|delle|dei|degli|da|dal|dalla|e|ed|il|lo|i|gli|al|alla|el|los|las"
    r"|y|do|dos|das|van|het|ter|ten|op|aan|och|på|vid|av|i|og|ved|af|å)['’.]?|['’][tns]",
    re.IGNORECASE,
)
"""Words that link those of a name."""


_AS_DIGITS = str.maketrans("OoIl", "0011")

_NUMBER = r"(?:number|nummer|numéro|número|numero|núm|num|nr|no|n[°º])[.:]{0,2}"
CODE_BEHIND_WORD = re.compile(
    rf"{_NUMBER}(?: ?[/|] ?{_NUMBER}){{0,3}} "
    r"(?P<code>[A-Z]{0,2}\d[\w./-]{0,6})",
    re.IGNORECASE,
)
"""A code behind nothing but a word for a number: "number 26"."""


@dataclass(frozen=True, slots=True)
class Found:
    """A value in letters ``start`` to ``end`` of a text; ``shape`` from 0 to 1 tells how
    much it looks like one; ``alone`` whether nothing else stands in the text; ``goes_on``
    whether the print behind it, or before it, looks like more of it."""

    start: int
    end: int
    text: str
    shape: float
    alone: bool
    goes_on: bool = False


def leading_code(text: str) -> Found | None:
    """The code that ``text`` begins with: ``00412``, ``A-117``, ``23/7``, or a few
    capitals that stand alone.

    Codes are printed in capitals and digits; small letters within one are mostly misread
    digits, so such a code has a lower shape.
    """
    skip = _NUMBER_SIGN.match(text) or _STRAY.match(text)
    start = skip.end() if skip else 0
    for token, shape in ((_CODE_TOKEN, 1.0), (_ODD_TOKEN, 0.5), (_LETTERS_TOKEN, 0.4)):
        match = token.match(text, start)
        if match is None:
            continue
        alone = not text[match.end() :].strip(" .,;:-–|/)]'\"")
        if alone or token is not _LETTERS_TOKEN:
            goes_on = _GOES_ON.match(text, match.end()) is not None
            code = plain_dash(match[0])
            return Found(match.start(), match.end(), code, shape, alone, goes_on)
    return None


def plain_dash(code: str) -> str:
    """``code`` with every dash a hyphen: print and readers tell them apart at random."""
    return code.replace("–", "-").replace("—", "-")


def has_lookalike(code: str) -> bool:
    """Whether ``code`` mixes digits with a letter that is printed like a digit: O or I.
    Both readers can take 0 for O together, so their agreement tells nothing there."""
    return any(c.isdigit() for c in code) and any(c in "OIlo" for c in code)


def in_digits(code: str) -> str:
    """``code`` with the digits that its letters O and I are printed like, "U0598" for "UO598"."""
    return code.translate(_AS_DIGITS)


def code_parts(text: str) -> int:
    """How many code-like words ``text`` begins with: 2 for ``12 345``, which may be one
    code set with a space or two codes."""
    count = 0
    for word in text.split():
        if not (_CODE_TOKEN.fullmatch(word) or _LETTERS_TOKEN.fullmatch(word)):
            break
        count += 1
    return count


def whole_name(text: str) -> Found | None:
    """``text`` as a name of one to four words without digits, or of more where some only link the
    others, "Viuda de Ondarraga e Hijos", and perhaps a firm's legal form; ``None`` where it is
    none."""
    match = _NAME.fullmatch(text)
    if match is None:
        return None
    words = text[: match.start("form")] if match["form"] else text
    named = [word for word in words.split() if word not in _ANDS]
    if len(named) > LONGEST_NAME_WORDS and not _is_linked(named):
        return None
    if sum(letter.isalpha() for letter in text) < 3:
        return None
    return Found(0, len(text), text, 1.0, True)


def _is_linked(words: Sequence[str]) -> bool:
    """Whether many words may be one name: most only link the few others, which all begin with
    capitals, or none does; of a firm's, more do: "Azienda agricola Pian del Lupo"."""
    others = [word for word in words if not _LINKS.fullmatch(word)]
    most, unlinked = _LONGEST_LINKED, _MOST_UNLINKED
    if has_firm_word(" ".join(words)):
        most, unlinked = _LONGEST_FIRM, _MOST_OF_FIRM
    few = len(words) <= most and 1 < len(others) <= unlinked
    capitals = sum(word[0].isupper() for word in others)
    of_firm = unlinked == _MOST_OF_FIRM and others[0][0].isupper() and 2 * capitals > len(others)
    return few and (capitals in (0, len(others)) or of_firm)


_BEHIND_CODE = re.compile(r"[\s.,:;/|–—()\[\]\"'-]+")


def code_and_name(text: str) -> tuple[Found | None, Found | None]:
    """Shade code and shade name in ``text``: either, both in any order, or none."""
    name = whole_name(text)
    if name is not None:
        return None, name
    code = leading_code(text)
    if code is not None and any(letter.isdigit() for letter in code.text):
        return code, _named(text, code.end, len(text))
    return _name_then_code(text)


def _name_then_code(text: str) -> tuple[Found | None, Found | None]:
    for match in _BEHIND_CODE.finditer(text):
        code = leading_code(text[match.end() :])
        if code is None or not code.alone or not any(letter.isdigit() for letter in code.text):
            continue
        name = _named(text, 0, match.start())
        if name is not None:
            offset = match.end()
            lost = any(sign.isdigit() for sign in text[name.end : offset])  # "Kelp (1 79-04)"
            moved = replace(
                code,
                start=code.start + offset,
                end=code.end + offset,
                alone=False,
                goes_on=code.goes_on or lost,
            )
            return moved, name
    return None, None


_AND_THEN = re.compile(r"(?:and|und|et|e|ed|y|en|och|og) [a-zà-ÿ]")
"""A sentence that goes on behind a code: "color E0645 y procede"."""


def _named(text: str, start: int, end: int) -> Found | None:
    while start < end and not text[start].isalpha():
        start += 1
    while end > start and not (text[end - 1].isalpha() or text[end - 1] == "."):
        end -= 1
    if start > 0 and _AND_THEN.match(text, start, end):
        return None
    if text[end : end + 1].isdigit():  # "BadK.5776": a caption and its value
        return None
    name = whole_name(text[start:end])
    return Found(start, end, name.text, 1.0, False) if name else None
