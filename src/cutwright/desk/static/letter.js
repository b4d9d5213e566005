// @ts-check
/** The letter: its words are fields; a field that is being typed in is never overwritten. */
import { all, byId, element, sign } from "./dom.js";
import { find, keepOpen, keepTyped, place } from "./swap.js";

/** @typedef {{mark: string, html: string | null}} SentenceShown */
/** @typedef {HTMLInputElement | HTMLSelectElement} Field */

/** What stands in a control, in the shape the desk reads. @param {HTMLElement} control @returns {unknown} */
export function valueOf(control) {
  const shape = control.dataset.shape;
  if (shape === "many") return all(control, "input:checked").map((i) => /** @type {HTMLInputElement} */ (i).value);
  if (shape === "names") return all(control, "input").map((i) => /** @type {HTMLInputElement} */ (i).value);
  if (shape === "place") {
    const out = /** @type {Record<string, string>} */ ({});
    for (const part of /** @type {Field[]} */ (all(control, "[data-part]"))) out[part.dataset.part || ""] = part.value;
    return out;
  }
  return /** @type {Field} */ (control).value;
}

/** The next number when an arrow key is pressed. @param {string} text @param {number} by @param {number} low @param {number} high @param {string} [point] */
export function stepped(text, by, low, high, point = sign) {
  const now = Number(text.trim().replace(",", "."));
  if (!Number.isFinite(now) || text.trim() === "") return null;
  const next = Math.min(high, Math.max(low, now + by));
  return String(Number(next.toFixed(4))).replace(".", point);
}

export class Letter {
  /** @param {import("./queue.js").Queue} queue */
  constructor(queue) {
    this.queue = queue;
    this.list = byId("lines");
    /** @type {string[]} */
    this.marks = (this.list.dataset.marks || "").split(" ").filter(Boolean);
    this.open = -1;
    this.group = "";
    this.swapping = false;
    this.pressed = false;
    /** @type {{index: number, act: string} | null} where to go on once the letter is written anew */
    this.next = null;
    this.list.addEventListener("pointerdown", () => (this.pressed = true));
    for (const name of ["pointerup", "pointercancel"]) window.addEventListener(name, () => (this.pressed = false));
    this.list.addEventListener("input", (e) => this.typed(e.target));
    this.list.addEventListener("keydown", (e) => this.arrows(e));
    this.list.addEventListener("focusin", (e) => this.entered(e.target));
    this.list.addEventListener("click", (e) => this.clicked(e.target));
  }

  /** @param {number} index @returns {HTMLElement | null} */
  line(index) {
    return /** @type {HTMLElement | null} */ (this.list.children[index] || null);
  }

  /** @param {EventTarget | null} target @returns {{line: HTMLElement, index: number, control: HTMLElement} | null} */
  control(target) {
    if (!(target instanceof HTMLElement)) return null;
    const control = /** @type {HTMLElement | null} */ (target.closest("[data-field]"));
    const line = /** @type {HTMLElement | null} */ (target.closest("li.line"));
    return control && line ? { line, control, index: Number(line.dataset.index) } : null;
  }

  /** @param {EventTarget | null} target */
  entered(target) {
    if (this.swapping) return;
    const found = this.control(target);
    if (found) {
      this.group = crypto.getRandomValues(new Uint32Array(2)).join("-");
      if (!this.pressed) this.opened(found.index); // under a pressed pointer nothing may move; its click opens
    }
  }

  /** @param {EventTarget | null} target */
  typed(target) {
    const found = this.control(target);
    if (!found) return;
    const field = found.control.dataset.field || "";
    if (found.control instanceof HTMLInputElement) found.control.size = Math.max(2, Math.min(34, found.control.value.length + (found.control.dataset.shape === "number" ? 1 : 2)));
    const command = { do: "set", step: found.index, field, value: valueOf(found.control) };
    this.queue.push(command, this.group, `${found.index}/${field}`);
  }

