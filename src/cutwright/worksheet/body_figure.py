"""A figure from the front and from behind, with a numbered line where each measure is taken.

Drawn here by hand, in centimetres of a body 168 tall, y down from the crown of the head.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from cutwright.drawing.primitives import Dot, Drawing, Ink, Item, Layer, Stroke, Words
from cutwright.drawing.signs import arrow_head
from cutwright.geometry.curve import Cubic
from cutwright.geometry.path import Path, polyline
from cutwright.geometry.point import Point, unit

Spots = tuple[tuple[float, float], ...]

_ARM: Spots = (
    (7, 29), (14, 31), (19.5, 34.5), (23, 44), (25, 57), (28, 71), (31, 86), (34, 94), (33, 101),
    (30, 101), (28, 93), (26.5, 87), (22.5, 72), (20, 58), (17.6, 47),
)  # fmt: skip
_TRUNK: Spots = (
    (17.6, 47), (16.8, 52), (14.6, 58), (12.4, 66), (15.2, 76), (18, 87), (17.8, 98), (14.6, 114),
    (12, 126), (12.4, 138), (9, 152), (7.4, 161), (9.5, 167), (4.5, 168), (3.8, 160), (4.2, 150),
    (4.4, 138), (3.8, 126), (2.4, 100), (0.6, 92),
)  # fmt: skip
_HEAD: Spots = ((0, 0), (5.4, 2), (7.4, 8.5), (6.6, 15), (3.6, 21), (0, 23.2))
_NECK: Spots = ((4.6, 20), (4.8, 25), (7, 29))

_THIGH = 101.0

BEHIND = 84.0
"""How far to the right the figure from behind stands."""

_FRONT: Mapping[str, tuple[str, Spots]] = {
    "stature": ("long", ((-44, 0), (-44, 168))),
    "head_girth": ("round", ((-7.4, 7), (7.4, 7))),
    "neck_girth": ("round", ((-4.8, 24), (4.8, 24))),
    "neck_base_girth": ("round", ((-7, 29), (7, 29))),
    "chest_width": ("across", ((-16, 42), (16, 42))),
    "bust_girth": ("round", ((-16.9, 51), (16.9, 51))),
    "bust_point_width": ("across", ((-8, 48.5), (8, 48.5))),
    "underbust_girth": ("round", ((-14.8, 58), (14.8, 58))),
    "waist_girth": ("round", ((-12.4, 66), (12.4, 66))),
    "hip_girth": ("round", ((-18, 87), (18, 87))),
    "upper_arm_girth": ("across", ((18.2, 50), (24.2, 49))),
    "forearm_girth": ("across", ((22.6, 73), (28, 71.5))),
    "wrist_girth": ("across", ((26.4, 87), (31, 86))),
    "hand_girth": ("across", ((28.4, 95), (34, 94))),
    "thigh_girth": ("across", ((-17.6, 98), (-1.6, 98))),
    "knee_girth": ("across", ((-12, 126), (-3.8, 126))),
    "calf_girth": ("across", ((-12.4, 138), (-4.4, 138))),
    "ankle_girth": ("across", ((-7.6, 161), (-3.8, 161))),
    "front_waist_length": ("long", ((-7, 29), (-8, 50), (-8, 66))),
    "bust_depth": ("long", ((7, 29), (8, 48.5))),
    "waist_to_hip": ("long", ((10.5, 66), (10.5, 87))),
    "waist_to_knee": ("long", ((6.5, 66), (6.5, 126))),
    "waist_to_floor": ("long", ((-34, 66), (-34, 168))),
    "knee_height": ("long", ((18, 126), (18, 168))),
    "body_rise": ("long", ((2.4, 66), (2.4, 91))),
    "crotch_length": ("long", ((-2.4, 66), (-1, 92))),
    "inside_leg": ("long", ((0, 93), (0, 168))),
}
_BACK: Mapping[str, tuple[str, Spots]] = {
    "shoulder_breadth": ("across", ((-19.5, 34.5), (19.5, 34.5))),
    "shoulder_length": ("long", ((7, 29), (19.5, 34))),
    "shoulder_slope": ("across", ((-7, 29), (-19.5, 34))),
    "back_width": ("across", ((-16.4, 41), (16.4, 41))),
    "back_waist_length": ("long", ((0, 28), (0, 66))),
    "armhole_depth": ("long", ((-4, 28), (-4, 47))),
    "arm_length": ("long", ((19.5, 34.5), (25, 57), (31, 86))),
    "upper_arm_length": ("long", ((-19.5, 34.5), (-25, 57))),
    "back_neck_to_wrist": ("long", ((0, 28), (-19.5, 33), (-26, 57), (-32, 86))),
}


def body_figure(wanted: Sequence[tuple[str, str]], capitals: float) -> Drawing:
    """The two figures with the lines of the wanted measures.

    Parameters
    ----------
    wanted : (id of the measure, its number as printed)
    capitals : height of the numbers, cm of the body
    """
    legs = any(_low(name) for name, _text in wanted)
    items: list[Item] = [*_outline(0.0, legs), *_outline(BEHIND, legs)]
    taken: list[Point] = []
    for name, text in wanted:
        if name in _FRONT:
            items += _measure(*_FRONT[name], 0.0, text, capitals, taken)
        elif name in _BACK:
            items += _measure(*_BACK[name], BEHIND, text, capitals, taken)
    return Drawing(tuple(items))


def _low(name: str) -> bool:
    """Whether a measure reaches below the thigh, so that the legs are drawn."""
    _kind, spots = _FRONT.get(name) or _BACK.get(name) or ("", ())
    return any(y > _THIGH for _x, y in spots)


def _outline(shift: float, legs: bool) -> list[Item]:
    out: list[Item] = []
    trunks = (_TRUNK,) if legs else (tuple(s for s in _TRUNK[:7]), _TRUNK[-2:])
    for side in (1, -1):
        for spots in (_HEAD, _NECK, _ARM, *trunks):
            points = [complex(x * side + shift, y) for x, y in spots]
            out.append(Stroke(_smooth(points), Ink.FRAME, Layer.HELP))
    return out


def _smooth(points: Sequence[Point]) -> Path:
    """A soft line through places (handles a sixth of the way between the neighbours)."""
    size = len(points)
    curves = []
    for i in range(size - 1):
        before, a, b = points[max(i - 1, 0)], points[i], points[i + 1]
        after = points[min(i + 2, size - 1)]
        curves.append(Cubic(a, a + (b - before) / 6, b - (after - a) / 6, b))
    return tuple(curves)


def _measure(
    kind: str, spots: Spots, shift: float, text: str, capitals: float, taken: list[Point]
) -> list[Item]:
    points = [complex(x + shift, y) for x, y in spots]
    items: list[Item] = []
    if kind == "round":
        a, b = points
        sag = 1j * max(1.2, abs(b - a) * 0.07)
        path: Path = (Cubic(a, a + (b - a) * 0.25 + sag, b - (b - a) * 0.25 + sag, b),)
    else:
        path = polyline(points)
    items.append(Stroke(path, Ink.SLASH if kind == "round" else Ink.ADDED, Layer.HELP))
    if kind == "long":
        items.append(arrow_head(points[0], points[0] - points[1], Ink.ADDED, 2.2))
        items.append(arrow_head(points[-1], points[-1] - points[-2], Ink.ADDED, 2.2))
    at = _free(kind, points, capitals, taken)
    taken.append(at)
    items += [
        Dot(at, capitals * 1.05, Ink.CLOTH, Layer.HELP),
        Words(at + 0.5j * capitals, text, capitals, Layer.HELP, anchor="middle", bold=True),
    ]
    return items


def _free(kind: str, points: Sequence[Point], capitals: float, taken: Sequence[Point]) -> Point:
    """A place for the number near its line, clear of the numbers that stand already."""
    a, b = points[0], points[-1]
    tries: list[Point] = []
    if kind == "long":
        for share in (0.5, 0.38, 0.62, 0.26, 0.74, 0.14, 0.86):
            tries.append(_along(points, share))
    for step in range(6):
        away = capitals * (1.4 + 2.3 * step)
        tries += [b + unit(b - points[-2]) * away, a + unit(a - points[1]) * away]
    clear = 2.3 * capitals
    return next((p for p in tries if all(abs(p - t) > clear for t in taken)), tries[-1])


def _along(points: Sequence[Point], share: float) -> Point:
    sizes = [abs(b - a) for a, b in pairwise(points)]
    left = sum(sizes) * share
    for size, a, b in zip(sizes, points, points[1:], strict=False):
        if left <= size:
            return a + (b - a) * (left / size if size else 0)
        left -= size
    return points[-1]
