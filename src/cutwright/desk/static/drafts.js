// @ts-check
/** What was typed and is not in the book: kept with this window until it is, over a reload too. */

/** @typedef {{value: unknown, base: number, step: number, group: string, why: string}} Draft
 * `base`, `step`: the revision it was typed on and the place of its sentence there, -1 outside a
 * sentence; `why`: the reason it was refused, empty while it is on its way */

export class Drafts {
  /** @param {string} place which document, so that each has its own */
  constructor(place) {
    this.place = `cutwright ${place}`;
    /** @type {Map<string, Draft>} */
    this.all = new Map();
    try {
      this.all = new Map(JSON.parse(window.sessionStorage.getItem(this.place) || "[]"));
    } catch {
      // nothing kept here that can be read
    }
  }

  /** @param {string} key @param {Draft} draft */
  keep(key, draft) {
    this.all.set(key, draft);
    this.write();
  }

  /** @param {string} key @param {string} why */
  refuse(key, why) {
    const draft = this.all.get(key);
    if (draft) this.keep(key, { ...draft, why });
  }

  /** @param {string} key */
  drop(key) {
    if (this.all.delete(key)) this.write();
  }

  /** The keys of those that were refused, with the reasons. @returns {[string, string][]} */
  get refused() {
    return [...this.all].filter(([, d]) => d.why).map(([key, d]) => [key, d.why]);
  }

  /** Give drafts other keys; one with "" is dropped. @param {(key: string, draft: Draft) => [string, Draft]} to */
  follow(to) {
    this.all = new Map([...this.all].map(([key, draft]) => to(key, draft)).filter(([key]) => key));
    this.write();
  }

  write() {
    try {
      if (this.all.size) window.sessionStorage.setItem(this.place, JSON.stringify([...this.all]));
      else window.sessionStorage.removeItem(this.place);
    } catch {
      // no room: the page itself still holds them
    }
  }
}
