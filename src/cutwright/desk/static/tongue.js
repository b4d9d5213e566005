// @ts-check
/** The list of languages closes when one is done with it; a language in the address is not kept there. */
const list = document.querySelector("details.tongues");

document.addEventListener("click", (e) => {
  if (list instanceof HTMLDetailsElement && e.target instanceof Node && !list.contains(e.target)) list.open = false;
});
list?.addEventListener("keydown", (e) => {
  if (!(list instanceof HTMLDetailsElement) || !(e instanceof KeyboardEvent) || e.key !== "Escape") return;
  list.open = false;
  list.querySelector("summary")?.focus();
});
document.querySelector("nav.sheets [aria-current]")?.scrollIntoView({ block: "nearest", inline: "center" });
const here = new URL(window.location.href);
if (here.searchParams.has("lang")) {
  here.searchParams.delete("lang");
  window.history.replaceState(window.history.state, "", here);
}
