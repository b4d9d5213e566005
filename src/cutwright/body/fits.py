"""Straight-line fits of one measure on stature, bust and hip, from 1,986 measured women.

Source: 2012 US Army Anthropometric Survey (ANSUR II, public domain), women; least squares,
five-fold cross-validated. The women are serving soldiers, 17 to 58 years old: fitter and within a
narrower range of weight than the general public. Coefficients are per centimetre, constants and
scatters in centimetres (the residual standard deviation).

Lengths to the waist run to the dressmaker's waist, taken one third of the way from the level
midway between lowest rib and hip bone (ISO) down to the navel; those fits are sums of the
survey's own, their scatter measured on every second of the women.
"""

from __future__ import annotations

from dataclasses import dataclass

SOURCE = "ANSUR II (2012), 1,986 women"


@dataclass(frozen=True, slots=True)
class Fit:
    """A straight-line fit: value = stature x a + bust x b + hip x c + constant, in cm."""

    stature: float
    bust: float
    hip: float
    constant: float
    scatter: float

    def at(self, stature: float, bust: float, hip: float) -> float:
        """What the fit expects of a woman of this stature, bust and hip (cm)."""
        return self.stature * stature + self.bust * bust + self.hip * hip + self.constant


FITS: dict[str, Fit] = {
    "neck_girth": Fit(0.0224, 0.1318, 0.0485, 11.89, 1.28),
    "neck_base_girth": Fit(0.0685, 0.1124, 0.0439, 10.83, 1.38),
    "shoulder_length": Fit(0.0617, 0.0018, 0.0022, 3.09, 0.94),
    "shoulder_breadth": Fit(0.1475, 0.0273, 0.0102, 8.89, 1.49),
    # whole width = 2 x (2 interscye_1 + interscye_2) / 6
    "back_width": Fit(0.0527, 0.16483, 0.04273, 9.527, 2.20),
    # two thirds of the fit to the ISO level, one third of the fit to the navel
    "back_waist_length": Fit(0.17517, 0.05513, 0.0126, 4.46, 1.84),
    # nape height less bust height, plus 4.6 for the side neck point and the slant of the tape
    "bust_depth": Fit(0.0909, 0.0576, 0.0249, 4.21, 2.18),
    "waist_to_hip": Fit(0.12433, -0.07333, 0.0394, 0.36, 1.75),
    "waist_to_knee": Fit(0.37953, -0.04753, 0.0246, -3.64, 1.30),
    "waist_to_floor": Fit(0.72073, -0.05253, 0.0287, -14.25, 1.62),
    # waist height less crotch height, plus 2: a tape over the hip to the seat is longer
    "body_rise": Fit(0.10743, -0.00223, 0.0421, 3.24, 1.54),
    # the navel's crotch length plus twice the difference of level
    "crotch_length": Fit(0.12437, 0.01613, 0.4025, 5.32, 2.61),
    "inside_leg": Fit(0.6132, -0.0504, -0.0134, -15.49, 2.31),
    "knee_height": Fit(0.3412, -0.0050, 0.0041, -10.61, 1.40),
    "arm_length": Fit(0.3571, 0.0063, 0.0112, -5.53, 1.79),
    "upper_arm_length": Fit(0.2034, 0.0137, 0.0088, -4.21, 1.03),
    "back_neck_to_wrist": Fit(0.4370, 0.0722, 0.0296, -0.35, 2.13),
    # the survey's arm is flexed and tensed; 1.5 less for a hanging arm (assumption)
    "upper_arm_girth": Fit(-0.0245, 0.1312, 0.2219, -2.03, 1.73),
    "forearm_girth": Fit(0.0316, 0.0663, 0.1098, 3.77, 1.24),
    "wrist_girth": Fit(0.0479, 0.0246, 0.0227, 3.04, 0.57),
    "hand_girth": Fit(0.0513, 0.0221, 0.0137, 6.82, 0.74),
    "thigh_girth": Fit(-0.0403, -0.0099, 0.7118, -3.58, 1.90),
    "calf_girth": Fit(0.0332, 0.0085, 0.2593, 4.63, 1.92),
    "ankle_girth": Fit(0.0451, 0.0010, 0.0892, 5.02, 1.23),
    "head_girth": Fit(0.0745, 0.0053, 0.0414, 39.24, 1.81),
}

HIP = Fit(0.2358, 0.6342, 0.0, 3.67, 4.87)
"""Hip from stature and bust (same women)."""

BUST = Fit(-0.0329, 0.0, 0.8200, 16.30, 5.54)
"""Bust from stature and hip (same women)."""

WAIST = Fit(-0.1331, 0.0, 0.9252, 3.25, 4.4)
"""Natural waist from hip and stature: 260 active women (Heinz, Peterson, Johnson and Kerr,
"Exploring relationships in body dimensions", Journal of Statistics Education 11(2), 2003)."""

ISO_BACK = Fit(0.1828, 0.0358, 0.0012, 4.68, 1.84)
"""Back neck point to the ISO waist level; the shortest back a dressmaker's tape should give."""

NAVEL_BACK = Fit(0.1599, 0.0938, 0.0354, 4.02, 2.08)
"""Back neck point to navel level; the longest back a dressmaker's tape should give."""
