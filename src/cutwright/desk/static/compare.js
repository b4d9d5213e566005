// @ts-check
/** Another state of the same pieces laid under the paper. */
import { ask, byId, Newest, quietly, words } from "./dom.js";

/** @param {import("./paper.js").Paper} paper @param {string} api */
export function compareWith(paper, api) {
  const select = /** @type {HTMLSelectElement} */ (byId("compare"));

  const newest = new Newest();

  function clear() {
    for (const old of paper.svg.querySelectorAll("g.under")) old.remove();
    document.getElementById("differences")?.remove();
  }

  async function again() {
    if (!select.value) {
      newest.drop();
      return clear();
    }
    const told = /** @type {any} */ (await newest.of(ask(`${api}/compare?what=${encodeURIComponent(select.value)}`)));
    if (!told) return;
    clear();
    for (const [name, d] of Object.entries(told.pieces)) {
      const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
      path.setAttribute("d", String(d));
      path.setAttribute("class", "ghost");
      paper.overlay(name, "under", path.outerHTML);
    }
    if (select.selectedOptions[0]?.dataset.fresh) select.selectedOptions[0].text = told.words;
    differences(told);
  }

  /** @param {{head: string, changes: {where: string, now: string, under: string, by: string}[]}} told */
  function differences(told) {
    const box = document.createElement("details");
    box.id = "differences";
    box.className = "differences";
    const head = document.createElement("summary");
    head.textContent = told.head;
    const list = document.createElement("ul");
    for (const row of told.changes.slice(0, 30)) {
      const li = document.createElement("li");
      li.textContent = `${row.where} ${row.under} → ${row.now} (${row.by})`;
      list.append(li);
    }
    box.append(head, list);
    paper.svg.after(box);
  }

  /** @param {string} what */
  function choose(what) {
    if (![...select.options].some((o) => o.value === what)) {
      const made = new Option(words("looking"), what);
      made.dataset.fresh = "yes";
      select.add(made);
    }
    select.value = what;
    quietly(again());
  }

  select.addEventListener("change", () => quietly(again()));
  return { again, choose };
}
