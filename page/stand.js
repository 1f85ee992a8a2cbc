// Whose game, in which scheme: the question as a sentence with two words to choose.

import { element, made } from "./element.js";

/**
 * @param {import("./store.js").Store} store
 * @param {import("./door.js").CaseAbout} about
 */
export function showStand(store, about) {
  element("case-name").textContent = about.name;
  element("cautions").textContent = about.cautions;
  const quarterback = /** @type {HTMLSelectElement} */ (element("quarterback"));
  const scheme = /** @type {HTMLSelectElement} */ (element("scheme"));
  fill(quarterback, about.quarterbacks);
  fill(scheme, about.schemes);
  const choose = () =>
    store.go({ quarterback: quarterback.selectedIndex + 1, scheme: scheme.selectedIndex + 1, changes: [] });
  quarterback.addEventListener("change", choose);
  scheme.addEventListener("change", choose);
  store.addEventListener("view", () => {
    quarterback.selectedIndex = store.stand.quarterback - 1;
    scheme.selectedIndex = store.stand.scheme - 1;
  });
  element("stand").addEventListener("submit", (event) => event.preventDefault());
}

function fill(/** @type {HTMLSelectElement} */ select, /** @type {string[]} */ names) {
  select.replaceChildren(...names.map((name) => made("option", name)));
}
