"""What becomes of the seams when two pieces are joined into one."""

from __future__ import annotations

from dataclasses import dataclass, replace

from cutwright.pattern.edge import Ref, parse_label
from cutwright.pattern.parts.joining import Joined
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.seam import Seam, SeamKind, Side

Row = tuple[Side, ...]


@dataclass(frozen=True, slots=True)
class _Followed:
    """A seam as it reads now, and whether it was one of the piece joined on."""

    seam: Seam
    added: bool


def joined_seams(pattern: Pattern, done: Joined, gone: str) -> tuple[Seam, ...]:
    """The seams after joining: the joined one is gone, the others name what their edges are now.

    Two plain seams that share an edge which was merged become one; the edges on its other side are
    put in the order in which the merged edge is walked.

    Parameters
    ----------
    pattern : the pattern before
    done : the one piece that two became
    gone : the name of the piece joined on

    Returns
    -------
    all seams of the pattern after

    Raises
    ------
    LookupFailed : an edge of a seam is not there
    """
    out: list[_Followed] = []
    for old in pattern.seams:
        rows = tuple(_now(row, done) for row in old.rows)
        if not all(rows):
            continue
        added = any(ref.piece == gone for ref in old.refs)
        new = _Followed(old.with_rows(rows), added)
        twin = next((x for x in out if x.added != added and _shared(x.seam, new.seam)), None)
        if twin is None:
            out.append(new)
        else:
            out[out.index(twin)] = _merged(pattern, done, twin, new)
    return tuple(x.seam for x in out)


def _now(row: Row, done: Joined) -> Row:
    out: list[Side] = []
    for side in row:
        parts = [ref for ref in done.became if _is_part(ref, side.ref)]
        if not parts:
            out.append(side)
            continue
        now = [Ref(r.piece, parse_label(r.edge)[0]) for part in parts for r in done.became[part]]
        out += [replace(side, ref=ref) for ref in now]
    return tuple(dict.fromkeys(out))


def _is_part(part: Ref, whole: Ref) -> bool:
    (own, parts), (name, wanted) = parse_label(part.edge), parse_label(whole.edge)
    return (part.piece, own, parts[: len(wanted)]) == (whole.piece, name, wanted)


def _shared(one: Seam, other: Seam) -> Ref | None:
    """The one edge that both plain seams of two layers are sewn to."""
    if any(s.kind != SeamKind.PLAIN or s.ratio != 1 or len(s.layers) != 2 for s in (one, other)):
        return None
    rows = [{r[0].ref for r in s.rows if len(r) == 1} for s in (one, other)]
    both = rows[0] & rows[1]
    return next(iter(both)) if len(both) == 1 and one.refs != other.refs else None


def _merged(pattern: Pattern, done: Joined, one: _Followed, other: _Followed) -> _Followed:
    own, added = (other, one) if one.added else (one, other)
    ref = _shared(one.seam, other.seam)
    assert ref is not None
    mine, beside = _turned(own.seam, ref)
    _same, beside_added = _turned(added.seam, ref)
    first = _starts_with_added(pattern, done, ref) != mine.backwards
    row = tuple(dict.fromkeys(beside_added + beside if first else beside + beside_added))
    one_row, other_row = own.seam.rows
    seam = own.seam.with_rows((one_row, row) if mine == one_row[0] else (row, other_row))
    ease = own.seam.ease + added.seam.ease
    layers = (replace(seam.layers[0], ease=ease), *seam.layers[1:])
    return _Followed(replace(seam, layers=layers), added=False)


def _turned(seam: Seam, ref: Ref) -> tuple[Side, Row]:
    """The shared edge and the row beside it, both as walked when that edge is walked forwards."""
    a, b = seam.rows
    own, beside = (a, b) if a[0].ref == ref and len(a) == 1 else (b, a)
    return own[0], beside


def _starts_with_added(pattern: Pattern, done: Joined, ref: Ref) -> bool:
    """Whether the merged edge, walked forwards, begins with what was joined on."""
    start = done.piece.edge_parts(ref.edge)[0].start
    mine = [e for e in pattern.piece(done.piece.name).edges if e.name == ref.edge]
    return all(abs(start - e.start) > 1e-6 for e in mine)
