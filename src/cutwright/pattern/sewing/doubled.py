"""Seams after edges were given a right and a left of their own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.seam import Seam, Side


@dataclass(frozen=True, slots=True)
class Twins:
    """An edge as it lies on the wearer's right and on the left, where the outline runs the other way."""

    right: Ref
    left: Ref


def doubled(seam: Seam, twins: Mapping[Ref, Twins]) -> tuple[Seam, ...]:
    """A seam after some of its edges became two.

    Where all did it is sewn right and left; an edge that met its own mirror image is sewn right to
    left. Where some did not, it stays one seam that is sewn at two places.

    Parameters
    ----------
    seam : as it was
    twins : for each edge that is there twice now, both
    """
    there = [side.ref in twins for row in seam.rows for side in row]
    if not any(there):
        return (seam,)
    if not all(there):
        return (seam.with_rows([_both(row, twins) for row in seam.rows]),)
    right = [[_right(side, twins) for side in row] for row in seam.rows]
    left = [[_left(side, twins) for side in row] for row in seam.rows]
    if seam.own_mirror:
        return (seam.with_rows([right[0], *left[1:]]),)
    return seam.with_rows(right), seam.with_rows(left)


def _right(side: Side, twins: Mapping[Ref, Twins]) -> Side:
    return replace(side, ref=twins[side.ref].right)


def _left(side: Side, twins: Mapping[Ref, Twins]) -> Side:
    return replace(side, ref=twins[side.ref].left, backwards=not side.backwards)


def _both(row: tuple[Side, ...], twins: Mapping[Ref, Twins]) -> list[Side]:
    """A row in which an edge is followed by its other self; each belongs to one of the two places."""
    out: list[Side] = []
    for side in row:
        if side.ref in twins:
            right, left = _right(side, twins), _left(side, twins)
            out += [replace(right, strand=1), replace(left, strand=2)]
        else:
            out.append(side)
    return out


def doubled_seams(before: Pattern, after: Pattern, twins: Mapping[Ref, Twins]) -> tuple[Seam, ...]:
    """The seams of a pattern after some edges became two, each with its ease as often as it is looked at now.

    Parameters
    ----------
    before : the pattern with its seams, as it was
    after : the paper as it is now
    twins : for each edge that is there twice now, both

    Raises
    ------
    LookupFailed : an edge of a seam is not there
    """
    return tuple(
        _eased(before, old, after, new) for old in before.seams for new in doubled(old, twins)
    )


def _eased(before: Pattern, old: Seam, after: Pattern, new: Seam) -> Seam:
    if not old.ease:
        return new
    was, now = before.seam_lengths(old)[old.base], after.seam_lengths(new)[new.base]
    return new.eased_times(round(now / was)) if was > 0 and now > was else new
