"""What is sewn to what: rows of edges, once round the garment, and the marks that match them."""
