"""What the finisher says of darts whose fold it cuts away."""

from __future__ import annotations

from collections.abc import Iterator

from cutwright.finish.cut_line import CutLine
from cutwright.messages import N_, Message
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Finding, Severity

CODE = "dart-cut-away"


def trimmed_darts(piece: Piece, line: CutLine) -> Iterator[Finding]:
    """A note for each dart that is cut away because its fold would stand out at the cut line.

    Parameters
    ----------
    piece : the piece
    line : its cut line

    Returns
    -------
    a note for each, its value how far the fold would stand out, cm
    """
    tips = {dart.name: dart.tip for dart in piece.darts}
    for dart in line.trimmed:
        if not dart.by_itself:
            continue
        text = Message(
            "folded-would-need-beak-cm",
            N_(
                'Folded, the "{dart}" of "{piece}" would stick out {beak:.1f} cm at the cut line. Its '
                "fold is cut away and {kept:.1f} cm are left beside each leg: sew it like a seam, from "
                "the edge to the point. To keep the fold, say so in a step that trims the dart."
            ),
            dart=dart.dart,
            piece=piece.name,
            beak=dart.beak,
            kept=dart.kept,
        )
        yield Finding(
            CODE, Severity.NOTE, f"{piece.name}: {dart.dart}", text, dart.beak, tips[dart.dart]
        )
