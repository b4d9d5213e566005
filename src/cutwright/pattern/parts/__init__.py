"""Whole pieces made from others or from numbers: joined, unfolded, facings, bands, rings."""
