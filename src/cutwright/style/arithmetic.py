"""Sums as a cutter writes them: measured to the millimetre, every line true as printed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cutwright.style.formula import round_to, round_up
from cutwright.words import _

ROUNDINGS = ("up", "nearest", "none")


def taped(value: float) -> float:
    """A length as read from a tape, to the millimetre, cm."""
    return round_to(value, 0.1)


def plain(value: float) -> str:
    """A number with the digits it needs: one at least, two at most ("53.0", "187.75")."""
    text = f"{value:.2f}"
    return text[:-1] if text.endswith("0") else text


@dataclass(frozen=True, slots=True)
class Working:
    """A running sum: its value and the line of arithmetic that led to it."""

    value: float
    line: str

    def times(self, factor: float, what: str = "") -> Working:
        """Multiply, to a hundredth of a centimetre."""
        value = round(self.value * factor, 2)
        shown = f"{factor:g}"
        note = f" ({what})" if what else ""
        return Working(value, f"{self.line}; {plain(self.value)} × {shown} = {plain(value)}{note}")

    def plus(self, amount: float, what: str = "") -> Working:
        """Add an amount."""
        value = round(self.value + amount, 2)
        sign = "−" if amount < 0 else "+"
        note = f"{what} " if what else ""
        return Working(
            value,
            f"{self.line}; {plain(self.value)} {sign} {note}{plain(abs(amount))} = {plain(value)}",
        )

    def shared(self, parts: int, what: str = "") -> Working:
        """Divide into equal parts, to a hundredth of a centimetre."""
        value = round(self.value / parts, 2)
        note = f" {what}" if what else ""
        return Working(value, f"{self.line}; {plain(self.value)} ÷ {parts}{note} = {plain(value)}")

    def rounded(self, way: str, step: float) -> Working:
        """Take to a convenient number: "up", "nearest" or "none", in steps of so many cm."""
        if way == "none" or step <= 0:
            return self
        value = round(round_up(self.value, step) if way == "up" else round_to(self.value, step), 6)
        if abs(value - self.value) < 1e-9:
            return self
        return Working(value, f"{self.line} → {plain(value)}")


def measured(parts: Sequence[tuple[str, float]]) -> Working:
    """Measured lengths added up, each to the millimetre: "front 27.4 + back 26.1 = 53.5"."""
    values = [taped(value) for _name, value in parts]
    total = round(sum(values), 1)
    line = " + ".join(
        f"{name} {plain(value)}" for (name, _value), value in zip(parts, values, strict=True)
    )
    if len(parts) > 1:
        line = f"{line} = {plain(total)}"
    return Working(total, line)


def all_round(parts: Sequence[tuple[str, float, int]]) -> Working:
    """Measured edges that occur several times in the garment, added up all round.

    `parts` are (name, length, times). Where every edge occurs twice the half is added first.
    """
    times = {t for _n, _l, t in parts}
    if len(times) == 1:
        half = measured([(name, size) for name, size, _t in parts])
        many = times.pop()
        return half if many == 1 else half.times(many, _("all round"))
    values = [(name, taped(size), t) for name, size, t in parts]
    total = round(sum(value * t for _n, value, t in values), 1)
    line = " + ".join(
        f"{name} {plain(value)}" if t == 1 else f"{t} × {name} {plain(value)}"
        for name, value, t in values
    )
    return Working(total, f"{line} = {plain(total)}")
