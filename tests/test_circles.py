"""No file of the program imports, however far round and wherever in its text, a file that imports it."""

from __future__ import annotations

import ast
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

SOURCE = Path(__file__).parents[1] / "src"
MODULES = {
    ".".join(path.relative_to(SOURCE).with_suffix("").parts).removesuffix(".__init__"): path
    for path in (SOURCE / "cutwright").rglob("*.py")
}


def imported(name: str) -> set[str]:
    """The files of a part of the program that one of its files imports, within functions too."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(MODULES[name].read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            for alias in node.names:
                whole = f"{node.module}.{alias.name}"
                found.add(whole if whole in MODULES else node.module)
    return found & MODULES.keys() - {name}


def circle(part: str) -> list[str]:
    """A circle of imports within a part of the program; empty where there is none."""
    names = [name for name in MODULES if name.startswith(f"cutwright.{part}.")]
    within = {name: {each for each in imported(name) if each in names} for name in names}
    try:
        TopologicalSorter(within).prepare()
    except CycleError as fault:
        found: list[str] = fault.args[1]
        return found
    return []


PARTS = (
    "geometry", "body", "style", "blocks", "steps", "checks", "finish", "lay", "wording", "drawing",
    "paper", "worksheet", "workshop", "book", "desk", "cli",
)  # fmt: skip


@pytest.mark.parametrize("part", PARTS)
def test_no_circle_of_imports(part: str) -> None:
    assert circle(part) == []
