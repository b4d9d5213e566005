"""A hundred documents nobody means well with."""

from __future__ import annotations

import json
from typing import Any

HUGE = 10**30


def _style(*steps: Any, **more: Any) -> bytes:
    return json.dumps({"format": 1, "name": "x", "steps": list(steps), **more}).encode()


def _deep(levels: int) -> bytes:
    return b'{"format":1,"name":"x","steps":' + b"[" * levels + b"]" * levels + b"}"


_LENGTHS: list[Any] = [
    HUGE, -HUGE, 1e308, -1e308, "1e400", "9" * 199, "9**9**9**9", "1/0", "__import__('os').system('x')",
    "(lambda: 1)()", "[x for x in range(10**9)]", "a.b.c", "max(" + "1," * 90 + "1)", "(" * 90 + "1" + ")" * 90,
    "-" * 190 + "1", "length('a: b')", "length(1)", "sqrt(-1)", "round_up(1, 0)", "1 if 1 else 2",
    "open('/etc/passwd')", "bust_girth.__class__", "1_000_000", "0x10", "'a' * 10**9", "\u0000", "\u202e1",
    True, None, [], {}, "", " ",
]  # fmt: skip
_NAMES: list[Any] = [
    "<script>alert(1)</script>", '"><img src=x onerror=alert(1)>', "a" * 121, "\u0000", "\u202e", "",
    " ", "\n", 7, None, [], {}, True, "'; DROP TABLE documents; --", "{{ 7 * 7 }}", "%s%n", "../../x",
]  # fmt: skip
_STEPS: list[Any] = [
    {}, {"do": "none"}, {"do": 1}, {"do": []}, {"do": "draft_dress", "surprise": 1}, [], "draft_dress", 1, None,
    {"do": "draft_dress", "fit": "tight"}, {"do": "spread", "piece": "front", "by": 1, "lines": HUGE},
    {"do": "spread", "piece": "front", "by": 1, "lines": 1.5}, {"do": "cut_apart", "pieces": [], "lower": []},
    {"do": "cut_apart", "pieces": ["front"] * 500, "lower": ["x"] * 500},
    {"do": "flounce_straight", "edges": [{"piece": "a"}], "depth": 5},
    {"do": "flounce_straight", "edges": "front: hem", "depth": 5},
    {"do": "flounce_straight", "edges": [{"piece": {"piece": {}}, "edge": []}], "depth": 5},
    {"do": "close_dart", "piece": "front", "darts": {"a": 1}}, {"do": "__class__"}, {"do": "draft_dress", "do ": 1},
]  # fmt: skip
_RAW: list[bytes] = [
    b"", b"{", b"[]", b"null", b"1", b'"x"', b"\xff\xfe", b"\x00" * 100, b"NaN", b'{"format":1,"format":1}',
    b'{"format": NaN}', b'{"format": 1e999}', b'{"format":"1"}', b'{"format":2,"name":"x","steps":[]}',
    _deep(50), _deep(5000), _deep(100_000), b'{"a":' * 3000 + b"1" + b"}" * 3000, b" " * 100_000,
    b'{"format":1,"name":"\\ud800","steps":[]}', b'{"format":1,"name":"x","steps":{}}',
    b'{"format":1,"name":"x","steps":[],"extra":1}', b'{"format":1,"name":"x"}',
    b'{"format":1,"name":"x","steps":[' + b'{"do":"draft_dress"},' * 5000 + b'{"do":"draft_dress"}]}',
    b"[" * 500_000, b'{"format":1,"name":"x","steps":[' + b"9" * 5000 + b"]}", b"<?xml version='1.0'?><a/>",
    b"PK\x03\x04", b"\x89PNG\r\n", b'{"format":1,"about":' + b'"' + b"a" * 3000 + b'","name":"x","steps":[]}',
]  # fmt: skip


def hostile_styles() -> list[bytes]:
    """At least a hundred."""
    out = [_style({"do": "draft_dress", "length": value}) for value in _LENGTHS]
    out += [json.dumps({"format": 1, "name": n, "steps": []}).encode() for n in _NAMES]
    out += [_style(step) for step in _STEPS]
    return out + _RAW
