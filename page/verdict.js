// The verdict in a sentence, and what could not be done.

import { element } from "./element.js";

/** @param {import("./store.js").Store} store */
export function showVerdict(store) {
  const verdict = element("verdict");
  const fault = element("fault");
  store.addEventListener("view", () => {
    verdict.textContent = store.view?.verdict ?? "";
    document.title = (store.view?.kicker ?? "") + " – callfit desk";
  });
  store.addEventListener("fault", () => {
    fault.textContent = store.fault;
    fault.hidden = !store.fault;
  });
}
