// @ts-check
/** Two hands changed the same document: both are shown, nothing is lost, one is chosen. */
import { all, byId, post } from "./dom.js";

/** @param {any} told @param {string} api @param {(keep: "mine" | "theirs") => void} chosen */
export function conflict(told, api, chosen) {
  const dialog = /** @type {HTMLDialogElement} */ (byId("conflict"));
  const form = /** @type {HTMLTemplateElement} */ (byId("conflict-form"));
  dialog.replaceChildren(form.content.cloneNode(true));
  for (const [look, mine, other] of /** @type {[string, string[], string[]][]} */ ([["mine", told.mine_lines, told.theirs_lines], ["theirs", told.theirs_lines, told.mine_lines]])) {
    const list = dialog.querySelector(`ol.${look}`);
    for (const [number, text] of mine.entries()) {
      const li = document.createElement("li");
      li.value = number; // the first line is the name
      li.textContent = text;
      if (!other.includes(text)) li.className = "differs";
      list?.append(li);
    }
  }
  for (const button of /** @type {HTMLButtonElement[]} */ (all(dialog, "[data-keep]")))
    button.addEventListener("click", async () => {
      const keep = button.dataset.keep;
      if (keep === "apart") {
        const made = /** @type {any} */ (await post(`${api}/keep-apart`, told.mine));
        window.location.assign(made.href);
        return;
      }
      dialog.close();
      chosen(keep === "mine" ? "mine" : "theirs");
    });
  dialog.addEventListener("cancel", (e) => e.preventDefault());
  dialog.showModal();
}
