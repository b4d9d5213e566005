"""Draw facings for the neck, the armhole or both: they copy the edge and end in an outer edge."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.geometry.path import distance_from
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.cutting.flare import refuse_if_crossing
from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.pattern.parts.faced import beside, facing_piece, swept
from cutwright.pattern.parts.folded import FoldedStretch, folded_stretch
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Finding, Result, Severity, Trace, TraceKind
from cutwright.pattern.seam import Seam, SeamKind, seam
from cutwright.pattern.sum import Figure
from cutwright.style.parameter import Flag, Length, PieceName, Within
from cutwright.style.registry import register
from cutwright.style.step import Step

_NAMES = {
    "neck": "{piece} neck facing",
    "armhole": "{piece} armhole facing",
    "combined": "{piece} facing",
}
_PIECE_TO_PIECE = (SeamKind.PLAIN, SeamKind.EASED, SeamKind.GATHERED)
_EDGES = {"neck": EdgeKind.NECKLINE, "armhole": EdgeKind.ARMHOLE}


@dataclass(frozen=True, slots=True)
class _Made:
    piece: Piece
    garment: str
    copied: frozenset[str]
    cut_short: frozenset[str]
    closed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Narrow:
    """A piece whose shoulder is too short for two facings: its length, the other's width there."""

    piece: str
    shoulder: float
    other: float


