"""What must be cut, and on which stretch of the cloth: doubled, or single at the end of the lay."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cutwright.errors import LayError
from cutwright.lay.cloth import ALONG, Cloth
from cutwright.lay.piece import LayPiece, checked_piece, extent, pieced, same_both_ways, whole
from cutwright.messages import N_, Message

MOST_LAID = 600
"""The most things to cut on one cloth, strips pieced for its width counted part by part."""
EDGE = 0.002
"""How far (cm) a piece may seem to reach over an edge of the cloth: rounding, not cloth."""


@dataclass(frozen=True, slots=True)
class LaidCut:
    """One thing to put down: a piece as it lies, and which copies come of it.

    `hand` says whether it must lie mirrored; None leaves the choice (doubled cloth gives both).
    """

    piece: LayPiece
    copies: tuple[int, ...]
    hand: bool | None
    on_fold: bool = False
    opened: bool = False
    spare: bool = False


def pieces_for(pieces: Sequence[LayPiece], cloth: Cloth) -> list[LayPiece]:
    """The pieces of this cloth's material, checked, with long strips pieced for the width."""
    found: list[LayPiece] = []
    for piece in pieces:
        if piece.material == cloth.material and piece.copies:
            room = cloth.room if piece.copies % 2 == 0 else cloth.usable
            found += pieced(checked_piece(piece), room)
            _refuse_many(found, cloth)
    names = [piece.name for piece in found]
    for name in names:
        if names.count(name) > 1:
            raise LayError(
                Message(
                    "two-pieces-called-give-each",
                    N_("Two pieces are called “{piece}”; give each a name of its own."),
                    piece=name,
                )
            )
    return found


def _refuse_many(pieces: Sequence[LayPiece], cloth: Cloth) -> None:
    """Refuse to lay more pieces than a search can move about in bearable time."""
    count = sum(piece.copies for piece in pieces)
    if count > MOST_LAID:
        raise LayError(
            Message(
                "too-many-to-lay",
                N_(
                    "On cloth {usable:.1f} cm wide more than {most} pieces would have to be cut. Take a wider "
                    "cloth, less fullness or fewer parts."
                ),
                usable=cloth.usable,
                most=MOST_LAID,
            )
        )


def cuts(pieces: Sequence[LayPiece], cloth: Cloth) -> tuple[list[LaidCut], list[LaidCut]]:
    """Everything to cut on the doubled stretch and on the single one.

    Cloth that lies open has only a single stretch. On doubled cloth pieces come in pairs; what is
    too wide for half the cloth, or would come out wrong-handed, is cut single at the end.
    """
    cloth.check_repeat()
    _check_fold(cloth)
    doubled: list[LaidCut] = []
    single: list[LaidCut] = []
    for piece in pieces:
        if cloth.fold == "open":
            single += _singly(piece, range(1, piece.copies + 1))
        elif piece.fold is not None and cloth.fold in ALONG:
            if extent(piece)[1] <= cloth.room + EDGE:
                doubled += [
                    LaidCut(piece, (n,), None, on_fold=True) for n in range(1, piece.copies + 1)
                ]
            else:
                single += _singly(piece, range(1, piece.copies + 1))
        else:
            _pairs(piece, cloth, doubled, single)
    for cut in single:
        _check_width(cut.piece, cloth)
    if doubled and all(_odd_one(cut, cloth) for cut in single):
        doubled += [replace(cut, hand=None, spare=True) for cut in single]
        single = []
    return doubled, single


def _check_fold(cloth: Cloth) -> None:
    """Refuse a fold that would lay the nap or the repeat of the two layers differently."""
    if cloth.fold == "crosswise" and cloth.nap == "one way":
        raise LayError(
            Message(
                "way-cloth-folded-crosswise-nap",
                N_(
                    "On one-way cloth folded crosswise the nap of the lower layer runs the other way. "
                    "Fold it lengthwise or lay it open; or cut it across, turn the lower layer round "
                    "and lay it as two plies."
                ),
            )
        )
    if cloth.fold == "selvedges to the middle" and cloth.repeat_across is not None:
        raise LayError(
            Message(
                "repeat-across-two-folds",
                N_(
                    "With both selvedges folded to the middle the repeat across does not meet in both "
                    "layers. Fold the cloth once lengthwise on a line of the repeat, or lay it open."
                ),
            )
        )


def _pairs(piece: LayPiece, cloth: Cloth, doubled: list[LaidCut], single: list[LaidCut]) -> None:
    """Pairs on the doubled cloth where they fit and come out right, the rest single."""
    laid = whole(piece)
    fits = extent(laid)[1] <= cloth.room + EDGE or (
        laid.grain is None and min(extent(laid)) <= cloth.room + EDGE
    )
    right = piece.mirrored or laid is not piece or same_both_ways(laid, cloth.nap == "two way")
    pairs = piece.copies // 2 if fits and right else 0
    doubled += [
        LaidCut(laid, (2 * k + 1, 2 * k + 2), None, opened=laid is not piece) for k in range(pairs)
    ]
    single += _singly(piece, range(2 * pairs + 1, piece.copies + 1))


def _singly(piece: LayPiece, numbers: range) -> list[LaidCut]:
    """Copies one by one on a single layer; every second one of a pair lies mirrored."""
    laid = whole(piece)
    return [
        LaidCut(laid, (n,), piece.mirrored and n % 2 == 0, opened=laid is not piece)
        for n in numbers
    ]


def _odd_one(cut: LaidCut, cloth: Cloth) -> bool:
    """Whether a single cut may lie on the doubled cloth, at the price of a spare below it."""
    last = cut.piece.copies % 2 == 1 and cut.copies == (cut.piece.copies,)
    return last and extent(cut.piece)[1] <= cloth.room + EDGE


def _check_width(piece: LayPiece, cloth: Cloth) -> None:
    along, across = extent(piece)
    need = min(along, across) if piece.grain is None else across
    over = need - cloth.usable
    if over <= EDGE:
        return
    cure = Message(
        "wider-cloth-or-seam",
        N_("Take a cloth with at least {need:.1f} cm of usable width, or put a seam in the piece."),
        need=need,
    )
    if piece.grain is not None and along <= cloth.usable + EDGE:
        cure = Message(
            "wider-cloth-seam-or-turned-grain",
            N_(
                "Take a cloth with at least {need:.1f} cm of usable width, put a seam in the piece, or "
                "turn its grain line across if the cloth allows it: it is only {along:.1f} cm that way."
            ),
            need=need,
            along=along,
        )
    raise LayError(
        Message(
            "cm-too-wide-cloth-measures",
            N_(
                "“{piece}” is {over:.1f} cm too wide for this cloth: it measures {across:.1f} cm across the grain, the cloth {usable:.1f} cm."
            ),
            piece=piece.name,
            over=over,
            across=need,
            usable=cloth.usable,
        ).then(cure)
    )
