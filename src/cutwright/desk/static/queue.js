// @ts-check
/** Commands on their way to the desk: one at a time, the newest wish for a word taking the place of
 * the one that still waits, and none lost while the desk is away. */
import { Refused } from "./dom.js";

/** @typedef {{do: string, [key: string]: unknown}} Command */
/** @typedef {{command: Command, group: string, key: string, base: number, tries?: number}} Waiting `base`: the revision it was made from, 0 for the one the page shows */

/** So often a command is sent that the desk answers with a fault of its own; then it is told as not saved. */
const TRIES = 4;

export class Queue {
  /**
   * @param {(waiting: Waiting) => Promise<unknown>} send
   * @param {{done: (answer: any, waiting: Waiting) => void, refused: (fault: Refused, waiting: Waiting) => void, state: (state: string) => void}} told
   * @param {import("./drafts.js").Drafts} drafts
   */
  constructor(send, told, drafts) {
    this.send = send;
    this.told = told;
    this.drafts = drafts;
    /** @type {Waiting[]} */
    this.waiting = [];
    this.busy = false;
    this.held = false;
    /** @type {Waiting | undefined} what is on its way */
    this.now = undefined;
  }

  /** Take a command in; with a key it takes the place of a waiting one of the same key. @param {Command} command @param {string} [group] @param {string} [key] @param {number} [base] */
  push(command, group = "", key = "", base = 0) {
    const last = this.waiting.at(-1);
    if (key && last && last.key === key) last.command = command;
    else this.waiting.push({ command, group, key, base });
    void this.run();
    this.say();
  }

  /** Whether something for this key is still on its way or waiting. @param {string} key */
  pending(key) {
    return (this.busy && this.now?.key === key) || this.waiting.some((w) => w.key === key);
  }

  get idle() {
    return !this.busy && this.waiting.length === 0;
  }

  /** Say how things stand: "saved" only when everything on the page is in the book. @param {boolean} [away] */
  say(away = false) {
    const unsaved = this.held || this.drafts.refused.length > 0;
    this.told.state(away ? "away" : this.busy || (this.waiting.length && !this.held) ? "saving" : unsaved ? "unsaved" : "saved");
  }

  /** Put a command back at the front, unless a newer one of its key waits. @param {Waiting} waiting */
  back(waiting) {
    if (!waiting.key || this.waiting[0]?.key !== waiting.key) this.waiting.unshift(waiting);
    else this.waiting[0].base = waiting.base;
  }

  async run() {
    if (this.busy || this.held) return;
    const next = this.waiting.shift();
    if (!next) return;
    this.busy = true;
    this.now = next;
    let away = false;
    try {
      const answer = await this.send(next);
      this.busy = false;
      if (next.key && !this.pending(next.key)) this.drafts.drop(next.key);
      this.told.done(answer, next);
    } catch (fault) {
      this.busy = false;
      next.tries = (next.tries || 0) + 1;
      if (fault instanceof Refused && (fault.status < 500 || next.tries >= TRIES)) this.told.refused(fault, next);
      else {
        this.back(next);
        away = true;
      }
    }
    this.now = undefined;
    this.say(away);
    if (away) setTimeout(() => void this.run(), 700);
    else void this.run();
  }
}
