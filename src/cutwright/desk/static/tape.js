// @ts-check
/** The tape: two places pointed at, the distance across and along told. With keys: arrows carry the
 * tape's end, Enter lays it. */
import { byId, Newest, post, quietly, words, written } from "./dom.js";

const SVG = "http://www.w3.org/2000/svg";

export class Tape {
  /** @param {import("./paper.js").Paper} paper @param {import("./view.js").View} view @param {string} api */
  constructor(paper, view, api) {
    this.paper = paper;
    this.view = view;
    this.api = api;
    this.on = false;
    this.newest = new Newest();
    /** @type {{piece: string, x: number, y: number} | null} */
    this.first = null;
    this.at = { x: 0, y: 0 };
    this.button = byId("measure");
    this.layer = /** @type {SVGGElement} */ (paper.svg.querySelector("#tape"));
    this.button.addEventListener("click", () => this.toggle());
    paper.svg.addEventListener("click", (e) => {
      if (!this.on || view.dragged) return;
      this.at = view.point(e.clientX, e.clientY);
      quietly(this.lay());
    });
    paper.svg.addEventListener("keydown", (e) => this.key(e));
    paper.svg.addEventListener("drawn", () => {
      this.newest.drop();
      this.layer.replaceChildren();
    });
  }

  toggle() {
    this.on = !this.on;
    this.newest.drop();
    this.first = null;
    this.layer.replaceChildren();
    this.button.setAttribute("aria-pressed", String(this.on));
    this.paper.svg.classList.toggle("taping", this.on);
    this.say(words(this.on ? "measureFirst" : "measureOff"));
    if (this.on) {
      this.at = { x: this.view.box[0] + this.view.box[2] / 2, y: this.view.box[1] + this.view.box[3] / 2 };
      this.paper.svg.focus({ preventScroll: true });
    }
  }

  /** @param {KeyboardEvent} e */
  key(e) {
    if (!this.on) return;
    const far = this.view.box[2] / (e.shiftKey ? 400 : 60);
    const go = { ArrowLeft: [-far, 0], ArrowRight: [far, 0], ArrowUp: [0, -far], ArrowDown: [0, far] }[e.key];
    if (go) {
      this.at = { x: this.at.x + go[0], y: this.at.y + go[1] };
      this.draw();
    } else if (e.key === "Enter" || e.key === " ") quietly(this.lay());
    else if (e.key === "Escape") this.toggle();
    else return;
    e.preventDefault();
    e.stopPropagation();
  }

  /** The piece under a place, and the place in the piece's own cm. */
  under() {
    for (const g of [...this.paper.pieces.children].reverse()) {
      const body = /** @type {SVGPathElement | null} */ (g.querySelector(".hit.body"));
      const spot = this.spot(/** @type {SVGGElement} */ (g));
      const own = new DOMPoint(this.at.x - spot.x, this.at.y - spot.y);
      const near = body && (body.isPointInFill(own) || this.close(/** @type {SVGGElement} */ (g), own));
      if (near) return { piece: /** @type {SVGGElement} */ (g).dataset.piece || "", x: own.x, y: own.y };
    }
    return null;
  }

  /** @param {SVGGElement} g @param {DOMPoint} own */
  close(g, own) {
    const box = g.getBBox();
    return own.x > box.x - 1 && own.x < box.x + box.width + 1 && own.y > box.y - 1 && own.y < box.y + box.height + 1;
  }

  /** @param {SVGGElement} g */
  spot(g) {
    const [x, y] = (g.getAttribute("transform") || "").match(/-?[\d.]+/g) || ["0", "0"];
    return { x: Number(x), y: Number(y) };
  }

  async lay() {
    const here = this.under();
    if (!here) return;
    this.newest.drop();
    if (!this.first || this.first.piece !== here.piece) {
      this.first = here;
      this.draw();
      this.say(words("measureSecond"));
      return;
    }
    const from = this.first;
    this.first = null;
    const span = /** @type {any} */ (await this.newest.of(post(`${this.api}/measure`, { piece: here.piece, start: [from.x, from.y], end: [here.x, here.y] })));
    if (span) this.result(here.piece, span);
  }

  /** @param {string} piece @param {{across: number, along: number | null, edge: string, path: string, start: number[], end: number[]}} span */
  result(piece, span) {
    const g = this.paper.piece(piece);
    if (!g) return;
    this.layer.replaceChildren();
    this.layer.setAttribute("transform", g.getAttribute("transform") || "");
    this.stroke(`M${span.start}L${span.end}`, "across");
    if (span.path) this.stroke(span.path, "along");
    for (const p of [span.start, span.end]) this.dot(p[0], p[1]);
    const lines = [words("across", { value: written(span.across, 1) })];
    if (span.along !== null) lines.unshift(words("along", { value: written(span.along, 1), edge: span.edge }));
    this.say(lines.join(" · "));
  }

  draw() {
    this.layer.replaceChildren();
    this.layer.removeAttribute("transform");
    this.dot(this.at.x, this.at.y);
    if (this.first) {
      const g = this.paper.piece(this.first.piece);
      const spot = g ? this.spot(g) : { x: 0, y: 0 };
      this.dot(this.first.x + spot.x, this.first.y + spot.y);
    }
  }

  /** @param {string} d @param {string} look */
  stroke(d, look) {
    const path = document.createElementNS(SVG, "path");
    path.setAttribute("d", d);
    path.setAttribute("class", look);
    this.layer.append(path);
  }

  /** @param {number} x @param {number} y */
  dot(x, y) {
    const spot = document.createElementNS(SVG, "circle");
    for (const [name, value] of [["cx", x], ["cy", y], ["r", 0.012 * this.view.box[2] * 0.5]]) spot.setAttribute(String(name), String(value));
    this.layer.append(spot);
  }

  /** @param {string} text */
  say(text) {
    const card = byId("facts");
    card.hidden = false;
    card.replaceChildren(Object.assign(document.createElement("p"), { textContent: text, className: "tape-says" }));
    if (!this.on) card.hidden = true;
  }
}