  /** Take up what was typed before the page was ready to listen. */
  catchUp() {
    for (const input of /** @type {HTMLInputElement[]} */ (all(this.list, "input[data-field]")))
      if (input.value !== input.defaultValue) this.typed(input);
    for (const select of /** @type {HTMLSelectElement[]} */ (all(this.list, "select[data-field]")))
      if (select.selectedOptions[0] && !select.selectedOptions[0].defaultSelected) this.typed(select);
  }

  /** @param {KeyboardEvent} e */
  arrows(e) {
    const input = e.target;
    if (!(input instanceof HTMLInputElement) || input.dataset.shape !== "number") return;
    if (e.key !== "ArrowUp" && e.key !== "ArrowDown") return;
    const by = Number(input.dataset.step || 1) * (e.shiftKey ? 10 : 1) * (e.key === "ArrowUp" ? 1 : -1);
    const next = stepped(input.value, by, Number(input.dataset.low ?? -Infinity), Number(input.dataset.high ?? Infinity));
    if (next === null) return;
    e.preventDefault();
    input.value = next;
    input.dispatchEvent(new Event("input", { bubbles: true }));
  }

  /** @param {EventTarget | null} target */
  clicked(target) {
    if (!(target instanceof HTMLElement)) return;
    const number = target.closest("button.no");
    const line = /** @type {HTMLElement | null} */ (target.closest("li.line"));
    if (!line) return;
    const index = Number(line.dataset.index);
    if (number) this.opened(this.open === index ? -1 : index);
    else if (target.closest(".says")) this.opened(index);
    if (this.open === index && !(target.closest("details, select"))) line.scrollIntoView({ block: "nearest" });
  }

  /** Open one sentence and close the others. @param {number} index */
  opened(index) {
    this.open = index;
    for (const each of /** @type {HTMLElement[]} */ (all(this.list, "li.line"))) {
      const here = Number(each.dataset.index) === index;
      each.classList.toggle("on", here);
      each.querySelector("button.no")?.setAttribute("aria-expanded", String(here));
    }
    this.list.dispatchEvent(new CustomEvent("opened", { detail: index }));
  }

  /** Sentences anew: only those that changed are put in, and what is being typed stays. @param {SentenceShown[]} shown */
  write(shown) {
    this.swapping = true;
    const inside = this.list.contains(document.activeElement);
    while (this.list.children.length > shown.length) this.list.lastElementChild?.remove();
    shown.forEach((sentence, index) => {
      if (this.marks[index] === sentence.mark) return;
      if (sentence.html !== null) this.swap(index, element(sentence.html));
    });
    this.marks = shown.map((s) => s.mark);
    if (this.next && this.queue.idle) this.goOn(this.next);
    else if (inside && !this.list.contains(document.activeElement)) this.goOn({ index: shown.length - 1, act: "" });
    if (this.queue.idle) this.next = null;
    this.swapping = false;
  }

  /** Put the focus where the work goes on. @param {{index: number, act: string}} to */
  goOn({ index, act }) {
    const line = this.line(index);
    const button = /** @type {HTMLButtonElement | null | undefined} */ (act && line?.querySelector(`[data-act="${act}"]:not(:disabled)`));
    (button || /** @type {HTMLElement | null | undefined} */ (line?.querySelector("button.no")) || byId("add")).focus({ preventScroll: true });
    line?.scrollIntoView({ block: "nearest" });
    if (index === this.open) this.opened(index);
  }

  /** @param {number} index @param {Element} fresh */
  swap(index, fresh) {
    const old = this.line(index);
    const held = old && document.activeElement instanceof HTMLElement && old.contains(document.activeElement) ? document.activeElement : null;
    const spot = held ? place(held) : null;
    if (old) {
      keepTyped(old, fresh, (field) => this.queue.pending(`${index}/${field}`), held);
      keepOpen(old, fresh);
      old.replaceWith(fresh);
    } else this.list.append(fresh);
    if (index === this.open) {
      fresh.classList.add("on");
      fresh.querySelector("button.no")?.setAttribute("aria-expanded", "true");
    }
    if (spot && held) find(fresh, spot, held)?.focus({ preventScroll: true });
  }
}
