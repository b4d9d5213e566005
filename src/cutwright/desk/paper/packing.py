"""The packet for the page: every file of a finished pattern in one archive, or one of them alone."""

from __future__ import annotations

import zipfile
from dataclasses import replace
from datetime import date
from io import BytesIO

from cutwright.body.body import Body
from cutwright.book.scraps import scrap_folder
from cutwright.desk.style.laid_out import LaidOut, lay_out
from cutwright.documents import json_text
from cutwright.errors import StoreError
from cutwright.paper.pieces import PlacedPiece
from cutwright.paper.targets import writer_for
from cutwright.wording.message_text import message_text
from cutwright.words import _
from cutwright.workshop.packet import placed, title_of, write_packet
from cutwright.workshop.work import finishing


def named(laid: LaidOut, who: str, revision: int) -> LaidOut:
    """The same paper with another name, or none, written on its pieces, made today."""
    body: Body = replace(laid.body, name=who)
    said = finishing(laid.style, body, date.today())
    return lay_out(laid.style, body, laid, replace(said, revision=str(revision)))


def papers(laid: LaidOut) -> tuple[PlacedPiece, ...]:
    """The finished pieces as paper takes them."""
    return tuple(PlacedPiece(name, drawing) for name, drawing in laid.drawings.items())


def one_file(laid: LaidOut, target: str) -> tuple[str, bytes]:
    """(name, content) of one file of the packet."""
    _refuse_trouble(laid)
    ending, writer = writer_for(target)
    name = target.strip().casefold().replace(":", "-")
    stem = "pattern" if name == ending[1:] else f"pattern-{name}"
    with scrap_folder() as folder:
        path = folder / f"{stem}{ending}"
        writer(placed(laid.work), path, title_of(laid.work))
        return path.name, path.read_bytes()


def packet(laid: LaidOut, paper: str, measures: str = "") -> bytes:
    """The whole packet as a zip archive; `measures` is a body card to put in, if any."""
    _refuse_trouble(laid)
    out = BytesIO()
    with scrap_folder() as folder:
        files = [w.path for w in write_packet(laid.work, folder, paper)]
        with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
            for path in files:
                archive.write(path, path.name)
            archive.writestr("style.json", json_text(laid.style.document()))
            if measures:
                archive.writestr("body.json", measures)
    return out.getvalue()


def _refuse_trouble(laid: LaidOut) -> None:
    if laid.trouble is not None:
        raise StoreError(
            _("One step cannot be done, so nothing is printed: {why}").format(
                why=message_text(laid.trouble)
            )
        )
