"""A measured person: the measures, what may be estimated, what a body can be."""
