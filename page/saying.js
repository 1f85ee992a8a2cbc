// The paragraph to copy; it follows the picture.

import { element } from "./element.js";

/**
 * @param {import("./store.js").Store} store
 * @param {(text: string) => Node[]} words
 */
export function showSaying(store, words) {
  const paragraph = element("paragraph");
  const copied = element("copied");
  let shown = "";
  store.addEventListener("view", () => {
    const text = store.view?.paragraph ?? "";
    if (text === shown) return;
    shown = text;
    paragraph.replaceChildren(...words(text));
    copied.textContent = "";
  });
  element("copy").addEventListener("click", async () => {
    try {
      await navigator.clipboard.writeText(store.view?.paragraph ?? "");
      copied.textContent = "Copied";
    } catch {
      getSelection()?.selectAllChildren(paragraph);
      copied.textContent = "Selected: copy it with the keyboard";
    }
  });
}
