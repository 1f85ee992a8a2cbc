// Handles over the picture's marks: sliders for pointer, keys and typed values. Where a mark is tells
// the picture, what it is worth tells the program; here a hand's way is handed on, nothing is worked out.

import { made } from "./element.js";

/** @typedef {import("./door.js").Handle} Handle */
/** @typedef {"does" | "asked" | "calls"} Kind */

const what = { does: "what he does", asked: "what is asked", calls: "how often it is called" };
const pixelsAStep = 6;
const leastSize = 24;
const restBeforeSettling = 300;

export class Handles {
  #store;
  #place;
  /** @type {Map<string, Grip>} */
  #grips = new Map();

  /**
   * @param {import("./store.js").Store} store
   * @param {HTMLElement} place
   */
  constructor(store, place) {
    this.#store = store;
    this.#place = place;
  }

  /**
   * @param {import("./door.js").View} view
   * @param {SVGSVGElement} picture
   */
  lay(view, picture) {
    const seen = new Set();
    for (const [kind, handle] of handlesOf(view)) {
      const mark = picture.querySelector("#" + CSS.escape(handle.path));
      if (!(mark instanceof SVGGraphicsElement)) continue;
      seen.add(handle.path);
      let grip = this.#grips.get(handle.path);
      if (!grip) {
        grip = new Grip(this.#store, kind, handle.path);
        this.#grips.set(handle.path, grip);
        this.#place.append(grip.element);
      }
      grip.show(handle, mark);
    }
    for (const [path, grip] of this.#grips) {
      if (seen.has(path)) continue;
      grip.element.remove();
      this.#grips.delete(path);
    }
    this.again();
    if (!this.#store.isMoving) this.#order();
  }

  /** The picture stands elsewhere: handles go along. */
  again() {
    const ground = this.#place.getBoundingClientRect();
    const boxes = [...this.#grips.values()].map((grip) => /** @type {const} */ ([grip, grip.box()]));
    for (const [grip, box] of boxes) grip.put(box, ground);
  }

  /** The focus goes as the eye does: down the rows, in a row from left to right. */
  #order() {
    const grips = [...this.#grips.values()].map((grip) => grip.element);
    const sorted = [...grips].sort((a, b) => a.offsetTop - b.offsetTop || a.offsetLeft - b.offsetLeft);
    const isSorted = sorted.every((one, place) => one === this.#place.querySelectorAll(".handle")[place]);
    if (isSorted) return;
    const focused = document.activeElement;
    this.#place.append(...sorted);
    if (focused instanceof HTMLElement && focused.classList.contains("handle")) focused.focus();
  }
}

/**
 * @param {import("./door.js").View} view
 * @returns {[Kind, Handle][]}
 */
function handlesOf(view) {
  /** @type {[Kind, Handle][]} */
  const list = [];
  for (const family of view.families) {
    if (family.calls) list.push(["calls", family.calls]);
    for (const demand of family.demands) {
      if (demand.does) list.push(["does", demand.does]);
      if (demand.asked) list.push(["asked", demand.asked]);
    }
  }
  return list;
}

class Grip {
  #store;
  #kind;
  #path;
  /** @type {Handle | null} */
  #handle = null;
  /** @type {SVGGraphicsElement | null} */
  #mark = null;
  /** @type {import("./door.js").Turn | null} */
  #turn = null;
  #steps = 0;
  #rest = 0;

  /**
   * @param {import("./store.js").Store} store
   * @param {Kind} kind
   * @param {string} path
   */
  constructor(store, kind, path) {
    this.#store = store;
    this.#kind = kind;
    this.#path = path;
    this.element = made("div");
    this.element.className = "handle " + kind;
    this.element.tabIndex = 0;
    this.element.setAttribute("role", "slider");
    this.element.dataset.path = path;
    this.element.addEventListener("pointerdown", (event) => this.#grab(event));
    this.element.addEventListener("keydown", (event) => this.#key(event));
    this.element.addEventListener("dblclick", () => this.#type());
    this.element.addEventListener("blur", () => this.#rested());
  }

  /**
   * @param {Handle} handle
   * @param {SVGGraphicsElement} mark
   */
  show(handle, mark) {
    this.#handle = handle;
    this.#mark = mark;
    const { element } = this;
    element.classList.toggle("turned", handle.is_turned);
    element.setAttribute("aria-label", handle.name + ", " + what[this.#kind]);
    element.setAttribute("aria-valuemin", String(handle.low));
    element.setAttribute("aria-valuemax", String(handle.high));
    element.setAttribute("aria-valuenow", String(handle.now));
    const began = handle.is_turned ? ", began at " + handle.began : "";
    element.setAttribute("aria-valuetext", handle.text + began);
    element.title = what[this.#kind] + ": " + handle.text + began;
  }

  box() {
    return /** @type {SVGGraphicsElement} */ (this.#mark).getBoundingClientRect();
  }

  /**
   * @param {DOMRect} box
   * @param {DOMRect} ground
   */
  put(box, ground) {
    const width = Math.max(box.width, leastSize);
    const height = Math.max(box.height, leastSize);
    const { style } = this.element;
    style.left = box.x - ground.x - (width - box.width) / 2 + "px";
    style.top = box.y - ground.y - (height - box.height) / 2 + "px";
    style.width = width + "px";
    style.height = height + "px";
  }

  #grab(/** @type {PointerEvent} */ event) {
    if (event.button !== 0 || !this.#mark) return;
    this.#rested();
    const { element } = this;
    const scale = this.#mark.getScreenCTM()?.a ?? 1;
    const unit = Number(this.#mark.dataset.unit ?? 0) * scale;
    const from = event.clientX;
    element.setPointerCapture(event.pointerId);
    element.classList.add("held");
    this.#turn = null;
    this.#store.hold();
    const move = (/** @type {PointerEvent} */ moved) => {
      if (!this.#store.isMoving) return;
      const way = moved.clientX - from;
      if (!this.#turn && Math.abs(way) < 3) return;
      this.#turn = unit
        ? { path: this.#path, units: way / unit }
        : { path: this.#path, steps: Math.round(way / pixelsAStep) };
      this.#store.move(this.#turn, moved.timeStamp);
    };
    const done = (/** @type {PointerEvent} */ ended) => {
      element.removeEventListener("pointermove", move);
      element.removeEventListener("pointerup", done);
      element.removeEventListener("pointercancel", done);
      element.classList.remove("held");
      const isClick = ended.type === "pointerup" && !this.#turn && this.#store.isMoving;
      if (this.#store.isMoving) this.#settle(ended.type === "pointerup");
      if (isClick) this.#showSnaps(false);
    };
    element.addEventListener("pointermove", move);
    element.addEventListener("pointerup", done);
    element.addEventListener("pointercancel", done);
  }

  #settle(/** @type {boolean} */ keeps) {
    const turn = this.#turn ?? undefined;
    this.#turn = null;
    this.#steps = 0;
    return this.#store.letGo(keeps && turn !== undefined, turn);
  }

  #key(/** @type {KeyboardEvent} */ event) {
    const steps = stepsOf(event.key);
    if (event.key === "Enter" || /^[0-9]$/.test(event.key)) {
      event.preventDefault();
      this.#rested();
      this.#type(event.key === "Enter" ? "" : event.key);
    }
    if (event.key.toLowerCase() === "s" && !event.ctrlKey && !event.metaKey && !event.altKey) {
      event.preventDefault();
      this.#rested();
      this.#showSnaps(true);
    }
    if (!steps) return;
    event.preventDefault();
    if (this.#steps === 0 || !this.#store.isMoving) {
      this.#steps = 0;
      this.#store.hold();
    }
    this.#steps += steps;
    this.#turn = { path: this.#path, steps: this.#steps };
    this.#store.move(this.#turn, event.timeStamp);
    clearTimeout(this.#rest);
    this.#rest = setTimeout(() => this.#rested(), restBeforeSettling);
  }

  /** Keys have come to rest: what they did is settled. */
  #rested() {
    clearTimeout(this.#rest);
    if (this.#turn && this.#store.isMoving) this.#settle(true);
  }

  #showSnaps(/** @type {boolean} */ goesThere) {
    if (this.#handle?.snaps) this.#store.showSnapsOf(this.#handle.snaps, goesThere);
  }

  #type(begun = "") {
    if (!this.#handle) return;
    const input = made("input");
    input.className = "typed";
    input.value = begun || this.#handle.text;
    input.setAttribute("aria-label", this.#handle.name + ", " + what[this.#kind]);
    input.style.left = this.element.style.left;
    input.style.top = this.element.style.top;
    let isOver = false;
    const end = (/** @type {boolean} */ takes) => {
      if (isOver) return;
      isOver = true;
      const typed = input.value.trim();
      input.remove();
      this.element.focus();
      if (takes && typed && typed !== this.#handle?.text) this.#store.turn({ path: this.#path, typed });
    };
    input.addEventListener("keydown", (event) => {
      if (event.key === "Enter") end(true);
      if (event.key === "Escape") end(false);
      event.stopPropagation();
    });
    input.addEventListener("blur", () => end(false));
    this.element.after(input);
    input.focus();
    if (!begun) input.select();
  }
}

function stepsOf(/** @type {string} */ key) {
  const ways = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 10, PageDown: -10 };
  return Object.hasOwn(ways, key) ? ways[/** @type {keyof typeof ways} */ (key)] : 0;
}
