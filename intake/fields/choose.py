"""Choosing: of all candidates for a field, the best becomes the field."""

from __future__ import annotations

import re
from collections.abc import Sequence

from intake.fields.captions import is_like_caption, is_named_like_caption
from intake.fields.codes import has_lookalike, in_digits
from intake.fields.confidence import SURE, SURE_HEADING, confidence
from intake.fields.evidence import (
    EXACT,
    Evidence,
    evidence,
    is_witnessed,
    letters_of,
    second_reading,
    seen_beside,
    stands_in_other_box,
    with_seen_gap,
)
from intake.fields.letters import Folded
from intake.fields.names.accents import odd_accent
from intake.records import Candidate, Field, Line, Span, State, Value
from intake.wording import value_text

HEADINGS = frozenset({"maker", "range"})
NAMES = HEADINGS | {"shade"}

NUMBERS = frozenset({"length_m", "mass_g", "fibre"})
"""Fields whose digits both readers must have seen alike, unless they stand on the tag
twice; their words are checked by a vocabulary."""

_WORD = re.compile(r"[^\W\d_]+")

_TWO_WORDS = re.compile(r"[a-zß-öø-ÿ]{3}[A-ZÀ-ÖØ-Þ][a-zß-öø-ÿ]{2}")
"""A capital in the middle of a word."""

_NUMERAL_BEHIND = re.compile(r"[^\W\d_]+II(?![^\W\d_])")
"""A Roman numeral right behind letters, "Istappen UII"."""

_ONE_LETTER = re.compile(r"^[Il] | [^\W\d_]$")
"""A stroke between two words that was read as a letter, or the rest of a word that was cut off."""

_LONG_WORD = 4
"""Words of fewer letters differ in their accents from language to language."""

_PLAIN_NAMES = {
    "weight_class": "weight class",
    "weight_printed": "weight",
    "shade_code": "shade code",
    "length_m": "length",
    "mass_g": "mass",
    "balls": "number of balls",
    "needle_mm": "needle size",
}


def plain_name(field: str) -> str:
    """A field's name in words: ``length_m`` is ``length``."""
    return _PLAIN_NAMES.get(field, field)


def choose(name: str, candidates: Sequence[Candidate], lines: Sequence[Line]) -> Field:
    """The field ``name`` from its ``candidates``, which are given best first.

    Of several places that print the best value, the one read best is taken.
    """
    if not candidates:
        return Field(name)
    by_value: dict[str, list[Candidate]] = {}
    for candidate in candidates:
        by_value.setdefault(value_text(name, candidate.value), []).append(candidate)
    same, *others = by_value.values()
    found, best = max(
        ((evidence(one, lines, repeated=len(same) > 1, rivals=len(others)), one) for one in same),
        key=lambda pair: confidence(name, pair[0]),
    )
    score = confidence(name, found)
    rivals = [group[0] for group in others]
    reason = best.doubt or _reason(best, found, score, lines, rivals)
    return Field(
        name=name,
        value=_plain_apostrophes(best.value) if name in NAMES else best.value,
        confidence=score,
        state=State.DOUBTFUL if reason else State.SURE,
        line=_printed_lines(lines, best.spans),
        spans=best.spans,
        others=_others(name, best, lines, rivals),
        reason=reason,
        note=best.note,
        cues=found,
    )


def _plain_apostrophes(value: Value) -> Value:
    """A name with the apostrophe of typewriters and keyboards for the curved ones of print."""
    return value.replace("’", "'").replace("‘", "'") if isinstance(value, str) else value


def reason_in_print(field: Field, lines: Sequence[Line]) -> str:
    """What would be asked about ``field``, read from ``lines``, if nothing spoke against it but its
    print; empty where nothing would."""
    best = Candidate(field.name, field.value, field.spans, dict(field.cues))
    return _reason(best, field.cues, field.confidence, lines, ())


