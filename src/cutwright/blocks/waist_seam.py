"""The seam between a bodice and a skirt that lie on the table together."""

from __future__ import annotations

from cutwright.blocks.doubts import note
from cutwright.messages import N_, Message
from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Finding
from cutwright.pattern.role import Role
from cutwright.pattern.seam import WALKS, Seam, seam

_SKIRTS = ("skirt front", "skirt back", "skirt", "skirt panel")


def stretches(pattern: Pattern, piece: str) -> tuple[float, ...] | None:
    """Lengths of a waist from the centre to each dart and on to the side; None without one.

    Parameters
    ----------
    pattern : what lies on the table
    piece : its name

    Returns
    -------
    cm
    """
    if piece not in pattern.names:
        return None
    found = pattern.piece(piece)
    parts = [e for e in found.edges if e.name == "waist" and e.kind is EdgeKind.WAIST]
    rows = tuple(edge.length for edge in parts)
    from_centre = (
        found.role is not Role.BACK if piece in ("front", "back") else found.role is Role.BACK
    )
    return (rows if from_centre else rows[::-1]) if rows else None


Stretches = tuple[float, ...] | None


def dart_counts(
    places: tuple[Stretches, Stretches], closed: tuple[float, float]
) -> tuple[int, int] | None:
    """How many darts the other block has behind and in front, where its waists are as long as ours.

    `places` are its stretches and `closed` our waists, back and front, cm. None where there is no
    other block or its waists are not ours.

    Parameters
    ----------
    places : stretches of the other back and front waist, cm
    closed : our back and front waist with the darts closed, cm
    """
    rows = [row for row in places if row]
    if len(rows) < 2 or any(abs(sum(r) - c) > 1e-3 for r, c in zip(rows, closed, strict=True)):
        return None
    return len(rows[0]) - 1, len(rows[1]) - 1


def waist_seams(pattern: Pattern) -> tuple[tuple[Seam, ...], tuple[Finding, ...]]:
    """The waist seams of bodice and skirt, where both are there and as long as each other.

    Front to front and back to back; where only the whole waists agree, all in one seam.

    Parameters
    ----------
    pattern : what lies on the table

    Returns
    -------
    the seams, and what is to be said where there are none
    """
    names = [
        name
        for name in pattern.names
        if any(edge.kind is EdgeKind.WAIST for edge in pattern.named_edges(name))
    ]
    lower = [Ref(name, "waist") for name in _SKIRTS if name in names]
    if not lower or not {"front", "back"} <= set(names):
        return (), ()
    upper = [Ref("front", "waist"), Ref("back", "waist")]
    if any(pattern.seams_of(ref) for ref in (*upper, *lower)):
        return (), ()
    if len(lower) == 2:
        pairs = [seam(a, b) for a, b in zip(upper, lower, strict=True)]
        if all(_walks(pattern, pair) for pair in pairs):
            return tuple(pairs), ()
    whole = seam((upper[0], upper[1]), tuple(lower))
    if _walks(pattern, whole):
        return (whole,), ()
    bodice, skirt = _round(pattern, upper), _round(pattern, lower)
    text = Message(
        "waist-bodice-all-round-skirt",
        N_(
            "The waist of the bodice is {bodice} all round and that of the skirt {skirt}: they were "
            "drafted with different ease, so no waist seam was made."
        ),
        bodice=f"{bodice:.1f}",
        skirt=f"{skirt:.1f}",
    )
    return (), (note("draft-waists-differ", f"{lower[0].piece}: waist", text, bodice - skirt),)


def _walks(pattern: Pattern, pair: Seam) -> bool:
    one, other = pattern.seam_lengths(pair)
    return abs(one - other) <= WALKS


def _round(pattern: Pattern, refs: list[Ref]) -> float:
    return sum(pattern.length(ref) * pattern.piece(ref.piece).times for ref in refs)
