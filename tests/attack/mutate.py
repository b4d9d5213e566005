"""Sound documents made unsound by chance, in the same way for the same seed."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from random import Random
from typing import Any

ODD: list[Any] = [
    None, True, False, 0, -1, 1, 2, 0.0, -0.0, 1e-9, -1e-9, 1e9, 1e308, 10**30, -(10**30), 2**31, 2**63, 2**80, 0.5,
    "", " ", "x", "0", "-0", "1/0", "nan", "inf", "1e400", "12,5", "1 3/4 in", "\u0000", "\ud800", "\u202e", "é" * 5000,
    "x" * 70_000, "'; DROP TABLE client; --", "<script>alert(1)</script>", "{{ 7*7 }}", "../../x", "%s%n{0}{name}",
    "0001-01-01", "9999-12-31", "2031-02-30", "2031-W01-1", "1700000000", "0001-01-01T00:00:00+14:00",
    "9999-12-31T23:59:59-14:00", "2031-03-14T10:00:00", "yesterday", "0" * 32, "f" * 32, "order", "style", "bust",
    [], {}, [[]], [None], {"": 0}, {"x": {}}, [1, 2, 3], ["front: hem"], {"piece": "front", "edge": "hem"},
    [0] * 3000, {str(n): n for n in range(500)},
]  # fmt: skip


def mutated(chance: Random, raw: bytes) -> bytes:
    """A document with a few harms in it: mostly in what it says, sometimes in its bytes."""
    if chance.random() < 0.2:
        return _bytes_harmed(chance, raw)
    try:
        value = json.loads(raw)
    except ValueError:
        return _bytes_harmed(chance, raw)
    for _n in range(chance.choice([1, 1, 1, 2, 5])):
        value = _harmed(chance, value)
    return json.dumps(value).encode()


def _harmed(chance: Random, value: Any) -> Any:
    value = copy.deepcopy(value)
    places = list(_places(value))
    if not places:
        return chance.choice(ODD)
    holder, key = chance.choice(places)
    here = holder[key]
    harm = chance.randrange(8)
    if harm == 0:
        del holder[key]
    elif harm == 1 and isinstance(holder, dict):
        holder[chance.choice([str(key) + "x", "format", "kind", "", "é"])] = holder.pop(key)
    elif harm == 2:
        other, its = chance.choice(places)
        holder[key] = copy.deepcopy(other[its])
    elif harm == 3 and isinstance(holder, list):
        holder.extend(copy.deepcopy([here]) * chance.choice([1, 2, 40]))
    elif harm == 4 and isinstance(here, int | float) and not isinstance(here, bool):
        holder[key] = here * chance.choice([-1, 0, 0.1, 3, 10, 1000]) + chance.choice([0, 1, -1])
    elif harm == 5 and isinstance(here, str) and here:
        at = chance.randrange(len(here))
        holder[key] = (
            here[:at] + chance.choice(["", "é", "\\", '"', "0", here[:9]]) + here[at + 1 :]
        )
    else:
        holder[key] = copy.deepcopy(chance.choice(ODD))
    return value


def _places(value: Any) -> Iterator[tuple[Any, Any]]:
    """Every place inside a JSON value, as the list or the names that hold it and its key there."""
    held: list[Any] = [value]
    while held:
        one = held.pop()
        pairs = (
            one.items()
            if isinstance(one, dict)
            else enumerate(one)
            if isinstance(one, list)
            else ()
        )
        for key, inner in pairs:
            yield one, key
            held.append(inner)


def _bytes_harmed(chance: Random, raw: bytes) -> bytes:
    out = bytearray(raw)
    for _n in range(chance.randint(1, 6)):
        if not out:
            break
        at = chance.randrange(len(out))
        match chance.randrange(5):
            case 0:
                out[at] ^= 1 << chance.randrange(8)
            case 1:
                del out[at : at + chance.randint(1, 60)]
            case 2:
                out[at:at] = chance.choice(
                    [b"\x00", b"\xff\xfe", b'"', b"[[[[", b"}", b",,", b"\n\n;", b"1e999"]
                )
            case 3:
                del out[at:]
            case _:
                end = at + chance.randint(1, 200)
                out[at:at] = bytes(out[at:end]) * chance.choice([1, 20])
    return bytes(out)
