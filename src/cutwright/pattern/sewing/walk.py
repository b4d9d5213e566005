"""Watching that what walked before a step still walks after it."""

from __future__ import annotations

from cutwright.errors import StepError
from cutwright.messages import N_, Message
from cutwright.pattern.change import Change, follow
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.seam import WALKS, Seam


def parting(pattern: Pattern, seam: Seam) -> float:
    """The largest of the `partings` of a seam.

    Parameters
    ----------
    pattern : the pattern the seam is in
    seam : one of its seams

    Returns
    -------
    cm; positive where that layer is too long

    Raises
    ------
    LookupFailed : an edge of the seam is not there
    """
    return max(partings(pattern, seam), key=abs)


def partings(pattern: Pattern, seam: Seam) -> tuple[float, ...]:
    """By how much each layer differs from what the seam asks for; the seam is as long as its base.

    Parameters
    ----------
    pattern : the pattern the seam is in
    seam : one of its seams

    Returns
    -------
    cm, one for each layer; positive where it is too long

    Raises
    ------
    LookupFailed : an edge of the seam is not there
    """
    lengths = pattern.seam_lengths(seam)
    base = lengths[seam.base]
    layers = zip(lengths, seam.layers, strict=True)
    return tuple(length - layer.wanted(base) for length, layer in layers)


def _untouched(before: Pattern, after: Pattern, seam: Seam) -> bool:
    """Whether all paper that takes part in a seam is the very same as before."""
    return all(after.shares(before, name) for name in {ref.piece for ref in seam.refs})


def refuse_if_parted(before: Pattern, after: Pattern, change: Change) -> None:
    """Raise when a seam walked before and would not walk any more.

    Seams are matched by the edges they join, as they read after the change.

    Parameters
    ----------
    before, after : the pattern before and after the step
    change : what became of its edges

    Raises
    ------
    StepError : the layers of a seam part by more than 0.05 cm, and did not so before
    """
    was = {s.refs: s for s in before.seams}
    for seam in follow(before, after, change).seams:
        old = was.get(seam.refs)
        if old is None or _untouched(before, after, seam):
            continue
        gap, earlier = parting(after, seam), parting(before, old)
        if abs(gap - earlier) > WALKS and abs(gap) > WALKS:
            parts = partings(after, seam)
            worst = max(range(len(parts)), key=lambda layer: abs(parts[layer]))
            lengths = after.seam_lengths(seam)
            a, b = (lengths[layer] for layer in sorted({seam.base, worst}))
            raise StepError(
                Message(
                    "seam-would-not-meet-any",
                    N_(
                        "The seam {seam} would not meet any more: {a:.1f} cm against {b:.1f} cm. Change both sides "
                        "together, or do this step before they are sewn to each other."
                    ),
                    seam=seam.name,
                    a=a,
                    b=b,
                )
            )
