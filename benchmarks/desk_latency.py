"""From a key press to the painted picture, in a real browser on the desk.

`python -m benchmarks.desk_latency [presses]` presses the arrow key in a number of the first sentence of the ready-made
dress (everything is drafted anew), of one in the middle and of the last, and in the first of a dress of 20 pieces. It
prints, each as median and 95th percentile in ms since the key's own time stamp:

- painted: style, layout and paint of the frame with the new drawing are done (a message posted in its animation frame)
- next: the second animation frame after the drawing was put in; never before it can be seen, up to a frame late
- saved: the page says that the book holds it; proved: the proof stands there

and what a press costs in processor time (ms), whatever else the machine does: of the desk by part, and of the page's
main thread with its layouts. The same for a request that the desk answers at once.
"""

from __future__ import annotations

import json
import os
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from dataclasses import dataclass, field
from pathlib import Path
from statistics import median
from typing import Any

from cutwright.desk.web.guard import House

PRESSES = 30
REST = 150
"""So long the hands rest between two presses, in ms, so that what follows a change has come to its end."""
WARM = 5
"""So many presses go before and are not counted."""
HOUSE = House()
GOAL = "goal: median 50 ms, 95 of 100 within 100 ms; 20 pieces: median 100 ms; proof within 150 ms"
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"]

_WATCH = """() => {
  const seen = {};
  let [start, full] = [0, () => {}];
  const once = (name) => {
    if (!start || name in seen) return;
    seen[name] = performance.now() - start;
    if (['next', 'saved', 'proved'].every((each) => each in seen)) full(seen);
  };
  window.timed = {
    from: (selector) => {
      document.querySelector(selector).focus();
      start = 0;
      for (const name in seen) delete seen[name];
      window.timed.all = new Promise((done) => { full = done; });
    },
  };
  window.addEventListener('keydown', (e) => { start = e.timeStamp; }, true);
  new MutationObserver(() => {
    if (!start || 'put' in seen) return;
    once('put');
    requestAnimationFrame(() => {
      const after = new MessageChannel();
      after.port1.onmessage = () => once('painted');
      after.port2.postMessage(0);
      requestAnimationFrame(() => once('next'));
    });
  }).observe(document.querySelector('#pieces'), { subtree: true, attributeFilter: ['d', 'points', 'transform'] });
  const saved = document.querySelector('#saved');
  new MutationObserver(() => { if (saved.textContent === 'saved') once('saved'); }).observe(saved, { childList: true, characterData: true, subtree: true });
  new MutationObserver(() => once('proved')).observe(document.querySelector('#proof'), { childList: true });
}"""

_ECHO = """async () => {
  const start = performance.now();
  const body = JSON.stringify({ base: 1, command: { do: 'set', step: 0, field: 'length', value: '52' } });
  await (await fetch('/api/echo', { method: 'POST', headers: { 'content-type': 'application/json' }, body })).json();
  return await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now() - start))));
}"""

_FIELDS = """() => [...document.querySelectorAll('#lines > li')].map((li) => {
  const f = [...li.querySelectorAll('.words input.num')].find((i) => !isNaN(Number(i.value)));
  return f ? `#lines > li:nth-child(${Number(li.dataset.index) + 1}) .words [data-field="${f.dataset.field}"]` : null;
}).filter(Boolean)"""
"""A number of each sentence that has one."""

TIMES = ("painted", "next", "saved", "proved")
MAIN = {
    "TaskDuration": "main thread",
    "ScriptDuration": "script",
    "RecalcStyleDuration": "style",
    "LayoutDuration": "layout",
}


@dataclass
class Pressed:
    """What was measured of the presses in one field."""

    what: str
    times: dict[str, list[float]] = field(default_factory=lambda: {name: [] for name in TIMES})
    desk: dict[str, float] = field(default_factory=dict)
    page: dict[str, float] = field(default_factory=dict)

    def row(self) -> dict[str, Any]:
        """As it is printed."""
        told = {n: [round(t) for t in spread(times)] for n, times in self.times.items()}
        cost = {"desk_cpu": self.desk, "page_cpu": self.page}
        rounded = {w: {n: round(ms, 1) for n, ms in parts.items()} for w, parts in cost.items()}
        return {"bench": "press", "what": self.what, **told, **rounded}


def spread(times: list[float]) -> tuple[float, float]:
    """Median and 95th percentile."""
    return median(times), sorted(times)[int(len(times) * 0.95)]


