"""The resolved body: every measure with its value and where that value comes from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from cutwright.body.estimate import Reading
from cutwright.body.families import family_named
from cutwright.body.family import Family
from cutwright.body.measures import measure
from cutwright.body.tape import WOMEN
from cutwright.errors import MeasureError
from cutwright.messages import N_, Message, Typed


@dataclass(frozen=True, slots=True)
class Note:
    """Something the maker should know about a measure; drawing goes on."""

    measure: str
    message: Message


@dataclass(frozen=True, slots=True)
class Body:
    """A person's measures, complete: what was taped, and the rest estimated from it.

    Made by `resolve`; equal and hashable by `key`, so that a draft may be kept for it.
    Values are whole widths and girths in cm, angles in degrees.

    Parameters
    ----------
    name : of the person or the size
    all_readings : one for each measure of its family, in the order of a card
    notes : what the maker should know
    family : id of its family of figures
    """

    name: str = field(compare=False)
    all_readings: tuple[Reading, ...] = field(compare=False, repr=False)
    notes: tuple[Note, ...] = field(compare=False, default=())
    family: str = WOMEN
    key: tuple[tuple[str, float, bool], ...] = field(init=False, repr=False)
    _by_id: Mapping[str, Reading] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Index the readings and make the key."""
        by_id = {r.measure: r for r in self.all_readings}
        key = tuple((r.measure, round(r.value, 6), r.taped) for r in self.all_readings)
        object.__setattr__(self, "_by_id", by_id)
        object.__setattr__(self, "key", key)

    @property
    def kind(self) -> Family:
        """The family of figures it belongs to."""
        return family_named(self.family)

    @property
    def taped_values(self) -> dict[str, float]:
        """What was taped, by the id of the measure, in cm and degrees."""
        return {r.measure: r.value for r in self.all_readings if r.taped}

    @property
    def estimated_values(self) -> dict[str, float]:
        """What was estimated, by the id of the measure, in cm and degrees."""
        return {r.measure: r.value for r in self.all_readings if not r.taped}

    def value(self, name: str) -> float:
        """The value of a measure by its id: cm, or degrees for an angle.

        Parameters
        ----------
        name : id of a measure, such as "bust_girth"

        Returns
        -------
        cm, or degrees for an angle

        Raises
        ------
        MeasureError : there is no such measure, or this body has no value for it
        """
        return self.reading(name).value

    def reading(self, name: str) -> Reading:
        """The measure with its source; a `MeasureError` for a name that is no measure.

        Parameters
        ----------
        name : id of a measure, such as "bust_girth"

        Returns
        -------
        value, source and spread

        Raises
        ------
        MeasureError : there is no such measure, or this body has no value for it
        """
        found = self._by_id.get(name)
        if found is None:
            measure(name)
            raise MeasureError(
                Message(
                    "no-value-for-measure",
                    N_("The body has no value for “{name}”."),
                    name=Typed(name),
                )
            )
        return found

    def readings(self) -> tuple[Reading, ...]:
        """All measures, in the order of a card."""
        return self.all_readings

    def taped(self, name: str) -> bool:
        """Whether this measure was taped.

        Parameters
        ----------
        name : id of a measure, such as "bust_girth"

        Raises
        ------
        MeasureError : there is no such measure, or this body has no value for it
        """
        return self.reading(name).taped
