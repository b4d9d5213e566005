"""The names that drafts and steps give to pieces, edges, darts and levels, for translators.

Names in documents stay English words, because steps refer to each other by them; what a reader is
shown passes `cutwright.wording.names.told`.
"""

from __future__ import annotations

from cutwright.messages import N_

PIECES = (
    N_("front"), N_("back"), N_("skirt front"), N_("skirt back"), N_("bodice front"),
    N_("bodice back"), N_("side front"), N_("side back"), N_("yoke"), N_("front yoke"),
    N_("back yoke"), N_("panel"), N_("sleeve"), N_("collar"), N_("cuff"), N_("pocket"),
    N_("waistband"), N_("waistband facing"), N_("flounce"), N_("hem flounce"), N_("neck flounce"),
    N_("frill"), N_("ruffle"), N_("tier"), N_("godet"), N_("gusset"), N_("binding"), N_("tie"),
    N_("strip"), N_("lining"), N_("facing"), N_("neck facing"), N_("armhole facing"),
    N_("front facing"), N_("back facing"), N_("front neck facing"), N_("back neck facing"),
    N_("front armhole facing"), N_("back armhole facing"), N_("slashed flounce"),
    N_("river flounce"),
)  # fmt: skip

EDGES = (
    N_("neckline"), N_("shoulder"), N_("armhole"), N_("side"), N_("hem"), N_("waist"),
    N_("centre front"), N_("centre back"), N_("top"), N_("bottom"), N_("left end"),
    N_("right end"), N_("outer edge"), N_("inner edge"), N_("upper edge"), N_("lower edge"),
    N_("overlap"), N_("seam"), N_("fold"), N_("end"), N_("cut"), N_("crown"), N_("underarm"),
    N_("wrist"), N_("free edge"), N_("inner side"), N_("outer side"), N_("raised waist"),
)  # fmt: skip

DARTS = (
    N_("bust dart"), N_("shoulder dart"), N_("side dart"), N_("neck dart"), N_("waist dart"),
    N_("second waist dart"), N_("third waist dart"), N_("French dart"), N_("armhole dart"),
    N_("elbow dart"),
)  # fmt: skip

LEVELS = (N_("bust"), N_("hip"), N_("bust point"), N_("underarm level"), N_("knee"))

CHOICES = (
    N_("close"), N_("easy"), N_("loose"), N_("shaped"), N_("round"), N_("square"), N_("boat"),
    N_("heart"), N_("v"), N_("scoop"), N_("gathers"), N_("ease"), N_("dart"), N_("neck"),
    N_("combined"), N_("level"), N_("curved"), N_("high-low"), N_("upper dart points"),
    N_("line"), N_("nearest"), N_("up"), N_("none"), N_("shared"), N_("opened"), N_("folded out"),
    N_("cut away"), N_("whole"), N_("lengthwise"), N_("crosswise"), N_("bias"),
)  # fmt: skip

COMPOSED = (
    N_("left {name}"), N_("right {name}"), N_("{name} (other side)"), N_("{name} neck facing"), N_("{name} armhole facing"), N_("{name} facing"),
)  # fmt: skip
"""How steps make a name out of another."""

PART_OF = N_("part {number} of {count}")
"""How the parts of a piece are called that is put together of several."""

AND = N_(" and ")
"""Between the last two of several names."""

OF_PIECE = N_("{edge} of {piece}")
"""How an edge of a piece is called."""
