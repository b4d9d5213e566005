"""What is public in the drafting tells its parameters, and the unit of every number that it gives."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

SOURCE = Path(__file__).parents[1] / "src" / "cutwright"
PARTS = ("body", "blocks")
"""Parts of the program whose public functions are documented so."""
UNIT = re.compile(r"\b(cm|degrees?|radians?|units?|shares?|from 0 to 1)\b")


def _public(node: ast.AST, place: str) -> Iterator[tuple[str, ast.FunctionDef]]:
    for each in ast.iter_child_nodes(node):
        if isinstance(each, ast.ClassDef) and not each.name.startswith("_"):
            yield from _public(each, f"{place}:{each.name}")
        elif isinstance(each, ast.FunctionDef) and not each.name.startswith("_"):
            yield f"{place}:{each.name}", each


def _functions() -> Iterator[tuple[str, ast.FunctionDef]]:
    for part in PARTS:
        for path in sorted((SOURCE / part).rglob("*.py")):
            tree = ast.parse(path.read_text(encoding="utf-8"))
            yield from _public(tree, str(path.relative_to(SOURCE)))


FUNCTIONS = dict(_functions())


def _named(doc: str) -> set[str]:
    """The parameters that a docstring tells of."""
    _before, _line, rest = doc.partition("Parameters\n----------\n")
    section = re.split(r"\n\w+\n-+\n", rest)[0]
    told = re.findall(r"^([\w*, ]+) : ", section, re.MULTILINE)
    return {name.strip(" *") for names in told for name in names.split(",")}


@pytest.mark.parametrize("name", FUNCTIONS)
def test_parameters_and_units_are_told(name: str) -> None:
    node = FUNCTIONS[name]
    doc = ast.get_docstring(node) or ""
    given = [
        a.arg for a in (*node.args.args, *node.args.kwonlyargs) if a.arg not in ("self", "cls")
    ]
    assert set(given) <= _named(doc)
    if node.returns is not None and "float" in ast.unparse(node.returns):
        assert UNIT.search(doc), doc
