"""Where to measure: a figure from the front and from behind, and the way of the tape for each measure.

Two hundred units are the height of the figure; x = 0 is the middle, y runs down. Drawn by hand.
"""

from __future__ import annotations

from cutwright.words import _

HALF = (
    "M0 25.6L5.2 25C5.2 29.4 5.8 30.8 7.2 31.8C12 33.6 17.2 34.2 20.2 36.4C21.4 40 18.6 46 17.6 50"
    "C19.2 53 18.7 56 17.2 61C15.6 67 14.2 72 14.2 77C14.7 86 19.7 92 20.2 101C20.2 115 17 130 14.6 145"
    "C15.9 155 14.2 166 12.6 175C11.2 183 10.2 188 10.2 193L12.2 199L4.2 199C4.4 190 5 180 5.4 172"
    "C4.9 160 6 152 6 145C6 135 2.6 118 1 105L0 104"
)
ARM = (
    "M20.2 36.4C24 38 25.2 43 25.8 50C26.6 60 28 70 29.2 78C30.8 88 32.2 96 33.2 104"
    "C34.4 110 34.2 114 32.7 118.4C31.2 119.4 30 115 29.8 111C29.5 107 29.8 105 29.5 103"
    "C27 95 25 86 23.6 77C21.6 68 19.6 58 17.6 50"
)
HEAD = "M0 1C6.4 1 9 6.4 8.4 13C8 19.6 4.6 25 0 25.6"
FRONT = "M-9 52.6h.01M9 52.6h.01"
BACK = "M0 30.4h.01M-4.6 44C-5.8 48-5.4 52-3.6 55M4.6 44C5.8 48 5.4 52 3.6 55"

TAPES: dict[str, tuple[str, str]] = {
    "stature": ("front", "M-38 1V199M-41 1H-35M-41 199H-35"),
    "bust_girth": ("front", "M-18.7 52C-10 55.6 10 55.6 18.7 52"),
    "underbust_girth": ("front", "M-17.2 60.5C-8 63.4 8 63.4 17.2 60.5"),
    "waist_girth": ("front", "M-14.2 77C-7 79.8 7 79.8 14.2 77"),
    "hip_girth": ("front", "M-20.2 100C-10 103.6 10 103.6 20.2 100"),
    "neck_girth": ("front", "M-5.3 27C-3 29 3 29 5.3 27"),
    "neck_base_girth": ("front", "M-7.2 31.8C-4 36.4 4 36.4 7.2 31.8"),
    "upper_arm_girth": ("front", "M19 55.6C21.4 57.4 24 57.2 26.2 55"),
    "forearm_girth": ("front", "M24.8 84C26.6 85.6 28.8 85.2 30.2 83.4"),
    "wrist_girth": ("front", "M29.5 102.6C30.6 103.9 32 103.6 33 102.4"),
    "hand_girth": ("front", "M29.8 110.4C31 111.8 33 111.6 34.2 110"),
    "thigh_girth": ("front", "M1.5 108.4C7 111.4 14 111 19.8 108"),
    "knee_girth": ("front", "M6 145C8.6 147 12 147 14.6 145"),
    "calf_girth": ("front", "M5.5 160C8 162 12 162 14.8 159.6"),
    "ankle_girth": ("front", "M4.6 189C6 190.4 8.6 190.4 10.3 189"),
    "head_girth": ("front", "M-8.6 9.6C-5 12 5 12 8.6 9.6"),
    "shoulder_length": ("front", "M7.2 31.8C12 33.6 17.2 34.2 20.2 36.4"),
    "shoulder_slope": ("front", "M7.2 31.8H24M7.2 31.8L21 37M18 31.8C18.2 33.4 18 34.6 17.6 35.6"),
    "chest_width": ("front", "M-18.6 45C-9 47 9 47 18.6 45"),
    "bust_point_width": ("front", "M-9 52.6H9"),
    "front_waist_length": ("front", "M7.2 31.8C8 41 8.8 47 9 52.6L9 79"),
    "bust_depth": ("front", "M7.2 31.8C8 41 8.8 47 9 52.6"),
    "waist_to_hip": ("front", "M-14.2 77C-15.4 86-20.6 92-21 101"),
    "waist_to_knee": ("front", "M-24 77V145M-26 77H-15M-26 145H-15"),
    "waist_to_floor": ("front", "M-30 77V199M-32 77H-15M-32 199H-12"),
    "knee_height": ("front", "M-20 145V199M-22 145H-15M-22 199H-12"),
    "body_rise": ("front", "M-14.2 77C-15.4 86-20.6 92-20.6 104M-24 104H-14"),
    "crotch_length": ("front", "M0 79.4V104"),
    "inside_leg": ("front", "M0 105V199"),
    "arm_length": ("front", "M20.2 36.4C24.6 48 26.4 64 28 77L32.2 103.4"),
    "upper_arm_length": ("front", "M20.2 36.4C24.6 48 26.4 64 28 77"),
    "back_width": ("back", "M-18.4 44.5C-9 45.6 9 45.6 18.4 44.5"),
    "shoulder_breadth": ("back", "M-20.2 36.4H20.2"),
    "back_waist_length": ("back", "M0 30.4V77.6"),
    "armhole_depth": ("back", "M0 30.4V51.4M-17 51.4H17"),
    "back_neck_to_wrist": (
        "back",
        "M0 30.4C8 31.4 16 34 20.2 36.4C24.6 48 26.4 64 28 77L32.2 103.4",
    ),
}
"""For each measure the view it is shown in and the way of the tape."""


def figure_svg() -> str:
    """Both views side by side with every tape, one of which a page lights at a time."""
    views = ((-46, "front", FRONT, _("from the front")), (46, "back", BACK, _("from behind")))
    parts = [
        f'<g transform="translate({x} 0)">{_body(marks)}<text x="0" y="210">{words}</text>'
        + "".join(_tape(name, d) for name, (where, d) in TAPES.items() if where == view)
        + "</g>"
        for x, view, marks, words in views
    ]
    label = _("A figure with the way of the tape")
    return (
        f'<svg class="figure" viewBox="-92 -4 184 220" role="img" aria-label="{label}">'
        + "".join(parts)
        + "</svg>"
    )


def _body(marks: str) -> str:
    half = f'<path class="limb" d="{ARM}"/><path class="limb" d="{HALF}"/><path class="limb" d="{HEAD}"/>'
    mirrored = f'<g transform="scale(-1 1)">{half}</g>'
    return f'{half}{mirrored}<path class="mark" d="{marks}"/>'


def _tape(name: str, d: str) -> str:
    return f'<path class="way" data-measure="{name}" d="{d}"/>'
