// @ts-check
/** Looking at the paper: nearer, farther, along. Pure sums first, then the hands. */

/** Pieces that grew by less than this still have room in the margin; the view stays as it is. */
const GROWN = 1.03;

/** @typedef {[number, number, number, number]} Box left, top, width, height in cm */

/** The box after coming nearer by a factor about a point of the paper. @param {Box} box @param {number} factor @param {number} x @param {number} y @returns {Box} */
export function zoomBox(box, factor, x, y) {
  const wide = box[2] / factor;
  const high = box[3] / factor;
  return [x - (x - box[0]) / factor, y - (y - box[1]) / factor, wide, high];
}

/** The box that shows the whole with a margin in the shape of a window. @param {number} wide @param {number} high @param {number} shape @returns {Box} */
export function wholeBox(wide, high, shape) {
  const margin = Math.max(wide, high) * 0.045 + 2;
  let w = wide + 2 * margin;
  let h = high + 2 * margin;
  if (w / h < shape) w = h * shape;
  else h = w / shape;
  return [wide / 2 - w / 2, high / 2 - h / 2, w, h];
}

export class View {
  /** @param {SVGSVGElement} svg */
  constructor(svg) {
    this.svg = svg;
    /** @type {Box} */
    this.box = [0, 0, 100, 100];
    this.whole = true;
    this.wide = Number(svg.dataset.wide) || 1;
    this.high = Number(svg.dataset.high) || 1;
    /** @type {Map<number, {x: number, y: number}>} */
    this.fingers = new Map();
    this.dragged = false;
    this.hands();
    new ResizeObserver(() => this.resized()).observe(svg);
  }

  hands() {
    this.svg.addEventListener("wheel", (e) => {
      e.preventDefault();
      const at = this.point(e.clientX, e.clientY);
      this.zoom(Math.exp(-e.deltaY * (e.ctrlKey ? 0.012 : 0.0016)), at.x, at.y);
    }, { passive: false });
    this.svg.addEventListener("pointerdown", (e) => {
      this.fingers.set(e.pointerId, { x: e.clientX, y: e.clientY });
      if (this.fingers.size === 1) this.dragged = false;
    });
    window.addEventListener("pointermove", (e) => this.moved(e));
    for (const name of ["pointerup", "pointercancel"])
      window.addEventListener(name, (e) => this.fingers.delete(/** @type {PointerEvent} */ (e).pointerId));
  }

  /** @param {PointerEvent} e */
  moved(e) {
    const before = this.fingers.get(e.pointerId);
    if (!before) return;
    const now = { x: e.clientX, y: e.clientY };
    if (!this.dragged && Math.hypot(now.x - before.x, now.y - before.y) < 6 && this.fingers.size < 2) return;
    this.dragged = true;
    const cm = this.box[2] / this.svg.clientWidth;
    const others = [...this.fingers.entries()].filter(([id]) => id !== e.pointerId).map(([, p]) => p);
    if (others.length) {
      const other = others[0];
      const factor = Math.hypot(now.x - other.x, now.y - other.y) / Math.max(1, Math.hypot(before.x - other.x, before.y - other.y));
      const at = this.point(other.x, other.y);
      this.zoom(factor, at.x, at.y);
    } else {
      this.show([this.box[0] - (now.x - before.x) * cm, this.box[1] - (now.y - before.y) * cm, this.box[2], this.box[3]]);
    }
    this.whole = false;
    this.fingers.set(e.pointerId, now);
  }

  /** @param {number} factor @param {number} [x] @param {number} [y] */
  zoom(factor, x = this.box[0] + this.box[2] / 2, y = this.box[1] + this.box[3] / 2) {
    const wide = this.box[2] / factor;
    if (wide < 4 || wide > 4000) return;
    this.whole = false;
    this.show(zoomBox(this.box, factor, x, y));
  }

  /** @param {number} x @param {number} y share of the window to go along */
  along(x, y) {
    this.whole = false;
    this.show([this.box[0] + x * this.box[2], this.box[1] + y * this.box[3], this.box[2], this.box[3]]);
  }

  seeAll() {
    this.whole = true;
    const shape = this.svg.clientWidth / Math.max(1, this.svg.clientHeight);
    this.show(wholeBox(this.wide, this.high, shape || 1.4));
  }

  /** New size of all the pieces together. @param {number} wide @param {number} high */
  sized(wide, high) {
    const grown = wide > this.wide * GROWN || high > this.high * GROWN || wide < this.wide * 0.8 || high < this.high * 0.8;
    if (!grown) return;
    this.wide = wide;
    this.high = high;
    if (this.whole) this.seeAll();
  }

  resized() {
    if (!this.svg.clientWidth) return;
    if (this.whole) this.seeAll();
    else this.show([this.box[0], this.box[1], this.box[2], (this.box[2] * this.svg.clientHeight) / this.svg.clientWidth]);
  }

  /** @param {Box} box */
  show(box) {
    this.box = box;
    const px = box[2] / Math.max(1, this.svg.clientWidth);
    this.svg.setAttribute("viewBox", box.map((n) => n.toFixed(3)).join(" "));
    this.svg.style.setProperty("--px", px.toFixed(5));
    this.svg.classList.toggle("far", px > 0.062);
    this.svg.classList.toggle("farther", px > 0.26);
  }

  /** A place of the window on the paper. @param {number} x @param {number} y */
  point(x, y) {
    const frame = this.svg.getBoundingClientRect();
    return { x: this.box[0] + ((x - frame.left) / frame.width) * this.box[2], y: this.box[1] + ((y - frame.top) / frame.height) * this.box[3] };
  }
}
