"""The cloth card: what the cloth on the table is like, as far as cutting and buying go."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path
from typing import Annotated, Literal, Self

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, model_validator

from cutwright.errors import LayError
from cutwright.messages import N_, Message, Typed

Fold = Literal["lengthwise", "selvedges to the middle", "open", "crosswise"]
ALONG: frozenset[Fold] = frozenset({"lengthwise", "selvedges to the middle"})
"""The folds that run along the cloth: a piece may lie on them, and both layers keep the nap."""
Nap = Literal["one way", "two way"]
YARD = 91.44

_YARDS = re.compile(r"\s*(\d+)\s*(?:/\s*([1-9]\d*))?\s*yd\s*")


def _step(given: object) -> object:
    """Centimetres from a number or from text such as "1/8 yd" or "10 cm"."""
    if not isinstance(given, str):
        return given
    if yards := _YARDS.fullmatch(given):
        return float(Fraction(int(yards[1]), int(yards[2] or 1))) * YARD
    return given.strip().removesuffix("cm").strip()


Step = Annotated[float, BeforeValidator(_step), Field(gt=0, le=2 * YARD)]
Share = Annotated[float, Field(ge=0, le=0.25)]


def lanes(fold: Fold, height: float) -> tuple[tuple[float, float], ...]:
    """From where to where (y, cm) a piece may reach on cloth folded so that lies `height` across.

    With both selvedges to the middle the upper layer is two halves, so no piece crosses the middle.
    """
    if fold == "selvedges to the middle":
        return (0.0, height / 2), (height / 2, height)
    return ((0.0, height),)


class _Card(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)


class Match(_Card):
    """Points of pieces that must meet the same place of the repeat, so that a seam matches.

    `points` are written "piece: mark". `along` matches bars that lie across the cloth, `across`
    matches stripes that run along it. `at` puts the points that far (cm) from a line of the
    repeat; without it they lie on the line, or where a piece on the fold puts them.
    """

    points: tuple[str, ...] = Field(min_length=1)
    along: bool = True
    across: bool = False
    at: float | None = None


class Cloth(_Card):
    """A cloth as it is bought: lengths in cm, shrinkage as a share (0.03 is 3 %), price a metre.

    The repeat is taken to look the same both ways about its line (an even check or stripe); one
    that does not is a one-way cloth. A line of it runs along the middle of the cloth, where the
    fold is, and across its start.
    """

    format: Literal[1] = 1
    name: str = Field(min_length=1, max_length=80)
    material: str = Field(default="main", min_length=1, max_length=40)
    width: float = Field(gt=0, le=500)
    selvedge: float = Field(default=0.0, ge=0, le=20)
    fold: Fold = "lengthwise"
    nap: Nap = "two way"
    repeat_along: float | None = Field(default=None, ge=0.2, le=200)
    repeat_across: float | None = Field(default=None, ge=0.2, le=500)
    matches: tuple[Match, ...] = ()
    shrinks_along: Share = 0.0
    shrinks_across: Share = 0.0
    grain_tolerance: float = Field(default=0.0, ge=0, le=5, description=N_("degrees either way"))
    price: float = Field(default=0.0, ge=0)
    currency: str = Field(default="", max_length=8)
    step: Step = 10.0
    plies: int = Field(default=1, ge=1, le=50)

    @model_validator(mode="after")
    def _has_room(self) -> Self:
        if self.usable <= 0:
            raise ValueError(
                Message(
                    "selvedges-leave-nothing",
                    N_(
                        "two selvedges of {selvedge:g} cm leave nothing of a cloth {width:g} cm wide."
                    ),
                    selvedge=self.selvedge,
                    width=self.width,
                )
            )
        return self

    @property
    def usable(self) -> float:
        """The width that can be cut: without selvedges, after washing."""
        return (self.width - 2 * self.selvedge) * (1 - self.shrinks_across)

    @property
    def room(self) -> float:
        """How wide a piece may be where the cloth lies as folded."""
        low, high = lanes(self.fold, self.height_of(self.fold))[0]
        return high - low

    def height_of(self, fold: Fold) -> float:
        """How far the cloth folded so reaches across the table from its first fold or selvedge."""
        return self.usable / 2 if fold in ALONG else self.usable

    def check_repeat(self) -> None:
        """Refuse a repeat that does not fit on the cloth."""
        if self.repeat_across is not None and self.repeat_across > self.usable:
            raise LayError(
                Message(
                    "repeat-across-cm-wider-cloth",
                    N_(
                        "The repeat across, {repeat:g} cm, is wider than the cloth, of which "
                        "{usable:.1f} cm can be used. Measure the repeat again, or leave it out and "
                        "place the pieces by eye."
                    ),
                    repeat=self.repeat_across,
                    usable=self.usable,
                )
            )


def read_cloth(path: Path) -> Cloth:
    """A cloth card from a file, or every problem in it at once."""
    from cutwright.documents import read_document

    title = Message(
        "cloth-card", N_("The cloth card “{name}” cannot be used:"), name=Typed(path.name)
    )
    return read_document(path, Cloth, title)


def is_example(cloth: Cloth) -> bool:
    """Whether a card is one that ships, perhaps with another width, fold or nap: not a real cloth."""
    return any(cloth.name == card.name for card in gallery_cloths().values())


def gallery_cloths() -> dict[str, Cloth]:
    """The common cloths that come with the program, by file name; all are invented."""
    folder = Path(__file__).parent.parent / "gallery" / "cloths"
    return {path.stem: read_cloth(path) for path in sorted(folder.glob("*.json"))}
