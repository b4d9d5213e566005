"""The order of making: nothing before what it depends on, flat work before rounds are closed."""

from __future__ import annotations

from itertools import pairwise

import pytest

from cutwright.pattern.edge import Kind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.seam import Seam
from cutwright.worksheet.making import order_of_making
from cutwright.worksheet.making_words import making_section
from cutwright.worksheet.sheet import Text
from tests.worksheet.sheets import EVERY, STYLES, worked


class Order:
    """When each thing is done, read off the list of tasks."""

    def __init__(self, pattern: Pattern) -> None:
        self.pattern = pattern
        self.tasks = order_of_making(pattern)
        self.seam = {i: n for n, task in enumerate(self.tasks) for i in task.seams}

    def at(self, kind: str, piece: str = "") -> list[int]:
        """The places of tasks of a kind, of one piece if named."""
        return [
            n
            for n, task in enumerate(self.tasks)
            if task.kind == kind and (not piece or piece in task.pieces)
        ]

    def kinds(self, index: int) -> set[Kind]:
        """The kinds of edges of a seam."""
        seam = self.pattern.seams[index]
        return {e.kind for ref in seam.refs for e in self.pattern.edge_parts(ref)}


def _order(style: str, body: str) -> Order:
    return Order(worked(style, body).finished.pattern)


@pytest.mark.parametrize(("style", "body"), EVERY)
def test_every_seam_and_every_open_edge_is_done_once(style: str, body: str) -> None:
    order = _order(style, body)
    assert sorted(i for task in order.tasks for i in task.seams) == list(
        range(len(order.pattern.seams))
    )
    sewn = {ref for seam in order.pattern.seams for ref in seam.refs}
    finished = [
        ref
        for task in order.tasks
        if task.kind in ("hem", "hem flounce", "finish", "finish round", "neaten")
        for ref in task.edges
    ]
    assert len(finished) == len(set(finished))
    for piece in order.pattern.pieces:
        for name in piece.edge_names():
            ref = Ref(piece.name, name)
            folded = {e.kind for e in piece.edge_parts(name)} <= {Kind.FOLD}
            if ref not in sewn and not folded and "waistband" not in piece.name:
                assert ref in finished


def _joins(pattern: Pattern, one: Ref, other: Ref) -> list[int]:
    """Seams that join the pieces of two edges of a row at the corner where they meet."""
    out = []
    for index, seam in enumerate(pattern.seams):
        pieces = {ref.piece for ref in seam.refs}
        apart = one not in seam.refs and other not in seam.refs
        if {one.piece, other.piece} != pieces or not apart:
            continue
        if all(_touch(pattern, ref, {one, other}) for ref in seam.refs):
            out.append(index)
    return out


def _touch(pattern: Pattern, ref: Ref, rows: set[Ref]) -> bool:
    """Whether an edge shares a corner with the edge of its own piece in the row, darts folded."""
    piece = pattern.piece(ref.piece)
    names = [e.name for e in piece.edges if e.kind is not Kind.LEG]
    wanted = next(r.edge for r in rows if r.piece == ref.piece)
    pairs = {frozenset(p) for p in zip(names, names[1:] + names[:1], strict=True)}
    return frozenset((ref.edge, wanted)) in pairs


