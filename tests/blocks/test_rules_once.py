"""A rule that a figure prints is the one the draft draws by: its value stands at one place, with a name."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from cutwright import blocks

FILES = sorted(Path(blocks.__file__).parent.glob("*.py"))


def written_out(tree: ast.AST) -> list[str]:
    """The rules of figures whose value is a number written out beside them."""
    rules = (
        node
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "DraftRule"
    )
    return [
        ast.unparse(rule)
        for rule in rules
        if any(
            isinstance(part, ast.Constant) and isinstance(part.value, float)
            for part in ast.walk(rule.args[1])
        )
    ]


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_no_figure_writes_a_rule_of_the_draft_once_more(file: Path) -> None:
    assert written_out(ast.parse(file.read_text(encoding="utf-8"))) == []


def test_a_value_written_out_is_found() -> None:
    assert written_out(ast.parse("DraftRule('rise', 0.28, Source.OWN)"))
    assert not written_out(ast.parse("DraftRule('rise', RISE, Source.OWN)"))
