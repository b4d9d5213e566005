// @ts-check
/** A sentence put in the place of its older self: focus, caret, open folds and what is being typed stay. */
import { all } from "./dom.js";

/** Which of the controls of a line this is. @param {HTMLElement} held */
export function place(held) {
  const line = held.closest("li.line");
  return line ? all(line, "input,select,button,summary").indexOf(held) : -1;
}

/** The control that takes the place of one that has the focus; what is being typed there stays. @param {Element} fresh @param {number} spot @param {HTMLElement} held @param {boolean} typing @returns {HTMLElement | null} */
export function find(fresh, spot, held, typing) {
  const field = held.dataset.field;
  const same = field ? fresh.querySelector(`[data-field="${field}"]`) : null;
  const found = /** @type {HTMLElement | null} */ (same || all(fresh, "input,select,button,summary")[spot] || null);
  if (!(held instanceof HTMLInputElement && found instanceof HTMLInputElement && held.type === "text")) return found;
  if (typing) [found.value, found.size] = [held.value, held.size];
  if (held.selectionStart !== null) found.setSelectionRange(held.selectionStart, held.selectionEnd);
  return found;
}

/** @param {Element} old @param {Element} fresh */
export function keepOpen(old, fresh) {
  const was = all(old, "details");
  all(fresh, "details").forEach((each, n) => {
    if (was[n]?.hasAttribute("open")) each.setAttribute("open", "");
  });
}
