"""The workshop: documents found and read, a style worked on a body, and the packet written."""
