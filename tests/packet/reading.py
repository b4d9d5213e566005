"""pattern.json read back with nothing but numpy and shapely: lines, edges, rows that are sewn.

Written apart from the program, so that a slip in its geometry or in its checks shows here.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

Line = NDArray[np.complex128]
_FINE = 24


def spot(pair: list[float]) -> complex:
    """A place of the document."""
    return complex(*pair)


def controls(entry: dict[str, Any]) -> Line:
    """The two or four points of a curve."""
    return np.array([spot(p) for p in entry.get("line") or entry["cubic"]])


def sampled(entry: dict[str, Any]) -> Line:
    """Points along one curve of the document, both ends among them."""
    c = controls(entry)
    if len(c) == 2:
        return c
    t = np.linspace(0.0, 1.0, _FINE + 1)
    s = 1 - t
    return np.asarray(s**3 * c[0] + 3 * s * s * t * c[1] + 3 * s * t * t * c[2] + t**3 * c[3])


def length(line: Line) -> float:
    """How long a chain of points is."""
    return float(np.abs(np.diff(line)).sum())


def along(line: Line, place: complex) -> float:
    """How far along a chain the point nearest to a place lies."""
    return float(shapely.LineString(xy(line)).project(shapely.Point(place.real, place.imag)))


def xy(line: Line) -> NDArray[np.float64]:
    """The two columns that shapely takes."""
    return np.stack([line.real, line.imag], axis=1)


@dataclass(frozen=True)
class Piece:
    """One piece of the document."""

    entry: dict[str, Any]

    @property
    def name(self) -> str:
        """What it is called."""
        return str(self.entry["name"])

    @cached_property
    def edges(self) -> dict[str, dict[str, Any]]:
        """Every edge by its label, in the order of the outline."""
        return {edge["name"]: edge for edge in self.entry["edges"]}

    def chain(self, label: str, line: str = "stitch_line") -> Line:
        """An edge as a chain of points, on the stitch line or the cut line."""
        parts = [sampled(c) for c in self.entry[line] if c["edge"] == label]
        return np.concatenate(parts) if parts else np.zeros(0, np.complex128)

    def ring(self, line: str) -> shapely.Polygon:
        """The stitch line or the cut line as a polygon."""
        return shapely.Polygon(xy(np.concatenate([sampled(c) for c in self.entry[line]])))

    def neighbour(self, label: str, end: bool) -> dict[str, Any]:
        """The edge that follows an edge on the outline, or goes before it."""
        labels = list(self.edges)
        at = labels.index(label) + (1 if end else -1)
        return self.edges[labels[at % len(labels)]]

    def marks(self, *kinds: str) -> list[dict[str, Any]]:
        """The marks of some kinds."""
        return [m for m in self.entry["marks"] if m["kind"] in kinds]


Notch = tuple[float, frozenset[int]]
"""How far along an edge a notch lies, and for which copies of its piece it is."""


@dataclass(frozen=True)
class Stretch:
    """An edge as it is sewn: where it starts in its row, how long it is, its marks."""

    piece: Piece
    labels: tuple[str, ...]
    backwards: bool
    times: int
    strand: int = 0

    @property
    def made(self) -> int:
        """How often it is there in the whole garment."""
        return int(self.piece.entry["cut"]["copies"]) * (
            2 if self.piece.entry["cut"]["on_fold"] else 1
        )

    @property
    def half(self) -> bool:
        """Whether left and right in the garment are mirror images cut from this paper."""
        return bool(self.piece.entry["cut"]["on_fold"] or self.piece.entry["cut"]["mirrored"])

    @cached_property
    def _walked(self) -> tuple[float, tuple[Notch, ...], tuple[float, ...]]:
        at, notches, darts = 0.0, list[Notch](), list[float]()
        for label in self.labels:
            line = self.piece.chain(label)
            line = line[::-1] if self.backwards else line
            size = length(line)
            for mark in self.piece.marks("notch"):
                if mark.get("edge") == label:
                    place = at + along(line, spot(mark["at"]))
                    notches.append((place, frozenset(mark.get("copies") or ())))
            at += size
            darts.append(at)
        return at, tuple(notches), tuple(darts[:-1])

    @property
    def size(self) -> float:
        """Its length."""
        return self._walked[0]

    @property
    def notches(self) -> tuple[Notch, ...]:
        """How far along its notches lie, and for which copies they are (none named: for all)."""
        return self._walked[1]

    @property
    def darts(self) -> tuple[float, ...]:
        """How far along its darts are folded out."""
        return self._walked[2]

    def outer(self, end: bool) -> dict[str, Any]:
        """The edge that goes on beyond its start or its end, in the order in which it is sewn."""
        label = self.labels[-1] if end else self.labels[0]
        return self.piece.neighbour(label, end != self.backwards)


Row = tuple[Stretch, ...]


@dataclass(frozen=True)
class Seam:
    """Two rows that are sewn together, from the same end."""

    kind: str
    rows: tuple[Row, Row]
    ease: float

    @property
    def name(self) -> str:
        """What is sewn to what."""
        told = [" + ".join(f"{s.piece.name}: {s.labels[0]}" for s in row) for row in self.rows]
        return " to ".join(told)


@dataclass(frozen=True)
class Document:
    """A whole pattern.json."""

    entry: dict[str, Any]

    @cached_property
    def pieces(self) -> dict[str, Piece]:
        """Every piece by its name."""
        return {p["name"]: Piece(p) for p in self.entry["pieces"]}

    @cached_property
    def seams(self) -> tuple[Seam, ...]:
        """Every seam."""
        return tuple(
            Seam(s["kind"], (self._row(s["a"]), self._row(s["b"])), s["ease"])
            for s in self.entry["seams"]
        )

    def _row(self, sides: list[dict[str, Any]]) -> Row:
        return tuple(
            Stretch(
                self.pieces[s["piece"]],
                tuple(s["parts"]),
                s["backwards"],
                s["times"],
                s.get("strand", 0),
            )
            for s in sides
        )
