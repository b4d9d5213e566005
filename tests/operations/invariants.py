"""What must be true of every step, written as functions that raise AssertionError."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

from cutwright.geometry.outline import area, polygon
from cutwright.geometry.path import Path, polyline
from cutwright.pattern.change import Change
from cutwright.pattern.edge import EdgeKind, Ref, parse_label
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Result
from cutwright.pattern.sewing.walk import parting

SAME = 1e-6
TRUED = 0.2  # cm2 for each cm of trued edge: what truing may give or take


def sound(pattern: Pattern) -> None:
    """Every outline is closed, simple and clockwise, every label once; darts have their legs."""
    for piece in pattern.pieces:
        ends = zip(piece.edges, (*piece.edges[1:], piece.edges[0]), strict=True)
        assert all(abs(a.curves[-1].end - b.curves[0].start) < SAME for a, b in ends), piece.name
        for edge in piece.edges:
            curves = edge.curves
            assert all(abs(a.end - b.start) < SAME for a, b in pairwise(curves))
        assert piece.area > 0, piece.name
        assert polygon(piece.outline, 0.005).is_valid, piece.name
        labels = [e.label for e in piece.edges]
        assert len(set(labels)) == len(labels), (piece.name, labels)
        _parts_are_told_apart(piece)
        for dart in piece.darts:
            one, other = piece.legs(dart)
            assert abs(one.end - dart.tip) < 1e-4, (piece.name, dart.name)
            assert abs(other.start - dart.tip) < 1e-4, (piece.name, dart.name)


def _parts_are_told_apart(piece: Piece) -> None:
    count = Counter(e.name for e in piece.edges)
    for edge in piece.edges:
        if count[edge.name] > 1:
            assert edge.part, (piece.name, edge.label)


def seams_resolve(pattern: Pattern) -> None:
    """Every edge that a seam names is there."""
    for seam in pattern.seams:
        for ref in seam.refs:
            assert pattern.edge_parts(ref), ref


def seams_walk(before: Pattern, after: Pattern) -> None:
    """If everything walked before, everything walks after."""
    assert all(abs(parting(before, s)) < 0.05 for s in before.seams)
    for seam in after.seams:
        assert abs(parting(after, seam)) < 0.05, (seam.name, after.seam_lengths(seam))


def names_accounted(before: Pattern, after: Pattern, change: Change) -> None:
    """Each edge before is kept or its fate is told; each edge after was there, made or became."""
    old, new = before.refs, after.refs
    for ref in old:
        assert ref in new or ref in change.became, f"nobody says what became of {ref}"
    reached = {ref for now in change.became.values() for ref in now}
    for ref in new:
        assert ref in old or ref in change.made or ref in reached, f"{ref} comes from nowhere"
    for ref in change.made:
        assert ref in new, f"{ref} was made but is not there"
    for now in change.became.values():
        for ref in now:
            assert any(r.piece == ref.piece and _within(r.edge, ref.edge) for r in new), ref


def _within(label: str, wanted: str) -> bool:
    name, part = parse_label(label)
    base, parts = parse_label(wanted)
    return name == base and part[: len(parts)] == parts


def lengths_kept(before: Pattern, after: Pattern, change: Change, changes: tuple[str, ...]) -> None:
    """Every edge not named in `changes` is as long as it was, all its heirs together."""
    heirs: dict[str, set[Ref]] = {}
    for piece in before.pieces:
        for edge in piece.edges:
            name = edge.label if edge.kind is EdgeKind.LEG else edge.name
            ref = Ref(piece.name, edge.label)
            now = change.became.get(ref, (ref,))
            heirs.setdefault(f"{piece.name}: {name}", set()).update(now)
    for name, refs in heirs.items():
        piece_name, _colon, label = name.partition(": ")
        if name in changes or f"{piece_name}: {parse_label(label)[0]}" in changes:
            continue
        was = before.length(Ref(piece_name, label))
        living = [r for r in refs if r in after.refs]
        assert living or not refs, f"{name} is gone without a word"
        if not refs:
            continue
        assert abs(sum(after.length(r) for r in living) - was) < SAME, name


def area_kept(before: Pattern, result: Result, new: tuple[str, ...]) -> None:
    """The paper that was there has the area it had, cut apart or not."""
    assert abs(_area(before) - _area(result.pattern, new)) < SAME


def area_traced(before: Pattern, result: Result, new: tuple[str, ...]) -> None:
    """The area changes by what the traces show as opened and closed, truing aside."""
    opened = sum(abs(area(_ring(t.path, t.points))) for t in result.traces if t.kind == "wedge")
    closed = sum(
        abs(area(_ring(t.path, t.points))) for t in result.traces if t.kind in ("closed", "folded")
    )
    trued = sum(
        e.length for p in result.pattern.pieces for e in p.edges if e.kind is not EdgeKind.LEG
    )
    gained = _area(result.pattern, new) - _area(before)
    assert abs(gained - (opened - closed)) < TRUED * trued, (gained, opened, closed)


def _ring(path: Path, points: tuple[complex, ...]) -> Path:
    return path or polyline((*points, points[0]))


def _area(pattern: Pattern, left_out: tuple[str, ...] = ()) -> float:
    return sum(p.area for p in pattern.pieces if p.name not in left_out)
