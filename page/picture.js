// The program's own picture, as it drew it, with handles over the marks that can be turned.

import { Drawing } from "./drawing.js";
import { element } from "./element.js";
import { Handles } from "./handles.js";

/** @param {import("./store.js").Store} store */
export async function showPicture(store) {
  const place = element("picture");
  const drawing = new Drawing(place);
  const handles = new Handles(store, place);
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const frame = () => (place.clientWidth >= 800 ? "wide" : place.clientWidth >= 560 ? "tall" : "story");
  const look = () => store.lookLike({ frame: frame(), theme: dark.matches ? "dark" : "light" });
  store.addEventListener("view", () => {
    const view = store.view;
    if (!view) return;
    const shown = drawing.show(view.svg);
    place.setAttribute("aria-busy", "false");
    handles.lay(view, shown);
  });
  dark.addEventListener("change", look);
  new ResizeObserver(() => {
    if (!store.isMoving && store.view) look().then(() => handles.again());
  }).observe(place);
  await look();
}
