// @ts-check
/** What is done with a sentence: lit, shown, compared, moved, taken out, written below. */
import { byId, quietly } from "./dom.js";
import { play } from "./play.js";

/**
 * @param {{letter: import("./letter.js").Letter, queue: import("./queue.js").Queue, offers: import("./offers.js").Offers,
 *   paper: import("./paper.js").Paper, compare: {choose: (what: string) => void}, api: string, light: (index: number) => Promise<void>}} desk
 */
export function letterActs({ letter, queue, offers, paper, compare, api, light }) {
  letter.list.addEventListener("opened", (e) => quietly(light(/** @type {CustomEvent} */ (e).detail)));
  for (const [name, shows] of /** @type {[string, boolean][]} */ ([["pointerover", true], ["pointerleave", false]]))
    letter.list.addEventListener(name, (e) => {
      const line = e.target instanceof Element ? e.target.closest("li.line") : null;
      quietly(light(shows && line ? Number(/** @type {HTMLElement} */ (line).dataset.index) : letter.open));
    });

  letter.list.addEventListener("click", (e) => {
    const button = e.target instanceof Element ? e.target.closest("button[data-act]") : null;
    const line = button?.closest("li.line");
    if (!(button instanceof HTMLElement) || !(line instanceof HTMLElement)) return;
    const index = Number(line.dataset.index);
    const act = button.dataset.act;
    if (act === "show") quietly(play(api, index, button));
    if (act === "before") compare.choose(`step:${index}`);
    if (act === "up" || act === "down") {
      const to = index + (act === "up" ? -1 : 1);
      letter.open = to;
      letter.next = { index: to, act };
      queue.push({ do: "move", step: index, to });
    }
    if (act === "out") {
      letter.open = -1;
      letter.next = { index: Math.min(index, letter.list.children.length - 2), act: "" };
      queue.push({ do: "take out", step: index });
    }
    if (act === "after") quietly(offers.show(index + 1, paper.tag));
  });
}

/**
 * What is done with the paper and its tools: selected, come near to, undone.
 * @param {{svg: SVGSVGElement, view: import("./view.js").View, paper: import("./paper.js").Paper, tape: import("./tape.js").Tape,
 *   offers: import("./offers.js").Offers, queue: import("./queue.js").Queue}} desk
 */
export function paperActs({ svg, view, paper, tape, offers, queue }) {
  svg.addEventListener("click", (e) => {
    if (view.dragged || tape.on) return;
    const hit = e.target instanceof SVGElement && e.target.classList.contains("hit") ? e.target.dataset.tag || "" : "";
    void paper.select(hit === paper.tag ? "" : hit);
  });
  byId("facts").addEventListener("click", (e) => {
    if (!(e.target instanceof HTMLElement)) return;
    if (e.target.dataset.close) {
      void paper.select("");
      svg.focus({ preventScroll: true });
    }
    if (e.target.dataset.offers) quietly(offers.show(-1, paper.tag));
  });
  byId("whole").addEventListener("click", () => view.seeAll());
  byId("nearer").addEventListener("click", () => view.zoom(1.3));
  byId("farther").addEventListener("click", () => view.zoom(1 / 1.3));
  for (const id of ["undo", "redo"]) byId(id).addEventListener("click", () => queue.push({ do: id }));
}
