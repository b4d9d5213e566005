"""Drawings put on paper and into files, at true size."""
