// Everything that can be turned on the picture as a table of values to type: what the picture's handles
// do, for the keyboard alone, and for demands that the picture has no room for.

import { button, element, made, table } from "./element.js";

/** @typedef {import("./door.js").Handle} Handle */

/** @param {import("./store.js").Store} store */
export function showAll(store) {
  const part = /** @type {HTMLDetailsElement} */ (element("all-part"));
  const place = element("all");
  const show = () => {
    if (!part.open || !store.view || store.isMoving) return;
    const focus = document.activeElement instanceof HTMLElement ? document.activeElement.dataset.path : undefined;
    place.replaceChildren(whole(store));
    if (focus) field(place, focus)?.focus();
  };
  part.addEventListener("toggle", show);
  store.addEventListener("view", show);
}

/** @returns {HTMLInputElement | null} */
function field(/** @type {HTMLElement} */ place, /** @type {string} */ path) {
  return place.querySelector('input[data-path="' + CSS.escape(path) + '"]');
}

function whole(/** @type {import("./store.js").Store} */ store) {
  const rows = [];
  for (const family of store.view?.families ?? []) {
    rows.push([made("strong", family.label), typed(store, family.calls, "of calls"), empty(), empty()]);
    for (const demand of family.demands)
      rows.push([
        document.createTextNode(demand.label),
        typed(store, demand.does, "what he does"),
        typed(store, demand.asked, "what is asked"),
        document.createTextNode(demand.verdict),
      ]);
  }
  return table(["family and demand", "he, or calls", "asked", "verdict"], rows, "Values to type");
}

function empty() {
  return document.createTextNode("");
}

/**
 * @param {import("./store.js").Store} store
 * @param {Handle | null} handle
 * @param {string} what
 */
function typed(store, handle, what) {
  if (!handle) return empty();
  const cell = made("span");
  const input = made("input");
  input.value = handle.text;
  input.size = 7;
  input.dataset.path = handle.path;
  input.setAttribute("aria-label", handle.name + ", " + what);
  input.addEventListener("change", () => store.turn({ path: handle.path, typed: input.value.trim() }));
  input.addEventListener("keydown", (event) => {
    const steps = event.key === "ArrowUp" ? 1 : event.key === "ArrowDown" ? -1 : 0;
    if (event.key === "Escape") input.value = handle.text;
    if (!steps) return;
    event.preventDefault();
    store.turn({ path: handle.path, steps });
  });
  cell.append(input);
  const { snaps } = handle;
  if (snaps) {
    const press = button("snaps", () => store.showSnapsOf(snaps, true));
    press.setAttribute("aria-label", "The snaps behind " + handle.name + ", " + what);
    cell.append(" ", press);
  }
  if (handle.is_turned) cell.append(made("small", " began at " + handle.began));
  return cell;
}
