"""The people behind the estimates and the ranges.

WOMEN_2012: 2012 US Army Anthropometric Survey (ANSUR II, public domain), women; least squares,
five-fold cross-validated. The women are serving soldiers, 17 to 58 years old: fitter and within a
narrower range of weight than the general public.

Lengths to the waist run to the dressmaker's waist, taken one third of the way from the level
midway between lowest rib and hip bone (ISO) down to the navel; those lines are sums of the
survey's own, their scatter measured on every second of the women.
"""

from __future__ import annotations

from cutwright.body.fit import Survey
from cutwright.messages import N_

THREE = ("stature", "bust_girth", "hip_girth")

WOMEN_2012 = Survey(
    N_("straight line on height, bust and hip; survey of 1,986 women, 2012"),
    over=THREE,
    within=((148.3, 177.8), (78.4, 116), (86.7, 120.6)),
)

TRIED = 3.5
"""Standard deviations beyond which the nine measures that were tried on the survey are asked about."""

LOOSER = 4.0
"""The same for measures that were not among the nine."""
