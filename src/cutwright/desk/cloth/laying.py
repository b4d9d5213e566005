"""The pieces of a table laid on a cloth as a search that a page can watch."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from pydantic import Field

from cutwright.book.scraps import scrap_folder
from cutwright.desk.cloth.lay_shown import ClothWish, ShownLay
from cutwright.desk.cloth.lay_svg import held
from cutwright.desk.cloth.searches import Source
from cutwright.desk.style.laid_out import LaidOut
from cutwright.errors import LayError, StoreError
from cutwright.lay.cloth import Cloth
from cutwright.lay.from_pattern import lay_pieces
from cutwright.lay.layout import lay_out
from cutwright.lay.need import need
from cutwright.lay.piece import LayPiece
from cutwright.lay.pinning import settled_pins
from cutwright.lay.plan import Lay
from cutwright.lay.search import Budget
from cutwright.words import _
from cutwright.workshop.laying import PLACES, LaidWork, write_lay

FILES = {
    "pdf": ("lay.pdf", "application/pdf"),
    "svg": ("lay.svg", "image/svg+xml"),
    "json": ("lay.json", "application/json"),
    "marker": ("lay-full-size.pdf", "application/pdf"),
}


class LayWish(ClothWish):
    """A lay that is wished for: how many places are tried for it."""

    places: int = Field(default=PLACES, ge=0, le=5 * PLACES)


def pieces_of(laid: LaidOut) -> tuple[LayPiece, ...]:
    """The pieces to be laid; refused while the letter cannot be carried out."""
    if laid.trouble is not None:
        raise StoreError(
            _("One step cannot be done, so nothing is laid: {why}").format(why=laid.trouble)
        )
    return lay_pieces(laid.finished)


def search_for(
    laid: LaidOut, cloth: Cloth, wish: LayWish, left: float | None, earlier: Lay | None = None
) -> Source[ShownLay]:
    """Better and better lays of a table; what cannot be pinned is told at once.

    `earlier`: the lay found last for the same wish; it comes first, and the search goes on from it
    only where more places are wished for than usual.
    """
    pieces = pieces_of(laid)
    pins = settled_pins(pieces, cloth, wish.pins)
    pinned = frozenset(map(held, pins))

    def found(lay: Lay) -> ShownLay:
        return ShownLay(LaidWork(laid.work, pieces, lay, need(lay)), pinned, left, wish)

    def source(stop: Callable[[], bool]) -> Iterator[ShownLay]:
        best = earlier
        if best is not None:
            yield found(best)
            if wish.places <= PLACES:
                return
        for lay in lay_out(pieces, cloth, Budget(wish.places, stop=stop), pins=pins):
            if best is None or lay.length < best.length:
                best = lay
                yield found(lay)
        if best is None and not stop():
            raise LayError(
                _("With these pins no lay passes the check; unpin one piece, or move it.")
                if pins
                else _("No lay passed the check; this is a fault of the program.")
            )

    return source


def file_of(laid: LaidWork, what: str) -> tuple[str, bytes, str]:
    """(name, content, type) of a file of a lay: "pdf", "svg", "json" or "marker"."""
    if what not in FILES:
        raise StoreError(_("Choose the page, the drawing, the data or the full size."))
    name, kind = FILES[what]
    with scrap_folder() as folder:
        for written in write_lay(laid, folder, marker=what == "marker"):
            if written.path.name == name:
                return name, written.path.read_bytes(), kind
    raise StoreError(_("The file could not be written."))
