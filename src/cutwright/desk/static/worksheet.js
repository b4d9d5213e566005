// @ts-check
/** The work sheet, live: when the style is changed elsewhere, the sheet is written anew where one reads. */
import { byId, words } from "./dom.js";
import { leaf, watch } from "./leaf.js";

watch(async () => {
  const answer = await fetch(window.location.href);
  if (!answer.ok) return;
  const there = new DOMParser().parseFromString(await answer.text(), "text/html");
  const [fresh, its] = [there.getElementById("shown"), there.getElementById("leaf")];
  if (!fresh || !its) return;
  byId("shown").replaceChildren(...fresh.childNodes);
  leaf.dataset.revisions = its.dataset.revisions;
  byId("title").textContent = there.getElementById("title")?.textContent || "";
  byId("told").textContent = words("sheetAnew");
});
