"""What became of what: the account every step gives of the names it touched."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from cutwright.pattern.edge import EdgeKind, Ref, parse_label
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import in_order
from cutwright.pattern.seam import WALKS, Seam, Side
from cutwright.pattern.step_ref import NO_STEP, StepRef

Became = Mapping[Ref, tuple[Ref, ...]]


@dataclass(frozen=True, slots=True)
class Change:
    """An account of edge names.

    `became` tells for each edge that did not simply stay what it is now (nothing = removed);
    `made` lists edges that are new. Edges in neither are kept.
    """

    became: Became = field(default_factory=dict)
    made: frozenset[Ref] = frozenset()

    @property
    def split(self) -> tuple[Ref, ...]:
        """Edges that fell into several."""
        return tuple(ref for ref, now in self.became.items() if len(now) > 1)

    @property
    def joined(self) -> tuple[Ref, ...]:
        """Edges that went into an edge with another name."""
        return tuple(ref for ref, now in self.became.items() if len(now) == 1 and now[0] != ref)

    @property
    def removed(self) -> tuple[Ref, ...]:
        """Edges that are no more."""
        return tuple(ref for ref, now in self.became.items() if not now)


def follow(before: Pattern, pattern: Pattern, change: Change, step: StepRef = NO_STEP) -> Pattern:
    """Rewrite the seam list after a change, remember the names that were used up, and sign what is new.

    A seam side whose edge fell apart over several pieces names them all, in order; then a seam
    whose two sides break at the same place is written as several seams.

    Parameters
    ----------
    before : the pattern before the step, whose edges say in which order their parts are walked
    pattern : the pattern after it, its seams still as they were named
    change : what became of its edges
    step : who did it, for the memory

    Returns
    -------
    the pattern after, its seams naming what their edges are now; a seam one of whose rows is gone
    is left out
    """
    if not change.became:
        return _signed(pattern, step)
    seams: list[Seam] = []
    for seam in pattern.seams:
        rows = [_now(before, row, change) for row in seam.rows]
        if all(rows):
            seams.extend(_broken(pattern, seam.with_rows(rows)))
    spent = tuple((str(ref), step) for ref in change.removed)
    return _signed(pattern.sewn(tuple(seams), pattern.spent + spent), step)


def _signed(pattern: Pattern, step: StepRef) -> Pattern:
    """The pattern with the step written on the seams and the used-up names that bear none yet."""
    if all(s.made_by for s in pattern.seams) and all(by.id for _name, by in pattern.spent):
        return pattern
    seams = tuple(s if s.made_by else replace(s, made_by=step.id) for s in pattern.seams)
    spent = tuple((name, by if by.id else step) for name, by in pattern.spent)
    return pattern.sewn(seams, spent)


def _now(before: Pattern, sides: tuple[Side, ...], change: Change) -> tuple[Side, ...]:
    """Where the edges of one row of a seam are now, in walking order."""
    out: list[Side] = []
    for side in sides:
        refs = [
            now for ref in _part_refs(before, side.ref) for now in change.became.get(ref, (ref,))
        ]
        if side.backwards:
            refs.reverse()
        out.extend(replace(side, ref=_base(ref)) for ref in refs)
    return tuple(dict.fromkeys(out))


def _part_refs(before: Pattern, ref: Ref) -> list[Ref]:
    edges = before.named_edges(ref.piece)
    parts = in_order(edges, tuple(e for e in edges if e.answers_to(ref.edge)))
    if not parts:
        return [ref]  # sewn on by this very step
    return [Ref(ref.piece, part.label) for part in parts]


def _base(ref: Ref) -> Ref:
    return Ref(ref.piece, parse_label(ref.edge)[0])


def _broken(pattern: Pattern, seam: Seam) -> list[Seam]:
    """Split a plain seam wherever all its layers have a break at the same distance (0.05 cm)."""
    if seam.ratio != 1 or seam.ease or min(map(len, seam.rows)) < 2:
        return [seam]
    count = len(seam.layers)
    rows: list[list[Side]] = [[] for _layer in range(count)]
    walked = [0.0] * count
    out: list[Seam] = []
    queue = [list(row) for row in seam.rows]
    while any(queue):
        turn = min((k for k in range(count) if queue[k]), key=walked.__getitem__)
        side = queue[turn].pop(0)
        rows[turn].append(side)
        walked[turn] += pattern.length(side.ref)
        if all(rows) and max(walked) - min(walked) < WALKS:
            out.append(seam.with_rows(rows))
            rows = [[] for _layer in range(count)]
            walked = [0.0] * count
    return [seam] if any(rows) else out


def account(
    before: Pattern,
    after: Pattern,
    became: Became | None = None,
    removed: frozenset[Ref] = frozenset(),
) -> Change:
    """The account of a step, from the names before and after.

    Parts of an edge that joined (`waist.1` and `waist.2` into `waist`) or an edge that fell into
    parts are recognised by their labels; `became` tells what labels alone cannot, and `removed`
    lists edges that are meant to be gone.

    Parameters
    ----------
    before, after : the paper
    became : where an edge went whose name does not say so
    removed : edges that are meant to be gone

    Returns
    -------
    what became of every name, and the names that are new
    """
    told = dict(became or {})
    old, new = before.refs, after.refs
    for ref in sorted(old - new - set(told), key=str):
        heirs = tuple(_heirs(ref, after))
        if heirs or ref in removed or _is_leg(before, ref):
            told[ref] = heirs
    reached = {ref for now in told.values() for ref in now}
    return Change(told, frozenset(new - old - reached))


def _heirs(ref: Ref, after: Pattern) -> list[Ref]:
    name, part = parse_label(ref.edge)
    edges = after.named_edges(ref.piece)
    parts = [Ref(ref.piece, e.label) for e in edges if e.answers_to(ref.edge)]
    if parts:
        return parts
    return [
        Ref(ref.piece, e.label)
        for e in edges
        if e.name == name and e.part == part[: len(e.part)] and e.kind is not EdgeKind.LEG
    ]


def _is_leg(pattern: Pattern, ref: Ref) -> bool:
    edges = pattern.named_edges(ref.piece)
    return any(e.kind is EdgeKind.LEG and e.label == ref.edge for e in edges)
