"""Which task of making needs which: darts before seams over them, joins before rows, zips and hems."""

from __future__ import annotations

from cutwright.pattern.edge import Ref
from cutwright.pattern.parts.facings import is_band
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import Seam, SeamKind, Side
from cutwright.pattern.takeup import TakeUpKind, take_ups
from cutwright.worksheet.making_table import MakingTask, TaskTable
from cutwright.worksheet.parts import is_flounce, is_strip

_FACED = ("neck facing", "armhole facing", "combined facing", "set in")


def settle_needs(table: TaskTable) -> None:
    """Write down for every task what comes first."""
    for key in list(table.tasks):
        if key != "mark":
            table.needing(key, "mark")
        if key not in ("mark", "interface", "staystitch", "baste"):
            table.needing(key, "fit")
        if key not in ("mark", "press"):
            table.needing("press", key)
    table.needing("fit", "baste")
    table.needing("baste", "staystitch", "interface")
    table.needing("neaten", "facing shoulder")
    table.needing("finish", "bias")
    table.needing("hook", *(key for key, task in table.tasks.items() if task.kind == "row waist"))
    for key in ("waist", "centre"):
        table.needing(key, "combined facing")
    for index, seam in enumerate(table.pattern.seams):
        _seam_needs(table, index, seam)
    _zip_needs(table)
    for key, task in list(table.tasks.items()):
        if task.kind in ("hem", "hem flounce", "finish", "finish round", "hang"):
            _edge_needs(table, key, task)


def _seam_needs(table: TaskTable, index: int, seam: Seam) -> None:
    key, pattern = table.of_seam[index], table.pattern
    table.needing(key, f"gather {index}")
    for ref in seam.refs:
        piece = pattern.piece(ref.piece)
        _folded_first(table, key, ref)
        if is_flounce(piece) or is_strip(piece) or is_band(piece):
            ends, hem = f"ends of {piece.name}", f"hem of {piece.name}"
            if table.tasks[key].kind != "ends":
                table.needing(key, ends, hem)
            table.needing(f"gather {index}", ends, hem)
            table.needing(hem, ends)
    for before in ("hang", "draw up"):
        if before in table.tasks and set(seam.refs) & set(table.tasks[before].edges):
            table.needing(key, before)
    kind = table.tasks[key].kind
    if kind.startswith("row") or kind in _FACED:
        _row_needs(table, key, seam)
    if kind == "facing centre":
        zips = (name for name, task in table.tasks.items() if task.kind == "zip")
        table.needing(key, "neck facing", "combined facing", *zips)


def _folded_first(table: TaskTable, key: str, ref: Ref) -> None:
    """What is folded away along an edge is sewn before the edge is."""
    for one in take_ups(table.pattern.piece(ref.piece), ref.edge):
        if one.folded:
            table.needing(key, "darts" if one.kind is TakeUpKind.DART else "pleats")


def _row_needs(table: TaskTable, key: str, seam: Seam) -> None:
    """A row needs the seams between its edges, and the shoulders that it runs over."""
    refs = set(seam.refs)
    for row, size in zip(seam.rows, seam.row_sizes, strict=True):
        pieces = {side.ref.piece for side in row}
        many = size > 1
        for other, task in table.of_seam.items():
            crossing = table.pattern.seams[other]
            if task == key or refs & set(crossing.refs):
                continue
            between = {ref.piece for ref in crossing.refs}
            if not between <= pieces and not (len(between & pieces) == 1 and not many):
                continue
            if _meets_row(table.pattern, crossing, row) and _wanted(table, key, task, seam, many):
                table.needing(key, task)


def _wanted(table: TaskTable, key: str, task: str, seam: Seam, many: bool) -> bool:
    """Whether a crossing seam must be sewn first: the sides stay open where the work is flat."""
    kind = table.tasks[task].kind
    if table.tasks[key].kind == "combined facing":  # turned through the shoulders of an open back
        return kind in ("shoulder", "facing shoulder", "panel")
    if kind == "side":
        return many or max(seam.row_sizes) > 1
    return kind in ("shoulder", "facing shoulder", "panel", "waist", "centre")


def _meets_row(pattern: Pattern, crossing: Seam, row: tuple[Side, ...]) -> bool:
    """Whether a seam ends on one of the edges of a row."""
    for side in row:
        ref = side.ref
        piece = pattern.piece(ref.piece)
        ends = neighbours(piece, ref.edge)
        if any(c.piece == ref.piece and c.edge in ends for c in crossing.refs):
            return True
    return False


def neighbours(piece: Piece, edge: str) -> set[str]:
    """The names of the edges that meet an edge at its ends, darts folded."""
    names = [e.name for e in piece.outer_edges]
    size = len(names)
    return {
        names[(i + d) % size]
        for i, name in enumerate(names)
        if name == edge
        for d in (-1, 1)
        if names[(i + d) % size] != edge
    }


def _zip_needs(table: TaskTable) -> None:
    """A zip needs the seam it lies in and the seams that it crosses; what finishes its top needs it."""
    for place, opening in enumerate(table.openings):
        key = f"zip {place}"
        first = opening.stretches[0]
        table.needing(key, *_below(table, Ref(first.piece, first.edge.name)))
        if len(opening.stretches) > 1:
            table.needing(key, *_crossed(table, [s.piece for s in opening.stretches]))
        if opening.top is None:
            continue
        top = Ref(opening.top[0], opening.top[1].name)
        for index, seam in enumerate(table.pattern.seams):
            task = table.of_seam[index]
            if top in seam.refs and table.tasks[task].kind not in (
                "waist",
                "centre",
                "combined facing",
            ):
                table.needing(task, key)
        for task, found in list(table.tasks.items()):
            if top in found.edges and found.kind in ("finish", "finish round"):
                table.needing(task, key)


def _below(table: TaskTable, ref: Ref) -> tuple[str, ...]:
    """The tasks that sew the seam in which an opening ends."""
    return tuple(
        table.of_seam[index] for index, seam in enumerate(table.pattern.seams) if ref in seam.refs
    )


def _crossed(table: TaskTable, pieces: list[str]) -> tuple[str, ...]:
    """The tasks that sew the pieces of an opening to each other, one above the other."""
    return tuple(
        table.of_seam[index]
        for index, seam in enumerate(table.pattern.seams)
        if len({ref.piece for ref in seam.refs} & set(pieces)) > 1 and seam.kind != SeamKind.FACING
    )


def _edge_needs(table: TaskTable, key: str, task: MakingTask) -> None:
    """An edge is finished when the seams that end on it are sewn (an open armhole while flat)."""
    for ref in task.edges:
        _folded_first(table, key, ref)
        piece = table.pattern.piece(ref.piece)
        ends = neighbours(piece, ref.edge)
        for index, seam in enumerate(table.pattern.seams):
            if any(r.piece == ref.piece and r.edge in ends for r in seam.refs):
                other = table.of_seam[index]
                kind = table.tasks[other].kind
                if task.kind == "hem flounce" and kind != "ends":
                    continue
                if task.kind == "finish" and kind == "side":
                    table.needing(other, key)
                else:
                    table.needing(key, other)
