// Tries by name: kept in the case, side by side, and pictures of them.

import { ask } from "./door.js";
import { button, element, made, table } from "./element.js";

/**
 * @param {import("./store.js").Store} store
 * @param {import("./door.js").CaseAbout} about
 */
export function showTries(store, about) {
  const part = /** @type {HTMLDetailsElement} */ (element("tries-part"));
  const place = element("tries");
  const status = element("kept-status");
  const name = /** @type {HTMLInputElement} */ (element("name"));
  const base = () => ({ ...store.stand, changes: [] });
  /** @type {string} */
  let shownOf = "";

  /** @param {import("./door.js").TryTable} answer */
  const show = (answer) => {
    shownOf = JSON.stringify(base());
    place.replaceChildren(answer.tries.length === 0 ? made("p", "None yet.") : tableOf(answer));
  };
  /** @param {import("./door.js").TryTable} answer */
  const tableOf = (answer) => {
    const rows = answer.tries.map((one) => {
      const cells = one.cells ?? [one.name, one.fault ?? ""];
      const heads = answer.heads ?? [];
      const texts = heads.map((_, place) => document.createTextNode(cells[place] ?? ""));
      const ways = made("span");
      ways.append(
        button("Show", () => store.go({ ...base(), changes: one.changes })),
        " ",
        button("Drop", () => act(() => ask("/tries/drop", { name: one.name, stand: base() }).then(show))),
      );
      return [...texts, ways];
    });
    return table([...(answer.heads ?? []), "ways"], rows, "Tries, each against the stand as it is");
  };
  /** @param {() => Promise<unknown>} work */
  const act = (work) => work().then(() => store.forgetFault(), (error) => store.refuse(error));
  const refresh = () => {
    if (part.open && JSON.stringify(base()) !== shownOf) act(() => ask("/tries", { stand: base() }).then(show));
  };

  part.addEventListener("toggle", refresh);
  store.addEventListener("view", refresh);
  element("keep").addEventListener("submit", (event) => {
    event.preventDefault();
    act(async () => {
      show(await ask("/tries/keep", { name: name.value, stand: store.stand }));
      part.open = true;
      status.textContent = about.keeps_tries
        ? "Kept in the case: " + name.value
        : "Kept until the desk is ended: no case file to keep it in";
    });
  });
  element("publish").addEventListener("click", () =>
    act(async () => {
      if (!name.reportValidity()) return;
      const answer = await ask("/publish", { name: name.value, stand: store.stand });
      status.textContent = "Written beside the case: " + answer.files.join(", ");
    }),
  );
}