@register
class Facing(Step):
    """Draw a facing for an edge of several pieces."""

    SENTENCE: ClassVar[str] = N_("Draw {kind} facings for {pieces}, {width} cm wide.")
    HELP: ClassVar[str] = N_(
        "The facing copies the edge exactly as it is now and takes the given width of the edges beside it; darts "
        "that open on the faced part are folded shut in it. A combined facing covers neckline, shoulder and "
        "armhole in one; it is drawn by itself where facings of neck and armhole would overlap on the shoulder. Draw it when neckline and armhole have their final shape."
    )
    WHY: ClassVar[str] = N_(
        "A facing finishes an edge and keeps it from stretching. Cut to another line than the edge, it "
        "pulls or stands away."
    )
    CLOTH: ClassVar[str] = N_(
        "4 to 6 cm wide in medium cloth. Face heavy cloth with lining; bind sheer cloth, since a facing "
        "shows through."
    )
    GROUP: ClassVar[str] = "facings and bands"

    do: Literal["facing"] = "facing"
    pieces: tuple[PieceName, ...] = Field(
        default=("front", "back"),
        min_length=1,
        max_length=6,
        description=N_("the pieces that are faced"),
        json_schema_extra={"role": "pieces"},
    )
    kind: Literal["neck", "armhole", "combined"] = Field(
        default="neck", description=N_("what is faced")
    )
    width: Annotated[Length, Within(2.0, 20.0)] = Field(
        default=6.0, description=N_("width of the facing")
    )
    interfacing: Flag = Field(default=True, description=N_("cut in interfacing as well"))

    def clauses(self) -> tuple[str, ...]:
        """Tell where there is no interfacing."""
        return (self.SENTENCE,) if self.interfacing else (self.SENTENCE, N_("Without interfacing."))

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Copy the edges, draw the outer edges, sew the facings on and to each other.

        Where they would overlap on the shoulder with facings of the other edge, both are drawn in one.
        """
        width = self.cm("width", pattern, body)
        there = self._other(pattern)
        narrow = _narrowest(pattern, self.pieces, there, width)
        if narrow is not None:
            return self._in_one(pattern, body, there, narrow, width)
        made = [self._made(pattern.piece(name), width) for name in self.pieces]
        taken = set(pattern.names)
        for one in made:
            if one.piece.name in taken:
                raise StepError(
                    Message("already", N_('There is a "{piece}" already.'), piece=one.piece.name)
                )
            taken.add(one.piece.name)
        seams = [s for one in made for s in self._sewn_on(one)] + self._joined(pattern, made)
        changed = pattern.with_pieces(*(one.piece for one in made)).with_seams(*seams)
        return Result(
            changed,
            account(pattern, changed),
            tuple(f for one in made for f in self._figures(pattern, one)),
            traces=tuple(Trace(TraceKind.ADDED, m.piece.name, path=m.piece.outline) for m in made),
        )

    def _other(self, pattern: Pattern) -> tuple[Piece, ...]:
        """The facings of the other edge of the same pieces; none where one of them is missing."""
        kind = {"neck": "armhole", "armhole": "neck"}.get(self.kind)
        if kind is None:
            return ()
        names = [_NAMES[kind].format(piece=name) for name in self.pieces]
        there = set(pattern.names) >= set(names)
        return tuple(pattern.piece(name) for name in names) if there else ()

    def _in_one(
        self,
        pattern: Pattern,
        body: Body,
        there: tuple[Piece, ...],
        narrow: _Narrow,
        width: float,
    ) -> Result:
        """Take the facings that are there away and face neck and armhole together."""
        gone = {piece.name for piece in there}
        bare = pattern.without(gone)
        seams = tuple(s for s in bare.seams if not any(ref.piece in gone for ref in s.refs))
        both = self.replaced(kind="combined", width=max(width, narrow.other))
        done = both.apply(bare.sewn(seams), body)
        text = Message(
            "shoulder-cm-long-facings-cm",
            N_(
                'The shoulder of "{piece}" is {shoulder:.1f} cm long, so facings {other:.1f} cm and {width:.1f} cm wide '
                "would overlap there and lie thick. Neck and armhole are faced in one piece instead. To have them apart, "
                "draw both narrower or bind one edge with a bias strip."
            ),
            piece=narrow.piece,
            shoulder=narrow.shoulder,
            other=narrow.other,
            width=width,
        )
        note = Finding("facings-in-one", Severity.NOTE, narrow.piece, text, narrow.shoulder)
        return replace(done, change=account(pattern, done.pattern), findings=(*done.findings, note))

    def _made(self, piece: Piece, width: float) -> _Made:
        stretch = self._stretch(piece)
        faced = (swept if self.kind == "combined" else beside)(piece, stretch, width)
        name = _NAMES[self.kind].format(piece=piece.name)
        out = refuse_if_crossing(
            facing_piece(piece, name, stretch, faced, self.interfacing), N_("Drawing the facing")
        )
        copied = frozenset(e.name for e in stretch.copied)
        if self.kind == "combined":
            copied = frozenset(e.name for e in stretch.copied if e.kind is not EdgeKind.SHOULDER)
        short = frozenset({stretch.before.name, stretch.after.name})
        closed = tuple(n for n, p in stretch.closed if distance_from(out.outline, p) < 1e-4)
        return _Made(out, piece.name, copied, short, closed)

    def _stretch(self, piece: Piece) -> FoldedStretch:
        if self.kind != "combined":
            label = _edge_of(piece, _EDGES[self.kind])
            return folded_stretch(piece, label, label)
        neck, arm = _edge_of(piece, EdgeKind.NECKLINE), _edge_of(piece, EdgeKind.ARMHOLE)
        first, last = (arm, neck) if _leads_to(piece, arm, neck) else (neck, arm)
        return folded_stretch(piece, first, last)

    def _sewn_on(self, made: _Made) -> list[Seam]:
        return [
            seam(
                Ref(made.garment, name),
                Ref(made.piece.name, name),
                kind=SeamKind.FACING,
                same_way=True,
            )
            for name in made.piece.edge_names()
            if name in made.copied
        ]

    def _joined(self, pattern: Pattern, made: list[_Made]) -> list[Seam]:
        """Facings are sewn to each other as the pieces they finish are."""
        by_name = {one.garment: one for one in made}
        out: list[Seam] = []
        for old in pattern.seams:
            sides = tuple(side for row in old.rows for side in row)
            if old.kind not in _PIECE_TO_PIECE or not all(
                s.ref.piece in by_name and _can_join(by_name[s.ref.piece], s.ref.edge)
                for s in sides
            ):
                continue
            rows = [
                [replace(s, ref=Ref(by_name[s.ref.piece].piece.name, s.ref.edge)) for s in row]
                for row in old.rows
            ]
            partly = any(s.ref.edge in by_name[s.ref.piece].cut_short for s in sides)
            new = replace(old.with_rows(rows), made_by="")
            out.append(new.laid_flat() if partly else new)
        return out

    def _figures(self, pattern: Pattern, made: _Made) -> tuple[Figure, ...]:
        return tuple(
            Figure(
                "folded-edge" if made.closed else "copied-edge",
                pattern.piece(made.garment).tape(name),
                made.piece.name,
                name,
            )
            for name in made.piece.edge_names()
            if name in made.copied
        )


def _narrowest(
    pattern: Pattern, names: tuple[str, ...], there: tuple[Piece, ...], width: float
) -> _Narrow | None:
    """The piece with the shortest shoulder, where two facings do not lie side by side on it."""
    found: list[_Narrow] = []
    for name, facing in zip(names, there, strict=False):
        piece = pattern.piece(name)
        other = next((e.length for e in facing.edges if e.kind is EdgeKind.SHOULDER), 0.0)
        parts = [e.length for e in piece.edges if e.kind is EdgeKind.SHOULDER]
        if other and sum(parts) < other + width:
            found.append(_Narrow(name, sum(parts), other))
    return min(found, key=lambda n: n.shoulder, default=None)


def _edge_of(piece: Piece, kind: EdgeKind) -> str:
    """The name of the edge of a kind; where there is none, the look-up tells what there is."""
    found = next((e.name for e in piece.edges if e.kind is kind), None)
    if found is None:
        piece.edge_parts(kind.value)
    return found or kind.value


def _leads_to(piece: Piece, first: str, second: str) -> bool:
    """Whether one edge comes before another with only the shoulder between, clockwise."""
    names = [e.name for e in piece.outer_edges]
    start = max(i for i, n in enumerate(names) if n == first)
    for i in range(1, len(names)):
        name = names[(start + i) % len(names)]
        if name == second:
            return True
        kind = piece.edge_parts(name)[0].kind
        if kind is not EdgeKind.SHOULDER:
            return False
    return False


def _can_join(made: _Made, edge: str) -> bool:
    return edge in made.piece.edge_names() and edge not in made.copied
