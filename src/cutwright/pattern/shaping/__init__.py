"""Drawing edges anew: necklines, armholes, sides, hems, mouths of darts, and trueing them."""
