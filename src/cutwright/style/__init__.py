"""The page of sentences that a style is: steps declared once, read, checked and done in order."""
