// @ts-check
/** The body sheet: each line saved as it is typed, the figure showing where the tape runs. */
import { all, ask, byId, post, words } from "./dom.js";
import { conflict } from "./conflict.js";
import { Queue } from "./queue.js";

/** @typedef {HTMLInputElement | HTMLTextAreaElement} Line */
const sheet = byId("body");
const api = `/api/body/${sheet.dataset.body}`;
const unit = sheet.dataset.unit;
let revision = Number(sheet.dataset.revision);
let group = "";

const queue = new Queue((command, its) => post(`${api}/command`, { base: revision, group: its, unit, ...wish(command) }), {
  done,
  refused,
  state: (now) => {
    byId("saved").textContent = words(now);
    byId("saved").classList.toggle("away", now === "away");
  },
});

/** @param {import("./queue.js").Command} command */
function wish(command) {
  if (command.do === "set") return { fields: command.fields };
  return command.do === "whole" ? { whole: command.content } : { go: command.do };
}

/** @param {any} shown */
function done(shown) {
  revision = shown.revision;
  for (const id of ["undo", "redo"]) /** @type {HTMLButtonElement} */ (byId(id)).disabled = !shown[`can_${id}`];
  for (const row of /** @type {HTMLElement[]} */ (all(sheet, ".tape-row"))) {
    const name = row.dataset.measure || "";
    const its = shown.measures[name];
    write(name, its.value);
    /** @type {HTMLElement} */ (row.querySelector(".estimate")).textContent = its.estimate;
    slip(row, its.doubt, its.suggestion);
  }
  for (const name of ["name", "measured_on", "notes"]) write(name, shown[name]);
}

/** Write a value into a line unless somebody is typing there. @param {string} name @param {string} value */
function write(name, value) {
  const line = /** @type {Line | null} */ (sheet.querySelector(`[data-line="${name}"]`));
  if (line && !queue.pending(name) && line !== document.activeElement) line.value = value;
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
  if (fault.status === 409) {
    queue.held = true;
    conflict(fault.told, api, async (keep) => {
      const told = /** @type {any} */ (fault.told);
      queue.waiting.length = 0;
      queue.held = false;
      revision = told.current;
      if (keep === "mine") queue.push({ do: "whole", content: told.mine });
      else done(await ask(`${api}?unit=${unit}`));
    });
    return;
  }
  const row = /** @type {HTMLElement | null} */ (sheet.querySelector(`.tape-row[data-measure="${waiting.key}"]`));
  const text = (fault.told.problems || []).map((p) => p.text).join(" ") || fault.message;
  if (row) slip(row, text, "");
  else byId("saved").textContent = text;
}

sheet.addEventListener("input", (e) => {
  const line = /** @type {Line} */ (e.target);
  const name = line.dataset.line;
  if (name) queue.push({ do: "set", fields: { [name]: line.value } }, group, name);
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

for (const line of /** @type {Line[]} */ (all(sheet, "[data-line]"))) if (line.value !== line.defaultValue) line.dispatchEvent(new Event("input", { bubbles: true }));
