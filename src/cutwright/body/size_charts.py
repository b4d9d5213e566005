"""A family's chart of sizes of our own: smooth sums of a girth and the height, no table behind them.

A size is named by what it measures: "bust 88, regular". How each measure follows is declared with its
tape (`Tape.chart`), which girths and heights there are with the family (`Family.chart`).
"""

from __future__ import annotations

from cutwright.body.card import BodyCard
from cutwright.body.estimate import estimated
from cutwright.body.families import family_named
from cutwright.body.family import Chart, Family
from cutwright.body.tape import BY_RULE, Line
from cutwright.errors import MeasureError
from cutwright.messages import N_, Message, Typed


def size(girth: float, stature: str | float = "regular", kind: Family | None = None) -> BodyCard:
    """The body card of a size.

    Parameters
    ----------
    girth : bust girth in cm, anything from the smallest to the largest of the chart
    stature : a row of the chart ("short", "regular", "tall"), or a height in cm (150 to 186)
    kind : the family of figures; women if not given

    Raises
    ------
    MeasureError : the girth or the height is not on the chart
    """
    kind = kind or family_named()
    chart = chart_of(kind)
    height = _height(stature, chart)
    if not chart.girths[0] <= girth <= chart.girths[-1]:
        lo, hi = chart.girths[0], chart.girths[-1]
        raise MeasureError(Message("size-off-chart", chart.off, lo=lo, hi=hi, girth=girth))
    measures = _measures(girth, height, chart, kind)
    name = str(size_name(girth, stature, kind))
    rounded = {each: round(value, 1) for each, value in measures.items()}
    return BodyCard(name=name, measures=rounded, family=kind.id)


def _measures(girth: float, height: float, chart: Chart, kind: Family) -> dict[str, float]:
    """Every measure that a size has, in cm."""
    off = girth - chart.middle[0], height - chart.middle[1]
    tapes = kind.tapes
    found = {"stature": height, chart.girth: girth}
    found |= {name: t.chart.at(*off) for name, t in tapes.items() if isinstance(t.chart, Line)}
    for name, tape in tapes.items():
        if tape.chart == BY_RULE:
            found[name] = estimated(name, found, tapes)
    return found


def chart_of(kind: Family) -> Chart:
    """The chart of a family; a `MeasureError` where it has none.

    Parameters
    ----------
    kind : the family of figures

    Raises
    ------
    MeasureError : the family has no chart
    """
    if kind.chart is None:
        raise MeasureError(
            Message(
                "no-size-chart",
                N_("There is no chart of sizes for this kind of figure ({family})."),
                family=kind.name,
            )
        )
    return kind.chart


def size_name(
    girth: float, stature: str | float = "regular", kind: Family | None = None
) -> Message:
    """What a size is called: "bust 88, regular"; `girth` in cm, `stature` a row or a height in cm.

    Parameters
    ----------
    girth : cm
    stature : a row of the chart, or a height in cm
    kind : the family of figures; women if not given

    Raises
    ------
    MeasureError : the family has no chart
    """
    chart = chart_of(kind or family_named())
    if isinstance(stature, str) and stature in chart.shown:
        row = chart.shown[stature]
        return Message("size-of-row", chart.named_by_row, girth=girth, row=row)
    return Message("size-of-height", chart.named_by_height, girth=girth, height=Typed(stature))


def sizes(kind: Family | None = None) -> list[tuple[int, str]]:
    """Every size of a family's chart as (girth in cm, row): what `size` takes; none without a chart.

    Parameters
    ----------
    kind : the family of figures; women if not given
    """
    chart = (kind or family_named()).chart
    return [(girth, row) for row in chart.rows for girth in chart.girths] if chart else []


def _height(stature: str | float, chart: Chart) -> float:
    """The height of a row, or the height itself where it is within reach of the chart."""
    if isinstance(stature, str):
        if stature in chart.rows:
            return chart.rows[stature]
    elif chart.heights[0] <= stature <= chart.heights[1]:
        return float(stature)
    raise MeasureError(
        Message(
            "no-such-row",
            N_(
                "There is no row “{stature}” in the chart of sizes; there are {rows}, or a height from "
                "{lo:g} to {hi:g} cm."
            ),
            stature=Typed(stature),
            rows=tuple(chart.rows),
            lo=chart.heights[0],
            hi=chart.heights[1],
        )
    )
