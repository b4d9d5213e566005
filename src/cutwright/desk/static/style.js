// @ts-check
/** The style sheet: letter, paper and proof in step with the book. */
import { letterActs, paperActs } from "./acts.js";
import { ask, byId, Newest, onOther, postInTurn, quietly, words } from "./dom.js";
import { compareWith } from "./compare.js";
import { conflicts } from "./conflict.js";
import { Drafts } from "./drafts.js";
import { undoByKey } from "./field_undo.js";
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
const paper = new Paper(svg, api, { sentences: speaksOf, selected: (tag) => offers.selected(tag) });

const drafts = new Drafts(`style ${home.dataset.style}`);
const queue = new Queue(
  ({ command, group, base }) => {
    written();
    pictured = false;
    return postInTurn(`${api}/command`, { base: base || revision, command, group, have: [...paper.marks(), ...letter.marks] }, drawn);
  },
  { done, refused, state },
  drafts,
);
const letter = new Letter(queue, () => revision);
const name = /** @type {HTMLInputElement} */ (byId("style-name"));
const conflict = conflicts(queue, { api, typing: (key) => key === letter.editing || (key === "name" && document.activeElement === name), mark, renew: refresh });
letter.left = conflict.left;
const offers = new Offers(api, queue, letter);
const tape = new Tape(paper, view, api);
walkByKeys(paper, view, () => tape.on);
const compare = compareWith(paper, api);

/** @param {number[]} list */
function speaksOf(list) {
  for (const line of letter.list.children) line.classList.toggle("told-of", list.includes(Number(/** @type {HTMLElement} */ (line).dataset.index)));
}

/** Whether the picture of what is on its way is shown: it is not yet saved then. */
let pictured = false;

/** The picture comes first. @param {any} picture */
function drawn(picture) {
  pictured = true;
  show(picture);
  svg.dispatchEvent(new CustomEvent("drawn"));
  queue.say();
}

/** @param {{pieces: import("./paper.js").PieceShown[], wide: number, high: number, trouble: string}} shown */
function show(shown) {
  const veil = byId("veil");
  if (veil.textContent !== shown.trouble) veil.textContent = shown.trouble;
  veil.hidden = !shown.trouble;
  svg.classList.toggle("stale", Boolean(shown.trouble));
  if (!shown.trouble || !paper.marks().length) {
    paper.place(shown.pieces);
    view.sized(shown.wide, shown.high);
  }
}

/** It is in the book. @param {any} shown @param {import("./queue.js").Waiting} [waiting] */
function done(shown, waiting) {
  const was = revision;
  revision = shown.revision;
  if (waiting?.base) shown.went = null; // counted from another revision than the page shows
  unwritten = [shown, waiting, was];
  if (byId("title").textContent !== shown.name) {
    byId("title").textContent = name.defaultValue = shown.name;
    document.title = `${shown.name} · Cutwright`;
  }
  for (const [id, can] of [["undo", shown.can_undo], ["redo", shown.can_redo]]) /** @type {HTMLButtonElement} */ (byId(String(id))).disabled = !can;
  if (shown.went || !pictured) written(); // before anything more is typed, as sentences have moved
  else requestAnimationFrame(() => setTimeout(written));
  if (waiting) other.tell();
  if (queue.idle) later();
}

/** @type {[any, import("./queue.js").Waiting | undefined, number] | null} */
let unwritten = null;

/** The outlines go first; words and letter are brought up to them a moment later, and before anything more is sent. */
function written() {
  if (!unwritten) return;
  const [shown, waiting, was] = unwritten;
  unwritten = null;
  show(shown);
  svg.dispatchEvent(new CustomEvent("drawn"));
  if (shown.went) letter.went(shown.went, was);
  letter.write(shown.letter);
  if (waiting?.key && !shown.went) letter.settle(waiting.key);
  if (waiting?.command.do === "set") letter.again(waiting);
  mark();
  queue.say();
}

/** Mark what is not saved, with the reason beside it. */
function mark() {
  letter.mark();
  const draft = drafts.all.get("name");
  if (draft && name.value !== draft.value) name.value = String(draft.value);
  if (!draft && document.activeElement !== name) name.value = name.defaultValue;
  name.classList.toggle("unsaved", Boolean(draft?.why));
  const told = byId("name-told");
  told.hidden = !draft?.why;
  told.textContent = draft?.why ? words("notSaved", { why: draft.why }) : "";
}

/** @param {import("./dom.js").Refused} fault @param {import("./queue.js").Waiting} waiting */
function refused(fault, waiting) {
  written();
  if (fault.status === 409) return void conflict.met(fault, waiting);
  if (!waiting.key) trouble = fault.text;
  else if (!queue.waiting.some((w) => w.key === waiting.key)) drafts.refuse(waiting.key, fault.reason);
  mark();
}

let trouble = "";

/** @param {string} now */
function state(now) {
  if (now === "saving") clearTimeout(timer);
  if (unwritten && now !== "away") now = "saving"; // not said before the page shows it
  if (now === "saving" && pictured && !queue.waiting.length) now = "drawn";
  const told = trouble || words(now);
  if (byId("saved").textContent !== told) byId("saved").textContent = told;
  byId("saved").classList.toggle("away", now === "away" || now === "unsaved");
  if (now !== "saving") trouble = "";
}

/** @param {string} value @param {number} [base] */
function sendName(value, base = 0) {
  drafts.keep("name", { value, group: "name", step: -1, base: base || revision, why: "" });
  queue.push({ do: "name", name: value }, "name", "name", base);
  mark();
}
name.addEventListener("input", () => sendName(name.value));
name.addEventListener("focusout", () => {
  if (!drafts.all.has("name")) name.value = name.defaultValue;
  conflict.left();
});

/** Take over what was done elsewhere. */
async function refresh() {
  const shown = /** @type {any} */ (await ask(`${api}?since=${revision}`));
  letter.marks = letter.marks.map(() => "");
  paper.doubt();
  pictured = false;
  done(shown);
}

/** So long the hands rest before it is proved, in ms: what is typed meanwhile goes first. */
const REST = 15;
const proofs = new Newest();
const lights = new Newest();

/** What follows a change once the hands rest: proof, facts, what is laid under. */
function later() {
  clearTimeout(timer);
  timer = window.setTimeout(() => quietly(follow()), REST);
}

/** Proof, facts and lights as they stand now. */
async function follow() {
  const proved = /** @type {any} */ (await proofs.of(ask(`${api}/proof`)));
  if (!proved || !queue.idle) return;
  written();
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
const other = onOther(`style ${home.dataset.style}`, look);
window.addEventListener("focus", () => void look());

/** Take over what was done elsewhere, if anything was. */
async function look() {
  if (!queue.idle) return;
  try {
    const now = /** @type {any} */ (await ask(`${api}/revision`));
    if (queue.idle && now.style !== revision) await refresh();
  } catch {
    state("away");
  }
}
undoByKey((which) => queue.push({ do: which }), () => letter.swapping);
view.seeAll();
quietly(begin());

/** Take up what was not saved when this page was left last. */
async function begin() {
  for (const base of new Set([...drafts.all.values()].map((draft) => draft.base)))
    if (base !== revision) {
      const { went } = /** @type {any} */ (await ask(`${api}?since=${base}`));
      if (went) letter.renamed(went, base);
    }
  const draft = drafts.all.get("name");
  if (draft && !draft.why) sendName(String(draft.value), draft.base);
  letter.catchUp();
  mark();
  queue.say();
  later();
}
