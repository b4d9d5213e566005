"""A piece of paper: its outline of named edges, its darts, marks, levels and grain."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import field, replace
from enum import StrEnum

from cutwright.errors import LookupFailed
from cutwright.frozen import frozen, remember
from cutwright.geometry.curve import Line
from cutwright.geometry.move import Move
from cutwright.geometry.outline import area
from cutwright.geometry.path import Path
from cutwright.geometry.point import Point, angle_between
from cutwright.memo import memoised
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.mark import MarkKind, Pressed
from cutwright.pattern.role import BODY, BodySide, PieceLayer, Role
from cutwright.pattern.sum import EdgeLength
from cutwright.pattern.takeup import folded_away


@frozen
class Dart:
    """A dart whose mouth lies on the outline.

    Its legs are the two outline edges `<name>.1` (walked to the tip) and `<name>.2` (walked from
    it).

    Parameters
    ----------
    name : in cutter's words, unique in the piece
    pivot : the point about which it closes
    tip : where the sewing ends
    kept : what is left beside each leg where its fold is cut away, cm; 0 leaves the fold whole,
        None leaves it to the finisher
    side : on paper that lies across the centre, the half it lies on
    """

    name: str
    pivot: Point
    tip: Point
    kept: float | None = None
    side: BodySide = BodySide.BOTH

    def moved(self, move: Move) -> Dart:
        """The dart after a rigid move."""
        return replace(self, pivot=move(self.pivot), tip=move(self.tip))


@frozen
class Diamond:
    """A waist dart with two points, inside the paper: intake widest between `near` and `far`.

    Parameters
    ----------
    name : in cutter's words, unique in the piece
    top, bottom : its two points
    near, far : its widest place towards the centre of the body and towards the side seam
    side : on paper that lies across the centre, the half it lies on
    """

    name: str
    top: Point
    bottom: Point
    near: Point
    far: Point
    side: BodySide = BodySide.BOTH

    @property
    def intake(self) -> float:
        """What it takes out at its widest, cm."""
        return abs(self.far - self.near)

    def moved(self, move: Move) -> Diamond:
        """The dart after a rigid move."""
        return replace(
            self,
            top=move(self.top),
            bottom=move(self.bottom),
            near=move(self.near),
            far=move(self.far),
        )


@frozen
class Mark:
    """A mark on the paper; a stretch runs from `at` to `to`.

    `edge` names the edge it sits on, if any; `amount` is what its kind measures, cm. A notch may
    tell which edge of the other row it `meets`, and which `copies` of the piece it is for (from 1;
    all of them where it does not say). A pleat tells which way it is `pressed`.
    """

    kind: MarkKind
    at: Point
    text: str = ""
    to: Point | None = None
    edge: str | None = None
    amount: float | None = None
    meets: str = ""
    copies: tuple[int, ...] = ()
    pressed: Pressed | None = None

    def moved(self, move: Move) -> Mark:
        """The mark after a rigid move."""
        return replace(self, at=move(self.at), to=None if self.to is None else move(self.to))


@frozen
class Level:
    """A girth line of the body on the paper ("bust", "waist", "hip"), walked across the piece.

    `points` run from one outline edge to another; where the paper was opened the gap lies
    between two of them and counts as cloth. (2 or more points, cm.)
    """

    name: str
    points: tuple[Point, ...]

    def moved(self, move: Move) -> Level:
        """The level after a rigid move."""
        return replace(self, points=tuple(move(p) for p in self.points))

    @property
    def length(self) -> float:
        """Width of the paper at this level, cm, opened gaps included."""
        return sum(abs(b - a) for a, b in zip(self.points, self.points[1:], strict=False))


class Material(StrEnum):
    """The cloths of a garment."""

    MAIN = "main"
    SECOND = "second"  # a contrast
    LINING = "lining"
    INTERLINING = "interlining"
    INTERFACING = "interfacing"


@frozen
class Cut:
    """How a piece is cut in one cloth: how many, whether left and right copies differ, which cloth."""

    copies: int = 1
    mirrored: bool = False
    material: Material = Material.MAIN

    def doubled(self) -> Cut:
        """For a piece that was on the fold and is seamed there: twice as many, left and right."""
        return replace(self, copies=2 * self.copies, mirrored=True)

    def halved(self) -> Cut:
        """For a piece that was cut left and right and is folded there: half as many."""
        return replace(self, copies=max(self.copies // 2, 1), mirrored=self.copies > 2)


def in_interfacing(cut: Cut) -> Cut:
    """The same once more in interfacing."""
    return replace(cut, material=Material.INTERFACING)


@frozen
class Piece:
    """One shape of paper. Edges form a closed loop, clockwise to the eye (y down).

    Parameters
    ----------
    name : in cutter's words, unique in the pattern
    edges : the stitch line
    grain : two places on the grain line, cm
    cut : how it is cut in the cloth that is sewn to the other pieces
    darts, diamonds, marks, levels : what is drawn on it
    role, layer : what it is in the garment, and on which layer it lies
    also : the same paper in other cloths
    side : the wearer's side it is for, where left and right have papers of their own
    """

    name: str
    edges: tuple[Edge, ...]
    grain: tuple[Point, Point]
    cut: Cut = Cut()
    darts: tuple[Dart, ...] = ()
    diamonds: tuple[Diamond, ...] = ()
    marks: tuple[Mark, ...] = ()
    levels: tuple[Level, ...] = ()
    role: Role = Role.NONE
    layer: PieceLayer = PieceLayer.OUTER
    also: tuple[Cut, ...] = ()
    side: BodySide = BodySide.BOTH
    _outline: Path = field(default=(), init=False, repr=False, compare=False)
    _area: float | None = field(default=None, init=False, repr=False, compare=False)
    _parts: dict[str, tuple[Edge, ...]] | None = field(
        default=None, init=False, repr=False, compare=False
    )

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """How it is cut in each cloth, the one that is sewn first."""
        return (self.cut, *self.also)

    def cut_in(self, material: Material) -> Cut | None:
        """How it is cut in a cloth; None where it is not."""
        return next((cut for cut in self.cuts if cut.material is material), None)

    @property
    def goes_round(self) -> bool:
        """Whether it is part of the body of the garment, on its outer layer."""
        return self.layer is PieceLayer.OUTER and self.role in BODY

    @property
    def outline(self) -> Path:
        """The stitch line as one closed chain."""
        if not self._outline:
            curves = tuple([curve for edge in self.edges for curve in edge.curves])
            remember(self, "_outline", curves)
        return self._outline

    @property
    def outer_edges(self) -> tuple[Edge, ...]:
        """The edges in the order of the outline as it is with its darts folded: their legs left out."""
        return _outer_edges(self)

    @property
    def area(self) -> float:
        """Area inside the stitch line, cm2 (positive when the loop is the right way round)."""
        known = self._area
        if known is None:
            known = area(self.outline)
            remember(self, "_area", known)
        return known

    @property
    def on_fold(self) -> bool:
        """Whether one edge lies on the fold of the cloth."""
        return any(edge.kind is EdgeKind.FOLD for edge in self.edges)

    @property
    def times(self) -> int:
        """How often each edge (but the fold) occurs in the garment."""
        return self.cut.copies * (2 if self.on_fold else 1)

    def dart_names(self) -> tuple[str, ...]:
        """The names of all darts, those at an edge first."""
        return (*(d.name for d in self.darts), *(d.name for d in self.diamonds))

    def edge_parts(self, label: str) -> tuple[Edge, ...]:
        """All living parts of an edge in the order of the outline.

        Raises
        ------
        LookupFailed : there is none; the message names what there is
        """
        known = parts_by_name(self)
        named = known.get(label)
        if named is not None:
            return named
        found = tuple(edge for edge in self.edges if edge.answers_to(label))
        if not found:
            raise LookupFailed(
                Message(
                    "no-edge",
                    N_('"{piece}" has no edge "{edge}". It has: {there}.'),
                    piece=self.name,
                    edge=label,
                    there=", ".join(self.edge_names()),
                )
            )
        known[label] = in_order(self.edges, found)
        return known[label]

    def edge(self, label: str) -> Edge:
        """The one edge of that name, or that part of one.

        Raises
        ------
        LookupFailed : there is none, or it has several parts
        """
        parts = self.edge_parts(label)
        if len(parts) > 1:
            raise LookupFailed(
                Message(
                    "parts-name-them",
                    N_('"{edge}" of "{piece}" is in {count} parts: {parts}. Name one of them.'),
                    edge=label,
                    piece=self.name,
                    count=len(parts),
                    parts=", ".join(p.label for p in parts),
                )
            )
        return parts[0]

    def edge_names(self) -> tuple[str, ...]:
        """Base names of the edges in outline order, dart legs left out."""
        return tuple(dict.fromkeys(e.name for e in self.outer_edges))

    def tape(self, name: str, step: float = 0.1) -> EdgeLength:
        """The length of an edge as a term of a sum.

        Parameters
        ----------
        name : of the edge
        step : how finely it is read, cm

        Returns
        -------
        the sewn length, over all its parts

        Raises
        ------
        LookupFailed : the piece has no such edge
        """
        return EdgeLength(Ref(self.name, name), self.edge_length(name), step)

    def edge_length(self, label: str) -> float:
        """Sewn length of an edge, all its parts together, cm."""
        return sum(self.sewn(edge) for edge in self.edge_parts(label))

    def paper_length(self, label: str) -> float:
        """Length of an edge on the paper, pleats and tucks laid open, all its parts together, cm."""
        return sum(edge.length for edge in self.edge_parts(label))

    def sewn(self, edge: Edge) -> float:
        """Length of one part of an edge with its pleats and tucks folded, cm."""
        return edge.length - folded_away(self, edge)

    def dart(self, name: str) -> Dart | Diamond:
        """The dart of that name.

        Raises
        ------
        LookupFailed : there is none; the message names those there are
        """
        every: tuple[Dart | Diamond, ...] = self.darts + self.diamonds
        for dart in every:
            if dart.name == name:
                return dart
        there = ", ".join(d.name for d in every)
        raise LookupFailed(
            Message(
                "no-dart",
                N_('"{piece}" has no dart "{dart}". It has: {there}.'),
                piece=self.name,
                dart=name,
                there=there or Message("none-2", N_("none")),
            )
        )

    def legs(self, dart: Dart) -> tuple[Edge, Edge]:
        """The two legs of a dart: the one walked to the tip and the one walked from it."""
        return self.edge(f"{dart.name}.1"), self.edge(f"{dart.name}.2")

    def mouth(self, dart: Dart) -> tuple[Point, Point]:
        """The two ends of a dart's mouth in the order of the outline."""
        to_tip, from_tip = self.legs(dart)
        return to_tip.start, from_tip.end

    def beside_mouth(self, dart: str) -> tuple[Edge, Edge]:
        """The edges that meet at a dart when it is sewn: the one before its mouth and the one after.

        Raises
        ------
        LookupFailed : no dart of that name opens on the outline
        """
        legs = [i for i, e in enumerate(self.edges) if e.taken_up and e.name == dart]
        if not legs:
            self.dart(dart)
            raise LookupFailed(
                Message(
                    "no-mouth",
                    N_('The "{dart}" of "{piece}" opens on no edge.'),
                    dart=dart,
                    piece=self.name,
                )
            )
        size = len(self.edges)
        first = next(i for i in legs if (i - 1) % size not in legs)
        last = next(i for i in legs if (i + 1) % size not in legs)
        return self.edges[first - 1], self.edges[(last + 1) % size]

    def dart_of(self, leg: Edge) -> Dart | None:
        """The dart whose leg an edge is; None for any other edge."""
        if not leg.taken_up:
            return None
        return next((d for d in self.darts if d.name == leg.name), None)

    def intake(self, dart: Dart) -> float:
        """Distance between the two legs at the mouth, cm."""
        a, b = self.mouth(dart)
        return abs(b - a)

    def dart_angle(self, dart: Dart) -> float:
        """The turn about the pivot that carries the second leg's mouth onto the first, radians."""
        a, b = self.mouth(dart)
        return angle_between(b - dart.pivot, a - dart.pivot)

    def level(self, name: str) -> Level | None:
        """The level of that name, or None."""
        return next((level for level in self.levels if level.name == name), None)

    def moved(self, move: Move) -> Piece:
        """The piece after a rigid move; a mirrored piece has its loop turned round again."""
        edges = tuple(edge.moved(move) for edge in self.edges)
        if move.mirrored:
            edges = tuple(edge.reversed() for edge in reversed(edges))
            edges = swap_leg_parts(edges)
        return replace(
            self,
            edges=edges,
            darts=tuple(d.moved(move) for d in self.darts),
            diamonds=tuple(d.moved(move) for d in self.diamonds),
            marks=tuple(m.moved(move) for m in self.marks),
            levels=tuple(level.moved(move) for level in self.levels),
            grain=(move(self.grain[0]), move(self.grain[1])),
        )


