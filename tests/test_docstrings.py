"""What is public in the drafting tells its parameters, the unit of every number that it gives, and its errors."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

SOURCE = Path(__file__).parents[1] / "src" / "cutwright"
PARTS = ("geometry", "pattern", "body", "blocks", "finish")
"""Parts of the program whose public functions are documented so."""
UNIT = re.compile(r"\b(cm2?|degrees?|radians?|units?|shares?|from 0 to 1)\b")
MEASURED = re.compile(r"\b(float|complex|Point|ndarray|NDArray|Path|Curve|Cubic|Line)\b")
"""A single parameter of such a type has a unit, a direction or a shape, so it is told too."""


def _public(node: ast.AST, place: str) -> Iterator[tuple[str, ast.FunctionDef]]:
    for each in ast.iter_child_nodes(node):
        if isinstance(each, ast.ClassDef) and not each.name.startswith("_"):
            yield from _public(each, f"{place}:{each.name}")
        elif isinstance(each, ast.FunctionDef) and not each.name.startswith("_"):
            yield f"{place}:{each.name}", each


def _functions() -> Iterator[tuple[str, ast.FunctionDef]]:
    for part in PARTS:
        found = sorted((SOURCE / part).rglob("*.py"))
        assert found, part
        for path in found:
            tree = ast.parse(path.read_text(encoding="utf-8"))
            yield from _public(tree, str(path.relative_to(SOURCE)))


FUNCTIONS = dict(_functions())


def _section(doc: str, title: str) -> str:
    _before, _line, rest = doc.partition(f"{title}\n{'-' * len(title)}\n")
    return re.split(r"\n\w+\n-+\n", rest)[0]


def _named(doc: str, title: str) -> set[str]:
    """The parameters, or the errors, that a section of a docstring tells of."""
    told = re.findall(r"^([\w*, ]+) : ", _section(doc, title), re.MULTILINE)
    return {name.strip(" *") for names in told for name in names.split(",")}


def _given(node: ast.FunctionDef) -> list[ast.arg]:
    every = node.args
    found = [*every.posonlyargs, *every.args, *every.kwonlyargs, every.vararg, every.kwarg]
    return [arg for arg in found if arg is not None and arg.arg not in ("self", "cls")]


def _untold(node: ast.FunctionDef) -> set[str]:
    """The parameters that a docstring should tell of and does not."""
    given = _given(node)
    measured = any(a.annotation and MEASURED.search(ast.unparse(a.annotation)) for a in given)
    if len(given) < 2 and not measured:
        return set()
    return {arg.arg for arg in given} - _named(ast.get_docstring(node) or "", "Parameters")


def _without_unit(node: ast.FunctionDef) -> bool:
    """Whether a function gives numbers and its docstring no unit."""
    gives = node.returns is not None and "float" in ast.unparse(node.returns)
    return gives and not UNIT.search(ast.get_docstring(node) or "")


def _raised(node: ast.FunctionDef) -> set[str]:
    """The errors that a function itself raises; AssertionError says that it cannot happen."""
    found = set()
    for each in ast.walk(node):
        if isinstance(each, ast.Raise) and isinstance(each.exc, ast.Call):
            found.add(ast.unparse(each.exc.func))
    return found - {"AssertionError"}


@pytest.mark.parametrize("name", FUNCTIONS)
def test_parameters_units_and_errors_are_told(name: str) -> None:
    node = FUNCTIONS[name]
    assert not _untold(node)
    assert not _without_unit(node)
    assert _raised(node) <= _named(ast.get_docstring(node) or "", "Raises")


def _function(source: str) -> ast.FunctionDef:
    found = ast.parse(source).body[0]
    assert isinstance(found, ast.FunctionDef)
    return found


TOLD = '''
def bent(a: int, *rest: Path) -> {gives}:
    """A line bent.

    Parameters
    ----------
    a{also} : how often

    Raises
    ------
    {raises} : never mind
    """
    raise GeometryError(1)
'''


def test_what_is_left_out_is_found() -> None:
    whole = _function(TOLD.format(also=", rest", gives="int", raises="GeometryError"))
    assert (_untold(whole), _without_unit(whole)) == (set(), False)
    short = _function(TOLD.format(also="", gives="list[float]", raises="StepError"))
    assert (_untold(short), _without_unit(short)) == ({"rest"}, True)
    assert _raised(short) == {"GeometryError"}
    assert _named(ast.get_docstring(short) or "", "Raises") == {"StepError"}
    assert _untold(_function('def far(path: Path) -> int:\n    """How far."""')) == {"path"}
    assert not _untold(_function('def names(piece: Piece) -> int:\n    """The names."""'))
