// Two or three things worth trying, ready to press.

import { ask } from "./door.js";
import { button, element, made } from "./element.js";

/** @param {import("./store.js").Store} store */
export async function showTrying(store) {
  const list = element("trying");
  let shownOf = "";
  const show = async () => {
    const { quarterback, scheme } = store.stand;
    const of = JSON.stringify([quarterback, scheme]);
    if (of === shownOf) return;
    shownOf = of;
    list.setAttribute("aria-busy", "true");
    list.replaceChildren(made("li", "Working it out"));
    /** @type {{levers: import("./door.js").Lever[]}} */
    const answer = await ask("/levers", { stand: { quarterback, scheme, changes: [] } });
    list.replaceChildren(...answer.levers.map((lever) => item(store, lever)));
    list.setAttribute("aria-busy", "false");
  };
  store.addEventListener("view", () => show().catch((error) => store.refuse(error)));
  await show();
}

/**
 * @param {import("./store.js").Store} store
 * @param {import("./door.js").Lever} lever
 */
function item(store, lever) {
  const one = made("li");
  const press = button(lever.words, () => store.lay(lever.changes));
  press.append(made("small", lever.gain));
  one.append(press);
  return one;
}
