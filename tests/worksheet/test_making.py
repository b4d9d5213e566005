"""The order of making: nothing before what it depends on, flat work before rounds are closed."""

from __future__ import annotations

from itertools import pairwise

import pytest

from cutwright.checks.case import laid_seams
from cutwright.checks.opening import openings
from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.seam import Seam
from cutwright.style.document import parse_style
from cutwright.worksheet.cutting import cutting_section
from cutwright.worksheet.making import order_of_making
from cutwright.worksheet.making_table import NotionRow
from cutwright.worksheet.making_words import making_section, task_words
from cutwright.worksheet.ready import notions
from cutwright.worksheet.sheet import Text
from cutwright.workshop.gallery import load_body
from cutwright.workshop.work import work
from tests.worksheet.sheets import BODIES, EVERY, STYLES, worked


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

    def kinds(self, index: int) -> set[EdgeKind]:
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
        if task.kind in ("hem", "hem flounce", "finish", "finish round", "neaten", "tie")
        for ref in task.edges
    ]
    assert len(finished) == len(set(finished))
    for piece in order.pattern.pieces:
        for name in piece.edge_names():
            ref = Ref(piece.name, name)
            folded = {e.kind for e in piece.edge_parts(name)} <= {EdgeKind.FOLD}
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
    names = [e.name for e in piece.edges if e.kind is not EdgeKind.LEG]
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
        for row in seam.rows:
            for one, other in pairwise(row):
                for joint in _joins(pattern, one.ref, other.ref):
                    assert order.seam[joint] < when, (seam.name, pattern.seams[joint].name)
        if seam.kind == "gathered":
            top = seam.rows[0][0].ref.piece
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
    return all(len(row) == 1 for row in seam.rows)


@pytest.mark.parametrize(("style", "body"), EVERY)
def test_pieces_are_named_in_the_order_of_their_edges(style: str, body: str) -> None:
    """And so in the same order whenever the program runs."""
    for task in order_of_making(_order(style, body).pattern):
        if task.kind == "hang":
            assert task.pieces == tuple(dict.fromkeys(ref.piece for ref in task.edges))


@pytest.mark.parametrize(("style", "body"), EVERY)
def test_rounds_stay_open_while_the_work_is_flat(style: str, body: str) -> None:
    """Seams between two open edges, and the zip, come before the side seams close the round."""
    order = _order(style, body)
    sides = [n for i, n in order.seam.items() if EdgeKind.SIDE in order.kinds(i)]
    flat = [
        n
        for i, n in order.seam.items()
        if _single(order.pattern.seams[i])
        and order.kinds(i) & {EdgeKind.SHOULDER, EdgeKind.WAIST, EdgeKind.ARMHOLE, EdgeKind.CENTRE}
        and not order.kinds(i) & {EdgeKind.SIDE, EdgeKind.GATHERED}
        and order.pattern.seams[i].kind != "waistband"
    ]
    assert sides
    assert all(n < min(sides) for n in (*flat, *order.at("zip"), *order.at("finish")))


@pytest.mark.parametrize(("style", "body"), EVERY)
def test_the_lines_are_sentences(style: str, body: str) -> None:
    pattern = worked(style, body).finished.pattern
    section = making_section(pattern)
    lines = [b.text for b in section.blocks if isinstance(b, Text) and b.kind == "task"]
    assert [line.partition(".")[0] for line in lines] == [str(n + 1) for n in range(len(lines))]
    text = "\n".join(lines)
    refs = {Ref(p.name, name) for p in pattern.pieces for name in p.edge_names()}
    assert not [ref for ref in refs if str(ref) in text]  # never "piece: edge"
    assert "{" not in text
    assert any("fitting" in line for line in lines)
    assert any(b.kind == "look" and "hem" in b.text for b in section.blocks if isinstance(b, Text))


ASKED = {
    "interfacing": NotionRow.INTERFACING, "bias strip": NotionRow.BIAS, "hook": NotionRow.HOOK, "zip in": (NotionRow.ZIP, 0),
    "sew": NotionRow.THREAD, "stitch": NotionRow.THREAD,
}  # fmt: skip


