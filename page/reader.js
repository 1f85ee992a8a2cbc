// A page that a reader plays with: handles ask the engine, what it says replaces what is shown. No number
// is worked out or written here.

import { element } from "./element.js";
import { Engine, EngineFault, unpackedEngine } from "./engine.js";

/** @typedef {{text: string, began: string, at: number, is_turned: boolean}} ShownHandle */
/**
 * @typedef {object} Shown what the engine says of a stand
 * @property {string} headline
 * @property {{value: string, strip: [number, number, number]}[]} rows
 * @property {string} effect
 * @property {ShownHandle[]} handles
 * @property {string} try
 */

const restBeforeSettling = 250;

/**
 * Moves what is the reader's on a strip.
 * @param {Element | null} strip
 * @param {[number, number, number]} places
 */
function draw(strip, [low, centre, high]) {
  const line = strip?.querySelector("line.yours");
  line?.setAttribute("x1", String(low));
  line?.setAttribute("x2", String(high));
  strip?.querySelector("circle.yours")?.setAttribute("cx", String(centre));
}

class Page {
  #quick;
  #sure;
  /** @type {{handle: number, at: number}[]} */
  #put = [];
  #turns = 0;
  #rest = 0;
  #isAsked = false;
  #handles = [...document.querySelectorAll("#handles .handle")].map((place) => ({
    input: /** @type {HTMLInputElement} */ (place.querySelector("input")),
    output: /** @type {HTMLOutputElement} */ (place.querySelector("output")),
  }));

  /**
   * @param {Engine} quick
   * @param {Engine} sure
   */
  constructor(quick, sure) {
    this.#quick = quick;
    this.#sure = sure;
    this.#handles.forEach(({ input }, place) => {
      input.addEventListener("input", () => this.#turn(place + 1, Number(input.value)));
    });
    element("back").addEventListener("click", () => this.#go([]));
    element("link").addEventListener("click", () => this.#copyLink());
    addEventListener("hashchange", () => this.#takeTry());
  }

  /** The analyst's view, or the try that the address ends in. */
  async open() {
    element("turning").hidden = false;
    if (location.hash.length > 1) await this.#takeTry();
    // The first turn finds the answers of the analyst's view ready.
    await Promise.all([this.#quick, this.#sure].map((engine) => engine.show({ put: [] })));
    document.dispatchEvent(new CustomEvent("warm"));
  }

  /**
   * @param {number} handle
   * @param {number} at
   */
  #turn(handle, at) {
    this.#go([...this.#put.filter((one) => one.handle !== handle), { handle, at }]);
  }

  /** @param {{handle: number, at: number}[]} put */
  #go(put) {
    this.#put = [...put].sort((one, other) => one.handle - other.handle);
    this.#turns += 1;
    this.#fault("");
    this.#follow();
    clearTimeout(this.#rest);
    this.#rest = setTimeout(() => this.#settle(), restBeforeSettling);
  }

  /** One quick question at a time; when its answer is there, the newest one follows. */
  async #follow() {
    element("answer").setAttribute("aria-busy", "true");
    if (this.#isAsked) return;
    this.#isAsked = true;
    try {
      let turn;
      do {
        turn = this.#turns;
        const shown = await this.#quick.show({ put: this.#put });
        if (element("answer").getAttribute("aria-busy") === "true") this.#show(shown);
      } while (turn !== this.#turns);
    } catch (error) {
      this.#refuse(error);
    } finally {
      this.#isAsked = false;
    }
  }

  async #settle() {
    const turn = this.#turns;
    try {
      const shown = await this.#sure.show({ put: this.#put });
      if (turn !== this.#turns) return;
      element("answer").setAttribute("aria-busy", "false");
      this.#show(shown);
      const start = location.pathname + location.search;
      history.replaceState(null, "", shown.try ? "#" + encodeURI(shown.try) : start);
      document.dispatchEvent(new CustomEvent("settled"));
    } catch (error) {
      this.#refuse(error);
    }
  }

  /** @param {Shown} shown */
  #show(shown) {
    element("verdict").textContent = shown.headline;
    element("effect").textContent = shown.effect;
    shown.handles.forEach((handle, place) => {
      const { input, output } = this.#handles[place];
      const own = this.#put.find((one) => one.handle === place + 1);
      input.value = String(own ? own.at : handle.at);
      input.setAttribute("aria-valuetext", handle.text);
      output.textContent = handle.text;
      input.closest(".handle")?.classList.toggle("turned", Boolean(own));
    });
    const isTurned = this.#put.length > 0;
    document.body.classList.toggle("turned", isTurned);
    for (const id of ["back", "link"]) /** @type {HTMLButtonElement} */ (element(id)).disabled = !isTurned;
    element("link-status").textContent = "";
    document.querySelectorAll("#rows td.yours").forEach((cell, place) => {
      cell.textContent = isTurned ? (shown.rows[place]?.value ?? "") : "";
    });
    document.querySelectorAll("#rows .strip").forEach((strip, place) => draw(strip, shown.rows[place].strip));
    draw(document.querySelector("#place .strip"), shown.rows[0].strip);
  }

  async #takeTry() {
    let text = location.hash.slice(1);
    try {
      text = decodeURI(text);
    } catch {
      // what is no address is no try either: the engine says so
    }
    try {
      const shown = await this.#quick.show({ try: text });
      const put = shown.handles.flatMap((/** @type {ShownHandle} */ handle, /** @type {number} */ place) =>
        handle.is_turned ? [{ handle: place + 1, at: handle.at }] : [],
      );
      this.#go(put);
    } catch (error) {
      this.#refuse(error);
    }
  }

  async #copyLink() {
    const status = element("link-status");
    try {
      await navigator.clipboard.writeText(location.href);
      status.textContent = "Copied";
    } catch {
      status.textContent = "The address of this page holds your try: copy it from there.";
    }
  }

  /** @param {unknown} error */
  #refuse(error) {
    if (!(error instanceof EngineFault)) throw error;
    this.#fault("That cannot be shown: " + error.message);
  }

  /** @param {string} text */
  #fault(text) {
    element("fault").textContent = text;
    element("fault").hidden = !text;
  }
}

try {
  const files = unpackedEngine();
  const quick = new Engine(files, true);
  await quick.opened; // alone, so that handles are there the sooner
  await new Page(quick, new Engine(files, false)).open();
} catch (error) {
  // The article stands without the engine.
  element("turning").hidden = true;
  console.warn("nothing can be turned here:", error);
}
