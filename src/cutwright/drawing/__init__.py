"""Device-free drawings in centimetres, and how a piece, a dart, a step and a lay are drawn."""
