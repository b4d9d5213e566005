"""Cutwright: from a measured body and a style to paper that is proved to sew together."""

__version__ = "0.1.0"
