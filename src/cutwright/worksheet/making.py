"""The order of making, worked out from what is sewn to what.

Every operation is a task; a task needs others to be done first. Among those that are ready the one
that is easiest while the work still lies flat comes next: seams that join two open edges before
seams that close a round, and what is sewn on all round last. Common practice.
"""

from __future__ import annotations

from collections.abc import Sequence

from cutwright.checks.case import lay_out
from cutwright.checks.opening import openings
from cutwright.pattern.edge import Kind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import Seam
from cutwright.worksheet.making_needs import settle_needs
from cutwright.worksheet.making_table import Table, Task, is_band, is_facing, is_strip

RANKS = {
    "mark": 1, "interface": 5, "staystitch": 7, "baste": 10, "fit": 11, "overcast": 13, "darts": 15, "ends": 20,
    "neaten": 22, "hem flounce": 24, "facing shoulder": 26, "panel": 28, "shoulder": 30,
    "combined facing": 35, "waist": 40, "gather": 25, "centre": 50, "zip": 52, "armhole facing": 55, "finish": 57,
    "neck facing": 60, "row neck": 62, "facing centre": 64, "side": 70, "set in": 75,
    "row waist": 80, "row": 82, "finish round": 84, "hem": 90, "press": 99,
}  # fmt: skip
"""What comes first among tasks that could all be done; lower numbers are flatter work."""


def order_of_making(pattern: Pattern) -> tuple[Task, ...]:
    """Every task in the order in which it is done."""
    table = Table(pattern, openings(lay_out(pattern)))
    for index, seam in enumerate(pattern.seams):
        _sort_seam(table, index, seam)
    _single_tasks(table)
    _edge_tasks(table)
    settle_needs(table)
    return _ordered(table)


def _kinds(pattern: Pattern, seam: Seam) -> set[Kind]:
    return {edge.kind for ref in seam.refs for edge in pattern.edge_parts(ref)}


def _sort_seam(table: Table, index: int, seam: Seam) -> None:
    """Put a seam to the others that are sewn in the same operation."""
    pieces = tuple(dict.fromkeys(ref.piece for ref in seam.refs))
    found = [table.pattern.piece(name) for name in pieces]
    kinds = _kinds(table.pattern, seam)
    facings = [p for p in found if is_facing(p)]
    if seam.kind == "facing" and len(seam.a) == len(seam.b) == 1:
        if _combined(table.pattern, facings):
            return table.add("combined facing", "combined facing", index, pieces)
        where = "armhole" if Kind.ARMHOLE in kinds else "neck"
        if kinds & {Kind.ARMHOLE, Kind.NECKLINE}:
            return table.add(f"{where} facing", f"{where} facing", index, pieces)
        return table.add(f"panel {index}", "panel", index, pieces)
    if len(facings) == len(found):
        kind = "side" if Kind.SIDE in kinds else "shoulder" if Kind.SHOULDER in kinds else "centre"
        if kind == "centre" and not table.openings:
            kind = "shoulder"
        key = "side" if kind == "side" else f"facing {kind}"
        return table.add(key, key, index, pieces)
    if len(found) == 1 and is_strip(found[0]):
        return table.add(f"ends of {found[0].name}", "ends", index, pieces)
    if len(seam.a) > 1 or len(seam.b) > 1 or seam.kind in ("waistband", "gathered", "binding"):
        return table.add(f"row {index}", _row_kind(table.pattern, seam), index, pieces)
    if Kind.ARMHOLE in kinds:
        return table.add("sleeves", "set in", index, pieces)
    return _sort_flat(table, index, kinds, pieces)


def _combined(pattern: Pattern, facings: Sequence[Piece]) -> bool:
    """Whether facings finish neckline and armholes in one, so that they are turned in one go."""
    names = {piece.name for piece in facings}
    kinds: set[Kind] = set()
    for seam in pattern.seams:
        if seam.kind == "facing" and names & {ref.piece for ref in seam.refs}:
            kinds |= _kinds(pattern, seam)
    return {Kind.ARMHOLE, Kind.NECKLINE} <= kinds


def _sort_flat(table: Table, index: int, kinds: set[Kind], pieces: tuple[str, ...]) -> None:
    for kind, key in (
        (Kind.SHOULDER, "shoulder"),
        (Kind.SIDE, "side"),
        (Kind.WAIST, "waist"),
        (Kind.CENTRE, "centre"),
    ):
        if kind in kinds:
            return table.add(key, key, index, pieces)
    return table.add(f"panel {index}", "panel", index, pieces)


