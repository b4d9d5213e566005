"""The pictures of a step: what is cut, turned, measured; and the paper after, what is new shaded.

The frames come from `drawing.show`, the same that the page plays; here they get words of a size
that can be read on paper: names of the pieces and lengths of what was measured or has changed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from cutwright.drawing.piece import edge_ink
from cutwright.drawing.primitives import Drawing, Ink, Item, Layer, Stroke, Words
from cutwright.drawing.show import Frame, frames
from cutwright.drawing.signs import bar
from cutwright.drawing.type import whole_box
from cutwright.geometry.move import Move
from cutwright.geometry.outline import bounds
from cutwright.geometry.path import path_length, polyline
from cutwright.geometry.point import unit
from cutwright.numerals import PAPER, bare
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import TraceKind
from cutwright.style.replay import Stage
from cutwright.wording.names import name_text, title_of
from cutwright.words import _
from cutwright.worksheet.dimension import WordSetting, around
from cutwright.worksheet.looks import CAPITALS
from cutwright.worksheet.sheet import Box, Picture

WIDE, HIGH = 8.2, 6.2
"""Room for one of two pictures side by side on a page, cm."""

ALONE = (9.2, 6.9)
"""Room for a picture that stands alone, its sums beside it, cm."""

_CHANGED = 0.05

_WORKED = {
    TraceKind.CUT,
    TraceKind.PIVOT,
    TraceKind.WEDGE,
    TraceKind.CLOSED,
    TraceKind.FOLDED,
    TraceKind.MOVED,
}
_QUIET, _ADDED = 0.72, 0.85
"""How much lower the pictures of a step are that cuts and turns no paper, or only adds a piece."""


@dataclass(frozen=True, slots=True)
class PictureRoom:
    """How large a picture may be on paper, cm, the height of its capitals; width and height alone."""

    wide: float = WIDE
    high: float = HIGH
    capitals: float = CAPITALS
    alone: tuple[float, float] = ALONE


def step_pictures(stage: Stage, room: PictureRoom | None = None) -> tuple[Picture, ...]:
    """Before and after of a step; one picture where paper was only made or only measured.

    There is none where no paper was touched.
    """
    room = room or PictureRoom()
    shown = {frame.kind: frame for frame in frames(stage)}
    if not shown:
        return ()
    if stage.before.pieces == stage.after.pieces:
        alone = PictureRoom(*room.alone, room.capitals)
        measured = shown.get("cut") or shown["before"]
        return (_picture(measured, stage.before, stage, alone, measured.words),)
    made = _made(stage)
    kinds = {t.kind for t in stage.result.traces}
    changed = sum(piece not in stage.before.pieces for piece in stage.after.pieces)
    if not kinds & _WORKED and (changed < 2 or made):
        room = replace(room, high=room.high * (_ADDED if TraceKind.ADDED in kinds else _QUIET))
    first = shown.get("cut") or shown.get("before")
    if made and first is not None and _only_adds(stage):
        before = _picture(first, stage.before, stage, room, _("Measure along the red line."))
        return (before, pieces_picture(made, room, _("The new piece.")))
    if first is None:
        return (pieces_picture(made, PictureRoom(*room.alone, room.capitals), ""),)
    second = shown.get("turn") or shown["after"]
    said = ("", "") if _sets_zip(stage) else (first.words, second.words)
    if made:
        cut = TraceKind.CUT in kinds
        made_words = (
            _("Cut apart; the new edges are drawn smooth.") if cut else _("The new pieces.")
        )
        said = (said[0], made_words)
    if first.kind == "before":  # nothing is marked on it that a reader must be told
        said = ("", said[1])
    return (
        _picture(first, stage.before, stage, room, said[0]),
        _picture(second, stage.after, stage, room, said[1]),
    )


def _sets_zip(stage: Stage) -> bool:
    """Whether all that a step leaves on the paper is how far a zip reaches, which the drawing says."""

    def ends(pattern: Pattern) -> int:
        return sum(
            mark.kind is MarkKind.ZIP_END for piece in pattern.pieces for mark in piece.marks
        )

    return ends(stage.after) > ends(stage.before)


def _made(stage: Stage) -> list[Piece]:
    old = {piece.name for piece in stage.before.pieces}
    return [piece for piece in stage.after.pieces if piece.name not in old]


def _only_adds(stage: Stage) -> bool:
    """Whether no piece that was there has another shape now."""
    now = {piece.name: piece for piece in stage.after.pieces}
    return all(
        piece.name in now and piece.outline == now[piece.name].outline
        for piece in stage.before.pieces
    )


def _picture(
    frame: Frame, pattern: Pattern, stage: Stage, room: PictureRoom, caption: str
) -> Picture:
    drawing = Drawing(tuple(i for i in frame.drawing.items if not isinstance(i, Words)))
    box = frame.box if not _only_adds(stage) else drawing.box()
    scale = _scale(box, room)
    setting = WordSetting(room.capitals / scale)
    setting.keep_off([i.path for i in drawing.items if isinstance(i, Stroke)])
    zips = _zip_signs(frame, pattern, stage, setting) if pattern is stage.after else []
    _set_openings(setting, drawing)
    _set_lengths(setting, drawing, changed_edges(stage))
    for path, name in _papers(frame):
        setting.inside(path.path, title_of(name))
    whole = Drawing((*drawing.items, *zips, *setting.items))
    return Picture(whole, _seen(whole, box, scale), frame.words, caption, scale)


def _papers(frame: Frame) -> list[tuple[Stroke, str]]:
    """Each piece's paper in a frame with the piece's name, which stands on its edges as a tag."""
    out: list[tuple[Stroke, str]] = []
    paper: Stroke | None = None
    for item in frame.drawing.items:
        if isinstance(item, Stroke) and item.ink is Ink.PAPER:
            paper = item
        elif isinstance(item, Stroke) and item.tag and paper is not None:
            out.append((paper, item.tag.partition(":")[0]))
            paper = None
    return out


def _set_openings(setting: WordSetting, drawing: Drawing) -> None:
    """How wide each wedge stands open, set beyond its free edge."""
    for item in drawing.items:
        if isinstance(item, Stroke) and item.ink is Ink.WEDGE and len(item.path) > 2:
            hinge, a, b = item.path[0].start, item.path[1].start, item.path[1].end
            outward = 1.0 if ((a - hinge).conjugate() * (b - hinge)).imag > 0 else -1.0
            if abs(b - a) > 0.05:
                setting.length((item.path[1],), bare(abs(b - a), parts=PAPER), outward)


def _zip_signs(frame: Frame, pattern: Pattern, stage: Stage, setting: WordSetting) -> list[Item]:
    """The end of each zip that the step left open: a bar across the edge, and how far it lies down."""
    old = {(p.name, m) for p in stage.before.pieces for m in p.marks}
    starts = {
        i.tag: i.path[0].start for i in frame.drawing.items if isinstance(i, Stroke) and i.tag
    }
    out: list[Item] = []
    for piece in pattern.pieces:
        for mark in piece.marks:
            edge = next((e for e in piece.edges if e.answers_to(mark.edge or "")), None)
            if mark.kind is not MarkKind.ZIP_END or (piece.name, mark) in old or edge is None:
                continue
            shift = starts.get(f"{piece.name}: {edge.label}", edge.start) - edge.start
            out.append(bar(mark.at + shift, 1 + 0j, 3 * setting.capitals, Ink.SLASH))
            inward = unit(complex(sum(e.start.real for e in piece.edges), 0) or 1)
            at, said = mark.at + shift, _("zip to here")
            if not setting.at_end(at - inward * setting.capitals, -inward, said, loose=False):
                setting.at_end(at + inward * setting.capitals, inward, said)
    return out


def changed_edges(stage: Stage) -> Mapping[str, float]:
    """Edges ("piece: name") that the step made longer or shorter, with their lengths now."""
    old = {p.name: p for p in stage.before.pieces}
    out: dict[str, float] = {}
    if _made(stage):  # what was cut off is not what a cutter looks at
        return out
    for piece in stage.after.pieces:
        before = old.get(piece.name)
        if before is None:
            continue
        for name in piece.edge_names():
            centre = any(edge.at_centre for edge in piece.edge_parts(name))
            if name in before.edge_names() and not centre:
                now, was = piece.edge_length(name), before.edge_length(name)
                if abs(now - was) > _CHANGED:
                    out[f"{piece.name}: {name}"] = now
    return out


def _set_lengths(setting: WordSetting, drawing: Drawing, changed: Mapping[str, float]) -> None:
    """Lengths along what was measured, else along what changed, each edge once."""
    measured = [
        i for i in drawing.items if isinstance(i, Stroke) and i.ink is Ink.MEASURED and i.path
    ]
    for stroke in measured:
        setting.length(stroke.path, bare(path_length(stroke.path), parts=PAPER), bold=True)
    if measured:
        return
    edges: dict[str, list[Stroke]] = {}
    for item in drawing.items:
        if isinstance(item, Stroke) and item.layer is Layer.STITCH and item.ink is Ink.CUT:
            piece, _colon, label = item.tag.partition(": ")
            edges.setdefault(f"{piece}: {label.partition('.')[0]}", []).append(item)
    for key in changed:
        parts = edges.get(key, [])
        if parts:
            longest = max(parts, key=lambda s: path_length(s.path))
            size = bare(sum(path_length(p.path) for p in parts), parts=PAPER)
            name = name_text(key.partition(": ")[2])
            setting.length(longest.path, f"{name} {size}", bold=True)


def pieces_picture(
    pieces: Sequence[Piece], room: PictureRoom, caption: str, lengths: bool = True
) -> Picture:
    """Pieces side by side, in rows where there are many, with the lengths of all their edges."""
    laid = _shelved(pieces, room)
    items = [item for piece, move in laid for item in paper_items(piece, move)]
    drawing = Drawing(tuple(items))
    scale = _scale(drawing.box(), room)
    setting = WordSetting(room.capitals / scale)
    setting.keep_off([i.path for i in items if isinstance(i, Stroke)])
    for piece, move in laid:
        moved = piece.moved(move)
        setting.inside(moved.outline, title_of(piece.name))
        for edge in moved.outer_edges if lengths else ():
            if edge.length * scale > 0.7:
                setting.length(edge.curves, bare(edge.length, parts=PAPER))
    whole = Drawing(drawing.items + tuple(setting.items))
    alt = ", ".join(name_text(piece.name) for piece in pieces)
    return Picture(whole, _seen(whole, drawing.box(), scale), alt, caption, scale)


def _shelved(pieces: Sequence[Piece], room: PictureRoom) -> list[tuple[Piece, Move]]:
    """Where each piece lies: in the number of rows that shows them largest."""
    options = [_rows(pieces, count) for count in range(1, min(3, len(pieces)) + 1)]
    best = max(options, key=lambda o: min(room.wide / o[1], room.high / o[2]))
    return best[0]


def _rows(pieces: Sequence[Piece], count: int) -> tuple[list[tuple[Piece, Move]], float, float]:
    """Pieces laid in so many rows of about equal width, and the width and height of it all."""
    gap = max(6.0, 0.06 * sum(_width(p) for p in pieces) / count)
    most = sum(_width(p) + gap for p in pieces) / count
    out: list[tuple[Piece, Move]] = []
    left = top = deep = wide = 0.0
    for piece in pieces:
        a, b, c, d = bounds(piece.outline)
        if out and left + (c - a) / 2 > most:
            left, top, deep = 0.0, top + deep + gap, 0.0
        out.append((piece, Move(shift=complex(left - a, top - b))))
        left += c - a + gap
        deep, wide = max(deep, d - b), max(wide, left)
    return out, wide, top + deep


def paper_items(piece: Piece, move: Move) -> list[Item]:
    """A piece as plain paper: its outline, darts and levels."""
    items: list[Item] = [
        Stroke(piece.outline, Ink.PAPER, Layer.CUT, closed=True, fill=True),
        *(Stroke(polyline(level.points), Ink.LEVEL, Layer.HELP) for level in piece.levels),
    ]
    for edge in piece.edges:
        ink = edge_ink(edge, Ink.CUT)
        items.append(Stroke(edge.curves, ink, Layer.STITCH, tag=f"{piece.name}: {edge.label}"))
    for d in piece.diamonds:
        ring = polyline([d.top, d.far, d.bottom, d.near, d.top])
        items.append(Stroke(ring, Ink.DART, Layer.STITCH))
    return [item.moved(move) for item in items]


def _width(piece: Piece) -> float:
    a, _b, c, _d = bounds(piece.outline)
    return c - a


def _scale(box: Box, room: PictureRoom) -> float:
    """How large the drawing can be, its words left room for."""
    wide, high = max(box[2] - box[0], 1.0), max(box[3] - box[1], 1.0)
    edge = 6 * room.capitals
    return min((room.wide - edge) / wide, (room.high - edge) / high, 0.35)


def _seen(drawing: Drawing, box: Box, scale: float) -> Box:
    return around([whole_box(drawing), box], 0.05 / scale)
