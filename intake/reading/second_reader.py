"""The second reader: Tesseract, within this process where that can be, else as a program."""

from __future__ import annotations

import os
from functools import cache
from importlib.metadata import version

from intake.errors import MissingProgram
from intake.reading.base import Reader
from intake.reading.line_pictures import PLAIN, Manner
from intake.reading.tesseract_data import HOW_TO_INSTALL, installed_data, language_sets


def second_reader(languages: str | None = None, manner: Manner = PLAIN) -> Reader:
    """Tesseract with one of :func:`language_sets`, by default the best; lines are shown to it
    in ``manner``.

    Raises :class:`MissingProgram` where the program or all its language data are missing.
    """
    if not language_sets():
        raise MissingProgram(HOW_TO_INSTALL)
    languages = languages or language_sets()[0]
    # One core a worker: Tesseract's own threads cost more than they bring.  It looks for this
    # when it is loaded.
    os.environ.setdefault("OMP_THREAD_LIMIT", "1")
    folder = installed_data().folder
    if _works_inside() and folder is not None:
        from intake.reading.tesseract_inside import TesseractInside

        return TesseractInside(languages, folder, manner)
    from intake.reading.tesseract import TesseractProgram  # brings pandas with it: 0.3 s

    return TesseractProgram(languages, manner)


def second_reader_version() -> str:
    """Which Tesseract reads here, and how; of two that differ readings may differ."""
    if not language_sets():
        return "not installed"
    if _works_inside():
        import tesserocr

        inside = tesserocr.tesseract_version().split()[1]
        return f"{inside} in tesserocr {version('tesserocr')}"
    import pytesseract

    return str(pytesseract.get_tesseract_version())


@cache
def _works_inside() -> bool:
    """Whether the library is there and reads with the data of the program."""
    folder = installed_data().folder
    if folder is None:
        return False
    try:
        from intake.reading.tesseract_inside import loaded

        loaded(language_sets()[-1], folder)
    except (ImportError, RuntimeError):  # a library that this system cannot load, or other data
        return False
    return True