def _row_kind(pattern: Pattern, seam: Seam) -> str:
    kinds = _kinds(pattern, seam)
    if seam.kind == "waistband":
        return "row waist"
    if Kind.NECKLINE in kinds:
        return "row neck"
    return "row waist" if Kind.WAIST in kinds and Kind.HEM not in kinds else "row"


def _single_tasks(table: Table) -> None:
    """What is done to pieces by themselves: marking, interfacing, staystitching, darts, gathers."""
    pattern = table.pattern
    table.put(Task("mark", "mark", pieces=tuple(p.name for p in pattern.pieces)))
    stiff = tuple(p.name for p in pattern.pieces if is_facing(p) or is_band(p))
    if stiff:
        table.put(Task("interface", "interface", pieces=stiff))
    curved = tuple(
        Ref(p.name, name)
        for p in pattern.pieces
        if not is_facing(p) and not is_strip(p)
        for name in p.edge_names()
        if {e.kind for e in p.edge_parts(name)} & {Kind.NECKLINE, Kind.ARMHOLE}
    )
    if curved:
        table.put(Task("staystitch", "staystitch", edges=curved))
    for piece in pattern.pieces:
        if piece.darts or piece.diamonds:
            table.put(Task(f"darts of {piece.name}", "darts", pieces=(piece.name,)))
    for index, seam in enumerate(pattern.seams):
        if seam.kind == "gathered" or seam.ratio > 1.02:
            sides = tuple(side.ref for side in seam.a)
            names = tuple(dict.fromkeys(ref.piece for ref in sides))
            table.put(Task(f"gather {index}", "gather", pieces=names, edges=sides))
    for count, opening in enumerate(table.openings):
        names = tuple(dict.fromkeys(s.piece for s in opening.stretches))
        edges = tuple(Ref(s.piece, s.edge.name) for s in opening.stretches)
        table.put(Task(f"zip {count}", "zip", pieces=names, edges=edges, cm=opening.cm))
    long = _long_edges(table)
    table.put(Task("baste", "baste", edges=long))
    if long:
        table.put(Task("overcast", "overcast", edges=long))
    table.put(Task("fit", "fit"))
    table.put(Task("press", "press"))


def _long_edges(table: Table) -> tuple[Ref, ...]:
    """The edges of the plain seams that shape the garment: basted for the fitting, then neatened."""
    wanted = ("shoulder", "side", "waist", "centre", "panel")
    refs = (
        ref
        for index, key in table.of_seam.items()
        if table.tasks[key].kind in wanted
        for ref in table.pattern.seams[index].refs
        if not is_facing(table.pattern.piece(ref.piece))
    )
    return tuple(dict.fromkeys(refs))


def _edge_tasks(table: Table) -> None:
    """What is done to edges that are sewn to nothing: neatening, hemming, finishing."""
    sewn = {ref for seam in table.pattern.seams for ref in seam.refs}
    loose: dict[str, list[Ref]] = {}
    for piece in table.pattern.pieces:
        for name in piece.edge_names():
            ref = Ref(piece.name, name)
            kinds = {e.kind for e in piece.edge_parts(name)}
            if ref not in sewn and not kinds <= {Kind.FOLD}:
                loose.setdefault(_edge_key(piece, kinds), []).append(ref)
    for key, refs in loose.items():
        kind = "hem flounce" if key.startswith("hem of") else key
        names = tuple(dict.fromkeys(ref.piece for ref in refs))
        if key:
            table.put(Task(key, kind, pieces=names, edges=tuple(refs)))


def _edge_key(piece: Piece, kinds: set[Kind]) -> str:
    """Which task finishes an edge that is sewn to nothing; "" where another task does it."""
    if is_band(piece):
        return ""
    if is_facing(piece):
        return "neaten"
    if is_strip(piece) and not kinds & {Kind.GATHERED}:
        return f"hem of {piece.name}"
    if Kind.HEM in kinds:
        return "hem"
    return "finish" if kinds & {Kind.NECKLINE, Kind.ARMHOLE} else "finish round"


def _ordered(table: Table) -> tuple[Task, ...]:
    """The tasks so that each stands behind those it needs; the flattest work first."""
    left = dict(table.tasks)
    done: list[Task] = []
    place = {key: index for index, key in enumerate(table.tasks)}
    while left:
        ready = [k for k, t in left.items() if not (t.needs & left.keys())]
        pool = ready or list(left)  # a ring of needs: the flattest work breaks it
        key = min(pool, key=lambda k: (RANKS[left[k].kind], place[k]))
        done.append(left.pop(key))
    return tuple(done)
