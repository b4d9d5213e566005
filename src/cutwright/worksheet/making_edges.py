"""What is done to edges that are sewn to nothing: finishing, hemming, hanging."""

from __future__ import annotations

from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.pattern.parts.facings import facings, is_band
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.role import Role
from cutwright.pattern.seam import SeamKind
from cutwright.worksheet.making_table import MakingTask, TaskTable
from cutwright.worksheet.parts import drops, is_flounce, is_strip, kinds_of


def edge_tasks(table: TaskTable) -> None:
    """Write down how each free edge is finished, and what must hang before it is."""
    pattern = table.pattern
    sewn = {ref for seam in pattern.seams for ref in seam.refs}
    loose: dict[tuple[str, str], list[Ref]] = {}
    for piece in pattern.pieces:
        for name in piece.edge_names():
            ref = Ref(piece.name, name)
            kinds = kinds_of(pattern, (ref,))
            task = _finished_by(pattern, piece, kinds)
            if ref not in sewn and not kinds <= {EdgeKind.FOLD} and task:
                loose.setdefault(task, []).append(ref)
    for (key, kind), refs in loose.items():
        names = tuple(dict.fromkeys(ref.piece for ref in refs))
        table.put(MakingTask(key, kind, pieces=names, edges=tuple(refs)))
    _hanging(table)


def _finished_by(pattern: Pattern, piece: Piece, kinds: set[EdgeKind]) -> tuple[str, str] | None:
    """Key and kind of the task that finishes an edge; None where another task does it."""
    if is_band(piece):
        return None
    if is_strip(piece):
        bound = any(
            s.kind == SeamKind.BINDING and piece.name in _pieces(s.refs) for s in pattern.seams
        )
        return None if bound else (f"tie {piece.name}", "tie")
    if piece.name in facings(pattern):
        return "neaten", "neaten"
    if is_flounce(piece) and piece.role is not Role.CIRCULAR_FLOUNCE:
        return f"hem of {piece.name}", "hem flounce"
    if EdgeKind.HEM in kinds:
        return "hem", "hem"
    finish = "finish" if kinds & {EdgeKind.NECKLINE, EdgeKind.ARMHOLE} else "finish round"
    return finish, finish


def _pieces(refs: tuple[Ref, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(ref.piece for ref in refs))


def _hanging(table: TaskTable) -> None:
    """A flared lower edge hangs and is levelled before anything is sewn to it."""
    pattern = table.pattern
    edges = tuple(
        ref
        for index, seam in enumerate(pattern.seams)
        if table.tasks[table.of_seam[index]].kind == "row"
        for layer in seam.layers[1:]
        for ref in layer.refs
        if EdgeKind.HEM in kinds_of(pattern, (ref,)) and drops(pattern, ref)
    )
    if edges:
        table.put(MakingTask("hang", "hang", pieces=_pieces(edges), edges=edges))
