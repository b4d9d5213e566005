"""The order of making, worked out from what is sewn to what.

Every operation is a task; a task needs others to be done first. Among those that are ready the one
that is easiest while the work still lies flat comes next: seams that join two open edges before
seams that close a round, and what is sewn on all round last. Common practice.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from cutwright.checks.case import lay_out
from cutwright.checks.opening import Opening, openings
from cutwright.pattern.edge import Kind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import Seam, Side

RANKS = {
    "mark": 1, "interface": 5, "staystitch": 7, "baste": 10, "fit": 11, "darts": 15, "ends": 20,
    "neaten": 22, "hem flounce": 24, "facing shoulder": 26, "panel": 28, "shoulder": 30,
    "waist": 40, "gather": 44, "centre": 50, "zip": 52, "armhole facing": 55, "finish": 57,
    "neck facing": 60, "row neck": 62, "facing centre": 64, "side": 70, "set in": 75,
    "row waist": 80, "row": 82, "finish round": 84, "hem": 90, "press": 99,
}  # fmt: skip
"""What comes first among tasks that could all be done; lower numbers are flatter work."""

FLAT = ("panel", "shoulder", "waist", "armhole facing")
"""Tasks that join open edges and are sewn while the sides are still open."""


@dataclass(frozen=True, slots=True)
class Task:
    """One operation: the seams it sews (by their place in the pattern), the edges it finishes.

    `needs` holds the keys of tasks that come first.
    """

    key: str
    kind: str
    seams: tuple[int, ...] = ()
    pieces: tuple[str, ...] = ()
    edges: tuple[Ref, ...] = ()
    needs: frozenset[str] = frozenset()
    cm: float = 0.0


@dataclass(slots=True)
class _Table:
    pattern: Pattern
    openings: tuple[Opening, ...]
    tasks: dict[str, Task] = field(default_factory=dict)
    of_seam: dict[int, str] = field(default_factory=dict)

    def put(self, task: Task) -> None:
        self.tasks[task.key] = task
        for seam in task.seams:
            self.of_seam[seam] = task.key

    def add(self, key: str, kind: str, seam: int, pieces: tuple[str, ...]) -> None:
        old = self.tasks.get(key, Task(key, kind))
        names = tuple(dict.fromkeys((*old.pieces, *pieces)))
        self.put(replace(old, seams=(*old.seams, seam), pieces=names))

    def needing(self, key: str, *needs: str) -> None:
        there = frozenset(n for n in needs if n in self.tasks and n != key)
        if key in self.tasks:
            self.tasks[key] = replace(self.tasks[key], needs=self.tasks[key].needs | there)


def order_of_making(pattern: Pattern) -> tuple[Task, ...]:
    """Every task in the order in which it is done."""
    table = _Table(pattern, openings(lay_out(pattern)))
    for index, seam in enumerate(pattern.seams):
        _sort_seam(table, index, seam)
    _single_tasks(table)
    _edge_tasks(table)
    _needs(table)
    return _ordered(table)


def is_facing(piece: Piece) -> bool:
    """Whether a piece finishes an edge on the inside."""
    return "facing" in f"{piece.about} {piece.name}".lower() and not is_band(piece)


def is_band(piece: Piece) -> bool:
    """Whether a piece is a waistband or a binding."""
    words = f"{piece.about} {piece.name}".lower()
    return "waistband" in words or "binding" in words


def is_strip(piece: Piece) -> bool:
    """Whether a piece is a flounce or a strip that is sewn on by its top."""
    words = f"{piece.about} {piece.name}".lower()
    return any(word in words for word in ("flounce", "frill", "strip", "tier"))


def _kinds(pattern: Pattern, seam: Seam) -> set[Kind]:
    return {edge.kind for ref in seam.refs for edge in pattern.edge_parts(ref)}


def _sort_seam(table: _Table, index: int, seam: Seam) -> None:
    """Put a seam to the others that are sewn in the same operation."""
    pieces = tuple(dict.fromkeys(ref.piece for ref in seam.refs))
    found = [table.pattern.piece(name) for name in pieces]
    kinds = _kinds(table.pattern, seam)
    facings = [p for p in found if is_facing(p)]
    if seam.kind == "facing" and len(seam.a) == len(seam.b) == 1:
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


def _sort_flat(table: _Table, index: int, kinds: set[Kind], pieces: tuple[str, ...]) -> None:
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


def _single_tasks(table: _Table) -> None:
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
    bases = ("shoulder", "waist", "side", "centre")
    basted = tuple(i for key in bases if key in table.tasks for i in table.tasks[key].seams)
    table.put(Task("baste", "baste", pieces=(), edges=(), cm=float(len(basted))))
    table.put(Task("fit", "fit"))
    table.put(Task("press", "press"))


def _edge_tasks(table: _Table) -> None:
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


def _needs(table: _Table) -> None:
    """Which task needs which."""
    for key in list(table.tasks):
        if key != "mark":
            table.needing(key, "mark")
        if key not in ("mark", "interface", "staystitch", "baste"):
            table.needing(key, "fit")
        if key not in ("mark", "press"):
            table.needing("press", key)
    table.needing("fit", "baste")
    table.needing("baste", "staystitch", "interface")
    for index, seam in enumerate(table.pattern.seams):
        _seam_needs(table, index, seam)
    _zip_needs(table)
    for key, task in list(table.tasks.items()):
        if task.kind in ("hem", "hem flounce", "finish", "finish round"):
            _edge_needs(table, key, task)


def _seam_needs(table: _Table, index: int, seam: Seam) -> None:
    key, pattern = table.of_seam[index], table.pattern
    table.needing(key, f"gather {index}")
    for ref in seam.refs:
        piece = pattern.piece(ref.piece)
        if _mouths(piece, ref.edge):
            table.needing(key, f"darts of {piece.name}")
        if is_strip(piece):
            if table.tasks[key].kind != "ends":
                table.needing(key, f"hem of {piece.name}", f"ends of {piece.name}")
            table.needing(f"gather {index}", f"ends of {piece.name}", f"hem of {piece.name}")
            table.needing(f"hem of {piece.name}", f"ends of {piece.name}")
    kind = table.tasks[key].kind
    if kind.startswith("row") or kind in ("neck facing", "armhole facing", "set in"):
        _row_needs(table, key, seam)
    if kind == "facing centre":
        table.needing(key, "neck facing", *(k for k in table.tasks if k.startswith("zip")))


def _mouths(piece: Piece, edge: str) -> bool:
    """Whether a dart opens on an edge."""
    return len(piece.edge_parts(edge)) > 1 and any(
        e.kind is Kind.LEG and _beside(piece, i, edge) for i, e in enumerate(piece.edges)
    )


def _beside(piece: Piece, index: int, edge: str) -> bool:
    size = len(piece.edges)
    return any(piece.edges[(index + d) % size].name == edge for d in (-1, 1))


def _row_needs(table: _Table, key: str, seam: Seam) -> None:
    """A row needs the seams between its edges, and the shoulders that it runs over."""
    refs = set(seam.refs)
    for row in (seam.a, seam.b):
        pieces = {side.ref.piece for side in row}
        many = len(row) > 1
        for other, task in table.of_seam.items():
            crossing = table.pattern.seams[other]
            if task == key or refs & set(crossing.refs):
                continue
            between = {ref.piece for ref in crossing.refs}
            if not between <= pieces and not (len(between & pieces) == 1 and not many):
                continue
            if _meets_row(table.pattern, crossing, row) and _wanted(table, task, seam, many):
                table.needing(key, task)


def _wanted(table: _Table, task: str, seam: Seam, many: bool) -> bool:
    """Whether a crossing seam must be sewn first: the sides stay open where the work is flat."""
    kind = table.tasks[task].kind
    if kind == "side":
        return many or len(seam.a) > 1 or len(seam.b) > 1
    return kind in ("shoulder", "facing shoulder", "panel", "waist", "centre")


def _meets_row(pattern: Pattern, crossing: Seam, row: tuple[Side, ...]) -> bool:
    """Whether a seam ends on one of the edges of a row."""
    for side in row:
        ref = side.ref
        piece = pattern.piece(ref.piece)
        ends = _neighbours(piece, ref.edge)
        if any(c.piece == ref.piece and c.edge in ends for c in crossing.refs):
            return True
    return False


def _neighbours(piece: Piece, edge: str) -> set[str]:
    """The names of the edges that meet an edge at its ends, darts folded."""
    names = [e.name for e in piece.edges if e.kind is not Kind.LEG]
    size = len(names)
    return {
        names[(i + d) % size]
        for i, name in enumerate(names)
        if name == edge
        for d in (-1, 1)
        if names[(i + d) % size] != edge
    }


def _zip_needs(table: _Table) -> None:
    """A zip needs the seam it lies in and the seams that cross it; what finishes its top needs it."""
    for count, opening in enumerate(table.openings):
        key = f"zip {count}"
        table.needing(key, "centre", "waist")
        tops = {(s.piece, s.edge.name) for s in opening.stretches}
        if opening.top is not None:
            tops.add((opening.top[0], opening.top[1].name))
        for index, seam in enumerate(table.pattern.seams):
            task = table.of_seam[index]
            ends = opening.top is not None and Ref(opening.top[0], opening.top[1].name) in seam.refs
            if ends and table.tasks[task].kind not in ("waist", "centre"):
                table.needing(task, key)
        top = None if opening.top is None else Ref(opening.top[0], opening.top[1].name)
        for task, found in list(table.tasks.items()):
            if top in found.edges and found.kind in ("finish", "finish round"):
                table.needing(task, key)


def _edge_needs(table: _Table, key: str, task: Task) -> None:
    """An edge is finished when the seams that end on it are sewn (an open armhole while flat)."""
    for ref in task.edges:
        piece = table.pattern.piece(ref.piece)
        ends = _neighbours(piece, ref.edge)
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


def _ordered(table: _Table) -> tuple[Task, ...]:
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
