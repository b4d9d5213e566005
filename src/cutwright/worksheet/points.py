"""Ruler figures: where the corners and curves of a draft lie, and where paper is cut and opened.

With these a piece can be drawn and worked by hand with a ruler, a square and a curve: across is
measured from the centre line of the block, down from the nape or the waist, both in cm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cutwright.geometry.path import (
    Path,
    distance_from,
    is_straight,
    nearest_distance,
    path_length,
    point_at,
)
from cutwright.geometry.point import Point
from cutwright.numerals import PAPER, amount, bare, in_inches, number, unit_name
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Trace, TraceKind
from cutwright.style.replay import Stage
from cutwright.wording.names import name_text, sentence_case, title_of
from cutwright.words import N_, _
from cutwright.worksheet.sheet import Block, SheetTable, Text
from cutwright.worksheet.through import shares

_ON = 0.05
_APART = 0.8
"""A level that ends so near to a corner has no place of its own, cm."""

ACROSS = {
    False: N_("Across: from centre front or centre back."),
    True: N_("Across: from the middle, to both sides."),
}
DOWN = {
    "nape": N_("Down: from the level of the nape (0); a minus is above it."),
    "waist": N_("Down: from the waist at the centre (0); a minus is above it."),
    "drawing": N_("Down: from the upper end of the drawing (0)."),
}


@dataclass(frozen=True, slots=True)
class DraftPlace:
    """A place of a draft: what it is called, where it lies, and the edges or the dart and level it is at."""

    words: str
    at: Point
    meet: frozenset[str] = frozenset()
    level: str = ""


def draft_tables(stage: Stage) -> tuple[Block, ...]:
    """A table of ruler figures for each piece that the step drafted from nothing."""
    drafted = drafted_pieces(stage)
    if not drafted:
        return ()
    note = _(
        "Points in {unit}. {across} {down} Join straight edges with the ruler, the others with a curve."
    )
    told_by = {(_from_middle(piece), _from_top(piece)) for piece in drafted}
    texts = [
        Text(note.format(unit=unit_name(), across=_(ACROSS[middle]), down=_(DOWN[top])), "note")
        for middle, top in sorted(told_by)
    ]
    return (*texts, *(_table(piece) for piece in drafted))


def _from_middle(piece: Piece) -> bool:
    return _middle(piece) is not None


def _from_top(piece: Piece) -> str:
    """Where a draft has its level 0."""
    kinds = {edge.kind for edge in piece.edges}
    return (
        "nape" if EdgeKind.NECKLINE in kinds else "waist" if EdgeKind.WAIST in kinds else "drawing"
    )


def drafted_pieces(stage: Stage) -> list[Piece]:
    """The pieces a step drew while it left all others as they were; plain rectangles need no figures."""
    now = {piece.name: piece for piece in stage.after.pieces}
    old = {piece.name for piece in stage.before.pieces}
    if any(p.name not in now or p.outline != now[p.name].outline for p in stage.before.pieces):
        return []
    return [p for p in stage.after.pieces if p.name not in old and not _is_rectangle(p)]


def _is_rectangle(piece: Piece) -> bool:
    """Whether a piece is drawn with a square from its length and width alone."""
    if not all(is_straight(edge.curves, _ON) for edge in piece.edges):
        return False
    sides = [edge.end - edge.start for edge in piece.edges]
    turned = [side * sides[0].conjugate() / abs(sides[0]) for side in sides]
    corners = zip(turned, turned[1:] + turned[:1], strict=True)
    square = all(min(abs(t.real), abs(t.imag)) < _ON for t in turned)
    return square and sum((a.conjugate() * b).real < _ON for a, b in corners) == 4


def drawn_tables(stage: Stage) -> tuple[SheetTable, ...]:
    """Ruler figures of every line that a step drew anew, where its centre line stayed in its place."""
    traces = stage.result.traces
    turned = {t.piece for t in traces if t.kind in (TraceKind.WEDGE, TraceKind.FOLDED)}
    rows: dict[tuple[str, str], dict[tuple[str, str, str], None]] = {}
    for trace in traces:
        piece = next((p for p in stage.after.pieces if p.name == trace.piece), None)
        if trace.kind != TraceKind.TRUED or piece is None:
            continue
        if piece.name in turned and not _centre_stays(piece, stage):
            continue
        for edge in _edges_along(piece, trace.path):
            own = rows.setdefault((piece.name, edge.name), {})
            for spot in _on_line(piece, edge):
                own[spot.words, _across(piece, spot.at), bare(spot.at.imag, parts=PAPER)] = None
    return tuple(
        SheetTable(
            (title_of(f"{piece}: {edge}"), _("across"), _("down")),
            tuple(own),
            (0.62, 0.19, 0.19),
            frozenset({1, 2}),
            across=2,
        )
        for (piece, edge), own in rows.items()
    )


def _centre_stays(piece: Piece, stage: Stage) -> bool:
    """Whether the centre line of a piece lies where it lay before the paper was turned."""
    old = [e for p in stage.before.pieces if p.name == piece.name for e in p.edges]
    ends = [(e.start, e.end) for e in old if e.at_centre]
    now = [(e.start, e.end) for e in piece.edges if e.at_centre]
    return bool(now) and all(
        min((abs(a - c) + abs(b - d) for c, d in ends), default=1.0) < _ON for a, b in now
    )


def measured_line(stage: Stage) -> tuple[Text, ...]:
    """What a step measures, with the lengths of the reference body; nothing where it measures none."""
    found = [t for t in stage.result.traces if t.kind == TraceKind.MEASURED and t.path]
    if not found:
        return ()
    edges = ", ".join(f"{name_text(t.piece)} {_measured(path_length(t.path))}" for t in found)
    text = _(
        "Measured on the reference body: {edges}. Working on that body, draw your line anew until it "
        "measures this, and go on with the figure printed."
    )
    return (Text(text.format(edges=edges), "note"),)


def _measured(value: float) -> str:
    """A length on paper; in inches with centimetres behind, for the sums that go on from it."""
    return f"{bare(value, parts=PAPER)} ({number(value)})" if in_inches() else number(value)


def _edges_along(piece: Piece, path: Path) -> Iterator[Edge]:
    """The edges, in the order of the outline, that lie on a path; centres are left out."""
    for edge in piece.outer_edges:
        if edge.at_centre or not path:
            continue
        places = (edge.start, point_at(edge.curves, edge.length / 2), edge.end)
        if all(distance_from(path, p) < _ON for p in places):
            yield edge


def _on_line(piece: Piece, edge: Edge) -> Iterator[DraftPlace]:
    """The ends of an edge and places between."""
    index, size = piece.edges.index(edge), len(piece.edges)
    yield DraftPlace(_corner(piece.edges[index - 1], edge), edge.start)
    yield from _between(piece, edge)
    yield DraftPlace(_corner(edge, piece.edges[(index + 1) % size]), edge.end)


def _table(piece: Piece) -> SheetTable:
    rows = [(p.words, _across(piece, p.at), bare(p.at.imag, parts=PAPER)) for p in spots(piece)]
    head = (title_of(piece.name), _("across"), _("down"))
    return SheetTable(head, tuple(rows), (0.62, 0.19, 0.19), frozenset({1, 2}), across=2)


def _across(piece: Piece, at: Point) -> str:
    """Distance from the centre line, towards the side; to both sides where the piece has both."""
    middle = _middle(piece)
    if middle is not None:
        return bare(at.real - middle, parts=PAPER)
    return bare(-at.real if _to_left(piece) else at.real, parts=PAPER)


def _middle(piece: Piece) -> float | None:
    """The middle of a piece without a centre edge that is alike on both sides, such as a flounce."""
    if any(edge.at_centre for edge in piece.edges):
        return None
    corners = [edge.start for edge in piece.edges]
    middle = sum(c.real for c in corners) / len(corners)
    alike = all(
        any(abs(2 * middle - c.real - d.real) + abs(c.imag - d.imag) < _ON for d in corners)
        for c in corners
    )
    return middle if alike else None


def _to_left(piece: Piece) -> bool:
    return sum(edge.start.real for edge in piece.edges) < 0


def spots(piece: Piece) -> Iterator[DraftPlace]:
    """Every place a ruler needs: the outline in order, corners and places on curves; then the darts within."""
    yield from outline_spots(piece)
    for d in piece.diamonds:
        name, own = sentence_case(name_text(d.name)), frozenset({d.name})
        yield DraftPlace(_("{dart}, upper point").format(dart=name), d.top, own, "top")
        yield DraftPlace(_("{dart}, lower point").format(dart=name), d.bottom, own, "bottom")
        near = _("{dart}, widest, towards the centre").format(dart=name)
        yield DraftPlace(near, d.near, own, "near")
        yield DraftPlace(_("{dart}, widest, towards the side").format(dart=name), d.far, own, "far")


def outline_spots(piece: Piece) -> Iterator[DraftPlace]:
    """The places of the outline in order."""
    size = len(piece.edges)
    for index, edge in enumerate(piece.edges):
        before = piece.edges[(index - 1) % size]
        meet = frozenset({before.name, edge.name})
        yield DraftPlace(_corner(before, edge), edge.start, meet, _at_dart(piece, before, edge))
        yield from _between(piece, edge)


def _between(piece: Piece, edge: Edge) -> Iterator[DraftPlace]:
    """Places on a curve between its ends: where it passes a level, and as many more as a hand needs."""
    name = _edge_name(piece, edge)
    levels = _levels_on(piece, edge)
    straight = is_straight(edge.curves, _ON)
    for share in sorted(levels) if straight else shares(edge.curves, tuple(levels)):
        if share in levels:
            words = _("{edge}, at the {level}").format(edge=name, level=name_text(levels[share]))
        else:
            words = _("{edge}, {percent} % along").format(edge=name, percent=round(share * 100))
        at = point_at(edge.curves, edge.length * share)
        yield DraftPlace(words, at, frozenset({edge.name}), levels.get(share, ""))


def _at_dart(piece: Piece, before: Edge, after: Edge) -> str:
    """Which place of a dart a corner is: "near" or "far" of its mouth, seen from the centre, or its "tip"."""
    dart = piece.dart_of(before) or piece.dart_of(after)
    if dart is None:
        return ""
    if before.kind is after.kind:
        return "tip"
    near = min(piece.mouth(dart), key=lambda p: abs(p.real))
    return "near" if abs(after.start - near) < _ON else "far"


def _levels_on(piece: Piece, edge: Edge) -> dict[float, str]:
    """The levels that end on an edge, by the share of its length at which they do."""
    out: dict[float, str] = {}
    for level in piece.levels:
        for end in (level.points[0], level.points[-1]):
            share = nearest_distance(edge.curves, end) / edge.length
            if (
                distance_from(edge.curves, end) < _ON
                and _APART < share * edge.length < edge.length - _APART
            ):
                out[share] = level.name
    return out


def _edge_name(piece: Piece, edge: Edge) -> str:
    """What an edge is called; one of several with a name by its neighbours as well."""
    name = sentence_case(name_text(edge.name))
    if sum(e.name == edge.name for e in piece.edges) == 1:
        return name
    index = piece.edges.index(edge)
    before, after = piece.edges[index - 1], piece.edges[(index + 1) % len(piece.edges)]
    return _("{edge} between {one} and {other}").format(
        edge=name, one=name_text(before.name), other=name_text(after.name)
    )


def _corner(before: Edge, after: Edge) -> str:
    legs = [e for e in (before, after) if e.taken_up]
    if len(legs) == 2 and before.name == after.name:
        return _("{dart}, point").format(dart=sentence_case(name_text(before.name)))
    if legs:
        other = after if legs[0] is before else before
        return _("{dart}, mouth on the {edge}").format(
            dart=sentence_case(name_text(legs[0].name)), edge=name_text(other.name)
        )
    return _("{edge} meets {other}").format(
        edge=sentence_case(name_text(before.name)), other=name_text(after.name)
    )


def cut_lines(stage: Stage) -> tuple[Text, ...]:
    """Where each slash runs, how far it opens, and what of a dart's mouth is left, a line each."""
    pieces = {piece.name: piece for piece in stage.before.pieces}
    traces = stage.result.traces
    cuts = [t for t in traces if t.kind == TraceKind.CUT and len(t.points) == 2]
    wedges = [t for t in traces if t.kind == TraceKind.WEDGE]
    out: list[Text] = []
    for cut, wedge in zip(cuts, wedges, strict=False):
        piece = pieces.get(cut.piece)
        if piece is not None:
            out.append(Text(_slash(piece, cut, wedge) + _left_open(piece, cut, traces), "sum"))
    folds = [t for t in traces if t.kind == TraceKind.FOLDED and t.piece in pieces]
    out += [Text(_fold(pieces[fold.piece], fold), "sum") for fold in folds]
    return tuple(out)


