"""Rule 6, second part: with the openings it has, the garment can be put on."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.body.body import Body
from cutwright.checks.case import Case
from cutwright.checks.opening import Opening, openings
from cutwright.checks.rings import Ring, neck, rings
from cutwright.checks.round_body import LEVELS
from cutwright.checks.tally import Outcome, Tally
from cutwright.messages import N_, Message
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.result import Severity

CODE = "can-be-put-on"
WHAT = N_("getting it on: room to spare at the tightest place")
_PLACES = {
    "neck": N_("neck"),
    "bust": N_("bust"),
    "waist": N_("waist"),
    "hip": N_("hip"),
    "end of the opening": N_("end of the opening"),
}


@dataclass(frozen=True, slots=True)
class Gate:
    """A place that the body must pass: its girth with the opening, and where it is."""

    name: str
    cm: float
    where: str


@dataclass(frozen=True, slots=True)
class Way:
    """A way in with the tightest gate: spare room there (negative: it does not go)."""

    spare: float
    gate: Gate
    needed: float


def put_on(case: Case) -> Outcome:
    """Try the two ways in, over the head and over the hip; one of them must go.

    A place crossed by an opening gains twice the length of the opening below it. Where the
    opening ends between two levels, the garment there is taken to be in proportion between them,
    which is rather less than a hip curve gives.
    """
    tally = Tally(CODE, WHAT, 0.0, "cm", least=True)
    if case.body is None:
        return tally.outcome()
    gates = _gates(case)
    if not gates:
        return tally.outcome()
    ways = [_over_head(case, case.body, gates), _over_hip(case, case.body, gates)]
    best = max(ways, key=lambda way: way.spare)
    tally.see(best.spare, best.gate.where)
    if best.spare < -0.005:
        tally.find(Severity.FAULT, best.gate.where, _told(ways), best.spare)
    return tally.outcome()


def _told(ways: list[Way]) -> Message:
    head, hip = ways
    return Message(
        "no-way-over-head-opens",
        N_(
            "There is no way in. Over the head the {head_at} opens to {head_cm:.1f} cm and "
            "{head_need:.1f} cm must pass; over the hip the {hip_at} opens to {hip_cm:.1f} cm and "
            "{hip_need:.1f} cm must pass. Give it an opening, such as a zip in the centre back, or "
            "lengthen the one it has."
        ),
        head_at=_PLACES[head.gate.name],
        head_cm=head.gate.cm,
        head_need=head.needed,
        hip_at=_PLACES[hip.gate.name],
        hip_cm=hip.gate.cm,
        hip_need=hip.needed,
    )


def _over_head(case: Case, body: Body, gates: list[Gate]) -> Way:
    """The head passes the neck; shoulders and bust pass all that lies below."""
    head = body.value("head_girth") + case.limits.head
    trunk = body.value("bust_girth") - case.limits.give
    return _tightest([(gate, head if gate.name == "neck" else trunk) for gate in gates])


def _over_hip(case: Case, body: Body, gates: list[Gate]) -> Way:
    """The hip passes all that lies above it."""
    needed = body.value("hip_girth") - case.limits.give
    return _tightest([(gate, needed) for gate in gates])


def _tightest(pairs: list[tuple[Gate, float]]) -> Way:
    return min((Way(gate.cm - need, gate, need) for gate, need in pairs), key=lambda w: w.spare)


def _gates(case: Case) -> list[Gate]:
    found = openings(case)
    gates: list[Gate] = []
    round_neck = neck(case)
    if round_neck is not None:
        gain = sum(2 * o.cm for o in found if o.top and o.top[1].kind is EdgeKind.NECKLINE)
        gates.append(Gate("neck", round_neck + gain, "neckline"))
    all_round = [r for r in rings(case, LEVELS) if r.closed or r.open]
    reaches = [[_reach(opening, ring) for ring in all_round] for opening in found]
    for index, ring in enumerate(all_round):
        gain = sum(2 * max(0.0, reach[index]) for reach in reaches)
        gates.append(Gate(ring.name, float("inf") if ring.open else ring.cm + gain, ring.where))
    for reach in reaches:
        gates += _at_end(reach, all_round)
    return gates


def _reach(opening: Opening, ring: Ring) -> float:
    """How far a ring lies above the closed end of an opening; negative where it lies below."""
    found = [
        reach
        for piece, width in ring.parts
        for end in width.ends
        if (reach := opening.reach(piece.name, end.edge, end.at)) is not None
    ]
    if found:
        return max(found, key=abs)
    top = opening.top
    if top is not None and any(
        top[0] == p.name and w.level == "waist" and top[1].kind is EdgeKind.WAIST
        for p, w in ring.parts
    ):
        return opening.cm
    return 0.0


def _at_end(reach: list[float], all_round: list[Ring]) -> list[Gate]:
    """The garment where an opening ends, between the ring above and the ring below."""
    reaches = [(r, ring) for r, ring in zip(reach, all_round, strict=True) if not ring.open]
    above = min((pair for pair in reaches if pair[0] > 0), key=lambda p: p[0], default=None)
    below = max((pair for pair in reaches if pair[0] < 0), key=lambda p: p[0], default=None)
    if above is None or below is None:
        return []
    share = above[0] / (above[0] - below[0])
    cm = above[1].cm + (below[1].cm - above[1].cm) * share
    return [Gate("end of the opening", cm, above[1].where)]
