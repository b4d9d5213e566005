"""What lights up on the paper when a sentence is pointed at."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.desk.style.laid_out import LaidOut
from cutwright.drawing.show import touched, trace_drawing
from cutwright.drawing.svg import svg_items
from cutwright.pattern.piece import Piece


@dataclass(frozen=True, slots=True)
class Highlight:
    """Edges (as tags) and pieces a sentence made or changed; its traces as SVG by piece."""

    tags: tuple[str, ...]
    pieces: tuple[str, ...]
    traces: dict[str, str]


def highlight(laid: LaidOut, index: int) -> Highlight:
    """What a sentence did, as far as it can still be seen on the finished paper."""
    if index >= len(laid.replay.stages):
        return Highlight((), (), {})
    stage = laid.replay.stages[index]
    tags = [
        str(ref)
        for ref, origin in laid.origins.items()
        if origin.made == index or any(i == index for i, _a, _b in origin.changed)
    ]
    _old, new = touched(stage)
    there = {p.name: p for p in laid.replay.pattern.pieces}
    traces = {
        p.name: svg_items(trace_drawing(stage.result.traces, p.name))
        for p in new
        if p.name in there and _unmoved(p, there[p.name])
    }
    named = [t.piece for t in stage.result.traces]
    pieces = [p.name for p in new if p.name in there and (p.name in named or stage.before.pieces)]
    return Highlight(tuple(tags), tuple(pieces), {k: v for k, v in traces.items() if v})


def _unmoved(then: Piece, now: Piece) -> bool:
    """Whether the paper still lies as the sentence left it."""
    return then.outline == now.outline
