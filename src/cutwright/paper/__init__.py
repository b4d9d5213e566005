"""Drawings put on paper and into files, at true size.

`write_sheet` (rolls, A0, A1), `write_tiles` (A4, Letter, A3), `write_projector`, `write_svg` and
`write_dxf` take the finished pieces as drawings in cm, and a title for the corner.
"""
