"""What a check brings back: how many places it looked at, the worst of them, and what is wrong."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from cutwright.geometry.point import Point
from cutwright.messages import Message
from cutwright.pattern.result import Finding, Severity


@dataclass(frozen=True, slots=True)
class Checked:
    """One line of the proof: what was looked at, how often, and the largest deviation.

    Parameters
    ----------
    code : stable word of the check
    what : what was looked at, in a cutter's words
    count : at how many places
    worst : the largest deviation, or the smallest value where `least` is set; None when count is 0
    limit : what is allowed
    unit : "cm", "degrees", "cm2", "share" or ""
    where : the place of the worst
    least : whether the limit is a lower one
    """

    code: str
    what: str
    count: int
    worst: float | None
    limit: float | None
    unit: str
    where: str = ""
    least: bool = False


@dataclass(frozen=True, slots=True)
class Outcome:
    """The findings of one check and its lines of the proof."""

    findings: tuple[Finding, ...] = ()
    checked: tuple[Checked, ...] = ()


@dataclass(slots=True)
class Tally:
    """Counts places while a check goes round the pattern and keeps the worst."""

    code: str
    what: str
    limit: float | None
    unit: str
    least: bool = False
    count: int = 0
    worst: float | None = None
    where: str = ""
    findings: list[Finding] = field(default_factory=list)

    def see(self, value: float, where: str) -> None:
        """Take one measured place into account."""
        self.count += 1
        if self.worst is None or (value < self.worst if self.least else value > self.worst):
            self.worst, self.where = value, where

    def take(self, other: Tally) -> None:
        """Take over what the same check found elsewhere."""
        self.add(other)
        self.findings += other.findings

    def add(self, row: Checked | Tally) -> None:
        """Take a line of the same check into account."""
        if row.worst is not None:
            self.see(row.worst, row.where)
            self.count -= 1
        self.count += row.count

    def find(
        self,
        level: Severity,
        where: str,
        message: Message,
        value: float | None = None,
        at: Point | None = None,
        code: str = "",
    ) -> None:
        """Write down something doubtful or wrong."""
        self.findings.append(Finding(code or self.code, level, where, message, value, at))

    def row(self) -> Checked:
        """The line for the proof."""
        return Checked(
            self.code, self.what, self.count, self.worst, self.limit, self.unit,
            self.where, self.least,
        )  # fmt: skip

    def outcome(self) -> Outcome:
        """Everything this check brings back."""
        return Outcome(tuple(self.findings), (self.row(),))


def gather(whole: Sequence[Tally], parts: Iterable[Sequence[Tally]]) -> None:
    """Bring together what a check found in piece after piece, or seam after seam."""
    for part in parts:
        for tally, more in zip(whole, part, strict=True):
            tally.take(more)


def together(outcomes: Iterable[Outcome]) -> Outcome:
    """Several outcomes as one, in order."""
    every = tuple(outcomes)
    return Outcome(
        tuple(f for o in every for f in o.findings), tuple(c for o in every for c in o.checked)
    )
