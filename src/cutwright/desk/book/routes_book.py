"""The book: search, styles with their revisions, cloths in the cupboard, safe keeping."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Annotated, Any

from fastapi import APIRouter, Form, Query, UploadFile
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from cutwright.book import cupboard, documents, exchange, history, search
from cutwright.book.backup import back_up
from cutwright.book.compare import How, StepChange
from cutwright.book.nouns import Document, DocumentKind
from cutwright.book.restore import restore
from cutwright.book.scraps import scrap_folder
from cutwright.book.unreadable import Check
from cutwright.desk.book.contents import book_words
from cutwright.desk.book.entering import checked_content, entered
from cutwright.desk.book.parts import book_page
from cutwright.desk.cloth.cloths import FOLDS
from cutwright.desk.shop import Shop
from cutwright.desk.web.parameters import Ident, TheShop
from cutwright.errors import CutwrightError, StoreError
from cutwright.lay.cloth import gallery_cloths
from cutwright.style.document import parse_step
from cutwright.units import parse_length
from cutwright.wording.names import called
from cutwright.wording.sentences import sentence
from cutwright.words import _
from cutwright.workshop.gallery import shipped

router = APIRouter(prefix="/book")
Short = Annotated[str, Form(max_length=200)]
Number = Annotated[int, Form(ge=1, le=2_000_000_000)]
KINDS = {"body": DocumentKind.BODY, "style": DocumentKind.STYLE, "cloth": DocumentKind.CLOTH}


@router.get("/search", response_class=HTMLResponse)
def look_for(shop: TheShop, q: Annotated[str, Query(max_length=200)] = "") -> HTMLResponse:
    """Everything in which all the words occur."""
    hits = search.find(shop.book, q) if q.strip() else []
    rows = [(hit, _address(hit.what, hit.id)) for hit in hits]
    return book_page("book_search.html", "", q=q, rows=rows)


def _address(what: str, ident: str) -> str:
    return {
        "client": f"/book/client/{ident}",
        "body": f"/body/{ident}",
        "style": f"/book/style/{ident}",
        "cloth": "/book/cloths",
        "order": f"/book/order/{ident}",
        "fitting": f"/book/fitting/{ident}",
    }.get(what, "/book")


@router.get("/styles", response_class=HTMLResponse)
def styles(shop: TheShop, aside: bool = False) -> HTMLResponse:
    """The styles there are, and those set aside."""
    found = documents.entries(shop.book, DocumentKind.STYLE, set_aside=aside)
    return book_page("book_styles.html", "styles", styles=found, aside=aside)


@router.get("/style/{ident}", response_class=HTMLResponse)
def style(
    shop: TheShop,
    ident: Ident,
    body: Annotated[str, Query(max_length=64, pattern="^[0-9a-f]*$")] = "",
    before: Annotated[int, Query(ge=0, le=2_000_000_000)] = 0,
    after: Annotated[int, Query(ge=0, le=2_000_000_000)] = 0,
) -> HTMLResponse:
    """Every revision of a style, any two of which can be compared."""
    document = shop.document(ident, DocumentKind.STYLE)
    after = after or document.revision
    before = before or max(1, after - 1)
    found = documents.compare_revisions(shop.book, ident, before, after)
    return book_page(
        "book_style.html",
        "styles",
        document=document,
        revisions=list(reversed(documents.revisions(shop.book, ident))),
        before=before,
        after=after,
        changes=[_told(change) for change in found.steps],
        fields=found.fields,
        body=body,
    )


def _told(change: StepChange) -> dict[str, Any]:
    """A changed sentence in words."""
    names = {
        How.ADDED: _("written"),
        How.REMOVED: _("taken out"),
        How.CHANGED: _("changed"),
        How.MOVED: _("moved"),
    }
    return {
        "how": names[change.how],
        "before": _sentence(change.before),
        "after": _sentence(change.after),
        "number": (change.now_at if change.now_at is not None else change.was_at or 0) + 1,
    }


def _sentence(row: dict[str, Any] | None) -> str:
    if row is None:
        return ""
    try:
        return sentence(parse_step(row))
    except CutwrightError:
        return str(row.get("do", ""))


@router.post("/style/{ident}/bring-back")
def bring_back(
    shop: TheShop, ident: Ident, revision: Number, base: Number, body: Short = ""
) -> RedirectResponse:
    """Take up an earlier revision again; it can be undone."""
    shop.document(ident, DocumentKind.STYLE)
    history.bring_back(shop.book, ident, revision, base=base)
    if body and body.isalnum():
        return RedirectResponse(f"/table/{ident}/{body}", 303)
    return RedirectResponse(f"/book/style/{ident}", 303)


@router.post("/document/{ident}/aside")
def aside(shop: TheShop, ident: Ident, back: Short = "") -> RedirectResponse:
    """Take a document out of the lists, or put it back; nothing is lost."""
    entry = documents.set_aside(shop.book, ident, not back)
    where = {DocumentKind.CLOTH: "/book/cloths", DocumentKind.ORDER: "/book"}.get(
        entry.kind, "/book/styles"
    )
    return RedirectResponse(where, 303)


@router.get("/document/{ident}/file")
def document_file(shop: TheShop, ident: Ident) -> Response:
    """A document as a file of its own; its name tells kind and number only."""
    found = documents.get(shop.book, ident)
    with scrap_folder() as folder:
        path = folder / exchange.file_name(found.entry)
        exchange.export_document(shop.book, ident, path)
        return sent(path, "application/json")


def sent(path: Path, kind: str) -> Response:
    """A file to be saved by the browser."""
    return Response(
        path.read_bytes(),
        media_type=kind,
        headers={"content-disposition": f'attachment; filename="{path.name}"'},
    )


@router.get("/cloths", response_class=HTMLResponse)
def cloths(shop: TheShop) -> HTMLResponse:
    """The cloths in the cupboard and how much is left of each."""
    rows = [(c, documents.get(shop.book, c.entry.id).content) for c in cupboard.cloths(shop.book)]
    known = [(key, called(cloth.name)) for key, cloth in gallery_cloths().items()]
    return book_page("book_cloths.html", "cloths", rows=rows, shipped=known, folds=FOLDS)


@router.post("/cloths")
def add_cloth(
    shop: TheShop,
    known: Short = "",
    name: Short = "",
    width: Short = "",
    fold: Short = "lengthwise",
) -> RedirectResponse:
    """Put a cloth in the cupboard: one that ships, or one described here."""
    from cutwright.documents import read_json

    if known:
        path = shipped("cloths").get(known)
        if path is None:
            raise StoreError(_("There is no built-in cloth of this name."))
        raw = read_json(path, _("The cloth"))
    else:
        raw = {"format": 1, "name": name.strip(), "width": parse_length(width), "fold": fold}
    documents.add(shop.book, DocumentKind.CLOTH, checked_content(DocumentKind.CLOTH, raw))
    return RedirectResponse("/book/cloths", 303)


@router.post("/cloth/{ident}/length")
def cloth_length(
    shop: TheShop, ident: Ident, length: Short = "", take: Short = ""
) -> RedirectResponse:
    """Note the length of a cloth as measured, or take a length off it."""
    shop.document(ident, DocumentKind.CLOTH)
    if take.strip():
        cupboard.take(shop.book, ident, parse_length(take))
    else:
        cupboard.measure(shop.book, ident, parse_length(length))
    return RedirectResponse("/book/cloths", 303)


@router.get("/safe", response_class=HTMLResponse)
def safe(shop: TheShop, told: Annotated[str, Query(max_length=20)] = "") -> HTMLResponse:
    """Backups, and documents from elsewhere."""
    texts = {
        "restored": _("The backup has replaced the book; the old book is kept."),
        "entered": _("Imported."),
    }
    return book_page(
        "book_safe.html",
        "safe",
        place=shop.book.place.shown,
        told=texts.get(told, ""),
        holds=book_words(shop.book),
    )


@router.post("/backup")
def backup(shop: TheShop) -> Response:
    """The whole book in one file."""
    with scrap_folder() as folder:
        text = shop.book.place.path is None
        path = folder / ("cutwright-book.json" if text else "cutwright-book.sqlite")
        back_up(shop.book, path)
        return sent(path, "application/json" if text else "application/vnd.sqlite3")


@router.post("/restore")
def restore_book(
    shop: TheShop, file: UploadFile, sure: Short = "", unreadable: Short = ""
) -> RedirectResponse:
    """Put a backup in the place of the book; the book that was there is kept."""
    _asked(sure)
    with scrap_folder() as folder:
        path = folder / (re.sub(r"[^\w.-]+", "-", file.filename or "")[-60:].strip(".") or "backup")
        path.write_bytes(file.file.read())
        _restore(shop, path, None if unreadable == "yes" else checked_content)
    return RedirectResponse("/book/safe?told=restored", 303)


@router.post("/restore-newest")
def restore_newest(shop: TheShop, sure: Short = "") -> RedirectResponse:
    """Put the newest automatic backup in the place of a damaged book."""
    from cutwright.book.health import newest_backup
    from cutwright.book.place import find_place

    _asked(sure)
    found = newest_backup(find_place(shop.where))
    if found is None:
        raise StoreError(_("There is no automatic backup."))
    _restore(shop, found)
    return RedirectResponse("/", 303)


def _asked(sure: str) -> None:
    """Nothing takes the place of a book unless somebody said so."""
    if sure != "yes":
        raise StoreError(_("Tick the box to confirm that the backup is to replace the book."))


def _restore(shop: Shop, path: Path, check: Check | None = None) -> None:
    shop.close()
    restore(path, shop.where, check=check)


@router.post("/import")
def take_in(shop: TheShop, file: UploadFile, kind: Short = "style") -> RedirectResponse:
    """Take a body, a style or a cloth from a file into the book."""
    if kind not in KINDS:
        raise StoreError(_("A body, a style or a cloth can be imported here."))
    made: Document = entered(shop, KINDS[kind], file.file.read())
    where = {DocumentKind.BODY: f"/body/{made.id}", DocumentKind.STYLE: f"/book/style/{made.id}"}
    return RedirectResponse(where.get(made.entry.kind, "/book/cloths"), 303)


@router.post("/import-client")
def take_in_client(shop: TheShop, file: UploadFile) -> RedirectResponse:
    """Take a client with measures, orders and fittings from a file."""
    with scrap_folder() as folder:
        path = folder / "client.json"
        path.write_bytes(file.file.read())
        found = exchange.import_client(shop.book, path, checked_content)
    return RedirectResponse(f"/book/client/{found.client.id}", 303)