def legs_of(
    name: str, first: Point, tip: Point, last: Point, side: BodySide = BodySide.BOTH
) -> tuple[Edge, Edge]:
    """The two legs of a dart as edges of the outline, walked to the tip and from it.

    Parameters
    ----------
    name : of the dart
    first, last : both ends of its mouth in the order of the outline, cm
    tip : where both legs meet, cm
    side : the half they lie on, on paper across the centre

    Returns
    -------
    the edges `name.1` and `name.2`
    """
    return (
        Edge(name, (Line(first, tip),), EdgeKind.LEG, (1,), side=side),
        Edge(name, (Line(tip, last),), EdgeKind.LEG, (2,), side=side),
    )


def swap_leg_parts(edges: Iterable[Edge]) -> tuple[Edge, ...]:
    """Number dart legs anew after the loop was turned round: 1 leads to the tip, 2 from it."""
    return tuple(
        replace(edge, part=(3 - edge.part[0],)) if edge.taken_up else edge for edge in edges
    )


@memoised
def _outer_edges(piece: Piece) -> tuple[Edge, ...]:
    """The edges of a piece without the legs of its darts, the very same for as long as it is."""
    return tuple(edge for edge in piece.edges if not edge.taken_up)


def parts_by_name(piece: Piece) -> dict[str, tuple[Edge, ...]]:
    """The parts of each edge of a piece in walking order, by its plain name and by any label asked for."""
    known = piece._parts
    if known is None:
        found: dict[str, list[Edge]] = defaultdict(list)
        for edge in piece.edges:
            found[edge.name].append(edge)
        known = {name: in_order(piece.edges, tuple(parts)) for name, parts in found.items()}
        remember(piece, "_parts", known)
    return known


def in_order(loop: tuple[Edge, ...], parts: tuple[Edge, ...]) -> tuple[Edge, ...]:
    """The parts in walking order, beginning after the largest gap in the loop between them.

    Parameters
    ----------
    loop : all edges of a piece, clockwise
    parts : some of them, the very same objects
    """
    if len(parts) < 2:
        return parts
    places = {id(edge): at for at, edge in enumerate(loop)}
    index = [places[id(part)] for part in parts]
    size = len(loop)
    gaps = [(index[i] - index[i - 1]) % size for i in range(len(parts))]
    first = max(range(len(parts)), key=lambda i: (gaps[i], -i))
    return parts[first:] + parts[:first]
