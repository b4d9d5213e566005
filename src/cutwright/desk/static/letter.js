// @ts-check
/** The letter: its words are fields; a field that is being typed in is never overwritten. */
import { all, byId, element, sign, words } from "./dom.js";
import { textField } from "./field_undo.js";
import { morph } from "./morph.js";
import { find, keepOpen, place } from "./swap.js";

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

/** The sentence and the field of a key such as "3/length". @param {string} key @returns {[number, string]} */
function parted(key) {
  const cut = key.indexOf("/");
  return [cut < 0 ? -1 : Number(key.slice(0, cut)), key.slice(cut + 1)];
}

/** The key of the same field where its sentence stands now. @param {string} key @param {number[]} places */
function moved(key, places) {
  const [step, field] = parted(key);
  return step < 0 ? key : `${places[step] ?? -1}/${field}`;
}

/** Put a value, in the shape of `valueOf`, into a control. @param {HTMLElement} control @param {any} value */
export function putInto(control, value) {
  const shape = control.dataset.shape;
  if (shape === "many") for (const box of /** @type {HTMLInputElement[]} */ (all(control, "input"))) box.checked = value.includes(box.value);
  else if (shape === "names") /** @type {HTMLInputElement[]} */ (all(control, "input")).forEach((each, n) => (each.value = value[n] ?? each.value));
  else if (shape === "place") for (const part of /** @type {Field[]} */ (all(control, "[data-part]"))) part.value = value[part.dataset.part || ""] ?? part.value;
  else /** @type {Field} */ (control).value = value;
}

/** Let a control show what the book holds. @param {HTMLElement} control */
export function asSaved(control) {
  const own = control.matches("input,select") ? [control] : [];
  for (const each of /** @type {Field[]} */ ([...own, ...all(control, "input,select")])) {
    if (each instanceof HTMLSelectElement) for (const option of each.options) option.selected = option.defaultSelected;
    else if (each.type === "checkbox") each.checked = each.defaultChecked;
    else each.value = each.defaultValue;
  }
}

/** The next number when an arrow key is pressed. @param {string} text @param {number} by @param {number} low @param {number} high @param {string} [point] */
export function stepped(text, by, low, high, point = sign) {
  const now = Number(text.trim().replace(",", "."));
  if (!Number.isFinite(now) || text.trim() === "") return null;
  const next = Math.min(high, Math.max(low, now + by));
  return String(Number(next.toFixed(4))).replace(".", point);
}

/** Whether a control shows something else than it came with. @param {HTMLElement} control */
function changed(control) {
  if (control instanceof HTMLInputElement) return control.value !== control.defaultValue;
  return control instanceof HTMLSelectElement && Boolean(control.selectedOptions[0] && !control.selectedOptions[0].defaultSelected);
}

export class Letter {
  /** @param {import("./queue.js").Queue} queue @param {() => number} revision the one the page shows */
  constructor(queue, revision) {
    this.queue = queue;
    this.revision = revision;
    this.list = byId("lines");
    /** @type {string[]} */
    this.marks = (this.list.dataset.marks || "").split(" ").filter(Boolean);
    this.open = -1;
    this.group = "";
    this.swapping = false;
    this.editing = "";
    this.left = () => {};
    this.pressed = false;
    /** @type {{index: number, act: string} | null} where to go on once the letter is written anew */
    this.next = null;
    this.list.addEventListener("pointerdown", () => (this.pressed = true));
    for (const name of ["pointerup", "pointercancel"]) window.addEventListener(name, () => (this.pressed = false));
    this.list.addEventListener("input", (e) => this.typed(e.target));
    this.list.addEventListener("keydown", (e) => this.arrows(e));
    this.list.addEventListener("focusin", (e) => this.entered(e.target));
    this.list.addEventListener("focusout", (e) => this.leave(e.target, e.relatedTarget));
    this.list.addEventListener("click", (e) => this.clicked(e.target));
    for (const name of ["focusin", "pointerdown"]) document.addEventListener(name, (e) => this.closePops(e.target));
  }

  /** A list to choose from closes when one goes on elsewhere. @param {EventTarget | null} target */
  closePops(target) {
    for (const pop of /** @type {HTMLDetailsElement[]} */ (all(this.list, "details.v[open]"))) if (target instanceof Node && !pop.contains(target) && !this.swapping) pop.open = false;
  }

  /** The control of a key such as "3/length". @param {string} key @returns {HTMLElement | null} */
  at(key) {
    const [step, field] = parted(key);
    return this.line(step)?.querySelector(`[data-field="${field}"]`) || null;
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
    if (found.control instanceof HTMLInputElement) {
      const size = Math.max(2, Math.min(34, found.control.value.length + (found.control.dataset.shape === "number" ? 1 : 2)));
      if (found.control.size !== size) found.control.size = size;
    }
    const key = `${found.index}/${field}`;
    if (textField(target) && target === document.activeElement) this.editing = key;
    this.send(key, valueOf(found.control), this.group);
  }

  /** Send what stands in a control; it is a draft until the book has it. @param {string} key @param {unknown} value @param {string} group */
  send(key, value, group) {
    const [step, field] = parted(key);
    this.queue.drafts.keep(key, { value, group, step, base: this.revision(), why: "" });
    this.queue.push({ do: "set", step, field, value }, group, key);
    this.mark();
  }

