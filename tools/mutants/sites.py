"""Where the program can be broken, and how it reads when it is; by cosmic-ray's operators."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

OPERATORS = tuple(
    f"core/{name}"
    for name in (
        "ReplaceBinaryOperator_Add_Sub",
        "ReplaceBinaryOperator_Sub_Add",
        "ReplaceBinaryOperator_Mul_Div",
        "ReplaceBinaryOperator_Div_Mul",
        "ReplaceComparisonOperator_Eq_NotEq",
        "ReplaceComparisonOperator_NotEq_Eq",
        "ReplaceComparisonOperator_Lt_GtE",
        "ReplaceComparisonOperator_LtE_Gt",
        "ReplaceComparisonOperator_Gt_LtE",
        "ReplaceComparisonOperator_GtE_Lt",
        "ReplaceComparisonOperator_Is_IsNot",
        "ReplaceComparisonOperator_IsNot_Is",
        "ReplaceUnaryOperator_Delete_USub",
        "ReplaceUnaryOperator_Delete_Not",
        "AddNot",
        "ReplaceTrueWithFalse",
        "ReplaceFalseWithTrue",
        "ReplaceAndWithOr",
        "ReplaceOrWithAnd",
        "ReplaceBreakWithContinue",
        "ReplaceContinueWithBreak",
        "NumberReplacer",
        "ZeroIterationForLoop",
    )
)
"""Breaks that change what a line does. `<` for `<=` is left out: on lengths it is the same."""


@dataclass(frozen=True)
class Site:
    """One break: an operator of cosmic-ray at its n-th place in a file."""

    file: str
    line: int
    operator: str
    occurrence: int
    text: str
    lines: range
    """The lines of the whole statement, or of its head."""

    @property
    def module(self) -> str:
        """The dotted name under which the file is imported."""
        parts = Path(self.file).with_suffix("").parts[1:]
        return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)

    def __str__(self) -> str:
        return f"{self.file}:{self.line}"


def sites(root: Path, file: Path) -> Iterator[Site]:
    """Every break of a file, but for lines that do nothing when it runs."""
    text = file.read_text("utf-8")
    lines = text.splitlines()
    idle, heads = _idle(text), _heads(text)
    tree = _parsed(text)
    for name in OPERATORS:
        for occurrence, line in enumerate(_places(tree, _operator(name))):
            if line not in idle and not _guards(name, lines[line - 1].strip()):
                where = file.relative_to(root).as_posix()
                here = heads.get(line, range(line, line + 1))
                yield Site(where, line, name, occurrence, lines[line - 1].strip(), here)


@dataclass(frozen=True)
class Break:
    """A site with the whole text of its file as it reads with the break, and the line then."""

    site: Site
    text: str
    line: str

    @property
    def key(self) -> str:
        """How it is named in the list of known ones: it may move to another line or folder."""
        return f"{Path(self.site.file).name}: {self.site.text} -> {self.line}"

    def __str__(self) -> str:
        return f"{self.site}: {self.site.text} -> {self.line}"


def broken(root: Path, site: Site) -> Break:
    """The file of a site with that one break."""
    sound = (root / site.file).read_text("utf-8")
    text = _broken(sound, site)
    pairs = zip(sound.splitlines(), text.splitlines(), strict=False)
    return Break(site, text, next((new.strip() for old, new in pairs if old != new), "?"))


def _broken(text: str, site: Site) -> str:
    from cosmic_ray.mutating import mutate_code

    changed = mutate_code(text, _operator(site.operator), site.occurrence)
    if not isinstance(changed, str):
        raise LookupError(f"no such place: {site}")
    return changed


@cache
def _operator(name: str) -> Any:
    from cosmic_ray.plugins import get_operator

    return get_operator(name)()


def _parsed(text: str) -> Any:
    from cosmic_ray.ast import get_ast

    return get_ast(text)


def _places(node: Any, operator: Any) -> Iterator[int]:
    """The line of each place, in the order in which cosmic-ray counts them."""
    from cosmic_ray.ast import Visitor

    found: list[int] = []

    class Looking(Visitor):  # type: ignore[misc]
        def visit(self, node: Any) -> Any:
            found.extend(start[0] for start, _end in operator.mutation_positions(node))
            return node

    Looking().walk(node)
    return iter(found)


def _idle(text: str) -> set[int]:
    """Lines of docstrings, decorators, imports, sentences, and of what only guards: raise and assert."""
    lines: set[int] = set()
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import | ast.ImportFrom | ast.Raise | ast.Assert):
            lines.update(_span(node))
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            for decorator in node.decorator_list:
                lines.update(_span(decorator))
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            lines.update(_span(node))
        if isinstance(node, ast.Call) and _calls(node) in {"_", "N_", "ngettext", "format"}:
            lines.update(_span(node))
    return lines


def _guards(operator: str, line: str) -> bool:
    """Whether a break would only take away a guard: equal lengths in zip, names in a call."""
    if operator.endswith("TrueWithFalse"):
        return "strict=True" in line
    return line == "*," or (operator.endswith("Mul_Div") and line.startswith("def "))


def _heads(text: str) -> dict[int, range]:
    """For each line the lines of the innermost statement there, without what stands under its head."""
    found: dict[int, range] = {}
    for node in ast.walk(ast.parse(text)):  # the outer ones first
        if isinstance(node, ast.stmt):
            under = [one.lineno for one in getattr(node, "body", [])]
            span = range(node.lineno, max(node.lineno + 1, min(under))) if under else _span(node)
            found.update(dict.fromkeys(span, span))
    return found


def _calls(node: ast.Call) -> str:
    return getattr(node.func, "id", getattr(node.func, "attr", ""))


def _span(node: ast.expr | ast.stmt) -> range:
    return range(node.lineno, (node.end_lineno or node.lineno) + 1)