def _fold(piece: Piece, fold: Trace) -> str:
    hinge, one, other = fold.points
    return _("{piece}: fold a wedge out, {wide} wide at {start}, to nothing at {end}.").format(
        piece=title_of(piece.name),
        start=place_words(piece, (one + other) / 2),
        end=place_words(piece, hinge),
        wide=bare(abs(other - one), parts=PAPER),
    )


def _slash(piece: Piece, cut: Trace, wedge: Trace) -> str:
    hinge, far = cut.points
    return _("{piece}: slash from {start} to {end}; open {wide}.").format(
        piece=title_of(piece.name),
        start=place_words(piece, far),
        end=place_words(piece, hinge),
        wide=bare(opening(wedge), parts=PAPER),
    )


def _left_open(piece: Piece, cut: Trace, traces: Sequence[Trace]) -> str:
    """What of the mouth does not close, because truing the sewn edge takes it."""
    dart = next((d for d in piece.darts if abs(d.pivot - cut.points[0]) < _ON), None)
    closed = next(
        (
            t
            for t in traces
            if t.kind == TraceKind.CLOSED
            and t.piece == piece.name
            and len(t.points) > 2
            and abs(t.points[1] - cut.points[0]) < _ON
        ),
        None,
    )
    if dart is None or closed is None:
        return ""
    gap = abs(piece.mouth(dart)[1] - closed.points[2])
    if gap < _ON:
        return ""
    return " " + _("{gap} of the mouth stay open; they go when the sewn edge is trued.").format(
        gap=bare(gap, parts=PAPER)
    )