  /** What was refused for want of another word of its sentence is tried again once that stands. @param {import("./queue.js").Waiting} saved */
  again(saved) {
    for (const [key] of this.queue.drafts.refused) {
      const draft = this.queue.drafts.all.get(key);
      if (draft && draft.step === saved.command.step && key !== saved.key) this.send(key, draft.value, draft.group);
    }
  }

  /** A field is left: it shows what the book holds, unless that is still to come or was refused. @param {EventTarget | null} target @param {EventTarget | null} to */
  leave(target, to) {
    const found = this.control(target);
    if (this.swapping || !found || (to instanceof Node && found.control.contains(to))) return;
    const key = this.editing;
    this.editing = "";
    this.settle(key);
    this.left();
  }

  /** @param {string} key */
  settle(key) {
    const control = key && key !== this.editing && !this.queue.drafts.all.has(key) && this.at(key);
    if (control) asSaved(control);
  }

  /** Put every draft back into its control, and mark those that were refused with the reason. */
  mark() {
    for (const spot of /** @type {HTMLElement[]} */ (all(this.list, ".told"))) [spot.hidden, spot.textContent] = [true, ""];
    for (const old of all(this.list, ".unsaved")) {
      old.classList.remove("unsaved");
      old.removeAttribute("aria-invalid");
    }
    for (const [key, draft] of this.queue.drafts.all) {
      const control = this.at(key);
      if (!control) continue;
      if (JSON.stringify(valueOf(control)) !== JSON.stringify(draft.value)) putInto(control, draft.value);
      if (!draft.why) continue;
      control.classList.add("unsaved");
      control.setAttribute("aria-invalid", "true");
      control.closest("details.finer")?.setAttribute("open", ""); // whoever opens the sentence sees what is to be mended
      const spot = /** @type {HTMLElement | null | undefined} */ (control.closest("li.line")?.querySelector(".told"));
      if (!spot) continue;
      spot.textContent = [spot.textContent, words("notSaved", { why: draft.why })].filter(Boolean).join(" ");
      spot.hidden = false;
    }
  }

  /** Sentences were written, moved or taken out elsewhere: each line goes to where it stands now. @param {number[]} places @param {number} was the revision the page showed before */
  went(places, was) {
    const held = document.activeElement instanceof HTMLElement && this.list.contains(document.activeElement) ? document.activeElement : null;
    const field = textField(held);
    const caret = field ? [field.selectionStart, field.selectionEnd] : [null, null];
    const lines = [...this.list.children];
    /** @type {Element[]} */
    const fresh = Array.from({ length: Math.max(-1, ...places) + 1 }, () => document.createElement("li"));
    places.forEach((to, from) => to >= 0 && lines[from] && (fresh[to] = lines[from]));
    this.swapping = true;
    this.list.replaceChildren(...fresh);
    held?.focus({ preventScroll: true });
    if (field && caret[0] !== null) field.setSelectionRange(caret[0], caret[1]);
    this.swapping = false;
    this.marks = fresh.map(() => "");
    this.open = places[this.open] ?? -1;
    this.editing = moved(this.editing, places);
    for (const each of this.queue.waiting) {
      const step = typeof each.command.step === "number" && !each.base ? each.command.step : -1;
      if (places[step] >= 0) each.command.step = places[step];
      else if (step >= 0) each.base = was; // its sentence is gone: the desk asks what shall become of it
      each.key = moved(each.key, places);
    }
    this.renamed(places, was);
  }

  /** What is not saved follows its sentence. @param {number[]} places @param {number} was the revision the places are counted from */
  renamed(places, was) {
    this.queue.drafts.follow((key, draft) => {
      if (draft.base !== was || draft.step < 0) return [key, draft];
      const to = places[draft.step] ?? -1;
      if (to < 0) return draft.why ? ["", draft] : [moved(key, places), draft];
      return [`${to}/${parted(key)[1]}`, draft.why ? { ...draft, step: to, base: this.revision() } : draft];
    });
  }

  /** Take up what was not saved when the page was left, and what was typed before it was ready to listen. */
  catchUp() {
    for (const [key, draft] of [...this.queue.drafts.all])
      if (!draft.why && draft.step >= 0) this.queue.push({ do: "set", step: draft.step, field: parted(key)[1], value: draft.value }, draft.group, key, draft.base);
    this.mark();
    for (const control of /** @type {HTMLElement[]} */ (all(this.list, "[data-field]"))) {
      const key = `${control.closest("li")?.dataset.index}/${control.dataset.field}`;
      if (changed(control) && !this.queue.drafts.all.has(key)) this.typed(control);
    }
    if (!this.at(this.editing)?.contains(document.activeElement)) this.editing = "";
  }

  /** @param {KeyboardEvent} e */
  arrows(e) {
    const input = e.target;
    if (e.key === "Enter" && textField(input)) this.leave(input, null);
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
    const spot = held ? place(held) : -1;
    const typing = held instanceof HTMLInputElement && this.editing === `${index}/${held.closest("[data-field]")?.getAttribute("data-field")}`;
    if (old && morph(old, fresh, typing ? held : null)) return;
    if (old) {
      keepOpen(old, fresh);
      old.replaceWith(fresh);
    } else this.list.append(fresh);
    if (index === this.open) {
      fresh.classList.add("on");
      fresh.querySelector("button.no")?.setAttribute("aria-expanded", "true");
    }
    if (held && spot >= 0) find(fresh, spot, held, typing)?.focus({ preventScroll: true });
  }
}
