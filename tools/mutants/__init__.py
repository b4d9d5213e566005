"""Break the program in small ways, one at a time, and see whether a test notices."""
