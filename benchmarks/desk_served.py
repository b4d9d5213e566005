"""A desk to be timed: it answers a bare request, lays the dresses on the table, and tells what its processor time went to.

`python -m benchmarks.desk_served book port token`. The time of a part is that of its own thread, without what other
parts inside it took, so that the parts add up; what no part names (the web, threads, JSON) is the rest.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from collections.abc import Callable
from functools import wraps
from threading import local
from types import FunctionType
from typing import Any

PARTS = {
    "replay": ("replay",),
    "cut lines": ("cut_lines",),
    "finish": ("finish",),
    "draw": ("draw_piece", "draw_outlines"),
    "svg": ("outline_svg", "words_svg"),
    "letter": ("Sentences.written",),
    "book": ("documents.get", "documents.save", "documents.at", "history.stay_at", "history.undo"),
    "proof": ("prove", "proof_rows"),
}
"""The functions each part is made of, by the end of their full name."""

spent: Counter[str] = Counter()
"""Processor time of each part, in s."""
calls: Counter[str] = Counter()
_stack = local()


def counting(part: str, work: Callable[..., Any]) -> Callable[..., Any]:
    """A function whose own processor time is added to a part."""

    @wraps(work)
    def counted(*given: Any, **named: Any) -> Any:
        inner = getattr(_stack, "inner", 0.0)
        _stack.inner = 0.0
        start = time.thread_time()
        try:
            return work(*given, **named)
        finally:
            took = time.thread_time() - start
            spent[part] += took - _stack.inner
            calls[part] += 1
            _stack.inner = inner + took

    return counted


def count_parts() -> None:
    """Let every function of `PARTS` count, wherever a module of ours holds it."""
    modules = [m for name, m in sys.modules.items() if name.startswith("cutwright.")]
    wanted = {name: part for part, names in PARTS.items() for name in names}
    found: set[str] = set()
    for home in modules:
        for name, thing in list(vars(home).items()):
            if isinstance(thing, type) and thing.__module__ == home.__name__:
                for own in [n for n in vars(thing) if f"{name}.{n}" in wanted]:
                    setattr(thing, own, counting(wanted[f"{name}.{own}"], vars(thing)[own]))
                    found.add(f"{name}.{own}")
            if not isinstance(thing, FunctionType) or thing.__module__ != home.__name__:
                continue
            for key in (name, f"{home.__name__.rpartition('.')[2]}.{name}"):
                if key in wanted:
                    _exchange(modules, thing, counting(wanted[key], thing))
                    found.add(key)
    assert found == set(wanted), set(wanted) - found


def _exchange(modules: list[Any], old: object, new: object) -> None:
    for module in modules:
        for name, thing in list(vars(module).items()):
            if thing is old:
                setattr(module, name, new)


def main(place: str, port: int, token: str) -> None:
    """Serve until stopped."""
    import uvicorn

    from benchmarks.lining_copies import lined
    from cutwright.desk.app import make_app
    from cutwright.desk.web.guard import House
    from cutwright.workshop.gallery import load_card, load_style

    app = make_app(place, House(token=token))
    count_parts()

    @app.post("/api/echo")
    def echo(said: dict[str, object]) -> dict[str, object]:
        return said

    @app.post("/api/spent")
    def told() -> dict[str, dict[str, float]]:
        return {"spent": {**spent, "all": time.process_time()}, "calls": dict(calls)}

    @app.post("/api/lined")
    def lay_lined() -> str:
        shop = app.state.shop
        style = shop.add_style(lined(load_style("orchard-dress")))
        return f"/table/{style.id}/{shop.add_card(load_card('the-alto')).id}"

    uvicorn.run(app, port=port, log_level="critical")


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), sys.argv[3])
