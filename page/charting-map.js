// Which key does what, to read and to print.

import { ask } from "./door.js";
import { element, made, table } from "./element.js";

/** @typedef {{commands: {key: string, words: string, is_film: boolean}[], columns: {words: string, kind: string, choices: import("./charting.js").Choice[]}[], file: string}} KeyMap */

/** Shows the map; gives the keys that are commands. */
export async function showKeyMap() {
  /** @type {KeyMap} */
  const map = await ask("/charting/map");
  const text = (/** @type {string} */ words) => document.createTextNode(words);
  const key = (/** @type {string} */ words) => made("kbd", words);
  const tables = [
    table(["key", "does"], map.commands.filter((one) => !one.is_film).map((one) => [key(one.key), text(one.words)]), "The chart"),
    table(["key", "does"], map.commands.filter((one) => one.is_film).map((one) => [key(one.key), text(one.words)]), "The film"),
    ...map.columns
      .filter((one) => one.choices.length > 0)
      .map((one) => table(["key", "is"], one.choices.map((choice) => [key(choice.key), text(choice.words)]), one.words)),
  ];
  element("map").replaceChildren(...tables);
  element("map-file").textContent = "Another map goes into " + map.file + " beside the chart.";
  element("map-print").addEventListener("click", () => window.print());
  return map.commands.map((one) => one.key);
}
