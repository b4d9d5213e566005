"""How the pieces lie on the cloth, how much to buy and what it costs."""
