// @ts-check
/** Commands on their way to the desk: one at a time, the newest wish for a word taking the place of
 * the one that still waits, and none lost while the desk is away. */
import { Refused } from "./dom.js";

/** @typedef {{do: string, [key: string]: unknown}} Command */
/** @typedef {{command: Command, group: string, key: string}} Waiting */

export class Queue {
  /**
   * @param {(command: Command, group: string) => Promise<unknown>} send
   * @param {{done: (answer: any, waiting: Waiting) => void, refused: (fault: Refused, waiting: Waiting) => void, state: (state: string) => void}} told
   */
  constructor(send, told) {
    this.send = send;
    this.told = told;
    /** @type {Waiting[]} */
    this.waiting = [];
    this.busy = false;
    this.held = false;
  }

  /** Take a command in; with a key it takes the place of a waiting one of the same key. @param {Command} command @param {string} [group] @param {string} [key] */
  push(command, group = "", key = "") {
    const last = this.waiting.at(-1);
    if (key && last && last.key === key) last.command = command;
    else this.waiting.push({ command, group, key });
    this.told.state("saving");
    void this.run();
  }

  /** Whether something for this key is still on its way or waiting. @param {string} key */
  pending(key) {
    return (this.busy && this.now?.key === key) || this.waiting.some((w) => w.key === key);
  }

  get idle() {
    return !this.busy && this.waiting.length === 0;
  }

  async run() {
    if (this.busy || this.held) return;
    const next = this.waiting.shift();
    if (!next) return;
    this.busy = true;
    this.now = next;
    let again = 0;
    try {
      const answer = await this.send(next.command, next.group);
      this.busy = false;
      this.told.done(answer, next);
    } catch (fault) {
      this.busy = false;
      if (fault instanceof Refused && fault.status < 500) this.told.refused(fault, next);
      else {
        this.waiting.unshift(next);
        again = 700;
      }
    }
    this.now = undefined;
    this.told.state(again ? "away" : this.waiting.length ? "saving" : "saved");
    if (again) setTimeout(() => void this.run(), again);
    else void this.run();
  }
}
