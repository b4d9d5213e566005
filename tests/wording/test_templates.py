"""Every figure there can be has its sentence, and every sentence its figure."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

import cutwright
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.sum import (
    Chosen,
    DraftRule,
    Earlier,
    Figure,
    Leaf,
    Number,
    ReadOff,
    children,
    leaves,
)
from cutwright.wording.figures import TEMPLATES, figure_text, how
from cutwright.wording.terms import DRAWN, EARLIER, NUMBERS, RULES
from tests.hand_pieces import NOBODY
from tests.operations.rows import ROWS
from tests.worksheet.sheets import STYLES, worked

SOURCE = Path(cutwright.__file__).parent


def written(name: str, place: int = 0) -> set[str]:
    """The codes with which a noun is made anywhere in the program, read from its source.

    `place` says where a code stands among what the noun is made of.
    """
    out: set[str] = set()
    for path in SOURCE.rglob("*.py"):
        if "cutwright.pattern.sum" not in path.read_text(encoding="utf-8"):
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if (
                isinstance(node, ast.Call)
                and isinstance(node.func, ast.Name)
                and node.func.id == name
            ):
                out |= {
                    part.value
                    for arg in node.args[place : place + 1]
                    for part in ast.walk(arg)
                    if isinstance(part, ast.Constant) and isinstance(part.value, str)
                }
    return out


@cache
def figures() -> tuple[Figure, ...]:
    """Every figure of the gallery on two bodies and of every row of the operations' table."""
    out = [
        f for s in STYLES for b in ("the-rower", "the-alto") for f in worked(s, b).replay.figures
    ]
    for row in ROWS:
        out += row.step.apply(row.before(), NOBODY).figures
    return tuple(out)


def parts() -> Iterator[Leaf]:
    for figure in figures():
        yield from leaves(figure.term)


def test_every_code_has_its_template_and_no_template_is_left_over() -> None:
    assert written("Figure") == set(TEMPLATES)


@pytest.mark.parametrize(
    ("noun", "place", "words"),
    [(DraftRule, 0, RULES), (ReadOff, 0, DRAWN), (Number, 1, NUMBERS)],
)
def test_every_code_of_a_part_has_its_words(noun: type, place: int, words: dict[str, str]) -> None:
    codes = written(noun.__name__, place)
    assert codes
    assert codes <= set(words)


def test_every_figure_that_is_made_can_be_said() -> None:
    for figure in figures():
        line = figure_text(figure)
        assert "{" not in line
        assert how(figure), line
    drawn = {leaf.code for leaf in parts() if isinstance(leaf, ReadOff)}
    assert drawn
    assert drawn <= set(DRAWN)
    assert {leaf.figure.code for leaf in parts() if isinstance(leaf, Earlier)} <= set(EARLIER)
    assert {leaf.code for leaf in parts() if isinstance(leaf, DraftRule)} <= set(RULES)
    assert {leaf.code for leaf in parts() if isinstance(leaf, Number)} <= set(NUMBERS)
    assert any(isinstance(leaf, Chosen) for leaf in parts())


def test_a_figure_without_a_sum_says_where_it_was_read() -> None:
    plain = [figure for figure in figures() if not children(figure.term)]
    assert plain
    for figure in plain:
        assert how(figure) in (
            "from the body", "measured on the paper", "as asked for",
        ) or how(figure).startswith("as on "), figure_text(figure)  # fmt: skip


def test_no_draft_and_no_step_below_knows_a_word_of_a_figure() -> None:
    assert Pattern() == Pattern()
    for figure in figures():
        assert figure.code in TEMPLATES