def _reason(
    best: Candidate,
    found: Evidence,
    score: float,
    lines: Sequence[Line],
    rivals: Sequence[Candidate],
) -> str:
    """Why ``best`` is not sure, in words; empty where it is."""
    name = plain_name(best.name)
    value = value_text(best.name, best.value)
    if not is_witnessed(lines, best.spans):
        return f"only one reader saw the {name} '{value}'"
    if best.name in EXACT and not found["unanimous"]:
        seen = second_reading(lines, best.spans)
        return f"the readers differ on the {name}: '{value}' or '{seen}'"
    if best.name == "lot" and (more := _glued(lines, best.spans)):
        return f"'{more}' right behind the lot '{value}' may be part of it"
    if best.name == "lot" and (spaced := with_seen_gap(lines, best.spans)):
        return f"the lot may be '{value}' or '{spaced}': one reader saw a gap in the print"
    if best.name in EXACT and (mark := _closing_mark(lines, best.spans)):
        return f"the '{mark}' right behind the {name} '{value}' may be a letter or a figure of it"
    if best.name in EXACT and (more := seen_beside(lines, best.spans)):
        return f"one reader saw '{more}' beside the {name} '{value}'"
    if best.name in EXACT and (other := stands_in_other_box(lines, best.spans)):
        return f"an end of the {name} '{value}' may belong to '{other}' beside it"
    if best.name in NAMES and (word := _NUMERAL_BEHIND.search(value)):
        return f"'{word[0]}' in the {name} may be misread: II or ll"
    if best.name in NAMES and (letter := _ONE_LETTER.search(value)):
        return f"'{letter[0].strip()}' by itself may be no part of the {name} '{value}'"
    if best.name in NAMES and (word := _LOST_VOWEL.search(value)):
        return f"'{word[0]}' in the {name} may have lost a letter"
    if best.name in NAMES and _TWO_WORDS.search(value):
        return f"the {name} '{value}' may be two words with the space lost"
    if best.name in NUMBERS and not found["repeated"] and _digits_differ(best, lines):
        return f"the readers differ on the digits of the {name} '{value}'"
    if best.name in NAMES and (other := _other_accents(value, lines)):
        return f"the {name} '{value}' has a word that the tag prints as '{other}', too"
    if best.name in NAMES and (plain := odd_accent(value, lines)):
        sign = "a 0" if "0" in value else "an accent"
        return f"the {name} '{value}' has {sign} that may be misread: '{plain}'"
    if best.name in NAMES and _may_have_lost_a_ligature(value, lines):
        return f"the {name} '{value}' may be printed with æ, a letter that the readers lose"
    if (best.name in EXACT or _stands_alone(best)) and _equally_announced(best, rivals):
        return f"the tag shows more than one {name}: {', '.join(_texts((best, *rivals)))}"
    if best.name == "shade" and not (found["caption"] or found["together"] or found["colour"]):
        return f"nothing says that '{value}' is the shade"
    if (
        best.name == "shade"
        and not found["colour"]
        and (is_like_caption(value) if not found["caption"] else is_named_like_caption(value))
    ):
        return f"'{value}' may be a caption and no shade"
    if score >= (SURE_HEADING if best.name in HEADINGS else SURE):
        return ""
    if best.name in HEADINGS and best.cues.get("role", 0.0) >= SURE and not found["unanimous"]:
        seen = second_reading(lines, best.spans)
        return f"the readers differ on the {name}: '{value}' or '{seen}'"
    if rivals:
        other = value_text(best.name, rivals[0].value)
        return f"the {name} may be '{value}' or '{other}'"
    if not found["unanimous"]:
        return f"the {name} '{value}' was read unclearly"
    if not found.get("caption", 1.0):
        return f"no caption says that '{value}' is the {name}"
    return f"the {name} '{value}' is not certain"


_LOST_VOWEL = re.compile(r"(?<!\w)(?!mc|mlle)[LMNR][bcdfgkmnpqrstvwxz]\w{2,}", re.IGNORECASE)
"""No word of these languages begins so: "Msen" is "Måsen" without a letter that no reader saw."""

