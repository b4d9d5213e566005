// @ts-check
/** A search on the desk that is watched until it ends, is stopped, or a newer one takes its place. */
import { ask, post, Refused, words } from "./dom.js";

/** @typedef {{job: string, state: string, number: number, said: string, trouble: string, [key: string]: any}} Told */

export class Watch {
  /** @param {string} url where searches of this kind begin @param {{told: (told: Told) => void, refused: (text: string, fault?: Refused) => void, gone: () => void}} page */
  constructor(url, page) {
    this.url = url;
    this.page = page;
    this.job = "";
    this.turn = 0;
    this.over = true;
    window.addEventListener("pagehide", () => this.leave());
  }

  /** @param {unknown} wish */
  async begin(wish) {
    const turn = (this.turn += 1);
    try {
      const told = /** @type {Told} */ (await post(this.url, wish));
      if (turn !== this.turn) return;
      this.job = told.job;
      this.take(told);
      void this.follow(turn, told.number);
    } catch (fault) {
      if (turn === this.turn) this.page.refused(fault instanceof Refused ? fault.text : words("away"), fault instanceof Refused ? fault : undefined);
    }
  }

  /** @param {number} turn @param {number} seen */
  async follow(turn, seen) {
    while (turn === this.turn && !this.over) {
      try {
        const told = /** @type {Told} */ (await ask(`${this.url}/${this.job}?after=${seen}`));
        if (turn !== this.turn) return;
        seen = told.number;
        this.take(told);
      } catch (fault) {
        if (turn !== this.turn) return;
        this.over = true;
        if (fault instanceof Refused && fault.status === 404) this.page.gone();
        else this.page.refused(fault instanceof Refused ? fault.text : words("away"));
      }
    }
  }

  /** @param {Told} told */
  take(told) {
    this.over = told.state !== "waiting" && told.state !== "running";
    this.page.told(told);
  }

  /** End the search; what was found is still told. */
  async stop() {
    if (this.over) return;
    try {
      await post(`${this.url}/${this.job}/stop`, {});
    } catch {
      // a search that nobody asks about ends by itself
    }
  }

  leave() {
    if (!this.over) navigator.sendBeacon(`${this.url}/${this.job}/stop`);
  }
}
