"""Which cloths can be laid on: those that ship and those in the cupboard, changed in place."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from cutwright.book import cupboard, documents
from cutwright.book.nouns import DocumentKind
from cutwright.desk.shop import Shop
from cutwright.documents import validated
from cutwright.errors import CutwrightError, StoreError
from cutwright.lay.cloth import Cloth, Fold, Nap, gallery_cloths
from cutwright.numerals import by_custom
from cutwright.units import parse_length
from cutwright.wording.names import called, name_text
from cutwright.words import N_, _

FOLDS: dict[Fold, str] = {
    "lengthwise": N_("folded lengthwise"),
    "selvedges to the middle": N_("both selvedges to the middle"),
    "open": N_("open"),
    "crosswise": N_("folded crosswise"),
}
NAPS: dict[Nap, str] = {"two way": N_("both ways"), "one way": N_("one way")}
MATERIALS = {"main": N_("main"), "lining": N_("lining"), "interfacing": N_("interfacing")}
USUAL = "gallery:plain-cotton-140"


@dataclass(frozen=True, slots=True)
class ClothOffered:
    """A cloth one can choose, its card in words, and how much of it is left where that is known."""

    key: str
    cloth: Cloth
    left: float | None = None

    @property
    def card(self) -> str:
        """The card in words."""
        return card_words(self.cloth)

    @property
    def name(self) -> str:
        """What it is called, in the language in force."""
        return called(self.cloth.name)


def offered(shop: Shop) -> tuple[list[ClothOffered], list[ClothOffered]]:
    """The cloths of the cupboard, and those that ship."""
    own = []
    for line in cupboard.cloths(shop.book)[:200]:
        content = documents.get(shop.book, line.entry.id).content
        try:
            own.append(ClothOffered(f"book:{line.entry.id}", _checked(content), line.length))
        except CutwrightError:
            continue
    ships = [ClothOffered(f"gallery:{name}", cloth) for name, cloth in gallery_cloths().items()]
    return own, ships


def chosen(shop: Shop, key: str) -> ClothOffered:
    """The cloth of a key such as "gallery:velvet-140" or "book:" and its number."""
    where, _colon, name = key.partition(":")
    if where == "book" and name.isalnum():
        content = shop.document(name, DocumentKind.CLOTH).content
        return ClothOffered(key, _checked(content), cupboard.left(shop.book, name))
    found = gallery_cloths().get(name) if where == "gallery" else None
    if found is None:
        raise StoreError(_("There is no such cloth; choose one from the list."))
    return ClothOffered(key, found)


def changed(cloth: Cloth, width: str, fold: Fold | Literal[""], nap: Nap | Literal[""]) -> Cloth:
    """A fresh card with another width, fold or nap; what is empty stays as the card has it."""
    new: dict[str, object] = {}
    if width.strip():
        new["width"] = parse_length(width)
    if fold:
        new["fold"] = fold
    if nap:
        new["nap"] = nap
    return _checked({**cloth.model_dump(mode="json"), **new})


def _checked(content: object) -> Cloth:
    return validated(content, Cloth, _("This cloth cannot be used:"))


def card_words(cloth: Cloth) -> str:
    """A cloth card in words."""
    parts = [_("{width:g} cm wide").format(width=round(cloth.width, 1))]
    if cloth.selvedge:
        parts.append(_("selvedges of {selvedge:g} cm").format(selvedge=cloth.selvedge))
    parts.append(_(FOLDS[cloth.fold]))
    if cloth.nap == "one way":
        parts.append(_("the nap runs one way"))
    if cloth.material != "main":
        known = MATERIALS.get(cloth.material)
        material = _(known) if known else cloth.material
        parts.append(_("for the pieces of {material}").format(material=material))
    parts += [*_repeat(cloth), *_washed(cloth)]
    if cloth.grain_tolerance:
        parts.append(_("pieces may lean {off:g}° off the grain").format(off=cloth.grain_tolerance))
    if cloth.price:
        parts.append(
            _("{price:.2f} {currency} a metre").format(price=cloth.price, currency=cloth.currency)
        )
    parts.append(_("sold by {step:g} cm").format(step=round(cloth.step, 2)))
    if cloth.plies > 1:
        parts.append(_("{plies} layers cut at once").format(plies=cloth.plies))
    return by_custom("; ".join(parts) + ".")


def _repeat(cloth: Cloth) -> list[str]:
    out = []
    if cloth.repeat_along:
        out.append(_("repeat {cm:g} cm along").format(cm=cloth.repeat_along))
    if cloth.repeat_across:
        out.append(_("repeat {cm:g} cm across").format(cm=cloth.repeat_across))
    points = ", ".join(name_text(point) for match in cloth.matches for point in match.points)
    return [*out, _("matched at {points}").format(points=points)] if points else out


def _washed(cloth: Cloth) -> list[str]:
    out = []
    if cloth.shrinks_along:
        out.append(_("shrinks {share:g} % along").format(share=100 * cloth.shrinks_along))
    if cloth.shrinks_across:
        out.append(_("shrinks {share:g} % across").format(share=100 * cloth.shrinks_across))
    return out
