"""What ships, and how a style or a body is found by its name or its file."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

from cutwright.body.body import Body
from cutwright.body.card import BodyCard, read_card
from cutwright.body.resolve import resolve
from cutwright.documents import read_json
from cutwright.errors import StoreError
from cutwright.style.document import Style, parse_style
from cutwright.words import N_, _

KINDS = ("styles", "bodies", "cloths")
_NOT_FOUND = {
    "styles": N_('"{name}": no such file, and no built-in style of that name. Built in: {there}.'),
    "bodies": N_('"{name}": no such file, and no built-in body of that name. Built in: {there}.'),
    "cloths": N_('"{name}": no such file, and no built-in cloth of that name. Built in: {there}.'),
}


def know_all_steps() -> None:
    """Make every draft and every step known, so that style files can name them."""
    from cutwright import blocks, steps

    blocks.register_all()
    steps.register_all()


def shipped(kind: str) -> dict[str, Path]:
    """The documents of a kind that ship ("styles", "bodies", "cloths"), by name."""
    folder = Path(str(files("cutwright") / "gallery" / kind))
    return {path.stem: path for path in sorted(folder.glob("*.json"))}


def find(kind: str, name: str) -> Path:
    """The file of a document: a path, or the name of one that ships.

    Raises StoreError naming what there is.
    """
    path = Path(name).expanduser()
    if path.suffix == ".json" or len(path.parts) > 1:
        if path.exists():
            return path
        raise StoreError(_('There is no file "{path}".').format(path=name))
    there = shipped(kind)
    if name in there:
        return there[name]
    raise StoreError(_(_NOT_FOUND[kind]).format(name=name, there=", ".join(there)))


def load_style(name: str) -> Style:
    """A style by file or by the name of one that ships."""
    know_all_steps()
    path = find("styles", name)
    return parse_style(read_json(path, _("The style {name}").format(name=path.name)), path.name)


def load_card(name: str) -> BodyCard:
    """A body card by file or by the name of one that ships."""
    return read_card(find("bodies", name))


def load_body(name: str) -> Body:
    """A body by file or by the name of one that ships, its missing measures estimated."""
    return resolve(load_card(name))
