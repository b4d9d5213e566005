"""Plain fitted drafts from a body's measures, one draft to a file."""
