"""The lay as a document: where every piece lies, how long the cloth is, and that it was verified."""

from __future__ import annotations

import cmath
import math
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from cutwright.lay.cloth import Cloth, Fold
from cutwright.messages import N_


class _Page(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)


class Placement(_Page):
    """One cut: a piece put down, and which of its copies come of it.

    A point z of the piece goes to (z, or its conjugate when mirrored) turned by `rotation`
    degrees, moved by x + iy. x runs along the cloth from its start, y across it from the fold or
    selvedge; both in cm. `opened`: the outline is opened out at its fold edge first.
    """

    piece: str
    copies: tuple[int, ...]
    part: int = 0
    x: float
    y: float
    rotation: float
    mirrored: bool
    on_fold: bool = False
    opened: bool = False
    spare: bool = Field(default=False, description=N_("the lower layer gives one copy too many"))

    def of(self, z: complex) -> complex:
        """Where a point of the piece lies on the cloth."""
        turn = cmath.exp(1j * math.radians(self.rotation))
        return (z.conjugate() if self.mirrored else z) * turn + complex(self.x, self.y)


class ClothPart(_Page):
    """A stretch of the cloth that lies in one way: doubled along (once or twice), crosswise, or single.

    With both selvedges to the middle one fold lies at y = 0, the other at the full height, and the
    upper layer is two halves that meet between them.
    """

    fold: Fold
    start: float
    length: float = Field(
        description=N_("cm along the table; a crosswise fold takes twice that of cloth")
    )
    height: float


class Lay(_Page):
    """A whole lay of one cloth, with the verifier's word."""

    format: Literal[1] = 1
    cloth: Cloth
    parts: tuple[ClothPart, ...]
    placements: tuple[Placement, ...] = Field(
        description=N_("in the order of cutting, along the cloth")
    )
    length: float = Field(description=N_("cm of cloth used, before shrinkage and rounding"))
    utilisation: float = Field(description=N_("share of the usable cloth that is in the pieces"))
    engine: str
    seed: int
    tried: int = Field(default=0, description=N_("places tried by the search"))
    verified: bool = False
    faults: tuple[str, ...] = ()