@pytest.mark.parametrize(("style", "body"), EVERY)
def test_all_that_a_line_asks_for_is_listed(style: str, body: str) -> None:
    finished = worked(style, body).finished
    listed = notions(finished)
    cut = {str(row[1]).lower() for row in cutting_section(finished).blocks[0].rows}  # type: ignore[union-attr]
    used: set[object] = set()
    for task in order_of_making(finished.pattern):
        words = task_words(finished.pattern, task).lower()
        asked = {notion for word, notion in ASKED.items() if word in words}
        asked |= {(n, task.place) if n is NotionRow.ZIP else n for n in task.notions}
        assert asked <= listed.keys(), words
        assert set(task.pieces) <= cut
        used |= asked
    assert used == listed.keys()  # and nothing is listed that no line uses


@pytest.mark.parametrize(("style", "body"), EVERY)
def test_what_is_all_opening_is_not_sewn(style: str, body: str) -> None:
    """A seam is sewn below the opening only where something of it lies below."""
    pattern = worked(style, body).finished.pattern
    order = Order(pattern)
    for opening in openings(laid_seams(pattern)):
        for stretch in opening.stretches:
            ref = Ref(stretch.piece, stretch.edge.name)
            sewn = stretch.edge.length - stretch.cm > 0.1
            (index,) = [i for i, seam in enumerate(pattern.seams) if ref in seam.refs]
            assert order.tasks[order.seam[index]].kind == ("centre" if sewn else "zip")


@pytest.mark.parametrize("body", BODIES)
def test_a_flared_hem_hangs_before_it_is_finished_or_sewn_to(body: str) -> None:
    for style in ("orchard-dress", "river-dress"):
        order = _order(style, body)
        assert max(order.at("side")) < min(order.at("hang")) < min(order.at("row"))
    for style, hangs in (("circle-skirt", True), ("flared-skirt", True), ("close-skirt", False)):
        order = _order(style, body)
        (hem,) = order.at("hem")
        assert ("for a day" in task_words(order.pattern, order.tasks[hem])) == hangs


@pytest.mark.parametrize("body", BODIES)
def test_what_would_stretch_is_staystitched_and_facings_are_understitched(body: str) -> None:
    def edges(style: str) -> set[str]:
        return {
            ref.edge for t in _order(style, body).tasks if t.kind == "staystitch" for ref in t.edges
        }

    assert "waist" in edges("circle-skirt")
    assert "waist" in edges("flared-skirt")
    assert {"neckline", "armhole"} <= edges("shift")
    for style in ("shift", "market-dress"):
        pattern = worked(style, body).finished.pattern
        said = [task_words(pattern, t) for t in order_of_making(pattern) if "facing" in t.kind]
        assert any("understitch" in words for words in said)


def _side_opening() -> Pattern:
    """A skirt that opens at the side."""
    steps: list[dict[str, object]] = [
        {"do": "draft_skirt", "fit": "close", "length": 58},
        {"do": "open_side", "edge": {"piece": "skirt front", "edge": "side"}, "zip": 20},
        {"do": "waistband", "edges": [{"piece": "skirt front", "edge": "waist"}, {"piece": "skirt back", "edge": "waist"}]},
    ]  # fmt: skip
    style = parse_style({"format": 1, "name": "side zip", "steps": steps})
    done = work(style, load_body("the-rower"))
    assert done.trouble is None, done.trouble
    return done.finished.pattern


def test_a_zip_in_the_side_is_one_zip_and_comes_after_the_side() -> None:
    order = Order(_side_opening())
    (zipped,) = order.at("zip")
    (side,) = order.at("side")
    assert side < zipped < min(order.at("row waist"))
    assert "On one side" in task_words(order.pattern, order.tasks[side])


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


def test_darts_are_pressed_as_they_lie() -> None:
    """The kind of edge on which a dart opens tells, whatever the dart is called."""

    def said(style: str) -> str:
        pattern = worked(style, "the-rower").finished.pattern
        return " ".join(
            task_words(pattern, t) for t in order_of_making(pattern) if t.kind == "darts"
        )

    assert "Press them towards the centre." in said("close-skirt")
    assert "down" not in said("orchard-dress")  # its bust dart opens at the shoulder
    assert "Press darts at side and armhole down." in said("shift")


def test_only_what_shapes_the_garment_is_basted_and_neatened() -> None:
    def names(style: str, kind: str) -> set[str]:
        tasks = order_of_making(worked(style, "the-alto").finished.pattern)
        return {ref.edge for task in tasks if task.kind == kind for ref in task.edges}

    assert names("close-skirt", "baste") == {"side", "centre back"}  # the waist gets its band
    assert "raised waist" in names("river-dress", "baste")
    for style in STYLES:
        assert names(style, "baste") == names(style, "overcast")
