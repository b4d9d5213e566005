// @ts-check
/** Two hands changed the same sentence: it is asked once, after the typing has ended; both are shown,
 * nothing is lost, one is chosen. */
import { all, byId, post, words } from "./dom.js";

/**
 * What to do when a change met another's.
 * @param {import("./queue.js").Queue} queue
 * @param {{api: string, typing: (key: string) => boolean, mark: () => void, renew: () => Promise<void>}} page
 *   `renew`: show what stands in the book now
 */
export function conflicts(queue, { api, typing, mark, renew }) {
  /** @param {import("./dom.js").Refused} fault @param {import("./queue.js").Waiting} waiting @returns {Promise<void>} */
  async function met(fault, waiting) {
    const told = /** @type {any} */ (fault.told);
    queue.held = true;
    if (["undo", "redo"].includes(waiting.command.do)) {
      await renew();
      queue.held = false;
      queue.say();
      byId("saved").textContent = words("elsewhere");
      return;
    }
    if (waiting.key && typing(waiting.key)) {
      queue.back(waiting); // its newest words go with the question, once the field is left
      queue.drafts.refuse(waiting.key, words("changedElsewhere"));
      mark();
      return;
    }
    question(told, api, async (keep) => {
      if (waiting.key) queue.drafts.drop(waiting.key);
      await renew();
      queue.held = false;
      if (keep === "mine") queue.waiting.unshift({ command: { do: "whole", content: told.mine }, group: "", key: "", base: told.current });
      queue.say();
      void queue.run();
    }, () => waiting.key && queue.drafts.drop(waiting.key));
  }

  /** A field was left: what waits for it goes on its way. */
  function left() {
    if (!queue.held || queue.busy || document.querySelector("dialog[open]")) return;
    queue.held = false;
    void queue.run();
    queue.say();
  }
  return { met, left };
}

/** @param {any} told @param {string} api @param {(keep: "mine" | "theirs") => void} chosen @param {() => void} apart */
function question(told, api, chosen, apart) {
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
        apart();
        window.location.assign(made.href);
        return;
      }
      dialog.close();
      chosen(keep === "mine" ? "mine" : "theirs");
    });
  dialog.addEventListener("cancel", (e) => e.preventDefault());
  dialog.showModal();
  dialog.querySelector(".differs")?.scrollIntoView({ block: "nearest" });
}
