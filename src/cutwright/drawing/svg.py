"""A drawing as SVG for the screen: a string of classes, curves kept, every word escaped.

Coordinates stay in centimetres (viewBox). Looks come from a style sheet by class: `i-cut` for the
ink, `l-cut-line` for the layer; `screen_style` writes one from the table of inks. An item with a
tag carries it as `data-tag`; with `touch` it also gets a wide unseen twin that a finger can hit.
"""

from __future__ import annotations

from html import escape

from cutwright.drawing.inks import SCREEN, Pen, Pens
from cutwright.drawing.primitives import Dot, Drawing, Ink, Item, Layer, Stroke, Words
from cutwright.drawing.type import type_size, whole_box
from cutwright.geometry.curve import Line
from cutwright.geometry.path import Path
from cutwright.geometry.point import angle_of
from cutwright.memo import memoised

_PIXELS_PER_MM = 4.0
_INK_CLASS = {ink: f"i-{ink.value}" for ink in Ink}
_LAYER_CLASS = {layer: "l-" + layer.value.replace(" ", "-") for layer in Layer}


def path_data(path: Path, *, closed: bool = False) -> str:
    """The `d` of a path element: moves, lines and cubics in the drawing's own unit."""
    if not path:
        return ""
    at = path[0].start
    parts = ["M%.3f %.3f" % (at.real, at.imag)]  # noqa: UP031  (half the time of format)
    for curve in path:
        if curve.start != at and abs(curve.start - at) > 1e-6:
            parts.append("M%.3f %.3f" % (curve.start.real, curve.start.imag))  # noqa: UP031
        at = curve.end
        if isinstance(curve, Line):
            parts.append("L%.3f %.3f" % (at.real, at.imag))  # noqa: UP031
        else:
            a, b = curve.first, curve.second
            parts.append(
                "C%.3f %.3f %.3f %.3f %.3f %.3f"  # noqa: UP031
                % (a.real, a.imag, b.real, b.imag, at.real, at.imag)
            )
    if closed:
        parts.append("Z")
    return "".join(parts)


def svg(
    drawing: Drawing,
    *,
    title: str = "",
    margin: float = 0.5,
    touch: bool = False,
    ident: str = "",
    box: tuple[float, float, float, float] | None = None,
) -> str:
    """The drawing as one svg element.

    Parameters
    ----------
    title : what it shows, read out by screen readers; an untitled drawing is passed over by them
    margin : free room about the drawing, cm
    touch : give each tagged item an unseen wide twin of class `touch`
    ident : the id of the element
    box : left, top, right, bottom in cm to show instead of the drawing's own
    """
    left, top, right, bottom = whole_box(drawing) if box is None else box
    view = f"{left - margin:.3f} {top - margin:.3f} " + (
        f"{right - left + 2 * margin:.3f} {bottom - top + 2 * margin:.3f}"
    )
    read = f'role="img" aria-label="{escape(title)}"' if title else 'aria-hidden="true"'
    named = f' id="{escape(ident)}"' if ident else ""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg"{named} class="drawing" viewBox="{view}" {read}>'
        + svg_items(drawing, touch=touch)
        + "</svg>"
    )


@memoised
def svg_items(drawing: Drawing, *, touch: bool = False) -> str:
    """The items of a drawing as elements, in the order they are painted."""
    return "".join([_item(item, touch) for item in drawing.items])


def _item(item: Item, touch: bool) -> str:
    classes = f"{_INK_CLASS[item.ink]} {_LAYER_CLASS[item.layer]}"
    tag = escape(item.tag) if item.tag else ""
    data = f' data-tag="{tag}"' if tag else ""
    if isinstance(item, Words):
        return _words(item, classes, data)
    if isinstance(item, Dot):
        body = f'cx="{item.at.real:.3f}" cy="{item.at.imag:.3f}"'
        full = " full" if item.fill else ""
        out = f'<circle class="{classes}{full}"{data} {body} r="{item.radius:.3f}"/>'
        if touch and tag:
            wide = max(item.radius, 0.6)
            out += (
                f'<circle class="touch"{data} {body} r="{wide:.3f}"><title>{tag}</title></circle>'
            )
        return out
    return _stroke(item, classes, data, tag if touch else "")


def _stroke(item: Stroke, classes: str, data: str, touched: str) -> str:
    d = path_data(item.path, closed=item.closed)
    full = " full" if item.fill else ""
    out = f'<path class="{classes}{full}"{data} d="{d}"/>'
    if touched:
        out += f'<path class="touch"{data} d="{d}"><title>{touched}</title></path>'
    return out


def _words(item: Words, classes: str, data: str) -> str:
    bold = " bold" if item.bold else ""
    where = f'x="{item.at.real:.3f}" y="{item.at.imag:.3f}"'
    turn = angle_of(item.along) * 57.29577951308232
    if abs(turn) > 1e-3:
        where += f' transform="rotate({turn:.3f} {item.at.real:.3f} {item.at.imag:.3f})"'
    anchor = "" if item.anchor == "start" else f' text-anchor="{item.anchor}"'
    return (
        f'<text class="{classes}{bold}"{data} {where} font-size="{type_size(item.size):.3f}"{anchor}>'
        f"{escape(item.text)}</text>"
    )


def screen_style(pens: Pens = SCREEN) -> str:
    """The style sheet that gives each ink its look; line widths do not grow with the drawing."""
    rules = [
        ".drawing path,.drawing circle{vector-effect:non-scaling-stroke;"
        "stroke-linecap:round;stroke-linejoin:round;fill:none}",
        ".drawing text{font-family:'Noto Sans',sans-serif;stroke:none;text-rendering:geometricPrecision}",
        ".drawing text.bold{font-weight:700}",
        ".drawing path.touch,.drawing circle.touch{stroke:transparent;stroke-width:18px;"
        "fill:none;pointer-events:all;stroke-dasharray:none}",
        ".drawing path.touch{pointer-events:stroke}",
    ]
    for ink, pen in pens.items():
        rules += _rules(_INK_CLASS[ink], pen)
    return "\n".join(rules)


def _rules(name: str, pen: Pen) -> list[str]:
    line = f"stroke:{pen.colour};stroke-width:{pen.width * _PIXELS_PER_MM:g}px"
    if not pen.width:
        line = "stroke:none"
    if pen.dash:
        dashes = " ".join(f"{part * _PIXELS_PER_MM:g}" for part in pen.dash)
        line += f";stroke-dasharray:{dashes}"
    inside = pen.colour if pen.fill is None else pen.fill or "none"
    return [
        f".drawing .{name}{{{line}}}",
        f".drawing .{name}.full{{fill:{inside}}}",
        f".drawing text.{name}{{fill:{pen.colour};stroke:none;stroke-dasharray:none}}",
    ]
