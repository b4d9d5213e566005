"""What the documents that ship are called, for translators.

Documents keep their English names; what a reader is shown passes `cutwright.wording.names.called`.
"""

from __future__ import annotations

from cutwright.messages import N_

STYLES = (
    N_("Circle skirt"), N_("Close skirt"), N_("Flared skirt"), N_("Market dress"),
    N_("Orchard dress"), N_("River dress"), N_("Garden shift"),
)  # fmt: skip

ABOUT_STYLES = (
    N_("Three quarters of a circle, hung from a waistband."),
    N_("A straight, close skirt with waist darts, a zip at the centre back and a waistband."),
    N_("The darts of a plain skirt closed into its hem, and a little more opened."),
    N_("A bodice and a skirt joined at the waist, a V neck, faced in one piece with the armholes."),
    N_(
        "A close bodice with a flared skirt from its own darts, a gathered flounce at the hem and a "
        "slashed one at the neck; for dancing on grass."
    ),
    N_(
        "Cut apart high, through the upper points of the waist darts; the skirt falls free in "
        "slashes, with a circular flounce."
    ),
    N_("An easy, sleeveless dress with the bust dart at the side and faced neck and armholes."),
)

BODIES = (N_("the alto"), N_("the gardener"), N_("the rower"))

ABOUT_BODIES = (
    N_("Full bust, soft waist, upright carriage. Invented figure."),
    N_("Small above, round hip and thigh, sloping shoulders. Invented figure."),
    N_("Tall, broad shoulders and back, narrow hip. Invented figure."),
)

CLOTHS = (
    N_("Gingham, checks of 8 cm, 150 wide"), N_("Woven interfacing, 90 wide"),
    N_("Lining, 140 wide"), N_("Plain cotton, 140 wide"),
    N_("Printed cotton, 45 inches wide, sold by the eighth of a yard"),
    N_("Shirting, stripes of 2 cm along the cloth, 150 wide"),
    N_("Cotton velvet, one way, 140 wide"), N_("Wool suiting, 150 wide"),
)  # fmt: skip

ORDER = N_("{style} for {body}")
"""What an order of a style for a body is called."""
