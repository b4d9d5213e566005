"""The body sheet: measures typed, shown and drawn on a figure."""