def opening(wedge: Trace) -> float:
    """How wide a wedge stands open at its free edge, cm."""
    ring = wedge.points
    return abs(ring[2] - ring[1]) if len(ring) > 2 else 0.0


def place_words(piece: Piece, at: Point) -> str:
    """A place on a piece in words: the point of a dart, or so far along an edge from a corner."""
    for dart in piece.darts:
        if abs(dart.tip - at) < _ON or abs(dart.pivot - at) < _ON:
            return _("the point of the {dart}").format(dart=name_text(dart.name))
    edges = list(piece.outer_edges)
    edge = min(edges, key=lambda e: distance_from(e.curves, at))
    if distance_from(edge.curves, at) > 0.5:
        return _("a place {across} across, {down} down").format(
            across=_across(piece, at), down=bare(at.imag, parts=PAPER)
        )
    return _on_edge(piece, edge, at)


def _on_edge(piece: Piece, edge: Edge, at: Point) -> str:
    """So far along an edge, from the nearer end that is a corner with another edge."""
    index = piece.edges.index(edge)
    along = nearest_distance(edge.curves, at)
    before, after = piece.edges[index - 1], piece.edges[(index + 1) % len(piece.edges)]
    from_start = not before.taken_up and (after.taken_up or along <= edge.length / 2)
    near, distance = (before, along) if from_start else (after, edge.length - along)
    return _("the {edge}, {distance} from the {near}").format(
        edge=name_text(edge.name),
        distance=amount(distance, 1, parts=PAPER),
        near=name_text(near.name),
    )
