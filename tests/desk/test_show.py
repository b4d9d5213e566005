"""Every step that ships in a style can be shown, from its traces alone."""

from __future__ import annotations

import pytest
from shapely import MultiLineString, box

from cutwright.drawing.primitives import Ink, Stroke, Words
from cutwright.drawing.show import frames, touched
from cutwright.drawing.type import words_box
from cutwright.geometry.outline import flattened, polygon
from cutwright.style.replay import replay
from cutwright.words import set_language
from cutwright.workshop.gallery import load_body, load_style, shipped


@pytest.mark.parametrize("name", sorted(shipped("styles")))
def test_every_sentence_has_pictures_in_one_box(name: str) -> None:
    done = replay(load_style(name).steps, load_body("the-alto"))
    assert done.trouble is None
    for stage in done.stages:
        shown = frames(stage)
        assert shown[-1].kind == "after"
        assert len({frame.box for frame in shown}) == 1
        order = [k for k in ("before", "cut", "turn", "after") if k in {f.kind for f in shown}]
        assert [f.kind for f in shown] == order
        assert all(frame.drawing.items and frame.words for frame in shown)
        _old, new = touched(stage)
        assert {t.piece for t in stage.result.traces} <= {p.name for p in (*_old, *new)}


@pytest.mark.parametrize("body", ["the-alto", "the-gardener"])
@pytest.mark.parametrize("style", sorted(shipped("styles")))
def test_a_name_lies_on_its_piece_and_over_no_dart(style: str, body: str) -> None:
    done = replay(load_style(style).steps, load_body(body))
    for stage in done.stages:
        for frame in (f for f in frames(stage) if f.kind in ("before", "after")):
            strokes = [i for i in frame.drawing.items if isinstance(i, Stroke)]
            papers = [polygon(s.path) for s in strokes if s.ink is Ink.PAPER]
            lines = [flattened(s.path) for s in strokes if s.ink is Ink.DART]
            darts = MultiLineString([[(p.real, p.imag) for p in line] for line in lines])
            names = [words_box(i) for i in frame.drawing.items if isinstance(i, Words)]
            assert len(names) == len(papers)
            for name, paper in zip(names, papers, strict=True):
                assert paper.contains(box(*name)), (frame.kind, stage.step.do)
                assert not darts.intersects(box(*name)), (frame.kind, stage.step.do)


def test_the_names_are_told_in_the_language_in_force() -> None:
    stage = replay(load_style("orchard-dress").steps, load_body("the-alto")).stages[0]
    set_language("de")
    try:
        (after,) = frames(stage)
    finally:
        set_language("en")
    names = {i.text for i in after.drawing.items if isinstance(i, Words)}
    assert names == {"Vorderteil", "Rückenteil"}
