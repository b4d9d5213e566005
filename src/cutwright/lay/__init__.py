"""Pieces on the cloth: the lay, how much to buy and what it costs."""
