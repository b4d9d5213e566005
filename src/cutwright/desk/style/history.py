"""Which sentence an edge came from, and which ones opened, moved or reshaped it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from cutwright.pattern.edge import Ref, parse_label
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.style.replay import Stage

_SAME = 0.05


@dataclass(frozen=True, slots=True)
class Origin:
    """The sentence (by place, from 0) that made an edge, and those that changed its length."""

    made: int
    changed: tuple[tuple[int, float, float], ...] = ()
    """(sentence, length before, length after), cm."""


Origins = Mapping[Ref, Origin]


def origins(stages: Sequence[Stage]) -> dict[Ref, Origin]:
    """Follow every edge, by its base name, from the sentence that made it to the end."""
    known: dict[Ref, Origin] = {}
    lengths: dict[Ref, float] = {}
    for index, stage in enumerate(stages):
        if stage.after is stage.before:
            continue
        now = _lengths(stage.after)
        sources = _sources(stage)
        known = {ref: _next(ref, index, size, known, lengths, sources) for ref, size in now.items()}
        lengths = now
    return known


def _next(
    ref: Ref,
    index: int,
    size: float,
    known: Mapping[Ref, Origin],
    lengths: Mapping[Ref, float],
    sources: Mapping[Ref, Ref],
) -> Origin:
    if ref in known:
        old = known[ref]
        if abs(lengths[ref] - size) > _SAME:
            return replace(old, changed=(*old.changed, (index, lengths[ref], size)))
        return old
    source = sources.get(ref)
    if source is not None and source in known:
        return known[source]
    return Origin(index)


def _lengths(pattern: Pattern) -> dict[Ref, float]:
    out: dict[Ref, float] = {}
    for piece in pattern.pieces:
        for edge in piece.edges:
            name = edge.label if edge.taken_up else edge.name
            ref = Ref(piece.name, name)
            out[ref] = out.get(ref, 0.0) + edge.length
    return out


def _sources(stage: Stage) -> dict[Ref, Ref]:
    out: dict[Ref, Ref] = {}
    for old, heirs in stage.result.change.became.items():
        for new in heirs:
            out.setdefault(_base(new), _base(old))
    return out


def _base(ref: Ref) -> Ref:
    return Ref(ref.piece, parse_label(ref.edge)[0])


def dart_names(piece: Piece) -> list[str]:
    """The names of all darts of a piece, those with a mouth first."""
    return [*(d.name for d in piece.darts), *(d.name for d in piece.diamonds)]
