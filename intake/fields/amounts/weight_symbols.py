"""The weight class in words and in the number of a drawn skein: what both say together.

They corroborate each other.  Where they contradict, the words stand and the tag is asked
about.  A skein alone is sure where its number surely is that, and where length per mass does
not speak against it; one that was read less well, where words or length per mass say the same.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from intake.fields.amounts.weight import CATEGORIES, length_note, usual_category
from intake.records import Field, State, Symbol, SymbolKind

_READ_WELL = 0.98
"""From this confidence on a number in a skein counts that something else on the tag says too."""


def with_skeins(fields: Mapping[str, Field], symbols: Sequence[Symbol]) -> Field:
    """The weight class as read from words, with what the skeins among ``symbols`` add to it or
    put in doubt; unchanged where there are none.  ``fields`` are those of the tag."""
    skeins = [symbol for symbol in symbols if symbol.kind is SymbolKind.WEIGHT]
    words = fields["weight_class"]
    if not skeins:
        return words
    best = max(skeins, key=lambda skein: skein.confidence)
    shown = [skein.weight_class for skein in skeins]
    value = words.value or best.weight_class
    doubt = _contradiction(words, shown) or _doubt(words, best, fields)
    classes = dict.fromkeys(shown)
    return replace(
        words,
        value=value,
        confidence=max(words.confidence, best.confidence) if not doubt else best.confidence,
        state=State.DOUBTFUL if doubt else State.SURE,
        reason=doubt,
        others=tuple(dict.fromkeys(one for one in (*classes, *words.others) if one != value)),
        note=_note(words, best, fields),
    )


def _contradiction(words: Field, shown: Sequence[str]) -> str:
    """How words and skeins, or two skeins, contradict each other; empty where not."""
    if len(set(shown)) > 1:
        return f"the skeins say both '{shown[0]}' and '{shown[1]}'"
    if words.value is not None and words.value != shown[0]:
        return f"the words say '{words.value}', the skein '{shown[0]}'"
    return ""


def _doubt(words: Field, skein: Symbol, fields: Mapping[str, Field]) -> str:
    """Why a class that nothing contradicts is not sure all the same."""
    if words.state is State.SURE:
        return ""
    if skein.state is not State.SURE and not _is_backed(words, skein, fields):
        return (
            words.reason or f"the number in the skein, for '{skein.weight_class}', is not certain"
        )
    if words.value is None and _is_far_off(skein.weight_class, fields):
        return f"the number in the skein may be misread: {_length_note(skein, fields)}"
    return ""


def _is_backed(words: Field, skein: Symbol, fields: Mapping[str, Field]) -> bool:
    """Whether a number that was read fairly well is what words or length per mass say too."""
    if skein.confidence < _READ_WELL:
        return False
    return skein.weight_class in (words.value, _usual(fields))


def _is_far_off(weight_class: str, fields: Mapping[str, Field]) -> bool:
    """Whether length per mass misses the class by more than the next one."""
    usual = _usual(fields)
    return bool(usual) and abs(CATEGORIES.index(usual) - CATEGORIES.index(weight_class)) > 1


def _usual(fields: Mapping[str, Field]) -> str:
    """The class that length per mass is usual for; empty where they were not read."""
    length_m, mass_g = fields["length_m"].value, fields["mass_g"].value
    if not isinstance(length_m, float) or not isinstance(mass_g, float):
        return ""
    return usual_category(length_m, mass_g)


def _length_note(skein: Symbol, fields: Mapping[str, Field]) -> str:
    length_m, mass_g = fields["length_m"].value, fields["mass_g"].value
    if not isinstance(length_m, float) or not isinstance(mass_g, float):
        return ""
    return length_note(skein.weight_class, length_m, mass_g)


def _note(words: Field, skein: Symbol, fields: Mapping[str, Field]) -> str:
    if words.value is not None:
        return words.note
    note = _length_note(skein, fields)
    return "read from the number in the skein" + (f"; {note}" if note else "")
