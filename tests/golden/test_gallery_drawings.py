"""The stitch lines of every gallery style, kept as text: a change of the drawing shows as a diff.

Write them anew with `CUTWRIGHT_GOLDEN=write pytest tests/golden`, then read the diff as a cutter would.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from cutwright.geometry.point import Point
from cutwright.workshop.gallery import load_body, load_style, shipped
from cutwright.workshop.work import Work, work

HERE = Path(__file__).parent
BODY = "the-rower"
NUMBER = re.compile(r"-?\d+\.\d+")


def place(p: Point) -> str:
    """A point to a tenth of a millimetre, without a minus nought."""
    return f"{round(p.real, 2) + 0.0:.2f},{round(p.imag, 2) + 0.0:.2f}"


def lines(done: Work) -> Iterator[str]:
    """A line for each curve of each piece, then the darts and the seams."""
    for piece in done.replay.pattern.pieces:
        yield f"{piece.name}: {piece.cut.copies} x, {piece.area:.2f} cm2"
        for edge in piece.edges:
            yield f"  {edge.label} ({edge.kind}) {edge.length:.2f}"
            for curve in edge.curves:
                yield "    " + " ".join(place(p) for p in curve.controls)
        for dart in piece.darts:
            yield f"  dart {dart.name}: pivot {place(dart.pivot)} tip {place(dart.tip)}"
        for diamond in piece.diamonds:
            yield f"  dart {diamond.name}: {place(diamond.top)} {place(diamond.bottom)}"
    for seam in done.replay.pattern.seams:
        yield f"seam {seam.name}: ratio {seam.ratio:.3f} ease {seam.ease:.2f}"


@pytest.mark.parametrize("style", sorted(shipped("styles")))
def test_the_lines_are_as_they_were(style: str) -> None:
    text = "\n".join(lines(work(load_style(style), load_body(BODY)))) + "\n"
    kept = HERE / f"{style}.txt"
    if os.environ.get("CUTWRIGHT_GOLDEN") == "write":
        kept.write_text(text, encoding="utf-8")
    before = kept.read_text(encoding="utf-8")
    assert text == before or alike(text, before)


def alike(text: str, before: str) -> bool:
    """Whether only last digits differ, as another machine may round them."""
    if NUMBER.sub("#", text) != NUMBER.sub("#", before):
        return False
    pairs = zip(NUMBER.findall(text), NUMBER.findall(before), strict=True)
    return all(abs(float(a) - float(b)) < 0.0101 for a, b in pairs)


def test_a_changed_line_shows() -> None:
    """The comparison can fail: another body gives other lines."""
    text = "\n".join(lines(work(load_style("close-skirt"), load_body("the-alto")))) + "\n"
    before = (HERE / "close-skirt.txt").read_text(encoding="utf-8")
    assert text != before
    assert not alike(text, before)
