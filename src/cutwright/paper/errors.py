"""What can go wrong when pieces are put on paper."""

from __future__ import annotations

from cutwright.errors import CutwrightError


class PaperError(CutwrightError):
    """The pieces cannot be put on this paper or into this kind of file."""
