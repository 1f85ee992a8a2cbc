// The snaps behind a number on their film, one after the other.

import { filmToken } from "./door.js";
import { button, element } from "./element.js";

/** Prepares the player; what it gives takes the snaps of another number, and offers them where there are some. */
export function snapsOnFilm() {
  const part = element("snaps-film");
  const film = /** @type {HTMLVideoElement} */ (element("snaps-video"));
  const told = element("snaps-playing");
  /** @type {import("./door.js").Snaps["play"]} */
  let play = { films: [], spans: [] };
  let at = 0;
  let loaded = "";

  const show = (/** @type {number} */ place) => {
    at = Math.max(0, Math.min(place, play.spans.length - 1));
    const span = play.spans[at];
    const { target } = play.films[span.film - 1];
    part.hidden = false;
    told.textContent = span.words;
    const begin = () => {
      film.currentTime = span.start;
      film.play().catch(() => {}); // the browser may want a press first: the film has its own button
    };
    if (loaded === target) return begin();
    loaded = target;
    film.src = target + filmToken();
    film.addEventListener("loadedmetadata", begin, { once: true });
  };
  film.addEventListener("timeupdate", () => {
    const span = play.spans[at];
    if (!span || film.paused || film.seeking || film.currentTime < span.end) return;
    if (at + 1 < play.spans.length) show(at + 1);
    else film.pause();
  });
  film.addEventListener("error", () => (told.textContent = play.films[play.spans[at].film - 1].fault));
  element("snaps-before").addEventListener("click", () => show(at - 1));
  element("snaps-next").addEventListener("click", () => show(at + 1));

  return (/** @type {import("./door.js").Snaps["play"]} */ next) => {
    play = next;
    film.pause();
    part.hidden = true;
    return play.spans.length > 0 ? [button("Play them in turn", () => show(0))] : [];
  };
}
