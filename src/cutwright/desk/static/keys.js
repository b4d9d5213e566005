// @ts-check
/** Walking the paper by keyboard: Enter goes in, arrows walk, Escape comes out, plus and minus zoom. */
import { all } from "./dom.js";

/** @param {import("./paper.js").Paper} paper @param {import("./view.js").View} view @param {() => boolean} taping */
export function walkByKeys(paper, view, taping) {
  const svg = paper.svg;

  /** @returns {SVGElement[]} */
  const hits = () => all(paper.pieces, ".hit");

  /** @param {SVGElement} to */
  function go(to) {
    for (const each of hits()) each.setAttribute("tabindex", "-1");
    to.setAttribute("tabindex", "0");
    to.focus();
  }

  svg.addEventListener("keydown", (e) => {
    if (taping()) return;
    const inside = e.target instanceof SVGElement && e.target.classList.contains("hit") ? e.target : null;
    const every = hits();
    const zooms = { "+": 1.25, "=": 1.25, "-": 0.8, _: 0.8 };
    if (e.key in zooms) view.zoom(zooms[/** @type {keyof typeof zooms} */ (e.key)]);
    else if (e.key === "0") view.seeAll();
    else if (e.key === "Escape") {
      void paper.select("");
      svg.focus();
    } else if (e.key === "Enter" || e.key === " ") {
      if (inside) void paper.select(inside.dataset.tag || "");
      else if (every.length) go(paper.hit(paper.tag) || every[0]);
    } else if (e.key.startsWith("Arrow")) {
      const back = e.key === "ArrowLeft" || e.key === "ArrowUp";
      const across = e.key === "ArrowLeft" || e.key === "ArrowRight";
      if (inside) {
        const at = every.indexOf(inside);
        if (across) go(every[(at + (back ? every.length - 1 : 1)) % every.length]);
        else go(nextPiece(every, at, back));
      } else view.along(across ? (back ? -0.08 : 0.08) : 0, across ? 0 : back ? -0.08 : 0.08);
    } else return;
    e.preventDefault();
  });
}

/** The first thing on the next or former piece. @param {SVGElement[]} every @param {number} at @param {boolean} back @returns {SVGElement} */
function nextPiece(every, at, back) {
  const bodies = every.filter((h) => h.classList.contains("body"));
  const mine = every.slice(0, at + 1).filter((h) => h.classList.contains("body")).at(-1);
  const here = mine ? bodies.indexOf(mine) : 0;
  return bodies[(here + (back ? bodies.length - 1 : 1)) % bodies.length] || every[at];
}
