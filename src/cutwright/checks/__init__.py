"""Questions put to a pattern, each answered with findings."""
