// @ts-check
/** The cloth sheet: a cloth chosen, the lay watched as it gets shorter, pieces pinned. */
import { all, ask, byId, sign, words } from "./dom.js";
import { comparing } from "./lay_compare.js";
import { Drafts } from "./drafts.js";
import { Hands, keyOf } from "./lay_hands.js";
import { Watch } from "./watching.js";

/** @typedef {import("./lay_hands.js").Placement} Placement */

const sheet = byId("sheet");
const api = `/api/table/${sheet.dataset.style}/${sheet.dataset.body}`;
const cloth = /** @type {HTMLSelectElement} */ (byId("cloth"));
const width = /** @type {HTMLInputElement} */ (byId("width"));
const fold = /** @type {HTMLSelectElement} */ (byId("fold"));
const nap = /** @type {HTMLSelectElement} */ (byId("nap"));
const files = /** @type {HTMLFormElement} */ (byId("files"));
/** @type {Map<string, Placement>} */
let pins = new Map(/** @type {Placement[]} */ (JSON.parse(sheet.dataset.pins || "[]")).map((p) => [keyOf(p), p]));
/** @type {Map<string, Placement>} pins of the last lay that could be begun */
let good = new Map();

/** The width of the last lay that could be begun. */
let goodWidth = width.value;

const wish = () => ({ cloth: cloth.value, width: width.value, fold: fold.value, nap: nap.value });

/** @param {string} text */
function trouble(text) {
  byId("trouble").textContent = text;
  byId("trouble").hidden = !text;
}

const drafts = new Drafts(`cloth ${api}`);

/** Mark a width that is not kept, with the reason; it outlives a reload. @param {string} why */
function refusedWidth(why) {
  if (why) drafts.keep("width", { value: width.value, base: 0, step: -1, group: cloth.value, why });
  else drafts.drop("width");
  width.classList.toggle("unsaved", Boolean(why));
  width.setAttribute("aria-invalid", String(Boolean(why)));
  byId("width-told").textContent = why ? words("notSaved", { why }) : "";
  byId("width-told").hidden = !why;
}

/** @type {any} */
let waiting = null;

/** @param {any} told */
function shown(told) {
  byId("said").textContent = told.said;
  const over = told.state !== "waiting" && told.state !== "running";
  byId("stop").hidden = over;
  byId("again").hidden = !over || !told.number;
  if (told.trouble) trouble(told.trouble);
  if (told.svg === null) return;
  if (hands.moving) waiting = told;
  else draw(told);
}

/** @param {any} told */
function draw(told) {
  waiting = null;
  good = new Map(pins);
  goodWidth = width.value;
  byId("lay").classList.remove("old");
  hands.show(told.svg, told.pieces);
  byId("facts").innerHTML = told.facts;
  files.action = `/table/${sheet.dataset.style}/${sheet.dataset.body}/lay/${told.job}/file`;
  for (const button of /** @type {HTMLButtonElement[]} */ (all(files, "button"))) button.disabled = false;
}

const watch = new Watch(`${api}/lay`, {
  told: shown,
  refused(text, fault) {
    if (fault && width.value !== goodWidth) refusedWidth(fault.reason);
    else trouble(text);
    byId("said").textContent = "";
    byId("stop").hidden = true;
    pins = new Map(good);
    hands.back();
  },
  gone() {
    byId("said").textContent = words("gone");
    lay();
  },
});

const hands = new Hands(byId("lay"), {
  chosen(piece, name) {
    const pinned = piece !== null && pins.has(keyOf(piece));
    byId("pin").hidden = !piece || pinned;
    byId("let-go").hidden = !pinned;
    byId("let-all-go").hidden = pins.size < 2;
    const count = pins.size ? ` ${words("pinnedCount", { count: pins.size })}` : "";
    byId("hand").textContent = (piece ? words(piece.on_fold ? "heldOnFold" : "held", { piece: name }) : words("none")) + count;
    if (waiting && !hands.moving) draw(waiting);
  },
  put(piece) {
    waiting = null;
    pins.set(keyOf(piece), piece);
    lay();
  },
});

/** Lay the pieces as everything stands now; for further looking, with more places. @param {number} [places] */
function lay(places) {
  trouble("");
  refusedWidth("");
  byId("stop").hidden = false;
  byId("again").hidden = true;
  byId("lay").classList.add("old");
  void watch.begin({ ...wish(), pins: [...pins.values()], ...(places ? { places } : {}) });
}

/** Another cloth: pins of the old one mean nothing on it. */
function another() {
  const had = pins.size;
  pins = new Map();
  good = new Map();
  hands.choose("");
  lay();
  if (had) byId("hand").textContent = words("letGoAll");
}

cloth.addEventListener("change", () => {
  const option = cloth.selectedOptions[0];
  width.value = option.dataset.width || "";
  fold.value = option.dataset.fold || "";
  nap.value = option.dataset.nap || "";
  byId("card").textContent = option.dataset.card || "";
  const here = new URL(window.location.href);
  here.searchParams.set("cloth", cloth.value);
  window.history.replaceState(window.history.state, "", here);
  another();
});
for (const field of [width, fold, nap]) field.addEventListener("change", another);
byId("cloth-form").addEventListener("submit", (e) => e.preventDefault());
byId("stop").addEventListener("click", () => void watch.stop());
byId("again").addEventListener("click", () => lay(16_000_000));
byId("pin").addEventListener("click", () => {
  if (hands.piece) hands.told.put(hands.piece);
});
byId("let-go").addEventListener("click", () => {
  pins.delete(hands.key);
  lay();
});
byId("let-all-go").addEventListener("click", () => {
  pins.clear();
  lay();
});

comparing(api, wish, (wide, how) => {
  width.value = String(Math.round(Number(wide) * 100) / 100).replace(".", sign);
  fold.value = how;
  another();
  byId("cloth-form").scrollIntoView({ block: "start" });
});

document.addEventListener("visibilitychange", async () => {
  if (document.visibilityState !== "visible") return;
  const told = /** @type {any} */ (await ask(`${api}/revision`).catch(() => null));
  const now = told ? `${told.style} ${told.body}` : sheet.dataset.revisions;
  if (now === sheet.dataset.revisions) return;
  sheet.dataset.revisions = now;
  another();
  byId("hand").textContent = words("anew");
});
const draft = drafts.all.get("width");
if (draft && draft.group === cloth.value) width.value = String(draft.value);
lay();
