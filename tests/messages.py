"""All that failures say, found in the source, with … where a value stands.

``python tests/messages.py`` prints the list of the guide.  ``python tests/messages.py FILE`` with
what ``coverage json`` wrote to FILE prints the places of messages that no test has reached.
"""

from __future__ import annotations

import ast
import importlib
import inspect
import itertools
import json
import pkgutil
import re
import sys
import textwrap
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import FunctionType, ModuleType

from starlette.exceptions import HTTPException

import intake
from intake.errors import BalltagError
from intake.exports.corrections import RowRefused

Failure = type[Exception]

_VALUE = "…"
_WIDTH = 100
_OTHERS = {HTTPException: 1, RowRefused: 0}
"""What else tells the user something, and which of its arguments does."""

_TOLD_AS = {HTTPException: "the desk, to a browser", RowRefused: "balltag import, of a row"}


@dataclass(frozen=True)
class Place:
    """Where a message is made: the file, the first line of the statement, what fails, and the
    texts that it can say."""

    file: str
    line: int
    failure: Failure
    texts: tuple[str, ...]


def modules() -> list[ModuleType]:
    """Every module of intake but the one that starts the command."""
    return [
        importlib.import_module(one.name)
        for one in pkgutil.walk_packages(intake.__path__, "intake.")
        if not one.name.endswith("__main__")
    ]


@cache
def places() -> tuple[Place, ...]:
    """Where each message is made, file by file."""
    return tuple(place for module in modules() for place in _Reader(module).places())


def by_failure() -> dict[Failure, list[str]]:
    """The messages of each failure, each once; failures by their exit codes."""
    found: defaultdict[Failure, set[str]] = defaultdict(set)
    for place in places():
        found[place.failure].update(place.texts)
    order = sorted(
        found, key=lambda one: (one in _OTHERS, getattr(one, "exit_code", 0), one.__name__)
    )
    return {one: sorted(found[one], key=str.lower) for one in order}


def guide() -> str:
    """The list for the guide, as Markdown."""
    pieces = (
        "\n".join([f"`{failure.__name__}` ({_told_as(failure)})", "", *map(_item, texts)])
        for failure, texts in by_failure().items()
    )
    return "\n\n".join(pieces)


def unreached(report: Path) -> list[str]:
    """The places that a coverage run did not reach, each with what it would say."""
    reached = {
        name: set(file["executed_lines"])
        for name, file in json.loads(report.read_text("utf-8"))["files"].items()
    }
    return [
        f"{place.file} {place.line} {place.failure.__name__}: {' | '.join(place.texts)}"
        for place in places()
        if place.line not in reached.get(place.file, ())
    ]


def _told_as(failure: Failure) -> str:
    if issubclass(failure, BalltagError):
        return f"code {int(failure.exit_code)}"
    return _TOLD_AS[failure]


def _item(text: str) -> str:
    return textwrap.fill(
        text,
        _WIDTH,
        initial_indent="- ",
        subsequent_indent="  ",
        break_long_words=False,
        break_on_hyphens=False,
    )


class _Reader:
    """Finds the messages in the source of one module."""

    def __init__(self, module: ModuleType) -> None:
        file = inspect.getsourcefile(module)
        assert file is not None
        self._module = module
        self._file = Path(file).relative_to(Path(intake.__path__[0]).parent).as_posix()
        self._tree = ast.parse(Path(file).read_text("utf-8"))

    def places(self) -> Iterator[Place]:
        """Where a failure is made, or got from a function that makes it."""
        for call in ast.walk(self._tree):
            if isinstance(call, ast.Call) and (failure := self._failure(call)):
                texts = tuple(
                    re.sub(f"{_VALUE}+", _VALUE, text)
                    for text in self._texts(call, self._around(call, ast.FunctionDef))
                    if re.search(r"\w", text)
                )
                if texts:
                    line = self._around(call, ast.stmt)[-1].lineno
                    yield Place(self._file, line, failure, texts)

    def _around(self, node: ast.expr, kind: type[ast.stmt]) -> list[ast.stmt]:
        """The statements of a kind around ``node``, the innermost last."""
        around = [
            one
            for one in ast.walk(self._tree)
            if isinstance(one, kind) and one.lineno <= node.lineno <= (one.end_lineno or 0)
        ]
        return sorted(around, key=lambda one: one.lineno)

    def _failure(self, call: ast.Call) -> Failure | None:
        """What ``call`` makes, where that is a failure."""
        named = self._named(call.func)
        if isinstance(named, FunctionType):
            kind = named.__annotations__.get("return")
            named = vars(sys.modules[named.__module__]).get(kind) if kind else None
        is_one = isinstance(named, type) and issubclass(named, (BalltagError, *_OTHERS))
        return named if is_one else None

    def _named(self, node: ast.AST) -> object:
        """What a name of the module stands for, or of a class in it after ``self.``"""
        if isinstance(node, ast.Name):
            return getattr(self._module, node.id, None)
        if isinstance(node, ast.Attribute) and getattr(node.value, "id", "") == "self":
            for one in vars(self._module).values():
                if isinstance(one, type) and node.attr in vars(one):
                    return vars(one)[node.attr]
        return None

    def _texts(self, node: ast.AST, within: Sequence[ast.AST]) -> list[str]:
        """What a text can be that stands within these functions."""
        match node:
            case ast.Constant():
                return [str(node.value)]
            case ast.JoinedStr(values=parts):
                each = (self._texts(part, within) for part in parts)
                return ["".join(one) for one in itertools.product(*each)]
            case ast.IfExp(body=one, orelse=other):
                return [*self._texts(one, within), *self._texts(other, within)]
            case ast.Name(id=name):
                return self._texts_of(name, within)
            case ast.Call():
                return self._texts_made(node, within)
        return [_VALUE]

    def _texts_of(self, name: str, within: Sequence[ast.AST]) -> list[str]:
        here = [
            one.value
            for function in within
            for one in ast.walk(function)
            if isinstance(one, ast.Assign)
            and [getattr(to, "id", "") for to in one.targets] == [name]
        ]
        if here:
            return [text for value in here for text in self._texts(value, within)]
        constant = getattr(self._module, name, None)
        return [constant if isinstance(constant, str) else _VALUE]

    def _texts_made(self, call: ast.Call, within: Sequence[ast.AST]) -> list[str]:
        """What a failure is made with, or a function of intake returns."""
        named = self._named(call.func)
        if isinstance(named, type) and issubclass(named, (BalltagError, *_OTHERS)):
            said = call.args[_OTHERS.get(named, 0) :]
            return self._texts(said[0], within) if said else []
        if not (isinstance(named, FunctionType) and named.__module__.startswith("intake.")):
            return [_VALUE]
        function = ast.parse(textwrap.dedent(inspect.getsource(named)))
        there = _Reader(sys.modules[named.__module__])
        returned = (one.value for one in ast.walk(function) if isinstance(one, ast.Return))
        return [text for one in returned if one for text in there._texts(one, [function])]


if __name__ == "__main__":
    print("\n".join(unreached(Path(sys.argv[1]))) if len(sys.argv) > 1 else guide())
