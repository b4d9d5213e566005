"""Whoever lays a smooth line through the printed places draws the pattern's line, within 2 mm."""

from __future__ import annotations

import re

import numpy as np
import pytest
from scipy.interpolate import CubicSpline

from cutwright.geometry.curve import Cubic
from cutwright.geometry.outline import flattened
from cutwright.geometry.path import Path, is_straight
from cutwright.pattern.piece import Piece
from cutwright.wording.names import title_of
from cutwright.worksheet.lesson import lesson_data
from cutwright.worksheet.sheet import Sheet, SheetTable
from cutwright.worksheet.through import shares
from tests.worksheet.sheets import BODIES, STYLES, worked

MOST = 0.2
Row = tuple[str, complex]
BETWEEN = re.compile(r", \d+ % along$|, at the ")


def rows(table: SheetTable) -> list[Row]:
    out = []
    for words, across, down in table.rows:
        x, y = (float(str(cell).replace("−", "-")) for cell in (across, down))
        out.append((str(words), complex(x, y)))
    return out


def chains(found: list[Row]) -> list[list[complex]]:
    """The places of each edge in order, from corner to corner."""
    outline = [row for row in found if not re.search(r"(upper|lower) point$|, widest, ", row[0])]
    out: list[list[complex]] = []
    for words, at in outline:
        if BETWEEN.search(words):
            out[-1].append(at)
        else:
            if out:
                out[-1].append(at)
            out.append([at])
    out[-1].append(outline[0][1])
    return out


def gap(places: list[complex], path: Path, flip: bool) -> float:
    """The furthest that a spline through the places passes beside the path."""
    chord = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(places)))])
    line = CubicSpline(chord, np.array(places))(np.linspace(0, chord[-1], 200))
    ring = np.array(flattened(path, 0.005))
    ring = -ring.conj() if flip else ring
    a, step = ring[:-1, None], np.diff(ring)[:, None]
    t = np.clip(((line - a) * step.conj()).real / np.abs(step) ** 2, 0, 1)
    return float(np.abs(line - a - t * step).min(axis=0).max())


def drafted(sheet: Sheet, style: str, body: str) -> list[tuple[Piece, SheetTable]]:
    """Each piece that a step drafted, with its printed places."""
    out = []
    for number, stage in enumerate(worked(style, body).replay.stages, start=1):
        old = {piece.name for piece in stage.before.pieces}
        for piece in (p for p in stage.after.pieces if p.name not in old):
            for table in (
                *sheet.section(f"step-{number}").blocks,
                *sheet.section("answers").blocks,
            ):
                if isinstance(table, SheetTable) and table.head == (
                    title_of(piece.name),
                    "across",
                    "down",
                ):
                    out.append((piece, table))
    return out


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("body", BODIES)
def test_a_smooth_line_through_the_places_is_the_true_line(style: str, body: str) -> None:
    found = drafted(lesson_data(worked(style, body)), style, body)
    worst = 0.0
    for piece, table in found:
        lines = chains(rows(table))
        assert len(lines) == len(piece.edges)
        flip = sum(edge.start.real for edge in piece.edges) < 0
        for places, edge in zip(lines, piece.edges, strict=True):
            curved = not is_straight(edge.curves, 0.1)  # a straight one is drawn with the ruler
            if curved and len(places) > 2 and all(edge.name != "top" for edge in piece.edges):
                off = gap(places, edge.curves, flip)
                assert off <= MOST, (piece.name, edge.label, off)
                worst = max(worst, off)
    assert found
    assert worst < MOST


@pytest.mark.parametrize("style", STYLES)
def test_no_two_places_have_one_name(style: str) -> None:
    for piece, table in drafted(lesson_data(worked(style, "the-rower")), style, "the-rower"):
        names = [words for words, _at in rows(table)]
        twice = {name for name in names if names.count(name) > 1 and "mouth" not in name}
        assert not twice, (piece.name, twice)


def test_a_short_edge_whose_ends_are_rounded_is_not_given_more_places_than_help() -> None:
    flat = (Cubic(13.46 + 43.94j, 15.6 + 43.66j, 17.8 + 43.66j, 20.04 + 43.84j),)
    assert len(shares(flat)) <= 4  # 19 places would only add their own rounding
