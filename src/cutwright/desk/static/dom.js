// @ts-check
/** Small things every sheet needs: finding elements, and the sentences from the catalogue. */

/** @param {string} id @returns {HTMLElement} */
export function byId(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error(`no element ${id}`);
  return found;
}

/** @template {Element} T @param {ParentNode} where @param {string} what @returns {T[]} */
export function all(where, what) {
  return /** @type {T[]} */ ([...where.querySelectorAll(what)]);
}

/** @type {Record<string, string> | null} */
let known = null;

/** A sentence of the catalogue with its blanks filled. @param {string} key @param {Record<string, string | number>} [values] */
export function words(key, values = {}) {
  if (!known) {
    const block = document.getElementById("words");
    known = block ? JSON.parse(block.textContent || "{}") : {};
  }
  const text = (known && known[key]) || key;
  return text.replace(/\{(\w+)\}/g, (whole, name) => (name in values ? String(values[name]) : whole));
}

/** What stands between whole and tenths where one reads. */
export const sign = new Intl.NumberFormat(document.documentElement.lang || "en").formatToParts(1.5)[1].value;

/** A number by the custom of the page. @param {number} value @param {number} places */
export function written(value, places) {
  return value.toFixed(places).replace(".", sign);
}

/** Server-made HTML (escaped there) as an element. @param {string} html @returns {Element} */
export function element(html) {
  const box = document.createElement("template");
  box.innerHTML = html.trim();
  const first = box.content.firstElementChild;
  if (!first) throw new Error("empty fragment");
  return first;
}

/** @template T @param {string} url @param {RequestInit} [how] @returns {Promise<T>} */
export async function ask(url, how) {
  const answer = await fetch(url, how);
  const told = await answer.json();
  if (!answer.ok) throw new Refused(answer.status, told);
  return told;
}

/** @param {string} url @param {unknown} body */
export function post(url, body) {
  return ask(url, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(body) });
}

/** Ask for an answer in several lines: pictures are told as they come, what is given back is the answer itself. @param {string} url @param {unknown} body @param {(picture: any) => void} pictured */
export async function postInTurn(url, body, pictured) {
  const headers = { "content-type": "application/json", accept: "application/x-ndjson" };
  const answer = await fetch(url, { method: "POST", headers, body: JSON.stringify(body) });
  if (!answer.ok || !answer.body) throw new Refused(answer.status, await answer.json());
  let [whole, rest] = [null, ""];
  /** @param {string} line */
  const told = (line) => {
    const said = JSON.parse(line);
    if (said.fault) throw new Refused(said.fault.status, said.fault.told);
    if ("revision" in said) whole = said;
    else pictured(said);
  };
  const reader = answer.body.getReader();
  const letters = new TextDecoder();
  for (let read = await reader.read(); !read.done; read = await reader.read()) {
    const lines = (rest + letters.decode(read.value, { stream: true })).split("\n");
    rest = lines.pop() || "";
    lines.forEach(told);
  }
  if (rest) told(rest);
  if (!whole) throw new TypeError("the answer was cut off");
  return whole;
}

/** The newest of several questions: an answer that a later question has overtaken is dropped (null). */
export class Newest {
  turn = 0;

  /** @template T @param {Promise<T>} asked @returns {Promise<T | null>} */
  async of(asked) {
    const turn = (this.turn += 1);
    const told = await asked;
    return turn === this.turn ? told : null;
  }

  /** What was asked is no longer wanted. */
  drop() {
    this.turn += 1;
  }
}

/** Do something that may wait: when the desk is away it is simply not done. @param {Promise<unknown>} doing */
export function quietly(doing) {
  doing.catch((fault) => {
    if (!(fault instanceof Refused) && !(fault instanceof TypeError)) throw fault;
  });
}

/** Other windows of this browser on the same document: each tells the others that it changed it. @param {string} place @param {() => unknown} changed */
export function onOther(place, changed) {
  const channel = new BroadcastChannel(`cutwright ${place}`);
  channel.addEventListener("message", () => void changed());
  return { tell: () => channel.postMessage("changed") };
}

/** What the desk answers when something cannot be done. */
export class Refused extends Error {
  /** @param {number} status @param {{message: string, problems?: {place: string, text: string}[]}} told */
  constructor(status, told) {
    super(told.message);
    this.status = status;
    this.told = told;
  }
  /** The problems as one text, without their places. */
  get reason() {
    return (this.told.problems || []).map((p) => p.text).join(" ") || this.message;
  }
  /** The problems as one text. */
  get text() {
    const every = (this.told.problems || []).map((p) => (p.place ? `${p.place}: ${p.text}` : p.text));
    return every.length ? every.join(" ") : this.message;
  }
}
