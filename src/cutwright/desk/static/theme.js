// @ts-check
/** Day and evening: what the machine wishes unless the button was pressed. */
const root = document.documentElement;
const wish = window.matchMedia("(prefers-color-scheme: dark)");

function now() {
  const set = root.dataset.theme;
  return set === "dark" || (set !== "light" && wish.matches) ? "dark" : "light";
}

try {
  root.dataset.theme = localStorage.getItem("cutwright-theme") || "auto";
} catch {
  root.dataset.theme = "auto";
}

function shown() {
  const button = document.getElementById("theme");
  if (button) button.setAttribute("aria-pressed", String(now() === "dark"));
}

document.getElementById("theme")?.addEventListener("click", () => {
  root.dataset.theme = now() === "dark" ? "light" : "dark";
  try {
    localStorage.setItem("cutwright-theme", root.dataset.theme);
  } catch {
    // a browser that keeps nothing begins anew each time
  }
  shown();
});
wish.addEventListener("change", shown);
shown();
