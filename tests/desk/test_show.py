"""Every step that ships in a style can be shown, from its traces alone."""

from __future__ import annotations

import pytest

from cutwright.drawing.show import frames, touched
from cutwright.style.replay import replay
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
