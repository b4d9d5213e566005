"""Each length printed in a picture of a step stands at the edge it was measured on.

Read from the drawing alone: the edge nearest to a printed length must be as long as it says, unless a thin line leads
from the words to such an edge.
"""

from __future__ import annotations

import itertools
import re
from collections import defaultdict

import pytest

from cutwright.drawing.primitives import Drawing, Ink, Layer, Stroke, Words
from cutwright.drawing.type import words_box
from cutwright.geometry.curve import Line
from cutwright.geometry.outline import flattened
from cutwright.geometry.path import Path, path_length
from cutwright.worksheet.pictures import step_pictures
from cutwright.worksheet.sheet import Picture
from tests.worksheet.sheets import BODIES, STYLES, worked

LENGTH = re.compile(r"(?:^|\s)(\d+\.\d)$")
Box = tuple[float, float, float, float]


def points(path: Path) -> list[complex]:
    """Places along a line, not over 0.2 apart."""
    ring = flattened(path, 0.02)
    out = [ring[0]]
    for a, b in itertools.pairwise(ring):
        count = int(abs(b - a) / 0.2) + 1
        out += [a + (b - a) * k / count for k in range(1, count + 1)]
    return out


def distance(box: Box, path: Path) -> float:
    """From a box to the nearest place of a line."""
    return min(
        abs(
            complex(
                max(box[0] - p.real, 0, p.real - box[2]), max(box[1] - p.imag, 0, p.imag - box[3])
            )
        )
        for p in points(path)
    )


def edges(drawing: Drawing) -> list[tuple[Path, tuple[float, ...]]]:
    """Every line a length may belong to, with the lengths it may have: its own, and with its other parts."""
    strokes = [
        i
        for i in drawing.items
        if isinstance(i, Stroke) and i.layer is Layer.STITCH and i.tag and i.ink is not Ink.GONE
    ]
    whole: dict[str, float] = defaultdict(float)
    for stroke in strokes:
        whole[stroke.tag.partition(".")[0]] += path_length(stroke.path)
    out: list[tuple[Path, tuple[float, ...]]]
    out = [(s.path, (path_length(s.path), whole[s.tag.partition(".")[0]])) for s in strokes]
    for item in drawing.items:
        if isinstance(item, Stroke) and item.ink is Ink.WEDGE and len(item.path) > 2:
            out.append(((item.path[1],), (path_length((item.path[1],)),)))
        if isinstance(item, Stroke) and item.ink is Ink.MEASURED:
            out.append((item.path, (path_length(item.path),)))
    return out


def strays(picture: Picture) -> list[str]:
    """The printed lengths that stand nearer to an edge of another length."""
    lines = edges(picture.drawing)
    leaders = [
        i.path for i in picture.drawing.items if isinstance(i, Stroke) and i.ink is Ink.LEADER
    ]
    out = []
    for words in picture.drawing.items:
        said = LENGTH.search(words.text) if isinstance(words, Words) else None
        if said is None or not isinstance(words, Words):
            continue
        box = words_box(words)
        ends = [
            p[-1].end
            for p in leaders
            if distance(box, (Line(p[0].start, p[0].start + 1e-6),)) < 0.01
        ]
        box = (ends[0].real, ends[0].imag, ends[0].real, ends[0].imag) if ends else box
        away = [distance(box, path) for path, _sizes in lines]
        near = [
            s
            for far, (_p, s) in zip(away, lines, strict=True)
            if far <= min(away) + 0.1 * words.size
        ]
        if not any(abs(float(said[1]) - size) <= 0.0501 for sizes in near for size in sizes):
            out.append(f"{words.text} stands at {near[0][0]:.2f}")
    return out


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("body", BODIES)
def test_every_length_stands_at_its_own_edge(style: str, body: str) -> None:
    faults = []
    count = 0
    for number, stage in enumerate(worked(style, body).replay.stages, start=1):
        for picture in step_pictures(stage):
            count += sum(
                bool(isinstance(i, Words) and LENGTH.search(i.text)) for i in picture.drawing.items
            )
            faults += [f"step {number}: {stray}" for stray in strays(picture)]
    assert count
    assert not faults, "\n".join(faults)
