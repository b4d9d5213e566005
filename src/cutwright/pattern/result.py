"""What a step gives back: the paper, the account of names, the arithmetic and what to show."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.geometry.path import Path
from cutwright.geometry.point import Point
from cutwright.messages import Message
from cutwright.pattern.change import Change
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.point_rule import PointRule
from cutwright.pattern.sum import Figure


@dataclass(frozen=True, slots=True)
class Finding:
    """Something doubtful or wrong. `code` is the check's stable word; level is "note", "warning" or "fault"."""

    code: str
    level: str
    where: str
    message: Message
    value: float | None = None
    at: Point | None = None


@dataclass(frozen=True, slots=True)
class Trace:
    """What a step did to the paper, for pictures.

    kind: "cut" (a line that was cut, in the paper before), "pivot" (points[0], before), "wedge"
    (an opened gap as a closed ring, in the paper after), "closed" (a dart folded out, before),
    "folded" (a wedge of the paper itself folded out, before),
    "measured" (an edge that was measured, before), "added" (paper that is new, after),
    "moved" (an arrow from points[0] to points[1], before), "trued" (an edge redrawn, after).
    """

    kind: str
    piece: str
    points: tuple[Point, ...] = ()
    path: Path = ()
    text: str = ""


@dataclass(frozen=True, slots=True)
class Result:
    """The outcome of one step.

    `points` tell where a draft sets its points, and `workings` are figures that only those go on from.
    """

    pattern: Pattern
    change: Change = Change()
    figures: tuple[Figure, ...] = ()
    findings: tuple[Finding, ...] = ()
    traces: tuple[Trace, ...] = ()
    points: tuple[PointRule, ...] = ()
    workings: tuple[Figure, ...] = ()
