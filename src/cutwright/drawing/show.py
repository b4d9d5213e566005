"""How a step is shown: the paper before, where it is cut, how it opens, and the paper after.

The frames are made from the traces of a step and nothing else, so that the page and the work sheet
print the same ones. All frames of a step share one box, so that only the paper moves.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from cutwright.drawing.name_place import name_place
from cutwright.drawing.primitives import Dot, Drawing, Ink, Item, Layer, Stroke, Words
from cutwright.drawing.signs import arrow_head
from cutwright.drawing.type import text_width, whole_box
from cutwright.geometry.curve import Line
from cutwright.geometry.move import Move
from cutwright.geometry.outline import bounds, flattened
from cutwright.geometry.path import polyline
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Trace, TraceKind
from cutwright.style.replay import Stage
from cutwright.wording.names import name_text
from cutwright.words import _

GAP = 4.0
"""Room between the pieces of a frame, cm."""

_LINE = 1.7
"""A line of a name is so many times as high as its capitals."""

Box = tuple[float, float, float, float]

_BEFORE = {
    TraceKind.CUT: Ink.SLASH,
    TraceKind.CLOSED: Ink.CLOSED,
    TraceKind.FOLDED: Ink.CLOSED,
    TraceKind.MEASURED: Ink.MEASURED,
    TraceKind.MOVED: Ink.ARROW,
}
_AFTER = {TraceKind.WEDGE: Ink.WEDGE, TraceKind.ADDED: Ink.ADDED, TraceKind.TRUED: Ink.ADDED}


@dataclass(frozen=True, slots=True)
class Frame:
    """One picture of a step: `kind` is "before", "cut", "turn" or "after"; `words` say what it shows."""

    kind: str
    words: str
    drawing: Drawing
    box: Box


def frames(stage: Stage) -> tuple[Frame, ...]:
    """The pictures of a step in the order they are played; none for a step that touched nothing."""
    old, new = touched(stage)
    if not new:
        return ()
    spots = _spots(old, new)
    traces = stage.result.traces
    before = _laid(old, spots, Ink.STITCH) + _named(old, spots, _kinds(traces, _BEFORE))
    out = []
    if old:
        out.append(("before", _("The paper before."), before))
        marks = _marked(traces, _BEFORE, spots)
        if marks.items:
            out.append(("cut", _cut_words(traces), _under(before, marks)))
    opened = _marked(traces, _AFTER, spots)
    after = _laid(new, spots, Ink.STITCH) + _named(new, spots, _kinds(traces, _AFTER))
    if old and opened.items:
        ghost = _laid(old, spots, Ink.GONE, paper=False)
        out.append(("turn", _turn_words(traces), _under(after, opened) + ghost))
    out.append(("after", _("The paper after."), after))
    box = _shared([drawing for _kind, _words, drawing in out])
    return tuple(Frame(kind, words, drawing, box) for kind, words, drawing in out)


def touched(stage: Stage) -> tuple[list[Piece], list[Piece]]:
    """The pieces a step touched, as they were and as they are, with those its traces name."""
    old = {p.name: p for p in stage.before.pieces}
    new = {p.name: p for p in stage.after.pieces}
    named = {t.piece for t in stage.result.traces}
    names = {n for n in (*old, *new) if old.get(n) != new.get(n)} | named
    return [p for n, p in old.items() if n in names], [p for n, p in new.items() if n in names]


def trace_drawing(traces: Iterable[Trace], piece: str) -> Drawing:
    """What a step left on the paper after it, in the coordinates of one piece."""
    return _marked([t for t in traces if t.piece == piece], _AFTER, {piece: 0j})


def _spots(old: Sequence[Piece], new: Sequence[Piece]) -> dict[str, complex]:
    """Where each piece lies: side by side, a piece and what came of it in one place.

    A part cut off a piece lies below it by a gap.
    """
    spots: dict[str, complex] = {}
    left = 0.0
    known = {p.name: p for p in old}
    for piece in old:
        heir = next((p for p in new if p.name == piece.name), piece)
        a, _b, c, _d = _box_of(piece, heir)
        spots[piece.name] = complex(left - a, 0)
        left += c - a + GAP
    for piece in new:
        if piece.name in spots:
            continue
        parent = next((p for p in known.values() if _inside(piece, p)), None)
        if parent is not None:
            spots[piece.name] = spots[parent.name] + 1j * GAP
            continue
        a, b, c, _d = bounds(piece.outline)
        spots[piece.name] = complex(left - a, -b)
        left += c - a + GAP
    return spots


def _inside(piece: Piece, parent: Piece) -> bool:
    """Whether a piece lies where another lay: it was cut off it."""
    a, b, c, d = bounds(piece.outline)
    e, f, g, h = bounds(parent.outline)
    return e - 1 <= a and f - 1 <= b and c <= g + 1 and d <= h + 1


def _box_of(*pieces: Piece) -> Box:
    boxes = [bounds(p.outline) for p in pieces]
    return (
        min(b[0] for b in boxes),
        min(b[1] for b in boxes),
        max(b[2] for b in boxes),
        max(b[3] for b in boxes),
    )


def _laid(
    pieces: Sequence[Piece], spots: dict[str, complex], ink: Ink, paper: bool = True
) -> Drawing:
    items: list[Item] = []
    for piece in pieces:
        move = Move(shift=spots[piece.name])
        if paper:
            items.append(
                Stroke(piece.outline, Ink.PAPER, Layer.CUT, closed=True, fill=True).moved(move)
            )
        for edge in piece.edges:
            own = Ink.DART if edge.taken_up and ink is not Ink.GONE else ink
            own = Ink.CUT if own is Ink.STITCH else own
            tag = f"{piece.name}: {edge.label}"
            items.append(Stroke(edge.curves, own, Layer.STITCH, tag=tag).moved(move))
        for d in piece.diamonds:
            ring = polyline([d.top, d.far, d.bottom, d.near, d.top])
            own = Ink.GONE if ink is Ink.GONE else Ink.DART
            items.append(Stroke(ring, own, Layer.STITCH).moved(move))
    return Drawing(tuple(items))


def _kinds(traces: Sequence[Trace], inks: dict[TraceKind, Ink]) -> list[Trace]:
    return [t for t in traces if t.kind in inks]


def _named(pieces: Sequence[Piece], spots: dict[str, complex], traces: Sequence[Trace]) -> Drawing:
    """The names of the pieces, clear of their darts and of what the step left on them."""
    items: list[Item] = []
    for piece in pieces:
        a, _b, c, _d = bounds(piece.outline)
        size = max(1.0, min((c - a) / 14, 2.0))
        name = name_text(piece.name)
        lines = [
            flattened(t.path or polyline(t.points), 0.2) for t in traces if t.piece == piece.name
        ]
        middle, share = name_place(piece, text_width(name, size), size * _LINE, lines)
        size *= share
        at = middle + spots[piece.name] + 0.5j * size
        items.append(Words(at, name, size, Layer.TEXT, anchor="middle"))
    return Drawing(tuple(items))


def _marked(
    traces: Sequence[Trace], inks: dict[TraceKind, Ink], spots: dict[str, complex]
) -> Drawing:
    items: list[Item] = []
    for trace in traces:
        if trace.piece not in spots:
            continue
        move = Move(shift=spots[trace.piece])
        if trace.kind == TraceKind.PIVOT and inks is _BEFORE and trace.points:
            items.append(Dot(trace.points[0], 0.45, Ink.PIVOT, Layer.HELP).moved(move))
        elif trace.kind in inks:
            items += [item.moved(move) for item in _traced(trace, inks[trace.kind])]
    return Drawing(tuple(items))


def _traced(trace: Trace, ink: Ink) -> list[Item]:
    filled = ink in (Ink.WEDGE, Ink.CLOSED)
    if trace.kind == TraceKind.MOVED and len(trace.points) > 1:
        start, end = trace.points[0], trace.points[1]
        if abs(end - start) < 0.1:
            return []
        size = min(1.2, abs(end - start) / 2)
        return [
            Stroke((Line(start, end),), ink, Layer.HELP),
            arrow_head(end, end - start, ink, size),
        ]
    path = trace.path or polyline(trace.points)
    closed = filled or trace.kind == TraceKind.ADDED
    return [Stroke(path, ink, Layer.HELP, closed=closed, fill=filled)] if path else []


def _under(paper: Drawing, marks: Drawing) -> Drawing:
    """Marks over the paper but under the words."""
    lines = tuple(i for i in paper.items if not isinstance(i, Words))
    words = tuple(i for i in paper.items if isinstance(i, Words))
    return Drawing(lines + marks.items + words)


def _cut_words(traces: Sequence[Trace]) -> str:
    kinds = {t.kind for t in traces}
    if TraceKind.FOLDED in kinds and TraceKind.CUT in kinds:
        return _(
            "Cut along the red lines; fold the shaded wedges out, to nothing at the red points."
        )
    if TraceKind.FOLDED in kinds:
        return _("Fold the shaded wedges out, to nothing at the red points.")
    if TraceKind.PIVOT in kinds:
        return _("Cut along the red lines; turn about the red points.")
    if TraceKind.CUT in kinds:
        return _("Draw the new line (red), then cut along it.")
    return (
        _("Measure along the red line.")
        if TraceKind.MEASURED in kinds
        else _("What is taken away.")
    )


def _turn_words(traces: Sequence[Trace]) -> str:
    kinds = {t.kind for t in traces}
    if TraceKind.WEDGE in kinds:
        return _("The paper turns; what opens is laid under with new paper.")
    if TraceKind.FOLDED in kinds:
        return _("The wedges are folded out and the lines redrawn.")
    return _("The new piece.") if TraceKind.ADDED in kinds else _("The line is redrawn.")


def _shared(drawings: Sequence[Drawing]) -> Box:
    boxes = [whole_box(d) for d in drawings]
    return (
        min(b[0] for b in boxes),
        min(b[1] for b in boxes),
        max(b[2] for b in boxes),
        max(b[3] for b in boxes),
    )
