"""How long the usual work takes, and how closely the lay packs; run through make."""
