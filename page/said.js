// Kept answers: what was said on a day, and what came of it.

import { ask } from "./door.js";
import { element, made } from "./element.js";

/** @param {import("./store.js").Store} store */
export function showSaid(store) {
  const part = /** @type {HTMLDetailsElement} */ (element("said-part"));
  const place = element("said");
  const show = async () => {
    /** @type {{kept: import("./door.js").Kept[]}} */
    const answer = await ask("/kept");
    place.replaceChildren(...(answer.kept.length > 0 ? answer.kept.map(entry) : [made("p", none)]));
  };
  part.addEventListener("toggle", () => {
    if (part.open) show().catch((error) => store.refuse(error));
  });
}

const none = "Nothing is kept beside the case. The command line keeps an answer with --keep.";

function entry(/** @type {import("./door.js").Kept} */ kept) {
  const whole = made("section");
  whole.append(made("h3", kept.date + ", " + kept.about));
  const list = made("ul");
  for (const verdict of kept.verdicts) {
    const one = made("li", verdict.said);
    if (verdict.came) one.append(made("small", " " + verdict.came));
    list.append(one);
  }
  whole.append(made("p", kept.since), list);
  return whole;
}
