// The snaps behind a number: those that moved it most, and every row it rests on.

import { ask } from "./door.js";
import { element, made, table } from "./element.js";
import { snapsOnFilm } from "./snaps-film.js";

/** @typedef {import("./door.js").Snaps} Snaps */

/** @param {import("./store.js").Store} store */
export function showSnaps(store) {
  const part = element("snaps");
  const place = element("snaps-rows");
  const number = /** @type {HTMLInputElement} */ (element("snaps-number"));
  const onFilm = snapsOnFilm();
  let asked = 0;
  let shownOf = "";

  const show = async () => {
    part.hidden = !store.snapsOf;
    const of = JSON.stringify([store.snapsOf, store.stand]);
    if (part.hidden || store.isMoving || of === shownOf) return;
    const question = ++asked;
    shownOf = of;
    place.setAttribute("aria-busy", "true");
    /** @type {Snaps} */
    const answer = await ask("/snaps", { stand: store.stand, number: store.snapsOf });
    if (question !== asked) return;
    fill(answer);
    place.setAttribute("aria-busy", "false");
  };
  const fill = (/** @type {Snaps} */ answer) => {
    number.value = answer.number;
    element("snaps-numbers").replaceChildren(...answer.numbers.map(choice));
    element("snaps-head").textContent = answer.head;
    /** @type {HTMLElement[]} */
    const parts = [made("p", answer.way), ...onFilm(answer.play)];
    if (answer.up.length > 0) parts.push(table(answer.heads, rows(answer.up), "Moved it up most"));
    if (answer.down.length > 0) parts.push(table(answer.heads, rows(answer.down), "Moved it down most"));
    if (answer.rows.length > 0) parts.push(everyRow(answer));
    place.replaceChildren(...parts);
  };
  const refuse = (/** @type {unknown} */ error) => {
    shownOf = "";
    place.setAttribute("aria-busy", "false");
    store.refuse(error);
  };
  const close = () => {
    onFilm({ films: [], spans: [] });
    store.showSnapsOf("");
    from?.focus();
  };
  /** @type {HTMLElement | null} */
  let from = null;

  store.addEventListener("snaps", () => {
    if (document.activeElement instanceof HTMLElement && !part.contains(document.activeElement))
      from = document.activeElement;
    show().then(() => store.forgetFault(), refuse);
    if (store.snapsOf && store.goesToSnaps) part.focus();
  });
  store.addEventListener("view", () => show().catch(refuse));
  element("snaps-choose").addEventListener("submit", (event) => {
    event.preventDefault();
    store.showSnapsOf(number.value.trim());
  });
  element("snaps-close").addEventListener("click", close);
  part.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    event.stopPropagation();
    close();
  });
  element("why").addEventListener("click", () => store.showSnapsOf("place", true));
}

function choice(/** @type {{number: string, label: string}} */ one) {
  const option = made("option", one.label);
  option.value = one.number;
  return option;
}

function rows(/** @type {string[][]} */ cells) {
  return cells.map((row) => row.map((cell) => document.createTextNode(cell)));
}

function everyRow(/** @type {Snaps} */ answer) {
  const whole = made("details");
  whole.append(made("summary", answer.rows_head), table(answer.heads, rows(answer.rows), answer.rows_head));
  for (const text of [answer.left_out, answer.more]) if (text) whole.append(made("p", text));
  return whole;
}
