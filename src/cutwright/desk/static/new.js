// @ts-check
/** Beginning: writing into a field chooses what it belongs to. */
for (const field of document.querySelectorAll("[data-picks]"))
  field.addEventListener("input", () => {
    const radio = document.getElementById(/** @type {HTMLElement} */ (field).dataset.picks || "");
    if (radio instanceof HTMLInputElement) radio.checked = true;
  });
