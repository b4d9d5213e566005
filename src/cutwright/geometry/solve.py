"""Finding the number that makes two things agree."""

from __future__ import annotations

from collections.abc import Callable

from cutwright.errors import GeometryError
from cutwright.messages import N_, Message


def root(
    f: Callable[[float], float], low: float, high: float, tolerance: float = 1e-12, what: str = ""
) -> float:
    """Where `f` is zero inside a bracket with a sign change; Brent's method, see `root_within`.

    Parameters
    ----------
    f : a function without jumps inside the bracket
    low, high : ends of the bracket, in the unit of the unknown
    tolerance : how narrow the bracket becomes, in the same unit
    what : the wish, in words for the error

    Returns
    -------
    the value at which `f` is nought

    Raises
    ------
    GeometryError : `f` has the same sign at both ends
    """
    found = root_within(f, low, high, tolerance)
    if found is None:
        raise GeometryError(
            Message(
                "no-value-between-fits",
                N_("No value between {low:.2f} and {high:.2f} fits: {what}."),
                low=low,
                high=high,
                what=what or Message("lines-not-meet", N_("the lines do not meet")),
            )
        )
    return found


def root_within(
    f: Callable[[float], float], low: float, high: float, tolerance: float = 1e-12
) -> float | None:
    """Where `f` is zero inside a bracket, or None without a sign change (Brent's method).

    Source: R. P. Brent, Algorithms for Minimization without Derivatives, 1973, ch. 4 (from memory).

    Parameters
    ----------
    f, low, high, tolerance : as of `root`

    Returns
    -------
    the value, in the unit of `low` and `high`; None where `f` has the same sign at both ends
    """
    a, b, fa, fb = low, high, f(low), f(high)
    if fa == 0:
        return a
    if fb == 0:
        return b
    if (fa > 0) == (fb > 0):
        return None
    if abs(fa) < abs(fb):
        a, b, fa, fb = b, a, fb, fa
    c, fc, step, before = a, fa, b - a, b - a
    for _i in range(100):
        if fb == 0 or abs(b - a) < tolerance:
            break
        if fa not in (fb, fc) and fb != fc:
            s = (
                a * fb * fc / ((fa - fb) * (fa - fc))
                + b * fa * fc / ((fb - fa) * (fb - fc))
                + c * fa * fb / ((fc - fa) * (fc - fb))
            )
        else:
            s = b - fb * (b - a) / (fb - fa)
        low_s, high_s = sorted(((3 * a + b) / 4, b))
        if not low_s < s < high_s or abs(s - b) >= abs(before) / 2:
            s = (a + b) / 2
        before, step = step, s - b
        c, fc = b, fb
        fs = f(s)
        if (fa > 0) != (fs > 0):
            b, fb = s, fs
        else:
            a, fa = s, fs
        if abs(fa) < abs(fb):
            a, b, fa, fb = b, a, fb, fa
    return b
