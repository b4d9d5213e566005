"""The sheet as one HTML file that needs nothing else: it reads on a phone and prints."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from itertools import groupby

from cutwright.drawing.inks import SCREEN
from cutwright.drawing.primitives import Ink
from cutwright.drawing.svg import screen_style, svg
from cutwright.words import _
from cutwright.worksheet.html_style import STYLE
from cutwright.worksheet.looks import SHEET
from cutwright.worksheet.sheet import (
    Beside,
    Block,
    Cell,
    Exercise,
    Lines,
    Picture,
    Pictures,
    Section,
    Sheet,
    SheetTable,
    Text,
)

PENS = dict(SCREEN) | {ink: SHEET[ink] for ink in (Ink.MEASURED, Ink.SLASH, Ink.WEDGE, Ink.CUT)}


_ROOM = 0.3
"""Room about a picture, cm of paper: another typeface may run wider than the one labels were measured in."""


def html(sheet: Sheet) -> str:
    """The whole document."""
    title = escape(f"{sheet.title} · {sheet.subtitle}")
    large = ' class="large"' if sheet.large else ""
    return (
        f'<!doctype html>\n<html lang="{escape(sheet.language)}"{large}>\n<head>\n'
        '<meta charset="utf-8">\n<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{title}</title>\n<style>\n{style()}\n</style>\n</head>\n<body>\n"
        f'<main class="worksheet">\n{body(sheet)}\n</main>\n</body>\n</html>\n'
    )


def style() -> str:
    """The style sheet of a work sheet, for a page that shows `body` in its own frame."""
    return f"{STYLE}\n{screen_style(PENS)}"


def body(sheet: Sheet, *, inputs: bool = False) -> str:
    """The sheet without the page around it; with `inputs`, blanks are fields to type in.

    A field has the name "answer" and the key of its blank as `data-key` and id.
    """
    return (
        f"<header><h1>{escape(sheet.title)}</h1>\n"
        f'<p class="subtitle">{escape(sheet.subtitle)}</p></header>\n'
        f"{_contents(sheet)}\n{parts(sheet.sections, inputs=inputs)}"
    )


def parts(sections: Iterable[Section], *, inputs: bool = False) -> str:
    """Sections alone, without the title and the contents of their sheet."""
    out: list[str] = []
    open_part = False
    for section in sections:
        if section.level == 1:
            out.append("</section>" if open_part else "")
            out.append(f'<section id="{escape(section.key)}">')
            out.append(f"<h2>{escape(section.title)}</h2>")
            open_part = True
            out += _blocks(section.blocks, inputs)
        else:
            out.append(_step(section, inputs))
    out.append("</section>" if open_part else "")
    return "\n".join(part for part in out if part)


def _contents(sheet: Sheet) -> str:
    links = "".join(
        f'<li><a href="#{escape(s.key)}">{escape(s.title)}</a></li>'
        for s in sheet.sections
        if s.level == 1
    )
    label = escape(_("Contents"))
    return f'<nav aria-label="{label}"><ul>{links}</ul></nav>'


def _step(section: Section, inputs: bool) -> str:
    inside = "\n".join(_blocks(section.blocks, inputs))
    key, title = escape(section.key), escape(section.title)
    return f'<article id="{key}" class="step"><h3>{title}</h3>\n{inside}\n</article>'


def _blocks(blocks: Iterable[Block], inputs: bool) -> list[str]:
    """Each block; narrow tables that follow each other share a frame in which they stand in a row."""
    out: list[str] = []
    for narrow, row in groupby(blocks, lambda b: isinstance(b, SheetTable) and b.across > 1):
        made = [_block(block, inputs) for block in row]
        out += [f'<div class="row">{"".join(made)}</div>'] if narrow else made
    return out


def _block(block: Block, inputs: bool) -> str:
    match block:
        case Text():
            return _text(block)
        case Pictures():
            return _pictures(block)
        case SheetTable():
            return _table(block)
        case Beside():
            side = "".join(_block(part, inputs) for part in block.side)
            return f'<div class="beside">{_pictures(block.pictures)}<div>{side}</div></div>'
        case Lines():
            return '<div class="lines">' + "<div></div>" * block.count + "</div>"
        case Exercise():
            return _exercise(block, inputs)


def _text(block: Text) -> str:
    if block.kind == "task":
        count, _tab, rest = block.text.partition("\t")
        return f'<p class="task"><span>{escape(count)}</span> {escape(rest)}</p>'
    return f'<p class="{block.kind}">{escape(block.text)}</p>'


def _pictures(block: Pictures) -> str:
    shown = []
    for index, picture in enumerate(block.row):
        if index and block.arrow:
            shown.append('<div class="arrow" aria-hidden="true">→</div>')
        caption = f"<figcaption>{escape(picture.caption)}</figcaption>" if picture.caption else ""
        wide = f"{picture.width:.2f}"
        shown.append(f'<figure style="--wide:{wide}">{_svg(picture)}{caption}</figure>')
    return f'<div class="pictures">{"".join(shown)}</div>'


def _svg(picture: Picture) -> str:
    return svg(picture.drawing, title=picture.alt, box=picture.box, margin=_ROOM / picture.scale)


def _table(block: SheetTable) -> str:
    numbers = dict.fromkeys(block.numbers, ' class="number"')
    head = "".join(
        f'<th scope="col"{numbers.get(i, "")}>{escape(text)}</th>' if text else "<td></td>"
        for i, text in enumerate(block.head)
    )
    rows = "".join(
        "<tr>"
        + "".join(f"<td{numbers.get(i, '')}>{_cell(c)}</td>" for i, c in enumerate(row))
        + "</tr>"
        for row in block.rows
    )
    return (
        f'<div class="table" tabindex="0"><table><thead><tr>{head}</tr></thead>'
        f"<tbody>{rows}</tbody></table></div>"
    )


def _cell(cell: Cell) -> str:
    if isinstance(cell, Picture):
        return f'<span class="thumb" style="--wide:{cell.width:.2f}">{_svg(cell)}</span>'
    return escape(cell)


def _exercise(block: Exercise, inputs: bool) -> str:
    out = []
    place = 0
    for part in block.parts:
        if isinstance(part, str):
            out.append(escape(part))
        elif inputs:
            place += 1
            size = max(5, len(part.answer) + 1)
            label = f"{block.what} ({place})" if len(block.blanks) > 1 else block.what
            out.append(
                f'<input name="answer" id="{escape(part.key)}" data-key="{escape(part.key)}" '
                f'inputmode="decimal" autocomplete="off" size="{size}" '
                f'aria-label="{escape(label)}">'
            )
        else:
            out.append('<span class="blank"></span>')
    return f'<p class="exercise"><b>{escape(block.what)}:</b> {"".join(out)}</p>'
