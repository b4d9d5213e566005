"""The order of making, worked out from what is sewn to what.

Every operation is a task; a task needs others to be done first. Among those that are ready the one
that is easiest while the work still lies flat comes next: seams that join two open edges before
seams that close a round, and what is sewn on all round last. Common practice.
"""

from __future__ import annotations

from dataclasses import replace

from cutwright.checks.case import laid_seams
from cutwright.checks.opening import openings
from cutwright.pattern.edge import EdgeKind, Ref, parse_label
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.parts.facings import facings, is_band
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Material, Piece
from cutwright.pattern.seam import LayerPart, Seam, SeamKind
from cutwright.pattern.takeup import FOLDS, TakeUpKind, take_ups
from cutwright.worksheet.making_edges import edge_tasks
from cutwright.worksheet.making_needs import settle_needs
from cutwright.worksheet.making_table import MakingTask, TaskTable
from cutwright.worksheet.parts import (
    bound_edges,
    in_one_seam,
    is_flounce,
    is_strip,
    kinds_of,
    staystitched,
    wholly_open,
)

RANKS = {
    "mark": 1, "interface": 5, "staystitch": 7, "baste": 10, "fit": 11, "overcast": 13, "darts": 15, "pleats": 15.5, "draw up": 16,
    "bias": 18, "ends": 20, "tie": 21, "hem flounce": 24, "facing shoulder": 26, "neaten": 27, "panel": 28,
    "shoulder": 30, "combined facing": 35, "waist": 40, "centre": 50, "zip": 52, "armhole facing": 55, "finish": 57,
    "neck facing": 60, "row neck": 62, "row bound": 63, "facing centre": 64, "side": 70, "set in": 75,
    "row waist": 78, "hook": 79, "hang": 80, "row": 82, "finish round": 84, "hem": 90, "press": 99,
}  # fmt: skip
"""What comes first among tasks that could all be done; lower numbers are flatter work."""
_FOLDED = (TakeUpKind.PLEAT, TakeUpKind.TUCK)


def order_of_making(pattern: Pattern) -> tuple[MakingTask, ...]:
    """Every task in the order in which it is done."""
    table = TaskTable(pattern, in_one_seam(pattern, openings(laid_seams(pattern))))
    for index, seam in enumerate(pattern.seams):
        _sort_seam(table, index, seam)
    _zips(table)
    _preparing(table)
    _drawing_up(table)
    _fitting(table)
    edge_tasks(table)
    settle_needs(table)
    return _ordered(table)


def _sort_seam(table: TaskTable, index: int, seam: Seam) -> None:
    """Put a seam to the others that are sewn in the same operation."""
    pieces = tuple(dict.fromkeys(ref.piece for ref in seam.refs))
    found = [table.pattern.piece(name) for name in pieces]
    kinds = kinds_of(table.pattern, seam.refs)
    inside = facings(table.pattern) & set(pieces)
    if _is_faced(seam):
        return _sort_facing(table, index, kinds, pieces)
    if len(inside) == len(found):
        return _sort_inside(table, index, seam, kinds)
    if len(found) == 1 and (is_flounce(found[0]) or is_strip(found[0]) or is_band(found[0])):
        return table.add(f"ends of {found[0].name}", "ends", index, pieces)
    if max(seam.row_sizes) > 1 or any(not _of_body(piece) for piece in found):
        return table.add(f"row {index}", _row_kind(table.pattern, seam), index, pieces)
    if EdgeKind.ARMHOLE in kinds:
        return table.add("sleeves", "set in", index, pieces)
    return _sort_flat(table, index, seam, kinds)


def _is_faced(seam: Seam) -> bool:
    """Whether a facing is sewn to an edge, with nothing else or with a collar between."""
    single = max(seam.row_sizes) == 1
    return seam.kind == SeamKind.FACING and (single or len(seam.layers) > 2)


def _of_body(piece: Piece) -> bool:
    return not (is_flounce(piece) or is_strip(piece) or is_band(piece))


