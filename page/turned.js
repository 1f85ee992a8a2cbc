// What is turned against where it began, what that does, and the ways back.

import { button, element, made } from "./element.js";

/**
 * @param {import("./store.js").Store} store
 * @param {(text: string) => Node[]} words
 */
export function showTurned(store, words) {
  const part = element("turned");
  store.addEventListener("view", () => {
    const view = store.view;
    part.hidden = !view || view.stand.changes.length === 0;
    if (!view || part.hidden) return;
    const list = made("ul");
    for (const one of view.turned) list.append(made("li", one.words));
    const effect = made("p");
    effect.append(...words([view.effect, view.place].filter(Boolean).join(" ")));
    const ways = made("p");
    ways.append(
      button("Take the last one back", () => store.takeBack()),
      " ",
      button("Back to the start", () => store.go({ ...store.stand, changes: [] })),
    );
    part.replaceChildren(list, effect, ways);
  });
  document.addEventListener("keydown", (event) => {
    const isUndo = (event.ctrlKey || event.metaKey) && event.key === "z";
    const isTyping = event.target instanceof HTMLInputElement;
    if ((event.key === "Escape" || isUndo) && !isTyping && element("meaning").hidden) {
      event.preventDefault();
      store.takeBack();
    }
  });
}
