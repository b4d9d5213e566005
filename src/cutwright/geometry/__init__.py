"""Points, curves and outlines: no garment word in here."""