_CLOSING = {"]": "[", "}": "{", ")": "(", "|": "|", "!": "!"}
"""Marks that J, 1 or l may be read as, and what opens them."""


_GLUED = re.compile(r"[-–]?[^\W_]+")


def _glued(lines: Sequence[Line], spans: Sequence[Span]) -> str:
    """Letters or digits right behind ``spans``, perhaps after a dash: taken for something else,
    they are rather more of the value."""
    for span in spans:
        behind = _GLUED.match(lines[span.line].text, span.end)
        if behind is not None:
            return behind[0]
    return ""


def _closing_mark(lines: Sequence[Line], spans: Sequence[Span]) -> str:
    """A mark right behind ``spans`` that closes nothing in its line: "27427]"."""
    for span in spans:
        text = lines[span.line].text
        mark = text[span.end : span.end + 1]
        if mark in _CLOSING and _CLOSING[mark] not in text[: span.start]:
            return mark
    return ""


def _other_accents(value: str, lines: Sequence[Line]) -> str:
    """A word of ``value`` as it stands elsewhere on the tag with other accents, "Gaukås" for
    "Gaukàs"; empty where there is none."""
    words = [word for word in value.casefold().split() if len(word) >= _LONG_WORD]
    printed = {match[0] for line in lines for match in _WORD.finditer(line.text)}
    for other in sorted(printed):
        plain, own = Folded(other).text, other.casefold()
        if any(word != own and Folded(word).text == plain for word in words) and not own.isascii():
            return other
    return ""


def _may_have_lost_a_ligature(value: str, lines: Sequence[Line]) -> bool:
    """Whether ``value`` has the letters a and e where a tag that is printed in Danish or
    Norwegian would have one letter for them."""
    print_ = "".join(line.text for line in lines).casefold()
    return "ae" in value.casefold() and ("ø" in print_ or "æ" in print_)


def _digits_differ(best: Candidate, lines: Sequence[Line]) -> bool:
    return any(
        letter.text.isdigit() and not agreed
        for span in best.spans
        for letter, agreed in letters_of(lines, (span,))
        if best.name != "fibre" or not _is_word(lines, span)
    )


def _is_word(lines: Sequence[Line], span: Span) -> bool:
    """Whether a part of a composition is a word, in which a letter may be read as a digit: "U11"
    for "Ull" is known by the words for fibres."""
    return lines[span.line].text[span.start : span.end].lstrip(" (")[:1].isalpha()


def _equally_announced(best: Candidate, rivals: Sequence[Candidate]) -> bool:
    """Whether another value has a caption as good as that of the best; a shade's rival
    has a code beside it too."""
    caption = best.cues.get("caption", 0.0)
    able = [rival for rival in rivals if best.name != "shade" or rival.cues["together"] > 0]
    return any(rival.cues.get("caption", 0.0) >= caption for rival in able)


def _stands_alone(best: Candidate) -> bool:
    """Whether a shade has no caption, so that a like pair of code and name may be it too."""
    return best.name == "shade" and not best.cues["caption"] and best.cues["together"] > 0


def _texts(candidates: Sequence[Candidate]) -> list[str]:
    return [value_text(one.name, one.value) for one in candidates]


def _others(
    name: str, best: Candidate, lines: Sequence[Line], rivals: Sequence[Candidate]
) -> tuple[str, ...]:
    """Other readings that were considered, each once, best first."""
    own = value_text(name, best.value)
    texts = [value_text(name, rival.value) for rival in rivals]
    if name in EXACT | NAMES:
        texts.append(second_reading(lines, best.spans))
    if name in NAMES:
        texts.append(odd_accent(own, lines))
    if name in EXACT and has_lookalike(own):
        texts.append(in_digits(own))
    return tuple(text for text in dict.fromkeys(texts) if text and text != own)


def _printed_lines(lines: Sequence[Line], spans: Sequence[Span]) -> str:
    return " / ".join(dict.fromkeys(lines[span.line].text for span in spans))
