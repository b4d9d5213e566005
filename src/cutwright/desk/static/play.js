// @ts-check
/** "Show me": a sentence played in pictures: before, cut, turn, after. */
import { ask, byId } from "./dom.js";

/** @param {string} api @param {number} index @param {HTMLElement} from */
export async function play(api, index, from) {
  const told = /** @type {{sentence: string, help: string, frames: {kind: string, words: string, svg: string}[]}} */ (await ask(`${api}/show?step=${index}`));
  const dialog = /** @type {HTMLDialogElement} */ (byId("play"));
  if (dialog.open) return;
  const form = /** @type {HTMLTemplateElement} */ (byId("play-form"));
  dialog.replaceChildren(form.content.cloneNode(true));
  byId("play-title").textContent = told.sentence;
  byId("play-help").textContent = told.help;
  const stage = byId("play-stage");
  stage.innerHTML = told.frames.map((f) => `<figure class="frame ${f.kind}">${f.svg}</figure>`).join("");
  const still = window.matchMedia("(prefers-reduced-motion: reduce)").matches;
  let at = 0;
  let timer = 0;

  /** @param {number} to */
  function show(to) {
    at = Math.max(0, Math.min(told.frames.length - 1, to));
    [...stage.children].forEach((f, n) => f.classList.toggle("now", n === at));
    byId("play-words").textContent = told.frames.length ? `${at + 1}. ${told.frames[at].words}` : "";
    /** @type {HTMLButtonElement} */ (byId("play-back")).disabled = at === 0;
    /** @type {HTMLButtonElement} */ (byId("play-on")).disabled = at >= told.frames.length - 1;
  }

  function run() {
    clearInterval(timer);
    show(0);
    timer = window.setInterval(() => {
      if (at >= told.frames.length - 1) clearInterval(timer);
      else show(at + 1);
    }, 1600);
  }

  byId("play-back").addEventListener("click", () => (clearInterval(timer), show(at - 1)));
  byId("play-on").addEventListener("click", () => (clearInterval(timer), show(at + 1)));
  byId("play-run").addEventListener("click", run);
  dialog.addEventListener("close", () => (clearInterval(timer), from.isConnected && from.focus()), { once: true });
  dialog.showModal();
  if (still) show(0);
  else run();
}
