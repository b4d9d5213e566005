"""The pieces of a work laid on a cloth: the lay, what to buy, and its files."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from cutwright.documents import write_json
from cutwright.drawing.lay import draw_lay, lay_captions
from cutwright.drawing.lay_words import LayTable, lay_table
from cutwright.drawing.primitives import Drawing
from cutwright.drawing.too_wide import draw_too_wide, too_wide
from cutwright.errors import LayError
from cutwright.lay.cloth import Cloth, is_example, read_cloth
from cutwright.lay.cuts import pieces_for
from cutwright.lay.from_pattern import lay_pieces
from cutwright.lay.layout import best_lay
from cutwright.lay.need import Need, advice, need
from cutwright.lay.piece import LayPiece
from cutwright.lay.plan import Lay
from cutwright.lay.search import Budget
from cutwright.numerals import by_custom, in_inches, length_words, yards
from cutwright.wording.message_text import message_text
from cutwright.wording.names import called
from cutwright.words import _
from cutwright.workshop.gallery import find
from cutwright.workshop.packet import Written, title_of
from cutwright.workshop.work import Work

PLACES = 4_000_000
"""Places tried for a lay by default: a few seconds."""


@dataclass(frozen=True, slots=True)
class LaidWork:
    """A work laid on a cloth."""

    work: Work
    pieces: tuple[LayPiece, ...]
    lay: Lay
    need: Need

    def drawing(self) -> Drawing:
        """The lay as it is drawn."""
        return draw_lay(self.lay, self.cut, self.work.finished)

    @property
    def cut(self) -> dict[str, LayPiece]:
        """The pieces as they were cut from this cloth, long strips in their parts, by name."""
        return {p.name: p for p in pieces_for(self.pieces, self.lay.cloth)}

    def table(self) -> LayTable:
        """How it is put down by hand."""
        return lay_table(self.lay, self.cut, self.work.finished)

    def captions(self) -> tuple[str, ...]:
        """What is said beside the drawing."""
        width = message_text(advice(self.pieces, self.lay.cloth))
        return (*lay_captions(self.lay, self.buy()), width, *example_words(self.lay.cloth))

    def buy(self) -> str:
        """What to buy, in one line."""
        if in_inches():
            text = _("Buy {yards} yd").format(yards=yards(self.need.to_buy))
        else:
            text = _("Buy {metres:.2f} m").format(metres=self.need.to_buy / 100)
        if self.lay.cloth.shrinks_along:
            text += _(", {before} before washing").format(
                before=length_words(self.need.before_washing)
            )
        if self.need.price:
            text += _(", {price:.2f} {currency}").format(
                price=self.need.price, currency=self.lay.cloth.currency
            )
        return by_custom(text) + "."


@dataclass(frozen=True, slots=True)
class NotLaid:
    """A work that does not go on a cloth: why, and what to do."""

    work: Work
    pieces: tuple[LayPiece, ...]
    cloth: Cloth
    why: str

    def drawing(self) -> Drawing:
        """The pieces that are too wide, on the cloth."""
        return draw_too_wide(self.pieces, self.cloth)

    def captions(self) -> tuple[str, ...]:
        """Why it does not go, and what width would do."""
        heading = _("The pieces do not go on this cloth: {cloth}.").format(
            cloth=called(self.cloth.name)
        )
        width = message_text(advice(self.pieces, self.cloth))
        return (heading, self.why, width, *example_words(self.cloth))


def example_words(cloth: Cloth) -> tuple[str, ...]:
    """What is said of a cloth that nobody has in hand yet."""
    if not is_example(cloth):
        return ()
    return (
        _(
            "The cloth is an example. Measure your own, its width and what washing takes, before you buy."
        ),
    )


def load_cloth(name: str) -> Cloth:
    """A cloth card by file or by the name of one that ships."""
    return read_cloth(find("cloths", name))


def lay_work(
    work: Work,
    cloth: Cloth,
    budget: Budget | None = None,
    seed: int = 1,
    shown: Callable[[Lay], None] = lambda _lay: None,
) -> LaidWork:
    """Lay the pieces of a work on a cloth; `shown` is called with every better lay.

    Raises LayError where a piece cannot lie on this cloth, saying which and what would help.
    """
    pieces = lay_pieces(work.finished)
    lay = best_lay(pieces, cloth, budget or Budget(PLACES), seed, shown=shown)
    return LaidWork(work, pieces, lay, need(lay))


def with_less(laid: LaidWork, budget: Budget | None = None, seed: int = 1) -> LaidWork | None:
    """The same with both selvedges folded to the middle, if less has to be bought so.

    Asked of cloth folded once lengthwise: both folds give whole pieces and pairs in one cutting.
    None where it saves nothing or cannot be.
    """
    cloth = laid.lay.cloth
    if cloth.fold != "lengthwise" or cloth.repeat_across is not None:
        return None
    other = cloth.model_copy(update={"fold": "selvedges to the middle"})
    try:
        found = lay_work(laid.work, other, budget, seed)
    except LayError:
        return None
    return found if found.need.to_buy < laid.need.to_buy - 0.01 else None


def lay_or_why(
    work: Work,
    cloth: Cloth,
    budget: Budget | None = None,
    seed: int = 1,
    shown: Callable[[Lay], None] = lambda _lay: None,
) -> LaidWork | NotLaid:
    """The same, but with the reason in place of a lay where the cloth is too narrow."""
    try:
        return lay_work(work, cloth, budget, seed, shown)
    except LayError as fault:
        pieces = lay_pieces(work.finished)
        if not too_wide(pieces, cloth):
            raise
        return NotLaid(work, pieces, cloth, message_text(fault))


def write_not_laid(found: NotLaid, folder: Path) -> Iterator[Written]:
    """Write lay.pdf: what is too wide for the cloth, and what to do."""
    from cutwright.paper.lay_page import write_lay_page

    path = folder / "lay.pdf"
    write_lay_page(found.drawing(), found.captions(), path, title_of(found.work))
    yield Written(path, _("which pieces are too wide for this cloth, and what to do"))


def write_lay(laid: LaidWork, folder: Path, marker: bool = False) -> Iterator[Written]:
    """Write lay.pdf, lay.svg and lay.json, and with `marker` the lay at full size."""
    from cutwright.paper.lay_page import write_lay_page, write_lay_svg, write_marker

    title, drawing = title_of(laid.work), laid.drawing()
    path = folder / "lay.pdf"
    pages = write_lay_page(drawing, laid.captions(), path, title, laid.table())
    yield Written(path, _("how the pieces lie on the cloth, and where each is put down"), pages)
    path = folder / "lay.svg"
    write_lay_svg(drawing, path, title)
    yield Written(path, _("the same as a drawing"))
    path = folder / "lay.json"
    write_json(path, laid.lay.model_dump(mode="json"))
    yield Written(path, _("the lay as data: where every piece lies"))
    if marker:
        path = folder / "lay-full-size.pdf"
        pages = write_marker(drawing, path, title)
        yield Written(path, _("the lay at full size, to lay on the table"), pages)
