// A chart beside another one of the same snaps: blind to it while it is typed, then how far the two agree, and
// where they do not, one key settles it while the film shows the snap.

import { ask, Refusal } from "./door.js";
import { element, made, table } from "./element.js";

/** @typedef {import("./charting.js").Charting} Charting */
/** @typedef {{words: string, mine: string, theirs: string, differs: boolean, is_asked: boolean}} Row a column of both rows */
/** @typedef {{head: string, column: string, mine: string, theirs: string, takes: string, film: import("./charting.js").Span | null, rows: Row[]}} Asked */
/** @typedef {{heads: string[], rows: string[][]}} Cells */
/**
 * @typedef {object} State of two charts; the words are the program's
 * @property {string} mine
 * @property {string} theirs
 * @property {{head: string, lone: string[], columns: Cells, meaning: string, effects_head: string, effects: Cells, note: string}} figures
 * @property {string} count
 * @property {string} fault
 * @property {string} only_looked_at
 * @property {number} version
 * @property {Asked | null} asked
 * @property {{key: string, name: string, words: string}[]} keys
 */

export class Settling extends EventTarget {
  /** @type {Charting} */
  #room;
  #last = Promise.resolve();

  /**
   * @param {Charting} room
   * @param {State} state
   */
  constructor(room, state) {
    super();
    this.#room = room;
    this.state = state;
  }

  span() {
    return this.state.asked?.film ?? null;
  }

  /** @param {string} key */
  press(key) {
    element("settling-pad").setAttribute("aria-busy", "true");
    const mine = this.#last.then(() => this.#act(key));
    this.#last = mine.then(() => {
      if (this.#last === last) element("settling-pad").removeAttribute("aria-busy");
    });
    const last = this.#last;
  }

  async #act(/** @type {string} */ key) {
    const { film_keys } = this.#room.state;
    if (key in film_keys) return this.#room.film?.act(film_keys[key]);
    try {
      this.show(await ask("/settling/keys", { keys: [key] }));
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      this.show({ ...this.state, fault: error.message });
    }
  }

  /** @param {State} state */
  show(state) {
    const before = JSON.stringify(this.state.asked);
    this.state = state;
    this.dispatchEvent(new Event("state"));
    if (before !== JSON.stringify(state.asked)) this.play();
  }

  /** The snap that is asked, again and again. */
  play() {
    const span = this.span();
    if (span) this.#room.film?.show(span, true);
    else this.#room.film?.rest();
  }
}

/**
 * @param {Charting} room
 * @param {() => void} changed told when the chart is another one than it was
 */
export function showSettling(room, changed) {
  const { against } = room.state;
  element("against-part").hidden = !against;
  if (!against) return;
  const notice = () => {
    element("against-words").textContent = room.state.against?.words ?? "";
    element("against-button").textContent = room.state.against?.button ?? "";
  };
  const fault = element("against-fault");
  const part = element("charting-room");
  const between = (/** @type {boolean} */ isSettling) => {
    part.classList.toggle("settling", isSettling);
    element("settling-part").hidden = !isSettling;
    element("figures-part").hidden = !isSettling;
    element("against-button").hidden = isSettling;
    room.pad().focus();
  };
  const begin = async () => {
    const state = await ask("/settling/begin");
    room.settling = new Settling(room, state);
    room.settling.addEventListener("state", () => {
      if (!room.settling) return;
      if (room.settling.state.version !== state.version) changed();
      showAsked(room.settling.state);
    });
    showFigures(state);
    between(true);
    room.settling.show(state);
    room.settling.play();
    room.show(await ask("/charting")); // it is blind no longer
  };
  const back = async () => {
    room.settling = null;
    room.film?.rest();
    between(false);
    room.show(await ask("/charting"));
  };
  const tell = (/** @type {unknown} */ error) => {
    if (!(error instanceof Refusal)) throw error;
    fault.textContent = error.message;
    fault.hidden = false;
    room.pad().focus();
  };
  element("against-button").addEventListener("click", () => {
    fault.hidden = true;
    begin().catch(tell);
  });
  element("settling-back").addEventListener("click", () => back().catch(tell));
  room.addEventListener("state", notice);
  notice();
}

/** @param {State} state */
function showAsked(state) {
  const { asked } = state;
  const fault = element("settling-fault");
  element("settling-head").textContent = asked?.head ?? "All of it is settled";
  element("settling-column").textContent = asked?.column ?? "";
  element("settling-sides").replaceChildren(...(asked ? sides(state, asked) : []));
  element("settling-takes").textContent = asked?.takes ?? "";
  element("settling-keys").replaceChildren(...state.keys.map(key));
  element("settling-count").textContent = [state.count, state.only_looked_at].filter(Boolean).join("; ");
  element("settling-rows").replaceChildren(...(asked ? [bothRows(state, asked)] : []));
  fault.textContent = state.fault;
  fault.hidden = !state.fault;
}

function key(/** @type {{key: string, words: string}} */ one) {
  const item = made("li");
  item.append(made("kbd", one.key), " ", made("span", one.words));
  return item;
}

/**
 * The two values, each with the key that takes it.
 * @param {State} state
 * @param {Asked} asked
 */
function sides(state, asked) {
  const side = (/** @type {string} */ name, /** @type {string} */ chart, /** @type {string} */ value) => {
    const whole = made("div");
    const head = made("dt");
    head.append(made("kbd", state.keys.find((one) => one.name === name)?.key ?? ""), " ", chart);
    whole.append(head, made("dd", value));
    return whole;
  };
  return [side("take_mine", state.mine, asked.mine), side("take_theirs", state.theirs, asked.theirs)];
}

/**
 * @param {State} state
 * @param {Asked} asked
 */
function bothRows(state, asked) {
  const cell = (/** @type {Row} */ row, /** @type {string} */ value) => made(row.differs ? "strong" : "span", value);
  const whole = table(
    ["column", state.mine, state.theirs],
    asked.rows.map((row) => [document.createTextNode(row.words), cell(row, row.mine), cell(row, row.theirs)]),
    "The two rows side by side",
  );
  asked.rows.forEach((row, at) => {
    if (row.is_asked) whole.querySelectorAll("tbody tr")[at].setAttribute("aria-current", "true");
  });
  return whole;
}

/** @param {State} state */
function showFigures({ figures }) {
  const cells = (/** @type {Cells} */ all, /** @type {string} */ caption) =>
    table(all.heads, all.rows.map((row) => row.map((text) => document.createTextNode(text))), caption);
  element("figures").replaceChildren(
    made("p", figures.head),
    ...figures.lone.map((words) => made("p", words)),
    cells(figures.columns, "Column by column"),
    made("small", figures.meaning),
    cells(figures.effects, figures.effects_head),
    made("p", figures.note),
  );
}
