"""What a practised eye expects of a close-fitting block, to mention and never to forbid.

The ranges hold for a body near bust 88, waist 70, hip 96, stature 168, with 6 to 8 cm bust ease
(common practice, no source); on another body or a styled pattern nothing is said.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from math import degrees

from cutwright.body.body import Body
from cutwright.checks.tally import Outcome, Tally
from cutwright.checks.width import worn
from cutwright.geometry.point import Point, angle_of
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, Kind
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Severity
from cutwright.pattern.role import Role
from cutwright.style.replay import Stage

CODE = "range"
WHAT = N_("measurements of the block outside the usual range")
_BODY = {"bust_girth": 88.0, "waist_girth": 70.0, "hip_girth": 96.0, "stature": 168.0}
_NEAR = 6.0
_EASE = (6.0, 8.0)


@dataclass(frozen=True, slots=True)
class Range:
    """A figure of a block with what is expected of it; `per_bust` moves it with the bust."""

    what: str
    low: float
    high: float
    measured: Callable[[Piece, Piece], float | None]
    per_bust: float = 0.0


def ranges(stages: Iterable[Stage], body: Body | None) -> Outcome:
    """Look at each back and front as they were drafted."""
    tally = Tally(CODE, WHAT, None, "")
    if body is not None and is_near(body):
        for stage in stages:
            if stage.step.GROUP == "draft":
                _look(stage, body, tally)
    if tally.count:
        tally.worst = float(len(tally.findings))
    return tally.outcome()


def is_near(body: Body) -> bool:
    """Whether the ranges speak of a body like this."""
    return all(abs(body.value(name) - at) <= _NEAR for name, at in _BODY.items())


def _look(stage: Stage, body: Body, tally: Tally) -> None:
    back, front = (_drafted(stage, role) for role in (Role.BACK, Role.FRONT))
    if back is None or front is None or not _close(back, front, body):
        return
    bust = body.value("bust_girth")
    for expected in RANGES:
        value = expected.measured(back, front)
        if value is None:
            continue
        tally.count += 1
        shift = expected.per_bust * (bust - _BODY["bust_girth"])
        low, high = expected.low + shift, expected.high + shift
        if low - 0.005 <= value <= high + 0.005:
            continue
        text = Message(
            "usual",
            N_("{what} is {value:.1f}; from {low:.1f} to {high:.1f} is usual."),
            what=expected.what,
            value=value,
            low=low,
            high=high,
        )
        tally.find(Severity.NOTE, N_("back and front"), text, value)


def _drafted(stage: Stage, role: Role) -> Piece | None:
    """The upper back or front that a draft has put on the paper."""
    return next(
        (
            p
            for p in stage.after.pieces
            if p.role is role and p not in stage.before.pieces and _of_kind(p, Kind.ARMHOLE)
        ),
        None,
    )


def _close(back: Piece, front: Piece, body: Body) -> bool:
    across = [worn(piece, "bust") for piece in (back, front)]
    if None in across:
        return False
    ease = 2 * sum(cm for cm in across if cm) - body.value("bust_girth")
    return _EASE[0] - 0.1 <= ease <= _EASE[1] + 0.1


def _of_kind(piece: Piece, kind: Kind) -> list[Edge]:
    return [edge for edge in piece.edges if edge.kind is kind]


def _ends(piece: Piece, kind: Kind) -> Iterator[Point]:
    for edge in _of_kind(piece, kind):
        yield edge.start
        yield edge.end


def _armhole(back: Piece, front: Piece) -> float | None:
    return sum(edge.length for p in (back, front) for edge in _of_kind(p, Kind.ARMHOLE)) or None


def _neck_box(piece: Piece) -> tuple[float, float] | None:
    """Width and depth of the half neckline."""
    ends = list(_ends(piece, Kind.NECKLINE))
    if not ends:
        return None
    xs, ys = [p.real for p in ends], [p.imag for p in ends]
    return max(xs) - min(xs), max(ys) - min(ys)


def _neck_width(back: Piece, front: Piece) -> float | None:
    box = _neck_box(back)
    return box[0] if box else None


def _neck_rise(back: Piece, front: Piece) -> float | None:
    box = _neck_box(back)
    return box[1] if box else None


def _neck_depth(back: Piece, front: Piece) -> float | None:
    box = _neck_box(front)
    return box[1] if box else None


def _armhole_depth(back: Piece, front: Piece) -> float | None:
    neck, arm = list(_ends(back, Kind.NECKLINE)), list(_ends(back, Kind.ARMHOLE))
    return max(p.imag for p in arm) - max(p.imag for p in neck) if neck and arm else None


def _slope(back: Piece, front: Piece) -> float | None:
    ends = list(_ends(back, Kind.SHOULDER))
    if not ends:
        return None
    inner, outer = min(ends, key=lambda p: abs(p.real)), max(ends, key=lambda p: abs(p.real))
    return degrees(angle_of(complex(abs(outer.real - inner.real), outer.imag - inner.imag)))


def _dart(piece: Piece, name: str) -> float | None:
    return next((piece.intake(dart) for dart in piece.darts if dart.name == name), None)


RANGES = (
    Range(N_("the armhole all round"), 41, 45, _armhole, per_bust=0.33),
    Range(N_("the armhole depth below the nape"), 20.5, 22.5, _armhole_depth),
    Range(N_("the back neck width"), 6.8, 7.8, _neck_width),
    Range(N_("the rise of the back neck"), 1.5, 2.5, _neck_rise),
    Range(N_("the depth of the front neck"), 7.0, 8.5, _neck_depth),
    Range(N_("the slope of the back shoulder in degrees"), 17, 21, _slope),
    Range(N_("the back shoulder dart"), 0.8, 1.5, lambda b, f: _dart(b, "shoulder dart")),
    Range(N_("the bust dart at the shoulder"), 6, 9, lambda b, f: _dart(f, "bust dart")),
    Range(N_("the half back waist"), 17.5, 19.5, lambda b, f: worn(b, "waist")),
    Range(N_("the half front waist"), 17.5, 19.5, lambda b, f: worn(f, "waist")),
)
