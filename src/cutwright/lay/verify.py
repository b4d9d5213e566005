"""The one verifier: a lay may be shown only if this finds nothing wrong with it.

It knows nothing of the search. Every piece is rebuilt from its true cut line and the placement
alone, and held against the cloth: all copies there, right and left, nothing over an edge, no
overlap, the fold on the fold, grain, nap and repeat.
"""

from __future__ import annotations

import cmath
import math
from collections import Counter
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from cutwright.lay.cloth import ALONG, Cloth, Match
from cutwright.lay.piece import LayPiece, same_both_ways, whole
from cutwright.lay.plan import ClothPart, Lay, Placement
from cutwright.lay.stripe import cloth_direction, lattice, middle, off_by
from cutwright.messages import N_, Message

if TYPE_CHECKING:
    from shapely import Polygon

EDGE = 0.005
"""cm over an edge of the cloth that is rounding."""
OVERLAP = 0.001
"""Pieces overlap if they share a spot wider than twice this (cm)."""
ON_FOLD = 1e-6
ON_REPEAT = 0.01
_GRAIN = 1e-3
_FOLD_OFF_GRAIN = 0.5
"""Degrees that a fold edge may lie off the grain arrow of its own piece."""


def faults(
    lay: Lay, pieces: Sequence[LayPiece], cloth: Cloth, matches: Iterable[Match] = ()
) -> list[Message]:
    """Everything that is wrong with a lay, in a cutter's words; nothing if it is good."""
    named = {piece.name: piece for piece in pieces}
    unknown = [p.piece for p in lay.placements if p.piece not in named]
    if unknown:
        return [
            Message("not-pieces", N_("“{piece}” is not one of the pieces."), piece=name)
            for name in unknown
        ]
    found = _copies(lay, pieces)
    laid: list[tuple[Placement, Polygon]] = []
    for placement in lay.placements:
        if not 0 <= placement.part < len(lay.parts):
            found.append(
                Message(
                    "lies-no-stretch-cloth",
                    N_("“{piece}” lies on no stretch of the cloth."),
                    piece=placement.piece,
                )
            )
            continue
        part = lay.parts[placement.part]
        laid.append((placement, _polygon(placement, named[placement.piece])))
        found += _in_its_place(placement, laid[-1][1], part)
        found += _turned(placement, named[placement.piece], part, cloth)
    if any(p.part not in range(len(lay.parts)) for p in lay.placements):
        return found
    return found + _parts(lay, cloth) + _overlaps(laid) + _repeats(lay, pieces, cloth, matches)


def _polygon(placement: Placement, piece: LayPiece) -> Polygon:
    from shapely import Polygon

    outline = (whole(piece) if placement.opened else piece).outline
    return Polygon([(z.real, z.imag) for z in map(placement.of, outline)])


def _copies(lay: Lay, pieces: Sequence[LayPiece]) -> list[Message]:
    """Every copy once, left and right where they are pairs."""
    found = []
    cut = Counter((p.piece, n) for p in lay.placements for n in p.copies)
    for piece in pieces:
        for n in range(1, piece.copies + 1):
            times = cut.pop((piece.name, n), 0)
            if times != 1:
                found.append(
                    Message(
                        "copy-laid-times",
                        N_("“{piece}”, copy {number}, is laid {times} times."),
                        piece=piece.name,
                        number=n,
                        times=times,
                    )
                )
    for name, n in cut:
        found.append(
            Message(
                "copy-not-asked",
                N_("“{piece}”, copy {number}, was not asked for."),
                piece=name,
                number=n,
            )
        )
    two_way = lay.cloth.nap == "two way"
    for piece in pieces:
        if piece.fold is None and not same_both_ways(piece, two_way):
            found += _hands(piece, [p for p in lay.placements if p.piece == piece.name], lay)
    return found


def _hands(piece: LayPiece, placements: Sequence[Placement], lay: Lay) -> list[Message]:
    """Whether as many come out mirrored as should; doubled cloth gives one of each."""
    mirrored = 0
    for p in placements:
        if len(p.copies) == 2:
            mirrored += 1
        elif not p.spare:
            mirrored += p.mirrored
    asked = piece.copies // 2 if piece.mirrored else 0
    if mirrored == asked:
        return []
    return [
        Message(
            "come-out-mirrored-should",
            N_("“{piece}”: {found} of {copies} come out mirrored, {asked} should."),
            piece=piece.name,
            found=mirrored,
            copies=piece.copies,
            asked=asked,
        )
    ]


def _in_its_place(placement: Placement, shape: Polygon, part: ClothPart) -> list[Message]:
    """Inside the stretch of cloth it lies on."""
    left, low, right, high = shape.bounds
    over = max(part.start - left, right - part.start - part.length, -low, high - part.height)
    found = []
    if over > EDGE:
        found.append(
            Message(
                "reaches-cm-over-edge-cloth",
                N_("“{piece}” reaches {over:.3f} cm over the edge of the cloth."),
                piece=placement.piece,
                over=over,
            )
        )
    if part.fold == "selvedges to the middle":
        across = min(high - part.height / 2, part.height / 2 - low)
        if across > EDGE:
            found.append(
                Message(
                    "lies-across-meeting-selvedges",
                    N_(
                        "“{piece}” lies {across:.3f} cm across the middle, where the selvedges meet."
                    ),
                    piece=placement.piece,
                    across=across,
                )
            )
    layers = 1 if part.fold == "open" else 2
    gives = 2 if placement.on_fold else len(placement.copies) + placement.spare
    if gives != layers:
        found.append(
            Message(
                "cut-layers-but-gives",
                N_("“{piece}” is cut in {layers} layers but gives {gives}."),
                piece=placement.piece,
                layers=layers,
                gives=gives,
            )
        )
    return found


