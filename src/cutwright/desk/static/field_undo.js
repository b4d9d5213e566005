// @ts-check
/** Undo by key: inside a field it belongs to the field until that is left; elsewhere to the document. */

/** @param {EventTarget | null} target @returns {HTMLInputElement | HTMLTextAreaElement | null} */
export function textField(target) {
  if (target instanceof HTMLTextAreaElement) return target;
  return target instanceof HTMLInputElement && !["checkbox", "radio", "button", "submit"].includes(target.type) ? target : null;
}

/** @param {(which: "undo" | "redo") => void} document_ goes along the history of the document @param {() => boolean} [swapping] whether a field is just being put in the place of its older self */
export function undoByKey(document_, swapping = () => false) {
  /** @type {string[]} */
  let values = [];
  let at = 0;
  let own = false;
  document.addEventListener("focusin", (e) => {
    const field = textField(e.target);
    if (field && !swapping()) [values, at] = [[field.value], 0];
  });
  document.addEventListener("input", (e) => {
    const field = textField(e.target);
    if (!field || own || field.value === values[at]) return;
    values = [...values.slice(0, at + 1), field.value];
    at += 1;
  }, true);
  window.addEventListener("keydown", (e) => {
    const key = e.key.toLowerCase();
    if (!(e.ctrlKey || e.metaKey) || e.altKey || (key !== "z" && key !== "y")) return;
    e.preventDefault();
    const redo = e.shiftKey || key === "y";
    const field = textField(e.target);
    if (!field) document_(redo ? "redo" : "undo");
    else if (values[at + (redo ? 1 : -1)] !== undefined) {
      at += redo ? 1 : -1;
      field.value = values[at];
      own = true;
      field.dispatchEvent(new Event("input", { bubbles: true }));
      own = false;
    }
  });
}
