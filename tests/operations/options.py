"""Each option of each step alone, made from the declarations: fields, choices, bounds, names on the paper.

`python -m tests.operations.options FILE.csv` works the whole table on the demo bodies and twenty women
of a survey file and tells what neither proves nor is refused; it ends with 1 where there is any.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from cutwright.body.body import Body
from cutwright.body.resolve import resolve
from cutwright.body.survey import read_survey
from cutwright.checks.proof import BROKEN
from cutwright.desk.style.editors import Editor, editors
from cutwright.errors import CutwrightError
from cutwright.pattern.pattern import Pattern
from cutwright.style.document import Style, parse_step
from cutwright.style.registry import all_steps
from cutwright.style.step import Step
from cutwright.unforeseen import UnforeseenError
from cutwright.workshop.gallery import know_all_steps, load_body, shipped
from cutwright.workshop.work import Work, work

know_all_steps()

REASONS = ("can-be-put-on", "goes-round", "measure-doubtful", "band-ease")
"""Faults that give the wearer's reason, so that what was asked for stands refused: too small for the body, no
way in, a band that does not hold its waist."""

WOMEN = 20
ROW = dict[str, Any]


def _on(*edges: str) -> list[ROW]:
    pairs = (edge.split(": ") for edge in edges)
    return [{"piece": piece, "edge": edge} for piece, edge in pairs]


SKIRT: list[ROW] = [
    {"do": "draft_skirt", "back": "seam"},
    {"do": "set_centre", "pieces": ["skirt back"], "zip": 20},
]
BODICE: list[ROW] = [{"do": "draft_bodice"}, {"do": "set_centre", "pieces": ["back"], "zip": 36}]
DRESS: list[ROW] = [{"do": "draft_dress"}, {"do": "set_centre", "pieces": ["back"], "zip": 50}]
FLARED: list[ROW] = [
    *SKIRT,
    {"do": "close_dart", "piece": "skirt front"},
    {"do": "close_dart", "piece": "skirt back"},
]
CUT = {
    "do": "cut_apart",
    "pieces": ["front", "back"],
    "lower": ["skirt front", "skirt back"],
    "at": "waist",
}
PARTED: list[ROW] = [*DRESS, CUT]
HEMS = _on("skirt back: hem", "skirt front: hem")
WAISTS = _on("skirt back: waist", "skirt front: waist")
TO_SIDE = {"edge": "side", "share": 0.5}

SETTINGS: dict[str, tuple[list[ROW], ROW]] = {
    "allow": (SKIRT, {"edges": HEMS, "width": 4}),
    "balance_flare": (FLARED, {"edge": _on("skirt front: side")[0]}),
    "close_dart": (SKIRT, {"piece": "skirt front"}),
    "cut_apart": (DRESS, {k: v for k, v in CUT.items() if k != "do"}),
    "dart_to_gathers": (BODICE, {"piece": "front", "dart": "waist dart"}),
    "facing": (BODICE, {"kind": "neck"}),
    "flounce_circular": (SKIRT, {"edges": HEMS, "depth": 20}),
    "flounce_slashed": (SKIRT, {"edges": HEMS, "depth": 20}),
    "flounce_straight": (SKIRT, {"edges": HEMS, "depth": 20}),
    "join": (PARTED, {"to": _on("front: waist")[0], "other": _on("skirt front: waist")[0]}),
    "lengthen": (SKIRT, {"pieces": ["skirt front", "skirt back"], "by": 5}),
    "let_go": (SKIRT, {"piece": "skirt front"}),
    "mirror": (SKIRT, {"pieces": ["skirt front"]}),
    "move_dart": (BODICE, {"piece": "front", "dart": "bust dart", "to": TO_SIDE}),
    "open_side": (SKIRT, {"edge": _on("skirt front: side")[0], "zip": 18}),
    "part_sides": (BODICE, {"pieces": ["back"]}),
    "reshape_armhole": (BODICE, {"deeper": 1}),
    "reshape_neckline": (BODICE, {"wider": 1}),
    "seam_by_width": (SKIRT, {"pieces": ["skirt front", "skirt back"]}),
    "set_centre": (SKIRT[:1], {"pieces": ["skirt back"], "zip": 20}),
    "shape_hem": (SKIRT, {"side": -2}),
    "shorten_dart": (SKIRT, {"piece": "skirt front", "dart": "waist dart", "short_by": 1}),
    "split_dart": (BODICE, {"piece": "front", "dart": "bust dart", "to": TO_SIDE, "new": "side dart"}),
    "spread": (FLARED, {"piece": "skirt front", "by": 3}),
    "strip": (BODICE, {"edges": _on("back: neckline", "front: neckline")}),
    "trim_dart": (BODICE, {"piece": "front", "dart": "bust dart"}),
    "true_side": (PARTED, {"pieces": ["skirt front", "skirt back"]}),
    "waistband": (SKIRT, {"edges": WAISTS}),
    "write_measure": (SKIRT, {"edges": HEMS}),
    **{tag: ([], {}) for tag in all_steps() if tag.startswith("draft_")},
}  # fmt: skip
"""For each step the sentences before it and a plain call that its options are tried on."""


@dataclass(frozen=True)
class Option:
    """One option of one step: the sentences before it and its own row."""

    do: str
    field: str
    shown: str
    before: tuple[ROW, ...]
    row: ROW

    @property
    def name(self) -> str:
        return f"{self.do} {self.field}={self.shown}"


def options() -> list[Option]:
    """The table."""
    body = load_body("the-alto")
    return [option for tag in all_steps() if tag in SETTINGS for option in _of_step(tag, body)]


def _of_step(tag: str, body: Body) -> Iterator[Option]:
    before, asks = SETTINGS[tag]
    paper = _worked(before, body).replay.pattern
    plain = {"do": tag, **asks}
    yield Option(tag, "plain", "call", tuple(before), plain)
    for field, editor in editors(all_steps()[tag]).items():
        for value in _values(editor, asks.get(field), paper):
            yield Option(tag, field, str(value)[:60], tuple(before), {**plain, field: value})


def _values(editor: Editor, asked: Any, paper: Pattern) -> list[Any]:
    """What may stand in a field: every choice, both ends of its bounds and between, every name there is."""
    none = [None] if editor.optional else []
    if editor.choices:
        return [*editor.choices, *none]
    if editor.role == "flag":
        return [True, False]
    if editor.role == "count":
        least, most = int(editor.low or 0), int(editor.high or 40)
        return [*sorted({least, least + 1, (least + most) // 3, most})]
    if editor.numeric:
        low, high = editor.low or 0.0, 1.0 if editor.high is None else editor.high
        shares = (0.0, 0.02, 0.2, 0.5, 0.8, 1.0)
        return [*(round(low + (high - low) * share, 2) for share in shares), *none]
    return [*_named(editor.role, asked, paper), *none]


def _named(role: str, asked: Any, paper: Pattern) -> list[Any]:
    pieces = [p.name for p in paper.pieces]
    every = [(p, e) for p in paper.pieces for e in p.edge_names()]
    edges: list[Any] = [{"piece": p.name, "edge": e} for p, e in every]
    darts = sorted({d for p in paper.pieces for d in p.dart_names()})
    if role == "piece":
        return pieces
    if role == "pieces":
        return [[p] for p in pieces]
    if role == "edge of piece":
        return edges
    if role == "edges":
        return [[e] for e in edges]
    if role == "edge":
        return sorted({e for _p, e in every})
    if role == "dart":
        return darts
    if role == "darts":
        return [[d] for d in darts]
    if role == "place":
        names = sorted({e for _p, e in every})
        return [{"edge": e, "share": s} for e in names for s in (0.0, 0.3, 0.7, 1.0)]
    return []


def _worked(rows: Sequence[ROW], body: Body, earlier: Work | None = None) -> Work:
    return work(Style("options", tuple(map(parse_step, rows))), body, earlier=earlier)


def wrong(option: Option, body: Body, earlier: Work | None = None) -> str:
    """What is wrong with an option on a body: "" where it proves or is refused with a reason."""
    try:
        steps: list[Step] = [*map(parse_step, option.before), parse_step(option.row)]
    except CutwrightError:
        return ""
    done = work(Style("options", tuple(steps)), body, earlier=earlier)
    broken = [str(f.message) for f in done.findings if f.code == BROKEN]
    if isinstance(done.trouble, UnforeseenError) or broken:
        return " ".join(["crashed:", str(done.trouble or ""), *broken])
    if done.trouble is not None:
        return ""
    faults = Counter(f.code for f in done.faults if not f.code.startswith(REASONS))
    return " ".join(f"{code} x{count}" for code, count in sorted(faults.items()))


def bodies(file: Path, women: int = WOMEN) -> list[Body]:
    """The demo bodies and so many women, spread evenly over a survey file."""
    cards = list(read_survey(file))
    step = max(len(cards) // women, 1)
    return [*map(load_body, shipped("bodies")), *map(resolve, cards[::step][:women])]


def main() -> int:
    """Work the whole table; print what is wrong and how often."""
    table, people = options(), bodies(Path(sys.argv[1]))
    only = sys.argv[2:]
    bad: Counter[tuple[str, str]] = Counter()
    count = 0
    for body in people:
        known: dict[str, Work] = {}
        for option in table:
            if only and option.do not in only:
                continue
            if option.do not in known:
                known[option.do] = _worked(option.before, body)
            count += 1
            if found := wrong(option, body, known[option.do]):
                bad[(option.name, found)] += 1
    for (name, found), times in sorted(bad.items()):
        sys.stdout.write(f"{times:3} x {name}: {found}\n")
    sys.stdout.write(
        f"{len(table)} options, {len(people)} bodies, {count} worked, {bad.total()} wrong\n"
    )
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
