"""The workshop's book: clients, bodies, styles, orders and fittings, kept over the years."""
