"""What the cutter says about finishing: allowances, words on the pieces, how darts are drilled."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from cutwright.finish.allowances import Allowances
from cutwright.pattern.sewing.mark_places import USUAL, NotchRules


@dataclass(frozen=True, slots=True)
class FinishOptions:
    """Everything finishing needs beside the pattern itself.

    Parameters
    ----------
    garment : the name of the style, first on each label
    who : for whom, or which size
    order : what the order is called; empty leaves it out
    made : the day on which it is made; None leaves it out
    revision : of the style or the order, as it is to be printed
    cloths : (material, name of the cloth) pairs, such as ("main", "navy wool")
    allowances : the table of allowances and corner limits
    notches : when seams are marked
    drill_short : how far before the point of a dart its drill hole lies, cm (common practice 1)
    drill_inside : how far inside the legs the holes at a diamond's widest lie, cm
    levels : whether waist and hip levels are drawn and named
    """

    garment: str = ""
    who: str = ""
    order: str = ""
    made: date | None = None
    revision: str = ""
    cloths: tuple[tuple[str, str], ...] = ()
    allowances: Allowances = Allowances()
    notches: NotchRules = USUAL
    drill_short: float = 1.0
    drill_inside: float = 0.3
    levels: bool = True
