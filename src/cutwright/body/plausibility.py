"""Does this card look like a body, or like a slip of the pen?

Each taped measure is held against what its neighbours on the card let expect (see `believed`). About
one real woman in a hundred is asked about; an inch typed for a centimetre, a half girth or two
swapped lines stand far outside. A value beyond the bounds of its measure stops the work; anything
else is only asked.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Protocol

from cutwright.body.believed import believed
from cutwright.body.families import family_named
from cutwright.body.rule import Range
from cutwright.body.tape import Tape
from cutwright.messages import N_, Message
from cutwright.units import angle_message, length_message


class Measured(Protocol):
    """What was measured of a person: a card or a resolved body."""

    @property
    def family(self) -> str:
        """Id of the family of figures."""

    @property
    def taped_values(self) -> Mapping[str, float]:
        """By the id of the measure, in cm and degrees."""

    @property
    def estimated_values(self) -> Mapping[str, float]:
        """What was estimated, by the id of the measure, in cm and degrees."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """One measure that does not look right.

    Parameters
    ----------
    measure : its id
    message : what was found, what is expected and what may have happened
    cause : short word for the likely slip, one of `CAUSES`; "" if none fits
    suggestion : the value without the slip, in cm or degrees; None if none fits
    stops : no body can have this value; nothing is drafted until it is put right
    """

    measure: str
    message: Message
    cause: str = ""
    suggestion: float | None = None
    stops: bool = False


CAUSES: dict[str, str] = {
    "inches": N_("inches written as centimetres"),
    "millimetres": N_("millimetres written as centimetres"),
    "metres": N_("metres written as centimetres"),
    "decimal point": N_("the decimal point one place too far to the left"),
    "half": N_("only half of the whole measure"),
    "doubled": N_("twice the measure"),
    "swapped": N_("swapped with “{other}”"),
    "digits": N_("two digits in the wrong order"),
}
"""The slips that are looked for."""

_FACTORS = (
    ("inches", 2.54), ("millimetres", 0.1), ("metres", 100.0), ("decimal point", 10.0),
    ("half", 2.0), ("doubled", 0.5),
)  # fmt: skip
_CLOSE = 0.8  # a suggestion must lie well inside what is believed


def check(given: Measured) -> tuple[Doubt, ...]:
    """Every measure that does not look right, in the order of a card.

    Of a resolved body the taped measures are held against each other, the estimated ones only
    against what a body can have.

    Parameters
    ----------
    given : a card or a resolved body; its family says what is believed
    """
    kind = family_named(given.family)
    tapes, values = kind.tapes, given.taped_values
    ranges = believed(values, tapes)
    doubts = [
        _doubt(name, values, ranges.get(name), tapes)
        for name in tapes
        if name in values and _odd(tapes[name], values[name], ranges)
    ]
    doubts += [
        Doubt(name, kind.not_taken(name), stops=True) for name in values if name not in tapes
    ]
    doubts += [
        Doubt(name, _beyond_estimate(tapes[name], value))
        for name, value in given.estimated_values.items()
        if not tapes[name].holds(value)
    ]
    return tuple(doubts)


def _odd(tape: Tape, value: float, ranges: Mapping[str, Range]) -> bool:
    """Whether a value is beyond its bounds or not believed."""
    believable = tape.id not in ranges or ranges[tape.id].holds(value)
    return not (tape.holds(value) and believable)


def _odd_ones(values: Mapping[str, float], tapes: Mapping[str, Tape]) -> int:
    """How many values of a card look wrong."""
    ranges = believed(values, tapes)
    return sum(_odd(tape, values[name], ranges) for name, tape in tapes.items() if name in values)


@dataclass(frozen=True, slots=True)
class _Guess:
    cause: str
    value: float
    changed: Mapping[str, float]
    other: str = ""


def _guesses(name: str, values: Mapping[str, float], tapes: Mapping[str, Tape]) -> Iterator[_Guess]:
    """What the value may have been before a slip."""
    value = values[name]
    if tapes[name].unit == "degree" or value <= 0:
        return  # nothing can be read into less than nothing
    for cause, factor in _FACTORS:
        yield _Guess(cause, value * factor, {name: value * factor})
    whole, dot, rest = f"{value:.3f}".partition(".")
    for at in range(len(whole) - 1):
        turned = float(whole[:at] + whole[at + 1] + whole[at] + whole[at + 2 :] + dot + rest)
        yield _Guess("digits", turned, {name: turned})
    for other, its in values.items():
        if other != name and other in tapes and tapes[other].unit == "cm":
            yield _Guess("swapped", its, {name: its, other: value}, other)


def _likely(name: str, values: Mapping[str, float], tapes: Mapping[str, Tape]) -> _Guess | None:
    """The slip that explains a value best: it leaves the fewest odd values, then the least strain."""
    before = _odd_ones(values, tapes)
    strains = believed(values, tapes)
    best: tuple[tuple[int, float], _Guess] | None = None
    for guess in _guesses(name, values, tapes):
        changed = {**values, **guess.changed}
        ranges = believed(changed, tapes)
        odd = any(_odd(tapes[each], changed[each], ranges) for each in guess.changed)
        left = before if odd else _odd_ones(changed, tapes)
        if odd or left >= before:
            continue
        strain = ranges[name].strain(guess.value) if name in ranges else 0.5
        if guess.other in ranges and guess.other in strains:
            now, then = (
                ranges[guess.other].strain(values[name]),
                strains[guess.other].strain(values[guess.other]),
            )
            strain = max(strain, now) if now <= then + 0.25 else 1
        if strain <= _CLOSE and (best is None or (left, strain) < best[0]):
            best = ((left, strain), guess)
    return best[1] if best else None


def _written(tape: Tape, value: float) -> Message:
    """A value with its unit."""
    return angle_message(value) if tape.unit == "degree" else length_message(value)


def _doubt(
    name: str, values: Mapping[str, float], expected: Range | None, tapes: Mapping[str, Tape]
) -> Doubt:
    """What is wrong with a value, what is expected and what may have happened."""
    m, value = tapes[name], values[name]
    stops = not m.holds(value)
    if stops or expected is None:
        code, text = "beyond-body", N_("{name} {value} is beyond what a body has ({lo} to {hi}).")
        lo, hi = m.lo, m.hi
    else:
        code = "unusual-beside-others"
        text = N_("{name} {value} is unusual beside the other measures ({lo} to {hi} is expected).")
        lo, hi = max(expected.lo, m.lo), min(expected.hi, m.hi)
    found = Message(
        code,
        text,
        name=m.name,
        value=_written(m, value),
        lo=_written(m, lo),
        hi=_written(m, hi),
    )
    guess = _likely(name, values, tapes)
    if guess is None:
        again = Message("measure-again", N_("Please measure again."))
        return Doubt(name, found.then(again), stops=stops)
    other = tapes[guess.other].name if guess.other else ""
    meant = Message(
        "did-you-mean",
        N_("Did you mean {value} ({cause})?"),
        value=_written(m, guess.value),
        cause=Message(f"slip-{guess.cause}", CAUSES[guess.cause], other=other),
    )
    return Doubt(name, found.then(meant), guess.cause, guess.value, stops)


def _beyond_estimate(m: Tape, value: float) -> Message:
    return Message(
        "estimate-beyond-body",
        N_(
            "{name} is estimated at {value}, beyond what a body has ({lo} to {hi}); please measure it."
        ),
        name=m.name,
        value=_written(m, value),
        lo=_written(m, m.lo),
        hi=_written(m, m.hi),
    )
