// @ts-check
/** The lesson: what was written is sent to be looked through, and each blank is told how it stands. */
import { all, byId, post, Refused, words } from "./dom.js";
import { api, revisions, watch } from "./leaf.js";

/** @typedef {{key: string, state: "right" | "wrong" | "empty" | "own" | "unread", text: string, hint: string}} Mark */

const form = /** @type {HTMLFormElement | null} */ (document.getElementById("lesson"));

/** @returns {HTMLInputElement[]} */
function blanks() {
  return form ? all(form, "input[data-key]") : [];
}

/** A word beside a blank; pressing it tells the hint. @param {HTMLInputElement} blank @param {Mark} mark */
function tell(blank, mark) {
  forget(blank);
  const good = { right: "yes", own: "own", wrong: "no", unread: "no", empty: "" }[mark.state];
  if (!mark.text) return;
  blank.dataset.right = good;
  blank.setAttribute("aria-invalid", String(good === "no"));
  const said = document.createElement(mark.hint ? "button" : "span");
  said.className = `mark ${mark.state}`;
  said.id = `mark-${mark.key}`;
  said.textContent = mark.text;
  blank.setAttribute("aria-describedby", said.id);
  blank.after(said);
  if (!mark.hint) return;
  said.setAttribute("type", "button");
  said.setAttribute("aria-expanded", "false");
  said.addEventListener("click", () => {
    const hint = document.createElement("span");
    hint.className = "hint";
    hint.textContent = mark.hint;
    said.setAttribute("aria-expanded", "true");
    if (!said.nextElementSibling?.classList.contains("hint")) said.after(hint);
  });
}

/** @param {HTMLInputElement} blank */
function forget(blank) {
  delete blank.dataset.right;
  blank.removeAttribute("aria-invalid");
  blank.removeAttribute("aria-describedby");
  while (blank.nextElementSibling?.matches(".mark, .hint")) blank.nextElementSibling.remove();
}

async function check() {
  const given = Object.fromEntries(blanks().map((b) => [b.dataset.key || "", b.value.slice(0, 60)]));
  const whose = /** @type {HTMLInputElement | null} */ (form?.querySelector("[name=whose]:checked"));
  const [style_revision, body_revision] = revisions();
  const wish = { answers: given, own: whose?.value === "own", style_revision, body_revision };
  const result = byId("result");
  try {
    const told = /** @type {{marks: Mark[], words: string, changed: boolean}} */ (await post(`${api}/lesson`, wish));
    const marks = new Map(told.marks.map((m) => [m.key, m]));
    for (const blank of blanks()) {
      const mark = marks.get(blank.dataset.key || "");
      if (mark) tell(blank, mark);
    }
    result.textContent = told.changed ? `${told.words} ${words("lessonBehind")}` : told.words;
  } catch (fault) {
    result.textContent = fault instanceof Refused ? fault.text : words("lessonAway");
  }
}

form?.addEventListener("submit", (e) => {
  e.preventDefault();
  void check();
});
form?.addEventListener("input", (e) => {
  if (e.target instanceof HTMLInputElement && e.target.dataset.key) forget(e.target);
});
watch(async () => {
  const written = blanks().some((b) => b.value);
  if (written) byId("result").textContent = words("lessonBehind");
  else window.location.reload();
});
