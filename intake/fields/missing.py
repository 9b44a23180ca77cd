"""Missing fields: does the tag not carry one, or was its print not understood?

A tag need not print everything.  But where print is left that nobody could read, or that
looks like part of a missing field, the field may be hidden there and is asked for.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from intake.fields.bare import PARTNER
from intake.fields.captions import Caption, Role
from intake.fields.fibre.print import FIBRE_WORDS as FIBRE_NAMES
from intake.fields.fibre.print import KIND_WORDS
from intake.fields.fibre.print import VOCABULARY as FIBRE_WORDS
from intake.fields.letters import WORD, Folded
from intake.records import FibrePart, Field, Line, State

_READABLE = 0.8
"""Mean letter score of the first reader above which a line counts as read."""

_ALIKE = 0.6
"""Share of letters that both readers must have seen alike in a line that was read."""

_SHORT = 3
"""Lines of fewer letters hide nothing: specks, a drawn yarn, one letter of a logo."""

_ONLY_KINDS = frozenset({"superwash", "mulberry"})

_AMOUNT = re.compile(
    r"\d\s?(?:g|gr|m|mtr|yds?|yards?|oz|met\w*)\b|%"
    r"|(?<![a-z])(?:gr?s?|gramm\w*|mtr?s?|metri|metros|metres?|meters?|kgs?|m(?=[ .]))\.? ?\d{2}"
    r"|(?<![a-z])(?:weight|wt|poids|peso|\w*gewicht|\w*v[ae]e?gt|\w*vekt|\w*vikt|lauflange|ll"
    r"|\w*lengte|\w*l[ao]e?ngde?|lengde|length|longueur|lunghezza|longitud|metrage|yardage)"
    r"[ .:]{0,3}\d"
)
"""A number with a unit on either side, or behind a word for mass or length."""


def ask_beside_captions(
    fields: Mapping[str, Field], idle: Sequence[tuple[Caption, str]]
) -> dict[str, Field]:
    """``fields`` with a doubt where a caption that announces nothing (given with its text)
    says that the tag carries a shade's name or code or a range all the same, and at a code that
    may be the lot which another asks for."""
    found = dict(fields)
    code = fields["shade_code"]
    if code.state is State.SURE and not fields["lot"].cues.get("caption"):
        for caption, text in idle:
            if caption.role is Role.LOT:
                reason = f"'{code.value}' may be the lot, which '{text.strip()}' asks for"
                found["shade_code"] = replace(code, state=State.DOUBTFUL, reason=reason)
    for caption, text in idle:
        name = "shade_code" if caption.asks_number else "shade"
        name = "range" if caption.role is Role.RANGE else name
        if caption.role in (Role.SHADE, Role.RANGE) and fields[name].state is State.MISSING:
            reason = f"nothing could be read beside the caption '{text.strip()}'"
            found[name] = replace(fields[name], state=State.DOUBTFUL, reason=reason)
    return found


def explain_missing(fields: Mapping[str, Field], lines: Sequence[Line]) -> dict[str, Field]:
    """``fields`` with a reason at each missing one that the tag may carry all the same.

    Lot and shade are always asked for: a tag without them is rare, and to file one whose
    lot went unseen would be the worst fault.  So is the mass of a tag that seems to tell neither
    mass nor length: nearly every tag tells one of them.
    """
    found = dict(fields)
    rest = _rest(fields, lines)
    amounts = {at for name in PARTNER for at in (span.line for span in fields[name].spans)}
    facts = [lines[at].text for at in sorted(amounts)]
    unread = [line.text for at, line in enumerate(lines) if at in rest and _is_unread(line)]
    for name in ("fibre", "length_m", "mass_g"):
        if fields[name].state is State.MISSING:
            found[name] = replace(fields[name], reason=_why(name, fields, rest, unread))
    fibre = found["fibre"]
    if fibre.state is State.MISSING and not fibre.reason and (text := _names_a_fibre(facts)):
        reason = f"no composition was found, but '{text.strip()}' names a fibre"
        found["fibre"] = replace(fibre, reason=reason)
    told = [found[name] for name in PARTNER]
    if all(one.state is State.MISSING and not one.reason for one in told):
        found["mass_g"] = replace(found["mass_g"], reason="neither mass nor length was found")
    if fields["lot"].state is State.MISSING:
        found["lot"] = replace(fields["lot"], reason="no lot was found")
    if all(fields[name].state is State.MISSING for name in ("shade", "shade_code")):
        reason = fields["shade"].reason or "no shade was found"
        found["shade"] = replace(fields["shade"], reason=reason)
    return found


def doubt_loose_kinds(fields: Mapping[str, Field], lines: Sequence[Line]) -> dict[str, Field]:
    """``fields`` with a doubt at the fibre where the tag prints the kind of a fibre that the
    composition does not know of: on a line of its own ("(merino)"), or wherever it can mean
    nothing else ("superwash")."""
    fibre = fields["fibre"]
    if fibre.state is not State.SURE:
        return dict(fields)
    known = {kind for part in _parts(fibre) for kind in part.kind.split()}
    used = {span.line for field in fields.values() for span in field.spans}
    shade = {span.line for span in fields["shade"].spans}
    maker = Folded(str(fields["maker"].value or "")).text
    for at, line in enumerate(lines):
        if at in shade:  # shades are called Mulberry too
            continue
        words = [word[0] for word in WORD.finditer(Folded(line.text).text)]
        kinds = {KIND_WORDS[word] for word in words if word in KIND_WORDS}
        only_kinds = all(word in KIND_WORDS for word in words)
        if maker and maker in Folded(line.text).text and not only_kinds:
            continue  # nor is what a maker is called: "Tintoria del Gelso Storto"
        alone = at not in used and only_kinds
        if (kinds if alone else kinds & _ONLY_KINDS) - known:
            reason = f"'{line.text.strip()}' names a kind of fibre that the composition lacks"
            return {**fields, "fibre": replace(fibre, state=State.DOUBTFUL, reason=reason)}
    return dict(fields)


def _parts(fibre: Field) -> list[FibrePart]:
    value = fibre.value if isinstance(fibre.value, tuple) else ()
    return [part for part in value if isinstance(part, FibrePart)]


def _why(
    name: str, fields: Mapping[str, Field], rest: Mapping[int, str], unread: Sequence[str]
) -> str:
    """Why a missing field may be on the tag all the same; empty where nothing says so."""
    plain = {"fibre": "fibre", "length_m": "length", "mass_g": "mass"}[name]
    partner = PARTNER.get(name)
    if partner is not None and fields[partner].state is not State.MISSING:
        return f"no {plain} was found beside the {'mass' if partner == 'mass_g' else 'length'}"
    if unread:
        return f"no {plain} was found, and a line could not be read: '{unread[0]}'"
    for text in rest.values():
        folded = Folded(text).text
        if name == "fibre":
            hit = "%" in text or any(word[0] in FIBRE_WORDS for word in WORD.finditer(folded))
        else:
            hit = _AMOUNT.search(folded) is not None and "%" not in text
        if hit:
            return f"no {plain} was found, and a line was not understood: '{text.strip()}'"
    return ""


def _names_a_fibre(texts: Sequence[str]) -> str:
    """The first of ``texts`` that has a word for a fibre."""
    return next(
        (
            text
            for text in texts
            if any(word[0] in FIBRE_NAMES for word in WORD.finditer(Folded(text).text))
        ),
        "",
    )


def _rest(fields: Mapping[str, Field], lines: Sequence[Line]) -> dict[int, str]:
    """What no field was taken from, by the number of its line."""
    used = {span.line for field in fields.values() for span in field.spans}
    return {at: line.text for at, line in enumerate(lines) if at not in used}


def _is_unread(line: Line) -> bool:
    letters = [at for at, letter in enumerate(line.letters) if letter.text.isalnum()]
    if len(letters) < _SHORT or not line.readings:
        return False
    alike = sum(line.agreed[at] for at in letters) / len(letters)
    return line.readings[0].confidence < _READABLE or alike < _ALIKE
