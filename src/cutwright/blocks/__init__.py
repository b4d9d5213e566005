"""Plain fitted drafts from a body's measures, one draft to a file.

`register_all` makes every draft step known; those are the modules named `draft_...`.
"""

from __future__ import annotations

from importlib import import_module
from pkgutil import iter_modules


def register_all() -> None:
    """Import every draft step, so that style files can name it."""
    for module in iter_modules(__path__):
        if module.name.startswith("draft_"):
            import_module(f"{__name__}.{module.name}")
