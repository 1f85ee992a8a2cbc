// What is on the desk: one stand, its view, and the stands before it. Everything that is shown follows
// from here; views are told when it changes.

import { ask, Refusal } from "./door.js";

/** @typedef {import("./door.js").Stand} Stand */
/** @typedef {import("./door.js").Turn} Turn */
/** @typedef {import("./door.js").View} View */
/** @typedef {import("./door.js").Change} Change */

/** How the picture has to look: its frame follows the room there is, its theme the reader's. */
/** @typedef {{frame: "wide" | "tall" | "story", theme: "light" | "dark"}} Look */

export class Store extends EventTarget {
  /** @type {View | null} */
  view = null;
  /** @type {Stand} */
  stand = { quarterback: 1, scheme: 1, changes: [] };
  /** @type {Stand[]} */
  before = [];
  /** @type {Look} */
  look = { frame: "wide", theme: "light" };
  fault = "";
  isMoving = false;
  /** The number whose snaps are shown; empty for none. Whether the reader wants to be taken there. */
  snapsOf = "";
  goesToSnaps = false;

  /** @type {Stand | null} where the hand took hold */
  #grabbed = null;
  /** @type {{turn: Turn, at: number} | null} */
  #wanted = null;
  #isFollowing = false;
  #asked = 0;
  /** The number of the oldest question whose answer is still wanted. */
  #oldest = 0;

  /** Told as "view" for everything that a view shows, as "fault" for what could not be done. */
  #tell(/** @type {string} */ what) {
    this.dispatchEvent(new Event(what));
  }

  /** @param {unknown} error */
  refuse(error) {
    if (!(error instanceof Refusal)) throw error;
    this.fault = error.message;
    this.#tell("fault");
  }

  forgetFault() {
    if (!this.fault) return;
    this.fault = "";
    this.#tell("fault");
  }

  /**
   * Shows what the program says of a stand, with a turn made; answers to earlier questions are left,
   * as is this one where a later question has overtaken it.
   * @param {{stand: Stand, turn?: Turn}} question
   */
  async #show(question) {
    const number = ++this.#asked;
    this.#oldest = number;
    return this.#put(number, await ask("/view", { ...question, ...this.look }));
  }

  /**
   * @param {number} number of the question
   * @param {View} view
   */
  #put(number, view) {
    if (number < this.#oldest) return false;
    this.view = view;
    this.stand = view.stand;
    this.#tell("view");
    return true;
  }

  /** The snaps behind a number, by its address or words of it; an empty one closes them. */
  showSnapsOf(/** @type {string} */ number, goesThere = false) {
    this.snapsOf = number;
    this.goesToSnaps = goesThere;
    this.#tell("snaps");
  }

  /** @param {Look} look */
  async lookLike(look) {
    if (this.view && look.frame === this.look.frame && look.theme === this.look.theme) return;
    this.look = look;
    await this.#try(() => this.#show({ stand: this.stand }));
  }

  /** @param {() => Promise<unknown>} act */
  async #try(act) {
    try {
      await act();
      this.forgetFault();
      return true;
    } catch (error) {
      this.refuse(error);
      return false;
    }
  }

  /** Another man, another scheme, a try: from here on that is the stand. */
  async go(/** @type {Stand} */ stand) {
    const from = this.stand;
    if (await this.#try(() => this.#show({ stand }))) this.#remember(from);
  }

  /** @param {Stand} from */
  #remember(from) {
    if (JSON.stringify(from) === JSON.stringify(this.stand)) return;
    this.before.push(from);
    this.#tell("view");
  }

  async takeBack() {
    if (this.isMoving) return this.letGo(false);
    const last = this.before.pop();
    if (last) await this.#try(() => this.#show({ stand: last }));
  }

  // A hand on a handle: hold, move as often as it moves, let go.

  hold() {
    this.#grabbed = this.stand;
    this.isMoving = true;
  }

  /**
   * The picture follows the latest move; moves in between are passed over.
   * @param {Turn} turn from where it was taken hold of
   * @param {number} at when the hand moved
   */
  move(turn, at) {
    this.#wanted = { turn, at };
    if (!this.#isFollowing) this.#follow();
  }

  /** Asks for the latest move, if the hand has moved since the last question. */
  #next() {
    const moved = this.#wanted;
    if (!moved || !this.#grabbed) return null;
    this.#wanted = null;
    const from = performance.now();
    const question = { stand: this.#grabbed, turn: moved.turn, following: true, ...this.look };
    const answer = ask("/view", question);
    answer.catch(() => {}); // it is heard where the answer is waited for
    return { number: ++this.#asked, moved: moved.at, asked: from, answer };
  }

  // While an answer is shown and painted, the next one is worked out.
  async #follow() {
    this.#isFollowing = true;
    let painting = Promise.resolve();
    for (let now = this.#next(); now; ) {
      const { number, moved, asked, answer } = now;
      now = null;
      const isShown = await this.#try(async () => {
        const view = await answer;
        now = this.#next();
        await painting;
        if (this.#put(number, view))
          painting = painted().then(() => told("desk-frame", { moved, asked, painted: performance.now() }));
      });
      if (!isShown) break;
      now ??= this.#next();
    }
    this.#isFollowing = false;
  }

  /**
   * @param {boolean} keeps whether the turn stands
   * @param {Turn} [turn]
   */
  async letGo(keeps, turn) {
    const from = this.#grabbed;
    this.#grabbed = null;
    this.#wanted = null;
    this.isMoving = false;
    if (!from) return;
    const at = performance.now();
    const isShown = await this.#try(() => this.#show(keeps && turn ? { stand: from, turn } : { stand: from }));
    if (!isShown) await this.#try(() => this.#show({ stand: from }));
    else if (keeps) this.#remember(from);
    await painted();
    told("desk-settled", { letGo: at, painted: performance.now() });
  }

  /** @param {Turn} turn */
  async turn(turn) {
    this.hold();
    await this.letGo(true, turn);
  }

  /** @param {Change[]} changes laid over what is turned already */
  async lay(changes) {
    const paths = new Set(changes.map((one) => one.path));
    const kept = this.stand.changes.filter((one) => !paths.has(one.path));
    await this.go({ ...this.stand, changes: [...kept, ...changes] });
  }
}

/**
 * @param {string} what
 * @param {object} detail
 */
function told(what, detail) {
  document.dispatchEvent(new CustomEvent(what, { detail }));
}

/** After the next picture is on the screen. */
function painted() {
  return new Promise((done) => requestAnimationFrame(() => setTimeout(done, 0)));
}
