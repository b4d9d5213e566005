"""From a key press to the painted frame with the new drawing, in a real browser on the ready-made dress.

`python -m benchmarks.desk_latency [presses]` prints median and 95th percentile for a number of the
first sentence (everything is drafted anew), of one in the middle and of the last, and the same for
a request that the desk answers without doing anything, sent by the same page in the same run. A frame counts as painted
when the next one begins: the time is taken in the second animation frame after the drawing was put in.
"""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path
from statistics import median

from cutwright.desk.guard import House

PRESSES = 30
HOUSE = House()
GOAL = "goal: median 50 ms, 95 of 100 within 100 ms, at most 5 times the bare request"
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"]

_SERVE = """
import sys
import uvicorn
from cutwright.desk.app import make_app
from cutwright.desk.guard import House
app = make_app(sys.argv[1], House(token=sys.argv[3]))

@app.post("/api/echo")
def echo(said: dict[str, object]) -> dict[str, object]:
    return said

uvicorn.run(app, port=int(sys.argv[2]), log_level="critical")
"""

_KEY = """async (selector) => {
  const field = document.querySelector(selector);
  field.focus();
  const pieces = document.querySelector('#pieces');
  return await new Promise((done) => {
    const start = performance.now();
    const watch = new MutationObserver(() => {
      watch.disconnect();
      requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now() - start)));
    });
    watch.observe(pieces, { childList: true, subtree: true, attributes: true });
    field.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowUp', bubbles: true, cancelable: true }));
  });
}"""

_ECHO = """async () => {
  const start = performance.now();
  const body = JSON.stringify({ base: 1, command: { do: 'set', step: 0, field: 'length', value: '52' } });
  await (await fetch('/api/echo', { method: 'POST', headers: { 'content-type': 'application/json' }, body })).json();
  return await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now() - start))));
}"""


def spread(times: list[float]) -> tuple[float, float]:
    """Median and 95th percentile."""
    return median(times), sorted(times)[int(len(times) * 0.95)]


def main(presses: int = PRESSES) -> None:
    """Measure and print."""
    from playwright.sync_api import sync_playwright

    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    url = f"http://127.0.0.1:{port}"
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as play:
        place = str(Path(folder) / "book.sqlite")
        server = subprocess.Popen([sys.executable, "-c", _SERVE, place, str(port), HOUSE.token])
        try:
            address = _demo(url)
            names = (os.environ.get("CHROMIUM"), "chromium", "chromium-browser", "google-chrome")
            found = next((p for p in map(shutil.which, filter(None, names)) if p), None)
            browser = play.chromium.launch(executable_path=found, args=FLAGS)
            page = browser.new_page(viewport={"width": 1280, "height": 800})
            page.goto(f"{url}/?token={HOUSE.token}")
            page.goto(address)
            page.wait_for_timeout(1500)
            fields = _fields(page)
            echo = spread([page.evaluate(_ECHO) for _n in range(presses)])
            print(GOAL)
            print(f"bare request: median {echo[0]:.0f} ms, p95 {echo[1]:.0f} ms")
            for what, selector in fields:
                times = []
                for _n in range(presses + 5):
                    times.append(page.evaluate(_KEY, selector))
                    page.locator("#saved", has_text="saved").wait_for()
                middle, most = spread(times[5:])
                print(
                    f"{what}: median {middle:.0f} ms, p95 {most:.0f} ms, {middle / echo[0]:.1f} times the bare request"
                )
            browser.close()
        finally:
            server.terminate()
            server.wait(10)


def _fields(page: object) -> list[tuple[str, str]]:
    """A number in the first, a middle and the last sentence that has one."""
    found = page.evaluate(  # type: ignore[attr-defined]
        """() => [...document.querySelectorAll('#lines > li')].map((li) => {
          const f = [...li.querySelectorAll('.words input.num')].find((i) => !isNaN(Number(i.value)));
          return f ? `#lines > li:nth-child(${Number(li.dataset.index) + 1}) .words [data-field="${f.dataset.field}"]` : null;
        }).filter(Boolean)"""
    )
    names = ("first sentence", "a sentence in the middle", "last sentence")
    return list(zip(names, (found[0], found[len(found) // 2], found[-1]), strict=True))


def _demo(url: str) -> str:
    for _n in range(600):
        try:
            request = urllib.request.Request(f"{url}/demo", data=b"", method="POST")
            request.add_header("cookie", "=".join(HOUSE.cookie))
            with urllib.request.urlopen(request) as answer:
                return str(answer.geturl())
        except OSError:
            time.sleep(0.1)
    raise SystemExit("the desk did not start")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else PRESSES)
