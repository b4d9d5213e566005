// @ts-check
/** Widths and folds side by side; touching a length lays the pieces so. */
import { byId } from "./dom.js";
import { Watch } from "./watching.js";

/** @param {string} api @param {() => object} wish @param {(width: string, fold: string) => void} choose */
export function comparing(api, wish, choose) {
  const said = byId("compare-said");
  const stop = byId("compare-stop");
  const table = byId("compared");
  const watch = new Watch(`${api}/compare`, {
    told(told) {
      said.textContent = told.trouble || told.said;
      stop.hidden = told.state !== "waiting" && told.state !== "running";
      if (told.html !== null) table.innerHTML = told.html;
    },
    refused(text) {
      said.textContent = text;
      stop.hidden = true;
    },
    gone() {
      stop.hidden = true;
    },
  });
  byId("compare-form").addEventListener("submit", (e) => {
    e.preventDefault();
    const widths = /** @type {HTMLInputElement} */ (byId("widths")).value;
    void watch.begin({ ...wish(), widths });
  });
  stop.addEventListener("click", () => void watch.stop());
  table.addEventListener("click", (e) => {
    const button = e.target instanceof Element ? e.target.closest("button[data-width]") : null;
    if (button instanceof HTMLElement) choose(button.dataset.width || "", button.dataset.fold || "");
  });
}
