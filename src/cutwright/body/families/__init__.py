"""The families of figures there are, each in a file of its own that holds one `FAMILY`."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from pkgutil import iter_modules
from types import MappingProxyType

from cutwright.body.family import Family
from cutwright.body.tape import WOMEN
from cutwright.errors import MeasureError
from cutwright.messages import N_, Message, Typed, either_of


def _declared() -> dict[str, Family]:
    """Every family by its id, women first."""
    modules = [import_module(f"{__name__}.{each.name}") for each in iter_modules(__path__)]
    found: list[Family] = [module.FAMILY for module in modules]
    return {each.id: each for each in sorted(found, key=lambda f: (f.id != WOMEN, f.id))}


_KNOWN = _declared()

FAMILIES: Mapping[str, Family] = MappingProxyType(_KNOWN)
"""Every family by its id, women first."""


def family_named(name: str = WOMEN) -> Family:
    """The family of an id; a `MeasureError` names those there are.

    Parameters
    ----------
    name : id of a family, such as "women"

    Raises
    ------
    MeasureError : there is no such family; those there are, are named
    """
    found = FAMILIES.get(name)
    if found is None:
        raise MeasureError(unknown_family(name))
    return found


def unknown_family(name: str) -> Message:
    """The sentence that says there is no such family, and which there are.

    Parameters
    ----------
    name : as it was written
    """
    return Message(
        "no-such-family",
        N_("There is no kind of figure “{name}”; there is {there}."),
        name=Typed(name[:60]),
        there=either_of([Typed(each) for each in FAMILIES]),
    )
