"""Marks that follow from the darts and edges of a piece: drill holes, mouths, gathers, zip end."""

from __future__ import annotations

from cutwright.finish.options import FinishOptions
from cutwright.geometry.point import Point, unit
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Mark, Piece


def dart_marks(piece: Piece, options: FinishOptions) -> list[Mark]:
    """Notches at the mouth of each dart, drill holes before its point and inside a diamond.

    Parameters
    ----------
    piece : the piece
    options : holds how far from the point, and inside the legs, is drilled

    Returns
    -------
    new marks, those of the piece not among them
    """
    out: list[Mark] = []
    for dart in piece.darts:
        a, b = piece.mouth(dart)
        before, after = piece.beside_mouth(dart.name)
        out.append(Mark(MarkKind.DART_MOUTH, a, dart.name, to=dart.tip, edge=before.label))
        out.append(Mark(MarkKind.DART_MOUTH, b, dart.name, to=dart.tip, edge=after.label))
        out.append(
            Mark(MarkKind.DRILL, _short_of(dart.tip, (a + b) / 2, options.drill_short), dart.name)
        )
    for d in piece.diamonds:
        middle = (d.near + d.far) / 2
        short, inside = options.drill_short, options.drill_inside
        spots = [_short_of(d.top, middle, short), _short_of(d.bottom, middle, short)]
        spots += [_short_of(d.near, middle, inside), _short_of(d.far, middle, inside)]
        out += [Mark(MarkKind.DRILL, spot, d.name) for spot in spots]
    return out


def _short_of(point: Point, middle: Point, short: float) -> Point:
    """A place a little before a point, but never past half way to the middle."""
    way = middle - point
    return point + unit(way) * min(short, abs(way) / 2)


def gather_marks(pattern: Pattern, piece: Piece) -> list[Mark]:
    """From where to where an edge is drawn up, for edges gathered over their whole length.

    Parameters
    ----------
    pattern : the pattern the piece is in
    piece : one of its pieces

    Returns
    -------
    new marks; none for an edge that has such marks of its own
    """
    given = {m.edge for m in piece.marks if m.kind is MarkKind.GATHERS}
    sewn: dict[str, bool] = {}
    for seam in pattern.seams:
        for layer in (x for k, x in enumerate(seam.layers) if k != seam.base):
            for ref in layer.refs:
                if ref.piece == piece.name:
                    sewn[ref.edge] = sewn.get(ref.edge, False) or layer.gathered
    return [
        Mark(MarkKind.GATHERS, edge.start, to=edge.end, edge=edge.label)
        for edge in piece.outer_edges
        if sewn.get(edge.name, edge.kind is EdgeKind.GATHERED)
        and edge.name not in given
        and edge.label not in given
    ]
