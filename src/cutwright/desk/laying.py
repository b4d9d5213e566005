"""The pieces of a table laid on a cloth as a search that a page can watch."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

from pydantic import BaseModel, ConfigDict, Field

from cutwright.desk.jobs import Source
from cutwright.desk.laid import Laid
from cutwright.desk.lay_shown import Found
from cutwright.desk.lay_svg import held
from cutwright.errors import LayError, StoreError
from cutwright.lay.cloth import Cloth, Fold, Nap
from cutwright.lay.from_pattern import lay_pieces
from cutwright.lay.layout import lay_out
from cutwright.lay.need import need
from cutwright.lay.piece import LayPiece
from cutwright.lay.pinning import settled_pins
from cutwright.lay.plan import Placement
from cutwright.lay.search import Budget
from cutwright.words import _
from cutwright.workshop.laying import PLACES, LaidWork, write_lay

FILES = {
    "pdf": ("lay.pdf", "application/pdf"),
    "svg": ("lay.svg", "image/svg+xml"),
    "json": ("lay.json", "application/json"),
    "marker": ("lay-full-size.pdf", "application/pdf"),
}


class ClothWish(BaseModel):
    """Which cloth, and what of it is changed; empty means as its card has it."""

    model_config = ConfigDict(extra="forbid")
    cloth: str = Field(max_length=80)
    width: str = Field(default="", max_length=40)
    fold: Fold | None = None
    nap: Nap | None = None


class LayWish(ClothWish):
    """A lay that is wished for, with what is pinned and how many places are tried for it."""

    pins: list[Placement] = Field(default_factory=list, max_length=200)
    places: int = Field(default=PLACES, ge=0, le=5 * PLACES)


def pieces_of(laid: Laid) -> tuple[LayPiece, ...]:
    """The pieces to be laid; refused while the letter cannot be carried out."""
    if laid.trouble is not None:
        raise StoreError(
            _("The letter cannot be carried out to its end, so nothing is laid: {why}").format(
                why=laid.trouble
            )
        )
    return lay_pieces(laid.finished)


def search_for(laid: Laid, cloth: Cloth, wish: LayWish, left: float | None) -> Source[Found]:
    """Better and better lays of a table; what cannot be pinned is told at once."""
    pieces = pieces_of(laid)
    pins = settled_pins(pieces, cloth, wish.pins)
    pinned = frozenset(map(held, pins))

    def source(stop: Callable[[], bool]) -> Iterator[Found]:
        budget = Budget(wish.places, stop=stop)
        found = False
        for lay in lay_out(pieces, cloth, budget, pins=pins):
            found = True
            yield Found(LaidWork(laid.work, pieces, lay, need(lay)), pinned, left)
        if not found and not stop():
            raise LayError(
                _("With these pins no lay passes the check; let one go, or move it.")
                if pins
                else _("No lay passed the check; this is a fault of the program.")
            )

    return source


def found_for(laid: Laid, found: Found | None) -> LaidWork | None:
    """The lay that was found, if it is still one of these pieces."""
    if found is None:
        return None
    work = found.laid.work
    same = (work.style, work.body) == (laid.style, laid.body)
    return found.laid if same else None


def file_of(laid: LaidWork, what: str) -> tuple[str, bytes, str]:
    """(name, content, type) of a file of a lay: "pdf", "svg", "json" or "marker"."""
    if what not in FILES:
        raise StoreError(_("Choose the page, the drawing, the data or the full size."))
    name, kind = FILES[what]
    with tempfile.TemporaryDirectory(prefix="cutwright-") as folder:
        for written in write_lay(laid, Path(folder), date.today(), marker=what == "marker"):
            if written.path.name == name:
                return name, written.path.read_bytes(), kind
    raise StoreError(_("The file could not be written."))
