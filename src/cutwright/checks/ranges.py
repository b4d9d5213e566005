"""What a practised eye expects of a close-fitting block, to mention and never to forbid.

What is usual belongs to the family of figures (`Family.usual`): it holds for a body near a middle one and a
block of close ease (common practice, no source); on another body or a styled pattern nothing is said.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from math import degrees

from cutwright.body.body import Body
from cutwright.body.family import Usual
from cutwright.checks.tally import Outcome, Tally
from cutwright.checks.width import worn
from cutwright.geometry.point import Point, angle_of
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Severity
from cutwright.pattern.role import Role
from cutwright.style.replay import Stage

CODE = "range"
WHAT = N_("measurements of the block outside the usual range")


@dataclass(frozen=True, slots=True)
class BlockFigure:
    """A figure of a block: its code in `Usual.figures`, in words, and how back and front give it."""

    code: str
    what: str
    measured: Callable[[Piece, Piece], float | None]


def ranges(stages: Iterable[Stage], body: Body | None) -> Outcome:
    """Look at each back and front as they were drafted."""
    tally = Tally(CODE, WHAT, None, "")
    usual = body.kind.usual if body is not None else None
    if body is not None and usual is not None and is_near(body, usual):
        for stage in stages:
            if stage.step.GROUP == "draft":
                _look(stage, body, usual, tally)
    if tally.count:
        tally.worst = float(len(tally.findings))
    return tally.outcome()


def is_near(body: Body, usual: Usual) -> bool:
    """Whether what is usual speaks of a body like this."""
    return all(abs(body.value(name) - at) <= usual.near for name, at in usual.body.items())


def _look(stage: Stage, body: Body, usual: Usual, tally: Tally) -> None:
    back, front = (_drafted(stage, role) for role in (Role.BACK, Role.FRONT))
    if back is None or front is None or not _close(back, front, body, usual):
        return
    larger = body.value("bust_girth") - usual.body["bust_girth"]
    for figure in FIGURES:
        expected = usual.figures.get(figure.code)
        value = figure.measured(back, front) if expected else None
        if expected is None or value is None:
            continue
        tally.count += 1
        shift = expected.per_girth * larger
        low, high = expected.lo + shift, expected.hi + shift
        if low - 0.005 <= value <= high + 0.005:
            continue
        text = Message(
            "usual",
            N_("{what} is {value:.1f}; from {low:.1f} to {high:.1f} is usual."),
            what=figure.what,
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
            if p.role is role and p not in stage.before.pieces and _of_kind(p, EdgeKind.ARMHOLE)
        ),
        None,
    )


def _close(back: Piece, front: Piece, body: Body, usual: Usual) -> bool:
    across = [worn(piece, "bust") for piece in (back, front)]
    if None in across:
        return False
    ease = 2 * sum(cm for cm in across if cm) - body.value("bust_girth")
    least, most = usual.ease
    return least - 0.1 <= ease <= most + 0.1


def _of_kind(piece: Piece, kind: EdgeKind) -> list[Edge]:
    return [edge for edge in piece.edges if edge.kind is kind]


def _ends(piece: Piece, kind: EdgeKind) -> Iterator[Point]:
    for edge in _of_kind(piece, kind):
        yield edge.start
        yield edge.end


def _armhole(back: Piece, front: Piece) -> float | None:
    return sum(edge.length for p in (back, front) for edge in _of_kind(p, EdgeKind.ARMHOLE)) or None


def _neck_box(piece: Piece) -> tuple[float, float] | None:
    """Width and depth of the half neckline."""
    ends = list(_ends(piece, EdgeKind.NECKLINE))
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
    neck, arm = list(_ends(back, EdgeKind.NECKLINE)), list(_ends(back, EdgeKind.ARMHOLE))
    return max(p.imag for p in arm) - max(p.imag for p in neck) if neck and arm else None


def _slope(back: Piece, front: Piece) -> float | None:
    ends = list(_ends(back, EdgeKind.SHOULDER))
    if not ends:
        return None
    inner, outer = min(ends, key=lambda p: abs(p.real)), max(ends, key=lambda p: abs(p.real))
    return degrees(angle_of(complex(abs(outer.real - inner.real), outer.imag - inner.imag)))


def _dart(piece: Piece, name: str) -> float | None:
    return next((piece.intake(dart) for dart in piece.darts if dart.name == name), None)


FIGURES = (
    BlockFigure("armhole", N_("the armhole all round"), _armhole),
    BlockFigure("armhole-depth", N_("the armhole depth below the nape"), _armhole_depth),
    BlockFigure("back-neck-width", N_("the back neck width"), _neck_width),
    BlockFigure("back-neck-rise", N_("the rise of the back neck"), _neck_rise),
    BlockFigure("front-neck-depth", N_("the depth of the front neck"), _neck_depth),
    BlockFigure("back-shoulder-slope", N_("the slope of the back shoulder in degrees"), _slope),
    BlockFigure(
        "back-shoulder-dart", N_("the back shoulder dart"), lambda b, f: _dart(b, "shoulder dart")
    ),
    BlockFigure(
        "bust-dart", N_("the bust dart at the shoulder"), lambda b, f: _dart(f, "bust dart")
    ),
    BlockFigure("half-back-waist", N_("the half back waist"), lambda b, f: worn(b, "waist")),
    BlockFigure("half-front-waist", N_("the half front waist"), lambda b, f: worn(f, "waist")),
)
