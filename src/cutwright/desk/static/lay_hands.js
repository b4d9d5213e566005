// @ts-check
/** Pieces of the lay taken in hand: pointed at, dragged, moved with arrow keys. */
import { all } from "./dom.js";

/** @typedef {{piece: string, copies: number[], part: number, x: number, y: number, on_fold: boolean, [key: string]: any}} Placement */

/** What tells a placement from all others. @param {Placement} p */
export const keyOf = (p) => `${p.piece}|${p.copies.join()}`;

const REST = 700;
/** @type {Record<string, [number, number]>} */
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

export class Hands {
  /** @param {HTMLElement} strip @param {{chosen: (p: Placement | null, name: string) => void, put: (p: Placement) => void}} told */
  constructor(strip, told) {
    this.strip = strip;
    this.told = told;
    /** @type {Placement[]} */
    this.pieces = [];
    this.key = "";
    this.by = { x: 0, y: 0 };
    this.from = { x: 0, y: 0 };
    this.busy = false;
    this.timer = 0;
    strip.addEventListener("pointerdown", (e) => this.down(e));
    strip.addEventListener("pointermove", (e) => this.move(e));
    strip.addEventListener("pointerup", () => this.up());
    strip.addEventListener("pointercancel", () => this.back());
    strip.addEventListener("click", (e) => this.click(e));
    strip.addEventListener("keydown", (e) => this.pressed(e));
  }

  /** Show another lay; what was in hand stays so. @param {string} svg @param {Placement[]} pieces */
  show(svg, pieces) {
    const focused = document.activeElement instanceof SVGElement && this.strip.contains(document.activeElement) ? this.keyAt(document.activeElement) : "";
    const scrolled = this.strip.scrollLeft;
    this.strip.innerHTML = svg;
    this.strip.scrollLeft = scrolled;
    this.pieces = pieces;
    if (focused) this.group(focused)?.focus({ preventScroll: true });
    this.choose(this.key);
  }

  /** @param {Element | null} at */
  keyAt(at) {
    const g = at?.closest("g.laid");
    return g instanceof SVGElement && this.pieces[Number(g.dataset.number)] ? keyOf(this.pieces[Number(g.dataset.number)]) : "";
  }

  /** @param {string} key @returns {SVGGElement | null} */
  group(key) {
    const number = this.pieces.findIndex((p) => keyOf(p) === key);
    return number < 0 ? null : this.strip.querySelector(`g.laid[data-number="${number}"]`);
  }

  get piece() {
    return this.pieces.find((p) => keyOf(p) === this.key) || null;
  }

  /** @param {string} key */
  choose(key) {
    this.key = this.group(key) ? key : "";
    for (const each of all(this.strip, "g.laid")) {
      const on = each === this.group(this.key);
      each.classList.toggle("on", on);
      each.setAttribute("aria-pressed", String(on));
    }
    this.told.chosen(this.piece, this.group(this.key)?.getAttribute("aria-label") || "");
  }

  /** @param {PointerEvent} e */
  down(e) {
    const key = e.target instanceof Element ? this.keyAt(e.target) : "";
    if (!key || !e.isPrimary || e.button !== 0) return;
    if (e.pointerType !== "mouse" && key !== this.key) return; // a finger points first, so that the page can still be moved
    if (this.timer) this.put();
    this.choose(key);
    this.busy = true;
    this.from = this.spot(e);
    this.by = { x: 0, y: 0 };
    this.group(key)?.setPointerCapture(e.pointerId); // so that the click that follows is the piece's own
    this.strip.classList.add("dragging");
  }

  /** Where on the cloth, in cm. @param {PointerEvent} e */
  spot(e) {
    const seen = /** @type {SVGSVGElement} */ (this.strip.querySelector("svg")).getScreenCTM();
    return seen ? new DOMPoint(e.clientX, e.clientY).matrixTransform(seen.inverse()) : { x: 0, y: 0 };
  }

  /** @param {PointerEvent} e */
  move(e) {
    if (!this.busy) return;
    const now = this.spot(e);
    this.shift(now.x - this.from.x, now.y - this.from.y);
  }

  /** @param {number} x @param {number} y */
  shift(x, y) {
    this.by = { x, y: this.piece?.on_fold ? 0 : y };
    this.group(this.key)?.setAttribute("transform", `translate(${this.by.x} ${this.by.y})`);
  }

  up() {
    if (!this.busy) return;
    this.busy = false;
    this.strip.classList.remove("dragging");
    if (Math.hypot(this.by.x, this.by.y) > 0.4) this.put();
    else this.back();
  }

  back() {
    this.busy = false;
    this.strip.classList.remove("dragging");
    this.shift(0, 0);
    this.choose(this.key);
  }

  /** Put down what is in hand, where it was moved to. */
  put() {
    const piece = this.piece;
    window.clearTimeout(this.timer);
    this.timer = 0;
    if (piece) this.told.put({ ...piece, x: piece.x + this.by.x, y: piece.y + this.by.y });
    this.by = { x: 0, y: 0 };
  }

  /** @param {MouseEvent} e */
  click(e) {
    const key = e.target instanceof Element ? this.keyAt(e.target) : "";
    if (key !== this.key) this.choose(key);
  }

  /** @param {KeyboardEvent} e */
  pressed(e) {
    const key = e.target instanceof Element ? this.keyAt(e.target) : "";
    const arrow = ARROWS[e.key];
    if (e.key === "Escape") this.choose("");
    else if (key && (e.key === "Enter" || e.key === " ")) this.choose(key === this.key ? "" : key);
    else if (arrow && key && key === this.key) {
      this.shift(this.by.x + arrow[0], this.by.y + arrow[1]);
      window.clearTimeout(this.timer);
      this.timer = window.setTimeout(() => this.put(), REST);
    } else return;
    e.preventDefault();
  }

  /** Whether the lay must not change under the hand. */
  get moving() {
    return this.busy || this.timer !== 0;
  }
}
