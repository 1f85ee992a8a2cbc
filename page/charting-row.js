// The open row: what is asked, which keys answer, what it holds and on what that stands.

import { element, made } from "./element.js";

/** @param {import("./charting.js").Charting} room */
export function showOpenRow(room) {
  const head = element("row-head");
  const asked = element("asked");
  const fault = element("charting-fault");
  const told = element("row-told");
  const look = element("charting-look");
  const show = () => {
    const { state } = room;
    head.textContent = state.open?.words ?? "No row is open";
    asked.replaceChildren(...askedParts(state.asked, state.asks_nothing));
    element("choices").replaceChildren(...(state.asked?.choices ?? []).map(choice));
    element("cells").replaceChildren(...(state.open?.cells ?? []).map(cell));
    element("odd").replaceChildren(...state.odd.map((words) => made("li", words)));
    fault.textContent = state.fault;
    fault.hidden = !state.fault;
    told.textContent = [state.told, state.count].filter(Boolean).join("; ");
    look.textContent = state.only_looked_at;
    look.hidden = !state.only_looked_at;
    element("add-columns").hidden = !state.lacks_film_columns;
  };
  room.addEventListener("state", show);
  show();
}

/**
 * @param {import("./charting.js").Asked | null} asked
 * @param {string} asksNothing what is said then
 */
function askedParts(asked, asksNothing) {
  if (!asked) return [made("span", asksNothing)];
  const typing = made("output", asked.typing);
  typing.className = "typing";
  return [made("span", asked.words), typing, made("small", asked.offer), made("em", asked.then)];
}

function choice(/** @type {import("./charting.js").Choice} */ one) {
  const item = made("li");
  item.append(made("kbd", one.key), " ", made("span", one.words));
  return item;
}

function cell(/** @type {import("./charting.js").Cell} */ one) {
  const whole = made("div");
  whole.className = "is-" + one.standing + (one.is_asked ? " is-asked" : "");
  if (one.is_asked) whole.setAttribute("aria-current", "true");
  const value = made("dd", one.value || "–");
  if (one.standing === "follows") value.append(made("small", " follows"));
  whole.append(made("dt", one.words), value);
  return whole;
}
