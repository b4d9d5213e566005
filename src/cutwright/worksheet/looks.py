"""How the inks look on a work sheet: as in print, with the paper faintly tinted."""

from __future__ import annotations

from cutwright.drawing.inks import PRINT, Pen, Pens
from cutwright.drawing.primitives import Ink

SHEET: Pens = dict(PRINT) | {
    Ink.PAPER: Pen(width=0.0, fill="#f8f4ea"),
    Ink.CUT: Pen(width=0.3),
    Ink.STITCH: Pen("#1d3f6e", 0.2, (1.2, 0.7)),
    Ink.FOLD: Pen(width=0.3, dash=(3.0, 0.8, 0.6, 0.8)),
    Ink.GRAIN: Pen(width=0.2),
    Ink.DART: Pen("#1d3f6e", 0.22, (1.0, 0.7)),
    Ink.LEVEL: Pen("#8a8a8a", 0.15, (0.4, 0.9)),
    Ink.GONE: Pen("#8a8a8a", 0.2, (0.8, 0.8)),
    Ink.SLASH: Pen("#8c1d18", 0.45, (1.6, 0.7)),
    Ink.WEDGE: Pen("#b98b12", 0.15, fill="#f0d98f"),
    Ink.CLOSED: Pen("#8a8a8a", 0.15, fill="#cfcfcf"),
    Ink.ADDED: Pen("#1d3f6e", 0.55),
    Ink.MEASURED: Pen("#8c1d18", 0.6),
    Ink.CLOTH: Pen("#8a8a8a", 0.25, fill="#f3efe6"),
}
"""Pens for small drawings that are read, not cut along."""

CAPITALS = 0.2
"""Height of capitals in a drawing, cm on paper (type of about 8 points)."""
