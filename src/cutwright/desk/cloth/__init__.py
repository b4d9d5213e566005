"""The cloth sheet: cloths, the lay that is searched for, widths compared."""
