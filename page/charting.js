// Charting by keys: what is pressed goes to the program in its order, what it answers is shown. What a key
// means, what follows from a row and what cannot be is the program's to say.

import { ask, Refusal } from "./door.js";
import { element } from "./element.js";
import { showFilm } from "./charting-film.js";
import { showKeyMap } from "./charting-map.js";
import { showOpenRow } from "./charting-row.js";
import { showRows } from "./charting-rows.js";
import { showSettling } from "./charting-settling.js";
import { showSoFar } from "./charting-so-far.js";

/** @typedef {{key: string, words: string}} Choice */
/** @typedef {{words: string, typing: string, offer: string, then: string, choices: Choice[]}} Asked the choices are what the next key can be */
/** @typedef {{words: string, value: string, standing: "blank" | "typed" | "follows", is_asked: boolean}} Cell */
/** @typedef {{film: number, start: number, end: number}} Span */
/** @typedef {{speeds: number[], jump: number, shuttle_back: number, frame: number}} Playing the last three in seconds */
/** @typedef {{name: string, is_blind: boolean, words: string, button: string}} Against another chart of the same snaps */
/** @typedef {{act: (command: string) => void, show: (span: Span, plays?: boolean) => void, rest: () => void, now: () => {film: number, at: number, playing: boolean}}} Film */
/**
 * @typedef {object} State of the room; the words are the program's
 * @property {string} count
 * @property {string} notice
 * @property {Against | null} against
 * @property {Playing} playing
 * @property {string} only_looked_at
 * @property {string} fault
 * @property {string} told
 * @property {number} drives
 * @property {number} version
 * @property {boolean} lacks_film_columns
 * @property {{name: string, target: string, fault: string}[]} films
 * @property {Span | null} film where the film has to go
 * @property {Span | null} span the open row's
 * @property {Asked | null} asked
 * @property {string} asks_nothing what the next key does where nothing is asked
 * @property {boolean} is_text
 * @property {{words: string, cells: Cell[]} | null} open
 * @property {string[]} odd
 * @property {{heads: string[], rows: {cells: string[], is_open: boolean}[]}} table
 * @property {Record<string, string>} film_keys
 */
/** @typedef {{key: string, at: number, playing: boolean}} Press */

export class Charting extends EventTarget {
  /** @type {State} */
  state;
  /** @type {Set<string>} keys that mean something beside single characters */
  named = new Set(["Backspace", "Enter", "Escape"]);
  isHere = false;
  /** @type {Film | null} */
  film = null;
  /** Where keys go while two charts are settled. @type {import("./charting-settling.js").Settling | null} */
  settling = null;
  /** @type {(Press & {film: number})[]} */
  #waiting = [];
  #isAsking = false;

  /** @param {State} state */
  constructor(state) {
    super();
    this.state = state;
  }

  /** @param {State} state */
  show(state) {
    this.state = state;
    this.dispatchEvent(new Event("state"));
  }

  enter() {
    this.isHere = true;
    this.pad().focus();
    this.dispatchEvent(new Event("state"));
  }

  leave() {
    this.isHere = false;
    this.film?.act("pause");
  }

  /** What keys go to. */
  pad() {
    return element(this.settling ? "settling-pad" : "keys-pad");
  }

  /** What can be played again and again. */
  span() {
    return this.settling ? this.settling.span() : this.state.span;
  }

  /** @param {string} key */
  press(key) {
    if (this.settling) return this.settling.press(key);
    const now = this.film?.now() ?? { film: 0, at: 0, playing: false };
    this.#waiting.push({ key, ...now });
    if (!this.#isAsking) this.#send();
  }

  // Whether a key is the film's is known when those before it are answered: what is a character may be text.
  async #send() {
    this.#isAsking = true;
    element("keys-pad").setAttribute("aria-busy", "true");
    try {
      while (this.#waiting.length > 0) {
        const { film_keys } = this.state;
        const isFilm = (/** @type {Press} */ one) => one.key in film_keys;
        const isText = this.state.is_text && isCharacter(this.#waiting[0].key);
        if (isFilm(this.#waiting[0]) && !isText) {
          this.film?.act(film_keys[this.#waiting[0].key]);
          this.#waiting.shift();
          continue;
        }
        const next = this.#waiting.findIndex((one, at) => at > 0 && (isFilm(one) || one.film !== this.#waiting[0].film));
        const keys = this.#waiting.splice(0, next < 0 ? this.#waiting.length : next);
        const film = keys[0].film;
        this.show(await ask("/charting/keys", { film, keys: keys.map(({ key, at, playing }) => ({ key, at, playing })) }));
      }
    } catch (error) {
      this.#waiting = [];
      if (!(error instanceof Refusal)) throw error;
      this.show({ ...this.state, fault: error.message });
    } finally {
      this.#isAsking = false;
      element("keys-pad").removeAttribute("aria-busy");
    }
  }
}

function isCharacter(/** @type {string} */ key) {
  return key === "Space" || [...key].length === 1;
}

/** The key's name as the key map has it; empty for keys that are left to the browser. */
export function nameOf(/** @type {KeyboardEvent} */ event) {
  if (event.isComposing || event.altKey) return "";
  const key = event.key === " " ? "Space" : event.key;
  if (event.ctrlKey || event.metaKey) return "Ctrl+" + key.toLowerCase();
  return event.shiftKey && key.length > 1 ? "Shift+" + key : key;
}

/** @param {() => void} changed told when the chart is another one than it was */
export async function showCharting(changed) {
  const room = new Charting(await ask("/charting"));
  const { version } = room.state;
  for (const key of await showKeyMap()) room.named.add(key); // from here on nothing waits: what is shown takes keys
  showFilm(room);
  showOpenRow(room);
  showRows(room);
  showSoFar(room);
  showSettling(room, changed);
  element("charting-notice").textContent = room.state.notice;
  room.addEventListener("state", () => {
    if (room.state.version !== version) changed();
  });
  document.addEventListener("keydown", (event) => {
    if (!room.isHere || isOfAControl(event.target)) return;
    const key = nameOf(event);
    if (!isCharacter(key) && !room.named.has(key)) return;
    event.preventDefault();
    room.press(key);
  });
  element("add-columns").addEventListener("click", async () => {
    room.show(await ask("/charting/columns"));
    element("keys-pad").focus();
  });
  return room;
}

function isOfAControl(/** @type {EventTarget | null} */ target) {
  return target instanceof Element && target.closest("button, input, select, textarea, summary, a") !== null;
}
