"""What a step gives back: the paper, the account of names, the arithmetic and what to show."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from cutwright.geometry.path import Path
from cutwright.geometry.point import Point
from cutwright.messages import Message
from cutwright.pattern.change import Change
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.point_rule import PointRule
from cutwright.pattern.sum import Figure


class Severity(StrEnum):
    """How much a finding matters."""

    FAULT = "fault"  # the pattern cannot be sewn or worn like this
    WARNING = "warning"  # doubtful
    NOTE = "note"  # worth knowing


@dataclass(frozen=True, slots=True)
class Finding:
    """Something doubtful or wrong. `code` is the check's stable word."""

    code: str
    level: Severity
    where: str
    message: Message
    value: float | None = None
    at: Point | None = None


class TraceKind(StrEnum):
    """What a trace shows, and whether it lies in the paper before the step or after it."""

    CUT = "cut"  # a line that was cut, before
    PIVOT = "pivot"  # points[0], before
    WEDGE = "wedge"  # an opened gap as a closed ring, after
    CLOSED = "closed"  # a dart folded out, before
    FOLDED = "folded"  # a wedge of the paper itself folded out, before
    MEASURED = "measured"  # an edge that was measured, before
    ADDED = "added"  # paper that is new, after
    MOVED = "moved"  # an arrow from points[0] to points[1], before
    TRUED = "trued"  # an edge redrawn, after


@dataclass(frozen=True, slots=True)
class Trace:
    """What a step did to the paper, for pictures and for the proof."""

    kind: TraceKind
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
