"""The terms of a query: which balls each of them means.

Names are found wherever they stand in a text, whatever their case, accents, spaces and
hyphens; a word that is nowhere in the stash is taken for the name it is a slip of the
finger from.  Lots, codes and numbers are found as they are or not at all: a lot one easily
confused letter away is only shown as near.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from rapidfuzz import process
from rapidfuzz.distance import OSA, Levenshtein

from intake.fields.amounts.weight import CATEGORIES, CATEGORY_OF, PLIES, PLY, THREAD, THREADS
from intake.fields.codes import plain_dash
from intake.fields.fibre.names import FIBRES, KINDS, words_of
from intake.fields.letters import Folded
from intake.filing.same import lot_neighbours
from intake.sums.catalogue import Catalogue, Rows
from intake.sums.lots import name_key

WORD_COLUMNS = (
    "maker", "range", "shade", "shade_printed", "weight_class", "weight_printed", "fibre",
    "care", "origin", "needle_mm", "tension", "note",
)  # fmt: skip
"""Columns of words: a term may stand anywhere in them."""

CODE_COLUMNS = ("id", "shade_code", "lot", "barcode")
"""Columns of codes: a term is the whole of one, letter by letter, or is not there."""

NAME_COLUMNS = ("maker", "range", "shade", "weight_class", "weight_printed", "fibre", "origin")
"""Columns of names, in which a slip of the finger is forgiven."""

_CODE_SLIPS = 2
"""One easily confused letter can stand for two others (rn for m)."""

_FIBRE_OF = words_of(KINDS) | words_of(FIBRES)


@dataclass(frozen=True, slots=True)
class Meant:
    """The balls that a term means.

    ``near`` are balls of a lot that is one easily confused letter away, and not meant.
    ``taken_as`` are the names that a misspelt term was taken for.
    """

    rows: Rows
    near: Rows | None = None
    taken_as: tuple[str, ...] = ()


def word_term(balls: Catalogue, word: str) -> Meant:
    """A free word: in any column of words, or the whole of a code."""
    rows = _named(balls, WORD_COLUMNS, word) | _coded(balls, CODE_COLUMNS, word)
    fibre, category = _FIBRE_OF.get(_folded(word)), CATEGORY_OF.get(_folded(word))
    if fibre:
        rows |= _named(balls, ("fibre",), fibre)
    if category:
        rows |= _of_category(balls, category)
    if _has_digit(word):
        return Meant(rows, _near_rows(balls, word))
    return _forgiving(balls, NAME_COLUMNS, word, rows)


def shade_term(balls: Catalogue, text: str) -> Meant:
    """A shade, by its name or its code."""
    rows = _named(balls, ("shade", "shade_printed"), text) | _coded(balls, ("shade_code",), text)
    return _forgiving(balls, ("shade",), text, rows)


def maker_term(balls: Catalogue, text: str) -> Meant:
    """A maker, by name."""
    return _forgiving(balls, ("maker",), text, _named(balls, ("maker",), text))


def lot_term(balls: Catalogue, text: str) -> Meant:
    """A lot, exactly; others that it may be a misreading of are near."""
    return Meant(_coded(balls, ("lot",), text), _near_rows(balls, text))


def class_term(balls: Catalogue, text: str) -> Meant:
    """A weight class: its name, its number, or a word that tags print for it."""
    category = weight_category(text)
    if category is not None:
        return Meant(_of_category(balls, category))
    columns = ("weight_class", "weight_printed")
    return _forgiving(balls, columns, text, _named(balls, columns, text))


def fibre_term(balls: Catalogue, text: str) -> Meant:
    """Fibres or kinds of them, in any language that tags are read in; all must be there."""
    meant = Meant(balls.all())
    for name in _fibres(text):
        one = _forgiving(balls, ("fibre",), name, _named(balls, ("fibre",), name))
        meant = Meant(meant.rows & one.rows, None, meant.taken_as + one.taken_as)
    return meant


def lot_text(text: str) -> str:
    """A typed lot with its dashes folded as the reading of tags folds them; all else
    about a lot is kept."""
    return plain_dash(text.strip())


def near_lots(lot: str, lots: Iterable[str]) -> list[str]:
    """Those of ``lots`` that ``lot`` may be a misreading or a slip of: one easily confused
    letter away, or the same but for capitals or leading zeros."""
    others = [other for other in lots if other and other != lot]
    folded = [other.casefold() for other in others]
    # Few lots are left for the weighing letter by letter.
    apart = process.cdist(
        [lot.casefold()], folded, scorer=Levenshtein.distance, score_cutoff=_CODE_SLIPS
    )
    close = [others[place] for place in np.flatnonzero(apart[0] <= _CODE_SLIPS)]
    plainest = lot.casefold().lstrip("0")
    same = [
        other for other, each in zip(others, folded, strict=True) if each.lstrip("0") == plainest
    ]
    return sorted({*lot_neighbours(lot, close), *same})


def weight_category(text: str) -> str | None:
    """The Craft Yarn Council's category that ``text`` names, by name, number, plies,
    threads or a trade word; ``None`` where it names none."""
    folded = " ".join(_folded(text).split())
    if folded in CATEGORIES:
        return folded
    if folded.isdecimal():
        return CATEGORIES[int(folded)] if int(folded) < len(CATEGORIES) else None
    if plies := PLY.fullmatch(folded):
        return PLIES.get(int(plies["count"]))
    if threads := THREAD.fullmatch(folded):
        return THREADS[int(threads["count"])]
    return CATEGORY_OF.get(folded)


def _named(balls: Catalogue, columns: Sequence[str], text: str) -> Rows:
    """Balls with ``text`` anywhere in one of ``columns``."""
    wanted = name_key(text)
    rows = balls.none()
    for name in columns if wanted else ():
        rows |= balls.column(name).where(lambda printed: wanted in name_key(printed))
    return rows


def _coded(balls: Catalogue, columns: Sequence[str], text: str) -> Rows:
    """Balls with a code that is ``text``."""
    rows = balls.none()
    for name in columns:
        rows |= balls.exactly(name, lot_text(text))
    return rows


def _of_category(balls: Catalogue, category: str) -> Rows:
    return balls.column("weight_class").where(lambda text: weight_category(text) == category)


def _near_rows(balls: Catalogue, text: str) -> Rows:
    lots = balls.column("lot")
    return lots.among(near_lots(lot_text(text), lots.texts))


def _forgiving(balls: Catalogue, columns: Sequence[str], text: str, rows: Rows) -> Meant:
    """``rows``, or where there are none the balls with the names in ``columns`` that
    ``text`` is the fewest slips of the finger away from."""
    wanted = name_key(text)
    if rows.any() or _has_digit(wanted):  # codes and amounts are never guessed
        return Meant(rows)
    slips = {
        (name, printed): _slips(wanted, printed)
        for name in columns
        for printed in balls.column(name).texts
    }
    least = min(slips.values(), default=_too_many(wanted))
    if least == _too_many(wanted):
        return Meant(rows)
    nearest = [place for place, distance in slips.items() if distance == least]
    for name, printed in nearest:
        rows = rows | balls.column(name).among([printed])
    return Meant(rows, None, tuple(dict.fromkeys(printed for _, printed in nearest)))


def _slips(wanted: str, printed: str) -> int:
    """How many letters ``wanted`` is off the whole of a name or one of its words."""
    keys = {name_key(printed), *(name_key(word) for word in printed.split())}
    return min(OSA.distance(wanted, one, score_cutoff=_too_many(wanted) - 1) for one in keys)


def _too_many(wanted: str) -> int:
    """How many slips are not forgiven: short words become each other too easily."""
    return 1 if len(wanted) < 4 else 2 if len(wanted) < 8 else 3


def _fibres(text: str) -> Iterator[str]:
    """The words of ``text``, known fibres and kinds under the names the stash has."""
    whole = " ".join(_folded(text).split())
    for word in [whole] if whole in _FIBRE_OF else whole.split():
        yield _FIBRE_OF.get(word, word)


def _has_digit(text: str) -> bool:
    return any(letter.isdigit() for letter in text)


def _folded(text: str) -> str:
    return Folded(text).text.strip()
