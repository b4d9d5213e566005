"""The local page at which a pattern is drafted and looked at."""
