"""Curves that were cut and lie end to end again, made one curve again."""

from __future__ import annotations

from collections.abc import Sequence

from cutwright.geometry.curve import Cubic, Curve, Line
from cutwright.geometry.point import Point, cross

_SAME = 1e-9


def rejoined(path: Sequence[Curve]) -> tuple[Curve, ...]:
    """The same way with as few curves: lines that run on straight, and parts of one cubic, are one.

    Nothing moves by more than a millionth of a millimetre; a curve is put together only where
    cutting it again gives the very parts.

    Parameters
    ----------
    path : a chain of curves, cm; may be empty

    Returns
    -------
    the chain with fewer curves, or as many
    """
    out: list[Curve] = []
    for curve in path:
        whole = _one(out[-1], curve) if out else None
        if whole is None:
            out.append(curve)
        else:
            out[-1] = whole
    return tuple(out)


def _one(a: Curve, b: Curve) -> Curve | None:
    if isinstance(a, Line) and isinstance(b, Line):
        return Line(a.start, b.end) if _runs_on(a.end - a.start, b.end - b.start) else None
    if isinstance(a, Cubic) and isinstance(b, Cubic):
        return _whole(a, b)
    return None


def _runs_on(a: Point, b: Point) -> bool:
    size = abs(a) + abs(b)
    return abs(cross(a, b)) < _SAME * size and (a * b.conjugate()).real > 0


def _whole(a: Cubic, b: Cubic) -> Cubic | None:
    """The cubic that falls into these two parts, if there is one."""
    into, out_of = a.end - a.second, b.first - b.start
    if abs(into) < _SAME or abs(out_of) < _SAME or not _runs_on(into, out_of):
        return None
    share = abs(into) / (abs(into) + abs(out_of))
    whole = Cubic(
        a.start,
        a.start + (a.first - a.start) / share,
        b.end + (b.second - b.end) / (1 - share),
        b.end,
    )
    one, other = whole.split(share)
    parts = zip((*one.controls, *other.controls), (*a.controls, *b.controls), strict=True)
    return whole if all(abs(p - q) < _SAME for p, q in parts) else None
