"""The frozen nouns of the cutting table: edges, darts, marks, pieces, seams, patterns."""
