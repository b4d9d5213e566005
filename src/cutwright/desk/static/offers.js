// @ts-check
/** Writing another sentence: what can be done with what is selected, as sentences to choose from. */
import { all, ask, byId, Newest, quietly, words } from "./dom.js";

export class Offers {
  /** @param {string} api @param {import("./queue.js").Queue} queue @param {import("./letter.js").Letter} letter */
  constructor(api, queue, letter) {
    this.api = api;
    this.queue = queue;
    this.letter = letter;
    this.tag = "";
    this.at = -1;
    this.newest = new Newest();
    this.panel = byId("offers");
    this.button = byId("add");
    this.button.addEventListener("click", () => (this.panel.hidden ? quietly(this.show(-1, this.tag)) : this.hide()));
    byId("offers-close").addEventListener("click", () => this.hide());
    byId("offers-search").addEventListener("input", () => this.filter());
    this.panel.addEventListener("click", (e) => this.chosen(e.target));
    this.panel.addEventListener("keydown", (e) => {
      if (e.key === "Escape") this.hide();
    });
  }

  /** Another thing was selected. @param {string} tag */
  selected(tag) {
    this.tag = tag;
    if (!this.panel.hidden) quietly(this.show(this.at, tag, false));
  }

  /** @param {number} at @param {string} tag @param {boolean} [focus] */
  async show(at, tag, focus = true) {
    this.at = at;
    this.panel.hidden = false;
    this.button.setAttribute("aria-expanded", "true");
    byId("offers-for").textContent = tag ? words("offersFor", { what: tag }) : words("offersAny");
    byId("offers-list").textContent = words("looking");
    if (focus) {
      const typing = window.matchMedia("(pointer: fine)").matches; // a finger would only call up the keys over the list
      byId(typing ? "offers-search" : "offers-for").focus({ preventScroll: true });
      this.panel.scrollIntoView({ block: "nearest" });
    }
    const where = at >= 0 ? `&at=${at}` : "";
    const told = /** @type {any} */ (await this.newest.of(ask(`${this.api}/offers?tag=${encodeURIComponent(tag)}${where}`)));
    if (!told) return;
    byId("offers-list").innerHTML = told.html;
    this.filter();
    if (focus) this.panel.scrollIntoView({ block: "start" });
  }

  hide() {
    this.panel.hidden = true;
    this.button.setAttribute("aria-expanded", "false");
    this.button.focus({ preventScroll: true });
  }

  filter() {
    const wish = /** @type {HTMLInputElement} */ (byId("offers-search")).value.toLowerCase().split(/\s+/).filter(Boolean);
    for (const li of /** @type {HTMLElement[]} */ (all(this.panel, "li"))) {
      const text = `${li.textContent} ${li.querySelector("button")?.title}`.toLowerCase();
      li.hidden = !wish.every((w) => text.includes(w));
    }
    for (const ul of /** @type {HTMLElement[]} */ (all(this.panel, "ul"))) {
      const empty = !all(ul, "li").some((li) => !(/** @type {HTMLElement} */ (li).hidden));
      ul.hidden = empty;
      if (ul.previousElementSibling instanceof HTMLElement) ul.previousElementSibling.hidden = empty;
    }
  }

  /** @param {EventTarget | null} target */
  chosen(target) {
    const button = target instanceof Element ? target.closest("button.offer") : null;
    if (!(button instanceof HTMLElement)) return;
    const step = JSON.parse(button.dataset.row || "{}");
    const at = Number(button.dataset.at);
    this.hide();
    this.letter.open = at;
    this.letter.next = { index: at, act: "" };
    this.queue.push({ do: "write", at, step });
  }
}
