"""What a cutter does to paper, an operation a file. `register_all` makes every step known."""

from __future__ import annotations

from importlib import import_module
from pkgutil import iter_modules


def register_all() -> None:
    """Import every step, so that style files can name it."""
    for module in iter_modules(__path__):
        import_module(f"{__name__}.{module.name}")
