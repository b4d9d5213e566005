// @ts-check
/** A sentence put in the place of its older self: focus, caret, open folds and unsaved words stay. */
import { all } from "./dom.js";

/** @typedef {HTMLInputElement | HTMLSelectElement} Field */

/** Which of the controls of a line this is. @param {HTMLElement} held */
export function place(held) {
  const line = held.closest("li.line");
  return line ? all(line, "input,select,button,summary").indexOf(held) : -1;
}

/** @param {Element} fresh @param {number} spot @param {HTMLElement} held @returns {HTMLElement | null} */
export function find(fresh, spot, held) {
  const field = held.closest("[data-field]")?.getAttribute("data-field");
  const same = field && held.dataset.field ? fresh.querySelector(`[data-field="${field}"]`) : null;
  const found = /** @type {HTMLElement | null} */ (same || all(fresh, "input,select,button,summary")[spot] || null);
  if (held instanceof HTMLInputElement && found instanceof HTMLInputElement && held.type === "text" && held.selectionStart !== null)
    found.setSelectionRange(held.selectionStart, held.selectionEnd);
  return found;
}

/** Carry over what was typed and is not saved yet, and whatever has the focus. @param {Element} old @param {Element} fresh @param {(field: string) => boolean} pending @param {HTMLElement | null} held */
export function keepTyped(old, fresh, pending, held) {
  for (const mine of /** @type {Field[]} */ (all(old, "input[data-field],select[data-field]"))) {
    const theirs = /** @type {Field | null} */ (fresh.querySelector(`[data-field="${mine.dataset.field}"]`));
    if (!theirs || !(pending(mine.dataset.field || "") || (mine === held && mine instanceof HTMLInputElement))) continue;
    theirs.value = mine.value;
    if (mine instanceof HTMLInputElement && theirs instanceof HTMLInputElement) theirs.size = mine.size;
  }
}

/** @param {Element} old @param {Element} fresh */
export function keepOpen(old, fresh) {
  const was = all(old, "details");
  all(fresh, "details").forEach((each, n) => {
    if (was[n]?.hasAttribute("open")) each.setAttribute("open", "");
  });
}
