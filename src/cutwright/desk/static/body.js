// @ts-check
/** The body sheet: each line saved as it is typed, the figure showing where the tape runs. */
import { all, ask, byId, onOther, post, quietly, words } from "./dom.js";
import { conflicts } from "./conflict.js";
import { Drafts } from "./drafts.js";
import { undoByKey } from "./field_undo.js";
import { Queue } from "./queue.js";

/** @typedef {HTMLInputElement | HTMLTextAreaElement} Line */
const sheet = byId("body");
const api = `/api/body/${sheet.dataset.body}`;
const unit = sheet.dataset.unit;
let revision = Number(sheet.dataset.revision);
let group = "";
/** The line that is being typed in, until it is left. */
let editing = "";

const drafts = new Drafts(`body ${sheet.dataset.body} ${unit}`);
const queue = new Queue(({ command, group: its, base }) => post(`${api}/command`, { base: base || revision, group: its, unit, ...wish(command) }), {
  done,
  refused,
  state: (now) => {
    byId("saved").textContent = words(now);
    byId("saved").classList.toggle("away", now === "away" || now === "unsaved");
  },
}, drafts);
const conflict = conflicts(queue, { api, typing: (key) => key === editing, mark, renew });

async function renew() {
  done(await ask(`${api}?unit=${unit}`));
}

/** @param {import("./queue.js").Command} command */
function wish(command) {
  if (command.do === "set") return { fields: command.fields };
  return command.do === "whole" ? { whole: command.content } : { go: command.do };
}

/** @type {any} what the book holds, as it was told last */
let stands = null;

/** @param {any} shown @param {import("./queue.js").Waiting} [waiting] */
function done(shown, waiting) {
  revision = shown.revision;
  stands = shown;
  for (const id of ["undo", "redo"]) /** @type {HTMLButtonElement} */ (byId(id)).disabled = !shown[`can_${id}`];
  for (const line of lines()) line.defaultValue = shown.measures[line.dataset.line || ""]?.value ?? shown[line.dataset.line || ""];
  mark();
  queue.say();
  if (waiting) other.tell();
}

/** @returns {Line[]} */
function lines() {
  return all(sheet, "[data-line]");
}

/** Every line shows what the book holds, unless somebody types there, or it is not saved: then it is marked, with the reason. */
function mark() {
  for (const line of lines()) {
    const name = line.dataset.line || "";
    const draft = drafts.all.get(name);
    const value = draft ? String(draft.value) : line.defaultValue;
    if (line.value !== value && (draft || name !== editing)) line.value = value;
    line.classList.toggle("unsaved", Boolean(draft?.why));
    line.setAttribute("aria-invalid", String(Boolean(draft?.why)));
    const why = draft?.why ? words("notSaved", { why: draft.why }) : "";
    const row = /** @type {HTMLElement | null} */ (line.closest(".tape-row"));
    const its = stands?.measures[name];
    if (row && its) /** @type {HTMLElement} */ (row.querySelector(".estimate")).textContent = its.estimate;
    if (row && (its || why)) slip(row, why || its.doubt, why ? "" : its.suggestion);
    const told = document.getElementById(`told-${name}`);
    if (!told) continue;
    told.textContent = why;
    told.hidden = !why;
  }
}

/** @param {HTMLElement} row @param {string} text @param {string} suggestion */
function slip(row, text, suggestion) {
  const spot = /** @type {HTMLElement} */ (row.querySelector(".slip"));
  const button = /** @type {HTMLButtonElement} */ (spot.querySelector("button"));
  const told = /** @type {HTMLElement} */ (spot.querySelector("span"));
  if (told.textContent !== text) told.textContent = text;
  const fresh = spot.hidden && text;
  spot.hidden = !text;
  if (fresh && row.contains(document.activeElement)) spot.scrollIntoView({ block: "nearest" });
  row.classList.toggle("doubted", Boolean(text));
  button.hidden = !suggestion;
  button.dataset.take = suggestion;
  button.textContent = words("take", { value: suggestion });
}

/** @param {import("./dom.js").Refused} fault @param {import("./queue.js").Waiting} waiting */
function refused(fault, waiting) {
  if (fault.status === 409) return void conflict.met(fault, waiting);
  if (waiting.key && !queue.waiting.some((w) => w.key === waiting.key)) drafts.refuse(waiting.key, fault.reason);
  mark();
}

/** Send a line as it was typed; it is a draft until the book has it. @param {string} name @param {string} value @param {string} its @param {number} [base] */
function send(name, value, its, base = 0) {
  drafts.keep(name, { value, group: its, step: -1, base: base || revision, why: "" });
  queue.push({ do: "set", fields: { [name]: value } }, its, name, base);
  mark();
}

sheet.addEventListener("input", (e) => {
  const line = /** @type {Line} */ (e.target);
  if (!line.dataset.line) return;
  if (line === document.activeElement) editing = line.dataset.line;
  send(line.dataset.line, line.value, group);
});

sheet.addEventListener("focusout", () => {
  editing = "";
  mark();
  conflict.left();
});

sheet.addEventListener("focusin", (e) => {
  if (!(e.target instanceof HTMLElement)) return;
  group = crypto.getRandomValues(new Uint32Array(2)).join("-");
  const row = /** @type {HTMLElement | null} */ (e.target.closest(".tape-row"));
  for (const way of all(sheet, ".way")) way.classList.toggle("now", /** @type {SVGElement} */ (way).dataset.measure === row?.dataset.measure);
  if (!row) return;
  byId("how-name").textContent = row.dataset.name || "";
  byId("how-way").textContent = row.dataset.way || "";
  byId("how-how").textContent = row.dataset.how || "";
});

sheet.addEventListener("click", (e) => {
  const button = e.target instanceof Element ? e.target.closest("button[data-take]") : null;
  const row = button?.closest(".tape-row");
  const line = /** @type {Line | null | undefined} */ (row?.querySelector("input"));
  if (!(button instanceof HTMLElement) || !line) return;
  line.value = button.dataset.take || "";
  line.dispatchEvent(new Event("input", { bubbles: true }));
  line.focus();
});

for (const id of ["undo", "redo"]) byId(id).addEventListener("click", () => queue.push({ do: id }));
undoByKey((which) => queue.push({ do: which }));
const other = onOther(`body ${sheet.dataset.body}`, () => quietly(behind()));
window.addEventListener("focus", () => quietly(behind()));

/** Take over what was done elsewhere. */
async function behind() {
  if (!queue.idle) return;
  const shown = /** @type {any} */ (await ask(`${api}?unit=${unit}`));
  if (queue.idle && shown.revision !== revision) done(shown);
}

for (const [name, draft] of [...drafts.all]) if (!draft.why) send(name, String(draft.value), draft.group, draft.base);
for (const line of lines()) if (line.value !== line.defaultValue && !drafts.all.has(line.dataset.line || "")) line.dispatchEvent(new Event("input", { bubbles: true }));
if (document.activeElement !== sheet.querySelector(`[data-line="${editing}"]`)) editing = "";
mark();
queue.say();