def _sort_facing(
    table: TaskTable, index: int, kinds: set[EdgeKind], pieces: tuple[str, ...]
) -> None:
    if _combined(table.pattern, facings(table.pattern) & set(pieces)):
        return table.add("combined facing", "combined facing", index, pieces)
    if kinds & {EdgeKind.ARMHOLE, EdgeKind.NECKLINE}:
        where = "armhole facing" if EdgeKind.ARMHOLE in kinds else "neck facing"
        return table.add(where, where, index, pieces)
    return table.add(f"panel {index}", "panel", index, pieces)


def _sort_inside(table: TaskTable, index: int, seam: Seam, kinds: set[EdgeKind]) -> None:
    """A seam between facings: with the sides, at the opening, or before they are sewn on."""
    pieces = tuple(dict.fromkeys(ref.piece for ref in seam.refs))
    if EdgeKind.SIDE in kinds:
        return table.add("side", "side", index, pieces)
    if EdgeKind.CENTRE in kinds and _at_opening(table, pieces):
        return table.add("facing centre", "facing centre", index, pieces)
    return table.add("facing shoulder", "facing shoulder", index, pieces)


def _at_opening(table: TaskTable, pieces: tuple[str, ...]) -> bool:
    """Whether facings lie on a piece in whose centre there is an opening."""
    faced = {
        ref.piece
        for seam in table.pattern.seams
        if {ref.piece for ref in seam.refs_of(LayerPart.FACING)} & set(pieces)
        for ref in seam.other_than(LayerPart.FACING)
    }
    return any(
        stretch.piece in faced and stretch.edge.kind is EdgeKind.CENTRE
        for opening in table.openings
        for stretch in opening.stretches
    )


def _combined(pattern: Pattern, inside: frozenset[str]) -> bool:
    """Whether facings finish neckline and armholes in one, so that they are turned in one go."""
    kinds: set[EdgeKind] = set()
    for seam in pattern.seams:
        if seam.kind == SeamKind.FACING and inside & {ref.piece for ref in seam.refs}:
            kinds |= kinds_of(pattern, seam.refs)
    return {EdgeKind.ARMHOLE, EdgeKind.NECKLINE} <= kinds


def _sort_flat(table: TaskTable, index: int, seam: Seam, kinds: set[EdgeKind]) -> None:
    pieces = tuple(dict.fromkeys(ref.piece for ref in seam.refs))
    for place, opening in enumerate(table.openings):
        shut = {Ref(s.piece, s.edge.name) for s in opening.stretches if wholly_open(s)}
        if set(seam.refs) <= shut:  # nothing of it is sewn but the zip
            return table.add(f"zip {place}", "zip", index, pieces)
    for kind, key in (
        (EdgeKind.SHOULDER, "shoulder"),
        (EdgeKind.SIDE, "side"),
        (EdgeKind.WAIST, "waist"),
        (EdgeKind.CENTRE, "centre"),
    ):
        if kind in kinds:
            return table.add(key, key, index, pieces)
    edges = " and ".join(dict.fromkeys(ref.edge for ref in seam.refs))
    return table.add(f"panel {edges}", "panel", index, pieces)


def _row_kind(pattern: Pattern, seam: Seam) -> str:
    kinds = kinds_of(pattern, seam.refs)
    if seam.kind in (SeamKind.WAISTBAND, SeamKind.BINDING):
        return "row waist" if seam.kind == SeamKind.WAISTBAND else "row bound"
    return "row neck" if EdgeKind.NECKLINE in kinds else "row"


def _zips(table: TaskTable) -> None:
    """Set a zip into each opening; the seam that is all opening is sewn by nothing else."""
    for place, opening in enumerate(table.openings):
        names = tuple(dict.fromkeys(s.piece for s in opening.stretches))
        edges = tuple(Ref(s.piece, s.edge.name) for s in opening.stretches)
        old = table.tasks.get(f"zip {place}", MakingTask(f"zip {place}", "zip"))
        table.put(replace(old, pieces=names, edges=edges, place=place, cm=opening.cm))


