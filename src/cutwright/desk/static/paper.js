// @ts-check
/** The pieces on the table: put in place, pointed at, walked through with keys, lit. */
import { all, ask, byId, words } from "./dom.js";
import { morphInside } from "./morph.js";

/** @typedef {{mark: string, svg: string | null}} LayerShown */
/** @typedef {{name: string, x: number, y: number, outline: LayerShown, words: LayerShown | null}} PieceShown */

const SVG = "http://www.w3.org/2000/svg";

/** A group of a class. @param {string} name @returns {SVGGElement} */
function group(name) {
  const made = /** @type {SVGGElement} */ (document.createElementNS(SVG, "g"));
  made.setAttribute("class", name);
  return made;
}

/** A piece without a picture yet: its outlines, and above them what is written on it. @param {string} name */
function blank(name) {
  const made = group("piece");
  made.dataset.piece = name;
  made.append(group("outline"), group("words"));
  return made;
}

/** Draw a layer of a piece anew: where the same things are drawn, only what differs is touched. @param {SVGGElement} g @param {LayerShown | null} shown */
function redraw(g, shown) {
  if (!shown || shown.svg === null || g.dataset.mark === shown.mark) return;
  for (const laid of all(g, ":scope > g.trace, :scope > g.under")) laid.remove();
  const fresh = document.createElementNS(SVG, "g");
  fresh.innerHTML = shown.svg;
  if (!morphInside(g, fresh)) g.replaceChildren(...fresh.childNodes);
  g.dataset.mark = shown.mark;
}

export class Paper {
  /** @param {SVGSVGElement} svg @param {string} api @param {{sentences: (list: number[]) => void, selected: (tag: string) => void}} told */
  constructor(svg, api, told) {
    this.svg = svg;
    this.api = api;
    this.told = told;
    this.tag = "";
    this.pieces = /** @type {SVGGElement} */ (svg.querySelector("#pieces"));
    svg.addEventListener("pointerover", (e) => this.pointed(e.target));
    svg.addEventListener("focusin", (e) => this.pointed(e.target));
    svg.addEventListener("pointerleave", () => this.hover(""));
  }

  /** The layers of all pieces. @returns {SVGGElement[]} */
  layers() {
    return all(this.pieces, "g.outline, g.words");
  }

  /** The marks of what is drawn here. */
  marks() {
    return this.layers().map((g) => g.dataset.mark || "");
  }

  /** Whatever is drawn here may be out of date. */
  doubt() {
    for (const g of this.layers()) g.dataset.mark = "";
  }

  /** @param {string} name @returns {SVGGElement | null} */
  piece(name) {
    return this.pieces.querySelector(`g.piece[data-piece="${CSS.escape(name)}"]`);
  }

  /** Put pieces where they lie; what is sent anew takes the place of the old, words that are not sent yet stay. @param {PieceShown[]} shown */
  place(shown) {
    const names = new Set(shown.map((p) => p.name));
    const held = document.activeElement instanceof SVGElement && this.pieces.contains(document.activeElement) ? document.activeElement.dataset.tag : "";
    for (const old of all(this.pieces, "g.piece")) if (!names.has(/** @type {SVGGElement} */ (old).dataset.piece || "")) old.remove();
    shown.forEach((p, n) => {
      const g = this.piece(p.name) || blank(p.name);
      redraw(/** @type {SVGGElement} */ (g.firstElementChild), p.outline);
      redraw(/** @type {SVGGElement} */ (g.lastElementChild), p.words);
      const where = `translate(${p.x} ${p.y})`;
      if (g.getAttribute("transform") !== where) g.setAttribute("transform", where);
      if (this.pieces.children[n] !== g) this.pieces.insertBefore(g, this.pieces.children[n] || null);
    });
    this.light("on", this.tag ? [this.tag] : []);
    if (held) this.hit(held)?.focus();
  }

  /** The thing to point at for a tag. @param {string} tag @returns {SVGElement | null} */
  hit(tag) {
    return this.pieces.querySelector(`.hit[data-tag="${CSS.escape(tag)}"]`);
  }

  /** @param {EventTarget | null} target */
  pointed(target) {
    const tag = target instanceof SVGElement && target.classList.contains("hit") ? target.dataset.tag || "" : "";
    this.hover(tag);
  }

  /** @param {string} tag */
  hover(tag) {
    this.light("near", tag && tag.includes(":") ? [tag] : []);
  }

  /** Give a look to everything with one of these tags. @param {string} look @param {string[]} tags */
  light(look, tags) {
    for (const old of all(this.svg, `.${look}`)) old.classList.remove(look);
    for (const tag of tags) {
      const base = tag.replace(/(\.\d+)+$/, "");
      for (const each of all(this.pieces, "[data-tag]")) {
        const its = /** @type {SVGElement} */ (each).dataset.tag || "";
        if (its === tag || its.startsWith(`${tag}.`) || (look === "lit" && its.replace(/(\.\d+)+$/, "") === base)) each.classList.add(look);
      }
    }
  }

  /** Select what a tag names and tell about it; an empty tag lets go. @param {string} tag */
  async select(tag) {
    this.tag = tag;
    this.light("on", tag ? [tag] : []);
    this.told.selected(tag);
    const card = byId("facts");
    if (!tag) {
      card.hidden = true;
      this.told.sentences([]);
      this.light("partner", []);
      return;
    }
    try {
      const told = await ask(`${this.api}/facts?tag=${encodeURIComponent(tag)}`);
      if (this.tag !== tag) return;
      card.innerHTML = /** @type {any} */ (told).html;
      const more = document.createElement("button");
      more.type = "button";
      more.className = "word";
      more.textContent = words("whatCan");
      more.dataset.offers = "here";
      const close = document.createElement("button");
      close.type = "button";
      close.className = "word";
      close.textContent = words("close");
      close.dataset.close = "yes";
      card.append(more, close);
      card.hidden = false;
      this.told.sentences(/** @type {any} */ (told).sentences);
      this.light("partner", /** @type {any} */ (told).partners);
    } catch {
      card.hidden = true;
    }
  }

  /** Traces of a sentence on the pieces where they still lie. @param {Record<string, string>} traces */
  traces(traces) {
    for (const old of all(this.pieces, "g.trace")) old.remove();
    for (const [name, svg] of Object.entries(traces)) this.overlay(name, "trace", svg);
  }

  /** @param {string} name @param {string} look @param {string} svg */
  overlay(name, look, svg) {
    const g = this.piece(name);
    if (!g) return;
    const layer = document.createElementNS(SVG, "g");
    layer.setAttribute("class", look);
    layer.innerHTML = svg;
    const first = g.querySelector("path.full, path.i-paper");
    (first || g).after(layer);
  }
}
