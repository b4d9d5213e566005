"""What is sewn to what: layers of cloth on each other, each a row of edges."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import permutations
from math import gcd

from cutwright.pattern.edge import Ref

WALKS = 0.05
"""Layers of a seam whose lengths differ by no more than this, beside what is stated, walk (common practice), cm.

Steps refuse to part a seam by more, and the proof finds it.
"""


class SeamKind(StrEnum):
    """How a seam is sewn; it follows from its layers."""

    PLAIN = "plain"
    GATHERED = "gathered"  # a layer is drawn up onto the others
    EASED = "eased"  # a layer is held in
    FACING = "facing"  # a layer lies uppermost and is turned to the inside
    WAISTBAND = "waistband"  # a layer is a band
    BINDING = "binding"  # a layer is a strip that is turned round the edges of the others


class LayerPart(StrEnum):
    """What a layer of a seam is in the garment."""

    GARMENT = "garment"
    COLLAR = "collar"  # lies between garment and facing
    FACING = "facing"
    BAND = "band"
    BINDING = "binding"


class Held(StrEnum):
    """How a layer that is longer than the seam is brought to its length."""

    FLAT = "flat"
    GATHERED = "gathered"
    EASED = "eased"


_BY_PART = {
    LayerPart.BINDING: SeamKind.BINDING,
    LayerPart.BAND: SeamKind.WAISTBAND,
    LayerPart.FACING: SeamKind.FACING,
}
_BY_HELD = {
    Held.GATHERED: SeamKind.GATHERED,
    Held.EASED: SeamKind.EASED,
}
_MADE_OF = {
    SeamKind.FACING: (LayerPart.GARMENT, LayerPart.FACING),
    SeamKind.WAISTBAND: (LayerPart.GARMENT, LayerPart.BAND),
    SeamKind.BINDING: (LayerPart.BINDING, LayerPart.GARMENT),
}


@dataclass(frozen=True, slots=True)
class Side:
    """One edge in a layer of a seam; `backwards` when it is sewn against its outline direction."""

    ref: Ref
    backwards: bool = False
    strand: int = 0
    """Where a seam is sewn at two places, the one this edge belongs to; 0: it is sewn at each."""


@dataclass(frozen=True, slots=True)
class SeamLayer:
    """One layer of cloth in a seam.

    Parameters
    ----------
    sides : its edges in the walking order of the seam; every layer starts at the same end of it
    part : what it is in the garment
    ratio : how often the length of the seam goes into it; over 1 it is gathered
    ease : how much longer than that it is on purpose, cm
    held : how it is brought to the length of the seam
    """

    sides: tuple[Side, ...]
    part: LayerPart = LayerPart.GARMENT
    ratio: float = 1.0
    ease: float = 0.0
    held: Held = Held.FLAT

    @property
    def flat(self) -> bool:
        """Whether it is as long as the seam."""
        return self.ratio == 1 and not self.ease and self.held is Held.FLAT

    @property
    def gathered(self) -> bool:
        """Whether it is drawn up in gathers (from 1.02 to 1)."""
        return self.held is Held.GATHERED or self.ratio > 1.02

    @property
    def refs(self) -> tuple[Ref, ...]:
        """Its edges."""
        return tuple(side.ref for side in self.sides)

    @property
    def name(self) -> str:
        """A name for messages: `front: side + back: side`."""
        return " + ".join(map(str, self.refs))

    def wanted(self, length: float) -> float:
        """How long it is to be for a seam of a length.

        Parameters
        ----------
        length : of the seam, cm

        Returns
        -------
        cm
        """
        return self.ratio * length + self.ease


@dataclass(frozen=True, slots=True)
class Seam:
    """Layers of cloth that are sewn together, in the order in which they lie, right side of the garment first.

    Parameters
    ----------
    layers : two or more; one at least is as long as the seam itself
    made_by : the id of the step that made it, written in once the step is done
    open_ends : how many of its edges are sewn to nothing: 1 for the joins of strips in a row that
        does not close
    """

    layers: tuple[SeamLayer, ...]
    made_by: str = ""
    open_ends: int = 0

    @property
    def rows(self) -> tuple[tuple[Side, ...], ...]:
        """The edges of each layer."""
        return tuple(layer.sides for layer in self.layers)

    @property
    def row_sizes(self) -> tuple[int, ...]:
        """How many edges each layer has in a row, at one of the places where the seam is sewn."""
        return tuple(sum(side.strand in (0, 1) for side in row) for row in self.rows)

    @property
    def refs(self) -> tuple[Ref, ...]:
        """Every edge that takes part, layer by layer."""
        return tuple(side.ref for layer in self.layers for side in layer.sides)

    @property
    def name(self) -> str:
        """A name for messages: `front: side ~ back: side`."""
        return " ~ ".join(layer.name for layer in self.layers)

    @property
    def base(self) -> int:
        """Which layer is as long as the seam, so that the others are measured against it."""
        flat = [number for number, layer in enumerate(self.layers) if layer.flat]
        return flat[-1] if flat else len(self.layers) - 1

    @property
    def drawn(self) -> SeamLayer:
        """The layer that is drawn up or held in; the first where none is."""
        return next((layer for layer in self.layers if not layer.flat), self.layers[0])

    @property
    def ratio(self) -> float:
        """How much a layer is drawn up: its length for each cm of the seam."""
        return self.drawn.ratio

    @property
    def ease(self) -> float:
        """How much longer a layer is than the seam on purpose, cm."""
        return self.drawn.ease

    @property
    def kind(self) -> SeamKind:
        """How it is sewn."""
        parts = {layer.part for layer in self.layers}
        found = (kind for part, kind in _BY_PART.items() if part in parts)
        return next(found, _BY_HELD.get(self.drawn.held, SeamKind.PLAIN))

    @property
    def on_one_level(self) -> bool:
        """Whether it joins pieces that lie on beside each other: no gathers, band, facing or binding."""
        return self.kind in (SeamKind.PLAIN, SeamKind.EASED) and abs(self.ratio - 1) < 1e-6

    @property
    def own_mirror(self) -> bool:
        """Whether a piece is sewn to its own other half."""
        return len({frozenset(layer.refs) for layer in self.layers}) == 1

    @property
    def opposite(self) -> Iterator[tuple[SeamLayer, SeamLayer]]:
        """Every layer with every other one."""
        return permutations(self.layers, 2)

    def refs_of(self, *parts: LayerPart) -> tuple[Ref, ...]:
        """The edges of the layers that are one of some parts of the garment."""
        return tuple(ref for layer in self.layers if layer.part in parts for ref in layer.refs)

    def other_than(self, *parts: LayerPart) -> tuple[Ref, ...]:
        """The edges of the layers that are none of some parts of the garment."""
        return tuple(ref for layer in self.layers if layer.part not in parts for ref in layer.refs)

    def other_refs(self, ref: Ref) -> tuple[Ref, ...]:
        """What an edge is sewn to in this seam; the edge itself where it meets its own mirror."""
        others = [layer for layer in self.layers if ref not in layer.refs]
        return tuple(r for layer in others or self.layers[1:] for r in layer.refs)

    def laid_flat(self) -> Seam:
        """The seam with all layers equally long."""
        return replace(self, layers=tuple(SeamLayer(x.sides, x.part) for x in self.layers))

    def eased_times(self, count: float) -> Seam:
        """The seam with its ease so many times.

        Parameters
        ----------
        count : what the ease of every layer is multiplied by
        """
        return replace(
            self, layers=tuple(replace(layer, ease=layer.ease * count) for layer in self.layers)
        )

    def with_rows(self, rows: Sequence[Sequence[Side]]) -> Seam:
        """The seam with other edges in its layers."""
        layers = zip(self.layers, rows, strict=True)
        return replace(
            self, layers=tuple(replace(layer, sides=tuple(row)) for layer, row in layers)
        )


def layers_of(
    a: tuple[Side, ...],
    b: tuple[Side, ...],
    kind: SeamKind = SeamKind.PLAIN,
    ratio: float = 1.0,
    ease: float = 0.0,
) -> tuple[SeamLayer, SeamLayer]:
    """The two layers of a seam of a kind.

    Parameters
    ----------
    a, b : the edges of both: of a facing or a band `a` is the garment, of a binding `b`
    kind : how it is sewn
    ratio : length of `a` for each of `b`
    ease : how much longer `a` is on purpose, cm; negative: `b` is
    """
    first, second = _MADE_OF.get(kind, (LayerPart.GARMENT, LayerPart.GARMENT))
    held = {SeamKind.GATHERED: Held.GATHERED, SeamKind.EASED: Held.EASED}.get(kind, Held.FLAT)
    return SeamLayer(a, first, ratio, ease, held), SeamLayer(b, second)


def seam(
    a: tuple[Ref, ...] | Ref,
    b: tuple[Ref, ...] | Ref,
    *,
    ratio: float = 1.0,
    ease: float = 0.0,
    kind: SeamKind = SeamKind.PLAIN,
    same_way: bool = False,
) -> Seam:
    """A seam of edges that lie side by side: walked forwards along `a`, backwards along `b`.

    Two pieces laid edge to edge, right side up, run against each other along the seam. With
    `same_way` both run the same way (a facing under its garment, a piece and its own mirror).
    Give each row in walking order of the seam.

    Parameters
    ----------
    a, b : an edge, or the edges of a row in the walking order of the seam
    ratio : length of `a` for each of `b`; over 1 it is gathered
    ease : how much longer `a` is on purpose, cm; negative: `b` is
    kind : how it is sewn
    same_way : both rows run in the same direction

    Returns
    -------
    the seam, written on no pattern yet
    """
    left = (a,) if isinstance(a, Ref) else a
    right = (b,) if isinstance(b, Ref) else b
    rows = tuple(Side(r) for r in left), tuple(Side(r, backwards=not same_way) for r in right)
    return Seam(layers_of(*rows, kind, ratio, ease))


def share_of(times: list[int]) -> list[int]:
    """How often each edge counts when the seam is looked at once: multiplicities over their gcd."""
    common = gcd(*times) if times else 1
    return [t // max(common, 1) for t in times]
