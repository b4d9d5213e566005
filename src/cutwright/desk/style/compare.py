"""Laying another state of the same pieces under the paper: an earlier one, another body, another size."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cutwright.body.resolve import resolve
from cutwright.desk.shop import Shop
from cutwright.desk.style.laid_out import LaidOut
from cutwright.drawing.svg import path_data
from cutwright.errors import CutwrightError, StepError
from cutwright.numerals import by_custom, number
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.style.replay import replay
from cutwright.wording.names import name_text
from cutwright.wording.sizes import size_asked
from cutwright.words import _


@dataclass(frozen=True, slots=True)
class Under:
    """What is laid under: in words, the outlines by piece (SVG path data), and the paper itself."""

    words: str
    pieces: dict[str, str]
    pattern: Pattern


def laid_under(shop: Shop, laid: LaidOut, what: str) -> Under:
    """The paper that was asked for: "step:3", "body:<number>" or "size:<bust>,<row>"."""
    kind, _colon, which = what.partition(":")
    if kind == "step" and which.isdigit() and len(which) < 5:
        index = min(int(which), len(laid.replay.stages))
        words = _("before sentence {number}").format(number=index + 1)
        pattern = laid.replay.pattern
        if index < len(laid.replay.stages):
            pattern = laid.replay.stages[index].before
        return _under(words, pattern)
    if kind == "body":
        body = shop.body(which)
        return _under(_("on {name}").format(name=body.name), _worked(laid, body))
    if kind == "size":
        body = resolve(size_asked(which))
        return _under(_("in {name}").format(name=body.name), _worked(laid, body))
    raise StepError(_("Only an earlier state, another body or a size can be laid under."))


def _worked(laid: LaidOut, body: object) -> Pattern:
    from cutwright.body.body import Body

    assert isinstance(body, Body)
    done = replay(laid.style.steps, body)
    if done.trouble is not None and not done.stages:
        raise CutwrightError(done.trouble.message)
    return done.pattern


def _under(words: str, pattern: Pattern) -> Under:
    return Under(words, {p.name: _outline(p) for p in pattern.pieces}, pattern)


def _outline(piece: Piece) -> str:
    return path_data(piece.outline, closed=True)


def touched_since(laid: LaidOut, under: Under) -> Sequence[dict[str, object]]:
    """Edges whose length differs, with both lengths and by how much, the largest first."""
    then = {p.name: p for p in under.pattern.pieces}
    out: list[tuple[float, dict[str, object]]] = []
    for piece in laid.replay.pattern.pieces:
        if piece.name not in then:
            continue
        old = then[piece.name]
        names = {e.name for e in old.outer_edges}
        for name in piece.edge_names():
            if name not in names:
                continue
            now, was = piece.edge_length(name), old.edge_length(name)
            if abs(now - was) >= 0.05:
                row: dict[str, object] = {
                    "where": name_text(f"{piece.name}: {name}"),
                    "now": number(now),
                    "under": number(was),
                    "by": by_custom(f"{now - was:+.1f}"),
                }
                out.append((abs(now - was), row))
    out.sort(key=lambda pair: -pair[0])
    return [row for _by, row in out]
