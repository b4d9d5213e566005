"""The seam between a bodice and a skirt that lie on the table together."""

from __future__ import annotations

from cutwright.blocks.arithmetic import shown
from cutwright.blocks.doubts import note
from cutwright.pattern.edge import Kind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Finding
from cutwright.pattern.seam import Seam, seam
from cutwright.words import _

_WALKS = 0.05


def stretches(pattern: Pattern, piece: str) -> tuple[float, ...] | None:
    """Lengths of a waist from the centre to each dart and on to the side; None without one."""
    found = next((p for p in pattern.pieces if p.name == piece), None)
    if found is None:
        return None
    parts = [e for e in found.edges if e.name == "waist" and e.kind is Kind.WAIST]
    rows = tuple(edge.length for edge in parts)
    from_centre = found.about != "back" if piece in ("front", "back") else found.about == "back"
    return (rows if from_centre else rows[::-1]) if rows else None


def waist_seams(pattern: Pattern, made_by: str) -> tuple[tuple[Seam, ...], tuple[Finding, ...]]:
    """The waist seams of bodice and skirt, where both are there and as long as each other.

    Front to front and back to back; where only the whole waists agree, all in one seam.
    """
    names = {p.name for p in pattern.pieces if any(e.name == "waist" for e in p.edges)}
    if not {"front", "back", "skirt front", "skirt back"} <= names:
        return (), ()
    upper = [Ref("front", "waist"), Ref("back", "waist")]
    lower = [Ref("skirt front", "waist"), Ref("skirt back", "waist")]
    if any(pattern.seams_of(ref) for ref in (*upper, *lower)):
        return (), ()
    gaps = [pattern.length(a) - pattern.length(b) for a, b in zip(upper, lower, strict=True)]
    if all(abs(gap) <= _WALKS for gap in gaps):
        pairs = zip(upper, lower, strict=True)
        return tuple(seam(a, b, made_by=made_by) for a, b in pairs), ()
    if abs(sum(gaps)) <= _WALKS:
        # walked from the front centre round to the back centre: the skirt's edges backwards
        return (seam((upper[0], upper[1]), (lower[0], lower[1]), made_by=made_by),), ()
    text = _(
        "The waist of the bodice is {bodice} and that of the skirt {skirt} on the half: they were "
        "drafted with different ease, so no waist seam was made."
    ).format(
        bodice=shown(sum(map(pattern.length, upper))), skirt=shown(sum(map(pattern.length, lower)))
    )
    return (), (note("draft-waists-differ", "skirt front: waist", text, sum(gaps)),)
