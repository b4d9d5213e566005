// @ts-check
/** What the work sheet and the lesson share: printing, and knowing when the style has moved on. */
import { ask, byId } from "./dom.js";

export const leaf = byId("leaf");
export const api = `/api/table/${leaf.dataset.style}/${leaf.dataset.body}`;
const EVERY = 4000;

/** The revisions (style, body) this page was made from. */
export function revisions() {
  return (leaf.dataset.revisions || "").split(" ").map(Number);
}

document.getElementById("print")?.addEventListener("click", () => window.print());

/** Call back when the style or the body is no longer as this page shows it. @param {() => Promise<void>} changed */
export function watch(changed) {
  let asking = false;
  const look = async () => {
    if (asking || document.hidden) return;
    asking = true;
    try {
      const now = /** @type {{style: number, body: number}} */ (await ask(`${api}/revision`));
      const [style, body] = revisions();
      if (now.style !== style || now.body !== body) await changed();
    } catch {
      // the desk is away: the sheet stays readable as it is
    } finally {
      asking = false;
    }
  };
  window.addEventListener("focus", () => void look());
  document.addEventListener("visibilitychange", () => void look());
  setInterval(() => void look(), EVERY);
}
