"""The range in which each measure of a particular body is believed.

Lines through a survey reach 3.5 standard deviations for the nine measures tried on it, 4 for the others; the
rest are ranges of common practice. Each is declared with its measure (`Tape.expected`). Beyond the survey's
smallest and largest hundredth the ranges widen by 2 % for each centimetre, because nothing was measured there.
"""

from __future__ import annotations

from collections.abc import Mapping

from cutwright.body.estimate import estimated
from cutwright.body.rule import Range
from cutwright.body.tape import Tape


def believed(values: Mapping[str, float], tapes: Mapping[str, Tape]) -> dict[str, Range]:
    """Where each measure is believed, seen from the other measures of the same body.

    Measures for which the others say nothing are left out. Values outside their bounds are not
    used to judge others.

    Parameters
    ----------
    values : taped measures by id, in cm and degrees
    tapes : those of the body's family
    """
    sound = {n: value for n, value in values.items() if n in tapes and tapes[n].holds(value)}
    found: dict[str, Range] = {}
    for name, tape in tapes.items():
        expects = tape.expected
        if expects is not None and all(need in sound for need in expects.needs):
            inputs = [
                sound[each] if each in sound else estimated(each, sound, tapes)
                for each in expects.over
            ]
            found[name] = expects.work(*inputs)
    return found
