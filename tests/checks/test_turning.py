"""Rule 5: turning paper keeps lengths and area."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cutwright.checks.limits import HOUSE
from cutwright.checks.tally import Tally
from cutwright.checks.turning import AREA, LENGTH, prove_result
from cutwright.geometry.curve import Line
from cutwright.pattern.change import Change, account
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Result, Severity, Trace, TraceKind

WIDE, DEEP = 20.0, 30.0


def rectangle(wide: float = WIDE, deep: float = DEEP) -> Piece:
    corners = (0j, wide + 0j, complex(wide, deep), complex(0, deep))
    kinds = (EdgeKind.WAIST, EdgeKind.SIDE, EdgeKind.HEM, EdgeKind.FOLD)
    names = ("waist", "side", "hem", "centre")
    edges = tuple(
        Edge(name, (Line(corners[i], corners[(i + 1) % 4]),), kinds[i])
        for i, name in enumerate(names)
    )
    return Piece("panel", edges, (5j, 20j))


def spread(gap: float, told: float | None = None) -> Result:
    """A rectangle slashed at its middle and spread by a parallel gap; `told` is what the step says."""
    before, after = Pattern((rectangle(),)), Pattern((rectangle(WIDE + gap),))
    wide = told or gap
    ring = (10 + 0j, 10 + 30j, 10 + wide + 30j, 10 + wide + 0j)  # down one flank, up the other
    traces = (
        Trace(TraceKind.CUT, "panel", (10 + 0j, 10 + 30j)),
        Trace(TraceKind.WEDGE, "panel", ring),
    )
    return Result(after, account(before, after), traces=traces)


def codes(result: Result, before: Pattern | None = None) -> set[str]:
    lengths = Tally(LENGTH, "", HOUSE.turning, "cm")
    areas = Tally(AREA, "", None, "cm2")
    prove_result(before or Pattern((rectangle(),)), result, "spread", HOUSE, lengths, areas)
    return {f.code for f in (*lengths.findings, *areas.findings)}


def test_an_opened_gap_belongs_to_the_edges_it_opened() -> None:
    assert codes(spread(4.0)) == set()


def test_a_gap_that_is_not_told_is_found() -> None:
    assert codes(spread(4.0, told=3.0)) == {LENGTH, AREA}


@pytest.mark.parametrize(
    ("missing", "good"), [(0.0, True), (0.1, True), (1.0, False), (2.9, False)]
)
def test_what_truing_gave_is_accounted_for_to_a_sliver(missing: float, good: bool) -> None:
    """A step tells that truing gave 3 cm2; that one of them is not there is found.

    All edges were drawn anew, 132 cm with the trued hem: 0.05 + 0.005 x 132 = 0.71 cm2 may be missing.
    """
    gap, told = 4.0, 3.0
    deep = DEEP + (told - missing) / (WIDE + gap)
    before, after = Pattern((rectangle(),)), Pattern((rectangle(WIDE + gap, deep),))
    hem = Line(complex(WIDE + gap, deep), complex(0, deep))
    sliver = (30j, 24 + 30j, complex(24, 30 + told / 24), complex(0, 30 + told / 24))
    traces = (*spread(gap).traces, Trace(TraceKind.TRUED, "panel", sliver, path=(hem,)))
    found = codes(Result(after, account(before, after), traces=traces))
    assert (AREA not in found) == good


def test_truing_that_gives_more_than_a_sliver_is_said() -> None:
    """0.6 cm2 for each cm that was drawn anew is usual: 79 cm2 here; 5 cm more hem are 120."""
    before, after = Pattern((rectangle(),)), Pattern((rectangle(WIDE + 4, DEEP + 5),))
    hem = Line(24 + 35j, 35j)
    sliver = (30j, 24 + 30j, 24 + 35j, 35j)
    traces = (*spread(4.0).traces, Trace(TraceKind.TRUED, "panel", sliver, path=(hem,)))
    result = Result(after, account(before, after), traces=traces)
    areas = Tally(AREA, "", None, "cm2")
    prove_result(before, result, "spread", HOUSE, Tally(LENGTH, "", HOUSE.turning, "cm"), areas)
    (finding,) = areas.findings
    assert finding.level is Severity.WARNING
    assert finding.value == pytest.approx(120.0)
    assert "at most 8" in str(finding.message)  # 0.6 x 24 + 24 + 35 + 35 + 24


def test_a_kept_edge_that_grew_is_found() -> None:
    after = Pattern((rectangle(WIDE, DEEP + 0.1),))
    traces = (Trace(TraceKind.PIVOT, "panel", (10 + 0j,)),)
    assert LENGTH in codes(Result(after, Change(), traces=traces))


def test_steps_that_add_paper_are_left_alone() -> None:
    after = Pattern((rectangle(WIDE, DEEP + 5),))
    assert codes(Result(after, Change(), traces=(Trace(TraceKind.ADDED, "panel"),))) == set()


@pytest.mark.parametrize(("at", "good"), [(12.0, True), (12.4, False)])
def test_cutting_apart_keeps_length_and_area(at: float, good: bool) -> None:
    """Cut across at 12: the lower part is 18 deep, unless it was cut short."""
    upper = replace(rectangle(WIDE, 12.0), name="upper")
    lower = replace(rectangle(WIDE, DEEP - at), name="lower")
    after = Pattern((upper, lower))
    parts = {
        Ref("panel", "side"): (Ref("upper", "side"), Ref("lower", "side")),
        Ref("panel", "centre"): (Ref("upper", "centre"), Ref("lower", "centre")),
        Ref("panel", "waist"): (Ref("upper", "waist"),),
        Ref("panel", "hem"): (Ref("lower", "hem"),),
    }
    made = frozenset({Ref("upper", "hem"), Ref("lower", "waist")})
    traces = (Trace(TraceKind.CUT, "panel", (12j, 20 + 12j)),)
    assert (codes(Result(after, Change(parts, made), traces=traces)) == set()) == good
