"""The proof: every rule a pattern must obey, measured, with the value, the limit and the place."""