def _turned(placement: Placement, piece: LayPiece, part: ClothPart, cloth: Cloth) -> list[Message]:
    """The grain along the cloth, the nap one way, the fold edge exactly on the fold."""
    found = []
    if piece.fold is not None and not placement.opened:
        off = _off_fold([placement.of(z).imag for z in piece.fold], part)
        if not placement.on_fold or part.fold not in ALONG or off > ON_FOLD + _uneven(piece):
            found.append(
                Message(
                    "fold-edge-cm-off-fold",
                    N_("The fold edge of “{piece}” is {off:.4f} cm off the fold."),
                    piece=piece.name,
                    off=off,
                )
            )
    if piece.grain is None:
        return found
    slant = math.degrees(cmath.phase(placement.of(piece.grain) - placement.of(0j)))
    off_grain = abs((slant + 90) % 180 - 90)
    allowed = 0.0 if placement.on_fold else cloth.grain_tolerance
    allowed += _FOLD_OFF_GRAIN if piece.fold is not None else 0.0
    if off_grain > allowed + _GRAIN:
        found.append(
            Message(
                "lies-off-grain-allowed",
                N_("“{piece}” lies {off:.2f}° off the grain; {allowed:g}° is allowed."),
                piece=piece.name,
                off=off_grain,
                allowed=allowed,
            )
        )
    if cloth.nap == "one way" and abs(slant) > 90:
        found.append(
            Message("lies-against-nap", N_("“{piece}” lies against the nap."), piece=piece.name)
        )
    return found


def _off_fold(edge: Sequence[float], part: ClothPart) -> float:
    """How far (cm) the ends of a fold edge, told by their y, lie from the nearest fold."""
    folds = [0.0, part.height] if part.fold == "selvedges to the middle" else [0.0]
    return min(max(abs(y - fold) for y in edge) for fold in folds)


def _uneven(piece: LayPiece) -> float:
    """Rounding of the fold edge's own ends, far from the origin."""
    return 1e-12 * max(abs(z) for z in piece.outline)


def _parts(lay: Lay, cloth: Cloth) -> list[Message]:
    """The stretches follow each other and add up to the length."""
    found = []
    end = 0.0
    for part in lay.parts:
        height = cloth.usable / 2 if part.fold in ALONG else cloth.usable
        if abs(part.height - height) > 1e-9:
            found.append(
                Message(
                    "stretch-cm-high-cloth-allows",
                    N_("A stretch is {height:.2f} cm high, the cloth allows {room:.2f}."),
                    height=part.height,
                    room=height,
                )
            )
        if part.start < end - 1e-9:
            found.append(
                Message("two-stretches-cloth-overlap", N_("Two stretches of the cloth overlap."))
            )
        end = part.start + part.length * (2 if part.fold == "crosswise" else 1)
    if abs(end - lay.length) > 1e-6:
        found.append(
            Message(
                "lay-says-cm-stretches-take",
                N_("The lay says {length:.2f} cm, its stretches take {end:.2f}."),
                length=lay.length,
                end=end,
            )
        )
    return found


def _overlaps(laid: Sequence[tuple[Placement, Polygon]]) -> list[Message]:
    """No two pieces share cloth (edges may touch)."""
    from shapely import STRtree

    found = []
    tree = STRtree([shape for _placement, shape in laid])
    for i, (one, shape) in enumerate(laid):
        for j in sorted(int(k) for k in tree.query(shape)):
            other, theirs = laid[j]
            if j <= i or one.part != other.part:
                continue
            common = shape.intersection(theirs)
            if common.area > 1e-9 and not common.buffer(-OVERLAP).is_empty:
                found.append(
                    Message(
                        "overlap-square-cm",
                        N_("“{one}” and “{other}” overlap by {area:.3f} square cm."),
                        one=one.piece,
                        other=other.piece,
                        area=common.area,
                    )
                )
    return found


def _repeats(
    lay: Lay, pieces: Sequence[LayPiece], cloth: Cloth, matches: Iterable[Match]
) -> list[Message]:
    """Every point that must match lies at its place of the repeat."""
    wanted = lattice(pieces, cloth, matches)
    found = []
    for p in lay.placements:
        turn = cmath.exp(1j * math.radians(p.rotation)) * next(
            _straight(piece, p.mirrored) for piece in pieces if piece.name == p.piece
        )
        sx = 1.0 if turn.real > 0 else -1.0
        sy = -sx if p.mirrored else sx
        centre = middle(cloth, lay.parts[p.part].height)
        for axis, place, repeat, sign in (
            (wanted.along, p.x, cloth.repeat_along, sx),
            (wanted.across, p.y - centre, cloth.repeat_across, sy),
        ):
            if repeat is not None and p.piece in axis:
                off = off_by(place - sign * axis[p.piece], repeat)
                if off > ON_REPEAT:
                    found.append(
                        Message(
                            "lies-cm-off-place-repeat",
                            N_("“{piece}” lies {off:.2f} cm off its place in the repeat."),
                            piece=p.piece,
                            off=off,
                        )
                    )
    return found


def _straight(piece: LayPiece, mirrored: bool) -> complex:
    """The piece's lengthwise direction before it is turned."""
    along = cloth_direction(piece)
    return along.conjugate() if mirrored else along
