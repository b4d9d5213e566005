// @ts-check
/** The style sheet: letter, paper and proof in step with the book. */
import { letterActs, paperActs } from "./acts.js";
import { ask, byId, Newest, post, quietly, words } from "./dom.js";
import { compareWith } from "./compare.js";
import { conflict } from "./conflict.js";
import { walkByKeys } from "./keys.js";
import { Letter } from "./letter.js";
import { Offers } from "./offers.js";
import { Paper } from "./paper.js";
import { Queue } from "./queue.js";
import { Tape } from "./tape.js";
import { View } from "./view.js";

const home = byId("letter");
const api = `/api/table/${home.dataset.style}/${home.dataset.body}`;
let revision = Number(home.dataset.revision);
let timer = 0;

const svg = /** @type {SVGSVGElement} */ (/** @type {unknown} */ (byId("paper")));
const view = new View(svg);
const paper = new Paper(svg, api, { sentences: mark, selected: (tag) => offers.selected(tag) });

const queue = new Queue(
  (command, group) => {
    written();
    return post(`${api}/command`, { base: revision, command, group, have: [...paper.marks(), ...letter.marks] });
  },
  { done, refused, state },
);
const letter = new Letter(queue);
const offers = new Offers(api, queue, letter);
const tape = new Tape(paper, view, api);
walkByKeys(paper, view, () => tape.on);
const compare = compareWith(paper, api);

/** @param {number[]} list */
function mark(list) {
  for (const line of letter.list.children) line.classList.toggle("told-of", list.includes(Number(/** @type {HTMLElement} */ (line).dataset.index)));
}

/** @param {any} shown @param {import("./queue.js").Waiting} [waiting] */
function done(shown, waiting) {
  revision = shown.revision;
  unwritten = [shown, waiting];
  const veil = byId("veil");
  veil.hidden = !shown.trouble;
  veil.textContent = shown.trouble;
  svg.classList.toggle("stale", Boolean(shown.trouble));
  if (!shown.trouble || !paper.marks().length) {
    paper.place(shown.pieces);
    view.sized(shown.wide, shown.high);
  }
  byId("title").textContent = shown.name;
  document.title = `${shown.name} · Cutwright`;
  for (const [id, can] of [["undo", shown.can_undo], ["redo", shown.can_redo]]) /** @type {HTMLButtonElement} */ (byId(String(id))).disabled = !can;
  svg.dispatchEvent(new CustomEvent("drawn"));
  requestAnimationFrame(() => setTimeout(written));
  if (queue.idle) later();
}

/** @type {[any, import("./queue.js").Waiting | undefined] | null} */
let unwritten = null;

/** The drawing goes first; the letter is brought up to it a moment later, and before anything more is sent. */
function written() {
  if (!unwritten) return;
  const [shown, waiting] = unwritten;
  unwritten = null;
  letter.write(shown.letter);
  told(waiting, "");
}

/** Tell under the sentence why a word cannot stand. @param {import("./queue.js").Waiting | undefined} waiting @param {string} text */
function told(waiting, text) {
  const at = waiting && typeof waiting.command.step === "number" ? letter.line(waiting.command.step) : null;
  const spot = at?.querySelector(".told");
  if (spot instanceof HTMLElement) {
    spot.textContent = text;
    spot.hidden = !text;
  } else if (text) byId("saved").textContent = text;
}

/** @param {import("./dom.js").Refused} fault @param {import("./queue.js").Waiting} waiting */
function refused(fault, waiting) {
  if (fault.status !== 409) {
    written();
    told(waiting, fault.text);
    return;
  }
  queue.held = true;
  conflict(fault.told, api, async (keep) => {
    const there = /** @type {any} */ (fault.told);
    queue.waiting.length = 0;
    queue.held = false;
    revision = there.current;
    if (keep === "mine") queue.push({ do: "whole", content: there.mine });
    else await refresh();
  });
}

/** @param {string} now */
function state(now) {
  if (now === "saving") clearTimeout(timer);
  byId("saved").textContent = words(now);
  byId("saved").classList.toggle("away", now === "away");
}

/** Take over what was done elsewhere. */
async function refresh() {
  const shown = await ask(api);
  letter.marks = letter.marks.map(() => "");
  for (const g of svg.querySelectorAll("g.piece")) /** @type {SVGGElement} */ (g).dataset.mark = "";
  done(shown);
}

const proofs = new Newest();
const lights = new Newest();

/** What follows a change once the hands rest: proof, facts, what is laid under. */
function later() {
  clearTimeout(timer);
  timer = window.setTimeout(() => quietly(follow()), 250);
}

/** Proof, facts and lights as they stand now. */
async function follow() {
  const proved = /** @type {any} */ (await proofs.of(ask(`${api}/proof`)));
  if (!proved || !queue.idle) return;
  const open = document.getElementById("proof-rows")?.hasAttribute("open");
  byId("proof").innerHTML = proved.html;
  byId("proof").classList.toggle("faulty", proved.faults > 0);
  if (open) document.getElementById("proof-rows")?.setAttribute("open", "");
  if (paper.tag) void paper.select(paper.hit(paper.tag) ? paper.tag : "");
  quietly(compare.again());
  quietly(light(letter.open));
}

/** Light what a sentence did. @param {number} index */
async function light(index) {
  if (index < 0) {
    lights.drop();
    paper.light("lit", []);
    paper.traces({});
    return;
  }
  const did = /** @type {any} */ (await lights.of(ask(`${api}/lit?step=${index}`)));
  if (!did) return;
  paper.light("lit", did.tags);
  paper.traces(did.traces);
}

letterActs({ letter, queue, offers, paper, compare, api, light });

paperActs({ svg, view, paper, tape, offers, queue });
window.addEventListener("focus", async () => {
  if (!queue.idle) return;
  try {
    const now = /** @type {any} */ (await ask(`${api}/revision`));
    if (queue.idle && now.style !== revision) await refresh();
  } catch {
    state("away");
  }
});
view.seeAll();
letter.catchUp();
later();
