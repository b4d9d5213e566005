"""What the survey of 2012 took otherwise than a dressmaker does, brought over; all lengths in cm.

Source of the columns: 2012 US Army Anthropometric Survey (ANSUR II, public domain). Every waist of the
survey is at the navel. The ISO waist lies midway between the lowest rib and the top of the hip bone; a
dressmaker's tied tape rests a third of the way from there to the navel (common practice).
"""

from __future__ import annotations

from math import asin, degrees

WAIST = ("tenth_rib_height", "iliocristale_height", "navel_waist_height")
"""The columns from which the level of the waist comes."""

MEAN_SLOPE = 26.637
"""Mean of asin((nape height - acromion height) / shoulder length) over the 993 women, in degrees."""


def waist_level(rib: float, hip_bone: float, navel: float) -> float:
    """Height of the dressmaker's waist above the floor, from the heights of the landmarks.

    Parameters
    ----------
    rib : height of the lowest point of the tenth rib, cm
    hip_bone : height of the top of the hip bone, cm
    navel : height of the navel, cm

    Returns
    -------
    cm
    """
    iso = (rib + hip_bone) / 2
    return iso - (iso - navel) / 3


def narrow_waist(navel_girth: float) -> float:
    """Girth of the natural waist from the girth at the navel (Heinz et al. 2003, 260 women, SD 4.2).

    Parameters
    ----------
    navel_girth : cm

    Returns
    -------
    cm
    """
    return 16.52 + 0.6362 * navel_girth


def back_width(armpit: float, mid_armscye: float) -> float:
    """Whole width across the back, from the tapes between the armpits and at the middle of the armscye.

    Parameters
    ----------
    armpit : between the rear folds of the armpits, cm
    mid_armscye : at the middle of the armscye, cm

    Returns
    -------
    cm
    """
    return 2 * (2 * armpit + mid_armscye) / 6


def back_to_waist(back_to_navel: float, rib: float, hip_bone: float, navel: float) -> float:
    """Back waist length from the survey's, which runs on to the level of the navel.

    Parameters
    ----------
    back_to_navel : nape to the level of the navel, along the back, cm
    rib : height of the lowest point of the tenth rib, cm
    hip_bone : height of the top of the hip bone, cm
    navel : height of the navel, cm

    Returns
    -------
    cm
    """
    return back_to_navel - (waist_level(rib, hip_bone, navel) - navel)


def down_from_waist(height: float, rib: float, hip_bone: float, navel: float) -> float:
    """From the waist straight down to a landmark of this height above the floor.

    Parameters
    ----------
    height : of the landmark, cm
    rib : height of the lowest point of the tenth rib, cm
    hip_bone : height of the top of the hip bone, cm
    navel : height of the navel, cm

    Returns
    -------
    cm
    """
    return waist_level(rib, hip_bone, navel) - height


def body_rise(crotch_height: float, rib: float, hip_bone: float, navel: float) -> float:
    """Body rise: a seated tape over the hip is longer than the difference of heights; 2, an assumption.

    Parameters
    ----------
    crotch_height : cm
    rib : height of the lowest point of the tenth rib, cm
    hip_bone : height of the top of the hip bone, cm
    navel : height of the navel, cm

    Returns
    -------
    cm
    """
    return waist_level(rib, hip_bone, navel) - crotch_height + 2


def crotch_length(at_navel: float, rib: float, hip_bone: float, navel: float) -> float:
    """Crotch length at the waist: the navel's and twice the difference of level.

    Parameters
    ----------
    at_navel : from the navel between the legs to the same level behind, cm
    rib : height of the lowest point of the tenth rib, cm
    hip_bone : height of the top of the hip bone, cm
    navel : height of the navel, cm

    Returns
    -------
    cm
    """
    return at_navel + 2 * (waist_level(rib, hip_bone, navel) - navel)


def bust_depth(nape_height: float, bust_height: float) -> float:
    """Nape above the bust, and 4.6 for the side neck point and the slant of the tape (derived).

    Parameters
    ----------
    nape_height, bust_height : cm

    Returns
    -------
    cm
    """
    return nape_height - bust_height + 4.6


def hanging_arm(flexed: float) -> float:
    """Girth of a hanging arm: 1.5 less than the survey's, flexed and tensed (an assumption).

    Parameters
    ----------
    flexed : girth of the raised, tensed arm, cm

    Returns
    -------
    cm
    """
    return flexed - 1.5


def knee(above: float, calf: float) -> float:
    """Girth of the knee: half way between the lower thigh and the calf (an assumption).

    Parameters
    ----------
    above : girth just above the knee, cm
    calf : largest girth of the calf, cm

    Returns
    -------
    cm
    """
    return (above + calf) / 2


def slope(nape_height: float, acromion_height: float, shoulder: float) -> float:
    """Slope of the shoulder seam in degrees.

    The acromion lies well below the seam's end, so only 0.6 of a woman's difference from the mean
    counts, about a mean of 19, within 11 to 27 (derived).

    Parameters
    ----------
    nape_height, acromion_height : cm
    shoulder : shoulder length, cm

    Returns
    -------
    degrees below level
    """
    rise = (nape_height - acromion_height) / shoulder
    measured = degrees(asin(max(-1.0, min(1.0, rise))))
    return max(11.0, min(27.0, 19 + 0.6 * (measured - MEAN_SLOPE)))
