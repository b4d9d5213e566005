"""What a cutter does to the paper, one operation to a file."""
