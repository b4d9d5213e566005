// @ts-check
/** An element made like a fresh one of the same build by touching only what differs, so that the browser lays out and paints little. */

/** What the page itself gives and takes; a fresh element knows nothing of it. */
const OWN_CLASSES = new Set(["on", "near", "lit", "partner", "told-of"]);
const OWN_ATTRIBUTES = new Set(["open", "aria-expanded", "style"]);

/** Make an element like a fresh one; false, and nothing done, where they are not built alike. @param {Element} old @param {Element} fresh @param {Element | null} [typed] the field whose value stays @returns {boolean} */
export function morph(old, fresh, typed = null) {
  if (!alike(old, fresh)) return false;
  become(old, fresh, typed);
  return true;
}

/** The same for what an element holds; its own attributes stay. @param {Element} old @param {Element} fresh @returns {boolean} */
export function morphInside(old, fresh) {
  if (!alike(old, fresh)) return false;
  each(old, fresh, (a, b) => become(a, b, null));
  return true;
}

/** Whether two trees are built alike, whatever their words and attributes. @param {Node} a @param {Node} b @returns {boolean} */
function alike(a, b) {
  if (a.nodeName !== b.nodeName || a.childNodes.length !== b.childNodes.length) return false;
  for (let p = a.firstChild, q = b.firstChild; p && q; p = p.nextSibling, q = q.nextSibling) if (!alike(p, q)) return false;
  return true;
}

/** @param {Node} a @param {Node} b @param {(a: Node, b: Node) => void} then */
function each(a, b, then) {
  for (let p = a.firstChild, q = b.firstChild; p && q; p = p.nextSibling, q = q.nextSibling) then(p, q);
}

/** @param {Node} old @param {Node} fresh @param {Element | null} typed */
function become(old, fresh, typed) {
  if (!(old instanceof Element && fresh instanceof Element)) {
    if (old.nodeValue !== fresh.nodeValue) old.nodeValue = fresh.nodeValue;
    return;
  }
  attributes(old, fresh);
  each(old, fresh, (a, b) => become(a, b, typed));
  if (old !== typed) value(old, fresh);
}

/** @param {Element} old @param {Element} fresh */
function attributes(old, fresh) {
  for (const { name, value } of fresh.attributes) {
    const want = name === "class" ? classes(old, value) : value;
    if (!OWN_ATTRIBUTES.has(name) && old.getAttribute(name) !== want) old.setAttribute(name, want);
  }
  for (const { name } of [...old.attributes]) if (!fresh.hasAttribute(name) && !OWN_ATTRIBUTES.has(name)) drop(old, name);
}

/** @param {Element} old @param {string} fresh */
function classes(old, fresh) {
  const kept = [...old.classList].filter((each) => OWN_CLASSES.has(each) && !fresh.split(/\s+/).includes(each));
  return [fresh, ...kept].join(" ");
}

/** @param {Element} old @param {string} name */
function drop(old, name) {
  const kept = name === "class" ? classes(old, "").trim() : "";
  if (!kept) old.removeAttribute(name);
  else if (old.getAttribute(name) !== kept) old.setAttribute(name, kept);
}

/** What a control shows, with the caret where it was. @param {Element} old @param {Element} fresh */
function value(old, fresh) {
  if (old instanceof HTMLSelectElement && fresh instanceof HTMLSelectElement) old.value = fresh.value;
  else if (old instanceof HTMLInputElement && fresh instanceof HTMLInputElement) {
    old.checked = fresh.checked;
    if (old.value === fresh.value) return;
    const [start, end] = [old.selectionStart, old.selectionEnd];
    old.value = fresh.value;
    if (start !== null && document.activeElement === old) old.setSelectionRange(start, end);
  } else if (old instanceof HTMLTextAreaElement && fresh instanceof HTMLTextAreaElement && old.value !== fresh.value) old.value = fresh.value;
}
