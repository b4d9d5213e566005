"""How a piece, a dart, a step and a lay are drawn, before any paper or screen is chosen."""
