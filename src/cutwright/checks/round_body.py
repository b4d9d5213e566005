"""Rule 6, first part: the garment goes round the body at bust, waist and hip."""

from __future__ import annotations

from cutwright.checks.case import Case
from cutwright.checks.rings import Ring, rings
from cutwright.checks.tally import Outcome, Tally
from cutwright.messages import N_, Message
from cutwright.pattern.result import Severity

UNKNOWN = "round-unknown"
LEVELS = ("bust", "waist", "hip")
_CODES = {"bust": "goes-round-bust", "waist": "goes-round-waist", "hip": "goes-round-hip"}
_WHATS = {
    "bust": N_("ease round the bust: least"),
    "waist": N_("ease round the waist: least"),
    "hip": N_("ease round the hip: least"),
}
_NAMES = {"bust": N_("bust"), "waist": N_("waist"), "hip": N_("hip")}


def round_body(case: Case) -> Outcome:
    """Measure the garment all round with its darts sewn and hold it against the body."""
    limits = case.limits
    least = {"bust": limits.ease_bust, "waist": limits.ease_waist, "hip": limits.ease_hip}
    tallies = {
        name: Tally(_CODES[name], _WHATS[name], least[name], "cm", least=True) for name in LEVELS
    }
    if case.body is not None:
        for ring in rings(case, LEVELS):
            _hold(ring, case.body.value(f"{ring.name}_girth"), least[ring.name], tallies[ring.name])
    return Outcome(
        tuple(f for tally in tallies.values() for f in tally.findings),
        tuple(tally.row() for tally in tallies.values()),
    )


def _hold(ring: Ring, girth: float, least: float, tally: Tally) -> None:
    name = _NAMES[ring.name]
    at = ring.parts[0][1].ends[0].at
    if not ring.closed:
        text = Message(
            "cannot-measured-all-round-stops",
            N_(
                "The {level} cannot be measured all round: it stops at {loose}, so nothing was proved "
                "there."
            ),
            level=name,
            loose=ring.loose,
        )
        tally.find(Severity.NOTE, ring.where, text, ring.cm, at, code=UNKNOWN)
        return
    ease = ring.cm - girth
    tally.see(ease, ring.where)
    if ease < least - 0.005:
        text = Message(
            "garment-measures-cm-round-body",
            N_(
                "The garment measures {cm:.1f} cm round the {level} and the body {girth:.1f} cm: "
                "{ease:.1f} cm ease, at least {least:g} cm is needed."
            ),
            cm=ring.cm,
            level=name,
            girth=girth,
            ease=ease,
            least=least,
        )
        tally.find(Severity.FAULT, ring.where, text, ease, at)