class Desk:
    """The desk as its own process, and a browser before it."""

    def __init__(self, place: str) -> None:
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            port = probe.getsockname()[1]
        self.url = f"http://127.0.0.1:{port}"
        wanted = [sys.executable, "-m", "benchmarks.desk_served", place, str(port), HOUSE.token]
        self.process = subprocess.Popen(wanted)

    def post(self, path: str) -> Any:
        """Ask the desk; gives the answer, or the address one was sent on to."""
        request = urllib.request.Request(f"{self.url}{path}", data=b"", method="POST")
        request.add_header("cookie", "=".join(HOUSE.cookie))
        with urllib.request.urlopen(request) as answer:
            return answer.geturl() if path == "/demo" else json.load(answer)

    def demo(self) -> str:
        """The address of the ready-made dress, once the desk has started."""
        for _n in range(600):
            try:
                return str(self.post("/demo"))
            except OSError:
                time.sleep(0.1)
        raise SystemExit("the desk did not start")

    def spent(self) -> dict[str, float]:
        """Processor time by part so far, in ms."""
        return {name: s * 1e3 for name, s in self.post("/api/spent")["spent"].items()}


def pressed(desk: Desk, page: Any, what: str, selector: str, presses: int) -> Pressed:
    """Press up and down in turn in one field, each time until the proof stands."""
    done = Pressed(what)
    threads = page.context.new_cdp_session(page)
    threads.send("Performance.enable", {"timeDomain": "threadTicks"})
    before: tuple[dict[str, float], dict[str, float]] = ({}, {})
    for n in range(presses + WARM):
        if n == WARM:
            before = desk.spent(), _metrics(threads)
        page.evaluate("(selector) => window.timed.from(selector)", selector)
        page.keyboard.press("ArrowDown" if n % 2 else "ArrowUp")
        seen = page.evaluate("() => window.timed.all")
        page.wait_for_timeout(REST)
        if n >= WARM:
            for name in TIMES:
                done.times[name].append(seen[name])
    after = desk.spent(), _metrics(threads)
    every = {n: (ms - before[0].get(n, 0)) / presses for n, ms in after[0].items()}
    named = sum(ms for n, ms in every.items() if n != "all")
    done.desk = {"all": every.pop("all"), **every, "rest": 0.0}
    done.desk["rest"] = done.desk["all"] - named
    done.page = {n: (ms - before[1][n]) / presses for n, ms in after[1].items()}
    return done


def _metrics(threads: Any) -> dict[str, float]:
    """What the page's main thread has done so far: processor time in ms, layouts and styles counted."""
    told = {m["name"]: m["value"] for m in threads.send("Performance.getMetrics")["metrics"]}
    times = {words: told[name] * 1e3 for name, words in MAIN.items()}
    return {**times, "layouts": told["LayoutCount"], "styles": told["RecalcStyleCount"]}


def main(presses: int = PRESSES) -> None:
    """Measure and print."""
    from playwright.sync_api import sync_playwright

    names = (os.environ.get("CHROMIUM"), "chromium", "chromium-browser", "google-chrome")
    found = next((p for p in map(shutil.which, filter(None, names)) if p), None)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as play:
        desk = Desk(str(Path(folder) / "book.sqlite"))
        try:
            address = desk.demo()
            browser = play.chromium.launch(executable_path=found, args=FLAGS)
            page = browser.new_page(viewport={"width": 1280, "height": 800})
            page.goto(f"{desk.url}/?token={HOUSE.token}")
            fields = _opened(page, address)
            print(GOAL)
            load = f"load of the machine: {os.getloadavg()[0]:.1f}"
            echo = spread([page.evaluate(_ECHO) for _n in range(presses)])
            print(f"{load}; bare request, next: median {echo[0]:.0f} ms, p95 {echo[1]:.0f} ms")
            middle = fields[len(fields) // 2]
            for what, at in (("first", fields[0]), ("middle", middle), ("last", fields[-1])):
                print(json.dumps(pressed(desk, page, what, at, presses).row()), flush=True)
            fields = _opened(page, desk.url + desk.post("/api/lined"))
            print(json.dumps(pressed(desk, page, "20 pieces, first", fields[0], presses).row()))
            browser.close()
        finally:
            desk.process.terminate()
            desk.process.wait(10)


def _opened(page: Any, address: str) -> list[str]:
    """Open a table, wait until all stands there, and give a number of each sentence."""
    page.goto(address)
    page.locator("#proof-rows").wait_for()
    page.evaluate(_WATCH)
    return list(page.evaluate(_FIELDS))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else PRESSES)