def _preparing(table: TaskTable) -> None:
    """What is done to pieces by themselves: marking, interfacing, staystitching, bias strips, darts."""
    pattern = table.pattern
    table.put(MakingTask("mark", "mark", pieces=tuple(p.name for p in pattern.pieces)))
    stiff = tuple(p.name for p in pattern.pieces if p.cut_in(Material.INTERFACING))
    if stiff:
        table.put(MakingTask("interface", "interface", pieces=stiff))
    if staystitched(pattern):
        table.put(MakingTask("staystitch", "staystitch", edges=staystitched(pattern)))
    if bound_edges(pattern):
        table.put(MakingTask("bias", "bias", edges=bound_edges(pattern)))
    darted = tuple(p.name for p in pattern.pieces if p.darts or p.diamonds)
    if darted:
        table.put(MakingTask("darts", "darts", pieces=darted))
    _folds(table)
    for piece in pattern.pieces:
        if is_band(piece) and any(m.kind is MarkKind.OVERLAP for m in piece.marks):
            table.put(MakingTask("hook", "hook", pieces=(piece.name,)))


def _folds(table: TaskTable) -> None:
    """Pleats and tucks, edge by edge."""
    edges = tuple(
        Ref(piece.name, name)
        for piece in table.pattern.pieces
        if any(mark.kind in FOLDS for mark in piece.marks)
        for name in piece.edge_names()
        if any(one.kind in _FOLDED for one in take_ups(piece, name))
    )
    if edges:
        names = tuple(dict.fromkeys(ref.piece for ref in edges))
        table.put(MakingTask("pleats", "pleats", pieces=names, edges=edges))


def _drawing_up(table: TaskTable) -> None:
    """Gathers along a whole edge, and between marks on an edge."""
    pattern = table.pattern
    for index, seam in enumerate(pattern.seams):
        drawn = [ref for layer in seam.layers if layer.gathered for ref in layer.refs]
        strips = tuple(ref for ref in drawn if is_flounce(pattern.piece(ref.piece)))
        if strips:
            names = tuple(dict.fromkeys(ref.piece for ref in strips))
            base = seam.layers[seam.base].refs
            whole = sum(pattern.piece(ref.piece).times * pattern.length(ref) for ref in base)
            task = MakingTask(f"gather {index}", "gather", (), names, strips, place=index, cm=whole)
            table.put(task)
    marked = tuple(
        dict.fromkeys(
            Ref(piece.name, parse_label(mark.edge)[0])
            for piece in pattern.pieces
            for mark in piece.marks
            if mark.kind in (MarkKind.GATHERS, MarkKind.EASE) and mark.edge
        )
    )
    if marked:
        names = tuple(dict.fromkeys(ref.piece for ref in marked))
        table.put(MakingTask("draw up", "draw up", pieces=names, edges=marked))


def _fitting(table: TaskTable) -> None:
    long = _long_edges(table)
    table.put(MakingTask("baste", "baste", edges=long))
    if long:
        table.put(MakingTask("overcast", "overcast", edges=long))
    table.put(MakingTask("fit", "fit"))
    table.put(MakingTask("press", "press"))


def _long_edges(table: TaskTable) -> tuple[Ref, ...]:
    """The edges of the plain seams that shape the garment: basted for the fitting, then finished."""
    wanted = ("shoulder", "side", "waist", "centre", "panel", "zip")
    inside = facings(table.pattern)
    refs = (
        ref
        for index, key in table.of_seam.items()
        if table.tasks[key].kind in wanted
        for ref in table.pattern.seams[index].refs
        if ref.piece not in inside
    )
    return tuple(dict.fromkeys(refs))


def _ordered(table: TaskTable) -> tuple[MakingTask, ...]:
    """The tasks so that each stands behind those it needs; the flattest work first."""
    left = dict(table.tasks)
    done: list[MakingTask] = []
    place = {key: index for index, key in enumerate(table.tasks)}
    while left:
        ready = [k for k, t in left.items() if not (t.needs & left.keys())]
        pool = ready or list(left)  # a ring of needs: the flattest work breaks it
        key = min(pool, key=lambda k: (_rank(table, left[k]), place[k]))
        done.append(left.pop(key))
    return tuple(done)


def _rank(table: TaskTable, task: MakingTask) -> float:
    """How late a task comes among those that are ready; gathers are drawn up right before they are sewn."""
    if task.kind == "gather":
        return RANKS[table.tasks[table.of_seam[task.place]].kind] - 0.5
    return RANKS[task.kind]
