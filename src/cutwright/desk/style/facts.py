"""What can be said about an edge, a dart or a piece that is pointed at."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from cutwright.desk.style.history import Origin, dart_names
from cutwright.desk.style.laid_out import LaidOut
from cutwright.errors import LookupFailed
from cutwright.finish.label import how_cut
from cutwright.finish.options import FinishOptions
from cutwright.numerals import by_custom
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.piece import Dart, Piece
from cutwright.pattern.seam import Seam
from cutwright.wording.message_text import message_text
from cutwright.wording.names import name_text, sentence_case
from cutwright.words import _


@dataclass(frozen=True, slots=True)
class Facts:
    """A heading, the lines below it, and the sentences (from 0) that have to do with it."""

    title: str
    lines: tuple[str, ...]
    sentences: tuple[int, ...]
    kind: str
    partners: tuple[str, ...] = ()


def facts(laid: LaidOut, piece_name: str, name: str) -> Facts:
    """The facts about a piece (empty `name`), an edge or a dart; LookupFailed when it is not there."""
    pattern = laid.finished.pattern
    piece = pattern.piece(piece_name)
    if not name:
        return _piece_facts(laid, piece)
    if name in dart_names(piece):
        return _dart_facts(laid, piece, name)
    parts = piece.edge_parts(name)
    return _edge_facts(laid, piece, parts)


def _piece_facts(laid: LaidOut, piece: Piece) -> Facts:
    lines = [message_text(how_cut(piece, FinishOptions())) + "."]
    lines.append(
        _("{count} edges, {area:.0f} cm² of cloth inside the stitch line.").format(
            count=len(piece.edge_names()), area=piece.area
        )
    )
    made = sorted(
        {o.made for ref, o in laid.origins.items() if ref.piece == piece.name}
        | {i for r, o in laid.origins.items() if r.piece == piece.name for i, *_x in o.changed}
    )
    return Facts(sentence_case(name_text(piece.name)), tuple(lines), tuple(made), "piece")


def _dart_facts(laid: LaidOut, piece: Piece, name: str) -> Facts:
    dart = piece.dart(name)
    if isinstance(dart, Dart):
        leg = piece.legs(dart)[0].length
        text = _("{width:.1f} cm wide at its mouth, legs {leg:.1f} cm.").format(
            width=piece.intake(dart), leg=leg
        )
        origin = laid.origins.get(Ref(piece.name, f"{name}.1"))
    else:
        deep = abs(dart.bottom - dart.top)
        text = _("{width:.1f} cm at its widest, {deep:.1f} cm from point to point.").format(
            width=dart.intake, deep=deep
        )
        origin = None
    sentences = (origin.made,) if origin else ()
    return Facts(
        _("{name} of {piece}").format(name=name_text(name), piece=name_text(piece.name)),
        (by_custom(text),),
        sentences,
        "dart",
    )


def _edge_facts(laid: LaidOut, piece: Piece, parts: tuple[Edge, ...]) -> Facts:
    first = parts[0]
    label = first.label if len(parts) == 1 else first.name
    ref = Ref(piece.name, first.name)
    origin = laid.origins.get(ref)
    seams = [s for s in laid.finished.pattern.seams if ref in s.refs]
    partners = [str(r) for s in seams for r in s.other_refs(ref)]
    lines = [*_lengths(piece, parts), *(_sewn(s, ref) for s in seams)]
    if not seams:
        lines.append(_alone(first))
    lines += _history(origin)
    sentences = (origin.made, *(i for i, _a, _b in origin.changed)) if origin else ()
    title = _("{name} of {piece}").format(name=name_text(label), piece=name_text(piece.name))
    return Facts(
        title,
        tuple(map(by_custom, lines)),
        tuple(dict.fromkeys(sentences)),
        "edge",
        tuple(partners),
    )


def _lengths(piece: Piece, parts: tuple[Edge, ...]) -> Iterator[str]:
    here = sum(edge.length for edge in parts)
    whole = piece.edge_length(parts[0].name)
    yield _("{length:.1f} cm along the stitch line.").format(length=here)
    if abs(whole - here) > 0.005:
        yield _("All parts of the {edge} together: {length:.1f} cm.").format(
            edge=name_text(parts[0].name), length=whole
        )


def _sewn(seam: Seam, ref: Ref) -> str:
    other = seam.other_refs(ref)
    if other == (ref,):
        return _("Sewn to the same edge of the other half.")
    names = _(" and ").join(name_text(str(each)) for each in other)
    drawn = ref in seam.drawn.refs
    if seam.ratio > 1.0005:
        text = (
            _("Gathered to {names}, {ratio:.2f} : 1.")
            if drawn
            else _("Takes {names}, gathered {ratio:.2f} : 1.")
        )
        return text.format(names=names, ratio=seam.ratio)
    if seam.ease > 0.005:
        text = (
            _("Eased {ease:.1f} cm into {names}.")
            if drawn
            else _("Takes {names}, eased {ease:.1f} cm.")
        )
        return text.format(names=names, ease=seam.ease)
    return _("Sewn to {names}.").format(names=names)


def _alone(edge: Edge) -> str:
    if edge.kind is EdgeKind.FOLD:
        return _("Lies on the fold of the cloth.")
    return _("Sewn to nothing; finished by itself.")


def _history(origin: Origin | None) -> Iterator[str]:
    if origin is None:
        return
    yield _("Made by sentence {number}.").format(number=origin.made + 1)
    for index, before, after in origin.changed:
        yield _("Sentence {number} took it from {before:.1f} to {after:.1f} cm.").format(
            number=index + 1, before=before, after=after
        )


def split_tag(tag: str) -> tuple[str, str]:
    """Read "skirt front: hem" as piece and name; a piece alone has an empty name."""
    piece, _colon, name = tag.partition(":")
    if not piece.strip() or len(tag) > 200:
        raise LookupFailed(_("Say which piece and edge, like “skirt front: hem”."))
    return piece.strip(), name.strip()
