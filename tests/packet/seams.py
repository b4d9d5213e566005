"""What must be true where edges are sewn: allowances run on, notches meet, bands begin at the opening."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from tests.packet.reading import Document, Row, Seam, Stretch

NOTCH = 0.1
"""How far apart two notches may lie that are laid on each other, cm."""
GATHERED = 0.3
"""The same where one row is drawn up, cm on the shorter row."""
_SILENT = {"dart leg", "fold"}
_LYING_ON_IT = {"facing", "waistband", "binding"}


@dataclass(frozen=True)
class Miss:
    """What the referee found: the rule, where, by how much, in words."""

    rule: str
    where: str
    value: float
    text: str = ""


def allowances(document: Document) -> Iterator[Miss]:
    """Edges that continue each other across a seam have one allowance."""
    for seam in document.seams:
        if seam.kind in _LYING_ON_IT:
            continue
        a, b = seam.rows
        for end in (False, True):
            k = -1 if end else 0
            one, two = a[k].outer(end), b[k].outer(end)
            if one["kind"] != two["kind"] or one["kind"] in _SILENT:
                continue
            apart = abs(one["allowance"] - two["allowance"])
            if apart > 1e-6:
                where = f"{a[k].piece.name}: {one['name']}, {b[k].piece.name}: {two['name']}"
                yield Miss("allowance", where, apart)


def notches(document: Document) -> Iterator[Miss]:
    """Every notch of a seam meets a notch, a seam, a centre or a dart of the other row."""
    for seam in document.seams:
        strands = {s.strand for row in seam.rows for s in row} - {0}
        for strand in strands:  # sewn at several places, each by itself
            a, b = (
                tuple(replace(s, times=1) for s in row if s.strand in (0, strand))
                for row in seam.rows
            )
            yield from _met(replace(seam, rows=(a, b), ease=seam.ease / len(strands)))
        if strands:
            continue
        if _mirrored(seam):
            yield from _met_round(document, _whole(seam))
        else:
            yield from _met(seam)


def _mirrored(seam: Seam) -> bool:
    halves = {s.half for row in seam.rows for s in row}
    return len(halves) > 1 or any(s.times > 1 for row in seam.rows for s in row)


def _whole(seam: Seam) -> Seam:
    """The seam with every edge as often as it is there in the garment."""
    a, b = (tuple(replace(s, times=s.made) for s in row) for row in seam.rows)
    return replace(seam, rows=(a, b))


Places = dict[str, list[float]]
"""How far along a row its notches, its joints and its folded darts lie, cm."""


def _places(row: Row) -> tuple[Places, float]:
    """What lies along a row, and how long the row is; its copies laid end to end."""
    at, found = 0.0, {"notches": list[float](), "joints": [0.0], "darts": list[float]()}
    for side in row:
        for copy in range(1, side.times + 1):
            found["notches"] += [at + d for d, only in side.notches if not only or copy in only]
            found["darts"] += [at + d for d in side.darts]
            at += side.size
            found["joints"].append(at)
    return found, at


def _met(seam: Seam) -> Iterator[Miss]:
    rows = [_places(row) for row in seam.rows]
    short = min(size for _found, size in rows)
    allowed = GATHERED if seam.kind == "gathered" else NOTCH + abs(seam.ease)
    for (found, size), (there, other) in (rows, rows[::-1]):
        for d in found["notches"]:
            off = min(abs(d / size - o / other) for key in there for o in there[key]) * short
            if off > allowed:
                yield Miss("notch", seam.name, off, f"{d:.2f} of {size:.2f}")


def _met_round(document: Document, seam: Seam) -> Iterator[Miss]:
    """A row round the body: half of it was drafted, the whole is that half and its mirror."""
    one, two = seam.rows
    strip, round_ = (one, two) if _strip(one) or not _strip(two) else (two, one)
    body, size = _unrolled(round_)
    band, long = _places(strip) if _strip(strip) else _unrolled(strip)
    allowed = GATHERED if seam.kind == "gathered" else NOTCH
    starts = _openings(document, round_, size) or sorted({p / size for p in body["joints"]})
    tried = [_apart(_begun(body, size, start), band, min(size, long), long) for start in starts]
    off, start = min(zip(tried, starts, strict=True))
    if off > allowed:
        yield Miss("notch", seam.name, off, f"begun at {[round(s * size, 2) for s in starts]}")
    elif seam.kind == "waistband":
        yield from _told(seam, _begun(body, size, start)["joints"], band, long)


def _told(seam: Seam, joints: list[float], band: Places, long: float) -> Iterator[Miss]:
    """Each seam and centre that a band passes has its notch on the band."""
    for joint in joints:
        off = min(abs(joint * long - p) for p in [*band["notches"], 0.0, long])
        if off > NOTCH:
            yield Miss("band not marked", seam.name, off, f"{joint * long:.2f} of {long:.2f}")


def _begun(places: Places, size: float, start: float) -> Places:
    """The places of a round as shares of it, counted from a start."""
    return {key: [(p / size - start) % 1.0 for p in places[key]] for key in places}


def _apart(body: Places, band: Places, short: float, long: float) -> float:
    """The largest distance from a notch of either row to what it may meet in the other."""
    other = {key: [p / long for p in band[key]] for key in band}
    worst = 0.0
    for marks, there in ((other["notches"], body), (body["notches"], other)):
        every = [0.0, 1.0, *(p for key in there for p in there[key])]
        worst = max([worst, *(min(abs(m - e) for e in every) * short for m in marks)])
    return worst


def _strip(row: Row) -> bool:
    """Whether a row is a strip of equal parts, or one that is drafted whole."""
    return len({side.piece.name for side in row}) == 1 or all(side.times == 1 for side in row)


def _unrolled(row: Row) -> tuple[Places, float]:
    """The whole round of a row drafted on one half; it starts where the drafted half ends."""
    if all(side.times == 1 or not side.half for side in row):
        return _places(row)
    once = tuple(replace(side, times=1) for side in row)
    found, half = _places(once)
    return {k: [half + way * p for p in found[k] for way in (-1, 1)] for k in found}, 2 * half


def _openings(document: Document, row: Row, size: float) -> list[float]:
    """Where on a round, as shares of it, the garment opens: beside the edge that has the zip end."""
    at, found = 0.0, list[float]()
    for side in row:
        for end in (False, True):
            if _opens(side, end):
                place = (at + (side.size if end else 0.0)) / size
                found += [0.5 - place, 0.5 + place] if side.times > 1 else [place]
        at += side.size
    return found


def _opens(side: Stretch, end: bool) -> bool:
    beyond = side.outer(end)["name"]
    return any(m.get("edge") == beyond for m in side.piece.marks("zip end"))
