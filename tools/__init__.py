"""What a builder of Cutwright runs by hand or through make; nothing here is installed."""
