// @ts-check
/** The paper sheet: the chosen paper shown with the edges of its pages. */
import { byId, post, Refused } from "./dom.js";

const sheet = byId("sheet");
const which = /** @type {HTMLSelectElement} */ (byId("which"));

async function show() {
  const paper = which.value;
  /** @type {HTMLButtonElement} */ (byId("this-paper")).value = paper;
  try {
    const told = /** @type {any} */ (await post(`/api/table/${sheet.dataset.style}/${sheet.dataset.body}/preview`, { paper }));
    if (paper !== which.value) return;
    byId("preview").innerHTML = told.svg;
    byId("preview-words").textContent = told.words;
  } catch (fault) {
    byId("preview-words").textContent = fault instanceof Refused ? fault.text : String(fault);
  }
}

which.addEventListener("change", () => void show());
void show();