@pytest.mark.parametrize(("style", "body"), EVERY)
def test_no_seam_before_what_it_depends_on(style: str, body: str) -> None:
    order = _order(style, body)
    pattern = order.pattern
    for index, seam in enumerate(pattern.seams):
        when = order.seam[index]
        for ref in seam.refs:
            piece = pattern.piece(ref.piece)
            if len(piece.edge_parts(ref.edge)) > 1:  # a dart opens on it
                assert max(order.at("darts", piece.name)) < when
        for row in (seam.a, seam.b):
            for one, other in pairwise(row):
                for joint in _joins(pattern, one.ref, other.ref):
                    assert order.seam[joint] < when, (seam.name, pattern.seams[joint].name)
        if seam.kind == "gathered":
            top = seam.a[0].ref.piece
            assert max(order.at("gather", top)) < when
            for done in (*order.at("ends", top), *order.at("hem flounce", top)):
                assert done < when
        if seam.kind == "waistband" and order.at("zip"):
            assert max(order.at("zip")) < when
    for zipped in order.at("zip"):
        assert max(order.at("centre")) < zipped
        assert all(n < zipped for n in order.at("waist"))
    for hem in order.at("hem"):
        assert all(n < hem for n in (*order.at("side"), *order.at("centre")))
    assert max(order.at("baste")) < max(order.at("fit")) < min(order.seam.values())


def _single(seam: Seam) -> bool:
    return len(seam.a) == len(seam.b) == 1


@pytest.mark.parametrize(("style", "body"), EVERY)
def test_rounds_stay_open_while_the_work_is_flat(style: str, body: str) -> None:
    """Seams between two open edges, and the zip, come before the side seams close the round."""
    order = _order(style, body)
    sides = [n for i, n in order.seam.items() if Kind.SIDE in order.kinds(i)]
    flat = [
        n
        for i, n in order.seam.items()
        if _single(order.pattern.seams[i])
        and order.kinds(i) & {Kind.SHOULDER, Kind.WAIST, Kind.ARMHOLE, Kind.CENTRE}
        and not order.kinds(i) & {Kind.SIDE, Kind.GATHERED}
        and order.pattern.seams[i].kind != "waistband"
    ]
    assert sides
    assert all(n < min(sides) for n in (*flat, *order.at("zip"), *order.at("finish")))


@pytest.mark.parametrize("style", STYLES)
def test_the_lines_name_pieces_and_edges(style: str) -> None:
    pattern = worked(style, "the-rower").finished.pattern
    section = making_section(pattern)
    lines = [b.text for b in section.blocks if isinstance(b, Text) and b.kind == "task"]
    assert [line.partition(".")[0] for line in lines] == [str(n + 1) for n in range(len(lines))]
    text = "\n".join(lines)
    for ref in {ref for seam in pattern.seams for ref in seam.refs}:
        assert str(ref) in text
    assert any("fitting" in line for line in lines)
    assert any(b.kind == "look" and "hem" in b.text for b in section.blocks if isinstance(b, Text))


def test_a_facing_of_neck_and_armholes_in_one_is_turned_while_the_back_is_open() -> None:
    order = _order("market-dress", "the-alto")
    (facing,) = order.at("combined facing")
    assert not order.at("neck facing")
    assert not order.at("armhole facing")
    before = ("shoulder", "facing shoulder", "staystitch", "interface")
    assert all(n < facing for kind in before for n in order.at(kind))
    assert all(n > facing for kind in ("waist", "centre", "zip", "side") for n in order.at(kind))
    (ends,) = order.at("facing centre")
    assert ends > max(order.at("zip"))


def test_darts_are_pressed_as_those_there_are() -> None:
    def said(style: str) -> str:
        blocks = making_section(worked(style, "the-alto").finished.pattern).blocks
        return "\n".join(b.text for b in blocks if isinstance(b, Text))

    assert "Press them towards the centre." in said("close-skirt")
    assert "shoulder and neck" not in said("close-skirt")
    assert "on through the waist" not in said("close-skirt")
    assert "on through the waist" in said("orchard-dress")


def test_only_what_shapes_the_garment_is_basted_and_neatened() -> None:
    def names(style: str, kind: str) -> set[str]:
        tasks = order_of_making(worked(style, "the-alto").finished.pattern)
        return {ref.edge for task in tasks if task.kind == kind for ref in task.edges}

    assert names("close-skirt", "baste") == {"side", "centre back"}  # the waist gets its band
    assert "raised waist" in names("river-dress", "baste")
    for style in STYLES:
        assert names(style, "baste") == names(style, "overcast")
